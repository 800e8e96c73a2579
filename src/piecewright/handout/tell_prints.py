"""The sheet's words on an assortment: over how many prints it is shared out, and what is cut from each.

A table is rows of words, its head first. `told` gives so many pieces of a size in words:
`2 squares 3 1/2 in`.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from piecewright.cutting.given.layout import CutGiven
from piecewright.cutting.layout import Layout
from piecewright.cutting.prints.from_prints import FromPrints
from piecewright.cutting.prints.shared import SharedOut
from piecewright.measure.length import ZERO, Unit
from piecewright.measure.showing import figure, show, show_cloth

Told = Callable[[str, int], str]
Table = tuple[tuple[str, ...], ...]

HEAD = ("prints", "from each", "cut", "buy of each")
AS_ONE = ("The lines and the picture show all of it as one cloth.",)
HEAD_ON_HAND = ("print", "pieces", "cut from")


def prints_words(shared: SharedOut, most_alike: int | None, unit: Unit) -> tuple[str, ...]:
    """How the assortment is shared out, a sentence each: prints and likeness, cloth, what touches."""
    if not shared.shares:
        return ()
    words = (_likeness(shared, most_alike), _cloth(shared, unit))
    return (*words, *_touching(shared.prints_at, shared.clashes), *(AS_ONE if shared.prints > 1 else ()))


def prints_bought(shared: SharedOut, unit: Unit) -> str:
    """What the shopping list says of an assortment: `18 prints, 6 1/2 yd in all; of each 1/4 to 3/8 yd`."""
    if not shared.shares:
        return ""
    sizes = sorted({share.layout.buy for share in shared.shares})
    each = " to ".join(dict.fromkeys(show_cloth(length, unit) for length in (sizes[0], sizes[-1])))
    if shared.prints == 1:
        return f"1 print, {each}"
    return f"{_counted(shared.prints, 'print')}, {show_cloth(shared.buy, unit)} in all; of each {each}"


def prints_table(shared: SharedOut, told: Told, unit: Unit) -> Table:
    """A row for all prints that are cut alike, and the sum; nothing where nothing is cut."""
    rows = [
        (
            str(share.prints),
            ", ".join(told(name, count) for name, count in share.pieces),
            ", ".join(_strips(share.layout, unit)),
            show_cloth(share.layout.buy, unit) + _or(share.fits),
        )
        for share in shared.shares
    ]
    if not rows:
        return ()
    pieces = sum(share.count * share.prints for share in shared.shares)
    in_all = (
        f"{shared.prints} in all",
        _counted(pieces, "piece"),
        _counted(shared.strips, "strip"),
        show_cloth(shared.buy, unit),
    )
    return (HEAD, *rows, in_all)


def on_hand_words(
    result: FromPrints, most_alike: int | None, unit: Unit, on_hand: int | None = None
) -> tuple[str, ...]:
    """Which prints on hand are taken, a sentence each; `on_hand` is how many there are."""
    taken = len(result.prints)
    of = f" of the {on_hand} on hand" if on_hand is not None else " on hand"
    alike = f", at most {most_alike} alike from one" if most_alike is not None else ""
    words = [f"Take {_counted(taken, 'print')}{of}{alike}."]
    if not taken:
        words = ["None of the prints on hand can be used."]
    if result.bought is not None:
        words.append(f"Besides, buy {prints_bought(result.bought, unit)}.")
    return (*words, *_touching(result.prints_at, result.clashes))


def on_hand_table(result: FromPrints, told: Told, unit: Unit) -> Table:
    """A row for every print on hand that is taken."""
    rows = [
        (
            one.fabric,
            ", ".join(told(name, count) for name, count in one.pieces),
            ", ".join(_cloths(one.used, unit)),
        )
        for one in result.prints
    ]
    return (HEAD_ON_HAND, *rows) if rows else ()


def _likeness(shared: SharedOut, most_alike: int | None) -> str:
    prints = _counted(shared.prints, "print")
    if most_alike is None:
        return f"Share them out over {prints}: at most {shared.alike} alike come from one."
    if shared.prints > shared.least_prints:
        fewer = f"as few as {shared.least_prints}" if shared.least_prints > 1 else "one"
        return f"Share them out over {prints}, at most {most_alike} alike from one; {fewer} would do."
    return f"Share them out over {prints}: fewer could not keep to at most {most_alike} alike from one."


def _cloth(shared: SharedOut, unit: Unit) -> str:
    each = f"{_counted(shared.strips, 'strip')}, short ones too, {show_cloth(shared.buy, unit)} in all"
    if shared.costs_more <= ZERO:
        return f"{each}: no more than one cloth would take."
    return f"{each}; one cloth would take {show_cloth(shared.as_one.buy, unit)}."


def _touching(prints_at: Sequence[int], clashes: int) -> tuple[str, ...]:
    if not prints_at:
        return ()
    if not clashes:
        return ("Lay them out before joining: they can lie so that no two alike touch.",)
    places = "one place" if clashes == 1 else f"{clashes} places"
    return (f"Alike ones may still meet in {places}: take more prints, or part them by eye.",)


def _strips(layout: Layout, unit: Unit) -> list[str]:
    """The strips of one print, equal ones together: `2 strips 3 1/2 x 20 in`."""
    found: dict[str, int] = {}
    for pattern in layout.patterns:
        size = f"{figure(pattern.strip_height, unit)} x {show(pattern.across, unit)}"
        found[size] = found.get(size, 0) + pattern.times
    return [f"{_counted(times, 'strip')} {size}" for size, times in found.items()]


def _cloths(used: Sequence[CutGiven], unit: Unit) -> list[str]:
    """The pieces of cloth that are cut, equal ones together: `2 of 20 1/2 x 17 1/2 in`."""
    found: dict[str, int] = {}
    for cut in used:
        size = f"{figure(cut.width, unit)} x {show(cut.height, unit)}"
        found[size] = found.get(size, 0) + cut.times
    return [f"{times} of {size}" for size, times in found.items()]


def _or(fits: Sequence[str]) -> str:
    return "".join(f", or a {kind}" for kind in fits)


def _counted(number: int, thing: str) -> str:
    return f"{number:,} {thing}{'' if number == 1 else 's'}"
