"""What the commands for sizes and redrafting say and write."""

import json
from pathlib import Path

import pytest

from piecewright.cli.fit import fit_quilt
from piecewright.cli.redraft import redraft_quilt
from piecewright.design.model import finished_size
from piecewright.design.read import read_design
from piecewright.measure.length import inches, mm
from piecewright.problems import Refused

EXAMPLES = Path(__file__).parents[1] / "examples"
LIGHTS = EXAMPLES / "harbour-lights.toml"


def fit(quilt=LIGHTS, **said):
    options = ("bed", "width", "height", "drop", "depth", "foot", "tuck", "unit", "take", "out")
    return fit_quilt(quilt, *(said.get(option) for option in options), said.get("as_json", False))


def test_a_bed_is_told_with_its_size_its_source_the_drop_and_the_quilt_it_wants(capsys):
    assert fit(bed="us queen", drop="13") == 0
    told = capsys.readouterr().out
    assert "US queen, 60 x 80 in (shopbedmart.com" in told
    assert "wanted: 86 x 93 in" in told
    assert "1  " in told
    assert "quilted" in told
    assert "washed" in told


def test_the_answer_that_is_taken_is_written_and_has_the_size_that_was_told(tmp_path, capsys):
    assert fit(width="60", height="69", take="2", out=str(tmp_path / "larger.toml")) == 0
    assert "blocks 9 in instead of 8 in" in capsys.readouterr().out
    design, problems = read_design(tmp_path / "larger.toml")
    assert design is not None, problems
    assert finished_size(design) == (inches(60), inches(70))
    assert "# Strips between the blocks" in (tmp_path / "larger.toml").read_text("utf-8")


def test_a_file_that_is_there_is_left_alone(tmp_path):
    place = tmp_path / "larger.toml"
    place.write_text("mine", "utf-8")
    with pytest.raises(Refused, match="left as it is"):
        fit(width="60", height="69", out=str(place))
    assert place.read_text("utf-8") == "mine"


def test_the_figures_for_other_programs(capsys):
    assert fit(width="60", height="69", as_json=True) == 0
    data = json.loads(capsys.readouterr().out)
    assert (data["unit"], data["wanted"]) == ("in", [60, 69])
    assert data["answers"][0]["borders"] == [1, 6]
    assert data["answers"][0]["over"] == [0, 0]


def test_a_quilt_for_a_baby_comes_with_the_caution(capsys):
    fit(bed="baby")
    assert "not to sleep under" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ({}, "expected --bed, or --width and --height"),
        ({"width": "60"}, "expected --bed, or --width and --height"),
        ({"bed": "us queen", "width": "60"}, "expected --bed or --width and --height, got both"),
        ({"width": "60", "height": "69", "drop": "12"}, "--drop: expected --drop only with the --bed"),
        ({"bed": "throw", "tuck": "12"}, "--tuck: expected --tuck only with the --bed"),
        ({"bed": "queen"}, "--bed: expected the country of the queen bed"),
        ({"bed": "us queen", "drop": "wide"}, "--drop: expected a length"),
        (
            {"width": "60", "height": "69", "take": "9", "out": "a.toml"},
            "--take: expected an answer from 1 to",
        ),
        ({"width": "60", "height": "69", "take": "1"}, "--out: expected the name of a file"),
        (
            {"width": "60", "height": "69", "out": "a.txt"},
            "--out: expected the name of a file that ends in .toml",
        ),
    ],
)
def test_a_wrong_call_is_refused_by_its_option(said, told, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(Refused) as refused:
        fit(**said)
    assert str(refused.value).startswith(told)
    assert list(tmp_path.iterdir()) == []


def test_redrafting_tells_each_size_and_writes_the_file(tmp_path, capsys):
    assert redraft_quilt(LIGHTS, None, str(tmp_path / "cm.toml")) == 0
    told = capsys.readouterr().out
    assert "55 x 64 in  138 x 160.5 cm" in told
    assert "7.5 mm" in told
    design, problems = read_design(tmp_path / "cm.toml")
    assert design is not None, problems
    assert (design.unit, finished_size(design)) == ("cm", (mm(1380), mm(1605)))


def test_redrafting_without_a_name_writes_nothing(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert redraft_quilt(LIGHTS, "cm", None) == 0
    assert list(tmp_path.iterdir()) == []


def test_a_quilt_with_a_drawing_is_written_only_beside_the_drawing(tmp_path):
    with pytest.raises(Refused, match="churn-dash"):
        redraft_quilt(EXAMPLES / "old-page" / "old-page.toml", "cm", str(tmp_path / "cm.toml"))
    assert list(tmp_path.iterdir()) == []
