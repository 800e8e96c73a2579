"""Half-square triangles cut as triangles from two strips laid right sides together, turn about.

Terms:
- *full points*: both sharp corners are whole; the strip is as high as a square cut once;
- *blunted points*: the upper sharp corner is cut off beforehand, just where its dog ear would be; then the
  strip is only as high as the unit unfinished.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from math import sqrt

from piecewright.bench.steps import AnyStep, CutApart
from piecewright.geometry.point import Point
from piecewright.measure.length import Length
from piecewright.measure.rounding import round_down, round_up
from piecewright.measure.tolerance import WELD
from piecewright.methods.cut_squares import halves_joined, square_cut_once
from piecewright.methods.lines import press_all, ruled
from piecewright.methods.method import Family, Making, Method, Sizes, Start, Unit
from piecewright.workroom.workroom import Workroom

FULL, BLUNTED = "from strips, full points", "from strips, blunted points"

Height = Callable[[Unit, float, float], float]


def half_strip(workroom: Workroom) -> Length:
    """Half the usable width, on a mark: strips so long are handy, and come from narrow cloth as well."""
    return round_down(float(workroom.usable_width) / 2, workroom.ruler)


def most_high(height: Height, unit: Unit, workroom: Workroom) -> float:
    """The highest that the strips for a unit are ever cut: rounded up, so that there is enough to trim."""
    return float(round_up(height(unit, float(workroom.take_up), float(workroom.trim)), workroom.ruler))


def full_height(unit: Unit, take_up: float, extra: float) -> float:
    """How high strips for full points are, for a unit larger by `extra`; inches."""
    return square_cut_once(float(unit.width) + extra, take_up)


def blunted_height(unit: Unit, take_up: float, extra: float) -> float:
    """How high strips for blunted points are, for a unit larger by `extra`; inches."""
    return float(unit.width) + extra + 2 * take_up


def steps(making: Making, pairs: int, blunt: float) -> tuple[AnyStep, ...]:
    """Both strips cut into triangles, upright and slanting in turn; the triangles joined.

    `blunt` is the width of the cut-off point in take-ups.
    """
    height, length = making.sizes
    triangles = [f"{making.gives} triangles {piece}" for piece in making.pieces]
    return (
        *(
            _cut(piece, triangle, (height, length), pairs, blunt * making.seam.take_up, making.times)
            for piece, triangle in zip(making.pieces, triangles, strict=True)
        ),
        halves_joined(triangles[0], triangles[1], making.gives, 2 * pairs * making.times),
        press_all(making.gives, f"{making.gives}.0"),
    )


def _cut(strip: str, gives: str, size: tuple[float, float], pairs: int, blunt: float, times: int) -> CutApart:
    height, length = size
    pitch = height + 2 * blunt
    upright: list[tuple[Point, Point]] = [
        ((k * pitch, 0.0), (k * pitch, height)) for k in range(1, pairs + 1) if k * pitch < length - WELD
    ]
    # A triangle leans on the next, turned half round; the point of each is as wide as it is blunted.
    slanting = [((k * pitch + blunt, 0.0), (k * pitch + blunt + height, height)) for k in range(pairs)]
    rest = ("",) if len(upright) == pairs else ()
    return CutApart(
        takes=strip,
        cut=tuple(ruled(*line) for line in (*upright, *slanting)),
        gives=(*(gives,) * pairs, *rest, *(gives,) * pairs),
        times=times,
    )


def full_points(unit: Unit, length: Length, workroom: Workroom) -> tuple[Method, ...]:
    """The way with full points from strips of a length; none where no pair fits in."""
    pairs = int(float(length) / most_high(full_height, unit, workroom) + WELD)

    def sizes(unit: Unit, take_up: float, extra: float) -> Sizes:
        return full_height(unit, take_up, extra), float(length)

    def written(making: Making) -> tuple[AnyStep, ...]:
        return steps(making, pairs, 0.0)

    method = Method(
        name=FULL,
        kind="hst",
        makes=2 * pairs,
        starts=(Start(0, 1, 1, 0), Start(1, 1, 1, 0)),
        steps=written,
        landmark="diagonal",
        reason="strips and nothing to mark: pairs are cut ready to sew, but the long side is bias",
        says=(
            "Lay a light and a dark strip right sides together, edges matching.",
            "Straighten the end; cut squares as wide as the strip is high, each once from corner to corner.",
            "Leave the two triangles together and sew the long side with the usual seam, without pulling.",
            "Set the seam, open, press, and clip the dog ears.",
        ),
        unknowns=2,
        derived=sizes,
    )
    return (method,) if pairs else ()


def blunted_points(unit: Unit, length: Length, workroom: Workroom) -> tuple[Method, ...]:
    """The way with blunted points from strips of a length; none where no pair fits in."""
    blunt = sqrt(2)
    pitch = most_high(blunted_height, unit, workroom) + 2 * blunt * float(workroom.take_up)
    pairs = int(float(length) / pitch + WELD)

    def sizes(unit: Unit, take_up: float, extra: float) -> Sizes:
        return blunted_height(unit, take_up, extra), float(length)

    def written(making: Making) -> tuple[AnyStep, ...]:
        return steps(making, pairs, blunt)

    method = Method(
        name=BLUNTED,
        kind="hst",
        makes=2 * pairs,
        starts=(Start(0, 1, 1, 0), Start(1, 1, 1, 0)),
        steps=written,
        landmark="diagonal",
        reason="whole-size strips that serve for squares as well, no dog ears, but the long side is bias",
        says=(
            "Lay a light and a dark strip right sides together, edges matching.",
            "Straighten the end; cut triangles turn about, by a ruler or template with a blunt upper point.",
            "Leave the two triangles together and sew the long side with the usual seam, without pulling.",
            "Set the seam, open, and press.",
        ),
        unknowns=2,
        derived=sizes,
    )
    return (method,) if pairs else ()


@lru_cache(maxsize=256)
def _full(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    return full_points(unit, half_strip(workroom), workroom)


@lru_cache(maxsize=256)
def _blunted(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    return blunted_points(unit, half_strip(workroom), workroom)


FULL_POINTS = Family(FULL, ("hst",), _full)
BLUNTED_POINTS = Family(BLUNTED, ("hst",), _blunted)
