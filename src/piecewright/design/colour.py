"""The colours of fabrics and roles: what the file may say, what is drawn, and how light it is."""

from __future__ import annotations

from functools import lru_cache

from coloraide import Color

from piecewright.design.model import Design

# What an assortment is drawn in when the file names no colours for it: plain linen, light to dark.
UNNAMED_PRINTS = ("#e9e2d4", "#d9cfbb", "#c8bba2", "#b5a68a")


@lru_cache(maxsize=4096)
def hex_colour(written: str) -> str:
    """The hex colour of a CSS colour, `#1b2a41`; raises ValueError when it is none or is see-through."""
    try:
        colour = Color(written.strip())
    except (ValueError, AttributeError) as error:
        raise ValueError("not a CSS colour") from error
    if not colour.alpha() >= 1:
        raise ValueError("a see-through colour")
    return str(colour.convert("srgb").clip().to_string(hex=True))


@lru_cache(maxsize=4096)
def lightness_of(colour: str) -> float:
    """How light a colour looks, from 0 (black) to 1 (white), by OKLab."""
    return float(Color(colour).convert("oklab")["lightness"])


def colours_of(design: Design, role: str) -> tuple[str, ...]:
    """The hex colours of a role: its fabric's, or those of the assortment."""
    entry = design.role[role]
    if entry.fabric is not None:
        return (design.fabric[entry.fabric].colour,)
    return entry.colours or UNNAMED_PRINTS


def colour_of(design: Design, role: str, index: int = 0) -> str:
    """The hex colour of a patch of the role; `index` goes through an assortment, over and over."""
    colours = colours_of(design, role)
    return colours[index % len(colours)]


def lightness(design: Design, role: str) -> float:
    """How light a role looks, from 0 to 1; the mean of an assortment's colours."""
    colours = colours_of(design, role)
    return sum(map(lightness_of, colours)) / len(colours)
