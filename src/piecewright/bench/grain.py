"""Bias: edges cut across the grain, which stretch."""

from __future__ import annotations

import math

from piecewright.bench.cloth import Cloth
from piecewright.geometry.point import distance, side_of, sub
from piecewright.geometry.polygon import Line, edges
from piecewright.measure.tolerance import AS_DRAWN

OFF_GRAIN = 1.0  # degrees; cutting is not truer than that


def bias_edges(cloth: Cloth) -> int:
    """How many raw outer edges are off the straight grain, along any part of them."""
    return sum(_has_bias(cloth, edge) for edge in edges(cloth.raw))


def _has_bias(cloth: Cloth, edge: Line) -> bool:
    direction = math.degrees(math.atan2(*reversed(sub(edge[1], edge[0]))))
    for face in cloth.faces:
        if any(_runs_along(own, edge) for own in edges(face.seen)):
            off = (direction - face.grain) % 90
            if min(off, 90 - off) > OFF_GRAIN:
                return True
    return False


def _runs_along(own: Line, edge: Line) -> bool:
    on_line = all(abs(side_of(p, *edge)) <= AS_DRAWN for p in own)
    return on_line and distance(*own) > 10 * AS_DRAWN
