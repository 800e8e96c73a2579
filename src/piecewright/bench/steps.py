"""The steps of a plan: a tagged union, one line of text each.

A step says what it takes from the table, what it gives, how many times, the geometry of one operation,
and the size to expect. It knows no drawing and no place in the quilt. Names are names of *piles*: things
that are alike. How many things a step yields is found by the bench, never written here.

Sizes are `Length` where a ruler is laid; places are float inches in the frame of the cloth worked on.
"""

from __future__ import annotations

from typing import Literal

import msgspec

from piecewright.bench.cloth import Towards
from piecewright.geometry.isometry import Isometry, cos_of, sin_of
from piecewright.measure.length import Length

Size = tuple[float, float]


class Step(msgspec.Struct, frozen=True, kw_only=True, tag_field="do", omit_defaults=True):
    """One step; see its kinds below."""


class CutStrips(Step, frozen=True, kw_only=True, tag="cut strips"):
    """Cuts `count` strips of a height across the whole usable width of a fabric."""

    fabric: str
    height: Length
    count: int
    gives: str


class Section(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """Part of a strip: `count` crosscuts of a width, each subcut into `stack` pieces of a height.

    Width and height are as the piece lies on the strip; one that is `turned` is named lying on its side.
    """

    gives: str
    width: Length
    height: Length
    count: int
    stack: int = 1
    turned: bool = False


class Subcut(Step, frozen=True, kw_only=True, tag="subcut"):
    """Cuts `times` strips of a pile into sections, from the left; what remains is an offcut."""

    takes: str
    sections: tuple[Section, ...]
    times: int


Beside = Literal["on", "needle left", "needle right", "hair left", "hair right", "seam left", "seam right"]


class Ruled(msgspec.Struct, frozen=True, array_like=True):
    """A line that is sewn or cut, told from a marked line that runs from (x, y) to (to_x, to_y).

    `beside` "on" is the marked line itself; "needle left" the needle's distance to its left; "hair left" a
    hair to its left, so that the fold comes to lie on the line; "seam left" a whole take-up to its left.
    """

    x: float
    y: float
    to_x: float
    to_y: float
    beside: Beside = "on"


class Lay(msgspec.Struct, frozen=True, array_like=True):
    """A cloth laid face down: mirrored in its own x axis, turned by degrees, then moved by (x, y)."""

    name: str
    turn: float
    x: float
    y: float

    @property
    def place(self) -> Isometry:
        """The isometry of the lying cloth."""
        return Isometry(cos_of(self.turn), sin_of(self.turn), self.x, self.y, True)


class CutApart(Step, frozen=True, kw_only=True, tag="cut apart"):
    """Cuts one cloth along endless lines.

    The parts are named in order of their centres, lowest first, then left-most; one name serves for
    all; the name "" is an offcut.
    """

    takes: str
    cut: tuple[Ruled, ...]
    gives: tuple[str, ...]
    times: int


class CutOut(Step, frozen=True, kw_only=True, tag="cut out"):
    """Cuts one outline out of every cloth taken, as round a template or a printed foundation.

    The outline is in the cloth's own frame; out of a sewn cloth it is convex. What is left is an offcut.
    """

    takes: str
    outline: tuple[tuple[float, float], ...]
    gives: str
    times: int


class Stack(Step, frozen=True, kw_only=True, tag="stack"):
    """Stack, sew, cut, open: cloths laid face down on a base, sewn along lines, cut along lines, opened.

    Each sewn part opens about its own longest line of stitching; of the base the deeper side stays. The
    opened parts are named as in `CutApart`; loose parts are offcuts. `expect` is the raw size of each; a
    method leaves it out while its sizes are still sought.
    """

    base: str
    tops: tuple[Lay, ...]
    sew: tuple[Ruled, ...]
    cut: tuple[Ruled, ...]
    gives: tuple[str, ...]
    times: int
    expect: Size | None = None


class Pressing(msgspec.Struct, frozen=True, array_like=True):
    """How the seams of one name are pressed: one entry for each segment, or one for all."""

    seam: str
    towards: tuple[Towards, ...]


class SideChange(msgspec.Struct, frozen=True, array_like=True):
    """Where a seam changes side: inches from its start, along its path.

    Seams of both its cloths come out there, and all go round one way with it: the few stitches of theirs in
    its allowance are picked out, and the middle opens into a little square.
    """

    seam: str
    at: float


class Press(Step, frozen=True, kw_only=True, tag="press"):
    """Presses every unpressed seam of every cloth in a pile.

    A seam that `changes` side has one entry more of `towards` for each place.
    """

    pile: str
    seams: tuple[Pressing, ...]
    changes: tuple[SideChange, ...] = ()


Landmark = Literal["edges", "base", "diagonal", "finished corners", "centre", "point", "square"]


class TrueUp(Step, frozen=True, kw_only=True, tag="true up"):
    """Brings every cloth in a pile to its exact size, measured from a landmark.

    "diagonal": the seam runs through two corners; "centre": seams cross in the middle and run through the
    corners; "point": the point lies one take-up below the upper edge, in the middle; "edges": the middle;
    "base": the middle of the piece that corners were sewn over; "finished corners": the seam runs through
    two corners of the finished size; "square": four points lie one take-up inside the edges, in the middle.
    `by` "trim" cuts the excess off; "ease" leaves it, which a little excess only allows.
    """

    pile: str
    landmark: Landmark
    width: Length
    height: Length
    by: Literal["trim", "ease"]


class Gather(Step, frozen=True, kw_only=True, tag="gather"):
    """Puts things that look alike on one pile for good, though some are pressed the other way round.

    All that lies on the piles that it `takes` goes there as well.
    """

    pile: str
    takes: tuple[str, ...] = ()


class JoinPart(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """`count` cloths of a pile in a row of joins.

    `entry` are the sides that are sewn to the one before, `exit` those that are sewn to the next: side
    numbers, consecutive counter-clockwise; several make a path with corners, sewn from dot to dot.
    """

    name: str
    entry: tuple[int, ...] = ()
    exit: tuple[int, ...] = ()
    count: int = 1


Flush = Literal["start", "end", "corner"]


class PartSewn(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """A seam that is not sewn on the whole of both sides: in part, or to a dot where one side goes on.

    From and to, inches from the start dot of the first cloth's sides. `flush` tells which ends lie together
    where the sides differ in length: those at the "start" or the "end" of the first cloth's side; of a path
    with corners the "corner"s do. Where no ends lie together, `beyond` is how far the second cloth goes on
    beyond the dot that is named; less than nothing where its end lies at a mark inside.
    """

    start: float
    stop: float
    flush: Flush = "start"
    beyond: float = 0.0


class Join(Step, frozen=True, kw_only=True, tag="join"):
    """Joins cloths one after another, raw edges together; the result lies as its first cloth lies.

    `expect` is the raw size of the result; `nests` the number of places where seams meet at these joins
    pressed in opposite directions, `clashes` those where they do not.
    """

    parts: tuple[JoinPart, ...]
    gives: str
    times: int
    expect: Size | None = None
    nests: int = 0
    clashes: int = 0
    part_sewn: PartSewn | None = None


class Close(Step, frozen=True, kw_only=True, tag="close"):
    """Sews two neighbouring sides of the same cloth together, for every cloth in a pile.

    `nests` and `clashes` count the places where seams meet on it, as in `Join`.
    """

    pile: str
    sides: tuple[int, int]
    nests: int = 0
    clashes: int = 0


class JoinEnds(Step, frozen=True, kw_only=True, tag="join ends"):
    """Joins `count` strips of a pile end to end with slanted seams, each of which costs a strip's width."""

    takes: str
    count: int
    gives: str
    times: int
    expect: Size


AnyStep = CutStrips | Subcut | CutApart | CutOut | Stack | Press | TrueUp | Gather | Join | Close | JoinEnds
