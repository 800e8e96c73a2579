"""Prints a job sheet as PDF with Typst: bundled fonts only, nothing downloaded, the same bytes every time."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import msgspec
import typst

from piecewright.handout.sheet import JobSheet
from piecewright.problems import Problem, Refused

_PAGES = Path(__file__).parent
_HEX_COLOUR = re.compile(r"#[0-9a-fA-F]{6}")


def write_job_sheet(sheet: JobSheet, path: Path | str, *, sums: bool = True) -> None:
    """Writes the sheet to a PDF file; a file that stands there is replaced only by a whole one.

    `sums` prints the arithmetic behind the figures in small print. Raises Refused when the sheet cannot
    be printed or the file cannot be written.
    """
    pdf = job_sheet_pdf(sheet, sums=sums)
    place = Path(path)
    half_written = place.with_name(f".{place.name}.part")
    try:
        half_written.write_bytes(pdf)
        os.replace(half_written, place)
    except OSError as error:
        half_written.unlink(missing_ok=True)
        raise Refused(
            Problem(
                f"expected a place to write the job sheet, got: {error.strerror}.",
                where=str(place),
                do="Name a file in a folder that exists and that you may write to.",
            )
        ) from error


def job_sheet_pdf(sheet: JobSheet, *, sums: bool = True) -> bytes:
    """The sheet as PDF, byte for byte the same for the same sheet.

    Raises Refused for a colour that is not `#rrggbb` and for a picture that is not SVG.
    """
    if wrong := tuple(_wrong_colours(sheet)):
        raise Refused(*wrong)
    # Words and pictures reach the pages as data: no sign in them can be read as markup.
    data = msgspec.json.encode({"sheet": sheet, "sums": sums}).decode()
    try:
        return typst.compile(
            _PAGES / "job_sheet.typ",
            root=_PAGES,
            font_paths=_bundled_fonts(),
            format="pdf",
            sys_inputs={"data": data},
        )
    except typst.TypstError as error:
        what = f"the job sheet could not be set: {error.message}."
        raise Refused(Problem(what, where=sheet.title, do="Look at its pictures.")) from error


@cache
def _bundled_fonts() -> typst.Fonts:
    return typst.Fonts(include_system_fonts=False)


def _wrong_colours(sheet: JobSheet) -> Iterator[Problem]:
    named = [*(row.fabric for row in sheet.purchases), *(cloth.fabric for cloth in sheet.cutting)]
    colours = [(colour, fabric.name) for fabric in named for colour in fabric.colours]
    if sheet.accent:
        colours.append((sheet.accent, "the accent of the sheet"))
    for colour, where in colours:
        if not _HEX_COLOUR.fullmatch(colour):
            yield Problem(f"expected a colour like #1b2a41, got {colour}.", where=where)
