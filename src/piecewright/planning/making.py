"""Making things from drawings: each distinct piece, unit, sub-assembly, block and row once.

The workshop reads the drawing from the leaves up. It sews every thing on the bench's own kernel, so that
sides and turns are found there and not assumed. What looks alike, up to a turn, is the same thing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from piecewright.bench.cloth import Cloth
from piecewright.design.drawing import Drawing, Group, Patch, Placed
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.matching import outline_turns
from piecewright.geometry.polygon import Line, edges
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.piecing.laying import in_fabrics, lay_on_patches
from piecewright.piecing.looks import look
from piecewright.piecing.piece_block import Pieced, piece_block, units_in
from piecewright.piecing.tree import Piecing, Sewn, patches_of
from piecewright.planning.on_paper import OnPaper
from piecewright.planning.patches import Patches
from piecewright.planning.record import Record
from piecewright.planning.sewing_together import sewn_around, sewn_in_line
from piecewright.planning.things import Made, Thing
from piecewright.planning.units import There, Units
from piecewright.problems import Problem, Refused
from piecewright.sewing.stations import Station

ON_PAPER = "foundation"


@dataclass(frozen=True)
class BlockWish:
    """How a block would rather be sewn (see `Block.prefer`), and how many times the quilt has it."""

    prefer: str = ""
    times: int = 1


@dataclass
class Workshop(Record):
    """Makes things, each once; `things` holds them in the order in which they can be made.

    `there` are units that are made already; `wishes` are about blocks, by their key. `remarks` are what the
    maker should know about how a block is sewn.
    """

    there: tuple[There, ...] = ()
    wishes: Mapping[str, BlockWish] = field(default_factory=dict)
    units: Units = field(init=False)
    patches: Patches = field(init=False)
    on_paper: OnPaper = field(init=False)
    lying: dict[int, Made] = field(default_factory=dict)
    remarks: list[Problem] = field(default_factory=list)
    _leaves: dict[int, Group] = field(default_factory=dict)
    _looks: dict[tuple[object, ...], Thing] = field(default_factory=dict)
    _drawings: dict[int, tuple[Drawing, Made]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.units = Units(self, self.there)
        self.patches = Patches(self)
        self.on_paper = OnPaper(self)

    def made(self, drawing: Drawing, block: str | None = None, outside: Sequence[Line] = ()) -> Made:
        """A drawing as a thing: a patch, a unit or a block; `outside` are the lines round the block."""
        if id(drawing) not in self._drawings:
            self._drawings[id(drawing)] = (drawing, self._make(drawing, block, outside))
        return self._drawings[id(drawing)][1]

    @property
    def drawn(self) -> frozenset[int]:
        """The identities of the drawings that have been made."""
        return frozenset(self._drawings)

    def pieced(self, drawing: Group, block: str | None) -> Pieced | None:
        """How a block goes together; None where it is sewn on paper."""
        wish = self.wishes.get(block or "", BlockWish())
        if wish.prefer == ON_PAPER and self.on_paper.why_not(drawing) is None:
            return None
        return piece_block(drawing, "" if wish.prefer == ON_PAPER else wish.prefer, wish.times)

    def _make(self, drawing: Drawing, block: str | None, outside: Sequence[Line]) -> Made:
        if isinstance(drawing, Patch):
            return self.patches.made(drawing, outside)
        if self._is_leaf(drawing):
            return self.units.made(drawing, block)
        pieced = self.pieced(drawing, block)
        if pieced is None:
            return self.on_paper.made(drawing)
        self._remark(drawing, block)
        if isinstance(pieced.tree, Placed):
            return self._leaf(pieced.tree, block, drawing)
        return self.sewn(pieced.tree, Station.BLOCK, drawing, block)

    def _is_leaf(self, drawing: Group) -> bool:
        """Whether a group is one of the units that blocks are taken apart into."""
        return id(drawing) in self._leaves

    def _remark(self, drawing: Group, block: str | None) -> None:
        if self.wishes.get(block or "", BlockWish()).prefer == ON_PAPER:
            self.remarks += self.on_paper.why_not(drawing) or ()

    def sewn(self, tree: Sewn, station: Station, drawing: Group, block: str | None) -> Made:
        """A part of a block, sewn together; what looks alike elsewhere is made once."""
        patches = in_fabrics(patches_of(tree), self.cloths.fabric_of)
        key: tuple[object, ...] = ("sewn", look(patches), block if self._has_pins(block) else None)
        if key not in self._looks:
            parts = [self.part(part, drawing, block) for part in tree.parts]
            title = drawing.name if station is Station.BLOCK else f"{drawing.name} {tree.name}"
            self._looks[key] = self._together(tree, parts, title, station).thing
        thing = self._looks[key]
        place = lay_on_patches(thing.cloth, patches, frozenset())
        if place is None:
            raise Refused(Problem(f"{thing.name!r} does not come out as it was drawn"))
        return Made(thing, place)

    def _together(self, tree: Sewn, parts: list[Made], title: str, station: Station) -> Made:
        if tree.how == "ring":
            return sewn_around(self, parts, title, tree.name, station)
        return sewn_in_line(self, parts, title, tree.name, station, tree.how)

    def _has_pins(self, block: str | None) -> bool:
        return any(of == block for _, of in self.cloths.pins) if block else False

    def part(self, part: Piecing, drawing: Group, block: str | None) -> Made:
        """A part of a block where it lies in it."""
        if isinstance(part, Sewn):
            return self.sewn(part, Station.ASSEMBLY, drawing, block)
        return self._leaf(part, block, drawing)

    def _leaf(self, part: Placed, block: str | None, drawing: Group) -> Made:
        if isinstance(part.drawing, Group):
            self._leaves[id(part.drawing)] = part.drawing
        back = part.place.back()
        outside = [(back.at(a), back.at(b)) for a, b in edges(drawing.outline)]
        inner = self.made(part.drawing, block, outside)
        return Made(inner.thing, part.place.after(inner.place))

    def choose_ways(self, top: Group, block_of: Mapping[int, str]) -> None:
        """Weighs the ways for all units of the whole top at once; raises Refused where one cannot be made."""

        def units_of(drawing: Group) -> tuple[str | None, list[Group]]:
            block = block_of.get(id(drawing))
            return block, self.units_in(drawing, block)

        self.units.choose_ways(top, units_of)

    def units_in(self, drawing: Group, block: str | None) -> list[Group]:
        """The units of a block, each as often as it comes; none where it is sewn on paper or cannot be."""
        wish = self.wishes.get(block or "", BlockWish())
        if wish.prefer != ON_PAPER:
            return units_in(drawing, wish.prefer, wish.times)
        return units_in(drawing, "", wish.times) if self.on_paper.why_not(drawing) else []

    def placed(self, part: Placed, block: str | None, straight: Sequence[Line] = ()) -> Made:
        """A child of the quilt where it lies in it; a single patch has the straight grain on those lines."""
        if id(part) in self.lying:
            return self.lying[id(part)]
        back = part.place.back()
        outside = [(back.at(a), back.at(b)) for a, b in straight] if isinstance(part.drawing, Patch) else ()
        inner = self.made(part.drawing, block, outside)
        return Made(inner.thing, part.place.after(inner.place))

    def joined(self, parts: list[Made], name: str, what: str, station: Station) -> Made:
        """Parts joined one after another, in the order given; the sides are found from how they lie."""
        return sewn_in_line(self, parts, name, what, station)


def outline_place(cloth: Cloth, placed: Placed) -> Isometry:
    """How a plain long strip lies on its patch: by its outline alone."""
    for place in outline_turns(cloth.net, placed.outline, AS_DRAWN):
        return place
    raise Refused(Problem("a long strip does not have the size that was drawn"))
