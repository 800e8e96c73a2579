"""Blocks sewn on paper: foundation sections made from scraps, then joined along straight seams."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

from piecewright.design.drawing import Group, Patch, Placed
from piecewright.methods.foundation.plan import Foundation, FoundationJoin, FoundationSection, foundation_of
from piecewright.methods.foundation.scraps import ScrapRule
from piecewright.methods.foundation.trial import sewn_section, tried
from piecewright.piecing.laying import in_fabrics, lay_on_patches
from piecewright.piecing.looks import look
from piecewright.planning.renaming import renamed_seams
from piecewright.planning.things import Made, PaperSection
from piecewright.problems import Problem, Refused
from piecewright.sewing.stations import Station

if TYPE_CHECKING:
    from piecewright.planning.making import Workshop


class OnPaper:
    """Makes blocks on foundations in a workshop; sections that look alike, up to a turn, are one thing."""

    def __init__(self, shop: Workshop) -> None:
        self.shop = shop
        self._known: dict[object, PaperSection] = {}
        self._foundations: dict[int, tuple[Group, Foundation]] = {}

    def why_not(self, drawing: Group) -> tuple[Problem, ...] | None:
        """Why a block cannot be sewn on paper, or None where it can."""
        try:
            self.foundation(drawing)
        except Refused as refused:
            return tuple(
                replace(problem, what=f"not sewn on a foundation: {problem.what}", weight="note")
                for problem in refused.problems
            )
        return None

    def foundation(self, drawing: Group) -> Foundation:
        """The sections of a block; raises Refused where straight lines do not allow it."""
        if id(drawing) not in self._foundations:
            shop = self.shop
            patches = in_fabrics(drawing.patches, shop.cloths.fabric_of)
            in_cloth = Group(drawing.name, tuple(map(Placed, patches)), drawing.outline)
            rule = ScrapRule(float(shop.workroom.take_up), ruler=shop.workroom.ruler, grain="edge")
            self._foundations[id(drawing)] = (drawing, tried(foundation_of(in_cloth, rule), shop.workroom))
        return self._foundations[id(drawing)][1]

    def made(self, drawing: Group) -> Made:
        """A block as foundation sections, joined; raises Refused where straight lines do not allow it."""
        foundation = self.foundation(drawing)
        if foundation.joins is None:
            return self._section(foundation.sections[0], drawing.name, Station.BLOCK)
        made = {
            section.letter: self._section(
                section, f"{drawing.name} section {section.letter}", Station.ASSEMBLY
            )
            for section in foundation.sections
        }
        return self._joined(foundation.joins, foundation.joins, made, drawing.name)

    def _section(self, section: FoundationSection, name: str, station: Station) -> Made:
        key = look(section_patches(section)), station
        if key not in self._known:
            self._known[key] = self._new(section, name, station)
            return Made(self._known[key], section.patches[0].scrap.place)
        thing = self._known[key]
        place = lay_on_patches(thing.cloth, section_patches(section), self.shop.cloths.one_way)
        if place is None:
            raise Refused(Problem(f"the section {thing.name!r} does not come out as it was drawn"))
        return Made(thing, place)

    def _new(self, section: FoundationSection, name: str, station: Station) -> PaperSection:
        shop = self.shop
        title = shop.free_name(name)
        scraps = tuple(
            shop.cut(
                patch.role,
                patch.scrap.cut_width,
                patch.scrap.cut_height,
                may_turn=patch.role not in shop.cloths.one_way,
            ).name
            for patch in section.patches
        )
        cloth = renamed_seams(sewn_section(section, shop.workroom), section.letter, title)
        needs = tuple(Counter(scraps).items())
        return shop.add(PaperSection(title, station, cloth, needs, section, scraps))

    def _joined(
        self, part: FoundationJoin | str, whole: FoundationJoin, made: dict[str, Made], name: str
    ) -> Made:
        if isinstance(part, str):
            return made[part]
        parts = [self._joined(inner, whole, made, name) for inner in (part.first, part.second)]
        station = Station.BLOCK if part is whole else Station.ASSEMBLY
        title = name if part is whole else f"{name} sections {part.name}"
        return self.shop.joined(parts, title, "foundation sections", station)


def section_patches(section: FoundationSection) -> tuple[Patch, ...]:
    """The patches of a section where they lie in the drawing."""
    return tuple(Patch(p.role, p.outline, p.way) for p in section.patches)
