"""The units of a quilt: the ways for all of them weighed at once, then each pile made once.

A unit's pile is filled by one way; or the units of several ways, and those that are there already, are
gathered on one pile.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

import msgspec

from piecewright.batches.choosing import Chosen, Source, choose_all
from piecewright.batches.offers import Want, ready
from piecewright.bench.cloth import Cloth, Pressed
from piecewright.bench.piles import made_alike
from piecewright.design.drawing import Group, Placed
from piecewright.measure.showing import figure
from piecewright.methods.kinds import name_of, recognise
from piecewright.methods.method import Unit
from piecewright.methods.recipe import Recipe, cloth_besides
from piecewright.methods.strip_set import SET
from piecewright.piecing.laying import in_fabrics, lay_on_patches
from piecewright.piecing.looks import hand_of, look
from piecewright.planning.record import Record
from piecewright.planning.renaming import renamed_seams
from piecewright.planning.things import Cut, Gathered, Made, OffBatch, Thing, ThingThere, UnitThing
from piecewright.problems import Problem, Refused
from piecewright.sewing.stations import Station

Key = tuple[object, ...]
UnitPile = UnitThing | OffBatch | ThingThere


@dataclass(frozen=True)
class There:
    """`count` units that are made already, trued to their unfinished size; fabrics are those of the design.

    `way` is how they were made; without it as the plan would make more of them.
    """

    unit: Unit
    count: int
    way: str = ""


@dataclass
class Units:
    """Chooses the ways for all units, and makes each unit's pile once."""

    record: Record
    there: Sequence[There] = ()
    _chosen: dict[Key, Chosen] = field(default_factory=dict)
    _had: dict[Key, There] = field(default_factory=dict)
    _piles: dict[Key, Thing] = field(default_factory=dict)
    _batches: dict[int, UnitThing] = field(default_factory=dict)

    def choose_ways(self, top: Group, units_of: Callable[[Group], tuple[str | None, list[Group]]]) -> None:
        """Weighs the ways for all units of the whole top at once; raises Refused where one cannot be made.

        `units_of` gives the key of a block, and its units.
        """
        blocks = Counter(id(child.drawing) for child in top.children)
        drawings = {id(child.drawing): child.drawing for child in top.children}
        wants: dict[Key, Want] = {}
        for number, times in blocks.items():
            drawing = drawings[number]
            block, units = units_of(drawing) if isinstance(drawing, Group) else (None, [])
            for unit in units:
                own, want = self._want(unit, block)
                count = wants[own].count if own in wants else 0
                wants[own] = replace(want, count=count + times)
        left = list(self.there)
        for key, want in wants.items():
            had = next((there for there in left if _is_wanted(there, want)), None)
            if had:
                left.remove(had)
                self._had[key] = replace(had, count=min(had.count, want.count))
                wants[key] = replace(want, count=max(want.count - had.count, 0))
        if left:
            names = " and ".join(f"{name_of(t.unit.kind)} {' and '.join(t.unit.fabrics)}" for t in left)
            raise Refused(
                Problem(f"the quilt has no such unit: {names} of that size", do="Check size and fabrics.")
            )
        self._chosen |= self._weighed(wants)

    def made(self, drawing: Group, block: str | None) -> Made:
        """The pile of a unit, and how it lies in its drawing."""
        key, want = self._want(drawing, block)
        if key not in self._piles:
            if key not in self._chosen:
                self._chosen |= self._weighed({key: want})
            self._piles[key] = self._new(key, want)
        thing = self._piles[key]
        tilted = self._chosen[key].tilted or self._is_tilted(thing)
        one_way = frozenset() if tilted else self.record.cloths.one_way
        place = lay_on_patches(thing.cloth, want.drawing.patches, one_way)
        if place is None:
            raise Refused(Problem(f"the unit {thing.name!r} does not come out as it was drawn"))
        return Made(thing, place)

    def _is_tilted(self, thing: Thing) -> bool:
        """Whether a one-way print does not stand upright in some of a pile."""
        if isinstance(thing, Gathered):
            return any(self._is_tilted(self.record.things[name]) for name, _ in thing.sources)
        return isinstance(thing, UnitThing | ThingThere) and thing.tilted

    def _weighed(self, wants: dict[Key, Want]) -> dict[Key, Chosen]:
        motifs, workroom = self.record.cloths.motifs, self.record.workroom
        with_motif = {key: want for key, want in wants.items() if motifs & set(want.unit.fabrics)}
        others = {key: want for key, want in wants.items() if key not in with_motif}
        # Strip sets are cut across wherever a motif lies.
        singly = msgspec.structs.replace(workroom, refused=(*workroom.refused, SET))
        chosen: dict[Key, Chosen] = {}
        for some, room in ((others, workroom), (with_motif, singly)):
            choice = choose_all(tuple(some.values()), room, self.record.cloths.one_way)
            chosen |= zip(some, choice.chosen, strict=True)
        return chosen

    def _want(self, drawing: Group, block: str | None) -> tuple[Key, Want]:
        """A unit that is wanted once, and the key that is equal where the same is wanted elsewhere."""
        unit, cloths = recognise(drawing), self.record.cloths
        assert unit is not None
        pinned = cloths.pins.get((unit.kind, block), cloths.pins.get((unit.kind, None)))
        alike = cloths.likeness(p.role for p in drawing.patches)
        patches = in_fabrics(drawing.patches, cloths.fabric_of)
        shown = Group(drawing.name, tuple(map(Placed, patches)), drawing.outline)
        in_cloth = replace(unit, fabrics=tuple(cloths.fabric_of[role] for role in unit.fabrics))
        return (look(patches), pinned, alike), Want(in_cloth, shown, 1, alike, pinned)

    def _new(self, key: Key, want: Want) -> Thing:
        chosen, had = self._chosen[key], self._had.get(key)
        sources = chosen.sources
        if not had and len(sources) == 1 and sources[0].besides is None:
            return self._batch(sources[0], chosen, want, several=False)
        several = len(sources) + bool(had) > 1
        parts: list[tuple[UnitPile, int]] = [(self._there(had, want, several), had.count)] if had else []
        parts += [(self._source(source, chosen, want, several), source.gives) for source in sources]
        if not several:
            return parts[0][0]
        cloths = [thing.cloth for thing, _ in parts]
        free = [_is_free(thing) for thing, _ in parts]
        alike = all(
            _pressed_like(cloth, cloths[0]) if free[0] or free[k] else made_alike(cloth, cloths[0])
            for k, cloth in enumerate(cloths)
        )
        name = self.record.free_name(self._name(want.unit))
        needs = tuple((thing.name, 1) for thing, _ in parts)
        from_piles = tuple((thing.name, gives) for thing, gives in parts)
        cloth = cloths[0] if alike else _all_pressed(cloths[0], "either")
        return self.record.add(Gathered(name, Station.UNIT, cloth, needs, from_piles, alike))

    def _there(self, had: There, want: Want, several: bool) -> ThingThere:
        """Units that are there already: what they are is told by a recipe that makes them."""
        asked = replace(want, pinned=had.way or want.pinned)
        found = ready(asked, self.record.workroom, self.record.cloths.one_way)
        recipe = found.recipes[0]
        name = self.record.free_name(self._name(want.unit) + (", made already" if several else ""))
        cloth = renamed_seams(recipe.cloth, "unit", name)
        return self.record.add(ThingThere(name, Station.UNIT, cloth, (), had.count, recipe, found.tilted))

    def _source(self, source: Source, chosen: Chosen, want: Want, several: bool) -> UnitPile:
        batch = self._batch(source, chosen, want, several)
        if source.besides is None:
            return batch
        name = source.besides.name(batch.name)
        known = self.record.things.get(name)
        if isinstance(known, OffBatch):
            return known
        made = cloth_besides(source.recipe, source.besides, self.record.workroom)
        cloth = renamed_seams(made, "unit", batch.name)
        return self.record.add(
            OffBatch(name, Station.UNIT, cloth, ((batch.name, 1),), source.besides.count, source.recipe)
        )

    def _batch(self, source: Source, chosen: Chosen, want: Want, several: bool) -> UnitThing:
        """The thing that a recipe makes: once, whichever wants it serves."""
        recipe = source.recipe
        if id(recipe) in self._batches:
            return self._batches[id(recipe)]
        name = self._name(recipe.unit) + (f", {recipe.method.name}" if several or source.besides else "")
        name = self.record.free_name(name)
        needs = tuple(
            (self._start(recipe, number).name, start.count)
            for number, start in enumerate(recipe.method.starts)
        )
        thing = UnitThing(
            name,
            Station.UNIT,
            renamed_seams(recipe.cloth, "unit", name),
            needs,
            recipe,
            chosen.others,
            recipe.unit.drawing if source.besides else want.drawing,
            chosen.pinned,
            chosen.tilted,
        )
        self._batches[id(recipe)] = thing
        return self.record.add(thing)

    def _start(self, recipe: Recipe, number: int) -> Cut:
        start = recipe.method.starts[number]
        width, height = recipe.start_sizes()[number]
        fabric = recipe.unit.fabrics[start.fabric]
        one_way = fabric in self.record.cloths.one_way
        if width > height and not one_way and recipe.method.unknowns == 1:
            width, height = height, width
        return self.record.cut(fabric, width, height, may_turn=not one_way)

    def _name(self, unit: Unit) -> str:
        sizes = f"{figure(unit.width, self.record.workroom.unit)}"
        if unit.height != unit.width:
            sizes += f" x {figure(unit.height, self.record.workroom.unit)}"
        hand = f"{hand_of(unit)} ".lstrip()
        return f"{hand}{name_of(unit.kind)} {' and '.join(dict.fromkeys(unit.fabrics))} {sizes}"


def _is_wanted(there: There, want: Want) -> bool:
    """Whether units that are there are those that are wanted, whichever way their kind names the fabrics."""
    unit = want.unit
    same = replace(there.unit, fabrics=unit.fabrics) == unit
    return same and sorted(there.unit.fabrics) == sorted(unit.fabrics)


def _is_free(thing: UnitPile) -> bool:
    """Whether the plan still chooses how a thing is pressed."""
    return not isinstance(thing, ThingThere) and not thing.recipe.method.pressed_as_written


def _pressed_like(cloth: Cloth, first: Cloth) -> bool:
    """Whether seams pressed alike lie alike in two cloths."""
    return made_alike(_all_pressed(cloth, "second"), _all_pressed(first, "second"))


def _all_pressed(cloth: Cloth, towards: Pressed) -> Cloth:
    seams = tuple(replace(seam, pressed=(towards,) * len(seam.segments)) for seam in cloth.own_seams)
    return replace(cloth, own_seams=seams, _ends={})
