"""What is wrong with a design file: all at once, each with its line, and what would be right."""

from pathlib import Path

import pytest

from piecewright.design.read import design_from, read_design
from piecewright.measure.length import inches, mm
from piecewright.toml_places import toml_from_text

GOOD = """title = "Two lamps"
unit = "in"

[fabrics.sky]
colour = "skyblue"

[fabrics.sea]
colour = "seagreen"

[roles.bits]
prints = 4
colours = ["#eee", "#ddd"]

[blocks.lamp]
size = "6"
picture = "sky bits"

[setting]
across = 2
down = 3
arrangement = '''
lamp lamp.half
sea  lamp
'''

[sashing]
width = "1"
role = "sea"
cornerstone = "sky"

[[borders]]
width = 2
role = "bits"

[binding]
role = "sea"
"""


def problems_of(text):
    design, problems = design_from(toml_from_text(text, "quilt.toml"))
    messages = [str(p) for p in problems]
    assert (design is None) == any(p.weight == "error" for p in problems)
    return messages


def changed(old, new):
    assert old in GOOD
    return problems_of(GOOD.replace(old, new))


def test_a_good_file_has_no_problems():
    assert problems_of(GOOD) == []


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ("title =", "titel =", 1, "unknown key 'titel'. Did you mean title?"),
        ('title = "Two lamps"', 'title = " "', 1, "expected a title, got an empty text. Name the quilt."),
        ('title = "Two lamps"', "title = 3", 1, "title: expected a text in quotes, got 3."),
        ('title = "Two lamps"', 'title = "a\\u0007"', 1, "expected a text that can be printed"),
        ('unit = "in"', 'unit = "inch"', 2, 'unit: expected "cm" or "in", got \'inch\'. Did you mean in?'),
        (
            'colour = "skyblue"',
            'color = "skyblue"',
            5,
            "unknown key 'color' in [fabrics.sky]. Did you mean colour?",
        ),
        (
            'colour = "skyblue"',
            "one_way = true",
            4,
            "expected a line colour = ... in [fabrics.sky], got none.",
        ),
        ('"skyblue"', '"skyblu"', 5, "expected a CSS colour such as #1b2a41 or seagreen, got 'skyblu'"),
        ('"skyblue"', '"#87ceeb80"', 5, "expected a CSS colour"),
        (
            '"seagreen"',
            '"seagreen"\nwidth = "2"',
            9,
            "expected a usable width from 4 in to 130 in, got 2 in.",
        ),
        ('"seagreen"', '"seagreen"\none_way = 1', 9, "one_way: expected true or false, got 1."),
        ("[fabrics.sea]", "[fabrics.s-a]", 7, "expected a key of letters, digits and _"),
        ("prints = 4", "prints = 0", 11, "prints: expected a whole number of at least 1, got 0."),
        ("prints = 4", "prints = 1", 12, "expected at most 1 colours for 1 prints, got 2."),
        ("prints = 4", 'fabric = "sea"', 10, "expected either fabric (one cloth) or prints"),
        (
            'prints = 4\ncolours = ["#eee", "#ddd"]',
            'fabric = "see"',
            11,
            "unknown fabric 'see'. Did you mean sea?",
        ),
        (
            'prints = 4\ncolours = ["#eee", "#ddd"]',
            'fabric = "sea"',
            22,
            "row 2, cell 1: sea is a fabric that goes by the role bits here. Write bits.",
        ),
        (
            "[roles.bits]",
            "[roles.sky]",
            10,
            "expected different names for a fabric and a role, got sky for both.",
        ),
        ("[blocks.lamp]", "[blocks.sea]", 14, "expected different names for a block and a role"),
        ('size = "6"', 'size = "0"', 15, "expected a block from 1/8 in to 400 in, got 0 in."),
        ('size = "6"', 'size = "-6"', 15, "expected a block from 1/8 in to 400 in, got -6 in."),
        ('size = "6"', "size = nan", 15, "expected a length, got nan"),
        ('size = "6"', "size = -inf", 15, "expected a length, got -inf"),
        ('size = "6"', "size = 1e9", 15, "expected a length of a few digits, got 1000000000.0"),
        ('size = "6"', "size = 4000", 15, "expected a block from 1/8 in to 400 in, got 4000 in."),
        ('size = "6"', "size = true", 15, "size: expected a finished size"),
        ('size = "6"', 'size = "six"', 15, "expected a length, got 'six'"),
        (
            'picture = "sky bits"',
            "",
            14,
            "expected either a picture or patches for the block lamp, got neither.",
        ),
        (
            'picture = "sky bits"',
            'picture = "sky bits"\ndrafted = 3',
            17,
            "expected drafted only in a block with patches",
        ),
        ("across = 2", "across = 0", 19, "across: expected a whole number of at least 1, got 0."),
        ("across = 2", "across = 1001", 19, "expected at most 1000 blocks across, got 1001."),
        ("across = 2", f"across = {10**30}", 19, "expected at most 1000 blocks across, got far more."),
        ("across = 2", "across = 2.5", 19, "across: expected a whole number of at least 1, got 2.5."),
        ("across = 2\n", "", 18, "expected a line across = ... in [setting], got none."),
        ("lamp lamp.half", "lamp lmap.half", 22, "row 1, cell 2: unknown block 'lmap'. Did you mean lamp?"),
        ("lamp lamp.half", "lamp lamp.haf", 22, "row 1, cell 2: expected a turn left, half or right"),
        (
            "sea  lamp",
            "sea.left lamp",
            23,
            "row 2, cell 1: expected no turn for plain cloth, got 'sea.left'. Write sea.",
        ),
        ("sea  lamp", "sea", 23, "expected 2 cells in row 2, got 1."),
        (
            'width = "1"',
            'width = "1 1/3"',
            27,
            "expected sashing in steps of 1/8 in, got '1 1/3'. Write 1 1/4 in or 1 3/8 in.",
        ),
        ('width = "1"', 'width = "0"', 27, "expected sashing from 1/8 in to 400 in, got 0 in."),
        (
            'role = "sea"\ncornerstone',
            'role = "see"\ncornerstone',
            28,
            "unknown role 'see'. Did you mean sea?",
        ),
        ('cornerstone = "sky"', 'cornerstone = "sk"', 29, "unknown role 'sk'. Did you mean sky?"),
        ("width = 2", "width = true", 32, "width: expected a length"),
        ("width = 2\n", "", 31, "expected a line width = ... in [[borders]] no. 1, got none."),
        ("[[borders]]", "[borders]", 31, "borders: expected sections [[borders]], got a section."),
        ("width = 2", 'width = 2\norder = "sides frist"', 33, "order: expected"),
        ("[binding]", "[[binding]]", 35, "expected a section [binding], got a list."),
        (
            '[binding]\nrole = "sea"',
            '[binding]\nrole = "sea"\nwidth = "20"',
            37,
            "expected binding strips from 1 in to 8 in",
        ),
        (
            '[binding]\nrole = "sea"',
            '[choices]\nhts = "two"',
            36,
            "unknown kind of unit 'hts'. Did you mean hst?",
        ),
        (
            '[binding]\nrole = "sea"',
            '[choices.lapm]\nhst = "two"',
            35,
            "unknown block 'lapm'. Did you mean lamp?",
        ),
        ('[binding]\nrole = "sea"', "[choices.lamp]\nhst = 2", 36, "hst: expected a text in quotes, got 2."),
    ],
)
def test_a_mistake_is_named_with_its_line_and_what_would_be_right(old, new, line, said):
    messages = changed(old, new)
    assert any(m.startswith(f"quilt.toml:{line}: {said}") for m in messages), messages


def test_all_mistakes_come_at_once_and_in_the_order_of_the_file():
    text = GOOD.replace('"skyblue"', '"skyblu"').replace("prints = 4", "prints = 0").replace('"6"', '"0"')
    text = (
        text.replace("lamp.half", "lamp.haf")
        .replace('width = "1"', 'width = "x"')
        .replace("width = 2", "width = nan")
    )
    lines = [int(m.split(":")[1]) for m in problems_of(text)]
    assert lines == [5, 11, 15, 22, 27, 32]


def test_a_faulty_role_is_named_once_and_not_at_each_use():
    messages = changed('prints = 4\ncolours = ["#eee", "#ddd"]', "prints = '4'")
    assert len(messages) == 1
    both = changed('prints = 4\ncolours = ["#eee", "#ddd"]', 'prints = 4\nfabric = "sea"')
    assert len(both) == 1


def test_a_role_of_one_fabric_has_nothing_alike_to_count():
    text = GOOD.replace("[roles.bits]", '[roles.evening]\nfabric = "sky"\nalike = 2\n[roles.bits]')
    assert problems_of(text)[0] == (
        "quilt.toml:12: expected no alike for the role evening, which is one fabric. Leave it out."
    )


def test_a_fabric_that_goes_by_a_role_must_be_called_by_it():
    text = GOOD.replace("[roles.bits]", '[roles.evening]\nfabric = "sky"\n[roles.bits]')
    assert "quilt.toml:18: sky is a fabric that goes by the role evening here. Write evening." in problems_of(
        text
    )


def test_blocks_of_a_setting_have_one_size():
    text = GOOD.replace("[setting]", '[blocks.buoy]\nsize = "7"\npicture = "sky"\n[setting]').replace(
        "sea  lamp", "buoy lamp"
    )
    assert problems_of(text) == [
        "quilt.toml:19: expected all blocks of the setting in one size, got 7 in for buoy and 6 in for lamp. "
        "Give them the same size."
    ]


def test_a_quarter_turn_needs_a_square_block():
    text = GOOD.replace('size = "6"', 'size = "6 x 8"').replace("lamp.half", "lamp.right")
    assert problems_of(text) == [
        "quilt.toml:22: row 1, cell 2: expected a square block for a quarter turn, got lamp, which is "
        "oblong. Write lamp or lamp.half."
    ]
    assert problems_of(GOOD.replace('size = "6"', 'size = "6 x 8"')) == []


def test_a_setting_needs_a_pieced_block():
    text = GOOD.replace("lamp lamp.half", "sea sea").replace("sea  lamp", "sea sky")
    assert any(
        "expected at least one block in the arrangement, got only plain cloth" in m for m in problems_of(text)
    )


def test_missing_sections_are_named():
    assert problems_of('title = "t"\n[fabrics.sky]\ncolour = "navy"\n')[:2] == [
        "quilt.toml:1: expected a section [blocks], got none. "
        "Add a section for each block, such as [blocks.star] with size and picture.",
        "quilt.toml:1: expected a section [setting], got none. "
        "Add across, down and an arrangement of block keys.",
    ]


def test_too_many_patches_and_too_large_a_quilt_are_refused_before_they_are_drawn():
    text = (
        GOOD.replace('size = "6"', 'size = "1/4"')
        .replace("across = 2", "across = 600")
        .replace("down = 3", "down = 500")
    )
    assert any("expected at most 200,000 patches, got 1,422,805." in m for m in problems_of(text))
    messages = changed("across = 2", "across = 800")
    assert any("expected a quilt of at most 4000 in a side" in message for message in messages)


def test_what_nothing_uses_is_a_note_and_no_error():
    design, problems = design_from(
        toml_from_text(GOOD.replace('role = "bits"', 'role = "sea"').replace("sky bits", "sky sea"), "q")
    )
    assert design is not None
    assert [(p.weight, p.what) for p in problems] == [("note", "nothing uses bits.")]


def test_a_finer_ruler_allows_finer_sizes():
    file = toml_from_text(GOOD.replace('width = "1"', 'width = "1 1/16"'), "q")
    assert design_from(file)[0] is None
    assert design_from(file, inches("1/16"))[0] is not None


@pytest.mark.parametrize("content", [b"\xff\xfe", b"title = ", b"", b"\x00", b"a" * 2_000_000])
def test_a_file_that_is_no_design_is_a_problem_and_no_traceback(tmp_path: Path, content):
    (tmp_path / "q.toml").write_bytes(content)
    design, problems = read_design(tmp_path / "q.toml")
    assert design is None
    assert problems


def test_a_file_that_is_not_there_is_a_problem(tmp_path: Path):
    design, problems = read_design(tmp_path / "none.toml")
    assert design is None
    assert len(problems) == 1


def test_hundreds_of_mistakes_are_cut_short():
    rows = "\n".join("sky.x.sea" for _ in range(300))
    messages = changed('picture = "sky bits"', f"picture = '''\n{rows}\n'''")
    assert len(messages) == 101
    assert messages[-1] == "quilt.toml: 200 more come after these."


def test_an_arrangement_that_is_larger_than_the_quilt_is_a_note():
    assert changed("across = 2", "across = 1") == [
        "quilt.toml:21: the arrangement has 2 x 2 blocks, the quilt only 1 x 3. What is beyond is left out."
    ]


def test_a_block_that_is_not_in_the_arrangement_is_a_note():
    text = GOOD.replace("[setting]", '[blocks.buoy]\nsize = "7"\npicture = "sky"\n[setting]')
    assert problems_of(text) == ["quilt.toml:18: the block buoy is not in the arrangement."]


def test_a_misspelt_key_is_not_reported_as_missing_too():
    assert changed("title =", "titel =") == ["quilt.toml:1: unknown key 'titel'. Did you mean title?"]


def test_a_faulty_value_hides_no_other_mistake_of_its_section():
    text = GOOD.replace("across = 2", "across = 0").replace("lamp lamp.half", "lamp lmap")
    text = text.replace('width = "1"', "width = 0\naround = 1").replace("width = 2", 'width = "?"')
    text = text.replace("[binding]", '[[borders]]\nrole = "sky"\n[binding]')
    assert [message.split(":")[1] for message in problems_of(text)] == ["19", "22", "27", "28", "33", "36"]


def test_what_the_finishing_says_is_kept_and_what_it_leaves_out_is_usual():
    more = 'width = "2 1/4"\n[backing]\nmargin = 0\nrole = "sky"\n'
    more += '[choices]\nhst = "two"\n[choices.lamp]\nhst = "four"\n'
    design, _ = design_from(toml_from_text(GOOD + more, "q"))
    assert design.binding.width == inches("2 1/4")
    assert (design.backing.margin, design.backing.role) == (inches(0), "sky")
    assert design.batting.margin == inches(4)
    assert [design.choice("hst", block) for block in (None, "lamp", "other")] == ["two", "four", "two"]
    assert design.choice("geese") is None
    usual, _ = design_from(toml_from_text(GOOD.replace('unit = "in"', 'unit = "cm"'), "q"))
    assert (usual.binding.width, usual.backing.margin, usual.batting.margin) == (mm(65), mm(100), mm(100))


def test_a_kind_of_unit_in_the_choices_of_a_block_is_checked():
    assert problems_of(GOOD + '[choices.lamp]\ngoose = "two"\n') == [
        "quilt.toml:38: unknown kind of unit 'goose'. Did you mean geese?"
    ]
