"""The plan as a file: JSON, one step on a line, so that plans can be read and compared.

Beside the plan itself the file may hold a report (what was found when it was made). Reading ignores it:
only the plan counts, and the replay finds everything anew.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import msgspec

from piecewright.bench.plan import PLAN_VERSION, Plan
from piecewright.bench.steps import AnyStep
from piecewright.measure.in_files import length_from_text, length_schema, length_to_text
from piecewright.problems import Problem, Refused

LARGEST = 64 * 2**20

_ENCODER = msgspec.json.Encoder(enc_hook=length_to_text)
_STEP_DECODER: msgspec.json.Decoder[AnyStep] = msgspec.json.Decoder(AnyStep, dec_hook=length_from_text)
_PLAN_DECODER: msgspec.json.Decoder[Plan] = msgspec.json.Decoder(Plan, dec_hook=length_from_text)


def step_text(step: AnyStep) -> str:
    """A step as one line of text.

    >>> from piecewright.bench.steps import CutStrips
    >>> from piecewright.measure.length import inches
    >>> step_text(CutStrips(fabric="sea", height=inches("2 1/2"), count=3, gives="strip"))
    '{"do":"cut strips","fabric":"sea","height":"2 1/2 in","count":3,"gives":"strip"}'
    """
    return _ENCODER.encode(step).decode()


def read_step(line: str) -> AnyStep:
    """The step that `step_text` wrote; raises Refused when the line is no step."""
    try:
        return _STEP_DECODER.decode(line)
    except (msgspec.DecodeError, ValueError) as error:
        raise Refused(Problem(f"expected a step, got {line[:80]!r}: {error}")) from None


def plan_text(plan: Plan, report: Mapping[str, Any] | None = None) -> str:
    """The plan as JSON text with one step on a line; `report` is written before it, for readers."""
    fields = {**msgspec.to_builtins(plan, enc_hook=length_to_text), "version": PLAN_VERSION}
    fields.pop("steps")
    head = {"version": fields.pop("version"), "title": fields.pop("title"), **(report or {}), **fields}
    lines = [f"{_json(key)}: {_json(value)}" for key, value in head.items()]
    steps = ",\n".join(f"  {step_text(step)}" for step in plan.steps)
    return "{\n" + ",\n".join(lines) + ',\n"steps": [\n' + steps + "\n]\n}\n"


def _json(value: Any) -> str:
    return _ENCODER.encode(value).decode()


def plan_from_text(text: str | bytes, name: str = "the plan") -> Plan:
    """The plan in a JSON text; raises Refused, with the place, when it is none."""
    try:
        return _PLAN_DECODER.decode(text)
    except (msgspec.DecodeError, ValueError, ZeroDivisionError, UnicodeDecodeError) as error:
        reason = f"expected a plan of version {PLAN_VERSION}: {error}"
        raise Refused(Problem(reason, name, "Make the plan again with `piecewright plan`.")) from None


def read_plan(path: str | Path) -> Plan:
    """The plan in a file; raises Refused when the file cannot be read or holds no plan."""
    try:
        with Path(path).open("rb") as file:
            text = file.read(LARGEST + 1)
    except OSError as error:
        reason = f"the plan cannot be read: {error.strerror or error}"
        raise Refused(Problem(reason, str(path), "Give the path of a plan.json.")) from None
    if len(text) > LARGEST:
        reason = f"expected a plan of at most {LARGEST // 2**20} MiB, got a larger file"
        raise Refused(Problem(reason, str(path), "Give the path of a plan.json."))
    return plan_from_text(text, str(path))


def plan_schema() -> dict[str, Any]:
    """The JSON Schema of a plan file (without its report)."""
    return msgspec.json.schema(Plan, schema_hook=length_schema)
