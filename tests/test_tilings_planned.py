"""Random tilings are planned, and the plans replay: with straight seams, set-in seams, partial seams."""

from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from piecewright.blocks.reading import find
from piecewright.design.model import Block, Design, Shape
from piecewright.measure.length import inches
from piecewright.planning.make_plan import make_plan
from piecewright.problems import Refused
from piecewright.workroom.workroom import INCH_WORKROOM
from random_tilings import SIDE, Tiling, cells, merged, rectangles

UNQUIET = settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))


def design_of(tiling: Tiling, across: int = 1) -> Design:
    """A quilt of blocks that are drawn so, each patch in one of three cloths."""
    design = find("bear's paw").design
    roles = design.block[design.blocks[0].key].roles
    shapes = tuple(Shape(roles[k % len(roles)], outline) for k, outline in enumerate(tiling))
    size = inches(int(SIDE))
    block = Block(design.blocks[0].key, "Chance", size, size, shapes=shapes)
    setting = replace(design.setting, across=across)
    return replace(design, blocks=(block,), block_width=size, block_height=size, setting=setting)


def is_made(tiling: Tiling, across: int = 1) -> bool:
    job = make_plan(design_of(tiling, across), INCH_WORKROOM)
    assert job.replay.problems == ()
    return job.replay.made_as_drawn and job.replay.patches == across * len(tiling)


@UNQUIET
@given(rectangles(), st.integers(1, 2))
def test_rectangles_with_rings_among_them_are_made_as_drawn(tiling: Tiling, across: int) -> None:
    assert is_made(tiling, across)


@UNQUIET
@given(cells())
def test_cells_that_meet_in_threes_are_made_as_drawn(tiling: Tiling) -> None:
    assert is_made(tiling)


@UNQUIET
@given(merged(rectangles(most=12)))
def test_patches_with_inner_corners_are_made_as_drawn(tiling: Tiling) -> None:
    """Unless an allowance has no room in a notch, which is told."""
    try:
        assert is_made(tiling)
    except Refused as refused:
        assert "allowances" in str(refused)  # noqa: PT017
