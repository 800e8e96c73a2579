"""Making things from drawings: each distinct piece, unit, sub-assembly, block and row once.

The workshop reads the drawing from the leaves up. It sews every thing on the bench's own kernel, so that
sides and turns are found there and not assumed. What looks alike, up to a turn, is the same thing.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from itertools import pairwise

from piecewright.bench.cloth import Cloth
from piecewright.bench.joining import Joining, Meet, join, meetings_of
from piecewright.bench.steps import JoinPart
from piecewright.design.drawing import Drawing, InLine, Patch, Placed
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.matching import outline_turns
from piecewright.geometry.point import near
from piecewright.geometry.polygon import area, bounds
from piecewright.measure.rounding import exactly
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.kinds import recognise
from piecewright.piecing.gathering import gathered
from piecewright.piecing.laying import in_fabrics, lay_on_patches
from piecewright.piecing.looks import look
from piecewright.piecing.taking_apart import take_apart
from piecewright.planning.record import Record
from piecewright.planning.things import (
    Joined,
    Made,
    Needs,
    Seamed,
    Thing,
)
from piecewright.planning.units import There, Units
from piecewright.problems import Problem, Refused
from piecewright.sewing.stations import Station


@dataclass
class Workshop(Record):
    """Makes things, each once; `things` holds them in the order in which they can be made.

    `there` are units that are made already.
    """

    there: tuple[There, ...] = ()
    units: Units = field(init=False)
    lying: dict[int, Made] = field(default_factory=dict)
    _looks: dict[tuple[object, ...], Thing] = field(default_factory=dict)
    _drawings: dict[int, tuple[Drawing, Made]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.units = Units(self, self.there)

    def made(self, drawing: Drawing, block: str | None = None) -> Made:
        """A drawing as a thing: a patch, a unit or a block."""
        if id(drawing) not in self._drawings:
            self._drawings[id(drawing)] = (drawing, self._make(drawing, block))
        return self._drawings[id(drawing)][1]

    @property
    def drawn(self) -> frozenset[int]:
        """The identities of the drawings that have been made."""
        return frozenset(self._drawings)

    def _make(self, drawing: Drawing, block: str | None) -> Made:
        if isinstance(drawing, Patch):
            return self._patch(drawing)
        if recognise(drawing) is not None:
            return self.units.made(drawing, block)
        line = take_apart(gathered(drawing))
        if isinstance(line, Placed):
            inner = self.made(line.drawing, block)
            return Made(inner.thing, line.place.after(inner.place))
        return self.line_of_block(line, Station.BLOCK, drawing.name, block)

    def _patch(self, patch: Patch) -> Made:
        """A patch of straight-sided cloth, cut with the seam allowance all round."""
        left, low, right, high = bounds(patch.outline)
        if len(patch.outline) != 4 or abs((right - left) * (high - low) - area(patch.outline)) > AS_DRAWN:
            raise Refused(
                Problem(
                    f"a patch of {patch.role!r} is not a rectangle, and not part of a unit that is known",
                    do="Draw it as part of a half-square triangle, an hourglass or a flying goose.",
                )
            )
        fabric = self.cloths.fabric_of[patch.role]
        upright = patch.way is None or round(patch.way) % 180 == 90
        across, along = (right - left, high - low) if upright else (high - low, right - left)
        one_way = fabric in self.cloths.one_way
        if not one_way and across > along:
            across, along = along, across
        margin = self.workroom.take_up * 2
        thing = self.cut(fabric, exactly(across) + margin, exactly(along) + margin, may_turn=not one_way)
        place = lay_on_patches(thing.cloth, in_fabrics([patch], self.cloths.fabric_of), self.cloths.one_way)
        if place is None:
            raise Refused(Problem(f"the piece {thing.name!r} does not fit the patch it was cut for"))
        return Made(thing, place)

    def line_of_block(self, line: InLine, station: Station, name: str, block: str | None) -> Made:
        """A line inside a block; what looks alike elsewhere is made once."""
        patches = in_fabrics(_patches_of(line), self.cloths.fabric_of)
        key: tuple[object, ...] = ("line", look(patches), block if self._has_pins(block) else None)
        if key not in self._looks:
            parts = [self.placed(part, name, block) for part in line.parts]
            title = name if station is Station.BLOCK else f"{name} {line.name}"
            self._looks[key] = self.joined(parts, title, line.name, station).thing
        thing = self._looks[key]
        place = lay_on_patches(thing.cloth, patches, frozenset())
        if place is None:
            raise Refused(Problem(f"{thing.name!r} does not come out as it was drawn"))
        return Made(thing, place)

    def _has_pins(self, block: str | None) -> bool:
        return any(of == block for _, of in self.cloths.pins) if block else False

    def placed(self, part: InLine | Placed, name: str, block: str | None) -> Made:
        """A part of a line where it lies in the line's own drawing."""
        if isinstance(part, InLine):
            return self.line_of_block(part, Station.ASSEMBLY, name, block)
        if id(part) in self.lying:
            return self.lying[id(part)]
        inner = self.made(part.drawing, block)
        return Made(inner.thing, part.place.after(inner.place))

    def joined(self, parts: list[Made], name: str, what: str, station: Station) -> Made:
        """Parts joined one after another, in the order given; the sides are found from how they lie."""
        entries: list[tuple[int, ...]] = [()]
        exits: list[tuple[int, ...]] = []
        for one, two in pairwise(parts):
            leaving, entering = _shared_side(one, two)
            exits.append((leaving,))
            entries.append((entering,))
        exits.append(())
        title = self.free_name(name)
        rows = zip(parts, entries, exits, strict=True)
        joinings = [Joining(p.thing.cloth, e, x, p.thing.name) for p, e, x in rows]
        cloth = join(joinings, title, self.seam)
        seams = tuple(
            _seamed(f"{title}.{k}", one, two, met)
            for k, ((one, two), met) in enumerate(zip(pairwise(joinings), meetings_of(joinings), strict=True))
        )
        join_parts = _run_lengths(
            [(p.thing.name, e, x) for p, e, x in zip(parts, entries, exits, strict=True)]
        )
        needs: Needs = tuple(Counter(p.thing.name for p in parts).items())
        thing = self.add(Joined(title, station, cloth, needs, what, join_parts, seams, parts[0].place))
        return Made(thing, parts[0].place)


def _patches_of(line: InLine | Placed) -> tuple[Patch, ...]:
    if isinstance(line, Placed):
        return tuple(patch.placed(line.place) for patch in line.drawing.patches)
    return tuple(patch for part in line.parts for patch in _patches_of(part))


def _shared_side(one: Made, two: Made) -> tuple[int, int]:
    """The sides on which two neighbours lie together; raises Refused where they do not."""
    sides = [(one.place.at(a), one.place.at(b)) for a, b in one.thing.cloth.sides]
    others = [(two.place.at(a), two.place.at(b)) for a, b in two.thing.cloth.sides]
    for k, (a, b) in enumerate(sides):
        for j, (c, d) in enumerate(others):
            if near(a, d, AS_DRAWN) and near(b, c, AS_DRAWN):
                return k, j
    raise Refused(Problem(f"{one.thing.name!r} and {two.thing.name!r} have no whole side in common"))


def _seamed(name: str, one: Joining, two: Joining, met: tuple[Meet, ...]) -> Seamed:
    leaving = sum(len(one.cloth.ends_on(side)) for side in one.exit)
    entering = sum(len(two.cloth.ends_on(side)) for side in two.entry)
    return Seamed(name, met, (leaving, entering), one.cloth, two.cloth)


def _run_lengths(parts: list[tuple[str, tuple[int, ...], tuple[int, ...]]]) -> tuple[JoinPart, ...]:
    """Equal neighbours written once with their count."""
    written: list[JoinPart] = []
    for name, entry, leaving in parts:
        part = JoinPart(name=name, entry=entry, exit=leaving)
        if written and (written[-1].name, written[-1].entry, written[-1].exit) == (name, entry, leaving):
            written[-1] = JoinPart(name=name, entry=entry, exit=leaving, count=written[-1].count + 1)
        else:
            written.append(part)
    return tuple(written)


def outline_place(cloth: Cloth, placed: Placed) -> Isometry:
    """How a plain long strip lies on its patch: by its outline alone."""
    for place in outline_turns(cloth.net, placed.outline, AS_DRAWN):
        return place
    raise Refused(Problem("a long strip does not have the size that was drawn"))
