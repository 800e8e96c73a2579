"""The words of a cutting sheet: what to buy and take, the figures, and how to cut, number by number."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.cloth_cut import ClothCut
from piecewright.cutting.given.layout import CutGiven, FromShelf, Leftover
from piecewright.cutting.layout import Layout
from piecewright.cutting.order_of_cuts import CutPieces, NumberedCut, order_of_cuts, order_of_given_cuts
from piecewright.cutting.patterns import Pattern
from piecewright.drawing.writing import counted, size_in_words
from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import figure, show, show_cloth

WIDTH_OF_FABRIC = "width of fabric"


@dataclass(frozen=True, slots=True)
class CutWords:
    """A numbered cut in words; `boxed` as in the picture, `head` for strips and straightening."""

    number: int
    words: str
    boxed: bool = False
    head: bool = False


@dataclass(frozen=True, slots=True)
class Telling:
    """How cuts are told: the unit, how many layers are cut together, and where pieces go by their names."""

    unit: Unit = "in"
    layers: int = 2
    names: Mapping[str, str] | None = None

    def pieces(self, pieces: CutPieces) -> str:
        """So many pieces with their size and where they go: `76 squares 2 7/8 in (star points)`."""
        name = (self.names or {}).get(pieces.name, pieces.name)
        if pieces.width == pieces.height:
            return f"{counted_of(pieces.count, 'square')} {show(pieces.width, self.unit)} ({name})"
        size = size_in_words(pieces.width, pieces.height, self.unit)
        return f"{counted_of(pieces.count, 'piece')} {size} ({name})"


def counted_of(count: int, thing: str) -> str:
    """A number of things, thousands parted: `1,024 squares`."""
    return f"{count:,} {thing}{'' if count == 1 else 's'}"


def to_take(cut: FromShelf, unit: Unit) -> tuple[str, ...]:
    """What is taken from the shelf, a line each."""
    sizes = {one.name: size_in_words(one.width, one.height, unit) for one in cut.used}
    packed = {pack.piece.name for pack, _ in cut.packs}
    counts = [(name, count) for name, count in cut.count_used.items() if name not in packed]
    return tuple(f"{count} of {name} ({sizes[name]})" for name, count in counts)


def to_buy(cut: FromShelf, unit: Unit) -> tuple[str, ...]:
    """What is bought: packs, with how many of their pieces are cut, and a length of a bolt."""
    packs = [(counted(count, "pack"), pack.piece) for pack, count in cut.packs if count]
    lines = [
        f"{told} of {piece.count}: {piece.name}; {cut.count_used[piece.name]} are cut"
        for told, piece in packs
    ]
    bolt = cut.bought
    if bolt is not None and bolt.patterns:
        lines.append(f"{show_cloth(bolt.buy, unit)} of cloth {show(bolt.usable_width, unit)} wide")
    return tuple(lines)


def figures(cloth: ClothCut, telling: Telling) -> tuple[tuple[str, str], ...]:
    """The figures of a cloth, each with what it is."""
    cut, unit = cloth.cut, telling.unit
    rows = [*_bolt_figures(cut.bought, unit)] if cut.bought and cut.bought.patterns else []
    if cut.used:
        share = cut.area / (cut.area_used + _bolt_area(cut.bought))
        rows.append(("pieces fill", f"{float(share):.0%} of the cloth that is cut"))
    rows.append(("ruler settings", f"{cut.ruler_changes:,}"))
    rows.append(("cuts, one by one", f"{cut.cuts:,}"))
    if cut.bought and telling.layers > 1:
        given = sum(one.cuts for one in cut.used)
        together = given + cut.bought.operations(telling.layers)
        rows.append((f"cuts in {telling.layers} layers", f"{together:,}"))
    return tuple(rows)


def _bolt_area(bought: Layout | None) -> Fraction:
    return bought.length.exact * bought.usable_width.exact if bought else Fraction(0)


def _bolt_figures(layout: Layout, unit: Unit) -> list[tuple[str, str]]:
    bought = layout.purchase
    steps = f"{bought.steps} x {show_cloth(bought.buying_step, unit)}"
    return [
        ("to buy", f"{show_cloth(layout.buy, unit)} ({steps})"),
        ("the strips take", show(layout.length, unit)),
        ("the pieces alone need", show(layout.area_bound, unit)),
        ("cut in this way, at least", show(layout.bound, unit)),
        ("strips", f"{layout.strips:,}"),
    ]


def layout_words(layout: Layout, telling: Telling) -> tuple[CutWords, ...]:
    """How a layout is cut, number by number."""
    return _words(layout.patterns, order_of_cuts(layout), telling, WIDTH_OF_FABRIC, layout.usable_width)


def given_words(cut: CutGiven, telling: Telling) -> tuple[CutWords, ...]:
    """How given cloth is cut, number by number; counts are for all its equal pieces together."""
    across = show(cut.strip_length, telling.unit)
    return _words(cut.patterns, order_of_given_cuts(cut), telling, across, cut.strip_length)


def before_cutting(layout: Layout, telling: Telling) -> tuple[str, ...]:
    """What to know before the first cut: the fold, the layers, what is not counted."""
    told = []
    if telling.layers == 2:
        told.append(
            "Fold the cloth selvedge to selvedge to cut the strips; open them, or lay two equal ones on each "
            "other, before you crosscut."
        )
    elif telling.layers > 2:
        told.append(f"Lay up to {telling.layers} equal strips on each other to crosscut them.")
    told.append(
        f"Straightening the end, and squaring the left end of each strip, come on top of the "
        f"{layout.cuts:,} cuts that are counted."
    )
    if layout.squaring:
        told.append(f"{show(layout.squaring, telling.unit)} is allowed for each strip to straighten again.")
    return tuple(told)


def leftover_words(leftovers: Sequence[Leftover], unit: Unit, name: str = "") -> tuple[str, ...]:
    """What is left and worth keeping, a line for each size; the first side lies across the cloth.

    The fabric is told where it is another one than that of this name.
    """
    found = []
    for rest in leftovers:
        size = size_in_words(rest.width, rest.height, unit)
        fabric = f", {rest.fabric}" if rest.fabric not in ("", name) else ""
        found.append(f"{rest.count} of {size}{fabric}")
    return tuple(found)


def _words(
    patterns: Sequence[Pattern],
    cuts: Sequence[NumberedCut],
    telling: Telling,
    across: str,
    whole: Length,
) -> tuple[CutWords, ...]:
    told, group = [], 1
    for cut in cuts:
        if cut.kind == "strips":
            group = len(cut.places)
        words = _cut_words(patterns, cut, telling, across, whole)
        if cut.kind in ("crosscuts", "subcuts") and len({place.pattern for place in cut.places}) < group:
            words = f"{_of_strips(patterns, cut)}: {words}"
        head = cut.kind in ("straighten", "strips")
        told.append(CutWords(cut.number, words, cut.kind == "subcuts", head))
    return tuple(told)


def _cut_words(
    patterns: Sequence[Pattern], cut: NumberedCut, telling: Telling, across: str, whole: Length
) -> str:
    if cut.setting is None:
        return "straighten the end of the cloth"
    at, pieces = show(cut.setting, telling.unit), [telling.pieces(one) for one in cut.gives]
    if cut.kind == "strips":
        first = any(patterns[place.pattern].reserve for place in cut.places)
        return f"cut {counted_of(cut.cuts, 'strip')} {at} × {across}" + (", before all else" if first else "")
    if cut.kind == "crosscuts" and cut.setting == whole and cut.gives:
        return f"leave whole, square the ends: {', '.join(pieces)}"
    ruler = f"at {at}" if cut.set_anew else f"at {at}, the ruler as it is"
    if cut.kind == "subcuts":
        return f"{_parted(patterns, cut)} {ruler}: {', '.join(pieces)}"
    if not pieces:
        often = "once" if cut.cuts == 1 else f"{cut.cuts:,} times"
        return f"crosscut {often} {ruler}; to be subcut"
    more = cut.cuts - sum(one.count for one in cut.gives)
    rest = f"; {more:,} more to be subcut" if more else ""
    return f"crosscut {ruler}: from these {', '.join(pieces)}{rest}"


def _parted(patterns: Sequence[Pattern], cut: NumberedCut) -> str:
    stacks = {patterns[place.pattern].sections[place.section].stack > 1 for place in cut.places}
    return {frozenset({True}): "subcut", frozenset({False}): "trim"}.get(frozenset(stacks), "subcut or trim")


def _of_strips(patterns: Sequence[Pattern], cut: NumberedCut) -> str:
    """The strips that a cut is made in: `strips 1–4, 9`."""
    spans: list[tuple[int, int]] = []
    for index in sorted({place.pattern for place in cut.places}):
        first = 1 + sum(pattern.times for pattern in patterns[:index])
        last = first + patterns[index].times - 1
        if spans and spans[-1][1] + 1 == first:
            first = spans.pop()[0]
        spans.append((first, last))
    told = ", ".join(str(a) if a == b else f"{a}–{b}" for a, b in spans)
    return f"strip {told}" if told.isdecimal() else f"strips {told}"


def choice_head(layers: int) -> tuple[str, ...]:
    """The head of the table of choices."""
    return ("choice", "length", "to buy", "ruler settings", "strips", "cuts", f"in {layers} layers")


def choice_row(name: str, layout: Layout, telling: Telling) -> tuple[str, ...]:
    """A row of the table of choices."""
    return (
        name,
        show(layout.length, telling.unit),
        show_cloth(layout.buy, telling.unit),
        f"{layout.ruler_changes:,}",
        f"{layout.strips:,}",
        f"{layout.cuts:,}",
        f"{layout.operations(telling.layers):,}",
    )


def given_head(cut: CutGiven, unit: Unit) -> str:
    """What cloth is cut and how it lies: `2 of fat quarter sea, all alike, 20 1/2 x 17 1/2 in ...`."""
    each = f"{cut.times} of {cut.name}, all alike, " if cut.times > 1 else f"{cut.name}, "
    size = f"{figure(cut.width, unit)} x {show(cut.height, unit)}"
    return f"{each}{size}, strips {'along' if cut.along else 'across'}"
