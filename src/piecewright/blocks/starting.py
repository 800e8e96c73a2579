"""A quilt file to start from: one traditional block in a small setting, ready to be changed."""

from __future__ import annotations

import re

from piecewright.blocks.traditional import Traditional, design_key
from piecewright.toml_places import quoted

ACROSS = 2
DOWN = 2


def starting_quilt(traditional: Traditional) -> str:
    """The text of a design file with the block's fabrics, the block, and a setting of 2 x 2."""
    key = design_key(traditional.key)
    above, sections = re.split(r"^(?=\[)", traditional.text, maxsplit=1, flags=re.MULTILINE)
    size = re.search(r"^size\s*=\s*(.+)$", above, re.MULTILINE)
    assert size is not None, "a traditional block has a size"
    sections = _sections(sections, key, f"name = {quoted(traditional.name)}\nsize = {size[1]}")
    unit = traditional.design.unit
    return f"""# {traditional.name}: {traditional.about}
# Change the cloth, the size of the block and the setting as you like.

title = {quoted(f"{traditional.name}, a first quilt")}
reason = "To try the block."
unit = "{unit}"

{sections.strip()}

[setting]
across = {ACROSS}
down = {DOWN}
arrangement = "{key}"

[binding]
role = "{traditional.block.roles[0]}"
"""


def _sections(text: str, key: str, told_above: str) -> str:
    """The sections of the block's file as those of a design file."""
    text = re.sub(r"^\[block\](.*)$", rf"[blocks.{key}]\1\n{told_above}", text, count=1, flags=re.MULTILINE)
    return re.sub(r"^\[\[block\.patches\]\]", f"[[blocks.{key}.patches]]", text, flags=re.MULTILINE)
