"""The tables of a rule put to the test: its examples, and its readings side by side."""

from __future__ import annotations

from piecewright.cli.hearsay_words import short_where_words, size_words
from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import figure, show_exact
from piecewright.rescue.hearsay import Finding, Hearing
from piecewright.rescue.subject import Case
from piecewright.workroom.workroom import Workroom


def example_rows(hearing: Hearing, one: Finding, unit: Unit) -> tuple[list[str], list[list[str]]]:
    """The head and the rows of the table: sizes, what the rule gives, what is true, by how much it is off."""
    subject = hearing.subject
    meant = f"{one.meaning} " if one.meaning else ""
    is_unit = any(example.made is not None for example in one.examples)
    promise = subject.sense == "promise"
    size, of = size_words(hearing), "" if subject.is_count else f" ({unit})"
    head = [f"{meant}{size}", f"rule {'promises' if promise else 'gives'}{of}"]
    head += ["truly comes off" if promise else "truly needed", "off"]
    head += [f"{meant}unit that comes off", "off at the unit"] if is_unit else []
    has_cut = any(example.cut for example in one.examples)
    head += ["buy" if subject.is_bought else "cut"] if has_cut else []
    rows = []
    for example in one.examples:
        cells = [case_words(hearing, example.sizes, unit)]
        cells += [_amount(hearing, value, unit) for value in (example.given, example.needed)]
        cells.append(_signed(hearing, example.off, unit))
        if is_unit:
            made = "none" if example.made is None else _amount(hearing, example.made, unit)
            cells += [made, _signed(hearing, example.made_off, unit)]
        if has_cut:
            cells.append(figure(example.cut, unit) if example.cut else "")
        rows.append(cells)
    return head, rows


def overview_rows(hearing: Hearing, room: Workroom) -> tuple[list[str], list[list[str]]]:
    """One row for each reading: what it is, its verdict, and where it is most off."""
    unit = room.unit
    head = [
        "way",
        "what is cut",
        "sizes meant",
        "verdict",
        "most off at",
        "rule gives",
        "truly needed",
        "off",
    ]
    rows = []
    for one in hearing.findings:
        worst = one.worst
        verdict = short_where_words(hearing, one, unit) if one.outcome == "short" else one.verdict
        rows.append(
            [
                one.reading.way,
                one.reading.part,
                one.meaning or "",
                verdict,
                case_words(hearing, worst.sizes, unit),
                *(_amount(hearing, value, unit) for value in (worst.given, worst.needed)),
                _signed(hearing, worst.off, unit),
            ]
        )
    keep = [k for k in range(len(head)) if any(row[k] for row in rows)]
    return [head[k] for k in keep], [[row[k] for k in keep] for row in rows]


def case_words(hearing: Hearing, sizes: Case, unit: Unit) -> str:
    """The sizes of a case: `2 1/2`, `60 x 72 x 2 1/2`, `108 x 5%`."""
    said = [
        figure(Length(size), unit) if quantity.is_length else f"{float(size * 100):g}%"
        for size, quantity in zip(sizes, hearing.subject.given, strict=True)
    ]
    return " x ".join(said)


def _amount(hearing: Hearing, value: float, unit: Unit) -> str:
    return f"{value:.0f}" if hearing.subject.is_count else show_exact(value, unit).split()[0]


def _signed(hearing: Hearing, value: float, unit: Unit) -> str:
    amount = _amount(hearing, abs(value), unit)
    return amount if not float(amount) else f"{'-' if value < 0 else '+'}{amount}"
