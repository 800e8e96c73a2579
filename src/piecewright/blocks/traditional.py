"""Traditional blocks: patterns that everybody may use, by the names that they have in common trade use.

A *traditional block* has a *key* (our own id: the name of its file), a name and *aliases* (other common
names), a *family* of blocks that are built alike, a plain sentence *about* it, and a *design*: a quilt of
this one block.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from piecewright.design.model import Block, Design

FAMILIES = (
    "four-patch",
    "nine-patch",
    "five-patch",
    "seven-patch",
    "star",
    "square in a square",
    "strips",
    "chain",
    "log cabin",
    "diamonds",
    "hexagons",
    "ring",
    "picture",
)
"""The families, in the order in which they are listed."""


@dataclass(frozen=True)
class Traditional:
    """A traditional block; `text` is its file as written, for quilt files that start from it."""

    key: str
    name: str
    aliases: tuple[str, ...]
    family: str
    about: str
    design: Design = field(repr=False)
    text: str = field(repr=False, compare=False, default="")

    @property
    def block(self) -> Block:
        """The one block of its design."""
        return self.design.blocks[0]

    @property
    def names(self) -> tuple[str, ...]:
        """The name and the aliases."""
        return (self.name, *self.aliases)


def plain_name(name: str) -> str:
    """A name without capitals, spaces and punctuation, so that all ways of writing it are one.

    >>> plain_name("Dutchman's puzzle") == plain_name("dutchmans-puzzle")
    True
    """
    return re.sub(r"[^a-z0-9]+", "", name.lower())


def design_key(key: str) -> str:
    """A block's key as it stands in a design file, where keys have no hyphens."""
    return key.replace("-", "_")
