"""The commands `piecewright plan`, `unit`, `replay`, `check`, with their options and their help.

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
Folder = Annotated[str, Parameter(metavar="FOLDER")]
Sums = Annotated[bool, Parameter(show_default=False)]
Json = Annotated[bool, Parameter(name="--json", negative="", show_default=False)]

app = App(
    name="piecewright",
    help="Plans pieced quilts, and replays every plan on a virtual bench before it shows it.",
    help_epilogue="""Examples:
  piecewright check quilt.toml
  piecewright plan quilt.toml --out quilt
  piecewright replay quilt/plan.json quilt.toml
  piecewright unit hst --finished 2 --count 48

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
  piecewright plan quilt.toml --paper a4 --no-sums""",
)
def plan_command(
    quilt: Path,
    /,
    *,
    workroom: File | None = None,
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
    out
        The folder to write. Without it: the name of the quilt file with -plan, in the current folder.
    paper
        The paper of the job sheet. Without it: letter for inches, a4 for centimetres.
    sums
        Print the sum behind every figure, in small print.
    """
    with uninterrupted():
        from piecewright.cli.plan import plan_quilt

    return plan_quilt(quilt, workroom, out, paper, sums)


@app.command(
    name="unit",
    help_epilogue="""Examples:
  piecewright unit hst --finished 2 --count 48
  piecewright unit geese --finished "4 x 2" --count 24
  piecewright unit hourglass --finished "7.5 cm" --count 20
  piecewright unit hst --finished 2 --count 48 --from 4
  piecewright unit geese --finished "4 x 2" --count 24 --from "5 1/4, 2 7/8"
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
    as_json: Json = False,
) -> int:
    """Compare the ways to make a unit: one recommended, one alternative, then the others.

    Parameters
    ----------
    kind
        hst (half-square triangle), hourglass or geese (flying geese).
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
    as_json
        Print the figures for other programs: sizes in decimal inches, areas in square inches.
    """
    with uninterrupted():
        from piecewright.cli.unit import compare_unit

    return compare_unit(kind, finished, count, workroom, unit, from_, as_json)


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
  piecewright check quilt.toml --workroom workroom.toml""",
)
def check_command(quilt: Path, /, *, workroom: File | None = None) -> int:
    """Tell all that is wrong in a quilt file, each with its line; or what the quilt is.

    Parameters
    ----------
    quilt
        The quilt file (.toml).
    workroom
        Check this workroom file (.toml) as well.
    """
    with uninterrupted():
        from piecewright.cli.check import check_quilt

    return check_quilt(quilt, workroom)


def call(words: Sequence[str]) -> int:
    """The exit code of `piecewright` called with these words."""
    console = console_for(sys.stdout)
    app.help_formatter = "default" if console.is_terminal else "plain"
    return code_of(lambda: app(list(words), exit_on_error=False, print_error=False, console=console))


def run() -> None:
    """The command `piecewright`; ends the process with its exit code."""
    be_printable()
    sys.exit(call(sys.argv[1:]))
