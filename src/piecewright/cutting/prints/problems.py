"""What is wrong with the wish for an assortment, each in one sentence with what would do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from piecewright.cutting.prints.wish import Places, PrintsWish
from piecewright.cutting.wanted import Demand
from piecewright.problems import Problem

MOST_PRINTS = 10_000
MOST_PLACES = 20_000


def check_prints_wish(demands: Sequence[Demand], key: str, wish: PrintsWish) -> list[Problem]:
    """Everything in the wish that makes no sense, or that no number of prints can keep."""
    where = f"assortment {key!r}"
    if wish.prints is not None and not 1 <= wish.prints <= MOST_PRINTS:
        what = f"expected from 1 to {MOST_PRINTS:,} prints, got {wish.prints:,}."
        return [Problem(what, where, "Write how many prints there are.")]
    if wish.most_alike is not None and wish.most_alike < 1:
        what = f"expected at least 1 alike to be allowed, got {wish.most_alike}."
        return [Problem(what, where, "Allow more, or leave it out.")]
    found = list(_check_batches(demands, where, wish))
    if not found and wish.places is not None:
        found += _check_places(wish.places, demands, where, wish)
    return found or _check_number(demands, where, wish)


def too_few(demands: Sequence[Demand], key: str, wish: PrintsWish, least: int) -> Problem | None:
    """That there are fewer prints than the wish takes, and what would do."""
    if wish.prints is None or wish.prints >= least:
        return None
    where, scarce = f"assortment {key!r}", scarcest(demands, wish)
    if scarce is None or scarce[1] < least:
        what = f"expected {least} prints so that no two alike touch, got {wish.prints}."
        return Problem(what, where, f"Take {least} prints, or let alike ones touch.")
    demand, needed = scarce
    gives = wish.batch(demand.name).gives
    of = f"{demand.count} pieces of {demand.name!r}" + (f" (each makes {gives})" if gives > 1 else "")
    what = f"at most {wish.most_alike} alike of {of} needs {needed} prints, got {wish.prints}."
    return Problem(what, where, f"{alike_that_would_do(demands, wish)} alike would do, or {needed} prints.")


def scarcest(demands: Sequence[Demand], wish: PrintsWish) -> tuple[Demand, int] | None:
    """The size that needs most prints so that few enough are alike, and how many it needs."""
    if wish.most_alike is None:
        return None
    needs = [(demand, -(-wish.sets(demand) // wish.most_sets(demand))) for demand in demands]
    return max(needs, key=lambda need: need[1], default=None)


def alike_that_would_do(demands: Sequence[Demand], wish: PrintsWish) -> int:
    """How many alike must be allowed for the prints that there are."""
    prints = wish.prints or 1
    return max(wish.alike_in_set(demand) * -(-wish.sets(demand) // prints) for demand in demands)


def not_so_many(key: str, wish: PrintsWish, on_hand: int, usable: int) -> Problem:
    """That fewer prints are on hand, or large enough, than are wished."""
    what = f"{wish.prints} prints are wanted, {on_hand} are on hand"
    what += "." if usable == on_hand else f", {usable} of them large enough."
    return Problem(what, f"assortment {key!r}", "Take fewer, or let the rest be bought.")


def lacking_on_hand(
    demands: Sequence[Demand], key: str, wish: PrintsWish, prints: int, lacking: Sequence[int]
) -> Problem:
    """That the prints on hand do not suffice, and by how much."""
    missing = [f"{int(n)} of {d.name!r}" for d, n in zip(demands, lacking, strict=True) if n]
    total = sum(d.count for d in demands)
    alike = "" if wish.most_alike is None else f" with at most {wish.most_alike} alike"
    what = (
        f"expected {total:,} pieces from {wish.prints or prints} of the {prints} prints on hand{alike}, "
        f"found room for {total - sum(lacking):,}: {', '.join(missing)} are lacking."
    )
    do = (
        "Add cloth, let the rest be bought, or allow more alike."
        if alike
        else "Add cloth, or let the rest be bought."
    )
    return Problem(what, f"assortment {key!r}", do)


def _check_batches(demands: Sequence[Demand], where: str, wish: PrintsWish) -> Iterator[Problem]:
    for demand in demands:
        batch = wish.batch(demand.name)
        if batch.gives < 1 or batch.together < 1:
            got = f"{batch.gives} and {batch.together}"
            what = f"expected {demand.name!r} to give 1 or more, and 1 or more together, got {got}."
            yield Problem(what, where, "Write how many alike come of a piece.")
        elif wish.most_alike is not None and wish.alike_in_set(demand) > wish.most_alike:
            least = wish.alike_in_set(demand)
            made = (
                f"each {batch.together} of {demand.name!r} make"
                if batch.together > 1
                else (f"each {demand.name!r} makes")
            )
            what = f"at most {wish.most_alike} alike cannot be kept: {made} {least} alike."
            yield Problem(what, where, f"Allow {least} alike, or make them in smaller batches.")


def _check_number(demands: Sequence[Demand], where: str, wish: PrintsWish) -> list[Problem]:
    sets = sum(map(wish.sets, demands))
    if wish.prints is None or not demands or wish.prints <= sets:
        return []
    apart = "" if sets == sum(demand.count for demand in demands) else f" in {sets} sets"
    total = sum(demand.count for demand in demands)
    what = f"{wish.prints} prints are wanted, but only {total} pieces{apart} are cut."
    return [Problem(what, where, f"Take {sets} prints, or cut more and smaller pieces.")]


def _check_places(
    places: Places, demands: Sequence[Demand], where: str, wish: PrintsWish
) -> Iterator[Problem]:
    number = len(places.sizes)
    named = [k for pair in places.touching for k in pair] + [k for block in places.blocks for k in block]
    if (
        number > MOST_PLACES
        or any(not 0 <= k < number for k in named)
        or any(one == other for one, other in places.touching)
    ):
        what = f"expected up to {MOST_PLACES:,} places, each touching others of them, got {number:,}."
        yield Problem(what, where, "Number the places from 0.")
        return
    if places.most_in_block is not None and places.most_in_block < 1:
        yield Problem("expected at least 1 alike in a block.", where, "Allow more, or leave it out.")
    there = {d.name: d.count * wish.batch(d.name).gives for d in demands}
    there[""] = sum(there.values())
    for size in sorted(set(places.sizes)):
        wanted = places.sizes.count(size)
        if wanted > there.get(size, 0):
            what = f"expected at least {wanted} of {size or 'all sizes'!r}, got {there.get(size, 0)}."
            yield Problem(what, where, "Cut as many as there are places.")
