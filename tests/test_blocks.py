"""The sampler: every file of a traditional block is sound, found by its names, drawn, told and printed."""

import io
import re
from collections import Counter
from importlib.resources import files
from itertools import combinations

import pypdf
import pytest
from coloraide import Color
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon as Shape

from piecewright.blocks.grid import grid_of
from piecewright.blocks.reading import find, read_traditional, traditional_blocks
from piecewright.blocks.starting import starting_quilt
from piecewright.blocks.traditional import FAMILIES, design_key, plain_name
from piecewright.cli.blocks import facts_of, list_blocks, sheet_blocks
from piecewright.cli.check import check_quilt
from piecewright.cli.endings import WRONG_INPUT, code_of
from piecewright.design.draw_block import draw_block
from piecewright.design.drawing import Patch
from piecewright.design.read import design_from
from piecewright.geometry.isometry import turned
from piecewright.geometry.polygon import area
from piecewright.handout.sampler import sampler_pdf
from piecewright.measure.length import inches, mm
from piecewright.piecing.looks import look, mirror_look
from piecewright.problems import Refused
from piecewright.toml_places import toml_from_text

FILES = sorted(
    file.name.removesuffix(".toml")
    for file in files("piecewright.blocks").iterdir()
    if file.name.endswith(".toml")
)
PENNANT = """name = "Pennant"
aliases = []
family = "four-patch"
about = "A dark pennant."
size = "8"

[fabrics.sea]
colour = "#17263d"

[fabrics.sky]
colour = "#e6e2d8"

[block]
picture = "sea.nw.sky sky"
columns = [1, 1]
rows = [1]
"""


def text_of(key: str) -> str:
    return (files("piecewright.blocks") / f"{key}.toml").read_text("utf-8")


def drawn(key: str):
    block = find(key)
    return draw_block(block.design, block.block.key)


# ---------------------------------------------------------------- the files


def test_there_are_at_least_48_blocks():
    assert len(FILES) >= 48


@pytest.mark.parametrize("key", FILES)
def test_a_file_reads_without_problems_and_notes(key):
    block, problems = read_traditional(text_of(key), key)
    assert problems == []
    assert block is not None
    assert block.key == key


@pytest.mark.parametrize("key", FILES)
def test_the_patches_cover_the_block_and_no_more(key):
    block = find(key).block
    covered = sum(area(patch.outline) for patch in drawn(key).patches)
    assert covered == pytest.approx(float(block.width) * float(block.height), abs=1e-4)


@pytest.mark.parametrize("key", FILES)
def test_every_block_has_two_cloths_at_least_and_all_of_them_are_used(key):
    design = find(key).design
    assert len(design.fabrics) >= 2
    assert {role.key for role in design.roles} == set(design.blocks[0].roles)


@pytest.mark.parametrize("key", FILES)
def test_the_size_is_one_that_a_ruler_shows_and_that_fits_a_lap(key):
    block, unit = find(key).block, find(key).design.unit
    for side in (block.width, block.height):
        assert side % (inches("1/8") if unit == "in" else mm(1)) == inches(0)
        assert inches(4) <= side <= inches(20)


@pytest.mark.parametrize("key", FILES)
def test_touching_cloths_are_told_apart_in_grey(key):
    block = find(key)
    light = {f.key: Color(f.colour).convert("oklch")["lightness"] for f in block.design.fabrics}
    shapes = [(patch.role, Shape(patch.outline)) for patch in drawn(key).patches]
    close = {
        tuple(sorted((a, b)))
        for (a, one), (b, other) in combinations(shapes, 2)
        if abs(light[a] - light[b]) < 0.08 and a != b and one.intersection(other).length > 0.01
    }
    assert close == set()


def test_keys_names_and_aliases_are_each_of_one_block_only():
    counts = Counter(
        name for b in traditional_blocks() for name in {plain_name(n) for n in (b.key, b.name)}
    ) + Counter(plain_name(alias) for b in traditional_blocks() for alias in b.aliases)
    assert [name for name, count in counts.items() if count > 1] == []


@pytest.mark.parametrize("key", FILES)
def test_the_name_of_the_file_is_that_of_the_block(key):
    assert plain_name(key) == plain_name(find(key).name)


def test_names_have_no_numbers_and_sentences_end():
    for block in traditional_blocks():
        assert not re.search(r"\d", " ".join(block.names)), block.key
        assert re.fullmatch(r"[A-Z][^\n]{10,160}\.", block.about), block.key


def picture_key(key: str):
    """What a block shows, whatever its size, its turn, its hand, and whatever its cloths are called."""
    design = find(key).design
    by_light = sorted(design.fabrics, key=lambda f: Color(f.colour).convert("oklch")["lightness"])
    rank = {fabric.key: str(number) for number, fabric in enumerate(by_light)}
    scale = 8 / float(design.block_width)
    patches = [
        Patch(rank[patch.role], tuple((x * scale, y * scale) for x, y in patch.outline))
        for patch in drawn(key).patches
    ]
    return min(look(patches), mirror_look(patches))


def test_no_two_blocks_draw_the_same_picture():
    found: dict[object, list[str]] = {}
    for key in FILES:
        found.setdefault(picture_key(key), []).append(key)
    assert [keys for keys in found.values() if len(keys) > 1] == []


# ---------------------------------------------------------------- what their names promise


def turned_look(key: str, degrees: float):
    """The patches after a turn about the middle, as sets of corners, to be compared place by place."""
    block = find(key).block
    middle = (float(block.width) / 2, float(block.height) / 2)
    turn = turned(degrees)

    def place(point):
        x, y = point[0] - middle[0], point[1] - middle[1]
        return (
            round(turn.cos * x - turn.sin * y, 3) + 0.0,
            round(turn.sin * x + turn.cos * y, 3) + 0.0,
        )

    return sorted((p.role, tuple(sorted(map(place, p.outline)))) for p in drawn(key).patches)


@pytest.mark.parametrize(
    "key",
    ["pinwheel", "friendship-star", "dutchmans-puzzle", "clays-choice", "double-pinwheel"],
)
def test_what_turns_about_its_middle_looks_alike_after_a_quarter_turn_and_has_a_hand(key):
    assert turned_look(key, 0) == turned_look(key, 90)
    assert look(drawn(key).patches) != mirror_look(drawn(key).patches)


@pytest.mark.parametrize(
    "key",
    ["ohio-star", "sawtooth-star", "churn-dash", "shoo-fly", "bears-paw", "storm-at-sea", "sisters-choice"],
)
def test_these_look_alike_in_every_quarter_turn_and_in_a_mirror(key):
    assert turned_look(key, 0) == turned_look(key, 90)
    assert look(drawn(key).patches) == mirror_look(drawn(key).patches)


def test_the_snails_trails_wind_twice_about_the_middle():
    assert turned_look("snails-trail", 0) == turned_look("snails-trail", 180)
    assert turned_look("snails-trail", 0) != turned_look("snails-trail", 90)


@pytest.mark.parametrize(
    ("key", "units"),
    [
        ("ohio-star", {"hourglass": 4}),
        ("sawtooth-star", {"flying goose": 4}),
        ("dutchmans-puzzle", {"flying goose": 8}),
        ("broken-dishes", {"half-square triangle": 16}),
        ("jacobs-ladder", {"four-patch": 5, "half-square triangle": 4}),
        ("card-trick", {"half-square triangle": 4, "three-patch": 4, "square of quarters": 1}),
    ],
)
def test_units_are_found_in_a_block(key, units):
    """Counts from the blocks' usual construction: common practice, no source."""
    assert dict(facts_of(find(key)).units) == units


@pytest.mark.parametrize(
    ("key", "grid"),
    [
        ("ohio-star", (3, 3)),
        ("bears-paw", (7, 7)),
        ("flying-geese", (4, 4)),
        ("card-trick", (3, 3)),
        ("bars", (5, 1)),
        ("hourglass", None),
        ("kaleidoscope", None),
    ],
)
def test_the_grid_is_the_one_that_the_block_is_drawn_on(key, grid):
    assert grid_of(find(key).block) == grid


# ---------------------------------------------------------------- finding


@pytest.mark.parametrize("key", FILES)
def test_a_block_is_found_by_its_key_its_name_and_its_aliases(key):
    block = find(key)
    assert all(find(name).key == key for name in block.names)


@given(st.data())
@settings(max_examples=50, deadline=None)
def test_capitals_spaces_and_punctuation_do_not_matter(data):
    block = data.draw(st.sampled_from(traditional_blocks()))
    name = data.draw(st.sampled_from(block.names))
    written = "".join(
        data.draw(st.sampled_from((sign.lower(), sign.upper())))
        if sign.isalnum()
        else data.draw(st.sampled_from((" ", "-", "_", "", " - ")))
        for sign in name
    )
    assert find(f" {written}").key == block.key


@pytest.mark.parametrize(
    ("written", "do"),
    [
        ("ohoi star", "Did you mean Ohio star?"),
        ("churndish", "Did you mean Churn dash?"),
        ("qqqqqqqq", "`piecewright blocks` lists those there are."),
        ("", "`piecewright blocks` lists those there are."),
    ],
)
def test_a_name_that_nobody_has_is_refused_with_the_nearest(written, do):
    with pytest.raises(Refused) as refused:
        find(written)
    assert [problem.do for problem in refused.value.problems] == [do]


# ---------------------------------------------------------------- broken files


def broken(old: str, new: str) -> list[str]:
    assert old in PENNANT
    block, problems = read_traditional(PENNANT.replace(old, new), "pennant")
    assert block is None
    return [str(problem) for problem in problems]


def test_the_pennant_reads():
    assert read_traditional(PENNANT.replace('"8"', '"8 x 4"'), "pennant")[1] == []


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('family = "four-patch"', 'family = "four-pach"', "pennant.toml:3: expected a family of blocks"),
        ('about = "A dark pennant."\n', "", "about"),
        ("aliases = []", 'aliases = ["Flag", 3]', "pennant.toml:2: "),
        ('size = "8"\n', "", "size"),
        ('size = "8"', 'size = "8 lamps"', "pennant.toml:5: "),
        ('picture = "sea.nw.sky sky"', 'picture = "sea.nw.sly sky"', "pennant.toml:14: "),
        ("[block]", "[blocks]", "expected a section [block], got none."),
        ("[block]", '[block]\nname = "Flag"', "pennant.toml:14: expected name above the sections"),
        ("[block]", "[block", "pennant.toml:13: "),
        ("aliases", "alias", "Did you mean aliases?"),
    ],
)
def test_a_broken_file_is_told_with_its_line(old, new, told):
    assert any(told in problem for problem in broken(old, new)), broken(old, new)


def test_a_patch_that_is_left_out_is_told_as_a_hole():
    text = text_of("card-trick")
    first = next(line for line in text.splitlines() if line.lstrip().startswith("{ role"))
    block, problems = read_traditional(text.replace(f"{first}\n", ""), "card-trick")
    assert block is None
    assert any("hole" in problem.what for problem in problems)


# ---------------------------------------------------------------- a quilt to start from


@pytest.mark.parametrize("key", FILES)
def test_the_quilt_to_start_from_is_sound_and_has_the_same_block(key):
    text = starting_quilt(find(key))
    design, problems = design_from(toml_from_text(text, "start.toml"))
    assert problems == []
    assert design is not None
    assert design.blocks == find(key).design.blocks
    assert (design.setting.across, design.setting.down) == (2, 2)


# ---------------------------------------------------------------- the command


def test_the_list_has_a_line_for_every_block(capsys):
    assert list_blocks() == 0
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) == 1 + len(FILES)
    assert lines[0].split() == ["block", "also", "grid", "patches", "units", "to", "sew"]
    ohio = next(line for line in lines if line.startswith("Ohio star"))
    assert re.search(r"3 x 3 +21 +4 hourglasses ", ohio)


def test_a_family_is_listed_alone(capsys):
    assert list_blocks(family="Strips") == 0
    names = [line.split("  ")[0] for line in capsys.readouterr().out.splitlines()[1:]]
    assert names == [block.name for block in traditional_blocks() if block.family == "strips"]
    assert "Rail fence" in names


def test_one_block_is_told(capsys):
    assert list_blocks("card trick") == 0
    told = capsys.readouterr().out
    assert told.splitlines()[0] == "Card trick"
    assert "12 in finished" in told
    assert "4 half-square triangles, 4 three-patches, 1 square of quarters" in told


def test_a_picture_is_drawn_to_a_file(tmp_path):
    file = tmp_path / "star.svg"
    assert list_blocks("ohio star", to=str(file)) == 0
    svg = file.read_text("utf-8")
    assert svg.count("<polygon") == 21 + 1
    assert "<title>Ohio star</title>" in svg


def test_a_quilt_file_is_written_that_check_accepts(tmp_path, capsys):
    assert list_blocks("dutchman's puzzle", out=str(tmp_path / "new")) == 0
    quilt = tmp_path / "new" / "dutchmans-puzzle.toml"
    assert check_quilt(quilt, None) == 0
    assert "24 in finished, 96 patches" in capsys.readouterr().out


def test_a_quilt_file_that_is_there_is_left_alone(tmp_path, capsys):
    quilt = tmp_path / "ohio-star.toml"
    quilt.write_text("mine", "utf-8")
    assert code_of(lambda: list_blocks("ohio star", out=str(tmp_path))) == WRONG_INPUT
    assert quilt.read_text("utf-8") == "mine"
    assert "found one, which is left as it is" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("call", "told"),
    [
        ({"family": "log cabins"}, "Did you mean log cabin?"),
        ({"to": "star.svg"}, "expected the name of a block with --to, got none."),
        ({"out": "quilt"}, "expected the name of a block with --out, got none."),
        ({"sheet": "sampler.png"}, "expected a file that ends in .pdf"),
        ({"name": "ohio star", "to": "star.png"}, "expected a file that ends in .svg"),
        ({"name": "ohio star", "sheet": "s.pdf"}, "expected --sheet without the name of a block, got both."),
        ({"name": "ohio star", "family": "star"}, "expected --family without the name of a block, got both."),
        ({"name": "ohio sta"}, "Did you mean Ohio star?"),
    ],
)
def test_a_wrong_call_writes_nothing_and_says_what_is_right(call, told, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert code_of(lambda: list_blocks(**call)) == WRONG_INPUT
    printed = capsys.readouterr()
    assert printed.out == ""
    assert told in printed.err
    assert list(tmp_path.iterdir()) == []


# ---------------------------------------------------------------- the sheet


@pytest.fixture(scope="module")
def sheet_words() -> str:
    pdf = sampler_pdf(sheet_blocks(traditional_blocks()))
    return " ".join(
        " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages).split()
    ).replace("’", "'")


def test_the_sheet_shows_every_name_and_family(sheet_words):
    plain = plain_name(sheet_words)
    assert [b.name for b in traditional_blocks() if plain_name(b.name) not in plain] == []
    families = {block.family for block in traditional_blocks()}
    assert [family for family in families if plain_name(family) not in plain] == []


def test_the_sheet_is_the_same_every_time_on_the_paper_that_is_asked_for(tmp_path):
    for paper, size in (("letter", (612, 792)), ("a4", (595, 842))):
        first, second = tmp_path / "a.pdf", tmp_path / "b.pdf"
        for file in (first, second):
            assert list_blocks(family="strips", sheet=str(file), paper=paper) == 0
        assert first.read_bytes() == second.read_bytes()
        page = pypdf.PdfReader(first).pages[0].mediabox
        assert (round(page.width), round(page.height)) == size


def test_families_come_in_their_order_and_names_in_theirs():
    listed = [(FAMILIES.index(block.family), block.name.lower()) for block in traditional_blocks()]
    assert listed == sorted(listed)


def test_a_key_of_a_design_file_has_no_hyphens():
    assert design_key("ohio-star") == "ohio_star"
