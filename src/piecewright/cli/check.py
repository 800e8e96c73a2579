"""`piecewright check`: what is wrong in a quilt file, or what the quilt is."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from piecewright.cli.endings import FINE
from piecewright.cli.reading import quilt_and_workroom
from piecewright.cli.telling import show, show_table, tell_problems
from piecewright.cli.way_words import lengths
from piecewright.design.model import Design, finished_size
from piecewright.design.read_setting import count_patches


def check_quilt(quilt: Path, workroom: Path | None) -> int:
    """Prints what the quilt is; raises Refused with everything that is wrong."""
    design, _, notes = quilt_and_workroom(quilt, workroom)
    tell_problems(notes)
    describe(design)
    return FINE


def describe(design: Design) -> None:
    """Title, finished size, how it is set, patches, and its blocks."""
    setting = design.setting
    patches = count_patches(setting, design.block, design.sashing, len(design.borders))
    show(design.title, "bold")
    show(f"{lengths(*finished_size(design), design.unit)} finished, {patches:,} patches")
    block = lengths(design.block_width, design.block_height, design.unit)
    show(f"{setting.across} x {setting.down} blocks of {block}")
    laid = Counter(
        setting.at(row, column).key for row in range(setting.down) for column in range(setting.across)
    )
    rows = [
        (block.name, f"{laid[block.key]:,}", f"{block.patch_count}")
        for block in design.blocks
        if laid[block.key]
    ]
    show_table(("block", "count", "patches each"), rows)
