"""Strips, checks and logs: how many a set gives, that all seams nest, how long every log is cut."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from piecewright.bench.steps import CutApart, Join, Press
from piecewright.design.drawing import Group, Patch, Placed
from piecewright.design.kinds import kind_of
from piecewright.design.kinds.kind import Form
from piecewright.design.kinds.rounds import centre_of
from piecewright.geometry.isometry import turned
from piecewright.geometry.polygon import bounds, rectangle
from piecewright.measure.length import Length, inches, mm
from piecewright.methods import (
    FAMILIES,
    courthouse_rounds,
    log_cabin_rounds,
    patches_joined,
    strip_set,
    strip_set_checks,
)
from piecewright.methods.effort import effort_of
from piecewright.methods.kinds import recognise
from piecewright.methods.laying import Laying
from piecewright.methods.method import Method, Unit
from piecewright.methods.recipe import make_recipe, size_starts
from piecewright.piecing.laying import lay_on
from piecewright.problems import Refused
from piecewright.workroom.workroom import METRIC_WORKROOM, Workroom
from promises import keeps_its_promises

SEAMS = st.integers(8, 12).map(lambda parts: seam(inches(Fraction(parts, 32))))
SIDES = st.integers(4, 64).map(lambda eighths: inches(Fraction(eighths, 8)))
PATCHES = st.integers(2, 12).map(lambda eighths: inches(Fraction(eighths, 8)))
OWN = (
    strip_set.FAMILY,
    strip_set_checks.FAMILY,
    patches_joined.FAMILY,
    log_cabin_rounds.FAMILY,
    courthouse_rounds.FAMILY,
)
CHECKS = ("fourpatch", "ninepatch", "sixteenpatch")


def seam(take_up: Length) -> Workroom:
    """A workroom whose seam takes this much, a sixteenth of it in the fold, with narrow cloth."""
    return Workroom(needle=take_up - take_up / 16, fold=take_up / 16, usable_width=inches(22))


def metric(take_up: str) -> Workroom:
    fold = mm(Fraction(1, 2))
    return replace(METRIC_WORKROOM, needle=mm(take_up) - fold, fold=fold, usable_width=mm(560))


def ways_of(unit: Unit, workroom: Workroom) -> list[Method]:
    """The ways of these families."""
    return [m for family in OWN if unit.kind in family.kinds for m in family.members(unit, workroom)]


def rail(fabrics: str, width: str, height: str, *strips: str) -> Unit:
    return Unit("rail", tuple(fabrics), inches(width), inches(height), tuple(map(inches, strips)))


def checks(kind: str, width: str, height: str | None = None) -> Unit:
    return Unit(kind, ("sail", "tide"), inches(width), inches(height or width))


def logs(kind: str, width: str, centre: str, log: str, hand: str = "") -> Unit:
    measures = (inches(centre), inches(log))
    return Unit(kind, ("lamp", "day", "night"), inches(width), inches(width), measures, hand)


def way(unit: Unit, name: str, workroom: Workroom | None = None) -> Method:
    return next(m for m in ways_of(unit, workroom or Workroom()) if m.name == name)


def sizes(unit: Unit, name: str) -> list[tuple[Length, Length, int]]:
    recipe = make_recipe(way(unit, name), unit, Workroom())
    starts = zip(recipe.start_sizes(), recipe.method.starts, strict=True)
    return [(width, height, start.count) for (width, height), start in starts]


# ---------------------------------------------------------------- the promises that all ways keep


@settings(max_examples=6, deadline=None)
@given(
    fabrics=st.lists(st.sampled_from("abc"), min_size=2, max_size=7),
    widths=st.lists(SIDES, min_size=7, max_size=7),
    height=SIDES,
    equal=st.booleans(),
    workroom=SEAMS,
)
def test_rails_of_any_number_of_strips_of_any_widths(fabrics, widths, height, equal, workroom):
    strips = [widths[0]] * len(fabrics) if equal else widths[: len(fabrics)]
    width = sum(strips[1:], strips[0])
    unit = Unit("rail", tuple(fabrics), width, height, () if equal else tuple(strips))
    ways = ways_of(unit, workroom)
    assert [m.name for m in ways] == ["strip sets", "strip sets of half strips", "from single pieces"]
    for m in ways:
        keeps_its_promises(m, unit, workroom)


@pytest.mark.parametrize("kind", CHECKS)
@settings(max_examples=4, deadline=None)
@given(width=PATCHES, height=PATCHES, workroom=SEAMS)
def test_checks_of_any_size(kind, width, height, workroom):
    unit = Unit(kind, ("sail", "tide"), width * 4, height * 4)
    for m in ways_of(unit, workroom):
        keeps_its_promises(m, unit, workroom)


@pytest.mark.parametrize(("kind", "hand"), [("logcabin", "right"), ("logcabin", "left"), ("courthouse", "")])
@settings(max_examples=4, deadline=None)
@given(centre=SIDES, log=SIDES, rounds=st.integers(1, 4), workroom=SEAMS)
def test_logs_in_any_number_of_rounds(kind, hand, centre, log, rounds, workroom):
    width = centre + log * 2 * rounds
    unit = Unit(kind, ("lamp", "day", "night"), width, width, (centre, log), hand)
    (m,) = ways_of(unit, workroom)
    keeps_its_promises(m, unit, workroom)


@pytest.mark.parametrize("take_up", ["5", "6", "7.5"])
def test_all_of_them_in_centimetres(take_up):
    workroom, sail_and_tide = metric(take_up), ("sail", "tide")
    for unit in (
        Unit("rail", (*sail_and_tide, "sail"), mm(150), mm(75), (mm(30), mm(70), mm(50))),
        *(Unit(kind, sail_and_tide, mm(120), mm(120)) for kind in CHECKS),
        Unit("logcabin", ("lamp", "day", "night"), mm(200), mm(200), (mm(50), mm(25)), "left"),
        Unit("courthouse", ("lamp", "day", "night"), mm(200), mm(200), (mm(50), mm(25))),
    ):
        for m in ways_of(unit, workroom):
            keeps_its_promises(m, unit, workroom)


@pytest.mark.parametrize(
    "unit",
    [rail("aba", "6", "6"), checks("fourpatch", "4"), logs("logcabin", "9", "3", "1")],
    ids=lambda u: u.kind,
)
def test_the_same_unit_has_the_same_methods_whatever_its_fabrics_are_called(unit):
    again = Unit(unit.kind, unit.fabrics, unit.width, unit.height, unit.measures, unit.hand)
    named = {fabric: f"{fabric} print" for fabric in unit.fabrics}
    other = Unit(unit.kind, tuple(named[f] for f in unit.fabrics), unit.width, unit.height, unit.measures)
    for one, same, renamed in zip(*(ways_of(u, Workroom()) for u in (unit, again, other)), strict=True):
        assert one is same
        assert one is renamed


def test_their_families_are_asked_for_ways():
    assert set(OWN) <= set(FAMILIES)


# ---------------------------------------------------------------- strip sets


@pytest.mark.parametrize(
    ("finished", "number"),
    # Arithmetic: 40 in less 1/2 in to square up the end, over the raw length, rounded down.
    [("6", 6), ("2", 15), ("1 1/2", 19), ("19", 2), ("39", 1)],
)
def test_a_set_gives_as_many_rails_as_the_usable_width_holds(finished, number):
    unit = rail("ab", "4", finished)
    whole = way(unit, "strip sets")
    assert whole.makes == number
    cut = next(s for s in make_recipe(whole, unit, Workroom()).steps if isinstance(s, CutApart))
    # The rest is an offcut, and so is what squares up the end.
    assert (cut.gives[0], cut.gives[-1]) == ("", "" if finished != "39" else "unit")
    assert cut.gives.count("unit") == number


def test_a_wider_cloth_gives_more():
    # Arithmetic: (44 - 1/2) / 2 1/2 = 17.4.
    assert way(rail("ab", "4", "2"), "strip sets", Workroom(usable_width=inches(44))).makes == 17


def test_strips_are_cut_two_take_ups_wider_than_they_finish():
    # Plane geometry; 2 1/2 in strips for a 2 in rail are common practice as well.
    assert sizes(rail("aba", "6", "6"), "strip sets") == [
        (inches("2 1/2"), inches(40), 2),
        (inches("2 1/2"), inches(40), 1),
    ]
    assert sizes(rail("aba", "6", "6", "1", "3", "2"), "strip sets of half strips") == [
        (inches("1 1/2"), inches(20), 1),
        (inches("3 1/2"), inches(20), 1),
        (inches("2 1/2"), inches(20), 1),
    ]


def test_a_rail_that_is_longer_than_a_set_is_refused_with_the_reason():
    unit = rail("ab", "4", "40")
    with pytest.raises(Refused, match=r"1 subcuts of 40 1/2 in are needed, strips of 40 in give 0"):
        make_recipe(way(unit, "strip sets"), unit, Workroom())
    assert make_recipe(way(unit, "from single pieces"), unit, Workroom()).method.makes == 1


def test_a_sixteen_patch_needs_four_subcuts_of_a_set():
    unit = checks("sixteenpatch", "38")
    # Arithmetic: 39 1/2 / 10 = 3.
    with pytest.raises(Refused, match=r"4 subcuts of 10 in are needed, strips of 40 in give 3"):
        make_recipe(way(unit, "strip sets"), unit, Workroom())


# ---------------------------------------------------------------- what is subcut and joined again


@pytest.mark.parametrize(
    ("kind", "finished", "name", "makes", "strips"),
    [
        # Arithmetic: 15 subcuts of 2 1/2 in come off 39 1/2 in.
        ("fourpatch", "4", "strip sets", 7, [1, 1]),
        ("fourpatch", "4", "strip sets two together", 15, [2, 2]),
        ("sixteenpatch", "8", "strip sets", 3, [2, 2]),
        ("sixteenpatch", "8", "strip sets four together", 15, [8, 8]),
        # Two sets with the first fabric outside, one with the second: 2 x 2 + 1 and 2 x 1 + 2 strips.
        ("ninepatch", "6", "strip sets", 15, [5, 4]),
        ("ninepatch", "6", "strip sets of half strips", 7, [5, 4]),
    ],
)
def test_a_batch_of_checks_leaves_no_subcut(kind, finished, name, makes, strips):
    unit = checks(kind, finished)
    m = way(unit, name)
    assert m.makes == makes
    assert [start.count for start in m.starts] == strips
    recipe = make_recipe(m, unit, Workroom())
    subcuts = sum(s.times * sum(map(bool, s.gives)) for s in recipe.steps if isinstance(s, CutApart))
    rows = {"fourpatch": 2, "ninepatch": 3, "sixteenpatch": 4}[kind]
    assert subcuts == makes * rows


@pytest.mark.parametrize(
    ("kind", "finished", "starts"),
    # Common practice, no source: a 4 in four-patch and a 6 in nine-patch are cut from 2 1/2 in.
    [("fourpatch", "4", [2, 2]), ("ninepatch", "6", [5, 4]), ("sixteenpatch", "8", [8, 8])],
)
def test_checks_from_single_squares(kind, finished, starts):
    square = inches("2 1/2")
    assert sizes(checks(kind, finished), "from single pieces") == [(square, square, n) for n in starts]


@pytest.mark.parametrize(("kind", "places"), [("fourpatch", 1), ("ninepatch", 4), ("sixteenpatch", 9)])
def test_every_seam_of_checks_nests(kind, places):
    # Counted by hand: where rows meet, every seam of one meets one of the other; none clashes.
    unit = checks(kind, "8")
    for m in ways_of(unit, Workroom()):
        *_, joined = (s for s in make_recipe(m, unit, Workroom()).steps if isinstance(s, Join))
        assert (joined.nests, joined.clashes) == (places, 0)


def test_a_nine_patch_turned_a_quarter_nests_with_its_neighbour():
    """Its columns lean inwards and its rows outwards, so that neighbours need not be pressed alike."""
    for m in ways_of(checks("ninepatch", "6"), Workroom()):
        cloth = make_recipe(m, checks("ninepatch", "6"), Workroom()).cloth
        # Towards the end of its side (1) or its start (-1): apart on one pair of sides, else together.
        leans = [[end.leans for end in cloth.ends_on(side)] for side in range(4)]
        assert sorted(leans) == [[-1, 1], [-1, 1], [1, -1], [1, -1]]
        assert leans[0] == leans[2] != leans[1] == leans[3]


# ---------------------------------------------------------------- logs


def test_the_published_log_cabin():
    # log_cabin: brunswickquilters.com habitat log cabin; centre 3, strips cut 1 3/4: last log of round three
    # 10 1/2. The logs between follow from plane geometry: one finished log (1 1/4) longer, every other time.
    unit = logs("logcabin", "10", "2 1/2", "1 1/4")
    centre, *cut = sizes(unit, "log by log")
    assert centre == (inches(3), inches(3), 1)
    assert [max(width, height) for width, height, _ in cut] == [
        inches(length)
        for length in (
            *("3", "4 1/4", "4 1/4", "5 1/2"),
            *("5 1/2", "6 3/4", "6 3/4", "8"),
            *("8", "9 1/4", "9 1/4", "10 1/2"),
        )
    ]
    assert all(min(width, height) == inches("1 3/4") and count == 1 for width, height, count in cut)


def test_the_logs_of_courthouse_steps_come_in_pairs():
    # Plane geometry: the first pair as long as the centre, the second longer by two finished logs.
    unit = logs("courthouse", "10", "2 1/2", "1 1/4")
    centre, *cut = sizes(unit, "pair by pair")
    assert centre == (inches(3), inches(3), 1)
    lengths = [(max(width, height), count) for width, height, count in cut]
    assert lengths == [(inches(size), 2) for size in ("3", "5 1/2", "5 1/2", "8", "8", "10 1/2")]


def test_light_logs_lie_on_two_neighbouring_sides_and_courthouse_logs_on_opposite_ones():
    def outer(unit: Unit) -> dict[str, set[str]]:
        """The fabrics along each side of the unit."""
        found: dict[str, set[str]] = {}
        side = float(unit.width)
        for patch in unit.drawing.patches[-4:]:
            left, low, right, high = bounds(patch.outline)
            beside = {"s": low == 0, "n": high == side, "w": left == 0, "e": right == side}
            longest = "sn" if right - left > high - low else "we"
            (on,) = (s for s in longest if beside[s])
            found.setdefault(patch.role, set()).add(on)
        return found

    assert outer(logs("logcabin", "6", "2", "1", "right")) == {"day": {"n", "e"}, "night": {"s", "w"}}
    assert outer(logs("logcabin", "6", "2", "1", "left")) == {"day": {"n", "w"}, "night": {"s", "e"}}
    assert outer(logs("courthouse", "6", "2", "1")) == {"day": {"n", "s"}, "night": {"w", "e"}}


@pytest.mark.parametrize("kind", ["logcabin", "courthouse"])
def test_logs_are_pressed_away_from_the_centre(kind):
    unit = logs(kind, "8", "2", "1")
    (m,) = ways_of(unit, Workroom())
    recipe = make_recipe(m, unit, Workroom())
    middle = (recipe.cloth.size[0] / 2,) * 2
    assert m.pressed_as_written
    assert len(recipe.cloth.seams) == 12
    left, low, *_ = bounds(recipe.cloth.raw)
    for one in recipe.cloth.seams:
        (ax, ay), (bx, by) = one.path
        x, y = middle[0] + left, middle[1] + low
        centre_on_left = (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0
        # The cloth it was sewn from first lies on the left of the path.
        assert one.pressed == (("second",) if centre_on_left else ("first",))


@pytest.mark.parametrize(
    ("kind", "width", "centre", "log", "wanted"),
    [
        ("logcabin", "9", "2", "1", "to have whole rounds of logs about its centre"),
        ("courthouse", "9", "9", "1", "to have from 1 to 30 rounds of logs"),
        ("logcabin", "100", "1", "1/2", "to have from 1 to 30 rounds of logs"),
    ],
)
def test_rounds_that_do_not_come_out_are_refused(kind, width, centre, log, wanted):
    with pytest.raises(Refused, match=wanted):
        ways_of(logs(kind, width, centre, log), Workroom())


def test_rounds_may_be_told_instead_of_the_centre():
    # Arithmetic: 9 - 2 x 3 x 1.
    assert centre_of(9, 1, 3) == 3
    assert kind_of("logcabin").wanted(Form(9, 9, measures=(3.0, 1.0), fabrics=3)) == ""


# ---------------------------------------------------------------- rails that are none


@pytest.mark.parametrize(
    ("strips", "wanted"),
    [
        (("1", "2"), "to have a width for each of its 3 strips"),
        (("1", "2", "2"), "to be as wide as its strips together"),
    ],
)
def test_widths_that_do_not_make_the_rail_are_refused(strips, wanted):
    with pytest.raises(Refused, match=wanted):
        ways_of(rail("aba", "6", "6", *strips), Workroom())


# ---------------------------------------------------------------- effort


def test_the_seams_of_a_set_are_counted_once_a_set():
    unit = rail("ab", "4", "2")
    recipe = make_recipe(way(unit, "strip sets"), unit, Workroom())
    effort = effort_of(recipe, 30, Workroom())
    # By hand: two sets of one 40 in seam; each from 2 strips, cut across 16 times for 15 rails.
    assert (effort.seams, effort.sewn, effort.cuts) == (2, pytest.approx(80), 2 * (2 + 16))


def test_single_pieces_are_sewn_one_by_one():
    unit = checks("ninepatch", "6")
    recipe = make_recipe(way(unit, "from single pieces"), unit, Workroom())
    effort = effort_of(recipe, 1, Workroom())
    # By hand: three rows of two 2 1/2 in seams, two seams of 6 1/2 in; 9 squares; each seam pressed once.
    assert (effort.seams, effort.sewn, effort.cuts) == (8, pytest.approx(6 * 2.5 + 2 * 6.5), 9)
    pace = Workroom().pace
    seconds = 8 * pace.start_seam + 9 * pace.cut + 8 * pace.press
    assert effort.minutes == pytest.approx(seconds / 60 + 28 / pace.sew_inches)


def test_for_many_alike_strip_sets_are_quicker_than_single_pieces():
    unit = checks("fourpatch", "4")
    sets, single = (
        effort_of(make_recipe(way(unit, name), unit, Workroom()), 28, Workroom()).minutes
        for name in ("strip sets", "from single pieces")
    )
    assert sets < single


# ---------------------------------------------------------------- seen in a drawing, and one-way prints


SEEN = [
    rail("ab", "4", "4"),
    rail("abac", "8", "3"),
    rail("abc", "6", "6", "1", "3", "2"),
    rail("ab", "3", "5", "1", "2"),
    *(checks(kind, "6") for kind in CHECKS),
    checks("fourpatch", "6", "3"),
    logs("logcabin", "9", "3", "1", "right"),
    logs("logcabin", "9", "3", "1", "left"),
    logs("logcabin", "7", "1", "1 1/2", "left"),
    logs("courthouse", "10", "2 1/2", "1 1/4"),
]


def shown(unit: Unit, quarters: int) -> Group:
    """The unit's patches as they lie turned by quarters, as loose patches somewhere in a block."""
    turn = turned(90.0 * quarters)
    patches = [patch.placed(turn) for patch in unit.drawing.patches]
    left, low, right, high = bounds([p for patch in patches for p in patch.outline])
    outline = rectangle(right - left, high - low)
    outline = tuple((x + left, y + low) for x, y in outline)
    return Group("seen", tuple(map(Placed, patches)), outline)


@pytest.mark.parametrize("quarters", range(4))
@pytest.mark.parametrize("unit", SEEN, ids=lambda u: f"{u.kind} {u.width} {u.hand}")
def test_a_drawing_is_recognised_at_every_quarter_turn(unit, quarters):
    drawn = shown(unit, quarters)
    seen = recognise(drawn)
    assert seen is not None
    assert (seen.kind, seen.hand) == (unit.kind, unit.hand)
    assert {seen.width, seen.height} == {unit.width, unit.height}
    assert sorted(seen.measures) == sorted(unit.measures)
    # What is made for the unit that was seen can be laid on the drawing.
    for m in ways_of(seen, Workroom()):
        assert lay_on(make_recipe(m, seen, Workroom()).cloth, drawn) is not None


def test_a_left_log_cabin_is_not_taken_for_a_right_one():
    hands = {recognise(shown(logs("logcabin", "9", "3", "1", hand), 1)).hand for hand in ("right", "left")}
    assert hands == {"right", "left"}


@pytest.mark.parametrize("unit", SEEN, ids=lambda u: f"{u.kind} {u.width} {u.hand}")
@pytest.mark.parametrize("quarters", range(4))
def test_single_pieces_can_be_laid_so_that_every_one_way_print_stands_up(unit, quarters):
    prints = frozenset(unit.fabrics)
    seen = shown(unit, quarters)
    patches = tuple(Placed(Patch(p.role, p.outline, 90.0)) for p in seen.patches)
    standing = Group("standing", patches, seen.outline)
    (m,) = (m for m in ways_of(unit, Workroom()) if m.upright)
    assert any(
        lay_on(make_recipe(m, unit, Workroom(), prints, Laying(laying)).cloth, standing, prints)
        for laying in range(4)
    )


def test_pieces_that_are_turned_are_cut_the_other_way():
    unit = rail("ab", "4", "6")
    m = way(unit, "from single pieces")
    as_it_comes, turned_once = (
        make_recipe(m, unit, Workroom(), frozenset("ab"), Laying(k)).start_sizes() for k in (0, 1)
    )
    assert as_it_comes == [(inches("2 1/2"), inches("6 1/2"))] * 2
    assert turned_once == [(inches("6 1/2"), inches("2 1/2"))] * 2


def test_sizes_are_not_rounded_since_nothing_is_trued_up():
    unit = checks("ninepatch", "4")
    sizing = size_starts(way(unit, "from single pieces"), unit, Workroom())
    assert sizing.truing == "none"
    assert sizing.cut[0].exact == Fraction(4, 3) + Fraction(1, 2)


def test_every_seam_is_pressed_once_on_the_way():
    unit = checks("sixteenpatch", "8")
    for m in ways_of(unit, Workroom()):
        steps = make_recipe(m, unit, Workroom()).steps
        assert sum(isinstance(s, Press) for s in steps) == sum(isinstance(s, Join) for s in steps)
