"""Backs and batting: panels, where seams lie, backs of leftovers, packages and rolls."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.cutting.given.layout import Leftover
from piecewright.finishing.backing import Backing, BackingCloth, BackingWishes, backing_ways, wide_cloth
from piecewright.finishing.backing_leftovers import back_of_leftovers
from piecewright.finishing.backing_panels import SeamWish
from piecewright.finishing.batting import BattingPackage, BattingRoll, BattingWishes, batting_ways
from piecewright.finishing.finishing import backing_panels
from piecewright.finishing.how_quilted import Quilting
from piecewright.measure.length import ZERO, Length, inches, mm
from piecewright.measure.rounding import Ruler
from piecewright.problems import Refused

QUARTER = inches("1/4")
EIGHTHS = Ruler("in", Fraction(1, 8))
MILLIMETRES = Ruler("cm", Fraction(1))
YARD = inches(36)


def size(width: int | str, height: int | str) -> tuple[Length, Length]:
    return inches(width), inches(height)


def backs(
    top: tuple[Length, Length], usable: int | str | Fraction = 42, one_way: bool = False, **wished: object
) -> tuple[Backing, ...]:
    cloth = BackingCloth("fog", inches(usable), one_way)
    return backing_ways(top, inches(4), [cloth], BackingWishes(**wished), QUARTER, EIGHTHS)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("top", "yards"),
    [
        (size(60, 60), 3.778),  # trade-checks backing_a, exact: panels along and across compared
        (size(86, 96), 7.833),  # trade-checks backing_b, exact: the same
    ],
)
def test_the_best_back_takes_the_cheaper_direction(top: tuple[Length, Length], yards: float) -> None:
    assert float(backs(top)[0].cloth) / float(YARD) == pytest.approx(yards, abs=1e-3)


def test_all_ways_are_told_the_best_first() -> None:
    # Plane arithmetic: 86 x 96 with 4 in: across three panels of 94, up three of 104.
    assert [(back.running, back.cloth) for back in backs(size(86, 96))] == [
        ("across", inches(282)),
        ("up", inches(312)),
    ]


def test_a_back_shows_its_sums() -> None:
    assert backs(size(60, 60))[0].sum_lines("in") == (
        "60 + 2 x 4 by 60 + 2 x 4 = 68 x 68 in",
        "42 + 26 1/2 - 1 x 1/2 for seams = 68 in from side to side",
        "2 x 68 = 136 in of fog, 42 in wide",
    )


def test_a_seam_in_the_middle_lies_there() -> None:
    back = backs(size(60, 60), seams="in the middle")[0]
    assert (back.widths, back.seam_places) == ((inches("34 1/4"),) * 2, (ZERO,))


def test_a_seam_off_the_middle_lies_at_least_so_far_from_it() -> None:
    back = backs(size(60, 60), seams="off the middle", off=inches(7))[0]
    assert (back.widths, back.seam_places) == ((inches("41 1/4"), inches("27 1/4")), (inches(7),))


def test_a_whole_middle_panel_has_like_panels_beside_it_from_as_much_cloth() -> None:
    # Plane arithmetic: 68 + 4 x 1/4 - 42 = 27, so 13 1/2 on either side; both fit in one length of 42.
    back = backs(size(60, 60), seams="beside a whole middle panel")[0]
    assert (back.widths, back.lengths) == ((inches("13 1/2"), inches(42), inches("13 1/2")), 2)


def test_three_panels_cannot_have_a_seam_in_the_middle_so_four_are_cut() -> None:
    back = backs(size(86, 96), running="across", seams="in the middle")[0]
    assert (len(back.widths), back.seam_places[1]) == (4, ZERO)


def test_a_seam_of_the_back_stays_clear_of_those_of_the_top() -> None:
    # The middle of a 60 in top lies at 30 in; a seam there pushes the back's seam aside by 1 in.
    back = backs(size(60, 60), running="up", seams="in the middle", avoid_across=(inches(30),))[0]
    assert [abs(float(place)) for place in back.seam_places] == [1.0]


def test_a_one_way_print_is_never_laid_on_its_side() -> None:
    assert {back.running for back in backs(size(86, 96), one_way=True)} == {"up"}


def test_one_wide_cloth_needs_no_seam() -> None:
    cloth = wide_cloth(inches(108), "in")
    assert (cloth.name, cloth.usable_width) == ("wide cloth 108 in", inches(106))
    best = backing_ways(size(86, 96), inches(4), [cloth], BackingWishes(), QUARTER, EIGHTHS)[0]
    # 96 + 8 = 104 in fits across 106 in, so 94 in of the cloth's length are enough.
    assert (best.seams, best.cloth, best.running) == (0, inches(94), "across")


def test_prices_decide_between_cloths() -> None:
    narrow = BackingCloth("fog", inches(42), price=Fraction(10))
    wide = wide_cloth(inches(108), "in", Fraction(40))
    ways = backing_ways(size(86, 96), inches(4), [narrow, wide], BackingWishes(), QUARTER, EIGHTHS)
    # 282 in of fog are 7 5/6 yd x 10 = 78.33; 94 in of wide cloth are 2 11/18 yd x 40 = 104.44.
    assert [round(float(way.cost("in") or 0), 2) for way in ways] == [78.33, 86.67, 104.44, 115.56]


@pytest.mark.parametrize(("width", "panels", "length"), [(1070, 2, 1700), (1450, 2, 1700), (2400, 1, 1700)])
def test_metric_cloth_for_a_back(width: int, panels: int, length: int) -> None:
    # Plane arithmetic at a 7.5 mm seam: 1500 + 2 x 100 = 1700 mm either way.
    ways = backing_ways(
        (mm(1500), mm(1500)),
        mm(100),
        [BackingCloth("sand", mm(width))],
        BackingWishes(),
        mm("7.5"),
        MILLIMETRES,
    )
    assert (len(ways[0].widths), ways[0].length) == (panels, mm(length))


def test_a_seam_that_cannot_stay_clear_is_refused_with_what_could() -> None:
    seams = tuple(inches(n) for n in range(61))
    with pytest.raises(Refused, match=r"68 in over lies 2 in clear .* Stay 1/2 in clear"):
        backs(size(60, 60), running="up", seams="in the middle", avoid_across=seams, clear=inches(2))


def test_cloth_no_wider_than_two_seams_is_refused_with_the_figure() -> None:
    with pytest.raises(
        Refused, match="1/4 in wide, and the two seams of a panel take 1/2 in: 1/4 in too narrow"
    ):
        backs(size(60, 60), usable="1/4")


WISHES: list[SeamWish] = ["anywhere", "in the middle", "off the middle", "beside a whole middle panel"]


@settings(max_examples=150, deadline=None)
@given(st.integers(80, 960), st.integers(80, 960), st.integers(200, 900), st.sampled_from(WISHES))
def test_any_back_reaches_with_seams_where_they_are_wished(
    width: int, height: int, usable: int, wish: SeamWish
) -> None:
    eighths = Fraction(1, 8)
    top = (inches(width * eighths), inches(height * eighths))
    for back in backs(top, usable * eighths, seams=wish):
        over = back.least[0] if back.running == "up" else back.least[1]
        assert back.reach >= over
        assert back.reach - over <= inches(4)  # No more than a narrow panel too many.
        assert max(back.widths) <= back.cloth_used.usable_width
        assert sum(back.widths, ZERO) <= back.cloth_used.usable_width * back.lengths
        places = [abs(float(place)) for place in back.seam_places]
        if wish == "in the middle" and places:
            assert min(places) == 0
        if wish == "off the middle" and len(places) == 1:
            assert min(places) >= 6
        if wish == "beside a whole middle panel" and places:
            assert list(back.widths) == list(back.widths[::-1])


@settings(max_examples=100, deadline=None)
@given(st.integers(10, 130), st.integers(10, 130), st.integers(30, 110))
def test_seams_anywhere_take_as_much_cloth_as_whole_panels(width: int, height: int, usable: int) -> None:
    # The oracle is the count of panels by themselves, which knows nothing of where seams lie.
    whole = backing_panels(size(width, height), inches(4), inches(usable), QUARTER)
    assert backs(size(width, height), usable)[0].cloth <= whole.cloth


def test_rows_of_leftovers_are_trimmed_to_equal_height_until_the_back_reaches() -> None:
    # Plane arithmetic: 20 + 10 1/2 - 1/2 = 30 in over; 12 + 8 1/2 - 1/2 = 20 in high.
    left = [
        Leftover("sea", inches(20), inches(12)),
        Leftover("fog", inches(14), inches(13)),
        Leftover("sand", inches(31), inches(9)),
    ]
    back = back_of_leftovers(size(30, 20), left, QUARTER, EIGHTHS)
    assert back.lacking is None
    assert [row.height for row in back.rows] == [inches(12), inches("8 1/2")]
    assert [[piece.width for piece in row.pieces] for row in back.rows] == [
        [inches(14), inches("16 1/2")],
        [inches(30)],
    ]
    assert (back.seams, back.reach) == (2, inches(20))


def test_what_leftovers_lack_is_one_piece_with_its_seam() -> None:
    back = back_of_leftovers(size(30, 20), [Leftover("sea", inches(40), inches(12))], QUARTER, EIGHTHS)
    assert back.lacking == size(30, "8 1/2")
    assert back.sum_lines("in")[-1] == "lacking: one piece 30 x 8 1/2 in, seam allowance and all"


def test_leftovers_too_small_for_a_seam_are_not_used() -> None:
    crumbs = Leftover("sea", inches(40), inches(3))
    back = back_of_leftovers(size(30, 20), [crumbs], QUARTER, EIGHTHS)
    assert (back.rows, back.not_used, back.lacking) == ((), (crumbs,), size(30, 20))


@settings(max_examples=100, deadline=None)
@given(
    st.lists(st.tuples(st.integers(4, 40), st.integers(4, 40)), max_size=25),
    st.integers(10, 80),
    st.integers(10, 90),
)
def test_any_back_of_leftovers_reaches_and_takes_no_more_cloth_than_there_is(
    sizes: list[tuple[int, int]], width: int, height: int
) -> None:
    left = [Leftover("sea", inches(w), inches(h)) for w, h in sizes]
    back = back_of_leftovers(size(width, height), left, QUARTER, EIGHTHS)
    for row in back.rows:
        joined = sum((piece.width for piece in row.pieces), ZERO) - QUARTER * 2 * (len(row.pieces) - 1)
        assert joined >= inches(width)
        assert all(piece.width <= piece.taken[0] and row.height <= piece.taken[1] for piece in row.pieces)
    lacking = back.lacking[1] if back.lacking else ZERO
    seam = QUARTER * 2 if back.lacking and back.rows else ZERO
    assert back.reach + lacking - seam == inches(height)
    used = sum(piece.width.exact * row.height.exact for row in back.rows for piece in row.pieces)
    spare = sum(piece.width.exact * piece.height.exact * piece.count for piece in back.not_used)
    assert used + spare <= sum(w * h for w, h in sizes)


def test_batting_comes_from_what_leaves_least_without_a_join() -> None:
    packages = (
        BattingPackage("throw", inches(60), inches(60)),
        BattingPackage("twin", inches(72), inches(90)),
    )
    # Two lengths of 63 in off the roll 40 in wide are less in area, but joined.
    wishes = BattingWishes(packages=packages, rolls=(BattingRoll(inches(90)), BattingRoll(inches(40))))
    ways = batting_ways(size(63, 72), wishes, "in")
    assert ways[0].told("in") == "63 in off a roll 90 in wide"
    assert ways[1].told("in") == "1 package (twin, 72 x 90 in)"
    assert ways[2].told("in") == "72 in off a roll 90 in wide"
    assert [(way.joins, way.area) for way in ways[2:]] == [(0, 6480), (1, 5040), (1, 5760), (2, 14400)]


def test_batting_too_narrow_is_butted_without_an_allowance() -> None:
    wishes = BattingWishes("roll", rolls=(BattingRoll(inches(48)),))
    best = batting_ways(size(94, 104), wishes, "in")[0]
    # 94 in over two lengths of 48 in, each 104 in long; across it would take three of 94.
    assert (best.count, best.length, best.joins) == (2, inches(208), 1)


def test_batting_by_the_metre_and_its_price() -> None:
    wishes = BattingWishes("roll", rolls=(BattingRoll(mm(1500), Fraction(12)),))
    best = batting_ways((mm(1400), mm(1700)), wishes, "cm")[0]
    assert (best.length, best.cost("cm")) == (mm(1700), Fraction(102, 5))


def test_batting_from_nothing_is_refused() -> None:
    with pytest.raises(Refused, match="there is no package to cut batting from"):
        batting_ways(size(60, 60), BattingWishes("package", packages=()), "in")


def test_a_long_frame_asks_for_more_margin() -> None:
    # Common practice, no source: 4 in by hand and at home, more on a long frame.
    assert [Quilting(by).margin("in") for by in ("hand", "machine at home", "long frame")] == [
        inches(4),
        inches(4),
        inches(6),
    ]
