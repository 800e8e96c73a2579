"""Layouts of one cloth: published yardages, what to buy, whom it refuses, how good it is."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from piecewright.cutting.checking import check_layout
from piecewright.cutting.cuts import STACKS
from piecewright.cutting.laying import lay_out, own_strips_layout
from piecewright.cutting.layout import Layout
from piecewright.cutting.marks import in_marks
from piecewright.cutting.mixing import Mixing
from piecewright.cutting.patterns import Pattern, Section
from piecewright.cutting.searching import shorter
from piecewright.cutting.shelves import first_fit, low, own_strips, tall, upright
from piecewright.cutting.wanted import Demand, Supply
from piecewright.cutting.wishes import CuttingWish
from piecewright.measure.length import ZERO, Length, inches, mm
from piecewright.measure.rounding import exactly
from piecewright.problems import Refused

EIGHTH_YARD = inches("4 1/2")


def cloth(width: str, **more: object) -> Supply:
    return replace(Supply("sail", inches(width), EIGHTH_YARD), **more)  # type: ignore[arg-type]


def wanted(size: str, count: int, **more: object) -> Demand:
    """`wanted("2 1/2 x 4 1/2", 8)`; a single number is a square."""
    width, _, height = size.partition(" x ")
    demand = Demand(f"{size} pieces", inches(width), inches(height or width), count)
    return replace(demand, **more)  # type: ignore[arg-type]


# A bed quilt's sea-coloured ground, invented: sizes to cut and how many.
HARBOUR = [
    wanted("2 7/8", 310),
    wanted("2 1/2", 410),
    wanted("2 1/2 x 4 1/2", 220),
    wanted("2 1/2 x 6 1/2", 150),
    wanted("2 1/2 x 8 1/2", 75),
    wanted("3 7/8", 130),
    wanted("4 1/2", 110),
    wanted("5 1/4", 64),
    wanted("2", 260),
    wanted("2 x 3 1/2", 130),
    wanted("3 1/2", 84),
    wanted("6 1/2", 40),
    wanted("1 1/2 x 12 1/2", 96),
    wanted("18 1/4", 4),
    wanted("9 3/8", 2),
    wanted("12 1/2", 14),
    wanted("1 3/4 x 5 1/2", 120),
    wanted("3 x 7 1/4", 90),
    wanted("6 x 76", 4, may_turn=False, reserve=True),
    wanted("40 x 2 1/4", 10, whole_strip=True),
]
HARBOUR_CLOTH = cloth("40", straightening=inches(2), spare_strips=1, shrinkage=0.03, ruler_length=inches(24))


@pytest.mark.parametrize(
    ("size", "count", "width", "length", "source"),
    [
        ("6 1/2", 56, "42", "65", "K. Childress worked example (cortezquiltcompany.com)"),
        ("9 1/2", 63, "42", "152", "quiltingboard.com 6228687"),
        ("2 1/2", 80, "40", "12 1/2", "featheredstar.wordpress.com FAQs"),
    ],
)
def test_length_of_squares_is_as_published(
    size: str, count: int, width: str, length: str, source: str
) -> None:
    assert lay_out([wanted(size, count)], cloth(width)).length == inches(length), source


@pytest.mark.parametrize(
    ("size", "width", "length", "count", "source"),
    [
        ("2 1/2", "40", "36", 224, "quilterscache.com MathChartsPage and floor rule"),
        ("6", "42", "36", 42, "floor rule"),
        ("5", "42", "18", 24, "exact: floor rule; a printed chart says 28 by halving"),
        ("5 1/2", "21", "18", 9, "exact: floor rule; a true fat quarter with nothing to square up"),
        ("2 1/2", "10", "10", 16, "exact: floor rule; a 10 in square with nothing to trim"),
    ],
)
def test_so_many_squares_and_no_more_come_out_of_a_length(
    size: str, width: str, length: str, count: int, source: str
) -> None:
    fits = lay_out([wanted(size, count)], cloth(width)).length
    one_more = lay_out([wanted(size, count + 1)], cloth(width)).length
    assert fits <= inches(length) < one_more, source


def test_shrinkage_is_taken_from_what_is_bought() -> None:
    # 3 yd after 5 per cent: exact, L / (1 - p); dimensional change as in ISO 5077 and AATCC TM135.
    demand = wanted("36 x 12", 9, may_turn=False)
    bought = lay_out([demand], cloth("36", shrinkage=0.05)).purchase
    assert bought.length == inches(108)
    assert float(bought.needed / 36) == pytest.approx(3.157895, abs=1e-6)
    assert bought.buy == inches("117")


def test_buying_adds_straightening_and_a_spare_of_the_widest_common_strip() -> None:
    # exact: 3 x 5 in + 1 x 12 in = 27 in; the 12 in strip is cut once, so a 5 in strip is spared.
    layout = lay_out(
        [wanted("5", 24), wanted("40 x 12", 1, may_turn=False)],
        cloth("40", straightening=inches(2), spare_strips=1),
    )
    assert layout.length == inches(27)
    assert layout.purchase.spare == inches(5)
    assert layout.purchase.needed == inches(34)
    assert layout.buy == inches(36)


def test_no_strip_is_spared_for_borders_and_panels() -> None:
    layout = lay_out(
        [wanted("40 x 70", 2, may_turn=False), wanted("40 x 6", 4, whole_strip=True, reserve=True)],
        cloth("40", spare_strips=1, ruler_length=inches(24)),
    )
    assert layout.purchase.needed == inches(164)


def test_centimetres_stay_exact() -> None:
    # exact: 107 cm holds 15 squares of 67 mm; 31 need 3 strips, 201 mm; the shop cuts 10 cm.
    supply = Supply("sail", mm(1070), mm(100), unit="cm")
    layout = lay_out([Demand("squares", mm(67), mm(67), 31)], supply)
    assert layout.length == mm(201)
    assert layout.buy == mm(300)
    assert (
        layout.sum_lines("cm")[0] == "107 / 6.7 = 15 squares a strip; 31 / 15 -> 3 strips; 3 x 6.7 = 20.1 cm"
    )


def test_strips_come_as_they_are_told_at_the_table() -> None:
    layout = lay_out([wanted("2 7/8", 76)], cloth("40"))
    square = Section("2 7/8 pieces", inches("2 7/8"), inches("2 7/8"), 13)
    last = replace(square, count=11)
    assert layout.patterns == (
        Pattern(inches("2 7/8"), (square,), 5),
        Pattern(inches("2 7/8"), (last,), 1),
    )
    assert layout.by_height == ((inches("2 7/8"), layout.patterns),)
    # exact: 6 strips and 76 crosscuts.
    assert layout.cuts == 82


def test_small_pieces_go_into_the_rest_of_wide_strips_where_that_saves_a_strip() -> None:
    # exact: 6 of 6 in leave 4 in of 40; two stacks of 3 pieces of 2 in fit there.
    layout = lay_out([wanted("6", 6), wanted("2", 6)], replace(cloth("40"), buying_step=inches("1/8")))
    assert layout.length == inches(6)
    assert [(section.count, section.stack) for section in layout.patterns[0].sections] == [(6, 1), (2, 3)]


def test_cloth_saved_inside_a_buying_step_is_not_worth_a_mixed_strip() -> None:
    # exact: 7 of 5 in, 13 of 3 in and one more beside the 5 in squares: 8 in; in their own strips 11 in.
    pieces = [wanted("5", 7), wanted("3", 14)]
    saving = lay_out(pieces, cloth("40", buying_step=inches("1/8")))
    assert (saving.length, saving.ruler_changes) == (inches(8), 3)
    plain = lay_out(pieces, cloth("40", buying_step=inches(12)))
    assert (plain.length, plain.ruler_changes) == (inches(11), 2)


def test_subcuts_and_trims_are_counted() -> None:
    # exact: 3 x 2 = 6 in takes 2 subcuts in each crosscut; 2 x 2 1/2 = 5 in takes one, and a trim.
    six = Section("6", inches(6), inches(6), 6)
    assert Pattern(inches(6), (six, Section("2", inches(2), inches(2), 2, stack=3))).cuts == 1 + 6 + 2 * 3
    trimmed = Pattern(inches(6), (six, Section("2 1/2", inches(2), inches("2 1/2"), 2, stack=2)), times=5)
    assert trimmed.cuts == 5 * (1 + 6 + 2 * 3)
    assert trimmed.settings == {inches(6), inches(2), inches("2 1/2")}


def test_reserved_pieces_are_cut_first_and_then_the_widest_strips() -> None:
    layout = lay_out(HARBOUR, HARBOUR_CLOTH)
    heights = [(not pattern.reserve, -pattern.strip_height) for pattern in layout.patterns]
    assert heights == sorted(heights)
    assert layout.patterns[0].strip_height == inches(76)


def test_whole_strips_are_as_long_as_the_cloth_is_wide() -> None:
    layout = lay_out([wanted("1 x 2 1/4", 7, whole_strip=True)], cloth("41 1/2"))
    assert layout.patterns == (
        Pattern(inches("2 1/4"), (Section("1 x 2 1/4 pieces", inches("41 1/2"), inches("2 1/4"), 1),), 7),
    )
    assert layout.waste == 0


def test_a_one_way_print_is_never_turned() -> None:
    # exact: upright 4 pieces of 10 x 2 a strip, 3 strips of 2; turned 20 of 2 x 10 in a strip of 10.
    free, one_way = wanted("10 x 2", 12), wanted("10 x 2", 12, may_turn=False)
    assert lay_out([one_way], cloth("40")).length == inches(6)
    assert lay_out([replace(free, width=inches(2), height=inches(10))], cloth("40")).length == inches(6)
    upright = lay_out([wanted("2 x 10", 12, may_turn=False)], cloth("40"))
    assert upright.length == inches(10)
    assert not any(section.turned for pattern in upright.patterns for section in pattern.sections)


def test_no_saving_of_settings_makes_it_longer_than_each_size_in_its_own_strips() -> None:
    # exact: turned, 3 strips of 2 in with 4 pieces each; upright, one of 10 in with fewer cuts. Both buy 12.
    free = [wanted("2 x 10", 12)]
    assert own_strips_layout(free, cloth("40")).length == inches(6)
    assert lay_out(free, cloth("40", buying_step=inches(12))).length == inches(6)


def test_pieces_are_not_turned_to_stand_taller_than_the_ruler() -> None:
    # exact: 30 x 2 upright 1 a strip, 20 strips, 40 in; turned 20 in one strip of 30 in.
    strips = [wanted("30 x 2", 20)]
    assert lay_out(strips, cloth("40")).length == inches(30)
    assert lay_out(strips, cloth("40", ruler_length=inches(24))).length == inches(40)


def test_a_piece_too_wide_upright_is_turned_even_where_it_is_taller_than_the_ruler() -> None:
    layout = lay_out([wanted("60 x 5", 4)], cloth("40", ruler_length=inches(24)))
    assert layout.length == inches(60)
    assert layout.patterns[0].sections[0].turned


@pytest.mark.parametrize(
    ("demand", "told"),
    [
        (
            wanted("50 x 6", 1, may_turn=False),
            "cloth 'sail': expected '50 x 6 pieces' to fit across the cloth, 40 in, got 50 x 6 in."
            " Turned by a quarter it would fit (6 in across), but here it must not be turned.",
        ),
        (
            wanted("50 x 45", 1),
            "cloth 'sail': expected '50 x 45 pieces' to fit across the cloth, 40 in, got 50 x 45 in."
            " Turning it would not help; join it from smaller pieces, or take wider cloth.",
        ),
        (
            wanted("5", 0),
            "cloth 'sail': expected from 1 to 10,000,000 pieces of '5 pieces', got 0."
            " Write how many pieces are wanted.",
        ),
        (
            wanted("5", 10**9),
            "cloth 'sail': expected from 1 to 10,000,000 pieces of '5 pieces', got 1,000,000,000."
            " Write how many pieces are wanted.",
        ),
        (
            wanted("0 x 5", 3),
            "cloth 'sail': expected '0 x 5 pieces' to have a size above 0, got 0 x 5 in."
            " Write the size to cut.",
        ),
    ],
)
def test_impossible_pieces_are_refused_in_one_sentence(demand: Demand, told: str) -> None:
    with pytest.raises(Refused) as refused:
        lay_out([demand], cloth("40"))
    assert str(refused.value) == told


@pytest.mark.parametrize(
    ("supply", "told"),
    [
        (cloth("0"), "expected a usable width above 0 and up to 200 in, got 0 in."),
        (cloth("-4"), "expected a usable width above 0 and up to 200 in, got -4 in."),
        (cloth("900"), "expected a usable width above 0 and up to 200 in, got 900 in."),
        (cloth("40", shrinkage=3.0), "expected shrinkage as a share from 0 to less than 1, got 3.0."),
        (
            cloth("40", shrinkage=float("nan")),
            "expected shrinkage as a share from 0 to less than 1, got nan.",
        ),
        (cloth("40", buying_step=ZERO), "expected a buying step above 0, got 0 in."),
        (cloth("40", spare_strips=-1), "expected 0 or more spare strips, got -1."),
        (
            cloth("40", straightening=inches(-1)),
            "expected a length of 0 or more for straightening, got -1 in.",
        ),
    ],
)
def test_cloth_that_is_no_cloth_is_refused(supply: Supply, told: str) -> None:
    with pytest.raises(Refused) as refused:
        lay_out([wanted("5", 3)], supply)
    assert [problem.what for problem in refused.value.problems] == [told]


def test_everything_wrong_is_told_at_once() -> None:
    with pytest.raises(Refused) as refused:
        lay_out([wanted("5", 3), wanted("5", 3), wanted("50", 1), wanted("6", -2)], cloth("40"))
    assert len(refused.value.problems) == 3


def test_nothing_wanted_is_nothing_bought() -> None:
    layout = lay_out([], cloth("40", straightening=inches(2), spare_strips=1))
    assert (layout.patterns, layout.length, layout.buy, layout.sum_lines()) == ((), ZERO, ZERO, ())


def test_the_sums_of_mixed_strips_and_of_buying_add_up() -> None:
    supply = cloth("40", straightening=inches(2), spare_strips=1, shrinkage=0.05, buying_step=inches("1/2"))
    layout = lay_out([wanted("6", 6), wanted("2", 6), wanted("40 x 3", 2, whole_strip=True)], supply)
    # exact: (12 + 2 + 3) / 0.95 = 17.89
    assert layout.sum_lines() == (
        "6 in strip: 6 x 6 (6 pieces) + 2 x 2 (2 pieces, 3 in each) = 40 of 40; once",
        "1 x 6 = 6 in",
        "2 40 x 3 pieces, a whole strip each; 2 x 3 = 6 in",
        "6 + 6 = 12 in",
        "pieces alone: 12 of 12 in; offcuts 0 per cent",
        "(12 + 2 to straighten + 1 x 3 spare) / (1 - 0.05) = about 17 7/8 -> 36 x 1/2 = 18 in to buy",
    )


def test_a_long_list_is_near_its_bound() -> None:
    layout = lay_out(HARBOUR, HARBOUR_CLOTH)
    assert sum(demand.count for demand in HARBOUR) > 2300
    assert check_layout(layout, HARBOUR) == []
    own = own_strips_layout(HARBOUR, HARBOUR_CLOTH)
    assert float(layout.length) < 1.012 * float(layout.area_bound)
    assert float(own.length) > 1.05 * float(layout.area_bound)
    shortest = lay_out(HARBOUR, HARBOUR_CLOTH, CuttingWish("least cloth", STACKS))
    assert float(shortest.length) < 1.006 * float(shortest.bound)


def test_a_hundred_times_the_pieces_take_the_same_number_of_patterns() -> None:
    many = [replace(demand, count=100 * demand.count) for demand in HARBOUR]
    layout = lay_out(many, HARBOUR_CLOTH)
    assert check_layout(layout, many) == []
    assert len(layout.patterns) < 2 * len(HARBOUR)
    assert float(layout.length) < 1.02 * float(layout.bound)
    shortest = lay_out(many, HARBOUR_CLOTH, CuttingWish("least cloth", STACKS))
    assert float(shortest.length) < 1.001 * float(shortest.bound)


def test_the_search_around_the_first_mixed_layout_finds_shorter_ones_only() -> None:
    task = in_marks([demand for demand in HARBOUR if not demand.whole_strip], HARBOUR_CLOTH)
    quick = [first_fit(task, preferred) for preferred in (upright, low, tall)]
    mixing = Mixing(task, [own_strips(task), *quick])
    lengths = [task.length(strips) for strips in shorter(mixing, own_strips(task), effort=60_000)]
    assert len(lengths) > 1
    assert lengths == sorted(set(lengths), reverse=True)
    assert lengths[-1] >= mixing.bound


def broken(
    layout: Layout, number: int = 0, section: dict[str, object] | None = None, **fields: object
) -> Layout:
    """The layout with one pattern, or its first section, made wrong."""
    pattern = layout.patterns[number]
    if section:
        fields["sections"] = (replace(pattern.sections[0], **section), *pattern.sections[1:])  # type: ignore[arg-type]
    changed = replace(pattern, **fields)  # type: ignore[arg-type]
    return replace(layout, patterns=(*layout.patterns[:number], changed, *layout.patterns[number + 1 :]))


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        ({"times": 6}, "expected 76 pieces of '2 7/8 pieces', got 89."),
        ({"section": {"count": 12}}, "expected 76 pieces of '2 7/8 pieces', got 71."),
        ({"section": {"count": 14}}, "expected sections within 40 in, got 40 1/4 in across."),
        ({"section": {"stack": 2}}, "expected a stack of '2 7/8 pieces' within 2 7/8 in, got 5 3/4 in."),
        ({"section": {"name": "sails"}}, "expected a piece that is wanted, got 'sails'."),
        ({"section": {"turned": True}}, "expected '2 7/8 pieces' upright, got it turned."),
        (
            {"section": {"width": inches(2)}},
            "expected '2 7/8 pieces' as 2 7/8 in x 2 7/8 in, got 2 in x 2 7/8 in.",
        ),
        ({"strip_height": inches(2)}, "expected a stack of '2 7/8 pieces' within 2 in, got 2 7/8 in."),
        ({"strip_height": inches(3)}, "expected strips of 17 1/4 in in all, got 17 7/8 in."),
        ({"number": 1, "reserve": True}, "expected what is reserved to be cut first."),
        ({"number": 1, "sections": ()}, "expected a strip that is cut at least once, into something."),
    ],
)
def test_the_checker_catches_each_thing_made_wrong(wrong: dict[str, object], told: str) -> None:
    demands = [wanted("2 7/8", 76, may_turn=False)]
    layout = lay_out(demands, cloth("40"))
    assert check_layout(layout, demands) == []
    found = check_layout(broken(layout, **wrong), demands)  # type: ignore[arg-type]
    assert told in [problem.what for problem in found]


def test_the_area_bound_is_exact() -> None:
    # exact: 3 squares of 3 1/3 in, 40 in cloth.
    third = Length(Fraction(10, 3))
    layout = lay_out([Demand("thirds", third, third, 3)], cloth("40"))
    assert layout.area_bound == Length(Fraction(100, 9) * 3 / 40)


def test_many_sizes_that_no_ruler_shows_still_have_a_common_mark():
    odd = [exactly(size) for size in (2**0.5, 3**0.5, 5**0.5, 7**0.5, 11**0.5, 13**0.5)]
    demands = [Demand(f"piece {k}", size, size, 5) for k, size in enumerate(odd)]
    layout = lay_out(demands, cloth("40"))
    assert check_layout(layout, demands) == []
    assert in_marks(demands, cloth("40")).width < 2**40
