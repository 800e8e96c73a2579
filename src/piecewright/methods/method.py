"""What a method is: one way to make a unit, written as bench steps for any start size.

Terms:
- *unit*: what is wanted: its kind, its fabrics in the order that the kind names, its finished size;
- *start*: a piece of cloth that a batch begins with;
- *batch*: one run of the method, which makes `makes` units;
- *besides*: what else comes off a batch: units of the other hand, bonus units from corners;
- *making*: the sizes and the pile names that a method writes its steps for;
- *family*: methods of one kind of working whose number or lines depend on the unit (grids, strips).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from piecewright.bench.cloth import Cloth, SeamSize
from piecewright.bench.steps import AnyStep, Landmark
from piecewright.design.drawing import Group
from piecewright.design.kinds import Form, kind_of
from piecewright.design.kinds.kind import with_article
from piecewright.design.units import draw_unit
from piecewright.geometry.polygon import bounds, grown
from piecewright.measure.length import ZERO, Length, inches
from piecewright.measure.rounding import exactly
from piecewright.methods.laying import AS_IT_COMES, Laying, laid
from piecewright.problems import Problem, Refused
from piecewright.workroom.workroom import Workroom

LARGEST = inches(360)  # Ten yards a side: no unit is larger, a slip of the keyboard may be.
NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


@dataclass(frozen=True)
class Unit:
    """A unit as wanted: kind, fabrics in the order of its kind, finished width and height.

    `measures` are the further finished lengths of its kind; `hand` is "left" or "right" where it has one.
    """

    kind: str
    fabrics: tuple[str, ...]
    width: Length
    height: Length
    measures: tuple[Length, ...] = ()
    hand: str = ""

    @property
    def form(self) -> Form:
        """What it looks like but for its fabrics, as it is told alone; inches."""
        kind, measures = kind_of(self.kind), tuple(map(float, self.measures))
        hand = self.hand or kind.hands[0]
        size = (float(self.width), float(self.height))
        return Form(*size, kind.facings[0], hand, measures, len(self.fabrics))

    @property
    def drawing(self) -> Group:
        """The unit drawn, finished."""
        form = self.form
        ways = (None,) * len(self.fabrics)
        drawn = draw_unit(
            self.kind, self.fabrics, form.facing, form.width, form.height, ways, form.measures, form.hand
        )
        assert isinstance(drawn, Group)
        return drawn

    @property
    def is_rectangle(self) -> bool:
        """Whether its outline is that of its width and height."""
        x0, y0, x1, y1 = bounds(self.drawing.outline)
        corners = {(x0, y0), (x1, y0), (x1, y1), (x0, y1)}
        return set(self.drawing.outline) == corners

    def raw(self, take_up: Length) -> tuple[Length, Length]:
        """The unfinished size; of a unit that is no rectangle, how wide and high its outline is then."""
        if self.is_rectangle:
            return self.width + take_up * 2, self.height + take_up * 2
        x0, y0, x1, y1 = bounds(grown(self.drawing.outline, float(take_up)))
        return exactly(x1 - x0), exactly(y1 - y0)

    def refuse_nonsense(self) -> None:
        """Raises Refused where there is no such unit: its size, its proportions, its fabrics."""
        kind, size = kind_of(self.kind), f"{self.width} x {self.height}"
        if not all(ZERO < length <= LARGEST for length in (self.width, self.height, *self.measures)):
            raise Refused(
                Problem(
                    f"a unit of finished {size} cannot be made", do=f"Give sizes above 0, up to {LARGEST}."
                )
            )
        if len(self.measures) != len(kind.measures) and not kind.more_measures:
            named = " and ".join(kind.measures) or "nothing"
            what = f"{with_article(kind.name)} needs {named} besides its size, {len(self.measures)} given"
            raise Refused(Problem(what))
        least = len(kind.fabrics)
        if len(self.fabrics) < least or (len(self.fabrics) > least and not kind.more_fabrics):
            wanted = f"{NUMBERS[least]} fabrics were" if least > 1 else "one fabric was"
            raise Refused(Problem(f"{wanted} expected, {len(self.fabrics)} are named"))
        wanted = kind.wanted(self.form)
        if wanted:
            raise Refused(
                Problem(f"expected {with_article(kind.name)} {wanted}, got {size}", do="Change a side.")
            )


@dataclass(frozen=True)
class Start:
    """A rectangle a batch begins with: `count` of the unit's fabric number `fabric`.

    `width` and `height` are numbers of the sizes that are solved for; equal ones make a square.
    """

    fabric: int
    count: int
    width: int = 0
    height: int = 0


@dataclass(frozen=True)
class Besides:
    """What else comes off a batch: `count` things on a pile named after the unit's own with `pile` added.

    `unit` gives what they are (the other hand), or None where that is only found on the bench.
    """

    pile: str
    count: int
    says: str
    unit: Callable[[Unit], Unit] | None = None

    def name(self, gives: str) -> str:
        """The name of its pile."""
        return f"{gives} {self.pile}"


@dataclass(frozen=True)
class Making:
    """What a method writes its steps for: start sizes (inches), pile names, the seam, how many batches."""

    sizes: tuple[float, ...]
    pieces: tuple[str, ...]
    gives: str
    seam: SeamSize
    times: int = 1
    laying: Laying = AS_IT_COMES


Sizes = tuple[float, ...]
Derived = Callable[[Unit, float, float], Sizes]
"""Start sizes from the unit, the take-up, and how much larger than wanted it is to come out (inches)."""


@dataclass(frozen=True)
class Method:
    """One way to make a unit.

    `steps` writes the steps of a batch from its starts to the pressed unit, before truing up. Start sizes
    are solved for on the bench: `unknowns` is how many there are: one, found from the unit's width, or two,
    from width and height; further ones from `features` of the unit made and those `wanted`. Or they are
    `derived` from the patches' own shapes, by the rule that an edge between angles a and b grows by
    s(cot a/2 + cot b/2). `may_round`: start sizes may be rounded up, since truing up or ease follows;
    `oversize`: they are cut so large that truing up always follows. `upright`: every cloth can be laid so
    that a one-way print stands up. `besides` is what else comes off. `reason` is a plain line on why one
    would choose it; `says` tells the steps at the table, a sentence each. `pressed_as_written`: its seams are
    pressed as its steps say; else a plan presses all of a unit's seams one way, whichever nests. `printed`:
    its lines are printed on paper, not marked on cloth. `also_marked`: lines drawn for each batch besides
    those that are sewn beside, such as those of a grid.
    `every_start_turns`: a laying turns every start by quarters, and not the base of a stack alone.
    """

    name: str
    kind: str
    makes: int
    starts: tuple[Start, ...]
    steps: Callable[[Making], tuple[AnyStep, ...]]
    landmark: Landmark
    reason: str
    says: tuple[str, ...]
    unknowns: int = 1
    may_round: bool = True
    upright: bool = False
    oversize: bool = False
    besides: tuple[Besides, ...] = ()
    derived: Derived | None = None
    features: Callable[[Cloth], Sizes] | None = None
    wanted: Callable[[Unit, float], Sizes] | None = None
    pressed_as_written: bool = False
    every_start_turns: bool = False
    printed: bool = False
    also_marked: int = 0

    def written(self, making: Making) -> tuple[AnyStep, ...]:
        """The steps of a batch, with base and tops laid as the making says."""
        sizes = {
            name: (making.sizes[start.width], making.sizes[start.height])
            for name, start in zip(making.pieces, self.starts, strict=True)
        }
        return laid(self.steps(making), making.laying, sizes[making.pieces[0]], sizes)


@dataclass(frozen=True)
class Family:
    """Methods that depend on the unit: `members` gives those that make it in a workroom, perhaps none.

    Asked twice for the same unit it gives the same methods. `kinds` are the kinds it serves.
    """

    name: str
    kinds: tuple[str, ...]
    members: Callable[[Unit, Workroom], tuple[Method, ...]]
