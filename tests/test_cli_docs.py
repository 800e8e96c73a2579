"""What docs/commands.md and docs/plan-file.md say is what the commands do.

`python tests/test_cli_docs.py` writes docs/plan-file.schema.json anew.
"""

import json
import re
import shlex
from pathlib import Path

import msgspec
import pytest

from commands import COMMANDS
from piecewright.bench.plan import Plan
from piecewright.bench.plan_file import plan_schema
from piecewright.bench.steps import AnyStep
from piecewright.cli.main import app, call

ROOT = Path(__file__).parents[1]
DOCS = ROOT / "docs"
COMMANDS_PAGE = (DOCS / "commands.md").read_text("utf-8")
PLAN_PAGE = (DOCS / "plan-file.md").read_text("utf-8")
SCHEMA = DOCS / "plan-file.schema.json"


def schema_text() -> str:
    schema = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A quilt plan",
        **tidy(plan_schema()),
    }
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"


def tidy(part):
    """The descriptions come from docstrings; here they are one line."""
    if isinstance(part, dict):
        return {
            k: " ".join(v.split()) if k == "description" and isinstance(v, str) else tidy(v)
            for k, v in part.items()
        }
    return [tidy(item) for item in part] if isinstance(part, list) else part


def commands_in(page: str) -> list[str]:
    return re.findall(r"^(?:\.venv/bin/)?piecewright ([a-z].*?)(?: +#.*)?$", page, re.MULTILINE)


def first_column(table_under: str, page: str) -> set[str]:
    table = page[page.index(table_under) :].split("\n\n|", 1)[1].split("\n\n", 1)[0]
    cells = [row.strip("|").split("|")[0] for row in table.splitlines()[2:]]
    return set(re.findall(r"`([^`]+)`", " ".join(cells)))


def test_the_schema_in_docs_is_the_one_of_the_code():
    assert SCHEMA.read_text("utf-8") == schema_text()


PAGES = {"README.md": (ROOT / "README.md").read_text("utf-8"), "commands.md": COMMANDS_PAGE}
SAID = [(name, line) for name, page in PAGES.items() for line in commands_in(page)]


def test_the_pages_say_enough_commands_to_be_worth_checking():
    assert {line.split()[0] for name, line in SAID if name == "commands.md"} == set(COMMANDS)
    assert len([name for name, _ in SAID if name == "README.md"]) >= 4


@pytest.mark.parametrize(("page", "line"), SAID)
def test_every_command_on_the_pages_can_be_called_like_this(page, line):
    command, _, _ = app.parse_args(shlex.split(line), exit_on_error=False, print_error=False)
    assert command.__name__ == f"{line.split()[0]}_command"


@pytest.mark.parametrize("line", [line for _, line in SAID if line.startswith(("hearsay", "strips --cut"))])
def test_what_is_asked_on_the_pages_is_answered(line, capsys):
    assert call(shlex.split(line)) == 0
    assert capsys.readouterr().out


@pytest.mark.parametrize("line", [line for _, line in SAID if line.startswith("sheet ")])
def test_every_sheet_on_the_pages_is_drawn(line, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert call(shlex.split(line)) == 0
    assert [file.stat().st_size > 500 for file in tmp_path.iterdir()] == [True]


@pytest.mark.parametrize("line", [line for _, line in SAID if line.startswith("unit ")])
def test_every_unit_on_the_pages_can_be_compared(line, capsys):
    assert call(shlex.split(line)) == 0
    assert "Recommended: " in capsys.readouterr().out


def test_the_page_names_every_option():
    options = set()
    for command in COMMANDS:
        options |= {
            name
            for a in app[command].assemble_argument_collection()
            for name in a.names
            if name.startswith("--")
        }
    assert options >= {"--out", "--from"}
    assert [option for option in sorted(options) if option not in COMMANDS_PAGE] == ["--sums"]


def test_the_page_names_every_key_of_the_json(capsys):
    assert call(["unit", "hst", "--finished", "2", "--count", "2", "--json", "--from", "3"]) == 0
    keys = set(json.loads(capsys.readouterr().out)[0])
    assert first_column("### For other programs", COMMANDS_PAGE) == keys


def test_the_page_names_every_field_that_is_read():
    fields = {field.encode_name for field in msgspec.structs.fields(Plan)}
    assert first_column("## What is read", PLAN_PAGE) == fields


def test_the_page_names_every_kind_of_step():
    tags = {str(kind.__struct_config__.tag) for kind in AnyStep.__args__}
    assert first_column("## The steps", PLAN_PAGE) == tags


def test_the_page_names_everything_in_the_report(tmp_path):
    folder = tmp_path / "job"
    assert call(["plan", str(ROOT / "examples" / "sawtooth-star.toml"), "--out", str(folder)]) == 0
    plan = json.loads((folder / "plan.json").read_text("utf-8"))
    report = plan.keys() - {field.encode_name for field in msgspec.structs.fields(Plan)}
    expected = {"patches", "fabrics", "assortments", "notes"}
    expected |= {f"{table}.{key}" for table in ("replay", "pressing", "shelf") for key in plan[table]}
    assert report == {name.split(".")[0] for name in expected}
    assert first_column("## The report", PLAN_PAGE) == expected
    assert all(f"`{key}`" in PLAN_PAGE for key in plan["fabrics"][0])


if __name__ == "__main__":
    SCHEMA.write_text(schema_text(), "utf-8")
