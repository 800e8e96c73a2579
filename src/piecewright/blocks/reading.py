"""Reading the files of traditional blocks: one, or all of them; finding one by any of its names.

A file has `name`, `aliases`, `family`, `about` and `size`, the `[fabrics]` of a design file, and `[block]`: a
block of a design file without its name and size. It is read as a design of one block in a 1 x 1 setting.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from importlib.resources import files
from typing import Annotated, Any

import msgspec
from msgspec import Meta

from piecewright.blocks.traditional import FAMILIES, Traditional, design_key, plain_name
from piecewright.design.read import design_from
from piecewright.design.sound import Sound
from piecewright.measure.number import shortened
from piecewright.problems import Problem, Refused
from piecewright.toml_places import KeyPath, TomlFile, did_you_mean, nearest, toml_from_text

OF_THE_DESIGN = ("size", "unit", "fabrics", "block")
TOLD_ABOVE = ("name", "size")
"""Keys of a design file's block that stand at the top of a traditional block's file."""

Lines = dict[KeyPath, int]


class TraditionalEntry(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """What a file says of its block in words."""

    name: Annotated[str, Meta(description="A name in common trade use.")]
    family: Annotated[str, Meta(description="The family of blocks that it belongs to.")]
    about: Annotated[str, Meta(description="One plain sentence: what one sees.")]
    aliases: list[str] = []


@cache
def traditional_blocks() -> tuple[Traditional, ...]:
    """All of them, by family and name. Raises Refused with everything that is wrong in any of their files."""
    found: list[Traditional] = []
    problems: list[Problem] = []
    for file in sorted(files("piecewright.blocks").iterdir(), key=lambda entry: entry.name):
        if file.name.endswith(".toml"):
            text = file.read_text("utf-8")
            block, wrong = read_traditional(text, file.name.removesuffix(".toml"))
            problems += wrong
            found += [block] if block else []
    if problems:
        raise Refused(*problems)
    return tuple(sorted(found, key=lambda block: (FAMILIES.index(block.family), block.name.lower())))


def find(name: str, among: Iterable[Traditional] | None = None) -> Traditional:
    """The block of a key, a name or an alias, however it is written; raises Refused where there is none.

    >>> find("OHIO STAR").key
    'ohio-star'
    """
    blocks = traditional_blocks() if among is None else tuple(among)
    wanted = plain_name(name)
    for block in blocks:
        if wanted in map(plain_name, (block.key, *block.names)):
            return block
    known = [word for block in blocks for word in block.names]
    like = nearest(name, known) or nearest(name, [block.key for block in blocks])
    do = f"Did you mean {like}?" if like else "`piecewright blocks` lists those there are."
    raise Refused(Problem(f"expected the name of a traditional block, got {shortened(name)}.", do=do))


def read_traditional(text: str, key: str) -> tuple[Traditional | None, list[Problem]]:
    """The block in the text of a file `KEY.toml`, or None; and every problem, notes included."""
    try:
        file = toml_from_text(text, f"{key}.toml")
    except Refused as refused:
        return None, list(refused.problems)
    problems = [*_words_wrong(file), *_block_wrong(file)]
    if problems:
        return None, problems
    design, problems = design_from(_design_file(file, design_key(key)))
    if design is None:
        return None, problems
    words = msgspec.convert(_words(file), TraditionalEntry)
    aliases = tuple(words.aliases)
    return Traditional(key, words.name, aliases, words.family, words.about, design, text), problems


def _words(file: TomlFile) -> dict[str, Any]:
    return {key: value for key, value in file.data.items() if key not in OF_THE_DESIGN}


def _words_wrong(file: TomlFile) -> list[Problem]:
    """What is wrong with the words at the top."""
    sound = Sound(TomlFile(file.name, _words(file), file.lines, file.text_lines))
    kind: Any = msgspec.inspect.type_info(TraditionalEntry)
    words = sound.sections(kind)
    if "family" in words and words["family"] not in FAMILIES:
        family = words["family"]
        what = f"expected a family of blocks, got {shortened(family)}."
        sound.add(("family",), what, did_you_mean(family, FAMILIES))
    for key in ("name", "about"):
        if key in words and not words[key].strip():
            sound.add((key,), f"expected words in {key}, got an empty text.")
    return sound.problems


def _block_wrong(file: TomlFile) -> list[Problem]:
    """What is wrong with the section [block] as such; its inside is read as that of a design file."""
    block = file.data.get("block")
    if not isinstance(block, dict):
        got = "none" if block is None else "something else"
        return [Problem(f"expected a section [block], got {got}.", file.where("block"))]
    return [
        Problem(f"expected {key} above the sections, got it in [block].", file.where("block", key))
        for key in TOLD_ABOVE
        if key in block
    ]


def _design_file(file: TomlFile, key: str) -> TomlFile:
    """The design file of one block in a 1 x 1 setting, each value with the line where it stands in `file`."""
    data = file.data
    above = {word: data[word] for word in TOLD_ABOVE if word in data}
    design: dict[str, Any] = {word: data[word] for word in ("unit", "fabrics") if word in data}
    design["title"], design["reason"] = data["name"], data["about"]
    design["blocks"] = {key: {**data["block"], **above}}
    design["setting"] = {"across": 1, "down": 1, "arrangement": key}
    return TomlFile(file.name, design, _moved(file.lines, key), _moved(file.text_lines, key))


def _moved(lines: Lines, key: str) -> Lines:
    """The lines by the paths that their values have in the design."""
    moved: Lines = {
        ("blocks", key, *path[1:]) if path[:1] == ("block",) else path: line for path, line in lines.items()
    }
    for word in TOLD_ABOVE:
        if (word,) in lines:
            moved["blocks", key, word] = lines[(word,)]
    return moved
