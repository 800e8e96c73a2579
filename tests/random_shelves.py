"""Random shelves for Hypothesis: cloth on hand in the fabrics of the random quilts, of all sorts of sizes."""

from __future__ import annotations

from hypothesis import strategies as st

from piecewright.measure.length import inches
from piecewright.shelf.shelf import Shelf, ShelfCloth
from random_quilts import FABRICS

WIDTHS = ("5", "10", "12 3/8", "20 1/2", "40", "42")
LENGTHS = ("2 1/2", "5", "8 1/2", "10", "17 1/2", "36", "72")


@st.composite
def shelves(draw: st.DrawFn) -> Shelf:
    """A few pieces of cloth: squares, fat quarters, strips, lengths; also of the backing."""
    cloth = st.builds(
        lambda fabric, width, length, count: ShelfCloth(fabric, inches(width), inches(length), count),
        st.sampled_from([*FABRICS, "backing"]),
        st.sampled_from(WIDTHS),
        st.sampled_from(LENGTHS),
        st.integers(1, 30),
    )
    return Shelf("in", tuple(draw(st.lists(cloth, min_size=1, max_size=8))))
