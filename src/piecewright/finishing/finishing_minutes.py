"""Minutes of what comes after the top: joining the back, basting, quilting, the edge, sleeve and label."""

from __future__ import annotations

from piecewright.finishing.figures import measure_of
from piecewright.finishing.finish_wishes import FinishWishes
from piecewright.finishing.finished import FinishingParts
from piecewright.finishing.finishing_thread import round_the_quilt
from piecewright.finishing.minutes import StationMinutes, run_minutes, with_more
from piecewright.measure.length import Length, Unit
from piecewright.workroom.workroom import Pace

SQUARE_YARD = 36.0**2


def finishing_minutes(
    wishes: FinishWishes,
    own: Pace,
    size: tuple[Length, Length],
    quilting: float,
    parts: FinishingParts,
    back: float,
    joins: float,
    unit: Unit,
) -> tuple[StationMinutes, ...]:
    """The stations of finishing at one's own pace.

    `quilting` is inches of it, `back` and `joins` those of seams in the back and joins in the edge's strips
    that the plan does not sew. Told in `unit`.
    """
    sewn, hemmed = own.sew_inches, _hem_pace(wishes, own)
    around = round_the_quilt(size)
    edge = [("joining its strips", joins, sewn), ("sewing on the edge", around, sewn)]
    extra = []
    if parts.sleeve:
        length = float(parts.sleeve.length)
        extra += [("the sleeve's tube", length, sewn), ("sewing it on", 2 * length, hemmed)]
    if parts.label:
        extra.append(("sewing on the label", parts.label.run, hemmed))
    stations = (
        _layering(wishes, size, run_minutes("layering", [("joining the back", back, sewn)], unit), unit),
        _quilting(wishes, quilting, unit),
        run_minutes("edge", [*edge, ("turning it to the back", around, hemmed)], unit),
        run_minutes("sleeve and label", extra, unit),
    )
    return tuple(station for station in stations if station.minutes)


def _hem_pace(wishes: FinishWishes, own: Pace) -> float:
    return wishes.pace.hemmed_by_hand if wishes.hemmed_by == "hand" else own.sew_inches


def _layering(
    wishes: FinishWishes, size: tuple[Length, Length], layers: StationMinutes, unit: Unit
) -> StationMinutes:
    """Joining the back, and basting; on a long frame the layers are wound up instead."""
    if wishes.quilting.by == "long frame":
        return layers
    area = float(size[0]) * float(size[1])
    told = f"{area / float(measure_of(unit)) ** 2:.1f} square {'yards' if unit == 'in' else 'metres'}"
    return with_more(layers, f"basting {told}", area / SQUARE_YARD * wishes.pace.basted)


def _quilting(wishes: FinishWishes, run: float, unit: Unit) -> StationMinutes:
    pace = wishes.pace.quilted(wishes.quilting.by)
    return with_more(
        run_minutes("quilting", [("quilting", run, pace)], unit), "getting ready", wishes.pace.set_up
    )
