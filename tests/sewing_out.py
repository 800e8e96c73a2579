"""Sewing out: a tree of parts sewn on the bench's kernel, each where it lies in the drawing.

So a sewing order is proven: what comes out can be laid on what was drawn. Terms:
- *lying*: a cloth, and how it lies in the drawing.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import reduce

from piecewright.bench.cloth import Cloth, SeamSize, piece
from piecewright.bench.joining import Joining, close, join
from piecewright.design.drawing import Patch, Placed
from piecewright.geometry.isometry import STILL, Isometry
from piecewright.geometry.polygon import Polygon, grown, placed, same_polygon
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.piecing.sides import SharedPath, closing_sides, ring_seam, shared_path
from piecewright.piecing.tree import Piecing
from piecewright.problems import Problem, Refused


@dataclass(frozen=True)
class Lying:
    """A cloth where it lies in the drawing."""

    cloth: Cloth
    place: Isometry

    @property
    def net(self) -> Polygon:
        """Its net outline there, its sides in the order of the cloth's."""
        return placed(self.cloth.net, self.place)


def sew(piecing: Piecing, cloth_of: Callable[[Placed], Lying], seam: SeamSize) -> Lying:
    """The cloth that a tree makes; `cloth_of` gives that of each leaf. Raises Refused where it makes none."""
    if isinstance(piecing, Placed):
        return cloth_of(piecing)
    parts = [sew(part, cloth_of, seam) for part in piecing.parts]
    if piecing.how == "ring":
        return sewn_around(parts, piecing.name, seam)
    return reduce(lambda one, two: sewn_to(one, two, piecing.name, seam), parts)


def sewn_to(one: Lying, two: Lying, name: str, seam: SeamSize) -> Lying:
    """Two cloths joined along the path on which they lie together."""
    return _joined(one, two, shared_path(one.net, two.net), name, seam)


def sewn_around(parts: Sequence[Lying], name: str, seam: SeamSize) -> Lying:
    """Parts sewn around the first one: the first of these seams in part only, closed when the last is on."""
    centre, first, *others = parts
    partial = ring_seam(centre.net, first.net)
    whole = _joined(centre, first, partial, name, seam)
    for log in others:
        whole = _joined(whole, log, shared_path(whole.net, log.net, partial.line), name, seam)
    closed = close(whole.cloth, closing_sides(whole.cloth.net), f"{name}.close", seam)
    return Lying(closed, whole.place)


def plain_piece(part: Placed, seam: SeamSize) -> Lying:
    """A patch cut with its seam allowance all round, where it lies; raises Refused for a unit."""
    if not isinstance(part.drawing, Patch):
        raise Refused(Problem(f"{part.drawing.name!r} is not one piece of cloth"))
    cut = piece(part.drawing.role, grown(part.outline, seam.take_up), seam)
    if not same_polygon(cut.net, part.outline, AS_DRAWN):
        raise Refused(Problem(f"a piece of {part.drawing.role!r} is too narrow for its seam allowance"))
    return Lying(cut, STILL)


def _joined(one: Lying, two: Lying, path: SharedPath, name: str, seam: SeamSize) -> Lying:
    row = (Joining(one.cloth, (), path.exit), Joining(two.cloth, path.entry, ()))
    return Lying(join(row, name, seam, path.stretch), one.place)
