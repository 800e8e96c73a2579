"""`piecewright block`: how a block goes together, from a drawing, a quilt file, or by its common name."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from pathlib import Path

from piecewright.blocks.reading import find
from piecewright.cli.endings import FINE, NOT_REPLAYED
from piecewright.cli.folder import write_folder
from piecewright.cli.reading import said_in, workroom_for
from piecewright.cli.telling import sentence, show, show_table, tell_problems, working
from piecewright.cli.way_words import lengths
from piecewright.design.from_drawing import quilt_of_drawing
from piecewright.design.model import Design
from piecewright.design.read import design_from
from piecewright.design.settings.kinds import Laid, Setting
from piecewright.handout.files import job_files, slug
from piecewright.handout.sheet import Part
from piecewright.handout.tell_piecing import together
from piecewright.measure.length import Unit
from piecewright.measure.number import shortened
from piecewright.measure.reading import read_size
from piecewright.methods.kinds import name_of
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.planning.things import UnitThing
from piecewright.problems import Problem, Refused
from piecewright.toml_places import TomlFile, did_you_mean, read_toml, toml_from_text

PREFERRED = ("full seams", "partial seams", "set in", "foundation")


def tell_block(
    source: str,
    block: str | None = None,
    size: str | None = None,
    prefer: str | None = None,
    unit: Unit | None = None,
    workroom: Path | None = None,
    out: str | None = None,
) -> int:
    """Tells how a block goes together; with `out` writes its job sheet and pictures there.

    Raises Refused for what is no block, and for words that are none of their kind.
    """
    design, notes, text = _design(source, block, size, unit)
    chosen = _preferring(_one_block(design, block), prefer)
    room = workroom_for(workroom, design.unit)
    with working("Planning"):
        job = make_plan(chosen, room)
    if not job.replay.made_as_drawn:
        tell_problems(job.replay.problems)
        return NOT_REPLAYED
    _tell(job, [*notes, *job.notes])
    if out is not None:
        _write(job, source, text, out)
    return FINE


def _design(
    source: str, block: str | None, size: str | None, unit: Unit | None
) -> tuple[Design, list[Problem], str]:
    """The design that has the block, notes on it, and the text of a quilt file where there is none yet."""
    path = Path(source)
    ending = path.suffix.lower()
    if ending not in (".svg", ".toml"):
        _only(size, "--size", "a drawing (.svg)")
        _only(block, "--block", "a quilt file (.toml)")
        traditional = find(source)
        return traditional.design, [], ""
    if ending == ".toml":
        _only(size, "--size", "a drawing (.svg)")
        return (*_read(read_toml(path)), "")
    _only(block, "--block", "a quilt file (.toml)")
    if size is None:
        raise Refused(
            Problem("expected the finished size of the block.", "--size", 'Say --size 12, or "9 x 12".')
        )
    shown = unit or "in"
    with said_in("--size"):
        width, height = read_size(size, shown)
    text = quilt_of_drawing(path, (width, height), shown)
    return (*_read(toml_from_text(text, str(path.with_suffix(".toml")))), text)


def _only(given: str | None, option: str, wanted: str) -> None:
    if given is not None:
        raise Refused(
            Problem(f"expected this only with {wanted}, got {shortened(given)}.", option, "Leave it out.")
        )


def _read(file: TomlFile) -> tuple[Design, list[Problem]]:
    design, problems = design_from(file)
    if design is None:
        raise Refused(*problems)
    return design, problems


def _one_block(design: Design, wanted: str | None) -> Design:
    """A design of one block alone."""
    keys = [block.key for block in design.blocks]
    if wanted is None and len(keys) > 1:
        raise Refused(
            Problem(f"the file has {len(keys)} blocks.", "--block", f"Name one: {', '.join(sorted(keys))}.")
        )
    key = keys[0] if wanted is None else wanted
    found = design.block.get(key)
    if found is None:
        raise Refused(
            Problem(f"there is no block {shortened(key)} here.", "--block", did_you_mean(key, keys))
        )
    return replace(
        design,
        title=found.name,
        blocks=(found,),
        block_width=found.width,
        block_height=found.height,
        setting=Setting(1, 1, ((Laid(key),),)),
        sashing=None,
        borders=(),
        binding=None,
    )


def _preferring(design: Design, prefer: str | None) -> Design:
    if prefer is None:
        return design
    if prefer not in PREFERRED:
        raise Refused(
            Problem(
                f"expected {', '.join(PREFERRED[:-1])} or {PREFERRED[-1]}, got {shortened(prefer)}.",
                "--prefer",
            )
        )
    return replace(design, blocks=tuple(replace(block, prefer=prefer) for block in design.blocks))


def _tell(job: Job, notes: list[Problem]) -> None:
    (block,) = job.design.blocks
    show(f"{block.name}, {lengths(block.width, block.height, job.design.unit)} finished", "bold")
    show("replayed: made as drawn")
    units = [t for t in job.things.values() if isinstance(t, UnitThing) and job.counts[t.name]]
    if units:
        show()
        rows = [(_unit_words(t), f"{job.counts[t.name]}", t.recipe.method.name) for t in units]
        show_table(("unit", "count", "way"), rows)
    for part in together(job):
        _tell_part(part)
    if notes:
        show()
        show("Notes")
    for note in dict.fromkeys(notes):
        show(f"- {sentence(note).replace('note: ', '', 1)}")


def _tell_part(part: Part) -> None:
    """How the block goes together, stage by stage."""
    show()
    for line in part.says:
        show(line)
    show()
    for letter, named in part.key:
        show(f"{letter}: {named}")
    for stage in part.stages:
        count = f" ({stage.count})" if stage.count else ""
        named = f"{stage.letter}: " if stage.letter else ""
        show(f"{named}{stage.name}{count}. {' '.join(stage.says)} It should measure {stage.size}.")


def _unit_words(thing: UnitThing) -> str:
    unit = thing.recipe.unit
    fabrics = Counter(unit.fabrics)
    return f"{name_of(unit.kind)}, {' and '.join(fabrics)}"


def _write(job: Job, source: str, text: str, out: str) -> None:
    folder = Path(out)
    with working("Drawing and printing"):
        files = dict(job_files(job, "letter" if job.design.unit == "in" else "a4"))
    if text:
        files[f"{slug(job.design.title)}.toml"] = text.encode()
        files[Path(source).name] = Path(source).read_bytes()
    write_folder(folder, files)
    show()
    show(f"Job sheet of one block: {folder / 'job-sheet.pdf'}", "bold")
