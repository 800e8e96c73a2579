"""What the job sheet says of an assortment that is shared out over its prints."""

from __future__ import annotations

from piecewright.cutting.given.cloth import precut
from piecewright.cutting.prints.on_hand import share_on_hand
from piecewright.cutting.prints.sharing import share_out
from piecewright.cutting.prints.wish import Batch, Places, PrintsWish
from piecewright.cutting.wanted import Demand, Supply
from piecewright.handout.tell_prints import (
    on_hand_table,
    on_hand_words,
    prints_bought,
    prints_table,
    prints_words,
)
from piecewright.measure.length import inches, mm

BLUES = Supply("blues", inches(40), inches("4 1/2"), straightening=inches(2))
SQUARES = Demand("square", inches("2 1/2"), inches("2 1/2"), 160)


def told(name: str, count: int) -> str:
    return f"{count} {name}{'s' if count > 1 else ''}"


def test_a_row_tells_what_is_cut_and_bought_of_each_print_and_the_last_adds_up() -> None:
    shared = share_out([SQUARES], BLUES, PrintsWish(10))
    # 16 squares of 2 1/2 in fill 40 in; 2 1/2 + 2 in to straighten is an eighth of a yard.
    assert prints_table(shared, told, "in") == (
        ("prints", "from each", "cut", "buy of each"),
        ("10", "16 squares", "1 strip 2 1/2 x 40 in", "1/8 yd, or a 10 in square, or a 2 1/2 in strip"),
        ("10 in all", "160 pieces", "10 strips", "1 1/4 yd"),
    )


def test_metric_cloth_is_told_in_metres() -> None:
    cloth = Supply("blues", mm(1070), mm(100), straightening=mm(50), unit="cm")
    shared = share_out([Demand("square", mm(65), mm(65), 160)], cloth, PrintsWish(10))
    assert prints_table(shared, told, "cm")[1][2:] == ("1 strip 6.5 x 104 cm", "0.2 m, or a fat eighth")


def test_the_words_say_whether_fewer_prints_would_do() -> None:
    enough = share_out([SQUARES], BLUES, PrintsWish(20, 10))
    least = share_out([SQUARES], BLUES, PrintsWish(None, 10))
    assert prints_words(enough, 10, "in")[0] == (
        "Share them out over 20 prints, at most 10 alike from one; as few as 16 would do."
    )
    assert prints_words(least, 10, "in")[0] == (
        "Share them out over 16 prints: fewer could not keep to at most 10 alike from one."
    )
    assert prints_words(share_out([SQUARES], BLUES, PrintsWish(4)), None, "in")[0] == (
        "Share them out over 4 prints: at most 40 alike come from one."
    )


def test_the_words_say_what_the_variety_costs_in_cloth() -> None:
    shared = share_out([SQUARES], BLUES, PrintsWish(10))
    # As one cloth ten strips of 2 1/2 in and 2 in to straighten: 27 in, six eighths of a yard.
    assert prints_words(shared, None, "in")[1] == (
        "10 strips, short ones too, 1 1/4 yd in all; one cloth would take 3/4 yd."
    )
    one = share_out([SQUARES], BLUES, PrintsWish(1))
    assert prints_words(one, None, "in")[1].endswith("3/4 yd in all: no more than one cloth would take.")


def test_the_words_say_whether_alike_ones_touch() -> None:
    three = Demand("square", inches(3), inches(3), 4)
    ring = Places(("square",) * 4, ((0, 1), (1, 2), (2, 3), (3, 0)))
    shared = share_out([three], BLUES, PrintsWish(2, places=ring))
    assert "no two alike touch" in prints_words(shared, None, "in")[2]
    # Sets of three alike in a ring of four places: two of them always touch.
    parted = share_out([three], BLUES, PrintsWish(2, None, {"square": Batch(together=3)}, ring))
    assert "Alike ones may still meet in 2 places" in prints_words(parted, None, "in")[2]


def test_the_shopping_list_says_how_much_of_each() -> None:
    large = Demand("large", inches("7 3/4"), inches("7 3/4"), 2)
    shared = share_out([SQUARES, large], BLUES, PrintsWish(10))
    assert prints_bought(shared, "in") == "10 prints, 1 3/4 yd in all; of each 1/8 yd to 3/8 yd"
    assert prints_bought(share_out([SQUARES], BLUES, PrintsWish(1)), "in") == "1 print, 3/4 yd"


def test_of_several_prints_the_words_say_that_the_picture_shows_one_cloth() -> None:
    words = "The lines and the picture show all of it as one cloth."
    assert words in prints_words(share_out([SQUARES], BLUES, PrintsWish(2)), None, "in")
    assert words not in prints_words(share_out([SQUARES], BLUES, PrintsWish(1)), None, "in")


def test_nothing_cut_is_nothing_told() -> None:
    shared = share_out([], BLUES, PrintsWish(3))
    assert (prints_words(shared, 2, "in"), prints_table(shared, told, "in")) == ((), ())
    assert prints_bought(shared, "in") == ""


def test_prints_on_hand_are_named_with_the_cloth_that_is_cut() -> None:
    there = [precut("fat quarter", 1, fabric) for fabric in ("dusk", "dawn", "noon")]
    large = Demand("square", inches(5), inches(5), 30)
    wish = PrintsWish(None, 12)
    result = share_on_hand([large], there[:2], wish, "blues", BLUES)
    assert on_hand_table(result, told, "in") == (
        ("print", "pieces", "cut from"),
        ("dusk", "12 squares", "1 of 20 1/2 x 17 1/2 in"),
        ("dawn", "12 squares", "1 of 20 1/2 x 17 1/2 in"),
    )
    assert on_hand_words(result, 12, "in", 2) == (
        "Take 2 prints of the 2 on hand, at most 12 alike from one.",
        "Besides, buy 1 print, 1/4 yd.",
    )
    assert on_hand_words(share_on_hand([large], there, wish, "blues"), None, "in") == (
        "Take 3 prints on hand.",
    )
    assert on_hand_words(share_on_hand([large], [], wish, "blues", BLUES), 12, "in")[0] == (
        "None of the prints on hand can be used."
    )
