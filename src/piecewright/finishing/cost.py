"""What a quilt costs: cloth by the yard or metre, batting, thread; what has no price is named.

Terms:
- *price* of cloth, and of batting off a roll: for a yard, or for a metre in a quilt in centimetres;
- *coin*: the money it is in, as it was typed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from piecewright.cutting.given.cloth import Bolt
from piecewright.cutting.layout import Layout
from piecewright.finishing.figures import measure_of
from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import show_cloth
from piecewright.problems import Problem, Refused


@dataclass(frozen=True)
class Prices:
    """What things cost, as far as one knows: cloth by its key, thread by the spool; the rest as it comes.

    The price of batting stands with its package or roll.
    """

    cloth: Mapping[str, Fraction] = field(default_factory=dict)
    spool: Fraction | None = None
    other: Mapping[str, Fraction] = field(default_factory=dict)
    coin: str = ""


@dataclass(frozen=True)
class CostLine:
    """One thing that is bought: `amount` and `price` in words, and what it costs; None without a price."""

    what: str
    amount: str
    price: str
    cost: Fraction | None

    def words(self, coin: str) -> str:
        """The line as sums have it: `night: 1 3/4 yd x 12.00 = 21.00`."""
        if self.cost is None:
            return f"{self.what}: {self.amount}, no price given"
        amount = f": {self.amount}" if self.amount else ""
        times = f" x {self.price}" if self.price else ""
        return f"{self.what}{amount}{times} = {money(self.cost, coin)}"


@dataclass(frozen=True)
class Cost:
    """The cost of a quilt, line by line."""

    lines: tuple[CostLine, ...]
    coin: str = ""

    @property
    def known(self) -> Fraction:
        """What all that has a price costs."""
        return sum((line.cost for line in self.lines if line.cost is not None), Fraction(0))

    @property
    def without_price(self) -> tuple[str, ...]:
        """What has no price."""
        return tuple(line.what for line in self.lines if line.cost is None)

    def sum_lines(self) -> tuple[str, ...]:
        """The arithmetic of the cost, a line each."""
        lacking = f"; without {', '.join(self.without_price)}" if self.without_price else ""
        return (
            *(line.words(self.coin) for line in self.lines),
            f"together {money(self.known, self.coin)}{lacking}",
        )


def money(amount: Fraction, coin: str) -> str:
    """An amount of money: `21.00`, `21.00 EUR`.

    >>> money(Fraction(43, 2), "EUR")
    '21.50 EUR'
    """
    hundredths = round(amount * 100)
    return f"{hundredths // 100:,}.{hundredths % 100:02d} {coin}".strip()


def price_of_step(price: Fraction, buying_step: Length, unit: Unit) -> Fraction:
    """The price of one buying step from that of a yard or metre."""
    return price * (buying_step.exact / measure_of(unit).exact)


def cloth_line(name: str, buy: Length, price: Fraction | None, unit: Unit, coin: str = "") -> CostLine:
    """What a length of cloth costs, by the yard or metre."""
    amount = show_cloth(buy, unit)
    if price is None:
        return CostLine(name, amount, "", None)
    _refuse_negative(price, name)
    return CostLine(name, amount, money(price, ""), price * (buy.exact / measure_of(unit).exact))


def bolt_line(layout: Layout, bolt: Bolt, unit: Unit) -> CostLine:
    """What a layout costs by the buying steps of its bolt."""
    steps = layout.purchase.steps
    amount = f"{show_cloth(layout.buy, unit)} in {steps} {'step' if steps == 1 else 'steps'}"
    if bolt.price is None:
        return CostLine(layout.key, amount, "", None)
    return CostLine(layout.key, amount, money(bolt.price, ""), bolt.price * steps)


def layout_lines(layouts: Sequence[Layout], prices: Prices, unit: Unit) -> list[CostLine]:
    """What all cloths cost that are bought for the layouts."""
    return [cloth_line(layout.key, layout.buy, prices.cloth.get(layout.key), unit) for layout in layouts]


def spool_line(spools: int, price: Fraction | None) -> CostLine:
    """What the thread costs."""
    amount = f"{spools} {'spool' if spools == 1 else 'spools'}"
    if price is None:
        return CostLine("thread", amount, "", None)
    _refuse_negative(price, "thread")
    return CostLine("thread", amount, money(price, ""), price * spools)


def _refuse_negative(price: Fraction, what: str) -> None:
    if price < 0:
        raise Refused(
            Problem(f"expected a price of 0 or more for {what}, got {float(price):.2f}.", do="Check it.")
        )
