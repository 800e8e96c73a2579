"""The colours and names of cloths in pictures: of a fabric by its key, of a role by its key.

An assortment has several colours, which go to its patches in a fixed, well-mixed order.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from piecewright.design.colour import colours_of
from piecewright.design.model import Design

UNNAMED = ("#dfe6e4", "#3f6377", "#c98b4a", "#8c4a3b")
"""What cloths are drawn in that nobody gave a colour: pale, slate, ochre, brick; far apart in lightness."""

MOST_WAYS = 12
"""In how many ways at most the prints of a scrappy block are drawn."""


@dataclass(frozen=True)
class Palette:
    """Colours (hex) and names by key; an unknown key has the first unnamed colour, and is its own name."""

    colours: Mapping[str, tuple[str, ...]]
    names: Mapping[str, str] = field(default_factory=dict)

    def colour(self, key: str, index: int = 0) -> str:
        """The colour of a cloth; `index` goes through an assortment, over and over."""
        colours = self.colours.get(key, UNNAMED[:1])
        return colours[index % len(colours)]

    def name(self, key: str) -> str:
        """What people call the cloth."""
        return self.names.get(key, key)

    def ways(self, roles: Sequence[str]) -> int:
        """In how many ways patches of these roles are coloured: 1 where each has one colour."""
        return min(MOST_WAYS, max((len(self.colours.get(role, ())) for role in roles), default=1) or 1)

    def scattered(self, roles: Sequence[str], way: int = 0) -> Iterator[str]:
        """A colour for each patch in turn; those of one assortment differ for as long as they can."""
        seen: dict[str, int] = {}
        for role in roles:
            colours = self.colours.get(role, UNNAMED[:1])
            count = seen.get(role, 0)
            seen[role] = count + 1
            yield colours[shuffled(len(colours), way)[count % len(colours)]]


def palette_of(design: Design) -> Palette:
    """The palette of a design's roles and fabrics."""
    colours: dict[str, tuple[str, ...]] = {fabric.key: (fabric.colour,) for fabric in design.fabrics}
    names = {fabric.key: fabric.name for fabric in design.fabrics}
    for role in design.roles:
        colours[role.key] = colours_of(design, role.key)
        names.setdefault(role.key, role.name)
    return Palette(colours, names)


def plain_palette(keys: Sequence[str]) -> Palette:
    """The palette for cloths that have no colours of their own, such as those of a unit without a design."""
    return Palette({key: (UNNAMED[k % len(UNNAMED)],) for k, key in enumerate(keys)})


def shuffled(count: int, way: int) -> list[int]:
    """The numbers below `count` in an order that differs from way to way and never changes.

    >>> shuffled(5, 0), shuffled(5, 1)
    ([0, 1, 2, 3, 4], [4, 1, 0, 2, 3])
    """
    order = list(range(count))
    state = way
    for k in range(count - 1, 0, -1):
        if way:
            state = (state * 1103515245 + 12345) % 2**31
            j = (state >> 16) % (k + 1)
            order[k], order[j] = order[j], order[k]
    return order


def mixed_way(number: int, ways: int) -> int:
    """The way in which the thing with this number is coloured: neighbours differ, no pattern shows."""
    return ((number * 2654435761) >> 7) % ways
