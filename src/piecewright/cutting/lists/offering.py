"""What a fabric of a list may be cut from: its own cloth and that of its stand-ins, a bolt at a time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from piecewright.cutting.given.cloth import Bolt, Given, Offered, Pack
from piecewright.cutting.lists.listed import CuttingList, ListedBolt, ListedFabric
from piecewright.measure.length import ZERO, Length


@dataclass(frozen=True, slots=True)
class Offer:
    """What is offered for one fabric, with the bolt as it is listed, where there is one."""

    offered: Offered
    bolt: ListedBolt | None = None


def offers_for(
    fabric: ListedFabric, listed: CuttingList, there: Sequence[Given], packs_taken: Mapping[str, int]
) -> tuple[Offer, ...]:
    """All that the fabric may come from, once for each bolt, its own bolt first.

    `there` is the cloth on hand; `packs_taken` says how many packs of each name are bought already.
    """
    given = tuple(cut for cut in (fabric.cut_from_given(one) for one in there) if _is_cloth(fabric, cut))
    bare = Offered(shelf=given, ruler_length=_ruler(fabric), unit=listed.unit)
    if not fabric.may_buy:
        return (Offer(bare),)
    packs = tuple(_packs(fabric, listed.packs, packs_taken))
    bolts = [bolt for name in fabric.fabrics for bolt in listed.bolts if bolt.fabric == name]
    if not bolts:
        return (Offer(replace(bare, packs=packs)),)
    return tuple(
        Offer(replace(bare, packs=packs, bolt=Bolt(fabric.cut_from(bolt), bolt.price)), bolt)
        for bolt in bolts
    )


def own_cloth(fabric: ListedFabric, offered: Offered) -> Offered:
    """The cloth of its own name that is on hand, and nothing else."""
    own = tuple(given for given in offered.shelf if given.fabric == fabric.name)
    return replace(offered, shelf=own, packs=(), bolt=None)


def _is_cloth(fabric: ListedFabric, given: Given) -> bool:
    return given.fabric in fabric.fabrics and given.count > 0 and min(given.width, given.height) > ZERO


def _packs(fabric: ListedFabric, packs: Sequence[Pack], taken: Mapping[str, int]) -> Sequence[Pack]:
    found = []
    for pack in packs:
        piece, most = fabric.cut_from_given(pack.piece), pack.most - taken.get(pack.piece.name, 0)
        if most > 0 and _is_cloth(fabric, piece):
            found.append(replace(pack, piece=piece, most=most))
    return found


def _ruler(fabric: ListedFabric) -> Length:
    assert fabric.supply.ruler_length is not None
    return fabric.supply.ruler_length
