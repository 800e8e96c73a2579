"""`plan`, `replay` and `check`: what they write, what they say, what they leave alone."""

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest

from piecewright.cli import plan as planning
from piecewright.cli.folder import write_folder
from piecewright.cli.main import call
from piecewright.problems import Problem, Refused

EXAMPLES = Path(__file__).parents[1] / "examples"
STAR = EXAMPLES / "sawtooth-star.toml"


@pytest.fixture(scope="module")
def job(tmp_path_factory):
    folder = tmp_path_factory.mktemp("star") / "job"
    assert call(["plan", str(STAR), "--out", str(folder)]) == 0
    return folder


@pytest.fixture
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def everything_in(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_a_job_is_a_job_sheet_pictures_and_a_plan(job):
    files = everything_in(job)
    assert files["job-sheet.pdf"].startswith(b"%PDF")
    assert files["pictures/quilt.svg"].lstrip().startswith(b"<")
    assert {name for name in files if not name.startswith("pictures/")} == {"job-sheet.pdf", "plan.json"}
    plan = json.loads(files["plan.json"])
    assert (plan["version"], plan["patches"], plan["replay"]["made_as_drawn"]) == (1, 17, True)
    assert plan["pressing"].keys() >= {"crossings", "nesting"}
    for cloth in plan["fabrics"]:
        assert cloth["area_bound_in"] <= cloth["length_in"] <= cloth["buy_in"]


def test_the_summary_says_what_a_maker_wants_to_know(here, capsys):
    assert call(["plan", str(STAR)]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert out.splitlines()[:3] == ["Sawtooth star", "12 in finished, 17 patches", "replayed: made as drawn"]
    rows = [re.split(" {2,}", line) for line in out.splitlines()]
    assert ["cloth", "bare minimum", "to buy"] in rows
    assert ["backing", "20 in", "1 1/4 yd"] in rows
    assert ["flying goose, fog and navy", "6 x 3 in", "4", "four at a time"] in rows
    assert out.endswith("Job sheet: sawtooth-star-plan/job-sheet.pdf\n")
    assert (here / "sawtooth-star-plan" / "job-sheet.pdf").exists()


def test_the_paper_is_that_of_the_unit_unless_another_is_named(here, monkeypatch):
    asked = []

    def files(job, paper, sums):
        asked.append((paper, sums))
        return {"job-sheet.pdf": b""}

    monkeypatch.setattr(planning, "job_files", files)
    assert call(["plan", str(STAR)]) == 0
    assert call(["plan", str(EXAMPLES / "metric-nets.toml")]) == 0
    assert call(["plan", str(STAR), "--paper", "a4", "--no-sums"]) == 0
    assert asked == [("letter", True), ("a4", True), ("a4", False)]


def test_a_folder_that_holds_other_things_keeps_them(job, tmp_path):
    folder = tmp_path / "job"
    (folder / "pictures").mkdir(parents=True)
    (folder / "pictures" / "cat.svg").write_text("my cat")
    (folder / "notes.txt").write_text("my notes")
    (folder / "plan.json").write_text("an old plan")
    assert call(["plan", str(STAR), "--out", str(folder)]) == 0
    mine = {"pictures/cat.svg": b"my cat", "notes.txt": b"my notes"}
    assert everything_in(folder) == everything_in(job) | mine


def test_a_quilt_with_mistakes_gets_them_all_with_their_lines_and_nothing_is_written(here, capsys):
    text = STAR.read_text().replace('unit = "in"', 'unit = "ell"').replace("across = 1", "across = 0")
    (here / "star.toml").write_text(text)
    for command in ("plan", "check"):
        assert call([command, "star.toml"]) == 1
        out, err = capsys.readouterr()
        assert out == ""
        lines = err.splitlines()
        assert len(lines) >= 2
        assert all(line.startswith("star.toml:") for line in lines)
        assert 'got "ell"' in err or "got 'ell'" in err
    assert [p.name for p in here.iterdir()] == ["star.toml"]


def test_the_plan_is_made_in_the_workroom_that_is_named(here):
    (here / "room.toml").write_text('needle = "7/32"')
    assert call(["plan", str(STAR), "--workroom", "room.toml", "--out", "job"]) == 0
    assert json.loads((here / "job" / "plan.json").read_text())["workroom"]["needle"] == "7/32 in"


def test_check_looks_at_the_workroom_as_well(here, capsys):
    (here / "room.toml").write_text("ease = 40")
    assert call(["check", str(STAR), "--workroom", "room.toml"]) == 1
    assert capsys.readouterr().err.startswith("room.toml:1: expected ease ")


def test_mistakes_of_quilt_and_workroom_are_told_together(here, capsys):
    (here / "star.toml").write_text("title = 3")
    (here / "room.toml").write_text('needel = "1/4"\nliked = ["six at a time"]')
    assert call(["plan", "star.toml", "--workroom", "room.toml"]) == 1
    err = capsys.readouterr().err
    assert "star.toml:1: " in err
    assert "room.toml:1: 'needel' is no setting. Did you mean needle?" in err
    assert "room.toml:2: " in err
    assert not (here / "star-plan").exists()


@pytest.mark.parametrize("command", ["plan", "check"])
def test_a_pinned_way_that_nobody_knows_is_told_with_its_line(command, here, capsys):
    text = STAR.read_text() + '\n[choices]\ngeese = "four at one time"\n'
    (here / "star.toml").write_text(text)
    assert call([command, "star.toml"]) == 1
    line = text.splitlines().index('geese = "four at one time"') + 1
    expected = (
        f"star.toml:{line}: unknown way 'four at one time' to make geese. Did you mean four at a time?\n"
    )
    assert capsys.readouterr().err == expected


def test_a_plan_that_does_not_replay_is_not_shown(here, capsys, monkeypatch):
    plan_from_shelf = planning.plan_from_shelf

    def badly(design, workroom, shelf):
        made = plan_from_shelf(design, workroom, shelf)
        problem = Problem("a sliver would be trimmed", "step 14 (true up goose)")
        return replace(made, replay=replace(made.replay, made_as_drawn=False, problems=(problem,)))

    monkeypatch.setattr(planning, "plan_from_shelf", badly)
    assert call(["plan", str(STAR), "--out", "job"]) == 3
    out, err = capsys.readouterr()
    assert out == ""
    assert "step 14 (true up goose): a sliver would be trimmed\n" in err
    assert list(here.iterdir()) == []


def test_what_is_in_the_way_is_told_in_a_sentence_and_stays(here, capsys):
    (here / "file").write_text("mine")
    for name in ("with-plan-folder", "with-pictures-file"):
        (here / name).mkdir()
    (here / "with-plan-folder" / "plan.json").mkdir()
    (here / "with-pictures-file" / "pictures").write_text("mine")
    in_the_way = {
        "file": "file",
        "file/job": "file",
        "with-plan-folder": "with-plan-folder/plan.json",
        "with-pictures-file": "with-pictures-file/pictures",
    }
    before = everything_in(here)
    for folder, place in in_the_way.items():
        with pytest.raises(Refused) as refused:
            write_folder(Path(folder), {"plan.json": b"{}", "pictures/quilt.svg": b""})
        assert str(refused.value).startswith(f"{place}: expected a f")
    assert everything_in(here) == before
    assert call(["plan", str(STAR), "--out", " "]) == 1
    assert capsys.readouterr().err == "--out: expected the name of a folder, got nothing.\n"


@pytest.mark.parametrize("there", [True, False])
def test_a_disk_that_fails_leaves_nothing_half_written(there, here, monkeypatch):
    if there:
        (here / "job").mkdir()
        (here / "job" / "plan.json").write_text("an old plan")
    before = everything_in(here)
    write_bytes = Path.write_bytes

    def fails_late(path, content):
        if path.name == "last.svg":
            raise OSError(28, "No space left on device")
        return write_bytes(path, content)

    monkeypatch.setattr(Path, "write_bytes", fails_late)
    with pytest.raises(Refused, match="job: the job cannot be written: No space left on device"):
        write_folder(Path("job"), {"plan.json": b"{}", "last.svg": b""})
    assert everything_in(here) == before
    assert [p.name for p in here.iterdir()] == (["job"] if there else [])


def test_a_new_folder_may_be_read_by_others_as_usual(here):
    (here / "usual").mkdir()
    write_folder(here / "deep" / "job", {"pictures/quilt.svg": b"x"})
    assert everything_in(here) == {"deep/job/pictures/quilt.svg": b"x"}
    assert (here / "deep" / "job").stat().st_mode == (here / "usual").stat().st_mode


def test_a_job_never_leaves_its_folder(here):
    with pytest.raises(ValueError, match="stay in its folder"):
        write_folder(here / "job", {"../plan.json": b""})
    assert list(here.iterdir()) == []


def test_a_replay_says_made_as_drawn_whatever_the_file_says(job, tmp_path, capsys):
    plan = json.loads((job / "plan.json").read_text())
    plan["replay"]["made_as_drawn"] = False
    (tmp_path / "plan.json").write_text(json.dumps(plan))
    assert call(["replay", str(tmp_path / "plan.json"), str(STAR)]) == 0
    steps = len(plan["steps"])
    assert capsys.readouterr() == (
        f"Sawtooth star: replayed: made as drawn ({steps} steps, 17 patches)\n",
        "",
    )


def test_a_plan_broken_by_hand_ends_with_3_and_names_the_step(job, tmp_path, capsys):
    plan = json.loads((job / "plan.json").read_text())
    number = next(i for i, step in enumerate(plan["steps"]) if step["do"] == "true up")
    plan["steps"][number]["width"] = "7 in"
    (tmp_path / "plan.json").write_text(json.dumps(plan))
    assert call(["replay", str(tmp_path / "plan.json"), str(STAR)]) == 3
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(f"step {number + 1} (true up ")
    assert err.endswith("does not make Sawtooth star as drawn.\n")


def test_the_plan_of_another_quilt_ends_with_3(job, capsys):
    assert call(["replay", str(job / "plan.json"), str(EXAMPLES / "slack-water.toml")]) == 3
    assert "76.0000 x 94.0000 in finished was drawn" in capsys.readouterr().err


UNREADABLE = {
    "missing": None,
    "empty": b"",
    "binary": bytes(range(256)),
    "no plan": b"{}",
    "nested": b"[" * 100_000,
    "a quilt": STAR.read_bytes(),
}


@pytest.mark.parametrize("what", UNREADABLE)
def test_a_plan_that_cannot_be_read_ends_with_1_and_one_sentence(what, here, capsys):
    content = UNREADABLE[what]
    if content is not None:
        (here / "plan.json").write_bytes(content)
    assert call(["replay", "plan.json", str(STAR)]) == 1
    out, err = capsys.readouterr()
    assert (out, err.count("\n")) == ("", 1)
    assert err.startswith("plan.json: ")


def test_a_plan_of_another_version_cannot_be_read(job, tmp_path, capsys):
    text = (job / "plan.json").read_text().replace('"version": 1', '"version": 2')
    (tmp_path / "plan.json").write_text(text)
    assert call(["replay", str(tmp_path / "plan.json"), str(STAR)]) == 1
    assert "expected a plan of version 1, got version 2." in capsys.readouterr().err


@pytest.mark.parametrize("what", ["missing", "empty", "binary", "nested", "folder"])
@pytest.mark.parametrize("command", ["plan", "check"])
def test_a_quilt_file_that_cannot_be_read_ends_with_1(command, what, here, capsys):
    content = UNREADABLE.get(what)
    if content is not None:
        (here / "quilt.toml").write_bytes(content)
    elif what == "folder":
        (here / "quilt.toml").mkdir()
    before = sorted(here.iterdir())
    assert call([command, "quilt.toml"]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("quilt.toml:")
    assert sorted(here.iterdir()) == before


def test_check_says_what_a_sound_quilt_is(capsys):
    assert call(["check", str(EXAMPLES / "slack-water.toml")]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert out.splitlines() == [
        "Slack water",
        "76 x 94 in finished, 699 patches",
        "7 x 9 blocks of 9 in",
        "block      count  patches each",
        "Eddy star  31     13",
        "Pebbles    32     9",
    ]


def test_check_counts_the_blocks_that_are_laid(here, capsys):
    text = (
        STAR.read_text()
        + '''
[blocks.plain]
name = "Plain"
size = "12"
picture = """
fog
"""
'''
    )
    (here / "star.toml").write_text(text)
    assert call(["check", "star.toml"]) == 0
    assert capsys.readouterr().out.splitlines()[-2:] == [
        "block          count  patches each",
        "Sawtooth star  1      17",
    ]


def test_a_note_does_not_stop_a_quilt(here, capsys):
    text = STAR.read_text().replace(
        "[fabrics.fog]", '[fabrics.spare]\nname = "spare"\ncolour = "#123456"\n\n[fabrics.fog]'
    )
    (here / "star.toml").write_text(text)
    line = text.splitlines().index("[fabrics.spare]") + 1
    assert call(["check", "star.toml"]) == 0
    out, err = capsys.readouterr()
    assert err == f"star.toml:{line}: note: nothing uses spare.\n"
    assert out.startswith("Sawtooth star\n")
    assert call(["plan", "star.toml"]) == 0
    assert f"- star.toml:{line}: nothing uses spare.\n" in capsys.readouterr().out
