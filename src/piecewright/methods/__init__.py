"""Ways to make the units of pieced quilts. A new way is one new file and one line in METHODS."""

from piecewright.methods import (
    geese_flip,
    geese_four,
    hourglass_two,
    hst_eight,
    hst_four,
    hst_one,
    hst_triangles,
    hst_two,
)
from piecewright.methods.method import Family, Method, Unit
from piecewright.workroom.workroom import Workroom

METHODS: tuple[Method, ...] = (
    hst_one.METHOD,
    hst_two.METHOD,
    hst_four.METHOD,
    hst_eight.METHOD,
    hst_triangles.METHOD,
    hourglass_two.METHOD,
    geese_flip.METHOD,
    geese_four.METHOD,
)


FAMILIES: tuple[Family, ...] = ()


def methods_for(kind: str) -> tuple[Method, ...]:
    """The methods that make a kind of unit, in the order of METHODS."""
    return tuple(method for method in METHODS if method.kind == kind)


def ways_for(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The methods that may make a unit: those of its kind, then the members of families that serve it."""
    families = [family for family in FAMILIES if unit.kind in family.kinds]
    return (*methods_for(unit.kind), *(m for family in families for m in family.members(unit, workroom)))
