"""What is wrong with someone's work, as data: what, where, how bad, what to do."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Weight = Literal["error", "note"]


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong, or worth knowing.

    `what` says what was expected and what came; `where` names the place (`quilt.toml:12`,
    `step 7 (press hst)`); `do` says what would be right. An `error` stops the work, a `note` does not.
    """

    what: str
    where: str = ""
    do: str = ""
    weight: Weight = "error"

    def __str__(self) -> str:
        place = f"{self.where}: " if self.where else ""
        if not self.do:
            return f"{place}{self.what}"
        stop = "" if self.what.endswith((".", "!", "?")) else "."
        return f"{place}{self.what}{stop} {self.do}"


class Refused(Exception):
    """Raised where work cannot go on; carries every problem found."""

    def __init__(self, *problems: Problem) -> None:
        super().__init__("\n".join(map(str, problems)))
        self.problems = problems
