"""`piecewright unit`: the ways compared, in words and for other programs."""

import json
import re

import pytest

from piecewright.cli.main import call

KEYS = [
    "method",
    "makes",
    "start_exact",
    "start",
    "unfinished",
    "before_truing",
    "bias_edges",
    "cloth",
    "offcuts",
    "seams",
    "cuts",
    "minutes",
]


def compared(capsys, *words: str) -> dict[str, dict]:
    assert call(["unit", *words, "--json"]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    return {way["method"]: way for way in json.loads(out)}


def said(capsys, *words: str) -> list[str]:
    assert call(["unit", *words]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    return out.splitlines()


def test_every_way_has_the_promised_keys_in_order_and_the_recommended_one_is_first(capsys):
    for kind, finished in (("hst", "2"), ("hourglass", "4"), ("geese", "4 x 2")):
        ways = list(compared(capsys, kind, "--finished", finished, "--count", "12").values())
        assert [list(way)[: len(KEYS)] for way in ways] == [KEYS] * len(ways)
        assert [way["recommended"] for way in ways] == [True] + [False] * (len(ways) - 1)
        for way in ways:
            for start in (*way["start"], *way["start_exact"]):
                assert start.keys() == {"w", "h", "count"}


def test_an_unfinished_2_and_a_half_starts_from_these_exact_squares(capsys):
    ways = compared(capsys, "hst", "--finished", "2", "--count", "48")
    # exact (plane geometry, seam s = 1/4, unfinished U = 5/2): U, U + sqrt(2)s, sqrt(2)U + 2s, 2U + 2sqrt(2)s
    expected = {
        "one at a time": 2.5,
        "two at a time": 2.853553,
        "four at a time": 4.035534,
        "eight at a time": 5.707107,
    }
    assert {name: ways[name]["start_exact"][0]["w"] for name in expected} == expected
    assert all(way["unfinished"] == [2.5, 2.5] for way in ways.values())


# Published tables. Two at a time: K. Combs, Formulas for Quilters (2002). Eight at a time: American Patchwork
# & Quilting, August 2019.
@pytest.mark.parametrize(
    ("finished", "way", "start"),
    [
        ("1", "two at a time", 1.875),
        ("1 1/2", "two at a time", 2.375),
        ("2½", "two at a time", 3.375),
        ("6", "two at a time", 6.875),
        ("1 1/2", "eight at a time", 4.75),
        ("3", "eight at a time", 7.75),
    ],
)
def test_squares_as_cut_are_the_published_ones(finished, way, start, capsys):
    ways = compared(capsys, "hst", "--finished", finished, "--count", "8")
    assert ways[way]["start"] == [{"w": start, "h": start, "count": 1}] * 2


def test_cloth_seams_and_cuts_are_those_of_whole_batches(capsys):
    way = compared(capsys, "hst", "--finished", "2", "--count", "50")["eight at a time"]
    assert (way["batches"], way["left_over"]) == (7, 6)
    assert way["cloth"] == 7 * 2 * 5.75**2
    assert way["seams"] == 7 * 4
    assert way["before_truing"] == [2.521447, 2.521447]  # exact: 5 3/4 / 2 - sqrt(2) / 4
    assert way["truing"] == "ease"


def test_offcuts_are_what_is_cut_away(capsys):
    ways = compared(capsys, "hst", "--finished", "2", "--count", "48")
    # exact: of each pair of squares 2 1/2, two triangles with legs 2 1/2 - sqrt(2)/4 are cut away
    assert ways["one at a time"]["offcuts"] == pytest.approx(48 * (2.5 - 2**0.5 / 4) ** 2, abs=0.01)
    without = ("two at a time", "four at a time", "eight at a time", "from cut triangles", "grid 3 x 4")
    assert [str(ways[name]["offcuts"]) for name in without] == ["0.0"] * 5


def test_only_ways_sewn_along_the_edges_have_bias_outside(capsys):
    ways = compared(capsys, "hst", "--finished", "2", "--count", "4")
    # common practice, no source: sewn round the edge, or along both edges of strips, all four sides are bias
    bias = {name for name, way in ways.items() if way["bias_edges"]}
    assert bias == {"four at a time", "from sewn strips"}
    assert {ways[name]["bias_edges"] for name in bias} == {4}


def test_4_in_squares_sewn_round_the_edge_come_out_short(capsys):
    words = ("hst", "--finished", "2", "--count", "48", "--from", "4")
    # exact: (4 - 2 x 1/4) / sqrt(2) = 2.474874, of 2 1/2
    made = compared(capsys, *words)["four at a time"]["from"]
    assert made == {"before_truing": [2.474874, 2.474874], "over": -0.025126, "standing": "short"}
    lines = said(capsys, *words)
    assert lines[lines.index("From 4 in") + 3] == (
        "- four at a time: measures 2.4749 in: the units come out 0.0251 in short; "
        "start from 1 square 4 1/8 in of each fabric"
    )


def test_one_way_is_recommended_one_is_the_alternative_and_the_rest_are_more(capsys):
    lines = said(capsys, "hst", "--finished", "2", "--count", "48")
    assert lines[0] == "Half-square triangle, 2 in finished, 2 1/2 in unfinished: 48 wanted"
    heads = [line for line in lines if line.startswith(("Recommended", "Alternative", "More"))]
    ways = list(compared(capsys, "hst", "--finished", "2", "--count", "48"))
    assert heads == [f"Recommended: {ways[0]}", f"Alternative: {ways[1]}", "More"]
    assert lines[3].startswith("  6 batches, each from 1 square 5 3/4 in of each fabric")
    rest = [line.strip().partition(":")[0] for line in lines[lines.index("More") + 1 :][: len(ways) - 2]]
    assert rest == ways[2:]


def test_the_table_has_a_row_for_each_figure_and_a_column_for_each_way(capsys):
    lines = said(capsys, "geese", "--finished", "4 x 2", "--count", "9")
    rows = {line.split("  ")[0]: line for line in lines}
    ways = compared(capsys, "geese", "--finished", "4 x 2", "--count", "9")
    assert rows["at a time"].split()[3:] == [str(way["makes"]) for way in ways.values()][:6]
    assert "1 of 5 1/4, 4 of 2 7/8" in rows["start, as cut (in)"]
    assert "1 of 4 1/2 x 2 1/2, 2 of 2 1/2" in rows["start, as cut (in)"]
    assert "4.5429 x 2.5214" in rows["before truing (in)"]
    assert "3, 3 over" in rows["batches"]
    assert rows["truing"].split()[1:] == [way["truing"] for way in ways.values()][:6]
    for label in (
        "start, exact (in)",
        "bias edges",
        "cloth (sq in)",
        "offcuts (sq in)",
        "seams",
        "cuts",
        "minutes",
    ):
        assert label in rows


def test_starts_of_one_size_are_counted_together_in_the_table(capsys):
    lines = said(capsys, "hst", "--finished", "2", "--count", "48")
    (row,) = [line for line in lines if line.startswith("start, as cut")]
    assert {"2 of 5 3/4", "2 of 2 7/8"} < set(re.split(" {2,}", row))
    (row,) = [line for line in lines if line.startswith("minutes")]
    minutes = [way["minutes"] for way in compared(capsys, "hst", "--finished", "2", "--count", "48").values()]
    assert row.split()[1:] == [f"{round(figure)}" for figure in minutes][:6]


def test_all_shows_every_way(capsys):
    ways = compared(capsys, "hst", "--finished", "2", "--count", "48")
    lines = said(capsys, "hst", "--finished", "2", "--count", "48")
    assert f"The first 6 of {len(ways)} ways; --all shows every one." in lines
    (row,) = [
        line for line in said(capsys, "hst", "--finished", "2", "--count", "48", "--all") if "minutes" in line
    ]
    assert len(row.split()) == 1 + len(ways)


def test_geese_that_are_wide_enough_but_too_low_are_short(capsys):
    words = ("geese", "--finished", "4 x 2", "--count", "4", "--from")
    # exact: squares L and S make geese L - sqrt(2)/2 wide, and the larger of S and L/2 less sqrt(2)/4 high
    made = compared(capsys, *words, "5 1/4, 2 1/2")["four at a time"]["from"]
    assert made["standing"] == "short"
    assert made["over"] == pytest.approx(5.25 / 2 - 2**0.5 / 4 - 2.5, abs=1e-6)
    made = compared(capsys, *words, "5 1/4, 2 7/8")["four at a time"]["from"]
    assert made["over"] == pytest.approx(5.25 - 2**0.5 / 2 - 4.5, abs=1e-6)


def test_a_size_typed_in_centimetres_is_planned_in_millimetres(capsys):
    words = ("hst", "--finished", "5 cm", "--count", "2")
    way = compared(capsys, *words)["two at a time"]
    # exact, seam 7.5 mm: cut minus finished is 25.607 mm (the rule in print, 25 mm, is short)
    assert way["start_exact"][0]["w"] * 25.4 == pytest.approx(50 + 25.607, abs=1e-3)
    assert way["start"][0]["w"] * 25.4 == pytest.approx(76)
    lines = said(capsys, *words)
    assert lines[0] == "Half-square triangle, 5 cm finished, 6.5 cm unfinished: 2 wanted"
    (row,) = [re.split(" {2,}", line) for line in lines if line.startswith("cloth (sq cm)")]
    assert "116" in row  # exact: two squares of 7.6 cm
    assert said(capsys, "hst", "--finished", "5", "--unit", "cm", "--count", "2") == lines


def test_the_workroom_says_the_seam_the_rounding_and_which_ways_one_likes(capsys, tmp_path):
    room = tmp_path / "room.toml"
    room.write_text(
        'needle = "1/4"\nfold = "1/32"\nrounding = "1/4"\n'
        'liked = ["one at a time"]\nrefused = ["eight at a time"]\n'
    )
    words = ("hst", "--finished", "2", "--count", "48", "--workroom", str(room))
    ways = compared(capsys, *words)
    assert next(iter(ways)) == "one at a time"
    assert "eight at a time" not in ways
    assert ways["one at a time"]["unfinished"] == [2.5625, 2.5625]
    assert ways["two at a time"]["start"][0]["w"] % 0.25 == 0
    lines = said(capsys, *words)
    assert "Recommended: one at a time (you like it)" in lines
    assert lines[-2:] == ["Left out", "- eight at a time: your workroom refuses this way."]


def test_a_metric_workroom_shows_centimetres(capsys, tmp_path):
    room = tmp_path / "room.toml"
    room.write_text('unit = "cm"')
    lines = said(capsys, "hst", "--finished", "5", "--count", "2", "--workroom", str(room))
    assert lines[0] == "Half-square triangle, 5 cm finished, 6.5 cm unfinished: 2 wanted"
    assert lines == said(capsys, "hst", "--finished", "50 mm", "--count", "2")


HST = ("hst", "--finished", "2", "--count", "48")
WRONG_WORDS = {
    ("hts", "--finished", "2", "--count", "4"): "kind: unknown kind of unit 'hts'. Did you mean hst?",
    ("plain", "--finished", "2", "--count", "4"): "kind: unknown kind of unit 'plain'.",
    ("hst", "--finished", "0", "--count", "4"): "--finished: a unit of finished 0 in x 0 in cannot be made.",
    ("hst", "--finished", "-2", "--count", "4"): "--finished: a unit of finished -2 in",
    ("hst", "--finished", "-2 1/2", "--count", "4"): "--finished: a unit of finished -2 1/2 in",
    ("hst", "--finished", "nan", "--count", "4"): "--finished: expected a length, got 'nan';",
    ("hst", "--finished", "1e9", "--count", "4"): "--finished: expected a length, got '1e9';",
    ("hst", "--finished", "999999999", "--count", "4"): "--finished: a unit of finished 999999999 in",
    ("hst", "--finished", "", "--count", "4"): "--finished: expected a length, got '';",
    ("hst", "--finished", "2 x 3 x 4", "--count", "4"): "--finished: expected a size such as 2 x 4,",
    (
        "hst",
        "--finished",
        "4 x 2",
        "--count",
        "4",
    ): "--finished: expected a half-square triangle to be square, got 4 in x 2 in",
    (
        "geese",
        "--finished",
        "2",
        "--count",
        "4",
    ): "--finished: a flying goose is twice as wide as it is high, got one",
    (
        "geese",
        "--finished",
        "2 x 4",
        "--count",
        "4",
    ): "--finished: expected a flying goose to be twice as wide",
    ("hst", "--finished", "2", "--count", "0"): "--count: expected from 1 to 100,000 units, got 0.",
    ("hst", "--finished", "2", "--count", "-3"): "--count: expected from 1 to 100,000 units, got -3.",
    (
        "hst",
        "--finished",
        "2",
        "--count",
        "1000000000",
    ): "--count: expected from 1 to 100,000 units, got 1,000,000,000.",
    ("hst", "--finished", "2", "--count", "1e9"): "--count: expected a whole number such as 48, got '1e9'.",
    ("hst", "--finished", "2", "--count", "many"): "--count: expected a whole number such as 48, got 'many'.",
    ("hst", "--finished", "2", "--count", "2.5"): "--count: expected a whole number such as 48, got '2.5'.",
    (
        "hst",
        "--finished",
        "2",
        "--count",
        "-many",
    ): "--count: expected a whole number such as 48, got '-many'.",
    (*HST, "--from", "0"): "--from: expected squares above 0, up to 360 in, got 0 in.",
    (*HST, "--from", "-4"): "--from: expected squares above 0,",
    (
        *HST,
        "--from",
        "2,5",
    ): "--from: a half-square triangle starts from one size, such as 4; got 2. Write a point,",
    (*HST, "--from", "big"): "--from: expected a length, got 'big';",
    (
        "geese",
        "--finished",
        "4 x 2",
        "--count",
        "4",
        "--from",
        "5",
    ): "--from: a flying goose starts from two sizes,",
    (*HST, "--workroom", "no-such-room.toml"): "no-such-room.toml: expected a file to read",
}


@pytest.mark.parametrize("words", WRONG_WORDS)
@pytest.mark.parametrize("more", [[], ["--json"]])
def test_a_wrong_word_ends_with_1_and_one_clear_sentence(words, more, capsys):
    assert call(["unit", *words, *more]) == 1
    out, err = capsys.readouterr()
    assert (out, err.count("\n")) == ("", 1)
    assert err.startswith(WRONG_WORDS[words])
