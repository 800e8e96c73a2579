"""Blocks drawn by corners: what tiles a block, and where it does not."""

import math

import pytest

from piecewright.design.draw_block import draw_block
from piecewright.design.read import design_from
from piecewright.geometry.polygon import area
from piecewright.toml_places import toml_from_text

QUILT = """title = "t"
unit = "{unit}"
[fabrics.sky]
colour = "white"
[fabrics.sea]
colour = "black"
[setting]
across = 1
down = 1
arrangement = "b"
[blocks.b]
size = "{size}"
{more}
patches = [
{patches}
]
"""


def read(patches, size="4", more="", unit="in"):
    lines = "\n".join(f'  {{role = "{role}", corners = {corners}}},' for role, corners in patches)
    return design_from(toml_from_text(QUILT.format(unit=unit, size=size, more=more, patches=lines), "q"))


def wrong(patches, size="4", more=""):
    design, problems = read(patches, size, more)
    assert design is None
    return [str(p) for p in problems if p.weight == "error"]


HALVES = [("sea", "[[0,0],[4,0],[4,4]]"), ("sky", "[[0,0],[4,4],[0,4]]")]


def outlines(design):
    return [p.outline for p in draw_block(design, "b").patches]


def test_patches_are_read_in_either_direction_round():
    turned = [("sea", "[[4,4],[4,0],[0,0]]"), HALVES[1]]
    assert outlines(read(HALVES)[0]) == outlines(read(turned)[0])
    assert all(area(outline) == 8 for outline in outlines(read(turned)[0]))


def test_coordinates_count_in_the_unit_of_the_file():
    design, _ = read([("sea", "[[0,0],['6.35',0],['6.35','6.35'],[0,'6.35']]")], "6.35", unit="cm")
    (outline,) = outlines(design)
    assert area(outline) == pytest.approx(2.5**2)


def test_drafted_coordinates_fill_a_block_of_any_size():
    for size in (6, 12):
        design, _ = read(HALVES, str(size), "drafted = 4")
        assert sum(map(area, outlines(design))) == pytest.approx(size**2)
    design, _ = read([("sea", "[[0,0],[1,0],[1,2],[0,2]]")], "6 x 9", 'drafted = "1 x 2"')
    assert outlines(design) == [((0, 0), (6, 0), (6, 9), (0, 9))]


def test_an_eight_pointed_star_with_roots_tiles_its_block():
    """In a 12 in block the diamonds have the side 12 / (2 + sqrt 2) = 12 - 6 sqrt 2 (plane geometry)."""
    a, b, low, high = "'12 - 6 sqrt 2'", "'6 sqrt 2'", "'6 sqrt 2 - 6'", "'18 - 6 sqrt 2'"
    outer = {"s": ((a, 0), (b, 0)), "e": ((12, a), (12, b)), "n": ((b, 12), (a, 12)), "w": ((0, b), (0, a))}
    inner = {"s": (6, low), "e": (high, 6), "n": (6, high), "w": (low, 6)}
    crotch = {"s": ((a, a), (b, a)), "e": ((b, a), (b, b)), "n": ((b, b), (a, b)), "w": ((a, b), (a, a))}
    squares = [
        ((x, y), (x2, y), (x2, y2), (x, y2)) for x, x2 in ((0, a), (b, 12)) for y, y2 in ((0, a), (b, 12))
    ]
    triangles = [(*outer[side], inner[side]) for side in "senw"]
    diamonds = [((6, 6), inner[side], outer[side][k], crotch[side][k]) for side in "senw" for k in (0, 1)]
    written = [
        (role, "[" + ",".join(f"[{x},{y}]" for x, y in corners) + "]")
        for role, shapes in (("sky", squares + triangles), ("sea", diamonds))
        for corners in shapes
    ]
    design, problems = read(written, "12")
    assert design is not None, problems
    side = 3.514719  # row star_side of the trade checks: plane geometry, B / (2 + sqrt 2)
    areas = [area(outline) for outline in outlines(design)]
    assert areas[:4] == pytest.approx([side**2] * 4, abs=1e-5)
    assert areas[8:] == pytest.approx([side**2 / math.sqrt(2)] * 8, abs=1e-5)


@pytest.mark.parametrize(
    ("patches", "line", "said"),
    [
        (HALVES[:1], 11, "expected patches that fill the block, got a hole around (1, 2)"),
        ([HALVES[0], ("sky", "[[0,0],[4,3],[4,4],[0,4]]")], 16, "got patches 1 and 2 overlapping around ("),
        ([HALVES[0], ("sky", "[[0,0],[4,4],[4,0],[0,4]]")], 16, "got a crossing at (2, 2)"),
        (
            [HALVES[0], ("sky", "[[0,0],[4,4],[0,5]]")],
            16,
            "expected corners inside the block (4 in x 4 in), got (0, 5)",
        ),
        ([HALVES[0], ("sky", "[[0,0],[4,4]]")], 16, "expected at least three corners, got 2"),
        (
            [HALVES[0], ("sky", "[[0,0],[2,2],[4,4]]")],
            16,
            "expected a patch with an area, got corners on one line",
        ),
        ([HALVES[0], ("sky", "[[0,0],[4],[0,4]]")], 16, "expected a corner [across, up], got 1 number"),
        (
            [HALVES[0], ("sky", "[[0,0],['x',4],[0,4]]")],
            16,
            "expected a coordinate such as 3, 1/2 or 6 - 3 sqrt 2, got 'x'",
        ),
        ([HALVES[0], ("sly", "[[0,0],[4,4],[0,4]]")], 16, "unknown role 'sly'. Did you mean sky?"),
        ([HALVES[0], ("sky", "[[0,0],[4,4],[0,nan]]")], 16, "expected a coordinate"),
        ([HALVES[0], ("sky", "[[0,0],[4,4],[0,true]]")], 16, "corners: expected a length"),
        ([*HALVES, ("sky", "[[0,0],[4,0],[4,'1/16']]")], 17, "got a sliver 1/16 in wide"),
    ],
)
def test_what_does_not_tile_is_named_with_its_place(patches, line, said):
    messages = wrong(patches)
    assert any(m.startswith(f"q:{line}: ") and said in m for m in messages), messages


def test_a_gap_of_a_thread_is_closed_and_a_wider_one_is_named():
    within = [HALVES[0], ("sky", "[[0,0],[4,'3.9999'],[0,4]]")]
    design, _ = read(within)
    assert outlines(design) == outlines(read(HALVES)[0])
    (told,) = wrong([("sea", "[[0,0],[4,0],[4,'3.99']]"), HALVES[1]])
    assert told == (
        "q:15: expected the corner of patch 1 at (4, 4) on the edge of patch 2, got it under 1/16 in off: "
        "a thin gap. Move the corner onto the edge."
    )


def test_drafted_must_be_one_or_two_numbers():
    for bad in ("0", '"1 x 2 x 3"', '"x"', "-2", "inf"):
        assert any(m.startswith("q:13: expected") for m in wrong(HALVES, more=f"drafted = {bad}")), bad
