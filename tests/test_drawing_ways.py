"""Every way of every kind has its picture: what to take, how it is cut and sewn, what comes of it."""

from __future__ import annotations

import xml.etree.ElementTree as Xml
from functools import lru_cache

import pytest

from drawn_things import COARSE, PALETTE, WORKROOM, coloured, recipe
from piecewright.bench.steps import Join
from piecewright.drawing.frames import HIGHEST, Frame, Item, draw_rows, filled_rows
from piecewright.drawing.look import PAGE_WIDTH
from piecewright.drawing.method import draw_method, method_rows, method_svg, run_through
from piecewright.drawing.method_chapters import chapters, runs
from piecewright.drawing.method_frames import exact_size
from piecewright.drawing.pen import View
from piecewright.drawing.recorder_pen import RecorderPen
from piecewright.drawing.shortened import shortened
from piecewright.drawing.standing import on_its_tip
from piecewright.geometry.polygon import area, bounds, placed, rectangle
from piecewright.measure.length import inches, mm
from piecewright.methods import ways_for
from piecewright.methods.recipe import Recipe, make_recipe
from piecewright.problems import Refused
from piecewright.workroom.workroom import METRIC_WORKROOM, Workroom
from promises import SAMPLES, unit_of

SVG = "{http://www.w3.org/2000/svg}"


@lru_cache(maxsize=64)
def recipes(kind: str, workroom: Workroom) -> list[Recipe]:
    """A unit of a kind by every way that can make it."""
    unit = coloured(unit_of(kind, inches(6) if workroom.unit == "in" else mm(120)))
    found = []
    for method in ways_for(unit, workroom):
        try:
            found.append(make_recipe(method, unit, workroom))
        except Refused:
            continue
    return found


def recorded(kind: str, way: str, height: str = "2", workroom: Workroom = WORKROOM) -> RecorderPen:
    pen = RecorderPen()
    draw_method(pen, recipe(kind, way, height, workroom), workroom, PALETTE)
    return pen


def captions(kind: str, way: str, height: str = "2", workroom: Workroom = WORKROOM) -> list[str]:
    rows = method_rows(recipe(kind, way, height, workroom), workroom, PALETTE, workroom.unit)
    return [frame.caption for row in rows for frame in row]


@pytest.mark.parametrize("workroom", [WORKROOM, METRIC_WORKROOM], ids=["in", "cm"])
@pytest.mark.parametrize("kind", SAMPLES)
def test_every_way_has_a_picture_that_tells_what_to_take_and_what_comes_of_it(
    kind: str, workroom: Workroom
) -> None:
    made = recipes(kind, workroom)
    assert made
    for each in made:
        drawn = Xml.fromstring(method_svg(each, workroom, PALETTE, workroom.unit))
        told = drawn.findtext(f"{SVG}desc") or ""
        name = f"{kind} {each.method.name}"
        assert each.method.name in (drawn.findtext(f"{SVG}title") or "").lower(), name
        assert told.startswith(f"How to make {each.method.makes} at a time"), name
        assert f"makes {each.method.makes}" in told, name
        fabrics = [PALETTE.name(each.unit.fabrics[start.fabric]) for start in each.method.starts]
        sizes = [exact_size(width, height, workroom.unit) for width, height in each.start_sizes()]
        # On a foundation the scraps of one section stand for all.
        some = slice(0, 1) if each.method.printed else slice(None)
        for size, fabric in list(zip(sizes, fabrics, strict=True))[some]:
            assert f"{size}, {fabric.partition(',')[0]}" in told, name
        assert "about" not in told or each.sizing.truing != "none", name
        assert "press:" in told or "So it looks" in told, name


@pytest.mark.parametrize("kind", SAMPLES)
def test_every_picture_keeps_to_the_paper_and_to_few_rows(kind: str) -> None:
    for each in recipes(kind, WORKROOM):
        rows = method_rows(each, WORKROOM, PALETTE, "in")
        pen = RecorderPen()
        draw_rows(pen, rows)
        x0, y0, x1, y1 = bounds([p for stroke in pen.strokes for p in stroke.points])
        name = f"{kind} {each.method.name}"
        assert x1 - x0 < PAGE_WIDTH + 8, name
        assert y1 - y0 <= HIGHEST, name
        assert len(rows) <= 4, name
        assert sum(map(len, rows)) <= 16, name


def test_what_nothing_is_cut_from_has_no_frame_of_cutting() -> None:
    # The first two triangles are only sewn on; with the other two the tips are trimmed.
    told = captions("insquare", "from cut triangles")
    assert told[:5] == ["Take", "Cut apart", "Lay face to face", "Sew along the edge", "Open and press"]


def test_bonus_units_and_those_of_the_other_hand_are_shown_and_named() -> None:
    bonus = recipe("hst", "one at a time, bonus saved", "3")
    last = method_rows(bonus, WORKROOM, PALETTE, "in")[-1][-1]
    assert len(last.items) == 2
    assert " ".join(last.items[1].labels).startswith("and a bonus half-square triangle, to be trued up")
    words = " ".join(recorded("threepatch", "from half-square triangles", "3").words)
    assert "and as many of the other hand: keep them apart" in words


def test_a_strip_set_is_cut_across_before_its_subcuts_are_joined() -> None:
    told = captions("fourpatch", "strip sets", "3")
    assert told == ["Take", *["Lay face to face, sew", "Open and press"], "Cut across", *told[4:]]
    assert told[4:] == ["Lay face to face, sew", "Open and press"]
    assert captions("rail", "strip sets", "3")[-2:] == ["Cut across", "So it looks"]


def test_long_strips_are_broken_and_lie_on_their_side() -> None:
    pen = recorded("rail", "strip sets", "3")
    strips = [s for s in pen.of_style("cloth") if s.group == "1 Take"]
    # Two strips, each drawn as its two ends.
    assert len(strips) == 4
    assert len([s for s in pen.of_style("torn edge") if s.group == "1 Take" and s.what == "polyline"]) == 4
    x0, y0, x1, y1 = bounds([p for s in strips[:2] for p in s.points])
    assert x1 - x0 > y1 - y0


def test_broken_cloth_shows_both_ends_and_short_cloth_is_left_whole() -> None:
    def drawn(width: float, height: float) -> list[tuple[float, ...]]:
        pen = RecorderPen()
        from piecewright.drawing.look import CLOTH

        corners = rectangle(width, height)
        item = Item(bounds(corners), lambda p, view: p.polygon(view.points(corners), CLOTH))
        shortened(item).draw(pen, View(10.0))
        return [bounds(stroke.points) for stroke in pen.of_style("cloth")]

    left, right = drawn(40.0, 2.0)
    # 4 in and 2 in of its ends are shown at 10 points to the inch, 7 points apart.
    assert left[2] - left[0] == pytest.approx(40.0)
    assert right[2] - right[0] == pytest.approx(20.0)
    assert right[0] - left[2] == pytest.approx(7.0)
    lying = drawn(2.0, 40.0)[0]
    assert lying[2] - lying[0] == pytest.approx(40.0)
    assert lying[3] - lying[1] == pytest.approx(20.0)
    assert drawn(6.0, 1.0) == [(0.0, 0.0, 60.0, 10.0)]


def test_pieces_of_the_strip_that_are_of_no_use_are_hatched() -> None:
    pen = recorded("diamond45", "from strips")
    cut = [s for s in pen.strokes if s.group == "2 Cut apart"]
    # The slanted ends: one on the left, and what is left over on the right.
    assert len([s for s in cut if s.style.name == "offcut"]) == 2


def test_a_diamond_stands_on_its_tip_and_a_hexagon_on_a_side() -> None:
    diamond = ((0.0, 0.0), (5.0, 0.0), (8.0, 4.0), (3.0, 4.0))
    x0, y0, x1, y1 = bounds(placed(diamond, on_its_tip(diamond)))
    # Exact: the diagonals of this diamond are sqrt(80) and sqrt(20).
    assert [x1 - x0, y1 - y0] == pytest.approx([20**0.5, 80**0.5])
    made = [s for s in recorded("diamond45", "from strips").of_style("cloth") if "So it looks" in s.group]
    x0, y0, x1, y1 = bounds(made[0].points)
    assert y1 - y0 > 2 * (x1 - x0)
    last = [s for s in recorded("hexagon", "from strips").of_style("cloth") if "So it looks" in s.group]
    low = min(y for _, y in last[0].points)
    assert len([p for p in last[0].points if p[1] == pytest.approx(low, abs=0.01)]) == 2


def test_a_template_lies_on_the_cloth_and_what_is_round_it_is_hatched() -> None:
    pen = recorded("kite", "by template", "3")
    sheet = pen.of_style("template")
    assert len(sheet) == 1
    (piece,) = [s for s in pen.of_style("cloth") if s.group == sheet[0].group]
    assert abs(area(piece.points)) == pytest.approx(abs(area(sheet[0].points)))
    assert [s.group for s in pen.of_style("offcut")] == [sheet[0].group]


def test_joins_that_add_the_same_again_are_told_once() -> None:
    made = recipe("star8", "set in", "6")
    joins = [m for m in run_through(made, WORKROOM) if isinstance(m.step, Join)]
    # Pairs, halves, the star; four triangles; four squares.
    assert [len(run) for run in runs(joins)] == [1, 1, 1, 4, 4]
    told = captions("star8", "set in", "6")
    assert told.count("Likewise 3 more, press") == 2
    assert told.count("Set in, from dot to dot") == 2


def test_many_joins_are_told_by_the_first_two_and_the_last_with_sizes_between() -> None:
    rows = method_rows(recipe("logcabin", "log by log", "6"), WORKROOM, PALETTE, "in")
    frames = [frame for row in rows for frame in row]
    between = next(frame for frame in frames if frame.caption == "And so on")
    # Exact: a centre of 2 in finished with logs of 1 in is 3, 4, 5 and 6 in finished, and 1/2 in more raw.
    assert [item.labels[1] for item in between.items] == [
        "4 1/2 in",
        "4 1/2 × 5 1/2 in",
        "5 1/2 in",
        "5 1/2 × 6 1/2 in",
    ]
    assert [frame.caption for frame in frames].count("Lay face to face, sew") == 3


def test_a_foundation_is_printed_numbered_sewn_once_and_joined() -> None:
    pen = recorded("geese", "on a foundation")
    assert {"A1", "A2", "A3"} <= {s.words for s in pen.strokes if s.group == "1 Print, mirrored"}
    told = captions("geese", "on a foundation")
    assert told[:2] == ["Print, mirrored", "Take"]
    assert "Sew on the printed line" in told
    assert told[-2:] == ["And so on to A3; cut on the outer line", "So it looks"]
    assert "Sew B to C too" in captions("ninepatch", "on a foundation", "3")


def test_sizes_that_no_ruler_shows_are_decimals() -> None:
    # Plane geometry: diamonds with a side of 2 in finished need strips of 2 sin 45 + 2 x 1/4 = 1.9142 in.
    assert "40 × 1.9142 in" in recorded("diamond45", "from strips").words
    # What is trimmed later may be about so large.
    words = recorded("hst", "eight at a time", "2", COARSE).words
    assert any(word.startswith("about ") for word in words)


def test_pieces_are_cut_before_the_chapter_that_needs_them() -> None:
    moments = run_through(recipe("hst", "from sewn strips"), WORKROOM)
    (only,) = chapters(moments)
    # Either strip is cut to length, then at both ends.
    assert len(only.cuts) == 4
    assert len(only.work) == 2
    alone = chapters(run_through(recipe("hexagon", "from strips"), WORKROOM))
    assert [(len(chapter.cuts), len(chapter.work)) for chapter in alone] == [(2, 0)]


def test_frames_that_belong_together_share_a_row_unless_they_would_be_tiny() -> None:
    def frame(width: float) -> Frame:
        return Frame("Take", (Item((0.0, 0.0, width, 2.0), lambda pen, view: None),))

    short, long = [frame(2.0)] * 3, [frame(9.0)] * 14
    assert [len(row) for row in filled_rows([short, short])] == [6]
    assert [len(row) for row in filled_rows([[*short, *short], short])] == [6, 3]
    assert len(filled_rows([long])) > 1
