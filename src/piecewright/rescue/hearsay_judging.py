"""How a figure stands against the true one, and what that makes of a whole rule.

Terms:
- *standing*: of one figure: short, right, a little over to be eased in, and so on;
- *verdict*: of a rule over all sizes looked at.
"""

from __future__ import annotations

from collections.abc import Collection
from typing import Literal

from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.rescue.subject import Reading, Subject
from piecewright.workroom.workroom import Workroom

Standing = Literal["short", "right", "ease", "sliver", "trim", "generous", "too large", "enough"]
Verdict = Literal[
    "right",
    "right, then trim",
    "over, but too little to trim",
    "generous",
    "too large",
    "short below",
    "short above",
    "short between",
    "short at some sizes",
    "short always",
]
SHORT: tuple[Verdict, ...] = (
    "short below",
    "short above",
    "short between",
    "short at some sizes",
    "short always",
)
Outcome = Literal["right", "short", "too large"]


def standing_of(
    off: float, subject: Subject, reading: Reading, room: Workroom, trimmed: bool | None
) -> Standing:
    """How a figure stands that is `off` from the true one (inches at the unit, or a count; below 0: short).

    What is cut may be over by the ease; more is trimmed, where enough is over to trim it well and it is not
    said that nothing is trimmed. A unit that is over by more than two seams is generous.
    """
    if subject.is_count:
        return "short" if off < 0 else "enough"
    ease, trim = float(room.ease), float(room.trim)
    generous = 2 * float(room.take_up)
    if subject.sense == "measure":
        return "right" if abs(off) <= ease + EDGE_MATCH else ("short" if off < 0 else "too large")
    if off < -EDGE_MATCH:
        return "short"
    if subject.sense == "promise":
        return "enough"
    if off <= EDGE_MATCH:
        return "right"
    if subject.sense == "least":
        return "generous" if off > generous + EDGE_MATCH else "enough"
    if off <= ease + EDGE_MATCH:
        return "ease"
    if trimmed is False or (reading.exact and not (trimmed and reading.may_trim)):
        return "too large"
    if off < trim - EDGE_MATCH:
        return "sliver"
    return "generous" if off > generous + EDGE_MATCH else "trim"


def verdict_on(standings: Collection[Standing]) -> Verdict:
    """What the standings at all sizes come to, none of them short."""
    if "too large" in standings:
        return "too large"
    if set(standings) == {"generous"}:
        return "generous"
    if "enough" in standings or set(standings) <= {"right", "ease"}:
        return "right"
    if "trim" in standings or "generous" in standings:
        return "right, then trim"
    return "over, but too little to trim"


def outcome_of(verdict: Verdict) -> Outcome:
    """Whether a verdict lets one go on, and if not, why."""
    if verdict in SHORT:
        return "short"
    return "too large" if verdict == "too large" else "right"
