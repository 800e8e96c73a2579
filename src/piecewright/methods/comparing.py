"""The ways to make so many of a unit, side by side: the least cost first.

Terms:
- *way*: a recipe for a number of units, with what it takes;
- *made from*: what a way makes of squares of a given size, and whether that is short, as wanted or over.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import inf
from typing import Literal

from piecewright.bench.as_drawn import compare
from piecewright.bench.bench import seam_of
from piecewright.bench.truing import Allowed, true_up
from piecewright.design.kinds import KINDS
from piecewright.design.kinds.kind import with_article
from piecewright.measure.length import ZERO, Length
from piecewright.measure.number import shortened
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.methods import is_named, ways_for
from piecewright.methods.effort import Effort, cost_of, effort_of
from piecewright.methods.kinds import name_of
from piecewright.methods.method import LARGEST, Method, Unit
from piecewright.methods.recipe import Recipe, make_recipe
from piecewright.methods.trial import Trial, try_out
from piecewright.methods.verdicts import Standing as BesideWanted
from piecewright.methods.verdicts import standing_of
from piecewright.methods.wished import against, on_marks, with_larger_marks
from piecewright.problems import Problem, Refused
from piecewright.toml_places import nearest
from piecewright.workroom.wishes import wishes_from
from piecewright.workroom.workroom import Workroom

MOST_UNITS = 100_000
NAMES = (
    *("first", "second", "third", "fourth", "fifth", "sixth"),
    *("seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth"),
)

Pair = tuple[float, float]
StartSize = tuple[float, float, int]
Standing = BesideWanted | Literal["no such unit"]


@dataclass(frozen=True)
class Way:
    """A recipe for `count` units: its effort, and its cost as minutes in the workroom's terms.

    Figures are for whole batches; sizes in inches, areas in square inches.
    """

    recipe: Recipe
    count: int
    unfinished: tuple[Length, Length]
    effort: Effort
    cost: float
    liked: bool
    off_marks: bool = False

    @property
    def name(self) -> str:
        """What the way is called."""
        return self.recipe.method.name

    @property
    def batches(self) -> int:
        """How many batches are made."""
        return self.recipe.batches(self.count)

    @property
    def left_over(self) -> int:
        """The units that whole batches make beyond what is wanted."""
        return self.batches * self.recipe.method.makes - self.count

    @property
    def cloth(self) -> float:
        """The area of all starts."""
        return self.recipe.cloth_area * self.batches

    @property
    def offcuts(self) -> float:
        """The area of what is cut away, truing up included."""
        return max(self.recipe.offcuts * self.batches, 0.0)

    @property
    def start_exact(self) -> list[StartSize]:
        """Width, height and count of each start of one batch, as solved."""
        exact = self.recipe.sizing.exact
        return [(exact[s.width], exact[s.height], s.count) for s in self.recipe.method.starts]

    @property
    def start(self) -> list[tuple[Length, Length, int]]:
        """The same as they are cut."""
        starts = zip(self.recipe.start_sizes(), self.recipe.method.starts, strict=True)
        return [(width, height, start.count) for (width, height), start in starts]


@dataclass(frozen=True)
class MadeFrom:
    """What a way makes from starts of given sizes; inches.

    `size` is what a unit measures before truing up, None where none comes off; `off` by how much it is
    short (below zero) or over. *Over* leaves enough to trim, a *sliver* too little to trim and too much
    to ease in.
    """

    recipe: Recipe
    size: Pair | None
    off: float
    standing: Standing


def unit_wanted(
    kind: str, width: Length, height: Length, measures: tuple[Length, ...] = (), hand: str = ""
) -> Unit:
    """The unit of a kind and finished size, its fabrics told by their number.

    Raises Refused where there is no such unit.
    """
    kind_named(kind)
    if kind == "geese" and width == height:
        what = f"a flying goose is twice as wide as it is high, got one size, {width}."
        raise Refused(Problem(what, do="Write width x height, such as 4 x 2."))
    known = KINDS[kind]
    if hand and hand not in known.hands:
        hands = " or ".join(known.hands) if known.hands != ("",) else "no hand"
        raise Refused(Problem(f"{with_article(known.name)} has {hands}, got {shortened(hand)}.", "--hand"))
    if len(measures) != len(known.measures) and not known.more_measures:
        named = " and ".join(known.measures) or "nothing"
        got = f"{len(measures)} lengths" if len(measures) > 1 else "one length" if measures else "none"
        what = f"{with_article(known.name)} needs {named} besides its size, got {got}."
        raise Refused(Problem(what, "--measure", "Give finished lengths, with commas between them."))
    many = len(measures) if known.more_fabrics and measures else len(known.fabrics)
    if many > len(NAMES):
        raise Refused(Problem(f"expected up to {len(NAMES)} strips, got {many}."))
    unit = Unit(kind, NAMES[:many], width, height, measures, hand or known.hands[0])
    unit.refuse_nonsense()
    return unit


def kind_named(kind: str) -> str:
    """The kind, where it is one; raises Refused where it is none."""
    if kind not in KINDS:
        what = f"unknown kind of unit {shortened(kind)}."
        near = nearest(kind, KINDS)
        guess = f"Did you mean {near}? " if near else ""
        raise Refused(Problem(what, "kind", f"{guess}Known here: {', '.join(KINDS)}."))
    return kind


def check_count(count: int) -> None:
    """Raises Refused for a number of units that is not from 1 to 100,000."""
    if not 1 <= count <= MOST_UNITS:
        raise Refused(Problem(f"expected from 1 to {MOST_UNITS:,} units, got {count:,}."))


def compare_ways(unit: Unit, count: int, workroom: Workroom) -> tuple[Way, ...]:
    """The ways to make `count` units: liked ones first, then those on the ruler's marks, then by cost.

    Ways that the workroom refuses and ways that cannot make the unit are left out. Raises Refused when
    none is left, or for a count that is not from 1 to 100,000.
    """
    check_count(count)
    recipes, reasons = _recipes(unit, workroom)
    if not recipes:
        raise Refused(*reasons)
    ways = [
        Way(
            recipe,
            count,
            unit.raw(workroom.take_up),
            effort_of(recipe, count, workroom),
            cost_of(recipe, count, workroom),
            any(is_named(recipe.method, word) for word in workroom.liked),
            not on_marks(recipe, workroom) or recipe.method.printed,
        )
        for recipe in recipes
    ]
    return tuple(sorted(ways, key=lambda way: (not way.liked, way.off_marks, way.cost)))


def ways_left_out(unit: Unit, workroom: Workroom) -> tuple[Problem, ...]:
    """Why other ways are not among those compared: a note for each."""
    return tuple(Problem(p.what, p.where, p.do, "note") for p in _recipes(unit, workroom)[1])


def from_size(unit: Unit, sizes: tuple[Length, ...], workroom: Workroom) -> tuple[MadeFrom, ...]:
    """What each way makes from starts of these sizes, in the order of METHODS.

    One size is the side of the squares. Flying geese need two: the large square, or the width of the
    rectangle, then the small squares. Raises Refused for another number of sizes, or sizes that are none.
    """
    recipes, reasons = _recipes(unit, workroom)
    if not recipes:
        raise Refused(*reasons)
    needed = recipes[0].method.unknowns
    if len(sizes) != needed:
        word = "one size, such as 4" if needed == 1 else "two sizes, large and small, such as 5 1/4, 2 7/8"
        what = f"a {name_of(unit.kind)} starts from {word}; got {len(sizes)}."
        raise Refused(Problem(what, do="Write a point, not a comma, in 2.5." if needed == 1 else ""))
    for size in sizes:
        if not ZERO < size <= LARGEST:
            raise Refused(Problem(f"expected squares above 0, up to {LARGEST}, got {size}."))
    # Ways that start from other things, such as strips or whole sheets, are not asked.
    asked = [recipe for recipe in recipes if len(recipe.sizing.exact) == needed]
    return tuple(_made_from(recipe, tuple(map(float, sizes)), workroom) for recipe in asked)


@lru_cache(maxsize=64)
def _recipes(unit: Unit, workroom: Workroom) -> tuple[tuple[Recipe, ...], tuple[Problem, ...]]:
    wishes = wishes_from(workroom.wishes)
    room = with_larger_marks(workroom) if wishes.whole_marks else workroom
    recipes: list[Recipe] = []
    reasons: list[Problem] = []
    for method in ways_for(unit, workroom):
        if any(is_named(method, word) for word in workroom.refused):
            reasons.append(Problem("your workroom refuses this way.", method.name))
            continue
        try:
            recipe = make_recipe(method, unit, room)
        except Refused as refused:
            reasons += [Problem(_after(method, p.what), method.name, p.do) for p in refused.problems]
            continue
        unwished = against(recipe, room, wishes)
        if unwished:
            reasons.append(Problem(f"{unwished}, which is not what you wish.", method.name))
        else:
            recipes.append(recipe)
    return tuple(recipes), tuple(reasons)


def _after(method: Method, what: str) -> str:
    return what.removeprefix(f"{method.name}: ")


def _made_from(recipe: Recipe, sizes: tuple[float, ...], workroom: Workroom) -> MadeFrom:
    unit, raw = recipe.unit, recipe.unit.raw(workroom.take_up)
    try:
        trial = try_out(recipe.method, unit, sizes, workroom)
    except Refused:
        return MadeFrom(recipe, None, 0.0, "no such unit")
    offs = [made - float(wanted) for made, wanted in zip(trial.size, raw, strict=True)]
    off = min(offs) if min(offs) < -EDGE_MATCH else max(offs)
    standing: Standing = standing_of(off, workroom)
    if standing != "short" and not _shows_the_unit(recipe, trial, workroom):
        standing = "no such unit"
    return MadeFrom(recipe, trial.size, off, standing)


def _shows_the_unit(recipe: Recipe, trial: Trial, workroom: Workroom) -> bool:
    """Whether what came off, cut to size from its landmark, is the unit: its seams lie where they should."""
    unit, take_up = recipe.unit, workroom.take_up
    width, height = (float(side) for side in unit.raw(take_up))
    seam, anything = seam_of(workroom), Allowed(float(workroom.ease), -inf)
    try:
        trued = [
            true_up(cloth, recipe.method.landmark, (width, height), "trim", seam, anything)
            for cloth in trial.kinds
        ]
    except Refused:
        return False
    named = dict(zip(unit.fabrics, unit.fabrics, strict=True))
    return not any(compare(cloth, unit.drawing, named).differences for cloth in trued)
