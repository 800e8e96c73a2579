"""A quilt file with other sizes: blocks scaled, a border made wider; remarks and everything else stay."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

import tomlkit

from piecewright.design.coordinates import read_coordinate
from piecewright.measure.length import Length, Unit
from piecewright.measure.reading import read_size
from piecewright.measure.showing import figure


def with_sizes(
    text: str, sizes: Mapping[str, tuple[Length, Length]], border: Length | None, unit: Unit
) -> str:
    """The text of a quilt file whose blocks (by key) have other finished sizes.

    `border` is the new width of the innermost border, or None where it stays. Corners of patches are scaled
    with the width of their block, unless it says what they count up to (`drafted`).
    """
    document: Any = tomlkit.parse(text)
    for key, (width, height) in sizes.items():
        block = document["blocks"][key]
        if "patches" in block and "drafted" not in block:
            before = read_size(str(block["size"]), unit)[0]
            _scale_corners(block["patches"], width.exact / before.exact)
        side = _written(width, unit)
        block["size"] = side if width == height else f"{side} x {_written(height, unit)}"
    if border is not None:
        document["borders"][0]["width"] = _written(border, unit)
    return tomlkit.dumps(document)


def _scale_corners(patches: Any, factor: Fraction) -> None:
    """Changes the coordinates of every patch; a sum such as 6 - 3 sqrt 2 becomes a decimal number."""
    for patch in patches:
        for corner in patch["corners"]:
            for axis, coordinate in enumerate(corner):
                corner[axis] = f"{read_coordinate(coordinate) * float(factor):.9f}"


def _written(length: Length, unit: Unit) -> str:
    """A length as a quilt file has it: exact, in the unit of the file."""
    shown = figure(length, unit)
    return shown if _is_exact(shown) else length.text()


def _is_exact(shown: str) -> bool:
    return not shown.startswith("about")
