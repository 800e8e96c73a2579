"""Prints a job sheet as PDF with Typst: bundled fonts only, nothing downloaded, the same bytes every time."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from piecewright.handout.setting_pages import set_pages, write_whole
from piecewright.handout.sheet import JobSheet
from piecewright.problems import Problem, Refused

WHAT = "job sheet"
_HEX_COLOUR = re.compile(r"#[0-9a-fA-F]{6}")


def write_job_sheet(sheet: JobSheet, path: Path | str, *, sums: bool = True) -> None:
    """Writes the sheet to a PDF file; a file that stands there is replaced only by a whole one.

    `sums` prints the arithmetic behind the figures in small print. Raises Refused when the sheet cannot
    be printed or the file cannot be written.
    """
    write_whole(job_sheet_pdf(sheet, sums=sums), path, WHAT)


def job_sheet_pdf(sheet: JobSheet, *, sums: bool = True) -> bytes:
    """The sheet as PDF, byte for byte the same for the same sheet.

    Raises Refused for a colour that is not `#rrggbb` and for a picture that is not SVG.
    """
    if wrong := tuple(_wrong_colours(sheet)):
        raise Refused(*wrong)
    data = {"sheet": sheet, "sums": sums}
    return set_pages("job_sheet.typ", data, WHAT, sheet.title, "Look at its pictures.")


def _wrong_colours(sheet: JobSheet) -> Iterator[Problem]:
    named = [*(row.fabric for row in sheet.purchases), *(cloth.fabric for cloth in sheet.cutting)]
    colours = [(colour, fabric.name) for fabric in named for colour in fabric.colours]
    if sheet.accent:
        colours.append((sheet.accent, "the accent of the sheet"))
    for colour, where in colours:
        if not _HEX_COLOUR.fullmatch(colour):
            yield Problem(f"expected a colour like #1b2a41, got {colour}.", where=where)
