"""What `piecewright cut` says of a fabric: what to take, what to buy, how good that is, what is left."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from piecewright.cutting.given.cloth import Given, Offered, Pack
from piecewright.cutting.given.layout import FromShelf
from piecewright.cutting.layout import Layout
from piecewright.cutting.lists.cut_fabric import CutFabric
from piecewright.cutting.lists.least import least_pieces, least_steps, least_steps_besides
from piecewright.measure.length import MM_PER_INCH, Unit
from piecewright.measure.showing import figure, show, show_cloth

MOST_LEFTOVERS = 6


def sum_lines(one: CutFabric, given: Sequence[Given], unit: Unit) -> list[str]:
    """What to take and to buy, how good that is, how much work it is, what is left."""
    lines = [*take_lines(one, given, unit), *buy_lines(one, unit)]
    if one.cut.bought is not None and one.own is not None:
        lines += _strip_lines(one, one.cut.bought, one.own, unit)
    lines.append(_work(one.cut, one.wish.layers))
    return [*lines, *_leftover_lines(one, unit)]


def take_lines(one: CutFabric, given: Sequence[Given], unit: Unit) -> list[str]:
    """What comes from cloth on hand; `given` is that at its real size."""
    used, there = one.cut.count_used, {cloth.name: cloth for cloth in given}
    lines = []
    for name, count in used.items():
        if name not in there:
            lines += [f"Take {count:,}: {name}; cut that fabric first."] if ", left of " in name else []
            continue
        cloth, size = there[name], f"{figure(there[name].width, unit)} x {show(there[name].height, unit)}"
        told = name if size in name else f"{name}, {size}"
        lengths = [cut.filled for cut in one.cut.used if cut.name == name and cut.like_a_bolt]
        if lengths:
            taken = " and ".join(show(length, unit) for length in lengths)
            lines.append(f"Take {taken} of the length of {told}.")
        else:
            lines.append(f"Take {_out_of(count, cloth.count)} on hand: {told}.")
    return lines + _fewest(one.cut, one.offered)


def _out_of(count: int, there: int) -> str:
    if count < there:
        return f"{count:,} of the {there:,}"
    return f"all {count:,}" if count > 1 else "the one"


def _fewest(cut: FromShelf, offered: Offered) -> list[str]:
    least, pieces = least_pieces(cut, offered), sum(cut.count_used.values())
    if least is None or any(one.like_a_bolt for one in cut.used):
        return []
    if pieces == 1:
        return ["Nothing need be bought."]
    if pieces == least:
        return ["Nothing need be bought, and fewer pieces of cloth would not do."]
    return [f"Nothing need be bought; cut in this way, at least {_counted(least, 'piece')} would be needed."]


def buy_lines(one: CutFabric, unit: Unit) -> list[str]:
    """What to buy, with prices as far as they are known, and whether less would do."""
    lines = [_pack_line(pack, number, unit) for pack, number in one.cut.packs]
    bought = one.cut.bought
    if bought is not None:
        lines.append(_bolt_line(one, bought, unit))
    if len(lines) > 1 and one.cost is not None:
        lines.append(f"That is {_money(one.cost)} in all.")
    if lines and not one.cut.priced and _some_prices(one.offered):
        lines.append(
            "Not all that may be bought has a price, so the least cloth is bought, not the cheapest."
        )
    if one.cut.packs or (bought is not None and (one.offered.shelf or one.offered.packs)):
        lines += _less_would_do(one, unit)
    return lines


def _some_prices(offered: Offered) -> bool:
    prices = [pack.price for pack in offered.packs] + [offered.bolt.price if offered.bolt else None]
    return any(price is not None for price in prices)


def _pack_line(pack: Pack, number: int, unit: Unit) -> str:
    piece = pack.piece
    name = piece.name.removesuffix(", bought")
    size = f"{figure(piece.width, unit)} x {show(piece.height, unit)}"
    told = name if size in name else f"{name}, {size}"
    packs = f"{number:,}" if piece.count == 1 else f"{_counted(number, 'pack')} of {piece.count:,}"
    return f"Buy {packs}: {told}{_priced(pack.price, number)}."


def _priced(price: Fraction | None, number: int) -> str:
    if price is None:
        return ""
    each = f" at {_money(price)}" if number > 1 else ""
    return f",{each} for {_money(price * number)}" if each else f" for {_money(price)}"


def _bolt_line(one: CutFabric, bought: Layout, unit: Unit) -> str:
    bolt, name = one.bolt, "cloth"
    if bolt is not None and bolt.fabric != one.fabric.name:
        name = bolt.fabric
    width = show(bought.usable_width, unit)
    if bolt is not None and bolt.supply.usable_width != bought.usable_width:
        width = f"{show(bolt.supply.usable_width, unit)} wide ({width} to cut from)"
    else:
        width += " wide"
    price = "" if bolt is None or bolt.price is None else f" for {_money(bolt.price * bought.purchase.steps)}"
    return f"Buy {show_cloth(bought.buy, unit)} of {name} {width}{price}."


def _less_would_do(one: CutFabric, unit: Unit) -> list[str]:
    cut, offered = one.cut, one.offered
    if cut.cost == cut.least_cost:
        return ["Cut in this way, no less would do."]
    if cut.priced:
        return [f"Cut in this way, it costs at least {_money(cut.least_cost)}."]
    if offered.bolt is not None and not offered.packs:
        least = offered.bolt.supply.buying_step * least_steps_besides(cut, offered)
        return [f"Cut in this way, at least {show_cloth(least, unit)} would have to be bought."]
    least_area, area = _area(cut.least_cost, unit), _area(cut.cost, unit)
    return [f"Cut in this way, at least {least_area} of cloth would have to be bought; this is {area}."]


def _strip_lines(one: CutFabric, layout: Layout, own: Layout, unit: Unit) -> list[str]:
    bought = layout.purchase
    what = "The strips from it take" if one.cut.used or one.cut.packs else "The strips take"
    lines = [f"{what} {show(layout.length, unit)}; {_how_good(layout, unit)}"]
    saved = own.length - layout.length
    if saved:
        lines.append(f"That is {show(saved, unit)} less than each size in its own strips.")
    if bought.needed != layout.length:
        lines.append(f"To buy: {layout.sum_lines(unit)[-1].removesuffix(' to buy')}.")
    return lines


def _how_good(layout: Layout, unit: Unit) -> str:
    if layout.length == layout.bound:
        return "cut in this way, they cannot take less."
    least = f"cut in this way, they take at least {show(layout.bound, unit)}"
    if layout.purchase.steps == least_steps(layout):
        return f"{least}, for which as much would be bought."
    return f"{least}."


def _work(cut: FromShelf, layers: int) -> str:
    alone = f"{_counted(cut.strips, 'strip')}, {_counted(cut.cuts, 'cut')}"
    if cut.operations(layers) < cut.cuts:
        alone += f" one by one or {cut.operations(layers):,} in {layers} layers"
    return f"{alone}, with {_counted(cut.ruler_changes, 'ruler setting')}."


def _leftover_lines(one: CutFabric, unit: Unit) -> list[str]:
    rests = []
    for pack, number in one.cut.packs:
        whole = pack.piece.count * number - one.cut.count_used[pack.piece.name]
        if whole:
            rests.append(f"{whole:,} whole {pack.piece.name.removesuffix(', bought')}")
    for rest in one.cut.leftovers:
        of = "" if rest.fabric == one.fabric.name else f" of {rest.fabric}"
        size = f"{figure(rest.width, unit)} x {show(rest.height, unit)}{of}"
        rests.append(size if rest.count == 1 else f"{rest.count:,} of {size}")
    if not rests:
        return []
    more = len(rests) - MOST_LEFTOVERS
    told = rests if more <= 1 else [*rests[:MOST_LEFTOVERS], f"{more:,} smaller sizes"]
    return [f"Worth keeping: {_listed(told)}."]


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def choice_rows(choices: Sequence[tuple[str, Layout]], layers: int, unit: Unit) -> list[tuple[str, ...]]:
    """The trade-off between cloth and cutting, a row each."""
    return [
        (
            name,
            show(layout.length, unit),
            show_cloth(layout.buy, unit),
            f"{layout.ruler_changes:,}",
            f"{layout.strips:,}",
            f"{layout.cuts:,}",
            f"{layout.operations(layers):,}",
        )
        for name, layout in choices
    ]


def _money(amount: Fraction) -> str:
    return f"{float(amount):,.2f}"


def _area(square_inches: Fraction, unit: Unit) -> str:
    if unit == "cm":
        return f"{float(square_inches * (MM_PER_INCH / 10) ** 2):,.0f} square cm"
    return f"{float(square_inches):,.0f} square in"


def _counted(count: int, word: str) -> str:
    return f"{count:,} {word}" if count == 1 else f"{count:,} {word}s"
