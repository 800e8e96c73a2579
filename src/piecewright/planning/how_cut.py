"""How shaped pieces are cut, in words: what to take, where to cut, what to mind, and the sums behind it."""

from __future__ import annotations

from math import sqrt

from piecewright.bench.grain import bias_edges
from piecewright.geometry.isometry import folded
from piecewright.geometry.matching import outline_turns
from piecewright.geometry.offset import angles_of
from piecewright.geometry.point import Point, distance
from piecewright.geometry.polygon import Line, Polygon, bounds, edges, placed
from piecewright.measure.length import Length
from piecewright.measure.rounding import round_up
from piecewright.measure.showing import figure, show, show_exact, show_float
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.shape_words import measured_words
from piecewright.planning.motif import CutDown
from piecewright.planning.things import Shaped
from piecewright.workroom.workroom import Workroom

METHOD = {
    "once": "cut once on the diagonal",
    "twice": "cut twice on the diagonal",
    "row": "from strips",
    "template": "by template",
}
REASON = {
    "once": "two at a time without a template, their short sides on the straight grain",
    "twice": "four at a time without a template, their long sides on the straight grain",
    "row": "with a ruler and without a template, little is wasted",
    "template": "no straight cuts across a strip make this shape",
}
SLANTED = {1: "slanted edge", 2: "slanted edges"}


def method_words(thing: Shaped) -> str:
    """The way in a few words."""
    if isinstance(thing, CutDown):
        return "cut down around the motif"
    return METHOD[thing.cutting.how] if thing.each > 1 or thing.cutting.how != "row" else "cut one by one"


def reason_words(thing: Shaped) -> str:
    """Why it is taken."""
    if isinstance(thing, CutDown):
        return "every piece shows the same motif" if thing.is_in_the_middle else "every piece shows the same"
    if thing.cutting.how == "row" and thing.each == 1:
        return (
            "the print stands up in every piece" if thing.stands else "each from a piece that just holds it"
        )
    return REASON[thing.cutting.how]


def says(thing: Shaped, workroom: Workroom) -> tuple[str, ...]:
    """How the pieces are cut, a sentence or two to each thing the hands do."""
    tell = {"once": _once, "twice": _twice, "row": _row, "template": _template}[thing.cutting.how]
    told = _motif(thing, workroom) if isinstance(thing, CutDown) else tell(thing, workroom)
    if _has_hand(thing.shape.net):
        told.append("Cut with the right side of the cloth up: turned over, it would be another shape.")
    if thing.stands:
        told.append("The print runs up: lay every piece of cloth upright, and turn none round.")
    if bias_edges(thing.cloth):
        told.append("Slanted edges stretch: handle the pieces little, and sew them without pulling.")
    return tuple(told)


def sums(thing: Shaped, workroom: Workroom) -> tuple[str, ...]:
    """What each edge that differs is cut, as one would write it down."""
    if isinstance(thing, CutDown) and thing.is_trimmed:
        return tuple(
            f"{side // repeat} x {figure(repeat, workroom.unit)} = {show(side, workroom.unit)} rough"
            for side, repeat in thing.repeats
        )
    differing = {(round(e.finished, 4), round(e.cut, 4)): e for e in thing.shape.edges}
    return tuple(f"edge: {edge.sum_in(workroom.unit)}" for edge in differing.values())


def _once(thing: Shaped, workroom: Workroom) -> list[str]:
    ((a, b),) = thing.cutting.cuts
    size = size_words(thing, workroom)
    if thing.cutting.width == thing.cutting.height:
        told = f"Cut squares {size}; cut each once on the diagonal."
        return [told, *_nearest_mark(thing.cutting.width, workroom, sqrt(2))]
    start, end = ("upper", "lower") if a[1] > b[1] else ("lower", "upper")
    return [f"Cut rectangles {size}; cut each once, from the {start} left corner to the {end} right one."]


def _twice(thing: Shaped, workroom: Workroom) -> list[str]:
    told = f"Cut squares {size_words(thing, workroom)}; cut each twice on the diagonal."
    return [told, *_nearest_mark(thing.cutting.width, workroom, 1.0)]


def _nearest_mark(size: Length, workroom: Workroom, longest: float) -> list[str]:
    """What to cut where no mark of the ruler shows the side of a square; `longest` edges follow it so."""
    if workroom.ruler.shows(size):
        return []
    mark = round_up(float(size), workroom.ruler)
    # Up to a little over is ease, and stays as it is.
    if float(mark - size) * longest <= float(workroom.ease):
        return [f"{show(mark, workroom.unit)} on the ruler is near enough: the little that is over is ease."]
    return [_off_marks(float(size), workroom)]


def _off_marks(size: float, workroom: Workroom) -> str:
    return f"No mark of the ruler shows {show_exact(size, workroom.unit)}: set it as near as you can."


def size_words(thing: Shaped, workroom: Workroom) -> str:
    """What the rectangles measure: on the marks, or in decimals where the ruler has none."""
    width, height = thing.cutting.width, thing.cutting.height
    sides = [measured_words(float(side), workroom) for side in dict.fromkeys((width, height))]
    return " x ".join([*(side.removesuffix(f" {workroom.unit}") for side in sides[:-1]), sides[-1]])


def _row(thing: Shaped, workroom: Workroom) -> list[str]:
    if thing.each == 1:
        return _one_by_one(thing, workroom)
    upright = thing.cutting.height > thing.cutting.width
    high = thing.cutting.width if upright else thing.cutting.height
    long = thing.cutting.height if upright else thing.cutting.width
    wide, reach = measured_words(float(high), workroom), show(long, workroom.unit)
    told = [f"Cut strips {wide} high, {reach} long."]
    if upright:
        told = [f"Cut strips {wide} wide along the length of the cloth, {reach} long; lay them level."]
    if not workroom.ruler.shows(high):
        told.append(_off_marks(float(high), workroom))
    return [*told, *_along_the_strip(thing, workroom)]


def _along_the_strip(thing: Shaped, workroom: Workroom) -> list[str]:
    """Where the cuts of a row lie, seen with its pieces' longer sides below."""
    shape = thing.shape.raw
    angles, sides = angles_of(shape), edges(shape)
    level = [k for k, side in enumerate(sides) if _is_level(side, thing)]
    base = max(level, key=lambda k: distance(*sides[k]))
    long = measured_words(distance(*sides[base]), workroom)
    left = angles[base]
    leaning = "right" if left < 90 else "left"
    told = [f"Cut the left end off at {_degrees(left)}, leaning to the {leaning}."]
    told = told if abs(left - 90) > AS_DRAWN else []
    right = angles[(base + 1) % len(sides)]
    if len(level) == 2 and abs(left + right - 180) < 0.01:
        told.append(f"Cut along the same slant again and again, {long} apart on the edge of the strip: ")
    else:
        slants = " and ".join(dict.fromkeys((_degrees(left), _degrees(right))))
        told.append(
            f"Cut pieces {long} long on one edge of the strip, their ends at {slants}, every second one "
            "turned by half: "
        )
    told[-1] += f"{thing.each} come out of a strip."
    return told


def _is_level(side: Line, thing: Shaped) -> bool:
    """Whether a side runs along the strip."""
    axis = 0 if thing.cutting.height > thing.cutting.width else 1
    return abs(side[0][axis] - side[1][axis]) <= AS_DRAWN


def _degrees(angle: float) -> str:
    acute = min(angle, 180 - angle)
    return f"{acute:.3g} degrees"


def _one_by_one(thing: Shaped, workroom: Workroom) -> list[str]:
    slanted = [cut for cut in thing.cutting.cuts if not _is_upright(cut)]
    told = [
        f"Cut pieces {size_words(thing, workroom)}; cut off what lies beyond the {SLANTED[len(slanted)]}:"
    ]
    told[0] += " " + "; ".join(
        f"from {_spot(a, thing, workroom)} to {_spot(b, thing, workroom)}" for a, b in slanted
    )
    return [f"{told[0]}."]


def _is_upright(cut: Line) -> bool:
    return min(abs(cut[0][0] - cut[1][0]), abs(cut[0][1] - cut[1][1])) <= AS_DRAWN


def _spot(point: Point, thing: Shaped, workroom: Workroom) -> str:
    """A place on the edge of the rectangle."""
    (x, y), width, height = point, float(thing.cutting.width), float(thing.cutting.height)
    at_side = {0.0: "left", width: "right"}
    at_end = {0.0: "lower", height: "upper"}
    side = next((word for at, word in at_side.items() if abs(x - at) <= AS_DRAWN), "")
    end = next((word for at, word in at_end.items() if abs(y - at) <= AS_DRAWN), "")
    if side and end:
        return f"the {end} {side} corner"
    if end:
        return f"{measured_words(x, workroom)} from the left on the {end} edge"
    return f"{measured_words(y, workroom)} from below on the {side} edge"


def _template(thing: Shaped, workroom: Workroom) -> list[str]:
    around = ", ".join(measured_words(edge.cut, workroom) for edge in thing.shape.edges)
    cutting, unit = thing.cutting, workroom.unit
    size = f"{figure(cutting.width, unit)} x {show(cutting.height, unit)}"
    return [
        f"Make a template of the shape as it is cut; round it its edges measure {around}.",
        f"Cut rectangles {size}, so that they just hold it, its arrow along the straight of grain.",
        "Lay the template on, right sides up, and cut round it.",
    ]


def _motif(thing: CutDown, workroom: Workroom) -> list[str]:
    size, unit = size_words(thing, workroom), workroom.unit
    wide, high = widest(thing)
    piece = thing.size_words(unit)
    middle = "in the middle of" if thing.is_in_the_middle else "at the same places in"
    told = [
        f"Open the cloth out, one layer, right side up. Cut rough pieces {size}, the motif {middle} each: "
        "first find it, then lay the ruler by whole repeats."
    ]
    if thing.is_trimmed:
        over = [(float(thing.cutting.width) - wide) / 2, (float(thing.cutting.height) - high) / 2]
        off = " and ".join(dict.fromkeys(show_float(side, unit) for side in over if side > AS_DRAWN))
        return [*told, f"Trim each to {piece}, the motif staying where it is: {off} off each side."]
    around = "Make a template of the shape, {}, and mark the motif on it: lay it on and cut round it."
    return [*told, around.format(piece)]


def _has_hand(outline: Polygon) -> bool:
    """Whether a shape's mirror image is another shape."""
    mirrored = placed(outline, folded((0.0, 0.0), (0.0, 1.0)))
    return next(outline_turns(mirrored, outline, AS_DRAWN), None) is None


def widest(thing: Shaped) -> tuple[float, float]:
    """How wide and high a piece is as it is cut; inches."""
    _, _, width, height = bounds(thing.cloth.raw)
    return width, height
