"""A design turned from inches to centimetres and back by redrafting: sensible sizes, the same quilt."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.design.model import Fabric, finished_size
from piecewright.design.read import design_from
from piecewright.measure.length import inches, mm
from piecewright.problems import Refused
from piecewright.sizing.answer import USUAL_TOLERANCE, Target
from piecewright.sizing.cloth_sold import redrafted_fabric, redrafted_workroom
from piecewright.sizing.quilt_text import rewritten
from piecewright.sizing.redrafting import redraft, redrafted_words
from piecewright.sizing.resizing import cell_sizes
from piecewright.sizing.search import answers
from piecewright.toml_places import toml_from_text
from piecewright.workroom.workroom import INCH_WORKROOM, METRIC_WORKROOM
from random_quilts import quilts

EXAMPLES = Path(__file__).parents[1] / "examples"


def read(text: str, name: str = "quilt.toml"):
    design, problems = design_from(toml_from_text(text, name))
    assert design is not None, [*map(str, problems), text]
    return design


def quilt(unit: str, size: str, cells: int, borders: tuple[str, ...] = (), rest: str = "") -> str:
    row = " ".join(["sail"] * cells)
    strips = "\n".join(f'[[borders]]\nwidth = "{width}"\nrole = "sail"' for width in borders)
    return f'''# Nets, with remarks.
title = "Nets"  # the name
unit = "{unit}"
[fabrics.sail]
colour = "#efe6d2"
{rest}
[blocks.net]
size = "{size}"  # finished
picture = """
{chr(10).join([row] * cells)}
"""
[setting]
across = 5
down = 6
arrangement = "net"
{strips}
[binding]
role = "sail"
'''


def test_a_block_of_12_in_becomes_30_cm_and_the_quilt_of_60_by_72_in_150_by_180_cm():
    before = read(quilt("in", "12", 3))
    after = redraft(before, "cm")
    assert finished_size(before) == (inches(60), inches(72))
    assert finished_size(after) == (mm(1500), mm(1800))
    words = [change.words() for change in redrafted_words(before, after)]
    assert words[0] == "block net 12 in -> 30 cm"
    assert words[-1] == "quilt 60 x 72 in -> 150 x 180 cm"


def test_a_border_of_4_and_a_half_in_becomes_11_cm():
    before = read(quilt("in", "12", 4, ("1", "4 1/2")))
    after = redraft(before, "cm")
    assert [border.width for border in after.borders] == [mm(25), mm(110)]
    assert "border 2 4 1/2 in -> 11 cm" in [change.words() for change in redrafted_words(before, after)]


@pytest.mark.parametrize(
    ("size", "cells", "cm"),
    [
        ("12", 3, 300),
        ("12", 4, 300),
        ("9", 3, 225),
        ("8", 4, 200),
        ("6", 2, 150),
        ("10", 5, 250),
        ("14", 7, 350),
    ],
)
def test_usual_blocks_become_usual_ones_and_come_back_to_what_they_were(size, cells, cm):
    before = read(quilt("in", size, cells, ("2", "5")))
    there = redraft(before, "cm")
    assert there.block_width == mm(cm)
    assert redraft(there, "in") == before


@given(quilt=quilts())
@settings(max_examples=60, deadline=None)
def test_there_and_back_keeps_the_structure_with_sensible_sizes_both_ways(quilt):
    before = quilt.read()
    other = "in" if before.unit == "cm" else "cm"
    there = redraft(before, other)
    back = redraft(there, before.unit)
    for design, was in ((there, before), (back, there)):
        mark = inches("1/8") if design.unit == "in" else mm(1)
        assert [side for side in cell_sizes(design) if side % mark] == []
        strips = [border.width for border in design.borders]
        strips += [design.sashing.width] if design.sashing else []
        assert [width for width in strips if width % mark] == []
        near = design.block_width.exact / was.block_width.exact
        assert Fraction(9, 10) < near < Fraction(11, 10)
        assert structure(design) == structure(before)


def structure(design):
    """All that a quilt is but its sizes: parts as shares of their block, and how blocks are set."""
    blocks = [
        (
            block.key,
            block.width.exact / block.height.exact,
            [
                (
                    unit.kind,
                    unit.roles,
                    unit.facing,
                    unit.x.exact / block.width.exact,
                    unit.y.exact / block.height.exact,
                    unit.width.exact / block.width.exact,
                    unit.height.exact / block.height.exact,
                )
                for unit in block.units
            ],
            [
                (
                    shape.role,
                    [
                        (round(x / float(block.width), 6), round(y / float(block.height), 6))
                        for x, y in shape.corners
                    ],
                )
                for shape in block.shapes
            ],
        )
        for block in design.blocks
    ]
    sashing = design.sashing and (design.sashing.role, design.sashing.cornerstone, design.sashing.around)
    borders = [(border.role, border.order) for border in design.borders]
    roles = (design.binding and design.binding.role, design.backing.role)
    return (design.title, blocks, design.setting, sashing, borders, roles, design.roles, design.choices)


def test_sashing_as_wide_as_a_cell_stays_as_wide_as_a_cell():
    text = quilt("in", "4 1/2", 3) + '[sashing]\nwidth = "1 1/2"\nrole = "sail"\n'
    after = redraft(read(text), "cm")
    assert after.sashing is not None
    assert after.sashing.width == after.blocks[0].units[0].width


def test_a_unit_the_design_has_already_is_refused():
    with pytest.raises(Refused, match="in cm already"):
        redraft(read(quilt("cm", "30", 3)), "cm")


def test_cloth_is_what_shops_of_the_other_system_sell():
    # 44 in and 110 cm, 60 and 150, an eighth of a yard and 10 cm: common practice, no source.
    cloth = Fabric(
        "sail", "sail", "#efe6d2", width=inches(44), price=Fraction(12), buying_step=inches("4 1/2")
    )
    there = redrafted_fabric(cloth, "cm")
    assert (there.width, there.buying_step) == (mm(1100), mm(100))
    # 12 a yard of 0.9144 m is 13.12 a metre.
    assert there.price == Fraction("13.12")
    assert redrafted_fabric(there, "in") == cloth
    assert redrafted_fabric(replace(cloth, width=inches(60)), "cm").width == mm(1500)


def test_the_motif_and_the_selvedge_of_a_cloth_are_facts_and_stay():
    cloth = Fabric("sail", "sail", "#efe6d2", selvedge=inches("1/2"), repeat_along=inches(24))
    assert redrafted_fabric(cloth, "cm") == cloth


def test_a_seam_of_a_quarter_inch_becomes_7_and_a_half_mm_and_the_rest_of_the_room_is_metric():
    mine = msgspec.structs.replace(INCH_WORKROOM, liked=("eight at a time",), layers=4)
    there = redrafted_workroom(mine, "cm")
    assert there.take_up == mm("7.5")
    assert (there.buying_step, there.rounding, there.unit) == (mm(100), mm(1), "cm")
    assert (there.liked, there.layers, there.pace) == (mine.liked, 4, mine.pace)
    assert redrafted_workroom(METRIC_WORKROOM, "in").take_up == inches("1/4")


@given(quilt=quilts())
@settings(max_examples=50, deadline=None)
def test_the_rewritten_file_of_any_redrafted_quilt_says_the_redrafted_quilt(quilt):
    before = quilt.read()
    after = redraft(before, "in" if before.unit == "cm" else "cm")
    text = rewritten(quilt.text, "random.toml", before, after)
    again = read(text)
    assert structure(again) == structure(after)
    assert (again.unit, finished_size(again)) == (after.unit, finished_size(after))
    assert (again.binding, again.fabrics) == (after.binding, after.fabrics)


@given(quilt=quilts(), by=st.integers(80, 250))
@settings(max_examples=20, deadline=None)
def test_the_rewritten_file_of_any_answer_says_that_answer(quilt, by):
    before = quilt.read()
    width, height = (side * Fraction(by, 100) for side in finished_size(before))
    try:
        found = answers(before, Target(width, height, USUAL_TOLERANCE[before.unit]))
    except Refused:
        return
    for answer in found:
        after = answer.apply(before)
        again = read(rewritten(quilt.text, "random.toml", before, after))
        assert structure(again) == structure(after)
        assert finished_size(again) == answer.size


def test_remarks_and_the_order_of_the_file_stay():
    text = quilt("in", "12", 3, ("4 1/2",))
    before = read(text)
    after = rewritten(text, "quilt.toml", before, redraft(before, "cm"))
    changed = [line for line in after.splitlines() if line not in text.splitlines()]
    assert changed == ['unit = "cm"', 'size = "30"  # finished', 'width = "11"']
    assert len(after.splitlines()) == len(text.splitlines())


def test_lengths_of_the_cloth_that_stay_get_their_unit_written_out():
    rest = 'width = 44\nselvedge = "1/2"\nrepeat_along = "24"\nprice = 12\n'
    text = quilt("in", "12", 3, rest=rest)
    before = read(text)
    after = rewritten(text, "quilt.toml", before, redraft(before, "cm"))
    assert 'selvedge = "1/2 in"' in after
    assert 'repeat_along = "24 in"' in after
    assert "price = 13.12" in after
    assert read(after).fabrics[0].width == mm(1100)


PENNANT = """
title = "Pennants"
[fabrics.sail]
colour = "#efe6d2"
[blocks.pennant]
size = 6  # finished
{more}patches = [
  {{ role = "sail", corners = [[0, 0], [{w}, "{w} - 0"], [0, {w}]] }},
  {{ role = "sail", corners = [[0, 0], [{w}, 0], [{w}, {w}]] }},
]

# How they fly.
[setting]
across = 2
down = 2
arrangement = "pennant"
"""


@pytest.mark.parametrize(("more", "w", "added"), [("", "6", ['drafted = "6"']), ('drafted = "2"\n', "2", [])])
def test_corners_stay_as_they_were_written_and_are_drafted(more, w, added):
    text = PENNANT.format(more=more, w=w)
    before = read(text)
    after = rewritten(text, "quilt.toml", before, redraft(before, "cm"))
    lines = [line for line in after.splitlines() if line not in text.splitlines()]
    assert lines == ['unit = "cm"', "size = 15  # finished", *added]
    assert read(after).blocks[0].shapes[0].corners[1][0] == pytest.approx(float(mm(150)))


def test_a_file_with_a_length_that_is_not_known_here_is_refused_not_written_wrong():
    text = quilt("in", "12", 3)
    before = read(text)
    wrong = replace(redraft(before, "cm"), title="Other nets")
    with pytest.raises(Refused, match="without a mistake"):
        rewritten(text, "quilt.toml", before, wrong)


@pytest.mark.parametrize("name", ["harbour-lights", "metric-nets", "sawtooth-star", "old-page/old-page"])
def test_every_example_goes_there_and_back_to_itself(name):
    path = EXAMPLES / f"{name}.toml"
    text = path.read_text("utf-8")
    before = read(text, str(path))
    there = redraft(before, "in" if before.unit == "cm" else "cm")
    there_text = rewritten(text, str(path), before, there)
    back = redraft(there, before.unit)
    assert finished_size(back) == finished_size(before)
    assert structure(read(rewritten(there_text, str(path), there, back), str(path))) == structure(before)
