"""The arithmetic of finishing: backing panels, binding strips, batting.

Sources: panels and binding by plane geometry; 45 degree joins cost a strip's width each; ten inches of
binding for the join of its ends and the corners are common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from piecewright.measure.length import ZERO, Length, Unit, inches, mm
from piecewright.measure.rounding import Ruler, round_up
from piecewright.measure.showing import show
from piecewright.problems import Problem, Refused

BINDING_SPARE: dict[Unit, Length] = {"in": inches(10), "cm": mm(250)}
# No panel is sewn on narrower than this, and less beside one is not worth a cut: common practice, no source.
LEAST_PANEL: dict[Unit, Length] = {"in": inches(4), "cm": mm(100)}
LEAST_BESIDE: dict[Unit, Length] = {"in": inches(1), "cm": mm(25)}


@dataclass(frozen=True)
class Panels:
    """Backing panels: `count` of a `length` across the cloth, joined side by side along their length.

    `upright` says that the panels run from top to bottom of the quilt. The backing must measure at least
    `width` x `height`, raw. They are as wide as the cloth, but for a `last` one that may be narrower.
    """

    count: int
    length: Length
    upright: bool
    width: Length
    height: Length
    last: Length | None = None

    @property
    def cloth(self) -> Length:
        """The length of cloth they take."""
        return self.length * self.count


def backing_panels(
    top: tuple[Length, Length], margin: Length, usable_width: Length, take_up: Length
) -> Panels:
    """The panels of least cloth for a top (finished width, height), with a margin on every side.

    Panels from top to bottom win a tie. Raises Refused when the cloth is no wider than its seams.
    """
    width, height = top[0] + margin * 2, top[1] + margin * 2
    ways = [
        Panels(_panels(width, usable_width, take_up), height, True, width, height),
        Panels(_panels(height, usable_width, take_up), width, False, width, height),
    ]
    return min(ways, key=lambda way: way.cloth)


def panels_words(panels: Panels, unit: Unit) -> str:
    """What to cut for the backing: `2 lengths 80 in x WOF`; of a narrower last one how wide it is."""
    whole, long = panels.count - (panels.last is not None), show(panels.length, unit)
    told = [f"{whole} {'length' if whole == 1 else 'lengths'} {long} x WOF"] if whole else []
    if panels.last is not None:
        told.append(f"1 length {long} of which {show(panels.last, unit)} of the width")
    return " and ".join(told)


def with_narrow_panel(panels: Panels, usable_width: Length, take_up: Length, ruler: Ruler) -> Panels:
    """The same panels, the last only as wide as it must be, so that what is beside it can be used."""
    reach = panels.width if panels.upright else panels.height
    needed = reach - (usable_width - take_up * 2) * (panels.count - 1)
    last = max(round_up(float(needed), ruler), LEAST_PANEL[ruler.unit])
    return replace(panels, last=last) if usable_width - last >= LEAST_BESIDE[ruler.unit] else panels


def _panels(reach: Length, usable_width: Length, take_up: Length) -> int:
    """How many panels reach so far, each seam between two taking its allowances."""
    gain = usable_width - take_up * 2
    if gain <= ZERO:
        raise Refused(Problem(f"backing cloth {usable_width} wide is no wider than its seams"))
    return max(1, math.ceil((reach - take_up * 2).exact / gain.exact))


@dataclass(frozen=True)
class BindingStrips:
    """Binding: `count` strips of a `width` across the cloth, joined at 45 degrees; `least` is needed."""

    count: int
    width: Length
    least: Length
    made: Length


def binding_strips(
    top: tuple[Length, Length], width: Length, usable_width: Length, spare: Length = BINDING_SPARE["in"]
) -> BindingStrips:
    """The strips for a double-fold binding round a top (finished width, height).

    `spare` is for the join of its ends and the corners. Each 45 degree join costs a strip's width.
    Raises Refused when the strips are shorter than that.
    """
    least = (top[0] + top[1]) * 2 + spare
    gain = usable_width - width
    if width <= ZERO or gain <= ZERO:
        raise Refused(Problem(f"binding strips {width} wide cannot be joined from cloth {usable_width} wide"))
    count = max(1, math.ceil((least - width).exact / gain.exact))
    made = usable_width * count - width * (count - 1)
    return BindingStrips(count, width, least, made)


@dataclass(frozen=True)
class LongStrips:
    """Border or sashing strips longer than the cloth is wide: `count` strips joined end to end.

    `cut` are the lengths cut from them, each longer than needed by the trimming allowance.
    """

    count: int
    cut: tuple[Length, ...]
    made: Length


def long_strips(
    lengths: tuple[Length, ...], extra: Length, usable_width: Length, take_up: Length
) -> LongStrips:
    """How many strips, joined end to end, give all these lengths with some extra on each."""
    cut = tuple(length + extra for length in lengths)
    least = sum(cut, ZERO)
    gain = usable_width - take_up * 2
    if gain <= ZERO:
        raise Refused(Problem(f"strips {usable_width} long cannot be joined: their seams take all of it"))
    count = max(1, math.ceil((least - take_up * 2).exact / gain.exact))
    return LongStrips(count, cut, gain * count + take_up * 2)
