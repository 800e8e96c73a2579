"""One check that shares no kernel with the bench: every patch has its seam allowance all round.

Plain Shapely only: a flat piece behind the finished cloth must contain each *drawn* patch grown by the
take-up (`allowance_oracle.py`). It is grown with *round* corners. Where a patch ends in a sharp point, its
allowances would run on in a dog ear, `s / sin(half the angle)` beyond the point. Dog ears are cut off when a
unit is trued up, and no seam needs them: what holds the stitches at the point is the cloth within one take-up
of it, a round corner.
"""

from __future__ import annotations

import pytest
from shapely import Polygon as ShapelyPolygon

from allowance_oracle import WITHIN, uncovered
from piecewright.bench.cloth import Cloth, SeamSize, piece
from piecewright.bench.joining import Joining, close, join
from piecewright.geometry.isometry import cos_of, sin_of
from piecewright.geometry.polygon import Polygon, grown, rectangle
from piecewright.measure.length import Length, inches, mm
from piecewright.methods import ways_for
from piecewright.methods.method import Method, Unit
from piecewright.methods.recipe import make_recipe
from piecewright.problems import Refused
from piecewright.workroom.workroom import METRIC_WORKROOM, Workroom
from promises import SAMPLES, unit_of

SEAM = SeamSize(0.234375, 0.015625)
COARSE = Workroom(rounding=inches("1/4"))

# Sides that the ruler shows and one that it does not; a coarse ruler cuts larger, and trims more.
ROOMS: list[tuple[str, Workroom, tuple[Length, ...]]] = [
    ("inches", Workroom(), (inches(3), inches("2 5/64"))),
    ("coarse", COARSE, (inches("4 3/8"),)),
    ("mm", METRIC_WORKROOM, (mm("67.5"),)),
]


def short_of_allowance(cloth: Cloth, take_up: float) -> float:
    """The largest area, square inches, that any face with its allowance has outside its flat piece."""
    missing = [
        ShapelyPolygon(face.seen)
        .buffer(take_up, join_style="round", quad_segs=32)
        .difference(ShapelyPolygon(face.flat).buffer(WITHIN, join_style="mitre"))
        .area
        for face in cloth.finished
    ]
    assert missing
    return max(missing)


def made_by_hand(kind: str, side: Length, way: str) -> Cloth:
    unit = unit_of(kind, side)
    method = next(m for m in ways_for(unit, Workroom()) if m.name == way)
    return make_recipe(method, unit, Workroom()).cloth


@pytest.mark.parametrize(("room", "sides"), [room[1:] for room in ROOMS], ids=[room[0] for room in ROOMS])
@pytest.mark.parametrize("kind", SAMPLES)
def test_every_patch_of_every_way_has_its_allowance(
    kind: str, room: Workroom, sides: tuple[Length, ...]
) -> None:
    tried = 0
    for side in sides:
        unit = unit_of(kind, side)
        for method in ways_for(unit, room):
            cloth = _cloth_by(method, unit, room)
            if cloth is None:
                continue
            tried += 1
            own = {fabric: fabric for fabric in unit.fabrics}
            missing = uncovered(unit.drawing, cloth, own, float(room.take_up))
            assert missing == [], f"{method.name} at {side}"
            assert short_of_allowance(cloth, float(room.take_up)) == 0, f"{method.name} at {side}"
    assert tried


def _cloth_by(method: Method, unit: Unit, room: Workroom) -> Cloth | None:
    """The trued unit; None where the way says that it cannot make it."""
    try:
        return make_recipe(method, unit, room).cloth
    except Refused:
        return None


def test_the_check_sees_an_allowance_that_is_too_narrow() -> None:
    cloth = made_by_hand("hst", inches(2), "two at a time")
    assert short_of_allowance(cloth, 0.25) == 0
    assert short_of_allowance(cloth, 0.25 + 2 * WITHIN) > 0
    unit, own = unit_of("hst", inches(2)), {"sail": "sail", "tide": "tide"}
    assert uncovered(unit.drawing, cloth, own, 0.25) == []
    assert len(uncovered(unit.drawing, cloth, own, 0.25 + 2 * WITHIN)) == 2


def test_the_check_sees_a_patch_of_another_fabric() -> None:
    cloth, unit = made_by_hand("hst", inches(2), "two at a time"), unit_of("hst", inches(2))
    assert len(uncovered(unit.drawing, cloth, {"sail": "sail", "tide": "sea"}, 0.25)) == 1


def test_sharp_corners_would_ask_for_the_dog_ears_that_are_cut_off() -> None:
    cloth = made_by_hand("hst", inches(2), "one at a time")
    for face in cloth.finished:
        sharp = ShapelyPolygon(face.seen).buffer(0.25, join_style="mitre")
        ears = sharp.difference(ShapelyPolygon(face.flat).buffer(WITHIN))
        assert ears.area > 0.1


def patch(net: Polygon, fabric: str = "sail") -> Cloth:
    return piece(fabric, grown(tuple(net), SEAM.take_up), SEAM)


def row(cloths: list[Cloth], name: str, entry: int, leave: int) -> Cloth:
    parts = [Joining(cloth, (entry,) if k else (), (leave,)) for k, cloth in enumerate(cloths)]
    return join(parts, name, SEAM)


def test_every_patch_of_joined_blocks_has_its_allowance() -> None:
    hst = made_by_hand("hst", inches(3), "two at a time")
    geese = made_by_hand("geese", inches("1 1/2"), "four at a time")
    square = patch(rectangle(3, 3), "sea")
    top = row([hst, square, hst], "top", 3, 1)
    middle = row([square, hst, square], "middle", 3, 1)
    block = row([top, middle, top], "block", 0, 2)
    assert len(block.finished) == 14
    assert short_of_allowance(block, SEAM.take_up) == 0
    flock = row([geese] * 4, "flock", 0, 2)
    assert short_of_allowance(flock, SEAM.take_up) == 0


def test_every_patch_of_a_closed_star_has_its_allowance() -> None:
    c, s = 3 * cos_of(45), 3 * sin_of(45)
    diamond = patch(((0, 0), (3, 0), (3 + c, s), (c, s)))
    ring = row([diamond] * 8, "ring", 0, 3)
    tip = min(range(len(ring.net)), key=lambda k: abs(ring.net[k][0]) + abs(ring.net[k][1]))
    star = close(ring, ((tip - 1) % len(ring.net), tip), "ring.close", SEAM)
    assert len(star.finished) == 8
    assert short_of_allowance(star, SEAM.take_up) == 0


def test_every_patch_round_a_set_in_corner_has_its_allowance() -> None:
    low, upper = patch(rectangle(3, 3)), patch(rectangle(3, 4), "tide")
    ell = join([Joining(low, (), (1,)), Joining(low, (3,), (2,)), Joining(upper, (0,), ())], "ell", SEAM)
    assert len(ell.net) == 6
    assert short_of_allowance(ell, SEAM.take_up) == 0
    inner = min(range(6), key=lambda k: abs(ell.net[k][0] - 3) + abs(ell.net[k][1] - 3))
    set_in = patch(rectangle(3, 4), "sea")
    whole = join([Joining(ell, (), ((inner - 1) % 6, inner)), Joining(set_in, (0, 1), ())], "whole", SEAM)
    assert len(whole.net) == 4
    assert short_of_allowance(whole, SEAM.take_up) == 0
