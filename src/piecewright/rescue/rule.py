"""A rule of thumb or printed sizes as someone types them: `unfinished / 0.64`, `4 -> 2 1/2, 10 -> 7`.

Terms:
- *rule*: sums, one for each thing to cut; or printed pairs; with how it is rounded and whether one trims;
- *printed pair*: a size and what a page makes of it, `14 -> 21`; each side one figure or several (`3 x 4`);
- *rounded*: a rule may end in `nearest 1/8` or `rounded up to 1/8`.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, floor
from typing import Literal

from piecewright.measure.length import Unit, inches, mm
from piecewright.measure.number import shortened
from piecewright.measure.reading import read_length
from piecewright.problems import Problem, Refused
from piecewright.rescue.rule_reader import MOST_SIGNS, read_sum
from piecewright.rescue.rule_sum import RuleSum

IMPLIED = "size"
"""What a rule such as `+ 7/8` is added to."""

MOST_PAIRS = 40

HowRounded = Literal["nearest", "up", "down"]
Side = tuple[Fraction, ...]

_METRIC = re.compile(r"(?<![A-Za-z])[cm]m\b", re.IGNORECASE)
_TRIM = re.compile(r"[,;]?\s*(?:(?:and|then)\s+)*(?:trim|trimmed|true up|trued up)(?:\s+[a-z ]*)?\s*$", re.I)
_NUMBER = r"(?:\d+\s+\d+/\d+|\d+/\d+|\d*\.\d+|\d+|[½¼¾⅛⅜⅝⅞])"
_ROUNDED = re.compile(
    rf"""[,;]?\s*(?:\(?\s*rounded\s+)?(?:(?P<how>up|down)\s+)?(?:to\s+)?(?:the\s+)?
    (?P<near>nearest|next)?\s*["']?\s*(?P<step>{_NUMBER})\s*(?P<unit>in|inch|cm|mm|")?\s*\)?\s*$""",
    re.I | re.X,
)
_IN_CLOTH = re.compile(r"\s+in\s+(?P<unit>yards|metres|meters)\s*$", re.I)
_ARROW = re.compile(r"->|→|=>|⇒")
_BESIDE = re.compile(r"\s*[xX×&]\s*|\s+and\s+")
_NEXT = re.compile(r"\s*[,;&]\s*|\s+and\s+(?=\S)")


@dataclass(frozen=True)
class Rounded:
    """How a rule rounds what comes out: to a multiple of `step`, in the rule's unit."""

    how: HowRounded
    step: Fraction

    def of(self, figure: Fraction) -> Fraction:
        """The figure rounded; half a step goes up."""
        steps = figure / self.step
        if self.how == "nearest":
            return floor(steps + Fraction(1, 2)) * self.step
        return (ceil(steps) if self.how == "up" else floor(steps)) * self.step


@dataclass(frozen=True)
class PrintedPair:
    """What stands on the two sides of an arrow, in the rule's unit."""

    left: Side
    right: Side


@dataclass(frozen=True)
class Rule:
    """A rule as read: `sums` or `pairs`, figures in `unit`; `trims` where it says that one trims after."""

    text: str
    unit: Unit
    sums: tuple[RuleSum, ...] = ()
    pairs: tuple[PrintedPair, ...] = ()
    rounded: Rounded | None = None
    trims: bool = False
    times: Fraction = Fraction(1)

    @property
    def inch(self) -> Fraction:
        """An inch in the rule's unit."""
        return inch_in(self.unit)

    @property
    def names(self) -> frozenset[str]:
        """The names that its sums use."""
        return frozenset[str]().union(*(one.names() for one in self.sums))

    def figure(self, part: int, values: Mapping[str, Fraction]) -> Fraction:
        """What a sum comes to, in the rule's unit, as are the values; rounded as the rule rounds."""
        figure = self.sums[part].figure(values, self.inch) * self.times
        return self.rounded.of(figure) if self.rounded else figure


def inch_in(unit: Unit) -> Fraction:
    """An inch in a unit: 1, or 127/50 of a centimetre."""
    return Fraction(1) if unit == "in" else Fraction(inches(1).in_mm / mm(10).in_mm)


def is_metric_rule(text: str) -> bool:
    """Whether a rule names centimetres or millimetres."""
    return _METRIC.search(text) is not None


def read_rule(text: str, names: Collection[str], unit: Unit, told: Collection[str] = ()) -> Rule:
    """The rule that a text says, in sums of the known `names`; bare numbers count in `unit`.

    Raises Refused for what cannot be read, with its place; of the names, `told` are named then.

    >>> rule = read_rule("unfinished / 0.64, rounded up to 1/8", ["unfinished"], "in")
    >>> rule.figure(0, {"unfinished": Fraction(5, 2)})
    Fraction(4, 1)
    >>> read_rule("4 -> 2 1/2", [], "in").pairs
    (PrintedPair(left=(Fraction(4, 1),), right=(Fraction(5, 2),)),)
    """
    if len(text) > MOST_SIGNS * 4:
        what = f"expected a rule of at most {MOST_SIGNS * 4} signs, got {len(text):,}."
        raise Refused(Problem(what, "rule", "Write only the sum, or the printed pairs."))
    if _ARROW.search(text):
        return Rule(text, unit, pairs=_pairs(text, unit))
    rest, rule = text, Rule(text, unit)
    if found := _TRIM.search(rest):
        rest, rule = rest[: found.start()], replace(rule, trims=True)
    if (found := _ROUNDED.search(rest)) and (found["how"] or found["near"] or "round" in found[0].lower()):
        rest, rule = rest[: found.start()], replace(rule, rounded=_rounded(found, unit))
    if found := _IN_CLOTH.search(rest):
        yard = inches(36).exact * inch_in(unit) if found["unit"].lower() == "yards" else None
        rest, rule = rest[: found.start()], replace(rule, times=yard or mm(1000).exact * inch_in(unit))
    sums, start = [], 0
    for cut in [*(found.span() for found in _NEXT.finditer(rest)), (len(rest), len(rest))]:
        sums.append(_sum(rest[start : cut[0]], names, start, told))
        start = cut[1]
    return replace(rule, sums=tuple(sums))


def _sum(text: str, names: Collection[str], offset: int, told: Collection[str]) -> RuleSum:
    """One sum; `+ 7/8` alone is added to the size."""
    if text.lstrip().startswith("+") and IMPLIED in names:
        read = read_sum(text, names, offset, told)
        return RuleSum("+", offset, (RuleSum("name", offset, word=IMPLIED), read))
    return read_sum(text, names, offset, told)


def _rounded(found: re.Match[str], unit: Unit) -> Rounded:
    where = f"rule, sign {found.start() + 1}"
    try:
        step = read_length(f"{found['step']} {found['unit'] or ''}".strip(), unit).exact * inch_in(unit)
    except ValueError as error:
        raise Refused(Problem(f"{error}.", where)) from error
    if step <= 0:
        raise Refused(Problem("expected a step above 0 to round to, got 0.", where))
    how: HowRounded = "nearest"
    if found["how"] or (found["near"] or "").lower() == "next":
        how = "down" if (found["how"] or "").lower() == "down" else "up"
    return Rounded(how, step)


def _pairs(text: str, unit: Unit) -> tuple[PrintedPair, ...]:
    parts = [part for part in re.split(r"[,;]", text) if part.strip()]
    if len(parts) > MOST_PAIRS:
        raise Refused(Problem(f"expected at most {MOST_PAIRS} pairs, got {len(parts)}.", "rule"))
    pairs = []
    for part in parts:
        sides = _ARROW.split(part)
        if len(sides) != 2:
            what = f"expected pairs such as 4 -> 2 1/2 with commas between, got {shortened(part.strip())}."
            raise Refused(Problem(what, f"rule, sign {text.index(part) + 1}"))
        left, right = (_side(side, unit) for side in sides)
        pairs.append(PrintedPair(left, right))
    return tuple(pairs)


def _side(text: str, unit: Unit) -> Side:
    """The figures on one side of an arrow; a unit behind the last counts for all."""
    figures = _BESIDE.split(text.strip())
    own = re.search(r'(?:in|inch|inches|cm|mm|yd|m|")$', figures[-1])
    try:
        lengths = [read_length(f if f[-1:].isalpha() or not own else f"{f} {own[0]}", unit) for f in figures]
    except ValueError as error:
        raise Refused(Problem(f"{error}.", "rule")) from error
    if not all(length.exact > 0 for length in lengths):
        raise Refused(Problem(f"expected sizes above 0, got {shortened(text.strip())}.", "rule"))
    return tuple(length.exact * inch_in(unit) for length in lengths)
