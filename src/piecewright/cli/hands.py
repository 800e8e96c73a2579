"""`piecewright strips` and `piecewright measure`: one's own seam, and what a quilt will measure with it."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import msgspec

from piecewright.cli.endings import FINE, NOT_REPLAYED
from piecewright.cli.hands_words import (
    larger_lines,
    mismatch_rows,
    outcome_rows,
    outlook_data,
    top_lines,
    worst_lines,
)
from piecewright.cli.reading import count_from, is_metric, quilt_and_workroom, said_in, workroom_for
from piecewright.cli.seam_words import seam_data, seam_lines
from piecewright.cli.telling import show, show_table, tell_problems, working
from piecewright.measure.length import Length, Unit
from piecewright.measure.reading import read_length
from piecewright.planning.make_plan import make_plan
from piecewright.problems import Problem, Refused
from piecewright.tolerance.hands import Hands, hands_from, hands_of
from piecewright.tolerance.measuring import measure
from piecewright.tolerance.model import model_of
from piecewright.tolerance.virtual import QUILTS, virtual_quilts
from piecewright.workroom.file import write_workroom
from piecewright.workroom.own_seam import marked, own_seam, row_of_squares
from piecewright.workroom.strip_file import add_strip_test, read_strip_tests
from piecewright.workroom.strip_sums import StripTest
from piecewright.workroom.workroom import Workroom

OPTION_OF = {"inner_strips": "--inner-strips"}


def strip_answer(
    strips: str | None = None,
    cut: str | None = None,
    across: str | None = None,
    inner: str | None = None,
    inner_strips: str | None = None,
    measured: str | None = None,
    needle: str | None = None,
    tests: Path | None = None,
    workroom: Path | None = None,
    keep: bool = False,
    unit: Unit | None = None,
    as_json: bool = False,
) -> int:
    """Tells what a strip test says of a seam; with `tests` that of all tests in a file and this one.

    A test that can be right is added to the file of tests. `keep` writes needle and fold into the workroom
    file. Raises Refused where a figure is none, or looks wrong.
    """
    typed = {"strips": strips, "cut": cut, "across": across, "inner": inner, "inner_strips": inner_strips}
    typed |= {"measured": measured, "needle": needle}
    metric = any(value and is_metric(value) for value in typed.values())
    room = workroom_for(workroom, unit or ("cm" if metric else "in"))
    shown = unit or room.unit
    if keep and workroom is None:
        raise Refused(Problem("expected a workroom file to keep the seam in, got none.", "--workroom"))
    known: tuple[StripTest, ...] = ()
    if tests is not None and (tests.exists() or not any(typed.values())):
        known = read_strip_tests(tests, room).tests
    test = _typed_test(typed, shown) if any(typed.values()) or not known else None
    with _by_option():
        seam = own_seam([*known, test] if test else known, room)
    if test and tests is not None:
        add_strip_test(tests, test, shown)
    row = row_of_squares(seam, room)
    if keep and workroom is not None:
        kept = {"needle": marked(seam.needle, room.unit), "fold": marked(seam.fold, room.unit)}
        write_workroom(msgspec.structs.replace(room, **kept), workroom)
    if as_json:
        print(json.dumps(seam_data(seam, row), indent=2))
        return FINE
    for line in seam_lines(seam, row, room, shown):
        show(line)
    if keep:
        show()
        show(f"Needle and fold are written into {workroom}.")
    return FINE


def measure_quilt(
    quilt: Path,
    needle: str | None = None,
    fold: str | None = None,
    spread: str | None = None,
    cut_spread: str | None = None,
    tests: Path | None = None,
    workroom: Path | None = None,
    as_json: bool = False,
) -> int:
    """Tells what a planned quilt will measure in these hands; nothing is written, and no plan is changed."""
    design, room, _ = quilt_and_workroom(quilt, workroom)
    typed = {"needle": needle, "fold": fold, "spread": spread, "cut-spread": cut_spread}
    hands = _hands(typed, tests, room)
    with working("Planning"):
        job = make_plan(design, room)
    if not job.replay.made_as_drawn:
        tell_problems(job.replay.problems)
        return NOT_REPLAYED
    with working("Measuring"):
        outlook = measure(job, hands)
        sewn = virtual_quilts(model_of(job, hands), QUILTS)
    if as_json:
        print(json.dumps(outlook_data(outlook, sewn), indent=2))
        return FINE
    shown = design.unit
    show(f"{design.title}, in your hands", "bold")
    for line in top_lines(outlook, sewn, room, shown):
        show(line)
    show()
    show_table(("sewn", "count", "sheet", "yours", "95 of 100", "verdict"), outcome_rows(outlook, shown))
    worst = worst_lines(outlook, shown)
    if worst:
        show()
        show("Where it hurts most", "bold")
        for line in worst:
            show(f"- {line}")
    rows = mismatch_rows(outlook, shown)
    if rows:
        show()
        show("Edges that do not go together", "bold")
        show_table(("in", "edges of", "differ by", "verdict", "what to do"), rows)
    if outlook.larger:
        show()
        show("Cut larger, so that 95 of 100 can be trued up", "bold")
        for line in larger_lines(outlook, shown):
            show(f"- {line}")
    return FINE


def _typed_test(typed: dict[str, str | None], unit: Unit) -> StripTest:
    missing = [name for name in ("strips", "cut", "across", "inner") if not typed[name]]
    if missing:
        what = "a strip test needs --strips, --cut, --across and --inner."
        raise Refused(Problem(what, f"--{missing[0]}", f"Give {_listed(missing)} as well."))
    counts: dict[str, int] = {}
    for name in ("strips", "inner_strips"):
        with said_in(OPTION_OF.get(name, f"--{name}")):
            counts[name] = count_from(typed[name] or "1")
    lengths = {
        name: _length(name, typed[name], unit) for name in ("cut", "across", "inner", "measured", "needle")
    }
    cut, across, inner = (lengths[name] for name in ("cut", "across", "inner"))
    assert cut is not None
    assert across is not None
    assert inner is not None
    return StripTest(
        counts["strips"], cut, across, inner, counts["inner_strips"], lengths["measured"], lengths["needle"]
    )


def _length(name: str, text: str | None, unit: Unit) -> Length | None:
    if text is None:
        return None
    with said_in(f"--{name}"):
        return read_length(text, unit)


def _listed(names: Sequence[str]) -> str:
    return " and ".join(f"--{name}" for name in names)


def _hands(typed: dict[str, str | None], tests: Path | None, room: Workroom) -> Hands:
    said = {name: _length(name, text, room.unit) for name, text in typed.items()}
    from_tests = None
    if tests is not None:
        from_tests = hands_from(own_seam(read_strip_tests(tests, room).tests, room), room)
    try:
        hands = hands_of(room, said["needle"], said["fold"], said["spread"], said["cut-spread"])
    except ValueError as error:
        name = next((n for n in typed if str(error).startswith(f"expected {n.replace('-', ' ')} ")), "needle")
        raise Refused(Problem(f"{error}.", f"--{name}")) from error
    if from_tests is None:
        return hands
    # What is typed goes before what the tests say.
    return Hands(
        said["needle"] or from_tests.needle,
        from_tests.fold if said["fold"] is None else said["fold"],
        from_tests.spread if said["spread"] is None else said["spread"],
        hands.cut_spread,
        from_tests.cut_off,
    )


@contextmanager
def _by_option() -> Iterator[None]:
    """A figure that looks wrong is named by its option."""
    try:
        yield
    except Refused as refused:
        named = (replace(p, where=OPTION_OF.get(p.where, f"--{p.where}")) for p in refused.problems)
        raise Refused(*named) from refused
