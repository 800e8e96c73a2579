"""What is left of cut cloth and worth keeping: rectangles that are wide enough to cut from again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from piecewright.cutting.given.layout import CutGiven, Leftover
from piecewright.cutting.layout import Layout
from piecewright.cutting.wanted import Supply
from piecewright.measure.length import ZERO, Length, inches

# Narrower rests are no use but as stuffing; common practice, no source.
WORTH_KEEPING = inches("2 1/2")


def leftovers(
    cut: Iterable[CutGiven], bought: Layout | None, supply: Supply | None, least: Length = WORTH_KEEPING
) -> tuple[Leftover, ...]:
    """All rests at least `least` both ways, equal ones counted together, the largest first."""
    rests = [rest for given in cut for rest in _rests(given)]
    if bought is not None and supply is not None and bought.patterns:
        rests += _bolt_rests(bought, supply)
    counted: dict[tuple[str, Length, Length], int] = {}
    for rest in rests:
        if min(rest.width, rest.height) >= least:
            key = (rest.fabric, rest.width, rest.height)
            counted[key] = counted.get(key, 0) + rest.count
    kept = [Leftover(*key, count) for key, count in counted.items()]
    return tuple(sorted(kept, key=lambda rest: (-rest.width.exact * rest.height.exact, rest.fabric)))


def _rests(cut: CutGiven) -> Iterator[Leftover]:
    """Beside the strips, at the end of each, and above its stacks; as the cloth lies."""
    rests = [(cut.strip_length, cut.room - cut.filled, cut.times)]
    rests += [
        (cut.strip_length - pattern.across, pattern.strip_height, cut.times * pattern.times)
        for pattern in cut.patterns
    ]
    rests += [
        (
            section.width,
            pattern.strip_height - section.stack_height,
            cut.times * pattern.times * section.count,
        )
        for pattern in cut.patterns
        for section in pattern.sections
    ]
    for length, height, count in rests:
        sides = (height, length) if cut.along else (length, height)
        yield Leftover(cut.fabric, *sides, count)


def _bolt_rests(bought: Layout, supply: Supply) -> Iterator[Leftover]:
    """The end of what is bought, after washing, and the ends of the strips."""
    rest = bought.buy * supply.share_left - supply.straightening - bought.length
    yield Leftover(bought.key, bought.usable_width, max(rest, ZERO))
    for pattern in bought.patterns:
        width = bought.usable_width - pattern.across
        yield Leftover(bought.key, width, pattern.strip_height, pattern.times)
        for section in pattern.sections:
            trim = pattern.strip_height - section.stack_height
            yield Leftover(bought.key, section.width, trim, pattern.times * section.count)
