"""The kinds of unit. A new kind is one new file and one line in KINDS."""

from piecewright.design.kinds import (
    checks,
    corner_flipped,
    courthouse,
    diamonds,
    geese,
    half_rectangle,
    half_square,
    hourglass,
    kite,
    log_cabin,
    quarter_circle,
    quarters,
    rail,
    sixty,
    square_in_square,
    star_eight,
    three_patch,
    trapezoid,
)
from piecewright.design.kinds.kind import Form, Kind

__all__ = ["KINDS", "Form", "Kind", "kind_of"]

KINDS: dict[str, Kind] = {
    kind.key: kind
    for kind in (
        half_square.KIND,
        hourglass.KIND,
        geese.KIND,
        diamonds.DIAMOND_45,
        diamonds.DIAMOND_60,
        sixty.TRIANGLE,
        sixty.HEXAGON,
        kite.KIND,
        trapezoid.EQUAL_LEGS,
        trapezoid.UPRIGHT_LEG,
        star_eight.STAR,
        star_eight.WEDGE_STAR,
        quarter_circle.KIND,
        square_in_square.KIND,
        *corner_flipped.KINDS,
        half_rectangle.KIND,
        three_patch.KIND,
        quarters.KIND,
        rail.KIND,
        checks.FOUR_PATCH,
        checks.NINE_PATCH,
        checks.SIXTEEN_PATCH,
        log_cabin.KIND,
        courthouse.KIND,
    )
}


def kind_of(key: str) -> Kind:
    """The kind of a key; raises KeyError where there is none."""
    return KINDS[key]
