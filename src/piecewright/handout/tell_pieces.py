"""The sheet's words on shaped pieces: triangles, diamonds and all else that is no rectangle."""

from __future__ import annotations

from piecewright.drawing.palette import palette_of
from piecewright.drawing.shaped_pieces import shaped_svg
from piecewright.handout.sheet import ExpectedSize, Picture, UnitMaking
from piecewright.handout.tell_cloth import count_of
from piecewright.measure.showing import figure_float
from piecewright.planning.how_cut import method_words, reason_words, says, sums, widest
from piecewright.planning.job import Job
from piecewright.planning.things import Cut, Shaped
from piecewright.planning.uses import uses_of


def pieces(job: Job) -> tuple[UnitMaking, ...]:
    """A card for every pile of shaped pieces, in the order in which they are made."""
    shaped = (thing for thing in job.things.values() if isinstance(thing, Shaped))
    return tuple(_card(job, thing) for thing in shaped if job.counts[thing.name])


def _card(job: Job, thing: Shaped) -> UnitMaking:
    ((name, _),) = thing.needs
    start, workroom, count = job.things[name], job.workroom, job.counts[thing.name]
    assert isinstance(start, Cut)
    rectangles = thing.cutting.rectangles(count)
    over = rectangles * thing.each - count
    picture = shaped_svg(thing, start, workroom, palette_of(job.design))
    return UnitMaking(
        name=thing.name[0].upper() + thing.name[1:],
        count=f"cut {count}" + (f" ({over} over)" if over else ""),
        method=method_words(thing),
        reason=reason_words(thing),
        starts=(f"{count_of(job, name, rectangles)} of {thing.fabric}",),
        pictures=(Picture(svg=picture, words=f"cutting {thing.name}"),),
        steps=says(thing, workroom),
        sizes=(ExpectedSize(what="each piece, at its widest and highest", size=_size(thing, job)),),
        sums=(
            *sums(thing, workroom),
            f"{count} / {thing.each} from each = {rectangles}",
            f"they go into: {', '.join(uses_of(job.things, thing.name))}",
        ),
    )


def _size(thing: Shaped, job: Job) -> str:
    unit = job.design.unit
    sides = list(dict.fromkeys(figure_float(side, unit) for side in widest(thing)))
    marks = [side.removeprefix("about ") for side in sides]
    return f"{'' if marks == sides else 'about '}{' x '.join(marks)} {unit}"
