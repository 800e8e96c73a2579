"""Hearsay: a rule of thumb or a printed size, put to the test.

Terms:
- *hearing*: a rule with every reading of it that was not excluded, and what comes of each;
- *finding*: one reading at one meaning, with its verdict and a row for each example;
- *example*: what a rule gives for one case, what is truly needed, and by how much it is off.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, floor

from piecewright.measure.length import Length
from piecewright.measure.rounding import round_up
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.problems import Refused
from piecewright.rescue.even_line import EvenLine, line_of
from piecewright.rescue.hearsay_asking import asked_of
from piecewright.rescue.hearsay_cases import Asked
from piecewright.rescue.hearsay_judging import (
    Outcome,
    Standing,
    Verdict,
    outcome_of,
    standing_of,
    verdict_on,
)
from piecewright.rescue.hearsay_scan import ShortWhere, short_where
from piecewright.rescue.rule import Rule
from piecewright.rescue.subject import Case, Meaning, Reading, Subject
from piecewright.workroom.workroom import Workroom


@dataclass(frozen=True)
class Example:
    """One case: `given` by the rule and `needed` in truth (inches, or counts); `off` below zero is short.

    `sizes` are the case's own, as finished or unfinished as the rule means them. `made` is the unit that
    truly comes of what the rule gives, `made_off` by how much it is off. `cut` is what is needed on the next
    mark of the ruler.
    """

    case: Case
    sizes: Case
    given: float
    needed: float
    off: float
    made: float | None
    made_off: float
    standing: Standing
    cut: Length | None


@dataclass(frozen=True)
class Finding:
    """What comes of one reading of a rule, sizes meant in one way (`meaning` None: it makes no difference).

    `crossings` are the sizes (as meant, inches) where it begins or ends to be short; `short` how many of
    `looked` sizes are. `rule_line` and `true_line` are both figures as they grow with the size (as meant),
    None where they do not grow evenly.
    """

    reading: Reading
    meaning: Meaning | None
    verdict: Verdict
    examples: tuple[Example, ...]
    crossings: tuple[float, ...] = ()
    short: int = 0
    looked: int = 0
    first_short: float | None = None
    rule_line: EvenLine | None = None
    true_line: EvenLine | None = None

    @property
    def worst(self) -> Example:
        """The example that is most off: the shortest, or else the one most over."""
        shortest = min(self.examples, key=lambda one: one.made_off)
        return shortest if shortest.off < 0 else max(self.examples, key=lambda one: one.made_off)

    @property
    def outcome(self) -> Outcome:
        """Whether one can go on with it."""
        return outcome_of(self.verdict)


@dataclass(frozen=True)
class Hearing:
    """A rule put to the test: a finding for every reading; `trimmed` as it was said, None if it was not."""

    subject: Subject
    rule: Rule
    findings: tuple[Finding, ...]
    trimmed: bool | None

    @property
    def groups(self) -> tuple[tuple[Finding, ...], ...]:
        """Findings that belong together: the pieces of one way, where the rule is for all of them."""
        together = self.subject.together or len(self.rule.sums) > 1
        groups: dict[tuple[str, ...], list[Finding]] = {}
        for one in self.findings:
            part = "" if together else one.reading.part
            groups.setdefault((one.reading.way, part, str(one.meaning)), []).append(one)
        return tuple(map(tuple, groups.values()))

    @property
    def is_question(self) -> bool:
        """Whether the readings come to different ends, so that one must say which is meant."""
        return len({group_outcome(group) for group in self.groups}) > 1


def group_outcome(group: tuple[Finding, ...]) -> Outcome:
    """The worst of findings that belong together."""
    outcomes = {one.outcome for one in group}
    return "short" if "short" in outcomes else ("too large" if "too large" in outcomes else "right")


def hear(
    subject: Subject,
    text: str,
    workroom: Workroom,
    *,
    way: str | None = None,
    means: Meaning | None = None,
    trimmed: bool | None = None,
    sizes: str | None = None,
) -> Hearing:
    """Puts a rule about a subject to the test, in the unit of the workroom.

    `way`, `means` (what a bare size is) and `trimmed` (whether units are trued up after) narrow down what the
    rule may mean; `sizes` are cases to show, such as `2, 2 1/2` or `60 x 72`. Raises Refused for words that
    cannot be read, or that contradict each other.

    >>> from piecewright.rescue.subjects import subject_named
    >>> heard = hear(subject_named("hst"), "unfinished / 0.64", Workroom(), way="four at a time")
    >>> heard.findings[0].verdict, round(heard.findings[0].crossings[0], 3)
    ('short below', 3.372)
    """
    asked = asked_of(subject, text, workroom, way, means, trimmed, sizes)
    findings: list[Finding] = []
    impossible: list[Refused] = []
    for one in asked:
        # 4 x 2 is no goose when it is meant as an unfinished size: that reading is not what was meant.
        try:
            findings.append(_found(one, workroom))
        except Refused as refused:
            impossible.append(refused)
    if not findings:
        raise impossible[0]
    return Hearing(subject, asked[0].rule, tuple(findings), asked[0].trimmed)


def _found(asked: Asked, room: Workroom) -> Finding:
    subject, reading = asked.subject, asked.reading
    examples = tuple(_example(asked, case, given, room) for case, given in asked.cases(room))
    standings = [one.standing for one in examples]
    where = ShortWhere(None)
    finding = Finding(reading, asked.shown_meaning, "right", examples)
    if asked.rule.sums and subject.span:
        scan = _Scan(asked, room)
        where = scan.where()
        standings += [scan.standing(size) for size in scan.ends]
        finding = replace(finding, rule_line=scan.rule_line, true_line=scan.true_line, looked=len(scan.sizes))
    if where.verdict:
        seams = scan.shift
        return replace(
            finding,
            verdict=where.verdict,
            crossings=tuple(size + seams for size in where.crossings),
            short=len(where.short),
            first_short=where.short[0] + seams,
        )
    short = [one for one in examples if one.standing == "short"]
    if short:
        verdict: Verdict = "short always" if len(short) == len(examples) else "short at some sizes"
        return replace(finding, verdict=verdict, short=len(short), looked=len(examples))
    return replace(finding, verdict=verdict_on([s for s in standings if s != "short"]))


def _example(asked: Asked, case: Case, given: Fraction, room: Workroom) -> Example:
    subject, reading = asked.subject, asked.reading
    needed = reading.needed(case, room)
    got = float(given)
    if subject.is_count:
        got = float(ceil(given) if subject.sense == "least" else floor(given))
    off = needed - got if subject.sense == "promise" else got - needed
    reaches = reading.reaches(room) if reading.reaches else 1.0
    made = reading.made(got, case, room) if reading.made and got > 0 else None
    if made is not None and asked.meaning == "finished":
        made -= 2 * float(room.take_up)
    standing = standing_of(off * reaches, subject, reading, room, asked.trimmed)
    is_piece = subject.sense in ("cut", "least") and not subject.is_count
    cut = round_up(needed, room.ruler) if is_piece else None
    return Example(case, asked.sizes(case, room), got, needed, off, made, off * reaches, standing, cut)


class _Scan:
    """A reading looked at along all sizes; sizes are finished ones here."""

    def __init__(self, asked: Asked, room: Workroom) -> None:
        assert asked.subject.span is not None
        self.asked, self.room = asked, room
        own = asked.reading.own
        quantity = asked.subject.given[own]
        self.shift = float(room.take_up) * quantity.seams if asked.meaning == "unfinished" else 0.0
        least, most = asked.subject.span
        mark = room.ruler.mark
        self.sizes = [float(mark * k) for k in range(ceil(least.exact / mark.exact), most // mark + 1)]
        low, high = self.sizes[0], self.sizes[-1]
        rule, true = line_of(self._given, low, high), line_of(self._needed, low, high)
        rule = None if asked.rule.rounded else rule
        self.rule_line = rule.shifted(self.shift) if rule else None
        self.true_line = true.shifted(self.shift) if true else None
        self._rule, self._true = rule or self._given, true or self._needed
        reading = asked.reading
        self.reaches = reading.reaches(room) if reading.reaches else 1.0

    @property
    def ends(self) -> tuple[float, float]:
        """The least and the largest size."""
        return self.sizes[0], self.sizes[-1]

    def where(self) -> ShortWhere:
        """Where the rule is short."""
        tolerance = EDGE_MATCH
        if self.asked.subject.sense == "measure":
            tolerance += float(self.room.ease)
        return short_where(self._off, self.sizes, tolerance, self.asked.rule.rounded is None)

    def standing(self, size: float) -> Standing:
        """How the rule stands at a size."""
        asked = self.asked
        return standing_of(self._off(size), asked.subject, asked.reading, self.room, asked.trimmed)

    def _case(self, size: float) -> Case:
        """The case whose own quantity has this size."""
        subject, own = self.asked.subject, self.asked.reading.own
        exact = Fraction(size)
        case = subject.case_of((exact,))
        return case if case[own] == exact else subject.case_of((exact * exact / case[own],))

    def _given(self, size: float) -> float:
        return float(self.asked.given(self._case(size), self.room))

    def _needed(self, size: float) -> float:
        return self.asked.reading.needed(self._case(size), self.room)

    def _off(self, size: float) -> float:
        off = self._rule(size) - self._true(size)
        return (-off if self.asked.subject.sense == "promise" else off) * self.reaches
