"""Which finished sizes suit a unit that is made already, or a square that is cut already.

Terms:
- *as it is*: the finished size of a unit that is sewn in as it came out;
- *trued*: the next size below on the larger marks of the ruler, to which all are trued up alike.
"""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.design.kinds import kind_of
from piecewright.design.kinds.kind import with_article
from piecewright.measure.length import ZERO, Length
from piecewright.measure.rounding import Ruler, exactly, round_down
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.methods import METHODS
from piecewright.methods.method import LARGEST, Method, Unit
from piecewright.methods.trial import try_out
from piecewright.methods.wished import with_larger_marks
from piecewright.problems import Problem, Refused
from piecewright.workroom.workroom import Workroom


@dataclass(frozen=True)
class Suits:
    """The finished side of a unit as it is, and trued (None where nothing is left of it)."""

    as_it_is: Length
    trued: Length | None


@dataclass(frozen=True)
class FromSquare:
    """What a way makes of squares of one size: the raw side that comes off, and the sizes it suits."""

    method: Method
    raw: float
    suits: Suits


def suits(raw: float, workroom: Workroom) -> Suits:
    """The finished sizes for a unit whose raw side measures so many inches; raises Refused for none."""
    finished = raw - 2 * float(workroom.take_up)
    if raw > float(LARGEST):
        raise Refused(Problem(f"expected a unit of up to {LARGEST}, got {raw:g} in"))
    if finished <= EDGE_MATCH:
        what = f"nothing is left of a unit of {raw:g} in once its seams are sewn"
        raise Refused(Problem(what, do="Measure it raw, from edge to edge."))
    marks = with_larger_marks(workroom).ruler
    trued = _below(finished, marks, workroom)
    return Suits(exactly(finished), trued if trued > ZERO else None)


def _below(finished: float, marks: Ruler, workroom: Workroom) -> Length:
    """The largest marked size that is eased in, or leaves enough to trim well."""
    on_mark = round_down(finished + EDGE_MATCH, marks)
    over = finished - float(on_mark)
    while EDGE_MATCH < over < float(workroom.trim) - EDGE_MATCH and over > float(workroom.ease) + EDGE_MATCH:
        on_mark = on_mark - marks.mark
        over = finished - float(on_mark)
    return on_mark


def from_square(kind: str, side: Length, workroom: Workroom) -> tuple[FromSquare, ...]:
    """What each way of a kind makes of squares of one size, in the order of METHODS.

    Only ways that start from squares of a single size. Raises Refused where no way makes a unit of them.
    """
    if not ZERO < side <= LARGEST:
        raise Refused(Problem(f"expected squares above 0, up to {LARGEST}, got {side}."))
    single = [m for m in METHODS if m.kind == kind and m.unknowns == 1 and not m.derived]
    if not single:
        what = f"{with_article(kind_of(kind).name)} does not start from squares of one size"
        raise Refused(Problem(what, do="Compare its ways with all the sizes you have: unit, --from."))
    found = []
    for method in single:
        unit = Unit(kind, ("first", "second"), side, side)
        try:
            raw = min(try_out(method, unit, (float(side),), workroom).size)
            found.append(FromSquare(method, raw, suits(raw, workroom)))
        except Refused:
            continue
    if not found:
        what = f"no {kind_of(kind).name} comes of squares of {side}"
        raise Refused(Problem(what, do="Take larger squares."))
    return tuple(found)
