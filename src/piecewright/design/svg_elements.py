"""From the elements of an SVG drawing to its filled shapes, in the order in which they are painted.

Groups, transforms, windows, copies (`use`) and styles are followed; what is no patch is counted by its kind,
so that people can be told what was left out.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field

from fontTools.misc.transform import Transform

from piecewright.design.svg_file import MOST_ELEMENTS, Node, Unreadable
from piecewright.design.svg_outlines import SHAPES, Loop, outlines_of
from piecewright.design.svg_places import read_length, read_transform, window
from piecewright.design.svg_style import (
    Properties,
    Rules,
    fill_of,
    has_stroke,
    is_hidden,
    is_invisible,
    painted,
    rules_of,
)

GROUPS = ("g", "a", "svg", "switch", "symbol")
LEFT_OUT = {
    "text": "text",
    "image": "picture",
    "script": "script",
    "foreignObject": "foreign part",
    "line": "line",
}
DEEPEST = 100
"""How deep groups and copies may stand in one another, all together."""


@dataclass(frozen=True)
class FilledShape:
    """A shape as the drawing has it: `fill` is `#rrggbb`, or what is written where it is no plain colour.

    `line` is its line in the file; `even_odd` says how its loops make holes.
    """

    fill: str
    loops: tuple[Loop, ...]
    even_odd: bool
    line: int


@dataclass(frozen=True)
class _Inside:
    """What an element finds around it: where it lies, how large the window is, properties, how deep it is."""

    place: Transform
    size: tuple[float, float]
    properties: Mapping[str, str] = field(default_factory=dict)
    depth: int = 0


def filled_shapes(root: Node) -> tuple[list[FilledShape], Counter[str]]:
    """The filled shapes, the lowest first, and how many things of which kind were left out.

    Raises Unreadable for what cannot be read, with its line.
    """
    walk = _Walk(root)
    size = _own_size(root.attributes, _box_size(root.attributes))
    walk.visit(root, _Inside(Transform(), size))
    return walk.shapes, walk.left_out


def _box_size(attributes: Mapping[str, str]) -> tuple[float, float]:
    return window(attributes, 1.0, 1.0)[1] if "viewBox" in attributes else (100.0, 100.0)


def _own_size(attributes: Mapping[str, str], around: tuple[float, float]) -> tuple[float, float]:
    width, height = (
        read_length(attributes.get(key), side, side)
        for key, side in zip(("width", "height"), around, strict=True)
    )
    return width, height


class _Walk:
    def __init__(self, root: Node) -> None:
        self.rules: Rules = rules_of(root)
        self.left_out: Counter[str] = Counter()
        if self.rules.unread:
            self.left_out["style rule"] = self.rules.unread
        self.shapes: list[FilledShape] = []
        self.named: dict[str, Node] = {}
        self.visited = 0
        waiting = [root]
        while waiting:
            node = waiting.pop()
            self.named.setdefault(node.attributes.get("id", ""), node)
            waiting += node.children

    def visit(self, node: Node, inside: _Inside) -> None:
        """Collects an element and all that is in it."""
        self.visited += 1
        if self.visited > MOST_ELEMENTS:
            raise Unreadable(
                f"expected a drawing of at most {MOST_ELEMENTS:,} elements with all copies, got more."
            )
        if inside.depth > DEEPEST:
            raise Unreadable(f"expected groups and copies at most {DEEPEST} deep, got more.", line=node.line)
        try:
            self._visit(node, inside)
        except Unreadable as error:
            error.line = error.line or node.line
            raise

    def _visit(self, node: Node, inside: _Inside) -> None:
        if node.tag in LEFT_OUT:
            self.left_out[LEFT_OUT[node.tag]] += 1
            return
        if node.tag not in (*GROUPS, *SHAPES, "use"):
            return
        properties = painted(node, self.rules, inside.properties)
        if is_hidden(properties):
            self.left_out["hidden part"] += 1
            return
        for key in ("clip-path", "mask", "filter"):
            if properties.get(key, "none") != "none":
                self.left_out[key.replace("-", " ")] += 1
        place = inside.place.transform(read_transform(properties.get("transform", "")))
        here = _Inside(place, inside.size, properties, inside.depth + 1)
        if node.tag in SHAPES:
            self._shape(node, here)
        elif node.tag == "use":
            self._copy(node, here)
        else:
            self._group(node, here)

    def _group(self, node: Node, here: _Inside, size: tuple[float, float] | None = None) -> None:
        if node.tag in ("svg", "symbol"):
            said = node.attributes
            x, y = (read_length(said.get(key), side) for key, side in zip("xy", here.size, strict=True))
            if self.visited == 1:
                x = y = 0.0
            opened, inner = window(said, *(size or _own_size(said, here.size)), x, y)
            here = _Inside(here.place.transform(opened), inner, here.properties, here.depth)
        for child in node.children:
            if child.tag != "symbol":
                self.visit(child, here)

    def _copy(self, node: Node, here: _Inside) -> None:
        wanted = node.attributes.get("href", "")
        target = self.named.get(wanted.removeprefix("#")) if wanted.startswith("#") else None
        if target is None:
            self.left_out["copy of something that is not in the drawing"] += 1
            return
        x, y = (
            read_length(node.attributes.get(key), side) for key, side in zip("xy", here.size, strict=True)
        )
        place = here.place.translate(x, y)
        if target.tag == "symbol":
            properties = painted(target, self.rules, here.properties)
            size = _own_size(node.attributes, here.size)
            self._group(target, _Inside(place, here.size, properties, here.depth), size)
        else:
            self.visit(target, _Inside(place, here.size, here.properties, here.depth))

    def _shape(self, node: Node, here: _Inside) -> None:
        properties: Properties = dict(here.properties)
        if is_invisible(properties):
            self.left_out["hidden part"] += 1
            return
        fill = fill_of(properties)
        if fill is None:
            self.left_out["line" if has_stroke(properties) else "shape without a fill"] += 1
            return
        if has_stroke(properties):
            self.left_out["stroke"] += 1
        loops = tuple(loop.placed(here.place) for loop in outlines_of(node, *here.size))
        if loops:
            even_odd = properties.get("fill-rule", "nonzero") == "evenodd"
            self.shapes.append(FilledShape(fill, loops, even_odd, node.line))
