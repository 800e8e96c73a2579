"""Plans broken by hand, in the text of the file: each message names the step, and says what is wrong."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from piecewright.bench.plan_file import plan_from_text, plan_text
from piecewright.bench.replay import replay
from piecewright.design.read import read_design
from piecewright.planning.job import Job
from piecewright.planning.make_plan import cloths_of, make_plan
from piecewright.workroom.workroom import INCH_WORKROOM

EXAMPLES = Path(__file__).parent.parent / "examples"


@cache
def job_of(name: str) -> Job:
    design, _ = read_design(EXAMPLES / f"{name}.toml")
    assert design is not None
    return make_plan(design, INCH_WORKROOM)


def told(name: str, text: str) -> list[str]:
    """What the replay says of a plan's text."""
    job = job_of(name)
    verdict = replay(plan_from_text(text), job.drawing.top, cloths_of(job.design).fabric_of)
    assert verdict.made_as_drawn == (not verdict.problems)
    return [*map(str, verdict.problems)]


def changed(text: str, *changes: tuple[str, str]) -> str:
    """The text with each passage, which stands there once, replaced by another."""
    for before, after in changes:
        assert text.count(before) == 1, before
        text = text.replace(before, after)
    return text


def number(text: str, passage: str) -> int:
    """The number of the step, one a line, in which a passage stands first."""
    steps = text.partition('"steps": [\n')[2].splitlines()
    return next(k for k, line in enumerate(steps, 1) if passage in line)


def without(text: str, passage: str) -> str:
    """The text without the line in which a passage stands."""
    (line,) = [line for line in text.splitlines(keepends=True) if passage in line]
    return text.replace(line, "")


@pytest.fixture(scope="module")
def star() -> str:
    return plan_text(job_of("sawtooth-star").plan)


@pytest.fixture(scope="module")
def throw() -> str:
    return plan_text(job_of("harbour-lights").plan)


def test_the_plans_are_whole_before_they_are_broken(star: str, throw: str) -> None:
    assert told("sawtooth-star", star) == []
    assert told("harbour-lights", throw) == []


def test_a_wrong_size(star: str) -> None:
    broken = changed(
        star,
        (
            '"lantern 6 1/2 square","width":"6 1/2 in","height":"6 1/2 in"',
            '"lantern 6 1/2 square","width":"6 1/2 in","height":"6 3/8 in"',
        ),
    )
    step = number(star, '"gives":"Sawtooth star row B"')
    assert told("sawtooth-star", broken) == [
        f"step {step} (join Sawtooth star row B): the edges of 'flying goose fog and navy 6 x 3' and "
        "'lantern 6 1/2 square' differ by 0.1250 in (6.0000 against 5.8750). "
        "Check both sizes before they are joined."
    ]


def test_a_wrong_size_to_expect(star: str) -> None:
    broken = changed(star, ('"expect":[12.5,6.5]', '"expect":[12.5,6.25]'))
    step = number(star, '"gives":"Sawtooth star row B"')
    assert told("sawtooth-star", broken) == [
        f"step {step} (join Sawtooth star row B): 'Sawtooth star row B' measures 12.5000 x 6.5000 in, "
        "12.5000 x 6.2500 in was expected"
    ]


def test_a_swapped_fabric(star: str) -> None:
    broken = changed(
        star,
        ('{"name":"lantern 6 1/2 square","entry":[3]', '{"name":"fog 6 1/2 square","entry":[3]'),
        ('"gives":"lantern 6 1/2 square"', '"gives":"fog 6 1/2 square"'),
        ('"fabric":"lantern","height"', '"fabric":"fog","height"'),
        (
            '"fabric":"fog","width":"40 in","length":"7 1/4 in"',
            '"fabric":"fog","width":"40 in","length":"14 in"',
        ),
    )
    step = number(star, '"press","pile":"Sawtooth star",')
    assert told("sawtooth-star", broken) == [
        f"the finished top, after step {step} (press Sawtooth star): "
        "at 6.00, 6.00 'lantern' was drawn, 'fog' is sewn"
    ]


def test_a_missing_press(star: str) -> None:
    broken = without(star, '"press","pile":"Sawtooth star row",')
    step = number(broken, '"gives":"Sawtooth star",')
    assert told("sawtooth-star", broken) == [
        f"step {step} (join Sawtooth star): 'Sawtooth star row' has not been pressed "
        "(Sawtooth star row.0, Sawtooth star row.1). Press it first."
    ]


def test_a_seam_pressed_to_the_other_side(throw: str) -> None:
    broken = changed(throw, ('["Lantern star row.0",["first"]]', '["Lantern star row.0",["second"]]'))
    step = number(throw, '"gives":"Lantern star",')
    assert told("harbour-lights", broken) == [
        f"step {step} (join Lantern star): seams nest at 2 places and clash at 2; the plan says 4 and 0. "
        "Check which way they were pressed."
    ]


def test_one_unit_too_few(throw: str) -> None:
    broken = changed(
        throw, ('"gives":"Lantern star row B","times":15', '"gives":"Lantern star row B","times":14')
    )
    step = number(throw, '"gives":"Lantern star",')
    assert told("harbour-lights", broken) == [
        f"step {step} (join Lantern star): 15 'Lantern star row B' are wanted, 14 are there"
    ]


def test_one_piece_too_many(star: str) -> None:
    broken = changed(
        star,
        (
            '"gives":"navy 3 7/8 square","width":"3 7/8 in","height":"3 7/8 in","count":4',
            '"gives":"navy 3 7/8 square","width":"3 7/8 in","height":"3 7/8 in","count":5',
        ),
    )
    step = number(star, '"base":"flying goose fog and navy 6 x 3 hearts"')
    assert told("sawtooth-star", broken) == [
        f"step {step} (stack flying goose fog and navy 6 x 3): "
        "1 'navy 3 7/8 square' are over, the plan says 0. Check the counts."
    ]


def test_a_turned_block(throw: str) -> None:
    """A turned block fits as well as before: only the drawing tells."""
    row = next(line for line in throw.splitlines() if '"gives":"block row",' in line)
    turned = row.replace('"name":"Wake","entry":[3],"exit":[1]', '"name":"Wake","entry":[0],"exit":[2]', 1)
    step = number(throw, '"press","pile":"with border 2"')
    problems = told("harbour-lights", changed(throw, (row, turned)))
    assert problems[0] == (
        f"the finished top, after step {step} (press with border 2): "
        "at 1.00, 7.00 'fog' was drawn, 'tide' is sewn (block corner at 5.5, 13.5)"
    )
    assert {problem.partition(" (block corner")[2] for problem in problems} == {
        f" at {x}, {y})" for x, y in [(5.5, 13.5), (5.5, 31.5), (5.5, 49.5)]
    }


def test_a_unit_turned_out_of_its_row(star: str) -> None:
    broken = changed(
        star,
        (
            '{"name":"lantern 6 1/2 square","entry":[3],"exit":[1]}',
            '{"name":"lantern 6 1/2 square","entry":[3],"exit":[2]}',
        ),
    )
    step = number(star, '"gives":"Sawtooth star row B"')
    (problem,) = told("sawtooth-star", broken)
    assert problem.startswith(f"step {step} (join Sawtooth star row B): 'Sawtooth star row B' measures ")


def test_a_strip_from_too_little_cloth(throw: str) -> None:
    broken = changed(
        throw,
        (
            '"fabric":"tide","width":"40 in","length":"38 in"',
            '"fabric":"tide","width":"40 in","length":"37 3/4 in"',
        ),
    )
    step = number(throw, '"gives":"tide strips 1 1/2 cut 4"')
    assert told("harbour-lights", broken) == [
        f"step {step} (cut strips tide strips 1 1/2 cut 4): "
        "3 strips of 1 1/2 in need 4 1/2 in of 'tide', 4 1/4 in are left"
    ]


def test_a_binding_strip_that_is_too_short(throw: str) -> None:
    broken = changed(
        throw,
        ('"takes":"rust strip 2 1/2","count":7', '"takes":"rust strip 2 1/2","count":6'),
        ('"expect":[265.0,2.5]', '"expect":[227.5,2.5]'),
        ('"left_over": {', '"left_over": {"rust strip 2 1/2":1,'),
    )
    step = number(throw, '"press","pile":"binding"')
    assert told("harbour-lights", broken) == [
        f"the end, after step {step} (press binding): "
        "'binding' measures 227.50 x 2.50 in, at least 248.00 in is needed"
    ]


def test_a_plan_cannot_say_that_a_shorter_binding_will_do(throw: str) -> None:
    """The top measures 55 x 64 in finished: 238 in go round it."""
    broken = changed(
        throw,
        ('"takes":"rust strip 2 1/2","count":7', '"takes":"rust strip 2 1/2","count":6'),
        ('"expect":[265.0,2.5]', '"expect":[227.5,2.5]'),
        ('"left_over": {', '"left_over": {"rust strip 2 1/2":1,'),
        ('"binding_least":248.0', '"binding_least":100.0'),
    )
    step = number(throw, '"press","pile":"binding"')
    assert told("harbour-lights", broken) == [
        f"the end, after step {step} (press binding): "
        "'binding' measures 227.50 x 2.50 in, at least 238.00 in is needed"
    ]


def test_a_stale_version(star: str) -> None:
    broken = changed(star, ('"version": 1,', '"version": 0,'))
    assert told("sawtooth-star", broken) == ["this plan has version 0, expected 1. Make the plan again."]
