"""What a plan will measure with these hands, where it hurts most, and what to cut larger."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from math import hypot, sqrt

from piecewright.planning.job import Job
from piecewright.planning.things import UnitThing
from piecewright.sewing.stations import Station
from piecewright.tolerance.advice import do_about, do_about_edges, few_of, read_as
from piecewright.tolerance.chances import RANGE, below, beyond
from piecewright.tolerance.hands import Hands
from piecewright.tolerance.larger import cut_larger
from piecewright.tolerance.model import LineSize, Model, Pair, UnitSize, model_of
from piecewright.tolerance.outlook import Contribution, CutLarger, Mismatch, Outcome, Outlook
from piecewright.tolerance.propagation import Spreading, propagated
from piecewright.tolerance.verdicts import Verdict, judge, worst

Found = Mapping[str, Spreading]
Edge = tuple[str, int]


def measure(job: Job, hands: Hands) -> Outlook:
    """What everything in the planned top will measure in these hands, by first-order propagation.

    Raises Refused where such hands make no unit of some kind at all.
    """
    model = model_of(job, hands)
    found = propagated(model)
    edges = [edge for name in model.sizes for edge in mismatches_in(name, model, found)]
    inside: dict[str, list[Verdict]] = {}
    for edge in edges:
        inside.setdefault(edge.line, []).append(edge.verdict)
    outcomes = tuple(_outcome(job, name, model, found, inside.get(name, [])) for name in model.sizes)
    return Outlook(
        hands=hands,
        outcomes=outcomes,
        mismatches=tuple(sorted(edges, key=_reach, reverse=True)),
        contributions=_contributions(model, found[model.top]),
        larger=_larger(job, model),
        left_in=_left_in(model, found[model.top]),
        not_followed=model.not_followed,
    )


def _outcome(job: Job, name: str, model: Model, found: Found, inside: list[Verdict]) -> Outcome:
    thing, spreading = job.things[name], found[name]
    out = [_beyond(model, name, spreading, k, model.ease(spreading.dims[k])) for k in (0, 1)]
    # Borders and sashes are trimmed to the top as measured, so that only its edges must go together.
    verdict = worst(inside if thing.station is Station.TOP else _verdicts(model, name, spreading))
    order = model.order(name)
    off = max(spreading.off, key=abs)
    return Outcome(
        name=name,
        station=thing.station,
        count=model.counts[name],
        nominal=_ordered(spreading.dims, order),
        expected=_ordered(spreading.mean, order),
        deviation=_ordered(spreading.deviation, order),
        lowest=_ordered(spreading.lowest, order),
        highest=_ordered(spreading.highest, order),
        beyond=max(out),
        verdict=verdict,
        do=do_about(verdict, thing.station, off, few_of(max(out), model.counts[name]), model.workroom.unit),
    )


def _verdicts(model: Model, name: str, spreading: Spreading) -> list[Verdict]:
    follows = model.sizes[name].follows
    return [
        judge(spreading.off[k], partial(_beyond, model, name, spreading, k), model.ease(spreading.dims[k]))
        for k in (0, 1)
        if not follows[k]
    ]


def _beyond(model: Model, name: str, spreading: Spreading, k: int, limit: float) -> float:
    """The share that is out by more than a limit one way; what is over in trued units is gone."""
    size = model.sizes[name]
    if isinstance(size, UnitSize) and size.trued:
        return below(size.dims[k] - limit, size.made[k], size.deviation(model.hands)[k])
    return beyond(limit, spreading.off[k], spreading.deviation[k])


def mismatches_in(name: str, model: Model, found: Found) -> list[Mismatch]:
    """The edges that are joined in a line; of the same two things the worst; none that is trimmed to fit."""
    size = model.sizes[name]
    if not isinstance(size, LineSize):
        return []
    pairs: dict[tuple[str, str], set[tuple[Edge, Edge]]] = {}
    times: dict[tuple[str, str], int] = {}
    for one, two in zip(size.parts, size.parts[1:], strict=False):
        if not any(model.sizes[part].follows[k] for part, k in (one, two)):
            first, second = min(one, two), max(one, two)
            names = (first[0], second[0])
            pairs.setdefault(names, set()).add((first, second))
            times[names] = times.get(names, 0) + model.counts[name]
    told = []
    for names, edges in pairs.items():
        same = [_mismatch(name, pair, times[names], model, found) for pair in sorted(edges)]
        told.append(max(same, key=_reach))
    return told


def _reach(mismatch: Mismatch) -> float:
    return abs(mismatch.off) + RANGE * mismatch.deviation


def _mismatch(line: str, pair: tuple[Edge, Edge], count: int, model: Model, found: Found) -> Mismatch:
    (one, k), (two, j) = pair
    off = found[one].off[k] - found[two].off[j]
    deviation = hypot(found[one].deviation[k], found[two].deviation[j])
    ease = model.ease(found[one].dims[k])
    verdict = judge(off, lambda limit: beyond(limit, off, deviation), ease)
    out = beyond(ease, off, deviation)
    longer, shorter = (one, two) if off > 0 else (two, one)
    do = do_about_edges(verdict, longer, shorter, few_of(out, count), read_as(ease, model.workroom.unit))
    return Mismatch(line, one, two, count, off, deviation, out, verdict, do)


def _contributions(model: Model, top: Spreading) -> tuple[Contribution, ...]:
    order = model.order(model.top)
    told = []
    for source in dict.fromkeys((*top.shares[0], *top.shares[1])):
        shares = [top.shares[k].get(source, (0.0, 0.0)) for k in order]
        name, cause = source
        count = model.counts[name]
        size = model.sizes[name]
        if isinstance(size, LineSize):
            count *= len(size.parts) - 1
        off, deviation = (shares[0][0], shares[1][0]), (sqrt(shares[0][1]), sqrt(shares[1][1]))
        told.append(Contribution(name, cause, count, off, deviation))
    return tuple(sorted(told, key=_weight, reverse=True))


def _weight(one: Contribution) -> float:
    """How much a source can change the top."""
    return max(abs(off) + RANGE * spread for off, spread in zip(one.off, one.deviation, strict=True))


def _larger(job: Job, model: Model) -> tuple[CutLarger, ...]:
    told = []
    for name, size in model.sizes.items():
        thing = job.things[name]
        if isinstance(size, UnitSize) and isinstance(thing, UnitThing):
            advice = cut_larger(name, size, thing.recipe, model)
            if advice:
                told.append(advice)
    return tuple(sorted(told, key=lambda one: one.enough))


def _left_in(model: Model, top: Spreading) -> Pair:
    """How much larger the top gets where what is over in eased units is not worked in."""
    sizes = {
        name: replace(size, truing="none") if isinstance(size, UnitSize) and size.truing == "ease" else size
        for name, size in model.sizes.items()
    }
    other = propagated(replace(model, sizes=sizes))[model.top]
    more = (other.mean[0] - top.mean[0], other.mean[1] - top.mean[1])
    return _ordered(more, model.order(model.top))


def _ordered(pair: Pair, order: tuple[int, int]) -> Pair:
    return pair[order[0]], pair[order[1]]
