"""What a rule can be about: its quantities, what it gives, and what is truly needed.

Terms:
- *subject*: a thing that rules of thumb are told of: half-square triangles, setting squares, backing;
- *quantity*: what a rule may name: the size, the width, the perimeter;
- *case*: the given quantities of one example, finished ones, in inches (shares and counts as they are);
- *reading*: one way in which a rule may be meant: for which way of working, and which of the pieces;
- *sense*: whether a rule's figure is a piece to cut, a least length, a promise or a measure.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from piecewright.measure.length import Length, Unit
from piecewright.rescue.rule import IMPLIED
from piecewright.workroom.workroom import Workroom

Meaning = Literal["finished", "unfinished"]
Case = tuple[Fraction, ...]
Of = Callable[[Case, Workroom], Fraction]
Needed = Callable[[Case, Workroom], float]
Examples = Mapping[Unit, tuple[str, ...]]
Sense = Literal["cut", "least", "promise", "measure"]
"""*cut*: what is over is eased in or trimmed; *least*: over is fine; *promise*: what one gets; *measure*."""

FINISHED: tuple[str, ...] = ("finished", "finished size", "f")
UNFINISHED: tuple[str, ...] = ("unfinished", "unfinished size", "raw", "raw unit", "raw size", "u")
NEUTRAL: tuple[str, ...] = ("x", IMPLIED, "unit", "side")


@dataclass(frozen=True)
class Quantity:
    """Something that a rule may name, by any of `names`.

    Its unfinished size is larger by `seams` take-ups; where that is none, it is the same either way. Names
    in `finished` and `unfinished` say which of the two they are; to other names "finished" or "unfinished"
    may be put. `of` gives what is derived from the case; given quantities need none. `usual` is taken where
    a given one is not said.
    """

    says: str
    names: tuple[str, ...]
    seams: int = 0
    finished: tuple[str, ...] = ()
    unfinished: tuple[str, ...] = ()
    of: Of | None = None
    is_length: bool = True
    usual: Mapping[Unit, Fraction] = field(default_factory=dict)


@dataclass(frozen=True)
class Reading:
    """One way to mean a rule: the `way` of working ("" where there is one), and what the rule gives.

    `needed` is the true figure for a case: inches, or a count. `reaches` is how much of an inch too little or
    too much reaches the unit; `made` what unit (raw, inches) truly comes of a start, where it can be told.
    `exact`: what is over cannot be trimmed away later, unless (`may_trim`) all pieces are larger. `own` is
    the number of the given quantity that "the size" stands for. `why` is the reason, a plain line.
    """

    way: str
    part: str
    needed: Needed
    why: str
    made: Callable[[float, Case, Workroom], float | None] | None = None
    reaches: Callable[[Workroom], float] | None = None
    exact: bool = False
    may_trim: bool = False
    own: int = 0


@dataclass(frozen=True)
class Subject:
    """A thing that rules are told of.

    `given` are the quantities of a case; `examples` are cases to look at, as typed, where none are named.
    `span` (inches or as they are; least and most of the first given quantity) is looked through for where a
    rule begins to fail, `case_of` then gives the whole case; without it only the examples are looked at.
    `is_count`: the rule's figure is a number of things; `is_bought`: it is a length to buy.
    `starts_larger`: of a printed pair the larger one is the start. `together`: one sum is meant for all
    pieces alike. `source` says where the true figures come from, `over` what becomes of too much; `title` is
    what people call it, where that is not the name.
    """

    name: str
    also: tuple[str, ...]
    gives: str
    given: tuple[Quantity, ...]
    readings: tuple[Reading, ...]
    sense: Sense
    examples: Examples
    source: str
    derived: tuple[Quantity, ...] = ()
    span: tuple[Length, Length] | None = None
    case_of: Callable[[Case], Case] = lambda case: case
    is_count: bool = False
    starts_larger: bool = False
    title: str = ""
    together: bool = False
    is_bought: bool = False
    over: str = ""

    @property
    def ways(self) -> tuple[str, ...]:
        """The ways of working that a rule may be meant for."""
        return tuple(dict.fromkeys(reading.way for reading in self.readings if reading.way))

    @property
    def differs(self) -> bool:
        """Whether finished and unfinished make a difference."""
        return any(quantity.seams for quantity in self.given)


@dataclass(frozen=True)
class NameKnown:
    """What a name stands for: a quantity, or the size of the part that is cut (`quantity` None)."""

    quantity: Quantity | None
    tells: Meaning | None = None
    number: int | None = None


SEAM = Quantity(
    "the seam allowance", ("seam", "seam allowance", "seams"), of=lambda case, room: room.take_up.exact
)


def vocabulary(subject: Subject) -> dict[str, NameKnown]:
    """Every name that a rule about the subject may use, and what it stands for."""
    known: dict[str, NameKnown] = {}
    for number, quantity in enumerate((*subject.given, *subject.derived, SEAM)):
        given = number if number < len(subject.given) else None
        for name in quantity.names:
            known.setdefault(name, NameKnown(quantity, None, given))
            if quantity.seams and len(name) > 1:
                known.setdefault(f"finished {name}", NameKnown(quantity, "finished", given))
                for word in ("unfinished", "raw", "cut"):
                    known.setdefault(f"{word} {name}", NameKnown(quantity, "unfinished", given))
        known.update({name: NameKnown(quantity, "finished", given) for name in quantity.finished})
        known.update({name: NameKnown(quantity, "unfinished", given) for name in quantity.unfinished})
    if subject.differs:
        for name in FINISHED:
            known.setdefault(name, NameKnown(None, "finished"))
        for name in UNFINISHED:
            known.setdefault(name, NameKnown(None, "unfinished"))
    for name in NEUTRAL:
        known.setdefault(name, NameKnown(None))
    return known


def main_names(subject: Subject) -> tuple[str, ...]:
    """The names to tell someone who used another: one for each quantity."""
    quantities = (*subject.given, *subject.derived)
    own = tuple(quantity.names[0] for quantity in quantities if len(quantity.names[0]) > 1)
    return (*((FINISHED[0], UNFINISHED[0]) if subject.differs else (IMPLIED,)), *own, SEAM.names[0])


def quantity_of(known: NameKnown, subject: Subject, own: int) -> Quantity:
    """The quantity that a name stands for, in a rule for a part whose size is given quantity `own`."""
    return known.quantity or subject.given[own]


def value_of(
    known: NameKnown, subject: Subject, own: int, case: Case, meaning: Meaning, room: Workroom
) -> Fraction:
    """The value of a name in inches (or as it is), with sizes meant as finished or unfinished."""
    number = known.number if known.quantity else own
    if number is None:
        assert known.quantity is not None
        assert known.quantity.of is not None
        return known.quantity.of(case, room)
    quantity = subject.given[number]
    meant = known.tells or meaning
    seams = quantity.seams if meant == "unfinished" else 0
    return case[number] + seams * room.take_up.exact


def words_for(subject: Subject, own: int, meaning: Meaning | None) -> dict[str, str]:
    """How each name is said: `finished size`, `unfinished size`, `width`."""
    words = {}
    for name, known in vocabulary(subject).items():
        quantity = quantity_of(known, subject, own)
        meant = known.tells or meaning
        says = quantity.says.removeprefix("the ")
        words[name] = f"{meant} {says}" if meant and quantity.seams else says
    return words
