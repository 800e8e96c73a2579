"""Two integer programmes for the least length of a small list; they share nothing with what they prove.

A *strip* runs across the cloth; a *way* is a piece as it lies. One programme lists every strip there could
be, the other decides strip by strip. Sizes are whole numbers.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import highspy
import numpy as np


@dataclass(frozen=True)
class Piece:
    """Equal pieces wanted."""

    width: int
    height: int
    count: int
    may_turn: bool


@dataclass(frozen=True)
class Small:
    """A small list and its cloth; with `stacks`, and with strips as high as several pieces (`tall`)."""

    pieces: tuple[Piece, ...]
    width: int
    ruler: int
    squaring: int
    stacks: bool
    tall: bool

    @property
    def ways(self) -> tuple[tuple[int, int, int], ...]:
        """(number of the piece, width, height) for each way to lie; not taller than the ruler by choice."""
        found = []
        for number, piece in enumerate(self.pieces):
            upright = piece.width <= self.width
            if upright:
                found.append((number, piece.width, piece.height))
            too_tall = upright and piece.width > max(self.ruler, piece.height)
            if piece.may_turn and piece.width != piece.height <= self.width and not too_tall:
                found.append((number, piece.height, piece.width))
        return tuple(found)

    @property
    def heights(self) -> tuple[int, ...]:
        """The heights a strip may have."""
        heights = {height for _, _, height in self.ways}
        if self.tall:
            for number, _, height in self.ways:
                most = min(self.ruler // height, self.pieces[number].count)
                heights |= {height * stack for stack in range(2, most + 1)}
        return tuple(sorted(heights))

    def stack(self, strip: int, height: int) -> int:
        """How many pieces lie above each other in a strip."""
        return strip // height if self.stacks else min(strip // height, 1)


def least_by_columns(small: Small) -> int:
    """The least length by listing every full strip; solved by HiGHS."""
    columns = [(height + small.squaring, gives) for height in small.heights for gives in _full(small, height)]
    counts = np.array([piece.count for piece in small.pieces], dtype=float)
    solver: Any = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    # All of one process share the threads of the first programme that was solved.
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("mip_rel_gap", 0.0)
    nothing, none = np.zeros(0, dtype=np.int32), np.zeros(0)
    solver.addRows(len(counts), counts, np.full(len(counts), np.inf), 0, nothing, nothing, none)
    rows = np.arange(len(counts), dtype=np.int32)
    for cost, gives in columns:
        solver.addCol(float(cost), 0.0, np.inf, len(rows), rows, np.array(gives, dtype=float))
    every = np.arange(len(columns), dtype=np.int32)
    solver.changeColsIntegrality(len(columns), every, np.full(len(columns), highspy.HighsVarType.kInteger))
    solver.run()
    assert solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return round(solver.getInfo().objective_function_value)


def _full(small: Small, strip: int) -> set[tuple[int, ...]]:
    """What strips of a height give of each piece, filled from the left until nothing more fits."""
    fitting = [way for way in small.ways if way[2] <= strip]

    def fill(number: int, room: int, gives: tuple[int, ...], tall: bool) -> Iterator[tuple[int, ...]]:
        if number == len(fitting):
            if any(gives) and (tall or strip <= small.ruler):
                yield gives
            return
        piece, width, height = fitting[number]
        for crosscuts in range(room // width + 1):
            more = list(gives)
            more[piece] += crosscuts * small.stack(strip, height)
            reaches = tall or (crosscuts > 0 and height > small.ruler)
            yield from fill(number + 1, room - crosscuts * width, tuple(more), reaches)

    return set(fill(0, small.width, (0,) * len(small.pieces), False))


def least_strip_by_strip(small: Small, cp_model: Any) -> int:
    """The least length by deciding the height and the crosscuts of each strip; solved by CP-SAT."""
    model = cp_model.CpModel()
    gives: list[list[Any]] = [[] for _ in small.pieces]
    costs, lengths = [], []
    for strip in range(sum(piece.count for piece in small.pieces)):
        cost = []
        for height in small.heights:
            cut = model.new_bool_var(f"strip {strip} is {height} high")
            cost.append((height + small.squaring) * cut)
            across, reaches = [], []
            for number, width, way_height in small.ways:
                if way_height > height:
                    continue
                crosscuts = model.new_int_var(0, small.width // width, f"{strip} {height} {number} {width}")
                model.add(crosscuts == 0).only_enforce_if(~cut)
                across.append(width * crosscuts)
                gives[number].append(small.stack(height, way_height) * crosscuts)
                reaches += [crosscuts] if way_height > small.ruler else []
            model.add(sum(across) <= small.width)
            if height > small.ruler:
                model.add(sum(reaches) >= 1).only_enforce_if(cut)
            lengths.append(cut)
        model.add(sum(lengths[-len(small.heights) :]) <= 1)
        costs.append(sum(cost))
    for before, after in pairwise(costs):
        model.add(before >= after)
    for piece, given in zip(small.pieces, gives, strict=True):
        model.add(sum(given) >= piece.count)
    model.minimize(sum(costs))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    return round(solver.objective_value)
