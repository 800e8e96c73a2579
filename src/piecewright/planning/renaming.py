"""Seams named after another pile: what is made under a working name is told by the name of its pile."""

from __future__ import annotations

from dataclasses import replace

from piecewright.bench.cloth import Cloth


def renamed_seams(cloth: Cloth, old: str, new: str) -> Cloth:
    """The cloth with the seams of its own and of its parts named after another pile."""
    seams = tuple(replace(seam, name=new + seam.name.removeprefix(old)) for seam in cloth.own_seams)
    distinct = {id(part.cloth): part.cloth for part in cloth.parts}
    renamed = {key: renamed_seams(inner, old, new) for key, inner in distinct.items()}
    parts = tuple(replace(part, cloth=renamed[id(part.cloth)]) for part in cloth.parts)
    return replace(cloth, own_seams=seams, parts=parts, _ends={})
