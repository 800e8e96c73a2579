"""The blocks of a design file."""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.design.entries import BlockEntry
from piecewright.design.model import Block
from piecewright.design.read_drawing import read_drawing
from piecewright.design.read_grid import read_units
from piecewright.design.read_shapes import read_shapes
from piecewright.design.reader import Reader
from piecewright.toml_places import KeyPath

# How a block can be written down, and the keys that go with that way alone.
_WAYS = {"picture": ("columns", "rows"), "patches": ("drafted",), "drawing": ("fills",)}


def read_blocks(reader: Reader, entries: Mapping[str, BlockEntry]) -> dict[str, Block]:
    """The blocks by key, without those that have a problem (their keys go to the reader's spoiled ones)."""
    blocks = {}
    for key, entry in entries.items():
        before = _errors(reader)
        block = _block(reader, key, entry)
        if block is not None and _errors(reader) == before:
            blocks[key] = block
        else:
            reader.spoiled.add(key)
    return blocks


def _errors(reader: Reader) -> int:
    return sum(problem.weight == "error" for problem in reader.problems)


def _block(reader: Reader, key: str, entry: BlockEntry) -> Block | None:
    path: KeyPath = ("blocks", key)
    if key in reader.known:
        what = f"expected different names for a block and a role, got {key} for both."
        reader.add(path, what, "Rename the block.")
    name = reader.text((*path, "name"), entry.name, key.replace("_", " "))
    size = reader.size((*path, "size"), entry.size)
    way = _way(reader, path, key, entry)
    if way is None:
        return None
    prefer = entry.prefer or ""
    if way == "picture":
        units = read_units(reader, path, entry, entry.picture or "", size)
        return None if size is None else Block(key, name, *size, units=units, prefer=prefer)
    read = read_shapes if way == "patches" else read_drawing
    shapes = read(reader, path, entry, name, size)
    return None if size is None else Block(key, name, *size, shapes=shapes, prefer=prefer)


def _way(reader: Reader, path: KeyPath, key: str, entry: BlockEntry) -> str | None:
    """How the block is written down, one of `_WAYS`; None and a problem where it is not one of them."""
    ways = [way for way in _WAYS if getattr(entry, way) not in (None, [])]
    if not ways:
        what = f"expected either a picture or patches for the block {key}, got neither."
        reader.add(path, what, 'Add picture = """, one token a cell; or drawing = "old-page.svg".')
        return None
    if len(ways) > 1:
        what = f"expected one of {', '.join(_WAYS)} for the block {key}, got {' and '.join(ways)}."
        reader.add(path, what, "Leave out all but one.")
        return None
    for way, keys in _WAYS.items():
        for stranger in keys if way != ways[0] else ():
            if getattr(entry, stranger):
                wanted = "patches" if way == "patches" else f"a {way}"
                what = f"expected {stranger} only in a block with {wanted}, got it in {key}."
                reader.add((*path, stranger), what, "Leave it out.")
    return ways[0]
