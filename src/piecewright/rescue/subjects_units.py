"""Units as subjects: what every way of the registry starts from, solved for on the bench.

Nothing is remembered here: a way's start is solved for, and what a start truly makes is tried out.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache

from piecewright.geometry.point import distance
from piecewright.geometry.polygon import Polygon, edges, grown
from piecewright.measure.length import Length, inches
from piecewright.measure.tolerance import WELD
from piecewright.methods import methods_for
from piecewright.methods.method import Method, Unit
from piecewright.methods.trial import solve, try_out
from piecewright.problems import Refused
from piecewright.rescue.even_line import EvenLine, line_of
from piecewright.rescue.rule import IMPLIED
from piecewright.rescue.subject import Case, Needed, Quantity, Reading, Subject
from piecewright.workroom.workroom import Workroom

BENCH = "the virtual bench, on which the unit is made and measured"
SPAN = (inches("1/2"), inches(24))

WHY = {
    (
        "hst",
        "one at a time",
    ): "The squares are as large as the unfinished unit: its seam lies inside.",
    ("hst", "two at a time"): (
        "The cut runs from corner to corner and each half gives a seam along it, slantwise to the sides: "
        "a diagonal seam takes more from a side than a straight one."
    ),
    ("hst", "from cut triangles"): (
        "The seam lies along the diagonal, slantwise to the sides: it takes more from a side than a "
        "straight one."
    ),
    ("hst", "four at a time"): (
        "The seam goes round the edge first and takes the same from a small square as from a large one; "
        "a unit is what is left, cut on both diagonals, so its side is that divided by the root of 2."
    ),
    ("hst", "eight at a time"): (
        "The square is first halved both ways, then each quarter gives a seam on its diagonal."
    ),
    ("hourglass", "two at a time"): "Two seams cross on the diagonals, and each takes its share of a side.",
    ("geese", "four at a time"): (
        "The cuts run on the diagonals, so that the seams are slantwise: all pieces need more than with the "
        "straight seams of squares that are flipped over a corner."
    ),
    ("geese", "stitch and flip"): "Only straight seams lie at the edges, so two allowances are all they add.",
}

AS_MADE = "So it comes out on the bench, made and measured with these seams."

SIZE = Quantity("the size", (IMPLIED,), seams=2)
WIDTH = Quantity("the width", ("width", "W", "long side", "length", "l"), seams=2)
HEIGHT = Quantity("the height", ("height", "H", "short side"), seams=2)


def square_unit(kind: str, name: str, also: tuple[str, ...], more: tuple[Reading, ...] = ()) -> Subject:
    """A unit with equal sides: `more` are readings for ways that have no file yet."""
    readings = _all_readings(kind, 1, lambda case: case * 2)
    known = {reading.way for reading in readings}
    return Subject(
        name=name,
        title=also[1],
        also=also,
        gives="what to cut for it",
        given=(SIZE,),
        readings=(*readings, *(reading for reading in more if reading.way not in known)),
        sense="cut",
        examples={
            "in": ("1", "1 1/2", "2", "2 1/2", "3", "4", "6", "9", "12"),
            "cm": ("2.5", "4", "5", "6", "7.5", "10", "15", "20", "30"),
        },
        source=BENCH,
        span=SPAN,
        starts_larger=True,
    )


def geese(more: tuple[Reading, ...]) -> Subject:
    """Flying geese: twice as wide as high; a size alone is the width."""
    readings = _all_readings("geese", 2, lambda case: case)
    known = {reading.way for reading in readings}
    return Subject(
        name="geese",
        title="flying geese",
        also=("goose", "flying geese", "flying goose"),
        gives="what to cut for it",
        given=(WIDTH, HEIGHT),
        readings=(*readings, *(reading for reading in more if reading.way not in known)),
        sense="cut",
        examples={
            "in": ("2 x 1", "3 x 1 1/2", "4 x 2", "5 x 2 1/2", "6 x 3", "8 x 4", "12 x 6"),
            "cm": ("5 x 2.5", "8 x 4", "10 x 5", "12 x 6", "15 x 7.5", "20 x 10"),
        },
        source=BENCH,
        span=SPAN,
        case_of=lambda case: (case[0], case[0] / 2),
        starts_larger=True,
    )


def _all_readings(kind: str, given: int, whole: Callable[[Case], Case]) -> tuple[Reading, ...]:
    """The readings of all ways; a way that is only cut larger and trimmed is the same rule, then trimmed."""
    methods = [method for method in methods_for(kind) if not method.oversize]
    return tuple(reading for method in methods for reading in _readings(method, given, whole))


def _readings(method: Method, given: int, whole: Callable[[Case], Case]) -> list[Reading]:
    """A reading for every start size of a method; `whole` makes width and height of a case of `given`."""
    count = 1 + max(max(start.width, start.height) for start in method.starts)
    larger = [m for m in methods_for(method.kind) if m.oversize and m.name.startswith(method.name)]
    why = WHY.get((method.kind, method.name), AS_MADE)

    def reading(number: int) -> Reading:
        def needed(case: Case, room: Workroom) -> float:
            return _start(method, whole(case), room)[number]

        def made(size: float, case: Case, room: Workroom) -> float | None:
            return _unit_from(method, size, whole(case), room)

        def reaches(room: Workroom) -> float:
            return _reach(method, room)

        only = count == 1
        return Reading(
            way=method.name,
            part=_part(method, number, count),
            needed=needed,
            why=why,
            made=made if only else None,
            reaches=reaches if only else None,
            exact=not only and not method.may_round,
            may_trim=bool(larger),
            own=min(number, given - 1),
        )

    return [reading(number) for number in range(count)]


def _part(method: Method, number: int, count: int) -> str:
    """Which piece a start size is of: `the square`, `the small squares`, `the width of the rectangle`."""
    here = [start for start in method.starts if number in (start.width, start.height)]
    squares = [start for start in here if start.width == start.height]
    if squares:
        several = "squares" if sum(start.count for start in squares) > 1 else "square"
        return f"the {('large ', 'small ')[min(number, 1)] if count > 1 else ''}{several}"
    side = "width" if here[0].width == number else "height"
    return f"the {side} of the rectangle"


def _unit(method: Method, case: Case) -> Unit:
    width, height = (Length(side) for side in case[:2])
    return Unit(method.kind, ("first", "second"), width, height)


def _start(method: Method, case: Case, room: Workroom) -> tuple[float, ...]:
    """The exact start sizes for a case: along their lines, or solved for where they do not grow evenly."""
    lines = _lines(method, case[1] / case[0], room)
    if lines is None:
        return _solved(method, case, room)
    return tuple(line(float(case[0])) for line in lines)


@lru_cache(maxsize=256)
def _lines(method: Method, height: Fraction, room: Workroom) -> tuple[EvenLine, ...] | None:
    """The start sizes as they grow with the width, the height so much of it; None where not evenly."""

    def solved(number: int) -> EvenLine | None:
        def start(width: float) -> float:
            exact = Fraction(width)
            return _solved(method, (exact, exact * height), room)[number]

        return line_of(start, float(SPAN[0]), float(SPAN[1]))

    count = len(_solved(method, (SPAN[0].exact, SPAN[0].exact * height), room))
    lines = [line for number in range(count) if (line := solved(number)) is not None]
    return tuple(lines) if len(lines) == count else None


@lru_cache(maxsize=1024)
def _solved(method: Method, case: Case, room: Workroom) -> tuple[float, ...]:
    return solve(method, _unit(method, case), room)


@lru_cache(maxsize=8192)
def _unit_from(method: Method, size: float, case: Case, room: Workroom) -> float | None:
    """The raw unit that comes of a start, None where none comes off."""
    try:
        return min(try_out(method, _unit(method, case), (size,), room).size)
    except (Refused, ValueError):
        return None


@lru_cache(maxsize=256)
def _reach(method: Method, room: Workroom) -> float:
    """How much larger the unit is for an inch more of the start: it grows evenly."""
    case = (Fraction(4), Fraction(4))
    (size,) = _start(method, case, room)
    larger = _unit_from(method, size + 1, case, room)
    assert larger is not None
    return larger - 4 - 2 * float(room.take_up)


def grown_edge(outline: Polygon, edge: int, room: Workroom) -> float:
    """How long an edge of a patch is cut: an edge between angles a and b grows by s(cot a/2 + cot b/2).

    >>> round(grown_edge(((0, 0), (3, 0), (0, 4)), 2, Workroom()), 6)
    5.0
    """
    larger = grown(outline, float(room.take_up))
    a, b = edges(outline)[edge]
    along = (b[0] - a[0], b[1] - a[1])
    same = [
        (p, q)
        for p, q in edges(larger)
        if abs(along[0] * (q[1] - p[1]) - along[1] * (q[0] - p[0])) < WELD * distance(a, b) * distance(p, q)
        and along[0] * (q[0] - p[0]) + along[1] * (q[1] - p[1]) > 0
    ]
    return distance(*same[0])


def long_side(of: Callable[[Case], float]) -> Needed:
    """The cut long side of a right triangle with equal legs whose finished long side is given by the case."""

    def needed(case: Case, room: Workroom) -> float:
        side = of(case)
        return grown_edge(((0.0, 0.0), (side, 0.0), (side / 2, side / 2)), 0, room)

    return needed


def leg(of: Callable[[Case], float]) -> Needed:
    """The cut leg of a right triangle with equal legs whose finished leg is given by the case."""

    def needed(case: Case, room: Workroom) -> float:
        side = of(case)
        return grown_edge(((0.0, 0.0), (side, 0.0), (0.0, side)), 0, room)

    return needed
