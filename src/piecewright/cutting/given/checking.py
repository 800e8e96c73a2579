"""An independent checker of what is cut from given cloth: it shares nothing with the search but the types."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace

from piecewright.cutting.checking import check_layout
from piecewright.cutting.given.cloth import Given, Offered
from piecewright.cutting.given.layout import CutGiven, FromShelf
from piecewright.cutting.patterns import Pattern, Section
from piecewright.cutting.wanted import Demand
from piecewright.measure.length import ZERO, Length
from piecewright.problems import Problem


def check_from_shelf(result: FromShelf, demands: Sequence[Demand], offered: Offered) -> list[Problem]:
    """Everything wrong with the result; empty when every piece is there exactly as often as wanted.

    Pieces lie inside their cloth with their grain kept, strips and stacks do not overlap, no cloth is used
    that is not there, and no bound lies above what was reached.
    """
    whole = offered.bolt.supply.usable_width if offered.bolt is not None else None
    wanted = {d.name: replace(d, width=whole) if d.whole_strip and whole else d for d in demands}
    cloths = {given.name: given for given in (*offered.shelf, *(pack.piece for pack in offered.packs))}
    problems: list[Problem] = []
    got: Counter[str] = Counter()
    for number, cut in enumerate(result.used, 1):
        where = f"cloth {cut.name!r}, way of cutting {number}"
        problems += _check_cloth(cut, cloths.get(cut.name), where)
        for pattern in cut.patterns:
            problems += _check_strip(pattern, cut, where)
            for section in pattern.sections:
                problems += _check_section(section, wanted.get(section.name), cut, where)
                got[section.name] += section.count * section.stack * pattern.times * cut.times
    problems += _check_bought(result, wanted, got)
    return [*problems, *_check_counts(result, offered), *_check_bounds(result)]


def _check_cloth(cut: CutGiven, given: Given | None, where: str) -> list[Problem]:
    if given is None:
        return [Problem(f"expected cloth that is there, got {cut.name!r}.", where)]
    found = []
    if (cut.width, cut.height, cut.fabric) != (given.width, given.height, given.fabric):
        size, own = f"{cut.width} x {cut.height}", f"{given.width} x {given.height}"
        found.append(Problem(f"expected {own} of {given.fabric!r}, got {size} of {cut.fabric!r}.", where))
    if cut.along != (given.strips == "along") and given.strips != "either":
        found.append(Problem(f"expected strips {given.strips} the cloth.", where))
    if cut.times < 1 or not cut.patterns:
        found.append(Problem("expected cloth that is cut at least once, into something.", where))
    taken = sum((pattern.strip_height * pattern.times for pattern in cut.patterns), ZERO)
    if taken > (cut.width if cut.along else cut.height):
        found.append(Problem(f"expected strips within the cloth, got {taken} of them.", where))
    return found


def _check_strip(pattern: Pattern, cut: CutGiven, where: str) -> list[Problem]:
    found, length = [], cut.height if cut.along else cut.width
    if pattern.times < 1 or not pattern.sections:
        found.append(Problem("expected a strip that is cut at least once, into something.", where))
    taken = sum((section.width * section.count for section in pattern.sections), ZERO)
    if taken > length:
        found.append(Problem(f"expected sections within {length}, got {taken}.", where))
    for section in pattern.sections:
        stacked = section.height * section.stack
        if stacked > pattern.strip_height or section.count < 1 or section.stack < 1:
            what = f"expected a stack of {section.name!r} within {pattern.strip_height}, got {stacked}."
            found.append(Problem(what, where))
    return found


def _check_section(section: Section, demand: Demand | None, cut: CutGiven, where: str) -> list[Problem]:
    if demand is None:
        return [Problem(f"expected a piece that is wanted, got {section.name!r}.", where)]
    if section.turned and (not demand.may_turn or demand.whole_strip):
        return [Problem(f"expected {section.name!r} upright, got it turned.", where)]
    # Where the strip runs along the cloth, an upright piece lies with its height along the strip.
    size: tuple[Length, Length] = (demand.width, demand.height)
    expected = size[::-1] if section.turned != cut.along else size
    if (section.width, section.height) != expected:
        got = f"{section.width} x {section.height}"
        return [Problem(f"expected {section.name!r} as {expected[0]} x {expected[1]}, got {got}.", where)]
    return []


def _check_bought(result: FromShelf, wanted: Mapping[str, Demand], got: Counter[str]) -> list[Problem]:
    """The bolt gives exactly what is lacking."""
    found = []
    rest = [
        replace(demand, count=demand.count - got[name])
        for name, demand in wanted.items()
        if demand.count > got[name]
    ]
    found += [
        Problem(f"expected {demand.count} pieces of {name!r}, got {got[name]}.", "the given cloth")
        for name, demand in wanted.items()
        if got[name] > demand.count
    ]
    if result.bought is not None:
        return found + check_layout(result.bought, rest)
    found += [
        Problem(f"expected {demand.count} more pieces of {demand.name!r}, got none.") for demand in rest
    ]
    return found


def _check_counts(result: FromShelf, offered: Offered) -> list[Problem]:
    """No more of a cloth than there is, or than was bought."""
    there = {given.name: given.count for given in offered.shelf}
    for pack in offered.packs:
        there[pack.piece.name] = 0
    for pack, number in result.packs:
        there[pack.piece.name] += pack.piece.count * number
        if pack not in offered.packs or not 1 <= number <= pack.most:
            what = f"expected up to {pack.most} packs of {pack.piece.name!r}, got {number}."
            return [Problem(what)]
    return [
        Problem(f"expected at most {there.get(name, 0)} pieces of cloth {name!r}, got {count}.")
        for name, count in result.count_used.items()
        if count > there.get(name, 0)
    ]


def _check_bounds(result: FromShelf) -> list[Problem]:
    found = []
    if result.least_cost > result.cost:
        found.append(Problem("expected the bound for what is bought not to lie above what is bought."))
    if result.bought is None and not result.packs and result.least_area > result.area_used:
        found.append(Problem("expected the bound for the cloth not to lie above the cloth that is cut."))
    return found
