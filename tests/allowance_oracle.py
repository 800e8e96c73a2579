"""An oracle that shares no kernel with the bench: whether every patch has its seam allowance all round.

Turns and moves are composed as plain matrices, and Shapely alone looks at the shapes. The allowance is
measured with round corners. A pointed corner grown with sharp ones has a dog ear, which the ruler cuts off
when a unit is trued up, and nobody misses it: a seam needs cloth as far as the take-up from every point that
shows, and round corners are just that.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import atan2, cos, hypot, sin

import shapely
from shapely.affinity import affine_transform

from piecewright.bench.cloth import Cloth
from piecewright.design.drawing import Group, Patch
from piecewright.geometry.isometry import Isometry
from piecewright.planning.job import Job

WITHIN = 2e-3  # inches: a tolerance of drawing on either side

Matrix = tuple[float, float, float, float, float, float]
Flat = tuple[str, shapely.Polygon]


def without_allowance(job: Job, top: Cloth) -> list[str]:
    """The drawn patches that no flat piece of their fabric in the top covers, allowance included."""
    fabric_of = {role.key: role.fabric or role.key for role in job.design.roles}
    return uncovered(job.drawing.top, top, fabric_of, float(job.workroom.needle + job.workroom.fold))


def uncovered(drawing: Group, top: Cloth, fabric_of: Mapping[str, str], take_up: float) -> list[str]:
    """The same for any drawing, cloth and take-up (inches)."""
    flats = _flat_pieces(top)
    tree = shapely.STRtree([flat for _, flat in flats])
    reach = take_up - WITHIN
    missing = []
    for laying in _layings(drawing.outline, top.net):
        lying = [(patch, affine_transform(outline, laying)) for patch, outline in _patches(drawing)]
        missing.append(
            [
                f"{patch.role} {outline.wkt}"
                for patch, outline in lying
                if not _covered(
                    outline.buffer(reach),
                    patch.may_piece,
                    [flats[k][1] for k in tree.query(outline) if flats[k][0] == fabric_of[patch.role]],
                )
            ]
        )
    return min(missing, key=len)


def _covered(wanted: shapely.Polygon, may_piece: bool, flats: list[shapely.Polygon]) -> bool:
    """Whether one flat piece holds a patch with its allowance; a long strip may be of several."""
    if any(flat.covers(wanted) for flat in flats):
        return True
    return may_piece and shapely.unary_union(flats).buffer(WITHIN).covers(wanted)


def _flat_pieces(cloth: Cloth) -> list[Flat]:
    """The fabric and the whole flat piece behind every face of a cloth, in the cloth's own frame."""
    found = [(face.fabric, shapely.Polygon(face.flat)) for face in cloth.own_faces]
    for part in cloth.parts:
        laying = _matrix(part.place)
        found += [(fabric, affine_transform(flat, laying)) for fabric, flat in _flat_pieces(part.cloth)]
    return found


def _patches(drawing: Group | Patch) -> list[tuple[Patch, shapely.Polygon]]:
    """Every patch of a drawing with its outline, in the drawing's own frame."""
    if isinstance(drawing, Patch):
        return [(drawing, shapely.Polygon(drawing.outline))]
    return [
        (patch, affine_transform(outline, _matrix(child.place)))
        for child in drawing.children
        for patch, outline in _patches(child.drawing)
    ]


def _matrix(place: Isometry) -> Matrix:
    assert not place.mirrored
    return (place.cos, -place.sin, place.sin, place.cos, place.x, place.y)


def _layings(drawn: Sequence[tuple[float, float]], sewn: Sequence[tuple[float, float]]) -> list[Matrix]:
    """The ways to lay the drawn rectangle on the one that was sewn: two, or four for a square."""
    (ax, ay), (bx, by) = drawn[0], drawn[1]
    found = []
    for (cx, cy), (dx, dy) in zip(sewn, [*sewn[1:], sewn[0]], strict=True):
        if abs(hypot(dx - cx, dy - cy) - hypot(bx - ax, by - ay)) < WITHIN:
            turn = atan2(dy - cy, dx - cx) - atan2(by - ay, bx - ax)
            c, s = cos(turn), sin(turn)
            found.append((c, -s, s, c, cx - c * ax + s * ay, cy - s * ax - c * ay))
    return found
