"""What hearsay knows to test: a list one can read. A new subject is one value and one line in SUBJECTS."""

from __future__ import annotations

from piecewright.measure.number import shortened
from piecewright.problems import Problem, Refused
from piecewright.rescue.subject import Subject
from piecewright.rescue.subjects_cloth import BACKING, BIAS, BINDING, PIECES, SHRINKAGE
from piecewright.rescue.subjects_patches import (
    FLIPPED_CORNER,
    GEESE_TRIANGLES,
    HALF_RECTANGLE,
    HOURGLASS_TRIANGLES,
    SQUARE_CENTRE,
    SQUARE_CORNERS,
    TRIANGLE_STRIP,
)
from piecewright.rescue.subjects_settings import (
    BUTTED_BORDER,
    MITRED_BORDER,
    ON_POINT,
    SETTING_CORNER,
    SETTING_SQUARE,
)
from piecewright.rescue.subjects_units import geese, square_unit
from piecewright.toml_places import did_you_mean

SUBJECTS: tuple[Subject, ...] = (
    square_unit("hst", "hst", ("half-square triangle", "half-square triangles", "half square triangle")),
    square_unit(
        "hourglass",
        "hourglass",
        ("hourglass unit", "hourglasses", "quarter-square triangle", "quarter-square triangles", "qst"),
        (HOURGLASS_TRIANGLES,),
    ),
    geese(GEESE_TRIANGLES),
    SQUARE_CENTRE,
    SQUARE_CORNERS,
    FLIPPED_CORNER,
    HALF_RECTANGLE,
    TRIANGLE_STRIP,
    SETTING_SQUARE,
    SETTING_CORNER,
    ON_POINT,
    BUTTED_BORDER,
    MITRED_BORDER,
    BINDING,
    BIAS,
    BACKING,
    PIECES,
    SHRINKAGE,
)


def subject_named(name: str) -> Subject:
    """The subject of a name, one of its other names included; raises Refused where there is none.

    >>> subject_named("Half-square triangles").name
    'hst'
    """
    plain = " ".join(name.lower().replace("_", " ").split())
    for subject in SUBJECTS:
        if plain in (subject.name, *subject.also):
            return subject
    known = [name for subject in SUBJECTS for name in (subject.name, *subject.also)]
    do = did_you_mean(name, known)
    if do.startswith("Known"):
        do = f"Known here: {', '.join(subject.name for subject in SUBJECTS)}."
    raise Refused(Problem(f"no rule is known to be about {shortened(name)}.", "subject", do))
