"""A seam that changes side: on the bench, and in the text of a step."""

import pytest

from piecewright.bench.bench import Bench
from piecewright.bench.plan import Have
from piecewright.bench.plan_file import read_step, step_text
from piecewright.bench.steps import Join, JoinPart, Press, Pressing, SideChange
from piecewright.measure.length import inches
from piecewright.problems import Refused
from piecewright.workroom.workroom import Workroom

SQUARE = inches("2 1/2")


def four_patch(upper: str = "second", lower: str = "first", times: int = 1) -> Bench:
    """Two pairs of 2 in squares, pressed to a side each, joined: the seam between them is not pressed yet.

    Seen from the front the first cloth of the long seam lies below, and the seam runs to the left.
    """
    bench = Bench(Workroom(), (), (Have(name="sail", count=8, fabric="sail", width=SQUARE, height=SQUARE),))
    for name, towards in (("lower", lower), ("upper", upper)):
        pair = JoinPart(name="sail", entry=(3,), exit=(1,), count=2)
        bench.do(Join(parts=(pair,), gives=name, times=times))
        bench.do(Press(pile=name, seams=(Pressing(f"{name}.0", (towards,)),)))
    parts = (JoinPart(name="lower", exit=(2,)), JoinPart(name="upper", entry=(0,)))
    opposite = upper != lower
    met = {"nests": int(opposite), "clashes": int(not opposite)}
    bench.do(Join(parts=parts, gives="patch", times=times, **met))
    return bench


def pressed(*towards: str, at: float | None = 2.0, seam: str = "patch.0") -> Press:
    changes = () if at is None else (SideChange(seam, at),)
    return Press(pile="patch", seams=(Pressing("patch.0", towards),), changes=changes)


def told(bench: Bench, step: Press) -> str:
    with pytest.raises(Refused) as refused:
        bench.do(step)
    return str(refused.value)


def test_a_four_patch_is_spun_all_round_one_way() -> None:
    """By hand: the short seam below lies to the left, that above to the right: clockwise. So the right half
    of the long seam goes down and the left half up; it runs from right to left, its first cloth below.
    """
    bench = four_patch(upper="second", lower="first")
    bench.do(pressed("first", "second"))
    (seam,) = bench.cloth("patch").own_seams
    assert seam.pressed == ("first", "second")
    assert seam.path == ((4.25, 2.25), (2.25, 2.25), (0.25, 2.25))


def test_it_cannot_be_spun_the_other_way_round() -> None:
    message = told(four_patch(upper="second", lower="first"), pressed("second", "first"))
    assert message == (
        "the seam patch.0 cannot change side 2 in from its start. "
        "Press all seams that meet there the same way round."
    )


def test_where_the_short_seams_lie_alike_nothing_can_be_spun() -> None:
    for ways in (("first", "second"), ("second", "first")):
        message = told(four_patch(upper="first", lower="first"), pressed(*ways))
        assert "same way round" in message


@pytest.mark.parametrize(
    ("step", "message"),
    [
        (pressed("second", "first", at=1.5), "only where seams of both cloths meet it"),
        (pressed("second", "first", at=4.0), "It is 4 in long; name a place between its ends"),
        (pressed("second", "first", at=-1.0), "name a place between its ends"),
        (pressed("second", "second"), "It is pressed second before and second after that place"),
        (pressed("second", "open"), "It is pressed second before and open after that place"),
        (pressed("second"), "has 2 segments, 1 are pressed"),
        (pressed("second", "first", at=None), "has 1 segments, 2 are pressed"),
        (pressed("second", "first", seam="upper.0"), "upper.0 changes side, and is not pressed here"),
    ],
)
def test_a_seam_changes_side_only_where_it_can(step: Press, message: str) -> None:
    assert message in told(four_patch(), step)


@pytest.mark.parametrize(("step", "nests"), [(pressed("first", "second"), 1), (pressed("first", at=None), 0)])
def test_a_spun_four_patch_nests_beside_its_like_and_another_does_not(step: Press, nests: int) -> None:
    """One half of its long seam lies up and the other down, so that equal neighbours lock."""
    bench = four_patch(times=2)
    bench.do(step)
    beside = JoinPart(name="patch", entry=(3,), exit=(1,), count=2)
    assert bench.problems(Join(parts=(beside,), gives="two", times=1, nests=nests, clashes=1 - nests)) == []


def test_a_change_of_side_is_kept_in_the_text_of_the_step() -> None:
    step = pressed("second", "first")
    assert step_text(step) == (
        '{"do":"press","pile":"patch","seams":[["patch.0",["second","first"]]],"changes":[["patch.0",2.0]]}'
    )
    assert read_step(step_text(step)) == step


def test_a_step_of_an_earlier_plan_is_read_as_it_was() -> None:
    line = '{"do":"press","pile":"patch","seams":[["patch.0",["first"]]]}'
    assert read_step(line) == pressed("first", at=None)
    assert step_text(read_step(line)) == line
