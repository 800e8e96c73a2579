"""The sampler sheet: traditional blocks drawn small, by families, with names and facts."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

import msgspec

from piecewright.handout.setting_pages import set_pages
from piecewright.handout.sheet import Paper

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
    return set_pages("sampler.typ", {"sheet": sheet}, "sampler sheet", TITLE, "Look at its pictures.")


def _headline(family: str) -> str:
    return f"{family[:1].upper()}{family[1:]}"
