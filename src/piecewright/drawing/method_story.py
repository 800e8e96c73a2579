"""A chapter told in frames: what to take, how to cut it, how it is sewn, what should come of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from piecewright.bench.bench import seam_of
from piecewright.bench.cloth import Cloth
from piecewright.bench.doing import Table
from piecewright.bench.steps import CutApart, CutOut, Join, Stack, TrueUp
from piecewright.drawing.frames import Frame, Item
from piecewright.drawing.look import LABEL
from piecewright.drawing.method_chapters import Chapter, given_by, one_after_another, runs, taken_by
from piecewright.drawing.method_frames import Moment, Taken, Telling, exact_measured
from piecewright.drawing.standing import is_level_rectangle, standing
from piecewright.drawing.writing import measured_size, wrapped
from piecewright.geometry.isometry import STILL, Isometry
from piecewright.geometry.polygon import bounds
from piecewright.methods.method import Besides
from piecewright.methods.recipe import MADE, Recipe
from piecewright.workroom.workroom import Workroom

Frames = tuple[Frame, ...]

MOST_JOINS = 5
"""With more joins than this the first two and the last are told, and the size to expect after the others."""

SHOWN_BETWEEN = 4
BESIDES_WIDTH = 84.0
"""So many things are shown of the joins left out; how wide the words on what else comes off may run."""


@dataclass(frozen=True)
class Story:
    """A recipe in a workroom, and how its frames are drawn."""

    recipe: Recipe
    workroom: Workroom
    telling: Telling

    def told(self, chapter: Chapter) -> list[Frames]:
        """The frames of a chapter, in groups that stay together."""
        first = (*self._taken(chapter), *self.cut(chapter.cuts))
        if not chapter.work:
            return [(*first, self._made(chapter.cuts[-1]))]
        if chapter.is_joining:
            groups = self.joined(chapter.work)
            return [(*first, *groups[0]), *groups[1:]] if len(first) < 2 else [first, *groups]
        head, *after = chapter.work
        assert isinstance(head.step, Stack)
        stacked = self.telling.stack(head, head.step)
        return [(*first, *stacked, self.opened(head), *(f for m in after for f in self._after(m)))]

    def _taken(self, chapter: Chapter) -> Frames:
        """What to take for a chapter: pieces as they are cut, and what was made of others before."""
        given = {name for moment in chapter.cuts for name in given_by(moment.step)}
        names = [name for moment in chapter.cuts for name in taken_by(moment.step) if name not in given]
        table = (chapter.cuts or chapter.work)[0].before
        if chapter.is_joining or not chapter.work:
            starts = [n for n in (*names, *chapter.needs) if n in self.telling.starts]
            things = [Taken(n, table.only(n), table.piles[n].count) for n in _in_order(starts)]
            return self.telling.take(things) if things else ()
        step = chapter.work[0].step
        assert isinstance(step, Stack)
        counted = Counter({name: table.piles[name].count for name in names})
        counted |= Counter(name for name in taken_by(step) if name not in given)
        before = chapter.work[0].before
        return self.telling.take(
            [
                Taken(name, (table if name in names else before).only(name), count, step.times)
                for name, count in counted.items()
            ]
        )

    def cut(self, cuts: Sequence[Moment]) -> Frames:
        """Pieces that are cut apart or cut out, one frame for each turn."""
        frames = []
        for turn in one_after_another(cuts):
            items = tuple(self._cut_item(moment) for moment in turn)
            by_template = any(isinstance(moment.step, CutOut) for moment in turn)
            frames.append(Frame("Cut round the template" if by_template else "Cut apart", items))
        return tuple(frames)

    def _cut_item(self, moment: Moment, labels: tuple[str, ...] = ()) -> Item:
        if isinstance(moment.step, CutOut):
            return self.telling.cut_out(moment, moment.step, labels)
        assert isinstance(moment.step, CutApart)
        return self.telling.cut_apart(moment, moment.step, labels)

    def joined(self, work: Sequence[Moment]) -> list[Frames]:
        """Joins, a group for each; of many the first two and the last, and what should come between."""
        told = runs(work)
        groups = list(self._join_groups(told))
        joins = [run for run in told if isinstance(run[0].step, Join)]
        if len(joins) <= MOST_JOINS or len(joins) < len(told) - 1:
            return groups
        between = joins[2:-1]
        things = [self.what_came(run[-1]) for run in between[-SHOWN_BETWEEN:]]
        frame = Frame("And so on", tuple(things))
        return [*groups[:2], (frame,), groups[len(joins) - 1]]

    def _join_groups(self, told: Sequence[Sequence[Moment]]) -> Iterator[Frames]:
        group: Frames = ()
        for run in told:
            first, last = run[0], run[-1]
            if isinstance(first.step, Join):
                if group:
                    yield group
                place = self.place(first, first.step.gives)
                more = "" if len(run) == 1 else f"Likewise {_others(len(run) - 1)}, press"
                group = (self.telling.join(first, first.step, place), self.opened(last, more))
            else:
                group = (*group, *self._after(first))
        yield group

    def _after(self, moment: Moment) -> Frames:
        """What follows sewing: cutting what has been sewn, truing it up."""
        step = moment.step
        if isinstance(step, TrueUp):
            if step.by != "trim" or step.pile != MADE:
                return ()
            cloth = moment.before.piles[step.pile].kinds[0][0]
            return (self.telling.true_up(cloth, step, self.place(moment, step.pile)),)
        (gives,) = given_by(step)
        if gives == MADE and isinstance(step, CutApart):
            return Frame("Cut across", (self._cut_item(moment),)), self._made(moment)
        many = isinstance(step, CutApart) and step.gives.count(gives) > 1
        caption = "Cut across" if many else "Cut to size"
        labels = self._labels(moment.after, gives)
        return (Frame(caption, (self._cut_item(moment, labels),)),)

    def _made(self, moment: Moment) -> Frame:
        """The unit where it is only cut."""
        return Frame("So it looks", (self.what_came(moment),))

    def opened(self, moment: Moment, caption: str = "") -> Frame:
        """What a seam makes, pressed, and what else comes off."""
        besides = (self._besides(moment, other) for other in self.recipe.method.besides)
        items = (self.what_came(moment), *(item for item in besides if item))
        return Frame(caption or "Open and press", items)

    def _besides(self, moment: Moment, other: Besides) -> Item | None:
        name = other.name(MADE)
        if name not in given_by(moment.step):
            return None
        labels = tuple(wrapped(f"and {other.says}", LABEL, BESIDES_WIDTH, 4))
        return self.telling.opened(moment.after.piles[name].kinds[0][0], STILL, labels)

    def what_came(self, moment: Moment) -> Item:
        """What a step gives, with how many there are and the size to expect."""
        others = {other.name(MADE) for other in self.recipe.method.besides}
        gives = next(name for name in given_by(moment.step) if name not in others)
        cloth = moment.after.piles[gives].kinds[0][0]
        return self.telling.opened(cloth, self.place(moment, gives), self._labels(moment.after, gives))

    def _labels(self, table: Table, gives: str) -> tuple[str, ...]:
        """How many there are, and the size to expect."""
        pile, unit, sizing = table.piles[gives], self.telling.unit, self.recipe.sizing
        count = f"makes {pile.count}"
        if gives != MADE:
            if self.recipe.method.printed:
                # Scraps are cut generously: what comes of them has no size until it is cut out.
                return ()
            cloth = pile.kinds[0][0]
            return (
                (count, exact_measured(_across(cloth), unit)) if is_level_rectangle(cloth.raw) else (count,)
            )
        if sizing.truing == "none":
            return count, exact_measured(sizing.before, unit)
        size = measured_size(sizing.before, unit)
        return (count, size, "leave as it is") if sizing.truing == "ease" else (count, size)

    def place(self, moment: Moment, gives: str) -> Isometry:
        """How what was made is turned for its picture: a unit that is ready stands upright."""
        if gives != MADE:
            return STILL
        table = moment.before if isinstance(moment.step, TrueUp) else moment.after
        return standing(table.piles[gives].kinds[0][0], self.recipe, self.workroom, seam_of(self.workroom))


def _across(cloth: Cloth) -> tuple[float, float]:
    x0, y0, x1, y1 = bounds(cloth.raw)
    return x1 - x0, y1 - y0


def _in_order(names: Sequence[str]) -> list[str]:
    return list(dict.fromkeys(names))


def _others(count: int) -> str:
    return "the other" if count == 1 else f"{count} more"
