"""The workroom file: its lengths carry their unit, its mistakes come all at once, its comments stay."""

from fractions import Fraction
from pathlib import Path

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.measure.in_files import length_from_text, length_to_text
from piecewright.measure.length import Length, inches, mm
from piecewright.problems import Refused
from piecewright.toml_places import toml_from_text
from piecewright.workroom.entries import setting_text, workroom_from
from piecewright.workroom.file import read_workroom, workroom_schema, workroom_text, write_workroom
from piecewright.workroom.settings import PACE, ROUNDINGS, SETTINGS, LengthSetting
from piecewright.workroom.workroom import (
    INCH_WORKROOM,
    METRIC_WORKROOM,
    Pace,
    Workroom,
    default_workroom,
)

DOCS = Path(__file__).parents[1] / "docs" / "workroom.md"


def told(text: str, ways: tuple[str, ...] = ()) -> list[str]:
    _, problems = workroom_from(toml_from_text(text, "w.toml"), ways)
    return [str(problem) for problem in problems]


def said(text: str) -> Workroom:
    workroom, problems = workroom_from(toml_from_text(text, "w.toml"))
    assert problems == []
    return workroom


def test_an_empty_file_is_the_default_workroom_of_its_unit():
    assert said("") == INCH_WORKROOM
    assert said('unit = "cm"') == METRIC_WORKROOM


def test_the_take_up_is_a_quarter_inch_or_seven_and_a_half_millimetres():
    assert INCH_WORKROOM.take_up == inches("1/4")
    assert METRIC_WORKROOM.take_up == mm("7.5")


def test_a_length_with_a_unit_keeps_it_and_a_bare_one_takes_that_of_the_workroom():
    workroom = said('unit = "cm"\nneedle = "6 mm"\nusable_width = 110\nruler_length = "24 in"\ntrim = "½"')
    assert workroom.needle == mm(6)
    assert workroom.usable_width == mm(1100)
    assert workroom.ruler_length == inches(24)
    assert workroom.trim == mm(5)
    assert said("usable_width = 42.5").usable_width == inches("42 1/2")


def test_rounding_gives_the_ruler_in_its_own_unit():
    assert said('rounding = "1/4"').ruler.mark == inches("1/4")
    ruler = said('unit = "cm"\nrounding = "5 mm"').ruler
    assert (ruler.unit, ruler.step) == ("cm", Fraction(5))


def test_numbers_and_lists_are_read():
    workroom = said('spare_strips = 2\nshrinkage = 0.03\nliked = ["geese"]\n[pace]\npress = 8')
    assert (workroom.spare_strips, workroom.shrinkage, workroom.liked) == (2, 0.03, ("geese",))
    assert workroom.pace == Pace(press=8.0)


def test_all_that_is_wrong_is_told_at_once_with_its_line():
    found = told(
        'unit = "cm"\nneelde = 3\nneedle = 0\nfold = -1\nrounding = "1/8 in"\nspare_strips = 1.5\n'
        'shrinkage = 3\nliked = "a"\nease = true\nusable_width = "9 m"\n[pace]\nmark = nan\ncutt = 3'
    )
    assert [sentence.split(":")[1] for sentence in found] == [*"23456789", "10", "12", "13"]
    assert found[0] == "w.toml:2: 'neelde' is no setting. Did you mean needle?"
    assert found[1] == "w.toml:3: expected needle from 0.2 cm to 2.5 cm, got 0 cm."
    assert found[3].startswith(
        "w.toml:5: expected rounding to be one of 1 mm, 2 mm, 5 mm, 10 mm, got 3.175 mm."
    )


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('unit = "feet"', """expected unit = "in" or unit = "cm", got 'feet'"""),
        ("unit = 3", "got 3"),
        ("pace = 3", "expected pace to be a table"),
        ('needle = "1/0"', "needle: expected a length, got '1/0'"),
        ("needle = []", "needle: expected a length, got []"),
        ("needle = inf", "needle: expected a length, got inf"),
        ("usable_width = 4000", "expected usable_width from 4 in to 130 in, got 4000 in"),
        ('rounding = "1/3"', "expected rounding to be one of"),
        ("spare_strips = true", "expected spare_strips to be a whole number from 0 to 20, got true"),
        ("shrinkage = -0.1", "expected shrinkage to be a number from 0 to 0.25, got -0.1"),
        ("liked = [1]", "expected liked to be a list of names, got [1]"),
        ('ease = "1/4"', "expected ease to be at most trim, got ease 1/4 in and trim 1/8 in"),
        (
            'liked = ["a"]\nrefused = ["a"]',
            "w.toml:2: expected a way to be liked or refused, got 'a' in both",
        ),
        ("[[pace]]", "expected pace to be a table"),
        (
            'press_open = "sometimes"',
            """or press_open = "always", got 'sometimes'""",
        ),
        ("press_open = true", 'expected press_open = "never" or'),
    ],
)
def test_each_mistake_is_told_once(text, words):
    [sentence] = told(text)
    assert words in sentence
    assert sentence.startswith("w.toml:")


def test_problems_come_in_the_order_of_the_file():
    found = told('ease = "1/4"\nneelde = 3\nneedle = 0')
    assert [sentence[:8] for sentence in found] == ["w.toml:1", "w.toml:2", "w.toml:3"]


def test_what_is_said_wrongly_is_as_usual_and_the_rest_is_kept():
    workroom, problems = workroom_from(toml_from_text("needle = 0\nusable_width = 42", "w.toml"))
    assert len(problems) == 1
    assert workroom == msgspec.structs.replace(INCH_WORKROOM, usable_width=inches(42))


def test_ways_are_checked_where_they_are_known():
    text = 'liked = ["four",\n "twoo"]'
    assert told(text) == []
    assert told(text, ("two", "four")) == ["w.toml:2: 'twoo' is no way of making units. Did you mean two?"]


def test_a_file_that_is_no_toml_is_one_problem_and_the_usual_workroom(tmp_path):
    path = tmp_path / "w.toml"
    path.write_text("needle = 1/4")
    workroom, [problem] = read_workroom(path)
    assert workroom == INCH_WORKROOM
    assert problem.where == f"{path}:1"
    assert len(read_workroom(tmp_path / "missing.toml")[1]) == 1


@st.composite
def workrooms(draw):
    unit = draw(st.sampled_from(["in", "cm"]))
    usual = default_workroom(unit)

    def length(key):
        least, most = SETTINGS[key].bounds(unit)
        if key == "rounding":
            return draw(st.sampled_from(ROUNDINGS[unit]))
        return least + (most - least) * Fraction(draw(st.integers(0, 64)), 64)

    changed = {
        k: length(k) for k, s in SETTINGS.items() if isinstance(s, LengthSetting) and draw(st.booleans())
    }
    ways = draw(st.lists(st.text(max_size=5), max_size=2, unique=True))
    pace = Pace(press=draw(st.floats(0, 3600)))
    workroom = msgspec.structs.replace(usual, **changed, liked=tuple(ways), pace=pace)
    return msgspec.structs.replace(workroom, trim=max(workroom.trim, workroom.ease))


@given(workrooms())
def test_a_workroom_written_and_read_again_is_the_same(workroom):
    assert said(workroom_text(workroom)) == workroom


@given(workrooms(), workrooms())
def test_a_file_changed_to_another_workroom_reads_as_that_one(one, other):
    assert said(workroom_text(other, workroom_text(one))) == other


@given(workrooms())
def test_a_workroom_goes_into_a_plan_and_back(workroom):
    written = msgspec.json.encode(workroom, enc_hook=length_to_text)
    assert msgspec.json.decode(written, type=Workroom, dec_hook=length_from_text) == workroom


def test_what_did_not_change_keeps_its_words_and_comments(tmp_path):
    path = tmp_path / "w.toml"
    path.write_text('# mine\nneedle = ".25" # measured in May\ntrim = "3/16"\n\n[pace]\ncut = 20\n')
    workroom, _ = read_workroom(path)
    write_workroom(msgspec.structs.replace(workroom, trim=inches("1/4"), fold=inches("1/32")), path)
    assert path.read_text() == (
        '# mine\nneedle = ".25" # measured in May\ntrim = "1/4 in"\nfold = "1/32 in"\n\n[pace]\ncut = 20\n'
    )
    assert [p.name for p in tmp_path.iterdir()] == ["w.toml"]


def test_bare_numbers_are_written_out_when_the_unit_changes():
    text = workroom_text(
        msgspec.structs.replace(INCH_WORKROOM, unit="cm", rounding=mm(1)), "usable_width = 40"
    )
    assert 'usable_width = "1016 mm"' in text


def test_a_file_with_mistakes_is_not_overwritten(tmp_path):
    path = tmp_path / "w.toml"
    path.write_text("neelde = 3")
    with pytest.raises(Refused, match="Did you mean needle"):
        write_workroom(INCH_WORKROOM, path)
    assert path.read_text() == "neelde = 3"


def test_the_schema_describes_every_setting_and_allows_no_other():
    tables = workroom_schema()["$defs"]
    assert set(tables["Workroom"]["properties"]) == {"unit", "pace", *SETTINGS}
    assert set(tables["Pace"]["properties"]) == set(PACE)
    for table in tables.values():
        assert table["additionalProperties"] is False
        assert all(
            "description" in row for key, row in table["properties"].items() if key not in ("unit", "pace")
        )
    assert tables["Workroom"]["properties"]["needle"]["type"] == ["string", "number"]


def test_the_usual_workrooms_are_within_their_own_bounds():
    for workroom in (INCH_WORKROOM, METRIC_WORKROOM):
        assert workroom_from(toml_from_text(workroom_text(workroom), "w.toml")) == (workroom, [])


def test_the_page_on_the_workroom_lists_every_setting_with_its_usual_value():
    page = DOCS.read_text("utf-8")
    for key, setting in SETTINGS.items():
        usual = [_shown(getattr(w, key), w.unit) for w in (INCH_WORKROOM, METRIC_WORKROOM)]
        assert f"| `{key}` | {setting.says} | {usual[0]} | {usual[1]} |" in page
    for key, setting in PACE.items():
        assert f"| `{key}` | {setting.says} | {getattr(Pace(), key):g} |" in page


def _shown(value, unit):
    if isinstance(value, Length):
        return setting_text(value, unit)
    if isinstance(value, str):
        return value
    return f"{value:g}" if isinstance(value, int | float) else "none"
