"""One way to make a quilt come to a wanted size: what it changes, and how near it comes.

Terms:
- *target*: the width and height that are wanted, and how far off still serves;
- *answer*: other blocks, counts, sashing or borders, as values; `apply` makes the design.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from piecewright.design.model import Design, finished_size
from piecewright.measure.length import ZERO, Length, Unit, inches, mm
from piecewright.measure.showing import figure, show
from piecewright.sizing.resizing import with_blocks, with_counts, with_strips

Size = tuple[Length, Length]

# So far off, a quilt still serves its bed: common practice, no source.
USUAL_TOLERANCE: dict[Unit, Length] = {"in": inches(2), "cm": mm(50)}


@dataclass(frozen=True)
class Target:
    """The finished width and height that are wanted; each may be off by the tolerance."""

    width: Length
    height: Length
    tolerance: Length

    @property
    def size(self) -> Size:
        """Width and height."""
        return self.width, self.height


@dataclass(frozen=True)
class Answer:
    """Blocks times a factor, their numbers, the sashing's width and the borders'; and the size that makes.

    `over` is how much wider and higher than the target that is; below zero: under.
    """

    factor: Fraction
    across: int
    down: int
    sashing: Length | None
    borders: tuple[Length, ...]
    size: Size
    over: Size
    changes: tuple[str, ...]
    cloth: Fraction
    fits: bool

    def apply(self, design: Design) -> Design:
        """The design with these sizes and numbers."""
        blocks = with_counts(with_blocks(design, self.factor), self.across, self.down)
        return with_strips(blocks, self.sashing, self.borders)

    @property
    def is_as_it_is(self) -> bool:
        """Whether nothing changes."""
        return not self.changes

    @property
    def off(self) -> Length:
        """How far it is off, both directions together."""
        return _size_of(self.over[0]) + _size_of(self.over[1])

    def off_words(self, unit: Unit) -> str:
        """How near it comes: `width 1 in over (1.2 %), height as wanted`."""
        sides = zip(("width", "height"), self.over, self.size, strict=True)
        return ", ".join(f"{name} {_off(over, side - over, unit)}" for name, over, side in sides)


def answer_for(
    design: Design,
    target: Target,
    factor: Fraction,
    counts: tuple[int, int],
    strips: tuple[Length | None, tuple[Length, ...]],
) -> Answer:
    """The answer with these changes; its size is that of the changed design itself."""
    bare = Answer(factor, *counts, *strips, target.size, (ZERO, ZERO), (), Fraction(1), True)
    changed = bare.apply(design)
    size, before = finished_size(changed), finished_size(design)
    over = (size[0] - target.width, size[1] - target.height)
    cloth = (size[0].exact * size[1].exact) / (before[0].exact * before[1].exact)
    fits = all(_size_of(side) <= target.tolerance for side in over)
    return Answer(factor, *counts, *strips, size, over, changes(design, changed), cloth, fits)


def changes(design: Design, changed: Design) -> tuple[str, ...]:
    """What a changed design has other than before, a few words each."""
    unit, said = design.unit, []
    if (changed.block_width, changed.block_height) != (design.block_width, design.block_height):
        said.append(f"blocks {_by(changed, unit)} instead of {_by(design, unit)}")
    now, then = changed.setting, design.setting
    if (now.across, now.down) != (then.across, then.down):
        said.append(f"{now.across} x {now.down} blocks instead of {then.across} x {then.down}")
    if changed.sashing and design.sashing and changed.sashing.width != design.sashing.width:
        wide, before = (show(one.sashing.width, unit) for one in (changed, design) if one.sashing)
        said.append(f"sashing {wide} instead of {before}")
    for number, (border, before_it) in enumerate(zip(changed.borders, design.borders, strict=True), 1):
        if border.width != before_it.width:
            name = _border_name(number, len(design.borders))
            said.append(f"{name} {show(border.width, unit)} instead of {show(before_it.width, unit)}")
    return tuple(said)


def size_words(size: Size, unit: Unit) -> str:
    """`60 x 72 in`; `about 23 5/8 x 47 1/4 in` where a side is not on a mark."""
    sides = [figure(side, unit) for side in size]
    about = "about " if any(side.startswith("about") for side in sides) else ""
    return f"{about}{' x '.join(side.removeprefix('about ') for side in sides)} {unit}"


def _by(design: Design, unit: Unit) -> str:
    width, height = design.block_width, design.block_height
    return show(width, unit) if width == height else size_words((width, height), unit)


def _border_name(number: int, count: int) -> str:
    if count == 1:
        return "border"
    if number == count:
        return "outer border"
    return "inner border" if number == 1 else f"border {number}"


def _size_of(length: Length) -> Length:
    return -length if length < ZERO else length


def _off(over: Length, wanted: Length, unit: Unit) -> str:
    if not over:
        return "as wanted"
    per_cent = float(_size_of(over).exact / wanted.exact) * 100
    return f"{show(_size_of(over), unit)} {'over' if over > ZERO else 'under'} ({per_cent:.1f} %)"
