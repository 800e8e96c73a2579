"""One's own seam, as strip tests show it, in words and figures as the command line shows them."""

from __future__ import annotations

from typing import Any

from piecewright.measure.length import ZERO, Length, Unit
from piecewright.measure.showing import show, show_exact
from piecewright.tolerance.advice import read_as
from piecewright.workroom.own_seam import OwnSeam, SquaresRow
from piecewright.workroom.strip_sums import reading_of
from piecewright.workroom.workroom import Workroom

DIGITS = 6


def seam_lines(seam: OwnSeam, row: SquaresRow, workroom: Workroom, unit: Unit) -> list[str]:
    """What strip tests say of a seam, what it does to a row, and what to change; a sentence each."""
    tests = f" over {len(seam.found)} tests" if len(seam.found) > 1 else ""
    lines = [f"Take-up{tests}: {_seam(seam.take_up, unit)} ± {show_exact(2 * seam.doubt, unit)}."]
    needle = f"Needle {_seam(seam.needle, unit)}, fold {_seam(seam.fold, unit)}"
    if seam.split_known:
        lines.append(f"{needle}.")
    else:
        lines.append(f"{needle}: the fold is your workroom's; --needle tells them apart.")
    if seam.deviation is not None:
        between, single = show_exact(seam.deviation, unit), show_exact(seam.spread, unit)
        lines.append(f"Spread: {between} between tests, {single} between single seams.")
    if 2 * seam.doubt > float(reading_of(unit)):
        lines.append(
            "To know it better, measure all inner strips together (--inner-strips), or sew more tests."
        )
    lines.append(_cutting(seam, unit))
    lines.append("")
    size, planned = show(row.finished, unit), read_as(float(row.planned), unit)
    lines.append(f"A row of {row.squares} squares, {size} finished, should measure {planned}, unfinished.")
    lines.append(f"With your seam it measures {read_as(float(row.sewn), unit)}{_with_cutting(row, unit)}.")
    lines.append("")
    lines.append(_change(seam, workroom, unit))
    return lines


def seam_data(seam: OwnSeam, row: SquaresRow) -> dict[str, Any]:
    """The same as other programs read it: decimal inches."""
    lengths = ("take_up", "needle", "fold", "cut_off", "doubt", "deviation", "spread", "cut_deviation")
    data: dict[str, Any] = {name: _rounded(getattr(seam, name)) for name in lengths}
    data["split_known"] = seam.split_known
    data["tests"] = [
        {name: _rounded(getattr(one, name)) for name in ("width", "take_up", "doubt")} for one in seam.found
    ]
    data["row"] = {name: _rounded(getattr(row, name)) for name in ("planned", "sewn", "cut_and_sewn")}
    return data


def _rounded(value: Length | float | None) -> float | None:
    return None if value is None else round(float(value), DIGITS)


def _seam(length: Length, unit: Unit) -> str:
    """A seam's figure as a ruler has it, or to the last figure that means anything."""
    shown = show(length, unit)
    return show_exact(float(length), unit) if shown.startswith(("about", "under")) else shown


def _cutting(seam: OwnSeam, unit: Unit) -> str:
    off = read_as(abs(float(seam.cut_off)), unit)
    if off == read_as(0.0, unit):
        return "Your strips are cut as wide as they were meant."
    return f"Your strips are cut {off} {'wider' if seam.cut_off > ZERO else 'narrower'} than meant."


def _with_cutting(row: SquaresRow, unit: Unit) -> str:
    both = read_as(float(row.cut_and_sewn), unit)
    return "" if both == read_as(float(row.sewn), unit) else f", cut as your strips were {both}"


def _change(seam: OwnSeam, workroom: Workroom, unit: Unit) -> str:
    planned = show(workroom.take_up, unit)
    more = seam.more_than(workroom.take_up)
    if more == ZERO:
        return f"Change nothing: that is the {planned} of your workroom, as far as a ruler can tell."
    way = "nearer to" if more > ZERO else "farther from"
    return (
        f"Sew with the needle {_seam(max(more, -more), unit)} {way} the raw edge; or leave it, and put this "
        "needle and fold into your workroom (--keep): then everything is cut for your seam."
    )
