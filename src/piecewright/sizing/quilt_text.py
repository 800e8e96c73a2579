"""A quilt file with the sizes of another design; remarks and everything else stay.

A block drawn by its corners keeps them as they were written: `drafted` says what they count up to, and the
size changes alone.
"""

from __future__ import annotations

import re
from collections.abc import MutableMapping
from dataclasses import replace
from typing import Any

import tomlkit

from piecewright.design.model import Block, Design, Fabric, Shape
from piecewright.design.read import design_from
from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.measure.number import decimal, mixed
from piecewright.measure.showing import figure
from piecewright.problems import Problem, Refused
from piecewright.toml_places import toml_from_text

_FLOAT_PLACES = 6


def rewritten(text: str, name: str, before: Design, after: Design) -> str:
    """The text of a quilt file (that of the design before) with the sizes of the design after.

    The two may differ in sizes of blocks, counts, widths of sashing, borders, binding and cloth, margins,
    prices, and the unit. `name` is the new file's: drawings are looked for beside it. Raises Refused where
    the new text would not say the design after, so that no wrong file is ever written.
    """
    document: Any = tomlkit.parse(text)
    if after.unit != before.unit:
        document["unit"] = after.unit
        for table, key in _bare_lengths(document):
            table[key] = _with_unit(table[key], before.unit)
    _set_blocks(document, before, after)
    _set_counts(document, before, after)
    _set_strips(document, before, after)
    for was, now in zip(before.fabrics, after.fabrics, strict=True):
        _set_fabric(document["fabrics"][was.key], was, now, after.unit)
    result = _drafted(tomlkit.dumps(document), name, before, after)
    _check(result, name, after)
    return result


def _bare_lengths(document: Any) -> list[tuple[MutableMapping[str, Any], str]]:
    """Where lengths stand that count in the unit of the file, but for sizes of blocks."""
    fabrics = [fabric for fabric in document["fabrics"].values() if isinstance(fabric, MutableMapping)]
    keys = ("width", "selvedge", "repeat_across", "repeat_along", "buying_step")
    found = [(fabric, key) for fabric in fabrics for key in keys if key in fabric]
    places = (("binding", "width"), ("backing", "margin"), ("batting", "margin"), ("sashing", "width"))
    found += [(document[name], key) for name, key in places if key in document.get(name, {})]
    return found + [(border, "width") for border in document.get("borders", ()) if "width" in border]


def _with_unit(written: Any, unit: Unit) -> Any:
    """A length with its unit: 44 becomes "44 in"; one that says its own unit stays."""
    text = str(written)
    return written if re.search(r"[A-Za-z\"″”']\s*$", text) else f"{text.strip()} {unit}"


def _set_blocks(document: Any, before: Design, after: Design) -> None:
    for was, now in zip(before.blocks, after.blocks, strict=True):
        if (was.width, was.height) != (now.width, now.height) or before.unit != after.unit:
            _set_size(document["blocks"][was.key], now, after.unit)


def _set_size(table: Any, block: Block, unit: Unit) -> None:
    if block.width == block.height:
        _set_length(table, "size", block.width, unit)
    else:
        table["size"] = f"{_figure(block.width, unit)} x {_figure(block.height, unit)}"


def _set_counts(document: Any, before: Design, after: Design) -> None:
    for key in ("across", "down"):
        if getattr(before.setting, key) != getattr(after.setting, key):
            document["setting"][key] = getattr(after.setting, key)


def _set_strips(document: Any, before: Design, after: Design) -> None:
    unit = after.unit
    if before.sashing and after.sashing and before.sashing != after.sashing:
        _set_length(document["sashing"], "width", after.sashing.width, unit)
    for number, (was, now) in enumerate(zip(before.borders, after.borders, strict=True)):
        if was != now:
            _set_length(document["borders"][number], "width", now.width, unit)
    finish = [
        ("backing", "margin", before.backing.margin, after.backing.margin),
        ("batting", "margin", before.batting.margin, after.batting.margin),
    ]
    if before.binding and after.binding:
        finish.append(("binding", "width", before.binding.width, after.binding.width))
    for name, key, was_wide, wide in finish:
        if was_wide != wide and key in document.get(name, {}):
            _set_length(document[name], key, wide, unit)


def _set_fabric(table: Any, was: Fabric, now: Fabric, unit: Unit) -> None:
    for key, before, after in (
        ("width", was.width, now.width),
        ("buying_step", was.buying_step, now.buying_step),
    ):
        if before != after and after is not None:
            _set_length(table, key, after, unit)
    if was.price != now.price and now.price is not None:
        price = decimal(now.price) or mixed(now.price)
        table["price"] = price if isinstance(table["price"], str) else float(price)


def _set_length(table: Any, key: str, length: Length, unit: Unit) -> None:
    """Writes a length as the file had it: a bare number where it was one and stays a plain one."""
    written = _figure(length, unit)
    number = isinstance(table.get(key), int | float) and re.fullmatch(r"[0-9]+(\.[0-9]+)?", written)
    table[key] = (float(written) if "." in written else int(written)) if number else written


def _figure(length: Length, unit: Unit) -> str:
    """A length as a quilt file has it, in the file's unit: exact."""
    shown = figure(length, unit)
    if not shown.startswith(("about", "under")):
        return shown
    exact = length.exact if unit == "in" else length.in_mm / 10
    return decimal(exact) or mixed(exact)


def _drafted(text: str, name: str, before: Design, after: Design) -> str:
    """The text with a line `drafted` under the size of each block drawn by its corners that has none."""
    file = toml_from_text(text, name)
    lines = text.splitlines(keepends=True)
    inserts = []
    for was, now in zip(before.blocks, after.blocks, strict=True):
        table = file.data["blocks"][was.key]
        same = (was.width, was.height) == (now.width, now.height)
        if "patches" not in table or "drafted" in table or (same and before.unit == after.unit):
            continue
        inserts.append((file.line_of("blocks", was.key, "size"), _drafted_line(was, before.unit)))
    for line, drafted in sorted(inserts, reverse=True):
        if not lines[line - 1].lstrip().startswith("size"):
            what = "expected the size of a block drawn by its corners on a line of its own."
            raise Refused(Problem(what, f"{name}:{line}", "Write size = on a line of its own."))
        lines.insert(line, f"{drafted}\n")
    return "".join(lines)


def _drafted_line(block: Block, unit: Unit) -> str:
    one = inches(1) if unit == "in" else mm(10)
    width, height = (mixed(side.exact / one.exact) for side in (block.width, block.height))
    return f'drafted = "{width}"' if width == height else f'drafted = "{width} x {height}"'


def _check(text: str, name: str, wanted: Design) -> None:
    """The new text must say the design that is wanted."""
    design, problems = design_from(toml_from_text(text, name))
    if design is None:
        raise Refused(*(problem for problem in problems if problem.weight == "error"))
    if _comparable(design) != _comparable(wanted):
        what = "the quilt file says more in lengths than can be rewritten without a mistake."
        raise Refused(Problem(what, name, "Write every length with its unit, such as 4 in, and try again."))


def _comparable(design: Design) -> Design:
    """The design with corners rounded, since they are computed anew."""
    blocks = tuple(replace(block, shapes=tuple(map(_rounded, block.shapes))) for block in design.blocks)
    return replace(design, blocks=blocks)


def _rounded(shape: Shape) -> Shape:
    corners = tuple((round(x, _FLOAT_PLACES) + 0.0, round(y, _FLOAT_PLACES) + 0.0) for x, y in shape.corners)
    return replace(shape, corners=corners)
