"""The sheet's words on the rest of finishing: sizes, back, batting, edge, thread, time, cost, weight."""

from __future__ import annotations

from piecewright.finishing.backing import Backing
from piecewright.finishing.backing_leftovers import LeftoverBack
from piecewright.finishing.edges import Edge
from piecewright.finishing.figures import about_size, run_words, share_words, size_words
from piecewright.finishing.finished import Finished
from piecewright.finishing.hanging import Label, Sleeve
from piecewright.finishing.shrinking import drawn_in_between
from piecewright.finishing.thread import stitches_per
from piecewright.finishing.weight import weight_words
from piecewright.handout.sheet import ExpectedSize, Part
from piecewright.measure.length import ZERO, Length, Unit
from piecewright.measure.showing import figure, show

MOST_WAYS = 3
"""So many other ways are told, beside the best."""
WORTH_TELLING = 0.05
"""Sewing that takes a smaller share of the thread stands in the sums alone."""


def finishing_more(finished: Finished) -> tuple[Part, ...]:
    """All that a job sheet can say of the finishing beyond layering, in the order of the work."""
    unit, parts = finished.unit, finished.parts
    return (
        _sizes(finished),
        _backing(parts.backs, unit),
        *([_leftovers(parts.from_leftovers, unit)] if parts.from_leftovers else []),
        _batting(finished),
        _edge(parts.edge, unit),
        *([_sleeve(parts.sleeve, unit)] if parts.sleeve else []),
        *([_label(parts.label, unit)] if parts.label else []),
        _thread(finished),
        _minutes(finished),
        _cost(finished),
        _weight(finished),
    )


def _sizes(finished: Finished) -> Part:
    sizes, unit = finished.sizes, finished.unit
    little, much = drawn_in_between(sizes.pieced)
    between = f"{about_size(little.quilted, unit)} to {about_size(much.quilted, unit)}"
    quilted = f"Quilting draws a top in: this one to {between}; the more, the denser the quilting."
    return Part(
        name="Three sizes",
        says=(quilted,),
        sizes=(
            ExpectedSize(what="pieced", size=size_words(sizes.pieced, unit)),
            ExpectedSize(what="quilted", size=about_size(sizes.quilted, unit)),
            ExpectedSize(what="washed", size=about_size(sizes.washed, unit)),
        ),
        sums=sizes.sum_lines(unit),
    )


def _backing(backs: tuple[Backing, ...], unit: Unit) -> Part:
    best = backs[0]
    others = [way for way in backs[1:] if way.seams or best.seams or way.length != best.length][:MOST_WAYS]
    says = [f"Cut {_panels(best, unit)}.", *_seams(best, unit)]
    says += [f"Or {_panels(other, unit)}." for other in others]
    return Part(
        name="Backing: how it is joined",
        says=tuple(says),
        sizes=(ExpectedSize(what="at least", size=size_words(best.least, unit)),),
        sums=best.sum_lines(unit),
    )


def _panels(back: Backing, unit: Unit) -> str:
    """What to cut: `2 lengths 63 in of backing, panels across: 40 and 32 1/2 in wide, 1 seam`."""
    lengths = "length" if back.lengths == 1 else "lengths"
    cut = f"{back.lengths} {lengths} {show(back.length, unit)} of {back.cloth_used.name}"
    if not back.seams:
        way = "from top to bottom" if back.running == "up" else "from side to side"
        return f"{cut}, running {way}, with no seam"
    widths = " and ".join(
        ([", ".join(figure(width, unit) for width in back.widths[:-1])] if back.widths[:-1] else [])
        + [show(back.widths[-1], unit)]
    )
    return f"{cut}, panels {back.running}: {widths} wide, {_count(back.seams, 'seam')}"


def _seams(back: Backing, unit: Unit) -> list[str]:
    """Where the seams of a back lie."""
    if not back.seams:
        return []
    sides = ("left of", "right of") if back.running == "up" else ("below", "above")
    places = [_place(place, sides, unit) for place in back.seam_places]
    return [f"The {'seam lies' if back.seams == 1 else 'seams lie'} {'; '.join(places)}; press open."]


def _place(place: Length, sides: tuple[str, str], unit: Unit) -> str:
    if place == ZERO:
        return "in the middle"
    if place < ZERO:
        return f"{show(-place, unit)} {sides[0]} the middle"
    return f"{show(place, unit)} {sides[1]} the middle"


def _leftovers(back: LeftoverBack, unit: Unit) -> Part:
    if not back.rows:
        says = ["No row of leftovers reaches over the back: all of it is to be cut from other cloth."]
    else:
        says = [
            f"Join each row of leftovers, trim it to its height, then join {_count(len(back.rows), 'row')}; "
            "press the seams open."
        ]
        if back.lacking:
            says.append(f"Lacking below them: one piece {size_words(back.lacking, unit)} of other cloth.")
    return Part(name="Backing from leftovers", says=tuple(says), sums=back.sum_lines(unit))


def _batting(finished: Finished) -> Part:
    best, unit = finished.parts.batting, finished.unit
    others = finished.parts.battings[1 : 1 + MOST_WAYS]
    joined = (
        [f"Lay the edges together and join them with {_count(best.joins, 'butted join')}."]
        if best.joins
        else []
    )
    return Part(
        name="Batting: what to ask for",
        says=(f"{_capital(best.told(unit))}.", *joined, *(f"Or {other.told(unit)}." for other in others)),
        sums=best.sum_lines(unit),
    )


def _edge(edge: Edge, unit: Unit) -> Part:
    says = [f"It takes {show(edge.cloth, unit)} of cloth and has {_count(edge.joins, 'join')}."]
    if edge.width:
        finished = show(edge.width.finished, unit)
        says.append(f"Cut {show(edge.width.cut, unit)} wide it shows {finished} on either side.")
    if edge.length:
        corners = _count(edge.length.turns, "corner")
        says.append(f"Fold it at {corners}: a fold takes nothing of its length.")
    return Part(name=f"Edge: {edge.kind}", says=tuple(says), sums=edge.sum_lines(unit))


def _sleeve(sleeve: Sleeve, unit: Unit) -> Part:
    return Part(
        name="Hanging sleeve",
        steps=(
            f"Cut a strip {show(sleeve.height, unit)} high and {show(sleeve.length, unit)} long "
            f"({_count(sleeve.strips.joins, 'join')}); hem both ends until it is "
            f"{show(sleeve.inset * 2, unit)} shorter.",
            "Sew it into a tube, wrong sides together, and press the seam open to the inside.",
            "Sew it below the upper edge by hand, with a little fullness at the front for the rod.",
        ),
        sizes=(ExpectedSize(what="depth, lying flat", size=show(sleeve.depth, unit)),),
        sums=sleeve.sum_lines(unit),
    )


def _label(label: Label, unit: Unit) -> Part:
    cut = size_words(label.cut, unit)
    step = f"Cut the label {cut}, turn in a seam all round, and write name, place and year on it first."
    return Part(name="Label", steps=(step,), sums=label.sum_lines(unit))


def _thread(finished: Finished) -> Part:
    need, unit = finished.thread, finished.unit
    uses = [
        f"{_capital(use.what)}: {run_words(use.thread, unit)} ({_count(need.spools_for(use), 'spool')} if "
        f"it has its own thread), stitches {stitches_per(use.stitch, unit)}."
        for use in need.uses
        if use.thread >= need.sewn_in * WORTH_TELLING
    ]
    whole = (
        f"{_capital(run_words(need.needed, unit))} in all, with {share_words(need.wishes.tails)} for tails: "
    )
    whole += f"{_count(need.spools, 'spool')} where one thread serves; wind {_count(need.bobbins, 'bobbin')}."
    return Part(name="Thread", says=(whole, *uses), sums=need.sum_lines(unit))


def _minutes(finished: Finished) -> Part:
    stations = "; ".join(f"{one.name} {_time(one.minutes)}" for one in finished.minutes.stations)
    sums = tuple(line for station in finished.minutes.stations for line in station.sums)
    whole = f"At your own pace about {_time(finished.minutes.all)} in all, without rests."
    return Part(name="Time", says=(whole, f"{_capital(stations)}."), sums=sums)


def _time(minutes: float) -> str:
    """Minutes as people say them: `40 minutes`, `10 1/2 hours`."""
    if minutes < 90:
        return _count(max(1, round(minutes)), "minute")
    halves = round(minutes / 30)
    return f"{halves // 2}{' 1/2' if halves % 2 else ''} hours"


def _cost(finished: Finished) -> Part:
    cost = finished.cost
    *lines, whole = cost.sum_lines()
    priced = [line for line, told in zip(lines, cost.lines, strict=True) if told.cost is not None]
    says = (
        (f"{_capital(whole)}.",)
        if priced
        else ("No price is known yet: write them where the cloth is named.",)
    )
    return Part(name="Cost", says=says, sums=tuple(lines) if priced else ())


def _weight(finished: Finished) -> Part:
    told = weight_words(finished.weight.grams, finished.unit)
    return Part(
        name="Weight",
        says=(f"The finished quilt weighs {told}, as far as usual cloth and batting go.",),
        sums=finished.weight.sum_lines(finished.unit),
    )


def _count(count: int, what: str) -> str:
    return f"no {what}" if not count else f"{count} {what}" + ("" if count == 1 else "s")


def _capital(text: str) -> str:
    return text[0].upper() + text[1:]
