"""The answers of `piecewright fit` as rows of its table, and as figures for other programs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from piecewright.design.model import Design
from piecewright.finishing.shrinking import drawn_in_between, three_sizes
from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.measure.showing import figure
from piecewright.sizing.answer import Answer, Size, Target, size_words
from piecewright.sizing.parity import check_parity

_STEP: dict[Unit, Length] = {"in": inches("1/2"), "cm": mm(10)}


def answer_row(number: int, answer: Answer, design: Design, unit: Unit) -> tuple[str, ...]:
    """An answer as a row: its number, changes, the three sizes, how near it comes, cloth against now."""
    changes = "; ".join(answer.changes) or "nothing: as it is"
    if check_parity(answer.apply(design)):
        changes += " (see the note)"
    little, much = drawn_in_between(answer.size)
    washed = three_sizes(answer.size).washed
    return (
        str(number),
        changes,
        size_words(answer.size, unit),
        answer.off_words(unit),
        f"{_whole(much.quilted, unit)} to {_whole(little.quilted, unit)} {unit}",
        f"about {_whole(washed, unit)} {unit}",
        f"{float(answer.cloth):.2f} times as much",
    )


def answers_data(found: Sequence[Answer], target: Target, unit: Unit) -> dict[str, Any]:
    """The figures; lengths are decimals in the unit of the quilt file."""
    return {
        "unit": unit,
        "wanted": [_number(side, unit) for side in target.size],
        "answers": [_data(answer, unit) for answer in found],
    }


def _data(answer: Answer, unit: Unit) -> dict[str, Any]:
    return {
        "changes": list(answer.changes),
        "fits": answer.fits,
        "block_factor": float(answer.factor),
        "across": answer.across,
        "down": answer.down,
        "sashing": None if answer.sashing is None else _number(answer.sashing, unit),
        "borders": [_number(width, unit) for width in answer.borders],
        "pieced": [_number(side, unit) for side in answer.size],
        "over": [_number(side, unit) for side in answer.over],
        "cloth": round(float(answer.cloth), 4),
    }


def _number(length: Length, unit: Unit) -> float:
    return round(float(length.exact if unit == "in" else length.in_mm / 10), 4)


def _whole(size: Size, unit: Unit) -> str:
    """To half inches or centimetres: more is not known of these."""
    step = _STEP[unit]
    return " x ".join(figure(step * round(side.exact / step.exact), unit) for side in size)
