"""The design file as documented: schema, manual, examples; and no text that breaks the reading."""

import json
import re
from pathlib import Path

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.design import entries
from piecewright.design.draw_quilt import draw_quilt
from piecewright.design.read import design_from
from piecewright.design.schema import design_schema, schema_text
from piecewright.design.tokens import KIND_OF
from piecewright.problems import Refused
from piecewright.toml_places import read_toml, toml_from_text

ROOT = Path(__file__).parents[1]
MANUAL = (ROOT / "docs" / "design-file.md").read_text("utf-8")
EXAMPLES = [path.read_text("utf-8") for path in sorted((ROOT / "examples").glob("*.toml"))]
STRUCTS = [s for s in vars(entries).values() if isinstance(s, type) and issubclass(s, msgspec.Struct)]


def test_the_schema_in_docs_is_the_one_of_the_code():
    """Renew it with `python -m piecewright.design.schema > docs/design-file.schema.json`."""
    assert (ROOT / "docs" / "design-file.schema.json").read_text("utf-8") == schema_text()


def test_every_key_is_in_the_manual():
    keys = {field.encode_name for struct in STRUCTS for field in msgspec.structs.fields(struct)}
    shown = set(re.findall(r"`\[*([a-z_]+)", MANUAL)) | set(
        re.findall(r"^\[*([a-z_]+)[\].= ]", MANUAL, re.MULTILINE)
    )
    assert keys - shown == set()


def test_the_quilt_in_the_manual_and_its_other_pieces_can_be_read():
    whole, pennant, choices = re.findall(r"```toml\n(.*?)```", MANUAL, re.DOTALL)
    for more in ("", pennant, choices):
        design, problems = design_from(toml_from_text(whole + more, "manual.toml"))
        assert design is not None, problems


def test_every_direction_of_a_token_is_in_the_manual():
    assert [way for way in KIND_OF if f"`{way}`" not in MANUAL and f"sky.{way}.sea`" not in MANUAL] == []


def matches(value, schema, whole):
    """A small reading of JSON Schema: the parts that ours uses."""
    if "$ref" in schema:
        return matches(value, whole["$defs"][schema["$ref"].rpartition("/")[2]], whole)
    if "anyOf" in schema:
        return any(matches(value, option, whole) for option in schema["anyOf"])
    if "enum" in schema:
        return value in schema["enum"]
    kind = schema["type"]
    if kind == "object":
        known, more = schema.get("properties", {}), schema.get("additionalProperties", True)
        return (
            isinstance(value, dict)
            and set(schema.get("required", [])) <= value.keys()
            and all(
                matches(v, known[k], whole) if k in known else more is not False and matches(v, more, whole)
                for k, v in value.items()
            )
        )
    if kind == "array":
        return isinstance(value, list) and all(matches(v, schema["items"], whole) for v in value)
    if isinstance(value, bool) or kind == "boolean":
        return isinstance(value, bool) and kind == "boolean"
    if isinstance(value, int | float) and value < schema.get("minimum", value):
        return False
    return isinstance(value, {"string": str, "integer": int, "number": int | float, "null": type(None)}[kind])


@pytest.mark.parametrize("path", sorted((ROOT / "examples").glob("*.toml")), ids=lambda p: p.stem)
def test_an_example_keeps_to_the_schema_and_a_changed_one_does_not(path):
    schema = json.loads(json.dumps(design_schema()))
    data = read_toml(path).data
    assert matches(data, schema, schema)
    assert not matches({**data, "titel": "x"}, schema, schema)
    assert not matches({**data, "setting": {**data["setting"], "across": 0}}, schema, schema)
    assert not matches({k: v for k, v in data.items() if k != "blocks"}, schema, schema)


def test_every_example_has_a_reason_and_remarks_that_teach():
    for text in EXAMPLES:
        assert re.search(r'^reason = "\w.{20,}"$', text, re.MULTILINE)
        assert text.count("#") > 3


SIGNS = st.sampled_from(
    [
        *"-:.#\"'[]{}=, \n\t\\0179x",
        "nan",
        "inf",
        "-1",
        "1e9",
        "true",
        "1/0",
        "½",
        "𝟙",
        "\u0000",
        "\ud7ff",
        "sky.nw.sea",
        ".right",
        '"""',
        "[[borders]]\n",
        "[roles.night]\n",
        "sqrt 2",
        "999999999999999999999",
        "1970-01-01",
        "width",
        "picture",
        "[blocks.light]\n",
    ]
)


@st.composite
def mangled(draw):
    text = draw(st.sampled_from(EXAMPLES))
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(text)))
        cut = draw(st.integers(0, 12))
        text = text[:at] + draw(SIGNS | st.text(max_size=3)) + text[at + cut :]
    return text


@settings(max_examples=400)
@given(mangled())
def test_a_mangled_file_gives_a_design_or_problems_and_never_a_traceback(text):
    try:
        file = toml_from_text(text, "mangled.toml")
    except Refused:
        return
    design, problems = design_from(file)
    assert all(str(p).startswith("mangled.toml:") for p in problems)
    if design is None:
        assert any(p.weight == "error" for p in problems)
    else:
        draw_quilt(design)


VALUES = st.recursive(
    st.none().map(lambda _: "x")
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.sampled_from(["sky", "4", "b", "a.n.b"]),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(["a", "role", "corners", "hst"]), inner, max_size=3)
    ),
    max_leaves=5,
)


def swap(data, draw):
    """The data with one value somewhere in it changed for any other."""
    if isinstance(data, dict | list) and data and draw(st.integers(0, 3)):
        key = (
            draw(st.sampled_from(sorted(data)))
            if isinstance(data, dict)
            else draw(st.integers(0, len(data) - 1))
        )
        copy = data.copy()
        copy[key] = swap(data[key], draw)
        return copy
    return draw(VALUES)


@settings(max_examples=300)
@given(st.data(), st.sampled_from(EXAMPLES))
def test_any_value_in_any_place_gives_a_design_or_problems(data, text):
    file = toml_from_text(text, "q.toml")
    changed = swap(file.data, data.draw)
    if not isinstance(changed, dict):
        return
    design, problems = design_from(type(file)("q.toml", changed, file.lines, file.text_lines))
    assert (design is None) == any(p.weight == "error" for p in problems)
