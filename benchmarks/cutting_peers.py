"""Peers to stand beside: a general packer of rectangles, which knows nothing of rulers, strips or layers."""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import Any

from benchmarks.cutting_instances import MARK, Instance

MISSING = "rectpack is not installed; `pip install -e .[bench]` brings it."


@dataclass(frozen=True)
class Packed:
    """What a packer found: the length in marks, and the processor seconds it took."""

    length: int
    seconds: float


def packed(one: Instance) -> Packed | None:
    """The shorter of two packings by a skyline and by free rectangles; None where there is no packer.

    It turns all pieces or none: where one that could be turned must not be, all lie as they are wanted.
    """
    try:
        import rectpack
    except ImportError:
        return None
    width = int(one.supply.usable_width.exact / MARK)
    rectangles = []
    for demand in one.demands:
        across = one.supply.usable_width if demand.whole_strip else demand.width
        size = int(across.exact / MARK), int(demand.height.exact / MARK)
        rectangles += [size] * demand.count
    fixed = any(not demand.may_turn and demand.height <= one.supply.usable_width for demand in one.demands)
    began = time.process_time()
    kinds = (rectpack.SkylineBlWm, rectpack.GuillotineBssfSas)
    length = min(_length(rectpack, kind, rectangles, width, not fixed) for kind in kinds)
    return Packed(length, time.process_time() - began)


def _length(rectpack: Any, kind: Any, rectangles: list[tuple[int, int]], width: int, turns: bool) -> int:
    packer = rectpack.newPacker(rotation=turns, pack_algo=kind)
    for across, along in rectangles:
        packer.add_rect(across, along)
    packer.add_bin(width, sum(max(size) for size in rectangles))
    packer.pack()
    placed = packer.rect_list()
    assert len(placed) == len(rectangles)
    return max(low + along for _, _, low, _, along, _ in placed)
