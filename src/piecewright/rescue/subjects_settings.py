"""Settings on point and borders as subjects: setting squares, a block's diagonal, border strips."""

from __future__ import annotations

from piecewright.rescue.subject import Case, Examples, Quantity, Reading, Subject
from piecewright.rescue.subjects_patches import BLOCK_SPAN, GEOMETRY, ROOT_2
from piecewright.rescue.subjects_units import grown_edge, leg, long_side
from piecewright.workroom.workroom import Workroom

SET_BLOCK = Quantity("the block", ("block", "b", "block size"), seams=2)
SET_EXAMPLES: Examples = {
    "in": ("4", "6", "8", "9", "10", "12", "14", "16"),
    "cm": ("10", "15", "20", "25", "30", "40"),
}
TRIMMED_LATER = "what is over stands out at the quilt's edge and is trimmed there"

SETTING_SQUARE = Subject(
    name="setting square",
    also=("setting triangle", "setting triangles", "side setting square", "side setting triangle"),
    gives="the square to cut twice for four side setting triangles",
    given=(SET_BLOCK,),
    readings=(
        Reading(
            "",
            "the square cut twice",
            long_side(lambda case: float(case[0]) * ROOT_2),
            "The long side of a side triangle is the diagonal of the block, 1.41421 times its side, and its "
            "two sharp points need more than two straight seams.",
        ),
    ),
    sense="least",
    examples=SET_EXAMPLES,
    source=GEOMETRY,
    span=BLOCK_SPAN,
    over=TRIMMED_LATER,
)

SETTING_CORNER = Subject(
    name="setting corner",
    also=("corner setting square", "corner setting triangle", "corner triangle", "setting corner square"),
    gives="the square to cut once for two corner setting triangles",
    given=(SET_BLOCK,),
    readings=(
        Reading(
            "",
            "the square cut once",
            leg(lambda case: float(case[0]) / ROOT_2),
            "The block's side is the long side of a corner triangle, so that its short sides are the block's "
            "divided by the root of 2; the slanted seam adds more than a straight one.",
        ),
    ),
    sense="least",
    examples=SET_EXAMPLES,
    source=GEOMETRY,
    span=BLOCK_SPAN,
    over=TRIMMED_LATER,
)

ON_POINT = Subject(
    name="block on point",
    also=("on point", "diagonal", "block diagonal"),
    gives="how wide a block is that stands on a corner",
    given=(Quantity("the block", ("block", "b", "block size", "finished", "finished size", "f")),),
    readings=(
        Reading(
            "",
            "its width",
            lambda case, room: float(case[0]) * ROOT_2,
            "A square's diagonal is 1.41421 times its side.",
        ),
    ),
    sense="measure",
    examples=SET_EXAMPLES,
    source="plane geometry: Pythagoras",
    span=BLOCK_SPAN,
)


INSIDE = Quantity(
    "the inner side", ("inner side", "inside", "inner", "i", "top", "t", "quilt", "side", "q"), seams=2
)
BORDER = Quantity(
    "the border", ("border", "b", "border width", "width", "w"), seams=2, unfinished=("cut width", "strip")
)
BORDERS: Examples = {
    "in": ("48 x 4", "36 x 3", "60 x 6", "24 x 2 1/2"),
    "cm": ("120 x 10", "90 x 8", "150 x 15"),
}


def _mitred(case: Case, room: Workroom) -> float:
    inner, width = map(float, case)
    outside = inner + 2 * width
    outline = ((0.0, 0.0), (outside, 0.0), (outside - width, width), (width, width))
    return grown_edge(outline, 0, room)


MITRED_BORDER = Subject(
    name="mitred border",
    also=("mitered border", "mitred borders", "mitre"),
    gives="the least length of each strip",
    given=(INSIDE, BORDER),
    readings=(
        Reading(
            "",
            "the strip",
            _mitred,
            "The seam of a mitre is slanted: each end needs more beyond the corner than a straight seam.",
        ),
    ),
    sense="least",
    examples=BORDERS,
    source=GEOMETRY,
    over="what is over hangs out beyond the mitre and is trimmed",
)

BUTTED_BORDER = Subject(
    name="butted border",
    also=("second borders", "butted borders", "border"),
    gives="the least length of the second pair of strips",
    given=(INSIDE, BORDER),
    readings=(
        Reading(
            "",
            "the strip",
            lambda case, room: float(case[0] + 2 * case[1] + 2 * room.take_up.exact),
            "The first pair adds twice its finished width to the top, and its seams are inside by then.",
        ),
    ),
    sense="least",
    examples=BORDERS,
    source="arithmetic: a seam takes its allowance from both cloths",
    over="what is over is trimmed to the measured top",
)
