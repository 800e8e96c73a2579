"""The cases on which a rule is tried out: as typed, printed, or our own examples.

Terms:
- *asked*: a rule with one reading and one meaning of its sizes.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from piecewright.measure.length import Unit
from piecewright.measure.number import read_number, shortened
from piecewright.measure.reading import read_length
from piecewright.problems import Problem, Refused
from piecewright.rescue.rule import PrintedPair, Rule, Side
from piecewright.rescue.subject import Case, Meaning, NameKnown, Reading, Subject, value_of, vocabulary
from piecewright.workroom.workroom import Workroom

MOST_CASES = 40


@dataclass(frozen=True)
class Asked:
    """A rule with one reading: its sum number `part`, sizes meant as `meaning`, the cases to look at.

    `shown_meaning` is None where the meaning makes no difference; `typed` are the cases as someone typed
    them, None where our own examples are to be looked at.
    """

    subject: Subject
    rule: Rule
    reading: Reading
    part: int
    meaning: Meaning
    shown_meaning: Meaning | None
    trimmed: bool | None
    typed: str | None

    @cached_property
    def _known(self) -> dict[str, NameKnown]:
        return vocabulary(self.subject)

    def given(self, case: Case, room: Workroom) -> Fraction:
        """What the rule gives for a case: inches, or a count. Raises Refused where it comes to nothing."""
        known, own, inch = self._known, self.reading.own, self.rule.inch
        values = {}
        for name in self.rule.sums[self.part].names():
            value = value_of(known[name], self.subject, own, case, self.meaning, room)
            quantity = known[name].quantity or self.subject.given[own]
            values[name] = value * inch if quantity.is_length else value
        figure = self.rule.figure(self.part, values)
        return figure if self.subject.is_count else figure / inch

    def sizes(self, case: Case, room: Workroom) -> Case:
        """The sizes of a case as the rule means them."""
        if self.shown_meaning != "unfinished":
            return case
        seams = (quantity.seams for quantity in self.subject.given)
        return tuple(size + n * room.take_up.exact for size, n in zip(case, seams, strict=True))

    def cases(self, room: Workroom) -> list[tuple[Case, Fraction]]:
        """The cases to look at, finished, with what the rule gives for each."""
        if self.rule.pairs:
            return [self._printed(pair, room) for pair in self.rule.pairs]
        texts = self.typed.split(",") if self.typed else self.subject.examples[room.unit]
        if len(texts) > MOST_CASES:
            raise Refused(Problem(f"expected at most {MOST_CASES} sizes, got {len(texts)}.", "--for"))
        cases = []
        for text in texts:
            values = _values(text, self.subject, self.rule.unit)
            # Examples of ours are finished; what is typed is meant as the rule means it.
            case = self._finished(values, room) if self.typed else self._whole(values, room)
            cases.append((case, self.given(case, room)))
        return cases

    def _finished(self, values: Case, room: Workroom) -> Case:
        seams = [q.seams if self.shown_meaning == "unfinished" else 0 for q in self.subject.given]
        finished = tuple(
            v - n * room.take_up.exact for v, n in zip(values, seams[: len(values)], strict=True)
        )
        for value in finished:
            if value <= 0:
                what = "expected sizes larger than their seams, got one that is not."
                raise Refused(Problem(what, "--for" if self.typed else "rule"))
        return self._whole(finished, room)

    def _whole(self, values: Case, room: Workroom) -> Case:
        """The case of the values, with what is usual or follows where some are not given."""
        given = self.subject.given
        if len(values) == 1 and len(given) > 1:
            values = self.subject.case_of(values)
        usual = tuple(q.usual[room.unit] for q in given[len(values) :] if q.usual)
        case = values + usual
        if len(case) != len(given):
            wanted = " x ".join(q.says for q in given)
            what = f"expected {wanted}, got {len(values)} size{'' if len(values) == 1 else 's'}."
            raise Refused(Problem(what, "--for" if self.typed else "rule"))
        if self.subject.span and len(case) > 1 and self.subject.case_of(case[:1]) != case:
            width, height = self.subject.case_of(case[:1])
            what = f"expected a height that is {height / width} of the width."
            raise Refused(Problem(what, "--for" if self.typed else "rule", "Change a side."))
        return case

    def _printed(self, pair: PrintedPair, room: Workroom) -> tuple[Case, Fraction]:
        """The case of a printed pair, and what it gives for this piece."""
        sizes, figures = size_first(pair, self.subject)
        if len(self.subject.given) == 1 and len(set(sizes)) == 1:
            sizes = sizes[:1]
        inch = self.rule.inch
        lengths = [q.is_length for q in self.subject.given][: len(sizes)]
        lengths += [True] * (len(sizes) - len(lengths))
        values = tuple(
            size / inch if is_length else size for size, is_length in zip(sizes, lengths, strict=True)
        )
        if len(values) > len(self.subject.given):
            raise Refused(Problem("a printed pair has more sizes than expected.", "rule"))
        figure = figures[min(self.part, len(figures) - 1)]
        return self._finished(values, room), figure if self.subject.is_count else figure / inch


def size_first(pair: PrintedPair, subject: Subject) -> tuple[Side, Side]:
    """The sizes of a pair, and what is made or needed for them."""
    if subject.starts_larger and max(pair.left) >= max(pair.right):
        return pair.right, pair.left
    return pair.left, pair.right


def _values(text: str, subject: Subject, unit: Unit) -> Case:
    """The values of a case as typed: `2 1/2`, `60 x 72`, `3 yd x 5%`."""
    parts = [part.strip() for part in re.split(r"[xX×]", text)]
    if len(parts) > len(subject.given):
        wanted = " x ".join(quantity.says for quantity in subject.given)
        raise Refused(Problem(f"expected {wanted}, got {shortened(text.strip())}.", "--for"))
    try:
        values = tuple(
            read_length(part, unit).exact if quantity.is_length else _share(part)
            for part, quantity in zip(parts, subject.given, strict=False)
        )
    except ValueError as error:
        raise Refused(Problem(f"{error}.", "--for")) from error
    for value, quantity in zip(values, subject.given, strict=False):
        if value <= 0 or (not quantity.is_length and value >= 1):
            wanted = "above 0" if quantity.is_length else "above 0 and below 100%"
            what = f"expected {quantity.says} {wanted}, got {shortened(text.strip())}."
            raise Refused(Problem(what, "--for"))
    return values


def _share(text: str) -> Fraction:
    if text.endswith("%"):
        return read_number(text.removesuffix("%").strip()) / 100
    return read_number(text)
