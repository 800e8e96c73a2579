"""The look of every picture: named styles of our own, which read in colour, in grey and without colour sight.

| style | how it looks | what it is |
|---|---|---|
| `cloth` | filled with the fabric's colour, thin ink outline | cloth, right side up |
| `wrong side` | the same colour much lightened, a little see-through, thin ink outline | cloth, face down |
| `offcut` | nearly white with slanting ink hatch, thin outline | cloth that comes off or is left over |
| `piece` | the fabric's colour, lightened so that words read on it, ink outline | a piece in a layout |
| `plate` | a small box of the same | behind a letter that stands for a run of small pieces |
| `marked line` | ink dots | a line drawn on the cloth |
| `sewn line` | long dashes, thread blue | stitching |
| `cut line` | thin and solid, rust, with a small cross stroke at each end | a cut |
| `seam` | fine solid ink line | a seam that has been sewn and pressed open to view |
| `pressed` | short white arrow with an ink outline, across a seam | the side to which the seam is pressed |
| `ruler` | pale see-through sheet with a solid grey outline and marks | a ruler laid on |
| `measure` | fine grey line | a scale bar, a size |
| `binding` | filled with the fabric's colour | the bound edge |
| `words` | ink | writing |

Lines that cross cloth have a white halo, so that they are seen on the darkest and the lightest fabric. The
kinds of line differ by dashes and ends, not by colour alone. Weights and dashes are in points on paper.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from coloraide import Color

INK = "#20262e"
THREAD = "#14558c"
RUST = "#a83c17"
PAPER = "#ffffff"
GREY = "#6b727a"

PAGE_WIDTH = 482.0
"""The width of a picture as wide as the page: 17 cm in points."""

LABEL = 7.5
CAPTION = 8.0
"""Sizes of writing in points on paper."""


@dataclass(frozen=True)
class Style:
    """How something is drawn: ink colour and weight of its line, dashes, fill, hatch, halo."""

    name: str
    ink: str | None = None
    weight: float = 0.0
    dashes: tuple[float, ...] = ()
    fill: str | None = None
    opacity: float = 1.0
    hatched: bool = False
    halo: bool = False
    ticks: bool = False
    strong: bool = False


CLOTH = Style("cloth", INK, 0.45)
WRONG_SIDE = Style("wrong side", INK, 0.45, opacity=0.86)
OFFCUT = Style("offcut", GREY, 0.4, fill=PAPER, hatched=True)
PIECE = Style("piece", INK, 0.6)
PLATE = Style("plate", INK, 0.5)
MARKED = Style("marked line", INK, 0.9, dashes=(0.01, 2.2), halo=True)
SEWN = Style("sewn line", THREAD, 1.1, dashes=(4.4, 2.0), halo=True)
CUT = Style("cut line", RUST, 0.8, halo=True, ticks=True)
SEAM = Style("seam", INK, 0.45)
PRESSED = Style("pressed", INK, 0.55, fill=PAPER)
PRESSED_SPOT = Style("pressed spot", INK, 0.7, fill=PAPER)
RULER = Style("ruler", GREY, 0.7, fill="#f4f8fa", opacity=0.28)
RULER_EDGE = Style("ruler edge", GREY, 0.7)
RULER_LINE = Style("ruler line", GREY, 0.5, dashes=(5.0, 1.6, 1.0, 1.6))
MEASURE = Style("measure", GREY, 0.5)
NEXT = Style("next", GREY, 0.9)
BINDING = Style("binding", INK, 0.3)
OUTLINE = Style("outline", INK, 0.8)
WORDS = Style("words", fill=INK)
STRONG_WORDS = Style("strong words", fill=INK, strong=True)
QUIET_WORDS = Style("quiet words", fill=GREY)


def filled(style: Style, colour: str) -> Style:
    """The style with a fill of this colour."""
    return replace(style, fill=colour)


def wrong_side(colour: str) -> Style:
    """How the wrong side of a fabric looks."""
    return filled(WRONG_SIDE, lightened(colour, 0.62))


def offcut(colour: str) -> Style:
    """How an offcut of a fabric looks."""
    return filled(OFFCUT, lightened(colour, 0.82))


@lru_cache(maxsize=4096)
def lightened(colour: str, share: float) -> str:
    """The colour with a share of white mixed in, as `#rrggbb`.

    >>> lightened("#000000", 1.0), lightened("#14558c", 0.0)
    ('#ffffff', '#14558c')
    """
    mixed = Color(colour).mix(PAPER, share, space="oklab", out_space="srgb")
    return str(mixed.clip().to_string(hex=True, compress=False))
