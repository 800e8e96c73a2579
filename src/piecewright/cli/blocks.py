"""`piecewright blocks`: lists the traditional blocks, tells and draws one, prints a sampler sheet of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from piecewright.blocks.grid import grid_of
from piecewright.blocks.reading import find, traditional_blocks
from piecewright.blocks.starting import starting_quilt
from piecewright.blocks.traditional import FAMILIES, Traditional
from piecewright.cli.endings import FINE
from piecewright.cli.folder import write_folder
from piecewright.cli.telling import show, show_table
from piecewright.cli.way_words import lengths
from piecewright.design.draw_block import draw_block
from piecewright.design.drawing import Group
from piecewright.drawing.palette import palette_of
from piecewright.drawing.quilt import block_svg
from piecewright.drawing.sheet_page import PaperName
from piecewright.handout.sampler import SheetBlock, sampler_pdf
from piecewright.measure.number import shortened
from piecewright.methods.kinds import name_of, recognise
from piecewright.piecing.piece_block import piece_block
from piecewright.piecing.tree import leaves
from piecewright.planning.uses import plural
from piecewright.problems import Problem, Refused
from piecewright.toml_places import did_you_mean


@dataclass(frozen=True)
class BlockFacts:
    """What a block is made of: patches, units by name, its grid, and how hard it is in a word or two.

    `grid` is None where a block has none that one would draw; `notes` say what is not sewn by full straight
    seams.
    """

    patches: int
    units: tuple[tuple[str, int], ...]
    grid: tuple[int, int] | None
    hardness: str
    notes: tuple[str, ...]


def list_blocks(
    name: str | None = None,
    family: str | None = None,
    to: str | None = None,
    out: str | None = None,
    sheet: str | None = None,
    paper: PaperName | None = None,
) -> int:
    """Lists the blocks, or tells the one with a name; writes what is asked for.

    Raises Refused for names and families that there are not, and for files that cannot be written.
    """
    if name is not None:
        return _one(find(name), family, to, out, sheet)
    _only_for_one(to, out)
    blocks = _of_family(family)
    if sheet is not None:
        file = _file(sheet, ".pdf", "--sheet")
        write_folder(file.parent, {file.name: sampler_pdf(sheet_blocks(blocks), paper or "letter")})
        show(f"{len(blocks)} blocks: {file}", "bold")
        return FINE
    show_table(("block", "also", "grid", "patches", "units", "to sew"), map(_row, blocks))
    return FINE


@lru_cache(maxsize=256)
def facts_of(traditional: Traditional) -> BlockFacts:
    """What a traditional block is made of."""
    block = traditional.block
    drawing = draw_block(traditional.design, block.key)
    pieced = piece_block(drawing)
    parts = [part.drawing for part in leaves(pieced.tree) if isinstance(part.drawing, Group)]
    units = Counter(unit for part in parts if (unit := _unit_name(part)))
    notes = tuple(note.what for note in pieced.notes)
    hardness = pieced.difficulty.hardness
    return BlockFacts(block.patch_count, tuple(units.items()), grid_of(block), hardness, notes)


def sheet_blocks(blocks: Sequence[Traditional]) -> list[SheetBlock]:
    """The blocks as they are printed on the sampler sheet."""
    return [
        SheetBlock(
            name=block.name,
            aliases=block.aliases,
            family=block.family,
            about=block.about,
            facts=_facts_in_lines(facts_of(block)),
            svg=_svg(block),
        )
        for block in blocks
    ]


def _unit_name(part: Group) -> str:
    unit = recognise(part)
    return name_of(unit.kind) if unit else ""


def _facts_in_lines(facts: BlockFacts) -> tuple[str, ...]:
    grid = f"{facts.grid[0]} x {facts.grid[1]}, " if facts.grid else ""
    return (f"{grid}{_patches(facts.patches)}, {facts.hardness}",)


def _row(block: Traditional) -> tuple[str, ...]:
    facts = facts_of(block)
    return (
        block.name,
        ", ".join(block.aliases),
        _grid(facts),
        f"{facts.patches}",
        _units(facts),
        facts.hardness,
    )


def _grid(facts: BlockFacts) -> str:
    return f"{facts.grid[0]} x {facts.grid[1]}" if facts.grid else "none"


def _units(facts: BlockFacts) -> str:
    return ", ".join(f"{count} {name if count == 1 else _many(name)}" for name, count in facts.units)


def _many(name: str) -> str:
    """More than one unit: `four-patches`, `squares of quarters`."""
    first, of, rest = name.partition(" of ")
    return f"{plural(first)}{of}{rest}"


def _patches(count: int) -> str:
    return f"{count} patch{'' if count == 1 else 'es'}"


def _svg(block: Traditional) -> str:
    design = block.design
    return block_svg(draw_block(design, block.block.key), palette_of(design), design.unit)


def _one(block: Traditional, family: str | None, to: str | None, out: str | None, sheet: str | None) -> int:
    for option, given in (("--family", family), ("--sheet", sheet)):
        if given is not None:
            raise Refused(Problem(f"expected {option} without the name of a block, got both.", option))
    picture = _file(to, ".svg", "--to") if to is not None else None
    quilt = _new_quilt(Path(out), block) if out is not None else None
    _tell(block)
    if picture is not None:
        write_folder(picture.parent, {picture.name: _svg(block).encode()})
        show(f"Picture: {picture}", "bold")
    if quilt is not None:
        write_folder(quilt.parent, {quilt.name: starting_quilt(block).encode()})
        show(f"Quilt file: {quilt}", "bold")
    return FINE


def _tell(block: Traditional) -> None:
    facts, drawn = facts_of(block), block.block
    show(block.name, "bold")
    if block.aliases:
        show(f"also {', '.join(block.aliases)}")
    show(block.about)
    cloths = ", ".join(block.design.role[role].name for role in drawn.roles)
    rows = [
        ("family", block.family),
        ("drawn at", f"{lengths(drawn.width, drawn.height, block.design.unit)} finished"),
        ("grid", _grid(facts)),
        ("patches", f"{facts.patches}"),
        ("units", _units(facts) or "none"),
        ("cloth", cloths),
        ("to sew", facts.hardness),
    ]
    show_table(("", ""), rows)
    for note in facts.notes:
        show(note)


def _of_family(family: str | None) -> tuple[Traditional, ...]:
    blocks = traditional_blocks()
    if family is None:
        return blocks
    wanted = family.strip().lower()
    if wanted not in FAMILIES:
        what = f"expected a family of blocks, got {shortened(family)}."
        raise Refused(Problem(what, "--family", did_you_mean(wanted, FAMILIES)))
    return tuple(block for block in blocks if block.family == wanted)


def _only_for_one(to: str | None, out: str | None) -> None:
    for option, given in (("--to", to), ("--out", out)):
        if given is not None:
            what = f"expected the name of a block with {option}, got none."
            raise Refused(Problem(what, option, 'Name one: piecewright blocks "ohio star".'))


def _file(written: str, ending: str, option: str) -> Path:
    file = Path(written)
    if file.suffix.lower() != ending or not file.stem.strip():
        raise Refused(Problem(f"expected a file that ends in {ending}, got {shortened(written)}.", option))
    return file


def _new_quilt(folder: Path, block: Traditional) -> Path:
    """Where the quilt file goes; one that is there already may have been changed, and stays."""
    place = folder / f"{block.key}.toml"
    if place.exists():
        what = "expected no file of this name, found one, which is left as it is."
        raise Refused(Problem(what, str(place), "Name another folder with --out."))
    return place
