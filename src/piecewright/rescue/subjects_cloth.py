"""Cloth as a subject: how much to buy, how many pieces it gives, and what is joined from strips."""

from __future__ import annotations

from fractions import Fraction
from math import floor, sqrt

from piecewright.finishing.finishing import BINDING_SPARE, backing_panels, binding_strips, long_strips
from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.measure.tolerance import WELD
from piecewright.rescue.subject import Case, Examples, Quantity, Reading, Subject
from piecewright.workroom.workroom import Workroom

SHRINKS = Fraction(1, 20)
BACKING_MARGIN: dict[Unit, Length] = {"in": inches(4), "cm": mm(100)}  # Common practice, no source.
YARD, METRE = inches(36), mm(1000)

TOP_WIDTH = Quantity("the quilt's width", ("width", "W", "quilt width", "top width"))
TOP_HEIGHT = Quantity("the quilt's height", ("height", "H", "length", "L", "quilt height", "quilt length"))
CLOTH = Quantity(
    "the cloth's usable width",
    ("cloth", "cloth width", "fabric", "wof", "width of fabric", "usable width", "B"),
    of=lambda case, room: room.usable_width.exact,
)
TOPS: Examples = {
    "in": ("36 x 48", "40 x 50", "50 x 60", "60 x 72", "60 x 80", "72 x 90", "86 x 96"),
    "cm": ("90 x 120", "120 x 150", "150 x 180", "150 x 200", "180 x 220", "220 x 240"),
}


def _top(case: Case) -> tuple[Length, Length]:
    return Length(case[0]), Length(case[1])


def _mitre_joined(case: Case, room: Workroom) -> float:
    strips = binding_strips(_top(case), Length(case[2]), room.usable_width, BINDING_SPARE[room.unit])
    return float(strips.count)


def _straight_joined(case: Case, room: Workroom) -> float:
    around = (Length(case[0]) + Length(case[1])) * 2
    spare = BINDING_SPARE[room.unit]
    return float(long_strips((around,), spare, room.usable_width, room.take_up).count)


BINDING = Subject(
    name="binding",
    also=("binding strips", "binding strip"),
    gives="how many strips across the cloth",
    given=(
        TOP_WIDTH,
        TOP_HEIGHT,
        Quantity(
            "the strip's width",
            ("strip", "strip width", "w", "binding width"),
            usual={"in": Fraction(5, 2), "cm": mm(65).exact},
        ),
    ),
    derived=(
        Quantity(
            "the perimeter", ("perimeter", "p", "around"), of=lambda case, room: 2 * (case[0] + case[1])
        ),
        CLOTH,
        Quantity("the spare", ("spare",), of=lambda case, room: BINDING_SPARE[room.unit].exact),
    ),
    readings=(
        Reading(
            "45 degree joins",
            "the strips",
            _mitre_joined,
            "Each 45 degree join costs a strip's width, and the ends and corners need some spare.",
        ),
        Reading(
            "straight joins",
            "the strips",
            _straight_joined,
            "Each join costs two allowances, and the ends and corners need some spare.",
        ),
    ),
    sense="least",
    is_count=True,
    examples=TOPS,
    source="plane geometry; the spare for ends and corners is common practice",
    over="the strip is longer than needed",
)


def _backing(case: Case, room: Workroom) -> float:
    margin = BACKING_MARGIN[room.unit]
    return float(backing_panels(_top(case), margin, room.usable_width, room.take_up).cloth)


BACKING = Subject(
    name="backing",
    also=("backing cloth",),
    gives="the length of cloth to buy",
    given=(TOP_WIDTH, TOP_HEIGHT),
    derived=(
        CLOTH,
        Quantity("the margin", ("margin", "m"), of=lambda case, room: BACKING_MARGIN[room.unit].exact),
    ),
    readings=(
        Reading(
            "",
            "the cloth",
            _backing,
            "Cloth is bought across its whole width: panels come in whole numbers, joined side by side, and "
            "what is left beside the last one is no help to the others.",
        ),
    ),
    sense="least",
    examples=TOPS,
    source="panels along and across compared; a margin on every side is common practice",
    over="more cloth than needed",
    is_bought=True,
)


def _pieces(side: Fraction, length: Fraction, room: Workroom) -> Fraction:
    return Fraction((length // side) * (room.usable_width.exact // side))


def _whole_length(room: Workroom) -> Fraction:
    return (YARD if room.unit == "in" else METRE).exact


PIECES = Subject(
    name="squares from cloth",
    also=("half a yard", "half yard", "squares from half a yard", "pieces from cloth"),
    gives="how many squares come from a length of cloth",
    given=(
        Quantity("the square", ("square", "cut size", "a", "s")),
        Quantity(
            "the length of cloth",
            ("length", "L", "cloth length"),
            usual={"in": YARD.exact / 2, "cm": METRE.exact / 2},
        ),
    ),
    derived=(
        Quantity(
            "what a whole yard or metre gives",
            ("yard", "whole yard", "y", "yard's pieces", "metre", "whole metre", "from a yard"),
            of=lambda case, room: _pieces(case[0], _whole_length(room), room),
            is_length=False,
        ),
        CLOTH,
    ),
    readings=(
        Reading(
            "",
            "the squares",
            lambda case, room: float(_pieces(case[0], case[1], room)),
            "Squares come in whole strips and whole squares to a strip; half of an odd number of strips "
            "is not a whole one.",
        ),
    ),
    sense="promise",
    is_count=True,
    examples={
        "in": ("2 1/2", "3", "4", "4 1/2", "5", "6", "6 1/2", "10"),
        "cm": ("6", "8", "10", "12", "15", "16", "20", "25"),
    },
    source="arithmetic: whole strips, whole squares",
)


def _bias(case: Case, room: Workroom) -> float:
    """Whole rounds of a strip cut from a square made into a tube: its two seams take from both sides."""
    inner = float(case[0] - 2 * room.take_up.exact)
    strips = floor(inner / (float(case[1]) * sqrt(2)) + WELD)
    return max(strips, 0) * inner * sqrt(2)


BIAS = Subject(
    name="continuous bias",
    also=("bias", "continuous bias strip", "bias strip", "bias binding"),
    gives="how long a bias strip comes from a square",
    given=(
        Quantity("the square's side", ("side", "S", "square", "s")),
        Quantity(
            "the strip's width",
            ("width", "w", "strip", "strip width"),
            usual={"in": Fraction(2), "cm": mm(50).exact},
        ),
    ),
    readings=(
        Reading(
            "",
            "the strip",
            _bias,
            "The two seams of the tube take an allowance each, and only whole strips go round; what is over "
            "beside the last one is lost.",
        ),
    ),
    sense="promise",
    examples={
        "in": ("20 x 2", "15 x 2", "10 x 2", "18 x 2 1/4", "24 x 2 1/2", "30 x 2 1/2", "36 x 2 1/4"),
        "cm": ("50 x 5", "40 x 5", "60 x 6", "75 x 6.5", "90 x 5.5"),
    },
    source="plane geometry: whole strips only, floor((S - 2s) / (w root 2)) x (S - 2s) root 2",
)

SHRINKAGE = Subject(
    name="shrinkage",
    also=("shrink", "washing"),
    gives="the length to buy of cloth that shrinks in the wash",
    given=(
        Quantity("the length wanted", ("length", "L", "wanted", "want")),
        Quantity(
            "the share lost",
            ("p", "share", "shrinkage", "loss"),
            is_length=False,
            usual={"in": SHRINKS, "cm": SHRINKS},
        ),
    ),
    readings=(
        Reading(
            "",
            "the cloth",
            lambda case, room: float(case[0] / (1 - case[1])),
            "The share is lost from the cloth that was bought, not from what is left: divide by what stays.",
        ),
    ),
    sense="least",
    examples={
        "in": ("1 yd x 5%", "3 yd x 3%", "3 yd x 5%", "5 yd x 8%", "8 yd x 10%"),
        "cm": ("1 m x 5%", "3 m x 3%", "3 m x 5%", "5 m x 8%", "8 m x 10%"),
    },
    source="arithmetic: L / (1 - p); the change of size as in ISO 5077 and AATCC TM135",
    over="more cloth than needed",
    is_bought=True,
)
