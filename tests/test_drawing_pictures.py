"""What pictures show: the steps of a method as the bench does them, layouts, pressing, joining, quilts."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawn_things import COARSE, PALETTE, WORKROOM, recipe, small_layout, star
from piecewright.cutting.laying import lay_out
from piecewright.cutting.wanted import Demand, Supply
from piecewright.design.draw_quilt import draw_quilt
from piecewright.design.drawing import Group, InLine, Patch, Placed, QuiltDrawing
from piecewright.design.read import read_design
from piecewright.drawing.joining import draw_joining, laid_apart
from piecewright.drawing.layout import draw_layout, layout_svg
from piecewright.drawing.layout_key import keys_of, letter_of
from piecewright.drawing.method import draw_method, method_rows, method_svg
from piecewright.drawing.on_cloth import across_cloth, common, stretches
from piecewright.drawing.palette import Palette, palette_of, plain_palette, shuffled
from piecewright.drawing.pressing import draw_pressing_picture, pressing_svg
from piecewright.drawing.quilt import draw_quilt_picture, quilt_svg
from piecewright.drawing.recorder_pen import RecorderPen
from piecewright.geometry.isometry import moved
from piecewright.geometry.polygon import area, contains, overlap_area, placed, rectangle
from piecewright.measure.length import inches
from piecewright.methods import METHODS
from piecewright.methods.method import Method

ROOT = Path(__file__).parents[1]


def recorded(method: Method) -> RecorderPen:
    pen = RecorderPen()
    draw_method(pen, recipe(method.kind, method.name), WORKROOM, PALETTE)
    return pen


# Counted by hand from the steps: seams sewn and cuts made with the rotary cutter in each way.
@pytest.mark.parametrize(
    ("kind", "way", "cuts", "marked"),
    [
        ("hst", "one at a time", 1, 1),
        ("hst", "two at a time", 1, 1),
        ("hst", "four at a time", 2, 0),
        ("hst", "eight at a time", 4, 2),
        ("hst", "from cut triangles", 2, 0),
        ("hourglass", "two at a time", 2, 2),
        ("geese", "stitch and flip", 2, 2),
    ],
)
def test_each_cut_is_drawn_once_and_marks_only_where_one_draws_a_line(
    kind: str, way: str, cuts: int, marked: int
) -> None:
    pen = recorded(next(m for m in METHODS if (m.kind, m.name) == (kind, way)))
    assert len(pen.of_style("cut line")) == cuts
    laid = [s for s in pen.of_style("marked line") if "Lay" in s.group]
    assert len(laid) == marked


def test_only_what_no_stitching_holds_is_hatched() -> None:
    flip = recorded(next(m for m in METHODS if m.name == "stitch and flip"))
    two = recorded(next(m for m in METHODS if (m.kind, m.name) == ("hst", "two at a time")))
    # Two corners come off a goose, each of them from the rectangle and from the square (and of the wing).
    assert len(flip.of_style("offcut")) >= 4
    assert two.of_style("offcut") == []


def test_what_lies_on_top_is_drawn_wrong_side_up_and_lighter() -> None:
    pen = recorded(next(m for m in METHODS if (m.kind, m.name) == ("hst", "two at a time")))
    wrong = [stroke for stroke in pen.of_style("wrong side") if "Lay" in stroke.group]
    right = [stroke for stroke in pen.of_style("cloth") if "Lay" in stroke.group]
    assert [stroke.style.fill for stroke in right] == ["#1f3350"]
    assert len(wrong) == 1
    assert wrong[0].style.fill not in ("#e4e6e1", "#1f3350")


def test_true_up_has_a_frame_only_where_something_is_trimmed() -> None:
    for workroom, trims in ((WORKROOM, False), (COARSE, True)):
        made = recipe("hst", "two at a time", workroom=workroom)
        rows = method_rows(made, workroom, PALETTE, "in")
        captions = [frame.caption for row in rows for frame in row]
        assert (made.sizing.truing == "trim") == trims
        assert ("True up" in captions) == trims


def test_a_goose_stands_on_its_base_in_the_last_frame() -> None:
    pen = recorded(next(m for m in METHODS if (m.kind, m.name) == ("geese", "four at a time")))
    last = [s for s in pen.of_style("cloth") if s.group.startswith("10 ")]
    goose = next(s for s in last if s.style.fill == "#e4e6e1")
    xs, ys = [x for x, _ in goose.points], [y for _, y in goose.points]
    assert max(xs) - min(xs) > 1.5 * (max(ys) - min(ys))
    top = max(goose.points, key=lambda p: p[1])
    assert top[0] == pytest.approx((min(xs) + max(xs)) / 2, abs=0.1)


def test_stretches_of_a_line_on_cloths_that_touch_are_one() -> None:
    line = ((0.0, 1.0), (10.0, 1.0))
    cloths = [rectangle(2, 2), placed(rectangle(2, 2), moved(2, 0)), placed(rectangle(2, 2), moved(6, 0))]
    assert stretches(line, cloths) == [(0.0, 4.0), (6.0, 8.0)]
    assert common([(0.0, 4.0), (6.0, 8.0)], [(3.0, 7.0)]) == [(3.0, 4.0), (6.0, 7.0)]
    across = across_cloth(((5.0, 1.0), (5.5, 1.0)), cloths)
    assert across is not None
    assert [x for x, _ in across] == pytest.approx([0.0, 8.0])


def test_layout_shows_each_piece_of_one_strip_of_a_kind_and_tells_how_many_strips() -> None:
    layout, pen = small_layout(), RecorderPen()
    draw_layout(pen, layout, PALETTE)
    pieces = sum(section.pieces for pattern in layout.patterns for section in pattern.sections)
    assert len(pen.of_style("piece")) == pieces
    for key in keys_of(layout).values():
        told = [word for word in pen.words if word.endswith(f", {key.name}")]
        assert len(told) == 1
        assert told[0].startswith(f"{key.count} of ")
    assert any(word.startswith("5 × 2 1/4 in") for word in pen.words)


demands = st.lists(
    st.tuples(st.integers(8, 64), st.integers(8, 64), st.integers(1, 60)), min_size=1, max_size=5, unique=True
)


@settings(max_examples=25)
@given(demands)
def test_pieces_and_leftovers_of_a_layout_fill_its_strips_to_scale(sizes: list[tuple[int, int, int]]) -> None:
    wanted = [
        Demand(f"piece {k}", inches(w) / 4, inches(h) / 4, count) for k, (w, h, count) in enumerate(sizes)
    ]
    layout, pen = lay_out(wanted, Supply("navy", inches(40), inches("4 1/2"))), RecorderPen()
    draw_layout(pen, layout, PALETTE)
    shapes = [s for s in pen.strokes if s.what == "polygon" and s.group.startswith("strip")]
    on_paper = sum(abs(area(s.points)) for s in shapes if s.style.name in ("piece", "offcut"))
    strips = sum(float(p.strip_height) for p in layout.patterns)
    assert on_paper == pytest.approx(strips * 40 * _scale_of(pen) ** 2, rel=1e-6)


def _scale_of(pen: RecorderPen) -> float:
    """The points to the inch, from the bar of 5 in."""
    bars = [s.points for s in pen.of_style("measure") if s.points[0][1] == s.points[1][1]]
    return (bars[-1][1][0] - bars[-1][0][0]) / 5


def test_pieces_are_told_by_where_they_go() -> None:
    names = {"rails": "star, along the edge"}
    drawn = layout_svg(small_layout(), PALETTE, names=names)
    assert "of 2 1/2 × 6 1/2 in, star, along the edge</text>" in drawn
    assert "rails" not in drawn


def test_letters_are_never_alike() -> None:
    letters = [letter_of(k) for k in range(100)]
    assert len(set(letters)) == 100
    assert not {"I", "O"} & set(letters)


def test_a_layout_of_nothing_is_drawn() -> None:
    drawn = layout_svg(lay_out([], Supply("navy", inches(40), inches("4 1/2"))), PALETTE)
    assert "usable width 40 in" in drawn


def test_arrows_point_to_the_side_that_the_seam_is_pressed_to() -> None:
    pen = RecorderPen()
    draw_pressing_picture(pen, star("first"), PALETTE, 120.0)
    # The lower long seam is pressed down, to the row it was sewn from first; 12 in are 120 points.
    lower = [s for s in pen.strokes if s.what == "arrow" and s.points[0][0] == pytest.approx(s.points[1][0])]
    low = [s for s in lower if 20 < s.points[0][1] < 40]
    assert len(low) == 4
    assert all(s.points[1][1] < s.points[0][1] for s in low)


def test_open_seams_have_diamonds_and_no_arrows() -> None:
    pen = RecorderPen()
    draw_pressing_picture(pen, star("open"), PALETTE, 120.0)
    diamonds = [s for s in pen.of_style("pressed spot") if s.what == "polygon"]
    assert len(diamonds) == 8
    assert {round(s.points[0][1] + s.points[2][1]) for s in diamonds} == {60, 180}
    assert "2 seams open (diamonds)" in pressing_svg(star("open"), PALETTE, "star")


def test_parts_laid_apart_do_not_touch_and_keep_their_order() -> None:
    cloth = star()
    apart = laid_apart(cloth, 1.0)
    outlines = [placed(part.net, place) for part, place in apart.parts]
    assert len(outlines) == 9
    assert all(overlap_area(p, q) == 0 for k, p in enumerate(outlines) for q in outlines[k + 1 :])
    assert len(apart.seams) == 8
    for a, b in apart.seams:
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        assert not any(contains(outline, middle, 0.0) for outline in outlines)
    pen = RecorderPen()
    draw_joining(pen, cloth, PALETTE)
    assert len(pen.of_style("seam to sew")) == 8


def test_a_quilt_shows_every_patch_once_in_its_colour() -> None:
    for file in sorted((ROOT / "examples").glob("*.toml")):
        design, problems = read_design(file)
        assert design is not None, problems
        quilt, palette, pen = draw_quilt(design), palette_of(design), RecorderPen()
        draw_quilt_picture(pen, quilt, palette)
        shown = pen.of_style("cloth")
        assert len(shown) == quilt.top.patch_count
        wanted = Counter(patch.role for child in quilt.top.children for patch in child.drawing.patches)
        for role, count in wanted.items():
            others = [c for r in wanted if r != role for c in palette.colours[r]]
            mine = [c for c in palette.colours[role] if c not in others]
            if len(mine) == len(palette.colours[role]):
                assert sum(s.style.fill in mine for s in shown) == count, role


def test_a_scrappy_quilt_looks_scrappy_and_the_same_each_time() -> None:
    design, _ = read_design(ROOT / "examples" / "slack-water.toml")
    assert design is not None
    palette, pen = palette_of(design), RecorderPen()
    draw_quilt_picture(pen, draw_quilt(design), palette)
    used = Counter(stroke.style.fill for stroke in pen.of_style("cloth"))
    shares = [used[colour] for colour in palette.colours["blues"]]
    assert min(shares) > 0.5 * sum(shares) / len(shares)
    assert quilt_svg(draw_quilt(design), palette) == quilt_svg(draw_quilt(design), palette)


@given(st.integers(1, 20), st.integers(0, 50))
def test_shuffled_colours_are_all_there(count: int, way: int) -> None:
    assert sorted(shuffled(count, way)) == list(range(count))


def test_prints_of_a_block_differ_as_long_as_there_are_others() -> None:
    palette = Palette({"blues": ("#000001", "#000002", "#000003"), "fog": ("#eeeeee",)})
    for way in range(10):
        colours = list(palette.scattered(["blues", "fog", "blues", "blues", "blues"], way))
        assert len({colours[0], *colours[2:4]}) == 3
        assert colours[1] == "#eeeeee"


def test_cloths_without_colours_are_told_apart() -> None:
    palette = plain_palette(("first", "second", "third"))
    assert len({palette.colour(key) for key in ("first", "second", "third")}) == 3


def test_a_quilt_of_10000_patches_makes_a_small_picture() -> None:
    side, across = 1.0, 5
    outline = rectangle(side, side)
    squares = [
        Placed(Patch("navy" if (x + y) % 2 else "fog", outline), moved(float(x), float(y)))
        for x in range(across)
        for y in range(across)
    ]
    block = Group("check", tuple(squares), rectangle(5.0, 5.0))
    places = [Placed(block, moved(5.0 * x, 5.0 * y)) for x in range(20) for y in range(20)]
    top = Group("Big check", tuple(places), rectangle(100.0, 100.0))
    drawn = quilt_svg(QuiltDrawing(top, InLine("centre", "up", tuple(places))), PALETTE)
    assert top.patch_count == 10_000
    assert len(drawn) < 40_000


def test_descriptions_say_what_is_shown() -> None:
    design, _ = read_design(ROOT / "examples" / "harbour-lights.toml")
    assert design is not None
    drawn = quilt_svg(draw_quilt(design), palette_of(design), "rust")
    assert "721 patches. Blocks: 15 of Wake, 15 of Lantern star." in drawn
    two = method_svg(recipe("hst", "two at a time"), WORKROOM, PALETTE)
    assert "1 Take: 1 square, 2 7/8 in, navy solid; 1 square, 2 7/8 in, fog. 2 Lay face to face, mark." in two
    assert "5 strips 2 1/4 in high with 1 C each" in layout_svg(small_layout(), PALETTE)
