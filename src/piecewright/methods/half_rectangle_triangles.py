"""Half-rectangle triangles from rectangles, both cut along the same diagonal, right side up.

The long sides of the triangles are joined; the seam runs to the finished corners of the unit, not to the raw
ones. A unit's two fabrics are cut alike, for its triangles are turned into each other, never turned over.
"""

from __future__ import annotations

from functools import lru_cache
from math import atan2, degrees

from piecewright.bench.grain import OFF_GRAIN
from piecewright.bench.steps import AnyStep, CutApart, Join, JoinPart, Ruled
from piecewright.design.kinds.half_rectangle import rises
from piecewright.geometry.polygon import bounds, grown
from piecewright.measure.rounding import Ruler, round_up
from piecewright.methods.lines import press_all, ruled
from piecewright.methods.method import Family, Making, Method, Start, Unit
from piecewright.workroom.workroom import Workroom

FARTHEST = 8
"""So many marks of the ruler are tried."""


def exact(unit: Unit, take_up: float, extra: float) -> tuple[float, ...]:
    """The cut rectangle by the grown-patch rule: as long for its width as the unit is.

    Larger ones keep that proportion, or the seam would run to other corners.
    """
    width, height = float(unit.width), float(unit.height)
    larger = 1 + extra / min(width, height)
    corners = ((0.0, 0.0), (width * larger, 0.0), (0.0, height * larger))
    x0, y0, x1, y1 = bounds(grown(corners, take_up))
    return x1 - x0, y1 - y0


def _on_marks(width: float, height: float, ruler: Ruler) -> tuple[float, float]:
    """The next rectangle on marks whose diagonal leans so little otherwise that no edge comes off the grain.

    What is trimmed is turned until the seam runs to its corners.
    """
    wanted, mark = atan2(height, width), float(ruler.mark)
    found = []
    for k in range(FARTHEST):
        across = float(round_up(width + k * mark, ruler))
        up = float(round_up(max(height, across * height / width - mark / 2), ruler))
        off = abs(degrees(atan2(up, across) - wanted))
        if off <= OFF_GRAIN / 2:
            return across, up
        found.append((off, across, up))
    return min(found)[1:]


def _steps(is_rising: bool, making: Making) -> tuple[AnyStep, ...]:
    """Each rectangle cut on its diagonal; a triangle of each fabric joined along it."""
    width, height = making.sizes
    cut = _diagonal(is_rising, width, height)
    long_side = 2 if is_rising else 1
    triangles = tuple(f"{piece} triangles" for piece in making.pieces)
    return (
        *(
            CutApart(takes=piece, cut=(cut,), gives=(triangle,), times=making.times)
            for piece, triangle in zip(making.pieces, triangles, strict=True)
        ),
        Join(
            parts=(
                JoinPart(name=triangles[0], exit=(long_side,)),
                JoinPart(name=triangles[1], entry=(long_side,)),
            ),
            gives=making.gives,
            times=2 * making.times,
        ),
        press_all(making.gives, f"{making.gives}.0"),
    )


def _rising(making: Making) -> tuple[AnyStep, ...]:
    return _steps(True, making)


def _falling(making: Making) -> tuple[AnyStep, ...]:
    return _steps(False, making)


def _diagonal(is_rising: bool, width: float, height: float) -> Ruled:
    return ruled((0.0, 0.0), (width, height)) if is_rising else ruled((0.0, height), (width, 0.0))


@lru_cache(maxsize=64)
def _method(is_rising: bool, ruler: Ruler | None = None) -> Method:
    """The way for a seam that rises or falls; with a ruler, from larger rectangles on its marks, trimmed."""
    oversize = ruler is not None

    way = "from the lower left to the upper right" if is_rising else "from the upper left to the lower right"

    def larger(unit: Unit, take_up: float, extra: float) -> tuple[float, ...]:
        """The rectangle on marks, where it is to be larger than the unit needs."""
        width, height = exact(unit, take_up, extra)
        return _on_marks(width, height, ruler) if ruler and extra else (width, height)

    says = (
        f"Lay every rectangle as the unit lies, right side up, and cut it once {way} corner.",
        "Turn a triangle of the second cloth round (not over), and lay it on one of the first, right sides "
        "together, long sides matching: the tips stand out alike at both ends.",
        "Sew along the long side with the usual seam, without pulling: it is off the grain.",
        "Press, and clip the tips.",
    )
    trim = "Trim so that the seam runs to the finished corners, a seam allowance inside the raw ones."
    return Method(
        name="from cut rectangles, trimmed" if oversize else "from cut rectangles",
        kind="hrt",
        makes=2,
        starts=(Start(0, 1, 0, 1), Start(1, 1, 0, 1)),
        steps=_rising if is_rising else _falling,
        landmark="finished corners",
        reason="cut larger and trimmed: the seam is sure to run to the finished corners"
        if oversize
        else "little cloth and nothing to mark; both cloths must be cut along the same diagonal",
        says=(*says, trim) if oversize else says,
        unknowns=2,
        may_round=oversize,
        oversize=oversize,
        derived=larger,
    )


def plain(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way from rectangles of the exact size, cut for the unit's hand."""
    return (_method(rises(unit.form), None),)


def trimmed(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way from larger rectangles, cut for the unit's hand."""
    return (_method(rises(unit.form), workroom.ruler),)


EXACT = Family("from cut rectangles", ("hrt",), plain)
LARGER = Family("from cut rectangles, trimmed", ("hrt",), trimmed)
