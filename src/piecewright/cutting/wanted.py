"""What is wanted of one cloth, what the cloth is like, and what is wrong with either."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from piecewright.measure.length import ZERO, Length, Unit, inches
from piecewright.measure.showing import figure, show
from piecewright.problems import Problem

# No bolt is wider, and no quilt has more pieces of one size: such figures are slips of the hand.
WIDEST_CLOTH = inches(200)
MOST_PIECES = 10_000_000


@dataclass(frozen=True, slots=True)
class Demand:
    """Equal pieces wanted: `width` lies across the cloth (crosswise grain), `height` along its length.

    `may_turn` allows a quarter turn on the cloth. A `whole_strip` is as long as the usable width, whatever
    `width` says (for binding and borders). What is a `reserve` is cut before anything else (borders).
    Names are unlike; triangles are wanted as the squares they are cut from.
    """

    name: str
    width: Length
    height: Length
    count: int
    may_turn: bool = True
    whole_strip: bool = False
    reserve: bool = False


@dataclass(frozen=True, slots=True)
class Supply:
    """One cloth as it is bought: its usable width and what must be bought besides the strips.

    `straightening` is lost once and `squaring` with each strip, `shrinkage` is a share of the length,
    `spare_strips` and `spare_length` are for slips of the cutter, and the shop cuts in `buying_step`. Pieces
    are not turned to stand taller than `ruler_length`, where given, unless they fit in no other way.
    Messages are written in `unit`.
    """

    key: str
    usable_width: Length
    buying_step: Length
    straightening: Length = ZERO
    shrinkage: float = 0.0
    spare_strips: int = 0
    ruler_length: Length | None = None
    unit: Unit = "in"
    squaring: Length = ZERO
    spare_length: Length = ZERO

    @property
    def share_left(self) -> Fraction:
        """The share of the length that is left after washing, exactly as typed (0.05 leaves 19/20)."""
        return 1 - Fraction(str(self.shrinkage))


@dataclass(frozen=True, slots=True)
class Lie:
    """One way a piece may lie on the cloth: its width across, its height along, turned or not."""

    width: Length
    height: Length
    turned: bool


def lies(demand: Demand, supply: Supply) -> tuple[Lie, ...]:
    """The ways in which the pieces may lie on the cloth, upright first; none where they are too wide."""
    if demand.whole_strip:
        return (Lie(supply.usable_width, demand.height, False),)
    upright = Lie(demand.width, demand.height, False)
    fitting = [upright] if upright.width <= supply.usable_width else []
    if not demand.may_turn or demand.width == demand.height or demand.height > supply.usable_width:
        return tuple(fitting)
    too_tall = supply.ruler_length is not None and max(demand.height, supply.ruler_length) < demand.width
    if fitting and too_tall:
        return tuple(fitting)
    return (*fitting, Lie(demand.height, demand.width, True))


def check_wanted(demands: Sequence[Demand], supply: Supply) -> list[Problem]:
    """Everything that makes it impossible to cut the pieces from the cloth, each in one sentence."""
    problems = _check_supply(supply)
    width_is_sound = ZERO < supply.usable_width <= WIDEST_CLOTH
    names: set[str] = set()
    for demand in demands:
        problems += _check_demand(demand, supply, width_is_sound)
        if demand.name in names:
            what = f"expected every size to have its own name, got {demand.name!r} twice."
            problems.append(_problem(supply, what, "Add up the counts, or name them apart."))
        names.add(demand.name)
    return problems


def _check_supply(supply: Supply) -> list[Problem]:
    found = []
    if not ZERO < supply.usable_width <= WIDEST_CLOTH:
        widest, got = show(WIDEST_CLOTH, supply.unit), show(supply.usable_width, supply.unit)
        what = f"expected a usable width above 0 and up to {widest}, got {got}."
        found.append(_problem(supply, what, "Measure the cloth between the selvedges."))
    if not supply.buying_step > ZERO:
        what = f"expected a buying step above 0, got {show(supply.buying_step, supply.unit)}."
        found.append(_problem(supply, what, "Say in which steps the shop cuts."))
    if supply.straightening < ZERO:
        got = show(supply.straightening, supply.unit)
        what = f"expected a length of 0 or more for straightening, got {got}."
        found.append(_problem(supply, what, "Say how much is lost at the ends."))
    if supply.squaring < ZERO or supply.spare_length < ZERO:
        got = show(min(supply.squaring, supply.spare_length), supply.unit)
        what = f"expected a length of 0 or more to square up or to spare, got {got}."
        found.append(_problem(supply, what, "Say how much is lost, or leave it out."))
    if not 0 <= supply.shrinkage < 1:
        what = f"expected shrinkage as a share from 0 to less than 1, got {supply.shrinkage}."
        found.append(_problem(supply, what, "Write 3 per cent as 0.03."))
    if supply.spare_strips < 0:
        what = f"expected 0 or more spare strips, got {supply.spare_strips}."
        found.append(_problem(supply, what, "Write how many strips you want to spare."))
    return found


def _check_demand(demand: Demand, supply: Supply, width_is_sound: bool) -> list[Problem]:
    found = []
    if not 1 <= demand.count <= MOST_PIECES:
        what = f"expected from 1 to {MOST_PIECES:,} pieces of {demand.name!r}, got {demand.count:,}."
        found.append(_problem(supply, what, "Write how many pieces are wanted."))
    if not (demand.height > ZERO and (demand.whole_strip or demand.width > ZERO)):
        what = f"expected {demand.name!r} to have a size above 0, got {_size(demand, supply.unit)}."
        found.append(_problem(supply, what, "Write the size to cut."))
    elif width_is_sound and not lies(demand, supply):
        found.append(_too_wide(demand, supply))
    return found


def _too_wide(demand: Demand, supply: Supply) -> Problem:
    width, unit = show(supply.usable_width, supply.unit), supply.unit
    what = f"expected {demand.name!r} to fit across the cloth, {width}, got {_size(demand, unit)}."
    if demand.height > supply.usable_width:
        do = "Turning it would not help; join it from smaller pieces, or take wider cloth."
    else:
        across = show(demand.height, unit)
        do = f"Turned by a quarter it would fit ({across} across), but here it must not be turned."
    return _problem(supply, what, do)


def _problem(supply: Supply, what: str, do: str) -> Problem:
    return Problem(what, where=f"cloth {supply.key!r}", do=do)


def _size(demand: Demand, unit: Unit) -> str:
    return f"{figure(demand.width, unit)} x {show(demand.height, unit)}"
