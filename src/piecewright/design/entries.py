"""The design file as it is written: every section and its keys. `schema` makes the JSON Schema from these.

Lengths are texts (`"2 1/2"`, `"2½"`, `"6.5 cm"`) or plain numbers; without a unit they are in the file's.
"""

from __future__ import annotations

from typing import Annotated, Literal

import msgspec
from msgspec import Meta

from piecewright.measure.length import Unit

KEY_PATTERN = "^[A-Za-z][A-Za-z0-9_]*$"

Key = Annotated[
    str, Meta(description="A short name: a letter, then letters, digits or _.", pattern=KEY_PATTERN)
]
LengthEntry = Annotated[
    str | int | float, Meta(description='A length: "2 1/2", "2½", "2.5", "6.5 cm", or a plain number.')
]
SizeEntry = Annotated[
    str | int | float, Meta(description='A finished size: "12" for a square, "9 x 12" for width x height.')
]
ShareEntry = Annotated[str | int | float, Meta(description="A share of the block: 1, 2, 1.5 or 1 1/2.")]
Picture = Annotated[str, Meta(description="A text picture: one token a cell, rows from top to bottom.")]
Coordinate = Annotated[
    str | int | float,
    Meta(description='A length from the lower left corner: 3, "4 1/2", "6 - 3 sqrt 2", "2 sqrt 3".'),
]
Prefer = Literal["full seams", "partial seams", "set in", "foundation"]
Colour = Annotated[str, Meta(description='A CSS colour: "#1b2a41", "seagreen".')]


class FabricEntry(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One cloth."""

    colour: Colour
    name: str | None = None
    width: LengthEntry | None = None
    one_way: bool = False
    repeat_across: (
        Annotated[LengthEntry, Meta(description="How far a motif repeats from selvedge to selvedge.")] | None
    ) = None
    repeat_along: (
        Annotated[LengthEntry, Meta(description="How far a motif repeats along the selvedge.")] | None
    ) = None
    selvedge: (
        Annotated[
            LengthEntry,
            Meta(description="What goes off each side of the width, which is then measured whole."),
        ]
        | None
    ) = None
    shrinkage: (
        Annotated[
            int | float, Meta(description="The share of the length lost in the wash: 0.03 is 3 per cent.")
        ]
        | None
    ) = None
    price: (
        Annotated[str | int | float, Meta(description="What a yard costs, or a metre in a file in cm.")]
        | None
    ) = None
    buying_step: (
        Annotated[LengthEntry, Meta(description="The step in which the shop cuts this cloth.")] | None
    ) = None


class RoleEntry(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """What patches ask for: one fabric, or an assortment of prints."""

    fabric: str | None = None
    name: str | None = None
    prints: Annotated[int, Meta(description="How many prints the assortment has.", ge=1)] | None = None
    alike: (
        Annotated[int, Meta(description="How many alike pieces or units may come from one print.", ge=1)]
        | None
    ) = None
    colours: list[Colour] = []


class PatchEntry(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A patch drawn by its corners, in either direction round."""

    role: str
    corners: Annotated[list[list[Coordinate]], Meta(description="At least three corners [across, up].")]


class BlockEntry(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A block: a picture on a grid, or patches drawn by their corners, or a drawing in a file of its own."""

    size: SizeEntry
    name: str | None = None
    picture: Picture | None = None
    columns: Annotated[
        list[ShareEntry], Meta(description="Shares of uneven columns, from left to right.")
    ] = []
    rows: Annotated[list[ShareEntry], Meta(description="Shares of uneven rows, from top to bottom.")] = []
    drafted: Annotated[
        SizeEntry | None,
        Meta(description="What the coordinates count up to; without it they are lengths."),
    ] = None
    patches: list[PatchEntry] = []
    drawing: Annotated[str, Meta(description="An SVG file beside the quilt file: old-page.svg.")] | None = (
        None
    )
    fills: Annotated[
        dict[str, str],
        Meta(description="The role for each fill colour of the drawing, as a CSS colour."),
    ] = {}
    prefer: (
        Annotated[Prefer, Meta(description="How you would rather sew it where there is a choice.")] | None
    ) = None


class SettingEntry(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A straight set of blocks."""

    across: Annotated[int, Meta(description="How many blocks lie side by side.", ge=1)]
    down: Annotated[int, Meta(description="How many rows of blocks there are.", ge=1)]
    arrangement: Annotated[
        str,
        Meta(description="A text picture of block keys, repeated to fill the quilt."),
    ]


class SashingEntry(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Strips between the blocks."""

    width: LengthEntry
    role: str
    cornerstone: str | None = None
    around: bool = False
    cut: (
        Annotated[Literal["crosswise", "lengthwise"], Meta(description="How the long strips are cut.")] | None
    ) = None


class BorderEntry(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One border, butted at the corners; the innermost is listed first."""

    width: LengthEntry
    role: str
    order: Literal["sides first", "top and bottom first"] = "sides first"
    cut: (
        Annotated[
            Literal["crosswise", "lengthwise", "sides lengthwise"],
            Meta(description="Joined strips from across the cloth, or one piece along the selvedge."),
        ]
        | None
    ) = None


class BindingEntry(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """The binding; the width is the width of the strips as they are cut."""

    role: str
    width: LengthEntry | None = None


class BackingEntry(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """The backing, and how far it reaches beyond the top on each side."""

    role: str | None = None
    margin: LengthEntry | None = None


class BattingEntry(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """The batting, and how far it reaches beyond the top on each side."""

    margin: LengthEntry | None = None


class DesignEntry(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A quilt, written down for Piecewright."""

    title: str
    fabrics: dict[Key, FabricEntry]
    blocks: dict[Key, BlockEntry]
    setting: SettingEntry
    reason: Annotated[str, Meta(description="For whom the quilt is, and why.")] = ""
    unit: Annotated[Unit, Meta(description="The unit of lengths that name none.")] = "in"
    roles: dict[Key, RoleEntry] = {}
    sashing: SashingEntry | None = None
    borders: list[BorderEntry] = []
    binding: BindingEntry | None = None
    backing: BackingEntry | None = None
    batting: BattingEntry | None = None
    choices: Annotated[
        dict[str, str | dict[str, str]],
        Meta(description='Pinned methods: hst = "eight at a time"; or a block and its own.'),
    ] = {}
