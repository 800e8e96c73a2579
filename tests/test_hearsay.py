"""Rules of thumb and printed sizes put to the test: what fails is caught, what is right raises no alarm."""

from fractions import Fraction
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.measure.length import inches
from piecewright.methods import ways_for
from piecewright.methods.method import Unit
from piecewright.methods.trial import solve
from piecewright.problems import Refused
from piecewright.rescue.hearsay import Finding, Hearing, hear
from piecewright.rescue.hearsay_judging import SHORT
from piecewright.rescue.hearsay_scan import short_where
from piecewright.rescue.rule_reader import read_sum
from piecewright.rescue.subject import vocabulary
from piecewright.rescue.subjects import SUBJECTS, subject_named
from piecewright.workroom.workroom import INCH_WORKROOM, METRIC_WORKROOM, Workroom

CLOTH_42 = Workroom(usable_width=inches(42))


def heard(subject: str, rule: str, room: Workroom = INCH_WORKROOM, **said) -> Hearing:
    return hear(subject_named(subject), rule, room, **said)


def only(subject: str, rule: str, room: Workroom = INCH_WORKROOM, **said) -> Finding:
    """The finding where there is just one reading."""
    (finding,) = heard(subject, rule, room, **said).findings
    return finding


def by_reading(hearing: Hearing) -> dict[tuple[str, str | None], str]:
    return {(one.reading.way, one.meaning): one.verdict for one in hearing.findings}


def mm_of(size: float) -> float:
    return size * 25.4


# The ten rules in print that fail, as listed among the check values of the trade.


def test_1_four_at_a_time_by_a_factor_is_short_below_its_crossing():
    one = only("hst", "unfinished / 0.64", way="four at a time", sizes="2, 2 1/2, 3, 3 1/2")
    assert one.verdict == "short below"
    # plane geometry: U / 0.64 = sqrt(2) U + 1/2, hst_four_folk
    assert one.crossings == (pytest.approx(3.372, abs=1e-3),)
    assert one.crossings[0] == pytest.approx(0.5 / (1 / 0.64 - sqrt(2)), abs=1e-6)
    assert [example.standing for example in one.examples] == ["short", "short", "short", "ease"]
    # plane geometry: sqrt(2) U + 2s, hst_four_start
    assert one.examples[1].needed == pytest.approx(4.035534, abs=1e-6)


def test_1_the_printed_pairs_make_less_than_they_promise():
    pairs = "2 1/2 -> 1 1/2, 4 -> 2 1/2, 6 -> 4, 10 -> 7"
    one = only("hst", pairs, way="four at a time", means="unfinished")
    assert one.verdict == "short always"
    # plane geometry: (S - 2s) / sqrt(2), hst_four_unit
    truly = [1.414214, 2.474874, 3.889087, 6.717514]
    assert [example.made for example in one.examples] == pytest.approx(truly, abs=1e-6)
    assert [float(example.sizes[0]) for example in one.examples] == [1.5, 2.5, 4, 7]


def test_2_eight_at_a_time_is_right_for_the_unfinished_size_and_short_for_the_finished_one():
    hearing = heard("hst", "2X + 1", way="eight at a time")
    assert by_reading(hearing) == {
        ("eight at a time", "finished"): "short always",
        ("eight at a time", "unfinished"): "right, then trim",
    }
    assert hearing.is_question
    # plane geometry: a start of 2F + 4s + 2 sqrt(2)s; the unit is off by half: 1/sqrt(8) = 0.35
    assert {round(e.made_off, 6) for e in hearing.findings[0].examples} == {round(-1 / sqrt(8), 6)}


def test_2_half_square_triangles_with_five_eighths_are_short():
    one = only("hst", "finished + 5/8", way="two at a time")
    assert one.verdict == "short always"
    # plane geometry: s(cot 45 + cot 22.5) = 0.853553, seam_hst_add
    assert {round(e.needed - float(e.sizes[0]), 6) for e in one.examples} == {0.853553}


def test_3_square_in_a_square_corners_with_a_half_are_short_unless_they_are_flipped():
    hearing = heard("square-in-a-square corners", "corner + 1/2", sizes="6")
    assert by_reading(hearing) == {
        ("from cut triangles", None): "short always",
        ("stitch and flip", None): "right",
    }
    assert hearing.is_question
    # plane geometry: finished block 12, economy_corner
    assert hearing.findings[0].examples[0].needed == pytest.approx(6.853553, abs=1e-6)


def test_3_no_waste_geese_with_the_squares_of_stitch_and_flip_are_short():
    hearing = heard("geese", "finished height + 1/2", sizes="4 x 2")
    verdicts = by_reading(hearing)
    assert verdicts["four at a time", "finished"] == "short always"
    assert verdicts["stitch and flip", "finished"] == "right"
    four = next(one for one in hearing.findings if one.reading.way == "four at a time")
    # plane geometry: 2 + 0.853553; geese_table has 2 7/8
    assert four.examples[0].needed == pytest.approx(2.853553, abs=1e-6)
    assert four.examples[0].cut == inches("2 7/8")


def test_4_half_rectangle_triangles_with_seven_eighths_both_ways_are_short_along_the_longer_side():
    hearing = heard("half-rectangle triangle", "finished + 7/8", sizes="3 x 4, 2 x 4")
    width, height = hearing.findings
    assert (width.outcome, height.verdict) == ("right", "short always")
    # plane geometry: hrt_345 and hrt_12
    assert [example.needed for example in width.examples] == pytest.approx([3.75, 2.654508], abs=1e-6)
    assert [example.needed for example in height.examples] == pytest.approx([5, 5.309017], abs=1e-6)


def test_5_setting_squares_with_141_fall_behind_and_the_nearest_eighth_does_not_save_them():
    plain = only("setting square", "1.41 F + 1 1/4")
    # plane geometry: 1.41 F + 1 1/4 = sqrt(2) F + 2s cot 22.5
    at = (1.25 - 0.5 / (sqrt(2) - 1)) / (sqrt(2) - 1.41)
    assert (plain.verdict, plain.crossings) == ("short above", (pytest.approx(at, abs=1e-6),))
    rounded = only("setting square", "1.41 F + 1 1/4, nearest 1/8", sizes="12, 14")
    assert rounded.verdict == "short at some sizes"
    assert [example.given for example in rounded.examples] == [18.125, 21]
    assert [example.standing for example in rounded.examples] == ["short", "short"]
    # without any seam it is short at every size
    assert only("setting square", "1.41 F").verdict == "short always"


def test_5_a_14_in_block_with_a_21_in_square_is_told_as_short_by_6_thousandths():
    one = only("setting square", "14 -> 21", means="finished")
    assert one.verdict == "short always"
    # plane geometry: 14 sqrt(2) + 1.207107 = 21.0061
    assert one.examples[0].off == pytest.approx(-0.006097, abs=1e-6)


def test_6_metric_rules_at_a_seam_of_seven_and_a_half_millimetres():
    half = only("hst", "finished + 2.5 cm", METRIC_WORKROOM, way="two at a time")
    quarter = only("hourglass", "finished + 3.5 cm", METRIC_WORKROOM, way="two at a time")
    assert (half.verdict, quarter.verdict) == ("short always", "short always")
    # plane geometry: metric_hst 25.607 mm and metric_qst 36.213 mm
    for one, added in ((half, 25.607), (quarter, 36.213)):
        example = one.examples[0]
        assert mm_of(example.needed - float(example.sizes[0])) == pytest.approx(added, abs=1e-3)


def test_7_continuous_bias_by_area_promises_too_much():
    one = only("continuous bias", "S x S / w", sizes="20 x 2, 15 x 2")
    assert one.verdict == "short always"
    # whole strips only, bias_a and bias_b
    assert [example.needed for example in one.examples] == pytest.approx([165.46, 102.53], abs=0.05)
    assert [example.given for example in one.examples] == [200, 112.5]
    # the printed chart says 100 for the second, and that is right
    assert only("continuous bias", "15 -> 100").verdict == "right"


def test_8_binding_by_the_perimeter_forgets_what_slanted_joins_cost():
    hearing = heard("binding", "perimeter / 40", sizes="60 x 72")
    slanted, straight = hearing.findings
    # each 45 degree join costs one strip width, binding_a: 8 strips
    assert (slanted.verdict, slanted.examples[0].given, slanted.examples[0].needed) == ("short always", 7, 8)
    assert (straight.reading.way, straight.verdict) == ("straight joins", "right")


def test_9_backing_by_area_is_short():
    one = only("backing", "(W + 8) x (H + 8) / 42", CLOTH_42, sizes="60 x 60, 86 x 96")
    assert one.verdict == "short always"
    # panels along and across compared, backing_a and backing_b (in yards)
    assert [example.needed / 36 for example in one.examples] == pytest.approx([3.778, 7.833], abs=1e-3)


def test_9_half_a_yard_does_not_give_half_of_what_a_yard_gives():
    one = only("half a yard", "yard / 2", CLOTH_42, sizes="5, 6")
    assert one.verdict == "short at some sizes"
    # floor rule: squares_halfyd 24, where the printed chart says 28
    assert [(e.given, e.needed, e.standing) for e in one.examples] == [(28, 24, "short"), (21, 21, "enough")]
    assert only("half a yard", "5 -> 28", CLOTH_42).verdict == "short always"
    assert only("half a yard", "5 -> 24", CLOTH_42).verdict == "right"


def test_9_shrinkage_added_on_is_short():
    one = only("shrinkage", "L (1 + p)", sizes="3 yd x 5%")
    assert one.verdict == "short always"
    # L / (1 - p), shrink_buy (in yards)
    assert one.examples[0].needed / 36 == pytest.approx(3.157895, abs=1e-6)


def test_10_mitred_borders_with_an_inch_on_finished_sizes_are_short():
    hearing = heard("mitred border", "inner side + 2 x border + 1")
    assert by_reading(hearing) == {("", "finished"): "short always", ("", "unfinished"): "generous"}
    example = hearing.findings[0].examples[0]
    inner, border = map(float, example.sizes)
    # plane geometry: border_mitred
    assert example.needed - inner - 2 * border == pytest.approx(1.207107, abs=1e-6)


# Rules that are right raise no alarm. Published: K. Combs, Formulas for Quilters (2002), for 7/8 and 1 1/4;
# American Patchwork & Quilting Aug 2019 for eight at a time; quilterscache.com (2002) for setting squares.
# The rest is plane geometry, or common practice, no source.
RIGHT = [
    ("hst", "finished + 7/8", {"way": "two at a time"}),
    ("hst", "finished + 7/8", {"way": "from cut triangles"}),
    ("hst", "unfinished + 3/8", {"way": "two at a time"}),
    ("hst", "unfinished", {"way": "one at a time"}),
    ("hst", "finished + 1/2", {"way": "one at a time"}),
    ("hst", "2 x finished + 1 3/4", {"way": "eight at a time"}),
    ("hst", "2 x unfinished + 3/4", {"way": "eight at a time"}),
    ("hst", "unfinished x 1.4143 + 1/2", {"way": "four at a time"}),
    ("hst", "4 3/4 -> 1 1/2, 7 3/4 -> 3", {"way": "eight at a time", "means": "finished"}),
    ("hst", "1 7/8 -> 1, 2 3/8 -> 1 1/2, 6 7/8 -> 6", {"way": "two at a time", "means": "finished"}),
    ("hourglass", "finished + 1 1/4", {}),
    ("geese", "finished width + 1 1/4, finished height + 7/8", {"way": "four at a time"}),
    ("geese", "finished width + 1/2, finished height + 1/2", {"way": "stitch and flip"}),
    ("geese", "3 x 1 1/2 -> 4 1/4 & 2 3/8", {"way": "four at a time", "means": "finished"}),
    ("square-in-a-square corners", "block / 2 + 7/8", {"way": "from cut triangles"}),
    ("square-in-a-square centre", "finished / 1.414 + 1/2", {}),
    ("flipped corner", "corner + 1/2", {}),
    ("half-rectangle triangle", "3 x 4 -> 3 3/4 x 5", {"means": "finished"}),
    ("60 degree triangle", "height + 3/4", {}),
    ("setting square", "F x 1.414 + 1 1/4", {}),
    ("setting square", "F x 1.414 + 1 1/4 rounded up to 1/8", {}),
    ("setting square", "4 -> 7, 6 -> 9 3/4, 9 -> 14, 12 -> 18 1/4", {"means": "finished"}),
    ("setting corner", "4 -> 3 3/4, 6 -> 5 1/8, 9 -> 7 1/4, 12 -> 9 3/8", {"means": "finished"}),
    ("block on point", "1.414 F", {}),
    ("butted border", "raw top + 2 x cut border - 1", {}),
    ("mitred border", "finished inner side + 2 finished border + 1 1/4", {}),
    ("binding", "(perimeter + 10 - w) / (cloth - w)", {"way": "45 degree joins"}),
    ("continuous bias", "20 -> 165", {}),
    ("backing", "60 x 60 -> 136", {"room": CLOTH_42}),
    ("squares from cloth", "5 -> 24, 5 1/2 -> 21", {"room": CLOTH_42}),
    ("shrinkage", "L / (1 - p)", {}),
    ("hst", "finished + 2.6 cm", {"way": "two at a time", "room": METRIC_WORKROOM}),
    ("hourglass", "finished + 3.7 cm", {"way": "two at a time", "room": METRIC_WORKROOM}),
]


@pytest.mark.parametrize(("subject", "rule", "said"), RIGHT)
def test_what_is_right_raises_no_alarm(subject, rule, said):
    hearing = heard(subject, rule, **said)
    assert {one.verdict for one in hearing.findings} == {"right"}
    assert not hearing.is_question


def test_an_inch_more_then_trimmed_is_sound_practice_and_too_large_where_nothing_is_trimmed():
    for rule, said in (("finished + 1", None), ("finished + 1", True), ("finished + 1 in, then trim", None)):
        assert only("hst", rule, way="two at a time", trimmed=said).verdict == "right, then trim"
    one = only("hst", "finished + 1", way="two at a time", trimmed=False)
    assert one.verdict == "too large"
    # plane geometry: 1 - 0.853553
    assert one.examples[0].made_off == pytest.approx(0.146447, abs=1e-6)


def test_what_is_over_by_too_little_to_trim_is_told():
    # plane geometry: 1.3 - 1.207107 = 0.093, between the ease of 1/16 and the trim of 1/8
    assert only("hourglass", "finished + 1.3", way="two at a time").verdict == "over, but too little to trim"


def test_a_flipped_corner_that_is_too_large_cannot_be_trimmed():
    assert only("flipped corner", "corner + 7/8").verdict == "too large"
    hearing = heard("geese", "finished height + 7/8", way="stitch and flip")
    assert {one.verdict for one in hearing.findings} == {"too large"}
    # unless all of a goose's pieces are larger, and it is trued up by its point
    larger = heard("geese", "finished width + 1, finished height + 1, then trim", way="stitch and flip")
    assert {one.verdict for one in larger.findings} == {"right, then trim"}


def test_a_rule_that_says_to_trim_counts_as_trimmed():
    assert heard("hst", "finished + 1, then trim", way="two at a time").trimmed is True
    assert heard("hst", "finished + 1", way="two at a time").trimmed is None


def test_a_rule_that_hardly_falls_behind_is_short_from_where_it_shows():
    one = only("hst", "1.414 U + 1/2", way="four at a time")
    # plane geometry: (sqrt(2) - 1.414) U / sqrt(2) is 1/1000 in, which is as much as edges may differ
    assert one.crossings == (pytest.approx(0.001 * sqrt(2) / (sqrt(2) - 1.414), abs=1e-3),)


def test_a_rule_is_short_between_two_sizes_or_only_here_and_there():
    sizes = [float(size) for size in range(1, 10)]
    between = short_where(lambda size: abs(size - 5) - 2.5, sizes, 0.001, is_smooth=True)
    assert (between.verdict, between.short) == ("short between", (3.0, 4.0, 5.0, 6.0, 7.0))
    assert between.crossings == pytest.approx((2.5, 7.5), abs=1e-6)
    # a rule that rounds jumps: where it begins to be short says nothing
    jumps = short_where(lambda size: -1.0 if size > 7 else 1.0, sizes, 0.001, is_smooth=False)
    assert (jumps.verdict, jumps.crossings, jumps.short) == ("short at some sizes", (), (8.0, 9.0))


def test_a_meaning_that_cannot_be_is_not_told():
    # 4 x 2 raw is 3 1/2 x 1 1/2 finished, which is no goose: only finished sizes can be meant
    hearing = heard("geese", "4 x 2 -> 5 1/4 & 2 7/8", way="four at a time")
    assert [(one.meaning, one.verdict) for one in hearing.findings] == [("finished", "right")] * 2


def test_a_way_that_is_only_cut_larger_and_trimmed_is_no_way_of_its_own():
    assert subject_named("geese").ways == ("stitch and flip", "four at a time", "from cut triangles")


def test_geese_are_told_by_their_width_or_their_height():
    one = only("geese", "finished height + 7/8", way="four at a time", sizes="4")
    assert one.examples[0].case == (Fraction(4), Fraction(2))
    # plane geometry: s(cot 45 + cot 22.5) for each small square
    assert (one.true_line.slope, one.true_line.add) == pytest.approx((1, 0.853553), abs=1e-6)


def test_a_rule_is_asked_about_where_ways_come_to_different_ends():
    hearing = heard("hst", "finished + 7/8")
    outcomes = {one.reading.way: one.outcome for one in hearing.findings}
    assert hearing.is_question
    assert outcomes["two at a time"] == outcomes["from cut triangles"] == "right"
    assert outcomes["four at a time"] == outcomes["eight at a time"] == "short"


def test_verdicts_follow_the_seam_of_the_workroom():
    scant = Workroom(needle=inches("3/16"), fold=inches("1/64"))
    # plane geometry: a take-up of 13/64 adds (2 + sqrt 2) x 13/64 = 0.6935 to the finished size
    one = only("hst", "finished + 5/8", scant, way="two at a time")
    assert one.examples[0].needed - 1 == pytest.approx((2 + sqrt(2)) * 13 / 64, abs=1e-6)
    assert only("hst", "finished + 3/4", scant, way="two at a time").verdict == "right"
    assert only("hst", "finished + 3/4", way="two at a time").verdict == "short always"


def test_examples_are_told_in_the_sizes_that_the_rule_means():
    one = only("hst", "unfinished + 3/8", way="two at a time", sizes="2 1/2")
    assert (one.examples[0].sizes, one.examples[0].case) == ((Fraction(5, 2),), (Fraction(2),))
    assert (one.true_line.slope, one.true_line.add) == pytest.approx((1, sqrt(2) / 4), abs=1e-6)


@settings(max_examples=30)
@given(
    way=st.sampled_from(["one at a time", "two at a time", "four at a time", "eight at a time"]),
    size=st.integers(8, 96).map(lambda k: Fraction(k, 8)),
    more=st.integers(0, 40).map(lambda k: Fraction(k, 16)),
)
def test_what_is_told_to_come_off_is_what_the_bench_makes(way, size, more):
    one = only("hst", f"finished + {more.numerator}/{more.denominator}", way=way, sizes=f"{size}")
    example = one.examples[0]
    # plane geometry, the take-up s = 1/4: the raw unit from a start S
    raw = {
        "one at a time": lambda start: start,
        "two at a time": lambda start: start - sqrt(2) / 4,
        "four at a time": lambda start: (start - 0.5) / sqrt(2),
        "eight at a time": lambda start: start / 2 - sqrt(2) / 4,
    }[way](float(size + more))
    assert example.made_off == pytest.approx(raw - float(size) - 0.5, abs=1e-6)
    if example.made is not None:
        assert example.made == pytest.approx(raw - 0.5, abs=1e-6)


@settings(max_examples=40)
@given(
    subject=st.sampled_from([s for s in SUBJECTS if s.span]),
    factor=st.sampled_from(["1", "1.41", "1.5", "2", "0.7"]),
    more=st.integers(0, 24),
)
def test_a_crossing_parts_the_sizes_that_are_short_from_those_that_are_not(subject, factor, more):
    name = "height" if subject.name == "geese" else subject.given[0].names[0]
    hearing = hear(subject, f"{factor} x {name} + {more}/8", INCH_WORKROOM)
    for one in hearing.findings:
        assert bool(one.short) == (one.verdict in SHORT)
        assert (one.verdict == "short always") == (one.short == one.looked > 0)
        for size in one.crossings:
            assert one.rule_line is not None
            assert one.true_line is not None
            if subject.sense == "cut" and abs(one.rule_line.slope - one.true_line.slope) > 1e-3:
                assert one.rule_line(size) == pytest.approx(one.true_line(size), abs=2e-3)


UNITS = [
    ("square-in-a-square corners", ("6",), Unit("insquare", ("a", "b"), inches(12), inches(12)), 1),
    ("square-in-a-square centre", ("12",), Unit("insquare", ("a", "b"), inches(12), inches(12)), 0),
    ("half-rectangle triangle", ("3", "4"), Unit("hrt", ("a", "b"), inches(3), inches(4), (), "left"), None),
    ("geese", ("4", "2"), Unit("geese", ("a", "b"), inches(4), inches(2)), None),
    ("hourglass", ("4",), Unit("hourglass", ("a", "b"), inches(4), inches(4)), None),
    ("hst", ("4",), Unit("hst", ("a", "b"), inches(4), inches(4)), None),
]


@pytest.mark.parametrize(("subject", "case", "unit", "start"), UNITS)
def test_what_geometry_needs_is_what_the_ways_of_making_the_unit_start_from(subject, case, unit, start):
    about, methods = subject_named(subject), {m.name: m for m in ways_for(unit, INCH_WORKROOM)}
    exact = tuple(map(Fraction, case))
    for way in about.ways or ("from cut triangles",):
        readings = [r for r in about.readings if r.way in (way, "")]
        needed = [reading.needed(exact, INCH_WORKROOM) for reading in readings]
        sizes = solve(methods[way], unit, INCH_WORKROOM)
        assert needed == pytest.approx(list(sizes if start is None else sizes[start : start + 1]), abs=1e-6)


def test_every_subject_has_examples_in_both_units_and_names_of_its_own():
    names = [name for subject in SUBJECTS for name in (subject.name, *subject.also)]
    assert len(names) == len(set(names))
    for subject in SUBJECTS:
        for room in (INCH_WORKROOM, METRIC_WORKROOM):
            name = next(iter(vocabulary(subject)))
            examples = hear(subject, f"2 x {name}", room).findings[0].examples
            assert len(examples) >= 3


# Reading


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2X + 1", "7"),
        ("2x+1", "7"),
        ("x × 7/8", "21/8"),
        ("half the x plus 7/8", "19/8"),
        ("X x X", "9"),
        ("2X x 3", "18"),
        ("2X (x - 1)", "12"),
        ("x²/2", "9/2"),
        ("1.41 x", "423/100"),
        ("(x + 1)(x - 1)", "8"),
        ("x/2/3", "1/2"),
        ("x / 1 1/2", "2"),
        ("twice x", "6"),
        ("-x + 4", "1"),
        ("2 (x - 1/2)", "5"),
        ("x + 5%", "61/20"),
        ("2½ x", "15/2"),
        ("x + 2.54 cm", "4"),
    ],
)
def test_sums_are_read_as_people_write_them(text, expected):
    assert read_sum(text, ["x"]).figure({"x": Fraction(3)}, Fraction(1)) == Fraction(expected)


WRONG = {
    (
        "hst",
        "finised + 1",
    ): "rule, sign 1: expected a number or a name, got 'finised'. Did you mean finished?",
    ("hst", "finished + "): "rule, sign 12: expected a number or a name, got the end.",
    ("hst", "finished + 1 $"): "rule, sign 14: expected a number, a name or a sign such as +, got '$'.",
    ("hst", "(finished + 1"): "rule, sign 14: expected a closing bracket, got the end.",
    ("hst", "finished 7/8"): "rule, sign 10: expected a sign such as + or x, or the end, got '7/8'.",
    ("hst", "finished / 0"): "rule, sign 10: this divides by nothing.",
    ("hst", "finished + 1/0"): "rule, sign 12: expected a number such as",
    ("hst", "finished + 12345678901"): "rule, sign 12: expected a number of a few digits",
    ("hst", "(" * 20 + "finished"): "rule, sign 13: expected at most 12 brackets within each other",
    ("hst", "finished + " * 40 + "1"): "expected a rule of at most 200 signs, got 441.",
    ("hst", "__import__('os')"): "rule, sign 1: expected a number, a name or a sign such as +, got '_'.",
    ("hst", "4 7/8"): "rule: a rule names the size that it is for, this one is only a number.",
    ("hst", "2,5"): "rule: expected 1 sum for hst, got 2. Write a point, not a comma, in 2.5.",
    ("hst", "4 -> "): "rule: expected a length, got '';",
    ("hst", "4 -> 2 -> 1"): "rule, sign 1: expected pairs such as 4 -> 2 1/2 with commas between,",
    ("hst", "4 -> 0"): "rule: expected sizes above 0, got '0'.",
    ("geese", "4 x 3 -> 5 1/4 & 2 7/8"): "rule: expected a height that is 1/2 of the width. Change a side.",
    ("binding", "quilt / 40"): "rule, sign 1: expected a number or a name, got 'quilt'. Did you mean",
}


@pytest.mark.parametrize(("subject", "rule"), WRONG)
def test_what_cannot_be_read_is_refused_with_its_place(subject, rule):
    with pytest.raises(Refused) as refused:
        heard(subject, rule)
    assert str(refused.value).startswith(WRONG[subject, rule])


def test_words_that_contradict_each_other_are_refused():
    for said, expected in (
        ({"means": "unfinished"}, "rule: the rule says finished, and --means says unfinished."),
        ({"trimmed": False}, "rule: the rule says to trim, and --not-trimmed says not to."),
        ({"way": "six at a time"}, "--way: hst has no way 'six at a time'."),
        ({"sizes": "2 x 3"}, "--for: expected the size, got '2 x 3'."),
        ({"sizes": "-2"}, "--for: expected the size above 0, got '-2'."),
    ):
        with pytest.raises(Refused) as refused:
            heard("hst", "finished + 1, then trim", **said)
        assert str(refused.value).startswith(expected)


def test_an_unknown_subject_is_refused_with_the_likeliest_or_with_all():
    with pytest.raises(Refused) as refused:
        subject_named("seting square")
    assert str(refused.value).endswith("Did you mean setting square?")
    with pytest.raises(Refused) as refused:
        subject_named("tea")
    assert str(refused.value).startswith("subject: no rule is known to be about 'tea'. Known here: hst,")
