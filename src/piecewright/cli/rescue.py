"""`piecewright rescue`: units that came out another size, squares cut to another size, cloth that is left."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from piecewright.bench.plan_file import plan_text
from piecewright.cli.endings import FINE
from piecewright.cli.folder import write_folder
from piecewright.cli.reading import (
    count_from,
    is_metric,
    lengths_from,
    on_hand_from,
    quilt_and_workroom,
    said_in,
    workroom_for,
)
from piecewright.cli.telling import show, show_table, working
from piecewright.cli.way_words import hand_lines, lengths
from piecewright.design.model import finished_size
from piecewright.handout.files import job_files
from piecewright.measure.length import Length, Unit
from piecewright.measure.reading import read_size
from piecewright.measure.showing import show as shown
from piecewright.measure.showing import show_cloth, show_exact
from piecewright.methods.comparing import check_count, kind_named
from piecewright.methods.kinds import name_of
from piecewright.planning.report import report_of
from piecewright.planning.uses import plural
from piecewright.problems import Problem, Refused
from piecewright.rescue.suits import Suits, from_square, suits
from piecewright.rescue.ways_out import CameOut, WayOut, Which, came_out, ways_out
from piecewright.rescue.what_is_left import still_made
from piecewright.workroom.workroom import Workroom


def rescue_units(
    kind: str,
    size: str | None,
    count: str | None,
    quilt: Path | None,
    fabrics: str | None,
    cut: str | None,
    left: str | None,
    take: str | None,
    out: str | None,
    workroom: Path | None,
    unit: Unit | None,
    hand: str | None = None,
    finished: str | None = None,
) -> int:
    """Tells what can be done; raises Refused for words that are none of their kind."""
    with said_in("KIND"):
        kind_named(kind)
    said = [name for name, value in (("--came-out", size), ("--cut", cut), ("--left", left)) if value]
    if len(said) != 1:
        got = " and ".join(said) or "none of them"
        what = f"expected one of --came-out, --cut and --left, got {got}."
        raise Refused(Problem(what, do="Say what you have."))
    room = workroom_for(workroom, unit or ("cm" if is_metric(size or cut or left or "") else "in"))
    shown_in = unit or room.unit
    if cut:
        return _cut(kind, cut, room, shown_in)
    if left:
        return _left(kind, left, room, shown_in)
    assert size is not None
    with said_in("--came-out"):
        raw = read_size(size, shown_in)
    if quilt is None:
        return _suits(kind, raw, room, shown_in)
    design, room, _ = quilt_and_workroom(quilt, workroom)
    number = 1
    with said_in("--count"):
        if count is None:
            raise ValueError("expected how many there are, got nothing")
        number = count_from(count)
        check_count(number)
    with said_in("--finished"):
        meant = read_size(finished, shown_in) if finished else None
    with said_in("--fabrics"):
        named = tuple(word.strip() for word in fabrics.split(",")) if fabrics else ()
        units = came_out(design, kind, raw, number, Which(named, hand or "", meant))
    text = quilt.read_text("utf-8-sig")
    with working("Looking for ways out"):
        ways = ways_out(text, quilt.name, room, units)
    _tell_ways(units, ways, room, shown_in)
    if take is not None or out is not None:
        _write(ways, take, out, shown_in)
    return FINE


def _suits(kind: str, raw: tuple[Length, Length], room: Workroom, unit: Unit) -> int:
    fitting = suits(float(raw[1]), room)
    show(
        f"{plural(name_of(kind)).capitalize()} that measure {lengths(*raw, unit)}, seams not yet sewn", "bold"
    )
    for line in _suit_lines(fitting, unit):
        show(f"- {line}")
    show("With --quilt and --count you learn what your quilt can do with them.")
    return FINE


def _suit_lines(fitting: Suits, unit: Unit) -> list[str]:
    lines = [f"as they are they suit a finished height of {show_exact(float(fitting.as_it_is), unit)}"]
    if fitting.trued and fitting.trued != fitting.as_it_is:
        lines.append(f"trued up all alike they suit {shown(fitting.trued, unit)} finished")
    return lines


def _cut(kind: str, cut: str, room: Workroom, unit: Unit) -> int:
    with said_in("--cut"):
        (side, *others) = lengths_from(cut, unit)
        if others:
            raise ValueError("expected the side of one size of squares, got several")
        found = from_square(kind, side, room)
    show(f"{plural(name_of(kind)).capitalize()} from squares of {shown(side, unit)}", "bold")
    rows = [
        (
            one.method.name,
            str(one.method.makes),
            show_exact(one.raw, unit),
            show_exact(float(one.suits.as_it_is), unit),
            shown(one.suits.trued, unit) if one.suits.trued else "-",
        )
        for one in found
    ]
    show_table(("way", "at a time", "measures", "finished as it is", "finished, trued up"), rows)
    return FINE


def _left(kind: str, left: str, room: Workroom, unit: Unit) -> int:
    with said_in("--left"):
        pieces = on_hand_from(left, unit)
        found = still_made(kind, pieces, room)
    show(f"{plural(name_of(kind)).capitalize()} from what is left", "bold")
    rows = [
        (
            lengths(one.width, one.height, unit),
            f"{one.answer.made:,}",
            "; ".join(hand_lines(one.answer, one.answer.made, unit)),
        )
        for one in found
    ]
    show_table(("finished", "at most", "how"), rows)
    return FINE


def _tell_ways(units: CameOut, ways: Sequence[WayOut], room: Workroom, unit: Unit) -> None:
    off = float(units.off(room))
    wanted = lengths(*units.wanted.raw(room.take_up), unit)
    name = f"{plural(name_of(units.wanted.kind))} of {' and '.join(dict.fromkeys(units.wanted.fabrics))}"
    word = "over" if off > 0 else "short"
    measured = f"yours measure {lengths(*units.size, unit)}, {show_exact(abs(off), unit)} {word}"
    show(f"{units.count:,} {name}: {wanted} unfinished was wanted, {measured}", "bold")
    for number, way in enumerate(ways, 1):
        show()
        mark = "Recommended: " if number == 1 and len(ways) > 1 else ""
        show(f"{number}. {mark}{way.title}", "bold")
        if way.says:
            show(f"   {way.says}")
        design = way.design
        show(
            f"   blocks {lengths(design.block_width, design.block_height, unit)}, "
            f"the quilt {lengths(*finished_size(design), unit)} finished"
        )
        if design.borders:
            show(f"   inner border {shown(design.borders[0].width, unit)}")
        cut = [cloth for cloth in way.job.cloth if cloth.cut.bought]
        buy = ", ".join(f"{cloth.name} {show_cloth(way.job.buy(cloth), unit)}" for cloth in cut)
        show(f"   cloth still to cut: {buy}")
        show(f"   about {way.minutes:,.0f} minutes for the units still to make; replayed: made as drawn")


def _write(ways: Sequence[WayOut], take: str | None, out: str | None, unit: Unit) -> None:
    with said_in("--take"):
        number = count_from(take) if take is not None else 1
        if not 1 <= number <= len(ways):
            raise ValueError(f"expected a way out from 1 to {len(ways)}, got {number}")
    with said_in("--out"):
        if out is None or not out.strip():
            raise ValueError("expected the name of a folder, got nothing")
    way, folder = ways[number - 1], Path(out)
    with working("Drawing and printing"):
        files = job_files(way.job, "letter" if way.design.unit == "in" else "a4")
        text = plan_text(way.job.plan, report_of(way.job))
    write_folder(folder, {**files, "plan.json": text.encode(), "quilt.toml": way.text.encode()})
    show()
    show(
        f"Job sheet of way {number}: {folder / 'job-sheet.pdf'}, with the changed quilt.toml beside it",
        "bold",
    )
