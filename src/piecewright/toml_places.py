"""A TOML file and the line on which each of its values stands, so that a mistake can be named by its place.

A *path* is the way down to a value: `("blocks", "star", "rows", 2)`.
`tomllib` reads the values and judges the syntax; the scanner here only finds places in text that is valid.
"""

from __future__ import annotations

import bisect
import difflib
import re
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from piecewright.problems import Problem, Refused

MOST_BYTES = 1024 * 1024

KeyPath = tuple[str | int, ...]


@dataclass(frozen=True)
class TomlFile:
    """What a TOML file says, and where it says so.

    >>> file = toml_from_text('unit = "in"\\n[borders]\\nwidth = 4', "quilt.toml")
    >>> file.data["borders"]["width"], file.line_of("borders", "width"), file.where("borders")
    (4, 3, 'quilt.toml:2')
    """

    name: str
    data: dict[str, Any]
    lines: dict[KeyPath, int] = field(repr=False)
    text_lines: dict[KeyPath, int] = field(repr=False)

    def line_of(self, *path: str | int) -> int:
        """The line of a key or an array item; of the nearest thing around it where the path leads nowhere."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 1)

    def text_line_of(self, *path: str | int) -> int:
        """The line on which a text's own first line stands: below the quotes where a long text opens so."""
        return self.text_lines.get(path, self.line_of(*path))

    def where(self, *path: str | int) -> str:
        """The place as problems name it: `quilt.toml:12`."""
        return f"{self.name}:{self.line_of(*path)}"


def read_toml(path: str | Path) -> TomlFile:
    """The file with its values and lines.

    Raises Refused when it cannot be read, is larger than 1 MiB, is not UTF-8 text, or is not valid TOML.
    """
    name = str(path)
    try:
        with open(path, "rb") as file:
            content = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise Refused(Problem(f"expected a file to read, got: {reason}.", name, "Check the path.")) from error
    if len(content) > MOST_BYTES:
        raise Refused(Problem("expected at most 1 MiB of text, got more.", name, "Name the right file."))
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        what = "expected UTF-8 text, got bytes that are none."
        raise Refused(Problem(what, f"{name}:{line}", "Save the file as UTF-8 text.")) from error
    return toml_from_text(text, name)


def toml_from_text(text: str, name: str) -> TomlFile:
    """The same for text in hand; `name` is how problems name it. Raises Refused when it is not valid TOML."""
    text = text.replace("\r\n", "\n")
    try:
        data = tomllib.loads(text)
        scanner = _Scanner(text)
        scanner.document()
    except RecursionError as error:
        raise Refused(Problem("expected a few levels of brackets, got hundreds.", name)) from error
    except ValueError as error:
        raise Refused(_syntax_problem(str(error), text, name)) from error
    return TomlFile(name, data, scanner.lines, scanner.text_lines)


def quoted(words: str) -> str:
    """Words as a text of a TOML file.

    >>> print(quoted('a "net"'))
    "a \\"net\\""
    """
    return '"' + words.replace("\\", "\\\\").replace('"', '\\"') + '"'


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that is most like this one, or None when none is."""
    by_lower = {k.lower(): k for k in known}
    found = difflib.get_close_matches(word.lower(), by_lower, n=1, cutoff=0.6)
    return by_lower[found[0]] if found else None


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """The sentence to put after an unknown word: the nearest known one, or all of them."""
    known = list(known)
    like = nearest(word, known)
    if like is not None:
        return f"Did you mean {like}?"
    return f"Known here: {', '.join(known)}." if known else "Leave it out."


def _syntax_problem(message: str, text: str, name: str) -> Problem:
    if "integer string conversion" in message:
        return Problem("expected a number of a few digits, got thousands of digits.", name, "Shorten it.")
    at = re.search(r" \(at line (\d+), column \d+\)$", message)
    line = int(at[1]) if at else text.rstrip("\n").count("\n") + 1
    complaint = re.sub(r" \(at .*\)$", "", message)
    complaint = complaint[:1].lower() + complaint[1:]
    written = text.split("\n")[line - 1].strip()[:60]
    what = f"expected a line such as key = value, got {written!r}: {complaint}."
    remedy = "Texts and lengths such as 2 1/2 stand in quotes; every opened bracket or quote needs its end."
    return Problem(what, f"{name}:{line}", remedy)


_BLANK = re.compile(r"(?:[ \t\n]|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_KEY = re.compile(r"""[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*'""")
_LONG_TEXT = re.compile(r'"""(?:[^"\\]|\\.|"(?!""))*"{3,5}|' + r"'''(?:[^']|'(?!''))*'{3,5}", re.DOTALL)
_TEXT = re.compile(r'"(?:[^"\\\n]|\\.)*"|' + r"'[^'\n]*'")
_BARE = re.compile(r"[^,\]}\n#]*")


class _Scanner:
    """Walks through valid TOML text and notes the line of every key and array item."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.breaks = [m.start() for m in re.finditer("\n", text)]
        self.lines: dict[KeyPath, int] = {}
        self.text_lines: dict[KeyPath, int] = {}
        self.items_so_far: dict[KeyPath, int] = {}

    def document(self) -> None:
        """Notes every line of the document."""
        table: KeyPath = ()
        self._skip(_BLANK)
        while self.at < len(self.text):
            if self._takes("[["):
                table = self._header("]]", new_item=True)
            elif self._takes("["):
                table = self._header("]", new_item=False)
            else:
                self._pair(table)
            self._skip(_BLANK)

    def _header(self, end: str, new_item: bool) -> KeyPath:
        line = self._line()
        table: KeyPath = ()
        words = self._words()
        for i, word in enumerate(words):
            table = (*table, word)
            self.lines.setdefault(table, line)
            if new_item and i == len(words) - 1:
                self.items_so_far[table] = self.items_so_far.get(table, -1) + 1
            if table in self.items_so_far:
                table = (*table, self.items_so_far[table])
        # A table may be opened by one of its own sub-tables first; its own header is the better place.
        self.lines[table] = line
        self._takes(end)
        return table

    def _pair(self, table: KeyPath) -> None:
        line = self._line()
        for word in self._words():
            table = (*table, word)
            self.lines.setdefault(table, line)
        self._takes("=")
        self._skip(_SPACE)
        self._value(table)

    def _words(self) -> list[str]:
        words = []
        while True:
            self._skip(_SPACE)
            word = self._skip(_KEY)
            words.append(next(iter(tomllib.loads(f"{word} = 0"))))
            self._skip(_SPACE)
            if not self._takes("."):
                return words

    def _value(self, path: KeyPath) -> None:
        if self.text.startswith(('"""', "'''"), self.at):
            self.text_lines[path] = self._line() + self.text.startswith("\n", self.at + 3)
            self._skip(_LONG_TEXT)
        elif self.text.startswith(('"', "'"), self.at):
            self._skip(_TEXT)
        elif self._takes("["):
            self._array(path)
        elif self._takes("{"):
            self._inline_table(path)
        else:
            self._skip(_BARE)

    def _array(self, path: KeyPath) -> None:
        count = 0
        self._skip(_BLANK)
        while not self._takes("]"):
            self.lines[(*path, count)] = self._line()
            self._value((*path, count))
            count += 1
            self._skip(_BLANK)
            self._takes(",")
            self._skip(_BLANK)

    def _inline_table(self, path: KeyPath) -> None:
        self._skip(_BLANK)
        while not self._takes("}"):
            self._pair(path)
            self._skip(_BLANK)
            self._takes(",")
            self._skip(_BLANK)

    def _line(self) -> int:
        return bisect.bisect_left(self.breaks, self.at) + 1

    def _skip(self, pattern: re.Pattern[str]) -> str:
        found = pattern.match(self.text, self.at)
        taken = found[0] if found else ""
        self.at += len(taken)
        return taken

    def _takes(self, sign: str) -> bool:
        if self.text.startswith(sign, self.at):
            self.at += len(sign)
            return True
        return False
