"""Misfits of a block in words, each a problem that also knows its place in the drawing of the block."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from piecewright.design.misfit import NARROWEST, Misfit
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Polygon
from piecewright.measure.length import Unit
from piecewright.measure.showing import figure_float, show_exact, show_float
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.problems import Problem


@dataclass(frozen=True)
class FaultyBlock:
    """A block as it was drawn, faults and all: outlines in finished inches, lower left at the origin.

    `labels` are the short names of the patches, as the problems and the picture have them.
    """

    name: str
    width: float
    height: float
    outlines: tuple[Polygon, ...]
    labels: tuple[str, ...]
    unit: Unit


@dataclass(frozen=True, slots=True)
class MisfitProblem(Problem):
    """A problem that a picture can mark: the block, and the place in it."""

    block: FaultyBlock | None = None
    misfit: Misfit | None = None


def misfit_problem(misfit: Misfit, where: str, block: FaultyBlock, names: Sequence[str]) -> MisfitProblem:
    """The problem that a misfit is, at a place of the file; `names` says what people call each patch."""
    what, do = _told(misfit, block, [names[k] for k in misfit.patches])
    may_be_meant = misfit.kind == "near miss" and misfit.size >= NARROWEST - AS_DRAWN
    return MisfitProblem(what, where, do, "note" if may_be_meant else "error", block, misfit)


def place_in_words(place: Point, unit: Unit) -> str:
    """A point in the file's unit: across, up."""
    across, up = (figure_float(value, unit).removeprefix("about ") for value in place)
    return f"({across}, {up})"


def _told(misfit: Misfit, block: FaultyBlock, patches: Sequence[str]) -> tuple[str, str]:
    """What was expected and came, and what to do."""
    unit = block.unit
    place, size = place_in_words(misfit.place, unit), show_float(misfit.size, unit)
    exact = show_exact(misfit.size, unit)
    if misfit.kind == "crossing":
        what = f"expected an outline that does not cross itself, got a crossing at {place}."
        return what, "List the corners in the order in which one walks around the patch."
    if misfit.kind == "outside":
        sides = f"{show_float(block.width, unit)} x {show_float(block.height, unit)}"
        return f"expected corners inside the block ({sides}), got {place}.", ""
    if misfit.kind == "sliver":
        least = show_float(NARROWEST, unit)
        what = f"expected a patch at least {least} wide, got a sliver {size} wide around {place}."
        return what, "Give its cloth to its neighbours."
    if misfit.kind == "overlap":
        what = f"expected patches side by side, got {both(patches)} overlapping around {place}."
        return what, "Move a corner of one of them."
    if misfit.kind == "hole":
        what = f"expected patches that fill the block, got a hole around {place}."
        return what, "Add a patch there or move the corners around it."
    if misfit.kind == "near miss" and misfit.size >= NARROWEST - AS_DRAWN:
        what = f"the corner at {place} lies {exact} off an edge of {patches[0]}; it is kept as drawn."
        return what, "Move it onto the edge if that was meant."
    if misfit.kind == "near miss":
        least = show_float(NARROWEST, unit)
        what = f"expected corners that meet edges or lie at least {least} off, got one at {place} {exact} off"
        return f"{what} an edge of {patches[0]}.", "Move the corner onto the edge, or farther away."
    thing = "gap" if misfit.kind == "corner gap" else "overlap"
    edge = patches[1] if len(patches) > 1 else "the block"
    wanted = f"expected the corner of {patches[0]} at {place} on the edge of {edge}"
    what = f"{wanted}, got it {size} off: a thin {thing}."
    return what, "Move the corner onto the edge."


def both(names: Sequence[str]) -> str:
    """Two names, said in one: `patches 1 and 2`, `the sea patch at (1, 2) and the sky patch at (3, 4)`.

    >>> both(["patch 1", "patch 2"])
    'patches 1 and 2'
    """
    numbers = [name.removeprefix("patch ") for name in names]
    if all(number != name for number, name in zip(numbers, names, strict=True)):
        return f"patches {' and '.join(numbers)}"
    return " and ".join(names)
