"""The strips made so far, in arrays: the number of the height, and the crosscuts of each way."""

from __future__ import annotations

import numpy as np

from piecewright.cutting.pricing import Allowed, Counts


class Pool:
    """Strips of which no two are alike: `rows[k]` the height's number, `crosscuts[k, w]` those of way `w`."""

    def __init__(self, ways: int) -> None:
        self.rows: Counts = np.zeros(0, dtype=np.int64)
        self.crosscuts: Counts = np.zeros((0, ways), dtype=np.int64)
        self._seen: set[tuple[int, bytes]] = set()

    def take_in(self, rows: Counts, crosscuts: Counts) -> Counts:
        """Takes in strips that are new and not empty; gives their positions in what came."""
        new = []
        for position, (row, counts) in enumerate(zip(rows.tolist(), crosscuts, strict=True)):
            key = (row, counts.tobytes())
            if key not in self._seen and counts.any():
                self._seen.add(key)
                new.append(position)
        self.rows = np.concatenate([self.rows, rows[new]])
        self.crosscuts = np.concatenate([self.crosscuts, crosscuts[new]])
        return np.array(new, dtype=np.int64)

    def last(self, number: int) -> tuple[Counts, Counts]:
        """The strips taken in last."""
        return self.rows[-number:], self.crosscuts[-number:]

    def allowed(self, allowed: Allowed | None) -> Pool:
        """A copy, where `allowed[h, w]` is given without strips that cut a way where it is not allowed."""
        copy = Pool(self.crosscuts.shape[1])
        fine = slice(None) if allowed is None else ~((self.crosscuts > 0) & ~allowed[self.rows]).any(axis=1)
        copy.take_in(self.rows[fine], self.crosscuts[fine])
        return copy
