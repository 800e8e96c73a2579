"""What is said of a shape cut from a strip or round a template: its sizes, its bias, the marks nearby.

Terms:
- *nearby*: a finished size near the one wanted whose strip is as high as a mark of the ruler shows.
"""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.design.kinds.diamonds import diamond
from piecewright.design.kinds.star_eight import side_of_diamond
from piecewright.geometry.polygon import Polygon, bounds, grown
from piecewright.measure.length import Length
from piecewright.measure.rounding import exactly, round_down, round_up
from piecewright.measure.showing import show, show_exact
from piecewright.methods.method import Unit
from piecewright.workroom.workroom import Workroom

STARS = ("star8", "star8-wedges")


@dataclass(frozen=True)
class NearbyMark:
    """A strip of a height that the ruler shows, and the finished size (inches) that it makes."""

    strip: Length
    finished: float


def net_of(unit: Unit) -> Polygon:
    """The outline of the piece that a strip is cut for: the unit's own, or that of a star's diamonds."""
    if unit.kind in STARS:
        return diamond(side_of_diamond(float(unit.width)), 45)
    return unit.drawing.outline


def raw_of(unit: Unit, workroom: Workroom) -> Polygon:
    """The same as it is cut."""
    return grown(net_of(unit), float(workroom.take_up))


def strip_height(unit: Unit, workroom: Workroom) -> float:
    """How high the strip is that the pieces of a unit are cut from, in inches."""
    return _height(raw_of(unit, workroom))


def _height(polygon: Polygon) -> float:
    _, low, _, high = bounds(polygon)
    return high - low


def nearby_whole_marks(unit: Unit, workroom: Workroom) -> tuple[NearbyMark, ...]:
    """The finished sizes next to the unit's whose strip height lies on a mark; its own where it does.

    Finished is the size by which the unit is told: the side of a diamond or a hexagon, the height of a
    triangle or a trapezoid, the side of a star's block. What is drawn exactly, and not trued up, is never
    rounded: one of these sizes is, instead, the way to a strip that is easy to cut.
    """
    net, raw = _height(net_of(unit)), strip_height(unit, workroom)
    strips = dict.fromkeys((round_down(raw, workroom.ruler), round_up(raw, workroom.ruler)))
    sizes = ((strip, float(unit.height) * (net + float(strip) - raw) / net) for strip in strips)
    return tuple(NearbyMark(strip, finished) for strip, finished in sizes if finished > 0)


def measured_words(size: float, workroom: Workroom) -> str:
    """A size on a mark of the ruler where it lies on one, else to the last figure that means anything."""
    length = exactly(size)
    return show(length, workroom.unit) if workroom.ruler.shows(length) else show_exact(size, workroom.unit)


def marks_words(unit: Unit, workroom: Workroom) -> str:
    """A sentence on the strip's height where no mark of the ruler shows it; else an empty text."""
    nearby = nearby_whole_marks(unit, workroom)
    if len(nearby) < 2:
        return ""
    told = " or ".join(
        f"{show_exact(near.finished, workroom.unit)} from strips {show(near.strip, workroom.unit)}"
        for near in nearby
    )
    return f"No mark of the ruler shows that height; finished sizes whose strips are on one are {told}."
