"""The blocks of a design file."""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.design.entries import BlockEntry
from piecewright.design.model import Block
from piecewright.design.read_grid import read_units
from piecewright.design.read_shapes import read_shapes
from piecewright.design.reader import Reader
from piecewright.toml_places import KeyPath


def read_blocks(reader: Reader, entries: Mapping[str, BlockEntry]) -> dict[str, Block]:
    """The blocks by key, without those that have a problem (their keys go to the reader's spoiled ones)."""
    blocks = {}
    for key, entry in entries.items():
        before = len(reader.problems)
        block = _block(reader, key, entry)
        if block is not None and len(reader.problems) == before:
            blocks[key] = block
        else:
            reader.spoiled.add(key)
    return blocks


def _block(reader: Reader, key: str, entry: BlockEntry) -> Block | None:
    path: KeyPath = ("blocks", key)
    if key in reader.known:
        what = f"expected different names for a block and a role, got {key} for both."
        reader.add(path, what, "Rename the block.")
    name = reader.text((*path, "name"), entry.name, key.replace("_", " "))
    size = reader.size((*path, "size"), entry.size)
    if (entry.picture is not None) == bool(entry.patches):
        got = "both" if entry.patches else "neither"
        what = f"expected either a picture or patches for the block {key}, got {got}."
        reader.add(path, what, "Leave one out." if entry.patches else 'Add picture = """, one token a cell.')
        return None
    strangers = ("drafted",) if entry.picture is not None else ("columns", "rows")
    for stranger in strangers:
        if getattr(entry, stranger):
            wanted = "patches" if entry.picture is not None else "a picture"
            what = f"expected {stranger} only in a block with {wanted}, got it in {key}."
            reader.add((*path, stranger), what, "Leave it out.")
    if entry.picture is not None:
        units = read_units(reader, path, entry, entry.picture, size)
        return None if size is None else Block(key, name, *size, units=units)
    shapes = read_shapes(reader, path, entry, size)
    return None if size is None else Block(key, name, *size, shapes=shapes)
