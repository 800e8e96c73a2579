"""Lengths in files: hooks for msgspec, so that a length stands in a plan or a schema as its text."""

from __future__ import annotations

from typing import Any

import msgspec

from piecewright.measure.length import Length, parse_length


def length_to_text(value: Any) -> str:
    """What msgspec writes for a length: `2 7/8 in`, `67 mm` (give it as `enc_hook`)."""
    if isinstance(value, Length):
        return value.text()
    raise NotImplementedError(f"expected a Length, got {type(value).__name__}")


def length_from_text(kind: type, value: Any) -> Length:
    """The length that msgspec reads (give it as `dec_hook`); raises ValueError when the text is none."""
    if kind is not Length:
        raise NotImplementedError(f"expected a field of kind Length, got {kind.__name__}")
    if not isinstance(value, str):
        raise ValueError(f"expected a length such as '2 7/8 in' or '67 mm', got {value!r}")
    return parse_length(value)


def usually(length: Length) -> Any:
    """A field of a msgspec.Struct that is this length unless another is given.

    A plain `field: Length = inches(2)` works too, but then msgspec cannot make a JSON Schema of the Struct.
    """
    return msgspec.field(default_factory=lambda: length)


def length_schema(kind: type) -> dict[str, Any]:
    """The JSON Schema of a length as plans write it (give it as `schema_hook`)."""
    if kind is not Length:
        raise NotImplementedError(f"expected a field of kind Length, got {kind.__name__}")
    return {
        "type": "string",
        "description": "An exact length, always with its unit.",
        "pattern": r"^-?([0-9]+( [0-9]+/[0-9]+)?|[0-9]+/[0-9]+|[0-9]+\.[0-9]+) (in|mm)$",
        "examples": ["2 7/8 in", "67 mm"],
    }


def typed_length_schema(kind: type) -> dict[str, Any]:
    """The JSON Schema of a length as people type it: text, or a bare number in the unit of the file."""
    return {
        **length_schema(kind),
        "type": ["string", "number"],
        "description": "A length; without a unit of its own it counts in the unit of the file.",
        "pattern": "^[^-]*[0-9½⅓⅔¼¾⅛⅜⅝⅞][^-]*$",
        "examples": ["2 1/2", "2½", "6.5 cm", "65 mm", 2.5],
    }
