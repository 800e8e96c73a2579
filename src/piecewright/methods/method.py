"""What a method is: one way to make a unit, written as bench steps for any start size.

Terms:
- *unit*: what is wanted: its kind, its fabrics in the order that the kind names, its finished size;
- *start*: a piece of cloth that a batch begins with;
- *batch*: one run of the method, which makes `makes` units;
- *making*: the sizes and the pile names that a method writes its steps for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from piecewright.bench.cloth import SeamSize
from piecewright.bench.steps import AnyStep, Landmark
from piecewright.measure.length import ZERO, Length, inches
from piecewright.methods.laying import AS_IT_COMES, Laying, laid
from piecewright.problems import Problem, Refused

LARGEST = inches(360)  # Ten yards a side: no unit is larger, a slip of the keyboard may be.


@dataclass(frozen=True)
class Unit:
    """A unit as wanted: kind, fabrics in the order of its kind, finished width and height."""

    kind: str
    fabrics: tuple[str, ...]
    width: Length
    height: Length

    def raw(self, take_up: Length) -> tuple[Length, Length]:
        """The unfinished size."""
        return self.width + take_up * 2, self.height + take_up * 2

    def refuse_nonsense(self) -> None:
        """Raises Refused where there is no such unit: its size, its proportions, its fabrics."""
        size = f"{self.width} x {self.height}"
        if not all(ZERO < length <= LARGEST for length in (self.width, self.height)):
            raise Refused(
                Problem(
                    f"a unit of finished {size} cannot be made", do=f"Give sizes above 0, up to {LARGEST}."
                )
            )
        if self.kind in ("hst", "hourglass") and self.width != self.height:
            raise Refused(Problem(f"this unit is square, {size} was wanted", do="Give it equal sides."))
        if self.kind == "geese" and self.width != self.height * 2:
            raise Refused(
                Problem(
                    f"a flying goose is twice as wide as it is high, {size} was wanted", do="Change a side."
                )
            )
        if len(self.fabrics) != 2:
            raise Refused(Problem(f"two fabrics were expected, {len(self.fabrics)} are named"))


@dataclass(frozen=True)
class Start:
    """A rectangle a batch begins with: `count` of the unit's fabric number `fabric`.

    `width` and `height` are numbers of the sizes that are solved for; equal ones make a square.
    """

    fabric: int
    count: int
    width: int = 0
    height: int = 0


@dataclass(frozen=True)
class Making:
    """What a method writes its steps for: start sizes (inches), pile names, the seam, how many batches."""

    sizes: tuple[float, ...]
    pieces: tuple[str, ...]
    gives: str
    seam: SeamSize
    times: int = 1
    laying: Laying = AS_IT_COMES


@dataclass(frozen=True)
class Method:
    """One way to make a unit.

    `steps` writes the steps of a batch from its starts to the pressed unit, before truing up. `unknowns`
    is how many sizes are solved for: one, found from the unit's width, or two, from width and height.
    `may_round`: start sizes may be rounded up, since truing up or ease follows. `upright`: every cloth
    can be laid so that a one-way print stands up. `reason` is a plain line on why one would choose it;
    `says` tells the steps at the table, a sentence each.
    """

    name: str
    kind: str
    makes: int
    starts: tuple[Start, ...]
    steps: Callable[[Making], tuple[AnyStep, ...]]
    landmark: Landmark
    reason: str
    says: tuple[str, ...]
    unknowns: int = 1
    may_round: bool = True
    upright: bool = False

    def written(self, making: Making) -> tuple[AnyStep, ...]:
        """The steps of a batch, with base and tops laid as the making says."""
        sizes = {
            name: (making.sizes[start.width], making.sizes[start.height])
            for name, start in zip(making.pieces, self.starts, strict=True)
        }
        return laid(self.steps(making), making.laying, sizes[making.pieces[0]], sizes)
