"""Foundation piecing: patches sewn one after another onto printed paper, along its lines.

Terms:
- *foundation*: what is printed for a drawing: its *sections*, with lines and numbers, and how they are
  joined;
- *foundation section*: patches A1, A2, A3 ..., each added along one straight line to those before it;
- *foundation join*: an ordinary seam between two sections, or what is joined of them already.

Places are inches in the drawing's own frame, seen from the front: the paper is printed mirrored.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from piecewright.bench.cloth import shifted
from piecewright.design.drawing import Group, Patch
from piecewright.geometry.dividing import DividingLine, dividing_lines
from piecewright.geometry.point import Point, distance, side_of
from piecewright.geometry.polygon import Line, Polygon, area, clean, edges, grown, is_convex
from piecewright.measure.tolerance import AS_DRAWN, EDGE_MATCH
from piecewright.methods.foundation.order import Added, sewing_order
from piecewright.methods.foundation.scraps import (
    Scrap,
    ScrapRule,
    lower_side,
    outer_edges,
    scrap_for,
    shown_of,
)
from piecewright.methods.foundation.sections import Parted, Portion, beside, part_into_sections, seam_across
from piecewright.problems import Problem, Refused


@dataclass(frozen=True, slots=True)
class FoundationPatch:
    """One patch of a section: its number ("A2"), role, finished outline, and scrap.

    `seam` is the line that the fold comes to lie on, as long as it will show; what is sewn already lies on
    its left. It is None for the first patch, whose scrap lies face up. `way` is that of a one-way print, in
    degrees.
    """

    number: str
    role: str
    outline: Polygon
    seam: Line | None
    scrap: Scrap
    way: float | None = None

    def stitching(self, fold: float) -> Line | None:
        """The line to print and to sew on: behind the seam line by what the fold takes (inches)."""
        return shifted(self.seam, -fold) if self.seam else None


@dataclass(frozen=True, slots=True)
class FoundationSection:
    """One section: its letter, its net outline, its patches in order; `rule` is how its scraps are sized."""

    letter: str
    outline: Polygon
    patches: tuple[FoundationPatch, ...]
    rule: ScrapRule

    @property
    def raw(self) -> Polygon:
        """The outline with the seam allowance around it: where the finished section is trimmed."""
        return grown(self.outline, self.rule.take_up)


@dataclass(frozen=True, slots=True)
class FoundationJoin:
    """Two sections (by letter), or things joined of them, that are joined along a full straight seam.

    The first lies on the left of the seam; `outline` is the net outline of both.
    """

    first: FoundationJoin | str
    second: FoundationJoin | str
    seam: Line
    outline: Polygon

    @property
    def name(self) -> str:
        """The letters of all that it joins: "ABC"."""
        return "".join(part if isinstance(part, str) else part.name for part in (self.first, self.second))


@dataclass(frozen=True, slots=True)
class Foundation:
    """A drawing as foundations: its sections, how they are joined, and whether fewer are impossible.

    `joins` is None where one section is all.
    """

    sections: tuple[FoundationSection, ...]
    joins: FoundationJoin | None
    fewest: bool


def sections_of(drawing: Group, rule: ScrapRule) -> tuple[FoundationSection, ...]:
    """The sections of a drawing; see `foundation_of`.

    >>> from piecewright.design.units import draw_unit
    >>> goose = draw_unit("geese", ("sail", "sea"), "n", 4.0, 2.0, (None, None))
    >>> [(patch.number, patch.role) for patch in sections_of(goose, ScrapRule(0.25))[0].patches]
    [('A1', 'sail'), ('A2', 'sea'), ('A3', 'sea')]
    """
    return foundation_of(drawing, rule).sections


def foundation_of(drawing: Group, rule: ScrapRule) -> Foundation:
    """A drawing of convex patches in a convex outline as the fewest foundation sections.

    Raises Refused, with the place, where a corner turns inwards, or where a part needs a partial or set-in
    seam.
    """
    patches = drawing.patches
    outlines = [clean(patch.outline, EDGE_MATCH, straight=EDGE_MATCH) for patch in patches]
    whole = clean(drawing.outline, EDGE_MATCH, straight=EDGE_MATCH)
    _refuse_shapes(drawing.name, whole, outlines)
    lines = dividing_lines(outlines)
    found = part_into_sections(outlines, lines, whole, drawing.name)
    lettered = [(_letter(k), portion) for k, portion in enumerate(_portions(found.tree))]
    work = _Work(patches, outlines, lines, whole, rule)
    sections = tuple(work.section(letter, portion) for letter, portion in lettered)
    joins = _joins(found.tree, {portion.patches: letter for letter, portion in lettered})
    return Foundation(sections, None if isinstance(joins, str) else joins, found.fewest)


@dataclass(frozen=True, slots=True)
class _Work:
    """What is known of the drawing while its sections are made."""

    patches: tuple[Patch, ...]
    outlines: list[Polygon]
    lines: tuple[DividingLine, ...]
    whole: Polygon
    rule: ScrapRule

    def section(self, letter: str, portion: Portion) -> FoundationSection:
        """One section with its patches numbered."""
        order = sewing_order(portion.patches, self.lines, self.outlines)
        assert order is not None, "a section has an order"
        raw = grown(portion.outline, self.rule.take_up)
        shown = shown_of(raw, [added.along for added in order])
        seams = _seams(order, portion.outline)
        numbered = tuple(
            self._numbered(f"{letter}{k + 1}", order[k].patch, seams[k], shown[k], raw)
            for k in range(len(order))
        )
        return FoundationSection(letter, portion.outline, numbered, self.rule)

    def _numbered(
        self, number: str, which: int, seam: Line | None, shown: Polygon, raw: Polygon
    ) -> FoundationPatch:
        patch, outline = self.patches[which], self.outlines[which]
        outer = outer_edges(outline, self.whole)
        along = lower_side(outline, seam, patch.way, outer, self.rule.grain)
        scrap = scrap_for(outline, shown, raw, along, outer, self.rule)
        return FoundationPatch(number, patch.role, outline, seam, scrap, patch.way)


def _seams(order: tuple[Added, ...], outline: Polygon) -> list[Line | None]:
    """The seam of each patch in its order: its line, as far as it goes through what is there by then."""
    seams: list[Line | None] = []
    for added in order[:0:-1]:
        assert added.along is not None, "only the first patch has no line"
        seams.append(seam_across(added.along, outline))
        outline = beside(outline, added.along, 1)
    return [None, *seams[::-1]]


def _portions(tree: Portion | Parted) -> Iterator[Portion]:
    """The sections, upper and left ones first."""
    if isinstance(tree, Portion):
        yield tree
        return
    yield from _portions(tree.first)
    yield from _portions(tree.second)


def _joins(tree: Portion | Parted, letters: dict[int, str]) -> FoundationJoin | str:
    if isinstance(tree, Portion):
        return letters[tree.patches]
    return FoundationJoin(_joins(tree.first, letters), _joins(tree.second, letters), tree.seam, tree.outline)


def _letter(number: int) -> str:
    """A to Z, then AA, AB and so on."""
    more, last = divmod(number, 26)
    return (_letter(more - 1) if more else "") + chr(ord("A") + last)


def _refuse_shapes(name: str, whole: Polygon, outlines: list[Polygon]) -> None:
    """Raises Refused for what straight lines all across can never make."""
    if not is_convex(whole, EDGE_MATCH):
        what = f"{name!r} has an outline with an inward corner, which no straight seam all across makes"
        raise Refused(Problem(what, do="Sew its parts on foundations of their own, then set them in."))
    for outline in outlines:
        if not is_convex(outline, EDGE_MATCH):
            x, y = _inward_corner(outline)
            what = (
                f"a patch of {name!r} has an inward corner at {x:.4g}, {y:.4g} (in), and so no straight seam"
            )
            raise Refused(Problem(what, do="Draw it as two patches."))
    around = sum(distance(*edge) for edge in edges(whole))
    if not all(outlines) or abs(sum(map(area, outlines)) - area(whole)) > AS_DRAWN * around:
        raise Refused(Problem(f"the patches of {name!r} do not fill its outline", do="Check its drawing."))


def _inward_corner(outline: Polygon) -> Point:
    return next(
        b for (a, b), (_, c) in pairwise([*edges(outline), edges(outline)[0]]) if side_of(c, a, b) < 0
    )
