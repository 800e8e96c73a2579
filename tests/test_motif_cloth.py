"""Cloth with a motif: pieces are cut rough to whole repeats, then cut down around the motif, and replayed."""

import msgspec
import pytest

from piecewright.bench.replay import replay
from piecewright.bench.steps import CutOut, Subcut
from piecewright.cutting.lists.listed import Motif
from piecewright.design.read import design_from
from piecewright.measure.length import inches, mm
from piecewright.planning.how_cut import method_words, reason_words, says, sums
from piecewright.planning.make_plan import make_plan
from piecewright.planning.motif import CutDown, around_motif, rough_size
from piecewright.planning.things import Cut
from piecewright.problems import Refused
from piecewright.toml_places import toml_from_text
from piecewright.workroom.workroom import default_workroom

FABRICS = """
title = "Lantern room"
unit = "in"
[fabrics.gulls]
colour = "#2f4b66"
repeat_across = 6
repeat_along = "5 1/2"
[fabrics.fog]
colour = "#dddddd"
"""
FRAMED = """
[blocks.lantern]
size = "8"
columns = [1, 2, 1]
rows = [1, 2, 1]
picture = '''
fog fog   fog
fog gulls fog
fog fog   fog
'''
[setting]
across = 3
down = 4
arrangement = "lantern"
"""
GOOSE = (
    FRAMED.replace("fog fog   fog", "fog gulls.n.fog -", 1)
    .replace('"8"', '"12"')
    .replace("columns = [1, 2, 1]", "columns = [2, 1, 1]")
)
BEACON = """
[blocks.beacon]
size = "6"
patches = [
  { role = "gulls", corners = [[0, 0], [6, 0], [4, 6], [2, 6]] },
  { role = "fog", corners = [[0, 0], [2, 6], [0, 6]] },
  { role = "fog", corners = [[6, 0], [6, 6], [4, 6]] },
]
[setting]
across = 3
down = 4
arrangement = "beacon beacon.half"
"""


def read(text):
    return design_from(toml_from_text(text, "q.toml"))


def planned(text, **workroom):
    design, problems = read(text)
    assert design is not None, problems
    job = make_plan(design, msgspec.structs.replace(default_workroom(design.unit), **workroom))
    assert job.replay.problems == ()
    return job


def down(job):
    return [t for t in job.things.values() if isinstance(t, CutDown) and job.counts[t.name]]


def notes(job):
    return [str(note) for note in job.notes if note.where == "cloth 'gulls'"]


def test_twelve_centres_are_cut_six_by_five_and_a_half_and_trimmed_to_four_and_a_half():
    job = planned(FABRICS + FRAMED)
    (piece,) = down(job)
    rough = job.things[piece.needs[0][0]]
    assert isinstance(rough, Cut)
    assert not rough.may_turn
    assert (rough.width, rough.height, job.counts[rough.name]) == (inches(6), inches("5 1/2"), 12)
    assert notes(job)[0] == (
        "cloth 'gulls': for the motif cut 12 rough pieces 6 x 5 1/2 in, each with the motif in the middle; "
        "cut down to 4 1/2 in."
    )
    cuts = [s for s in job.plan.steps if isinstance(s, Subcut) and s.takes == rough.name]
    assert [(s.times, s.sections[0].width) for s in cuts] == [(12, inches("4 1/2"))]


def test_the_bolt_gives_a_repeat_each_way_to_find_the_first_motif():
    job = planned(FABRICS + FRAMED)
    (gulls,) = [layout for layout in job.layouts if layout.key == "gulls"]
    assert gulls.usable_width == inches(40 - 6)
    assert gulls.purchase.straightening == inches(2) + inches("5 1/2")
    assert all(pattern.strip_height == inches("5 1/2") for pattern in gulls.patterns)
    assert not any(section.turned for pattern in gulls.patterns for section in pattern.sections)


def test_a_rough_piece_left_uncut_is_caught_by_the_replay():
    job = planned(FABRICS + FRAMED)
    (piece,) = down(job)
    rough = piece.needs[0][0]
    steps = tuple(s for s in job.plan.steps if not (isinstance(s, Subcut) and s.takes == rough))
    spoiled = msgspec.structs.replace(job.plan, steps=steps)
    roles = {role.key: role.fabric for role in job.design.roles}
    assert not replay(spoiled, job.drawing.top, roles).made_as_drawn


def test_pieces_of_units_are_cut_down_before_they_are_sewn():
    """A unit's stack is told from the corners of its pieces, wherever those were cut from."""
    job = planned(FABRICS + GOOSE)
    assert {piece.what for piece in down(job)} >= {"square"}


def test_a_slanted_piece_is_cut_by_template_from_the_middle_of_its_rough_piece():
    job = planned(FABRICS + BEACON)
    (piece,) = down(job)
    (step,) = [s for s in job.plan.steps if isinstance(s, CutOut) and s.gives == piece.name]
    left, right = (side(x for x, _ in step.outline) for side in (min, max))
    assert left == pytest.approx(float(piece.cutting.width) - right)
    assert "template" in " ".join(says(piece, job.workroom))


def test_a_one_way_motif_stands_upright_in_every_piece():
    text = FABRICS.replace("repeat_across", "one_way = true\nrepeat_across") + BEACON.replace(
        " house.half", ""
    )
    assert planned(text).plan.not_upright == 0


def test_a_piece_of_whole_repeats_is_cut_at_once_and_not_turned():
    text = FABRICS.replace("repeat_across = 6", 'repeat_across = "4 1/2"').replace("5 1/2", "2 1/4") + FRAMED
    job = planned(text)
    assert down(job) == []
    (piece,) = [t for t in job.things.values() if isinstance(t, Cut) and t.fabric == "gulls"]
    assert not piece.may_turn


def test_an_even_number_of_repeats_is_not_said_to_have_the_motif_in_the_middle():
    job = planned(FABRICS.replace("repeat_across = 6", "repeat_across = 3") + FRAMED)
    (piece,) = down(job)
    assert (piece.cutting.width, piece.is_in_the_middle) == (inches(6), False)
    assert "each with the same motifs" in notes(job)[0]
    assert reason_words(piece) == "every piece shows the same"


def test_the_sheet_says_to_open_the_cloth_find_the_motif_and_trim_each():
    job = planned(FABRICS + FRAMED)
    (piece,) = down(job)
    assert method_words(piece) == "cut down around the motif"
    assert sums(piece, job.workroom) == ("1 x 6 = 6 in rough", "1 x 5 1/2 = 5 1/2 in rough")
    first, second, *_ = says(piece, job.workroom)
    assert first.startswith("Open the cloth out, one layer")
    assert second == (
        "Trim each to 4 1/2 in, the motif staying where it is: 3/4 in and 1/2 in off each side."
    )


def test_binding_and_crosswise_borders_run_through_all_motifs_and_are_cut_last():
    job = planned(FABRICS + FRAMED + '[[borders]]\nwidth = "2"\nrole = "gulls"\n[binding]\nrole = "gulls"\n')
    (gulls,) = [layout for layout in job.layouts if layout.key == "gulls"]
    heights = [pattern.strip_height for pattern in gulls.patterns]
    assert heights == sorted(heights, reverse=True)
    assert any("strips run through all motifs" in note for note in notes(job))


def test_lengthwise_borders_are_cut_by_whole_repeats_too():
    job = planned(FABRICS + FRAMED + '[[borders]]\nwidth = "2"\nrole = "gulls"\ncut = "lengthwise"\n')
    (gulls,) = [layout for layout in job.layouts if layout.key == "gulls"]
    assert all(p.strip_height.exact % inches("5 1/2").exact == 0 for p in gulls.patterns)
    assert all(s.width.exact % 6 == 0 for p in gulls.patterns for s in p.sections)


def test_a_motif_is_met_in_centimetres_and_with_pieces_to_spare():
    text = FABRICS + FRAMED
    text = text.replace('"in"', '"cm"').replace("= 6", "= 15").replace("5 1/2", "14").replace('"8"', '"20"')
    job = planned(text, spare="one extra of each")
    (piece,) = down(job)
    rough = piece.needs[0][0]
    assert (piece.cutting.width, piece.cutting.height) == (mm(150), mm(140))
    assert job.plan.left_over[rough] == 1


def test_rough_sizes_are_the_same_as_those_of_a_cutting_list():
    motif = Motif(inches(6), inches("5 1/2"))
    assert rough_size(inches("4 1/2"), inches("4 1/2"), motif) == (inches(6), inches("5 1/2"))
    assert rough_size(inches("6 1/2"), inches("5 1/2"), motif) == (inches(12), inches("5 1/2"))
    cutting = around_motif(((0, 0), (4.5, 0), (4.5, 4.5), (0, 4.5)), motif)
    assert cutting.pieces == (((0.75, 0.5), (5.25, 0.5), (5.25, 5.0), (0.75, 5.0)),)


def test_cloth_narrower_than_its_repeat_is_refused_in_a_sentence():
    design, _ = read(FABRICS.replace("repeat_across = 6", 'width = "8"\nrepeat_across = 9') + FRAMED)
    with pytest.raises(Refused, match="wider than its selvedges and a repeat of its motif, got 8 in"):
        make_plan(design, default_workroom("in"))


@pytest.mark.parametrize(
    ("key", "value", "told"),
    [
        ("repeat_across", "0", "a repeat"),
        ("repeat_along", '"5 feet"', "5 feet"),
        ("repeat_along", '"100"', "a repeat"),
        ("selvedge", '"1/2"', "expected a width beside the selvedge of fog, got none"),
        ("shrinkage", "3", "expected shrinkage from 0 to 0.25, got 3"),
        ("shrinkage", "-0.1", "got -0.1"),
        ("price", '"12 shells"', "expected a price such as 12.50"),
        ("price", "-1", "expected a price such as 12.50"),
        ("buying_step", "0", "a buying step"),
    ],
)
def test_what_a_fabric_cannot_be_is_told_with_its_line(key, value, told):
    design, problems = read(FABRICS + f"{key} = {value}\n" + FRAMED)
    line = (FABRICS + f"{key} = {value}").count("\n") + 1
    assert design is None
    assert [(problem.where, told in problem.what) for problem in problems] == [(f"q.toml:{line}", True)]
