"""Borders cut along the selvedge in one piece, and backing panels that leave their side rest to the top."""

import pytest

from piecewright.bench.steps import Join, TrueUp
from piecewright.cutting.checking import check_layout
from piecewright.cutting.wanted import Demand, Supply
from piecewright.cutting.wishes import CuttingWish
from piecewright.design.read import design_from
from piecewright.finishing.finishing import backing_panels, panels_words, with_narrow_panel
from piecewright.measure.length import inches
from piecewright.measure.showing import show_cloth
from piecewright.planning.cut_long import CutLong
from piecewright.planning.cutting_wishes import lay_out_cloth
from piecewright.planning.make_plan import make_plan
from piecewright.toml_places import toml_from_text
from piecewright.workroom.workroom import INCH_WORKROOM, METRIC_WORKROOM, default_workroom

QUILT = """
title = "Breakwater"
unit = "in"
[fabrics.sea]
colour = "#2f4b66"
[fabrics.fog]
colour = "#dddddd"
[blocks.mooring]
size = "9"
picture = '''
sea.se.fog sea fog.sw.sea
sea        fog sea
sea.ne.fog sea fog.nw.sea
'''
[setting]
across = 5
down = 6
arrangement = "mooring"
[[borders]]
width = "4"
role = "sea"
[binding]
role = "fog"
"""
METRIC = QUILT.replace('"in"', '"cm"').replace('"9"', '"24"').replace('"4"', '"10"')
CUTS = ("crosswise", "lengthwise", "sides lengthwise")


def with_cut(words: str, quilt: str = QUILT) -> str:
    return quilt.replace('role = "sea"\n[binding]', f'role = "sea"\ncut = "{words}"\n[binding]')


def one_way(quilt: str) -> str:
    return quilt.replace('colour = "#2f4b66"', 'colour = "#2f4b66"\none_way = true')


def read(text):
    return design_from(toml_from_text(text, "q.toml"))


def planned(text):
    design, problems = read(text)
    assert design is not None, problems
    job = make_plan(design, default_workroom(design.unit))
    assert job.replay.problems == ()
    return job


def layout(job, key):
    return next(layout for layout in job.layouts if layout.key == key)


@pytest.mark.parametrize("quilt", [QUILT, METRIC], ids=["inches", "centimetres"])
def test_each_border_is_one_piece_along_the_selvedge_and_trimmed_two_inches_or_fifty_millimetres(quilt):
    job = planned(with_cut("lengthwise", quilt))
    strips = [thing for thing in job.things.values() if isinstance(thing, CutLong)]
    assert [job.counts[strip.name] for strip in strips] == [2, 2]
    trims = {step.pile: step for step in job.plan.steps if isinstance(step, TrueUp)}
    for strip in strips:
        trim = trims[strip.name]
        assert (trim.landmark, trim.by) == ("edges", "trim")
        longer = inches(2) if job.design.unit == "in" else METRIC_WORKROOM.straightening
        assert (strip.width, strip.height) == (trim.width, trim.height + longer)
        assert (strip.may_turn, strip.reserve) == (False, True)
    assert all("end to end" not in name for name in job.things)


def test_the_rest_beside_the_borders_is_cut_into_smaller_pieces():
    sea = layout(planned(with_cut("lengthwise")), "sea")
    beside = [p for p in sea.patterns if any("lengthwise" in s.name for s in p.sections)]
    assert sea.patterns[: len(beside)] == tuple(beside)
    assert any("lengthwise" not in s.name for p in beside for s in p.sections)
    assert all(p.across * 10 > sea.usable_width * 9 for p in beside)


def test_without_the_key_borders_are_joined_from_crosswise_strips_as_ever():
    plain, said = planned(QUILT), planned(with_cut("crosswise"))
    assert plain.plan == said.plan
    assert not any(isinstance(thing, CutLong) for thing in plain.things.values())


@pytest.mark.parametrize(
    ("width", "role", "told"),
    [
        ("2", "sea", "3 yd of sea to buy, 1/8 yd less than with strips joined"),
        ("2", "fog", "2 3/4 yd of fog to buy, 1/8 yd more than with strips joined"),
        ("4", "sea", "3 3/8 yd of sea to buy, 1/8 yd less than with strips"),
    ],
)
def test_a_note_weighs_lengthwise_against_crosswise_and_says_what_is_bought(width, role, told):
    quilt = QUILT.replace('width = "4"\nrole = "sea"', f'width = "{width}"\nrole = "{role}"')
    job, other = planned(quilt.replace("[binding]", 'cut = "lengthwise"\n[binding]')), planned(quilt)
    (note,) = [n for n in job.notes if "lengthwise strips" in n.what]
    bought, instead = layout(job, role).buy, layout(other, role).buy
    assert told in note.what
    assert note.what.split(": ")[1].startswith(f"{show_cloth(bought, 'in')} of")
    assert (bought > instead, bought < instead) == ("more" in told, "less" in told)
    assert note.weight == "note"
    assert not any("lengthwise" in n.what for n in other.notes)


def test_a_one_way_print_stands_upright_in_all_borders_only_if_the_sides_alone_are_lengthwise():
    leaning = {words: planned(one_way(with_cut(words))).plan.not_upright for words in CUTS}
    assert leaning["sides lengthwise"] == leaning["crosswise"] - 2 == leaning["lengthwise"] - 2


def test_long_sashes_can_be_cut_lengthwise_too():
    sashing = '[sashing]\nwidth = "2"\nrole = "fog"\ncut = "lengthwise"\n[[borders]]'
    job = planned(QUILT.replace("[[borders]]", sashing))
    (strip,) = [thing for thing in job.things.values() if isinstance(thing, CutLong)]
    assert (strip.fabric, job.counts[strip.name]) == ("fog", 5)


@pytest.mark.parametrize(
    ("section", "words"), [("borders", "upright"), ("borders", "LENGTHWISE"), ("sashing", "sides lengthwise")]
)
def test_another_word_for_the_way_of_cutting_is_told_with_its_line(section, words):
    text = with_cut(words)
    if section == "sashing":
        text = QUILT + f'[sashing]\nwidth = "2"\nrole = "fog"\ncut = "{words}"\n'
    design, problems = read(text)
    line = text.splitlines().index(f'cut = "{words}"') + 1
    assert design is None
    assert [problem.where for problem in problems] == [f"q.toml:{line}"]
    assert words in problems[0].what


def test_of_two_panels_for_68_inches_the_second_is_28_wide_and_11_inches_are_left_to_use():
    """40 + 28 1/2 - 1/2 for the seam is 68 (plane geometry)."""
    panels = backing_panels((inches(60), inches(72)), inches(4), inches(40), inches("1/4"))
    narrow = with_narrow_panel(panels, inches(40), inches("1/4"), INCH_WORKROOM.ruler)
    assert (panels.count, panels.last, narrow.count, narrow.last) == (2, None, 2, inches("28 1/2"))
    assert (
        panels_words(narrow, "in")
        == "1 length 80 in x WOF and 1 length 80 in of which 28 1/2 in of the width"
    )
    assert panels_words(panels, "in") == "2 lengths 80 in x WOF"


def test_a_panel_that_needs_all_but_an_inch_of_the_width_stays_whole():
    panels = backing_panels((inches(71), inches(80)), inches(4), inches(40), inches("1/4"))
    assert with_narrow_panel(panels, inches(40), inches("1/4"), INCH_WORKROOM.ruler) == panels


@pytest.mark.parametrize("border", ["crosswise", "lengthwise"])
def test_what_is_beside_the_last_backing_panel_goes_into_the_top(border):
    job = planned(with_cut(border) + '[backing]\nrole = "sea"\n')
    last = job.finishing.panels.last
    (beside,) = [p for p in layout(job, "sea").patterns if any(s.width == last for s in p.sections)]
    assert any(section.width != last for section in beside.sections)
    (join,) = [s for s in job.plan.steps if isinstance(s, Join) and s.gives == job.plan.finish.backing]
    assert [part.count for part in join.parts] == [1, 1]


def test_a_quilt_that_one_panel_backs_leaves_the_rest_as_well():
    small = QUILT.replace("across = 5", "across = 2").replace("down = 6", "down = 3")
    job = planned(small + '[backing]\nrole = "sea"\n')
    assert (job.finishing.panels.count, job.finishing.panels.last) == (1, inches(34))


def test_backing_of_a_cloth_of_its_own_is_whole_panels_as_ever():
    job = planned(QUILT)
    assert job.finishing.panels.last is None
    assert [p.across for p in layout(job, "backing").patterns] == [inches(40)]


def test_beside_a_tall_piece_the_width_is_used_even_where_few_settings_are_wished():
    """Each size in its own strips would take 80 + 80 + 74 and more for the rest."""
    cloth = Supply("sea", inches(40), inches("4 1/2"), ruler_length=inches(24))
    sizes = [("panel", "40", "80", 1), ("last", "28 1/2", "80", 1), ("side", "4 1/2", "74", 2)]
    tall = [Demand(n, inches(w), inches(h), c, may_turn=False, reserve=True) for n, w, h, c in sizes]
    small = Demand("squares", inches("2 7/8"), inches("2 7/8"), 120)
    found = lay_out_cloth([*tall, small], cloth, CuttingWish())
    assert check_layout(found, [*tall, small], cloth.ruler_length) == []
    assert found.length < inches(80 + 74 + 80)
