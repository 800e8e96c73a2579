"""The frames of sewing on a foundation: the printed lines, the scraps by number, the first seam, the rest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from piecewright.bench.steps import CutOut, Join, Stack
from piecewright.drawing.foundations import MIRRORED
from piecewright.drawing.frames import Frame, Item
from piecewright.drawing.inside import roomiest
from piecewright.drawing.look import CAPTION, INK, MARKED, PAPER, SEWN, STRONG_WORDS, Style
from piecewright.drawing.method_frames import Moment, Taken
from piecewright.drawing.method_story import Frames, Story
from piecewright.drawing.pen import Pen, View
from piecewright.geometry.polygon import bounds, placed
from piecewright.methods.foundation.plan import FoundationSection
from piecewright.methods.foundation.way import foundation_for

SHEET = Style("printed sheet", INK, 0.7, fill=PAPER)
SHOWN_SECTIONS = 3
ROOM, MOST_ENLARGED = 0.15, 2.4
"""The room that a number needs beside it, as a share of the sheet; how much larger printed lines are drawn at
most, to have room for numbers."""


def foundation_frames(story: Story, moments: Sequence[Moment]) -> list[Frames]:
    """The frames of a way on a foundation, in groups; the first section stands for all of them."""
    sections = foundation_for(story.recipe.unit, story.workroom).sections
    work, joins = by_section(moments, len(sections))
    shown = next((k for k, section in enumerate(sections) if len(section.patches) > 1), 0)
    section, own = sections[shown], work[shown]
    first, *_, last = (*own, own[-1])
    scraps = _scraps(story, sections, shown, moments[0])
    groups: list[Frames] = [(_printed(section, story), *scraps)]
    if isinstance(first.step, Stack):
        lay, sew, *trim = story.telling.stack(first, first.step)
        sew = replace(sew, caption="Sew on the printed line")
        groups.append((replace(lay, caption="Lay face to face"), sew, *trim, story.opened(first)))
    done = section.patches[-1].number
    caption = f"And so on to {done}; cut on the outer line" if len(own) > 2 else "Cut on the outer line"
    assert isinstance(last.step, CutOut)
    ending: Frames = (Frame(caption, (story.telling.cut_out(last, last.step),)),)
    if not joins:
        return [*groups, (*ending, story.opened(last, "So it looks"))]
    others = [k for k in range(len(sections)) if k != shown]
    items = [story.what_came(work[k][-1]) for k in others[:SHOWN_SECTIONS]]
    letters = [sections[k].letter for k in others]
    named = letters[0] if len(letters) == 1 else f"{letters[0]} to {letters[-1]}"
    made = (story.opened(last, f"Section {section.letter}"), Frame(f"Sew {named} too", tuple(items)))
    return [*groups, (*ending, *made), *story.joined(joins)]


def by_section(moments: Sequence[Moment], count: int) -> tuple[list[list[Moment]], list[Moment]]:
    """The moments of each section, which ends in being cut out, and those of joining the sections."""
    sections: list[list[Moment]] = [[]]
    joins: list[Moment] = []
    for moment in moments:
        if isinstance(moment.step, Join) or len(sections) > count:
            joins.append(moment)
            continue
        sections[-1].append(moment)
        if isinstance(moment.step, CutOut):
            sections.append([])
    return [own for own in sections if own], joins


def _scraps(
    story: Story, sections: Sequence[FoundationSection], shown: int, moment: Moment
) -> tuple[Frame, ...]:
    """The scraps of a section, each with its number."""
    before = sum(len(section.patches) for section in sections[:shown])
    things = [
        Taken(name, moment.before.only(name), 1, number=patch.number)
        for k, patch in enumerate(sections[shown].patches)
        for name in (f"start {before + k}",)
    ]
    return story.telling.take(things)


def _printed(section: FoundationSection, story: Story) -> Frame:
    """The foundation as it is printed: mirrored, with the lines to sew on and the numbers."""
    raw, net = placed(section.raw, MIRRORED), placed(section.outline, MIRRORED)
    fold = float(story.workroom.fold)
    lines = [line for patch in section.patches if (line := patch.stitching(fold))]
    found = [roomiest(patch.outline) for patch in section.patches]
    centres = [(patch.number, centre) for patch, (centre, _) in zip(section.patches, found, strict=True)]

    def draw(pen: Pen, view: View) -> None:
        pen.polygon(view.points(raw), SHEET)
        pen.polyline(view.points([*net, net[0]]), MARKED)
        for line in lines:
            pen.polyline(view.points([MIRRORED.at(p) for p in line]), SEWN)
        for number, centre in centres:
            pen.text(view.at(MIRRORED.at(centre)), number, CAPTION, "middle", STRONG_WORDS)

    x0, y0, x1, y1 = bounds(raw)
    share = min(radius for _, radius in found) / max(x1 - x0, y1 - y0)
    larger = min(max(ROOM / share, 1.0), MOST_ENLARGED)

    def draw_larger(pen: Pen, view: View) -> None:
        draw(pen, View(view.scale * larger, view.x, view.y))

    box = (x0 * larger, y0 * larger, x1 * larger, y1 * larger)
    return Frame("Print, mirrored", (Item(box, draw_larger),))
