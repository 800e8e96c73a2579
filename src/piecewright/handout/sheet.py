"""The job sheet as plain data: every word, figure and picture that is printed, in the order of the work.

Nothing is worked out here. All figures are ready to print (`2 7/8 in`, `3 1/4 yd`), all pictures are whole
SVG documents, and all text is plain: no sign in it means anything to the printer. Fractions written as
`2 7/8` are set as fractions, ` x ` between sizes as a multiplication sign and `->` as an arrow.

Terms:
- *station*: one place of the sheet, numbered in the order in which a person works;
- *sums*: the arithmetic behind the figures above them, in small print, a line each;
- *step*: a short sentence with a circle before it, to tick when it is done.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from piecewright.handout.standing import CAUTIONS, VERDICTS, Caution, Verdict

Paper = Literal["letter", "a4"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """An SVG picture; `words` say what it shows, `caption` is printed under it."""

    svg: str
    words: str = ""
    caption: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """A fabric or assortment as the sheet names it.

    `colours` are `#rrggbb`, several for an assortment; `mark` is a letter or two that stands in for the
    colour in black-and-white print, wherever the pictures use one.
    """

    name: str
    colours: tuple[str, ...] = ()
    mark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """A row of the shopping list: the bare minimum and what to buy, side by side."""

    fabric: Swatch
    bare: str
    buy: str
    note: str = ""
    sums: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLines:
    """One setting of the ruler: "cut 6 strips 2 7/8 in x WOF", then "from these 76 squares 2 7/8 in"."""

    cut: str
    then: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClothCutting:
    """How one cloth is cut: the lines in the order of cutting, and the layout in one or more pictures.

    `keep` is what is left and worth keeping.
    """

    fabric: Swatch
    lines: tuple[CutLines, ...]
    layouts: tuple[Picture, ...] = ()
    keep: str = ""
    note: str = ""
    prints: tuple[tuple[str, ...], ...] = ()
    sums: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpectedSize:
    """What a thing should measure now, with a blank beside it for one's own figure."""

    what: str
    size: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeVerdicts:
    """What to make of each size that a ruler may show on one side of a unit, the smallest sizes first.

    `side` heads the figures: `in`, or `in wide` and `in high`; `when` of each verdict is a range of sizes.
    Both sides of a unit have the same verdicts in the same order.
    """

    side: str
    verdicts: tuple[Verdict, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitMaking:
    """How all units of one kind and cloth are made; printed as a card.

    `alternative` is the one other way worth naming, with its reason. `pictures` stand in a row: stack,
    mark, sew, cut. `measured` tells what to do with a unit of each size, beside the size to expect. `more`
    are the further ways, a line each.
    """

    name: str
    count: str
    method: str
    reason: str = ""
    alternative: str = ""
    alternative_reason: str = ""
    starts: tuple[str, ...] = ()
    pictures: tuple[Picture, ...] = ()
    steps: tuple[str, ...] = ()
    sizes: tuple[ExpectedSize, ...] = ()
    measured: tuple[SizeVerdicts, ...] = ()
    verdicts: tuple[Verdict, ...] = ()
    pressing: str = ""
    more: tuple[str, ...] = ()
    sums: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressing:
    """The pressing of one block or of the rows; `not_nesting` names the places where seams do not nest.

    `picture` shows it from the front and `back` from the back; `layers` is a map of how many layers of cloth
    lie where. `towards` tells thing by thing to which side its seams go. `second` is the second pressing of
    the same block, printed beside the first, and `places` where each of the two goes.
    """

    name: str
    count: str = ""
    picture: Picture | None = None
    back: Picture | None = None
    layers: Picture | None = None
    says: tuple[str, ...] = ()
    towards: tuple[tuple[str, str], ...] = ()
    not_nesting: tuple[str, ...] = ()
    second: Pressing | None = None
    places: Picture | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One thing that a block is made of on the way: letter, how many, how it is sewn and pressed, size.

    The last stage of a block has no letter.
    """

    name: str
    letter: str = ""
    count: str = ""
    says: tuple[str, ...] = ()
    press: str = ""
    size: str = ""
    picture: Picture | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part of the work told in steps: a block's joining, the top, a border, backing, batting, binding.

    `stages` tell how a block goes together; `key` says what their letters stand for, piece by piece.
    """

    name: str
    count: str = ""
    says: tuple[str, ...] = ()
    lines: tuple[CutLines, ...] = ()
    steps: tuple[str, ...] = ()
    key: tuple[tuple[str, str], ...] = ()
    stages: tuple[Stage, ...] = ()
    picture: Picture | None = None
    sizes: tuple[ExpectedSize, ...] = ()
    verdicts: tuple[Verdict, ...] = ()
    sums: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class JobSheet:
    """One quilt's whole job sheet.

    `facts` are label and figure in a row on the first page; `worth_knowing` are notes on this quilt that
    the maker should read first. `together` tells how each block goes together, `iron` is advice for whoever
    presses. `accent` is one colour of the quilt, `#rrggbb`; it is darkened where it
    is too light to read, and the sheet works without it. A station with nothing in it is left out.
    `made_with` and `replayed` close the sheet.
    """

    title: str
    finished_size: str
    picture: Picture
    reason: str = ""
    facts: tuple[tuple[str, str], ...] = ()
    worth_knowing: tuple[str, ...] = ()
    purchases: tuple[Purchase, ...] = ()
    purchase_notes: tuple[str, ...] = ()
    before_you_cut: tuple[str, ...] = ()
    test_block: Part | None = None
    cutting: tuple[ClothCutting, ...] = ()
    units: tuple[UnitMaking, ...] = ()
    together: tuple[Part, ...] = ()
    pressing: tuple[Pressing, ...] = ()
    iron: tuple[str, ...] = ()
    joining: tuple[Part, ...] = ()
    borders: tuple[Part, ...] = ()
    finishing: tuple[Part, ...] = ()
    verdicts: tuple[Verdict, ...] = VERDICTS
    cautions: tuple[Caution, ...] = CAUTIONS
    made_with: str = ""
    replayed: str = ""
    accent: str = ""
    paper: Paper = "letter"
