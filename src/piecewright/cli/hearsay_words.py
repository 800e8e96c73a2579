"""A rule put to the test, in words and figures, as the command line shows it."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from piecewright.measure.length import Length, Unit
from piecewright.measure.rounding import round_up
from piecewright.measure.showing import figure, show, show_exact
from piecewright.rescue.even_line import EvenLine
from piecewright.rescue.hearsay import Example, Finding, Hearing, group_outcome
from piecewright.rescue.subject import words_for
from piecewright.workroom.workroom import Workroom

SLOPES = 10_000  # Slopes are shown to four places, and rounded up where one works by them.
AS_GOOD_AS = 1e-6


def understood(hearing: Hearing, one: Finding, unit: Unit) -> str:
    """What the rule is taken to say: `the squares = unfinished size / 0.64`."""
    rule, reading = hearing.rule, one.reading
    way = f"{reading.way}: " if reading.way else ""
    if rule.pairs:
        meant = f" {one.meaning}" if one.meaning else ""
        return f"{way}printed sizes, {reading.part} for each{meant} {size_words(hearing)}"
    words = words_for(hearing.subject, reading.own, one.meaning)
    part = min(_number(hearing, one), len(rule.sums) - 1)
    said = rule.sums[part].said(words)
    said = f"{said}, in {'yards' if unit == 'in' else 'metres'}" if rule.times != 1 else said
    if rule.rounded:
        step = show(Length(rule.rounded.step / rule.inch), unit)
        how = {"nearest": "to the nearest", "up": "up to the next", "down": "down to the last"}
        said = f"{said}, rounded {how[rule.rounded.how]} {step}"
    trim = ", then trimmed" if rule.trims else ""
    return f"{way}{reading.part} = {said}{trim}"


def verdict_words(hearing: Hearing, one: Finding, room: Workroom) -> str:
    """The verdict in a sentence, with its figure: `short below 3.372 in (unfinished): ...`."""
    unit, worst = room.unit, one.worst
    by = _by(hearing, worst, unit)
    if one.outcome == "short":
        return f"{short_where_words(hearing, one, unit)}: {_short_by(hearing, one, room)}"
    trims = hearing.trimmed
    if one.verdict == "right, then trim":
        if_not = "" if trims else "; if nothing is trimmed off, it is too large by that much"
        return f"right, then trim: {by} over{if_not}"
    if one.verdict == "over, but too little to trim":
        return f"over by {by}: too little to trim well, too much to ease in"
    if one.verdict == "generous":
        return f"generous: up to {by} over"
    if one.verdict == "too large":
        if one.reading.exact:
            unless = ", unless all its pieces are larger and it is trimmed" if one.reading.may_trim else ""
            return f"too large: {by} over, and the seam would lie in the wrong place{unless}"
        untrimmed = " unless it is trimmed" if trims is False else ""
        return f"too large: {by} over{untrimmed}"
    return f"right{_right_by(hearing, one, room)}"


def _right_by(hearing: Hearing, one: Finding, room: Workroom) -> str:
    off = one.worst.made_off
    by = _by(hearing, one.worst, room.unit)
    if all(example.standing == "right" for example in one.examples) and hearing.subject.sense != "measure":
        return ": exactly what is needed"
    if abs(off) < AS_GOOD_AS:
        return ": what is needed"
    if hearing.subject.sense == "measure":
        return f": to {by} in these sizes"
    if hearing.subject.sense == "promise":
        return f": no more is promised than comes off; up to {by} more does"
    if hearing.subject.sense == "least":
        return f": up to {by} over; {hearing.subject.over}"
    return f": up to {by} over, which is eased in{'; there is nothing to trim' if hearing.trimmed else ''}"


def short_where_words(hearing: Hearing, one: Finding, unit: Unit) -> str:
    """Where a rule is short: `short below 3.372 in (unfinished)`."""
    meant = f" ({one.meaning})" if one.meaning else ""
    at = [show_near(size, unit) for size in one.crossings]
    if one.verdict == "short between":
        return f"short between {at[0]} and {at[1]}{meant}"
    if at:
        return f"{one.verdict} {at[0]}{meant}"
    if one.verdict == "short always":
        return "short always" if one.looked > 1 else "short"
    looked = f"short at {one.short} of {one.looked} sizes"
    return f"{looked}, first at {show_near(one.first_short, unit)}{meant}" if one.first_short else looked


def _short_by(hearing: Hearing, one: Finding, room: Workroom) -> str:
    """By how much, and whether so little can be eased in."""
    short = [example.made_off for example in one.examples if example.standing == "short"]
    if not short:
        return "none of these sizes is"
    is_same = max(short) - min(short) < AS_GOOD_AS
    by = f"by {'' if is_same else 'up to '}{_by(hearing, one.worst, room.unit)}"
    subject = hearing.subject
    is_piece = subject.sense in ("cut", "least") and not subject.is_count and not subject.is_bought
    if is_piece and min(short) >= -float(room.ease):
        return f"{by}; so little can be eased in, but nothing is left to true up, and along a row it adds up"
    return by


def _by(hearing: Hearing, example: Example, unit: Unit) -> str:
    if hearing.subject.is_count:
        return f"{abs(example.off):.0f}"
    at_cloth, at_unit = show_exact(abs(example.off), unit), show_exact(abs(example.made_off), unit)
    return at_cloth if at_cloth == at_unit else f"{at_unit} at the unit ({at_cloth} at the cloth)"


def size_words(hearing: Hearing) -> str:
    """What the sizes of a case are: `size`, `width x height`."""
    return " x ".join(quantity.says.removeprefix("the ") for quantity in hearing.subject.given)


def show_near(size: float | None, unit: Unit) -> str:
    """A size (inches) with three figures behind the point: `3.372 in`; exact where it is on a mark."""
    assert size is not None
    shown = figure(Length(Fraction(size).limit_denominator(SLOPES)), unit)
    if not shown.startswith(("about", "under")):
        return f"{shown} {unit}"
    return f"{float(show_exact(size, unit).split()[0]):.3f} {unit}"


def _number(hearing: Hearing, one: Finding) -> int:
    """The number of the sum that is for a finding's piece."""
    same = [other for other in hearing.subject.readings if other.way == one.reading.way]
    return next(k for k, other in enumerate(same) if other is one.reading)


def true_words(hearing: Hearing, one: Finding, room: Workroom) -> str:
    """The true rule, exact and as one would print it; empty where it is no plain sum of the size."""
    line = one.true_line
    if line is None:
        return ""
    words = words_for(hearing.subject, one.reading.own, one.meaning)
    size = words["size"]
    exact = _sum_words(size, f"{line.slope:.4f}".rstrip("0").rstrip("."), line.add, room.unit, exact=True)
    if hearing.subject.sense == "measure":
        return exact
    steps = line.slope * SLOPES
    slope = f"{ceil(steps - AS_GOOD_AS) / SLOPES:.4f}".rstrip("0").rstrip(".")
    marked = round_up(line.add, room.ruler) if line.add > 0 else Length(Fraction(0))
    printed = _sum_words(size, slope, float(marked), room.unit, exact=False)
    whole = abs(line.slope - round(line.slope)) < AS_GOOD_AS
    up = "" if whole else f", rounded up to the next {show(room.ruler.mark, room.unit)}"
    return f"{exact}; to print: {printed}{up}"


def _sum_words(size: str, slope: str, add: float, unit: Unit, exact: bool) -> str:
    times = size if slope == "1" else f"{slope} x {size}"
    if abs(add) < AS_GOOD_AS:
        return times
    shown = show_exact(add, unit) if exact else show(Length(Fraction(add).limit_denominator(SLOPES)), unit)
    return f"{times} + {shown}"


def why_words(hearing: Hearing, one: Finding, unit: Unit) -> str:
    """The reason, in plain words: what the rule does against what is needed, then why that is so."""
    rule, true = one.rule_line, one.true_line
    compared = _compared(rule, true, unit) if rule and true and one.outcome == "short" else ""
    return f"{compared}{one.reading.why}".strip()


def _compared(rule: EvenLine, true: EvenLine, unit: Unit) -> str:
    more, less = rule.slope - true.slope, rule.add - true.add
    if abs(more) < AS_GOOD_AS:
        return f"It adds {show_exact(rule.add, unit)}, and {show_exact(true.add, unit)} is needed. "
    if more > 0 > less:
        return (
            "It takes the seam as a share of the size, but the seam takes as much from a small one as "
            "from a large one. "
        )
    grows = f"It grows by {rule.slope:.4f} for each 1 of the size, and {true.slope:.4f} is needed"
    return f"{grows}: it falls behind as the size grows. "


def do_words(hearing: Hearing, one: Finding) -> str:
    """What to do, a sentence."""
    subject = hearing.subject
    if one.outcome == "right":
        if one.verdict == "right":
            return "Use it as it stands."
        trim = "Sew, press, then true up to the unfinished size."
        if one.verdict == "over, but too little to trim":
            return "Cut what stands in the last column, or so much more that it can be trimmed well."
        return trim if subject.sense == "cut" else "It serves; what stands in the last column is enough."
    if subject.sense == "promise":
        return "Count on the true figure only, and buy or cut for what is missing."
    if subject.is_count or subject.sense == "measure" or not any(e.cut for e in one.examples):
        return "Take the true figure."
    if subject.is_bought:
        return "Buy what stands in the last column instead, and what straightening takes besides."
    return "Cut what stands in the last column instead: the true figure on the next mark of your ruler."


def together_words(hearing: Hearing) -> list[str]:
    """Where pieces of one way belong together and do not end alike: what that makes of the whole."""
    lines = []
    for group in hearing.groups:
        if len({one.outcome for one in group}) > 1:
            wrong = [one.reading.part for one in group if one.outcome == group_outcome(group)]
            way = f"{group[0].reading.way}: " if group[0].reading.way else ""
            meant = f" ({group[0].meaning})" if group[0].meaning else ""
            lines.append(f"{way}all in all {group_outcome(group)}{meant}, for {' and '.join(wrong)}")
    return lines


def question_words(hearing: Hearing) -> list[str]:
    """What must be said to get one answer: the readings that are right, and those that are not."""
    told: dict[str, list[str]] = {}
    for group in hearing.groups:
        first = group[0]
        # One piece among several is named; where the rule is for all of a way's pieces, the way is.
        parts = {one.reading.part for one in hearing.findings if one.reading.way == first.reading.way}
        piece = first.reading.part if len(group) == 1 and len(parts) > 1 else ""
        meant = f"{first.meaning} sizes" if first.meaning else ""
        words = ", ".join(word for word in (first.reading.way, piece, meant) if word)
        outcome = group_outcome(group)
        verdicts = {one.verdict for one in group}
        verdict = outcome if outcome != "right" or len(verdicts) > 1 else verdicts.pop()
        told.setdefault(verdict, []).append(words)
    ways = {one.reading.way for one in hearing.findings}
    meanings = {one.meaning for one in hearing.findings}
    say = [option for option, many in (("--way", ways), ("--means", meanings)) if len(many) > 1]
    how = f" Say {' and '.join(say)}." if say else " Name the piece in the rule."
    lines = [f"Which is meant?{how}"]
    order = sorted(told, key=lambda verdict: (not verdict.startswith("right"), verdict == "short"))
    return [*lines, *(f"- {verdict} for: {'; '.join(dict.fromkeys(told[verdict]))}" for verdict in order)]
