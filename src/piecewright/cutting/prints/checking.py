"""An independent checker: reads an assortment that is shared out and says what is wrong with it.

It shares nothing with the making but the types.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from piecewright.cutting.checking import check_layout
from piecewright.cutting.given.checking import check_from_shelf
from piecewright.cutting.given.cloth import Given, Offered
from piecewright.cutting.given.layout import FromShelf
from piecewright.cutting.prints.from_prints import FromPrints
from piecewright.cutting.prints.shared import PrintShare, SharedOut
from piecewright.cutting.prints.wish import Places, PrintsWish
from piecewright.cutting.wanted import Demand
from piecewright.problems import Problem

Pieces = Sequence[tuple[str, int]]


def check_shared_out(shared: SharedOut, demands: Sequence[Demand], wish: PrintsWish) -> list[Problem]:
    """Everything wrong with it; empty where every piece is there once and the wish is kept."""
    where = f"assortment {shared.key!r}"
    prints = [share.pieces for share in shared.shares for _ in range(share.prints)]
    found = [p for share in shared.shares for p in _check_share(share, demands, wish, where)]
    found += _check_totals(prints, demands, where) + _check_sets(prints, demands, wish, where)
    spared = any(one.layout.purchase.spare_strips or one.layout.purchase.further for one in shared.shares)
    if spared and len(prints) > 1:
        found.append(Problem("expected nothing to be spared of each of several prints.", where))
    if wish.prints is not None and demands and len(prints) != wish.prints:
        found.append(Problem(f"expected {wish.prints} prints, got {len(prints)}.", where))
    if not shared.least_prints <= len(prints) or not shared.least_buy <= shared.buy:
        found.append(Problem("expected no bound above what was reached.", where))
    return found + _check_places(shared.prints_at, shared.clashes, prints, wish, where)


def check_from_prints(
    result: FromPrints, demands: Sequence[Demand], given: Sequence[Given], wish: PrintsWish
) -> list[Problem]:
    """The same for prints on hand: each cut from its own cloth, nothing twice, the rest bought."""
    found: list[Problem] = []
    got: Counter[str] = Counter()
    for one in result.prints:
        where = f"print {one.fabric!r}"
        own = tuple(cloth for cloth in given if (cloth.fabric or cloth.name) == one.fabric)
        wanted = _wanted(demands, dict(one.pieces))
        nothing = Fraction(0)
        area = sum((cut.area for cut in one.used), nothing)
        shelf = FromShelf(one.used, (), None, one.leftovers, nothing, nothing, area, nothing)
        found += check_from_shelf(shelf, wanted, Offered(own))
        found += _check_alike(one.pieces, one.alike, demands, wish, where)
        got.update(dict(one.pieces))
    if len({one.fabric for one in result.prints}) != len(result.prints):
        found.append(Problem("expected every print once."))
    if result.bought is not None:
        rest = {d.name: d.count - got[d.name] for d in demands}
        found += check_shared_out(
            result.bought, _wanted(demands, rest), replace(wish, prints=None, places=None)
        )
        number = len(result.prints) + result.bought.prints
        if wish.prints is not None and number < wish.prints:
            found.append(Problem(f"expected at least {wish.prints} prints, got {number}."))
        return found
    prints = [one.pieces for one in result.prints]
    found += _check_totals(prints, demands, "the prints on hand")
    found += _check_sets(prints, demands, wish, "the prints on hand")
    if wish.prints is not None and len(prints) != wish.prints:
        found.append(Problem(f"expected {wish.prints} prints, got {len(prints)}."))
    if result.least_prints > len(prints):
        found.append(Problem("expected no bound above what was reached."))
    return found + _check_places(result.prints_at, result.clashes, prints, wish, "the prints on hand")


def _check_share(share: PrintShare, demands: Sequence[Demand], wish: PrintsWish, where: str) -> list[Problem]:
    found = check_layout(share.layout, _wanted(demands, dict(share.pieces)))
    if share.prints < 1 or not share.pieces:
        found.append(Problem("expected a share of at least one print, with something in it.", where))
    return found + _check_alike(share.pieces, share.alike, demands, wish, where)


def _check_alike(
    pieces: Pieces, alike: int, demands: Sequence[Demand], wish: PrintsWish, where: str
) -> list[Problem]:
    most = max((n * _batch(wish, name)[0] for name, n in pieces), default=0)
    if most != alike:
        return [Problem(f"expected {most} alike, got {alike}.", where)]
    if wish.most_alike is not None and alike > wish.most_alike:
        return [Problem(f"expected at most {wish.most_alike} alike, got {alike}.", where)]
    return []


def _check_totals(prints: Sequence[Pieces], demands: Sequence[Demand], where: str) -> list[Problem]:
    got: Counter[str] = Counter()
    for pieces in prints:
        got.update(dict(pieces))
    wanted = {demand.name: demand.count for demand in demands}
    return [
        Problem(f"expected {wanted.get(name, 0)} pieces of {name!r}, got {got[name]}.", where)
        for name in sorted({*wanted, *got})
        if got[name] != wanted.get(name, 0)
    ]


def _check_sets(
    prints: Sequence[Pieces], demands: Sequence[Demand], wish: PrintsWish, where: str
) -> list[Problem]:
    """Whole sets from every print, but for one smaller set where they do not come out."""
    found = []
    for demand in demands:
        together = _batch(wish, demand.name)[1]
        broken = [n for pieces in prints for name, n in pieces if name == demand.name and n % together]
        if len(broken) > (1 if demand.count % together else 0):
            what = f"expected sets of {together} of {demand.name!r} from one print, got {broken}."
            found.append(Problem(what, where))
    return found


def _check_places(
    prints_at: Sequence[int], clashes: int, prints: Sequence[Pieces], wish: PrintsWish, where: str
) -> list[Problem]:
    places = wish.places
    if places is None:
        return []
    if len(prints_at) != len(places.sizes):
        return [Problem(f"expected a print for {len(places.sizes)} places, got {len(prints_at)}.", where)]
    if not all(0 <= mine < len(prints) for mine in prints_at):
        return [Problem(f"expected places to name one of the {len(prints)} prints.", where)]
    if clashes != _clashes(prints_at, places):
        what = f"expected {_clashes(prints_at, places)} clashes to be told, got {clashes}."
        return [Problem(what, where)]
    taken = Counter(zip(prints_at, places.sizes, strict=True))
    for (mine, size), number in taken.items():
        there = sum(n * _batch(wish, name)[0] for name, n in prints[mine] if size in ("", name))
        if number > there:
            return [Problem(f"expected {there} of {size!r} from print {mine}, got {number}.", where)]
    return []


def _clashes(prints_at: Sequence[int], places: Places) -> int:
    pairs = {frozenset(pair) for pair in places.touching}
    alike = sum(len({prints_at[k] for k in pair}) == 1 for pair in pairs)
    most = places.most_in_block or len(prints_at)
    counts = [Counter(prints_at[k] for k in set(block)) for block in places.blocks]
    return alike + sum(max(number - most, 0) for count in counts for number in count.values())


def _batch(wish: PrintsWish, name: str) -> tuple[int, int]:
    batch = wish.batches.get(name)
    return (batch.gives, batch.together) if batch is not None else (1, 1)


def _wanted(demands: Sequence[Demand], counts: Mapping[str, int]) -> list[Demand]:
    return [replace(d, count=counts[d.name]) for d in demands if counts.get(d.name)]
