"""Random quilts for Hypothesis: design files as text, so that the reader is exercised, and a workroom.

Block sizes are multiples of twelve marks of the ruler, so that grids of one, two, three and four cells all
come out on the ruler. Blocks are drawn with tokens on a grid, or by the corners of their patches
(`random_drawn_blocks.py`).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import msgspec
from hypothesis import strategies as st

from piecewright.design.model import Design
from piecewright.design.read import design_from
from piecewright.measure.length import inches, mm
from piecewright.methods import METHODS
from piecewright.toml_places import toml_from_text
from piecewright.workroom.workroom import INCH_WORKROOM, METRIC_WORKROOM, Workroom
from random_drawn_blocks import drawn_blocks

COLOURS = ("#17263d", "#3d5a73", "#8fb3a8", "#e6e2d8", "#e0a03c", "#a8512f")
FABRICS = ("night", "tide", "glass", "fog", "lantern", "rust")
CORNERS, SIDES = ("nw", "ne", "sw", "se"), ("n", "e", "s", "w")
LONG_SPANS = ((1, 1), (1, 1), (1, 2), (2, 1), (2, 2), (1, 3), (3, 1))

# Finished block sides: inches, and centimetres.
BLOCK_SIDES = {
    "in": ("3", "4 1/2", "6", "7 1/2", "9", "12"),
    "cm": ("6", "8.4", "12", "14.4", "18", "24"),
}
STRIP_WIDTHS = {"in": ("1", "1 1/4", "2", "3 1/8"), "cm": ("2", "2.5", "4.3", "6")}


@dataclass(frozen=True)
class Quilt:
    """A design file's text, and the workroom that it is planned for."""

    text: str
    workroom: Workroom

    def read(self) -> Design:
        """The design; a strategy that writes a wrong file is a mistake of these tests."""
        design, problems = design_from(toml_from_text(self.text, "random.toml"))
        assert design is not None, [*map(str, problems), self.text]
        return design


@dataclass(frozen=True)
class _Roles:
    """The keys that a quilt may ask for."""

    fabrics: tuple[str, ...]
    assortments: tuple[str, ...]

    @property
    def all(self) -> tuple[str, ...]:
        return (*self.fabrics, *self.assortments)


@st.composite
def workrooms(draw: st.DrawFn, unit: str) -> Workroom:
    """Roundings of 1/8 and 1/4 in or 1 mm; seams of 1/4 in, or of 5, 6 and 7.5 mm.

    Now and then a further way takes no time to set up, so that several ways fill one pile.
    """
    room = INCH_WORKROOM if unit == "in" else METRIC_WORKROOM
    if draw(st.integers(0, 2)) == 0:
        room = msgspec.structs.replace(room, pace=msgspec.structs.replace(room.pace, set_up=0.0))
    if unit == "in":
        rounding = inches(draw(st.sampled_from([Fraction(1, 8), Fraction(1, 4)])))
        return msgspec.structs.replace(room, rounding=rounding)
    seam = draw(st.sampled_from([Fraction(5), Fraction(6), Fraction(15, 2)]))
    return msgspec.structs.replace(room, needle=mm(seam - Fraction(1, 2)))


@st.composite
def quilts(draw: st.DrawFn, most: int = 4) -> Quilt:
    """A quilt of up to `most` blocks across and down, of up to four different blocks."""
    unit = draw(st.sampled_from(["in", "cm"]))
    roles, cloth = draw(_cloth(unit))
    width = draw(st.sampled_from(BLOCK_SIDES[unit]))
    height = draw(st.sampled_from([width, width, draw(st.sampled_from(BLOCK_SIDES[unit]))]))
    keys = ["star", "wake", "buoy", "shoal"][: draw(st.integers(1, 4))]
    across, down = draw(st.integers(1, most)), draw(st.integers(1, most))
    lines = ['title = "A random quilt"', f'unit = "{unit}"', *cloth]
    for key in keys:
        by_corners = draw(st.integers(0, 2)) == 0
        lines += draw(
            drawn_blocks(key, (_number(width), _number(height)), roles.all)
            if by_corners
            else _block(key, (width, height), roles)
        )
    lines += draw(_setting(across, down, keys, roles, width == height))
    if draw(st.booleans()):
        lines += draw(_sashing(unit, roles))
    for _ in range(draw(st.integers(0, 3))):
        lines += draw(_border(unit, roles))
    if draw(st.booleans()):
        lines += ["[binding]", f'role = "{draw(st.sampled_from(roles.all))}"']
    if draw(st.booleans()):
        lines += ["[backing]", f'role = "{draw(st.sampled_from(roles.all))}"']
    lines += draw(_choices())
    return Quilt("\n".join(lines) + "\n", draw(workrooms(unit)))


@st.composite
def _cloth(draw: st.DrawFn, unit: str) -> tuple[_Roles, list[str]]:
    """Two to five fabrics, some with a one-way print or a width of their own; up to two assortments."""
    lines = []
    fabrics = FABRICS[: draw(st.integers(2, 5))]
    for key, colour in zip(fabrics, COLOURS, strict=False):
        lines += [f"[fabrics.{key}]", f'colour = "{colour}"']
        if draw(st.integers(0, 4)) == 0:
            lines.append("one_way = true")
        if draw(st.integers(0, 5)) == 0:
            lines.append('width = "60"' if unit == "in" else 'width = "140"')
    assortments = ("blues", "greys")[: draw(st.integers(0, 2))]
    for key in assortments:
        lines += [f"[roles.{key}]", "prints = 12"]
        if draw(st.booleans()):
            lines.append(f"alike = {draw(st.sampled_from([1, 2, 4, 10]))}")
    return _Roles(fabrics, assortments), lines


@st.composite
def _block(draw: st.DrawFn, key: str, size: tuple[str, str], roles: _Roles) -> list[str]:
    """A block on a grid of up to four by four cells, some of them of double width."""
    columns = draw(st.sampled_from([(1,), (1, 1), (1, 1, 1), (1, 1, 1, 1), (1, 2, 1)]))
    rows = draw(st.sampled_from([(1,), (1, 1), (1, 1, 1), (1, 1, 1, 1), (1, 2, 1)]))
    wide, high = (_number(side) for side in size)
    across = [wide * share / sum(columns) for share in columns]
    down = [high * share / sum(rows) for share in rows]
    picture = draw(_picture(across, down, roles))
    lines = [f"[blocks.{key}]", f'size = "{size[0]} x {size[1]}"']
    lines += [f"columns = {list(columns)}", f"rows = {list(rows)}"]
    return [*lines, 'picture = """', *("  ".join(row) for row in picture), '"""']


@st.composite
def _picture(draw: st.DrawFn, across: list[Fraction], down: list[Fraction], roles: _Roles) -> list[list[str]]:
    """Tokens that fill the grid: each free cell begins a unit, which may span free cells beside and below."""
    grid: list[list[str]] = [["" for _ in across] for _ in down]
    for row in range(len(down)):
        for column in range(len(across)):
            if grid[row][column]:
                continue
            spans = [span for span in LONG_SPANS if _is_free(grid, row, column, span)]
            high, wide = draw(st.sampled_from(spans))
            width = sum(across[column : column + wide], Fraction(0))
            height = sum(down[row : row + high], Fraction(0))
            for r in range(row, row + high):
                for c in range(column, column + wide):
                    grid[r][c] = "-" if r == row else ":"
            grid[row][column] = draw(_token(width, height, roles))
    return grid


def _is_free(grid: list[list[str]], row: int, column: int, span: tuple[int, int]) -> bool:
    high, wide = span
    return (
        row + high <= len(grid)
        and column + wide <= len(grid[0])
        and all(not grid[r][c] for r in range(row, row + high) for c in range(column, column + wide))
    )


@st.composite
def _token(draw: st.DrawFn, width: Fraction, height: Fraction, roles: _Roles) -> str:
    """A plain patch, or a unit that such a place can hold."""
    kinds = ["plain"]
    if width == height:
        kinds += ["hst", "hst", "hourglass", "insquare"]
    if width == 2 * height or height == 2 * width:
        kinds += ["geese", "geese"]
    kind = draw(st.sampled_from(kinds))
    first, second = draw(st.sampled_from(roles.all)), draw(st.sampled_from(roles.all))
    if kind == "plain":
        return first
    facing = {
        "hst": CORNERS,
        "hourglass": ("ns", "ew"),
        "insquare": ("in",),
        "geese": ("n", "s") if width > height else ("e", "w"),
    }[kind]
    return f"{first}.{draw(st.sampled_from(facing))}.{second}"


@st.composite
def _setting(
    draw: st.DrawFn, across: int, down: int, keys: list[str], roles: _Roles, is_square: bool
) -> list[str]:
    """Blocks in any turn that their shape allows, and now and then a plain block."""
    turns = ("", ".half", ".left", ".right") if is_square else ("", ".half")
    cells = [key + turn for key in keys for turn in turns] + [draw(st.sampled_from(roles.all))]
    rows, columns = draw(st.integers(1, down)), draw(st.integers(1, across))
    picture = [[draw(st.sampled_from(cells)) for _ in range(columns)] for _ in range(rows)]
    picture[0][0] = keys[0]
    lines = ["[setting]", f"across = {across}", f"down = {down}", 'arrangement = """']
    return [*lines, *("  ".join(row) for row in picture), '"""']


@st.composite
def _sashing(draw: st.DrawFn, unit: str, roles: _Roles) -> list[str]:
    """Sashing with or without cornerstones, around or not."""
    lines = ["[sashing]", f'width = "{draw(st.sampled_from(STRIP_WIDTHS[unit]))}"']
    lines.append(f'role = "{draw(st.sampled_from(roles.all))}"')
    if draw(st.booleans()):
        lines.append(f'cornerstone = "{draw(st.sampled_from(roles.all))}"')
    if draw(st.booleans()):
        lines.append("around = true")
    return lines


@st.composite
def _border(draw: st.DrawFn, unit: str, roles: _Roles) -> list[str]:
    """A border in either order."""
    order = draw(st.sampled_from(["sides first", "top and bottom first"]))
    width, role = draw(st.sampled_from(STRIP_WIDTHS[unit])), draw(st.sampled_from(roles.all))
    return ["[[borders]]", f'width = "{width}"', f'role = "{role}"', f'order = "{order}"']


@st.composite
def _choices(draw: st.DrawFn) -> list[str]:
    """Now and then a way that is pinned, in the whole quilt."""
    if draw(st.integers(0, 3)):
        return []
    method = draw(st.sampled_from(METHODS))
    return ["[choices]", f'{method.kind} = "{method.name}"']


def _number(side: str) -> Fraction:
    whole, _, part = side.partition(" ")
    return Fraction(whole) + Fraction(part or 0)
