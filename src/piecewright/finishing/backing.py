"""The back of a quilt: panels up, across, or one wide cloth; where its seams lie; what it takes.

Terms:
- *up*: panels run from top to bottom, so that seams are upright; *across*: from side to side;
- *margin*: how far the back reaches beyond the top on every side.

By plane geometry; never by area, which forgets the width of the cloth and the seams.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

from piecewright.finishing.backing_panels import (
    Dividing,
    SeamWish,
    Widths,
    divided,
    fewest_panels,
    lengths_for,
    seam_places,
)
from piecewright.finishing.figures import measure_of, size_words
from piecewright.measure.length import ZERO, Length, Unit, inches, mm
from piecewright.measure.rounding import Ruler
from piecewright.measure.showing import figure, show
from piecewright.problems import Problem, Refused

Running = Literal["up", "across"]
RunWish = Literal["best", "up", "across"]

# Off the middle by a hand's width, and clear of the top's seams by two fingers: common practice, no source.
OFF_THE_MIDDLE: Mapping[Unit, Length] = MappingProxyType({"in": inches(6), "cm": mm(150)})
CLEAR: Mapping[Unit, Length] = MappingProxyType({"in": inches(1), "cm": mm(25)})
# Wide cloths for backs as they are sold, and what goes off for selvedges and shrinkage: from memory.
WIDE_CLOTHS: Mapping[Unit, tuple[Length, ...]] = MappingProxyType(
    {"in": (inches(90), inches(108), inches(118)), "cm": (mm(1500), mm(2400), mm(2750))}
)
WIDE_LESS: Mapping[Unit, Length] = MappingProxyType({"in": inches(2), "cm": mm(50)})


@dataclass(frozen=True)
class BackingCloth:
    """A cloth that may be the back: its usable width, and the price of a yard or metre where it is known."""

    name: str
    usable_width: Length
    one_way: bool = False
    price: Fraction | None = None


@dataclass(frozen=True)
class BackingWishes:
    """How the back shall be: its `margin` (that of the quilting where none is given), panels, seams.

    `avoid_across` are seams of the top that run up, as distances from its left edge; `avoid_up` those that
    run across, from its lower edge. A seam of the back stays `clear` of them.
    """

    running: RunWish = "best"
    seams: SeamWish = "anywhere"
    margin: Length | None = None
    off: Length | None = None
    clear: Length | None = None
    avoid_across: tuple[Length, ...] = ()
    avoid_up: tuple[Length, ...] = ()


@dataclass(frozen=True)
class Backing:
    """A back of panels cut to `widths`, all of a `length`, from so many `lengths` of the cloth.

    It measures at least `least`, raw (width, height), and lies under a `top` with a margin all round.
    """

    cloth_used: BackingCloth
    running: Running
    seam_wish: SeamWish
    widths: Widths
    length: Length
    lengths: int
    top: tuple[Length, Length]
    margin: Length
    take_up: Length

    @property
    def least(self) -> tuple[Length, Length]:
        """What it must measure."""
        return self.top[0] + self.margin * 2, self.top[1] + self.margin * 2

    @property
    def cloth(self) -> Length:
        """The length of cloth it takes."""
        return self.length * self.lengths

    @property
    def area(self) -> Fraction:
        """The cloth it takes in square inches, over the usable width."""
        return self.cloth.exact * self.cloth_used.usable_width.exact

    @property
    def seams(self) -> int:
        """How many seams it has."""
        return len(self.widths) - 1

    @property
    def seam_run(self) -> float:
        """The stitching of all its seams in inches."""
        return self.seams * float(self.length)

    @property
    def seam_places(self) -> tuple[Length, ...]:
        """How far each seam lies from the middle of the back, to the left (or below) less than nothing."""
        return seam_places(self.widths, self.take_up)

    @property
    def reach(self) -> Length:
        """What the panels come to when they are joined."""
        return sum(self.widths, ZERO) - self.take_up * 2 * self.seams

    def cost(self, unit: Unit) -> Fraction | None:
        """What it costs by the yard or metre, None where there is no price."""
        if self.cloth_used.price is None:
            return None
        return self.cloth_used.price * (self.cloth.exact / measure_of(unit).exact)

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic of size, panels and cloth, a line each."""
        margin = f"2 x {figure(self.margin, unit)}"
        width, height = (figure(side, unit) for side in self.top)
        lines = [f"{width} + {margin} by {height} + {margin} = {size_words(self.least, unit)}"]
        if self.seams:
            cut = " + ".join(figure(width, unit) for width in self.widths)
            taken = f"{self.seams} x {figure(self.take_up * 2, unit)} for seams"
            lines.append(f"{cut} - {taken} = {show(self.reach, unit)} {_OVER[self.running]}")
        cloth = f"{self.lengths} x {figure(self.length, unit)} = {show(self.cloth, unit)}"
        lines.append(f"{cloth} of {self.cloth_used.name}, {show(self.cloth_used.usable_width, unit)} wide")
        return tuple(lines)


_OVER: Mapping[Running, str] = MappingProxyType({"up": "from side to side", "across": "from top to bottom"})


def wide_cloth(width: Length, unit: Unit, price: Fraction | None = None) -> BackingCloth:
    """A wide cloth as it is sold: a little of its width cannot be used."""
    return BackingCloth(f"wide cloth {show(width, unit)}", width - WIDE_LESS[unit], price=price)


def backing_ways(
    top: tuple[Length, Length],
    margin: Length,
    cloths: Sequence[BackingCloth],
    wishes: BackingWishes,
    take_up: Length,
    ruler: Ruler,
) -> tuple[Backing, ...]:
    """Every way to make the back of a top (finished width, height) as it is wished, the best first.

    Best is what costs least where every cloth has a price, else what takes least cloth; then fewest seams;
    panels from top to bottom win a tie. Raises Refused, with the nearest thing that works, where none is.
    """
    _refuse_narrow(cloths, take_up, ruler.unit)
    runs = [run for run in _RUNS if wishes.running in ("best", run)]
    ways = [
        way
        for cloth in cloths
        for run in runs
        if not (cloth.one_way and run == "across")
        if (way := _way(top, margin, cloth, run, wishes, take_up, ruler)) is not None
    ]
    if not ways:
        raise Refused(_nearest(top, margin, cloths, wishes, take_up, ruler))
    if all(cloth.price is not None for cloth in cloths):
        return tuple(sorted(ways, key=lambda way: (way.cost(ruler.unit) or Fraction(0), way.seams)))
    return tuple(sorted(ways, key=lambda way: (way.area, way.seams)))


_RUNS: tuple[Running, ...] = ("up", "across")


def _way(
    top: tuple[Length, Length],
    margin: Length,
    cloth: BackingCloth,
    run: Running,
    wishes: BackingWishes,
    take_up: Length,
    ruler: Ruler,
) -> Backing | None:
    task, length = _dividing(top, margin, cloth, run, wishes, take_up, ruler)
    widths = divided(task, wishes.seams)
    if widths is None:
        return None
    lengths = lengths_for(widths, cloth.usable_width)
    return Backing(cloth, run, wishes.seams, widths, length, lengths, top, margin, take_up)


def _dividing(
    top: tuple[Length, Length],
    margin: Length,
    cloth: BackingCloth,
    run: Running,
    wishes: BackingWishes,
    take_up: Length,
    ruler: Ruler,
) -> tuple[Dividing, Length]:
    """What is divided into panels, and how long they are."""
    over, along = (0, 1) if run == "up" else (1, 0)
    seams = wishes.avoid_across if run == "up" else wishes.avoid_up
    task = Dividing(
        reach=top[over] + margin * 2,
        usable_width=cloth.usable_width,
        take_up=take_up,
        ruler=ruler,
        off=wishes.off if wishes.off is not None else OFF_THE_MIDDLE[ruler.unit],
        avoid=tuple(seam - top[over] / 2 for seam in seams),
        clear=wishes.clear if wishes.clear is not None else CLEAR[ruler.unit],
    )
    return task, top[along] + margin * 2


def _refuse_narrow(cloths: Sequence[BackingCloth], take_up: Length, unit: Unit) -> None:
    for cloth in cloths:
        if cloth.usable_width <= take_up * 2:
            over = show(take_up * 2 - cloth.usable_width, unit)
            said = f"{cloth.name} can be used {show(cloth.usable_width, unit)} wide, and the two seams of a "
            said += f"panel take {show(take_up * 2, unit)}: {over} too narrow."
            raise Refused(Problem(said, do="Take wider cloth."))


def _nearest(
    top: tuple[Length, Length],
    margin: Length,
    cloths: Sequence[BackingCloth],
    wishes: BackingWishes,
    take_up: Length,
    ruler: Ruler,
) -> Problem:
    """What is wrong where no panels have their seams as wished, and what would do."""
    runs = [run for run in _RUNS if wishes.running in ("best", run)]
    cloth = cloths[0]
    if cloth.one_way and runs == ["across"]:
        said = f"{cloth.name} is one-way, and panels from side to side would lay it on its side."
        return Problem(said, do="Let the panels run from top to bottom.")
    task, _ = _dividing(top, margin, cloth, runs[0], wishes, take_up, ruler)
    panels, unit = fewest_panels(task), ruler.unit
    said = (
        f"no seam {wishes.seams} of a back {show(task.reach, unit)} over lies {show(task.clear, unit)} clear "
        f"of every seam of the top, in {panels} or {panels + 1} panels from cloth "
        f"{show(cloth.usable_width, unit)} wide."
    )
    clear = _clearest(task, wishes.seams)
    return Problem(said, do=f"Stay {show(clear, unit)} clear, or place the seam otherwise.")


def _clearest(task: Dividing, wish: SeamWish) -> Length:
    """The greatest distance from the top's seams, in marks of the ruler, that can be kept."""
    marks = task.clear // task.ruler.mark
    for k in range(marks, 0, -1):
        eased = Dividing(
            task.reach, task.usable_width, task.take_up, task.ruler, task.off, task.avoid, task.ruler.mark * k
        )
        if divided(eased, wish):
            return task.ruler.mark * k
    return ZERO
