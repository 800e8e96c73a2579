"""What is printed: results on the standard output, problems on the standard error.

On a terminal there is some weight and a turning sign while something is worked out; anywhere else, and with
NO_COLOR set, plain lines that are never wrapped.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.table import Table
from rich.text import Text

from piecewright.problems import Problem

ENDLESS = 10_000  # So wide that nothing is wrapped.


class _Console(Console):
    def on_broken_pipe(self) -> None:
        """Rich would end the process here, as if something were wrong."""
        raise BrokenPipeError


def console_for(stream: object) -> Console:
    """Where to print: plain and endlessly wide where nobody looks at a screen."""
    console = _Console(
        file=stream,  # type: ignore[arg-type]
        color_system=None if os.environ.get("NO_COLOR") else "auto",
    )
    if not console.is_terminal:
        console.width = ENDLESS
    return console


def show(text: str = "", style: str = "") -> None:
    """A line of the result."""
    console_for(sys.stdout).print(Text(clean(text), style))


def show_table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
    """A table of the result: columns two spaces apart, each row one line where nothing is wrapped."""
    console = console_for(sys.stdout)
    table = Table(
        *head,
        box=SIMPLE_HEAD if console.is_terminal else None,
        show_edge=False,
        pad_edge=False,
        padding=(0, 2, 0, 0),
    )
    for row in rows:
        table.add_row(*(Text(clean(cell)) for cell in row))
    with console.capture() as capture:
        console.print(table)
    lines = (line.rstrip() for line in capture.get().splitlines())
    sys.stdout.write("\n".join(line for line in lines if line) + "\n")


def tell(text: str) -> None:
    """A line on the standard error."""
    console_for(sys.stderr).print(Text(clean(text)), soft_wrap=True)


def tell_problems(problems: Iterable[Problem]) -> None:
    """Each problem in a line of its own: place, what is wrong, what would be right."""
    for problem in problems:
        tell(sentence(problem))


def sentence(problem: Problem) -> str:
    """A problem in a line; a note says that it is one."""
    place = f"{problem.where}: " if problem.where else ""
    note = "note: " if problem.weight == "note" else ""
    what = problem.what if problem.what.endswith((".", "?", "!")) or not problem.do else f"{problem.what}."
    return f"{place}{note}{what} {problem.do}".rstrip()


def clean(text: str) -> str:
    """The text without signs that would steer a terminal."""
    return "".join(sign if sign.isprintable() else " " for sign in text)


@contextmanager
def working(what: str) -> Iterator[None]:
    """Says on a terminal what is being worked out, for as long as it takes."""
    console = console_for(sys.stderr)
    if not console.is_terminal:
        yield
        return
    with console.status(Text(f"{what} ..."), spinner="line"):
        yield


def be_printable() -> None:
    """Signs that the terminal's encoding lacks are printed as question marks, and stop nothing."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
