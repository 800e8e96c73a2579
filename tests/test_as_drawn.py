"""Made as drawn: a top that is not the quilt that was drawn is told, one sentence for each difference."""

import pytest

from piecewright.bench.as_drawn import compare, compare_faces
from piecewright.bench.cloth import Cloth, SeamSize, piece
from piecewright.bench.joining import Joining, join
from piecewright.design.drawing import Group, Patch, Placed
from piecewright.geometry.isometry import Isometry, moved, turned
from piecewright.geometry.polygon import grown, placed, rectangle

SEAM = SeamSize(0.234375, 0.015625)
FABRIC_OF = {"light": "sail", "dark": "tide"}


def patch(width: float, height: float, fabric: str, grain: float = 90.0) -> Cloth:
    return piece(fabric, grown(rectangle(width, height), SEAM.take_up), SEAM, grain)


def in_a_row(*cloths: Cloth) -> Cloth:
    return joined(cloths, 3, 1)


def in_a_tower(*cloths: Cloth) -> Cloth:
    return joined(cloths, 0, 2)


def joined(cloths: tuple[Cloth, ...], entry: int, leave: int) -> Cloth:
    parts = [Joining(cloth, (entry,) if k else (), (leave,)) for k, cloth in enumerate(cloths)]
    return join(parts, "x", SEAM)


def drawn(role: str, width: float, height: float, x: float = 0.0, y: float = 0.0, **more) -> Placed:
    return Placed(Patch(role, rectangle(width, height), **more), moved(x, y))


def flag(turn: Isometry | None = None) -> Group:
    """A block of 6 x 6 in: light below, dark above."""
    children = (drawn("light", 6, 3), drawn("dark", 6, 3, 0, 3))
    if turn is None:
        return Group("flag", children, rectangle(6, 6))
    return Group("flag", (Placed(Group("flag", children, rectangle(6, 6)), turn),), rectangle(6, 6))


def sewn_flag(light: str = "sail", dark: str = "tide") -> Cloth:
    return in_a_tower(patch(6, 3, light), patch(6, 3, dark))


def quilt(*turns: int) -> Group:
    """Flags in a row, each turned by quarters."""
    block = flag()
    children = tuple(
        Placed(block, moved(6.0 * k, 0).after(turned(90 * quarters, (3, 3))))
        for k, quarters in enumerate(turns)
    )
    return Group("quilt", children, rectangle(6.0 * len(turns), 6))


def sewn(*blocks: Cloth | tuple[Cloth, int]) -> Cloth:
    """Blocks in a row; of a pair, the second is the side that the block is entered by."""
    pairs = [block if isinstance(block, tuple) else (block, 3) for block in blocks]
    parts = [Joining(cloth, (side,) if k else (), ((side + 2) % 4,)) for k, (cloth, side) in enumerate(pairs)]
    return join(parts, "x", SEAM)


def differences(top: Cloth, drawing: Group) -> tuple[str, ...]:
    return compare(top, drawing, FABRIC_OF).differences


def test_a_top_that_is_as_drawn_has_no_difference():
    assert differences(sewn(sewn_flag(), sewn_flag(), sewn_flag()), quilt(0, 0, 0)) == ()


@pytest.mark.parametrize("quarters", range(4))
def test_a_top_may_lie_any_way_round(quarters):
    place = turned(90 * quarters)
    block = Group("turned", (Placed(flag(), place),), placed(rectangle(6, 6), place))
    assert differences(sewn_flag(), block) == ()


def test_a_wrong_fabric_is_told_with_both():
    (told,) = differences(sewn(sewn_flag(), sewn_flag("sail", "sea"), sewn_flag()), quilt(0, 0, 0))
    assert told == "at 3.00, 4.50 'tide' was drawn, 'sea' is sewn (block corner at 6, 0)"


def test_a_role_without_a_fabric_of_its_own_is_compared_by_its_name():
    block = Group("plain", (drawn("assorted", 6, 6),), rectangle(6, 6))
    assert differences(patch(6, 6, "assorted"), block) == ()
    assert len(differences(patch(6, 6, "sail"), block)) == 1


def test_swapped_fabrics_are_two_differences_unless_a_turn_makes_it_right():
    assert differences(sewn_flag("tide", "sail"), flag()) == ()
    upright = quilt(0, 0)
    assert len(differences(sewn(sewn_flag(), (sewn_flag("tide", "sail"), 3)), upright)) == 2


def test_a_turned_block_is_told_patch_by_patch():
    one = sewn_flag()
    level, upright = one, (one, 0)
    assert differences(sewn(level, upright), quilt(0, 3)) == ()
    told = differences(sewn(level, upright), quilt(0, 0))
    assert len(told) == 2
    assert all("(block corner at 6, 0)" in sentence for sentence in told)


def test_a_left_handed_block_is_not_a_right_handed_one():
    pair = in_a_row(patch(2, 4, "sail"), patch(4, 4, "tide"))
    block = Group("hooked", (drawn("light", 2, 4), drawn("dark", 4, 4, 2)), rectangle(6, 4))
    assert differences(pair, block) == ()
    hook = in_a_tower(pair, patch(6, 1, "tide"))
    right = Group(
        "hook", (drawn("light", 2, 4), drawn("dark", 4, 4, 2), drawn("dark", 6, 1, 0, 4)), rectangle(6, 5)
    )
    left = Group(
        "hook", (drawn("light", 2, 4, 4), drawn("dark", 4, 4), drawn("dark", 6, 1, 0, 4)), rectangle(6, 5)
    )
    assert differences(hook, right) == ()
    assert differences(hook, left) != ()


def test_a_missing_patch_is_told():
    block = Group("pair", (drawn("light", 3, 3), drawn("dark", 3, 3, 3)), rectangle(6, 3))
    (told, *_) = differences(patch(6, 3, "sail"), block)
    assert "was drawn" in told


def test_a_patch_that_was_not_drawn_is_told():
    plain = Group("plain", (drawn("light", 6, 3),), rectangle(6, 3))
    (told, *_) = compare_faces(in_a_row(patch(6, 3, "sail")).finished, [], FABRIC_OF).differences
    assert told == "at 3.00, 1.50 a patch of 'sail' is sewn that was not drawn"
    assert differences(in_a_row(patch(3, 3, "sail"), patch(3, 3, "sail")), plain) != ()


@pytest.mark.parametrize(("off", "as_drawn"), [(1 / 8, False), (1 / 64, False), (1 / 5000, True)])
def test_a_patch_that_is_shifted_is_told(off, as_drawn):
    block = Group("pair", (drawn("light", 3, 3), drawn("dark", 3, 3, 3)), rectangle(6, 3))
    told = differences(in_a_row(patch(3 - off, 3, "sail"), patch(3 + off, 3, "tide")), block)
    assert (told == ()) == as_drawn
    if not as_drawn:
        assert told[0] == "at 1.50, 1.50 the patch of 'sail' has another shape than was drawn"


def test_a_top_of_another_size_is_told_with_both_sizes():
    (told,) = differences(patch(6, 5.75, "sail"), Group("plain", (drawn("light", 6, 6),), rectangle(6, 6)))
    assert "6.0000 x 6.0000 in finished was drawn" in told
    assert "6.5000 x 6.2500 in raw came out" in told


def border(may_piece: bool) -> Group:
    return Group("border", (drawn("dark", 60, 5, may_piece=may_piece),), rectangle(60, 5))


PIECED = (patch(39.5, 5, "tide"), patch(20.5, 5, "tide"))


def test_a_long_border_may_be_pieced_where_the_drawing_allows_it():
    assert differences(in_a_row(*PIECED), border(may_piece=True)) == ()
    (told,) = differences(in_a_row(*PIECED), border(may_piece=False))
    assert "has another shape than was drawn" in told


def test_a_pieced_border_is_of_its_own_fabric_and_leaves_no_gap():
    patched = in_a_row(patch(39.5, 5, "tide"), patch(20.5, 5, "sail"))
    assert differences(patched, border(may_piece=True)) != ()
    faces = PIECED[0].finished
    assert compare_faces(faces, border(may_piece=True).patches, FABRIC_OF).differences != ()


def test_a_one_way_print_that_lies_on_its_side_is_counted_not_refused():
    block = Group("plain", (drawn("light", 6, 6, way=90.0),), rectangle(6, 6))
    upright, sideways = patch(6, 6, "sail"), patch(6, 6, "sail", grain=0.0)
    assert compare(upright, block, FABRIC_OF).tilted == 0
    pair = Group(
        "pair", (drawn("light", 6, 6, way=90.0), drawn("light", 6, 6, 6, way=90.0)), rectangle(12, 6)
    )
    comparison = compare(in_a_row(upright, sideways), pair, FABRIC_OF)
    assert comparison.differences == ()
    assert comparison.tilted == 1


def test_like_blocks_in_many_places_are_each_told():
    wrong = sewn_flag("sail", "sea")
    told = differences(sewn(wrong, sewn_flag(), wrong), quilt(0, 0, 0))
    assert len(told) == 2
    assert ["(block corner at" in sentence for sentence in told].count(True) == 1
