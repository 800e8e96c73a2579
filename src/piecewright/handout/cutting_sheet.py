"""The cutting sheet as PDF: for everyone who has a list of pieces and no plan.

For each cloth it says what to buy and what to take from the shelf, how it is cut number by number, shows
that in pictures with the same numbers, and names what is left and worth keeping.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from piecewright.cutting.cloth_cut import ClothCut
from piecewright.cutting.given.layout import Leftover
from piecewright.cutting.given.leftovers import leftovers
from piecewright.cutting.layout import Layout
from piecewright.cutting.wanted import Supply
from piecewright.drawing.layout import LayoutNotes, layout_svgs
from piecewright.drawing.layout_choices import choices_svg, named_choices
from piecewright.drawing.layout_given import given_svgs
from piecewright.drawing.palette import Palette
from piecewright.handout import cutting_sheet_words as words
from piecewright.handout.cutting_sheet_words import Telling
from piecewright.handout.setting_pages import set_pages, write_whole
from piecewright.handout.sheet import Paper
from piecewright.handout.standing import CAUTIONS
from piecewright.measure.length import Unit

WHAT = "cutting sheet"

PICTURE_WIDTH, PICTURE_HEIGHT = 450.0, 480.0
"""The room for a picture in points: as wide as the words, and so high that its letters go on the page too."""

ABOUT_CUTTING = ("Rotary cutter", "Local rules")


@dataclass(frozen=True, slots=True)
class SheetWish:
    """How a cutting sheet is made: `layers` are cut together, `names` say where pieces go.

    The print of the fabrics in `one_way` runs one way; the pieces in `lengthwise` lie along the selvedge.
    """

    unit: Unit = "in"
    paper: Paper = "letter"
    layers: int = 2
    names: Mapping[str, str] | None = None
    palette: Palette | None = None
    one_way: Collection[str] = ()
    lengthwise: Collection[str] = ()

    @property
    def telling(self) -> Telling:
        """How cuts are told on the sheet."""
        return Telling(self.unit, self.layers, self.names)


def write_cutting_sheet(
    title: str,
    cloths: Sequence[ClothCut],
    path: Path,
    unit: Unit = "in",
    paper: Paper = "letter",
    layers: int = 2,
    names: Mapping[str, str] | None = None,
    *,
    palette: Palette | None = None,
    one_way: Collection[str] = (),
    lengthwise: Collection[str] = (),
) -> None:
    """Writes the sheet to a PDF file; a file that stands there is replaced only by a whole one.

    Without a `palette` cloth is pale grey; for the rest see `SheetWish`. Raises Refused when the file cannot
    be written.
    """
    pdf = cutting_sheet_pdf(
        title, cloths, SheetWish(unit, paper, layers, names, palette, one_way, lengthwise)
    )
    write_whole(pdf, path, WHAT)


def cutting_sheet_pdf(title: str, cloths: Sequence[ClothCut], wish: SheetWish) -> bytes:
    """The sheet as PDF, byte for byte the same for the same cloths."""
    data = {"sheet": sheet_data(title, cloths, wish)}
    return set_pages("cutting_sheet.typ", data, WHAT, title, "Look at its names.")


def sheet_data(title: str, cloths: Sequence[ClothCut], wish: SheetWish) -> dict[str, Any]:
    """The sheet as plain data, every word and picture of it."""
    return {
        "title": title,
        "paper": wish.paper,
        "accent": "",
        "cloths": [_cloth(cloth, wish) for cloth in cloths],
        "cautions": [one for one in CAUTIONS if one.about in ABOUT_CUTTING],
    }


def _cloth(cloth: ClothCut, wish: SheetWish) -> dict[str, Any]:
    cut, unit = cloth.cut, wish.unit
    bought = cut.bought if cut.bought is not None and cut.bought.patterns else None
    return {
        "name": cloth.name,
        "take": words.to_take(cut, unit),
        "buy": words.to_buy(cut, unit),
        "sum": bought.sum_lines(unit)[-1] if bought else "",
        "figures": words.figures(cloth, wish.telling),
        "given": _given(cloth, wish),
        "bolt": _bolt(cloth.name, bought, wish) if bought else None,
        "leftovers": words.leftover_words(kept(cloth), unit, bought.key if bought else cloth.name),
        "choices": _choices(cloth, wish),
    }


def kept(cloth: ClothCut) -> tuple[Leftover, ...]:
    """What is left of a cloth and worth keeping."""
    cut = cloth.cut
    return cut.leftovers or leftovers(cut.used, cut.bought, _supply(cut.bought) if cut.bought else None)


def _supply(layout: Layout) -> Supply:
    """The bolt of a layout as far as its leftovers need it."""
    bought = layout.purchase
    return Supply(
        layout.key,
        layout.usable_width,
        bought.buying_step,
        straightening=bought.straightening,
        shrinkage=bought.shrinkage,
    )


def _given(cloth: ClothCut, wish: SheetWish) -> list[dict[str, Any]]:
    svgs = given_svgs(
        cloth.cut,
        wish.palette or Palette({}),
        wish.unit,
        PICTURE_WIDTH,
        PICTURE_HEIGHT,
        wish.names,
        with_order=False,
        one_way=cloth.name in wish.one_way,
    )
    return [
        {
            "head": words.given_head(cut, wish.unit),
            "cuts": words.given_words(cut, wish.telling),
            "picture": {"svg": svg, "words": f"how {cut.name} is cut", "caption": ""},
        }
        for cut, svg in zip(cloth.cut.used, svgs, strict=True)
    ]


def _bolt(name: str, layout: Layout, wish: SheetWish) -> dict[str, Any]:
    notes = LayoutNotes(wish.layers, name in wish.one_way, wish.lengthwise, with_order=False)
    size = (PICTURE_WIDTH, PICTURE_HEIGHT)
    svgs = layout_svgs(layout, wish.palette or Palette({}), wish.unit, *size, wish.names, notes)
    return {
        "before": words.before_cutting(layout, wish.telling),
        "cuts": words.layout_words(layout, wish.telling),
        "pictures": [{"svg": svg, "words": f"how {name} is cut", "caption": ""} for svg in svgs],
    }


def _choices(cloth: ClothCut, wish: SheetWish) -> dict[str, Any] | None:
    if not cloth.choices:
        return None
    named = named_choices(cloth.choices, cloth.cut.bought)
    return {
        "head": words.choice_head(wish.layers),
        "rows": [words.choice_row(one.name, one.layout, wish.telling) for one in named],
        "chosen": [one.chosen for one in named],
        "picture": {
            "svg": choices_svg(named, wish.unit, wish.layers),
            "words": "cloth against cutting",
            "caption": "",
        },
    }
