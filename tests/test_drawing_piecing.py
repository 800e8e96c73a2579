"""How things go together: pulled apart along their seams, numbered in the order of sewing, with dots."""

from __future__ import annotations

import xml.etree.ElementTree as Xml
from collections.abc import Callable
from itertools import combinations
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawn_things import PALETTE, WORKROOM, star
from piecewright.bench.cloth import Cloth
from piecewright.bench.joining import Joining, join
from piecewright.bench.stretches import Stretch
from piecewright.design.read import read_design
from piecewright.drawing.palette import Palette
from piecewright.drawing.piecing import draw_together, together_svg
from piecewright.drawing.pulled_apart import PulledApart, corners_of, pulled_apart
from piecewright.drawing.recorder_pen import RecorderPen
from piecewright.geometry.isometry import turned
from piecewright.geometry.point import distance
from piecewright.geometry.polygon import overlap_area, placed
from piecewright.handout.sheet import Part
from piecewright.handout.tell_piecing import together
from piecewright.planning.make_plan import make_plan
from sewn_things import LEFT, LOW, RIGHT, SEAM, TOP, bar, pinwheel, set_in, sewn

GOLDEN = Path(__file__).parent / "golden" / "piecing"
COLOURS = Palette({"sail": ("#ece7da",), "tide": ("#1f5a63",), "net": ("#7fa184",)})


def ring() -> PulledApart:
    return pulled_apart(pinwheel(), "ring", joins=4)


def row(count: int) -> Cloth:
    return join([Joining(bar(2, 3), LEFT, RIGHT) for _ in range(count)], "row", SEAM)


PICTURES: dict[str, Callable[[], str]] = {
    "ring-together": lambda: together_svg(pinwheel(), COLOURS, "Weir", "ABBBB", "ring", joins=4),
    "set-in-together": lambda: together_svg(set_in(), COLOURS, "Quay", "AB", "set in"),
    "star-together": lambda: together_svg(star(), PALETTE, "Sawtooth star", "DED"),
}


@pytest.mark.parametrize("name", PICTURES)
def test_picture_is_the_golden_one(name: str, renew_pictures: bool) -> None:
    drawn, file = PICTURES[name](), GOLDEN / f"{name}.svg"
    if renew_pictures:
        file.write_text(drawn, "utf-8")
    same = drawn == file.read_text("utf-8")
    assert same, f"{file.name} has changed: look at it, then run pytest --renew-pictures"


def test_pictures_say_in_words_how_the_parts_are_sewn() -> None:
    told = {
        "ring-together": "5 parts (A, B, B, B, B), sewn on around the first. The first seam stops at a dot; "
        "the dashed rest is closed last.",
        "set-in-together": "2 parts (A, B), set in from dot to dot. The seam turns at 1 dot.",
        "star-together": "3 parts (D, E, D), joined one after another.",
    }
    for name, words in told.items():
        description = Xml.fromstring(PICTURES[name]()).findtext("{http://www.w3.org/2000/svg}desc") or ""
        assert description.endswith(f" pulled apart: {words}")


def test_a_ring_is_numbered_in_the_order_of_sewing_and_its_first_seam_closed_last() -> None:
    apart = ring()
    assert [(seam.number, seam.left_open) for seam in apart.seams] == [
        *((number, False) for number in (1, 2, 3, 4)),
        (5, True),
    ]
    lengths = [sum(map(distance, seam.path, seam.path[1:])) for seam in apart.seams]
    # The first seam is sewn for half of the middle's 3 in; the rest of it is that and the log's other 3 in.
    assert lengths == [1.5, 6, 6, 6, 4.5]
    pen = RecorderPen()
    draw_together(pen, apart, COLOURS, "ABBBB")
    assert len(pen.of_style("seam to sew")) == 4
    assert [s.style.dashes for s in pen.of_style("seam to sew")] == [()] * 4
    open_seam, in_key = pen.of_style("left open")
    assert open_seam.style.dashes
    assert in_key.points[0][1] < open_seam.points[0][1]


def test_the_dot_of_a_ring_is_where_its_first_seam_stops_on_both_cloths() -> None:
    # On the middle half-way along its upper side, and as far from the end of the first log.
    on_centre, on_log = ring().dots
    assert (on_centre.at, on_centre.kind) == ((1.5, 3), "stop")
    assert on_log.at[0] == pytest.approx(1.5)
    assert on_log.at[1] > 3


def test_a_set_in_seam_has_dots_to_start_to_turn_and_to_stop_on_both_cloths() -> None:
    apart = pulled_apart(set_in(), "set in")
    assert [dot.kind for dot in apart.dots] == ["start", "start", "turn", "turn", "stop", "stop"]
    # The first cloth stays where it is; its corner lies at (3, 3).
    assert [dot.at for dot in apart.dots[::2]] == [(6, 3), (3, 3), (3, 6)]
    assert corners_of(set_in().own_seams[0]) == 1
    pen = RecorderPen()
    draw_together(pen, apart, COLOURS)
    shapes = [(len(pen.of_style(style)), style) for style in ("dot", "turn dot")]
    # Two of each kind and one in the key.
    assert shapes == [(6, "dot"), (3, "turn dot")]
    assert {s.what for s in pen.of_style("dot")} == {"circle", "polygon"}


def test_a_straight_seam_from_end_to_end_has_no_dots_and_one_that_stops_in_a_side_has() -> None:
    assert pulled_apart(row(3)).dots == ()
    beside = sewn(bar(6, 3), TOP, bar(3, 3), LOW, stretch=Stretch(0, 3))
    stops = pulled_apart(beside).dots
    assert [dot.kind for dot in stops] == ["stop", "stop"]
    assert stops[0].at == (3, 3)


@pytest.mark.parametrize("apart", [ring(), pulled_apart(set_in(), "set in"), pulled_apart(star())])
def test_parts_that_are_pulled_apart_do_not_touch(apart: PulledApart) -> None:
    outlines = [placed(part.cloth.net, part.place) for part in apart.parts]
    assert all(overlap_area(one, two) == 0 for one, two in combinations(outlines, 2))


@settings(max_examples=30)
@given(st.integers(2, 6), st.floats(0, 360))
def test_the_seams_of_a_row_lie_in_the_middle_of_their_gaps(count: int, degrees: float) -> None:
    apart = pulled_apart(row(count), place=turned(degrees))
    centres = [part.place.at((1.0, 1.5)) for part in apart.parts]
    for seam, one, two in zip(apart.seams, centres[:-1], centres[1:], strict=True):
        middle = ((one[0] + two[0]) / 2, (one[1] + two[1]) / 2)
        (a, b) = seam.path
        assert ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) == pytest.approx(middle)


def test_letters_stand_on_the_parts_that_have_room() -> None:
    pen = RecorderPen()
    draw_together(pen, pulled_apart(row(3)), COLOURS, "ABA")
    letters = [s for s in pen.strokes if s.what == "text"]
    assert [s.words for s in letters] == ["A", "B", "A"]
    small = RecorderPen()
    draw_together(small, pulled_apart(row(3)), COLOURS, "ABA", width=30.0, height=30.0)
    assert not [s for s in small.strokes if s.what == "text"]


QUILT = """title = "Weir and net"
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
patches = [
  { role = "buoy", corners = [[3, 3], [6, 3], [6, 6], [3, 6]] },
  { role = "sea", corners = [[0, 0], [6, 0], [6, 3], [0, 3]] },
  { role = "sail", corners = [[6, 0], [9, 0], [9, 6], [6, 6]] },
  { role = "sea", corners = [[3, 6], [9, 6], [9, 9], [3, 9]] },
  { role = "sail", corners = [[0, 3], [3, 3], [3, 9], [0, 9]] },
]
[blocks.loft]
name = "Net loft"
size = "9"
patches = [
  { role = "sail", corners = [[0, 3], ["4.5", 0], ["4.5", 6], [0, 9]] },
  { role = "sea", corners = [["4.5", 0], [9, 3], [9, 9], ["4.5", 6]] },
  { role = "net", corners = [[0, 9], ["4.5", 6], [9, 9]] },
  { role = "net", corners = [[0, 0], ["4.5", 0], [0, 3]] },
  { role = "net", corners = [["4.5", 0], [9, 0], [9, 3]] },
]
[setting]
across = 2
down = 1
arrangement = "weir loft"
"""


@pytest.fixture(scope="module")
def parts(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Part]:
    file = tmp_path_factory.mktemp("quilt") / "quilt.toml"
    file.write_text(QUILT, "utf-8")
    design, problems = read_design(file)
    assert design is not None, problems
    return {part.name: part for part in together(make_plan(design, WORKROOM))}


def test_a_ring_is_one_stage_told_seam_by_seam(parts: dict[str, Part]) -> None:
    weir = parts["Weir"]
    (stage,) = weir.stages
    assert weir.key == (
        ("A", "1 x buoy 3 1/2 square"),
        ("B", "2 x sea 3 1/2 x 6 1/2"),
        ("C", "2 x sail 3 1/2 x 6 1/2"),
    )
    assert stage.says[0].startswith("1: sew B to A from the edge to the dot; leave the rest")
    assert stage.says[1] == "2 to 4: sew C, B and C on, each along the whole side that it meets."
    assert stage.says[2] == "5: close the first seam, from the dot to the edge."
    assert weir.says == ("Some care: 5 parts, 4 seams; 1 partial seam.",)


def test_a_set_in_seam_is_told_from_dot_to_dot(parts: dict[str, Part]) -> None:
    loft = parts["Net loft"]
    set_into = [words for stage in loft.stages for words in stage.says if words.startswith("Set ")]
    assert len(set_into) == 1
    assert (
        "from the first dot to the hollow one, turn at the inner corner with the needle down" in set_into[0]
    )
    assert "1 set in, turning 1 corner" in loft.says[0]


def test_every_stage_uses_only_letters_that_are_known_by_then(parts: dict[str, Part]) -> None:
    for part in parts.values():
        known = {letter for letter, _ in part.key}
        for stage in part.stages:
            used = {
                word.strip(".,:")
                for words in stage.says
                for word in words.split()
                if word.strip(".,:").isupper()
            }
            assert {letter for letter in used if len(letter) == 1} <= known, stage
            known.add(stage.letter)
        assert part.stages[-1].letter == ""
        assert part.picture is part.stages[-1].picture
