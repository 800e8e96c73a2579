"""What planning must know of the cloth of a design."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Cloths:
    """What the workshop must know of the cloth: its key for each role, one-way prints, likeness allowed.

    Pieces of a cloth with a motif, one of `motifs`, all show the same.
    """

    fabric_of: dict[str, str]
    one_way: frozenset[str]
    alike: dict[str, int | None]
    pins: dict[tuple[str, str | None], str]
    motifs: frozenset[str] = frozenset()

    def likeness(self, roles: Iterable[str]) -> int | None:
        """The least that any of these roles allows to be alike, or None."""
        allowed = [a for role in roles if (a := self.alike.get(role)) is not None]
        return min(allowed, default=None)
