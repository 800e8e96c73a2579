"""TOML files: values as tomllib reads them, each with its line, and mistakes told by their place."""

import tomllib

import pytest
import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from piecewright.problems import Refused
from piecewright.toml_places import did_you_mean, nearest, read_toml, toml_from_text

EXAMPLE = '''# A comment with [brackets] and "quotes
title = "Harbour # \\" lights"
a.b = 1
"two words".'x.y' = 3
list = [1, # one
  2,
  [3,
   4], { x = 1, y.z = 2 },
]
[blocks.star]
rows = """
A B
C D = 3
"""
other = \'\'\'x = 1
y\'\'\'
one_line = "z"
quoted = """"A", "B""""
[[borders]]
width = 1

[[borders]]
width = 2
[borders.corner]
size = 3
[[borders.corner.parts]]
when = 1994-01-02T03:04:05
[blocks]
count = 1
'''

LINES = {
    ("title",): 2,
    ("a", "b"): 3,
    ("two words", "x.y"): 4,
    ("list", 0): 5,
    ("list", 1): 6,
    ("list", 2, 1): 8,
    ("list", 3): 8,
    ("list", 3, "y", "z"): 8,
    ("blocks", "star"): 10,
    ("blocks", "star", "rows"): 11,
    ("blocks", "star", "quoted"): 18,
    ("borders", 0, "width"): 20,
    ("borders", 1): 22,
    ("borders", 1, "corner", "size"): 25,
    ("borders", 1, "corner", "parts", 0, "when"): 27,
    ("blocks",): 28,
    ("blocks", "count"): 29,
}


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_every_value_has_its_line(newline):
    file = toml_from_text(EXAMPLE.replace("\n", newline), "quilt.toml")
    assert file.data == tomllib.loads(EXAMPLE)
    assert {path: file.line_of(*path) for path in LINES} == LINES


def test_a_text_says_where_its_first_line_stands():
    file = toml_from_text(EXAMPLE, "quilt.toml")
    assert file.text_line_of("blocks", "star", "rows") == 12
    assert file.text_line_of("blocks", "star", "other") == 15
    assert file.text_line_of("blocks", "star", "one_line") == 17


def test_what_is_missing_stands_where_it_would_belong():
    file = toml_from_text(EXAMPLE, "quilt.toml")
    assert file.where("borders", 1, "colour", "name") == "quilt.toml:22"
    assert file.where("nowhere") == "quilt.toml:1"


keys = st.text(st.characters(codec="utf-8", exclude_categories=["Cs"]), max_size=5)
values = st.recursive(
    st.integers(-9, 9) | st.booleans() | st.text(max_size=6),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(keys, inner, max_size=3),
    max_leaves=8,
)


def paths_of(value, path=()):
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, part in inner:
        yield (*path, key)
        yield from paths_of(part, (*path, key))


@given(st.dictionaries(keys, values, max_size=4))
def test_no_value_of_any_valid_file_is_without_a_line(data):
    text = tomlkit.dumps(data)
    file = toml_from_text(text, "any.toml")
    assert set(file.lines) == set(paths_of(file.data))


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("a = 1\nb =", 2),
        ('a = "x\nb = 1', 1),
        ("a = 1\na = 2", 2),
        ("a = 1\nsize = 2 1/2\nb = 1", 2),
        ("just words", 1),
        ("a = [1\n\n", 1),
        ("\n\n[table\nb = 1", 3),
    ],
)
def test_wrong_syntax_is_told_with_its_line(text, line):
    with pytest.raises(Refused) as caught:
        toml_from_text(text, "quilt.toml")
    [problem] = caught.value.problems
    assert problem.where == f"quilt.toml:{line}"
    assert problem.what.startswith("expected a line such as key = value, got ")


@pytest.mark.parametrize(
    ("text", "said"),
    [("a = " + "[" * 5000, "a few levels of brackets"), ("a = " + "1" * 5000, "got thousands of digits")],
    ids=["brackets", "digits"],
)
def test_a_file_made_to_overwhelm_is_refused(text, said):
    with pytest.raises(Refused, match=said):
        toml_from_text(text, "quilt.toml")


def test_a_file_that_cannot_be_read_is_refused(tmp_path):
    latin = tmp_path / "latin.toml"
    latin.write_bytes("a = 1\nname = 'Möwe'".encode("latin-1"))
    large = tmp_path / "large.toml"
    large.write_bytes(b"# so many words\n" * 70_000)
    for path, said in [
        (tmp_path / "missing.toml", r"missing\.toml: expected a file to read"),
        (tmp_path, "expected a file to read"),
        ("a\0b", "expected a file to read"),
        (latin, r"latin\.toml:2: expected UTF-8 text"),
        (large, "expected at most 1 MiB"),
    ]:
        with pytest.raises(Refused, match=said):
            read_toml(path)


def test_a_byte_order_mark_is_no_mistake(tmp_path):
    path = tmp_path / "mark.toml"
    path.write_bytes(b"\xef\xbb\xbfa = 1")
    assert read_toml(path).data == {"a": 1}


def test_an_unknown_word_is_answered_with_the_nearest_known_one():
    assert nearest("sahsing", ["sashing", "borders"]) == "sashing"
    assert nearest("ROUNDING", ["Rounding"]) == "Rounding"
    assert nearest("xyz", ["sashing"]) is None
    assert did_you_mean("sahsing", ["sashing", "borders"]) == "Did you mean sashing?"
    assert did_you_mean("xyz", ["sashing", "borders"]) == "Known here: sashing, borders."
