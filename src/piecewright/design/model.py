"""A design: the fabrics, the roles they play, the blocks, and how the blocks are set.

A *fabric* is one cloth. A *role* is what a patch asks for: one fabric, or an *assortment* of prints.
A *unit* is a part of a block on a grid: a plain patch, a half-square triangle, an hourglass, a goose.
Lengths are finished lengths; places in a block are counted from its lower left corner, y upwards.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal

from piecewright.design.kinds import KINDS
from piecewright.design.settings.kinds import Setting
from piecewright.geometry.polygon import Polygon
from piecewright.measure.length import ZERO, Length, Unit

BorderOrder = Literal["sides first", "top and bottom first"]
BorderCut = Literal["crosswise", "lengthwise", "sides lengthwise"]
SashingCut = Literal["crosswise", "lengthwise"]


@dataclass(frozen=True)
class Fabric:
    """One cloth; `colour` is a CSS hex colour, `width` its usable width where it is not the workroom's.

    A `selvedge` goes off each side of that width. A motif comes again every `repeat_across` and
    `repeat_along`; every piece shows the same. `price` is that of a yard, or a metre in a metric file.
    `shrinkage` (a share of the length) and `buying_step` are the cloth's own where they are given.
    """

    key: str
    name: str
    colour: str
    width: Length | None = None
    one_way: bool = False
    selvedge: Length = ZERO
    repeat_across: Length = ZERO
    repeat_along: Length = ZERO
    shrinkage: float | None = None
    price: Fraction | None = None
    buying_step: Length | None = None

    @property
    def has_motif(self) -> bool:
        """Whether every piece of it shows the same motif."""
        return bool(self.repeat_across or self.repeat_along)


@dataclass(frozen=True)
class Role:
    """What patches ask for: one `fabric`, or (where that is None) an assortment of so many `prints`.

    `alike` is how many alike units or pieces may come from one print, None where it does not matter.
    """

    key: str
    name: str
    fabric: str | None = None
    prints: int = 1
    alike: int | None = None
    colours: tuple[str, ...] = ()

    @property
    def is_assortment(self) -> bool:
        """Whether several prints play this role."""
        return self.fabric is None


@dataclass(frozen=True)
class GridUnit:
    """A unit of a block on a grid, its lower left corner at (x, y).

    `facing` is the corner of the first role of a half-square triangle (nw, ne, sw, se), the sides of the
    first role of an hourglass (ns, ew), or where the point of a goose looks (n, e, s, w).
    """

    kind: str
    roles: tuple[str, ...]
    facing: str
    x: Length
    y: Length
    width: Length
    height: Length


@dataclass(frozen=True)
class Shape:
    """A patch of a block that is drawn by its corners: counter-clockwise, in inches."""

    role: str
    corners: Polygon


@dataclass(frozen=True)
class Block:
    """A block: units on a grid, or shapes (one of the two is empty).

    `prefer` is how its maker would rather sew it where there is a choice (`full seams`, `partial seams`,
    `set in`, `foundation`), or empty.
    """

    key: str
    name: str
    width: Length
    height: Length
    units: tuple[GridUnit, ...] = ()
    shapes: tuple[Shape, ...] = ()
    prefer: str = ""

    @property
    def patch_count(self) -> int:
        """How many patches the block has."""
        return len(self.shapes) + sum(patches_of(unit.kind) for unit in self.units)

    @cached_property
    def roles(self) -> tuple[str, ...]:
        """The roles that its patches name, in the order in which they come."""
        named = [role for unit in self.units for role in unit.roles] + [s.role for s in self.shapes]
        return tuple(dict.fromkeys(named))


def patches_of(kind: str) -> int:
    """How many patches a unit of a block has."""
    return KINDS[kind].patches if kind in KINDS else 1


@dataclass(frozen=True)
class Sashing:
    """Strips between the blocks; squares of `cornerstone` where they meet; `around` the outside too.

    Strips from side to side of the quilt are joined from crosswise ones, or `cut` lengthwise in one piece.
    """

    width: Length
    role: str
    cornerstone: str | None = None
    around: bool = False
    cut: SashingCut = "crosswise"


@dataclass(frozen=True)
class Border:
    """Four butted strips around what is inside; `order` says which two are sewn on first.

    They are joined from strips across the cloth (`cut` crosswise), or cut in one piece along the selvedge.
    """

    width: Length
    role: str
    order: BorderOrder = "sides first"
    cut: BorderCut = "crosswise"


@dataclass(frozen=True)
class Binding:
    """The strip that is folded double around the edge; `width` is the width it is cut."""

    role: str
    width: Length


@dataclass(frozen=True)
class Backing:
    """The back; its cloth if it is one of the quilt's, and how far it reaches beyond the top on each side."""

    role: str | None
    margin: Length


@dataclass(frozen=True)
class Batting:
    """The layer between; how far it reaches beyond the top on each side."""

    margin: Length


@dataclass(frozen=True)
class Choice:
    """A method that the maker has pinned for a kind of unit: everywhere, or in one block."""

    kind: str
    way: str
    block: str | None = None


@dataclass(frozen=True)
class Design:
    """A quilt as it is wanted."""

    title: str
    reason: str
    unit: Unit
    fabrics: tuple[Fabric, ...]
    roles: tuple[Role, ...]
    blocks: tuple[Block, ...]
    block_width: Length
    block_height: Length
    setting: Setting
    backing: Backing
    batting: Batting
    sashing: Sashing | None = None
    borders: tuple[Border, ...] = ()
    binding: Binding | None = None
    choices: tuple[Choice, ...] = ()

    @cached_property
    def fabric(self) -> dict[str, Fabric]:
        """The fabrics by key."""
        return {fabric.key: fabric for fabric in self.fabrics}

    @cached_property
    def role(self) -> dict[str, Role]:
        """The roles by key."""
        return {role.key: role for role in self.roles}

    @cached_property
    def block(self) -> dict[str, Block]:
        """The blocks by key."""
        return {block.key: block for block in self.blocks}

    def is_one_way(self, role: str) -> bool:
        """Whether the role is one fabric with a one-way print."""
        fabric = self.role[role].fabric
        return fabric is not None and self.fabric[fabric].one_way

    def choice(self, kind: str, block: str | None = None) -> str | None:
        """The method pinned for a kind of unit in a block, or else everywhere; None where none is."""
        ways = {choice.block: choice.way for choice in self.choices if choice.kind == kind}
        return ways.get(block, ways.get(None))


def fabric_of(design: Design, role: str) -> str:
    """The key of the cloth for a role: its fabric's, or the role's own where it is an assortment."""
    return design.role[role].fabric or role


def finished_size(design: Design) -> tuple[Length, Length]:
    """The finished width and height of the top, exact."""
    sashing = design.sashing
    gap, around = (sashing.width, sashing.around) if sashing else (ZERO, False)
    width, height = design.setting.size((design.block_width, design.block_height), gap, around)
    for border in design.borders:
        width, height = width + 2 * border.width, height + 2 * border.width
    return width, height
