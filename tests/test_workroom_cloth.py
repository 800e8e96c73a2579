"""What workroom and quilt wish of the cloth: squaring, layers, spare, the aim, and each cloth's figures."""

from fractions import Fraction

import msgspec
import pytest

from piecewright.cutting.laying import lay_out
from piecewright.cutting.patterns import Pattern, Section
from piecewright.cutting.wanted import Demand, Supply
from piecewright.cutting.wishes import USUAL
from piecewright.design.read import design_from
from piecewright.measure.length import ZERO, inches, mm
from piecewright.planning.cutting_wishes import (
    bolt_of,
    pieces_to_spare,
    spare_of,
    spared,
    supply_of,
    usable_width_of,
    wish_of,
)
from piecewright.planning.fold_words import fold_words, in_layers, operations
from piecewright.planning.make_plan import make_plan
from piecewright.toml_places import toml_from_text
from piecewright.workroom.entries import workroom_from
from piecewright.workroom.workroom import INCH_WORKROOM, METRIC_WORKROOM

QUILT = """
title = "Slipway"
unit = "in"
[fabrics.sea]
colour = "#2f4b66"
[fabrics.fog]
colour = "#dddddd"
[blocks.mooring]
size = "6"
picture = '''
sea.se.fog sea
sea        fog
'''
[setting]
across = 4
down = 4
arrangement = "mooring"
[[borders]]
width = "2"
role = "sea"
[binding]
role = "fog"
"""


def workroom(text):
    room, problems = workroom_from(toml_from_text(text, "w.toml"))
    assert problems == []
    return room


def design(more="", unit="in"):
    found, problems = design_from(
        toml_from_text(QUILT.replace('"in"', f'"{unit}"').replace('"#dddddd"', f'"#dddddd"\n{more}'), "q")
    )
    assert found is not None, problems
    return found


def test_a_workroom_that_says_nothing_spares_nothing_and_folds_its_cloth():
    assert wish_of(INCH_WORKROOM) == USUAL
    assert spare_of(INCH_WORKROOM).of_each == 0
    assert supply_of("sea", design(), INCH_WORKROOM, inches(40)) == Supply(
        "sea", inches(40), inches("4 1/2"), inches(2), 0.0, 1, inches(24), "in"
    )


def test_cloth_layers_squaring_and_spare_are_read():
    room = workroom('cloth = "least-cutting"\nlayers = 4\nsquaring = "1/8"\nspare = "1/4 yd"')
    assert (wish_of(room).aim, wish_of(room).layers) == ("least cutting", 4)
    supply = supply_of("sea", design(), room, inches(40))
    assert (supply.squaring, supply.spare_length) == (inches("1/8"), inches(9))


def test_a_bare_length_to_spare_counts_in_the_unit_of_the_workroom():
    room = workroom('unit = "cm"\nspare = "25"')
    assert (room.spare, spare_of(room).length) == ("250 mm", mm(250))
    assert spare_of(workroom('spare = "none"')) == spare_of(workroom('spare = ""')) == spare_of(INCH_WORKROOM)


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("spare = 5", 'expected something to spare such as "5 %", got 5'),
        ('spare = "a bit"', 'such as "one extra of each", "5 %" or "1/4 yd", got \'a bit\''),
        ("layers = 0", "expected layers to be a whole number from 1 to 12, got 0"),
        ("layers = 2.5", "expected layers to be a whole number from 1 to 12, got 2.5"),
        (
            'cloth = "most"',
            'expected cloth = "least" or cloth = "usual" or cloth = "least-cutting", got \'most\'',
        ),
        ('squaring = "-1"', "squaring"),
    ],
)
def test_what_a_workroom_cannot_wish_is_told_with_its_line(line, told):
    room, problems = workroom_from(toml_from_text(f"needle = '1/4'\n{line}", "w.toml"))
    assert [(problem.where, told in problem.what) for problem in problems] == [("w.toml:2", True)]
    assert (room.spare, room.layers, room.cloth, room.squaring) == ("none", 2, "usual", ZERO)


def test_a_cloth_has_its_own_width_less_selvedges_shrinkage_step_and_price():
    found = design('width = "44"\nselvedge = "1/2"\nshrinkage = 0.05\nbuying_step = "9"\nprice = "12.40"')
    width = usable_width_of("fog", found, INCH_WORKROOM)
    bolt = bolt_of("fog", found, INCH_WORKROOM, width)
    assert width == bolt.supply.usable_width == inches(43)
    assert (bolt.supply.shrinkage, bolt.supply.buying_step) == (0.05, inches(9))
    assert bolt.price == Fraction("3.1")
    other = bolt_of("sea", found, INCH_WORKROOM, inches(40))
    assert (other.price, other.supply.shrinkage, other.supply.buying_step) == (None, 0.0, inches("4 1/2"))


def test_in_centimetres_the_price_is_that_of_a_metre():
    found = design("price = 20", "cm")
    assert bolt_of("fog", found, METRIC_WORKROOM, mm(1070)).price == 2


def test_nothing_is_spared_for_a_backing_that_is_no_fabric_of_the_top():
    room = msgspec.structs.replace(INCH_WORKROOM, spare="1/4 yd")
    assert supply_of("backing", design(), room, inches(40)).spare_length == ZERO


def test_pieces_are_spared_but_not_strips_and_borders():
    room = msgspec.structs.replace(INCH_WORKROOM, spare="5 %")
    square = Demand("squares", inches(3), inches(3), 41)
    strip = Demand("binding", inches(40), inches(2), 8, whole_strip=True)
    side = Demand("side", inches(4), inches(60), 2, False, reserve=True)
    cut = spared([square, strip, side], room)
    assert [demand.count for demand in cut] == [44, 8, 2]
    assert pieces_to_spare({"sea": [square, strip, side]}, {"sea": cut}) == {"squares": 3}


@pytest.mark.parametrize("spare", ["none", "one extra of each", "5 %", "1/4 yd"])
@pytest.mark.parametrize("cloth", ["least", "usual", "least-cutting"])
def test_a_quilt_is_planned_and_replayed_with_each_wish(spare, cloth):
    room = msgspec.structs.replace(INCH_WORKROOM, spare=spare, cloth=cloth, layers=4, squaring=inches("1/16"))
    job = make_plan(design(), room)
    assert job.replay.problems == ()
    plain = make_plan(design(), INCH_WORKROOM)
    extra = {name for name, count in job.plan.left_over.items() if count != plain.plan.left_over.get(name)}
    assert bool(extra) == (spare in ("one extra of each", "5 %"))
    further = {layout.key: layout.purchase.further for layout in job.layouts}
    yard = inches(9) if spare == "1/4 yd" else ZERO
    assert further == {"sea": yard, "fog": yard, "backing": ZERO}
    assert all(layout.squaring == inches("1/16") for layout in job.layouts)


def test_thirteen_squares_from_a_folded_strip_are_six_pairs_and_one_at_the_fold():
    """38 pieces from 5 folded strips of 8 and less: counted by hand."""
    squares = Section("squares", inches(3), inches(3), 13)
    one = in_layers(squares, 1, 2)
    assert (one.through, one.pieces, one.opened, one.left) == (6, 12, 1, 1)
    open_strips = in_layers(squares, 5, 3)
    assert (open_strips.through, open_strips.pieces, open_strips.opened) == (26, 65, 0)


def test_in_one_layer_the_operations_are_the_cuts_of_the_layout():
    pattern = Pattern(
        inches(6), (Section("a", inches(2), inches(2), 5, 2), Section("b", inches(3), inches(6), 3)), 3
    )
    assert operations(pattern, 1) == pattern.cuts == pattern.operations(1)


def test_the_words_fold_the_cloth_cut_through_both_layers_and_open_the_fold():
    cloth = Supply("sea", inches(40), inches("4 1/2"), ruler_length=inches(24))
    squares = Demand("squares", inches("2 7/8"), inches("2 7/8"), 76)
    binding = Demand("binding", inches(40), inches("2 1/2"), 3, whole_strip=True)
    panel = Demand("panel", inches(40), inches(60), 1, whole_strip=True)
    found = lay_out([squares, binding, panel], cloth)
    assert fold_words(found, 2, "in", inches(24)) == (
        "Fold the cloth selvedge to selvedge and cut 6 strips 2 7/8 in; cut through both layers: "
        "35 crosscuts give 70; open the fold for the last 6.",
        "Fold the cloth selvedge to selvedge and cut 3 strips 2 1/2 in.",
    )
    assert fold_words(found, 1, "in") == ()
    assert "2 on one another; cut through all 4 layers" in fold_words(found, 4, "in", inches(24))[0]
