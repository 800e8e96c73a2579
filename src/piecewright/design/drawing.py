"""The drawing of a quilt: patches, and groups of placed drawings. No seams, no sewing order.

A *patch* has a role, a simple polygon, and, for a one-way print, its *way*: the direction in which the
print stands upright, in degrees (90 is up). A *group* places drawings so that they tile its outline.
Sizes are finished sizes, floats in inches. Blocks that are alike share one drawing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from piecewright.geometry.isometry import STILL, Isometry
from piecewright.geometry.matching import Marked, Picture
from piecewright.geometry.polygon import Line, Polygon, centroid, placed


@dataclass(frozen=True)
class Patch:
    """One visible piece of cloth.

    `may_piece`: the patch may be put together from several pieces of its cloth (long borders, sashes).
    `lengthwise`: it is cut in one piece along the selvedge.
    """

    role: str
    outline: Polygon
    way: float | None = None
    may_piece: bool = False
    lengthwise: bool = False

    @cached_property
    def patches(self) -> tuple[Patch, ...]:
        """The patch itself, so that patches and groups are read alike."""
        return (self,)

    def placed(self, place: Isometry) -> Patch:
        """The patch after an isometry."""
        way = None if self.way is None else (self.way + place.degrees) % 360
        return Patch(self.role, placed(self.outline, place), way, self.may_piece, self.lengthwise)


@dataclass(frozen=True, slots=True)
class Placed:
    """A drawing and where it lies; the isometry may mirror (drawings may, sewn units never)."""

    drawing: Patch | Group
    place: Isometry = STILL

    @property
    def outline(self) -> Polygon:
        """The outline where it lies."""
        return placed(self.drawing.outline, self.place)


@dataclass(frozen=True, eq=False)
class Group:
    """Drawings that tile an outline; `name` is what people call it ("sawtooth star", "goose")."""

    name: str
    children: tuple[Placed, ...]
    outline: Polygon

    @cached_property
    def patches(self) -> tuple[Patch, ...]:
        """Every patch, in the group's own frame."""
        return tuple(patch.placed(c.place) for c in self.children for patch in c.drawing.patches)

    @cached_property
    def patch_count(self) -> int:
        """How many patches there are."""
        return sum(c.drawing.patch_count if isinstance(c.drawing, Group) else 1 for c in self.children)


Drawing = Patch | Group


def picture(drawing: Drawing) -> Picture:
    """The drawing as a picture that can be matched with another."""
    return Picture(drawing.outline, tuple(Marked(p.role, p.outline, p.way) for p in drawing.patches))


def middle_of(child: Placed) -> tuple[float, float]:
    """The centre of a placed drawing."""
    return centroid(child.outline)


@dataclass(frozen=True, slots=True)
class InLine:
    """An order that a setting suggests: parts joined one after another.

    `direction` "across": from left to right; "up": from bottom to top. Every leaf is a child of the
    quilt's group. `name` says what the result is called ("block row", "sashing row", "centre").
    """

    name: str
    direction: str
    parts: tuple[InLine | Placed, ...]


@dataclass(frozen=True)
class QuiltDrawing:
    """The whole top: its drawing, and the order its setting suggests.

    `cells` tells for the blocks, and the plain cloth, that are laid in cells which row (from the top) and
    column that is, by the identity of the child. `straight` are lines on which patches that lie at them have
    the straight grain: the edges of the middle.
    """

    top: Group
    order: InLine
    cells: Mapping[int, tuple[int, int]] = field(default_factory=dict)
    straight: tuple[Line, ...] = ()
