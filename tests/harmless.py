"""The changes of a plan that do no harm, each with the reason why: the whole list.

A change that the bench lets pass must be one of these, and must still make the quilt that was drawn, with
all its seam allowances. Anything else that passes is a hole in the bench.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import shapely

from allowance_oracle import WITHIN
from piecewright.bench.bench import Bench
from piecewright.bench.cloth import Cloth, Face
from piecewright.bench.piles import made_alike
from piecewright.bench.plan import Plan
from piecewright.bench.replay import Replay
from piecewright.bench.steps import (
    AnyStep,
    CutApart,
    CutOut,
    Gather,
    Join,
    Press,
    Ruled,
    Stack,
    Subcut,
    TrueUp,
)
from piecewright.geometry.matching import Marked, Picture, outline_turns, turns_onto
from piecewright.geometry.point import near, side_of
from piecewright.geometry.polygon import same_polygon
from piecewright.measure.tolerance import AS_DRAWN, WELD
from plan_changes import Change, names_given


@dataclass(frozen=True)
class Passed:
    """A change that passed: the plan as it was, the bench before the changed step; both verdicts and tops."""

    change: Change
    plan: Plan
    bench: Bench
    before: Replay
    after: Replay
    top_before: Cloth
    top_after: Cloth

    @property
    def step(self) -> AnyStep:
        """The step as it was."""
        return self.plan.steps[self.change.step]

    @property
    def new_step(self) -> AnyStep:
        """The step as it has become."""
        return self.change.steps[self.change.step]

    def is_field(self, *names: str) -> bool:
        """Whether one of these fields was changed."""
        return any(part in names for part in self.change.path)


@dataclass(frozen=True)
class Harmless:
    """A kind of change that does no harm: what it is, why, and how one tells it."""

    what: str
    reason: str
    holds: Callable[[Passed], bool]


def _size_not_said(passed: Passed) -> bool:
    return passed.change.path == ("expect",) and passed.change.after is None


def _size_other_way_round(passed: Passed) -> bool:
    return passed.change.path[:1] == ("expect",) and "exchanged" in passed.change.kind


def _other_order_at_once(passed: Passed) -> bool:
    in_one_go = passed.is_field("sew", "cut", "tops", "sections", "seams", "takes", "changes")
    return in_one_go and passed.change.kind == "entry exchanged with the next"


def _same_line(passed: Passed) -> bool:
    if passed.change.kind != "place" or not passed.is_field("sew", "cut"):
        return False
    old, new = (_ruled(step, passed.change.path) for step in (passed.step, passed.new_step))
    return all(
        abs(side_of(p, (old.x, old.y), (old.to_x, old.to_y))) <= WELD
        for p in ((new.x, new.y), (new.to_x, new.to_y))
    )


def _ruled(step: AnyStep, path: Sequence[str | int]) -> Ruled:
    lines = getattr(step, str(path[0]))
    line = lines[path[1]]
    assert isinstance(line, Ruled)
    return line


def _trimmed_later(passed: Passed) -> bool:
    step = passed.step
    if isinstance(step, CutApart):
        return passed.is_field("cut", "gives") and _is_trimmed(step, passed.plan)
    strip = _section(passed)
    cut_up = [s for s in passed.plan.steps if isinstance(s, CutApart) and s.takes == strip]
    return bool(cut_up) and all(_is_trimmed(s, passed.plan) for s in cut_up)


def _is_trimmed(step: CutApart, plan: Plan) -> bool:
    """Whether every length that is cut there is trimmed to size afterwards."""
    trimmed = {s.pile for s in plan.steps if isinstance(s, TrueUp) and s.by == "trim"}
    return {name for name in step.gives if name} <= trimmed


def _looks_alike_turned(passed: Passed) -> bool:
    step, new = passed.step, passed.new_step
    if not (isinstance(step, Join) and isinstance(new, Join) and passed.is_field("entry", "exit")):
        return False
    number = passed.change.path[1]
    assert isinstance(number, int)
    part, turned = step.parts[number], new.parts[number]
    cloth = passed.bench.cloth(part.name)
    if len(cloth.cloth_of) == 1:
        places = list(outline_turns(cloth.net, cloth.net, AS_DRAWN))
    else:
        picture = _as_it_shows(cloth, passed.bench.rules.one_way)
        places = list(turns_onto(picture, picture, AS_DRAWN))
    sides = zip((*part.entry, *part.exit), (*turned.entry, *turned.exit), strict=True)
    pairs = [(cloth.sides[old], cloth.sides[now]) for old, now in sides if old != now]
    return any(all(near(place.at(old[0]), now[0], AS_DRAWN) for old, now in pairs) for place in places)


def _as_it_shows(cloth: Cloth, one_way: frozenset[str]) -> Picture:
    """What a cloth looks like: of a print that does not run one way the grain is not seen."""
    patches = (Marked(f.fabric, f.seen, f.grain if f.fabric in one_way else None) for f in cloth.finished)
    return Picture(cloth.net, tuple(patches))


def _nests_as_well(passed: Passed) -> bool:
    nests = (passed.before.nests, passed.before.clashes) == (passed.after.nests, passed.after.clashes)
    return passed.is_field("towards") and passed.change.kind == "word" and nests


def _independent(passed: Passed) -> bool:
    if passed.change.kind != "exchanged with the next":
        return False
    one, two = passed.plan.steps[passed.change.step : passed.change.step + 2]
    return not (_changes(one) & _looks_at(two) or _changes(two) & _looks_at(one))


def _gathered_before_truing(passed: Passed) -> bool:
    if passed.change.kind != "exchanged with the next":
        return False
    one, two = passed.plan.steps[passed.change.step : passed.change.step + 2]
    return isinstance(one, TrueUp) and isinstance(two, Gather) and one.pile == two.pile


def _changes(step: AnyStep) -> set[str]:
    """The piles of which a step makes something else than more or fewer of the same."""
    return {*names_given(step), *_own(step)}


def _looks_at(step: AnyStep) -> set[str]:
    """The piles that must be there, as they are, for a step."""
    takes = getattr(step, "takes", "")
    taken = [*((takes,) if isinstance(takes, str) else takes), getattr(step, "base", "")]
    taken += [lay.name for lay in getattr(step, "tops", ())]
    taken += [part.name for part in getattr(step, "parts", ())]
    return {name for name in (*taken, *_own(step)) if name}


def _own(step: AnyStep) -> set[str]:
    """The pile that a step works on where it lies."""
    return {step.pile} if hasattr(step, "pile") else set()


def _other_way_named(passed: Passed) -> bool:
    return passed.is_field("turned") and passed.change.kind == "flag"


def _still_reaches(passed: Passed) -> bool:
    section = _section(passed)
    return section is not None and section == passed.plan.finish.backing


def _only_offcuts_differ(passed: Passed) -> bool:
    """A size or a place was changed; every patch of the top and its allowance are the very same."""
    sized = passed.change.kind == "length" and isinstance(passed.step, Subcut)
    moved = passed.change.kind == "place" or passed.is_field("beside")
    if not (sized or (moved and isinstance(passed.step, Stack | CutApart | CutOut))):
        return False
    return _the_very_same(passed)


def _from_another_part(passed: Passed) -> bool:
    """Names of flat cloth of one fabric are exchanged, and what is cut from it is the very same."""
    if not isinstance(passed.step, CutApart | Subcut) or not {"gives", "takes"} & set(passed.change.path):
        return False
    cloth = passed.bench.pile(passed.step.takes).kinds
    return all(len(c.faces) == 1 and len(c.raw) == 4 for c, _ in cloth) and _the_very_same(passed)


def _the_very_same(passed: Passed) -> bool:
    """Whether every patch of the top, with its allowance, is the same as it was before the change."""
    top, pieces = passed.top_after, passed.top_before.finished
    reach = float(passed.plan.workroom.take_up) - WITHIN
    for place in turns_onto(top.picture(), passed.top_before.picture(), AS_DRAWN):
        lying = [face.placed(place) for face in top.finished]
        if all(any(_same_piece(one, two, reach) for two in lying) for one in pieces):
            return True
    return False


def _same_piece(one: Face, two: Face, reach: float) -> bool:
    """Whether two pieces are the same as far as that around what is seen; beyond lie dog ears."""
    if one.fabric != two.fabric or not same_polygon(one.seen, two.seen, AS_DRAWN):
        return False
    around = shapely.Polygon(one.seen).buffer(reach)
    differing = shapely.Polygon(one.flat).symmetric_difference(shapely.Polygon(two.flat))
    return bool(differing.intersection(around).area <= WITHIN * around.length)


def _same_cut(passed: Passed) -> bool:
    """Another landmark was named, and one trues up along the same lines, or a strip of one cloth."""
    step, new = passed.step, passed.new_step
    if not (isinstance(step, TrueUp) and isinstance(new, TrueUp) and passed.is_field("landmark")):
        return False
    trued = []
    for one in (step, new):
        passed.bench.do(one)
        trued.append(passed.bench.pile(one.pile).kinds)
        passed.bench.undo()
    return all(
        (made_alike(cloth, other) and same_polygon(cloth.raw, other.raw, AS_DRAWN))
        or len(cloth.cloth_of) == len(other.cloth_of) == 1
        for (cloth, _), (other, _) in zip(*trued, strict=True)
    )


def _is_over(passed: Passed) -> bool:
    """A pile was not pressed or trued up of which nothing goes into the quilt."""
    step, plan = passed.step, passed.plan
    if not isinstance(step, Press | TrueUp) or passed.change.kind not in ("left out", "name"):
        return False
    taken = {name for other in plan.steps for name in _looks_at(other) - _own(other)}
    return plan.left_over.get(step.pile, 0) > 0 and step.pile not in taken


def _gathered_with(passed: Passed) -> bool:
    """What was cut was named after another pile that is gathered on the same one."""
    if not passed.is_field("gives") or passed.change.kind != "name":
        return False
    names = {passed.change.before, passed.change.after}
    gathers = [step for step in passed.plan.steps if isinstance(step, Gather)]
    return any(names <= {*step.takes, step.pile} for step in gathers)


def _section(passed: Passed) -> str | None:
    """The pile of a section whose size was changed."""
    step, path = passed.step, passed.change.path
    if not isinstance(step, Subcut) or passed.change.kind != "length":
        return None
    assert isinstance(path[1], int)
    return step.sections[path[1]].gives


HARMLESS = (
    Harmless(
        "a step does not say which size to expect",
        "no cloth is handled otherwise; whatever the size is, the next join and the drawing still check it",
        _size_not_said,
    ),
    Harmless(
        "a size to expect is written high x wide",
        "a thing is measured along its longer side, whichever way it lies",
        _size_other_way_round,
    ),
    Harmless(
        "lines, tops, sections, seams or piles that are handled in one go are named in another order",
        "the step is over only when all of them are done",
        _other_order_at_once,
    ),
    Harmless(
        "a marked line begins or ends elsewhere on itself",
        "a cut goes all the way through, and stitching is checked to reach as far as the seam shows",
        _same_line,
    ),
    Harmless(
        "a long strip, or a length of it, is cut a little longer or shorter, or like lengths change names",
        "it is cut two inches over and trimmed to the measured top; truing up refuses what is too short",
        _trimmed_later,
    ),
    Harmless(
        "a thing is entered by another side from which it looks the same",
        "it comes to lie as it was drawn: a plain square, a strip, a unit with that symmetry",
        _looks_alike_turned,
    ),
    Harmless(
        "a seam is pressed to its other side, or open, where no more and no fewer seams nest",
        "it meets no other seam, or its like from both sides; dark side and bulk are wishes, not the quilt",
        _nests_as_well,
    ),
    Harmless(
        "two steps of which neither needs what the other makes change places",
        "they can be done in either order, or by two people",
        _independent,
    ),
    Harmless(
        "units that look alike are put on one pile before they are trued up",
        "each is trued up by its own seams, whichever pile it lies on",
        _gathered_before_truing,
    ),
    Harmless(
        "a piece is named by its other side first",
        "the same cloth with the same grain lies in the pile",
        _other_way_named,
    ),
    Harmless(
        "a backing of one width of cloth is cut a mark larger or smaller",
        "it still reaches as far beyond the top as it must, which the end of the replay checks",
        _still_reaches,
    ),
    Harmless(
        "a piece is a little larger or smaller, or it or a cut lies a little off, and only offcuts differ",
        "every patch of the top and its allowance are the same; what differs falls away, or is a dog ear",
        _only_offcuts_differ,
    ),
    Harmless(
        "strips or pieces are cut from another part of the same cloth that is large enough",
        "what is over falls away; a part that is too small, or not there, is told at once",
        _from_another_part,
    ),
    Harmless(
        "another landmark is named where both find the same place",
        "the ruler comes to lie along the same lines; of a long strip any part will do",
        _same_cut,
    ),
    Harmless(
        "units that are over are not pressed or trued up",
        "nothing of that pile goes into the quilt; it is done when they are used",
        _is_over,
    ),
    Harmless(
        "a unit is put on another pile, and both piles are gathered on one",
        "gathering takes all of both, and refuses what does not look alike",
        _gathered_with,
    ),
)


def why_harmless(passed: Passed) -> Harmless | None:
    """The entry of the list that covers a change, or None."""
    return next((entry for entry in HARMLESS if entry.holds(passed)), None)
