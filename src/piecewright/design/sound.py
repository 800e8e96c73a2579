"""Whether what a TOML file says is of the kinds that its entries ask for; everything wrong at once.

The kinds are those of the structs in `entries`, as msgspec describes them, so that the file, its schema
and these checks have one source.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any, Final

import msgspec.inspect as kinds

from piecewright.measure.number import shortened
from piecewright.problems import Problem
from piecewright.toml_places import KeyPath, TomlFile, did_you_mean, nearest


class _Faulty:
    """Stands for a value that cannot be used."""


FAULTY: Final = _Faulty()


@dataclass
class Sound:
    """Gives the usable part of a file's values, and collects a problem for everything else."""

    file: TomlFile
    problems: list[Problem] = field(default_factory=list)

    def sections(self, entry: kinds.StructType) -> dict[str, Any]:
        """The top of the file: each section that is usable; in a table of entries, each usable entry.

        In a list of entries, None stands for one that is not usable.
        """
        return self._fields(self.file.data, entry, ())[0]

    def add(self, path: KeyPath, what: str, do: str = "") -> None:
        """Notes a problem at a place of the file."""
        self.problems.append(Problem(what, self.file.where(*path), do))

    def _value(self, value: Any, kind: kinds.Type, path: KeyPath) -> Any:
        about = ""
        while isinstance(kind, kinds.Metadata):
            about = about or (kind.extra_json_schema or {}).get("description", "")
            kind = kind.type
        if isinstance(kind, kinds.StructType):
            return self._struct(value, kind, path)
        if isinstance(kind, kinds.DictType):
            return self._table(value, kind, path)
        if isinstance(kind, kinds.ListType):
            return self._list(value, kind, path, about)
        if isinstance(kind, kinds.UnionType):
            return self._one_of(value, kind, path, about)
        if _is_plain(value, kind):
            return value
        self.add(
            path, f"{_name(path)}: expected {_wanted(kind, about)}, got {_got(value)}.", _fix(value, kind)
        )
        return FAULTY

    def _struct(self, value: Any, kind: kinds.StructType, path: KeyPath) -> Any:
        if not isinstance(value, dict):
            self.add(path, f"expected a section [{_dotted(path)}], got {_got(value)}.")
            return FAULTY
        entry, whole = self._fields(value, kind, path)
        return entry if whole else FAULTY

    def _fields(
        self, table: dict[str, Any], kind: kinds.StructType, path: KeyPath
    ) -> tuple[dict[str, Any], bool]:
        """The usable fields, and whether the entry is usable without the others."""
        known = {f.encode_name: f for f in kind.fields}
        entry: dict[str, Any] = {}
        whole = True
        meant = set()
        for key, value in table.items():
            if key not in known:
                missing = [k for k in known if k not in table]
                meant.add(nearest(key, missing))
                self.add(
                    (*path, key), f"unknown key {shortened(key)}{_inside(path)}.", did_you_mean(key, missing)
                )
                continue
            entry[key] = self._value(value, known[key].type, (*path, key))
            if entry[key] is FAULTY:
                entry[key] = _instead(value, known[key])
            if entry[key] is FAULTY:
                del entry[key]
                whole = whole and isinstance(known[key].type, kinds.BoolType | kinds.LiteralType)
        for key, wanted in known.items():
            if wanted.required and key not in table:
                whole = False
                if key not in meant:
                    self.add(
                        path, f"expected {_missing(key, wanted)}{_inside(path)}, got none.", _example(key)
                    )
        return entry, whole

    def _table(self, value: Any, kind: kinds.DictType, path: KeyPath) -> Any:
        if not isinstance(value, dict):
            self.add(path, f"expected a section [{_dotted(path)}], got {_got(value)}.")
            return FAULTY
        entries = {}
        pattern = getattr(getattr(kind.key_type, "type", None), "pattern", None)
        for key, item in value.items():
            if pattern and not re.search(pattern, key):
                wanted = "expected a key of letters, digits and _, beginning with a letter"
                self.add(
                    (*path, key), f"{wanted}, got {shortened(key)}.", "Write the full name behind name =."
                )
                continue
            entries[key] = self._value(item, kind.value_type, (*path, key))
        return {key: entry for key, entry in entries.items() if entry is not FAULTY}

    def _list(self, value: Any, kind: kinds.ListType, path: KeyPath, about: str) -> Any:
        if not isinstance(value, list):
            wanted = about or (f"sections [[{_dotted(path)}]]" if _holds_structs(kind) else "a list in [ ]")
            self.add(path, f"{_name(path)}: expected {_lower(wanted)}, got {_got(value)}.")
            return FAULTY
        items = [self._value(item, kind.item_type, (*path, i)) for i, item in enumerate(value)]
        if len(path) == 1:
            return [None if item is FAULTY else item for item in items]
        return FAULTY if any(item is FAULTY for item in items) else items

    def _one_of(self, value: Any, kind: kinds.UnionType, path: KeyPath, about: str) -> Any:
        options = [option for option in kind.types if not isinstance(option, kinds.NoneType)]
        if len(options) == 1:
            return self._value(value, options[0], path)
        tables = [option for option in options if isinstance(option, kinds.DictType)]
        if tables and isinstance(value, dict):
            return self._value(value, tables[0], path)
        if any(_is_plain(value, option) for option in options):
            return value
        self.add(path, f"{_name(path)}: expected {_wanted(options[0], about)}, got {_got(value)}.")
        return FAULTY


def _instead(value: Any, wanted: kinds.Field) -> Any:
    """The smallest number for a needed one that is too small, so that it hides no other problem."""
    kind = wanted.type.type if isinstance(wanted.type, kinds.Metadata) else wanted.type
    return kind.ge if wanted.required and isinstance(kind, kinds.IntType) and type(value) is int else FAULTY


def _is_plain(value: Any, kind: kinds.Type) -> bool:
    """Whether a value that holds no others is of the kind; true and false are no numbers."""
    if isinstance(value, bool) or isinstance(kind, kinds.BoolType):
        return isinstance(value, bool) and isinstance(kind, kinds.BoolType)
    if isinstance(kind, kinds.StrType):
        return isinstance(value, str)
    if isinstance(kind, kinds.IntType):
        return isinstance(value, int) and (kind.ge is None or value >= kind.ge)
    if isinstance(kind, kinds.LiteralType):
        return isinstance(value, str) and value in kind.values
    return isinstance(kind, kinds.FloatType) and isinstance(value, float)


def _wanted(kind: kinds.Type, about: str) -> str:
    if isinstance(kind, kinds.LiteralType):
        return " or ".join(f'"{word}"' for word in kind.values)
    if isinstance(kind, kinds.IntType):
        return "a whole number" if kind.ge is None else f"a whole number of at least {kind.ge}"
    if isinstance(kind, kinds.BoolType):
        return "true or false"
    return _lower(about.rstrip(".")) or "a text in quotes"


def _fix(value: Any, kind: kinds.Type) -> str:
    if isinstance(kind, kinds.LiteralType) and isinstance(value, str):
        like = nearest(value, [str(word) for word in kind.values])
        return f"Did you mean {like}?" if like else ""
    return ""


def _got(value: Any) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "a section"
    if isinstance(value, list):
        return "a list"
    return shortened(value if isinstance(value, str | int | float) else str(value))


def _missing(key: str, wanted: kinds.Field) -> str:
    kind = wanted.type
    return (
        f"a section [{key}]" if isinstance(kind, kinds.StructType | kinds.DictType) else f"a line {key} = ..."
    )


def _example(key: str) -> str:
    return f"Add {_EXAMPLES[key]}." if key in _EXAMPLES else ""


_EXAMPLES = {
    "title": 'title = "Harbour lights" at the top',
    "fabrics": "a section for each fabric, such as [fabrics.navy] with name and colour",
    "blocks": "a section for each block, such as [blocks.star] with size and picture",
    "setting": "across, down and an arrangement of block keys",
    "colour": 'colour = "#1b2a41" or the like',
    "size": 'size = "12" (finished) or the like',
    "role": "the key of a fabric or a role",
    "width": 'width = "2 1/2" or the like',
}


def _inside(path: KeyPath) -> str:
    numbers = [key + 1 for key in path if isinstance(key, int)]
    if numbers:
        return f" in [[{_dotted(path)}]] no. {numbers[-1]}"
    return f" in [{_dotted(path)}]" if path else ""


def _dotted(path: KeyPath) -> str:
    """The names on the path as a file writes them."""
    return ".".join(key for key in path if isinstance(key, str))[:80]


def _name(path: KeyPath) -> str:
    """The last name on the path."""
    return next((key for key in reversed(path) if isinstance(key, str)), "the file")[:80]


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


def _holds_structs(kind: kinds.ListType) -> bool:
    return isinstance(kind.item_type, kinds.StructType)
