"""How a design file sets its blocks: the arrangement, sashing and borders."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from piecewright.design.entries import (
    BorderEntry,
    SashingEntry,
    SettingEntry,
)
from piecewright.design.grid import Cell, Complaint, cells_of
from piecewright.design.model import Block, Border, Sashing
from piecewright.design.reader import Reader
from piecewright.design.settings.kinds import Laid, Setting
from piecewright.measure.length import Length
from piecewright.measure.number import shortened
from piecewright.toml_places import did_you_mean, nearest

TURNS = {"left": 90, "half": 180, "right": 270}

_MOST_ACROSS = 1_000
_COUNTABLE = 10**9


def read_setting(reader: Reader, entry: SettingEntry, blocks: Mapping[str, Block]) -> Setting | None:
    """The setting, or None where its arrangement cannot be read."""
    for side, number in (("across", entry.across), ("down", entry.down)):
        if number > _MOST_ACROSS:
            got = number if number < _COUNTABLE else "far more"
            reader.add(("setting", side), f"expected at most {_MOST_ACROSS} blocks {side}, got {got}.")
    rows, complaints = cells_of(entry.arrangement, reader.file.text_line_of("setting", "arrangement"))
    laid = []
    for row in rows:
        read = [_laid(reader, cell, blocks, complaints) for cell in row]
        laid.append(tuple(cell for cell in read if cell is not None))
    reader.add_all(complaints)
    if complaints:
        return None
    if len(rows) > entry.down or len(rows[0]) > entry.across:
        has, wants = f"{len(rows[0])} x {len(rows)}", f"{entry.across} x {entry.down}"
        what = f"the arrangement has {has} blocks, the quilt only {wants}."
        reader.add(("setting", "arrangement"), what, "What is beyond is left out.", "note")
    return Setting(entry.across, entry.down, tuple(laid))


def _laid(
    reader: Reader, cell: Cell, blocks: Mapping[str, Block], complaints: list[Complaint]
) -> Laid | None:
    """A block or plain cloth with its turn, such as star or star.right."""
    key, dot, turn = cell.text.partition(".")
    if dot and turn not in TURNS:
        like = nearest(turn, TURNS) or "right"
        what = f"{cell}: expected a turn left, half or right behind the dot, got {shortened(cell.text)}."
        complaints.append(Complaint(cell.line, what, f"Did you mean {key}.{like}?"))
    elif key in reader.known and dot:
        what = f"{cell}: expected no turn for plain cloth, got {shortened(cell.text)}."
        complaints.append(Complaint(cell.line, what, f"Write {key}."))
    elif key in blocks and turn in ("left", "right") and blocks[key].width != blocks[key].height:
        what = f"{cell}: expected a square block for a quarter turn, got {key}, which is oblong."
        complaints.append(Complaint(cell.line, what, f"Write {key} or {key}.half."))
    elif key in reader.fabrics and (wrong := reader.role_wrong(key)) is not None:
        complaints.append(Complaint(cell.line, f"{cell}: {wrong[0]}", wrong[1]))
    elif key not in blocks and key not in reader.known and key not in reader.spoiled:
        known = did_you_mean(key, dict.fromkeys([*blocks, *reader.known, *sorted(reader.spoiled)]))
        complaints.append(Complaint(cell.line, f"{cell}: unknown block {shortened(key)}.", known))
    return Laid(key, TURNS.get(turn, 0))


def block_size(reader: Reader, setting: Setting, blocks: Mapping[str, Block]) -> tuple[Length, Length] | None:
    """The finished size that all blocks in the setting share, or None and a problem."""
    used = dict.fromkeys(laid.key for row in setting.arrangement for laid in row)
    sizes = {key: (blocks[key].width, blocks[key].height) for key in used if key in blocks}
    if not sizes:
        if not any(key in reader.spoiled for key in used):
            what = "expected at least one block in the arrangement, got only plain cloth."
            reader.add(("setting", "arrangement"), what, "A plain block takes its size from a pieced one.")
        return None
    first, size = next(iter(sizes.items()))
    for key, other in sizes.items():
        if other != size:
            got = f"{_by(other)} for {key} and {_by(size)} for {first}"
            what = f"expected all blocks of the setting in one size, got {got}."
            reader.add(("blocks", key, "size"), what, "Give them the same size.")
    return size


def _by(size: tuple[Length, Length]) -> str:
    return str(size[0]) if size[0] == size[1] else f"{size[0]} x {size[1]}"


def count_patches(
    setting: Setting, blocks: Mapping[str, Block], sashing: Sashing | None, borders: int
) -> int:
    """How many patches the quilt has, without drawing it."""
    rows, total = len(setting.arrangement), 4 * borders
    for r, row in enumerate(setting.arrangement):
        down = -(-(setting.down - r) // rows)
        for c, laid in enumerate(row):
            across = -(-(setting.across - c) // len(row))
            patches = blocks[laid.key].patch_count if laid.key in blocks else 1
            total += max(down, 0) * max(across, 0) * patches
    if sashing is not None:
        more = 1 if sashing.around else -1
        total += (setting.across + more) * setting.down
        in_row = 1 if sashing.cornerstone is None else 2 * setting.across + more
        total += in_row * (setting.down + more)
    return total


def read_sashing(reader: Reader, entry: SashingEntry) -> Sashing | None:
    """The sashing."""
    width = reader.width(("sashing", "width"), entry.width, "sashing")
    reader.role(("sashing", "role"), entry.role)
    if entry.cornerstone is not None:
        reader.role(("sashing", "cornerstone"), entry.cornerstone)
    return (
        None
        if width is None
        else Sashing(width, entry.role, entry.cornerstone, entry.around, entry.cut or "crosswise")
    )


def read_borders(reader: Reader, entries: Sequence[BorderEntry | None]) -> tuple[Border, ...]:
    """The borders, from the inside out."""
    borders = []
    for i, entry in enumerate(entries):
        if entry is None:
            continue
        width = reader.width(("borders", i, "width"), entry.width, "a border")
        reader.role(("borders", i, "role"), entry.role)
        if width is not None:
            borders.append(Border(width, entry.role, entry.order, entry.cut or "crosswise"))
    return tuple(borders)
