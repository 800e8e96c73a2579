"""`piecewright block`: from a drawing, a quilt file or a name to how a block goes together."""

from pathlib import Path

import pytest

from piecewright.cli.block import tell_block
from piecewright.problems import Refused

ROOT = Path(__file__).parent.parent
DRAWING = ROOT / "examples" / "old-page" / "churn-dash.svg"
THROW = ROOT / "examples" / "harbour-lights.toml"

RING = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">
<rect x="3" y="3" width="3" height="3" fill="#b5532a"/>
<rect x="0" y="0" width="6" height="3" fill="#17263d"/>
<rect x="6" y="0" width="3" height="6" fill="#8fb3a8"/>
<rect x="3" y="6" width="6" height="3" fill="#17263d"/>
<rect x="0" y="3" width="3" height="6" fill="#8fb3a8"/>
</svg>"""


def told(capsys: pytest.CaptureFixture[str], source: object, **more: str) -> str:
    assert tell_block(str(source), **more) == 0
    return capsys.readouterr().out


def test_a_traditional_block_is_told_by_any_of_its_names(capsys):
    words = told(capsys, "Churn Dash")
    assert words.startswith("Churn dash, ")
    assert "replayed: made as drawn" in words
    assert "half-square triangle" in words


def test_a_drawing_is_told_at_the_size_asked_for(capsys):
    words = told(capsys, DRAWING, size="12")
    assert "churn dash, 12 in finished" in words
    assert "It should measure 12 1/2 in." in words


def test_a_ring_says_where_the_first_seam_stops_and_when_it_is_closed(capsys, tmp_path):
    drawing = tmp_path / "ring.svg"
    drawing.write_text(RING, "utf-8")
    words = told(capsys, drawing, size="9")
    assert "leave the rest of that seam open" in words
    assert "close the first seam" in words
    assert "1 partial seam" in words


def test_a_block_of_a_quilt_file_is_told_by_its_key(capsys):
    assert told(capsys, THROW, block="wake").startswith("Wake, 8 in finished")


def test_what_is_written_for_a_drawing_can_be_planned_again(capsys, tmp_path):
    drawing = tmp_path / "ring.svg"
    drawing.write_text(RING, "utf-8")
    told(capsys, drawing, size="9", out=str(tmp_path / "out"))
    assert (tmp_path / "out" / "job-sheet.pdf").read_bytes().startswith(b"%PDF")
    assert "ring, 9 in finished" in told(capsys, tmp_path / "out" / "ring.toml")


def test_a_preference_that_cannot_be_had_is_told_with_its_reason(capsys, tmp_path):
    drawing = tmp_path / "ring.svg"
    drawing.write_text(RING, "utf-8")
    words = told(capsys, drawing, size="9", prefer="foundation")
    assert "not sewn on a foundation" in words
    assert "close the first seam" in words


def test_a_block_that_straight_lines_make_is_sewn_on_paper_when_preferred(capsys):
    words = told(capsys, "churn dash", prefer="foundation")
    assert "replayed: made as drawn" in words
    assert "unit " not in words


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ({"source": DRAWING}, "expected the finished size of the block"),
        ({"source": DRAWING, "size": "twelve"}, "twelve"),
        ({"source": "no such block"}, "no such block"),
        ({"source": THROW}, "Name one: "),
        ({"source": THROW, "block": "wak"}, "Did you mean wake"),
        ({"source": "ohio star", "size": "12"}, "only with a drawing"),
        (
            {"source": "ohio star", "prefer": "glue"},
            "expected full seams, partial seams, set in or foundation",
        ),
        ({"source": "nowhere.svg", "size": "12"}, "nowhere.svg"),
        ({"source": "nowhere.toml"}, "nowhere.toml"),
    ],
)
def test_what_is_wrong_is_told_in_a_sentence(words, sentence):
    with pytest.raises(Refused) as refused:
        tell_block(**{key: str(value) for key, value in words.items()})
    assert sentence in "\n".join(map(str, refused.value.problems))
