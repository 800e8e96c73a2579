"""Half-square triangles from strips sewn along both long edges, cut at 45 degrees into triangles.

Every triangle opens about the edge that it stands on. That edge lies on the straight grain, so all four
outer edges of the unit are bias.
"""

from __future__ import annotations

from functools import lru_cache
from math import sqrt

from piecewright.bench.steps import AnyStep, CutApart, Lay, Ruled, Stack
from piecewright.measure.length import Length
from piecewright.measure.tolerance import WELD
from piecewright.methods.cut_squares import square_cut_once
from piecewright.methods.hst_strips import half_strip, most_high
from piecewright.methods.lines import press_all
from piecewright.methods.method import Family, Making, Method, Sizes, Start, Unit
from piecewright.workroom.workroom import Workroom

NAME = "from sewn strips"


def strip_height(unit: Unit, take_up: float, extra: float) -> float:
    """How high the strips are: the triangle stands on its long side; inches."""
    return square_cut_once(float(unit.width) + extra, take_up) / sqrt(2)


def steps(making: Making, count: int) -> tuple[AnyStep, ...]:
    """Both strips with slanting ends, face to face, sewn along both edges, cut into an odd number."""
    height = making.sizes[0]
    used = (count + 1) * height
    sheets = tuple(f"{making.gives} strip {piece}" for piece in making.pieces)
    zigzag = [_slanting(k, height) for k in range(count + 1)]
    return (
        *(
            step
            for piece, sheet in zip(making.pieces, sheets, strict=True)
            for step in _ends_cut(piece, sheet, making, used, (zigzag[0], zigzag[-1]))
        ),
        Stack(
            base=sheets[0],
            # The strip is turned over end to end, so that its slanting ends lie on the other's.
            tops=(Lay(sheets[1], 180.0, used, 0.0),),
            sew=(
                Ruled(0.0, 0.0, used, 0.0, "needle left"),
                Ruled(used, height, 0.0, height, "needle left"),
            ),
            cut=tuple(zigzag[1:-1]),
            gives=(making.gives,),
            times=making.times,
        ),
        press_all(making.gives, f"{making.gives}.0"),
    )


def _slanting(number: int, height: float) -> Ruled:
    """The cuts in turn: rising, falling, rising, each from where the last one ended."""
    low, high = number * height, (number + 1) * height
    return Ruled(low, 0.0, high, height) if number % 2 == 0 else Ruled(low, height, high, 0.0)


def _ends_cut(
    piece: str, gives: str, making: Making, used: float, ends: tuple[Ruled, Ruled]
) -> tuple[AnyStep, ...]:
    height, length = making.sizes
    whole = f"{gives} whole" if used < length - WELD else piece
    rest = CutApart(takes=piece, cut=(Ruled(used, 0.0, used, height),), gives=(whole, ""), times=making.times)
    slanted = CutApart(takes=whole, cut=ends, gives=(gives, "", ""), times=making.times)
    return (rest, slanted) if whole != piece else (slanted,)


def sewn_strips(unit: Unit, length: Length, workroom: Workroom) -> tuple[Method, ...]:
    """The way from strips of a length; none where they are too short."""
    # An odd number of triangles: then both ends slant alike.
    count = int(float(length) / most_high(strip_height, unit, workroom) + WELD) - 1
    count -= 1 - count % 2

    def sizes(unit: Unit, take_up: float, extra: float) -> Sizes:
        return strip_height(unit, take_up, extra), float(length)

    def written(making: Making) -> tuple[AnyStep, ...]:
        return steps(making, count)

    method = Method(
        name=NAME,
        kind="hst",
        makes=count,
        starts=(Start(0, 1, 1, 0), Start(1, 1, 1, 0)),
        steps=written,
        landmark="diagonal",
        reason="two long seams and nothing to mark, but all four outer edges are bias: starch, and handle "
        "with care",
        says=(
            "Lay a light and a dark strip right sides together, and cut both ends off at 45 degrees.",
            "Sew along both long edges, the needle's distance from them.",
            "Cut at 45 degrees, one way and the other in turn: triangles that stand on a seam.",
            "Pick out the few stitches at each point.",
            "All outer edges are bias now: starch, lift the iron, do not pull.",
            "Set the seams, open, and press.",
        ),
        unknowns=2,
        derived=sizes,
    )
    return (method,) if count > 0 else ()


@lru_cache(maxsize=256)
def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way from strips half as long as the cloth is wide."""
    return sewn_strips(unit, half_strip(workroom), workroom)


FAMILY = Family(NAME, ("hst",), members)
