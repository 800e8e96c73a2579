"""Where an SVG element lies: lengths, transforms, and the windows that `viewBox` opens."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

from fontTools.misc.transform import Identity, Transform

from piecewright.design.svg_file import Unreadable
from piecewright.measure.number import shortened

NUMBER = r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"
FARTHEST = 1e7
"""Nothing lies farther off than this, in the drawing's own units."""

# Pixels of CSS for one of each unit (CSS Values and Units 3, absolute lengths).
_PIXELS = {
    "": 1.0,
    "px": 1.0,
    "in": 96.0,
    "cm": 96 / 2.54,
    "mm": 96 / 25.4,
    "pt": 4 / 3,
    "pc": 16.0,
    "q": 96 / 101.6,
}
_LENGTH = re.compile(rf"\s*({NUMBER})\s*(px|in|cm|mm|pt|pc|q|%)?\s*", re.IGNORECASE)
_STEP = re.compile(r"[\s,]*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^()]*)\)[\s,]*")
_UNIT = re.compile(r"(?<=[\d.])(?:px|deg)\b")
_COUNTS = {
    "matrix": (6,),
    "translate": (1, 2),
    "scale": (1, 2),
    "rotate": (1, 3),
    "skewX": (1,),
    "skewY": (1,),
}


def read_number(written: str) -> float:
    """A number of a drawing; raises Unreadable for others, and for one that is too large."""
    try:
        number = float(written)
    except ValueError:
        number = math.nan
    if not abs(number) <= FARTHEST:
        raise Unreadable(f"expected a number such as 12.5 in the drawing, got {shortened(written)}.")
    return number


def read_length(written: str | None, whole: float, default: float = 0.0) -> float:
    """A length in the drawing's units; a share such as 50% is one of the `whole`. Raises Unreadable."""
    if written is None or written.strip() in ("", "auto"):
        return default
    match = _LENGTH.fullmatch(written)
    if match is None:
        raise Unreadable(f"expected a length such as 12.5 or 3mm in the drawing, got {shortened(written)}.")
    number, unit = read_number(match[1]), (match[2] or "").lower()
    return number * whole / 100 if unit == "%" else number * _PIXELS[unit]


def read_numbers(written: str) -> list[float]:
    """Numbers with spaces or commas between them; raises Unreadable for anything else."""
    if re.sub(rf"{NUMBER}|[\s,]", "", written):
        raise Unreadable(f"expected numbers in the drawing, got {shortened(written.strip())}.")
    return [read_number(number) for number in re.findall(NUMBER, written)]


def read_transform(written: str) -> Transform:
    """What a list such as `translate(4 5) rotate(45)` does; raises Unreadable."""
    wanted = f"expected a transform such as rotate(45) in the drawing, got {shortened(written)}."
    whole, at, text = Identity, 0, written.strip()
    if text in ("", "none"):
        return Identity
    while at < len(text):
        step = _STEP.match(text, at)
        if step is None:
            raise Unreadable(wanted)
        numbers = read_numbers(_UNIT.sub("", step[2]))
        if len(numbers) not in _COUNTS[step[1]]:
            raise Unreadable(wanted)
        whole = whole.transform(_one_step(step[1], numbers))
        at = step.end()
    return whole


def _one_step(name: str, numbers: list[float]) -> Transform:
    first, *others = numbers
    if name == "matrix":
        return Transform(*numbers)
    if name == "translate":
        return Identity.translate(first, *others)
    if name == "scale":
        return Identity.scale(first, *others)
    if name == "rotate":
        x, y = others or (0.0, 0.0)
        return Identity.translate(x, y).rotate(math.radians(first)).translate(-x, -y)
    angle = math.radians(first)
    return Identity.skew(angle, 0) if name == "skewX" else Identity.skew(0, angle)


def window(
    attributes: Mapping[str, str], width: float, height: float, x: float = 0.0, y: float = 0.0
) -> tuple[Transform, tuple[float, float]]:
    """How an `svg` or `symbol` of a size lays what is in it, and how wide and high that counts its inside.

    Raises Unreadable for a viewBox that is none, or has no size.
    """
    place = Identity.translate(x, y)
    if "viewBox" not in attributes:
        return place, (width, height)
    box = read_numbers(attributes["viewBox"])
    if len(box) != 4 or not (box[2] > 0 and box[3] > 0):
        got = shortened(attributes["viewBox"])
        raise Unreadable(f"expected a viewBox with a width and a height above 0, got {got}.")
    left, top, across, down = box
    kept = attributes.get("preserveAspectRatio", "xMidYMid").split()
    scale = (width / across, height / down)
    if kept[:1] != ["none"]:
        even = max(scale) if "slice" in kept else min(scale)
        shift = _shifts(kept[0] if kept else "xMidYMid")
        place = place.translate(shift[0] * (width - even * across), shift[1] * (height - even * down))
        scale = (even, even)
    return place.scale(*scale).translate(-left, -top), (across, down)


def _shifts(align: str) -> tuple[float, float]:
    shares = {"Min": 0.0, "Mid": 0.5, "Max": 1.0}
    return shares.get(align[1:4], 0.5), shares.get(align[5:8], 0.5)
