"""One check that shares no kernel with the bench: every patch has its seam allowance all round.

Plain Shapely only: the flat piece behind each finished patch must contain the patch grown by the take-up.
It is grown with *round* corners. Where a patch ends in a sharp point, its allowances would run on in a dog
ear, `s / sin(half the angle)` beyond the point. Dog ears are cut off when a unit is trued up, and no seam
needs them: what holds the stitches at the point is the cloth within one take-up of it, a round corner.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from piecewright.bench.cloth import Cloth, SeamSize, piece
from piecewright.bench.joining import Joining, close, join
from piecewright.geometry.isometry import cos_of, sin_of
from piecewright.geometry.polygon import grown, rectangle
from piecewright.measure.length import inches
from piecewright.methods import METHODS
from piecewright.methods.method import Unit
from piecewright.methods.recipe import make_recipe
from piecewright.workroom.workroom import METRIC_WORKROOM, Workroom

SLACK = 2e-3
SEAM = SeamSize(0.234375, 0.015625)


def short_of_allowance(cloth: Cloth, take_up: float) -> float:
    """The largest area, square inches, that any patch with its allowance has outside its flat piece."""
    missing = [
        Polygon(face.seen)
        .buffer(take_up, join_style="round", quad_segs=32)
        .difference(Polygon(face.flat).buffer(SLACK, join_style="mitre"))
        .area
        for face in cloth.finished
    ]
    assert missing
    return max(missing)


def recipe_cloth(m, side, workroom) -> Cloth:
    width = side * 2 if m.kind == "geese" else side
    return make_recipe(m, Unit(m.kind, ("sail", "tide"), width, side), workroom).cloth


@pytest.mark.parametrize("m", METHODS, ids=lambda m: f"{m.kind} {m.name}")
@settings(max_examples=10)
@given(side=st.integers(4, 100).map(lambda eighths: inches(1) * eighths / 8), coarse=st.booleans())
def test_every_patch_of_a_unit_has_its_allowance(m, side, coarse):
    workroom = Workroom(rounding=inches("1/4")) if coarse else Workroom()
    assert short_of_allowance(recipe_cloth(m, side, workroom), float(workroom.take_up)) == 0


@pytest.mark.parametrize("m", METHODS, ids=lambda m: f"{m.kind} {m.name}")
def test_every_patch_of_a_metric_unit_has_its_allowance(m):
    take_up = float(METRIC_WORKROOM.take_up)
    assert short_of_allowance(recipe_cloth(m, inches("2 3/8"), METRIC_WORKROOM), take_up) == 0


def test_the_check_sees_an_allowance_that_is_too_narrow():
    cloth = recipe_cloth(METHODS[1], inches(2), Workroom())
    assert short_of_allowance(cloth, 0.25 + 2 * SLACK) > 0


def test_sharp_corners_would_ask_for_the_dog_ears_that_are_cut_off():
    cloth = recipe_cloth(METHODS[0], inches(2), Workroom())
    for face in cloth.finished:
        sharp = Polygon(face.seen).buffer(0.25, join_style="mitre")
        ears = sharp.difference(Polygon(face.flat).buffer(SLACK))
        assert ears.area > 0.1


def patch(net, fabric: str = "sail") -> Cloth:
    return piece(fabric, grown(tuple(net), SEAM.take_up), SEAM)


def row(cloths: list[Cloth], name: str, entry: int, leave: int) -> Cloth:
    parts = [Joining(cloth, (entry,) if k else (), (leave,)) for k, cloth in enumerate(cloths)]
    return join(parts, name, SEAM)


def test_every_patch_of_joined_blocks_has_its_allowance():
    hst = recipe_cloth(METHODS[1], inches(3), Workroom())
    geese = recipe_cloth(METHODS[-1], inches("1 1/2"), Workroom())
    square = patch(rectangle(3, 3), "sea")
    top = row([hst, square, hst], "top", 3, 1)
    middle = row([square, hst, square], "middle", 3, 1)
    block = row([top, middle, top], "block", 0, 2)
    assert len(block.finished) == 14
    assert short_of_allowance(block, SEAM.take_up) == 0
    flock = row([geese] * 4, "flock", 0, 2)
    assert short_of_allowance(flock, SEAM.take_up) == 0


def test_every_patch_of_a_closed_star_has_its_allowance():
    c, s = 3 * cos_of(45), 3 * sin_of(45)
    diamond = patch(((0, 0), (3, 0), (3 + c, s), (c, s)))
    ring = row([diamond] * 8, "ring", 0, 3)
    tip = min(range(len(ring.net)), key=lambda k: abs(ring.net[k][0]) + abs(ring.net[k][1]))
    star = close(ring, ((tip - 1) % len(ring.net), tip), "ring.close", SEAM)
    assert len(star.finished) == 8
    assert short_of_allowance(star, SEAM.take_up) == 0


def test_every_patch_round_a_set_in_corner_has_its_allowance():
    low, upper = patch(rectangle(3, 3)), patch(rectangle(3, 4), "tide")
    ell = join([Joining(low, (), (1,)), Joining(low, (3,), (2,)), Joining(upper, (0,), ())], "ell", SEAM)
    assert len(ell.net) == 6
    assert short_of_allowance(ell, SEAM.take_up) == 0
    inner = min(range(6), key=lambda k: abs(ell.net[k][0] - 3) + abs(ell.net[k][1] - 3))
    set_in = patch(rectangle(3, 4), "sea")
    whole = join([Joining(ell, (), ((inner - 1) % 6, inner)), Joining(set_in, (0, 1), ())], "whole", SEAM)
    assert len(whole.net) == 4
    assert short_of_allowance(whole, SEAM.take_up) == 0
