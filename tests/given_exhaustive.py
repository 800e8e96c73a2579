"""Every way to cut small given pieces, tried out: an oracle that shares nothing with the search.

Strips across or along, crosscut into sections of equal stacks: what one piece of cloth can give is a set of
counts, found by trying everything; how few pieces of cloth are enough, by going through all sums of these.
"""

from __future__ import annotations

from functools import cache

Size = tuple[int, int, bool]
Counts = tuple[int, ...]


def fewest_cloths(width: int, height: int, sizes: list[Size], counts: Counts, most: int = 12) -> int | None:
    """The fewest equal pieces of cloth that give all counts; None where `most` are not enough."""
    gives = _maximal(_from_one(width, height, tuple(sizes), counts))
    reached = {tuple(0 for _ in counts)}
    for number in range(most + 1):
        if counts in reached:
            return number
        reached = {_added(one, other, counts) for one in reached for other in gives}
    return None


def _from_one(width: int, height: int, sizes: tuple[Size, ...], counts: Counts) -> set[Counts]:
    across = [(k, w, h) for k, (w, h, _) in enumerate(sizes)]
    across += [(k, h, w) for k, (w, h, turns) in enumerate(sizes) if turns]
    along = [(k, h, w) for k, w, h in across]
    return _stacked(width, height, tuple(across), counts) | _stacked(height, width, tuple(along), counts)


def _stacked(length: int, room: int, ways: tuple[tuple[int, int, int], ...], counts: Counts) -> set[Counts]:
    """All counts that strips of one length give within a room."""
    heights = {h * stack for _, _, h in ways for stack in range(1, room // h + 1)}
    strips = {h: _maximal(_strip(length, h, ways, counts)) for h in heights}

    @cache
    def fill(left: int) -> frozenset[Counts]:
        found = {tuple(0 for _ in counts)}
        for h, options in strips.items():
            if h <= left:
                found |= {_added(one, other, counts) for one in options for other in fill(left - h)}
        return frozenset(_maximal(found))

    return set(fill(room))


def _strip(
    length: int, strip_height: int, ways: tuple[tuple[int, int, int], ...], counts: Counts
) -> set[Counts]:
    @cache
    def fill(left: int) -> frozenset[Counts]:
        found = {tuple(0 for _ in counts)}
        for k, w, h in ways:
            if w <= left and h <= strip_height:
                section = tuple(strip_height // h if j == k else 0 for j in range(len(counts)))
                found |= {_added(section, other, counts) for other in fill(left - w)}
        return frozenset(_maximal(found))

    return set(fill(length))


def _added(one: Counts, other: Counts, most: Counts) -> Counts:
    return tuple(min(a + b, m) for a, b, m in zip(one, other, most, strict=True))


def _maximal(found: set[Counts]) -> set[Counts]:
    return {
        one
        for one in found
        if not any(other != one and all(a <= b for a, b in zip(one, other, strict=True)) for other in found)
    }
