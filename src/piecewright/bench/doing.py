"""How each step changes the table: one pure function for each kind of step."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import singledispatch

from piecewright.bench.cloth import Cloth, Face, SeamSize, piece, shifted
from piecewright.bench.cutting_out import cut_out
from piecewright.bench.ends import joined_ends
from piecewright.bench.iron import pressed
from piecewright.bench.joining import (
    Joining,
    Meet,
    close,
    join,
    meetings_closed,
    meetings_of,
    nests,
    tallied,
)
from piecewright.bench.piles import Pile
from piecewright.bench.stacking import slice_apart, stack
from piecewright.bench.steps import (
    AnyStep,
    Close,
    CutApart,
    CutOut,
    CutStrips,
    Gather,
    Join,
    JoinEnds,
    PartSewn,
    Press,
    Ruled,
    Section,
    Size,
    Stack,
    Subcut,
    TrueUp,
)
from piecewright.bench.stretches import Stretch
from piecewright.bench.truing import Allowed, true_up
from piecewright.geometry.point import distance
from piecewright.geometry.polygon import Line, area, bounds, rectangle
from piecewright.measure.length import ZERO, Length
from piecewright.measure.tolerance import AS_DRAWN, WELD
from piecewright.problems import Problem, Refused

QUARTER = 90.0  # In a piece that was cut on its side, the grain lies a quarter turn from where it ran.


@dataclass(frozen=True)
class Rules:
    """What holds for the whole plan: the seam, what truing may do, cloth widths, one-way prints."""

    seam: SeamSize
    allowed: Allowed
    widths: Mapping[str, Length]
    one_way: frozenset[str]


@dataclass(frozen=True)
class Table:
    """What lies on the table: piles, uncut cloth, offcuts and cloth started (square inches, by fabric)."""

    piles: Mapping[str, Pile]
    cloth_left: Mapping[str, Length]
    offcuts: Mapping[str, float]
    starts: Mapping[str, float]

    def with_pile(self, name: str, pile: Pile, starts: Mapping[str, float] | None = None) -> Table:
        """The table with one pile changed."""
        return replace(self, piles={**self.piles, name: pile}, starts=starts or self.starts)

    def take(self, name: str, count: int) -> Table:
        """The table with things taken from a pile."""
        return self.with_pile(name, self.piles.get(name, Pile()).take(name, count))

    def put(self, name: str, cloth: Cloth, count: int, rules: Rules) -> Table:
        """The table with things put on a pile."""
        return self.with_pile(name, self.piles.get(name, Pile()).put(cloth, count, rules.one_way))

    def drop(self, fabric: str, square_inches: float) -> Table:
        """The table with more offcuts of a fabric."""
        return replace(self, offcuts={**self.offcuts, fabric: self.offcuts.get(fabric, 0.0) + square_inches})

    def only(self, name: str) -> Cloth:
        """The cloth that a pile is made of."""
        return self.piles.get(name, Pile()).only(name)


@singledispatch
def done(step: AnyStep, table: Table, rules: Rules) -> Table:
    """The table after a step; raises Refused when it cannot be done."""
    raise Refused(Problem(f"there is no such step as {step!r}"))


def _refuse_count(count: int, what: str) -> None:
    if count < 1:
        raise Refused(Problem(f"{what} is done {count} times", do="Leave the step out, or count at least 1."))


@done.register
def _cut_strips(step: CutStrips, table: Table, rules: Rules) -> Table:
    _refuse_count(step.count, "cutting strips")
    left = table.cloth_left.get(step.fabric)
    if left is None:
        raise Refused(
            Problem(f"there is no cloth {step.fabric!r}", do=f"There are {', '.join(table.cloth_left)}.")
        )
    if step.height <= ZERO:
        raise Refused(Problem(f"a strip cannot be {step.height} high"))
    needed = step.height * step.count
    if needed > left:
        raise Refused(
            Problem(
                f"{step.count} strips of {step.height} need {needed} of {step.fabric!r}, {left} are left",
            )
        )
    strip = piece(step.fabric, rectangle(float(rules.widths[step.fabric]), float(step.height)), rules.seam)
    started = table.starts.get(step.fabric, 0.0) + strip.area * step.count
    table = replace(
        table,
        cloth_left={**table.cloth_left, step.fabric: left - needed},
        starts={**table.starts, step.fabric: started},
    )
    return table.put(step.gives, strip, step.count, rules)


@done.register
def _subcut(step: Subcut, table: Table, rules: Rules) -> Table:
    _refuse_count(step.times, "subcutting")
    strip = table.only(step.takes)
    if len(strip.faces) != 1 or len(strip.raw) != 4:
        raise Refused(Problem(f"{step.takes!r} is not a flat strip"))
    left, low, right, high = bounds(strip.raw)
    width, height = right - left, high - low
    if abs(area(strip.raw) - width * height) > AS_DRAWN:
        raise Refused(Problem(f"{step.takes!r} is not a strip with square corners"))
    fabric = strip.faces[0].fabric
    used = float(sum((s.width * s.count for s in step.sections), ZERO))
    if used > width + AS_DRAWN:
        raise Refused(Problem(f"the sections take {used:g} in, the strip is {width:g} in long"))
    table = table.take(step.takes, step.times)
    pieces = 0.0
    for section in step.sections:
        _refuse_count(section.count, "a section")
        _refuse_count(section.stack, "a stack")
        if min(section.width, section.height) <= ZERO:
            raise Refused(Problem(f"{section.gives!r} cannot be {section.width} x {section.height}"))
        if float(section.height) * section.stack > height + AS_DRAWN:
            raise Refused(
                Problem(f"{section.stack} pieces {section.height} high do not fit a strip {height:g} in high")
            )
        cut = _cut_piece(section, strip.faces[0], rules)
        count = section.count * section.stack
        pieces += cut.area * count
        table = table.put(section.gives, cut, count * step.times, rules)
    return table.drop(fabric, (strip.area - pieces) * step.times)


def _cut_piece(section: Section, strip: Face, rules: Rules) -> Cloth:
    """A piece in its own frame: one that lay on its side has the strip's grain turned by a quarter."""
    width, height = float(section.width), float(section.height)
    if section.turned:
        return piece(strip.fabric, rectangle(height, width), rules.seam, strip.grain - QUARTER)
    return piece(strip.fabric, rectangle(width, height), rules.seam, strip.grain)


@done.register
def _cut_apart(step: CutApart, table: Table, rules: Rules) -> Table:
    _refuse_count(step.times, "cutting apart")
    cloth = _pressed(table.only(step.takes), step.takes)
    parts = slice_apart(cloth, [where(ruled, rules.seam) for ruled in step.cut], rules.seam)
    names = _names(step.gives, len(parts))
    table = table.take(step.takes, step.times)
    left = dict(cloth.cloth_of)
    for name, part in zip(names, parts, strict=True):
        if name:
            table = table.put(name, part, step.times, rules)
            left = {fabric: area - part.cloth_of.get(fabric, 0.0) for fabric, area in left.items()}
    for fabric, square_inches in left.items():
        if square_inches > WELD:
            table = table.drop(fabric, square_inches * step.times)
    return table


@done.register
def _cut_out(step: CutOut, table: Table, rules: Rules) -> Table:
    _refuse_count(step.times, "cutting out")
    cloth = _pressed(table.only(step.takes), step.takes)
    part = cut_out(cloth, step.outline, rules.seam)
    table = table.take(step.takes, step.times).put(step.gives, part, step.times, rules)
    for fabric, square_inches in cloth.cloth_of.items():
        table = table.drop(fabric, (square_inches - part.cloth_of.get(fabric, 0.0)) * step.times)
    return table


def _names(gives: tuple[str, ...], count: int) -> tuple[str, ...]:
    names = gives * count if len(gives) == 1 else gives
    if len(names) != count or not count:
        raise Refused(Problem(f"{count} parts come off, {len(gives)} are named: {', '.join(gives)}"))
    return names


@done.register
def _stack(step: Stack, table: Table, rules: Rules) -> Table:
    _refuse_count(step.times, "stacking")
    base = _pressed(table.only(step.base), step.base)
    tops = [(_pressed(table.only(lay.name), lay.name), lay.place) for lay in step.tops]
    sew = [where(ruled, rules.seam) for ruled in step.sew]
    cut = [where(ruled, rules.seam) for ruled in step.cut]
    regions = stack(base, tops, sew, cut, step.gives[0] if step.gives else "", rules.seam)
    opened = [region.cloth for region in regions if region.cloth]
    names = _names(step.gives, len(opened))
    for name in (step.base, *(lay.name for lay in step.tops)):
        table = table.take(name, step.times)
    for name, cloth in zip(names, opened, strict=True):
        if name == step.gives[0]:
            _expect(cloth, step.expect, name)
        if name:
            table = table.put(name, cloth, step.times, rules)
            continue
        for fabric, square_inches in cloth.cloth_of.items():
            table = table.drop(fabric, square_inches * step.times)
    for region in regions:
        for fabric, square_inches in region.loose:
            table = table.drop(fabric, square_inches * step.times)
    return table


@done.register
def _press(step: Press, table: Table, rules: Rules) -> Table:
    pile = table.piles.get(step.pile, Pile())
    if not pile.count:
        raise Refused(Problem(f"there is no {step.pile!r} to press"))
    how = {pressing.seam: pressing.towards for pressing in step.seams}
    changes: dict[str, list[float]] = {}
    for change in step.changes:
        changes.setdefault(change.seam, []).append(change.at)
    if unknown := changes.keys() - how.keys():
        raise Refused(Problem(f"{', '.join(sorted(unknown))} changes side, and is not pressed here"))
    pile_pressed = Pile()
    asked = set(how)
    for cloth, count in pile.kinds:
        own = tuple(cloth.unpressed)
        missing = [name for name in own if name not in how]
        if missing:
            raise Refused(Problem(f"{step.pile!r} has seams that are not pressed: {', '.join(missing)}"))
        asked -= set(own)
        pile_pressed = pile_pressed.put(pressed(cloth, how, changes), count, rules.one_way)
    if asked:
        raise Refused(Problem(f"{step.pile!r} has no unpressed seam {', '.join(sorted(asked))}"))
    return table.with_pile(step.pile, pile_pressed)


@done.register
def _true_up(step: TrueUp, table: Table, rules: Rules) -> Table:
    pile = table.piles.get(step.pile, Pile())
    if not pile.count:
        raise Refused(Problem(f"there is no {step.pile!r} to true up"))
    size = (float(step.width), float(step.height))
    trued = Pile()
    for cloth, count in pile.kinds:
        exact = true_up(_pressed(cloth, step.pile), step.landmark, size, step.by, rules.seam, rules.allowed)
        for fabric, square_inches in cloth.cloth_of.items():
            table = table.drop(fabric, (square_inches - exact.cloth_of.get(fabric, 0.0)) * count)
        trued = trued.put(exact, count, rules.one_way)
    return table.with_pile(step.pile, trued)


@done.register
def _gather(step: Gather, table: Table, rules: Rules) -> Table:
    pile = table.piles.get(step.pile, Pile())
    for name in step.takes:
        more = table.piles.get(name, Pile())
        if not more.count or name == step.pile:
            raise Refused(Problem(f"there is no {name!r} to put on {step.pile!r}"))
        for cloth, count in more.kinds:
            pile = pile.put(_pressed(cloth, name), count, rules.one_way)
        table = table.with_pile(name, Pile())
    if step.takes and len(pile.kinds) == 1:
        return table.with_pile(step.pile, pile)
    return table.with_pile(step.pile, pile.gathered(step.pile, rules.one_way))


@done.register
def _join(step: Join, table: Table, rules: Rules) -> Table:
    _refuse_count(step.times, "joining")
    parts = []
    for part in step.parts:
        _refuse_count(part.count, "a part")
        cloth = _pressed(table.only(part.name), part.name)
        parts += [Joining(cloth, part.entry, part.exit, part.name)] * part.count
        table = table.take(part.name, part.count * step.times)
    if len(parts) < 2:
        raise Refused(Problem("one cloth cannot be joined to nothing", do="Name at least two parts."))
    stretch = stretch_of(step.part_sewn)
    cloth = join(parts, step.gives, rules.seam, stretch)
    _expect_meetings(tallied(meetings_of(parts, stretch)), step)
    _expect(cloth, step.expect, step.gives)
    return table.put(step.gives, cloth, step.times, rules)


def stretch_of(how: PartSewn | None) -> Stretch | None:
    """What a step says of a seam that is not sewn on the whole of both sides."""
    if how is None:
        return None
    return Stretch(how.start, how.stop, how.flush == "start", how.flush == "corner", how.beyond)


def _expect_meetings(met: list[tuple[tuple[Meet, ...], int]], step: Join | Close) -> None:
    nested = sum(times * sum(map(nests, pairs)) for pairs, times in met)
    clashing = sum(times * len(pairs) for pairs, times in met) - nested
    if (nested, clashing) != (step.nests, step.clashes):
        raise Refused(
            Problem(
                f"seams nest at {nested} places and clash at {clashing}; "
                f"the plan says {step.nests} and {step.clashes}",
                do="Check which way they were pressed.",
            )
        )


@done.register
def _close(step: Close, table: Table, rules: Rules) -> Table:
    pile = table.piles.get(step.pile, Pile())
    cloth = pile.only(step.pile)
    if not pile.count:
        raise Refused(Problem(f"there is no {step.pile!r} to close"))
    _expect_meetings([(meetings_closed(cloth, step.sides), 1)], step)
    name = f"{step.pile}.close{len(cloth.own_seams)}"
    return table.with_pile(step.pile, Pile(((close(cloth, step.sides, name, rules.seam), pile.count),)))


@done.register
def _join_ends(step: JoinEnds, table: Table, rules: Rules) -> Table:
    _refuse_count(step.times, "joining ends")
    _refuse_count(step.count, "a strip")
    strip = table.only(step.takes)
    table = table.take(step.takes, step.count * step.times)
    cloth = joined_ends(strip, step.count, step.gives, rules.seam)
    for fabric, square_inches in strip.cloth_of.items():
        lost = square_inches * step.count - cloth.cloth_of[fabric]
        table = table.drop(fabric, lost * step.times)
    _expect(cloth, step.expect, step.gives)
    return table.put(step.gives, cloth, step.times, rules)


def _pressed(cloth: Cloth, name: str) -> Cloth:
    """Every seam is pressed before it is crossed by another, cut or measured."""
    if cloth.unpressed:
        raise Refused(
            Problem(f"{name!r} has not been pressed ({', '.join(cloth.unpressed)})", do="Press it first.")
        )
    return cloth


def _expect(cloth: Cloth, size: Size | None, name: str) -> None:
    if size is None:
        return
    width, height = cloth.size
    expected = (max(size), min(size))
    found = (max(width, height), min(width, height))
    if any(abs(a - b) > AS_DRAWN for a, b in zip(found, expected, strict=True)):
        raise Refused(
            Problem(
                f"{name!r} measures {found[0]:.4f} x {found[1]:.4f} in, "
                f"{expected[0]:.4f} x {expected[1]:.4f} in was expected",
            )
        )


def _line(ruled: Ruled) -> Line:
    line = ((ruled.x, ruled.y), (ruled.to_x, ruled.to_y))
    if distance(*line) < AS_DRAWN:
        raise Refused(Problem("a marked line needs two ends"))
    return line


def where(ruled: Ruled, seam: SeamSize) -> Line:
    """Where the needle or the cutter goes."""
    return shifted(_line(ruled), _offset(ruled, seam))


def _offset(ruled: Ruled, seam: SeamSize) -> float:
    """How far to the left of the marked line the needle or the cutter goes."""
    what, _, side = ruled.beside.partition(" ")
    distances = {"on": 0.0, "needle": seam.needle, "hair": seam.fold, "seam": seam.take_up}
    return -distances[what] if side == "right" else distances[what]
