"""`piecewright hearsay`: a rule of thumb or a printed size, put to the test."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import msgspec

from piecewright.cli.endings import FINE
from piecewright.cli.hearsay_tables import example_rows, overview_rows
from piecewright.cli.hearsay_words import (
    do_words,
    question_words,
    together_words,
    true_words,
    understood,
    verdict_words,
    why_words,
)
from piecewright.cli.reading import workroom_for
from piecewright.cli.telling import show, show_table
from piecewright.measure.length import Unit
from piecewright.measure.showing import show as words
from piecewright.rescue.hearsay import Example, Finding, Hearing, hear
from piecewright.rescue.rule import is_metric_rule
from piecewright.rescue.subject import Meaning
from piecewright.rescue.subjects import subject_named
from piecewright.workroom.workroom import Workroom, default_workroom

DIGITS = 6
TOLD_IN_FULL = 2  # More readings than this are told in one table.


def tell_hearsay(
    subject: str,
    rule: str,
    way: str | None = None,
    means: Meaning | None = None,
    trimmed: bool | None = None,
    sizes: str | None = None,
    workroom: Path | None = None,
    unit: Unit | None = None,
    as_json: bool = False,
) -> int:
    """Puts a rule to the test and tells what it really makes; raises Refused for what cannot be read.

    Sizes count in `unit`; where that is not said, in the unit of the workroom file, or in centimetres where
    the rule or the sizes name them.
    """
    about = subject_named(subject)
    is_metric = is_metric_rule(f"{rule} {sizes or ''}")
    room = _in_unit(workroom_for(workroom, unit or ("cm" if is_metric else "in")), unit)
    hearing = hear(about, rule, room, way=way, means=means, trimmed=trimmed, sizes=sizes)
    if as_json:
        print(json.dumps(hearing_data(hearing, room), indent=2))
        return FINE
    title = about.title or about.name
    show(f"{title[0].upper()}{title[1:]} ({about.gives}): {rule}", "bold")
    if len(hearing.findings) <= TOLD_IN_FULL:
        for one in hearing.findings:
            show()
            _show_finding(hearing, one, room)
    else:
        show()
        show_table(*overview_rows(hearing, room))
        _show_reasons(hearing, room)
    for line in together_words(hearing):
        show()
        show(line, "bold")
    if hearing.is_question:
        show()
        for line in question_words(hearing):
            show(line)
    show()
    show(f"True figures from: {about.source}; a seam takes {words(room.take_up, room.unit)}.")
    return FINE


def _in_unit(room: Workroom, unit: Unit | None) -> Workroom:
    """The workroom with sizes in a unit, rounded on a ruler of that unit."""
    if unit is None or unit == room.unit:
        return room
    return msgspec.structs.replace(room, unit=unit, rounding=default_workroom(unit).rounding)


def _show_finding(hearing: Hearing, one: Finding, room: Workroom) -> None:
    """All of one reading: what was understood, the verdict, the table, the reason, what to do."""
    show(f"Understood: {understood(hearing, one, room.unit)}")
    show(f"Verdict: {verdict_words(hearing, one, room)}", "bold")
    show()
    show_table(*example_rows(hearing, one, room.unit))
    show()
    true = true_words(hearing, one, room)
    if true:
        show(f"Truly: {true}")
    show(f"Why: {why_words(hearing, one, room.unit)}")
    show(f"What to do: {do_words(hearing, one)}")


def _show_reasons(hearing: Hearing, room: Workroom) -> None:
    """The true rule and the reason for every reading, a line each."""
    told: dict[str, str] = {}
    for one in hearing.findings:
        name = ", ".join(word for word in (one.reading.way, one.reading.part) if word)
        true = true_words(hearing, one, room)
        told.setdefault(f"{name}: {f'truly {true}. ' if true else ''}{one.reading.why}", "")
    show()
    show("Why")
    for line in told:
        show(f"- {line}")


def hearing_data(hearing: Hearing, room: Workroom) -> dict[str, Any]:
    """A hearing as other programs read it: lengths in decimal inches, counts as they are.

    `off` below zero is short. `sizes` are as finished or unfinished as `means` says.
    """
    return {
        "subject": hearing.subject.name,
        "rule": hearing.rule.text,
        "unit": room.unit,
        "question": question_words(hearing) if hearing.is_question else [],
        "findings": [_finding_data(hearing, one, room) for one in hearing.findings],
    }


def _finding_data(hearing: Hearing, one: Finding, room: Workroom) -> dict[str, Any]:
    line = one.true_line
    return {
        "way": one.reading.way,
        "part": one.reading.part,
        "means": one.meaning,
        "understood": understood(hearing, one, room.unit),
        "verdict": one.verdict,
        "crossings": [round(size, DIGITS) for size in one.crossings],
        "short": one.short,
        "looked": one.looked,
        "true_rule": line and {"slope": round(line.slope, DIGITS), "add": round(line.add, DIGITS)},
        "reason": why_words(hearing, one, room.unit),
        "do": do_words(hearing, one),
        "examples": [_example_data(example) for example in one.examples],
    }


def _example_data(example: Example) -> dict[str, Any]:
    return {
        "sizes": [round(float(size), DIGITS) for size in example.sizes],
        "given": round(example.given, DIGITS),
        "needed": round(example.needed, DIGITS),
        "off": round(example.off, DIGITS),
        "made": None if example.made is None else round(example.made, DIGITS),
        "made_off": round(example.made_off, DIGITS),
        "standing": example.standing,
        "cut": None if example.cut is None else round(float(example.cut), DIGITS),
    }
