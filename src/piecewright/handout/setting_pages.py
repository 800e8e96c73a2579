"""Setting pages with Typst and writing them whole: bundled fonts, nothing downloaded, the same bytes."""

from __future__ import annotations

import os
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import msgspec
import typst

from piecewright.problems import Problem, Refused

_PAGES = Path(__file__).parent


def set_pages(pages: str, data: Mapping[str, Any], what: str, where: str, do: str = "") -> bytes:
    """The PDF of the pages in a file of this folder, with their data.

    Words and pictures reach the pages as data: no sign in them can be read as markup. `what` is the sheet's
    kind, for the sentence of the Refused that is raised where it cannot be set.
    """
    try:
        return typst.compile(
            _PAGES / pages,
            root=_PAGES,
            font_paths=_bundled_fonts(),
            format="pdf",
            sys_inputs={"data": msgspec.json.encode(data).decode()},
        )
    except typst.TypstError as error:
        raise Refused(Problem(f"the {what} could not be set: {error.message}.", where, do)) from error


def write_whole(pdf: bytes, path: Path | str, what: str) -> None:
    """Writes a sheet to a file; a file that stands there is replaced only by a whole one.

    Raises Refused when the file cannot be written.
    """
    place = Path(path)
    half_written = place.with_name(f".{place.name}.part")
    try:
        half_written.write_bytes(pdf)
        os.replace(half_written, place)
    except OSError as error:
        half_written.unlink(missing_ok=True)
        raise Refused(
            Problem(
                f"expected a place to write the {what}, got: {error.strerror}.",
                where=str(place),
                do="Name a file in a folder that exists and that you may write to.",
            )
        ) from error


@cache
def _bundled_fonts() -> typst.Fonts:
    return typst.Fonts(include_system_fonts=False)
