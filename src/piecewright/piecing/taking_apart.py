"""Taking a block apart: full straight cuts, again and again, until only patches and units are left.

Read backwards the cuts are the seams. Every order of full cuts has as many joins; the order is chosen
that leaves the fewest unlike sub-assemblies (equal up to a turn), since those are made at one go.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from piecewright.design.drawing import Drawing, Group, InLine, Patch, Placed
from piecewright.geometry.isometry import moved
from piecewright.geometry.polygon import bounds, rectangle
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.kinds import name_of, recognise
from piecewright.piecing.gathering import gathered
from piecewright.piecing.looks import Look, look
from piecewright.problems import Problem, Refused

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class _Way:
    """One way to take parts apart, and the looks of all sub-assemblies it leaves."""

    line: InLine | Placed
    looks: frozenset[Look]
    depth: int


def take_apart(block: Group) -> InLine | Placed:
    """The block as lines of parts joined one after another; a leaf is a patch or a unit.

    Raises Refused where no full seam goes through (that needs partial or set-in seams).
    """
    return _Taking(block).best(tuple(block.children)).line


def units_in(block: Drawing) -> list[Group]:
    """The units of a block, each as often as it comes; none where the block cannot be taken apart."""
    if recognise(block) is not None:
        return [block] if isinstance(block, Group) else []
    if not isinstance(block, Group):
        return []
    try:
        return list(_units_of(take_apart(gathered(block))))
    except Refused:
        return []


def _units_of(line: InLine | Placed) -> Iterator[Group]:
    if isinstance(line, InLine):
        for part in line.parts:
            yield from _units_of(part)
    elif isinstance(line.drawing, Group):
        yield from units_in(line.drawing)


def _unit_of(parts: tuple[Placed, ...]) -> Placed | None:
    """Parts that no full seam takes apart, as one placed unit; None if they are none that is known."""
    patches = [patch for part in parts for patch in _patches(part)]
    left, low, right, high = bounds([p for patch in patches for p in patch.outline])
    home = moved(-left, -low)
    outline = rectangle(right - left, high - low)
    unit = recognise(Group("unit", tuple(Placed(patch.placed(home)) for patch in patches), outline))
    if unit is None:
        return None
    group = Group(name_of(unit.kind), tuple(Placed(patch.placed(home)) for patch in patches), outline)
    return Placed(group, moved(left, low))


class _Taking:
    def __init__(self, block: Group) -> None:
        self.block = block
        self.known: dict[tuple[int, ...], _Way] = {}
        self.boxes: dict[int, Box] = {id(child): bounds(child.outline) for child in block.children}

    def best(self, parts: tuple[Placed, ...]) -> _Way:
        if len(parts) == 1:
            return _Way(parts[0], frozenset(), 0)
        key = tuple(sorted(map(id, parts)))
        if key not in self.known:
            ways = [self._joined(direction, split) for direction, split in self._splits(parts)]
            if not ways:
                whole = _unit_of(parts)
                if whole:
                    self.known[key] = _Way(whole, frozenset(), 0)
                    return self.known[key]
                raise Refused(self._no_full_seam(parts))
            own = look(patch for part in parts for patch in _patches(part))
            best = min(ways, key=lambda way: (len(way.looks), way.depth))
            self.known[key] = _Way(best.line, best.looks | {own}, best.depth)
        return self.known[key]

    def _joined(self, direction: str, split: list[tuple[Placed, ...]]) -> _Way:
        inner = [self.best(parts) for parts in split]
        looks = frozenset().union(*(way.looks for way in inner))
        line = InLine(_name(split, direction), direction, tuple(way.line for way in inner))
        return _Way(line, looks, 1 + max(way.depth for way in inner))

    def _splits(self, parts: tuple[Placed, ...]) -> list[tuple[str, list[tuple[Placed, ...]]]]:
        """All full cuts in one direction, and the middle one alone, across and upwards."""
        found = []
        for direction, axis in (("up", 1), ("across", 0)):
            pieces = self._pieces(parts, axis)
            if len(pieces) > 1:
                found.append((direction, pieces))
            if len(pieces) > 3 and len(pieces) % 2 == 0:
                half = len(pieces) // 2
                found.append((direction, [_together(pieces[:half]), _together(pieces[half:])]))
        return found

    def _pieces(self, parts: tuple[Placed, ...], axis: int) -> list[tuple[Placed, ...]]:
        """The parts between full cuts, in order along the axis."""
        ordered = sorted(parts, key=lambda part: self.boxes[id(part)][axis])
        pieces: list[list[Placed]] = []
        reach = float("-inf")
        for part in ordered:
            start, end = self.boxes[id(part)][axis], self.boxes[id(part)][axis + 2]
            if start >= reach - AS_DRAWN:
                pieces.append([])
            pieces[-1].append(part)
            reach = max(reach, end)
        return [tuple(piece) for piece in pieces]

    def _no_full_seam(self, parts: tuple[Placed, ...]) -> Problem:
        left, low, right, high = bounds([p for part in parts for p in part.outline])
        return Problem(
            f"no straight seam goes all the way through the part of {self.block.name!r} from "
            f"{left:g}, {low:g} to {right:g}, {high:g} (in)",
            do="Draw the block so that it can be joined in rows; partial seams are not planned yet.",
        )


def _together(pieces: list[tuple[Placed, ...]]) -> tuple[Placed, ...]:
    return tuple(part for piece in pieces for part in piece)


def _patches(part: Placed) -> list[Patch]:
    return [patch.placed(part.place) for patch in part.drawing.patches]


def _name(split: list[tuple[Placed, ...]], direction: str) -> str:
    """What the trade calls it: four-patch and nine-patch where plain squares make one."""
    counts = {len(parts) for parts in split}
    plain = all(isinstance(part.drawing, Patch) for parts in split for part in parts)
    if plain and counts == {len(split)}:
        if len(split) == 2:
            return "four-patch"
        if len(split) == 3:
            return "nine-patch"
    return "row" if direction == "across" else "column"
