"""The pens: what they write, what they take of the paper, and golden pictures of each kind."""

from __future__ import annotations

import xml.etree.ElementTree as Xml
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawn_things import COARSE, PALETTE, WORKROOM, recipe, small_layout, star
from piecewright.bench.bench import seam_of
from piecewright.bench.steps import TrueUp
from piecewright.design.draw_block import draw_block
from piecewright.design.read import read_design
from piecewright.drawing import look
from piecewright.drawing.bounds_pen import BoundsPen
from piecewright.drawing.hatch import hatching
from piecewright.drawing.joining import draw_joining, joining_svg
from piecewright.drawing.layout import draw_layout, layout_svg
from piecewright.drawing.look import CLOTH, CUT, OFFCUT, WORDS, Style, filled, lightened
from piecewright.drawing.method import draw_method, method_svg, run_through
from piecewright.drawing.palette import palette_of
from piecewright.drawing.pen import Pen, PlacedPen
from piecewright.drawing.pressing import draw_pressing_picture, pressing_svg
from piecewright.drawing.quilt import block_svg, draw_block_picture
from piecewright.drawing.recorder_pen import RecorderPen
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.truing import draw_truing, truing_svg
from piecewright.geometry.isometry import Isometry, moved, turned
from piecewright.geometry.point import distance
from piecewright.geometry.polygon import bounds, contains, rectangle

ROOT = Path(__file__).parents[1]
GOLDEN = Path(__file__).parent / "golden"
SVG = "{http://www.w3.org/2000/svg}"


def star_block() -> str:
    design, problems = read_design(ROOT / "examples" / "sawtooth-star.toml")
    assert design is not None, problems
    return block_svg(draw_block(design, "star"), palette_of(design), labelled=True)


def truing(kind: str, way: str, height: str = "2") -> str:
    made = recipe(kind, way, height, COARSE)
    moment = next(m for m in run_through(made, COARSE) if isinstance(m.step, TrueUp))
    assert isinstance(moment.step, TrueUp)
    return truing_svg(moment.before.piles["unit"].kinds[0][0], moment.step, seam_of(COARSE), PALETTE)


PICTURES: dict[str, Callable[[], str]] = {
    "hst-two-at-a-time": lambda: method_svg(recipe("hst", "two at a time"), WORKROOM, PALETTE),
    "geese-four-at-a-time": lambda: method_svg(recipe("geese", "four at a time"), WORKROOM, PALETTE),
    "hst-grid-3-x-3": lambda: method_svg(recipe("hst", "grid 3 x 3"), WORKROOM, PALETTE),
    "half-rectangle": lambda: method_svg(recipe("hrt", "from cut rectangles", "4"), WORKROOM, PALETTE),
    "square-in-a-square": lambda: method_svg(recipe("insquare", "from cut triangles"), WORKROOM, PALETTE),
    "corner-flipped-bonus-saved": lambda: method_svg(
        recipe("corner1", "stitch and flip, bonus saved", "4"), WORKROOM, PALETTE
    ),
    "nine-patch-strip-sets": lambda: method_svg(recipe("ninepatch", "strip sets", "3"), WORKROOM, PALETTE),
    "log-cabin": lambda: method_svg(recipe("logcabin", "log by log", "6"), WORKROOM, PALETTE),
    "goose-on-a-foundation": lambda: method_svg(recipe("geese", "on a foundation"), WORKROOM, PALETTE),
    "diamonds-from-a-strip": lambda: method_svg(recipe("diamond45", "from strips"), WORKROOM, PALETTE),
    "star-set-in": lambda: method_svg(recipe("star8", "set in", "12"), WORKROOM, PALETTE),
    "quarter-circle": lambda: method_svg(recipe("quarter-circle", "by template", "4"), WORKROOM, PALETTE),
    "sawtooth-star-block": star_block,
    "small-layout": lambda: layout_svg(small_layout(), PALETTE),
    "sawtooth-star-pressing": lambda: pressing_svg(star(), PALETTE, "Sawtooth star"),
    "sawtooth-star-joining": lambda: joining_svg(star(), PALETTE, "Sawtooth star"),
    "hst-truing": lambda: truing("hst", "two at a time"),
    "geese-truing": lambda: truing("geese", "four at a time"),
    "half-rectangle-truing": lambda: truing("hrt", "from cut rectangles, trimmed", "4"),
    "square-in-a-square-truing": lambda: truing("insquare", "from cut triangles, trimmed", "12"),
}


@pytest.mark.parametrize("name", PICTURES)
def test_picture_is_the_golden_one(name: str, renew_pictures: bool) -> None:
    drawn, file = PICTURES[name](), GOLDEN / f"{name}.svg"
    if renew_pictures:
        file.write_text(drawn, "utf-8")
    same = drawn == file.read_text("utf-8")
    assert same, f"{file.name} has changed: look at it, then run pytest --renew-pictures"


@pytest.mark.parametrize("name", PICTURES)
def test_picture_is_xml_with_a_title_and_a_description_and_nothing_from_elsewhere(name: str) -> None:
    drawn = PICTURES[name]()
    root = Xml.fromstring(drawn)
    title, description = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None
    assert title.text
    assert description is not None
    assert len(description.text or "") > 30
    assert "http" not in drawn.replace("http://www.w3.org/2000/svg", "")


def test_golden_pictures_are_all_in_use() -> None:
    assert sorted(file.stem for file in GOLDEN.glob("*.svg")) == sorted(PICTURES)


def test_words_are_escaped_and_signs_that_xml_forbids_left_out() -> None:
    pen = SvgPen('Tides & "nets" <1>\x0b', "a < b")
    pen.group('a "b" & c')
    pen.text((0, 0), "2 < 3 & 4\x00", 8.0)
    pen.end_group()
    root = Xml.fromstring(pen.svg())
    texts = [element.text for element in root.iter() if element.text and element.text.strip()]
    assert texts[:2] == ['Tides & "nets" <1>', "a < b"]
    assert texts[-1] == "2 < 3 & 4"
    assert root.find(f"{SVG}g").get("aria-label") == 'a "b" & c'  # type: ignore[union-attr]


def test_up_is_up_on_paper() -> None:
    pen = SvgPen("t", "d")
    pen.polygon([(0, 0), (10, 0), (0, 20)], CLOTH)
    assert 'points="0,0 10,0 0,-20"' in pen.svg()


def test_cloth_lies_at_its_colour_and_lines_on_cloth_have_a_halo_and_ticks() -> None:
    pen = SvgPen("t", "d")
    pen.polygon(rectangle(10, 10), filled(CLOTH, "#14558c"))
    pen.polyline([(0, 0), (10, 0)], CUT)
    drawn = pen.svg()
    assert '<polygon class="cloth" fill="#14558c"' in drawn
    assert drawn.count('class="cut-line halo"') == 1
    assert 'd="M0,2.2 0,-2.2M10,-2.2 10,2.2"' in drawn


PLACES = [moved(3, 4), turned(90), turned(45, (1, 2)), Isometry(0.0, 1.0, 2.0, -3.0, True)]


@pytest.mark.parametrize("place", PLACES)
def test_a_stamp_in_svg_lies_where_the_same_shape_is_drawn_out(place: Isometry) -> None:
    corners = [(1.0, 0.0), (5.0, 0.0), (5.0, 2.0)]
    pen = SvgPen("Stamps", "d")
    pen.stamp("key", lambda p: p.polygon(corners, CLOTH), place)
    root = Xml.fromstring(pen.svg())
    use, shape = root.find(f"{SVG}use"), root.find(f"{SVG}defs/{SVG}g/{SVG}polygon")
    assert use is not None
    assert shape is not None
    assert use.get("href") == "#" + (root.find(f"{SVG}defs/{SVG}g").get("id") or "")  # type: ignore[union-attr]
    flat = [tuple(map(float, pair.split(","))) for pair in (shape.get("points") or "").split()]
    a, b, c, d, e, f = matrix_of(use)
    lying = [(a * x + c * y + e, -(b * x + d * y + f)) for x, y in flat]
    assert all(distance(p, place.at(q)) < 0.02 for p, q in zip(lying, corners, strict=True))


def matrix_of(use: Xml.Element) -> list[float]:
    transform = use.get("transform")
    if transform is None:
        return [1, 0, 0, 1, float(use.get("x") or 0), float(use.get("y") or 0)]
    return list(map(float, transform.removeprefix("matrix(").removesuffix(")").split()))


def test_a_stamp_is_drawn_once_and_used_again() -> None:
    pen = SvgPen("Stamps", "d")
    for k in range(50):
        pen.stamp("square", lambda p: p.polygon(rectangle(5, 5), CLOTH), moved(10.0 * k, 0.0))
    assert pen.svg().count("<polygon") == 1
    assert pen.svg().count("<use") == 50
    assert 'width="501.45pt" height="11.45pt"' in pen.svg()


DRAWN: dict[str, Callable[[Pen], None]] = {
    "hst two": lambda pen: draw_method(pen, recipe("hst", "two at a time"), WORKROOM, PALETTE),
    "hst four": lambda pen: draw_method(pen, recipe("hst", "four at a time"), WORKROOM, PALETTE),
    "strip sets": lambda pen: draw_method(pen, recipe("ninepatch", "strip sets", "3"), WORKROOM, PALETTE),
    "log cabin": lambda pen: draw_method(pen, recipe("logcabin", "on a foundation"), WORKROOM, PALETTE),
    "geese flip": lambda pen: draw_method(pen, recipe("geese", "stitch and flip"), WORKROOM, PALETTE),
    "layout": lambda pen: draw_layout(pen, small_layout(), PALETTE),
    "pressing": lambda pen: draw_pressing_picture(pen, star(), PALETTE),
    "joining": lambda pen: draw_joining(pen, star(), PALETTE),
}


@pytest.mark.parametrize("name", DRAWN)
def test_all_that_is_drawn_lies_within_the_bounds_and_touches_them(name: str) -> None:
    bounds_pen, recorder = BoundsPen(), RecorderPen()
    DRAWN[name](bounds_pen)
    DRAWN[name](recorder)
    points = [p for stroke in recorder.strokes for p in stroke.points]
    x0, y0, x1, y1 = bounds_pen.box
    assert all(x0 <= x <= x1 and y0 <= y <= y1 for x, y in points)
    _, least_y, _, most_y = bounds(points)
    assert max(least_y - y0, y1 - most_y) < look.CAPTION
    assert bounds_pen.size[0] < look.PAGE_WIDTH + 10


@pytest.mark.parametrize("name", DRAWN)
def test_groups_are_closed_and_writing_is_seven_to_nine_points(name: str) -> None:
    class Sizes(RecorderPen):
        def __init__(self) -> None:
            super().__init__()
            self.sizes: set[float] = set()
            self.open_groups = 0

        def text(self, at, words, size, anchor="middle", style=WORDS, turn=0.0):  # type: ignore[no-untyped-def]
            self.sizes.add(size)

        def group(self, name: str) -> None:
            self.open_groups += 1

        def end_group(self) -> None:
            self.open_groups -= 1

    pen = Sizes()
    DRAWN[name](pen)
    assert all(7 <= size <= 9 for size in pen.sizes)
    assert pen.sizes or name in ("pressing", "joining")
    assert pen.open_groups == 0


@given(st.lists(st.tuples(st.floats(0, 300), st.floats(0, 300)), min_size=3, max_size=3))
def test_hatching_stays_inside_a_triangle(corners: list[tuple[float, float]]) -> None:
    (ax, ay), (bx, by), (cx, cy) = corners
    turn = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
    triangle = tuple(corners) if turn > 0 else tuple(corners[::-1])
    if abs(turn) > 1:
        ends = [p for line in hatching(triangle) for p in line]
        assert all(contains(triangle, p, 1e-6) for p in ends)


def test_hatching_of_a_large_square_is_as_dense_as_told() -> None:
    # exact: a square of side 32 has a diagonal of 45.25; lines 3 apart, one through its middle, are 15.
    assert len(hatching(rectangle(32, 32), 3.0)) == 15


def test_a_hatched_polygon_with_a_notch_is_not_hatched_in_the_notch() -> None:
    notched = ((0, 0), (40, 0), (40, 40), (30, 40), (30, 10), (10, 10), (10, 40), (0, 40))
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in hatching(notched)]
    assert middles
    assert not [p for p in middles if 10.1 < p[0] < 29.9 and p[1] > 10.1]


def test_kinds_of_line_differ_without_colour() -> None:
    lines = [look.MARKED, look.SEWN, look.CUT, look.SEAM]
    assert len({(style.dashes, style.ticks, style.halo) for style in lines}) == len(lines)
    assert OFFCUT.hatched


def test_lines_stand_out_from_the_paper() -> None:
    # WCAG 2.2, 1.4.11: graphical objects need a contrast of 3 to 1.
    from coloraide import Color

    for style in (look.SEWN, look.CUT, look.MARKED, look.RULER, look.WORDS):
        ink = style.ink or style.fill
        assert Color(ink).contrast(look.PAPER) >= 4.5, style.name


def test_lightened_goes_from_the_colour_to_white() -> None:
    steps = [lightened("#14558c", share) for share in (0.0, 0.3, 0.6, 1.0)]
    assert steps[0] == "#14558c"
    assert steps[-1] == "#ffffff"
    assert steps == sorted(steps)


def test_every_style_is_in_the_table() -> None:
    told = look.__doc__ or ""
    plain = {"pressed spot", "ruler edge", "ruler line", "next", "outline"}
    plain |= {"strong words", "quiet words"}
    named = {style.name for style in vars(look).values() if isinstance(style, Style)}
    assert {name for name in named - plain if f"`{name}`" not in told} == set()


def test_a_placed_pen_draws_where_its_paper_lies() -> None:
    recorder = RecorderPen()
    placed = PlacedPen(recorder, turned(90))
    placed.polyline([(1, 0), (2, 0)], CUT)
    placed.arrow((1, 0), (2, 0), CUT)
    placed.stamp("k", lambda pen: pen.circle((1, 0), 1.0, CUT), moved(1, 0))
    assert [stroke.points[-1] for stroke in recorder.strokes] == [(0, 2), (0, 2), (1, 2)]


def test_a_block_carries_its_finished_size_only_when_asked() -> None:
    design, _ = read_design(ROOT / "examples" / "sawtooth-star.toml")
    assert design is not None
    for unit, words in ((None, []), ("in", ["12 in finished"]), ("cm", ["30.48 cm finished"])):
        pen = RecorderPen()
        draw_block_picture(pen, draw_block(design, "star"), palette_of(design), unit)  # type: ignore[arg-type]
        assert pen.words == words


def test_truing_hatches_what_comes_off_and_cuts_twice() -> None:
    made = recipe("hst", "two at a time", workroom=COARSE)
    moment = next(m for m in run_through(made, COARSE) if isinstance(m.step, TrueUp))
    assert isinstance(moment.step, TrueUp)
    pen = RecorderPen()
    draw_truing(pen, moment.before.piles["unit"].kinds[0][0], moment.step, seam_of(COARSE), PALETTE)
    assert len(pen.of_style("cut line")) == 2
    assert len(pen.of_style("offcut")) == 4
    assert pen.words == ["2 1/2 in"]
