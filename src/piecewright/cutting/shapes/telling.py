"""How shapes are cut, in words: in short for the terminal, and sentence by sentence for the cutting table."""

from __future__ import annotations

from math import atan2, degrees, radians, sin

from piecewright.cutting.shapes.outlines import has_hand
from piecewright.cutting.shapes.rows import is_alike_turned, most_in
from piecewright.cutting.shapes.splitting import is_from_squares
from piecewright.cutting.shapes.wanted import CutStrip, ShapeCut, ShapeDemand
from piecewright.geometry.offset import angles_of
from piecewright.geometry.polygon import Line, bounds
from piecewright.measure.length import Length, Unit
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.shape_words import measured_words
from piecewright.workroom.workroom import default_workroom

TIMES = {"once": "once on the diagonal", "twice": "twice on the diagonal"}


def short_words(cut: ShapeCut, unit: Unit) -> str:
    """What to take and how many come of each, in a line.

    >>> from piecewright.cutting.shapes.reading import ShapeEntry, shape_wanted
    >>> from piecewright.cutting.shapes.splitting import cut_from
    >>> from piecewright.cutting.wanted import Supply
    >>> from piecewright.measure.length import inches
    >>> sails = shape_wanted(ShapeEntry("sails", "60 degree triangle", 30, {"h": inches("4 1/4")}))
    >>> print(short_words(cut_from(sails, Supply("sea", inches(40), inches("4 1/2"))), "in"))
    sails: 15 triangles from each of 2 strips 4 1/4 x 39 3/8 in; turn every second one
    """
    demand = cut.demand
    if is_from_squares(demand):
        (strip,) = cut.strips
        over = f", {cut.over} over" if cut.over else ""
        what = _each_of(strip, "square" if strip.width == strip.height else "rectangle")
        size = _size(strip.width, strip.height, unit)
        return f"{demand.name}: {strip.each} {demand.noun}s {what} {size}, cut {TIMES[demand.cut_as]}{over}"
    told = [
        f"{strip.each:,} {_each_of(strip, 'strip')} {_size(strip.height, strip.width, unit)}"
        for strip in cut.strips
    ]
    first, _, rest = told[0].partition(" ")
    many = "s" if cut.strips[0].each > 1 else ""
    turning = "; turn every second one" if _is_turning(cut) else ""
    return f"{demand.name}: {', '.join([f'{first} {demand.noun}{many} {rest}', *told[1:]])}{turning}"


def _each_of(strip: CutStrip, what: str) -> str:
    return f"from 1 {what}" if strip.count == 1 else f"from each of {strip.count:,} {what}s"


def cutting_words(cut: ShapeCut, unit: Unit) -> tuple[str, ...]:
    """How the pieces are cut from their strips or squares, a sentence or two for each thing the hands do."""
    demand = cut.demand
    told = [f"{short_words(cut, unit)}."]
    if not is_from_squares(demand):
        told += _hexagons(cut, unit) if len(demand.outline) == 6 else _slants(cut, unit)
    elif has_hand(demand.outline):
        told.append(_diagonal(cut.strips[0]))
    if has_hand(demand.outline):
        told.append("Keep the right side of the cloth up in every layer: turned over, it is another shape.")
    if demand.turning == "none":
        told.append("The print stands up in every piece: turn none.")
    elif demand.turning == "end for end" and not is_from_squares(demand):
        told.append("Keep the strips level as they lie on the cloth, so that the print runs up and down.")
    return tuple(told)


def turning_words(demand: ShapeDemand, room: Length) -> str:
    """What it costs that no piece may be turned end for end; an empty text where it costs nothing."""
    free = ShapeDemand(demand.name, demand.shape, demand.outline, demand.count, "end for end")
    upright = ShapeDemand(demand.name, demand.shape, demand.outline, demand.count, "none")
    more, fewer = most_in(free, float(room)), most_in(upright, float(room))
    if demand.turning != "none" or more <= fewer or not fewer:
        return ""
    return (
        f"All upright, {_counted(fewer, demand.noun)} come out of a strip; with every second one turned end "
        f"for end it would be {more}."
    )


def _is_turning(cut: ShapeCut) -> bool:
    demand = cut.demand
    is_turned = demand.turning != "none" and len(demand.outline) < 6 and not is_alike_turned(demand.outline)
    return is_turned and max(strip.each for strip in cut.strips) > 1


def _slants(cut: ShapeCut, unit: Unit) -> list[str]:
    strip, noun = cut.strips[0], cut.demand.noun
    told = [_first_cut(strip.cuts[0])] if strip.cuts and _starts_slanted(strip) else []
    below, above = _level_sides(cut)
    if is_alike_turned(cut.demand.outline):
        apart = _measured(below * sin(radians(_lean(cut))), unit)
        again = f"Then cut along the same slant again and again, {apart} apart, measured square across it."
        return [*told, again] if strip.each > 1 else told
    long, short = max(below, above), min(below, above)
    on_other = f", {_measured(short, unit)} on the other" if short > AS_DRAWN else ", to a point on the other"
    told.append(
        f"Each {noun} is {_measured(long, unit)} long on one edge of the strip{on_other}; {_ends(cut)}."
    )
    if strip.each > 1:
        told.append(_between(cut, sharp=short <= AS_DRAWN))
    return told


def _ends(cut: ShapeCut) -> str:
    """At which angles to the strip a piece is cut."""
    high = bounds(cut.demand.outline)[3]
    corners = zip(cut.demand.outline, angles_of(cut.demand.outline), strict=True)
    level = _level_sides(cut)
    base = 0.0 if level[0] >= level[1] else high
    angles = sorted({round(angle, 1) for (_, y), angle in corners if abs(y - base) <= AS_DRAWN})
    told = ["square" if angle == 90 else f"at {angle:.3g} degrees" for angle in angles]
    return f"both ends {told[0]}" if len(told) == 1 else f"one end {told[0]}, the other {told[1]}"


def _between(cut: ShapeCut, sharp: bool) -> str:
    if not _is_turning(cut):
        return "Each begins where the one before it ends on the edge; what lies between two falls away."
    if sharp:
        return "Each cut begins where the one before it ended."
    return "Two that lie side by side share a cut."


def _lean(cut: ShapeCut) -> float:
    """The angle of a parallelogram's slant, in degrees."""
    return angles_of(cut.demand.outline)[0]


def _diagonal(strip: CutStrip) -> str:
    """From which corner to which a rectangle is cut; it matters where its halves have a hand."""
    ((_, start), (_, end)) = strip.cuts[0]
    fro, to = ("upper", "lower") if start > end else ("lower", "upper")
    tall = "upright" if strip.height > strip.width else "on its side"
    return f"Lay each rectangle {tall}; cut it from the {fro} left corner to the {to} right one."


def _measured(size: float, unit: Unit) -> str:
    return measured_words(size, default_workroom(unit))


def _hexagons(cut: ShapeCut, unit: Unit) -> list[str]:
    _, _, across, high = bounds(cut.demand.outline)
    middle = _measured(high / 2, unit)
    return [
        f"Mark a line along the middle of the strip, {middle} from its edge; on it a dot at its left end and "
        f"after every {_measured(across, unit)}.",
        "Cut through every dot at 60 degrees, from edge to edge of the strip; leave all as it lies.",
        "Cut through every dot the other way, at 60 degrees as well: small triangles fall away.",
    ]


def _starts_slanted(strip: CutStrip) -> bool:
    (x0, _), (x1, _) = strip.cuts[0]
    return abs(x0 - x1) > AS_DRAWN and min(x0, x1) <= AS_DRAWN


def _first_cut(line: Line) -> str:
    (x0, y0), (x1, y1) = line
    angle = degrees(atan2(abs(y1 - y0), abs(x1 - x0)))
    corner = "lower" if x0 < x1 else "upper"
    leaning = "right" if x0 < x1 else "left"
    return f"Cut first from the {corner} left corner, at {angle:.3g} degrees, leaning to the {leaning}."


def _level_sides(cut: ShapeCut) -> tuple[float, float]:
    """How long a piece is on the lower and on the upper edge of the strip."""
    outline = cut.demand.outline
    high = bounds(outline)[3]
    levels = ([x for x, y in outline if abs(y - at) <= AS_DRAWN] for at in (0.0, high))
    below, above = (max(xs) - min(xs) for xs in levels)
    return below, above


def _size(one: Length, other: Length, unit: Unit) -> str:
    sides = [_measured(float(side), unit) for side in dict.fromkeys((one, other))]
    return " x ".join([*(side.removesuffix(f" {unit}") for side in sides[:-1]), sides[-1]])


def _counted(count: int, word: str) -> str:
    return f"{count:,} {word}" if count == 1 else f"{count:,} {word}s"
