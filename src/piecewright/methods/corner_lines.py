"""Squares sewn over corners: where they lie on a base, where one sews and cuts, in what order."""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.bench.cloth import SeamSize
from piecewright.bench.steps import AnyStep, Lay, Ruled, Stack
from piecewright.geometry.point import Point
from piecewright.methods.bonus import PILE, sewn_twice
from piecewright.methods.lines import face_down, press_all, ruled
from piecewright.methods.method import Making

Size = tuple[float, float]

OPPOSITE = {"ne": "sw", "sw": "ne", "nw": "se", "se": "nw"}


@dataclass(frozen=True)
class Corner:
    """A square of a side in a corner of a base (width, height); inches, in the base's frame."""

    name: str
    base: Size
    side: float

    @property
    def low(self) -> Point:
        """Its lower left corner."""
        width, height = self.base
        x = width - self.side if "e" in self.name else 0.0
        return x, height - self.side if "n" in self.name else 0.0

    @property
    def line(self) -> tuple[Point, Point]:
        """Its diagonal across the corner, with what stays of the base on its left."""
        (x, y), side = self.low, self.side
        lower_left, lower_right, upper_right, upper_left = (
            (x, y),
            (x + side, y),
            (x + side, y + side),
            (x, y + side),
        )
        return {
            "ne": (lower_right, upper_left),
            "nw": (upper_right, lower_left),
            "sw": (upper_left, lower_right),
            "se": (lower_left, upper_right),
        }[self.name]

    def lay(self, pile: str) -> Lay:
        """The square laid face down."""
        return face_down(pile, self.side, self.low)

    def sew(self, twice: SeamSize | None) -> tuple[Ruled, ...]:
        """A hair outside the diagonal, so that the fold lies on it; twice, to save what is cut off."""
        return sewn_twice(*self.line, twice) if twice else (ruled(*self.line, "hair right"),)

    def cut(self) -> Ruled:
        """A seam allowance outside the diagonal."""
        return ruled(*self.line, "seam right")


def in_turn(corners: tuple[str, ...], base: Size, side: float) -> list[tuple[Corner, ...]]:
    """The corners in the order in which they are sewn: opposite ones together where they do not meet."""
    left, found = list(corners), []
    together = 3 * side <= sum(base)
    while left:
        names = [left.pop(0)]
        if together and OPPOSITE[names[0]] in left:
            left.remove(OPPOSITE[names[0]])
            names.append(OPPOSITE[names[0]])
        found.append(tuple(Corner(name, base, side) for name in names))
    return found


def flips(
    making: Making, corners: tuple[str, ...], base: Size, side: float, bonus: bool = False
) -> tuple[AnyStep, ...]:
    """The steps that flip corners of a base; `bonus`: what comes off is sewn before it is cut."""
    written: list[AnyStep] = []
    below, squares = making.pieces
    small = f"{making.gives} {PILE}"
    rounds = in_turn(corners, base, side)
    done = 0
    for together in rounds:
        done += len(together)
        made = making.gives if done == len(corners) else f"{making.gives} corner {done}"
        # What comes off is named from below: small units of lower corners come before the unit itself.
        low = sum("s" in corner.name for corner in together)
        names = (small,) * low + (made,) + (small,) * (len(together) - low) if bonus else (made,)
        written += [
            Stack(
                base=below,
                tops=tuple(corner.lay(squares) for corner in together),
                sew=tuple(line for corner in together for line in corner.sew(making.seam if bonus else None)),
                cut=tuple(corner.cut() for corner in together),
                gives=names,
                times=making.times,
            ),
            press_all(made, *(f"{names[0]}.{k}" for k in range(len(together)))),
            *((press_all(small, f"{names[0]}.0"),) if bonus else ()),
        ]
        below = made
    return tuple(written)
