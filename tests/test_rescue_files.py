"""The changed quilt file of a way out: blocks drawn by their corners keep filling their size."""

from __future__ import annotations

import pytest

from piecewright.design.read import design_from
from piecewright.measure.length import inches
from piecewright.rescue.changed_file import with_sizes
from piecewright.toml_places import toml_from_text

QUILT = """
title = "Two sails"
[fabrics.sail]
colour = "#e6e2d8"
[fabrics.tide]
colour = "#223355"
[blocks.sails]
size = "6"
{drafted}
[[blocks.sails.patches]]
role = "sail"
corners = [[0, 0], [{side}, 0], [{side}, {side}]]
[[blocks.sails.patches]]
role = "tide"
corners = [[0, 0], [{side}, {side}], [0, {side}]]
[setting]
across = 2
down = 2
arrangement = "sails"
"""


@pytest.mark.parametrize(("drafted", "side"), [("", 6), ('drafted = "4"', 4)])
def test_corners_fill_the_block_in_its_new_size_whether_it_is_drafted_or_not(drafted: str, side: int) -> None:
    text = QUILT.format(drafted=drafted, side=side)
    changed = with_sizes(text, {"sails": (inches(9), inches(9))}, None, "in")
    design, problems = design_from(toml_from_text(changed, "sails.toml"))
    assert design is not None, [*map(str, problems)]
    (block,) = design.blocks
    assert {corner for shape in block.shapes for corner in shape.corners} == {
        (0.0, 0.0),
        (9.0, 0.0),
        (9.0, 9.0),
        (0.0, 9.0),
    }
