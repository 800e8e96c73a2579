"""Patches cut from cloth: rectangles at any angle as such, every other straight-sided shape out of one.

Made while the drawing is read, when it is not yet known how many of a piece the quilt takes; how it is cut
out of which rectangle is settled afterwards (`settle_cuttings`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from math import atan2, degrees
from types import MappingProxyType

from shapely import Polygon as ShapelyPolygon

from piecewright.bench.cloth import LENGTHWISE, piece
from piecewright.bench.grain import OFF_GRAIN
from piecewright.cutting.lists.listed import Motif
from piecewright.design.drawing import Patch
from piecewright.geometry.isometry import Isometry, turned
from piecewright.geometry.matching import outline_turns
from piecewright.geometry.offset import CutShape, cut_shape
from piecewright.geometry.point import Point, distance, left_of, near, scale, sub, unit
from piecewright.geometry.polygon import Line, Polygon, clean, grown, placed
from piecewright.measure.length import Length, inches
from piecewright.measure.rounding import exactly
from piecewright.measure.tolerance import AS_DRAWN, WELD
from piecewright.methods.strip_rows import homed
from piecewright.piecing.cut_shapes import CutRules, cutting_for, lying_best, lying_so
from piecewright.piecing.laying import lay_on_patches
from piecewright.piecing.shape_names import shape_figures, shape_name
from piecewright.piecing.straight_grain import QUARTER, grain_of, outside_edges
from piecewright.planning.counting import count_things
from piecewright.planning.motif import cut_down, strips_of_sets
from piecewright.planning.record import Record
from piecewright.planning.things import Cut, Made, Shaped, Thing
from piecewright.problems import Problem, Refused
from piecewright.sewing.stations import Station

NO_MOTIFS: Mapping[str, Motif] = MappingProxyType({})

LONGEST = inches(20)
"""A strip that pieces are cut from in a row is no longer where the width of its cloth is not known."""


@dataclass
class Patches:
    """Makes the pieces for single patches, each distinct one once."""

    record: Record
    _known: dict[tuple[str, int], list[Shaped]] = field(default_factory=dict)

    def made(self, patch: Patch, outside: Iterable[Line] = ()) -> Made:
        """The piece for a patch, and how it lies on it.

        `outside` are the lines on the outside of the block, in the patch's frame: there the piece lies on
        the straight grain where that can be. Raises Refused for an outline that cannot be cut.
        """
        patch = replace(patch, outline=clean(patch.outline, straight=WELD))
        fabric = self.record.cloths.fabric_of[patch.role]
        way = (patch.way if patch.way is not None else LENGTHWISE) if self._stands(fabric) else None
        sides = _rectangle_sides(patch.outline)
        if sides and (way is None or _is_square_to(way, sides[0])):
            return self._rectangle(patch, fabric, way, sides)
        return self._shaped(patch, fabric, way, outside)

    def _stands(self, fabric: str) -> bool:
        return fabric in self.record.cloths.one_way

    def _rectangle(self, patch: Patch, fabric: str, way: float | None, sides: tuple[Point, Point]) -> Made:
        """A rectangle at any angle; its print, if it has a way, runs along one side or the other."""
        across, along = (distance(side, (0.0, 0.0)) for side in sides)
        if (way is None and across > along) or (way is not None and _off(way, _angle(sides[0]), 180.0) < 45):
            across, along = along, across
        margin = self.record.workroom.take_up * 2
        size = exactly(across) + margin, exactly(along) + margin
        thing = self.record.cut(fabric, *size, may_turn=way is None)
        shown = replace(patch, role=fabric)
        place = lay_on_patches(thing.cloth, (shown,), frozenset() if way is None else frozenset((fabric,)))
        return Made(thing, _found(place, thing))

    def _shaped(self, patch: Patch, fabric: str, way: float | None, outside: Iterable[Line]) -> Made:
        outline = patch.outline
        grain = grain_of(outline, outside_edges(outline, outside)) if way is None else way
        known = self._known.setdefault((fabric, len(outline)), [])
        for thing in known:
            place = _laid(thing, outline, grain)
            if place is not None:
                return Made(thing, place)
        raw = placed(_cut_shape(patch, self._take_up).raw, turned(LENGTHWISE - grain))
        lying = lying_best(raw) if way is None else lying_so(raw)
        thing = self._new(patch, fabric, lying, way is not None)
        place = _laid(thing, outline, grain)
        if place is None:
            # It was drawn so much awry that it must not be made straight.
            thing = self._new(patch, fabric, homed(raw), way is not None)
            place = _found(_laid(thing, outline, grain), thing)
        known.append(self.record.add(thing))
        return Made(thing, place)

    def _new(self, patch: Patch, fabric: str, lying: Polygon, stands: bool) -> Shaped:
        shape = cut_shape(grown(lying, -self._take_up), self._take_up)
        what = shape_name(shape.net)
        name = self.record.free_name(f"{fabric} {what} {shape_figures(lying, self.record.workroom.unit)}")
        cloth = piece(fabric, lying, self.record.seam)
        cutting = cutting_for(lying, 1, rules_for(self.record, fabric, stands, LONGEST))
        return Shaped(name, Station.PIECE, cloth, (), fabric, what, shape, stands, cutting)

    @property
    def _take_up(self) -> float:
        return float(self.record.workroom.take_up)


def _cut_shape(patch: Patch, take_up: float) -> CutShape:
    """The patch with its allowances; raises Refused where they meet one another."""
    try:
        shape = cut_shape(patch.outline, take_up)
    except Refused as refused:
        raise Refused(
            *(Problem(p.what, p.where or f"a patch of {patch.role!r}", p.do) for p in refused.problems)
        ) from refused
    if len(shape.raw) != len(shape.net) or not ShapelyPolygon(shape.raw).is_valid:
        raise Refused(
            Problem(
                f"a patch with room for its seam allowances was expected, in the outline of one of "
                f"{patch.role!r} those of two edges meet",
                do="Divide that patch, or draw the notch wider.",
            )
        )
    return shape


def rules_for(record: Record, fabric: str, stands: bool, width: Length) -> CutRules:
    """What cutting pieces of a fabric so wide must keep to."""
    return CutRules(
        may_turn=not stands,
        room=float(width),
        ruler=record.workroom.ruler,
        most=record.cloths.alike.get(fabric),
    )


def settle_cuttings(
    record: Record,
    ends: Mapping[str, int],
    widths: Mapping[str, Length],
    motifs: Mapping[str, Motif] = NO_MOTIFS,
) -> None:
    """Chooses how pieces are cut now that all things are on record, and puts their rectangles there.

    `ends` are the piles that the plan ends in; `widths` the usable width of every cloth. Pieces of cloths
    with `motifs` are cut down from rough ones.
    """
    counts = count_things(record.things, ends)
    settled: dict[str, Thing] = {}
    strips = strips_of_sets(record.things)
    for thing in list(record.things.values()):
        motif = motifs.get(thing.fabric) if isinstance(thing, Cut | Shaped) else None
        if isinstance(thing, Cut | Shaped) and motif and thing.name not in strips:
            width = widths.get(thing.fabric, LONGEST)
            for one in cut_down(record, thing, motif, width):
                settled.setdefault(one.name, one)
            continue
        if isinstance(thing, Shaped):
            start, thing = _settled(record, thing, counts[thing.name], widths.get(thing.fabric, LONGEST))
            settled.setdefault(start.name, start)
        settled.setdefault(thing.name, thing)
    record.things = settled


def _settled(record: Record, thing: Shaped, count: int, width: Length) -> tuple[Cut, Shaped]:
    rules = rules_for(record, thing.fabric, thing.stands, width)
    cutting = cutting_for(thing.cloth.raw, max(1, count), rules)
    size = cutting.width, cutting.height
    start = record.cut(thing.fabric, *size, may_turn=not thing.stands, slack=0.0)
    return start, replace(thing, cutting=cutting, needs=((start.name, 1),))


def _rectangle_sides(outline: Polygon) -> tuple[Point, Point] | None:
    """The first two sides of a rectangle as vectors; None for any other shape."""
    if len(outline) != 4:
        return None
    a, b, c, d = outline
    up = scale(left_of(unit(sub(b, a))), distance(b, c))
    is_rectangle = near(sub(c, b), up, AS_DRAWN) and near(sub(d, a), up, AS_DRAWN)
    return (sub(b, a), sub(c, b)) if is_rectangle else None


def _angle(way: Point) -> float:
    return degrees(atan2(way[1], way[0]))


def _off(one: float, other: float, period: float) -> float:
    """How far two angles are apart, in degrees, where each repeats every so many."""
    off = (one - other) % period
    return min(off, period - off)


def _is_square_to(way: float, side: Point) -> bool:
    """Whether a print runs along a rectangle's sides."""
    return _off(way, _angle(side), QUARTER) < OFF_GRAIN


def _laid(thing: Shaped, outline: Polygon, grain: float) -> Isometry | None:
    """How a piece lies on an outline so that its grain, or its print, runs as it should there."""
    period = 360.0 if thing.stands else QUARTER
    turns = outline_turns(thing.cloth.net, outline, AS_DRAWN)
    return next((p for p in turns if _off(LENGTHWISE + p.degrees, grain, period) < OFF_GRAIN), None)


def _found(place: Isometry | None, thing: Thing) -> Isometry:
    if place is None:
        raise Refused(Problem(f"the piece {thing.name!r} does not fit the patch it was cut for"))
    return place
