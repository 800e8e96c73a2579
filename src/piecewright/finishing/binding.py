"""The binding: how wide its strip is cut for a finished width, and how long it must be.

Terms:
- *fold*: double (folded in half, both raw edges sewn to the quilt) or single (one, the other turned in);
- *filled*: a binding whose seam lies as far inside the edge as the binding shall be wide, so that the
  quilt's edge fills it;
- *turn*: a corner where the strip is folded and goes on along the next edge.

Widths are plane geometry. From the seam outwards a strip covers its finished width, the thickness of the
edge, its finished width again on the back, and a little more, to hide the stitches there.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from piecewright.finishing.figures import refuse_none
from piecewright.finishing.finishing import BINDING_SPARE
from piecewright.finishing.strips import JoinedBy, StripsAcross, strips_across
from piecewright.measure.length import ZERO, Length, Unit, inches, mm
from piecewright.measure.rounding import Ruler, round_up
from piecewright.measure.showing import figure, show
from piecewright.problems import Problem, Refused

Fold = Literal["double", "single"]
BindingCut = Literal["straight", "bias strips", "continuous bias"]

# How far the binding reaches beyond its stitches on the back: common practice, no source.
OVER: Mapping[Unit, Length] = MappingProxyType({"in": inches("1/16"), "cm": mm(2)})


@dataclass(frozen=True)
class BindingWishes:
    """How an edge shall be bound.

    The strip is cut `cut_width` wide, or as wide as a `finished` width needs; where neither is given it is
    the usual cut width. `seam` is how far inside the edge it is sewn on: as far as it is to be wide, where
    it is not given. `spare` is for joining the ends and for the corners. A cut `bias_square` or the bias
    strips' `bias_length` are found, but for one that is given.
    """

    fold: Fold = "double"
    cut: BindingCut = "straight"
    joined: JoinedBy = "slanted"
    cut_width: Length | None = None
    finished: Length | None = None
    seam: Length | None = None
    turns: int = 4
    a_turn: Length = ZERO
    spare: Length | None = None


USUAL_CUT_WIDTH: Mapping[Unit, Length] = MappingProxyType({"in": inches("2 1/2"), "cm": mm(65)})


@dataclass(frozen=True)
class BindingWidth:
    """The cut width of a binding, and how wide it is on either side when it is finished."""

    fold: Fold
    cut: Length
    finished: Length
    seam: Length
    thick: Length
    over: Length

    def sum_line(self, unit: Unit) -> str:
        """The arithmetic of the width, in a line."""
        seam, finished, over = (figure(length, unit) for length in (self.seam, self.finished, self.over))
        parts = f"{seam} seam + 2 x {finished} + {figure(self.thick, unit)} thick + {over} over the stitches"
        whole = f"2 x ({parts})" if self.fold == "double" else f"{parts} + {seam} turned in"
        return f"{whole}: cut {show(self.cut, unit)}"


def cut_width(finished: Length, fold: Fold, seam: Length | None, thick: Length, ruler: Ruler) -> BindingWidth:
    """How wide a strip is cut so that the binding is so wide on either side, rounded up.

    >>> from fractions import Fraction
    >>> eighths = Ruler("in", Fraction(1, 8))
    >>> cut_width(inches("3/8"), "double", inches("1/4"), inches("1/8"), eighths).cut
    inches('2 3/8')
    """
    refuse_none(finished, "a binding", ruler.unit)
    sewn, over = seam or finished, OVER[ruler.unit]
    folded = sewn + finished * 2 + thick + over
    exact = folded * 2 if fold == "double" else folded + sewn
    return BindingWidth(fold, round_up(float(exact), ruler), finished, sewn, thick, over)


def finished_width(cut: Length, fold: Fold, seam: Length | None, thick: Length, unit: Unit) -> BindingWidth:
    """How wide the binding of a cut strip is on either side; it fills where no `seam` is given.

    Raises Refused where the strip does not reach round the edge.
    """
    over = OVER[unit]
    if seam is None:
        # A filled binding: its seam is as wide as it is.
        layers = 3 if fold == "double" else 4
        finished = ((cut / 2 if fold == "double" else cut) - thick - over) / layers
        sewn = finished
    else:
        folded = cut / 2 if fold == "double" else cut - seam
        finished, sewn = (folded - seam - thick - over) / 2, seam
    if finished <= ZERO:
        least = (sewn if seam else ZERO) + thick + over
        least = least * 2 if fold == "double" else least + (sewn if seam else ZERO)
        said = f"strips {show(cut, unit)} wide do not reach round an edge {show(thick, unit)} thick: "
        said += f"{show(least - cut, unit)} too little before anything of the binding is seen."
        raise Refused(Problem(said, do=f"Cut them wider than {show(least, unit)}."))
    return BindingWidth(fold, cut, finished, sewn, thick, over)


def binding_width(wishes: BindingWishes, thick: Length, ruler: Ruler) -> BindingWidth:
    """The width that is wished: from the finished one, or as it is cut."""
    if wishes.finished is not None and wishes.cut_width is None:
        return cut_width(wishes.finished, wishes.fold, wishes.seam, thick, ruler)
    cut = wishes.cut_width or USUAL_CUT_WIDTH[ruler.unit]
    return finished_width(cut, wishes.fold, wishes.seam, thick, ruler.unit)


@dataclass(frozen=True)
class BindingLength:
    """How long the binding must be: round the quilt, and so much to spare.

    A turn takes nothing: the raw edge of the strip goes on from one edge of the quilt to the next.
    """

    round_the_quilt: Length
    turns: int
    a_turn: Length
    spare: Length

    @property
    def least(self) -> Length:
        """The length that is needed."""
        return self.round_the_quilt + self.a_turn * self.turns + self.spare

    def sum_line(self, unit: Unit) -> str:
        """The arithmetic of the length, in a line."""
        turns = f" + {self.turns} corners x {figure(self.a_turn, unit)}" if self.a_turn else ""
        spare = f"{figure(self.spare, unit)} to join the ends"
        edge = f"{figure(self.round_the_quilt, unit)} round the quilt"
        return f"{edge}{turns} + {spare} = {show(self.least, unit)}"


def binding_length(top: tuple[Length, Length], wishes: BindingWishes, unit: Unit) -> BindingLength:
    """How long the binding of a quilt (finished width, height) must be."""
    spare = BINDING_SPARE[unit] if wishes.spare is None else wishes.spare
    return BindingLength((top[0] + top[1]) * 2, wishes.turns, wishes.a_turn, spare)


def straight_binding(
    top: tuple[Length, Length],
    wishes: BindingWishes,
    width: Length,
    usable_width: Length,
    take_up: Length,
    ruler: Ruler,
) -> StripsAcross:
    """The strips of a binding on the straight grain."""
    least = binding_length(top, wishes, ruler.unit).least
    return strips_across(least, width, usable_width, take_up, wishes.joined, ruler)


def fold_over(width: Length, fold: Fold) -> Length:
    """How wide a strip lies once it is folded, ready to be sewn on."""
    return width / 2 if fold == "double" else width


def mitre(finished: Length) -> float:
    """How long the folded corner of a binding is, from the seam's corner to the tip; inches."""
    return float(finished) * math.sqrt(2)
