"""Building the top from its drawing, in the order that the setting suggests; like rows are one thing."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from piecewright.design.draw_block import draw_block
from piecewright.design.drawing import InLine, Placed
from piecewright.design.model import Design
from piecewright.geometry.isometry import Isometry, moved
from piecewright.geometry.polygon import Line
from piecewright.planning.made_again import Again
from piecewright.planning.making import Workshop
from piecewright.planning.things import Made, Thing
from piecewright.sewing.stations import Station


def block_drawings(design: Design) -> dict[int, str]:
    """The block that each drawn group is, by identity: equal drawings are one object."""
    turns = {(block.key, turn) for block in design.blocks for turn in (0, 90, 180, 270)}
    return {id(draw_block(design, key, turn)): key for key, turn in sorted(turns)}


class Building:
    """Builds the top in the order that the setting suggests; rows that are alike are one thing.

    `is_second` tells of a block in its place whether it gets the second pressing, `again` makes that. Patches
    at `straight` lines have the straight grain there.
    """

    def __init__(
        self,
        shop: Workshop,
        block_of: Mapping[int, str],
        is_second: Callable[[Placed], bool] = lambda child: False,
        again: Again | None = None,
        straight: Sequence[Line] = (),
    ) -> None:
        self.shop = shop
        self.block_of = block_of
        self.is_second = is_second
        self.straight = straight
        self.again = again or Again(shop)
        self.rows: dict[tuple[object, ...], Thing] = {}
        self.drawn_rows: dict[tuple[object, ...], tuple[Isometry, Made]] = {}

    def build(self, part: InLine | Placed) -> Made:
        """A part of the top, made and joined, and how it lies in the quilt."""
        if isinstance(part, Placed):
            made = self.shop.placed(part, self.block_of.get(id(part.drawing)), self.straight)
            return self.again.second(made) if self.is_second(part) else made
        if len(part.parts) == 1:
            return self.build(part.parts[0])
        key = self._as_drawn(part)
        if key is None:
            return self._joined(part)
        first = part.parts[0]
        assert isinstance(first, Placed)
        if key not in self.drawn_rows:
            self.drawn_rows[key] = (first.place, self._joined(part))
        known, made = self.drawn_rows[key]
        return Made(made.thing, moved(first.place.x - known.x, first.place.y - known.y).after(made.place))

    def _as_drawn(self, part: InLine) -> tuple[object, ...] | None:
        """What a row shows, so that one drawn again is not made again; None where it is no plain row."""
        first, lying = part.parts[0], self.shop.lying
        if not isinstance(first, Placed):
            return None
        x, y = first.place.x, first.place.y
        key: list[object] = [part.name]
        for leaf in part.parts:
            if not isinstance(leaf, Placed) or id(leaf) in lying:
                return None
            place = leaf.place
            key += (
                self.is_second(leaf),
                id(leaf.drawing),
                place.cos,
                place.sin,
                round(place.x - x, 3),
                round(place.y - y, 3),
            )
        return tuple(key)

    def _joined(self, part: InLine) -> Made:
        parts = self.again.by_turns([self.build(inner) for inner in part.parts])
        back = parts[0].place.back()
        key: tuple[object, ...] = (part.name, *((p.thing.name, *_rounded(back, p)) for p in parts))
        if key not in self.rows:
            # A row is joined before the long strips are ready; what has one in it belongs to the top.
            leaves = all(isinstance(leaf, Placed) and id(leaf) not in self.shop.lying for leaf in part.parts)
            station = Station.ROW if leaves else Station.TOP
            self.rows[key] = self.shop.joined(parts, part.name, part.name, station).thing
        return Made(self.rows[key], parts[0].place)


def _rounded(back: Isometry, made: Made) -> tuple[float, ...]:
    place = back.after(made.place)
    return (round(place.cos, 6), round(place.sin, 6), round(place.x, 3), round(place.y, 3))
