"""Things: what a plan makes on the way, each distinct one once, with what one of it needs.

Every thing has a pile name, the cloth it is (seams not yet pressed), and a station of the work.
"""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.bench.cloth import Cloth
from piecewright.bench.joining import Meet
from piecewright.bench.steps import JoinPart, PartSewn
from piecewright.design.drawing import Drawing
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.offset import CutShape
from piecewright.geometry.polygon import bounds
from piecewright.measure.length import Length
from piecewright.methods.foundation.plan import FoundationSection
from piecewright.methods.recipe import Recipe
from piecewright.piecing.cut_shapes import Cutting
from piecewright.piecing.tree import How
from piecewright.sewing.stations import Station

Needs = tuple[tuple[str, int], ...]


@dataclass(frozen=True, eq=False)
class Thing:
    """Something that lies on a pile: `needs` are the piles that one making of it takes from."""

    name: str
    station: Station
    cloth: Cloth
    needs: Needs


@dataclass(frozen=True, eq=False)
class Cut(Thing):
    """A rectangle cut from a cloth, as it is wanted: width across the cloth, height along it.

    `whole_strip`: as long as the cloth is wide. `reserve`: cut first.
    """

    fabric: str
    width: Length
    height: Length
    may_turn: bool = True
    whole_strip: bool = False
    reserve: bool = False


@dataclass(frozen=True, eq=False)
class Shaped(Thing):
    """Pieces of another shape than a rectangle, cut out of rectangles of their cloth.

    `what` is what the trade calls the shape. `shape` lies as it is cut out, the lengthwise grain up; with a
    print that `stands` it may lie no other way. `needs` is the pile of rectangles, once it is known how many
    pieces are wanted.
    """

    fabric: str
    what: str
    shape: CutShape
    stands: bool
    cutting: Cutting

    @property
    def each(self) -> int:
        """How many come from one rectangle."""
        return self.cutting.each


@dataclass(frozen=True, eq=False)
class UnitThing(Thing):
    """A unit made in batches by a recipe; `others` are the ways not taken, best first.

    `tilted`: a one-way print does not stand upright in it.
    """

    recipe: Recipe
    others: tuple[Recipe, ...]
    drawing: Drawing
    pinned: bool = False
    tilted: bool = False


@dataclass(frozen=True, eq=False)
class OffBatch(Thing):
    """What comes besides off every batch of the unit named first in `needs`: `each` of them."""

    each: int
    recipe: Recipe


@dataclass(frozen=True, eq=False)
class ThingThere(Thing):
    """`there` units that are made already; the recipe tells what they are, `tilted` as in a `UnitThing`."""

    there: int
    recipe: Recipe
    tilted: bool = False


@dataclass(frozen=True, eq=False)
class Gathered(Thing):
    """Units from several piles put on one; each of `sources` has a pile, and how many it gives.

    `alike`: seams that are pressed alike lie alike in all of them; else they come to lie either way.
    """

    sources: tuple[tuple[str, int], ...]
    alike: bool


@dataclass(frozen=True)
class Seamed:
    """The join between two neighbours of a row: the seam ends that meet on it, and both cloths.

    `ends` is how many seams run out on the joined side of the first and of the second cloth.
    """

    seam: str
    pairs: tuple[Meet, ...]
    ends: tuple[int, int]
    first: Cloth
    second: Cloth


@dataclass(frozen=True, eq=False)
class Joined(Thing):
    """Things joined one after another; `what` says what the trade calls it, `how` the way it is sewn.

    `lies` is how it lies in the quilt or block where it comes first, so that pictures show it as drawn.
    `part_sewn` tells where the one seam goes that is not sewn on the whole of both sides; `closes` are the
    two sides that are sewn to each other in the end, the last of the seams.
    """

    what: str
    parts: tuple[JoinPart, ...]
    seams: tuple[Seamed, ...]
    lies: Isometry
    how: How = "row"
    part_sewn: PartSewn | None = None
    closes: tuple[int, int] | None = None

    @property
    def size(self) -> tuple[float, float]:
        """The raw width and height as it is drawn; inches."""
        left, low, right, high = bounds([self.lies.at(p) for p in self.cloth.raw])
        return right - left, high - low

    def neighbours(self, number: int) -> tuple[str, str]:
        """The names of the two things that join number so-and-so joins (from 0)."""
        names = [part.name for part in self.parts for _ in range(part.count)]
        return names[number], names[number + 1]


@dataclass(frozen=True, eq=False)
class PaperSection(Thing):
    """A foundation section; `scraps` are the piles of its scraps in the order of their numbers."""

    section: FoundationSection
    scraps: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class Lengths(Thing):
    """Long strips: `strips` of a pile joined end to end (one alone is not), then cut into lengths.

    Each of `gives` has a name, the length it is cut and the exact size it is trimmed to.
    """

    strip: str
    strips: int
    gives: tuple[LongPiece, ...]


@dataclass(frozen=True)
class LongPiece:
    """One length cut from long strips: cut longer, trimmed to `exact` x `height` later."""

    name: str
    cut: Length
    exact: Length
    height: Length


@dataclass(frozen=True, eq=False)
class OfLength(Thing):
    """One of the lengths that a `Lengths` gives; it comes ready from there."""

    piece: LongPiece


@dataclass(frozen=True, eq=False)
class Bound(Thing):
    """A binding strip: strips of a pile joined end to end at 45 degrees."""

    strip: str
    strips: int
    size: tuple[float, float]


@dataclass(frozen=True, eq=False)
class Backed(Thing):
    """A backing: panels of a pile joined along their length, the seams pressed open."""

    panel: str
    panels: int


@dataclass(frozen=True)
class Made:
    """A thing, and how it lies in the drawing it was made for."""

    thing: Thing
    place: Isometry
