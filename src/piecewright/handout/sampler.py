"""The sampler sheet: traditional blocks drawn small, by families, with names and facts."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import groupby
from pathlib import Path

import msgspec
import typst

from piecewright.handout.sheet import Paper
from piecewright.problems import Problem, Refused

_PAGES = Path(__file__).parent

TITLE = "A sampler of traditional blocks"
ACCENT = "#a8512f"


class SheetBlock(msgspec.Struct, frozen=True):
    """A block on the sheet: its picture as SVG, and below it its names and its facts, a line each."""

    name: str
    aliases: tuple[str, ...]
    family: str
    about: str
    facts: tuple[str, ...]
    svg: str


def sampler_pdf(blocks: Sequence[SheetBlock], paper: Paper = "letter") -> bytes:
    """The sheet as PDF, byte for byte the same for the same blocks.

    They come in the order of their families. Raises Refused for a picture that is not SVG.
    """
    families = [
        {"name": _headline(family), "blocks": list(group)}
        for family, group in groupby(blocks, lambda block: block.family)
    ]
    sheet = {"title": TITLE, "paper": paper, "accent": ACCENT, "families": families}
    try:
        return typst.compile(
            _PAGES / "sampler.typ",
            root=_PAGES,
            font_paths=_bundled_fonts(),
            format="pdf",
            sys_inputs={"data": msgspec.json.encode({"sheet": sheet}).decode()},
        )
    except typst.TypstError as error:
        what = f"the sampler sheet could not be set: {error.message}."
        raise Refused(Problem(what, where=TITLE, do="Look at its pictures.")) from error


@cache
def _bundled_fonts() -> typst.Fonts:
    return typst.Fonts(include_system_fonts=False)


def _headline(family: str) -> str:
    return f"{family[:1].upper()}{family[1:]}"
