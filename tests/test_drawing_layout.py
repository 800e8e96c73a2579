"""Layout pictures: numbers that never touch, leftovers with their sizes, several pages, given cloth."""

import re
import xml.etree.ElementTree as Xml
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawn_things import PALETTE, small_layout
from piecewright.cutting.given.cloth import Given, precut
from piecewright.cutting.given.layout import FromShelf
from piecewright.cutting.given.shopping import lay_on_given
from piecewright.cutting.laying import from_least_cloth_to_least_cutting, lay_out
from piecewright.cutting.layout import Layout
from piecewright.cutting.order_of_cuts import order_of_cuts
from piecewright.cutting.wanted import Demand, Supply
from piecewright.cutting.wishes import LITTLE_EFFORT, USUAL
from piecewright.drawing.layout import LayoutNotes, draw_layout, layout_svg, layout_svgs
from piecewright.drawing.layout_choices import choices_svg, draw_choices, named_choices
from piecewright.drawing.layout_given import given_svgs
from piecewright.drawing.layout_key import keys_of
from piecewright.drawing.layout_numbers import BETWEEN, CutNumber, side_by_side
from piecewright.drawing.layout_pages import LANE, layout_pages, left_at_the_end
from piecewright.drawing.look import PAGE_WIDTH
from piecewright.drawing.palette import Palette
from piecewright.drawing.recorder_pen import RecorderPen
from piecewright.geometry.polygon import bounds
from piecewright.measure.length import inches

SVG = "{http://www.w3.org/2000/svg}"
CLOTH = Supply("sail", inches(40), inches("4 1/2"), straightening=inches(2))


def list_of(count: int, pieces: int = 140) -> Layout:
    """A layout of so many unlike sizes, as large lists have them."""
    wanted = [
        Demand(f"size {k}", inches("1 1/2") + inches(k) / 4, inches(2) + inches(k) / 2, pieces)
        for k in range(count)
    ]
    return lay_out(wanted, CLOTH)


def numbers_of(pen: RecorderPen) -> list[tuple[str, tuple[float, float, float, float]]]:
    """Rings and boxes with the number in each, where they lie."""
    shapes = [stroke for stroke in pen.strokes if stroke.style.name == "number"]
    words = [stroke for stroke in pen.strokes if stroke.what == "text"]
    found = []
    for shape in shapes:
        x0, y0, x1, y1 = bounds(shape.points)
        if shape.what == "circle":
            y0, y1 = y0 - (x1 - x0) / 2, y1 + (x1 - x0) / 2
        x, y = (x0 + x1) / 2, (y0 + y1) / 2
        told = [word.words for word in words if word.points[0] == pytest.approx((x, y), abs=1e-6)]
        found.append((told[0] if told else "", (x0, y0, x1, y1)))
    return found


def test_every_cut_has_its_number_in_the_picture_and_is_told_below_it() -> None:
    layout, pen = small_layout(), RecorderPen()
    draw_layout(pen, layout, PALETTE)
    cuts = order_of_cuts(layout)
    told = [words for words, _ in numbers_of(pen) if words]
    for cut in cuts:
        assert told.count(str(cut.number)) == 1 + len({place.pattern for place in cut.places})
    assert "5 strips, 2 1/2 in" in pen.words
    assert "straighten the end" in pen.words


wide_or_low = st.lists(
    st.tuples(st.integers(2, 60), st.integers(2, 60), st.integers(1, 60)), min_size=1, max_size=7
)


@settings(max_examples=15)
@given(wide_or_low)
def test_numbers_of_cuts_never_lie_on_each_other_or_on_pieces(sizes: list[tuple[int, int, int]]) -> None:
    wanted = [
        Demand(f"piece {k}", inches(w) / 4, inches(h) / 4, count) for k, (w, h, count) in enumerate(sizes)
    ]
    pen = RecorderPen()
    draw_layout(pen, lay_out(wanted, CLOTH), PALETTE)
    boxes = [box for _, box in numbers_of(pen)]
    pieces = [bounds(stroke.points) for stroke in pen.of_style("piece")]
    for k, a in enumerate(boxes):
        assert not any(overlap(a, b) for b in (*boxes[:k], *pieces))


def overlap(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


@settings(max_examples=50)
@given(st.lists(st.tuples(st.integers(1, 140), st.integers(0, 300)), min_size=1, max_size=12))
def test_crowded_numbers_move_aside_in_their_order_and_stay_within_the_lane(
    wanted: list[tuple[int, int]],
) -> None:
    placed = side_by_side([CutNumber(number, float(x)) for number, x in wanted], 308.0)
    assert [one.x for one in placed] == sorted(one.x for one in placed)
    for a, b in pairwise(placed):
        assert a.at + a.half + BETWEEN <= b.at - b.half + 1e-9
    assert placed[-1].at + placed[-1].half <= 308.0 + 1e-9


def test_a_number_stands_at_its_cut_where_there_is_room() -> None:
    assert [one.at for one in side_by_side([CutNumber(3, 90.0), CutNumber(2, 30.0)], 300.0)] == [30.0, 90.0]


def test_a_crowded_number_moves_away_from_the_start_of_the_strip_where_it_can() -> None:
    first, second = side_by_side([CutNumber(1, 2.0), CutNumber(2, 3.0)], 300.0)
    assert first.at == pytest.approx(2.0)
    assert second.at == pytest.approx(first.at + first.half + BETWEEN + second.half)


def test_leftovers_worth_keeping_have_their_size_and_narrow_ones_do_not() -> None:
    drawn = layout_svg(small_layout(), PALETTE)
    assert "left over: 20 × 2 1/2 in</text>" in drawn
    narrow = lay_out([Demand("squares", inches("12 3/4"), inches("12 3/4"), 3)], CLOTH)
    pen = RecorderPen()
    draw_layout(pen, narrow, PALETTE)
    assert not any(word.startswith("left over:") for word in pen.words if "40 ×" not in word)


def test_what_is_left_at_the_end_is_what_is_bought_less_straightening_and_strips() -> None:
    layout = lay_out([Demand("squares", inches(5), inches(5), 8)], CLOTH)
    assert (layout.buy, layout.length) == (inches(9), inches(5))
    assert left_at_the_end(layout) == inches(2)
    pen = RecorderPen()
    draw_layout(pen, layout, PALETTE)
    assert "left over: 40 × 2 in" in pen.words


def test_the_fold_is_marked_in_words_only_where_cloth_is_cut_folded() -> None:
    for layers, folded in ((1, False), (2, True), (4, False)):
        pen = RecorderPen()
        draw_layout(pen, small_layout(), PALETTE, notes=LayoutNotes(layers))
        assert ("fold" in pen.words) == folded


def test_lengthwise_pieces_and_one_way_prints_have_arrows() -> None:
    wanted = [
        Demand("keel", inches(4), inches(30), 3, may_turn=False),
        Demand("oars", inches(3), inches(9), 4),
    ]
    layout, plain, marked = lay_out(wanted, CLOTH), RecorderPen(), RecorderPen()
    draw_layout(plain, layout, PALETTE)
    draw_layout(marked, layout, PALETTE, notes=LayoutNotes(one_way=True, lengthwise={"oars"}))
    assert "along the selvedge" in plain.words
    assert "way of the print" in marked.words
    assert "way of the print" not in plain.words
    # Three keels alone, and their sign below; then four oars too.
    assert [len([s for s in pen.of_style("grain") if s.what == "polygon"]) for pen in (plain, marked)] == [
        4,
        8,
    ]
    assert len([s for s in marked.of_style("grain") if s.what == "arrow"]) == 1


def test_a_small_layout_is_one_picture_and_a_large_one_is_split() -> None:
    assert layout_svgs(small_layout(), PALETTE) == (layout_svg(small_layout(), PALETTE),)
    large = list_of(18)
    svgs = layout_svgs(large, PALETTE)
    pages = layout_pages(large, PAGE_WIDTH, 520.0)
    assert len(svgs) == len(pages) > 1
    assert [row.pattern for page in pages for row in page.rows] == list(large.patterns)
    for page, svg in zip(pages, svgs, strict=True):
        assert f"{page.told}</text>" in svg
        assert "5 in</text>" in svg
        assert sum(float(row.pattern.strip_height) * page.scale + LANE for row in page.rows) <= 520.0 + 1e-6


def test_on_every_page_of_a_large_list_each_piece_is_large_enough_for_its_letter() -> None:
    large = list_of(18)
    for page in layout_pages(large, PAGE_WIDTH, 520.0):
        sides = [min(one.width, one.height) for row in page.rows for one in row.pattern.sections]
        assert float(min(sides)) * page.scale > 10.5


def test_pages_say_which_strips_they_show() -> None:
    large = list_of(18)
    told = [page.told for page in layout_pages(large, PAGE_WIDTH, 520.0)]
    assert told[0].startswith("strips 1–")
    assert all(words.endswith(f" of {large.strips}") for words in told)
    firsts = [int(re.findall(r"\d+", words)[0]) for words in told]
    lasts = [int(re.findall(r"\d+", words)[-2]) for words in told]
    assert firsts[1:] == [last + 1 for last in lasts[:-1]]
    assert lasts[-1] == large.strips


def test_a_layout_that_stands_on_several_pages_has_the_same_letters_on_all() -> None:
    large = list_of(18)
    letters = {key.name: key.letter for key in keys_of(large).values()}
    for svg in layout_svgs(large, PALETTE):
        root = Xml.fromstring(svg)
        words = [element.text or "" for element in root.iter(f"{SVG}text")]
        for k, word in enumerate(words):
            if found := re.fullmatch(r"140 of .* in, (size \d+)", word):
                assert words[k - 1] == letters[found[1]]


@cache
def from_the_shelf() -> FromShelf:
    wanted = [
        Demand("points", inches("2 7/8"), inches("2 7/8"), 80),
        Demand("masts", inches("2 1/2"), inches(18), 4, may_turn=False),
        Demand("pins", inches(1), inches(1), 12),
    ]
    scrap = Given("odd scrap", inches("11 1/2"), inches(21), 1, "sea", strips="along")
    return lay_on_given(wanted, [scrap, precut("fat quarter", 3, "sea")], LITTLE_EFFORT)


def test_every_piece_of_given_cloth_is_drawn_and_says_how_many_are_cut_alike() -> None:
    found = from_the_shelf()
    svgs = given_svgs(found, Palette({"sea": ("#3f6377",)}))
    assert len(svgs) == len(found.used)
    for cut, svg in zip(found.used, svgs, strict=True):
        root = Xml.fromstring(svg)
        pieces = [one for one in root.iter(f"{SVG}polygon") if one.get("class") == "piece"]
        assert len(pieces) == sum(s.pieces * p.times for p in cut.patterns for s in p.sections)
        assert f"strips {'along' if cut.along else 'across'} the cloth" in svg
        assert (f"{cut.name}, {cut.times} cut alike" in svg) == (cut.times > 1)


def test_pieces_of_given_cloth_are_to_scale_whichever_way_strips_run() -> None:
    for cut, svg in zip(from_the_shelf().used, given_svgs(from_the_shelf(), PALETTE), strict=True):
        root = Xml.fromstring(svg)
        # The bar of 5 in: the first level line of its kind.
        bar = next(e for e in root.iter(f"{SVG}polyline") if e.get("class") == "measure")
        (x0, _), (x1, _) = points_of(bar)
        pieces = [bounds(points_of(e)) for e in root.iter(f"{SVG}polygon") if e.get("class") == "piece"]
        drawn = {
            (round((c - a) / (x1 - x0) * 5, 1), round((d - b) / (x1 - x0) * 5, 1)) for a, b, c, d in pieces
        }
        sides = [(s.width, s.height) for p in cut.patterns for s in p.sections]
        lying = {(h, w) if cut.along else (w, h) for w, h in sides}
        assert drawn == {(round(float(w), 1), round(float(h), 1)) for w, h in lying}


def points_of(element: Xml.Element) -> list[tuple[float, float]]:
    pairs = [pair.split(",") for pair in (element.get("points") or "").split()]
    return [(float(x), float(y)) for x, y in pairs]


def test_of_a_long_piece_only_the_strips_are_drawn_and_the_rest_stays_whole() -> None:
    remnant = Given("remnant", inches(40), inches(50), 1, "fog")
    found = lay_on_given([Demand("points", inches("2 7/8"), inches("2 7/8"), 26)], [remnant])
    (svg,) = given_svgs(found, PALETTE)
    assert "the rest stays whole: 40 × 44 1/4 in</text>" in svg


def choices() -> tuple[Layout, ...]:
    wanted = [Demand(f"size {k}", inches(k + 4) / 2, inches(2 * k + 5) / 2, 90 + k) for k in range(9)]
    return from_least_cloth_to_least_cutting(wanted, CLOTH, USUAL)


def test_bars_of_a_choice_are_as_long_as_its_cloth_and_its_settings() -> None:
    pen, found = RecorderPen(), choices()
    assert len({one.buy for one in found}) > 1
    draw_choices(pen, named_choices(found))
    for style, figures in (
        ("cloth bar", [float(one.buy) for one in found]),
        ("offcut", [float(one.ruler_changes) for one in found]),
        ("cuts bar", [float(one.operations(2)) for one in found]),
    ):
        boxes = [bounds(stroke.points) for stroke in pen.of_style(style)]
        long = [x1 - x0 for x0, _, x1, _ in boxes]
        assert [one / max(long) for one in long] == pytest.approx([one / max(figures) for one in figures])


def test_a_choice_says_which_one_is_cut_here_and_tells_all_figures_in_words() -> None:
    found = choices()
    svg = choices_svg(named_choices(found, found[1]))
    assert svg.count("(cut here)</text>") == len([one for one in found if one == found[1]])
    description = Xml.fromstring(svg).find(f"{SVG}desc")
    assert description is not None
    for one in found:
        assert f"{one.ruler_changes} ruler settings" in (description.text or "")
