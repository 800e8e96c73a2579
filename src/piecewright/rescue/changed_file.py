"""A quilt file with other sizes: blocks scaled, a border made wider; remarks and everything else stay."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import tomlkit

from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import figure
from piecewright.problems import Problem, Refused


def with_sizes(
    text: str, sizes: Mapping[str, tuple[Length, Length]], border: Length | None, unit: Unit
) -> str:
    """The text of a quilt file whose blocks (by key) have other finished sizes.

    `border` is the new width of the innermost border, or None where it stays. Raises Refused where a block
    is drawn by its corners, since those are lengths of their own.
    """
    document: Any = tomlkit.parse(text)
    for key, (width, height) in sizes.items():
        block = document["blocks"][key]
        if "picture" not in block:
            do = "Draw it as a picture of cells, or change its corners by hand."
            raise Refused(Problem(f"the block {key!r} is drawn by its corners and cannot be scaled", do=do))
        side = _written(width, unit)
        block["size"] = side if width == height else f"{side} x {_written(height, unit)}"
    if border is not None:
        document["borders"][0]["width"] = _written(border, unit)
    return tomlkit.dumps(document)


def _written(length: Length, unit: Unit) -> str:
    """A length as a quilt file has it: exact, in the unit of the file."""
    shown = figure(length, unit)
    return shown if _is_exact(shown) else length.text()


def _is_exact(shown: str) -> bool:
    return not shown.startswith("about")
