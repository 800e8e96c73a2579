"""Batting: cut from a package, or off a roll of a width, joined where neither is wide enough.

Terms:
- *package*: a sheet of batting folded up, sold by the bed it is meant for;
- *butted*: joined edge to edge, without an allowance, by hand or with a wide zigzag.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import permutations
from types import MappingProxyType
from typing import Literal

from piecewright.finishing.figures import measure_of, refuse_none, size_words
from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.measure.showing import show
from piecewright.problems import Problem, Refused


@dataclass(frozen=True)
class BattingPackage:
    """A package: what it is called, the size of its sheet, its price where it is known."""

    name: str
    width: Length
    height: Length
    price: Fraction | None = None


@dataclass(frozen=True)
class BattingRoll:
    """A roll of a width; the price of a yard or metre, priced for its length, where it is known."""

    width: Length
    price: Fraction | None = None


# Usual sizes of packages and rolls: from memory; the label of the one at hand is right.
PACKAGES: Mapping[Unit, tuple[BattingPackage, ...]] = MappingProxyType(
    {
        "in": (
            BattingPackage("crib", inches(45), inches(60)),
            BattingPackage("throw", inches(60), inches(60)),
            BattingPackage("twin", inches(72), inches(90)),
            BattingPackage("full", inches(81), inches(96)),
            BattingPackage("queen", inches(90), inches(108)),
            BattingPackage("king", inches(120), inches(120)),
        ),
        "cm": (
            BattingPackage("cot", mm(1150), mm(1500)),
            BattingPackage("single", mm(1800), mm(2300)),
            BattingPackage("double", mm(2300), mm(2500)),
            BattingPackage("king", mm(2800), mm(2800)),
        ),
    }
)
ROLLS: Mapping[Unit, tuple[BattingRoll, ...]] = MappingProxyType(
    {
        "in": (BattingRoll(inches(90)), BattingRoll(inches(96)), BattingRoll(inches(120))),
        "cm": (BattingRoll(mm(1500)), BattingRoll(mm(2400))),
    }
)

BattingFrom = Literal["best", "package", "roll"]


@dataclass(frozen=True)
class BattingWishes:
    """Where the batting is cut from, and how far it reaches beyond the top (as the backing, where not given).

    Packages and rolls are the usual ones where none are given; `price` ranks them where all have one.
    """

    cut_from: BattingFrom = "best"
    margin: Length | None = None
    packages: tuple[BattingPackage, ...] | None = None
    rolls: tuple[BattingRoll, ...] | None = None


@dataclass(frozen=True)
class Batting:
    """Batting of a `size` (width, height), cut from `count` packages, or `count` lengths off a roll.

    `along` is how long each length is, or how high each package lies; `joins` are butted, so many inches of
    `seam` together.
    """

    size: tuple[Length, Length]
    source: BattingPackage | BattingRoll
    count: int
    along: Length
    joins: int
    seam: Length

    @property
    def area(self) -> Fraction:
        """What is bought, in square inches."""
        source = self.source
        height = source.height if isinstance(source, BattingPackage) else self.along
        return source.width.exact * height.exact * self.count

    @property
    def length(self) -> Length | None:
        """The length off the roll, None where it is a package."""
        return None if isinstance(self.source, BattingPackage) else self.along * self.count

    def cost(self, unit: Unit) -> Fraction | None:
        """What it costs, None where there is no price; off the roll, yards or metres are priced."""
        if self.source.price is None:
            return None
        length = self.length
        of_it = Fraction(self.count) if length is None else length.exact / measure_of(unit).exact
        return self.source.price * of_it

    def told(self, unit: Unit) -> str:
        """What to ask for: `1 package (queen, 90 x 108 in)`, `2 lengths of 80 in off a roll 90 in wide`."""
        source = self.source
        if isinstance(source, BattingPackage):
            packages = "package" if self.count == 1 else "packages"
            return (
                f"{self.count} {packages} ({source.name}, {size_words((source.width, source.height), unit)})"
            )
        lengths = show(self.along, unit) if self.count == 1 else f"{self.count} x {show(self.along, unit)}"
        return f"{lengths} off a roll {show(source.width, unit)} wide"

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic, a line each; what is left over of it in per cent."""
        needed = self.size[0].exact * self.size[1].exact
        over = round(100 * float(1 - needed / self.area))
        lines = [f"batting {size_words(self.size, unit)} from {self.told(unit)}; {over} per cent is left"]
        if self.joins:
            joins = "join" if self.joins == 1 else "joins"
            long = show(self.seam, unit)
            lines.append(f"{self.joins} butted {joins}, {long} in all, edge to edge, with no allowance")
        return tuple(lines)


def batting_ways(size: tuple[Length, Length], wishes: BattingWishes, unit: Unit) -> tuple[Batting, ...]:
    """Every way to cut batting of a size (width, height), the best first.

    Best is without a join; then what costs least where all have a price, else what is least in area.
    Raises Refused where nothing is offered.
    """
    for side in size:
        refuse_none(side, "batting", unit)
    packages = PACKAGES[unit] if wishes.packages is None else wishes.packages
    rolls = ROLLS[unit] if wishes.rolls is None else wishes.rolls
    ways = [] if wishes.cut_from == "roll" else [_from_package(size, package) for package in packages]
    if wishes.cut_from != "package":
        ways += [way for roll in rolls for way in _off_roll(size, roll)]
    if not ways:
        said = f"there is no {'roll' if wishes.cut_from == 'roll' else 'package'} to cut batting from."
        raise Refused(Problem(said, do="Name its width, or what it measures."))
    costs = {id(way): way.cost(unit) for way in ways}
    if None not in costs.values():
        return tuple(sorted(ways, key=lambda way: (way.joins, costs[id(way)] or Fraction(0), way.area)))
    return tuple(sorted(ways, key=lambda way: (way.joins, way.area)))


def _from_package(size: tuple[Length, Length], package: BattingPackage) -> Batting:
    """One package that is large enough either way, or several, butted side by side and end to end."""
    best: Batting | None = None
    for width, height in permutations((package.width, package.height)):
        beside = math.ceil(size[0].exact / width.exact)
        above = math.ceil(size[1].exact / height.exact)
        seam = size[1] * (beside - 1) + size[0] * (above - 1)
        joins = (beside - 1) + (above - 1)
        way = Batting(size, package, beside * above, height, joins, seam)
        if best is None or (way.count, way.seam) < (best.count, best.seam):
            best = way
    assert best is not None
    return best


def _off_roll(size: tuple[Length, Length], roll: BattingRoll) -> list[Batting]:
    """Lengths off a roll, from top to bottom and from side to side."""
    found = []
    for over, along in (size, size[::-1]):
        count = math.ceil(over.exact / roll.width.exact)
        found.append(Batting(size, roll, count, along, count - 1, along * (count - 1)))
    return found[:1] if size[0] == size[1] else found
