"""The bench: does steps, takes them back, and says beforehand what would go wrong.

>>> from piecewright.bench.plan import Supply
>>> from piecewright.bench.steps import CutStrips
>>> from piecewright.measure.length import inches
>>> from piecewright.workroom.workroom import Workroom
>>> bench = Bench(Workroom(), (Supply(fabric="sea", width=inches(40), length=inches(9)),))
>>> bench.do(CutStrips(fabric="sea", height=inches("2 1/2"), count=3, gives="strip"))
>>> bench.count("strip"), bench.table.cloth_left["sea"]
(3, inches('1 1/2'))
>>> bench.problems(CutStrips(fabric="sea", height=inches("2 1/2"), count=1, gives="strip"))[0].what
"1 strips of 2 1/2 in need 2 1/2 in of 'sea', 1 1/2 in are left"
>>> bench.undo()
>>> bench.count("strip")
0
"""

from __future__ import annotations

from collections.abc import Iterable

from piecewright.bench.cloth import Cloth, SeamSize, piece
from piecewright.bench.doing import Rules, Table, done
from piecewright.bench.piles import Pile
from piecewright.bench.plan import Have, Supply
from piecewright.bench.steps import AnyStep, CutStrips
from piecewright.bench.truing import Allowed
from piecewright.geometry.polygon import rectangle
from piecewright.measure.length import ZERO, Length, inches
from piecewright.problems import Problem, Refused
from piecewright.workroom.workroom import Workroom

PLENTY = inches(10**9)


def seam_of(workroom: Workroom) -> SeamSize:
    """What a seam takes on this workroom's machine."""
    return SeamSize(float(workroom.needle), float(workroom.fold))


class Bench:
    """The virtual sewing table: the only thing here that changes.

    `operations` counts the steps done; a step costs the same however often it is repeated.
    """

    def __init__(self, workroom: Workroom, cloth: Iterable[Supply] = (), have: Iterable[Have] = ()) -> None:
        supplies = tuple(cloth)
        self.rules = Rules(
            seam=seam_of(workroom),
            allowed=Allowed(float(workroom.ease), float(workroom.trim)),
            widths={s.fabric: s.width for s in supplies},
            one_way=frozenset(s.fabric for s in supplies if s.one_way),
        )
        self.workroom = workroom
        self.table = Table(piles={}, cloth_left={s.fabric: s.length for s in supplies}, offcuts={}, starts={})
        self.operations = 0
        self._past: list[Table] = []
        for thing in have:
            self._lay_out(thing)

    def do(self, step: AnyStep) -> None:
        """Does a step; raises Refused, and changes nothing, when it cannot be done."""
        after = done(step, self.table, self.rules)
        self._past.append(self.table)
        self.table = after
        self.operations += 1

    def undo(self) -> None:
        """Takes the last step back; raises Refused when none has been done."""
        if not self._past:
            raise Refused(Problem("no step has been done yet", do="There is nothing to take back."))
        self.table = self._past.pop()
        self.operations -= 1

    def problems(self, step: AnyStep) -> list[Problem]:
        """What would go wrong with this step; nothing is changed."""
        try:
            done(step, self.table, self.rules)
        except Refused as refused:
            return list(refused.problems)
        return []

    def count(self, name: str) -> int:
        """How many things lie in a pile."""
        return self.pile(name).count

    def pile(self, name: str) -> Pile:
        """The pile of a name; an empty one where there is none."""
        return self.table.piles.get(name, Pile())

    def cloth(self, name: str) -> Cloth:
        """The cloth that a pile is made of; raises Refused when there is none or they are not all alike."""
        return self.pile(name).only(name)

    def _lay_out(self, thing: Have) -> None:
        if thing.count < 1:
            raise Refused(Problem(f"{thing.count} {thing.name!r} cannot be there", do="Count at least 1."))
        if thing.made_by:
            cloth = self._trial(thing)
        elif thing.width and thing.height and min(thing.width, thing.height) > ZERO:
            outline = rectangle(float(thing.width), float(thing.height))
            cloth = piece(thing.fabric, outline, self.rules.seam)
        else:
            raise Refused(Problem(f"{thing.name!r} has neither a size nor steps that make it"))
        pile = self.pile(thing.name).put(cloth, thing.count, self.rules.one_way)
        starts = dict(self.table.starts)
        for fabric, area in cloth.cloth_of.items():
            starts[fabric] = starts.get(fabric, 0.0) + area * thing.count
        self.table = self.table.with_pile(thing.name, pile, starts=starts)

    def _trial(self, thing: Have) -> Cloth:
        """What the steps of a thing make, on a bench of their own with plenty of cloth.

        What it was cut from need not be among the plan's cloth any more.
        """
        gone = {step.fabric: PLENTY for step in thing.made_by if isinstance(step, CutStrips)}
        supplies = [
            Supply(fabric=fabric, width=width, length=PLENTY, one_way=fabric in self.rules.one_way)
            for fabric, width in {**gone, **self.rules.widths}.items()
        ]
        trial = Bench(self.workroom, supplies)
        for step in thing.made_by:
            trial.do(step)
        return trial.cloth(thing.name)


def total_area(table: Table, widths: dict[str, Length]) -> dict[str, tuple[float, float]]:
    """For each fabric the area that went in, and the area that is on the table now, offcuts included."""
    on_table: dict[str, float] = dict(table.offcuts)
    for pile in table.piles.values():
        for cloth, count in pile.kinds:
            for fabric, area in cloth.cloth_of.items():
                on_table[fabric] = on_table.get(fabric, 0.0) + area * count
    return {fabric: (table.starts.get(fabric, 0.0), on_table.get(fabric, 0.0)) for fabric in widths}
