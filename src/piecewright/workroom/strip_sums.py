"""The sums of one strip test: the strips' true width and the take-up, and how far they are in doubt.

Sums are exact; the figures are as in `strip_test`. With three strips, or where the cut width was not
measured, total and inner strip alone decide. With more strips one inner strip's reading error counts once for
every strip; there the cut width as measured helps, and the three figures, trusted alike, are balanced: least
squares under the one condition that binds them, T = w + (n - 1)C.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from piecewright.measure.length import Length, Unit, inches, mm


@dataclass(frozen=True)
class StripTest:
    """`strips` strips of a `cut` width sewn side by side, pressed, and measured.

    `across` is over all of them, `inner` over `inner_strips` neighbours from seam to seam; `measured` is the
    strip width before sewing, `needle` the distance from the raw edge to the stitching, both where known.
    """

    strips: int
    cut: Length
    across: Length
    inner: Length
    inner_strips: int = 1
    measured: Length | None = None
    needle: Length | None = None

    @property
    def width(self) -> Length:
        """The cut width: as measured, else as meant."""
        return self.cut if self.measured is None else self.measured

    @property
    def one_inner(self) -> Length:
        """What one inner strip shows."""
        return self.inner / self.inner_strips


@dataclass(frozen=True)
class SeamFound:
    """What one test says: the strips' true `width` and the `take_up` on each side of a seam.

    `doubt` is what reading the ruler leaves open (inches). `seam_share`: where single seams vary by 1, the
    take-up of such a test varies by this.
    """

    width: Length
    take_up: Length
    doubt: float
    seam_share: float


def reading_of(unit: Unit) -> Length:
    """How finely people read a ruler: to 1/32 in or half a millimetre (common practice, no source)."""
    return inches("1/32") if unit == "in" else mm("0.5")


def from_two(test: StripTest) -> dict[str, Length]:
    """The take-up from each two of the three figures, by the one that is left out."""
    n, whole, one, width = test.strips, test.across, test.one_inner, test.width
    return {
        "cut": (whole - one * n) / 2,
        "inner": (width * n - whole) / (2 * (n - 1)),
        "across": (width - one) / 2,
    }


def seam_found(test: StripTest, unit: Unit) -> SeamFound:
    """Width and take-up of a test that can be right; readings as fine as the unit's ruler.

    >>> seam_found(StripTest(3, inches("1 1/2"), inches("3 7/16"), inches(1)), "in").width
    inches('1 7/16')
    """
    n, k = test.strips, test.inner_strips
    # How the take-up follows the total, the inner strips and the cut width.
    if n == 3 or test.measured is None:
        by = (Fraction(1, 2), Fraction(-n, 2 * k), Fraction(0))
        width = test.across - test.one_inner * (n - 1)
    else:
        steep = Fraction(n - 1, k)
        share = 1 / (2 + steep**2)
        off = (test.across - test.measured - test.inner * steep) * share
        width = test.measured + off
        pull = share * (1 - steep / k)
        by = (pull / 2, (Fraction(-1, k) - pull * steep) / 2, (1 - pull) / 2)
    take_up = test.across * by[0] + test.inner * by[1] + test.width * by[2]
    doubt = float(reading_of(unit)) / sqrt(12) * sqrt(sum(float(b) ** 2 for b in by))
    return SeamFound(width, take_up, doubt, _seam_share(test, float(by[0]), float(by[1])))


def _seam_share(test: StripTest, by_across: float, by_inner: float) -> float:
    """A seam takes twice from the total, and once or twice from inner strips beside it."""
    n, k = test.strips, test.inner_strips
    ends, inside = 2 * by_across + by_inner, 2 * (by_across + by_inner)
    beyond = 2 * by_across
    return sqrt(2 * ends**2 + (k - 1) * inside**2 + (n - 2 - k) * beyond**2)
