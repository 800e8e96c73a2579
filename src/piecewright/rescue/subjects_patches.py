"""Patches and settings as subjects: cut sizes by the one rule of grown edges, all of it plane geometry.

An edge between angles a and b grows by s(cot a/2 + cot b/2), with s the take-up of a seam.
"""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

from piecewright.geometry.polygon import bounds, grown
from piecewright.measure.length import inches
from piecewright.rescue.subject import Case, Quantity, Reading, Subject
from piecewright.rescue.subjects_units import SPAN, grown_edge, leg, long_side
from piecewright.workroom.workroom import Workroom

GEOMETRY = "plane geometry: an edge between angles a and b grows by s(cot a/2 + cot b/2)"
ROOT_2 = sqrt(2)
BLOCK_SPAN = (inches(2), inches(24))
SLANTED = "A slanted seam takes more from the side of a triangle than a straight one does."
SLANTED_TWICE = "The long side ends in two sharp points, and each needs more than a straight seam."

HOURGLASS_TRIANGLES = Reading(
    "from cut triangles", "the square cut twice", long_side(lambda case: float(case[0])), SLANTED_TWICE
)
GEESE_TRIANGLES = (
    Reading(
        "from cut triangles",
        "the large square, cut twice",
        long_side(lambda case: float(case[0])),
        SLANTED_TWICE,
    ),
    Reading(
        "from cut triangles",
        "the small squares, cut once",
        leg(lambda case: float(case[1])),
        SLANTED,
        own=1,
    ),
)


def _half_rectangle(side: int) -> Reading:
    def needed(case: Case, room: Workroom) -> float:
        width, height = map(float, case)
        return grown_edge(((0.0, 0.0), (width, 0.0), (0.0, height)), (0, 2)[side], room)

    part = ("the width of the rectangle", "the height of the rectangle")[side]
    why = (
        "The two points of the triangle are not alike: the sharper one needs more cloth beyond it, so the "
        "longer side needs more than the shorter one."
    )
    return Reading("from cut rectangles", part, needed, why, own=side)


HALF_RECTANGLE = Subject(
    name="half-rectangle triangle",
    also=("hrt", "half-rectangle triangles", "half rectangle triangle"),
    gives="the rectangle to cut once on its diagonal",
    given=(
        Quantity("the width", ("width", "W", "short side"), seams=2),
        Quantity("the height", ("height", "H", "long side", "length"), seams=2),
    ),
    readings=(_half_rectangle(0), _half_rectangle(1)),
    sense="cut",
    examples={
        "in": ("3 x 4", "2 x 4", "1 x 2", "2 x 3", "3 x 6", "4 x 5"),
        "cm": ("6 x 8", "5 x 10", "4 x 8", "6 x 9", "8 x 16"),
    },
    source=GEOMETRY,
    starts_larger=True,
    together=True,
)


CORNER = Quantity("the corner", ("corner", "c", "corner size", "leg", "k", "finished corner"))
BLOCK_OF_CORNER = Quantity(
    "the block", ("block", "B", "finished block", "F"), of=lambda case, room: case[0] * 2
)
CENTRE_OF_CORNER = Quantity(
    "the centre square's side",
    ("centre", "center", "finished centre", "centre square", "finished center"),
    of=lambda case, room: case[0] * Fraction(ROOT_2),
)
FLIPPED = "A flipped corner has only straight seams at its edges: two allowances are all it adds."


def _two_seams(case: Case, room: Workroom) -> float:
    """A flipped corner: the stitching runs from corner to corner of a square two allowances larger."""
    return float(case[0] + 2 * room.take_up.exact)


SQUARE_CORNERS = Subject(
    name="square-in-a-square corners",
    also=("economy corners", "square in a square corners", "square-in-a-square"),
    gives="the squares for its corners",
    given=(CORNER,),
    derived=(BLOCK_OF_CORNER, CENTRE_OF_CORNER),
    readings=(
        Reading(
            "from cut triangles", "the corner squares, cut once", leg(lambda case: float(case[0])), SLANTED
        ),
        Reading("stitch and flip", "the corner squares", _two_seams, FLIPPED, exact=True),
    ),
    sense="cut",
    examples={"in": ("1", "1 1/2", "2", "3", "4", "6"), "cm": ("3", "4", "5", "7.5", "10", "15")},
    source=GEOMETRY,
    span=SPAN,
)

SQUARE_CENTRE = Subject(
    name="square-in-a-square centre",
    also=("economy centre", "square-in-a-square center", "square in a square centre"),
    gives="the square for its centre",
    given=(Quantity("the block", ("block", "B"), seams=2, finished=("finished", "finished size", "F")),),
    derived=(
        Quantity(
            "the centre square's side",
            ("centre", "center", "finished centre"),
            of=lambda case, room: case[0] / Fraction(ROOT_2),
        ),
    ),
    readings=(
        Reading(
            "",
            "the centre square",
            lambda case, room: float(case[0]) / ROOT_2 + 2 * float(room.take_up),
            "The centre stands on point: its side is the block's divided by the root of 2, and two "
            "straight seams are added to that.",
        ),
    ),
    sense="cut",
    examples={"in": ("3", "4", "6", "8", "9", "12"), "cm": ("8", "10", "15", "20", "30")},
    source=GEOMETRY,
    span=BLOCK_SPAN,
)

FLIPPED_CORNER = Subject(
    name="flipped corner",
    also=("corner-flipped square", "stitch-and-flip corner", "snowball"),
    gives="the small square that is flipped over a corner",
    given=(CORNER,),
    readings=(Reading("stitch and flip", "the small square", _two_seams, FLIPPED, exact=True),),
    sense="cut",
    examples={"in": ("1", "1 1/2", "2", "3"), "cm": ("2", "3", "5", "7.5")},
    source=GEOMETRY,
    span=SPAN,
)


def _triangle_strip(case: Case, room: Workroom) -> float:
    height = float(case[0])
    half = height / sqrt(3)
    _, low, _, high = bounds(
        grown(((-half, 0.0), (half, 0.0), (0.0, height)), float(room.take_up)),
    )
    return high - low


TRIANGLE_STRIP = Subject(
    name="60 degree triangle",
    also=("equilateral triangle", "60 degree triangles", "triangle strip"),
    gives="the width of the strip that triangles with equal sides are cut from",
    given=(Quantity("the height", ("height", "h"), finished=("finished", "finished size", "f")),),
    readings=(
        Reading(
            "",
            "the strip",
            _triangle_strip,
            "The seam along the bottom adds one allowance, the two that meet in the point add two.",
        ),
    ),
    sense="cut",
    examples={"in": ("1 1/2", "2", "3", "4", "6"), "cm": ("4", "5", "8", "10", "15")},
    source=GEOMETRY,
    span=SPAN,
)
