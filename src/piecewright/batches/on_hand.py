"""Making units from pieces of cloth on hand: how many of which way, from which pieces, what remains.

Terms:
- *on hand*: equal pieces of a size, for one fabric of the unit or for any;
- *a piece's starts*: how many starts of a size a piece gives, cut in rows, lying or standing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from piecewright.batches.alike import kinds_alike
from piecewright.batches.programme import Mix, Offer, best_mix
from piecewright.measure.length import Length
from piecewright.methods.effort import SECONDS_PER_MINUTE, cost_of
from piecewright.methods.grid_on_piece import grid_on_piece
from piecewright.methods.method import Unit
from piecewright.methods.recipe import Recipe, make_recipe
from piecewright.problems import Problem, Refused
from piecewright.workroom.workroom import Workroom

MOST_PIECES = 10_000


@dataclass(frozen=True)
class OnHand:
    """`count` pieces of a size; `fabric` is one of the unit's fabrics, or empty where any will do."""

    count: int
    width: Length
    height: Length
    fabric: str = ""


@dataclass(frozen=True)
class FromHand:
    """Batches of a recipe; for each of its starts the pieces it is cut from, and how many of them."""

    recipe: Recipe
    batches: int
    stock: tuple[OnHand, ...]
    pieces: tuple[int, ...]


@dataclass(frozen=True)
class Answer:
    """What is made from what is on hand: the batches, `made` in all, and how good that is."""

    parts: tuple[FromHand, ...]
    made: int
    mix: Mix


def grids_for(unit: Unit, on_hand: Sequence[OnHand], workroom: Workroom) -> tuple[Recipe, ...]:
    """For half-square triangles the grid that makes most of each size of piece; none for other kinds."""
    found: dict[str, Recipe] = {}
    if unit.kind != "hst":
        return ()
    for piece in on_hand:
        try:
            on_piece = grid_on_piece(unit, piece.width, piece.height, workroom)
            found.setdefault(on_piece.method.name, make_recipe(on_piece.method, unit, workroom))
        except Refused:
            continue
    return tuple(found.values())


def starts_in(piece: OnHand, width: Length, height: Length) -> int:
    """How many starts of a size one piece gives, cut in rows one way or the other; a count."""
    ways = ((width, height), (height, width))
    return max((piece.width // across) * (piece.height // up) for across, up in ways)


def from_hand(recipes: Sequence[Recipe], count: int, on_hand: Sequence[OnHand], workroom: Workroom) -> Answer:
    """The cheapest way to make `count` units from what is on hand, of these recipes for one unit.

    Raises Refused where the pieces do not suffice, saying how many units they give at most.
    """
    stock = [piece.count for piece in on_hand]
    if sum(stock) > MOST_PIECES:
        raise Refused(Problem(f"expected up to {MOST_PIECES:,} pieces on hand, got {sum(stock):,}"))
    kinds = kinds_alike(recipes)
    if len(kinds) > 1:
        return _best_of_kinds(kinds, count, on_hand, workroom)
    offered = [(r, stocks) for r in recipes for stocks in _stocks(r, on_hand)]
    if not offered:
        raise Refused(
            Problem("no piece on hand is large enough for a start of any way", do="Add larger pieces.")
        )
    offers = [_offer(recipe, stocks, on_hand, workroom) for recipe, stocks in offered]
    try:
        mix = best_mix([count], offers, stock)
    except Refused as short:
        most = _most_from(offers, stock, count)
        what = f"the pieces on hand give {most} of these units, {count} are wanted"
        raise Refused(Problem(what, do=f"Add pieces, or want {most}." if most else "Add pieces.")) from short
    parts = [
        FromHand(recipe, times, tuple(on_hand[k] for k in stocks), _pieces(recipe, stocks, on_hand, times))
        for (recipe, stocks), times in zip(offered, mix.times, strict=True)
        if times
    ]
    return Answer(tuple(parts), sum(part.batches * part.recipe.method.makes for part in parts), mix)


def _best_of_kinds(
    kinds: Sequence[Sequence[Recipe]], count: int, on_hand: Sequence[OnHand], workroom: Workroom
) -> Answer:
    """The cheapest answer of ways whose units look alike; if there is none, the refusal of most units."""
    answers, refusals = [], []
    for kind in kinds:
        try:
            answers.append(from_hand(kind, count, on_hand, workroom))
        except Refused as refused:
            refusals.append(refused)
    if not answers:
        raise min(refusals, key=lambda refused: "large enough" in str(refused))
    return min(answers, key=lambda answer: answer.mix.cost)


def most_from_hand(recipes: Sequence[Recipe], on_hand: Sequence[OnHand], workroom: Workroom) -> Answer:
    """As many units as the pieces on hand give, the cheapest way; raises Refused where they give none."""
    kinds = kinds_alike(recipes)
    if len(kinds) > 1:
        return _most_of_kinds(kinds, on_hand, workroom)
    stock = [piece.count for piece in on_hand]
    offered = [(r, stocks) for r in recipes for stocks in _stocks(r, on_hand)]
    offers = [_offer(recipe, stocks, on_hand, workroom) for recipe, stocks in offered]
    above = 1
    while offers and _gives(offers, stock, above):
        above *= 2
    most = _most_from(offers, stock, above) if offers else 0
    if not most:
        raise Refused(Problem("the pieces on hand give none of these units", do="Add larger pieces."))
    return from_hand(recipes, most, on_hand, workroom)


def _most_of_kinds(
    kinds: Sequence[Sequence[Recipe]], on_hand: Sequence[OnHand], workroom: Workroom
) -> Answer:
    answers = []
    for kind in kinds:
        try:
            answers.append(most_from_hand(kind, on_hand, workroom))
        except Refused:
            continue
    if not answers:
        raise Refused(Problem("the pieces on hand give none of these units", do="Add larger pieces."))
    return max(answers, key=lambda answer: (answer.made, -answer.mix.cost))


def _gives(offers: Sequence[Offer], stock: Sequence[int], count: int) -> bool:
    try:
        best_mix([count], offers, stock)
    except Refused:
        return False
    return True


def _stocks(recipe: Recipe, on_hand: Sequence[OnHand]) -> Iterator[tuple[int, ...]]:
    """For each start of a batch the stock it may be cut from, in every combination."""
    sizes = zip(recipe.method.starts, recipe.start_sizes(), strict=True)
    fitting = [
        [
            k
            for k, piece in enumerate(on_hand)
            if piece.fabric in ("", recipe.unit.fabrics[start.fabric]) and starts_in(piece, *size)
        ]
        for start, size in sizes
    ]
    return product(*fitting)


def _shares(recipe: Recipe, stocks: Sequence[int], on_hand: Sequence[OnHand]) -> list[float]:
    """How much of a piece each start of one batch takes."""
    starts = zip(recipe.method.starts, recipe.start_sizes(), stocks, strict=True)
    return [start.count / starts_in(on_hand[k], *size) for start, size, k in starts]


def _pieces(recipe: Recipe, stocks: Sequence[int], on_hand: Sequence[OnHand], times: int) -> tuple[int, ...]:
    starts = zip(recipe.method.starts, recipe.start_sizes(), stocks, strict=True)
    return tuple(-(-start.count * times // starts_in(on_hand[k], *size)) for start, size, k in starts)


def _offer(recipe: Recipe, stocks: Sequence[int], on_hand: Sequence[OnHand], workroom: Workroom) -> Offer:
    takes: list[tuple[int, float]] = list(zip(stocks, _shares(recipe, stocks, on_hand), strict=True))
    cost = cost_of(recipe, recipe.method.makes, workroom)
    set_up = workroom.pace.set_up / SECONDS_PER_MINUTE
    return Offer(recipe.method.name, {0: recipe.method.makes}, cost, set_up, tuple(takes))


def _most_from(offers: Sequence[Offer], stock: Sequence[int], above: int) -> int:
    """The largest number of units that the stock gives, found by halving; below `above`."""
    low, high = 0, above
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if _gives(offers, stock, middle) else (low, middle)
    return low
