"""Cloth from the bench, drawn: its faces, its seams, and the side to which each seam is pressed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from piecewright.bench.cloth import Cloth, Face, Pressed, Seam, clipped_seams
from piecewright.drawing.look import CLOTH, OUTLINE, PRESSED, PRESSED_SPOT, SEAM, filled, wrong_side
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen, View
from piecewright.geometry.isometry import STILL, Isometry
from piecewright.geometry.point import add, distance, dot, left_of, middle, scale, side_of, sub, unit
from piecewright.geometry.polygon import Line
from piecewright.measure.tolerance import EDGE_MATCH

ARROW = 10.0
"""The length of an arrow across a seam, in points."""

SHORT = 7.0
"""A stretch of a seam shorter than this many points has no mark, unless the seam has no longer one."""


def draw_faces(pen: Pen, faces: Iterable[Face], palette: Palette, view: View, wrong: bool = False) -> None:
    """Each face in its fabric's colour; with its wrong side up if so told."""
    faces = tuple(faces)
    colours = palette.scattered([face.fabric for face in faces])
    for face, colour in zip(faces, colours, strict=True):
        style = wrong_side(colour) if wrong else filled(CLOTH, colour)
        pen.polygon(view.points(face.seen), style)


def draw_sewn(pen: Pen, cloth: Cloth, palette: Palette, view: View, place: Isometry = STILL) -> None:
    """A cloth with its seam allowances, as it lies on the mat, with its seams."""
    draw_faces(pen, (face.placed(place) for face in cloth.faces), palette, view)
    for line, _ in seam_lines(cloth):
        pen.polyline(view.points(map_line(line, place)), SEAM)
    if cloth.seams:
        pen.polygon(view.points([place.at(p) for p in cloth.raw]), OUTLINE)


def draw_finished(pen: Pen, cloth: Cloth, palette: Palette, view: View, place: Isometry = STILL) -> None:
    """A cloth as it will show once it is sewn in: without allowances."""
    draw_faces(pen, (face.placed(place) for face in cloth.finished), palette, view)
    pen.polygon(view.points([place.at(p) for p in cloth.net]), OUTLINE)


def map_line(line: Line, place: Isometry) -> Line:
    """The line after an isometry."""
    return place.at(line[0]), place.at(line[1])


def seam_lines(cloth: Cloth, net: bool = False) -> list[tuple[Line, Pressed | None]]:
    """Every straight piece of a seam and how it is pressed (None when it is not).

    With `net`, only as far as each seam will show once the cloth is sewn in.
    """
    return [
        (line, seam.pressed[k] if seam.pressed else None)
        for seam in (_shown_seams(cloth) if net else cloth.seams)
        for k, line in enumerate(seam.segments)
    ]


def _shown_seams(cloth: Cloth) -> Iterator[Seam]:
    yield from cloth.own_seams if cloth.parts else clipped_seams(cloth.own_seams, cloth.net)
    for part in cloth.parts:
        for seam in _shown_seams(part.cloth):
            yield seam.placed(part.place)


def draw_pressing(
    pen: Pen, cloth: Cloth, view: View, place: Isometry = STILL, net: bool = True, arrow: float = ARROW
) -> None:
    """A mark in the middle of each stretch of a seam between two others.

    An arrow towards the side it is pressed to; a diamond where it is open; a ring where either will do.
    """
    lines = [(map_line(line, place), pressed) for line, pressed in seam_lines(cloth, net)]
    others = [line for line, _ in lines]
    for line, pressed in lines:
        if pressed is not None:
            parts = [(view.at(a), view.at(b)) for a, b in _between(line, others)]
            room = min(SHORT, max(distance(*part) for part in parts))
            for part in parts:
                if distance(*part) >= room:
                    _mark(pen, part, pressed, arrow)


def _between(line: Line, others: list[Line]) -> list[Line]:
    """The line in parts: cut where another seam ends on it or crosses it."""
    along, whole = unit(sub(line[1], line[0])), distance(*line)
    places = {0.0, whole}
    for other in others:
        a, b = side_of(other[0], *line), side_of(other[1], *line)
        if abs(a - b) < EDGE_MATCH or a * b > EDGE_MATCH:
            continue
        at = add(other[0], scale(sub(other[1], other[0]), a / (a - b)))
        how_far = dot(along, sub(at, line[0]))
        if EDGE_MATCH < how_far < whole - EDGE_MATCH:
            places.add(how_far)
    cuts = sorted(places)
    cuts = [cuts[0], *(b for a, b in pairwise(cuts) if b - a > EDGE_MATCH)]
    ends = [add(line[0], scale(along, at)) for at in cuts]
    return list(pairwise(ends))


def _mark(pen: Pen, stretch: Line, pressed: Pressed, arrow: float) -> None:
    centre = middle(*stretch)
    long = min(arrow, max(4.5, distance(*stretch) * 0.8))
    left = scale(left_of(unit(sub(stretch[1], stretch[0]))), long / 2)
    if pressed == "either":
        pen.circle(centre, 2.2, PRESSED_SPOT)
    elif pressed == "open":
        along = scale(unit(sub(stretch[1], stretch[0])), 2.2)
        half = scale(unit(left), 3.6)
        corners = (sub(centre, half), add(centre, along), add(centre, half), sub(centre, along))
        pen.polygon(corners, PRESSED_SPOT)
    else:
        to = left if pressed == "first" else scale(left, -1.0)
        pen.arrow(sub(centre, to), add(centre, to), PRESSED)
