"""What a rule may mean: which way, which piece, finished or unfinished sizes.

Terms:
- *meaning*: whether a bare size in the rule is the finished or the unfinished one.
"""

from __future__ import annotations

from piecewright.measure.number import shortened
from piecewright.problems import Problem, Refused
from piecewright.rescue.hearsay_cases import Asked, size_first
from piecewright.rescue.rule import Rule, read_rule
from piecewright.rescue.subject import Meaning, Reading, Subject, main_names, vocabulary
from piecewright.toml_places import did_you_mean
from piecewright.workroom.workroom import Workroom

DIGITS = {"1": "one", "2": "two", "3": "three", "4": "four", "8": "eight"}
Meant = tuple[Meaning, Meaning | None]
MEANINGS: tuple[Meaning, ...] = ("finished", "unfinished")


def asked_of(
    subject: Subject,
    text: str,
    room: Workroom,
    way: str | None,
    means: Meaning | None,
    trimmed: bool | None,
    sizes: str | None,
) -> tuple[Asked, ...]:
    """All that a rule may mean, one for each reading and meaning; at least one.

    Raises Refused for what cannot be read or contradicts itself.
    """
    rule = read_rule(text, vocabulary(subject), room.unit, main_names(subject))
    if rule.trims and trimmed is False:
        what = "the rule says to trim, and --not-trimmed says not to."
        raise Refused(Problem(what, "rule", "Leave one of them out."))
    if rule.pairs and sizes:
        raise Refused(Problem("printed pairs have their sizes already.", "--for", "Leave it out."))
    trimmed = True if rule.trims else trimmed
    pieces = _pieces_of(subject, rule, way)
    if rule.sums and not all(one.names() for one in rule.sums):
        what = "a rule names the size that it is for, this one is only a number."
        do = "Write it as finished + 7/8, or printed sizes as 4 -> 2 1/2."
        raise Refused(Problem(what, "rule", do))
    found = []
    for reading, part in pieces:
        for meaning, shown in _meanings(subject, rule, part, reading, means):
            found.append(Asked(subject, rule, reading, part, meaning, shown, trimmed, sizes))
    return tuple(found)


def way_named(subject: Subject, way: str) -> str:
    """The way of a name, its number perhaps in digits; raises Refused where there is none.

    >>> from piecewright.rescue.subjects import subject_named
    >>> way_named(subject_named("hst"), "4 at a time"), way_named(subject_named("hst"), "eight")
    ('four at a time', 'eight at a time')
    """
    words = [DIGITS.get(word, word) for word in way.lower().split()]
    plain = " ".join(words)
    if plain in subject.ways:
        return plain
    like = [known for known in subject.ways if plain and known.startswith(plain)]
    if len(like) == 1:
        return like[0]
    if not subject.ways:
        raise Refused(Problem(f"{subject.name} has only one way.", "--way", "Leave it out."))
    do = did_you_mean(way, subject.ways)
    raise Refused(Problem(f"{subject.name} has no way {shortened(way)}.", "--way", do))


def _pieces_of(subject: Subject, rule: Rule, way: str | None) -> list[tuple[Reading, int]]:
    """The readings that a rule may be for, each with the number of the sum that is for it."""
    wanted = way_named(subject, way) if way is not None else None
    readings = [r for r in subject.readings if wanted is None or r.way == wanted]
    count = len(rule.sums) or max(len(size_first(pair, subject)[1]) for pair in rule.pairs)
    if count == 1:
        explicit = {
            known.number
            for name in rule.names
            if (known := vocabulary(subject)[name]).number is not None and known.quantity
        }
        named = [r for r in readings if r.own in explicit]
        return [(reading, 0) for reading in named or readings]
    several = [r for r in readings if sum(other.way == r.way for other in readings) == count]
    if not several:
        parts = max(sum(other.way == r.way for other in readings) for r in readings)
        what = f"expected {parts} sum{'' if parts == 1 else 's'} for {subject.name}, got {count}."
        raise Refused(Problem(what, "rule", "Write a point, not a comma, in 2.5."))
    ways = [[r for r in several if r.way == known] for known in dict.fromkeys(r.way for r in several)]
    return [(reading, number) for group in ways for number, reading in enumerate(group)]


def _meanings(
    subject: Subject, rule: Rule, part: int, reading: Reading, means: Meaning | None
) -> list[Meant]:
    """How sizes may be meant, each with what is said of it (None where it makes no difference)."""
    if not subject.differs:
        return [("finished", None)]
    asked: list[Meant] = [(means, means)] if means else [(meaning, meaning) for meaning in MEANINGS]
    if rule.pairs:
        return asked
    known = vocabulary(subject)
    names = [known[name] for name in rule.sums[part].names()]
    sized = [name for name in names if (name.quantity or subject.given[reading.own]).seams]
    told: set[Meaning] = {name.tells for name in sized if name.tells}
    if means and told - {means}:
        what = f"the rule says {', '.join(sorted(told))}, and --means says {means}."
        raise Refused(Problem(what, "rule", "Leave one of them out."))
    if any(name.tells is None for name in sized):
        return asked
    if len(told) == 1:
        (only,) = told
        return [(only, only)]
    return [("finished", "finished" if told else None)]
