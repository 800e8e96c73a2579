"""Pictures of pressing: arrows from the front and the back, turning arrows, rings, and the map of layers."""

from __future__ import annotations

import xml.etree.ElementTree as Xml
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from shapely import Point as ShapelyPoint
from shapely import Polygon

from drawn_things import PALETTE, WORKROOM, star
from piecewright.bench.cloth import Cloth, Towards
from piecewright.design.read import read_design
from piecewright.drawing.layers import draw_layers, grey_of, layers_svg, legend
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import View, fitting
from piecewright.drawing.pressing import back_svg, draw_back, draw_pressing_picture, pressing_svg
from piecewright.drawing.recorder_pen import RecorderPen, Stroke
from piecewright.drawing.second_map import draw_second_map, second_map_svg
from piecewright.geometry.polygon import bounds
from piecewright.handout.tell_pressing import iron, pressing
from piecewright.measure.length import inches
from piecewright.methods import ways_for
from piecewright.methods.recipe import make_recipe
from piecewright.planning.make_plan import make_plan
from piecewright.pressing.bulk import layers_of
from piecewright.pressing.centres import centres_of, not_nesting
from promises import SAMPLES
from sewn_things import LEFT, LOW, RIGHT, TOP, bar, pressed, sewn

GOLDEN = Path(__file__).parent / "golden" / "piecing"
EXAMPLES = Path(__file__).parents[1] / "examples"
COLOURS = Palette(
    {"net": ("#7fa184",), "sea": ("#1f5a63",), "sky": ("#b9d3dc",), "sail": ("#ece7da",)},
    {"sky": "morning sky"},
)


def four_patch(upper: Towards, lower: Towards, across: Towards = "second") -> Cloth:
    """Net and sea below, sky and sail above; the middle at (2, 2), the long seam to the upper pair."""
    low = pressed(sewn(bar(2, 2, "net"), RIGHT, bar(2, 2, "sea"), LEFT), lower)
    high = pressed(sewn(bar(2, 2, "sky"), RIGHT, bar(2, 2, "sail"), LEFT), upper)
    return pressed(sewn(low, TOP, high, LOW), across)


def spun() -> Cloth:
    """The same, all four seams clockwise."""
    cloth = four_patch("second", "first")
    (seam,) = cloth.own_seams
    path = (seam.path[0], (2.0, 2.0), seam.path[1])
    return replace(cloth, own_seams=(replace(seam, path=path, pressed=("first", "second")),), _ends={})


def eight_points() -> Cloth:
    unit = SAMPLES["star8"](inches(6))
    way = next(way for way in ways_for(unit, WORKROOM) if way.name == "set in")
    return make_recipe(way, unit, WORKROOM).cloth


PICTURES: dict[str, Callable[[], str]] = {
    "spun-front": lambda: pressing_svg(spun(), COLOURS, "Four tides", raw=True),
    "spun-back": lambda: back_svg(spun(), COLOURS, "Four tides"),
    "spun-layers": lambda: layers_svg(spun(), "Four tides"),
    "clash-front": lambda: pressing_svg(four_patch("second", "second"), COLOURS, "Four tides"),
    "star-back": lambda: back_svg(star("first"), PALETTE, "Sawtooth star"),
    "star-layers": lambda: layers_svg(star("first"), "Sawtooth star"),
    "where-two-pressings-go": lambda: second_map_svg(4, 3, {(0, 1), (0, 3), (1, 0), (1, 2), (2, 1), (2, 3)}),
}


@pytest.mark.parametrize("name", PICTURES)
def test_picture_is_the_golden_one(name: str, renew_pictures: bool) -> None:
    drawn, file = PICTURES[name](), GOLDEN / f"{name}.svg"
    if renew_pictures:
        file.write_text(drawn, "utf-8")
    same = drawn == file.read_text("utf-8")
    assert same, f"{file.name} has changed: look at it, then run pytest --renew-pictures"


@pytest.mark.parametrize("name", PICTURES)
def test_picture_says_in_words_what_it_shows(name: str) -> None:
    root = Xml.fromstring(PICTURES[name]())
    description = root.findtext("{http://www.w3.org/2000/svg}desc") or ""
    told = {"front": "seen from the front", "back": "seen from the back", "layers": "How many layers"}
    assert told.get(name.rpartition("-")[2], "4 across and 3 down") in description
    assert len(description) > 40


def arrows(draw: Callable[[RecorderPen], None]) -> list[Stroke]:
    pen = RecorderPen()
    draw(pen)
    return [stroke for stroke in pen.strokes if stroke.what == "arrow"]


def test_seen_from_the_back_every_arrow_is_turned_over_like_a_page() -> None:
    cloth = four_patch("second", "second")
    wide = 100.0
    front = arrows(lambda pen: draw_pressing_picture(pen, cloth, COLOURS, wide, raw=True))
    back = arrows(lambda pen: draw_back(pen, cloth, COLOURS, wide))
    mirrored = [tuple((round(wide - x, 6), round(y, 6)) for x, y in arrow.points) for arrow in front]
    assert [tuple((round(x, 6), round(y, 6)) for x, y in arrow.points) for arrow in back] == mirrored
    # Sky is sewn to sail and pressed to it, on the right from the front: both short seams point there.
    assert sum(arrow.points[1][0] > arrow.points[0][0] + 1 for arrow in front) == 2
    assert sum(arrow.points[1][0] < arrow.points[0][0] - 1 for arrow in back) == 2


def shown_at(pen: RecorderPen, at: tuple[float, float]) -> Stroke:
    """What was drawn last over a place on paper."""
    here = ShapelyPoint(at)
    return [
        s for s in pen.strokes if s.style.fill and s.what == "polygon" and Polygon(s.points).covers(here)
    ][-1]


def test_from_the_back_allowances_lie_hatched_where_they_are_pressed_and_show_the_side_that_is_up() -> None:
    pen = RecorderPen()
    draw_back(pen, four_patch("second", "second", "open"), COLOURS, 100.0)
    # 4 1/2 in are 100 points. Mirrored, the sail is upper left; sky's allowance lies on it, wrong side up.
    on_sail = shown_at(pen, (100 * 2.1 / 4.5, 100 * 3.5 / 4.5))
    assert on_sail.style.hatched
    assert on_sail.style.fill not in ("#b9d3dc", "#ece7da")
    # The long seam is open: each allowance is folded back, its right side up; the sky's at its lower edge.
    on_sky = shown_at(pen, (100 * 3.5 / 4.5, 100 * 2.4 / 4.5))
    assert on_sky.style.hatched
    assert on_sky.style.fill == "#b9d3dc"
    assert not shown_at(pen, (100 * 3.5 / 4.5, 100 * 3.5 / 4.5)).style.hatched


def test_a_spun_centre_has_a_turning_arrow_and_one_that_is_not_spun_has_none() -> None:
    (centre,) = centres_of(spun())
    assert (centre.seams, centre.clockwise) == (4, True)
    assert centre.at == pytest.approx((2, 2))
    assert centres_of(four_patch("second", "first")) == ()
    pen = RecorderPen()
    draw_pressing_picture(pen, spun(), COLOURS, 100.0)
    assert len(pen.of_style("turning")) == 1
    assert "1 centre (1 of 4 seams) pressed one way round" in pressing_svg(spun(), COLOURS, "Four tides")


def test_a_centre_of_eight_seams_goes_one_way_round_though_the_last_seam_is_open() -> None:
    assert [(centre.seams, centre.clockwise) for centre in centres_of(eight_points())] == [(8, False)]


def test_places_that_do_not_nest_are_ringed_in_both_pictures() -> None:
    clash, nests = four_patch("second", "second"), four_patch("second", "first")
    assert not_nesting(clash) == (pytest.approx((2, 2)),)
    assert not_nesting(nests) == not_nesting(spun()) == ()
    for draw in (draw_pressing_picture, draw_back):
        pen = RecorderPen()
        draw(pen, clash, COLOURS, 100.0)
        assert len(pen.of_style("to pin")) == 1
    assert "To pin, since seams do not nest: 1 place (large rings)." in back_svg(clash, COLOURS, "x")


@pytest.mark.parametrize("cloth", [star("first"), spun(), eight_points()])
def test_the_map_shows_at_every_place_the_grey_of_its_layers(cloth: Cloth) -> None:
    pen, layers = RecorderPen(), layers_of(cloth)
    draw_layers(pen, cloth, 100.0)
    view: View = fitting(bounds(cloth.raw), 100.0, 100.0)
    for place in layers.places:
        inside = place.shape.buffer(-0.01).point_on_surface()
        if not inside.is_empty:
            at = view.at((inside.x, inside.y))
            assert shown_at(pen, at).style.fill == grey_of(place.layers), place


def test_greys_grow_darker_with_every_step_and_the_legend_tells_all_counts() -> None:
    greys = [grey_of(layers) for layers in range(1, 12)]
    assert greys == sorted(greys, reverse=True)
    assert [words for _, words in legend(layers_of(eight_points()))] == [
        "1",
        "2",
        "3",
        "4",
        "5 to 6",
        "7 to 8",
        "9 to 14 layers",
    ]


def test_the_thickest_places_are_ringed_where_they_are_few() -> None:
    pen = RecorderPen()
    draw_layers(pen, four_patch("second", "second"), 100.0)
    (ring,) = pen.of_style("to pin")
    # Both pairs and the long seam go to the sail, upper right of the middle.
    (x0, y0, x1, y1) = bounds(ring.points)
    assert ((x0 + x1) / 2, (y0 + y1) / 2) == pytest.approx((100 * 2.375 / 4.5, 100 * 2.375 / 4.5), abs=0.1)


def test_the_map_of_two_pressings_hatches_the_second_where_it_lies() -> None:
    pen = RecorderPen()
    draw_second_map(pen, 3, 2, {(0, 2)}, 30.0)
    fields = [s for s in pen.of_style("second pressing") if min(y for _, y in s.points) >= 0]
    # The first row is the upper one; its third field.
    assert [bounds(field.points) for field in fields] == [pytest.approx((20, 10, 30, 20))]
    assert len([s for s in pen.of_style("first pressing") if min(y for _, y in s.points) >= 0]) == 5


QUILT = """title = "Four tides"
unit = "in"
[fabrics.sea]
colour = "#1f5a63"
[fabrics.sail]
colour = "#ece7da"
[fabrics.buoy]
colour = "#d9702b"
[fabrics.net]
colour = "#7fa184"
[blocks.weir]
name = "Weir"
size = "9"
picture = \"\"\"
sea sail net
buoy sea sail
net buoy sea
\"\"\"
[setting]
across = 4
down = 4
arrangement = "weir"
"""


def job_of(text: str, folder: Path):  # type: ignore[no-untyped-def]
    file = folder / "quilt.toml"
    file.write_text(text, "utf-8")
    design, problems = read_design(file)
    assert design is not None, problems
    return make_plan(design, WORKROOM)


def test_two_pressings_of_a_block_stand_beside_each_other_with_a_map(tmp_path: Path) -> None:
    # Common practice, no source: n x n squares, odd n, do not nest with one pressing.
    job = job_of(QUILT, tmp_path)
    first, *rows = pressing(job)
    assert first.second is not None
    assert first.places is not None
    assert (first.name, first.second.name) == ("Weir, first pressing", "Weir, second pressing")
    assert (first.count, first.second.count) == ("make 8", "make 8")
    assert [len(set(told)) for told in zip(first.towards, first.second.towards, strict=True)] == [2]
    assert not any("second" in row.name for row in rows)


def test_pressing_is_told_by_cloth_and_part_never_by_left_and_right(tmp_path: Path) -> None:
    design, _ = read_design(EXAMPLES / "harbour-lights.toml")
    assert design is not None
    told = pressing(make_plan(design, WORKROOM))
    ways = [words for one in told for _, words in one.towards] + [one.says[0] for one in told if not one.back]
    assert ways
    assert not any(side in words.split() for words in ways for side in ("left", "right"))
    (lantern,) = [one for one in told if one.name == "Lantern star"]
    # The corner squares and the ground of the geese are night: both seams of a row of star points go there.
    assert lantern.towards[0] == ("C", "to the night, all 2")
    assert lantern.picture is not None
    assert lantern.back is not None
    assert lantern.layers is not None
    assert (lantern.picture.caption, lantern.back.caption) == ("seen from the front", "seen from the back")


def test_where_to_pin_and_advice_at_the_iron_are_on_the_sheet(tmp_path: Path) -> None:
    design, _ = read_design(EXAMPLES / "harbour-lights.toml")
    assert design is not None
    job = make_plan(design, WORKROOM)
    wake = next(one for one in pressing(job) if one.name == "Wake")
    assert all("Pin there" in place for place in wake.not_nesting)
    assert len(wake.not_nesting) >= 1
    assert any(line.startswith("Set every seam first") for line in iron(job))
