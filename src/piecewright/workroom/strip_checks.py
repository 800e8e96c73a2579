"""Whether a strip test can be right; where it cannot, the figure that looks wrong is named."""

from __future__ import annotations

from fractions import Fraction

from piecewright.measure.length import ZERO, Length, Unit, inches, mm
from piecewright.measure.showing import show
from piecewright.problems import Problem
from piecewright.workroom.settings import SETTINGS, LengthSetting
from piecewright.workroom.strip_sums import StripTest, from_two, reading_of
from piecewright.workroom.workroom import Workroom

FEWEST, MOST = 3, 99
HALF, TWICE = Fraction(1, 2), 2  # A take-up outside these shares of what was expected cannot be right.
FIGURES = {
    "across": "the total",
    "inner": "the inner strip",
    "measured": "the cut width as measured",
    "cut": "the cut width",
    "needle": "the needle's distance",
    "strips": "the count of strips",
    "inner_strips": "the count of inner strips",
}


def strip_problems(test: StripTest, workroom: Workroom) -> list[Problem]:
    """What in a test cannot be right; each problem's `where` is the figure: "across", "inner" and so on.

    Each two of total, inner strip and cut width give a take-up. Where they do not agree, the pair whose
    take-up is nearest to the workroom's is believed, and the third figure is named.
    """
    counts = _count_problems(test)
    if counts:
        return counts
    unit, expected, cut_name = workroom.unit, workroom.take_up, _cut_name(test)
    laid = test.width * test.strips
    wrong = []
    if test.across >= laid:
        what = (
            f"the total, {show(test.across, unit)}, is not less than {test.strips} strips of "
            f"{show(test.width, unit)} laid side by side ({show(laid, unit)})"
        )
        wrong.append(Problem(what, "across", _do_total(test, expected, unit)))
    if test.one_inner >= test.width:
        what = f"the inner strip, {show(test.one_inner, unit)}, is as wide as it was cut or wider"
        do = f"Measure it from seam to seam again; about {show(test.width - expected * 2, unit)} is expected."
        wrong.append(Problem(what, "inner", do))
    if wrong:
        return wrong
    pairs = from_two(test)
    left_out = min(pairs, key=lambda figure: abs(float(pairs[figure] - expected)))
    believed = pairs[left_out]
    implied = test.across - test.one_inner * (test.strips - 1)
    plain = all(_fits(take_up, expected) for take_up in (pairs["cut"], believed))
    if abs(float(implied - test.width)) <= _slack(test, unit) and plain:
        return _needle_problems(test, believed if left_out == "cut" else pairs["cut"], workroom)
    if not _fits(believed, expected):
        what = (
            f"the total and the inner strip look wrong: they make the take-up {show(believed, unit)}, "
            f"where about {show(expected, unit)} is expected"
        )
        do = "Measure both again; if you do sew so, set the needle in the workroom first."
        return [Problem(what, "across", do)]
    return [_named(test, left_out, believed, cut_name, workroom)]


def _named(test: StripTest, figure: str, take_up: Length, cut_name: str, workroom: Workroom) -> Problem:
    """The figure that does not go with the other two, and what they lead one to expect."""
    unit, n = workroom.unit, test.strips
    if figure == "across":
        fitting, got = test.width * n - take_up * 2 * (n - 1), test.across
    elif figure == "inner":
        fitting, got = test.width - take_up * 2, test.one_inner
    else:
        fitting, got = test.across - test.one_inner * (n - 1), test.width
        figure = cut_name
    what = (
        f"{FIGURES[figure]} looks wrong: the other figures lead to about {show(fitting, unit)}, "
        f"got {show(got, unit)}"
    )
    do = _do_total(test, take_up, unit) if figure == "across" else "Measure it again."
    return Problem(what, figure, do)


def _do_total(test: StripTest, take_up: Length, unit: Unit) -> str:
    """Measure again; or count again, where another count of strips would fit."""
    each, slack = test.width - take_up * 2, float(_eighth(unit))
    count = round(float((test.across - take_up * 2).exact / each.exact)) if each > ZERO else 0
    fits = abs(float(each * count + take_up * 2 - test.across)) <= slack / 2
    if count != test.strips and count >= FEWEST and fits:
        return f"Count the strips, {count} would fit; or measure it again."
    return "Measure it again, across all strips."


def _count_problems(test: StripTest) -> list[Problem]:
    wrong = []
    if not FEWEST <= test.strips <= MOST:
        what = f"expected from {FEWEST} to {MOST} strips, got {test.strips}"
        wrong.append(Problem(what, "strips", "Seven to nine tell more than three."))
    elif not 1 <= test.inner_strips <= test.strips - 2:
        what = f"of {test.strips} strips {test.strips - 2} are inner ones, got {test.inner_strips}"
        wrong.append(Problem(what, "inner_strips", "The outer two do not count."))
    for figure in ("cut", "measured", "across", "inner", "needle"):
        length = getattr(test, figure)
        if length is not None and length <= ZERO:
            wrong.append(Problem(f"expected {FIGURES[figure]} to be above 0, got {length}", figure))
    return wrong


def _needle_problems(test: StripTest, take_up: Length, workroom: Workroom) -> list[Problem]:
    """The needle's distance is less than the take-up, by what the fold takes."""
    if test.needle is None:
        return []
    most = fold_bounds(workroom.unit)[1]
    slack = reading_of(workroom.unit)
    if -slack <= take_up - test.needle <= most + slack:
        return []
    got, expected = show(test.needle, workroom.unit), show(take_up, workroom.unit)
    what = (
        f"the needle's distance looks wrong: the take-up is {expected} and the fold takes little, got {got}"
    )
    return [Problem(what, "needle", "Measure from the raw edge to the stitching, on the wrong side.")]


def fold_bounds(unit: Unit) -> tuple[Length, Length]:
    """The least and the most that a fold takes."""
    setting = SETTINGS["fold"]
    assert isinstance(setting, LengthSetting)
    return setting.bounds(unit)


def _fits(take_up: Length, expected: Length) -> bool:
    return expected * HALF <= take_up <= expected * TWICE


def _eighth(unit: Unit) -> Length:
    return inches("1/8") if unit == "in" else mm(3)


def _slack(test: StripTest, unit: Unit) -> float:
    """How far the three figures may disagree: an inner strip's own error counts once for each other strip."""
    reading = float(reading_of(unit))
    return max(float(_eighth(unit)), reading * (1 + (test.strips - 1) / test.inner_strips / 2))


def _cut_name(test: StripTest) -> str:
    return "cut" if test.measured is None else "measured"
