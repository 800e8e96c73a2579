"""Where patches do not fit: the misfits as data, the picture that rings them, and `check --picture`."""

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawn_blocks import tilings
from piecewright.cli.main import call
from piecewright.design.misfit import NARROWEST, THIN
from piecewright.design.misfit_words import FaultyBlock, misfit_problem
from piecewright.design.missed_corners import near_misses
from piecewright.design.read import read_design
from piecewright.design.tiling import misfits, welded
from piecewright.drawing.misfits import LEAST_RING, draw_misfits, marked, misfits_svg
from piecewright.drawing.recorder_pen import RecorderPen
from piecewright.geometry.point import distance
from piecewright.geometry.polygon import overlap_area, rectangle

SQUARES = [((x, y), (x + 3, y), (x + 3, y + 3), (x, y + 3)) for x in (0, 3) for y in (0, 3)]


def found(outlines, side=6):
    return [(m.kind, m.place, m.patches) for m in misfits(welded(outlines), side, side)]


def test_a_tiling_has_no_misfits():
    assert misfits(welded(SQUARES), 6, 6) == []


@pytest.mark.parametrize(
    ("last", "kind", "place", "patches"),
    [
        (None, "hole", (4.5, 4.5), ()),
        (((2, 3), (6, 3), (6, 6), (2, 6)), "overlap", (2.5, 4.5), (1, 3)),
        (((3.1, 3), (6, 3), (6, 6), (3, 6)), "corner gap", (3.1, 3), (3, 1)),
        (((3, 3), (6, 3), (6, 6), (2.9, 6)), "corner overlap", (2.9, 6), (3, 1)),
        (((3, 3), (6, 3), (6, 6), (5, 2)), "crossing", None, (3,)),
        (((3, 3), (6, 3), (6.5, 6), (3, 6)), "outside", (6.5, 6), (3,)),
        (((3, 3), (6, 3), (6, 3.1), (3, 3.1)), "sliver", (4.5, 3.05), (3,)),
    ],
)
def test_each_kind_of_misfit_is_found_with_its_place_and_patches(last, kind, place, patches):
    outlines = SQUARES[:3] + ([last] if last else [])
    if kind == "crossing":
        outlines[3] = ((3, 3), (6, 6), (6, 3), (3, 6))
    got = [(k, p, n) for k, p, n in found(outlines) if k == kind]
    assert [(k, n) for k, _, n in got] == [(kind, patches)]
    if place:
        assert got[0][1] == pytest.approx(place)


def test_how_far_a_corner_is_off_and_how_wide_a_hole_is():
    (gap,) = misfits(welded([*SQUARES[:3], ((3.1, 3), (6, 3), (6, 6), (3, 6))]), 6, 6)
    assert gap.size == pytest.approx(0.1)
    (hole,) = misfits(welded(SQUARES[:3]), 6, 6)
    assert hole.size == pytest.approx(3)
    assert set(hole.region) == {(3, 3), (6, 3), (6, 6), (3, 6)}


def test_a_corner_that_misses_the_edge_of_the_block_is_told_so():
    (gap,) = misfits(welded([*SQUARES[:3], ((3, 3), (6, 3), (5.9, 6), (3, 6))]), 6, 6)
    assert (gap.kind, gap.patches) == ("corner gap", (3,))
    block = FaultyBlock("Block", 6, 6, tuple(SQUARES), ("1", "2", "3", "4"), "in")
    problem = misfit_problem(gap, "q", block, ["patch 1", "patch 2", "patch 3", "patch 4"])
    assert (
        "expected the corner of patch 4 at (5 7/8, 6) on the edge of the block, got it about 1/8 in"
        in str(problem)
    )


def test_a_jog_in_a_seam_is_a_near_miss():
    jog = [
        ((0, 0), (3, 0), (3, 3), (0, 3)),
        ((3, 0), (6, 0), (6, 3.1), (3, 3.1)),
        ((0, 3), (3, 3), (3, 6), (0, 6)),
        ((3, 3.1), (6, 3.1), (6, 6), (3, 6)),
    ]
    assert misfits(welded(jog), 6, 6) == []
    (miss,) = near_misses(welded(jog), [p for outline in jog for p in outline])
    assert (miss.place, miss.size) == ((3, 3), pytest.approx(0.1))
    assert near_misses(welded(SQUARES), [p for outline in SQUARES for p in outline]) == []


@given(st.data(), tilings())
@settings(max_examples=60)
def test_a_tiling_fits_until_a_patch_is_taken_out_or_laid_twice(data, tiling):
    n, patches = tiling
    outlines = welded([corners for _, corners in patches])
    assert misfits(outlines, n, n) == []
    which = data.draw(st.integers(0, len(outlines) - 1))
    less = misfits(outlines[:which] + outlines[which + 1 :], n, n)
    assert [m.kind for m in less] == ["hole"]
    assert overlap_area(less[0].region, outlines[which]) == pytest.approx(
        abs(overlap_area(less[0].region, rectangle(n, n)))
    )
    more = misfits([*outlines, outlines[which]], n, n)
    assert [(m.kind, m.patches) for m in more] == [("overlap", (which, len(outlines)))]


@given(st.data(), tilings(5))
@settings(max_examples=60)
def test_a_corner_moved_a_little_is_told_at_that_corner_or_at_what_it_leaves(data, tiling):
    n, patches = tiling
    outlines = [corners for _, corners in patches]
    which = data.draw(st.integers(0, len(outlines) - 1))
    at = data.draw(st.integers(0, len(outlines[which]) - 1))
    corner = outlines[which][at]
    middle = (
        sum(x for x, _ in outlines[which]) / len(outlines[which]),
        sum(y for _, y in outlines[which]) / len(outlines[which]),
    )
    off = data.draw(st.floats(0.05, 0.15)) / distance(middle, corner)
    moved = tuple(c + off * (m - c) for c, m in zip(corner, middle, strict=True))
    changed = [*outlines[which][:at], moved, *outlines[which][at + 1 :]]
    faulty = welded([*outlines[:which], changed, *outlines[which + 1 :]])
    got = misfits(faulty, n, n)
    assert got
    assert all(m.kind == "corner gap" for m in got), got
    assert all(distance(m.place, corner) < THIN + NARROWEST for m in got), got


# ------------------------------------------------------------------ the picture


QUILT = """title = "t"
[fabrics.sky]
colour = "white"
[fabrics.sea]
colour = "black"
[setting]
across = 1
down = 2
arrangement = '''
b
c
'''
[blocks.b]
name = "Pennant"
size = "6"
patches = [
  { role = "sea", corners = [[0, 0], [3, 0], [3, 3], [0, 3]] },
  { role = "sky", corners = [[3, 0], [6, 0], [6, "2 15/16"], [3, 3]] },
  { role = "sea", corners = [[3, 3], [6, 3], [6, 6], [3, 6]] },
]
[blocks.c]
name = "Burgee"
size = "6"
patches = [
  { role = "sea", corners = [[0, 0], [4, 0], [4, 6], [0, 6]] },
  { role = "sky", corners = [[3, 0], [6, 0], [6, 6], [3, 6]] },
]
"""


@pytest.fixture
def quilt(tmp_path):
    file = tmp_path / "quilt.toml"
    file.write_text(QUILT, "utf-8")
    return file


def problems_of(quilt):
    return marked(read_design(quilt)[1])


def test_every_misfit_is_ringed_and_numbered_as_it_is_told(quilt):
    problems = problems_of(quilt)
    assert [p.misfit.kind for p in problems] == ["hole", "corner gap", "overlap"]
    svg = misfits_svg(problems)
    root = ET.fromstring(svg)
    words = [e.text for e in root.iter("{http://www.w3.org/2000/svg}text")]
    assert [word for word in words if word.isdecimal()] == ["1", "2", "3", "1", "2", "1", "2", "3"]
    rings = [e for e in root.iter("{http://www.w3.org/2000/svg}circle") if e.get("class") == "ring"]
    assert len(rings) == 3


def test_the_picture_says_in_words_what_it_shows(quilt):
    description = re.search(r"<desc>(.*)</desc>", misfits_svg(problems_of(quilt)))[1]
    assert description.startswith(
        "The block Pennant, 6 in wide and 6 in high, 3 patches in outline, with rings around"
    )
    assert "1: expected patches that fill the block, got a hole around (1 1/2, 4 1/2)." in description
    assert "The block Burgee, 6 in wide and 6 in high, 2 patches in outline" in description
    assert (
        "3: expected patches side by side, got patches 1 and 2 overlapping around (3 1/2, 3)." in description
    )


def test_the_picture_needs_no_colour():
    """Every faulty region is hatched, every ring has a number, and each is drawn over the patches."""
    problems = [(k, p) for k, p in enumerate(marked(_problems(SQUARES[:3])), 1)]
    pen = RecorderPen()
    draw_misfits(pen, problems[0][1].block, problems)
    styles = [stroke.style.name for stroke in pen.strokes]
    assert styles.index("ring") > styles.index("fault") > styles.index("drawn patch")
    (fault,) = pen.of_style("fault")
    assert fault.style.hatched
    assert pen.words == ["1", "2", "3", "1", "Block, 6 in x 6 in finished"]


def _problems(outlines):
    polygons = tuple(welded(outlines))
    names = [f"patch {k + 1}" for k in range(len(polygons))]
    block = FaultyBlock("Block", 6, 6, polygons, tuple(str(k + 1) for k in range(len(polygons))), "in")
    return [misfit_problem(m, "q", block, names) for m in misfits(polygons, 6, 6)]


def test_check_writes_the_picture_and_numbers_what_it_prints(quilt, tmp_path, capsys):
    file = tmp_path / "there" / "misfits.svg"
    assert call(["check", str(quilt), "--picture", str(file)]) == 1
    told = capsys.readouterr().err
    numbers = re.findall(r"^\S+:\d+: \((\d)\) expected", told, re.MULTILINE)
    assert numbers == ["1", "2", "3"]
    assert told.endswith(f"note: the numbers in brackets are those in {file}.\n")
    assert file.read_text("utf-8") == misfits_svg(problems_of(quilt))


def test_check_mentions_the_picture_where_there_is_something_to_ring(quilt, capsys):
    assert call(["check", str(quilt)]) == 1
    assert capsys.readouterr().err.endswith("ringed and numbered. Add --picture misfits.svg.\n")
    good = Path(__file__).parents[1] / "examples" / "sawtooth-star.toml"
    assert call(["check", str(good)]) == 0
    assert "--picture" not in capsys.readouterr().err


def test_no_picture_is_written_where_nothing_misses(tmp_path, capsys):
    good = Path(__file__).parents[1] / "examples" / "sawtooth-star.toml"
    file = tmp_path / "misfits.svg"
    assert call(["check", str(good), "--picture", str(file)]) == 0
    assert f"No patch misses another: {file} was not written." in capsys.readouterr().err
    assert not file.exists()


def test_the_picture_is_svg(quilt, tmp_path, capsys):
    assert call(["check", str(quilt), "--picture", str(tmp_path / "misfits.png")]) == 1
    assert "--picture: expected a file that ends in .svg, got" in capsys.readouterr().err


def test_two_numbers_of_one_place_stand_apart():
    (problem,) = marked(_problems(SQUARES[:3]))
    pen = RecorderPen()
    draw_misfits(pen, problem.block, [(1, problem), (2, problem), (3, problem)])
    places = [stroke.points[0] for stroke in pen.of_style("number plate")]
    assert min(distance(p, q) for k, p in enumerate(places) for q in places[:k]) > 2 * LEAST_RING


@given(st.lists(st.tuples(st.integers(0, 11), st.integers(0, 11)), min_size=1, max_size=8, unique=True))
@settings(max_examples=30)
def test_numbers_stand_clear_of_one_another(holes):
    cells = [(x / 2, y / 2) for x in range(12) for y in range(12) if (x, y) not in holes]
    problems = _problems([((x, y), (x + 0.5, y), (x + 0.5, y + 0.5), (x, y + 0.5)) for x, y in cells])
    svg = misfits_svg(problems)
    plates = [
        tuple(float(part) for part in found)
        for found in re.findall(r'class="number-plate"[^>]* cx="([\d.-]+)" cy="([\d.-]+)"', svg)
    ]
    assert len(plates) == len(problems)
    apart = [distance(p, q) for k, p in enumerate(plates) for q in plates[:k]]
    assert min(apart, default=LEAST_RING * 2) > LEAST_RING * 1.4
