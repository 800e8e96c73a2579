"""Cloth with a motif: pieces are cut rough, whole repeats each, then cut down around the motif.

Words: a *rough* piece is so many whole repeats wide and high and is never turned, so that all of a size show
the same picture; it is *cut down* to the piece in the middle of it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from piecewright.bench.cloth import Cloth, piece
from piecewright.bench.steps import CutApart, CutOut, Section, Subcut
from piecewright.cutting.lists.listed import Item, ListedFabric, Motif
from piecewright.cutting.wanted import Supply
from piecewright.design.model import Design
from piecewright.geometry.isometry import moved
from piecewright.geometry.offset import cut_shape
from piecewright.geometry.polygon import Polygon, bounds, grown, placed, rectangle
from piecewright.measure.length import Length, Unit
from piecewright.measure.rounding import exactly
from piecewright.measure.showing import figure, figure_float, show
from piecewright.methods import is_named
from piecewright.methods.strip_set import SET
from piecewright.piecing.cut_shapes import Cutting
from piecewright.piecing.shape_names import shape_name
from piecewright.planning.cut_long import CutLong
from piecewright.planning.record import Record
from piecewright.planning.shape_steps import shape_step
from piecewright.planning.things import Cut, Shaped, Thing, UnitThing
from piecewright.problems import Problem
from piecewright.sewing.stations import Station
from piecewright.workroom.workroom import Workroom


@dataclass(frozen=True, eq=False)
class CutDown(Shaped):
    """A piece that is cut down around the motif of its rough piece."""

    motif: Motif

    @property
    def is_in_the_middle(self) -> bool:
        """Whether one whole motif lies in the middle: an odd number of repeats each way."""
        return all(side // repeat % 2 for side, repeat in self.repeats)

    @property
    def is_trimmed(self) -> bool:
        """Whether a ruler alone cuts it down; any other shape takes a template."""
        return self.what in ("square", "rectangle")

    @property
    def repeats(self) -> tuple[tuple[Length, Length], ...]:
        """Each side of the rough piece that is whole repeats, and the repeat."""
        cutting, motif = self.cutting, self.motif
        sides = ((cutting.width, motif.across), (cutting.height, motif.along))
        return tuple((side, repeat) for side, repeat in sides if repeat)

    def size_words(self, unit: Unit) -> str:
        """What it measures once it is cut down, at its widest and highest."""
        left, low, right, high = bounds(self.cloth.raw)
        sides = dict.fromkeys(figure_float(side, unit) for side in (right - left, high - low))
        return f"{' x '.join(sides)} {unit}"


def motifs_of(design: Design) -> dict[str, Motif]:
    """The fabrics of a design that have a motif, by their keys."""
    return {f.key: Motif(f.repeat_across, f.repeat_along) for f in design.fabrics if f.has_motif}


def rough_size(width: Length, height: Length, motif: Motif) -> tuple[Length, Length]:
    """The whole repeats that hold a piece, as a cutting list has them."""
    item = Item("rough", width, height, 1)
    (demand,) = ListedFabric("", (item,), Supply("", width, width), motif=motif).demands
    return demand.width, demand.height


def around_motif(lying: Polygon, motif: Motif) -> Cutting:
    """A shape cut from the middle of a rough piece."""
    left, low, right, high = bounds(lying)
    wide, tall = rough_size(exactly(right - left), exactly(high - low), motif)
    off = ((float(wide) - right - left) / 2, (float(tall) - high - low) / 2)
    return Cutting("template", wide, tall, (placed(lying, moved(*off)),))


def strips_of_sets(things: Mapping[str, Thing]) -> frozenset[str]:
    """The strips of strip sets: cut across where the set is, not where a motif is."""
    made = (thing for thing in things.values() if isinstance(thing, UnitThing))
    return frozenset(name for t in made if is_named(t.recipe.method, SET) for name, _ in t.needs)


def cut_down(record: Record, thing: Cut | Shaped, motif: Motif, width: Length) -> tuple[Thing, ...]:
    """The rough piece for a piece of a cloth so wide, and the piece as it is cut down from it.

    Strips, which run through all motifs, stay as they are, and so does what is whole repeats already.
    """
    if isinstance(thing, Shaped):
        return _down(record, thing.name, thing.cloth, thing.fabric, thing.stands, motif)
    if thing.whole_strip:
        # Strips come last, after the rough pieces: what is cut above those would shift the motifs.
        return (replace(thing, reserve=False),)
    size = rough_size(thing.width, thing.height, motif)
    if isinstance(thing, CutLong):
        # A border keeps to whole repeats, so that what is beside it does; truing up takes off the rest.
        return (replace(thing, width=size[0] if size[0] <= width else thing.width, height=size[1]),)
    if thing.reserve or size[0] > width or size == (thing.width, thing.height):
        return (replace(thing, may_turn=False),)
    return _down(record, thing.name, thing.cloth, thing.fabric, not thing.may_turn, motif)


def _down(
    record: Record, name: str, cloth: Cloth, fabric: str, stands: bool, motif: Motif
) -> tuple[Thing, ...]:
    lying, take_up = cloth.raw, float(record.workroom.take_up)
    cutting = around_motif(lying, motif)
    sizes = (figure(side, record.workroom.unit) for side in (cutting.width, cutting.height))
    rough = Cut(
        f"{fabric} rough {' x '.join(sizes)}",
        Station.PIECE,
        piece(fabric, rectangle(float(cutting.width), float(cutting.height)), record.seam),
        (),
        fabric,
        cutting.width,
        cutting.height,
        may_turn=False,
    )
    shape, needs = cut_shape(grown(lying, -take_up), take_up), ((rough.name, 1),)
    what = shape_name(shape.net)
    return rough, CutDown(name, Station.PIECE, cloth, needs, fabric, what, shape, stands, cutting, motif)


def motif_step(thing: CutDown, count: int, workroom: Workroom) -> Subcut | CutApart | CutOut:
    """Cuts so many pieces down; a rectangle is named from its own corner afterwards, as strips need it."""
    if not thing.is_trimmed:
        return shape_step(thing, count, workroom)
    _, _, width, height = bounds(thing.cloth.raw)
    ((rough, _),) = thing.needs
    one = Section(gives=thing.name, width=exactly(width), height=exactly(height), count=1)
    return Subcut(takes=rough, sections=(one,), times=count)


def motif_notes(
    design: Design, things: Mapping[str, Thing], counts: Mapping[str, int]
) -> tuple[Problem, ...]:
    """For each cloth with a motif, what is cut rough and to what it is cut down, and what is not."""
    notes = []
    for key, motif in motifs_of(design).items():
        down = [t for t in things.values() if isinstance(t, CutDown) and t.fabric == key and counts[t.name]]
        told = "; ".join(_told(thing, counts[thing.name], design.unit) for thing in down)
        if told:
            notes.append(Problem(f"for the motif {told}.", f"cloth {key!r}", weight="note"))
        cuts = [t for t in things.values() if isinstance(t, Cut) and t.fabric == key and counts[t.name]]
        strips = [thing for thing in cuts if not _is_rough(thing, motif)]
        if strips:
            names = ", ".join(thing.name for thing in strips)
            what = f"strips run through all motifs: {names}."
            in_sets = strips_of_sets(things) & {thing.name for thing in strips}
            do = "Those of strip sets need not: pin another way in [choices]." if in_sets else ""
            notes.append(Problem(what, f"cloth {key!r}", do, "note"))
    return tuple(notes)


def _told(thing: CutDown, count: int, unit: Unit) -> str:
    rough = _size_words((thing.cutting.width, thing.cutting.height), unit)
    where = "with the motif in the middle" if thing.is_in_the_middle else "with the same motifs"
    pieces = f"cut {count} rough pieces {rough}, each" if count > 1 else f"cut a rough piece {rough}"
    return f"{pieces} {where}; cut down to {thing.size_words(unit)}"


def _size_words(size: tuple[Length, Length], unit: Unit) -> str:
    return f"{figure(size[0], unit)} x {show(size[1], unit)}"


def _is_rough(thing: Cut, motif: Motif) -> bool:
    """Whether a piece is whole repeats of the motif, wherever it is cut across the cloth."""
    size = thing.width, thing.height
    return not (thing.whole_strip or thing.reserve) and rough_size(*size, motif) == size
