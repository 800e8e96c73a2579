"""The sheet's words on how each block goes together: what it is made of on the way, in the order of sewing.

Every stage (see `stages`) has its picture, its sentences and its size.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from piecewright.design.draw_block import draw_block
from piecewright.drawing.palette import Palette, palette_of
from piecewright.drawing.piecing import together_svg
from piecewright.drawing.pulled_apart import corners_of
from piecewright.drawing.writing import counted
from piecewright.handout.sheet import Part, Picture, Stage
from piecewright.handout.stages import Letters, letters_of, parts_of, stages_of
from piecewright.handout.tell_paper import paper_sections
from piecewright.handout.tell_units import size_of
from piecewright.handout.towards_words import towards_words
from piecewright.piecing.difficulty import Difficulty
from piecewright.piecing.piece_block import piece_block
from piecewright.planning.job import Job
from piecewright.planning.make_plan import wishes_of
from piecewright.planning.things import Joined, PaperSection
from piecewright.planning.uses import one_block
from piecewright.pressing.joints import SECOND


def together(job: Job) -> tuple[Part, ...]:
    """How blocks go together: what is sewn on paper, then every block that is joined of parts.

    A second pressing is sewn like the first.
    """
    joined = (
        _block(job, key, thing)
        for key, name in job.blocks.items()
        if isinstance(thing := job.things[name], Joined) and _count(job, name)
    )
    return (*paper_sections(job), *joined)


def _count(job: Job, name: str) -> int:
    return job.counts[name] + job.counts.get(name + SECOND, 0)


def _block(job: Job, key: str, block: Joined) -> Part:
    each = one_block(job.things, block.name)
    sewn = stages_of(job.things, block)
    letters = letters_of(sewn)
    stages = tuple(_stage(job, stage, letters, each) for stage in sewn)
    made = {stage[-1].name for stage in sewn}
    return Part(
        name=block.name,
        count=f"make {_count(job, block.name)}",
        says=_how_hard(job, key, block),
        key=tuple((letter, f"{each[name]} x {name}") for name, letter in letters.items() if name not in made),
        stages=stages,
        picture=stages[-1].picture,
    )


def _stage(job: Job, sewn: Sequence[Joined], letters: Letters, each: Mapping[str, int]) -> Stage:
    thing = sewn[-1]
    order = [letters[name] for name in parts_of(sewn)]
    return Stage(
        name=thing.name,
        letter=letters.get(thing.name, ""),
        count=f"make {each[thing.name]} for each block" if each[thing.name] > 1 else "",
        says=sewing_words(sewn, order),
        press=towards_words(job, sewn, letters) if _one_pressing(job, sewn) else "",
        size=size_of(thing.size, job.design.unit),
        picture=Picture(
            svg=_picture(sewn, order, palette_of(job.design)),
            words=f"how {thing.name} goes together",
        ),
    )


def _one_pressing(job: Job, sewn: Sequence[Joined]) -> bool:
    return all(thing.name + SECOND not in job.things for thing in sewn)


def _picture(sewn: Sequence[Joined], order: Sequence[str], palette: Palette) -> str:
    thing = sewn[-1]
    return together_svg(thing.cloth, palette, thing.name, order, thing.how, len(sewn), thing.lies)


def sewing_words(sewn: Sequence[Joined], order: Sequence[str]) -> tuple[str, ...]:
    """How a stage is sewn, in sentences; `order` has the letters of its parts."""
    thing = sewn[-1]
    if thing.how == "ring":
        return _ring_words(order, closes=thing.closes is not None)
    if thing.how == "set in":
        return (_set_in_words(order, [corners_of(seam) for seam in thing.cloth.own_seams]),)
    if thing.part_sewn:
        return (f"Sew {order[1]} to {order[0]} as far as the dot, and no farther.",)
    if len(order) == 2:
        return (f"Sew {order[0]} to {order[1]}.",)
    return (f"Sew {' + '.join(order)} together, in the order of the picture.",)


def _set_in_words(order: Sequence[str], corners: Sequence[int]) -> str:
    pieces = " and ".join(order[1:])
    most = max(corners)
    if not most:
        return f"Sew {pieces} to {order[0]} from dot to dot, and no farther."
    turn = "at the inner corner" if most == 1 else f"at each of the {most} inner corners"
    return (
        f"Set {pieces} into {order[0]}: sew from the first dot to the hollow one, turn {turn} with the "
        "needle down and the foot up, and sew on to the last dot."
    )


def _ring_words(order: Sequence[str], closes: bool) -> tuple[str, ...]:
    centre, first, *others = order
    more = f"{others[0]}" if len(others) == 1 else f"{', '.join(others[:-1])} and {others[-1]}"
    told = [f"1: sew {first} to {centre} from the edge to the dot; leave the rest of that seam open."]
    if others:
        numbers = "2" if len(others) == 1 else f"2 to {len(others) + 1}"
        told.append(f"{numbers}: sew {more} on, each along the whole side that it meets.")
    if closes:
        told.append(f"{len(others) + 2}: close the first seam, from the dot to the edge.")
    return tuple(told)


def _how_hard(job: Job, key: str, block: Joined) -> tuple[str, ...]:
    """One line on how hard a block is; nothing of one that is sewn on paper."""
    if any(isinstance(job.things[name], PaperSection) for name in one_block(job.things, block.name)):
        return ()
    wish = wishes_of(job.design)[key]
    pieced = piece_block(draw_block(job.design, key), wish.prefer, wish.times)
    return (difficulty_words(pieced.difficulty),)


def difficulty_words(found: Difficulty) -> str:
    """How hard a block is, and what makes it so, in a line."""
    told = [f"{counted(found.parts, 'part')}, {counted(found.seams, 'seam')}"]
    if found.set_in:
        told.append(f"{found.set_in} set in, turning {counted(found.corners, 'corner')}")
    if found.partial:
        told.append(f"{counted(found.partial, 'partial seam')}")
    told += [
        f"{corners} corners meet at {counted(points, 'point')}"
        for corners, points in found.crossings
        if corners >= 6
    ]
    if found.bias_edges:
        told.append(f"{counted(found.bias_edges, 'bias side')} on the way")
    return f"{found.hardness.capitalize()}: {'; '.join(told)}."
