"""Supplies of a cutting list: what they may say, what is said of mistakes, and what is cut from them."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from piecewright.cutting.given.checking import check_from_shelf
from piecewright.cutting.given.cloth import Given
from piecewright.cutting.lists.cut_fabric import CutFabric
from piecewright.cutting.lists.cut_list import cut_all, missing_stand_ins
from piecewright.cutting.lists.file import read_list
from piecewright.cutting.lists.least import least_pieces
from piecewright.cutting.lists.listed import CuttingList
from piecewright.cutting.wishes import CuttingWish
from piecewright.measure.length import inches, mm
from piecewright.problems import Refused
from piecewright.workroom.workroom import Workroom

SQUARES = 'items = [{name = "squares", w = 5, h = 5, count = 20}]\n'
WISH = CuttingWish(effort=20_000)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def listed(text: str, room: Workroom | None = None, width: str | None = None) -> CuttingList:
    Path("list.toml").write_text(text, "utf-8")
    return read_list("list.toml", width, None, room)


def cut(text: str, *shelf: Given) -> tuple[CutFabric, ...]:
    """The fabrics as they are cut; each of them checked."""
    done = cut_all(listed(text), shelf, WISH)
    for one in done:
        assert check_from_shelf(one.cut, one.fabric.demands, one.offered) == []
    return done


def told(text: str, *shelf: Given) -> list[str]:
    with pytest.raises(Refused) as refused:
        cut(text, *shelf)
    return [str(problem) for problem in refused.value.problems]


def on_shelf(fabric: str, size: str, count: int) -> Given:
    width, height = (inches(side) for side in size.split(" x "))
    return Given(f"{fabric} {size} in", width, height, count, fabric)


def used(one: CutFabric) -> dict[str, int]:
    return dict(one.cut.count_used)


def sizes(text: str) -> list[tuple[str, float, float, int]]:
    return [(g.name, float(g.width), float(g.height), g.count) for g in listed(SQUARES + text).given]


def test_every_kind_of_cloth_is_read_at_its_usable_size(folder: Path) -> None:
    kinds = ("fat quarter", "fat-eighths", "10 inch squares", "5 in square", "2½ in strips")
    rows = "".join(f'[[supplies]]\nkind = "{kind}"\ncount = 3\n' for kind in kinds)
    # common practice, no source: 18 x 22 in less selvedge and straightening, and so on.
    assert sizes(rows) == [
        ("fat quarter", 20.5, 17.5, 3),
        ("fat eighth", 20.5, 8.5, 3),
        ("10 in square", 10, 10, 3),
        ("5 in square", 5, 5, 3),
        ("2 1/2 in strip", 40, 2.5, 3),
    ]


def test_ones_own_measure_goes_before_the_usual_one(folder: Path) -> None:
    rows = """supplies = [
        {kind = "10 in square", measured = "9 3/4", count = 4},
        {kind = "fat quarter", measured = "21 x 17 3/4", count = 4},
        {kind = "2 1/2 in strip", measured = "2 3/8", count = 4},
        {kind = "2 1/2 in strip", measured = "42 x 2 1/2", count = 4},
        {kind = "piece", width = 40, length = 54},
    ]"""
    assert sizes(rows) == [
        ("10 in square", 9.75, 9.75, 4),
        ("fat quarter", 21, 17.75, 4),
        ("2 1/2 in strip", 40, 2.375, 4),
        ("2 1/2 in strip, 42 x 2 1/2 in", 42, 2.5, 4),
        ("40 x 54 in", 40, 54, 1),
    ]


def test_equal_cloth_is_counted_together(folder: Path) -> None:
    rows = 'supplies = [{kind = "fat quarter", count = 2}, {kind = "fat quarters", count = 5}]'
    assert sizes(rows) == [("fat quarter", 20.5, 17.5, 7)]


@pytest.mark.parametrize(
    ("unit", "price", "step", "of_a_step"),
    [
        ("in", "16", "1/8 yd", Fraction(2)),
        ("in", '"16 a yard"', "1/4 yd", Fraction(4)),
        ("in", '"25.40 / m"', "4 1/2", Fraction(9, 2) * Fraction(254, 10000) * Fraction(2540, 100)),
        ("cm", "14", "10 cm", Fraction(7, 5)),
        ("cm", '"9.14 per yd"', "25.4 cm", Fraction(914, 100) * 10 / 36),
    ],
)
def test_the_price_of_a_yard_or_a_metre_becomes_that_of_a_buying_step(
    folder: Path, unit: str, price: str, step: str, of_a_step: Fraction
) -> None:
    row = f'supplies = [{{kind = "bolt", width = 100, price = {price}, buying_step = "{step}"}}]'
    (bolt,) = listed(f'unit = "{unit}"\n{SQUARES}{row}').bolts
    assert bolt.price == of_a_step


def test_a_bolt_goes_without_saying_where_nothing_else_is_supplied(folder: Path) -> None:
    pieces = 'supplies = [{kind = "fat quarter", count = 9}]\n'
    assert [bolt.supply.usable_width for bolt in listed(SQUARES).bolts] == [inches(40)]
    assert listed(SQUARES + pieces).bolts == ()
    assert [bolt.supply.usable_width for bolt in listed(f"width = 42\n{SQUARES}{pieces}").bolts] == [
        inches(42)
    ]
    assert len(listed(f"may_buy = true\n{SQUARES}{pieces}").bolts) == 1
    assert len(listed(SQUARES + pieces, width="41").bolts) == 1


def test_the_workroom_says_what_is_usual_and_the_list_goes_before_it(folder: Path) -> None:
    room = Workroom(
        usable_width=inches(42),
        ruler_length=inches(18),
        buying_step=inches(9),
        shrinkage=0.05,
        spare_strips=2,
    )
    (bolt,) = listed(f"spare_strips = 0\n{SQUARES}", room).bolts
    supply = bolt.supply
    assert (supply.usable_width, supply.ruler_length, supply.buying_step) == (
        inches(42),
        inches(18),
        inches(9),
    )
    assert (supply.shrinkage, supply.spare_strips, supply.straightening) == (0.05, 0, inches(2))


def test_supplies_at_the_top_are_for_the_fabric_they_name(folder: Path) -> None:
    text = f"""
[[fabric]]
name = "sail"
{SQUARES}
[[fabric]]
name = "tide"
{SQUARES}
[[supplies]]
fabric = "tide"
kind = "fat quarter"
count = 9
[[supplies]]
kind = "bolt"
width = 43
"""
    made = listed(text)
    assert [given.fabric for given in made.given] == ["tide"]
    # A bolt that names no fabric is there in all of them.
    assert [(bolt.fabric, bolt.supply.usable_width) for bolt in made.bolts] == [
        ("sail", inches(43)),
        ("tide", inches(43)),
    ]


@pytest.mark.parametrize(
    ("row", "sentence"),
    [
        (
            'kind = "fat quater"\ncount = 3',
            "list.toml:3: expected kind to be a kind of cloth, got 'fat quater'. Did you mean fat quarter?",
        ),
        (
            'kind = "fat quarter"',
            "list.toml:2: expected a count of the fat quarters, got none."
            " Write count = ... for those on hand, pack = ... for those that may be bought.",
        ),
        (
            'kind = "fat quarter"\ncount = 3\nprice = 4',
            "list.toml:5: expected a pack for the price, got none."
            " Write pack = ..., how many are bought together: 1 where they are sold singly.",
        ),
        (
            'kind = "10 in square"\ncount = 3\nmeasured = "100 x 10"',
            "list.toml:5: expected a 10 in square to measure up to 10 1/2 x 10 1/2 in, got 100 x 10 in;"
            ' write kind = "piece" for other cloth.',
        ),
        (
            'kind = "5 in square"\ncount = 1000000',
            "list.toml:4: expected count to be a whole number from 0 to 100,000, got 1000000.",
        ),
        (
            'kind = "5 in square"\npack = 42\nprice = "cheap"',
            "list.toml:5: expected price to be an amount above 0 such as 12.50, got 'cheap'.",
        ),
        (
            'kind = "bolt"\nprice = "12 a mile"',
            "list.toml:4: expected price to be an amount above 0 such as 12.50 a yard or 14 / m,"
            " got '12 a mile'.",
        ),
        (
            'kind = "bolt"\ncount = 3',
            "list.toml:4: expected a bolt, which is sold by length, got count = 3."
            ' Write kind = "piece" for cloth that is cut off it.',
        ),
        (
            'kind = "piece"\nwidth = 42',
            "list.toml:2: expected a height for the piece of cloth, got none."
            " Write height = ..., what can be used along the selvedge.",
        ),
        (
            'kind = "piece"\nwidth = 0\nheight = 3',
            "list.toml:4: expected width from 1/8 in to 200 in, got 0 in.",
        ),
        (
            'fabric = "sale"',
            "list.toml:3: expected a fabric of this list or a stand-in for one, got 'sale'."
            " Known here: cloth.",
        ),
    ],
)
def test_mistakes_in_supplies_are_told_with_their_line(folder: Path, row: str, sentence: str) -> None:
    assert told(f"{SQUARES}[[supplies]]\n{row}") == [sentence]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        (
            'supplies = [{kind = "5 in square", count = 7}]',
            "cloth 'cloth', the cloth on hand: expected at least 500 square in of cloth for the pieces,"
            " got 175 square in, 325 square in too little."
            " 13 more of 5 x 5 in would do, or let the rest be bought.",
        ),
        (
            'supplies = [{kind = "piece", width = 9, height = 9, count = 16}]',
            "cloth 'cloth', the cloth on hand: expected room for 20 pieces, found it for 16:"
            " 4 of 'squares' are left over. 4 more of 9 x 9 in would do, or let the rest be bought.",
        ),
        (
            'supplies = [{kind = "10 in square", pack = 2, most = 2}]',
            "cloth 'cloth', the cloth that may be bought: expected room for 20 pieces, found it for 16:"
            " 4 of 'squares' are left over. 3 packs of 2 (10 in square) would do.",
        ),
        (
            "may_buy = false",
            "cloth 'cloth': expected cloth on hand, got none, and nothing may be bought."
            " Put cloth on the shelf or in supplies, or leave may_buy out.",
        ),
        (
            "width = 2\nselvedge = 1",
            "cloth 'cloth': expected cloth wider than its two selvedges of 1 in, got 2 in."
            " Write width as measured over all, or leave selvedge out.",
        ),
        (
            "repeat_across = 24",
            "cloth 'cloth': expected cloth as wide as two repeats of 24 in, got 40 in."
            " One is lost in finding the first motif: cloth 48 in wide would do, or no repeat_across.",
        ),
    ],
)
def test_too_little_cloth_is_told_with_what_would_do(folder: Path, text: str, sentence: str) -> None:
    assert told(f"{text}\n{SQUARES}") == [sentence]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("one_way = true", "the print is one-way"),
        ("repeat_along = 1", "the motif is to stand upright"),
    ],
)
def test_a_piece_that_must_not_turn_is_told_the_width_that_would_do(
    folder: Path, text: str, why: str
) -> None:
    assert told(f'{text}\nitems = [{{name = "map", w = 60, h = 30, count = 2}}]') == [
        "cloth 'cloth': expected 'map' to fit across the cloth, 40 in, got 60 x 30 in."
        f" Turned by a quarter it would fit, but {why}."
        " A bolt at least 60 in wide would do; or join it from smaller pieces."
    ]


def test_a_piece_of_whole_repeats_is_told_with_both_its_sizes(folder: Path) -> None:
    # exact: 30 in are three repeats of 12 in; with one to find the motif they need 48 in.
    (sentence,) = told('repeat_across = 12\nitems = [{name = "map", w = 30, h = 50, count = 2}]')
    assert "got 36 x 50 in in whole repeats of the motif (30 x 50 in)" in sentence
    assert "A bolt at least 48 in wide would do" in sentence


def test_pieces_of_cloth_alone_are_answered_with_the_fewest(folder: Path) -> None:
    # exact: one 20 1/2 x 17 1/2 in holds 4 x 3 squares of 5 in.
    (one,) = cut('supplies = [{kind = "fat quarter", count = 30}]\n' + SQUARES)
    assert (used(one), least_pieces(one.cut, one.offered), one.cost) == ({"fat quarter": 2}, 2, 0)


def test_the_shelf_is_cut_first_and_only_the_rest_is_bought(folder: Path) -> None:
    (one,) = cut(f"width = 40\n{SQUARES}", on_shelf("cloth", "20 x 5", 3))
    # exact: 12 squares lie on the shelf; 8 more are one strip of 40 in, in two steps of 4 1/2 in.
    assert used(one) == {"cloth 20 x 5 in": 3}
    assert one.cut.bought is not None
    assert (one.cut.bought.length, one.cut.bought.purchase.steps) == (inches(5), 2)
    assert one.cut.cost == one.cut.least_cost


def test_a_stand_in_is_cut_where_ones_own_cloth_is_not_enough(folder: Path) -> None:
    text = f'name = "net"\nstand_ins = ["rope"]\nmay_buy = false\n{SQUARES}'
    own = on_shelf("net", "20 x 5", 5)
    assert used(cut(text, on_shelf("rope", "10 x 10", 9), own)[0]) == {"net 20 x 5 in": 5}
    fewer = on_shelf("net", "20 x 5", 3)
    (one,) = cut(text, fewer, on_shelf("rope", "10 x 10", 9))
    assert set(used(one)) <= {"net 20 x 5 in", "rope 10 x 10 in"}
    assert one.cut.area_used == 500


def test_a_stand_in_that_is_not_there_is_noted(folder: Path) -> None:
    made = listed(f'stand_ins = ["rop", "kelp"]\n{SQUARES}')
    assert [str(note) for note in missing_stand_ins(made, [on_shelf("rope", "10 x 10", 1)])] == [
        "cloth 'cloth': there is no cloth of 'rop' to stand in for it. Did you mean rope?",
        "cloth 'cloth': there is no cloth of 'kelp' to stand in for it.",
    ]
    assert cut(f'stand_ins = ["kelp"]\n{SQUARES}')[0].cut.bought is not None


def test_the_cheaper_of_two_bolts_is_bought(folder: Path) -> None:
    bolts = """
[[supplies]]
width = 40
price = 20
[[supplies]]
fabric = "rope"
width = 40
price = 9
"""
    (one,) = cut(f'name = "net"\nstand_ins = ["rope"]\n{SQUARES}{bolts}')
    assert one.cut.bought is not None
    # exact: three strips of 5 in are four steps of 4 1/2 in, half a yard.
    assert (one.cut.bought.key, one.cost) == ("rope", Fraction(9, 2))


def test_no_piece_of_cloth_is_given_to_two_fabrics(folder: Path) -> None:
    text = f"""
[[fabric]]
name = "net"
stand_ins = ["rope"]
{SQUARES}
[[fabric]]
name = "rope"
{SQUARES}
"""
    net, rope = cut(text, on_shelf("rope", "20 x 5", 7))
    together = net.cut.count_used + rope.cut.count_used
    assert together["rope 20 x 5 in"] <= 7
    assert net.cut.bought is not None or rope.cut.bought is not None


def test_what_one_fabric_leaves_serves_the_next(folder: Path) -> None:
    text = """
may_buy = false
[[fabric]]
name = "net"
stand_ins = ["rope"]
items = [{name = "small", w = 5, h = 5, count = 8}]
[[fabric]]
name = "rope"
items = [{name = "large", w = 20, h = 40, count = 1, may_turn = false}]
"""
    net, rope = cut(text, on_shelf("rope", "20 x 50", 1))
    assert used(rope) == {"rope 20 x 50 in": 1}
    assert used(net) == {"rope 20 x 10 in, left of rope": 1}
    # It is cut up, so it is not told as worth keeping any more.
    assert rope.cut.leftovers == ()


def test_packs_are_bought_where_they_cost_less(folder: Path) -> None:
    rows = """
[[supplies]]
kind = "bolt"
width = 40
price = 36
[[supplies]]
kind = "10 in square"
pack = 2
price = {}
"""
    # exact: by length half a yard, 18.00; in squares five, three packs.
    (cheap,) = cut(SQUARES + rows.format(5))
    assert ([number for _, number in cheap.cut.packs], cheap.cut.bought, cheap.cost) == ([3], None, 15)
    (dear,) = cut(SQUARES + rows.format(7))
    assert (dear.cut.packs, dear.cost) == ((), 18)


def test_cloth_cut_on_the_repeat_is_not_squared_up_between_strips(folder: Path) -> None:
    """A strip that is squared up moves the motif of all that follow."""
    (plain,) = listed(f"squaring = 1\n{SQUARES}").fabrics
    (motif,) = listed(f"squaring = 1\nrepeat_along = 6\n{SQUARES}").fabrics
    assert (plain.bolt.squaring, motif.bolt.squaring) == (inches(1), inches(0))


def test_a_repeat_is_lost_each_way_on_every_piece_of_cloth(folder: Path) -> None:
    text = "repeat_across = 6\nrepeat_along = 6\nitems = [{w = 5, h = 5, count = 4}]\n"
    # exact: four motifs of 6 x 6 in take 12 x 12 in, and up to 6 in go each way before the first.
    (one,) = cut(f"{text}supplies = [{{width = 18, height = 18}}]")
    assert sum(used(one).values()) == 1
    assert "12 square in too little" in told(f"{text}supplies = [{{width = 17, height = 18}}]")[0]


def test_centimetres_are_right_to_the_millimetre(folder: Path) -> None:
    text = """
unit = "cm"
items = [{w = 6.7, h = 6.7, count = 35}, {w = 20.3, h = 6.7, count = 1}]
supplies = [{kind = "bolt", width = 110, selvedge = 1, buying_step = "10 cm", price = 12}]
"""
    (one,) = cut(text)
    assert one.cut.bought is not None
    # exact: 16 squares of 6.7 cm are 107.2 of 108 cm; 35 squares and 20.3 cm are three strips.
    assert one.cut.bought.usable_width == mm(1080)
    assert (one.cut.bought.length, one.cut.bought.buy, one.cost) == (mm(201), mm(300), Fraction(36, 10))


SIDES = st.integers(4, 30).map(lambda halves: f"{halves / 2}")
PIECES = st.lists(st.tuples(SIDES, SIDES, st.integers(1, 12)), min_size=1, max_size=3)
CLOTH = st.lists(st.tuples(st.sampled_from(["net", "rope"]), SIDES, SIDES, st.integers(1, 6)), max_size=4)


@settings(max_examples=10, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(net=PIECES, rope=PIECES, cloth=CLOTH, motif=st.sampled_from(["", "repeat_across = 2\n"]))
def test_no_more_cloth_is_used_than_there_is(
    folder: Path,
    net: list[tuple[str, str, int]],
    rope: list[tuple[str, str, int]],
    cloth: list[tuple[str, str, str, int]],
    motif: str,
) -> None:
    text = "width = 40\n"
    for name, pieces, more in (("net", net, f'stand_ins = ["rope"]\n{motif}'), ("rope", rope, "")):
        rows = ", ".join(f"{{w = {w}, h = {h}, count = {n}}}" for w, h, n in pieces)
        text += f'[[fabric]]\nname = "{name}"\n{more}items = [{rows}]\n'
    for fabric, w, h, count in cloth:
        text += f'[[supplies]]\nfabric = "{fabric}"\nwidth = {w}\nheight = {h}\ncount = {count}\n'
    there = {given.name: given.count for given in listed(text).given}
    done = cut(text)
    together = sum((one.cut.count_used for one in done), Counter())
    assert {name: n for name, n in together.items() if n > there.get(name, n)} == {}


@pytest.mark.parametrize(
    ("squares", "size", "width", "length", "source"),
    [
        (224, "2 1/2", 40, "35", "36 in give 224: quilterscache.com MathChartsPage and floor rule"),
        (42, "6", 42, "36", "36 in give 42: floor rule"),
        (24, "5", 42, "15", "18 in give 24, where a printed chart says 28 by halving: floor rule"),
        (56, "6 1/2", 42, "65", "K. Childress worked example (cortezquiltcompany.com)"),
        (63, "9 1/2", 42, "152", "quiltingboard.com 6228687"),
        (80, "2 1/2", 40, "12 1/2", "featheredstar.wordpress.com FAQs"),
    ],
)
def test_worked_yardages_come_out(
    folder: Path, squares: int, size: str, width: int, length: str, source: str
) -> None:
    (one,) = cut(f'width = {width}\nitems = [{{w = "{size}", h = "{size}", count = {squares}}}]')
    assert one.cut.bought is not None
    assert one.cut.bought.length == inches(length), source
    (more,) = cut(f'width = {width}\nitems = [{{w = "{size}", h = "{size}", count = {squares + 1}}}]')
    assert more.cut.bought is not None
    full = squares % (inches(width) // inches(size)) == 0
    assert (more.cut.bought.length > inches(length)) == full


@pytest.mark.parametrize(
    ("cloth", "size", "most"),
    [
        # floor rule: nine squares of 5 1/2 in from a true 18 x 21 in with nothing to square up.
        ("{width = 21, height = 18}", "5 1/2", 9),
        # floor rule: 16 squares of 2 1/2 in from 10 in with nothing to trim; trued to 9 7/8 in it gives 9.
        ('{kind = "10 in square", count = 1}', "2 1/2", 16),
        ('{kind = "10 in square", count = 1, measured = "9 7/8"}', "2 1/2", 9),
    ],
)
def test_a_piece_of_cloth_gives_as_many_squares_as_the_floor_rule_says(
    folder: Path, cloth: str, size: str, most: int
) -> None:
    def text(count: int) -> str:
        return f'items = [{{w = "{size}", h = "{size}", count = {count}}}]\nsupplies = [{cloth}]'

    assert sum(used(cut(text(most))[0]).values()) == 1
    assert told(text(most + 1))


def test_what_shrinks_is_bought_longer(folder: Path) -> None:
    """L / (1 - p): for 3 yd after 5 per cent 3.157895 yd (dimensional change as in ISO 5077, AATCC TM135)."""
    text = 'shrinkage = "5 %"\nbuying_step = "1/8"\nitems = [{w = 40, h = 108, count = 1}]'
    (one,) = cut(text)
    assert one.cut.bought is not None
    needed = float(one.cut.bought.purchase.needed) / 36
    assert needed == pytest.approx(3.157895, abs=1e-6)
    assert one.cut.bought.buy == inches("113 3/4")


def test_a_backing_of_two_panels_takes_both_their_lengths(folder: Path) -> None:
    """60 x 60 in and 4 in on each side, from 42 in cloth: 3.778 yd (panels along and across compared)."""
    (one,) = cut('width = 42\nitems = [{name = "panels", w = 34, h = 68, count = 2, lengthwise = true}]')
    assert one.cut.bought is not None
    assert float(one.cut.bought.length) / 36 == pytest.approx(3.778, abs=1e-3)
