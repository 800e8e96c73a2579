"""Where there is not enough cloth and none is sold by length: how much more of it would do."""

from __future__ import annotations

from dataclasses import replace

from piecewright.cutting.given.cloth import Given, Offered, Pack
from piecewright.cutting.given.problems import ON_HAND
from piecewright.cutting.given.shopping import from_shelf
from piecewright.cutting.lists.listed import ListedFabric
from piecewright.cutting.lists.supply_entries import MOST_PACKS
from piecewright.measure.showing import figure, show
from piecewright.problems import Refused

# To say what would do takes such a share of the effort for a layout.
SHARE = 3


def with_what_would_do(refused: Refused, fabric: ListedFabric, offered: Offered, effort: int) -> Refused:
    """The same problems, of this fabric; one that tells of too little cloth says what more would do."""
    problems = []
    for problem in refused.problems:
        where = f"cloth {fabric.name!r}, {problem.where}" if problem.where else f"cloth {fabric.name!r}"
        more = ""
        if problem.where == ON_HAND and not offered.may_buy:
            more = _more_on_hand(fabric, offered, effort // SHARE)
        elif offered.packs and offered.bolt is None:
            more = _more_packs(fabric, offered, effort // SHARE)
        problems.append(replace(problem, where=where, do=more or problem.do))
    return Refused(*problems)


def _more_on_hand(fabric: ListedFabric, offered: Offered, effort: int) -> str:
    """How many more of the largest cloth that serves would be enough."""
    for given in sorted(offered.shelf, key=lambda given: -given.area):
        pack = Pack(Given("more", given.width, given.height, 1, given.fabric))
        packs = _packs_for(fabric, replace(offered, packs=(pack,)), effort)
        if packs:
            size = f"{figure(given.width, offered.unit)} x {show(given.height, offered.unit)}"
            return f"{packs[0][1]:,} more of {size} would do, or let the rest be bought."
    return ""


def _more_packs(fabric: ListedFabric, offered: Offered, effort: int) -> str:
    """How many packs would be enough, were there no most."""
    endless = replace(offered, packs=tuple(replace(pack, most=MOST_PACKS) for pack in offered.packs))
    packs = _packs_for(fabric, endless, effort)
    if not packs:
        return ""
    told = [f"{number:,} packs of {pack.piece.count:,} ({pack.piece.name})" for pack, number in packs]
    return f"{' and '.join(told).replace(', bought', '')} would do."


def _packs_for(fabric: ListedFabric, offered: Offered, effort: int) -> tuple[tuple[Pack, int], ...]:
    try:
        return from_shelf(fabric.demands, offered, effort=effort).packs
    except Refused:
        return ()
