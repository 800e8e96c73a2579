"""To which side a seam is pressed, in words: by the cloth that is on that side, never by left and right."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby

from piecewright.bench.cloth import Cloth, Pressed, Seam, Towards
from piecewright.planning.job import Job
from piecewright.planning.things import Joined
from piecewright.pressing.beyond import is_beside
from piecewright.sewing.stations import Station

MOST_FABRICS = 2
CHANGES = "round the middle, changing side there"


def towards_words(job: Job, stage: Sequence[Joined], letters: Mapping[str, str] | None = None) -> str:
    """Towards what the seams of a stage are pressed, in the order of sewing; those of a ring by number.

    Where fabrics do not tell, the parts do, by their `letters` if they have any.
    """
    told = [words for thing in stage for words in _own_words(job, thing, letters or {})]
    if stage[-1].how == "ring" and len(told) > 1:
        return ", ".join(f"{number} {words}" for number, words in enumerate(told, 1))
    return in_turn(told)


def _own_words(job: Job, thing: Joined, letters: Mapping[str, str]) -> list[str]:
    cloth = job.pressed.get(thing.name, thing.cloth)
    most = MOST_FABRICS if thing.station <= Station.BLOCK else 1
    closing = len(cloth.own_seams) - 1 if thing.closes else -1
    told = []
    for number, seam in enumerate(cloth.own_seams):
        one, two = ("", "") if number == closing else thing.neighbours(number)
        names = letters.get(one, one), letters.get(two, two)
        told.append(_seam_words(cloth, seam, names, most))
    return told


def _seam_words(cloth: Cloth, seam: Seam, names: tuple[str, str], most: int) -> str:
    if len(set(seam.pressed)) > 1:
        return CHANGES
    way: Pressed = seam.pressed[0] if seam.pressed else "either"
    return "either way" if way == "either" else side_words(way, fabrics_beside(cloth, seam), names, most)


def fabrics_beside(cloth: Cloth, seam: Seam) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The fabrics that lie along a seam: of its first cloth, and of its second; each once."""
    first, second = seam.path, seam.path[::-1]
    return (
        tuple(dict.fromkeys(face.fabric for face in cloth.finished if is_beside(face.seen, first))),
        tuple(dict.fromkeys(face.fabric for face in cloth.finished if is_beside(face.seen, second))),
    )


def side_words(
    towards: Towards,
    fabrics: tuple[Sequence[str], Sequence[str]],
    names: tuple[str, str],
    most: int = MOST_FABRICS,
) -> str:
    """Towards what a seam is pressed: a fabric of that side alone, else the name of what lies there.

    Fabrics are named where no more than `most` lie on the side.


    >>> side_words("second", (("sail",), ("sea",)), ("sail square", "sea square"))
    'to the sea'
    >>> side_words("first", (("sail", "sea"), ("sea", "sail")), ("Weir", "Net loft"))
    'to Weir'
    >>> side_words("first", (("sail",), ("sea", "sail")), ("sail square", "Net loft"))
    'away from the sea'
    >>> side_words("first", (("sail",), ("sea", "sail", "net")), ("sail square", "Net loft"))
    'to the plain sail'
    """
    if towards == "open":
        return "open"
    to, other = (0, 1) if towards == "first" else (1, 0)
    only = [fabric for fabric in fabrics[to] if fabric not in fabrics[other]]
    if only and len(fabrics[to]) <= most:
        return f"to the {' and the '.join(only)}"
    elsewhere = [fabric for fabric in fabrics[other] if fabric not in fabrics[to]]
    if not only and elsewhere and len(fabrics[other]) <= most:
        return f"away from the {' and the '.join(elsewhere)}"
    if len(fabrics[to]) == 1 < len(fabrics[other]):
        return f"to the plain {fabrics[to][0]}"
    if names[to] != names[other]:
        return f"to {names[to]}"
    return "back to the one before" if towards == "first" else "on to the next one"


def in_turn(words: Sequence[str]) -> str:
    """Words in their order; what repeats to the end is written once.

    >>> in_turn(["to Weir", "open", "open"])
    'to Weir, open (2)'
    >>> in_turn(["to Weir", "open", "to Weir", "open", "to Weir"])
    'to Weir, open, and so on in turn (5 in all)'
    """
    if len(words) > 1 and len(set(words)) == 1:
        return f"{words[0]}, all {len(words)}"
    for period in range(2, len(words) // 2 + 1):
        if all(word == words[k % period] for k, word in enumerate(words)):
            return f"{', '.join(words[:period])}, and so on in turn ({len(words)} in all)"
    runs = [(word, len(list(same))) for word, same in groupby(words)]
    return ", ".join(word if count == 1 else f"{word} ({count})" for word, count in runs)
