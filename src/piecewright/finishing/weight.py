"""What a quilt weighs: cloth and batting by grams for a square metre, thread by its length.

Terms:
- *grams a square metre*: how cloth mills tell weight;
- *tex*: grams for 1000 m of thread.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from piecewright.finishing.figures import METRE
from piecewright.measure.length import Unit

SQUARE_METRE = float(METRE) ** 2
GRAMS_AN_OUNCE = 28.349523125  # The international avoirdupois ounce, by definition.
OUNCES_A_POUND = 16


@dataclass(frozen=True)
class Weights:
    """Grams for a square metre of cloth and of batting, and tex of thread: from memory, changeable.

    Quilting cotton is about 145, a middling cotton batting about 150; the label tells.
    """

    cloth: float = 145.0
    backing: float = 145.0
    batting: float = 150.0
    thread: float = 30.0


@dataclass(frozen=True)
class Weight:
    """What each part of a quilt weighs, in grams."""

    parts: tuple[tuple[str, float, float], ...]
    """Each with its name, square inches (of thread: inches) and grams."""

    @property
    def grams(self) -> float:
        """What all weighs."""
        return sum(grams for _, _, grams in self.parts)

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic of the weight, a line each."""
        lines = [f"{name}: {_amount(name, amount)} = {grams:,.0f} g" for name, amount, grams in self.parts]
        return (*lines, f"together {self.grams:,.0f} g = {weight_words(self.grams, unit)}")


def _amount(name: str, amount: float) -> str:
    if name == "thread":
        return f"{amount / float(METRE):,.0f} m"
    return f"{amount / SQUARE_METRE:.2f} square metres"


def weight_words(grams: float, unit: Unit) -> str:
    """A weight in pounds and ounces, or in kilograms: `about 3 lb 5 oz`, `about 1.5 kg`.

    >>> weight_words(1500.0, "in"), weight_words(1500.0, "cm")
    ('about 3 lb 5 oz', 'about 1.5 kg')
    """
    if unit == "cm":
        return f"about {grams / 1000:.1f} kg" if grams >= 1000 else f"about {round(grams, -1):.0f} g"
    pounds, ounces = divmod(round(grams / GRAMS_AN_OUNCE), OUNCES_A_POUND)
    return f"about {pounds} lb {ounces} oz" if pounds else f"about {ounces} oz"


def weight_of(
    top_cloth: Mapping[str, float] | float,
    size: tuple[float, float],
    binding: float,
    thread: float,
    weights: Weights,
) -> Weight:
    """The weight of a finished quilt of a size (inches): backing and batting are trimmed to the top.

    `top_cloth` is the area of all pieces of the top, allowances included, `binding` that of its strips, in
    square inches; `thread` its inches.
    """
    pieces = top_cloth if isinstance(top_cloth, float) else sum(top_cloth.values())
    area = size[0] * size[1]
    parts = (
        ("top", pieces, weights.cloth),
        ("batting", area, weights.batting),
        ("backing", area, weights.backing),
        ("binding", binding, weights.cloth),
    )
    found = [(name, inches, inches / SQUARE_METRE * heavy) for name, inches, heavy in parts if inches]
    kilometres = thread / float(METRE) / 1000
    return Weight((*found, ("thread", thread, kilometres * weights.thread)))


def grams_a_square_metre(ounces_a_square_yard: Fraction | float) -> float:
    """Grams for a square metre from ounces for a square yard, as cloth is told in inches."""
    return float(ounces_a_square_yard) * GRAMS_AN_OUNCE / (36.0**2) * SQUARE_METRE
