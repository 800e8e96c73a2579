"""From a design file to a design, or to everything that is wrong with it, all at once."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import msgspec

from piecewright.design.entries import (
    BackingEntry,
    BattingEntry,
    BindingEntry,
    BlockEntry,
    BorderEntry,
    DesignEntry,
    FabricEntry,
    RoleEntry,
    SashingEntry,
    SettingEntry,
)
from piecewright.design.model import Design, finished_size
from piecewright.design.read_blocks import read_blocks
from piecewright.design.read_cloth import read_fabrics, read_roles
from piecewright.design.read_finish import read_backing, read_batting, read_binding, read_choices
from piecewright.design.read_setting import (
    block_size,
    count_patches,
    read_borders,
    read_sashing,
    read_setting,
)
from piecewright.design.reader import LARGEST_QUILT, Reader, default_mark, spoiled_keys
from piecewright.design.sound import Sound
from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import show
from piecewright.problems import Problem, Refused
from piecewright.toml_places import TomlFile, read_toml

MOST_PATCHES = 200_000
MOST_LISTED = 100


def read_design(path: str | Path, mark: Length | None = None) -> tuple[Design | None, list[Problem]]:
    """The design in a file, or None; and every problem, in the order of the file.

    With a design come at most notes. `mark` is the step of the ruler that finished sizes must keep to:
    1/8 in or 1 mm unless another is given.
    """
    try:
        file = read_toml(path)
    except Refused as refused:
        return None, list(refused.problems)
    return design_from(file, mark)


def design_from(file: TomlFile, mark: Length | None = None) -> tuple[Design | None, list[Problem]]:
    """The same for a TOML file in hand."""
    sound = Sound(file)
    entry: Any = msgspec.inspect.type_info(DesignEntry)
    sections = sound.sections(entry)
    unit: Unit = sections.get("unit", "in")
    reader = Reader(file, sound.problems, unit, mark or default_mark(unit))
    reader.spoiled = spoiled_keys(file.data, sections, "fabrics", "roles", "blocks")
    design = _design(reader, sections)
    problems = sorted(reader.problems, key=_line)
    wrong = any(problem.weight == "error" for problem in problems)
    if len(problems) > MOST_LISTED:
        what = f"{len(problems) - MOST_LISTED} more come after these."
        problems = [*problems[:MOST_LISTED], Problem(what, file.name, weight="error" if wrong else "note")]
    return (None if wrong else design), problems


def _line(problem: Problem) -> int:
    number = problem.where.rpartition(":")[2]
    return int(number) if number.isdecimal() else 0


def _section(sections: dict[str, Any], key: str, kind: Any) -> Any:
    """A section as its entry, None where the file has no sound one."""
    return msgspec.convert(sections[key], kind) if key in sections else None


def _design(reader: Reader, sections: dict[str, Any]) -> Design | None:
    reader.fabrics = read_fabrics(reader, _section(sections, "fabrics", dict[str, FabricEntry]) or {})
    reader.known = read_roles(reader, _section(sections, "roles", dict[str, RoleEntry]) or {})
    blocks = read_blocks(reader, _section(sections, "blocks", dict[str, BlockEntry]) or {})
    sashing_entry = _section(sections, "sashing", SashingEntry)
    sashing = read_sashing(reader, sashing_entry) if sashing_entry else None
    borders = read_borders(reader, _section(sections, "borders", list[BorderEntry | None]) or ())
    binding_entry = _section(sections, "binding", BindingEntry)
    binding = read_binding(reader, binding_entry) if binding_entry else None
    backing = read_backing(reader, _section(sections, "backing", BackingEntry) or BackingEntry())
    batting = read_batting(reader, _section(sections, "batting", BattingEntry) or BattingEntry())
    choices = read_choices(reader, sections.get("choices", {}), blocks)
    title = reader.text(("title",), sections.get("title"), "")
    if "title" in sections and not title:
        reader.add(("title",), "expected a title, got an empty text.", "Name the quilt.")
    reason = reader.text(("reason",), sections.get("reason"), "")
    setting_entry = _section(sections, "setting", SettingEntry)
    setting = read_setting(reader, setting_entry, blocks) if setting_entry else None
    size = block_size(reader, setting, blocks) if setting else None
    if setting is None or size is None or any(problem.weight == "error" for problem in reader.problems):
        return None
    design = Design(
        title,
        reason,
        reader.unit,
        tuple(reader.fabrics.values()),
        tuple(reader.known.values()),
        tuple(blocks.values()),
        *size,
        setting,
        backing,
        batting,
        sashing,
        borders,
        binding,
        choices,
    )
    _check_whole(reader, design)
    return design


def _check_whole(reader: Reader, design: Design) -> None:
    """The size of the quilt, the number of its patches, and what nothing uses."""
    largest = LARGEST_QUILT[reader.unit]
    width, height = finished_size(design)
    if max(width, height) > largest:
        got = f"{show(width, reader.unit)} x {show(height, reader.unit)}"
        reader.add(
            ("setting",), f"expected a quilt of at most {show(largest, reader.unit)} a side, got {got}."
        )
    patches = count_patches(design.setting, design.block, design.sashing, len(design.borders))
    if patches > MOST_PATCHES:
        what = f"expected at most {MOST_PATCHES:,} patches, got {patches:,}."
        reader.add(("setting",), what, "Make the quilt smaller or its blocks simpler.")
    laid = design.setting.keys()
    for block in design.blocks:
        if block.key not in laid:
            reader.add(("blocks", block.key), f"the block {block.key} is not in the arrangement.", "", "note")
    used = roles_used(design)
    for role in design.roles:
        if role.key not in used:
            section = (
                "roles"
                if "roles" in reader.file.data and role.key in reader.file.data["roles"]
                else "fabrics"
            )
            reader.add((section, role.key), f"nothing uses {role.key}.", "", "note")


def roles_used(design: Design) -> set[str]:
    """The keys of the roles that the quilt asks for, back and binding included."""
    used = {key for key in (*design.setting.keys(), *design.setting.roles()) if key in design.role}
    used |= {role for block in design.blocks for role in block.roles}
    used |= {border.role for border in design.borders}
    for role in (
        design.sashing and design.sashing.role,
        design.sashing and design.sashing.cornerstone,
        design.binding and design.binding.role,
        design.backing.role,
    ):
        if role:
            used.add(role)
    return used
