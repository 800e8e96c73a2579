"""Beds with the sizes of their mattresses, and usual sizes of quilts that lie on no bed.

Terms:
- *bed*: a mattress by its country and the name it goes by there; makers differ by an inch, so one measures;
- *usual quilt*: a size that is often made where no mattress sets it.

Every figure has its source beside it; "from memory" where there is none.
"""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.measure.number import shortened
from piecewright.measure.showing import figure
from piecewright.toml_places import did_you_mean

BABY_CAUTION = (
    "For a baby under a year a quilt is to play on, to look at or to be held in, not to sleep under: "
    "advice on safe sleep asks for no quilts or loose covers in the cot. Go by the advice where you live."
)
"""Sources: rednose.org.au (safe bedding), scottishcotdeathtrust.org (choose the correct bedding)."""


@dataclass(frozen=True)
class Bed:
    """A mattress: its country, the name it goes by there, width and length as sold, and who says so."""

    country: str
    name: str
    width: Length
    length: Length
    unit: Unit
    source: str

    @property
    def key(self) -> str:
        """What one types: `us queen`, `eu 160 x 200`."""
        return f"{self.country.lower()} {self.name}"

    @property
    def is_for_baby(self) -> bool:
        """Whether babies sleep in it."""
        return self.name in ("crib", "cot")

    def words(self) -> str:
        """The name with its figures: `US queen, 60 x 80 in`."""
        size = f"{figure(self.width, self.unit)} x {figure(self.length, self.unit)} {self.unit}"
        return f"{self.country} {self.name}, {size}"


@dataclass(frozen=True)
class UsualQuilt:
    """A size that is often made for a use; nothing depends on it."""

    name: str
    width: Length
    height: Length
    source: str

    @property
    def is_for_baby(self) -> bool:
        """Whether it is made for a baby."""
        return self.name == "baby"


_US = "shopbedmart.com mattress-sizes-dimensions"
_UK = "sleepandsnooze.co.uk mattress-size-guide"
_EU = "bedsizes.biz european.htm"
_AU = "upmove.com.au mattress-sizes-australia"
_FRENCH = "Guide_des_tailles_lits_housses.pdf, a French bedding shop"

_IN_INCHES: tuple[tuple[str, str, int, int, str], ...] = (
    ("US", "crib", 27, 52, _US),
    ("US", "twin", 39, 75, _US),
    ("US", "twin xl", 39, 80, _US),
    ("US", "full", 54, 75, _US),
    ("US", "full xl", 54, 80, _US),
    ("US", "queen", 60, 80, _US),
    ("US", "king", 76, 80, _US),
    ("US", "california king", 72, 84, _US),
)
_IN_CM: tuple[tuple[str, str, int, int, str], ...] = (
    ("UK", "cot", 60, 120, _UK),
    ("UK", "toddler", 70, 140, _UK),
    ("UK", "small single", 75, 190, _UK),
    ("UK", "single", 90, 190, _UK),
    ("UK", "small double", 120, 190, _UK),
    ("UK", "double", 135, 190, _UK),
    ("UK", "king", 150, 200, _UK),
    ("UK", "super king", 180, 200, _UK),
    ("EU", "cot", 60, 120, _FRENCH),
    ("EU", "70 x 140", 70, 140, _FRENCH),
    ("EU", "80 x 200", 80, 200, _EU),
    ("EU", "90 x 190", 90, 190, _EU),
    ("EU", "90 x 200", 90, 200, _EU),
    ("EU", "100 x 200", 100, 200, _EU),
    ("EU", "120 x 200", 120, 200, _FRENCH),
    ("EU", "140 x 190", 140, 190, _EU),
    ("EU", "140 x 200", 140, 200, _FRENCH),
    ("EU", "160 x 200", 160, 200, "mynextmattress.co.uk size-guide"),
    ("EU", "180 x 200", 180, 200, "from memory"),
    ("EU", "200 x 200", 200, 200, "from memory"),
    ("AU", "cot", 69, 130, "rowes.com.au mattress-size-guide-for-homes-in-the-darling-downs"),
    ("AU", "single", 92, 188, _AU),
    ("AU", "long single", 92, 203, _AU),
    ("AU", "king single", 107, 203, _AU),
    ("AU", "double", 138, 188, _AU),
    ("AU", "queen", 153, 203, _AU),
    ("AU", "king", 183, 203, _AU),
    ("AU", "super king", 203, 203, _AU),
)

BEDS: tuple[Bed, ...] = (
    *(Bed(land, name, inches(w), inches(h), "in", source) for land, name, w, h, source in _IN_INCHES),
    *(Bed(land, name, mm(w * 10), mm(h * 10), "cm", source) for land, name, w, h, source in _IN_CM),
)

USUAL_QUILTS: tuple[UsualQuilt, ...] = (
    UsualQuilt(
        "baby", inches(36), inches(36), "runawayquilting.com quilt-sizes-measurements-from-baby-to-king"
    ),
    UsualQuilt("wall", inches(36), inches(36), "from memory; any size will do"),
    UsualQuilt("lap", inches(50), inches(60), "bestsewingmachines.reviews do-you-know-your-quilt-sizes"),
    UsualQuilt("throw", inches(50), inches(65), "bestsewingmachines.reviews do-you-know-your-quilt-sizes"),
)


def bed_named(text: str) -> Bed | UsualQuilt:
    """The bed or usual quilt that someone names: `us queen`, `UK king`, `160x200`, `throw`.

    A name without a country will do where only one country has it. Raises ValueError for any other, with
    what there is.

    >>> bed_named("US queen").words(), bed_named("throw").width
    ('US queen, 60 x 80 in', inches('50'))
    """
    wanted = _plain(text)
    known: dict[str, Bed | UsualQuilt] = {bed.key: bed for bed in BEDS}
    known |= {quilt.name: quilt for quilt in USUAL_QUILTS}
    if wanted in known:
        return known[wanted]
    alike = [bed for bed in BEDS if bed.name == wanted]
    if len(alike) == 1:
        return alike[0]
    if alike:
        named = " or ".join(bed.key for bed in alike)
        raise ValueError(f"expected the country of the {wanted} bed too, got none; write {named}")
    raise ValueError(f"expected a bed such as us queen, got {shortened(text)}; {_hint(wanted, list(known))}")


def _hint(wanted: str, known: list[str]) -> str:
    said = did_you_mean(wanted, known)
    return f"{said[:1].lower()}{said[1:]}".rstrip(".?")


def _plain(text: str) -> str:
    words = text.lower().replace("×", "x").replace(",", " ").split()
    spaced = [word.replace("x", " x ") if word[:1].isdigit() else word for word in words]
    return " ".join(" ".join(spaced).split())
