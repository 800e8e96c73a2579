"""The picture of a block: what each token draws, how units span cells, what is wrong with a picture."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.design.coordinates import read_coordinate
from piecewright.design.draw_block import draw_block
from piecewright.design.read import design_from
from piecewright.design.whole_marks import scale_step
from piecewright.geometry.polygon import area, centroid
from piecewright.measure.length import inches
from piecewright.toml_places import toml_from_text

QUILT = """title = "t"
[fabrics.sky]
colour = "skyblue"
[fabrics.sea]
colour = "seagreen"
[setting]
across = 1
down = 1
arrangement = "b"
[blocks.b]
size = "{size}"
{more}
picture = '''
{picture}
'''
"""
FIRST = 14  # the line of the picture's first row


def read(picture, size="4", more="columns = []"):
    return design_from(toml_from_text(QUILT.format(size=size, more=more, picture=picture), "quilt.toml"))


def block(picture, size="4", more="columns = []"):
    design, problems = read(picture, size, more)
    assert [str(p) for p in problems if p.weight == "error"] == []
    return draw_block(design, "b")


def wrong(picture, size="4", more="columns = []"):
    design, problems = read(picture, size, more)
    assert design is None
    return [str(p) for p in problems if p.weight == "error"]


def middles(group):
    """The middle of each patch by role, to the nearest hundredth."""
    found = {}
    for patch in group.patches:
        x, y = centroid(patch.outline)
        found.setdefault(patch.role, set()).add((round(x, 2), round(y, 2)))
    return found


THIRD, TWO_THIRDS = 1.33, 2.67


@pytest.mark.parametrize(
    ("corner", "sky", "sea"),
    [
        ("nw", (THIRD, TWO_THIRDS), (TWO_THIRDS, THIRD)),
        ("ne", (TWO_THIRDS, TWO_THIRDS), (THIRD, THIRD)),
        ("sw", (THIRD, THIRD), (TWO_THIRDS, TWO_THIRDS)),
        ("se", (TWO_THIRDS, THIRD), (THIRD, TWO_THIRDS)),
    ],
)
def test_a_half_square_triangle_has_its_first_role_in_the_corner_that_is_named(corner, sky, sea):
    assert middles(block(f"sky.{corner}.sea")) == {"sky": {sky}, "sea": {sea}}


def test_an_hourglass_has_its_first_role_on_the_sides_that_are_named():
    north_south, east_west = {(2, 3.33), (2, 0.67)}, {(3.33, 2), (0.67, 2)}
    assert middles(block("sky.ns.sea")) == {"sky": north_south, "sea": east_west}
    assert middles(block("sky.ew.sea")) == {"sky": east_west, "sea": north_south}


@pytest.mark.parametrize(
    ("token", "size", "point"),
    [("n", "4 x 2", (2, 2)), ("s", "4 x 2", (2, 0)), ("e", "2 x 4", (2, 2)), ("w", "2 x 4", (0, 2))],
)
def test_the_point_of_a_goose_looks_where_it_is_told(token, size, point):
    goose = block(f"sea.{token}.sky", size)
    (large,) = [p for p in goose.patches if p.role == "sea"]
    small = [p for p in goose.patches if p.role == "sky"]
    assert point in large.outline
    assert area(large.outline) == 4
    assert [area(p.outline) for p in small] == [2, 2]


def test_a_square_in_a_square_has_its_points_in_the_middles_of_the_sides():
    unit = block("sky.in.sea")
    (centre,) = [patch for patch in unit.patches if patch.role == "sky"]
    assert set(centre.outline) == {(2, 0), (4, 2), (2, 4), (0, 2)}
    assert sorted(area(patch.outline) for patch in unit.patches) == [2, 2, 2, 2, 8]


def test_unit_groups_bear_the_names_of_the_trade():
    parts = block("sky.nw.sea sky.ns.sea\nsea.n.sky -").children
    names = [part.drawing.name for part in parts]
    assert names == ["half-square triangle", "hourglass", "flying goose"]


def test_rows_run_from_top_to_bottom():
    assert middles(block("sky sky\nsea sea")) == {"sky": {(1, 3), (3, 3)}, "sea": {(1, 1), (3, 1)}}


def test_a_unit_spans_cells_to_the_right_and_below():
    assert middles(block("sky -  sea\n:   -  sea\nsea -  sea", "6"))["sky"] == {(2, 4)}
    assert middles(block("sky -  sea\n:   :  sea\nsea -  sea", "6"))["sky"] == {(2, 4)}


def test_columns_and_rows_may_be_uneven():
    uneven = block("sky sea sky\nsea sky sea", "8", "columns = [1, 2, 1]\nrows = ['1 1/2', 2.5]")
    sizes = [(part.drawing.outline[2], (part.place.x, part.place.y)) for part in uneven.children[:2]]
    assert sizes == [((2, 3), (0, 5)), ((4, 3), (2, 5))]


def test_a_block_is_tiled_whatever_its_units():
    group = block("sky sky.nw.sea sea.e.sky\nsea.n.sky - :\nsky.ns.sea sea -", "6")
    assert sum(area(p.outline) for p in group.patches) == pytest.approx(36)


def test_equal_units_are_one_object():
    first, second, *_ = block("sky.nw.sea sky.nw.sea\nsky sky").children
    assert first.drawing is second.drawing


@pytest.mark.parametrize(
    ("picture", "line", "said"),
    [
        ("sky sea\nsky", 1, "expected 2 cells in row 2, got 1. Add 1 token"),
        ("sky sea\nsky sea\nsky sea sky", 2, "expected 2 cells in row 3, got 3. Leave out 1 token"),
        ("sky see", 0, "unknown role 'see'. Did you mean sea?"),
        ("sky.sea", 0, "expected a token such as sky or sky.nw.sea, got 'sky.sea'. Did you mean sky.nw.sea?"),
        ("sky.nww.sea", 0, "got 'nww'. Did you mean sky.nw.sea?"),
        ("sky/sea", 0, "Did you mean sky.nw.sea?"),
        ("sky..sea", 0, "got ''. Did you mean sky.nw.sea?"),
        ("7up", 0, "expected a role of letters, digits and _, beginning with a letter, got '7up'"),
        ("- sky", 0, "row 1, cell 1: expected a unit on the left of the sign -"),
        (": sky\nsky sky", 0, "row 1, cell 1: expected a unit above the sign :"),
        ("sky -\n: sea", 0, "row 1, cell 1: expected 'sky' to fill a rectangle, got 3 cells"),
        ("sky sea\nsky.nw.sea -", 1, "expected a half-square triangle to be square, got 4 in x 2 in"),
        ("sky.ns.sea sky\n: sky", 0, "expected an hourglass to be square"),
        (
            "sea.n.sky sky",
            0,
            "expected a flying goose that looks n to be twice as wide as high, got 2 in x 4 in",
        ),
        ("sea.e.sky -", 0, "expected a flying goose that looks e to be twice as high as wide"),
        ("", 0, "expected 1 to 10000 cells, got 0"),
    ],
)
def test_a_mistake_in_a_picture_is_named_with_its_line(picture, line, said):
    messages = wrong(picture)
    assert any(m.startswith(f"quilt.toml:{FIRST + line}:") and said in m for m in messages), messages


def test_a_block_on_no_mark_names_the_sizes_nearby_that_work():
    row = "sky sea sky"
    (message,) = wrong(f"{row}\n{row}\n{row}", "10")
    assert message.startswith("quilt.toml:11: expected units whose sizes a ruler shows (steps of 1/8 in)")
    assert message.endswith("Block sizes nearby that work: 9 in, 9 3/4 in, 10 1/8 in, 12 in.")


def test_every_size_nearby_works():
    row = "sky sea sky"
    for size in ("9", "9 3/4", "10 1/8", "12"):
        assert block(f"{row}\n{row}\n{row}", size)


def test_a_size_nearby_is_never_larger_than_any_block_may_be():
    (message,) = wrong("sky sea sky", "400")
    assert message.endswith("Block sizes nearby that work: 399 in, 399 3/4 in.")


@given(st.lists(st.fractions(Fraction(1, 8), 20, max_denominator=30), min_size=1, max_size=4))
def test_the_scale_step_is_the_smallest_that_puts_every_size_on_a_mark(numbers):
    step = scale_step([inches(number) for number in numbers], inches("1/8"))
    marks = [number * step * 8 for number in numbers]
    assert all(mark.denominator == 1 for mark in marks)
    assert math.gcd(*map(int, marks)) == 1


@pytest.mark.parametrize(
    ("more", "line", "said"),
    [
        ("columns = [0, 1]", 12, "expected a share above 0 and up to 1000, got 0."),
        ("columns = [1, 1001]", 12, "expected a share above 0 and up to 1000, got 1001."),
        ("columns = [1, 'x']", 12, "expected a number such as 2 1/2, 2.5 or 2½, got 'x'."),
        ("rows = [1, 2]", 12, "expected 1 share in rows, one a row of the picture, got 2."),
        ("columns = [1, 2, 1]", 14, "expected 3 cells in row 1, got 2."),
    ],
)
def test_shares_that_do_not_fit_are_named(more, line, said):
    assert any(m.startswith(f"quilt.toml:{line}: {said}") for m in wrong("sky sea", "4", more))


def test_tokens_of_a_picture_with_a_short_row_are_checked_all_the_same():
    messages = wrong("sky see\nsky.x.sea")
    assert [m.split(":")[1] for m in messages] == ["14", "15", "15"]


def test_an_oblong_block_keeps_its_shape_in_the_sizes_nearby():
    (message,) = wrong("sea.n.sky - sky\nsky sea sky", "10 x 6 2/3")
    assert "9 in x 6 in" in message
    assert "12 in x 8 in" in message


@pytest.mark.parametrize(
    ("written", "value"),
    [
        (3, 3.0),
        ("2 1/2", 2.5),
        ("2½", 2.5),
        ("sqrt 2", 1.4142135623730951),
        ("6 - 3 sqrt 2", 6 - 3 * 2**0.5),
        ("-1/2 + 1/2 sqrt 3", -0.5 + 3**0.5 / 2),
        ("2 sqrt 3", 2 * 3**0.5),
    ],
)
def test_coordinates_are_read(written, value):
    assert read_coordinate(written) == pytest.approx(value, abs=1e-12)


@pytest.mark.parametrize(
    "written", ["", "+", "1 +", "a", "sqrt 5", "1/0", "nan", "inf", "1e9", "2 2", "3 sqrt", "1--2", "99999"]
)
def test_what_is_no_coordinate_is_refused(written):
    with pytest.raises(ValueError, match="expected a coordinate"):
        read_coordinate(written)
