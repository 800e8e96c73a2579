"""What a command is given: files and words, read into values. What is wrong is raised, all at once."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from piecewright.batches.on_hand import MOST_PIECES, OnHand
from piecewright.design.model import Design
from piecewright.design.read import design_from
from piecewright.measure.length import ZERO, Length, Unit
from piecewright.measure.number import shortened
from piecewright.measure.reading import read_length, read_size
from piecewright.methods import way_names
from piecewright.methods.method import LARGEST
from piecewright.problems import Problem, Refused
from piecewright.toml_places import TomlFile, did_you_mean, read_toml
from piecewright.workroom.file import read_workroom
from piecewright.workroom.workroom import Workroom, default_workroom

_METRIC = re.compile(r"[0-9½⅓⅔¼¾⅛⅜⅝⅞]\s*[cm]m\b", re.IGNORECASE)
_WHOLE = re.compile(r"[+-]?[0-9]{1,30}")


def quilt_and_workroom(quilt: Path, workroom: Path | None) -> tuple[Design, Workroom, list[Problem]]:
    """The design in a file, the workroom for it, and notes; raises Refused with all errors of both files."""
    design, problems = _design(quilt)
    room = None
    if workroom is not None:
        room, wrong = read_workroom(workroom, ways_known())
        problems = [*problems, *wrong]
    errors = [problem for problem in problems if problem.weight == "error"]
    if errors or design is None:
        raise Refused(*problems)
    return design, room or default_workroom(design.unit), problems


def workroom_for(workroom: Path | None, unit: Unit) -> Workroom:
    """The workroom in a file, or the usual one for a unit; raises Refused with all that is wrong in it."""
    if workroom is None:
        return default_workroom(unit)
    room, problems = read_workroom(workroom, ways_known())
    if problems:
        raise Refused(*problems)
    return room


def ways_known() -> tuple[str, ...]:
    """The names of all ways of making units."""
    return way_names()


def is_metric(text: str) -> bool:
    """Whether a size is typed in centimetres or millimetres."""
    return _METRIC.search(text) is not None


@contextmanager
def said_in(option: str) -> Iterator[None]:
    """Whatever is wrong with what an option says is raised as Refused, and names the option."""
    try:
        yield
    except ValueError as error:
        raise Refused(Problem(f"{error}.", option)) from error
    except Refused as refused:
        raise Refused(*(replace(p, where=p.where or option) for p in refused.problems)) from refused


def lengths_from(text: str, unit: Unit) -> tuple[Length, ...]:
    """Lengths with commas between them; raises ValueError for what is none."""
    return tuple(read_length(part, unit) for part in text.split(","))


def on_hand_from(text: str, unit: Unit) -> tuple[OnHand, ...]:
    """Pieces with commas between them: `14 of 10, 3 of 18 x 21, 6 x 9`; raises ValueError for others."""
    return tuple(_piece_on_hand(part.strip(), unit) for part in text.split(","))


def _piece_on_hand(text: str, unit: Unit) -> OnHand:
    number, found, size = text.rpartition(" of ")
    count = count_from(number) if found else 1
    if not 1 <= count <= MOST_PIECES:
        raise ValueError(f"expected from 1 to {MOST_PIECES:,} pieces of a size, got {shortened(number)}")
    width, height = read_size(size, unit)
    if not all(ZERO < side <= LARGEST for side in (width, height)):
        raise ValueError(f"expected pieces with sides above 0, up to {LARGEST}, got {shortened(size)}")
    return OnHand(count, width, height)


def count_from(text: str) -> int:
    """A whole number as typed; raises ValueError for what is none."""
    plain = text.strip()
    if not _WHOLE.fullmatch(plain):
        raise ValueError(f"expected a whole number such as 48, got {shortened(text)}")
    return int(plain)


def _design(path: Path) -> tuple[Design | None, list[Problem]]:
    try:
        file = read_toml(path)
    except Refused as refused:
        return None, list(refused.problems)
    design, problems = design_from(file)
    return design, [*problems, *_unknown_ways(design, file)]


def _unknown_ways(design: Design | None, file: TomlFile) -> list[Problem]:
    """The pinned ways that nobody knows, each with its line."""
    problems = []
    for choice in design.choices if design else ():
        ways = way_names(choice.kind)
        if not any(choice.way == way or choice.way.startswith(f"{way} ") for way in ways):
            path = ("choices", choice.block, choice.kind) if choice.block else ("choices", choice.kind)
            what = f"unknown way {shortened(choice.way)} to make {choice.kind}."
            problems.append(Problem(what, file.where(*path), did_you_mean(choice.way, ways)))
    return problems
