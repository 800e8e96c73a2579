"""Borders and long sashes: reserved first, cut long, trimmed to the top.

They are joined end to end from strips across the cloth, or where the design says so cut lengthwise.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from piecewright.bench.cloth import Cloth
from piecewright.bench.joining import Joining, join
from piecewright.bench.stacking import slice_apart
from piecewright.bench.truing import Allowed, true_up
from piecewright.design.drawing import InLine, Patch, Placed
from piecewright.finishing.finishing import long_strips
from piecewright.geometry.polygon import bounds
from piecewright.measure.length import Length
from piecewright.measure.rounding import exactly
from piecewright.measure.showing import figure
from piecewright.planning.lengthwise import cut_long, make_lengthwise
from piecewright.planning.making import Workshop, outline_place
from piecewright.planning.things import Lengths, LongPiece, Made, OfLength
from piecewright.sewing.stations import Station

MANY = 8  # More equal lengths than this are each joined from strips of their own.


def long_patches(order: InLine | Placed) -> list[Placed]:
    """The patches of the whole top that are put together from several strips, or cut lengthwise."""
    if isinstance(order, InLine):
        return [patch for part in order.parts for patch in long_patches(part)]
    is_long = isinstance(order.drawing, Patch) and (order.drawing.may_piece or order.drawing.lengthwise)
    return [order] if is_long else []


def make_lengths(shop: Workshop, order: InLine, widths: dict[str, Length]) -> None:
    """Makes every long strip of the top; afterwards the workshop knows how each lies."""
    groups: dict[tuple[str, Length], list[Placed]] = {}
    for placed in long_patches(order):
        assert isinstance(placed.drawing, Patch)
        long, short = _sizes(placed)
        if placed.drawing.lengthwise:
            make_lengthwise(shop, placed, long + shop.workroom.take_up * 2, short + shop.workroom.take_up * 2)
            continue
        fabric = shop.cloths.fabric_of[placed.drawing.role]
        groups.setdefault((fabric, short + shop.workroom.take_up * 2), []).append(placed)
    for (fabric, height), patches in groups.items():
        width = widths[fabric]
        if len(patches) <= MANY:
            _one_for_all(shop, fabric, height, patches, width)
        else:
            _one_for_each(shop, fabric, height, patches, width)


def _sizes(placed: Placed) -> tuple[Length, Length]:
    left, low, right, high = bounds(placed.outline)
    sides = sorted((exactly(right - left), exactly(high - low)))
    return sides[1], sides[0]


def _one_for_all(shop: Workshop, fabric: str, height: Length, patches: list[Placed], width: Length) -> None:
    """All lengths are cut from one long strip."""
    exact = tuple(_sizes(p)[0] + shop.workroom.take_up * 2 for p in patches)
    names = [f"{fabric} long strip {k + 1}" for k in range(len(patches))]
    things = _lengths(shop, fabric, height, exact, names, width)
    for placed, thing in zip(patches, things, strict=True):
        shop.lying[id(placed)] = Made(thing, outline_place(thing.cloth, placed))


def _one_for_each(shop: Workshop, fabric: str, height: Length, patches: list[Placed], width: Length) -> None:
    """Every length is cut from its own strips, so that equal ones are alike and counted."""
    known: dict[Length, OfLength] = {}
    for placed in patches:
        exact = _sizes(placed)[0] + shop.workroom.take_up * 2
        if exact not in known:
            name = f"{fabric} long strip {figure(exact, shop.workroom.unit)}"
            (known[exact],) = _lengths(shop, fabric, height, (exact,), [name], width)
        shop.lying[id(placed)] = Made(known[exact], outline_place(known[exact].cloth, placed))


def _lengths(
    shop: Workshop, fabric: str, height: Length, exact: tuple[Length, ...], names: list[str], width: Length
) -> list[OfLength]:
    workroom = shop.workroom
    wanted = long_strips(exact, cut_long(workroom), width, workroom.take_up)
    strip = shop.cut(fabric, width, height, whole_strip=True, reserve=True)
    names = [shop.free_name(name) for name in names]
    pieces = tuple(
        LongPiece(name, cut, length, height)
        for name, cut, length in zip(names, wanted.cut, exact, strict=True)
    )
    whole = shop.free_name(f"{fabric} strips {figure(height, workroom.unit)} end to end")
    cloth = end_to_end(strip.cloth, wanted.count, whole, shop)
    thing = shop.add(
        Lengths(whole, Station.STRIP, cloth, ((strip.name, wanted.count),), strip.name, wanted.count, pieces)
    )
    parts = slice_apart(cloth, cut_lines(pieces, float(height)), shop.seam)
    parts.sort(key=lambda part: min(x for x, _ in part.raw))
    return [
        shop.add(OfLength(piece.name, Station.STRIP, _trued(part, piece, shop), ((thing.name, 1),), piece))
        for piece, part in zip(pieces, parts, strict=False)
    ]


def end_to_end(strip: Cloth, count: int, name: str, shop: Workshop) -> Cloth:
    """So many strips, or panels, joined on their left and right ends."""
    return strip if count == 1 else side_by_side([strip] * count, name, shop)


def side_by_side(panels: Sequence[Cloth], name: str, shop: Workshop) -> Cloth:
    """Panels, or strips, joined on their left and right sides, the seams pressed open."""
    joined = join([Joining(panel, (3,), (1,)) for panel in panels], name, shop.seam)
    return replace(joined, own_seams=tuple(replace(s, pressed=("open",)) for s in joined.own_seams))


def cut_lines(
    pieces: Iterable[LongPiece], height: float
) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Where a long strip is cut into its lengths, from the left."""
    lines, at = [], 0.0
    for piece in pieces:
        at += float(piece.cut)
        lines.append(((at, 0.0), (at, height)))
    return lines


def _trued(part: Cloth, piece: LongPiece, shop: Workshop) -> Cloth:
    allowed = Allowed(float(shop.workroom.ease), float(shop.workroom.trim))
    size = (float(piece.exact), float(piece.height))
    return true_up(part, "edges", size, "trim", shop.seam, allowed)
