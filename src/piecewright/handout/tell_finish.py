"""The sheet's words on finishing: backing, batting, binding."""

from __future__ import annotations

from piecewright.design.model import finished_size
from piecewright.finishing.finishing import BINDING_SPARE, panels_words
from piecewright.handout.sheet import ExpectedSize, Part
from piecewright.measure.showing import figure, show
from piecewright.planning.job import Job


def finishing(job: Job) -> tuple[Part, ...]:
    """Backing, batting and quilting, binding."""
    return (_backing(job), _layers(job), *_binding(job))


def _backing(job: Job) -> Part:
    unit, panels = job.design.unit, job.finishing.panels
    way = "from top to bottom" if panels.upright else "from side to side"
    steps = [f"Cut {panels_words(panels, unit)}."]
    if panels.count > 1:
        steps.append(
            f"Trim the selvedges, join the panels side by side, running {way}; press the seams open."
        )
    margin = job.design.backing.margin
    size = f"{figure(panels.width, unit)} x {show(panels.height, unit)}"
    top = finished_size(job.design)
    return Part(
        name="Backing",
        steps=tuple(steps),
        sizes=(ExpectedSize(what="at least", size=size),),
        sums=(
            f"{figure(top[0], unit)} + 2 x {figure(margin, unit)} by {figure(top[1], unit)} + 2 x "
            f"{figure(margin, unit)} = {size}; {panels.count} x {figure(panels.length, unit)} = "
            f"{show(panels.cloth, unit)} of cloth",
        ),
    )


def _layers(job: Job) -> Part:
    unit = job.design.unit
    width, height = job.finishing.batting
    return Part(
        name="Batting and quilting",
        steps=(
            f"Cut batting {figure(width, unit)} x {show(height, unit)}, and let it rest flat.",
            "Layer backing (wrong side up), batting and top (right side up), all smooth; baste.",
            "Quilt from the middle outwards.",
            "Square up: trim batting and backing to the top's raw edge.",
        ),
    )


def _binding(job: Job) -> tuple[Part, ...]:
    strips, unit = job.finishing.binding, job.design.unit
    if strips is None:
        return ()
    return (
        Part(
            name=f"Binding, {job.finishing.binding_cloth}",
            steps=(
                f"Join {strips.count} strips {show(strips.width, unit)} x WOF end to end with slanted seams: "
                "lay the ends at right angles, sew from corner to corner, trim, press open.",
                "Fold in half along its length, wrong sides together, and press.",
                "Sew to the front, raw edges together; stop a seam's width before each corner, and fold it.",
                "Join the ends flat, turn to the back, and sew down by hand or machine.",
            ),
            sizes=(ExpectedSize(what="binding needed", size=show(strips.least, unit)),),
            sums=(
                f"round the quilt + {show(BINDING_SPARE[unit], unit)} = {show(strips.least, unit)}; "
                f"{strips.count} strips, each slanted seam costs {show(strips.width, unit)}: "
                f"{show(strips.made, unit)}",
            ),
        ),
    )
