"""How an SVG element is to be painted: attributes, simple style rules, the style attribute, inheritance.

A *rule* of a style sheet has a plain selector (`rect`, `.sea`, `#lamp`, `rect.sea`, `*`); others are counted,
not followed. A later and more special rule wins, as in CSS.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from coloraide import Color

from piecewright.design.svg_file import Node

INHERITED = ("fill", "fill-rule", "visibility", "color", "fill-opacity", "stroke")
OWN = ("display", "opacity", "transform", "clip-path", "mask", "filter")

_REMARK = re.compile(r"/\*.*?\*/|<!--|-->", re.DOTALL)
_RULE = re.compile(r"([^{}]*)\{([^{}]*)\}")
_SELECTOR = re.compile(r"(?P<tag>[A-Za-z]+|\*)?(?P<more>(?:[.#][\w-]+)*)")

Properties = dict[str, str]


@dataclass(frozen=True)
class Rules:
    """The style rules of a drawing, the strongest last; `unread` counts those that are not followed."""

    rules: tuple[tuple[str, tuple[str, ...], Properties], ...] = ()
    unread: int = 0

    def of(self, node: Node) -> Properties:
        """What the rules say about an element."""
        names = {f".{name}" for name in node.attributes.get("class", "").split()}
        names.add(f"#{node.attributes.get('id', '')}")
        said: Properties = {}
        for tag, needed, properties in self.rules:
            if tag in ("", "*", node.tag) and names.issuperset(needed):
                said |= properties
        return said


def rules_of(root: Node) -> Rules:
    """All rules in the drawing's own style elements."""
    found: list[tuple[tuple[int, int, int], str, tuple[str, ...], Properties]] = []
    unread = 0
    for text in _style_texts(root):
        for selectors, declared in _RULE.findall(_REMARK.sub(" ", text)):
            properties = declarations(declared)
            for selector in selectors.split(","):
                match = _SELECTOR.fullmatch(selector.strip())
                if match is None or not selector.strip():
                    unread += bool(properties.keys() & {*INHERITED, *OWN})
                    continue
                needed = tuple(re.findall(r"[.#][\w-]+", match["more"]))
                ids = sum(name.startswith("#") for name in needed)
                special = (ids, len(needed) - ids, int(match["tag"] not in (None, "*")))
                found.append((special, match["tag"] or "", needed, properties))
    found.sort(key=lambda rule: rule[0])
    return Rules(tuple(rule[1:] for rule in found), unread)


def _style_texts(root: Node) -> Iterator[str]:
    waiting = [root]
    while waiting:
        node = waiting.pop()
        if node.tag == "style":
            yield node.text
        waiting += reversed(node.children)


def declarations(text: str) -> Properties:
    """The properties of `fill: #a32; stroke: none`, in small letters where that makes no difference."""
    said = {}
    for part in text.split(";"):
        name, colon, value = part.partition(":")
        if colon:
            said[name.strip().lower()] = value.replace("!important", "").strip()
    return said


def painted(node: Node, rules: Rules, around: Mapping[str, str]) -> Properties:
    """The properties of an element that stands inside one with other properties."""
    said = {key: value for key, value in node.attributes.items() if key in (*INHERITED, *OWN)}
    said |= rules.of(node)
    said |= declarations(node.attributes.get("style", ""))
    properties = {key: around[key] for key in INHERITED if key in around}
    for key in (*INHERITED, *OWN):
        if key in said and said[key] != "inherit":
            properties[key] = said[key]
    return properties


def fill_of(properties: Mapping[str, str]) -> str | None:
    """The fill as `#rrggbb`; None for none, or the fill as it is written where it is no plain colour."""
    written = properties.get("fill", "black")
    if written.lower() == "currentcolor":
        written = properties.get("color", "black")
    written = re.sub(r"\s*icc-color\(.*", "", written)
    if written.lower() in ("none", "transparent") or _amount(properties.get("fill-opacity", "1")) == 0:
        return None
    try:
        colour = Color(written)
    except (ValueError, AttributeError):
        return written
    if colour.alpha() == 0:
        return None
    colour["alpha"] = 1
    return str(colour.convert("srgb").clip().to_string(hex=True))


def is_hidden(properties: Mapping[str, str]) -> bool:
    """Whether an element and all that is in it is left out of the picture."""
    return properties.get("display") == "none" or _amount(properties.get("opacity", "1")) == 0


def is_invisible(properties: Mapping[str, str]) -> bool:
    """Whether the element itself is not seen; what is in it may be."""
    return properties.get("visibility", "visible") in ("hidden", "collapse")


def has_stroke(properties: Mapping[str, str]) -> bool:
    """Whether its outline is drawn as a line."""
    return properties.get("stroke", "none").lower() not in ("none", "transparent")


def _amount(written: str) -> float:
    try:
        return float(written.removesuffix("%"))
    except ValueError:
        return 1.0
