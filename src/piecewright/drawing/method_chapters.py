"""The steps of a way as its picture tells them: in chapters, each with all that belongs together.

Terms:
- *moment*: a step with the table before it and after it;
- *cuts*: pieces that are cut apart or cut out before anything is sewn to them;
- *chapter*: one stack, or joins one after another, with the cuts that they need and what follows: what has
  been sewn cut across, trued up;
- *run*: joins one after another that add one more of the same pile each time: told once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from piecewright.bench.steps import AnyStep, CutApart, CutOut, Join, Stack, TrueUp
from piecewright.drawing.method_frames import Moment


@dataclass
class Chapter:
    """What belongs together: the cuts of pieces first, then sewing and what follows it."""

    cuts: list[Moment] = field(default_factory=list)
    work: list[Moment] = field(default_factory=list)

    @property
    def is_joining(self) -> bool:
        """Whether it tells joins."""
        return any(isinstance(moment.step, Join) for moment in self.work)

    @property
    def needs(self) -> list[str]:
        """The piles that are taken for the sewing."""
        return [name for moment in self.work for name in taken_by(moment.step)]


def taken_by(step: AnyStep) -> tuple[str, ...]:
    """The piles a step takes from, a name for each thing."""
    if isinstance(step, Stack):
        return (step.base, *(lay.name for lay in step.tops))
    if isinstance(step, Join):
        return tuple(part.name for part in step.parts for _ in range(part.count))
    return (step.takes,) if isinstance(step, CutApart | CutOut) else ()


def given_by(step: AnyStep) -> tuple[str, ...]:
    """The piles on which a step puts something."""
    if isinstance(step, Stack | CutApart):
        return tuple(dict.fromkeys(name for name in step.gives if name))
    return (step.gives,) if isinstance(step, Join | CutOut) else ()


def chapters(moments: Sequence[Moment]) -> list[Chapter]:
    """The moments in chapters; the last one may hold cuts alone."""
    found: list[Chapter] = []
    cuts: list[Moment] = []
    for moment in moments:
        step = moment.step
        if isinstance(step, CutApart | CutOut) and not moment.before.only(step.takes).seams:
            cuts.append(moment)
        elif isinstance(step, Stack) or (isinstance(step, Join) and not (found and found[-1].is_joining)):
            found.append(Chapter(work=[moment]))
        elif isinstance(step, Join | CutApart | CutOut | TrueUp) and found:
            found[-1].work.append(moment)
    for chapter in found:
        chapter.cuts = needed(cuts, chapter.needs)
        cuts = [moment for moment in cuts if moment not in chapter.cuts]
    return [*found, Chapter(cuts)] if cuts else found


def needed(cuts: Sequence[Moment], names: Sequence[str]) -> list[Moment]:
    """Those cuts that give what is named, and the cuts before them."""
    wanted, found = set(names), []
    for moment in reversed(cuts):
        if wanted & set(given_by(moment.step)):
            found.append(moment)
            wanted |= set(taken_by(moment.step))
    return found[::-1]


def one_after_another(cuts: Sequence[Moment]) -> list[list[Moment]]:
    """The cuts in turns: first those of whole pieces, then those of what came of them."""
    depth: dict[str, int] = {}
    turns: list[list[Moment]] = []
    for moment in cuts:
        level = max((depth.get(name, 0) for name in taken_by(moment.step)), default=0)
        depth |= dict.fromkeys(given_by(moment.step), level + 1)
        if level == len(turns):
            turns.append([])
        turns[level].append(moment)
    return turns


def runs(work: Sequence[Moment]) -> list[list[Moment]]:
    """The moments, joins that add the same to what the one before gave taken together."""
    found: list[list[Moment]] = []
    for moment in work:
        if found and _goes_on(found[-1], moment):
            found[-1].append(moment)
        else:
            found.append([moment])
    return found


def _goes_on(run: Sequence[Moment], moment: Moment) -> bool:
    last, step = run[-1].step, moment.step
    if not isinstance(last, Join) or not isinstance(step, Join) or step.times != last.times:
        return False
    added = [name for name in taken_by(step) if name != last.gives]
    before = [name for name in taken_by(last) if name in added]
    return len(added) == 1 == len(taken_by(step)) - 1 and len(before) == 1 == len(taken_by(last)) - 1
