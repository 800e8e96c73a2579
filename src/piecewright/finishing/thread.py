"""Thread: what piecing, quilting and binding take, and how many spools and bobbins that is.

Terms:
- *lockstitch*: stitch 301 of ISO 4915; an inch of seam takes 2 + 2TS inches of thread, needle and bobbin
  together, with T the thickness of all layers in inches and S the stitches per inch
  (textilecalculations.com): once over, once under, and through all layers twice for each stitch;
- *running stitch*, by hand: one thread over and under, and through all layers twice for each stitch that is
  seen: 1 + 2TS;
- *tails*: what is cut off at ends, wound on bobbins and not used up.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from piecewright.finishing.figures import refuse_none, refuse_share, run_figure, run_words, share_words
from piecewright.measure.length import MM_PER_INCH, Length, Unit, inches, mm
from piecewright.measure.showing import figure
from piecewright.problems import Problem, Refused

StitchedBy = Literal["machine", "hand"]

CLOTH_THICK, BATTING_THICK = inches("1/100"), inches("1/16")
LEAST_TAILS, MOST_TAILS = 0.15, 0.25  # Common practice, no source.


@dataclass(frozen=True)
class Thickness:
    """How thick a layer of each is as it is sewn: from memory, one's own measure is better."""

    cloth: Length = CLOTH_THICK
    batting: Length = BATTING_THICK

    def layers(self, cloths: int, battings: int = 0) -> Length:
        """All layers together."""
        return self.cloth * cloths + self.batting * battings


@dataclass(frozen=True)
class ThreadWishes:
    """The length of a stitch for each kind of sewing, what tails take, and how spool and bobbin are filled.

    `by_hand` is a stitch of quilting by hand, with the room to the next one.
    """

    piecing: Length
    quilting: Length
    binding: Length
    by_hand: Length
    spool: Length
    bobbin: Length
    tails: float = 0.2


# Stitches 12 to the inch, or 2 mm, for piecing; 10, or 2.5 mm, for quilting and binding; 8 by hand: common
# practice. A spool holds 200 m, a bobbin about a quarter of it: from memory.
THREAD: Mapping[Unit, ThreadWishes] = MappingProxyType(
    {
        "in": ThreadWishes(
            inches("1/12"), inches("1/10"), inches("1/10"), inches("1/8"), inches(36 * 220), inches(36 * 55)
        ),
        "cm": ThreadWishes(mm(2), mm("2.5"), mm("2.5"), mm(3), mm(200_000), mm(50_000)),
    }
)


def lockstitch(thickness: float, stitches: float) -> float:
    """Inches of thread for an inch of seam: 2 + 2TS, needle and bobbin together.

    >>> lockstitch(0.01, 10)
    2.2
    """
    return 2 + 2 * thickness * stitches


def running_stitch(thickness: float, stitches: float) -> float:
    """Inches of thread for an inch of hand sewing: 1 + 2TS."""
    return 1 + 2 * thickness * stitches


@dataclass(frozen=True)
class ThreadUse:
    """One kind of sewing: so many inches `sewn`, through layers of a thickness, with stitches of a length."""

    what: str
    sewn: float
    thick: Length
    stitch: Length
    by: StitchedBy = "machine"

    @property
    def a_seam(self) -> float:
        """Thread for each inch of seam."""
        thick, stitches = float(self.thick), 1 / float(self.stitch)
        return lockstitch(thick, stitches) if self.by == "machine" else running_stitch(thick, stitches)

    @property
    def thread(self) -> float:
        """Inches of thread, tails not counted."""
        return self.sewn * self.a_seam

    def sum_line(self, unit: Unit) -> str:
        """The arithmetic of the thread, in a line."""
        formula, small = _a_seam_words(self, unit)
        return (
            f"{self.what}: {run_figure(self.sewn, unit)} sewn x ({formula} = {small}) = "
            f"{run_figure(self.thread, unit)}"
        )


def _a_seam_words(use: ThreadUse, unit: Unit) -> tuple[str, str]:
    scale = 1.0 if unit == "in" else float(MM_PER_INCH) / 10
    thick, stitches = float(use.thick) * scale, 1 / (float(use.stitch) * scale)
    first = 2 if use.by == "machine" else 1
    return f"{first} + 2 x {thick:.3g} x {stitches:.3g}", f"{use.a_seam:.3g}"


@dataclass(frozen=True)
class ThreadNeed:
    """Thread for a quilt: each kind of sewing, tails besides, and the spools and bobbins it comes on."""

    uses: tuple[ThreadUse, ...]
    wishes: ThreadWishes

    @property
    def sewn_in(self) -> float:
        """Inches of thread in the seams."""
        return sum(use.thread for use in self.uses)

    @property
    def needed(self) -> float:
        """Inches of thread with tails."""
        return self.sewn_in * (1 + self.wishes.tails)

    @property
    def spools(self) -> int:
        """How many spools to buy where one thread serves for all."""
        return math.ceil(self.needed / float(self.wishes.spool))

    @property
    def bobbins(self) -> int:
        """How many bobbins are wound: half of a machine's thread comes from them."""
        by_machine = sum(use.thread for use in self.uses if use.by == "machine")
        return math.ceil(by_machine * (1 + self.wishes.tails) / 2 / float(self.wishes.bobbin))

    def spools_for(self, use: ThreadUse) -> int:
        """How many spools one kind of sewing takes where it has a thread of its own."""
        return math.ceil(use.thread * (1 + self.wishes.tails) / float(self.wishes.spool))

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic of thread, spools and bobbins, a line each."""
        spool, bobbin = run_words(float(self.wishes.spool), unit), run_words(float(self.wishes.bobbin), unit)
        spools, bobbins = (
            "spool" if self.spools == 1 else "spools",
            "bobbin" if self.bobbins == 1 else "bobbins",
        )
        return (
            *(use.sum_line(unit) for use in self.uses),
            f"together {run_figure(self.sewn_in, unit)} + {share_words(self.wishes.tails)} for tails and "
            f"bobbins = {run_words(self.needed, unit)}",
            f"{self.spools} {spools} of {spool}; half of what the machine sews is on {self.bobbins} "
            f"{bobbins} of {bobbin}",
        )


def thread_need(uses: Sequence[ThreadUse], wishes: ThreadWishes, unit: Unit) -> ThreadNeed:
    """The thread for all kinds of sewing; raises Refused for stitches, spools or tails that cannot be."""
    for length in (*(use.stitch for use in uses), wishes.spool, wishes.bobbin):
        refuse_none(length, "a stitch, a spool and a bobbin", unit)
    refuse_share(wishes.tails, "what tails take")
    for use in uses:
        if use.sewn < 0:
            said = f"expected 0 or more inches of {use.what}, got {use.sewn:g}."
            raise Refused(Problem(said, do="Check the figures that it comes from."))
    return ThreadNeed(tuple(use for use in uses if use.sewn), wishes)


def stitches_per(stitch: Length, unit: Unit) -> str:
    """A stitch as people tell it: `12 to the inch`, `2 mm long`."""
    if unit == "in":
        return f"{1 / float(stitch):.3g} to the inch"
    return f"{figure(stitch * 10, 'cm')} mm long"
