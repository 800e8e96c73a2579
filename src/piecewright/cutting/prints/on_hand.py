"""An assortment cut from the prints on hand: which to take, what is cut from each, what is bought besides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from piecewright.cutting.given.cloth import Given, Offered
from piecewright.cutting.given.problems import check_given
from piecewright.cutting.prints.apart import apart_of
from piecewright.cutting.prints.from_prints import FromPrints
from piecewright.cutting.prints.problems import check_prints_wish, lacking_on_hand, not_so_many, too_few
from piecewright.cutting.prints.shared import SharedOut
from piecewright.cutting.prints.sharing import fewest_prints, share_out
from piecewright.cutting.prints.stock import prints_on_hand
from piecewright.cutting.prints.taking import Taking
from piecewright.cutting.prints.wish import Places, PrintsWish
from piecewright.cutting.wanted import Demand, Supply
from piecewright.measure.length import Length, inches
from piecewright.problems import Problem, Refused

RULER = inches(24)


def share_on_hand(
    demands: Sequence[Demand],
    given: Sequence[Given],
    wish: PrintsWish,
    key: str,
    supply: Supply | None = None,
    ruler_length: Length = RULER,
) -> FromPrints:
    """The pieces cut from the prints on hand: from so many as wished, else the fewest; as evenly as goes.

    Cloth of one fabric is one print. Where they do not suffice, the rest is shared out over new prints of
    `supply`. Raises Refused, with the figures, where nothing may be bought, or the wish cannot be kept.
    """
    problems = _problems(demands, given, wish, key, supply, ruler_length)
    if problems:
        raise Refused(*problems)
    on_hand = prints_on_hand(given)
    taking = Taking(demands, on_hand, wish, ruler_length)
    few = too_few(demands, key, wish, fewest_prints(demands, wish, taking.apart)[0])
    if few is not None:
        raise Refused(few)
    taken = taking.best(may_buy=supply is not None)
    missing = (wish.prints or 0) - len(taken.shares)
    if supply is None:
        if taken.lacking.any():
            raise Refused(lacking_on_hand(demands, key, wish, len(on_hand), taken.lacking.tolist()))
        if missing > 0:
            raise Refused(not_so_many(key, wish, len(on_hand), len(taken.shares)))
        return taking.result(taken, None)
    taken = taking.left_for_new_prints(taken, missing)
    rest = [replace(d, count=int(n)) for d, n in zip(demands, taken.lacking, strict=True) if n]
    bought = _new_prints(rest, supply, wish, len(taken.shares)) if rest else None
    return taking.result(taken, bought)


def _new_prints(rest: Sequence[Demand], supply: Supply, wish: PrintsWish, taken: int) -> SharedOut:
    """The rest from new prints: as many as are still to come, or as few as keep the wish."""
    sets = sum(map(wish.sets, rest))
    free = replace(wish, prints=None, places=None)
    fewest = fewest_prints(rest, free, apart_of(Places(())))[0]
    to_come = min((wish.prints or 0) - taken, sets)
    return share_out(rest, supply, replace(free, prints=to_come) if to_come >= fewest else free)


def _problems(
    demands: Sequence[Demand],
    given: Sequence[Given],
    wish: PrintsWish,
    key: str,
    supply: Supply | None,
    ruler: Length,
) -> list[Problem]:
    found = check_prints_wish(demands, key, wish)
    whole = [d for d in demands if d.whole_strip]
    if whole:
        what = f"expected pieces of a known size, got {whole[0].name!r} as long as the cloth is wide."
        found.append(Problem(what, f"assortment {key!r}", "Say how long the strips are."))
    if found:
        return found
    if supply is None:
        return check_given(demands, Offered(tuple(given), ruler_length=ruler))
    return check_given([], Offered(tuple(given), ruler_length=ruler))
