"""The thread of what comes after the top: quilting, edge, sleeve and label, each through all its layers."""

from __future__ import annotations

from piecewright.finishing.finish_wishes import FinishWishes
from piecewright.finishing.finished import FinishingParts
from piecewright.finishing.thread import ThreadUse
from piecewright.measure.length import Length


def round_the_quilt(size: tuple[Length, Length]) -> float:
    """Once round a quilt (finished width, height); inches."""
    return 2 * float(size[0] + size[1])


def finishing_thread(
    wishes: FinishWishes, size: tuple[Length, Length], quilting: float, parts: FinishingParts
) -> list[ThreadUse]:
    """What each kind of sewing takes; `quilting` is its inches."""
    thick, edge_layers, around = wishes.thickness, parts.edge.layers, round_the_quilt(size)
    uses = [
        _quilting(wishes, quilting),
        ThreadUse(
            "sewing on the edge",
            around,
            # Top, batting and back, and all layers of the edge.
            thick.layers(2 + edge_layers, 1),
            wishes.thread.binding,
        ),
        _hem("turning it to the back", around, wishes, thick.layers(1 + edge_layers)),
    ]
    if parts.sleeve:
        length = float(parts.sleeve.length)
        uses.append(ThreadUse("the sleeve's tube", length, thick.layers(2), wishes.thread.piecing))
        uses.append(_hem("sewing on the sleeve", 2 * length, wishes, thick.layers(3)))
    if parts.label:
        uses.append(_hem("sewing on the label", parts.label.run, wishes, thick.layers(3)))
    return uses


def _quilting(wishes: FinishWishes, run: float) -> ThreadUse:
    """Quilting goes through the top, the batting and the back."""
    thick = wishes.thickness.layers(2, 1)
    if wishes.quilting.by == "hand":
        return ThreadUse("quilting by hand", run, thick, wishes.thread.by_hand, "hand")
    return ThreadUse("quilting", run, thick, wishes.thread.quilting)


def _hem(what: str, run: float, wishes: FinishWishes, thick: Length) -> ThreadUse:
    """What is sewn down on the back."""
    stitch = wishes.thread.by_hand if wishes.hemmed_by == "hand" else wishes.thread.binding
    return ThreadUse(f"{what} by {wishes.hemmed_by}", run, thick, stitch, wishes.hemmed_by)
