"""Laying one-way prints so that they stand upright: the base turned by quarters, and each top as well.

A method draws its lines on a base that lies one way. The same lines turned about the base, with its cloth
cut the other way, make the same unit with the print running another way.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

import msgspec

from piecewright.bench.steps import AnyStep, Lay, Ruled, Stack
from piecewright.geometry.isometry import Isometry, moved, turned
from piecewright.geometry.polygon import bounds, placed, rectangle


@dataclass(frozen=True)
class Laying:
    """Quarter turns: of the lines about the base, and of each top in its own place, one after another."""

    base: int = 0
    tops: tuple[int, ...] = ()


AS_IT_COMES = Laying()


def every_laying(steps: tuple[AnyStep, ...]) -> Iterator[Laying]:
    """Every laying of these steps, as it comes first."""
    tops = sum(len(step.tops) for step in steps if isinstance(step, Stack))
    for base, *turns in product(range(4), repeat=1 + tops):
        yield Laying(base, tuple(turns))


def laid(
    steps: tuple[AnyStep, ...],
    laying: Laying,
    base_size: tuple[float, float],
    top_sizes: dict[str, tuple[float, float]],
) -> tuple[AnyStep, ...]:
    """The steps with base and tops laid another way; sizes in inches, of tops by pile name (squares)."""
    if laying == AS_IT_COMES:
        return steps
    about = _quarter(laying.base, base_size)
    turns = iter(laying.tops)
    return tuple(
        msgspec.structs.replace(
            step,
            tops=tuple(_laid(lay, about, next(turns, 0), top_sizes[lay.name]) for lay in step.tops),
            sew=tuple(_turned_line(line, about) for line in step.sew),
            cut=tuple(_turned_line(line, about) for line in step.cut),
        )
        if isinstance(step, Stack)
        else step
        for step in steps
    )


def _quarter(turns: int, size: tuple[float, float]) -> Isometry:
    """The quarter turns that bring a rectangle back into the corner at the origin."""
    turn = turned(90.0 * turns)
    left, low, *_ = bounds(placed(rectangle(*size), turn))
    return moved(-left, -low).after(turn)


def _laid(lay: Lay, about: Isometry, turns: int, size: tuple[float, float]) -> Lay:
    place = about.after(lay.place).after(_quarter(turns, size))
    return Lay(lay.name, place.degrees, place.x, place.y)


def _turned_line(line: Ruled, about: Isometry) -> Ruled:
    start, end = about.at((line.x, line.y)), about.at((line.to_x, line.to_y))
    return Ruled(*start, *end, line.beside)
