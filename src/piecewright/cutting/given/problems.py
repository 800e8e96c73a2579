"""What is wrong with given cloth or with what is wanted of it, each in one sentence with the figures."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from piecewright.cutting.given.cloth import Given, Offered
from piecewright.cutting.given.offer import sources
from piecewright.cutting.given.settling import Use, pieces_of
from piecewright.cutting.given.task import GivenTask, fits_on
from piecewright.cutting.wanted import MOST_PIECES, Demand, check_wanted
from piecewright.measure.length import ZERO, Unit, inches
from piecewright.measure.showing import figure, show
from piecewright.problems import Problem

LARGEST = inches(3600)
MOST_GIVEN = 100_000
ON_HAND = "the cloth on hand"
MORE = "Add cloth, or let the rest be bought."


def check_given(demands: Sequence[Demand], offered: Offered) -> list[Problem]:
    """Everything that makes it impossible to cut the pieces from what is offered."""
    unit = _unit(offered)
    problems = [p for given in _all_given(offered) for p in _check_piece(given, unit)]
    if offered.bolt is not None:
        problems += check_wanted([], offered.bolt.supply)
    names = [given.name for given in _all_given(offered)]
    for name in sorted({name for name in names if names.count(name) > 1}):
        what = f"expected every given cloth to have its own name, got {name!r} twice."
        problems.append(Problem(what, do="Add up the counts, or name them apart."))
    problems += _check_demands(demands, unit)
    return problems or _check_fits(demands, offered, unit) or _check_area(demands, offered, unit)


def lacking(demands: Sequence[Demand], offered: Offered, task: GivenTask, uses: Sequence[Use]) -> Problem:
    """That there is not enough cloth, with the figures: for how many pieces there was no room."""
    got = pieces_of(task, uses)
    missing = [f"{d.count - int(n)} of {d.name!r}" for d, n in zip(demands, got, strict=True) if d.count > n]
    total = sum(demand.count for demand in demands)
    rest = ", ".join(missing[:4]) + (f" and {len(missing) - 4} more sizes" if len(missing) > 4 else "")
    what = f"expected room for {total:,} pieces, found it for {int(got.sum()):,}: {rest} are left over."
    where = "the cloth that may be bought" if offered.may_buy else ON_HAND
    return Problem(what, where, MORE)


def _check_area(demands: Sequence[Demand], offered: Offered, unit: Unit) -> list[Problem]:
    """Pieces that are larger together than all cloth on hand, where none is bought."""
    wanted = sum((d.width.exact * d.height.exact * d.count for d in demands), Fraction(0))
    there = sum((given.area * given.count for given in offered.shelf), Fraction(0))
    if offered.may_buy or there >= wanted:
        return []
    what = f"expected at least {_area(wanted, unit)} of cloth for the pieces, got {_area(there, unit)}"
    return [Problem(f"{what}, {_area(wanted - there, unit)} too little.", ON_HAND, MORE)]


def _check_piece(given: Given, unit: Unit) -> list[Problem]:
    found, where = [], f"cloth {given.name!r}"
    if not all(ZERO < side <= LARGEST for side in (given.width, given.height)):
        size = f"{figure(given.width, unit)} x {show(given.height, unit)}"
        what = f"expected both sides above 0 and up to {show(LARGEST, unit)}, got {size}."
        found.append(Problem(what, where, "Measure what can be used of it."))
    if not 1 <= given.count <= MOST_GIVEN:
        what = f"expected from 1 to {MOST_GIVEN:,} pieces of cloth, got {given.count:,}."
        found.append(Problem(what, where, "Count them, or leave the entry out."))
    return found


def _check_demands(demands: Sequence[Demand], unit: Unit) -> list[Problem]:
    found = []
    names = [demand.name for demand in demands]
    for name in sorted({name for name in names if names.count(name) > 1}):
        what = f"expected every size to have its own name, got {name!r} twice."
        found.append(Problem(what, do="Add up the counts, or name them apart."))
    for demand in demands:
        if not 1 <= demand.count <= MOST_PIECES:
            what = f"expected from 1 to {MOST_PIECES:,} pieces of {demand.name!r}, got {demand.count:,}."
            found.append(Problem(what, do="Write how many pieces are wanted."))
        if not (demand.height > ZERO and (demand.whole_strip or demand.width > ZERO)):
            size = f"{figure(demand.width, unit)} x {show(demand.height, unit)}"
            what = f"expected {demand.name!r} to have a size above 0, got {size}."
            found.append(Problem(what, do="Write the size to cut."))
    return found


def _check_fits(demands: Sequence[Demand], offered: Offered, unit: Unit) -> list[Problem]:
    """Pieces that are larger than any cloth."""
    cloths = [source.cloth for source in sources(offered, None)]
    if not cloths:
        return [Problem("expected cloth to cut from, got none.", do="Put cloth on the shelf, or buy.")][
            : len(demands)
        ]
    width = offered.bolt.supply.usable_width if offered.bolt else None
    largest = max(cloths, key=lambda cloth: cloth.width.exact * (cloth.height or LARGEST).exact)
    told = f"a bolt {show(largest.width, unit)} wide"
    if largest.height is not None:
        told = f"{figure(largest.width, unit)} x {show(largest.height, unit)}"
    found = []
    for demand in demands:
        if not any(fits_on(demand, cloth, width) for cloth in cloths):
            size = f"{figure(demand.width, unit)} x {show(demand.height, unit)}"
            turned = "" if demand.may_turn else ", and it must not be turned"
            what = f"expected {demand.name!r} to fit on a cloth, the largest is {told}, got {size}{turned}."
            found.append(Problem(what, do="Join it from smaller pieces, or take larger cloth."))
    return found


def _all_given(offered: Offered) -> list[Given]:
    return [*offered.shelf, *(pack.piece for pack in offered.packs)]


def _unit(offered: Offered) -> Unit:
    return offered.bolt.supply.unit if offered.bolt is not None else offered.unit


def _area(square_inches: Fraction, unit: Unit) -> str:
    if unit == "cm":
        return f"{float(square_inches) * 2.54**2:,.0f} square cm"
    return f"{float(square_inches):,.0f} square in"
