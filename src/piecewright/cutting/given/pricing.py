"""Which cut piece of cloth is worth most, when every piece of the quilt has a price: two knapsacks.

First the best strip of every height and length (all heights in one sweep, every length read off the same
table), then strips into the room of a piece of cloth (all frames in one sweep): Gilmore and Gomory,
Operations Research 13 (1965), in two levels. Running time: doublings x heights x length in marks, and
doublings x frames x room.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from piecewright.cutting.given.task import Column, Frame, GivenTask
from piecewright.cutting.marks import Cut, Strip, Way
from piecewright.cutting.pricing import Counts, Prices

# More marks than this across or along are priced in cells: sizes rounded up, so that all still fits.
MOST_CELLS = 1300
WORTH_NOTHING = 1e-9


@dataclass(frozen=True, slots=True)
class Strips:
    """For each frame (row) and height (column): the worth of the best strip, and its crosscuts by way."""

    worth: Prices
    crosscuts: Counts


class Side:
    """The pricing of all frames whose strips run one way."""

    def __init__(self, task: GivenTask, along: bool) -> None:
        self.frames = [number for number, frame in enumerate(task.frames) if frame.along == along]
        self.ways: tuple[Way, ...] = task.ways[along]
        self.heights = np.array(task.heights[along], dtype=np.int64)
        frames = [task.frames[number] for number in self.frames]
        self._sizes = len(task.counts)
        self._whole = np.array([task.kinds[frame.kind].whole for frame in frames], dtype=bool)
        self._rooms_in_marks = np.array([frame.room for frame in frames], dtype=np.int64)
        self.exact = True
        self.effort = 0
        if self.ways and frames:
            self._in_cells(frames)

    @property
    def any(self) -> bool:
        """Whether anything can be cut on this side."""
        return bool(self.ways) and bool(self.frames)

    def best_strips(self, prices: Prices, left: Counts, clip: bool) -> Strips:
        """The best strip of every height on every frame; with `clip`, only what is `left` has a worth."""
        doublings = self._doublings(prices, left)
        table = np.zeros((len(self.heights), int(self._lengths.max()) + 1))
        taken = np.zeros((len(doublings), *table.shape), dtype=bool)
        self.effort += len(doublings) * table.size // 1000
        for number, (way, before, times) in enumerate(doublings):
            low, reach, size = self._first[way], self._way_cells[way] * times, self._size_of[way]
            pieces = self.stacks[low:, way] * times
            if clip:
                still = left[size] - self.stacks[low:, way] * before
                pieces = np.minimum(np.maximum(still, 0), pieces)
            here = table[low:, reach:]
            there = table[low:, : table.shape[1] - reach] + (pieces * prices[size])[:, None]
            taken[number, low:, reach:] = there > here
            np.maximum(here, there, out=here)
        worth = table[:, self._lengths].T.copy()
        worth[self.heights[None, :] > self._rooms_in_marks[:, None]] = 0.0
        return Strips(worth, self._traced(doublings, taken))

    def best_stacks(
        self, strips: Strips, most: Counts | None = None, rooms: Counts | None = None
    ) -> tuple[Prices, Counts]:
        """For each frame the worth of its room filled with strips, and how often each height is taken.

        With `most`, a height is taken so often at most on each frame; `rooms` (marks) stand for whole rooms.
        """
        here_rooms = self._rooms if rooms is None else np.minimum(rooms // self._cell, self._rooms)
        doublings = self._height_doublings(strips.worth, most)
        rows = np.arange(len(self.frames))
        table = np.zeros((len(rows), int(self._rooms.max()) + 1))
        taken = np.zeros((len(doublings), *table.shape), dtype=bool)
        self.effort += len(doublings) * table.size // 1000
        for number, (height, before, times) in enumerate(doublings):
            reach = int(self._height_cells[height]) * times
            gain = strips.worth[:, height] * times
            if most is not None:
                gain = np.where(most[:, height] >= before + times, gain, -1.0)
            here = table[:, reach:]
            there = table[:, : table.shape[1] - reach] + gain[:, None]
            taken[number, :, reach:] = there > here
            np.maximum(here, there, out=here)
        often = np.zeros((len(rows), len(self.heights)), dtype=np.int64)
        at = here_rooms.copy()
        for number in range(len(doublings) - 1, -1, -1):
            height, _, times = doublings[number]
            took = taken[number, rows, at]
            often[:, height] += took * times
            at -= took * (int(self._height_cells[height]) * times)
        return table[rows, here_rooms], often

    def stack_of(self, strips: Strips, row: int, often: Counts) -> tuple[Strip, ...]:
        """The strips of one frame, tallest first."""
        return tuple(
            self.strip(strips, row, height, int(often[height]))
            for height in np.flatnonzero(often)[::-1].tolist()
        )

    def strip(self, strips: Strips, row: int, height: int, times: int = 1) -> Strip:
        """The best strip of a height on a frame."""
        crosscuts = strips.crosscuts[row, height]
        ways = np.flatnonzero(crosscuts).tolist()
        cuts = tuple(Cut(way, int(crosscuts[way]), int(self.stacks[height, way])) for way in ways)
        return Strip(int(self.heights[height]), cuts, times)

    def gives(self, strips: Strips) -> Counts:
        """For each frame and height how many pieces of each size the best strip gives."""
        by_way = strips.crosscuts * self.stacks[None, :, :]
        found = np.zeros((*by_way.shape[:2], self._sizes), dtype=np.int64)
        for way, size in enumerate(self._size_of.tolist()):
            found[:, :, size] += by_way[:, :, way]
        return found

    def _in_cells(self, frames: Sequence[Frame]) -> None:
        way_heights = np.array([way.height for way in self.ways], dtype=np.int64)
        self._size_of = np.array([way.size for way in self.ways], dtype=np.int64)
        self.stacks: Counts = self.heights[:, None] // way_heights[None, :]
        self._first = np.searchsorted(self.heights, way_heights)
        widths = [way.width for way in self.ways]
        exact, _, lengths, self._way_cells = _cells([frame.length for frame in frames], widths)
        self._lengths = np.array(lengths, dtype=np.int64)
        # A long cloth is not filled as a whole, so its room need not be counted out.
        rooms = np.where(self._whole, self._rooms_in_marks, 0).tolist()
        also, self._cell, cells, height_cells = _cells(rooms, self.heights.tolist())
        self._rooms, self._height_cells = np.array(cells, dtype=np.int64), height_cells
        self.exact = exact and also

    def _doublings(self, prices: Prices, left: Counts) -> list[tuple[int, int, int]]:
        """(way, crosscuts before, crosscuts): 1, 2, 4 and so on, up to what fits or is still wanted."""
        most = [int(self._lengths.max()) // cells for cells in self._way_cells]
        wanted = [int(left[size]) if prices[size] > 0 else 0 for size in self._size_of]
        return _doubled([min(pair) for pair in zip(most, wanted, strict=True)])

    def _height_doublings(self, worth: Prices, most: Counts | None) -> list[tuple[int, int, int]]:
        """The same for heights; one that is worth no more than a lower one is left out."""
        room, lower = int(self._rooms.max()), np.zeros(len(self.frames))
        limits = []
        for height, cells in enumerate(self._height_cells):
            pays = (worth[:, height] > lower + WORTH_NOTHING) & self._whole
            limit = room // cells if pays.any() else 0
            if most is None:
                lower = np.maximum(lower, worth[:, height])
            else:
                limit = min(limit, int(most[:, height].max()))
            limits.append(limit)
        return _doubled(limits)

    def _traced(
        self, doublings: list[tuple[int, int, int]], taken: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]
    ) -> Counts:
        frames, heights = len(self.frames), len(self.heights)
        at = np.repeat(self._lengths[:, None], heights, axis=1)
        columns = np.repeat(np.arange(heights)[None, :], frames, axis=0)
        crosscuts = np.zeros((frames, heights, len(self.ways)), dtype=np.int64)
        for number in range(len(doublings) - 1, -1, -1):
            way, _, times = doublings[number]
            took = taken[number, columns, at]
            crosscuts[:, :, way] += took * times
            at -= took * (self._way_cells[way] * times)
        return crosscuts


def _doubled(limits: Sequence[int]) -> list[tuple[int, int, int]]:
    found = []
    for which, most in enumerate(limits):
        before = 0
        while before < most:
            times = min(before + 1, most - before)
            found.append((which, before, times))
            before += times
    return found


def _cells(capacities: Sequence[int], sizes: Sequence[int]) -> tuple[bool, int, list[int], list[int]]:
    """Whether cells are exact, the marks in a cell, and all capacities and sizes in cells."""
    common = math.gcd(*sizes)
    longest = max(capacities) // common
    cell = common if longest <= MOST_CELLS else -(-max(capacities) // MOST_CELLS)
    within = [capacity // cell for capacity in capacities]
    return cell == common, cell, within, [-(-size // cell) for size in sizes]


def column_of(side: Side, strips: Strips, row: int, often: Counts) -> Column:
    """A whole piece of cloth, cut into the best strips."""
    return Column(side.frames[row], side.stack_of(strips, row, often))
