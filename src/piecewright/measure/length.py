"""Lengths that a ruler measures or a person types: exact, whatever their unit.

A `Length` is a fraction of an inch. It is not a place on the table (those are floats, see
`geometry`), and not a count. Centimetres are exact too: 1 in is 127/50 cm.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, Never

from piecewright.measure.number import decimal, mixed, read_number, shortened

Unit = Literal["in", "cm"]

MM_PER_INCH = Fraction(127, 5)


class Length:
    """An exact length; `exact` is its number of inches. It never changes.

    >>> inches("2 7/8") + inches("1/8")
    inches('3')
    >>> inches(5) == mm(127), float(inches("7/8"))
    (True, 0.875)
    """

    # Not a dataclass: msgspec would write those as tables, and a length stands in files as text.
    __slots__ = ("exact",)

    exact: Fraction

    def __init__(self, exact: Fraction) -> None:
        object.__setattr__(self, "exact", exact)

    def __setattr__(self, name: str, value: object) -> Never:
        raise AttributeError(f"a length never changes; make a new one instead of setting {name}")

    def __delattr__(self, name: str) -> Never:
        raise AttributeError(f"a length never changes; {name} stays")

    def __reduce__(self) -> tuple[type[Length], tuple[Fraction]]:
        return Length, (self.exact,)

    def __eq__(self, other: object) -> bool:
        return self.exact == other.exact if isinstance(other, Length) else NotImplemented

    def __hash__(self) -> int:
        return hash((Length, self.exact))

    def __lt__(self, other: Length) -> bool:
        return self.exact < other.exact if isinstance(other, Length) else NotImplemented

    def __le__(self, other: Length) -> bool:
        return self.exact <= other.exact if isinstance(other, Length) else NotImplemented

    def __gt__(self, other: Length) -> bool:
        return self.exact > other.exact if isinstance(other, Length) else NotImplemented

    def __ge__(self, other: Length) -> bool:
        return self.exact >= other.exact if isinstance(other, Length) else NotImplemented

    def __add__(self, other: Length) -> Length:
        return Length(self.exact + other.exact)

    def __sub__(self, other: Length) -> Length:
        return Length(self.exact - other.exact)

    def __mul__(self, factor: int | Fraction) -> Length:
        return Length(self.exact * factor)

    __rmul__ = __mul__

    def __truediv__(self, divisor: int | Fraction) -> Length:
        return Length(self.exact / divisor)

    def __floordiv__(self, other: Length) -> int:
        return self.exact // other.exact

    def __mod__(self, other: Length) -> Length:
        return Length(self.exact % other.exact)

    def __neg__(self) -> Length:
        return Length(-self.exact)

    def __float__(self) -> float:
        return float(self.exact)

    def __bool__(self) -> bool:
        return self.exact != 0

    @property
    def in_mm(self) -> Fraction:
        """The same length as a number of millimetres, exact."""
        return self.exact * MM_PER_INCH

    def text(self) -> str:
        """The length as plan files write it: `2 7/8 in`, `67 mm`; `parse_length` reads it back."""
        millimetres = None if _is_power_of_two(self.exact.denominator) else decimal(self.in_mm)
        return f"{mixed(self.exact)} in" if millimetres is None else f"{millimetres} mm"

    def __repr__(self) -> str:
        return f"inches('{mixed(self.exact)}')"

    def __str__(self) -> str:
        return self.text()


ZERO = Length(Fraction(0))


def inches(value: str | int | Fraction) -> Length:
    """The length of so many inches: `inches(3)`, `inches("2 7/8")`, `inches("-1 1/2")`.

    Raises ValueError when the text is not a number as people write it.
    """
    return Length(_number(value))


def mm(value: str | int | Fraction) -> Length:
    """The length of so many millimetres, exact: `mm(67)`, `mm("7.5")`."""
    return Length(_number(value) / MM_PER_INCH)


def parse_length(text: str) -> Length:
    """The length that `Length.text` wrote; raises ValueError on anything else.

    >>> parse_length("2 7/8 in"), parse_length("127 mm")
    (inches('2 7/8'), inches('5'))
    """
    number, _, unit = text.rpartition(" ")
    if unit == "in":
        return inches(number)
    if unit == "mm":
        return mm(number)
    raise ValueError(f"expected a length such as '2 7/8 in' or '67 mm', got {shortened(text)}")


def _number(value: str | int | Fraction) -> Fraction:
    return read_number(value) if isinstance(value, str) else Fraction(value)


def _is_power_of_two(number: int) -> bool:
    return number & (number - 1) == 0
