"""Reading an SVG drawing that may come from anywhere: only elements, attributes and style rules get through.

A *node* is an element with its attributes and the line on which it stands. Nothing else is opened, fetched or
run: files with a DTD or entities are refused, and so are those that are too large, have too many elements or
are nested too deep. XML is read by defusedxml.
"""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath, PureWindowsPath

from defusedxml import DefusedXmlException
from defusedxml.ElementTree import DefusedXMLParser

from piecewright.measure.number import shortened

MOST_BYTES = 1_000_000
MOST_ELEMENTS = 5_000
DEEPEST = 50

SVG_NAMES = ("", "http://www.w3.org/2000/svg")


class Unreadable(ValueError):
    """Raised for a drawing that cannot be read: what was expected and came, what to do, and the line."""

    def __init__(self, what: str, do: str = "", line: int = 0) -> None:
        super().__init__(what)
        self.what, self.do, self.line = what, do, line


@dataclass
class Node:
    """An SVG element; `tag` is its plain name, empty where it is none of SVG's own elements."""

    tag: str
    attributes: dict[str, str]
    line: int
    children: list[Node] = field(default_factory=list)
    text: str = ""


def file_inside(folder: Path, written: str) -> Path:
    """The file that a design names, which must lie in the design's folder or below; raises Unreadable."""
    wanted = f"expected a drawing beside the quilt file, such as old-page.svg, got {shortened(written)}"
    parts = PurePosixPath(written), PureWindowsPath(written)
    if any(p.is_absolute() or p.drive or p.root or ".." in p.parts for p in parts) or "\0" in written:
        raise Unreadable(f"{wanted}.", "Put the drawing into the folder of the quilt file or below it.")
    if parts[0].suffix.lower() != ".svg":
        raise Unreadable(f"{wanted}.", "Save the drawing as plain SVG (.svg).")
    try:
        file = (folder / written).resolve(strict=True)
        if not file.is_relative_to(folder.resolve()):
            raise Unreadable(f"{wanted}, which leads out of its folder.", "Copy the drawing into the folder.")
        if not file.is_file():
            raise Unreadable(f"{wanted}, which is no file.")
    except OSError as error:
        raise Unreadable(f"{wanted}: {error.strerror or 'no such file'}.", "Check the name.") from error
    return file


def read_svg(file: Path) -> Node:
    """The root element of an SVG file; raises Unreadable."""
    try:
        with open(file, "rb") as opened:
            content = opened.read(MOST_BYTES + 1)
    except OSError as error:
        raise Unreadable(f"expected a drawing to read, got: {error.strerror or error}.") from error
    return svg_from(content)


def svg_from(content: bytes) -> Node:
    """The same for bytes in hand."""
    if len(content) > MOST_BYTES:
        raise Unreadable(
            "expected a drawing of at most 1 MB, got more.",
            "Leave pictures and all that is not the block out.",
        )
    builder = _Builder()
    parser = DefusedXMLParser(target=builder, forbid_dtd=True, forbid_entities=True, forbid_external=True)
    builder.parser = parser.parser
    try:
        parser.feed(content)
        parser.close()
    except DefusedXmlException as error:
        what = "expected a drawing without entities and without a DTD, got one that has some."
        raise Unreadable(
            what, "Save it as plain SVG, or delete what stands between <!DOCTYPE and >."
        ) from error
    except ET.ParseError as error:
        what = "expected an SVG drawing, got a file that is broken or is none."
        raise Unreadable(what, "Save it once more as plain SVG.", error.position[0]) from error
    except (UnicodeError, LookupError, ValueError) as error:
        if isinstance(error, Unreadable):
            raise
        raise Unreadable(
            "expected an SVG drawing in UTF-8, got something else.", "Save it as plain SVG."
        ) from error
    root = builder.root
    if root is None or root.tag != "svg":
        raise Unreadable("expected an SVG drawing, got other XML.", "Save it as plain SVG.")
    return root


class _Builder:
    """What the XML parser reports to; stops it where there is too much."""

    def __init__(self) -> None:
        self.parser: object = None
        self.root: Node | None = None
        self.open: list[Node] = []
        self.count = 0

    def start(self, name: str, attributes: dict[str, str]) -> None:
        self.count += 1
        if self.count > MOST_ELEMENTS:
            raise Unreadable(f"expected a drawing of at most {MOST_ELEMENTS:,} elements, got more.")
        if len(self.open) >= DEEPEST:
            raise Unreadable(f"expected groups at most {DEEPEST} deep, got more.", "Take the groups apart.")
        own = {_plain(key): value for key, value in attributes.items() if _is_wanted(key)}
        node = Node(_plain(name), own, getattr(self.parser, "CurrentLineNumber", 1))
        if self.open:
            self.open[-1].children.append(node)
        else:
            self.root = node
        self.open.append(node)

    def end(self, name: str) -> None:
        self.open.pop()

    def data(self, text: str) -> None:
        if self.open and self.open[-1].tag == "style":
            self.open[-1].text += text

    def close(self) -> None:
        return None


def _plain(name: str) -> str:
    """The name without its namespace; empty where that is not SVG's (xlink:href is kept as href)."""
    space, _, plain = name.rpartition("}")
    if space.removeprefix("{") in (*SVG_NAMES, "http://www.w3.org/1999/xlink"):
        return plain
    return ""


def _is_wanted(key: str) -> bool:
    return bool(_plain(key))
