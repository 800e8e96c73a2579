"""The report that stands in plan.json beside the plan: counts, verdicts, cloth."""

from __future__ import annotations

from typing import Any

from piecewright.cutting.prints.shared import SharedOut
from piecewright.planning.job import Job
from piecewright.shelf.after_cutting import shelf_part


def prints_part(shared: SharedOut) -> dict[str, Any]:
    """An assortment shared out; lengths in inches."""
    return {
        "key": shared.key,
        "prints": shared.prints,
        "least_prints": shared.least_prints,
        "alike": shared.alike,
        "strips": shared.strips,
        "length_in": float(shared.length),
        "buy_in": float(shared.buy),
        "least_buy_in": float(shared.least_buy),
        "as_one_buy_in": float(shared.as_one.buy),
        "touching_alike": shared.clashes,
        "shares": [
            {
                "prints": share.prints,
                "pieces": dict(share.pieces),
                "buy_in": float(share.layout.buy),
                "or": list(share.fits),
            }
            for share in shared.shares
        ],
    }


def report_of(job: Job) -> dict[str, Any]:
    """What was found when the plan was made; lengths in inches.

    `pressing.crossings` are the places where seams meet, `nesting` those where they lie opposite;
    `fabrics` has a row for every cloth that is bought: a fabric, or an assortment taken as one. `shelf` tells
    what goes off the shelf when the quilt is cut, and what is left and worth keeping.
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
        "shelf": shelf_part(job.shelf),
        "assortments": [prints_part(shared) for shared in job.prints.values()],
        "notes": [str(note) for note in job.notes],
    }
