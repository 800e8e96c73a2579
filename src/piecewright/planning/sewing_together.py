"""Things sewn together as they lie: in rows, set in, or around one another with the first seam closed last.

The sides are found from how the parts lie, and the joins are done on the bench's own kernel.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from piecewright.bench.cloth import Cloth
from piecewright.bench.joining import Joining, Meet, close, join, meetings_closed, meetings_of
from piecewright.bench.steps import JoinPart
from piecewright.geometry.polygon import Polygon, placed
from piecewright.piecing.sides import SharedPath, closing_sides, ring_seam, shared_path
from piecewright.piecing.tree import How
from piecewright.planning.record import Record
from piecewright.planning.things import Joined, Made, Needs, Seamed
from piecewright.sewing.stations import Station

Row = list[tuple[str, tuple[int, ...], tuple[int, ...]]]


def sewn_in_line(
    record: Record, parts: Sequence[Made], name: str, what: str, station: Station, how: How = "row"
) -> Made:
    """Parts joined one after another, in the order given, along the paths on which they lie together.

    Where one goes on beyond the other the seam stops at a dot; such parts are joined two at a time.
    """
    paths = [shared_path(_net(one), _net(two)) for one, two in pairwise(parts)]
    if len(parts) > 2 and any(path.stretch for path in paths):
        done = parts[0]
        for number, part in enumerate(parts[1:], 2):
            title, at = (name, station) if number == len(parts) else (f"{name}, {number} parts", _INNER)
            done = sewn_in_line(record, (done, part), title, what, at, how)
        return done
    return _joined(record, parts, paths, name, what, station, how)


def sewn_around(record: Record, parts: Sequence[Made], name: str, what: str, station: Station) -> Made:
    """Parts sewn on around the first one: the first seam in part only, closed when the last is on."""
    centre, first, *others = parts
    partial = ring_seam(_net(centre), _net(first))
    done = _joined(record, (centre, first), [partial], f"{name}, 1 part on", what, _INNER, "ring")
    for number, part in enumerate(others, 2):
        path = shared_path(_net(done), _net(part), partial.line)
        last = number == len(others) + 1
        title, at = (name, station) if last else (f"{name}, {number} parts on", _INNER)
        done = _joined(record, (done, part), [path], title, what, at, "ring", closes=last)
    return done


_INNER = Station.ASSEMBLY


def _net(made: Made) -> Polygon:
    """The net outline where it lies, its sides in the order of the cloth's."""
    return placed(made.thing.cloth.net, made.place)


def _joined(
    record: Record,
    parts: Sequence[Made],
    paths: Sequence[SharedPath],
    name: str,
    what: str,
    station: Station,
    how: How,
    closes: bool = False,
) -> Made:
    title = record.free_name(name)
    rows: Row = [
        (part.thing.name, entry, leaving)
        for part, entry, leaving in zip(
            parts, [(), *(p.entry for p in paths)], [*(p.exit for p in paths), ()], strict=True
        )
    ]
    joinings = [
        Joining(part.thing.cloth, entry, leaving, piled)
        for part, (piled, entry, leaving) in zip(parts, rows, strict=True)
    ]
    stretch = paths[0].stretch if len(paths) == 1 else None
    cloth = join(joinings, title, record.seam, stretch)
    seams = tuple(
        _seamed(f"{title}.{k}", one, two, met)
        for k, ((one, two), met) in enumerate(
            zip(pairwise(joinings), meetings_of(joinings, stretch), strict=True)
        )
    )
    lips = closing_sides(cloth.net) if closes else None
    if lips:
        seam = f"{title}.close{len(cloth.own_seams)}"
        seams = (*seams, _closed(seam, cloth, lips))
        cloth = close(cloth, lips, seam, record.seam)
    part_sewn = paths[0].part_sewn if len(paths) == 1 else None
    needs: Needs = tuple(Counter(piled for piled, _, _ in rows).items())
    thing = Joined(
        title, station, cloth, needs, what, _run_lengths(rows), seams, parts[0].place, how, part_sewn, lips
    )
    return Made(record.add(thing), parts[0].place)


def _seamed(name: str, one: Joining, two: Joining, met: tuple[Meet, ...]) -> Seamed:
    leaving = sum(len(one.cloth.ends_on(side)) for side in one.exit)
    entering = sum(len(two.cloth.ends_on(side)) for side in two.entry)
    return Seamed(name, met, (leaving, entering), one.cloth, two.cloth)


def _closed(name: str, cloth: Cloth, lips: tuple[int, int]) -> Seamed:
    ends = (len(cloth.ends_on(lips[0])), len(cloth.ends_on(lips[1])))
    return Seamed(name, meetings_closed(cloth, lips), ends, cloth, cloth)


def _run_lengths(rows: Row) -> tuple[JoinPart, ...]:
    """Equal neighbours written once with their count."""
    written: list[JoinPart] = []
    for name, entry, leaving in rows:
        part = JoinPart(name=name, entry=entry, exit=leaving)
        if written and (written[-1].name, written[-1].entry, written[-1].exit) == (name, entry, leaving):
            written[-1] = JoinPart(name=name, entry=entry, exit=leaving, count=written[-1].count + 1)
        else:
            written.append(part)
    return tuple(written)
