"""Isometries: a turn, perhaps a mirroring, and a move. Turns by table, not by cosine."""

from __future__ import annotations

import math
from dataclasses import dataclass

from piecewright.geometry.point import Point, cross, dot, sub, unit

_HALF, _ROOT2, _ROOT3 = 0.5, math.sqrt(2) / 2, math.sqrt(3) / 2
_QUARTER = {0: 1.0, 30: _ROOT3, 45: _ROOT2, 60: _HALF, 90: 0.0}
_COSINES = _QUARTER | {180 - degrees: -cosine for degrees, cosine in _QUARTER.items() if cosine}


def cos_of(degrees: float) -> float:
    """The cosine, exact to the last digit at multiples of 30 and 45 degrees."""
    folded = abs((degrees + 180) % 360 - 180)
    return _COSINES[int(folded)] if folded in _COSINES else math.cos(math.radians(degrees))


def sin_of(degrees: float) -> float:
    """The sine, exact to the last digit at multiples of 30 and 45 degrees."""
    return cos_of(degrees - 90)


@dataclass(frozen=True, slots=True)
class Isometry:
    """Mirrors in the x axis if `mirrored`, turns by the angle of (cos, sin), then moves by (x, y).

    >>> turned(90).at((1.0, 0.0))
    (0.0, 1.0)
    """

    cos: float = 1.0
    sin: float = 0.0
    x: float = 0.0
    y: float = 0.0
    mirrored: bool = False

    def at(self, p: Point) -> Point:
        """Where the point goes."""
        px, py = p[0], -p[1] if self.mirrored else p[1]
        return (self.cos * px - self.sin * py + self.x, self.sin * px + self.cos * py + self.y)

    def along(self, v: Point) -> Point:
        """Where the direction goes (no move)."""
        vx, vy = v[0], -v[1] if self.mirrored else v[1]
        return (self.cos * vx - self.sin * vy, self.sin * vx + self.cos * vy)

    def after(self, first: Isometry) -> Isometry:
        """The isometry that does `first`, then this one."""
        x, y = self.at((first.x, first.y))
        cos, sin = self.along((first.cos, first.sin))
        return Isometry(cos, sin, x, y, self.mirrored != first.mirrored)

    def back(self) -> Isometry:
        """The isometry that undoes this one."""
        sin = self.sin if self.mirrored else -self.sin
        turn = Isometry(self.cos, sin, 0.0, 0.0, self.mirrored)
        x, y = turn.along((-self.x, -self.y))
        return Isometry(self.cos, sin, x, y, self.mirrored)

    @property
    def degrees(self) -> float:
        """The angle of the turn, from 0 up to 360."""
        return math.degrees(math.atan2(self.sin, self.cos)) % 360


STILL = Isometry()


def moved(x: float, y: float) -> Isometry:
    """A move without a turn."""
    return Isometry(x=x, y=y)


def turned(degrees: float, centre: Point = (0.0, 0.0)) -> Isometry:
    """A turn to the left about a centre."""
    turn = Isometry(cos_of(degrees), sin_of(degrees))
    x, y = sub(centre, turn.at(centre))
    return Isometry(turn.cos, turn.sin, x, y)


def folded(a: Point, b: Point) -> Isometry:
    """The mirroring in the line through a and b: what opening a seam does to the upper cloth."""
    ux, uy = unit(sub(b, a))
    turn = Isometry(ux * ux - uy * uy, 2 * ux * uy, 0.0, 0.0, True)
    x, y = sub(a, turn.at(a))
    return Isometry(turn.cos, turn.sin, x, y, True)


def laying(a: Point, b: Point, onto_a: Point, onto_b: Point) -> Isometry:
    """The turn and move that lays a on `onto_a` and the direction ab along that of onto_a to onto_b."""
    u, v = unit(sub(b, a)), unit(sub(onto_b, onto_a))
    turn = Isometry(_snapped(dot(u, v)), _snapped(cross(u, v)))
    x, y = sub(onto_a, turn.at(a))
    return Isometry(turn.cos, turn.sin, x, y)


def _snapped(value: float) -> float:
    """A sine or cosine, put exactly on 0, 1 or a half root where it is within rounding of it."""
    for exact in (0.0, 1.0, _ROOT2, _HALF, _ROOT3):
        if abs(abs(value) - exact) < 1e-10:
            return math.copysign(exact, value) if exact else 0.0
    return value
