"""The report that stands in plan.json beside the plan: counts, verdicts, cloth."""

from __future__ import annotations

from typing import Any

from piecewright.planning.job import Job


def report_of(job: Job) -> dict[str, Any]:
    """What was found when the plan was made; lengths in inches.

    `pressing.crossings` are the places where seams meet, `nesting` those where they lie opposite;
    `fabrics` has a row for every cloth: a fabric, or an assortment taken as one.
    """
    verdict, directions = job.replay, job.pressings.directions
    return {
        "patches": verdict.patches,
        "replay": {
            "made_as_drawn": verdict.made_as_drawn,
            "operations": verdict.operations,
            "problems": [str(problem) for problem in verdict.problems],
            "not_upright": verdict.tilted,
        },
        "pressing": {
            "crossings": verdict.nests + verdict.clashes,
            "nesting": verdict.nests,
            "proven_best": directions.proven,
            "cost": round(directions.cost, 6),
            "bound": round(directions.bound, 6),
        },
        "fabrics": [
            {
                "key": layout.key,
                "length_in": float(layout.length),
                "area_bound_in": float(layout.area_bound),
                "bound_in": float(layout.bound),
                "buy_in": float(layout.buy),
                "width_in": float(layout.usable_width),
            }
            for layout in job.layouts
        ],
        "notes": [str(note) for note in job.notes],
    }
