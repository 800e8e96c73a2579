"""Random blocks drawn by the corners of their patches: units of every kind that have no token of their own.

A block is a grid of up to two by two cells, or one unit that fills it. Each cell holds a unit of a kind, of
random fabrics, hand and measures, in a random quarter turn; or a plain patch.
"""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from piecewright.design.kinds import Form, kind_of
from piecewright.geometry.isometry import turned
from piecewright.geometry.polygon import Polygon, bounds, placed

PLAIN = "plain"
SQUARES = (
    "insquare",
    "insquare",
    "corner1",
    "corners2",
    "opposite2",
    "corners3",
    "snowball",
    "threepatch",
    "threepatch",
    "quarters",
    "hst",
    "hourglass",
    "rail",
    "fourpatch",
    "ninepatch",
)
BY_TWO = ("geese",)
"""Kinds that are twice as wide as high."""

RECTANGLES = ("hrt", "hrt", "corner1", "opposite2", "rail")
BLOCKS = ("star8", "star8-wedges", "courthouse", "logcabin", "sixteenpatch")
"""Kinds that are whole blocks."""

CORNERS = (Fraction(1, 4), Fraction(1, 3), Fraction(1, 2))
"""How far a flipped corner reaches, as a share of the shorter side."""

GRIDS = ((1, 1), (1, 1), (1, 2), (2, 1), (2, 2))

Drawn = tuple[str, Polygon]


@st.composite
def drawn_blocks(
    draw: st.DrawFn, key: str, size: tuple[Fraction, Fraction], roles: tuple[str, ...]
) -> list[str]:
    """The lines of a block of a size (in the unit of its file) whose patches are drawn by corners."""
    rows, columns = draw(st.sampled_from(GRIDS))
    width, height = float(size[0]) / columns, float(size[1]) / rows
    patches: list[Drawn] = []
    for row in range(rows):
        for column in range(columns):
            cell = draw(_cell(width, height, roles, alone=rows * columns == 1))
            patches += [
                (role, tuple((x + column * width, y + row * height) for x, y in outline))
                for role, outline in cell
            ]
    lines = [f"[blocks.{key}]", f'size = "{_text(size[0])} x {_text(size[1])}"', "patches = ["]
    return [*lines, *(_line(role, outline) for role, outline in patches), "]"]


@st.composite
def _cell(draw: st.DrawFn, width: float, height: float, roles: tuple[str, ...], alone: bool) -> list[Drawn]:
    """A plain patch or a unit, its lower left corner at the origin."""
    high = height > width
    across, up = (height, width) if high else (width, height)
    kinds = (PLAIN, *(SQUARES if width == height else RECTANGLES))
    if width == height and alone:
        kinds = (*SQUARES, *BLOCKS, *BLOCKS)
    if abs(across - 2 * up) < 1e-9:
        kinds = (*kinds, *BY_TWO * 3)
    kind = draw(st.sampled_from(kinds))
    if kind == PLAIN:
        return [(draw(st.sampled_from(roles)), ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height)))]
    form, count = draw(_form(kind, across, up))
    fabrics = [draw(st.sampled_from(roles)) for _ in range(count)]
    shapes = [(fabrics[number], outline) for number, outline in kind_of(kind).shapes(form)]
    quarters = draw(st.sampled_from((1, 3) if high else (0, 2) if width != height else (0, 1, 2, 3)))
    return _home([(role, placed(outline, turned(90.0 * quarters))) for role, outline in shapes])


@st.composite
def _form(draw: st.DrawFn, kind: str, width: float, height: float) -> tuple[Form, int]:
    """A form of a kind, and how many fabrics it has."""
    known = kind_of(kind)
    count = len(known.fabrics) + (draw(st.integers(0, 2)) if known.more_fabrics else 0)
    measures: tuple[float, ...] = ()
    if known.measures == ("corner",):
        measures = (min(width, height) * float(draw(st.sampled_from(CORNERS))),)
    elif kind in ("logcabin", "courthouse"):
        measures = (width / 2, width / 8) if draw(st.booleans()) else (width / 3, width / 6)
    hand = draw(st.sampled_from(known.hands))
    return Form(width, height, known.facings[0], hand, measures, count), count


def _home(patches: list[Drawn]) -> list[Drawn]:
    left, low, *_ = bounds([p for _, outline in patches for p in outline])
    return [(role, tuple((x - left, y - low) for x, y in outline)) for role, outline in patches]


def _line(role: str, outline: Polygon) -> str:
    corners = ", ".join(f"[{x:.9f}, {y:.9f}]" for x, y in outline)
    return f'  {{role = "{role}", corners = [{corners}]}},'


def _text(side: Fraction) -> str:
    whole, part = divmod(side, 1)
    return " ".join(str(number) for number in (whole, part) if number)
