"""The job: the plan, and everything that is printed with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from piecewright.bench.cloth import Cloth
from piecewright.bench.plan import Plan
from piecewright.bench.replay import Replay
from piecewright.cutting.cloth_cut import ClothCut
from piecewright.cutting.layout import Layout
from piecewright.cutting.prints.shared import SharedOut
from piecewright.design.drawing import QuiltDrawing
from piecewright.design.model import Design
from piecewright.measure.length import ZERO, Length
from piecewright.planning.finish import Finishing
from piecewright.planning.pressing_map import SecondPressing
from piecewright.planning.pressing_plan import Pressings
from piecewright.planning.things import Thing
from piecewright.problems import Problem
from piecewright.shelf.after_cutting import ShelfChange
from piecewright.workroom.workroom import Workroom


@dataclass(frozen=True)
class Job:
    """A planned quilt.

    `things` are all that is made, by name, in an order in which they can be made; `counts` how many of
    each; `cloth` how each cloth is cut, and `shelf` what that takes off the shelf and puts back; `blocks` the
    thing that each block of the design became; `pressed` what lies on each pile once it is pressed; `second`
    the second pressing of blocks, where one saves clashes. `notes` tell what the maker should know.
    """

    design: Design
    workroom: Workroom
    drawing: QuiltDrawing
    plan: Plan
    replay: Replay
    cloth: tuple[ClothCut, ...]
    shelf: ShelfChange
    prints: Mapping[str, SharedOut]
    things: Mapping[str, Thing]
    counts: Mapping[str, int]
    blocks: Mapping[str, str]
    pressings: Pressings
    pressed: Mapping[str, Cloth]
    finishing: Finishing
    second: SecondPressing | None
    notes: tuple[Problem, ...]

    @property
    def layouts(self) -> tuple[Layout, ...]:
        """What is cut from the bolt, of every cloth that is bought."""
        return tuple(cloth.cut.bought for cloth in self.cloth if cloth.cut.bought)

    def buy(self, cloth: ClothCut) -> Length:
        """What is bought of a cloth; of an assortment what its prints come to, where none is on hand."""
        if cloth.name in self.prints and not cloth.cut.used:
            return self.prints[cloth.name].buy
        return cloth.cut.bought.buy if cloth.cut.bought else ZERO
