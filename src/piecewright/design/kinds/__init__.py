"""The kinds of unit. A new kind is one new file and one line in KINDS."""

from piecewright.design.kinds import geese, half_square, hourglass
from piecewright.design.kinds.kind import Form, Kind

__all__ = ["KINDS", "Form", "Kind", "kind_of"]

KINDS: dict[str, Kind] = {
    kind.key: kind
    for kind in (
        half_square.KIND,
        hourglass.KIND,
        geese.KIND,
    )
}


def kind_of(key: str) -> Kind:
    """The kind of a key; raises KeyError where there is none."""
    return KINDS[key]
