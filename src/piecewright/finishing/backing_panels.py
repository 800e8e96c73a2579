"""How a back is divided into panels: how wide each is cut, so that the seams lie where they are wanted.

Terms:
- *panel*: a piece of backing as long as the back, cut along the length of the cloth;
- *place* of a seam: how far it lies from the middle of the back, left or upwards less than nothing;
- *whole* panel: one that is as wide as the cloth.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Literal

from piecewright.finishing.finishing import LEAST_PANEL
from piecewright.measure.length import ZERO, Length
from piecewright.measure.rounding import Ruler, round_down, round_up

SeamWish = Literal["anywhere", "in the middle", "off the middle", "beside a whole middle panel"]

Widths = tuple[Length, ...]


@dataclass(frozen=True)
class Dividing:
    """What is to be divided: so much `reach`, raw, from cloth of a usable width.

    `avoid` are places where a seam of the top lies; a seam of the back stays `clear` of them. One that is
    wanted off the middle lies at least `off` from it.
    """

    reach: Length
    usable_width: Length
    take_up: Length
    ruler: Ruler
    off: Length
    avoid: tuple[Length, ...] = ()
    clear: Length = ZERO

    @property
    def gain(self) -> Length:
        """What a whole panel between two seams reaches."""
        return self.usable_width - self.take_up * 2

    def up(self, length: Length) -> Length:
        """The length rounded up on the ruler."""
        return round_up(float(length), self.ruler)

    def raw(self, count: int) -> Length:
        """What so many panels measure together before they are joined."""
        return self.reach + self.take_up * 2 * (count - 1)


def fewest_panels(task: Dividing) -> int:
    """The fewest panels that reach."""
    return max(1, math.ceil((task.reach - task.take_up * 2).exact / task.gain.exact))


def seam_places(widths: Widths, take_up: Length) -> tuple[Length, ...]:
    """Where the seams lie, from the middle of the back."""
    starts = list(accumulate((width - take_up * 2 for width in widths), initial=take_up))
    whole = starts[-1] + take_up
    return tuple(start - whole / 2 for start in starts[1:-1])


def divided(task: Dividing, wish: SeamWish) -> Widths | None:
    """The cut widths of the panels with the seams where they are wanted; None where there is no such way.

    Of the ways with fewest panels, the one nearest to what is wished; a whole cloth needs no seam.
    """
    if task.reach <= task.usable_width:
        return (task.reach,)
    fewest = fewest_panels(task)
    most = fewest + (0 if wish == "anywhere" else 1)
    for count in range(fewest, most + 1):
        for widths in _WAYS[wish](task, count):
            if _is_sound(widths, task):
                return widths
    return None


def lengths_for(widths: Sequence[Length], usable_width: Length) -> int:
    """How many lengths of cloth the panels are cut from, side by side, the widest first."""
    room: list[Length] = []
    for width in sorted(widths, reverse=True):
        for k, left in enumerate(room):
            if width <= left:
                room[k] = left - width
                break
        else:
            room.append(usable_width - width)
    return len(room)


def _is_sound(widths: Widths, task: Dividing) -> bool:
    """No panel wider than the cloth or narrower than is worth a seam, no seam over one of the top's."""
    if max(widths) > task.usable_width or min(widths) < LEAST_PANEL[task.ruler.unit]:
        return False
    places = seam_places(widths, task.take_up)
    return all(_apart(place, seam) >= task.clear for place in places for seam in task.avoid)


def _apart(place: Length, seam: Length) -> Length:
    return place - seam if place >= seam else seam - place


def _anywhere(task: Dividing, count: int) -> Iterator[Widths]:
    """Whole panels and a last one; then a first one that is narrower and narrower."""
    for first in _downwards(task.usable_width, task):
        rest = task.raw(count) - first - task.usable_width * (count - 2)
        yield (first, *(task.usable_width,) * (count - 2), max(task.up(rest), LEAST_PANEL[task.ruler.unit]))


def _in_the_middle(task: Dividing, count: int) -> Iterator[Widths]:
    """As many equal panels on one side of the middle as on the other."""
    if count % 2 == 0:
        yield from (_moved(task, count, by) for by in _outwards(task, ZERO))


def _off_the_middle(task: Dividing, count: int) -> Iterator[Widths]:
    """Equal panels, moved aside where a seam would lie in the middle."""
    yield from (_moved(task, count, by) for by in _outwards(task, ZERO if count % 2 else task.off))


def _beside_a_whole_one(task: Dividing, count: int) -> Iterator[Widths]:
    """A whole panel in the middle, as much on one side of it as on the other."""
    if count % 2 == 0:
        return
    aside = count // 2
    for middle in _downwards(task.usable_width, task):
        each = task.up((task.raw(count) - middle) / (2 * aside))
        yield ((each,) * aside) + (middle,) + ((each,) * aside)


_WAYS = {
    "anywhere": _anywhere,
    "in the middle": _in_the_middle,
    "off the middle": _off_the_middle,
    "beside a whole middle panel": _beside_a_whole_one,
}


def _moved(task: Dividing, count: int, by: Length) -> Widths:
    """Equal panels, all seams moved to the right: the first is wider and the last narrower."""
    each = task.up(task.raw(count) / count)
    return (each + by, *(each,) * (count - 2), each - by)


def _downwards(width: Length, task: Dividing) -> Iterator[Length]:
    marks = round_down(float(width), task.ruler) // task.ruler.mark
    yield width
    yield from (task.ruler.mark * k for k in range(marks, 0, -1))


def _outwards(task: Dividing, least: Length) -> Iterator[Length]:
    first, last = task.up(least) // task.ruler.mark, task.usable_width // task.ruler.mark
    for k in range(first, last):
        yield task.ruler.mark * k
        yield task.ruler.mark * -k
