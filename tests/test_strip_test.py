"""The strip test: cutting error and seam error come apart, and a figure that cannot be right is named.

Expected figures: with n strips of width w and a take-up t, the total is n w - 2(n - 1)t, an inner strip
w - 2t.
"""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import msgspec
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.measure.length import Length, inches, mm
from piecewright.problems import Refused
from piecewright.workroom.own_seam import OwnSeam, marked, own_seam, row_of_squares
from piecewright.workroom.strip_checks import strip_problems
from piecewright.workroom.strip_file import add_strip_test, read_strip_tests
from piecewright.workroom.strip_sums import StripTest, from_two, reading_of, seam_found
from piecewright.workroom.workroom import METRIC_WORKROOM, Workroom

ROOM = Workroom()
THREE = StripTest(3, inches("1 1/2"), inches("3 1/2"), inches(1))


def sewn(strips: int, width: Length, take_up: Length, inner_strips: int = 1) -> StripTest:
    """What a ruler finds on strips that were meant to be 1 1/2 in wide."""
    across = width * strips - take_up * (2 * (strips - 1))
    return StripTest(strips, inches("1 1/2"), across, (width - take_up * 2) * inner_strips, inner_strips)


def named(test: StripTest) -> list[str]:
    return [problem.where for problem in strip_problems(test, ROOM)]


def test_three_strips_of_one_and_a_half_show_one_inch_and_measure_three_and_a_half_at_a_quarter_inch():
    # published: quiltcentric.com 2012/09/16 (trade-checks.csv, strip_test)
    seam = own_seam([THREE], ROOM)
    assert (seam.take_up, seam.cut_off) == (inches("1/4"), inches(0))


def test_of_three_strips_the_width_is_the_total_less_two_inner_ones_and_the_take_up_half_of_what_three_lack():
    # exact: w = T - 2C = 3 7/16 - 2, t = (T - 3C)/2
    found = seam_found(replace(THREE, across=inches("3 7/16")), "in")
    assert (found.width, found.take_up) == (inches("1 7/16"), inches("7/32"))


@given(
    st.integers(3, 15),
    st.integers(-4, 4).map(lambda n: inches("1 1/2") + inches("1/64") * n),
    st.integers(10, 24).map(lambda n: inches("1/64") * n),
    st.data(),
)
def test_any_number_of_strips_gives_back_the_width_and_the_take_up_it_was_sewn_with(n, width, take_up, data):
    k = data.draw(st.integers(1, n - 2))
    test = sewn(n, width, take_up, k)
    for known in (test, replace(test, measured=width)):
        found = seam_found(known, "in")
        assert (found.width, found.take_up) == (width, take_up)
    assert set(from_two(replace(test, measured=width)).values()) == {take_up}


def test_strips_cut_too_narrow_are_not_taken_for_a_wide_seam():
    seam = own_seam([sewn(3, inches("1 7/16"), inches("1/4"))], ROOM)
    assert seam.take_up == inches("1/4")
    assert seam.cut_off == -inches("1/16")
    row = row_of_squares(seam, ROOM)
    # six squares of 2 1/2 in: the seams as planned, each square 1/16 in narrower
    assert (row.planned, row.sewn, row.cut_and_sewn) == (inches("12 1/2"), inches("12 1/2"), inches("12 1/8"))


def test_more_strips_and_all_inner_ones_measured_together_leave_less_doubt():
    three = seam_found(sewn(3, inches("1 1/2"), inches("1/4")), "in").doubt
    nine = seam_found(sewn(9, inches("1 1/2"), inches("1/4"), 7), "in").doubt
    alone = seam_found(sewn(9, inches("1 1/2"), inches("1/4")), "in").doubt
    # JCGM 100:2008, 5.1.2 and 4.3.7: u = (1/32)/sqrt(12); of three, t = T/2 - 3C/2
    assert three == pytest.approx(1 / 32 / 12**0.5 * (1 + 9) ** 0.5 / 2)
    assert nine < three < alone


def test_the_figures_of_many_strips_are_balanced_where_the_cut_width_was_measured():
    """Least squares, solved here with NumPy: the readings T, C, w follow (w, t) linearly."""
    test = replace(sewn(9, inches("1 1/2"), inches("1/4")), across=inches("9 7/16"), measured=inches("1 1/2"))
    follows = np.array([[9, -16], [1, -2], [1, 0]])
    (width, take_up), *_ = np.linalg.lstsq(follows, np.array([9.4375, 1.0, 1.5]), rcond=None)
    found = seam_found(test, "in")
    assert (float(found.width), float(found.take_up)) == pytest.approx((width, take_up))
    weights = np.linalg.pinv(follows)[1]
    assert found.doubt == pytest.approx(1 / 32 / 12**0.5 * np.hypot.reduce(weights))


@pytest.mark.parametrize(
    ("n", "k", "measured"), [(3, 1, False), (9, 1, False), (9, 7, False), (7, 1, True), (9, 4, True)]
)
def test_the_spread_of_single_seams_is_found_from_that_of_whole_tests(n, k, measured):
    """Monte Carlo: seams drawn one by one with a spread of 1, strips cut alike."""
    rng = np.random.default_rng(7)
    seams = rng.standard_normal((20_000, n - 1))
    first = 1
    total = -2 * seams.sum(axis=1)
    inner = -sum(seams[:, j] + seams[:, j - 1] for j in range(first, first + k))
    test = sewn(n, inches("1 1/2"), inches("1/4"), k)
    test = replace(test, measured=inches("1 1/2")) if measured else test
    base = seam_found(test, "in")
    by_total = seam_found(replace(test, across=test.across + inches("1/64")), "in").take_up - base.take_up
    by_inner = seam_found(replace(test, inner=test.inner + inches("1/64")), "in").take_up - base.take_up
    found = 64 * (float(by_total) * total + float(by_inner) * inner)
    assert base.seam_share == pytest.approx(found.std(), rel=0.02)  # four times 1/sqrt(2 x 20,000)


def test_several_tests_give_a_mean_a_deviation_and_the_spread_of_single_seams():
    tests = [sewn(3, inches("1 1/2"), take_up) for take_up in map(inches, ("15/64", "1/4", "17/64"))]
    seam = own_seam(tests, ROOM)
    assert seam.take_up == inches("1/4")
    assert seam.deviation == pytest.approx(1 / 64)
    # of three strips a test shows the mean of two seams: single ones vary by sqrt(2) more
    assert seam.spread == pytest.approx(2**0.5 / 64)
    assert seam.doubt == pytest.approx(own_seam(tests[:1], ROOM).doubt / 3**0.5)


def test_no_spread_is_less_than_the_ruler_can_show():
    alike = own_seam([THREE] * 4, ROOM)
    assert alike.deviation == 0.0
    assert alike.spread == own_seam([THREE], ROOM).spread == pytest.approx(1 / 32 / 12**0.5)


def test_needle_and_fold_are_told_apart_by_the_needles_distance_and_else_the_fold_is_the_workrooms():
    seam = own_seam([replace(THREE, needle=inches("7/32"))], ROOM)
    assert (seam.needle, seam.fold, seam.split_known) == (inches("7/32"), inches("1/32"), True)
    seam = own_seam([THREE], ROOM)
    assert (seam.needle, seam.fold, seam.split_known) == (inches("15/64"), ROOM.fold, False)
    # a needle read a hair beyond the take-up: the fold takes nothing, the take-up stays
    seam = own_seam([replace(THREE, needle=inches("17/64"))], ROOM)
    assert (seam.needle, seam.fold) == (inches("1/4"), inches(0))


CANNOT_BE_RIGHT = {
    "more than the strips laid side by side": (replace(THREE, across=inches("4 5/8")), ["across"]),
    "one strip too many in the total": (replace(THREE, across=inches("4 1/2")), ["across"]),
    "a total too large": (replace(THREE, across=inches("3 3/4")), ["across"]),
    "a total too small": (replace(THREE, across=inches("3 1/8")), ["across"]),
    "an inner strip wider than cut": (replace(THREE, inner=inches("1 5/8")), ["inner"]),
    "an inner strip too wide": (replace(THREE, inner=inches("1 1/4")), ["inner"]),
    "an inner strip too narrow": (replace(THREE, inner=inches("3/4")), ["inner"]),
    "both too large": (replace(THREE, across=inches(5), inner=inches(2)), ["across", "inner"]),
    "another cut width": (replace(THREE, cut=inches(2)), ["cut"]),
    "another measured width": (replace(THREE, measured=inches("1 3/4")), ["measured"]),
    "a needle beyond the seam": (replace(THREE, needle=inches("1/2")), ["needle"]),
    "a fold that takes more than any": (replace(THREE, needle=inches("1/16")), ["needle"]),
    "two strips": (replace(THREE, strips=2), ["strips"]),
    "more inner strips than there are": (replace(THREE, inner_strips=2), ["inner_strips"]),
    "no inner strip": (replace(THREE, inner_strips=0), ["inner_strips"]),
    "nothing across": (replace(THREE, across=inches(0)), ["across"]),
    "nothing measured, no needle": (
        replace(THREE, measured=inches(0), needle=inches(0)),
        ["measured", "needle"],
    ),
}


@pytest.mark.parametrize("why", CANNOT_BE_RIGHT)
def test_a_test_that_cannot_be_right_names_its_figure(why):
    test, figures = CANNOT_BE_RIGHT[why]
    assert named(test) == figures
    with pytest.raises(Refused):
        own_seam([THREE, test], ROOM)


def test_the_sentence_says_what_the_other_figures_lead_to_and_what_to_do():
    (problem,) = strip_problems(replace(THREE, inner=inches("1 1/4")), ROOM)
    assert problem.what == "the inner strip looks wrong: the other figures lead to about 1 in, got 1 1/4 in"
    (problem,) = strip_problems(replace(THREE, across=inches("4 1/2")), ROOM)
    assert problem.do == "Count the strips, 4 would fit; or measure it again."


@given(st.sampled_from([(3, 1), (7, 5), (9, 7)]), st.integers(-3, 3), st.integers(-1, 1), st.data())
def test_honest_readings_to_the_thirty_second_are_never_refused(shape, seam_off, cut_off, data):
    n, k = shape
    take_up = inches("1/4") + inches("1/64") * seam_off
    test = sewn(n, inches("1 1/2") + inches("1/32") * cut_off, take_up, k)
    half = inches("1/64")
    read = [data.draw(st.sampled_from([-half, inches(0), half])) for _ in range(2)]
    assert named(replace(test, across=test.across + read[0], inner=test.inner + read[1])) == []


def test_seams_that_are_planned_wide_are_expected_wide():
    wide = sewn(5, inches(3), inches("1/2"))
    test = replace(wide, cut=inches(3))
    room = msgspec.structs.replace(ROOM, needle=inches("31/64"))
    assert own_seam([test], room).take_up == inches("1/2")
    quarter = sewn(5, inches(3), inches("1/8"))
    assert strip_problems(replace(quarter, cut=inches(3)), room) != []


def test_metric_strips_are_read_in_millimetres():
    seam = own_seam([StripTest(3, mm(40), mm(90), mm(25))], METRIC_WORKROOM)
    assert seam.take_up == mm("7.5")
    assert seam.needle == mm(7)
    assert seam.spread == pytest.approx(float(mm("0.5")) / 12**0.5)
    assert marked(mm(Fraction(22, 3)), "cm") == mm("7.3")


def test_only_what_is_beyond_doubt_is_more_than_planned():
    off: OwnSeam = own_seam([sewn(3, inches("1 1/2"), inches("9/32"))], ROOM)
    assert off.more_than(ROOM.take_up) == inches("1/32")
    assert own_seam([sewn(3, inches("1 1/2"), inches("17/64"))], ROOM).more_than(ROOM.take_up) == inches(0)


def test_tests_are_written_one_behind_the_other_and_read_back_with_remarks_kept(tmp_path: Path):
    path = tmp_path / "tests.toml"
    more = replace(
        sewn(7, inches("1 1/2"), inches("1/4"), 5), needle=inches("15/64"), measured=inches("1 1/2")
    )
    add_strip_test(path, THREE, "in")
    path.write_text(path.read_text("utf-8") + "# with the walking foot\n", "utf-8")
    add_strip_test(path, more, "in")
    read = read_strip_tests(path, ROOM)
    assert read.tests == (THREE, more)
    assert "# with the walking foot" in path.read_text("utf-8")
    assert path.read_text("utf-8").count("inner_strips") == 1  # one alone need not be said
    metric = tmp_path / "metric.toml"
    add_strip_test(metric, StripTest(3, mm(40), mm(90), mm(25)), "cm")
    assert read_strip_tests(metric, ROOM).unit == "cm"
    assert read_strip_tests(metric, ROOM).tests[0].across == mm(90)


WRONG_FILES = {
    'unit = "in"\n[[test]]\nstrips = 3\ncut = "1 1/2"\nacross = "3 1/2"\ninner = "1 1/4"': (
        "t.toml:6: the inner strip looks wrong"
    ),
    "[[test]]\nstrips = 3\ncut = 1.5\nacross = 3.5": "t.toml:1: expected the inner strip, got none",
    "[[test]]\nstrips = 3.0\ncut = 1.5\nacross = 3.5\ninner = 1": "t.toml:2: expected the count of strips",
    "[[test]]\nstrip = 3": "t.toml:2: 'strip' is no figure of a strip test. Did you mean strips?",
    "[[test]]\nstrips = 3\ncut = 'wide'\nacross = 3.5\ninner = 1": "t.toml:3: expected a length",
    "[tests]": "t.toml:1: 'tests' is not read here. Did you mean test?",
    "test = 3": "t.toml:1: expected tests as tables",
    "": "t.toml:1: expected at least one test",
    "unit = 'ell'": 't.toml:1: expected unit = "in" or unit = "cm"',
}


@pytest.mark.parametrize("text", WRONG_FILES)
def test_a_wrong_file_names_the_line(text, tmp_path: Path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("t.toml").write_text(text, "utf-8")
    with pytest.raises(Refused) as refused:
        read_strip_tests("t.toml", ROOM)
    assert WRONG_FILES[text] in str(refused.value)


def test_the_steps_of_doubt_are_those_of_the_unit():
    assert [reading_of("in"), reading_of("cm")] == [inches("1/32"), mm("0.5")]
    for one, two in pairwise([3, 5, 7, 9]):
        fewer = seam_found(sewn(one, inches("1 1/2"), inches("1/4"), one - 2), "in").doubt
        assert seam_found(sewn(two, inches("1 1/2"), inches("1/4"), two - 2), "in").doubt < fewer
