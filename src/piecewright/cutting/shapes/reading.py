"""A shape as a person writes it in a cutting list, read into what is wanted; what is wrong, in sentences."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from piecewright.cutting.shapes.kinds import HANDS, KINDS, Kind, Measured
from piecewright.cutting.shapes.outlines import as_cut, blunted, blunted_off, longest_edge, scaled
from piecewright.cutting.shapes.wanted import TURNINGS, ShapeDemand, Turning
from piecewright.geometry.polygon import Polygon, bounds
from piecewright.measure.length import Length, Unit, inches
from piecewright.measure.number import shortened
from piecewright.measure.rounding import round_up
from piecewright.measure.showing import show, show_float
from piecewright.problems import Problem, Refused
from piecewright.toml_places import did_you_mean
from piecewright.workroom.workroom import default_workroom

MEASURES = ("w", "h")
SHAPE_KEYS = ("shape", "hand", "finished", "blunted", "turning")
SMALLEST, QUARTER_INCH = inches("1/8"), inches("1/4")
_ANGLE = re.compile(r"([0-9]+(?:\.[0-9]+)?)\s*(?:-?\s*degrees?|°)\s*(.*)", re.DOTALL)
_BY_OTHER_NAMES = {
    "equilateral triangle": "60 degree triangle",
    "hst": "half-square triangle",
    "qst": "quarter-square triangle",
}


@dataclass(frozen=True, slots=True)
class ShapeEntry:
    """What an entry says of a shape, its measures read as lengths already.

    Measures are `w` and `h` (see `kinds`), as cut, unless `finished`: then a `seam` is added all round.
    `blunted` cuts the point of a triangle off where the dog ear would be.
    """

    name: str
    shape: str
    count: int
    measures: Mapping[str, Length]
    hand: str = ""
    finished: bool = False
    blunted: bool = False
    turning: str = "any"
    seam: Length = QUARTER_INCH
    unit: Unit = "in"


def shape_wanted(entry: ShapeEntry) -> ShapeDemand:
    """The shape of an entry; raises Refused with all that is wrong in it, without its place in the file.

    >>> sail = ShapeEntry("sails", "60 degree triangle", 17, {"h": inches(3)}, finished=True)
    >>> shape_wanted(sail).strip
    inches('3 3/4')
    """
    kind, angle, told = _kind_of(entry.shape)
    problems = [*_check_measures(entry, kind, told), *_check_words(entry, kind, told)]
    if problems:
        raise Refused(*problems)
    sizes = {name: float(entry.measures[name]) for name in kind.measures}
    outline = _outline(entry, kind, Measured(sizes, angle, entry.hand or "right"))
    if outline is None:
        raise Refused(_no_top(entry, told))
    name = entry.name or told
    turning: Turning = next(t for t in TURNINGS if t == entry.turning)
    return ShapeDemand(name, told, outline, entry.count, turning, kind.cut_as, kind.noun)


def _kind_of(shape: str) -> tuple[Kind, float, str]:
    """The kind that a name means, the angle in it, and the whole name as we write it."""
    plain = " ".join(shape.lower().replace("squares ", "square ").split()).removesuffix("s")
    plain = re.sub(r"\b(half|quarter) square\b", r"\1-square", _BY_OTHER_NAMES.get(plain, plain))
    found = _ANGLE.fullmatch(plain)
    angle, name = (float(found[1]), found[2]) if found else (90.0, plain)
    kind = next((kind for kind in KINDS if kind.name == name), None)
    if kind is None:
        raise Refused(_unknown(shape, name))
    if kind.angles is None:
        return kind, angle, kind.name
    least, most = kind.angles
    if not found or not least <= angle <= most:
        got = f"{angle:g} degrees" if found else "none"
        what = f"expected the angle of a {kind.name}, from {least:g} to {most:g} degrees, got {got}."
        raise Refused(Problem(what, do=f'Write shape = "60 degree {kind.name}", say.'))
    return kind, angle, f"{angle:g} degree {kind.name}"


def _unknown(shape: str, name: str) -> Problem:
    names = [kind.name for kind in KINDS]
    return Problem(f"expected the name of a shape, got {shortened(shape)}.", do=did_you_mean(name, names))


def _check_measures(entry: ShapeEntry, kind: Kind, told: str) -> list[Problem]:
    problems = []
    for name in kind.measures:
        if name not in entry.measures:
            what = f"expected {_listed(kind.measures)} of a {told}, got no {name}."
            problems.append(Problem(what, do=f"Write {name} = ..."))
        elif entry.measures[name] < SMALLEST:
            least, got = show(SMALLEST, entry.unit), show(entry.measures[name], entry.unit)
            problems.append(Problem(f"expected {name} of a {told} to be {least} or more, got {got}."))
    for name in sorted(entry.measures.keys() - set(kind.measures)):
        is_square = kind.measures == ("w",) and entry.measures.get("w") == entry.measures[name]
        if not is_square:
            what = f"{name} is no measure of a {told}: it has {_listed(kind.measures)}."
            problems.append(Problem(what, do="Leave it out."))
    return problems


def _check_words(entry: ShapeEntry, kind: Kind, told: str) -> list[Problem]:
    problems = []
    hands = HANDS if kind.has_hand else ()
    if entry.hand and entry.hand not in hands:
        what = f"expected hand to be {' or '.join(hands)}" if hands else f"a {told} has no hand"
        problems.append(Problem(f"{what}, got {shortened(entry.hand)}.", do="" if hands else "Leave it out."))
    if kind.has_hand and not entry.hand:
        what = f"expected the hand of a {told}, left or right, got none."
        problems.append(Problem(what, do='Write hand = "right", say: turned over, it is another shape.'))
    if entry.blunted and not kind.has_point:
        what = f"a {told} has no point to blunt."
        problems.append(Problem(what, do="Leave blunted out; triangles from strips can be blunted."))
    if entry.turning not in TURNINGS:
        ways = ", ".join(TURNINGS[:-1])
        what = f"expected turning to be {ways} or {TURNINGS[-1]}, got {shortened(entry.turning)}."
        problems.append(Problem(what, do="Say how the pieces may be turned on the cloth."))
    return problems


def _listed(names: tuple[str, ...]) -> str:
    return " and ".join(names)


def _outline(entry: ShapeEntry, kind: Kind, measured: Measured) -> Polygon | None:
    """The outline as it is cut."""
    net, seam = kind.outline(measured), float(entry.seam)
    if net is None:
        return None
    off = blunted_off(net, seam) if entry.blunted else 0.0
    if entry.finished:
        return _on_mark(blunted(as_cut(net, seam), off), kind, entry.unit)
    if not off:
        return net
    # The measure is the strip that is cut: the whole triangle would stand out above it.
    factor = (measured.strip + off) / measured.strip
    return blunted(scaled(net, factor), off)


def _on_mark(outline: Polygon, kind: Kind, unit: Unit) -> Polygon:
    """The shape a little larger, so that the ruler shows its strip, where no more than ease is over."""
    room = default_workroom(unit)
    _, _, width, height = bounds(outline)
    size = width if kind.cut_as == "twice" else height
    factor = float(round_up(size, room.ruler)) / size
    if kind.name == "rectangle cut once" or longest_edge(outline) * (factor - 1) > float(room.ease):
        return outline
    return scaled(outline, factor)


def _no_top(entry: ShapeEntry, told: str) -> Problem:
    strip, base = entry.measures["h"], entry.measures["w"]
    kind, angle, _ = _kind_of(entry.shape)
    ends = 1 if kind.name.startswith("right") else 2
    least = show_float(float(strip) * ends * Measured({}, angle).lean, entry.unit)
    what = f"expected w of a {told} from a strip of {show(strip, entry.unit)} to be more than {least}"
    do = "Its slants would meet below the upper edge: make it longer, or the strip lower."
    return Problem(f"{what}, got {show(base, entry.unit)}.", do=do)
