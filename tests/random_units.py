"""Random units of every kind, and workrooms with every seam: seeded, so that they are the same every time."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from random import Random

import msgspec

from piecewright.design.kinds import kind_of
from piecewright.measure.length import Length, inches, mm
from piecewright.methods.method import Unit
from piecewright.problems import Refused
from piecewright.workroom.workroom import METRIC_WORKROOM, Workroom
from promises import SAMPLES

SHARES = tuple(Fraction(n, d) for n, d in ((1, 3), (1, 2), (2, 3), (3, 4), (1, 1), (4, 3), (3, 2), (2, 1)))
MORE_FABRICS = ("rope", "gull", "tar")
METRIC_SEAMS = ("5", "6", "7.5")
TRIES = 40


def random_workroom(rng: Random) -> tuple[Workroom, Length]:
    """A workroom with a seam of 5, 6 or 7.5 mm or of 1/4 to 3/8 in, and a side of 1.5 to 10 cm."""
    if rng.random() < 1 / 2:
        fold = mm(Fraction(1, 2))
        seam = mm(rng.choice(METRIC_SEAMS))
        room = msgspec.structs.replace(METRIC_WORKROOM, needle=seam - fold, fold=fold)
        return room, mm(Fraction(rng.randrange(60, 400), 4))
    seam = inches(Fraction(rng.randrange(8, 13), 32))
    return Workroom(needle=seam * Fraction(15, 16), fold=seam / 16), inches(
        Fraction(rng.randrange(12, 65), 16)
    )


def random_unit(kind: str, side: Length, rng: Random) -> Unit:
    """A unit of a kind about so high: other proportions, measures, hand and fabrics than its sample has."""
    sample, known = SAMPLES[kind](side), kind_of(kind)
    for _ in range(TRIES):
        fabrics = sample.fabrics
        if known.more_fabrics:
            fabrics = (*fabrics, *MORE_FABRICS[: rng.randrange(3)])
        unit = replace(
            sample,
            fabrics=fabrics,
            width=sample.width * rng.choice(SHARES),
            measures=tuple(measure * rng.choice(SHARES) for measure in sample.measures),
            hand=rng.choice(known.hands),
        )
        try:
            unit.refuse_nonsense()
        except Refused:
            continue
        return unit
    return sample
