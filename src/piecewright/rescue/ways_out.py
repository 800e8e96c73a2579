"""Units came out another size than planned: the ways out, each a plan that starts from them.

Terms:
- *came out*: the raw size that the units measure;
- *way out*: a changed quilt, planned and replayed from the units that are there, and what it costs.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from piecewright.design.draw_quilt import draw_quilt
from piecewright.design.model import Design, fabric_of
from piecewright.design.read import design_from
from piecewright.measure.length import ZERO, Length
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.methods.effort import effort_of
from piecewright.methods.kinds import name_of, recognise
from piecewright.methods.method import Unit
from piecewright.piecing.looks import hand_of
from piecewright.piecing.piece_block import units_in
from piecewright.planning.counting import makings
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.planning.things import UnitThing
from piecewright.planning.units import There
from piecewright.problems import Problem, Refused
from piecewright.rescue.changed_file import with_sizes
from piecewright.rescue.suits import suits
from piecewright.toml_places import toml_from_text
from piecewright.workroom.workroom import Workroom


@dataclass(frozen=True)
class CameOut:
    """Units that came out another size: what was wanted, the raw size they measure, how many there are."""

    wanted: Unit
    size: tuple[Length, Length]
    count: int

    def off(self, workroom: Workroom) -> Length:
        """How much they are over; below zero: short, by the side that is the shortest."""
        width, height = self.wanted.raw(workroom.take_up)
        return min(self.size[0] - width, self.size[1] - height)


@dataclass(frozen=True)
class WayOut:
    """One way out: what it is called, what changes, the quilt file with the changes, and its plan."""

    title: str
    says: str
    text: str
    design: Design
    job: Job
    kept: int

    @property
    def minutes(self) -> float:
        """The minutes for all units that are still to be made."""
        job = self.job
        made = [thing for thing in job.things.values() if isinstance(thing, UnitThing)]
        return sum(
            effort_of(
                thing.recipe,
                makings(job.things, job.counts, thing.name) * thing.recipe.method.makes,
                job.workroom,
            ).minutes
            for thing in made
        )

    @property
    def cloth(self) -> Length:
        """The least length of all cloths together."""
        return sum((layout.length for layout in self.job.layouts), ZERO)


@dataclass(frozen=True)
class Which:
    """Which units of a quilt are meant, where it has several of a kind; what is empty is not said."""

    fabrics: tuple[str, ...] = ()
    hand: str = ""
    finished: tuple[Length, Length] | None = None

    def means(self, unit: Unit) -> bool:
        """Whether a unit may be meant."""
        sides = {unit.width, unit.height}
        return (
            (not self.fabrics or set(unit.fabrics) == set(self.fabrics))
            and (not self.hand or unit.hand == self.hand)
            and (self.finished is None or sides == set(self.finished))
        )


ANY = Which()


def came_out(
    design: Design, kind: str, size: tuple[Length, Length], count: int, which: Which = ANY
) -> CameOut:
    """The units of a quilt that came out another size (raw width and height).

    Raises Refused where the quilt has none of that kind, or several and it is not said which.
    """
    found = dict.fromkeys(unit for unit in _units(design) if unit.kind == kind)
    chosen = [unit for unit in found if which.means(unit)]
    if not chosen:
        there = "; ".join(_called(unit) for unit in found) or "none"
        what = f"expected a {name_of(kind)} of this quilt; of that kind it has: {there}."
        raise Refused(Problem(what, do="Name its kind and its fabrics."))
    if len(chosen) > 1:
        named = "; ".join(_called(unit) for unit in chosen)
        do = "Say which with --fabrics, --hand or --finished."
        raise Refused(Problem(f"this quilt has several: {named}.", do=do))
    upright = chosen[0].height > chosen[0].width
    return CameOut(chosen[0], (min(size), max(size)) if upright else (max(size), min(size)), count)


def ways_out(text: str, name: str, workroom: Workroom, units: CameOut) -> tuple[WayOut, ...]:
    """The ways out for a quilt file (its text and name) that can be planned; the last is to make them anew.

    Raises Refused for a quilt file with mistakes, or units that are as wanted.
    """
    design = _read(text, name)
    if abs(float(units.off(workroom))) <= EDGE_MATCH:
        raise Refused(Problem("the units measure what is wanted", do="Go on."))
    found = []
    for change in _changes(text, design, workroom, units):
        try:
            found.append(_way_out(change, name, workroom, units))
        except Refused:
            # A size that the quilt file, or no cloth, allows: this is no way out.
            continue
    anew = WayOut("make them anew", "", text, design, make_plan(design, workroom), 0)
    return (*found, anew)


@dataclass(frozen=True)
class _Change:
    title: str
    says: str
    text: str
    factor: Fraction


def _changes(text: str, design: Design, workroom: Workroom, units: CameOut) -> Iterator[_Change]:
    """What may be changed, as quilt files."""
    off, wanted = units.off(workroom), units.wanted
    if off > ZERO:
        if off <= workroom.ease:
            yield _Change("use them as they are", "what is over is eased in", text, Fraction(1))
            return
        yield _Change("true them up to what was wanted", "", text, Fraction(1))
    fitting = suits(float(units.size[1]), workroom)
    sides = {fitting.as_it_is: "keep them as they are"}
    if fitting.trued and fitting.trued not in sides:
        sides[fitting.trued] = "true them all up alike"
    for side, keep in sides.items():
        factor = side.exact / wanted.height.exact
        width = wanted.width * factor + workroom.take_up * 2
        if factor == 1 or float(width) > float(units.size[0]) + EDGE_MATCH:
            continue
        yield from _following(text, design, keep, factor)


def _following(text: str, design: Design, keep: str, factor: Fraction) -> Iterator[_Change]:
    """The blocks made so much smaller or larger; the quilt with them, or a border that makes up for it."""
    blocks = {block.key: (block.width * factor, block.height * factor) for block in design.blocks}
    changed = with_sizes(text, blocks, None, design.unit)
    yield _Change(f"{keep}; the blocks follow, and the quilt with them", "", changed, factor)
    if design.borders:
        smaller = design.block_width * (1 - factor) * design.setting.across
        border = design.borders[0].width + smaller / 2
        if border > ZERO:
            changed = with_sizes(text, blocks, border, design.unit)
            yield _Change(f"{keep}; the blocks follow, the inner border makes up for it", "", changed, factor)


def _way_out(change: _Change, name: str, workroom: Workroom, units: CameOut) -> WayOut:
    design = _read(change.text, name)
    wanted = units.wanted
    unit = replace(
        wanted,
        width=wanted.width * change.factor,
        height=wanted.height * change.factor,
        measures=tuple(measure * change.factor for measure in wanted.measures),
    )
    job = make_plan(design, workroom, [There(unit, units.count)])
    if not job.replay.made_as_drawn:
        raise Refused(*job.replay.problems)
    return WayOut(change.title, change.says, change.text, design, job, units.count)


def _read(text: str, name: str) -> Design:
    design, problems = design_from(toml_from_text(text, name))
    errors = [problem for problem in problems if problem.weight == "error"]
    if errors or design is None:
        raise Refused(*problems)
    return design


def _units(design: Design) -> Iterator[Unit]:
    """The units of a quilt in cloth, each as often as a block is drawn."""
    children = draw_quilt(design).top.children
    times = Counter(id(child.drawing) for child in children)
    drawn = {id(child.drawing): child.drawing for child in children}
    for key, drawing in drawn.items():
        for group in units_in(drawing, times=times[key]):
            unit = recognise(group)
            if unit:
                yield replace(unit, fabrics=tuple(fabric_of(design, role) for role in unit.fabrics))


def _called(unit: Unit) -> str:
    hand = f"{hand_of(unit)}-hand, " if hand_of(unit) else ""
    return f"{hand}{' and '.join(dict.fromkeys(unit.fabrics))}, {unit.width} x {unit.height} finished"
