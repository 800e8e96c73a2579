"""Ways to make the units of pieced quilts. A new way is one new file and one line in METHODS."""

from piecewright.methods import (
    corners_flip,
    courthouse_rounds,
    geese_flip,
    geese_flip_bonus,
    geese_four,
    geese_oversize,
    geese_triangles,
    half_rectangle_triangles,
    hourglass_triangles,
    hourglass_two,
    hst_bonus,
    hst_eight,
    hst_four,
    hst_grid,
    hst_one,
    hst_sewn_strips,
    hst_strips,
    hst_triangles,
    hst_two,
    insquare_flip,
    insquare_triangles,
    log_cabin_rounds,
    patches_joined,
    quarter_circle_template,
    quarters_triangles,
    quarters_two,
    shape_strips,
    shape_template,
    star_set_in,
    star_wedges,
    strip_set,
    strip_set_checks,
    three_patch_halves,
    three_patch_triangles,
)
from piecewright.methods.foundation import way as foundation_way
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
    star_set_in.METHOD,
    star_wedges.METHOD,
    insquare_flip.METHOD,
    hourglass_triangles.METHOD,
    quarters_triangles.METHOD,
    quarters_two.METHOD,
    geese_oversize.FLIP,
    geese_oversize.FOUR,
)


FAMILIES: tuple[Family, ...] = (
    shape_strips.FAMILY,
    shape_template.FAMILY,
    quarter_circle_template.FAMILY,
    insquare_triangles.FAMILY,
    insquare_triangles.FAMILY_TRIMMED,
    corners_flip.FAMILY,
    corners_flip.FAMILY_SAVED,
    half_rectangle_triangles.EXACT,
    half_rectangle_triangles.LARGER,
    hst_grid.FAMILY,
    hst_strips.FULL_POINTS,
    hst_strips.BLUNTED_POINTS,
    hst_sewn_strips.FAMILY,
    hst_bonus.FAMILY,
    geese_flip_bonus.FAMILY,
    three_patch_halves.FAMILY,
    geese_triangles.FAMILY,
    three_patch_triangles.FAMILY,
    strip_set.FAMILY,
    strip_set_checks.FAMILY,
    patches_joined.FAMILY,
    log_cabin_rounds.FAMILY,
    courthouse_rounds.FAMILY,
    foundation_way.FAMILY,
)


def methods_for(kind: str) -> tuple[Method, ...]:
    """The methods that make a kind of unit, in the order of METHODS."""
    return tuple(method for method in METHODS if method.kind == kind)


def ways_for(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The methods that may make a unit: those of its kind, then the members of families that serve it."""
    families = [family for family in FAMILIES if unit.kind in family.kinds]
    return (*methods_for(unit.kind), *(m for family in families for m in family.members(unit, workroom)))


def is_named(method: Method, word: str) -> bool:
    """Whether a word names a method, or the family that it comes from: "grid" names "grid 3 x 3"."""
    return method.name == word or (
        any(family.name == word for family in FAMILIES) and method.name.startswith(f"{word} ")
    )


def way_names(kind: str = "") -> tuple[str, ...]:
    """The names of all methods and families, or of those for one kind of unit."""
    names = [method.name for method in METHODS if kind in ("", method.kind)]
    names += [family.name for family in FAMILIES if kind == "" or kind in family.kinds]
    return tuple(dict.fromkeys(names))
