"""How many blocks suit an arrangement, and whether a design has so many.

Terms:
- *repeat*: the smallest part of the arrangement that comes again; whole repeats look finished at every side;
- *take turns*: two different blocks alternate; an odd number of them has the same block in all corners;
- *mirrored*: the turned blocks on both sides of the middle look at one another, as in a barn raising; where
  no block can be its own mirror image the number must be even, so that the middle lies between two blocks.

Even by even for barn raisings and pinwheels of four, odd by odd for blocks that take turns: common practice,
no source; that a quarter turn is never its own mirror image is plane geometry.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from piecewright.design.model import Design
from piecewright.design.settings.kinds import Laid, Setting
from piecewright.problems import Problem

Line = tuple[Laid, ...]

FOUR_TURNS = {0, 90, 180, 270}


@dataclass(frozen=True)
class CountWish:
    """Which counts of blocks suit in one direction: multiples of `step`, or those and `offset` more.

    `why` says it in a sentence for people; it is empty where any count suits.
    """

    step: int = 1
    offset: int = 0
    why: str = ""

    def suits(self, count: int) -> bool:
        """Whether so many blocks suit."""
        return count >= 1 and (count - self.offset) % self.step == 0

    def near(self, count: int) -> tuple[int, ...]:
        """The nearest counts that suit: the count itself, or the next below and above."""
        if self.suits(count):
            return (count,)
        below = next((n for n in range(count, 0, -1) if self.suits(n)), None)
        above = next(n for n in range(max(count, 1), max(count, 1) + 2 * self.step + 1) if self.suits(n))
        return (above,) if below is None else (below, above)

    @property
    def least(self) -> int:
        """The smallest count that suits."""
        return self.near(1)[-1]


ANY_COUNT = CountWish()


def wished_counts(design: Design) -> tuple[CountWish, CountWish]:
    """Which counts suit the arrangement of a design: across and down. Only a straight set has wishes."""
    if type(design.setting) is not Setting:
        return ANY_COUNT, ANY_COUNT
    rows, columns = _laid(design.setting)
    tile_rows, tile_columns = _tile(design.setting)
    return (
        _wish(columns, min(tile_columns, len(columns)), "across", _of_four(design.setting)),
        _wish(rows, min(tile_rows, len(rows)), "down", _of_four(design.setting)),
    )


def kept_wishes(design: Design) -> tuple[CountWish, CountWish]:
    """The same, but none in a direction in which the design itself does not keep to it."""
    across, down = wished_counts(design)
    return (
        across if across.suits(design.setting.across) else ANY_COUNT,
        down if down.suits(design.setting.down) else ANY_COUNT,
    )


def check_parity(design: Design) -> list[Problem]:
    """Notes where the number of blocks does not suit the arrangement, with the nearest counts that do."""
    setting = design.setting
    wishes = wished_counts(design)
    counts = (setting.across, setting.down)
    wrong = [wish for wish, count in zip(wishes, counts, strict=True) if not wish.suits(count)]
    if not wrong:
        return []
    near = [wish.near(count) for wish, count in zip(wishes, counts, strict=True)]
    sizes = dict.fromkeys((across, down) for across in near[0] for down in near[1])
    # The nearest by the number of blocks that come in or go.
    ranked = sorted(sizes, key=lambda size: (abs(size[0] - counts[0]) + abs(size[1] - counts[1]), size))
    good = " or ".join(f"{across} x {down}" for across, down in ranked[:2])
    why = "; ".join(dict.fromkeys(wish.why for wish in wrong))
    what = f"{why}; the quilt has {counts[0]} x {counts[1]}."
    return [Problem(what, do=f"The nearest that suits: {good} blocks.", weight="note")]


def _laid(setting: Setting) -> tuple[list[Line], list[Line]]:
    """The quilt's rows and columns; where it is cut off before a repeat is whole, the whole repeat."""
    tile_rows, tile_columns = _tile(setting)
    down, across = max(setting.down, tile_rows), max(setting.across, tile_columns)
    rows = [tuple(setting.at(row, column) for column in range(across)) for row in range(down)]
    return rows, [tuple(row[column] for row in rows) for column in range(across)]


def _tile(setting: Setting) -> tuple[int, int]:
    return len(setting.arrangement), max(len(row) for row in setting.arrangement)


def _of_four(setting: Setting) -> bool:
    """Whether four turns of one block make a figure: every two by two has all turns."""
    four = [setting.at(row, column) for row in (0, 1) for column in (0, 1)]
    rows, columns = _tile(setting)
    repeats = all(
        setting.at(row, column) == four[2 * (row % 2) + column % 2]
        for row in range(2 * rows)
        for column in range(2 * columns)
    )
    return repeats and len({laid.key for laid in four}) == 1 and {laid.turn for laid in four} == FOUR_TURNS


def _wish(lines: Sequence[Line], tile: int, direction: str, of_four: bool) -> CountWish:
    """The wish in one direction; `lines` are the quilt's rows (or columns), one after another."""
    if _takes_turns(lines):
        why = f"two blocks that take turns have like corners with an odd number {direction}"
        return CountWish(2, 1, why)
    repeat = _repeat(lines, tile)
    if of_four:
        return CountWish(2, 0, f"figures of four turned blocks want an even number {direction}")
    if _mirrored(lines[:repeat]):
        why = f"an arrangement that is mirrored about its middle wants an even number {direction}"
        return CountWish(2, 0, why) if repeat % 2 else CountWish(repeat, 0, why)
    if repeat > 1:
        return CountWish(repeat, 0, f"the arrangement repeats every {repeat} blocks {direction}")
    return ANY_COUNT


def _takes_turns(lines: Sequence[Line]) -> bool:
    """Whether two kinds of line alternate, each of the same one or two blocks in turn."""
    keys = [tuple(laid.key for laid in line) for line in lines]
    if len(keys) < 2 or keys[0] == keys[1]:
        return False
    alternate = all(line == keys[i % 2] for i, line in enumerate(keys))
    return alternate and len({key for line in keys for key in line}) == 2 and _each_alternates(keys)


def _each_alternates(keys: Sequence[tuple[str, ...]]) -> bool:
    """Whether the blocks at one place along the lines differ from line to line everywhere."""
    return all(one != other for one, other in zip(keys[0], keys[1], strict=True))


def _repeat(lines: Sequence[Line], tile: int) -> int:
    """The smallest number of lines after which all come again."""
    for period in range(1, tile):
        if all(lines[i] == lines[i - period] for i in range(period, len(lines))):
            return period
    return tile


def _mirrored(lines: Sequence[Line]) -> bool:
    """Whether the lines mirror one another about the middle in a way that leaves no line in it.

    A mirror turns a block by k - turn. For k of a quarter or three quarters no turn is its own image.
    """
    turns = {laid.turn for line in lines for laid in line}
    if len(lines) < 3 or len(turns) < 2:
        return False
    half = len(lines) // 2
    pairs = [(lines[i], lines[-1 - i]) for i in range(half)]
    return any(all(_mirror_of(one, k) == other for one, other in pairs) for k in (90, 270))


def _mirror_of(line: Line, k: int) -> Line:
    return tuple(Laid(laid.key, (k - laid.turn) % 360) for laid in line)
