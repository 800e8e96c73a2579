"""How a quilt is quilted: by what, how far it reaches beyond the top, and how much stitching that is.

Terms:
- *pattern* of quilting: lines, a grid of lines, all over (one line that winds), in the ditch (in the seams
  themselves), around the blocks (in the ditch of rows and borders alone);
- *apart*: from one line to the next.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from piecewright.finishing.figures import refuse_none, run_figure, run_words
from piecewright.measure.length import MM_PER_INCH, Length, Unit, inches, mm
from piecewright.measure.showing import figure, show
from piecewright.problems import Problem, Refused

QuiltedBy = Literal["hand", "machine at home", "long frame"]
QuiltingPattern = Literal["lines", "grid", "all over", "in the ditch", "around the blocks"]

# How far backing and batting reach beyond the top on every side: common practice, no source.
MARGINS: Mapping[QuiltedBy, Mapping[Unit, Length]] = MappingProxyType(
    {
        "hand": {"in": inches(4), "cm": mm(100)},
        "machine at home": {"in": inches(4), "cm": mm(100)},
        "long frame": {"in": inches(6), "cm": mm(150)},
    }
)
# How much line there is where one line fills the room between two: a winding line is longer than a straight
# one by about a quarter (from memory).
LINES_ACROSS: Mapping[QuiltingPattern, float] = MappingProxyType(
    {"lines": 1.0, "grid": 2.0, "all over": 1.25}
)

USUAL_APART = inches(2)
USUAL_APART_CM = mm(50)


@dataclass(frozen=True)
class Quilting:
    """The quilting that is wished: by what, in which pattern, how far apart its lines lie.

    `density`, where it is given, is inches of quilting for a square inch, whatever the pattern.
    """

    by: QuiltedBy = "machine at home"
    pattern: QuiltingPattern = "lines"
    apart: Length = USUAL_APART
    density: float | None = None

    def margin(self, unit: Unit) -> Length:
        """How far backing and batting reach beyond the top on every side."""
        return MARGINS[self.by][unit]

    @property
    def in_seams(self) -> bool:
        """Whether it follows the seams of the top."""
        return self.density is None and self.pattern in ("in the ditch", "around the blocks")


@dataclass(frozen=True)
class QuiltingRun:
    """How long the quilting of a top is: `length` in inches, from its size or from its seams."""

    quilting: Quilting
    size: tuple[Length, Length]
    length: float

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic of the length, in a line."""
        quilting, made = self.quilting, f"{run_figure(self.length, unit)} = {run_words(self.length, unit)}"
        if quilting.in_seams:
            return (f"quilting {quilting.pattern}: as long as these seams of the top, {made}",)
        area = f"{figure(self.size[0], unit)} x {figure(self.size[1], unit)}"
        if quilting.density is not None:
            dense = quilting.density if unit == "in" else quilting.density * 10 / float(MM_PER_INCH)
            return (f"quilting: {area} x {dense:.3g} {unit} of line for a square {unit} = {made}",)
        factor = f" x {LINES_ACROSS[quilting.pattern]:g}" if quilting.pattern != "lines" else ""
        apart = show(quilting.apart, unit)
        return (
            f"quilting {quilting.pattern}, {apart} apart: {area} / {figure(quilting.apart, unit)}"
            f"{factor} = {made}",
        )


def quilting_run(
    quilting: Quilting, size: tuple[Length, Length], in_ditch: float, around_blocks: float | None
) -> QuiltingRun:
    """How long the quilting is; `in_ditch` and `around_blocks` are inches of seams in the top.

    Raises Refused for lines that lie on one another, and where the seams that it follows are not known.
    """
    if quilting.density is not None:
        if quilting.density < 0:
            what = f"expected 0 or more inches of quilting for a square inch, got {quilting.density:g}."
            raise Refused(Problem(what, do="Lines 2 in apart are 0.5."))
        return QuiltingRun(quilting, size, float(size[0]) * float(size[1]) * quilting.density)
    if quilting.pattern == "in the ditch":
        return QuiltingRun(quilting, size, in_ditch)
    if quilting.pattern == "around the blocks":
        if around_blocks is None:
            what = "which seams lie around the blocks is not known of this plan."
            raise Refused(Problem(what, do="Quilt in the ditch, or say how far apart the lines lie."))
        return QuiltingRun(quilting, size, around_blocks)
    refuse_none(quilting.apart, "lines of quilting to lie apart by a length", "in")
    area = float(size[0]) * float(size[1])
    return QuiltingRun(quilting, size, area / float(quilting.apart) * LINES_ACROSS[quilting.pattern])
