"""The strip test: a few equal strips sewn side by side tell the strips' true width and the seam's take-up.

Terms:
- *across*: the raw width over all strips after pressing; *inner*: the inner strips as they show, from seam to
  seam, so many of them measured together;
- *cut*: the strip width as meant; *measured*: the same as the ruler found it before sewing;
- *doubt*: how far a result may be off since each figure is read from a ruler (standard uncertainty, inches);
- *deviation*: how much whole tests differ from one another; *spread*: how much single seams do.

With n strips of width w and a take-up t on each side of a seam, across T = n w - 2(n - 1)t and one inner
strip C = w - 2t. So w = T - (n - 1)C and t = (T - nC)/2: for three strips w = T - 2C and t = (T - 3C)/2.
"""

from __future__ import annotations

import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from piecewright.measure.length import ZERO, Length, Unit, inches, mm
from piecewright.problems import Problem, Refused
from piecewright.workroom.strip_checks import HALF, fold_bounds, strip_problems
from piecewright.workroom.strip_sums import SeamFound, StripTest, reading_of, seam_found
from piecewright.workroom.workroom import Workroom

COVERAGE = 2  # So many standard uncertainties cover about 95 of 100 (JCGM 100:2008, 6.2).


@dataclass(frozen=True)
class OwnSeam:
    """What one or several strip tests say of a machine and its hands.

    `deviation` is that between tests (None for one test), `spread` that between single seams, never less
    than the ruler can show. `needle` and `fold` make `take_up`; `split_known` where the needle's distance
    was measured, else the fold is the workroom's. `cut_off` is how much wider than meant strips are cut.
    Deviation, spread and doubt in inches.
    """

    found: tuple[SeamFound, ...]
    take_up: Length
    doubt: float
    deviation: float | None
    spread: float
    needle: Length
    fold: Length
    split_known: bool
    cut_off: Length
    cut_deviation: float | None

    def more_than(self, planned: Length) -> Length:
        """How much more the seam takes than planned (below zero: less); zero where that is within doubt."""
        more = self.take_up - planned
        return more if abs(float(more)) > COVERAGE * self.doubt else ZERO


@dataclass(frozen=True)
class SquaresRow:
    """What the seam does to a row of equal squares: raw length as planned, as sewn, and as cut and sewn."""

    squares: int
    finished: Length
    planned: Length
    sewn: Length
    cut_and_sewn: Length


def own_seam(tests: Sequence[StripTest], workroom: Workroom) -> OwnSeam:
    """The seam that these tests show.

    Raises Refused, and names the figure in `where`, when one of them cannot be right.

    >>> test = StripTest(3, inches("1 1/2"), inches("3 1/2"), inches(1))
    >>> own_seam([test], Workroom()).take_up
    inches('1/4')
    """
    wrong = [problem for test in tests for problem in strip_problems(test, workroom)]
    if wrong:
        raise Refused(*wrong)
    if not tests:
        raise Refused(Problem("expected at least one strip test, got none", do="Sew one and measure it."))
    found = tuple(seam_found(test, workroom.unit) for test in tests)
    take_up = _mean([one.take_up for one in found])
    needle, fold, known = _split(tests, take_up, workroom)
    off = [one.width - test.cut for one, test in zip(found, tests, strict=True)]
    least = float(reading_of(workroom.unit)) / sqrt(12)
    # A test's take-up is a weighted mean over its seams, so single seams vary by more than tests do.
    single = [float(one.take_up - take_up) / one.seam_share for one in found]
    spread = sqrt(sum(s * s for s in single) / (len(found) - 1)) if len(found) > 1 else 0.0
    return OwnSeam(
        found=found,
        take_up=take_up,
        doubt=sqrt(sum(one.doubt**2 for one in found)) / len(found),
        deviation=_deviation([one.take_up for one in found]),
        spread=max(spread, least),
        needle=needle,
        fold=fold,
        split_known=known,
        cut_off=_mean(off),
        cut_deviation=_deviation(off),
    )


def row_of_squares(seam: OwnSeam, workroom: Workroom) -> SquaresRow:
    """A row of six squares, 12 in or 30 cm finished, planned for the workroom and sewn with this seam.

    >>> test = StripTest(3, inches("1 1/2"), inches("3 7/16"), inches("31/32"))
    >>> row = row_of_squares(own_seam([test], Workroom()), Workroom())
    >>> row.planned, row.sewn
    (inches('12 1/2'), inches('12 11/32'))
    """
    count, finished = 6, inches(2) if workroom.unit == "in" else mm(50)
    raw = (finished + workroom.take_up * 2) * count
    seams = 2 * (count - 1)
    sewn = raw - seam.take_up * seams
    return SquaresRow(count, finished, raw - workroom.take_up * seams, sewn, sewn + seam.cut_off * count)


def marked(length: Length, unit: Unit) -> Length:
    """A measured seam as the workroom file keeps it: to 1/128 in or 0.1 mm, finer than any doubt in it.

    >>> marked(inches("0.2421"), "in")
    inches('31/128')
    """
    step = inches("1/128") if unit == "in" else mm("0.1")
    return step * round(length.exact / step.exact)


def _split(tests: Sequence[StripTest], take_up: Length, workroom: Workroom) -> tuple[Length, Length, bool]:
    """Needle, fold, and whether the needle's distance was measured."""
    needles = [test.needle for test in tests if test.needle is not None]
    if not needles:
        fold = min(workroom.fold, take_up * HALF)
        return take_up - fold, fold, False
    least, most = fold_bounds(workroom.unit)
    fold = min(max(take_up - _mean(needles), least), most)
    return take_up - fold, fold, True


def _mean(lengths: Sequence[Length]) -> Length:
    return sum(lengths, ZERO) / len(lengths)


def _deviation(lengths: Sequence[Length]) -> float | None:
    return statistics.stdev(map(float, lengths)) if len(lengths) > 1 else None
