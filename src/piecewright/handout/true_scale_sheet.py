"""Prints true-scale sheets as PDF with Typst: bundled fonts only, the same bytes every time.

Every place comes ready, in inches from the upper left corner of the page; nothing is worked out in the
pages' own language.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from piecewright.drawing.bounds_pen import TICK
from piecewright.drawing.look import Style
from piecewright.drawing.paging import pages_of
from piecewright.drawing.sheet_page import (
    CHECK_CM,
    CHECK_INCH,
    PAPERS,
    PageLine,
    PaperName,
    SheetPage,
    SheetPaper,
)
from piecewright.drawing.true_scale import GRAIN, STYLES, SheetWords, TrueSheet
from piecewright.geometry.point import Point, add, left_of, scale, sub, unit
from piecewright.geometry.polygon import Line
from piecewright.handout.setting_pages import set_pages
from piecewright.problems import Problem, Refused

MEASURE = "Measure this before you use the sheet: print at 100 %, no fitting to the page."
TO_JOIN = (
    "Trim one of two neighbours on the pale grey line, lay it on the other so that diamonds, letters and "
    "lines meet, and tape them."
)

MARK_LETTER = 0.22
"""How far from the middle of a match mark its letter stands, in inches."""


def true_scale_pdf(sheets: Sequence[TrueSheet], paper: PaperName = "letter") -> bytes:
    """The sheets as one PDF, byte for byte the same for the same sheets; raises Refused without a shape."""
    chosen = PAPERS[paper]
    pages = [page for sheet in sheets for page in pages_of(sheet, chosen)]
    if not pages:
        raise Refused(Problem("a sheet with something to draw was expected, there is none"))
    data: dict[str, object] = {
        "title": sheets[0].title,
        "paper": {
            "width": float(chosen.width),
            "height": float(chosen.height),
            "margin": float(chosen.margin),
            "head": chosen.head,
        },
        "check": {"inch": float(CHECK_INCH), "cm": float(CHECK_CM), "words": MEASURE},
        "styles": {**{str(name): _style(style) for name, style in STYLES.items()}, "grain": _style(GRAIN)},
        "pages": [page_data(page, chosen) for page in pages],
    }
    return set_pages("true_scale.typ", data, "true-scale sheet", sheets[0].title)


def page_data(page: SheetPage, paper: SheetPaper) -> dict[str, Any]:
    """A page ready to print: words for its head, and everything in its window."""
    height = page.size[1] or paper.window[1]
    lines = [_line(line, height) for line in page.lines]
    lines += [stroke for line in page.lines for stroke in _ticks(line, height)]
    tile = page.tile
    return {
        "title": page.sheet.title,
        "use": page.sheet.use,
        "notes": [*page.sheet.notes, *([TO_JOIN] if tile else [])],
        "caption": page.caption,
        "key": _key(page),
        "window": page.size if page.tile else paper.window,
        "lines": lines,
        "words": [_words(words, height) for words in page.words],
        "marks": [
            {
                "letter": mark.letter,
                "at": _down(mark.at, height),
                "letter_at": _down(add(mark.at, scale(mark.inward, MARK_LETTER)), height),
            }
            for mark in page.marks
        ],
        "trims": [[_down(point, height) for point in trim] for trim in page.trims],
        "tile": tile
        and {"rows": tile.rows, "columns": tile.columns, "here": tile.here, "places": tile.places},
    }


def _style(style: Style) -> dict[str, Any]:
    round_ends = bool(style.dashes) and style.dashes[0] < style.weight
    return {"ink": style.ink, "weight": style.weight, "dashes": style.dashes, "round": round_ends}


def _key(page: SheetPage) -> list[dict[str, Any]]:
    """What the lines on the page mean, each look and meaning once, in the order they come."""
    found: dict[tuple[str, str], bool] = {}
    for line in page.lines:
        if line.kind != "grain":
            look = (line.kind, line.meaning)
            found[look] = found.get(look, False) or (_is_ticked(line.kind) and any(line.ends))
    key: list[dict[str, Any]] = [
        {"kind": kind, "words": meaning, "ticks": ticks} for (kind, meaning), ticks in found.items()
    ]
    if any(line.kind == "grain" for line in page.lines):
        key.append({"kind": "grain", "words": "straight of grain", "ticks": False})
    return key


def _is_ticked(kind: str) -> bool:
    return any(name == kind and style.ticks for name, style in STYLES.items())


def _line(line: PageLine, height: float) -> dict[str, Any]:
    return {"kind": line.kind, "points": [_down(point, height) for point in line.points]}


def _ticks(line: PageLine, height: float) -> list[dict[str, Any]]:
    """The strokes across the true ends of a cut; points on paper, so they are as large at any scale."""
    if not _is_ticked(line.kind):
        return []
    points = line.points
    ends: list[Line] = []
    if line.ends[0]:
        ends.append((points[0], points[1]))
    if line.ends[1]:
        ends.append((points[-1], points[-2]))
    strokes = []
    for end, inner in ends:
        across = scale(left_of(unit(sub(inner, end))), TICK / POINTS)
        stroke = (sub(end, across), add(end, across))
        strokes.append({"kind": line.kind, "points": [_down(point, height) for point in stroke]})
    return strokes


POINTS = 72
"""Points to the inch."""


def _words(words: SheetWords, height: float) -> dict[str, Any]:
    return {
        "at": _down(words.at, height),
        "text": words.text,
        "size": words.size,
        "strong": words.strong,
        "turn": -words.turn,
    }


def _down(point: Point, height: float) -> Point:
    """A place counted from the upper left corner of its window, downwards."""
    return point[0], height - point[1]
