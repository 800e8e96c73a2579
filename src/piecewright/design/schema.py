"""The JSON Schema of the design file, made from its entries.

`python -m piecewright.design.schema > docs/design-file.schema.json` writes it anew.
"""

from __future__ import annotations

from typing import Any

import msgspec

from piecewright.design.entries import DesignEntry


def design_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) that a design file keeps to."""
    schema = msgspec.json.schema(DesignEntry)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "A quilt design", **schema}


def schema_text() -> str:
    """The schema as its file has it."""
    return msgspec.json.format(msgspec.json.encode(design_schema()), indent=2).decode() + "\n"


if __name__ == "__main__":
    print(schema_text(), end="")
