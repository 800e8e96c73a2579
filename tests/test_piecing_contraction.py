"""A drawn block contracted: which patches become units, and which are left as they are."""

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.design.drawing import Group, Patch, Placed
from piecewright.design.kinds import kind_of
from piecewright.geometry.isometry import folded, moved, turned
from piecewright.geometry.polygon import Polygon, area, bounds, placed, rectangle
from piecewright.methods.kinds import recognise
from piecewright.methods.method import Unit
from piecewright.piecing.clusters import can_be_made
from piecewright.piecing.contraction import contracted
from piecewright.piecing.order import best_order
from piecewright.piecing.patchwork import Patchwork
from piecing_blocks import bears_paw, block_of, churn_dash, ohio_star, sawtooth_star, squares, unit

Shapes = list[tuple[str, Polygon]]

UNITS: dict[str, tuple[str, tuple[float, float], tuple[float, ...], str]] = {
    "hst": ("ab", (4, 4), (), ""),
    "hourglass": ("ab", (4, 4), (), ""),
    "geese": ("ab", (6, 3), (), ""),
    "insquare": ("ab", (4, 4), (), ""),
    "corner1": ("ab", (4, 3), (2,), "left"),
    "corners2": ("ab", (6, 4), (2,), ""),
    "opposite2": ("ab", (4, 4), (1,), ""),
    "corners3": ("ab", (3, 5), (1,), "right"),
    "snowball": ("ab", (6, 6), (1.5,), ""),
    "hrt": ("ab", (3, 6), (), "left"),
    "threepatch": ("abc", (4, 4), (), "right"),
    "quarters": ("abcd", (4, 4), (), ""),
    "fourpatch": ("ab", (4, 4), (), ""),
    "ninepatch": ("ab", (6, 6), (), ""),
    "logcabin": ("abc", (6, 6), (2, 1), "left"),
    "courthouse": ("abc", (6, 6), (2, 2), ""),
}
"""Roles, size, measures and hand of a unit of each kind that has more than one patch."""

QUARTER_TRIANGLES = {"hst", "hourglass", "threepatch", "quarters"}
"""Of triangles that make other units with the corners about them when they stand on point."""


def unit_shapes(kind: str) -> tuple[Shapes, tuple[float, float]]:
    roles, size, measures, hand = UNITS[kind]
    return unit(kind, roles, (0, 0, *size), measures=measures, hand=hand), size


def found(work: Patchwork) -> Counter[str]:
    """How often each kind of unit comes among the parts, and how many patches are loose."""
    units = [recognise(part.drawing) for part in work.parts]
    return Counter(unit.kind if unit else "loose" for unit in units)


def in_a_frame(shapes: Shapes, size: tuple[float, float], angle: float) -> Group:
    """A rectangle turned by an angle short of a quarter, with four triangles that make it a level one."""
    turn = turned(angle)
    corners = placed(rectangle(*size), turn)
    left, low, right, high = bounds(corners)
    home = moved(-left, -low).after(turn)
    south, east, north, west = (home.at(p) for p in rectangle(*size))
    width, height = right - left, high - low
    triangles = [
        ((0.0, 0.0), south, west),
        ((width, 0.0), east, south),
        ((width, height), north, east),
        ((0.0, height), west, north),
    ]
    return block_of([*((role, placed(o, home)) for role, o in shapes), *(("z", t) for t in triangles)])


# --- Units at any angle -------------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", UNITS)
def test_a_unit_beside_a_patch_is_found(kind: str) -> None:
    shapes, (width, height) = unit_shapes(kind)
    block = block_of([*shapes, ("z", tuple((x + width, y) for x, y in rectangle(1.5, height)))])
    assert found(contracted(block)) == {kind: 1, "loose": 1}


@pytest.mark.parametrize("kind", sorted(UNITS.keys() - QUARTER_TRIANGLES))
def test_a_unit_on_point_is_found(kind: str) -> None:
    shapes, size = unit_shapes(kind)
    work = contracted(in_a_frame(shapes, size, 45))
    assert found(work) == {kind: 1, "loose": 4}
    assert best_order(work).exact


def test_an_hourglass_on_point_between_four_corners_is_four_half_square_triangles() -> None:
    """Each corner and a quarter of the hourglass make a square: four units save four joins, the one three."""
    for kind in ("hourglass", "quarters"):
        shapes, size = unit_shapes(kind)
        assert found(contracted(in_a_frame(shapes, size, 45))) == {"hst": 4}


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(sorted(UNITS)), st.floats(3, 42) | st.floats(48, 87))
def test_a_unit_at_any_angle_is_found_where_it_lies(kind: str, angle: float) -> None:
    shapes, size = unit_shapes(kind)
    block = in_a_frame(shapes, size, angle)
    work = contracted(block)
    assert found(work) == {kind: 1, "loose": 4}
    shown = [patch.placed(part.place) for part in work.parts for patch in part.drawing.patches]
    for patch in block.patches:
        assert any(
            patch.role == other.role
            and {_round(p) for p in patch.outline} == {_round(p) for p in other.outline}
            for other in shown
        )


def _round(p: tuple[float, float]) -> tuple[int, int]:
    return round(p[0] * 317.3), round(p[1] * 317.3)


def test_equal_units_share_one_drawing() -> None:
    units = [part.drawing for part in contracted(bears_paw()).parts if isinstance(part.drawing, Group)]
    assert len(units) == 16
    assert len({id(unit) for unit in units}) == 4


# --- Traditional blocks, counted by hand --------------------------------------------------------------------


@pytest.mark.parametrize(
    ("block", "parts"),
    [
        (sawtooth_star, {"geese": 4, "loose": 5}),
        (ohio_star, {"hourglass": 4, "loose": 5}),
        (churn_dash, {"hst": 4, "rail": 4, "loose": 1}),
        (bears_paw, {"hst": 16, "loose": 13}),
    ],
)
def test_the_units_of_a_traditional_block(block, parts: dict[str, int]) -> None:
    assert found(contracted(block())) == parts


def test_a_block_that_is_a_unit_is_one_part() -> None:
    for kind in UNITS:
        block = block_of(unit_shapes(kind)[0])
        (part,) = contracted(block).parts
        assert part.drawing is block


def test_units_that_are_drawn_stay_and_other_groups_are_opened() -> None:
    goose = Group(
        "goose", tuple(Placed(Patch(r, o)) for r, o in unit("geese", "ab", (0, 0, 4, 2))), rectangle(4, 2)
    )
    pair = Group("pair", (Placed(goose), Placed(Patch("c", rectangle(2, 2)), moved(4, 0))), rectangle(6, 2))
    block = Group("Slipway", (Placed(pair), Placed(pair, moved(0, 2))), rectangle(6, 4))
    work = contracted(block)
    assert found(work) == {"geese": 2, "loose": 2}
    assert sum(part.drawing is goose for part in work.parts) == 2


def test_a_mirrored_unit_is_drawn_anew_since_no_sewn_unit_is_turned_over() -> None:
    shapes, (width, height) = unit_shapes("hrt")
    left = Group("left", tuple(Placed(Patch(r, o)) for r, o in shapes), rectangle(width, height))
    over = moved(2 * width, 0).after(folded((0.0, 0.0), (0.0, 1.0)))
    block = Group("Slipway", (Placed(left), Placed(left, over)), rectangle(2 * width, height))
    hands = sorted(unit.hand for part in contracted(block).parts if (unit := recognise(part.drawing)))
    assert hands == ["left", "right"]
    assert not any(part.place.mirrored for part in contracted(block).parts)


# --- What is saved ------------------------------------------------------------------------------------------


def test_a_four_patch_is_found_rather_than_two_rails() -> None:
    work = contracted(block_of([*squares("ab ba"), *unit("plain", "c", (2, 0, 1, 2))]))
    assert found(work) == {"fourpatch": 1, "loose": 1}


def test_two_four_patches_are_found_rather_than_two_rails_of_four() -> None:
    """Both save six joins."""
    work = contracted(block_of([*squares("abab baba"), *unit("plain", "c", (4, 0, 1, 2))]))
    assert found(work) == {"fourpatch": 2, "loose": 1}


def test_of_units_that_save_as_much_the_larger_come_first() -> None:
    """An hourglass on point saves three joins, as half-square triangles on three of its sides would."""
    shapes, size = unit_shapes("hourglass")
    *most, (role, triangle) = [(p.role, p.outline) for p in in_a_frame(shapes, size, 45).patches]
    corner = min(triangle, key=lambda p: (p[0], -p[1]))
    ends = [p for p in triangle if p != corner]
    middle = ((ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2)
    halves = [(role, (corner, p, middle)) for p in ends]
    upright = [(r, o if area(o) > 0 else o[::-1]) for r, o in halves]
    assert found(contracted(block_of([*most, *upright]))) == {"hourglass": 1, "loose": 5}


def test_checks_of_six_by_six_are_four_nine_patches() -> None:
    """Nine four-patches would save 27 joins, four nine-patches save 32, a sixteen-patch 15."""
    assert found(contracted(block_of(squares(" ".join(["ababab", "bababa"] * 3))))) == {"ninepatch": 4}


def test_a_double_nine_patch_is_nine_patches_and_plain_squares() -> None:
    shapes: Shapes = []
    for x in range(3):
        for y in range(3):
            small = [(r, tuple((p + 3 * x, q + 3 * y) for p, q in o)) for r, o in squares("aba bab aba")]
            shapes += small if (x + y) % 2 == 0 else unit("plain", "c", (3 * x, 3 * y, 3, 3))
    assert found(contracted(block_of(shapes))) == {"ninepatch": 5, "loose": 4}


def test_a_square_in_a_square_in_a_square_is_a_unit_on_point_and_four_corners() -> None:
    inner = [(r, placed(o, moved(0, 0))) for r, o in unit("insquare", "ab", (0, 0, 4, 4))]
    work = contracted(in_a_frame(inner, (4, 4), 45))
    assert found(work) == {"insquare": 1, "loose": 4}
    (whole,) = [part for part in work.parts if isinstance(part.drawing, Group)]
    assert area(whole.outline) == pytest.approx(16)
    assert len(whole.outline) == 4


# --- Runs ---------------------------------------------------------------------------------------------------

RUN = [*unit("plain", "a", (0, 0, 1, 3)), *unit("plain", "b", (1, 0, 2, 3))]


def with_runs(*places: tuple[float, float, float]) -> Group:
    """Runs of two bars, each moved and turned, apart from each other in a block of 12 by 12."""
    shapes: Shapes = []
    taken = set()
    for x, y, angle in places:
        at = moved(x + 1.5, y + 1.5).after(turned(angle)).after(moved(-1.5, -1.5))
        shapes += [(role, placed(outline, at)) for role, outline in RUN]
        taken.add((x, y))
    cells = [(3.0 * k, 3.0 * j) for k in range(4) for j in range(4)]
    shapes += [s for cell in cells if cell not in taken for s in unit("plain", "c", (*cell, 3, 3))]
    return block_of(shapes)


def test_a_run_that_comes_once_is_left_as_it_is() -> None:
    assert found(contracted(with_runs((0, 0, 0)))) == {"loose": 17}


@pytest.mark.parametrize("angle", [0, 90, 180, 270])
def test_a_run_that_comes_twice_whichever_way_it_lies_is_a_rail(angle: float) -> None:
    assert found(contracted(with_runs((0, 0, 0), (6, 6, angle)))) == {"rail": 2, "loose": 14}


def test_a_run_in_a_block_that_is_made_four_times_is_a_rail() -> None:
    block = block_of([*RUN, *unit("hst", "ab", (3, 0, 3, 3))])
    assert found(contracted(block, times=3)) == {"hst": 1, "loose": 2}
    assert found(contracted(block, times=4)) == {"hst": 1, "rail": 1}


def test_a_run_does_not_end_between_two_squares_of_a_row() -> None:
    """Twice b beside c, but in rows of three that come once each: a nine-patch is sewn in rows."""
    assert found(contracted(block_of(squares("abc bca cab")))) == {"loose": 9}


def test_rows_of_squares_that_come_again_are_rails() -> None:
    assert found(contracted(block_of(squares("abba cdec abba")))) == {"rail": 2, "loose": 4}


def test_bars_of_one_fabric_are_no_rail() -> None:
    block = block_of(
        [
            *unit("plain", "a", (0, 0, 1, 2)),
            *unit("plain", "a", (1, 0, 2, 2)),
            *unit("hst", "ab", (3, 0, 2, 2)),
        ]
    )
    assert found(contracted(block, times=10)) == {"hst": 1, "loose": 2}


# --- Left loose ---------------------------------------------------------------------------------------------


def mitred(inside: Shapes) -> Group:
    """Something of 4 by 4 in a frame whose corners are mitred."""
    bars = [
        ((0, 0), (8, 0), (6, 2), (2, 2)),
        ((8, 0), (8, 8), (6, 6), (6, 2)),
        ((8, 8), (0, 8), (2, 6), (6, 6)),
        ((0, 8), (0, 0), (2, 2), (2, 6)),
    ]
    return block_of([*inside, *(("f", bar) for bar in bars)])


def test_a_unit_that_lies_across_the_seams_of_the_rest_is_left_loose() -> None:
    """An X of seams runs from corner to corner through an hourglass and the mitres of its frame."""
    through = contracted(mitred(unit("hourglass", "ab", (2, 2, 4, 4))))
    assert found(through) == {"loose": 8}
    assert {node.how for node in _nodes(best_order(through).tree)} == {"row"}


def test_a_unit_is_made_where_full_seams_do_not_go_through_in_any_case() -> None:
    """Half-square triangles let one of the seams through, but not the other."""
    assert found(contracted(mitred(unit("hst", "ab", (2, 2, 4, 4))))) == {"hst": 1, "loose": 4}


def _nodes(tree):
    if not isinstance(tree, Placed):
        yield tree
        for part in tree.parts:
            yield from _nodes(part)


def test_a_unit_that_no_way_makes_is_left_loose(monkeypatch: pytest.MonkeyPatch) -> None:
    block = block_of([*unit("hst", "ab", (0, 0, 4, 4)), *unit("plain", "c", (4, 0, 1, 4))])
    monkeypatch.setattr("piecewright.piecing.contraction.can_be_made", lambda unit: False)
    assert found(contracted(block)) == {"loose": 3}


@pytest.mark.parametrize("kind", UNITS)
def test_there_is_a_way_for_each_of_these_units(kind: str) -> None:
    wanted = recognise(block_of(unit_shapes(kind)[0]))
    assert isinstance(wanted, Unit)
    assert kind_of(wanted.kind).patches in (0, len(wanted.drawing.patches))
    assert can_be_made(wanted)
