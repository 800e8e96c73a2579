"""A sum from a rule of thumb, as a tree that is only ever walked, never run as code.

Terms:
- *sum*: a number, a name, or an operation on sums;
- *name*: what stands for a figure, as one of the names that are known where the sum is read.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from piecewright.measure.number import is_on_inch_ruler, mixed
from piecewright.measure.reading import read_length
from piecewright.problems import Problem, Refused


@dataclass(frozen=True)
class RuleSum:
    """A sum: `sign` is "number", "name" or an operation (+ - * / √) on its `parts`; `at` its place.

    A number has its `value`, in `unit` where it carries one; a name its `word`, as it is known.
    """

    sign: str
    at: int
    parts: tuple[RuleSum, ...] = ()
    value: Fraction = Fraction(0)
    unit: str = ""
    word: str = ""

    def names(self) -> frozenset[str]:
        """The names that it uses."""
        own = frozenset((self.word,)) if self.sign == "name" else frozenset[str]()
        return own.union(*(part.names() for part in self.parts))

    def figure(self, values: Mapping[str, Fraction], inch: Fraction) -> Fraction:
        """What it comes to, exact but for roots, with these values for its names.

        Numbers that carry a unit are counted in `inch`, which is one inch in the unit of the others. Raises
        Refused where it divides by nothing or takes the root of less than nothing.
        """
        if self.sign == "number":
            return self.value if not self.unit else read_length(f"{self.value}{self.unit}", "in").exact * inch
        if self.sign == "name":
            return values[self.word]
        figures = [part.figure(values, inch) for part in self.parts]
        if self.sign == "√":
            if figures[0] < 0:
                raise Refused(Problem("this takes the root of less than nothing", place_in_rule(self.at)))
            return Fraction(sqrt(figures[0]))
        first, second = figures
        if self.sign == "/":
            if second == 0:
                raise Refused(
                    Problem("this divides by nothing", place_in_rule(self.at), "Change what is below.")
                )
            return first / second
        return {"+": first + second, "-": first - second, "*": first * second}[self.sign]

    def said(self, words: Mapping[str, str], outer: str = "") -> str:
        """The sum in words: names as `words` says them."""
        if self.sign == "number":
            number = mixed(self.value) if is_on_inch_ruler(self.value) else f"{float(self.value):.6g}"
            return f"{number} {self.unit}".rstrip()
        if self.sign == "name":
            return words[self.word]
        if self.sign == "√":
            return f"√({self.parts[0].said(words)})"
        first, second = self.parts
        if self.sign == "-" and first.sign == "number" and first.value == 0:
            return f"-{second.said(words, 'below')}"
        after = {"/": "below", "-": "*"}.get(self.sign, self.sign)
        text = f"{first.said(words, self.sign)} {self.sign.replace('*', 'x')} {second.said(words, after)}"
        bracketed = outer == "below" or (self.sign in "+-" and outer in ("*", "/"))
        return f"({text})" if bracketed else text


def place_in_rule(at: int) -> str:
    """The place in a rule as problems name it; signs count from 1."""
    return f"rule, sign {at + 1}"
