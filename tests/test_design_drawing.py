"""The drawing of the whole top and the order it suggests; turns, one-way prints, sizes, cost."""

from itertools import pairwise
from pathlib import Path

import pytest

from piecewright.design.colour import colour_of, lightness
from piecewright.design.draw_block import draw_block
from piecewright.design.draw_quilt import draw_quilt
from piecewright.design.drawing import Group, InLine, Placed
from piecewright.design.model import fabric_of, finished_size
from piecewright.design.read import design_from, read_design
from piecewright.geometry.polygon import area, bounds, overlap_area
from piecewright.measure.length import inches, mm
from piecewright.toml_places import toml_from_text

EXAMPLES = sorted((Path(__file__).parents[1] / "examples").glob("*.toml"))

QUILT = """title = "t"
[fabrics.sky]
colour = "white"
[fabrics.sea]
colour = "black"
one_way = true
[blocks.b]
size = "4"
picture = "sea.nw.sky"
[blocks.plain]
size = "4"
picture = "sky"
[setting]
across = {across}
down = {down}
arrangement = '''
{arrangement}
'''
{more}
"""


def quilt(arrangement="b", across=2, down=2, more="", size="4"):
    text = QUILT.format(across=across, down=down, arrangement=arrangement, more=more)
    text = text.replace('size = "4"', f'size = "{size}"')
    design, problems = design_from(toml_from_text(text, "q"))
    assert design is not None, problems
    return design


def leaves(order):
    if isinstance(order, Placed):
        return [order]
    return [leaf for part in order.parts for leaf in leaves(part)]


def names(order):
    """The names of the lines of an order, outermost first, as far as the first part that is a line goes."""
    found = []
    while isinstance(order, InLine):
        found.append((order.name, order.direction, len(order.parts)))
        order = next((part for part in order.parts if isinstance(part, InLine)), None)
    return found


def check_order(order):
    """Parts of a line lie end to end, as wide (or as high) as each other; gives the bounds."""
    if isinstance(order, Placed):
        return bounds(order.outline)
    boxes = [check_order(part) for part in order.parts]
    axis = 0 if order.direction == "across" else 1
    for before, after in pairwise(boxes):
        assert after[axis] == pytest.approx(before[axis + 2], abs=1e-9)
        assert before[1 - axis] == pytest.approx(after[1 - axis], abs=1e-9)
        assert before[3 - axis] == pytest.approx(after[3 - axis], abs=1e-9)
    return (*boxes[0][:2], *boxes[-1][2:])


SASHED = '[sashing]\nwidth = "1"\nrole = "sky"\n'
BORDERED = """
[[borders]]
width = "2"
role = "sky"
[[borders]]
width = "3"
role = "sea"
order = "top and bottom first"
"""


@pytest.mark.parametrize("more", ["", SASHED, SASHED + "around = true\n", SASHED + 'cornerstone = "sea"\n'])
@pytest.mark.parametrize("borders", ["", BORDERED])
@pytest.mark.parametrize(("across", "down"), [(3, 2), (1, 1), (1, 3), (3, 1)])
def test_the_order_joins_all_children_end_to_end_into_the_top(more, borders, across, down):
    drawing = draw_quilt(quilt("b b.right", across, down, more + borders))
    assert {id(leaf) for leaf in leaves(drawing.order)} == {id(child) for child in drawing.top.children}
    assert check_order(drawing.order) == pytest.approx(bounds(drawing.top.outline))
    assert sum(area(p.outline) for p in drawing.top.patches) == pytest.approx(area(drawing.top.outline))


def test_patches_of_a_top_do_not_overlap():
    patches = draw_quilt(quilt("b b.right\nb.left sky", 2, 2, SASHED + BORDERED)).top.patches
    assert max(overlap_area(p.outline, q.outline) for i, p in enumerate(patches) for q in patches[:i]) < 1e-9


def test_the_suggested_order_is_named_in_words_of_the_trade():
    order = draw_quilt(quilt("b", 3, 2, SASHED + 'cornerstone = "sea"\naround = true\n' + BORDERED)).order
    assert names(order) == [
        ("with border 2", "across", 3),
        ("with top and bottom borders", "up", 3),
        ("with border 1", "up", 3),
        ("with side borders", "across", 3),
        ("centre", "up", 5),
        ("sashing row", "across", 7),
    ]


def test_rows_of_an_arrangement_run_from_top_to_bottom():
    drawing = draw_quilt(quilt("sky\nb", 1, 2))
    plain, block = sorted(drawing.top.children, key=lambda c: -bounds(c.outline)[1])
    assert not isinstance(plain.drawing, Group)
    assert isinstance(block.drawing, Group)


@pytest.mark.parametrize(("turn", "corner"), [("", "nw"), (".right", "ne"), (".half", "se"), (".left", "sw")])
def test_a_block_turned_to_the_right_has_its_north_west_in_the_north_east(turn, corner):
    (child,) = draw_quilt(quilt(f"b{turn}", 1, 1)).top.children
    (sea,) = [p.placed(child.place) for p in child.drawing.patches if p.role == "sea"]
    corners = {"nw": (0, 4), "ne": (4, 4), "se": (4, 0), "sw": (0, 0)}
    assert {(round(x), round(y)) for x, y in sea.outline} == set(corners.values()) - {
        corners[{"nw": "se", "ne": "sw", "se": "nw", "sw": "ne"}[corner]]
    }


def test_a_one_way_print_stands_upright_however_its_block_is_turned():
    drawing = draw_quilt(quilt("b b.right b.half b.left", 4, 1, BORDERED))
    ways = {(p.role, p.way) for p in drawing.top.patches}
    assert ways == {("sea", 90), ("sky", None)}


def test_the_same_block_is_one_drawing_unless_a_one_way_print_makes_it_another():
    one_way = draw_quilt(quilt("b b b.right b.right", 4, 1)).top.children
    assert one_way[0].drawing is one_way[1].drawing
    assert one_way[2].drawing is one_way[3].drawing
    assert one_way[0].drawing is not one_way[2].drawing
    free = draw_quilt(quilt("plain plain.right", 2, 1)).top.children
    assert free[0].drawing is free[1].drawing
    assert draw_block(quilt(), "b", 90) is draw_block(quilt(), "b", 90)


def test_long_strips_may_be_pieced_and_the_rest_not():
    patches = draw_quilt(quilt("b", 2, 2, SASHED + BORDERED)).top.patches
    assert sum(p.may_piece for p in patches) == 1 + 4 + 4


def test_the_finished_size_counts_sashes_and_borders():
    assert finished_size(quilt("b", 3, 2)) == (inches(12), inches(8))
    assert finished_size(quilt("b", 3, 2, SASHED)) == (inches(14), inches(9))
    assert finished_size(quilt("b", 3, 2, SASHED + "around = true\n" + BORDERED)) == (inches(26), inches(21))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_is_drawn_in_its_exact_size(path):
    design, problems = read_design(path)
    assert problems == []
    drawing = draw_quilt(design)
    width, height = map(float, finished_size(design))
    assert bounds(drawing.top.outline) == (0, 0, width, height)
    assert check_order(drawing.order) == pytest.approx((0, 0, width, height))
    assert sum(area(p.outline) for p in drawing.top.patches) == pytest.approx(width * height)


def test_the_examples_have_the_sizes_they_speak_of():
    sizes = {path.stem: finished_size(read_design(path)[0]) for path in EXAMPLES}
    assert sizes == {
        "harbour-lights": (inches(55), inches(64)),
        "metric-nets": (mm(810), mm(810)),
        "sawtooth-star": (inches(12), inches(12)),
        "slack-water": (inches(76), inches(94)),
    }


def test_a_role_gives_its_cloth_its_colours_and_its_lightness():
    roles = '[roles.bits]\nprints = 3\ncolours = ["#000", "#fff"]\n'
    design = quilt("b", more=roles)
    assert (fabric_of(design, "sea"), fabric_of(design, "bits")) == ("sea", "bits")
    assert [colour_of(design, "bits", i) for i in range(3)] == ["#000000", "#ffffff", "#000000"]
    assert lightness(design, "sky") == pytest.approx(1, abs=1e-6)
    assert lightness(design, "sea") == pytest.approx(0, abs=1e-6)
    assert lightness(design, "bits") == pytest.approx(0.5, abs=1e-6)


def test_eight_thousand_blocks_with_sashes_share_seven_drawings():
    design = quilt("b b.right\nb.half b.left", 90, 90, SASHED + 'cornerstone = "sea"\n', size="2")
    drawing = draw_quilt(design)
    assert len(drawing.top.children) == 179 * 179
    assert len({id(child.drawing) for child in drawing.top.children}) == 4 + 3
