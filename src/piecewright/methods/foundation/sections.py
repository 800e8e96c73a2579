"""Sections of a foundation: where there is no order for the whole, full seams part it into what has one.

Any full straight cut may come first: a drawing that other cuts can take apart still comes apart once a line
has gone through it, since each of those cuts goes on parting what is left on either side. So where no line
goes through a part of the drawing there is no way at all, and that part, which needs a partial or set-in
seam, is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from piecewright.geometry.dividing import DividingLine, members
from piecewright.geometry.point import add, distance, scale, sub, unit
from piecewright.geometry.polygon import Line, Polygon, bounds, clean, clip, clip_segment
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.methods.foundation.order import has_order
from piecewright.problems import Problem, Refused

MOST_PARTS = 20_000  # parts that are looked at before the most even cut has to do


@dataclass(frozen=True, slots=True)
class Portion:
    """Patches, as a set, with the outline that they fill: one section."""

    patches: int
    outline: Polygon


@dataclass(frozen=True, slots=True)
class Parted:
    """Two parts on either side of a full straight seam, the first one on its left."""

    first: Portion | Parted
    second: Portion | Parted
    seam: Line
    outline: Polygon


@dataclass(frozen=True, slots=True)
class Sectioning:
    """How patches fall into sections; `fewest` tells whether fewer are impossible."""

    tree: Portion | Parted
    sections: int
    fewest: bool


def part_into_sections(
    outlines: Sequence[Polygon], lines: Sequence[DividingLine], outline: Polygon, name: str
) -> Sectioning:
    """The fewest sections that each have an order; of those, the ones with the shortest seams between them.

    Every set of patches that cuts can leave is looked at once; past `MOST_PARTS` of them the most even cut
    of each is taken, and `fewest` is False. Raises Refused where no full straight seam goes through some
    part.
    """
    parting = _Parting(outlines, lines, name)
    whole = (1 << len(outlines)) - 1
    best = parting.best(whole, outline)
    return Sectioning(best.tree, best.sections, parting.fewest)


@dataclass(frozen=True, slots=True)
class _Best:
    tree: Portion | Parted
    sections: int
    seams: float

    @property
    def cost(self) -> tuple[float, float]:
        return self.sections, round(self.seams, 4)


class _Parting:
    """One search, with what is known already of each set of patches."""

    def __init__(self, outlines: Sequence[Polygon], lines: Sequence[DividingLine], name: str) -> None:
        self.outlines, self.lines, self.name = outlines, lines, name
        self.known: dict[int, _Best] = {}
        self.fewest = True

    def best(self, patches: int, outline: Polygon) -> _Best:
        if patches not in self.known:
            self.known[patches] = self._found(patches, outline)
        return self.known[patches]

    def _found(self, patches: int, outline: Polygon) -> _Best:
        if has_order(patches, self.lines):
            return _Best(Portion(patches, outline), 1, 0.0)
        cuts = [(line, parts) for line in self.lines if (parts := line.divides(patches))]
        if not cuts:
            raise Refused(self._no_full_seam(patches))
        if len(self.known) > MOST_PARTS:
            self.fewest = False
            cuts = [min(cuts, key=lambda cut: abs(cut[1][0].bit_count() - cut[1][1].bit_count()))]
        return min(
            (self._parted(line.line, parts, outline) for line, parts in cuts), key=lambda best: best.cost
        )

    def _parted(self, line: Line, parts: tuple[int, int], outline: Polygon) -> _Best:
        first = self.best(parts[0], beside(outline, line, 1))
        second = self.best(parts[1], beside(outline, line, -1))
        seam = seam_across(line, outline)
        return _Best(
            Parted(first.tree, second.tree, seam, outline),
            first.sections + second.sections,
            first.seams + second.seams + distance(*seam),
        )

    def _no_full_seam(self, patches: int) -> Problem:
        left, low, right, high = bounds([p for k in members(patches) for p in self.outlines[k]])
        return Problem(
            f"no straight seam goes all the way through the part of {self.name!r} from {left:.4g}, {low:.4g} "
            f"to {right:.4g}, {high:.4g} (in), so it cannot be sewn on a foundation",
            do="It needs a partial or a set-in seam; sew that part without a foundation.",
        )


def beside(outline: Polygon, line: Line, keep: int) -> Polygon:
    """The part of a convex outline on the left (1) or right (-1) of a line, corners a hair apart made one."""
    return clean(clip(outline, *line, keep), EDGE_MATCH, straight=EDGE_MATCH)


def seam_across(line: Line, outline: Polygon) -> Line:
    """The part of an endless line inside a convex outline that it goes through."""
    left, low, right, high = bounds([*outline, *line])
    far = scale(unit(sub(line[1], line[0])), 2 * (right - left + high - low))
    inside = clip_segment((sub(line[0], far), add(line[1], far)), outline)
    assert inside is not None, "a dividing line goes through what it divides"
    return inside
