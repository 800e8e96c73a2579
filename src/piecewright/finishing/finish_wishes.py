"""How one wants a quilt finished; where nothing is said, common practice answers.

Terms:
- *wishes*: back, batting, edge, quilting, what hangs it, thread; one's own figures for pace and weight;
- *hemmed*: sewn down on the back, by hand or machine.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from piecewright.finishing.backing import BackingCloth, BackingWishes
from piecewright.finishing.batting import BattingWishes
from piecewright.finishing.binding import BindingWishes
from piecewright.finishing.edges import EdgeKind
from piecewright.finishing.hanging import HangingWishes
from piecewright.finishing.how_quilted import USUAL_APART_CM, Quilting
from piecewright.finishing.minutes import FinishingPace
from piecewright.finishing.shrinking import DRAWN_IN, WASHED
from piecewright.finishing.thread import THREAD, StitchedBy, Thickness, ThreadWishes
from piecewright.finishing.weight import Weights
from piecewright.measure.length import Length, Unit


@dataclass(frozen=True)
class FinishWishes:
    """How one wants a quilt finished.

    `backs` are the cloths that the back may be made of; where there are none it is the workroom's usual
    width. `leftovers` asks for a back pieced from what is left. `edge_cloth` is the key of the cloth of the
    binding or facing, `edge_width` its usable width (the workroom's where None). `drawn_in` and `washing`
    (across, along) are shares.
    """

    quilting: Quilting = field(default_factory=Quilting)
    back: BackingWishes = field(default_factory=BackingWishes)
    backs: tuple[BackingCloth, ...] = ()
    leftovers: bool = False
    batting: BattingWishes = field(default_factory=BattingWishes)
    edge: EdgeKind = "binding"
    edge_cloth: str = "binding"
    edge_width: Length | None = None
    binding: BindingWishes = field(default_factory=BindingWishes)
    hemmed_by: StitchedBy = "hand"
    hanging: HangingWishes = field(default_factory=HangingWishes)
    thread: ThreadWishes = field(default_factory=lambda: THREAD["in"])
    thickness: Thickness = field(default_factory=Thickness)
    pace: FinishingPace = field(default_factory=FinishingPace)
    weights: Weights = field(default_factory=Weights)
    drawn_in: float = DRAWN_IN
    washing: tuple[float, float] = (WASHED, WASHED)

    def margin(self, unit: Unit) -> Length:
        """How far the back reaches beyond the top on every side."""
        return self.quilting.margin(unit) if self.back.margin is None else self.back.margin

    def batting_margin(self, unit: Unit) -> Length:
        """How far the batting does."""
        return self.margin(unit) if self.batting.margin is None else self.batting.margin


def usual_wishes(unit: Unit) -> FinishWishes:
    """The wishes of someone who has said nothing yet, for inches or centimetres."""
    if unit == "in":
        return FinishWishes()
    return FinishWishes(quilting=Quilting(apart=USUAL_APART_CM), thread=THREAD["cm"])
