"""The sheet for a section of a foundation: mirrored, numbered, with the seam allowance round it.

Terms:
- *foundation*: paper or cloth that patches are sewn onto, along the lines printed on it;
- *section*: what is made on one piece of foundation, patch after patch in the order of the *numbers*;
- *number part*: a patch of it with its number.

The cloth lies on the back of the printed side, so all is printed mirrored; numbers and words are not.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from piecewright.drawing.inside import roomiest
from piecewright.drawing.true_scale import Points, SheetLine, SheetWords, TrueShape, TrueSheet, closed
from piecewright.drawing.writing import text_width
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.polygon import Polygon, grown
from piecewright.problems import Problem, Refused

USE = (
    "Lay the cloth under the paper, the printed side of the paper towards you, and sew on the lines in the "
    "order of the numbers."
)
NOTES = (
    "Printed mirrored: what is on the left here is on the right in the quilt.",
    "Short stitches, begun and ended a little beyond each line; a dry iron on the cloth, never on the ink.",
    "When the last number is on, cut on the outer line; tear the paper off when the neighbours are sewn on.",
)

MIRRORED = Isometry(-1.0, 0.0, 0.0, 0.0, True)
"""What is on the left comes to lie on the right."""

NUMBER = (0.3, 0.09)
WORDS = (0.12, 0.075)
"""The largest and the smallest height of a number, and of the words under it, in inches."""

DOTTED = "finished edge"


@dataclass(frozen=True)
class NumberPart:
    """A patch of a section: its number, its net outline (inches) and words on it, such as its fabric."""

    number: str
    outline: Polygon
    words: str = ""


def foundation(
    net: Polygon,
    parts: Sequence[NumberPart],
    seams: Sequence[Points],
    take_up: float,
    name: str,
    *,
    count: int = 1,
    caption: str = "",
) -> TrueShape:
    """A section as it is printed, from its net outline, its patches and its seam lines, all as drawn.

    Raises Refused for a section without an inside.
    """
    raw = grown(net, take_up)
    if len(net) < 3 or len(raw) < 3:
        raise Refused(Problem(f"{name}: an outline with an inside was expected"))
    lines = (
        closed("cut", raw, "cut here when all is sewn"),
        closed("mark", net, DOTTED),
        *(SheetLine("sew", tuple(seam)) for seam in seams),
    )
    words = tuple(words for part in parts for words in _words(part))
    told = caption or f"{name}{f', {count} of them' if count > 1 else ''}"
    return TrueShape(name, lines, raw, words, None, count, told).placed(MIRRORED)


def foundation_sheet(title: str, sections: tuple[TrueShape, ...]) -> TrueSheet:
    """The sections of a block or unit, on one sheet."""
    return TrueSheet(title, USE, NOTES, sections)


def _words(part: NumberPart) -> list[SheetWords]:
    """The number where its patch is widest, with the words under it where they have room."""
    (x, y), radius = roomiest(part.outline)
    high = max(min(NUMBER[0], radius * 0.8), NUMBER[1])
    number = SheetWords((x, y), part.number, high, strong=True)
    if not part.words:
        return [number]
    low = min(WORDS[0], 1.8 * radius * 0.94 / text_width(part.words, 1.0))
    if low < WORDS[1] or high + 1.3 * low > 1.8 * radius:
        return [number]
    return [
        SheetWords((x, y + 0.65 * low), part.number, high, strong=True),
        SheetWords((x, y - high / 2 - 0.2 * low), part.words, low),
    ]
