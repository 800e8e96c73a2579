"""Cutting in layers, in words: the cloth folded selvedge to selvedge, several strips on one another.

Words: cut *through* all layers a strip gives its pieces in pairs, from the selvedges towards the fold; what
is odd in a strip is left at the fold, and cut from the strip once it is *opened*. An odd number of layers
is strips laid open on one another.
"""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.cutting.layout import Layout
from piecewright.cutting.patterns import Pattern, Section
from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import show

FOLDED = 2


@dataclass(frozen=True)
class InLayers:
    """The crosscuts of one section from all its strips, and what they give.

    `through` all layers are cut for `pieces`, `opened` from the opened fold, one piece each way deep.
    """

    through: int
    pieces: int
    opened: int
    left: int


def in_layers(section: Section, times: int, layers: int) -> InLayers:
    """How a section is cut from so many equal strips in so many layers.

    >>> from piecewright.measure.length import inches
    >>> squares = Section("squares", inches(3), inches(3), 13)
    >>> in_layers(squares, 6, 2)
    InLayers(through=36, pieces=72, opened=6, left=6)
    """
    deep, folds = (layers // FOLDED, FOLDED) if layers % FOLDED == 0 else (layers, 1)
    piles = -(-times // deep)
    pairs, odd = divmod(section.count, folds)
    return InLayers(piles * pairs, times * pairs * folds, piles * odd, times * odd)


def operations(pattern: Pattern, layers: int) -> int:
    """How many cuts the strips of a pattern take: a strip is one cut, and subcuts go through as many layers.

    `Layout.operations` counts strips laid on one another instead; for whole piles of unfolded strips the
    crosscuts are the same.
    """
    cuts = pattern.times
    for section in pattern.sections:
        done = in_layers(section, pattern.times, layers)
        subcuts = section.stack - 1 + (section.stack_height < pattern.strip_height)
        cuts += (done.through + done.opened) * (1 + subcuts)
    return cuts


def fold_words(
    layout: Layout, layers: int, unit: Unit, ruler_length: Length | None = None
) -> tuple[str, ...]:
    """What to fold and cut through for each ruler setting, a sentence or two each; nothing for open cloth.

    Strips higher than the ruler is long are cut and handled open.
    """
    if layers == 1 or not layout.patterns:
        return ()
    return tuple(
        _strips_words(height, patterns, layout.usable_width, layers, unit)
        for height, patterns in layout.by_height
        if ruler_length is None or height <= ruler_length
    )


def _strips_words(
    height: Length, patterns: tuple[Pattern, ...], width: Length, layers: int, unit: Unit
) -> str:
    count, folded = sum(pattern.times for pattern in patterns), layers % FOLDED == 0
    words = "Fold the cloth selvedge to selvedge and cut" if folded else "Cut, in one layer,"
    words += f" {count} {'strip' if count == 1 else 'strips'} {show(height, unit)}"
    done = [
        in_layers(section, pattern.times, layers)
        for pattern in patterns
        for section in pattern.sections
        if section.width < width
    ]
    through, opened = sum(one.through for one in done), sum(one.opened for one in done)
    if through:
        words += f"{_piled(layers, count)}; cut through {_all(layers)}: {_crosscuts(through)} "
        words += str(sum(one.pieces for one in done))
    if opened:
        left = sum(one.left for one in done)
        words += f"; open the fold for the last{'' if left == 1 else f' {left}'}"
    return f"{words}."


def _piled(layers: int, count: int) -> str:
    deep = layers // FOLDED if layers % FOLDED == 0 else layers
    return f", {deep} on one another" if deep > 1 and count > 1 else ""


def _all(layers: int) -> str:
    return "both layers" if layers == FOLDED else f"all {layers} layers"


def _crosscuts(count: int) -> str:
    return "1 crosscut gives" if count == 1 else f"{count} crosscuts give"
