"""`piecewright check`: what is wrong in a quilt file, and a picture of it; or what the quilt is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from piecewright.cli.endings import FINE
from piecewright.cli.folder import write_folder
from piecewright.cli.reading import quilt_and_workroom
from piecewright.cli.telling import show, show_table, tell, tell_problems
from piecewright.cli.way_words import lengths
from piecewright.design.model import Design, finished_size
from piecewright.design.read_setting import count_patches
from piecewright.drawing.misfits import marked, misfits_svg
from piecewright.measure.number import shortened
from piecewright.problems import Problem, Refused


def check_quilt(quilt: Path, workroom: Path | None, picture: str | None = None) -> int:
    """Prints what the quilt is; raises Refused with everything that is wrong.

    `picture` names the SVG file that shows where patches do not fit together.
    """
    file = _picture_file(picture)
    try:
        design, _, notes = quilt_and_workroom(quilt, workroom)
    except Refused as refused:
        raise Refused(*_pictured(refused.problems, file)) from refused
    tell_problems(_pictured(notes, file))
    describe(design)
    return FINE


def _picture_file(picture: str | None) -> Path | None:
    if picture is None:
        return None
    file = Path(picture)
    if file.suffix.lower() != ".svg" or not file.stem.strip():
        what = f"expected a file that ends in .svg, got {shortened(picture)}."
        raise Refused(Problem(what, "--picture", "The picture is written as SVG."))
    return file


def _pictured(problems: Sequence[Problem], file: Path | None) -> list[Problem]:
    """The problems, numbered where the picture marks them, and what there is to say of the picture."""
    places = marked(problems)
    if not places:
        if file is not None:
            tell(f"No patch misses another: {file} was not written.")
        return list(problems)
    if file is None:
        remark = "the places where patches do not fit can be seen, ringed and numbered."
        return [*problems, Problem(remark, "", "Add --picture misfits.svg.", "note")]
    write_folder(file.parent, {file.name: misfits_svg(places).encode()})
    numbers = {id(problem): number for number, problem in enumerate(places, 1)}
    told = [
        replace(problem, what=f"({numbers[id(problem)]}) {problem.what}")
        if id(problem) in numbers
        else problem
        for problem in problems
    ]
    return [*told, Problem(f"the numbers in brackets are those in {file}.", weight="note")]


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
