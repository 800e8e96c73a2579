"""`piecewright fit`: what to change so that a quilt comes to a wanted size, that of a bed or one's own."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from piecewright.cli.changed_quilt import write_changed
from piecewright.cli.endings import FINE
from piecewright.cli.fit_words import answer_row, answers_data
from piecewright.cli.reading import count_from, quilt_and_workroom, said_in
from piecewright.cli.telling import sentence, show, show_table, working
from piecewright.design.model import Design, finished_size
from piecewright.measure.length import Length, Unit
from piecewright.measure.reading import read_length
from piecewright.problems import Problem, Refused
from piecewright.sizing.answer import USUAL_TOLERANCE, Answer, Size, Target, size_words
from piecewright.sizing.beds import BABY_CAUTION, Bed, UsualQuilt, bed_named
from piecewright.sizing.on_bed import check_hang, hang_of, quilt_for_bed
from piecewright.sizing.parity import check_parity
from piecewright.sizing.search import answers

_HEAD = ("", "what changes", "pieced", "how near", "quilted", "washed", "cloth for the top")


def fit_quilt(
    quilt: Path,
    bed: str | None,
    width: str | None,
    height: str | None,
    drop: str | None,
    depth: str | None,
    foot: str | None,
    tuck: str | None,
    unit: Unit | None,
    take: str | None,
    out: str | None,
    as_json: bool,
) -> int:
    """Tells the ways to that size; writes the quilt file of the one that is taken."""
    design, _, _ = quilt_and_workroom(quilt, None)
    shown = unit or design.unit
    hanging = {"drop": drop, "depth": depth, "foot": foot, "tuck": tuck}
    wanted = _wanted(bed, width, height, hanging, shown)
    target = Target(*wanted.size, USUAL_TOLERANCE[design.unit])
    with said_in("--bed" if bed else "--width, --height"), working("Looking for sizes"):
        found = answers(design, target)
    if as_json:
        print(json.dumps(answers_data(found, target, design.unit), indent=2))
    else:
        _tell(design, wanted, found, shown)
    if take is not None or out is not None:
        after = _taken(found, take).apply(design)
        with said_in("--out"):
            if out is None or not out.strip():
                raise ValueError("expected the name of a file, got nothing")
        place = write_changed(quilt, out, design, after)
        if not as_json:
            show(f"Quilt file: {place}", "bold")
    return FINE


@dataclass(frozen=True)
class _Wanted:
    """The size that is wanted, how that came about, and what is worth knowing."""

    size: Size
    lines: tuple[str, ...]
    notes: tuple[str, ...] = ()


def _wanted(
    bed: str | None, width: str | None, height: str | None, hanging: dict[str, str | None], unit: Unit
) -> _Wanted:
    said = [f"--{name}" for name, value in hanging.items() if value is not None]
    if bed is None:
        if width is None or height is None:
            raise Refused(Problem("expected --bed, or --width and --height, got neither.", do="Name one."))
        _only_for_a_bed(said)
        sides = (_read(width, "--width", unit), _read(height, "--height", unit))
        return _Wanted(sides, ())
    if width is not None or height is not None:
        raise Refused(Problem("expected --bed or --width and --height, got both.", do="Leave one out."))
    with said_in("--bed"):
        found = bed_named(bed)
    notes = (BABY_CAUTION,) if found.is_for_baby else ()
    if isinstance(found, UsualQuilt):
        _only_for_a_bed(said)
        return _Wanted((found.width, found.height), (f"{found.name} quilt ({found.source})",), notes)
    return _on_bed(found, hanging, notes, unit)


def _on_bed(bed: Bed, hanging: dict[str, str | None], notes: tuple[str, ...], unit: Unit) -> _Wanted:
    read = {name: _read(text, f"--{name}", unit) if text else None for name, text in hanging.items()}
    with said_in("--drop, --depth, --foot, --tuck"):
        hang = hang_of(unit, read["depth"], read["drop"], read["foot"], read["tuck"])
    lines = (f"{bed.words()} ({bed.source}); makers differ, so measure yours", hang.words(unit))
    checked = tuple(sentence(note) for note in check_hang(hang, read["depth"], unit))
    return _Wanted(quilt_for_bed(bed, hang), lines, (*notes, *checked))


def _only_for_a_bed(said: Sequence[str]) -> None:
    if said:
        raise Refused(Problem(f"expected {said[0]} only with the --bed it is for.", said[0]))


def _read(text: str, option: str, unit: Unit) -> Length:
    with said_in(option):
        return read_length(text, unit)


def _tell(design: Design, wanted: _Wanted, found: Sequence[Answer], unit: Unit) -> None:
    setting = design.setting
    now = size_words(finished_size(design), unit)
    show(f"{design.title}: {setting.across} x {setting.down} blocks, {now} pieced", "bold")
    for line in wanted.lines:
        show(line)
    show(f"wanted: {size_words(wanted.size, unit)}", "bold")
    if not found[0].fits:
        show("Nothing comes near enough; the nearest are:")
    show_table(_HEAD, [answer_row(number, one, design, unit) for number, one in enumerate(found, 1)])
    show("Quilting takes 1 to 5 per cent, the first wash about 3 more.")
    for note in (*wanted.notes, *(sentence(problem) for problem in check_parity(design))):
        show(note)


def _taken(found: Sequence[Answer], take: str | None) -> Answer:
    with said_in("--take"):
        number = count_from(take) if take is not None else 1
        if not 1 <= number <= len(found):
            raise ValueError(f"expected an answer from 1 to {len(found)}, got {number}")
    return found[number - 1]
