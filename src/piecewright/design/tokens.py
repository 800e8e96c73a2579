"""The signs of a block's picture: one token for each cell.

sky            a plain patch of sky
sky.nw.sea     a half-square triangle: sky in the north-west corner, sea the rest (nw ne sw se)
sky.ns.sea     an hourglass: sky north and south, sea east and west (ns ew)
sea.n.sky      a flying goose of sea whose point looks north, over two corners of sky (n e s w)
sky.in.sea     a square-in-a-square: sky on point, four corners of sea
-              the unit on the left goes on here
:              the unit above goes on here
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from piecewright.measure.number import shortened
from piecewright.toml_places import nearest

ON_LEFT = "-"
ON_TOP = ":"

KIND_OF: dict[str, str] = {
    **dict.fromkeys(("nw", "ne", "sw", "se"), "hst"),
    **dict.fromkeys(("ns", "ew"), "hourglass"),
    **dict.fromkeys(("n", "e", "s", "w"), "geese"),
    "in": "insquare",
}

_ROLE = re.compile(r"[A-Za-z][A-Za-z0-9_]*")


@dataclass(frozen=True)
class Token:
    """A unit as a token names it; `facing` is empty for a plain patch."""

    kind: str
    roles: tuple[str, ...]
    facing: str = ""


class NotAToken(ValueError):
    """Raised for a cell that cannot be read: what was expected and came, and what would be right."""

    def __init__(self, what: str, do: str) -> None:
        super().__init__(f"{what} {do}")
        self.what, self.do = what, do


def read_token(text: str) -> Token:
    """What a token says; raises NotAToken.

    >>> read_token("sky.nw.sea")
    Token(kind='hst', roles=('sky', 'sea'), facing='nw')
    """
    parts = text.split(".")
    if len(parts) not in (1, 3):
        what = f"expected a token such as sky or sky.nw.sea, got {shortened(text)}."
        raise NotAToken(what, _right(parts))
    for role in parts[::2]:
        if not _ROLE.fullmatch(role):
            got = shortened(text) if role == text else f"{shortened(role)} in {shortened(text)}"
            what = f"expected a role of letters, digits and _, beginning with a letter, got {got}."
            raise NotAToken(what, _right(parts))
    if len(parts) == 1:
        return Token("plain", (text,))
    first, facing, second = parts
    if facing not in KIND_OF:
        wanted = f"expected one of {', '.join(KIND_OF)} between the dots"
        what = f"{wanted} of {shortened(text)}, got {shortened(facing)}."
        raise NotAToken(what, f"Did you mean {first}.{nearest(facing, KIND_OF) or 'nw'}.{second}?")
    return Token(KIND_OF[facing], (first, second), facing)


def _right(parts: list[str]) -> str:
    words = [word for part in parts for word in _ROLE.findall(part)]
    roles = [word for word in words if word not in KIND_OF]
    facing = next((word for word in words if word in KIND_OF), "nw")
    if len(roles) == 2 and len(words) <= 3:
        return f"Did you mean {roles[0]}.{facing}.{roles[1]}?"
    return "Write one role, or two roles with a direction between them, joined by dots, without spaces."
