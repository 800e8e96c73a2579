"""Cloths sewn on the bench's own kernel for the tests of layers and of pictures of piecing."""

from __future__ import annotations

from dataclasses import replace

from piecewright.bench.cloth import Cloth, SeamSize, Towards, piece
from piecewright.bench.joining import Joining, close, join
from piecewright.bench.stretches import Stretch
from piecewright.geometry.polygon import Polygon, grown, rectangle

SEAM = SeamSize(0.25, 0.0)
LOW, RIGHT, TOP, LEFT = (0,), (1,), (2,), (3,)


def bar(width: float, height: float, fabric: str = "sail") -> Cloth:
    """A rectangle by its finished size; its sides are `LOW`, `RIGHT`, `TOP`, `LEFT`."""
    return patch(rectangle(width, height), fabric)


def patch(net: Polygon, fabric: str = "sail") -> Cloth:
    """A piece by its finished outline."""
    return piece(fabric, grown(net, SEAM.take_up), SEAM)


def sewn(one: Cloth, leave: tuple[int, ...], two: Cloth, enter: tuple[int, ...], **how: Stretch) -> Cloth:
    """Two cloths joined, the seam not yet pressed."""
    return join([Joining(one, (), leave), Joining(two, enter, ())], "x", SEAM, how.get("stretch"))


def pressed(cloth: Cloth, *ways: Towards) -> Cloth:
    """The cloth with the one way of each of its own seams."""
    seams = (replace(s, pressed=(w,) * len(s.segments)) for s, w in zip(cloth.own_seams, ways, strict=True))
    return replace(cloth, own_seams=tuple(seams), _ends={})


def pinwheel(way: Towards = "second") -> Cloth:
    """A square of 3 in and four logs of 3 by 6 round it, the first seam sewn in part and closed at the end.

    `way` is that of all seams; "second" is to the log that is sewn on. The closed seam lies on the line from
    (-3, 3) to (3, 3), the first log above it, and its rest is pressed to the same side.
    """
    log = bar(3, 6, "tide")
    whole = pressed(sewn(bar(3, 3), TOP, log, LEFT, stretch=Stretch(0, 1.5)), way)
    for leave, enter in ((RIGHT, LEFT), (LOW, RIGHT), ((6,), RIGHT)):
        whole = pressed(sewn(whole, leave, log, enter), way)
    # The first log lies on the left of the stretch that closes the ring.
    rest: dict[Towards, Towards] = {"second": "first", "first": "second", "open": "open"}
    return pressed(close(whole, (4, 5), "x.close", SEAM), way, rest[way])


def set_in(way: Towards = "second") -> Cloth:
    """A square of 3 in set into the corner at (3, 3) of a bar of 6 by 3 and a square on its left half."""
    beside = Stretch(3, 6, flush_at_start=False)
    corner = pressed(sewn(bar(6, 3, "tide"), TOP, bar(3, 3), LOW, stretch=beside), "first")
    return pressed(sewn(corner, (2, 3), bar(3, 3, "net"), (3, 0)), way)
