"""The commands of `piecewright`, with their options and their help.

What a command does is imported when it is called, so that help and version are there at once.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Annotated, Literal

from cyclopts import App, Parameter

from piecewright import __version__
from piecewright.cli.endings import code_of, uninterrupted
from piecewright.cli.telling import be_printable, console_for

File = Annotated[Path, Parameter(metavar="FILE")]
Size = Annotated[str, Parameter(metavar="SIZE", allow_leading_hyphen=True)]
Count = Annotated[str, Parameter(metavar="N", allow_leading_hyphen=True)]
From = Annotated[str, Parameter(name="--from", metavar="SIZE", allow_leading_hyphen=True)]
Measure = Annotated[str, Parameter(metavar="SIZE", allow_leading_hyphen=True)]
Hand = Annotated[str, Parameter(metavar="HAND")]
OnHand = Annotated[str, Parameter(metavar="PIECES", allow_leading_hyphen=True)]
Fabrics = Annotated[str, Parameter(metavar="NAMES")]
Wish = Annotated[tuple[str, ...], Parameter(metavar="WISH", negative="", show_default=False)]
OneLength = Annotated[str, Parameter(metavar="LENGTH", allow_leading_hyphen=True)]
Keep = Annotated[bool, Parameter(negative="", show_default=False)]
Rule = Annotated[str, Parameter(metavar="RULE", allow_leading_hyphen=True)]
For = Annotated[str, Parameter(name="--for", metavar="SIZES", allow_leading_hyphen=True)]
Trimmed = Annotated[bool, Parameter(negative="--not-trimmed", show_default=False)]
WayName = Annotated[str, Parameter(metavar="WAY")]
SheetFile = Annotated[str, Parameter(metavar="FILE")]
Folder = Annotated[str, Parameter(metavar="FOLDER")]
BlockKey = Annotated[str, Parameter(metavar="KEY")]
Prefer = Annotated[str, Parameter(metavar="WAY")]
Family = Annotated[str, Parameter(metavar="FAMILY")]
PictureFile = Annotated[str, Parameter(metavar="FILE")]
Sums = Annotated[bool, Parameter(show_default=False)]
All = Annotated[bool, Parameter(name="--all", negative="", show_default=False)]
Compare = Annotated[bool, Parameter(negative="", show_default=False)]
FabricName = Annotated[str, Parameter(metavar="FABRIC")]
BedName = Annotated[str, Parameter(metavar="BED")]
QuiltFile = Annotated[str, Parameter(metavar="FILE")]
Note = Annotated[str, Parameter(metavar="WORDS")]
Json = Annotated[bool, Parameter(name="--json", negative="", show_default=False)]

app = App(
    name="piecewright",
    help="Plans pieced quilts, and replays every plan on a virtual bench before it shows it.",
    help_epilogue="""Examples:
  piecewright check quilt.toml
  piecewright plan quilt.toml --out quilt
  piecewright replay quilt/plan.json quilt.toml
  piecewright blocks "ohio star" --out quilts
  piecewright block old-page.svg --size 12
  piecewright unit hst --finished 2 --count 48
  piecewright sheet hst --finished 2
  piecewright rescue hst --came-out "2 3/8"
  piecewright hearsay hst "finished + 7/8"
  piecewright strips --cut "1 1/2" --strips 3 --across "3 1/2" --inner 1
  piecewright measure quilt.toml --needle 1/4
  piecewright cut list.toml --compare
  piecewright shelf shelf.toml
  piecewright fit quilt.toml --bed "us queen" --drop 13
  piecewright redraft quilt.toml --unit cm

Exit codes: 0 fine, 1 wrong input, 2 wrong call, 3 a plan that does not replay, 4 a mistake of ours.""",
    help_format="plaintext",
    version=__version__,
    version_flags=["--version"],
    result_action="return_value",
    suppress_keyboard_interrupt=False,
)


@app.command(
    name="plan",
    help_epilogue="""Examples:
  piecewright plan examples/harbour-lights.toml
  piecewright plan quilt.toml --workroom workroom.toml --out quilt
  piecewright plan quilt.toml --shelf shelf.toml
  piecewright plan quilt.toml --paper a4 --no-sums""",
)
def plan_command(
    quilt: Path,
    /,
    *,
    workroom: File | None = None,
    shelf: File | None = None,
    out: Folder | None = None,
    paper: Literal["letter", "a4"] | None = None,
    sums: Sums = True,
) -> int:
    """Plan a quilt: a folder with job-sheet.pdf, pictures and plan.json.

    Nothing is written when the quilt file is wrong or the plan does not replay. In a folder that is there
    already, files of the same names are replaced and all others are left alone.

    Parameters
    ----------
    quilt
        The quilt file (.toml).
    workroom
        Your own seam, ruler, rounding and pace (.toml).
    shelf
        The cloth on hand (.toml): fabrics are cut from it first, by their names. The file is not changed.
    out
        The folder to write. Without it: the name of the quilt file with -plan, in the current folder.
    paper
        The paper of the job sheet. Without it: letter for inches, a4 for centimetres.
    sums
        Print the sum behind every figure, in small print.
    """
    with uninterrupted():
        from piecewright.cli.plan import plan_quilt

    return plan_quilt(quilt, workroom, out, paper, sums, shelf)


@app.command(
    name="unit",
    help_epilogue="""Examples:
  piecewright unit hst --finished 2 --count 48
  piecewright unit geese --finished "4 x 2" --count 24
  piecewright unit hourglass --finished "7.5 cm" --count 20
  piecewright unit hst --finished 2 --count 48 --from 4
  piecewright unit geese --finished "4 x 2" --count 24 --from "5 1/4, 2 7/8"
  piecewright unit hst --finished 2 --count 20 --on-hand "4 of 10, 6 of 5" --wish "no marking"
  piecewright unit hst --finished "2 1/2" --count 12 --json""",
)
def unit_command(
    kind: str,
    /,
    *,
    finished: Size,
    count: Count,
    workroom: File | None = None,
    unit: Literal["in", "cm"] | None = None,
    from_: From | None = None,
    measure: Measure | None = None,
    hand: Hand | None = None,
    on_hand: OnHand | None = None,
    wish: Wish = (),
    all_ways: All = False,
    as_json: Json = False,
) -> int:
    """Compare the ways to make a unit: one recommended, one alternative, then the others.

    Parameters
    ----------
    kind
        hst (half-square triangle), hourglass, geese (flying geese), insquare, snowball, hrt, star8, ...;
        a word that is no kind is answered with those there are.
    finished
        The finished size: 2, "2 1/2", "5 cm", or width x height: "4 x 2".
    count
        How many units you want.
    workroom
        Your own seam, ruler, rounding and pace (.toml).
    unit
        Inches or centimetres. Without it: as the workroom, or as you type the size.
    from_
        Squares you have or were told to cut: what would they make? Geese: large, small: "5 1/4, 2 7/8".
    measure
        Further finished lengths of the unit, such as the corner of a corner-flipped square: "2".
    hand
        left or right, for units whose mirror image is another unit.
    on_hand
        Pieces of cloth to make do with: "14 of 10, 3 of 18 x 21".
    wish
        What the way should keep to, once for each: "no bias edges", "no marking", "whole marks",
        "upright prints", "at most 4 alike".
    all_ways
        A column in the table for every way.
    as_json
        Print the figures for other programs: sizes in decimal inches, areas in square inches.
    """
    with uninterrupted():
        from piecewright.cli.unit import compare_unit

    return compare_unit(
        kind, finished, count, workroom, unit, from_, as_json, measure, hand, on_hand, tuple(wish), all_ways
    )


@app.command(
    name="sheet",
    help_epilogue="""Examples:
  piecewright sheet hst --finished 2 --way "eight at a time" --count 96
  piecewright sheet geese --finished "4 x 2" --way templates --out goose.dxf
  piecewright sheet snowball --finished 6 --measure 2 --way "on a foundation"
  piecewright sheet hst --finished "5 cm" --lines sewing --paper a4""",
)
def sheet_command(
    kind: str,
    /,
    *,
    finished: Size,
    way: WayName | None = None,
    lines: Literal["sewing", "cutting", "both"] = "both",
    paper: Literal["letter", "a4"] | None = None,
    out: SheetFile | None = None,
    count: Count | None = None,
    workroom: File | None = None,
    unit: Literal["in", "cm"] | None = None,
    measure: Measure | None = None,
    hand: Hand | None = None,
) -> int:
    """Print a way's lines, templates or foundation at true scale, or write them for a cutting machine.

    Parameters
    ----------
    kind
        The kind of unit, as for `piecewright unit`.
    finished
        The finished size: 2, "2 1/2", "5 cm", or width x height: "4 x 2".
    way
        A way to make it, or "templates" for the unit's own patches. Without it: the recommended way.
    lines
        The sewing lines, the cutting lines, or both.
    paper
        Without it: letter for inches, a4 for centimetres.
    out
        The file to write: .pdf to print, .svg or .dxf (millimetres) for a machine.
    count
        How many units you want.
    workroom
        Your own seam, ruler, rounding and pace (.toml).
    unit
        Inches or centimetres. Without it: as the workroom, or as you type the size.
    measure
        Further finished lengths of the unit, such as the corner of a corner-flipped square: "2".
    hand
        left or right, for units whose mirror image is another unit.
    """
    with uninterrupted():
        from piecewright.cli.sheet import write_sheet

    return write_sheet(kind, finished, way, lines, paper, out, count, workroom, unit, measure, hand)


@app.command(
    name="rescue",
    help_epilogue="""Examples:
  piecewright rescue hst --came-out "2 3/8" --count 60 --quilt quilt.toml
  piecewright rescue hst --came-out "2 3/8" --count 60 --quilt quilt.toml --take 1 --out rescued
  piecewright rescue hst --came-out "2 3/8"
  piecewright rescue hst --cut "5 3/4"
  piecewright rescue geese --left "14 of 10\"""",
)
def rescue_command(
    kind: str,
    /,
    *,
    came_out: Size | None = None,
    count: Count | None = None,
    quilt: File | None = None,
    fabrics: Fabrics | None = None,
    hand: Hand | None = None,
    finished: Size | None = None,
    cut: Size | None = None,
    left: OnHand | None = None,
    take: Count | None = None,
    out: Folder | None = None,
    workroom: File | None = None,
    unit: Literal["in", "cm"] | None = None,
) -> int:
    """Find ways out: units that came out another size, squares cut to another size, cloth that is left.

    Every way out for a quilt is a plan that starts from the units you have, and has been replayed.

    Parameters
    ----------
    kind
        The kind of unit: hst, hourglass, geese, insquare and so on; docs/commands.md lists them.
    came_out
        What your units measure from raw edge to raw edge: "2 3/8", or width x height.
    count
        How many of them you have.
    quilt
        The quilt file (.toml) they are for.
    fabrics
        Which of the quilt's units, where it has several of a kind: "tide, glass".
    hand
        left or right, where the quilt has both.
    finished
        The finished size that was wanted, where the quilt has several.
    cut
        The side of the squares you have cut: which finished sizes do they suit?
    left
        Pieces of cloth that are left: "14 of 10, 3 of 18 x 21".
    take
        The number of the way out to write: with --out.
    out
        The folder to write: job sheet, plan and the changed quilt file.
    workroom
        Your own seam, ruler, rounding and pace (.toml).
    unit
        Inches or centimetres. Without it: as the workroom, or as you type the size.
    """
    with uninterrupted():
        from piecewright.cli.rescue import rescue_units

    return rescue_units(
        kind, came_out, count, quilt, fabrics, cut, left, take, out, workroom, unit, hand, finished
    )


@app.command(
    name="hearsay",
    help_epilogue="""Examples:
  piecewright hearsay hst "unfinished / 0.64" --way "four at a time"
  piecewright hearsay hst "finished + 5/8"
  piecewright hearsay hst "4 -> 2 1/2, 10 -> 7" --way "four at a time" --means unfinished
  piecewright hearsay "setting square" "1.41 F + 1 1/4, nearest 1/8" --for "9, 12, 14"
  piecewright hearsay "continuous bias" "S x S / w" --for "20 x 2"
  piecewright hearsay hst "finished + 2.5 cm" --way "two at a time\"""",
)
def hearsay_command(
    subject: str,
    rule: Rule,
    /,
    *,
    way: str | None = None,
    means: Literal["finished", "unfinished"] | None = None,
    trimmed: Trimmed | None = None,
    for_: For | None = None,
    workroom: File | None = None,
    unit: Literal["in", "cm"] | None = None,
    as_json: Json = False,
) -> int:
    """Put a rule of thumb or a printed size to the test: what does it really make?

    Where it depends on what is meant (which way, which size, trimmed or not), it says so and asks.

    Parameters
    ----------
    subject
        What the rule is about: hst, hourglass, geese, "setting square", binding, backing, ...
    rule
        A sum such as "finished + 7/8" or "S x S / w", or printed pairs such as "4 -> 2 1/2, 10 -> 7".
    way
        The way of working it is meant for, such as "four at a time".
    means
        Whether a bare size in the rule is the finished or the unfinished one.
    trimmed
        Whether units are trued up after sewing.
    for_
        Sizes to show: "2, 2 1/2", "60 x 72". Without it: a usual spread.
    workroom
        Your own seam, ruler, rounding and pace (.toml).
    unit
        Inches or centimetres. Without it: as the workroom, or as you type the rule.
    as_json
        Print the figures for other programs: lengths in decimal inches.
    """
    with uninterrupted():
        from piecewright.cli.hearsay import tell_hearsay

    return tell_hearsay(subject, rule, way, means, trimmed, for_, workroom, unit, as_json)


@app.command(
    name="strips",
    help_epilogue="""Examples:
  piecewright strips --cut "1 1/2" --strips 3 --across "3 1/2" --inner 1
  piecewright strips --cut "1 1/2" --strips 9 --across "9 1/2" --inner 7 --inner-strips 7 --needle 15/64
  piecewright strips --cut "1 1/2" --strips 3 --across "3 3/8" --inner 1 --workroom workroom.toml --keep
  piecewright strips --tests strip-tests.toml""",
)
def strips_command(
    *,
    strips: Count | None = None,
    cut: OneLength | None = None,
    across: OneLength | None = None,
    inner: OneLength | None = None,
    inner_strips: Count | None = None,
    measured: OneLength | None = None,
    needle: OneLength | None = None,
    tests: File | None = None,
    workroom: File | None = None,
    keep: Keep = False,
    unit: Literal["in", "cm"] | None = None,
    as_json: Json = False,
) -> int:
    """Tell from a strip test what your seam takes: sew equal strips side by side, press, measure.

    Three strips will do; seven to nine tell more, with all inner ones measured together.

    Parameters
    ----------
    strips
        How many strips you sewed together.
    cut
        The strip width you meant to cut: "1 1/2", "4 cm".
    across
        The whole width over all strips after pressing.
    inner
        An inner strip after pressing, from seam to seam.
    inner_strips
        How many inner strips that figure is measured over. Without it: one.
    measured
        The strip width as you measured it before sewing.
    needle
        From the raw edge to the stitching, measured on the wrong side: tells needle and fold apart.
    tests
        A file of strip tests (.toml): this test is added to it, and the answer is over all of them.
    workroom
        Your own seam, ruler, rounding and pace (.toml).
    keep
        Write needle and fold into the workroom file; its remarks stay.
    unit
        Inches or centimetres. Without it: as the workroom, or as you type the figures.
    as_json
        Print the figures for other programs: decimal inches.
    """
    with uninterrupted():
        from piecewright.cli.hands import strip_answer

    return strip_answer(
        strips, cut, across, inner, inner_strips, measured, needle, tests, workroom, keep, unit, as_json
    )


@app.command(
    name="measure",
    help_epilogue="""Examples:
  piecewright measure quilt.toml --needle 1/4
  piecewright measure quilt.toml --workroom workroom.toml --spread 1/64 --cut-spread 1/64
  piecewright measure quilt.toml --tests strip-tests.toml""",
)
def measure_command(
    quilt: Path,
    /,
    *,
    needle: OneLength | None = None,
    fold: OneLength | None = None,
    spread: OneLength | None = None,
    cut_spread: OneLength | None = None,
    tests: File | None = None,
    workroom: File | None = None,
    as_json: Json = False,
) -> int:
    """Tell what a quilt will measure with your machine and your hands, and where it hurts most.

    The plan stays as it is, and nothing is written.

    Parameters
    ----------
    quilt
        The quilt file (.toml).
    needle
        How far from the raw edge you really sew. Without it: as the workroom.
    fold
        What the fold of a pressed seam really takes. Without it: as the workroom.
    spread
        How much single seams differ (standard deviation). Without it: 1/128 in or 0.2 mm.
    cut_spread
        How much single cuts differ (standard deviation). Without it: 1/128 in or 0.2 mm.
    tests
        A file of strip tests (.toml) to take all this from; what is typed goes before.
    workroom
        The workroom (.toml) that the quilt is planned for.
    as_json
        Print the figures for other programs: decimal inches.
    """
    with uninterrupted():
        from piecewright.cli.hands import measure_quilt

    return measure_quilt(quilt, needle, fold, spread, cut_spread, tests, workroom, as_json)


@app.command(
    name="block",
    help_epilogue="""Examples:
  piecewright block "bear's paw"
  piecewright block old-page.svg --size 12
  piecewright block quilt.toml --block wake --prefer "set in"
  piecewright block "bright hopes" --out bright-hopes""",
)
def block_command(
    source: str,
    /,
    *,
    block: BlockKey | None = None,
    size: Size | None = None,
    prefer: Prefer | None = None,
    unit: Literal["in", "cm"] | None = None,
    workroom: File | None = None,
    out: Folder | None = None,
) -> int:
    """Tell how a block goes together: its units, the order of sewing, what is hard about it.

    Parameters
    ----------
    source
        A drawing (.svg), a quilt file (.toml), or a traditional block by name.
    block
        Which block of a quilt file, by its key.
    size
        The finished size of a block that is drawn: 12, or "9 x 12".
    prefer
        How you would rather sew it: full seams, partial seams, set in, foundation.
    unit
        The unit of a drawing's size: in or cm.
    workroom
        Your workroom file.
    out
        The folder for the job sheet of one such block, and a quilt file for a drawing.
    """
    with uninterrupted():
        from piecewright.cli.block import tell_block

    return tell_block(source, block, size, prefer, unit, workroom, out)


@app.command(
    name="fit",
    help_epilogue="""Examples:
  piecewright fit quilt.toml --bed "us queen" --drop 13
  piecewright fit quilt.toml --bed "eu 140 x 200" --depth "25 cm" --foot 0 --tuck "20 cm"
  piecewright fit quilt.toml --width 60 --height 72
  piecewright fit quilt.toml --bed throw --take 2 --out larger.toml""",
)
def fit_command(
    quilt: Path,
    /,
    *,
    bed: BedName | None = None,
    width: OneLength | None = None,
    height: OneLength | None = None,
    drop: OneLength | None = None,
    depth: OneLength | None = None,
    foot: OneLength | None = None,
    tuck: OneLength | None = None,
    unit: Literal["in", "cm"] | None = None,
    take: Count | None = None,
    out: QuiltFile | None = None,
    as_json: Json = False,
) -> int:
    """Make a quilt fit a bed, or a size of your own: the fewest changes that bring it there.

    Parameters
    ----------
    quilt
        The quilt file (.toml). It is not changed.
    bed
        A mattress by country and name: "us queen", "uk double", "eu 140 x 200", "au king single"; or throw,
        lap, wall, baby.
    width
        The width you want, in place of a bed.
    height
        The height you want.
    drop
        How far it hangs down on each side of the bed. Without it: the depth and a little more.
    depth
        How deep the mattress is. Without it: 12 in or 30 cm.
    foot
        How far it hangs down at the foot. Without it: like the sides.
    tuck
        What is tucked under and over the pillows. Without it: nothing.
    unit
        Inches or centimetres. Without it: as the quilt file.
    take
        The number of the answer to write: with --out.
    out
        The quilt file to write (.toml), with the sizes of that answer; remarks stay.
    as_json
        Print the figures for other programs: lengths are decimals in the unit of the quilt file.
    """
    with uninterrupted():
        from piecewright.cli.fit import fit_quilt

    return fit_quilt(quilt, bed, width, height, drop, depth, foot, tuck, unit, take, out, as_json)


@app.command(
    name="redraft",
    help_epilogue="""Examples:
  piecewright redraft quilt.toml
  piecewright redraft quilt.toml --unit cm --out quilt-cm.toml""",
)
def redraft_command(
    quilt: Path,
    /,
    *,
    unit: Literal["in", "cm"] | None = None,
    out: QuiltFile | None = None,
) -> int:
    """Redraft a quilt in centimetres or inches: sensible sizes, never converted ones.

    Parameters
    ----------
    quilt
        The quilt file (.toml). It is not changed.
    unit
        The unit to redraft it in. Without it: the other one.
    out
        The quilt file to write (.toml); remarks stay. Without it: the new sizes are only told.
    """
    with uninterrupted():
        from piecewright.cli.redraft import redraft_quilt

    return redraft_quilt(quilt, unit, out)


@app.command(
    name="blocks",
    help_epilogue="""Examples:
  piecewright blocks --family star
  piecewright blocks "ohio star" --to ohio-star.svg
  piecewright blocks "bear's paw" --out quilts
  piecewright blocks --sheet sampler.pdf --paper a4""",
)
def blocks_command(
    name: str | None = None,
    /,
    *,
    family: Family | None = None,
    to: PictureFile | None = None,
    out: Folder | None = None,
    sheet: SheetFile | None = None,
    paper: Literal["letter", "a4"] = "letter",
) -> int:
    """List the traditional blocks; or tell one, draw it, and write a quilt file to start from.

    Parameters
    ----------
    name
        A block by any of its names, however written: "ohio star". Without it: all of them.
    family
        List, or print, only those that are built alike: nine-patch, star, strips, ...
    to
        Draw the block to this file (.svg).
    out
        The folder to write a quilt file to, with the block in a small setting, to go on from.
    sheet
        Print all blocks, or those of a family, drawn small: a PDF.
    paper
        The paper of the sheet.
    """
    with uninterrupted():
        from piecewright.cli.blocks import list_blocks

    return list_blocks(name, family, to, out, sheet, paper)


@app.command(
    name="cut",
    help_epilogue="""Examples:
  piecewright cut list.toml
  piecewright cut list.csv --width 42 --json
  piecewright cut list.toml --cloth least --cuts stacks
  piecewright cut list.toml --shelf shelf.toml
  piecewright cut list.toml --sheet cutting.pdf --paper a4
  piecewright cut list.toml --layers 4 --compare""",
)
def cut_command(
    list_: Annotated[Path, Parameter(name="LIST")],
    /,
    *,
    width: OneLength | None = None,
    cloth: Literal["least", "usual", "least-cutting"] = "usual",
    cuts: Literal["crosscuts", "stacks", "tall-strips"] | None = None,
    layers: Count = "2",
    effort: Count = "1",
    compare: Compare = False,
    unit: Literal["in", "cm"] | None = None,
    shelf: File | None = None,
    workroom: File | None = None,
    sheet: SheetFile | None = None,
    paper: Literal["letter", "a4"] | None = None,
    as_json: Json = False,
) -> int:
    """Lay out a list of pieces on cloth: how much to buy, how to cut it, and how near the least that is.

    Parameters
    ----------
    list_
        The cutting list: .toml, or .csv with columns w, h, count and, if you like, may_turn, name, fabric.
    width
        The usable width of the cloth, instead of what the list says for all fabrics: "42", "107 cm".
    cloth
        least: as short as can be found; usual: the fewest ruler settings within what is bought;
        least-cutting: near each size in its own strips.
    cuts
        crosscuts: strips and crosscuts, trimmed; stacks: low pieces subcut from stacks of equal ones;
        tall-strips: also from strips as high as several pieces, up to the ruler's length.
        Without it: tall-strips for the least cloth, else stacks.
    layers
        How many layers you cut together: 2 for folded cloth.
    effort
        How long to search: 1 is about a second for each fabric, 10 ten times as much.
    compare
        A table from the least cloth to the least cutting.
    unit
        Inches or centimetres, where the list does not say it.
    shelf
        The cloth on hand (.toml): it is cut first, by the names of the fabrics. The file is not changed.
    workroom
        Your own usable width, ruler, buying step, shrinkage and spare (.toml), where the list is silent.
    sheet
        Write a printed cutting sheet too: a file that ends in .pdf.
    paper
        The paper of the sheet. Without it: letter for inches, a4 for centimetres.
    as_json
        Print the figures for other programs: decimals in the unit of the list.
    """
    with uninterrupted():
        from piecewright.cli.cut import cut_list

    return cut_list(
        list_, width, cloth, cuts, layers, effort, compare, unit, as_json, shelf, workroom, sheet, paper
    )


@app.command(
    name="shelf",
    help_epilogue="""Examples:
  piecewright shelf shelf.toml
  piecewright shelf shelf.toml --fabric net
  piecewright shelf shelf.toml --fabric net --put "6 of 20 1/2 x 17 1/2" --note "from the market"
  piecewright shelf shelf.toml --fabric net --take "2 of 20 1/2 x 17 1/2"
  piecewright shelf shelf.toml --cut quilt/plan.json""",
)
def shelf_command(
    file: Path | None = None,
    /,
    *,
    fabric: FabricName | None = None,
    put: OnHand | None = None,
    note: Note | None = None,
    take: OnHand | None = None,
    cut: File | None = None,
    unit: Literal["in", "cm"] | None = None,
) -> int:
    """Show the cloth on hand, put some in, take some out, or take out what a quilt has used.

    The file keeps its remarks; as it was before it stays beside it, with .before behind its name.

    Parameters
    ----------
    file
        The shelf file. Without it: shelf.toml in the current folder. --put makes a new one.
    fabric
        Show this fabric alone, or the fabric that is put in or taken out.
    put
        Cloth to put in: width across x length along the selvedge: "6 of 20 1/2 x 17 1/2, 40 x 9".
    note
        A note to the cloth that is put in.
    take
        Cloth to take out, written in the same way.
    cut
        A plan (plan.json) whose quilt has been cut: its cloth goes out, what is worth keeping comes in.
    unit
        Inches or centimetres, for a new file.
    """
    with uninterrupted():
        from piecewright.cli.shelf import mind_shelf

    return mind_shelf(file, put, take, fabric, note, cut, unit)


@app.command(
    name="replay",
    help_epilogue="""Examples:
  piecewright replay quilt/plan.json quilt.toml""",
)
def replay_command(plan: Path, quilt: Path, /) -> int:
    """Run the steps of a plan again, and hold the finished top against the quilt as drawn.

    Whatever verdict the file holds is not looked at. Exit code 3: the plan does not make the quilt.

    Parameters
    ----------
    plan
        The plan.json of a job.
    quilt
        The quilt file (.toml) it was made for.
    """
    with uninterrupted():
        from piecewright.cli.replay import replay_plan

    return replay_plan(plan, quilt)


@app.command(
    name="check",
    help_epilogue="""Examples:
  piecewright check quilt.toml
  piecewright check quilt.toml --workroom workroom.toml
  piecewright check quilt.toml --picture misfits.svg""",
)
def check_command(quilt: Path, /, *, workroom: File | None = None, picture: SheetFile | None = None) -> int:
    """Tell all that is wrong in a quilt file, each with its line; or what the quilt is.

    Parameters
    ----------
    quilt
        The quilt file (.toml).
    workroom
        Check this workroom file (.toml) as well.
    picture
        Where patches of a block do not fit, draw it here (.svg), with the places ringed and numbered.
    """
    with uninterrupted():
        from piecewright.cli.check import check_quilt

    return check_quilt(quilt, workroom, picture)


def call(words: Sequence[str]) -> int:
    """The exit code of `piecewright` called with these words."""
    console = console_for(sys.stdout)
    app.help_formatter = "default" if console.is_terminal else "plain"
    return code_of(lambda: app(list(words), exit_on_error=False, print_error=False, console=console))


def run() -> None:
    """The command `piecewright`; ends the process with its exit code."""
    be_printable()
    sys.exit(call(sys.argv[1:]))
