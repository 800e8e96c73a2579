"""The promises that every way of making a unit keeps, and a unit of every kind to try them on."""

from collections.abc import Callable

import pytest

from piecewright.bench.as_drawn import compare
from piecewright.bench.bench import Bench, total_area
from piecewright.bench.plan import Have, Supply
from piecewright.geometry.polygon import extent, grown
from piecewright.measure.length import Length, inches
from piecewright.methods.method import Method, Unit
from piecewright.methods.recipe import Recipe, make_recipe, written_for
from piecewright.methods.trial import solve, try_out
from piecewright.workroom.workroom import Workroom

FABRICS = ("sail", "tide")

# A unit of every kind whose height is a given side; a new kind adds its line.
SAMPLES: dict[str, Callable[[Length], Unit]] = {
    "hst": lambda side: Unit("hst", FABRICS, side, side),
    "hourglass": lambda side: Unit("hourglass", FABRICS, side, side),
    "geese": lambda side: Unit("geese", FABRICS, side * 2, side),
    "diamond45": lambda side: Unit("diamond45", FABRICS[:1], side, side),
    "diamond60": lambda side: Unit("diamond60", FABRICS[:1], side, side),
    "triangle60": lambda side: Unit("triangle60", FABRICS[:1], side, side),
    "hexagon": lambda side: Unit("hexagon", FABRICS[:1], side, side),
    "kite": lambda side: Unit("kite", FABRICS[:1], side * 2 / 3, side, (side / 3,)),
    "trapezoid": lambda side: Unit("trapezoid", FABRICS[:1], side * 2, side, (side,)),
    "trapezoid-upright": lambda side: Unit(
        "trapezoid-upright", FABRICS[:1], side * 2, side, (side,), "right"
    ),
    "star8": lambda side: Unit("star8", (*FABRICS, "sea"), side, side),
    "star8-wedges": lambda side: Unit("star8-wedges", (*FABRICS, "sea"), side, side),
    "quarter-circle": lambda side: Unit("quarter-circle", FABRICS, side, side, (side * 3 / 4,)),
    "insquare": lambda side: Unit("insquare", FABRICS, side, side),
    "corner1": lambda side: Unit("corner1", FABRICS, side / 2, side, (side / 2,), "right"),
    "corners2": lambda side: Unit("corners2", FABRICS, side, side, (side / 2,)),
    "opposite2": lambda side: Unit("opposite2", FABRICS, side, side, (side / 2,)),
    "corners3": lambda side: Unit("corners3", FABRICS, side, side, (side / 3,)),
    "snowball": lambda side: Unit("snowball", FABRICS, side, side, (side / 3,)),
    "threepatch": lambda side: Unit("threepatch", (*FABRICS, "sea"), side, side, (), "left"),
    "quarters": lambda side: Unit("quarters", (*FABRICS, "sea", "sky"), side, side),
    "hrt": lambda side: Unit("hrt", FABRICS, side / 2, side, (), "left"),
    "rail": lambda side: Unit("rail", FABRICS, side, side),
    "fourpatch": lambda side: Unit("fourpatch", FABRICS, side, side),
    "ninepatch": lambda side: Unit("ninepatch", FABRICS, side, side),
    "sixteenpatch": lambda side: Unit("sixteenpatch", FABRICS, side, side),
    "logcabin": lambda side: Unit("logcabin", (*FABRICS, "sea"), side, side, (side / 3, side / 6), "right"),
    "courthouse": lambda side: Unit("courthouse", (*FABRICS, "sea"), side, side, (side / 3, side / 6)),
}

# Bias on the outside of a unit, 0 where a way is not named.
# Common practice, no source: sewn round the edge all four sides are bias.
BIAS = {
    "hst four at a time": 4,
    # Plane geometry: a triangle that stands on the edge of a strip has both short sides off the grain.
    "hst from sewn strips": 4,
    # Plane geometry: what does not run with the sides of the strip, or up the template, is off the grain.
    "diamond45 from strips": 2,
    "diamond45 by template": 2,
    "diamond60 from strips": 2,
    "diamond60 by template": 2,
    "triangle60 from strips": 2,
    "triangle60 by template": 2,
    "hexagon from strips": 4,
    "hexagon by template": 4,
    "kite by template": 4,
    "trapezoid from strips": 2,
    "trapezoid by template": 2,
    "trapezoid-upright from strips": 1,
    "trapezoid-upright by template": 1,
}


def label(m: Method) -> str:
    return f"{m.kind} {m.name}"


def unit_of(kind: str, side: Length) -> Unit:
    """A unit whose height is the side."""
    return SAMPLES[kind](side)


def raw(unit: Unit, workroom: Workroom) -> tuple[float, float]:
    """As a ruler is laid: of what is no rectangle along its longest side, and across (or the other way)."""
    if not unit.is_rectangle:
        along, across = extent(grown(unit.drawing.outline, float(workroom.take_up)))
        return (across, along) if unit.width < unit.height else (along, across)
    width, height = unit.raw(workroom.take_up)
    return float(width), float(height)


def bench_for(recipe: Recipe, workroom: Workroom, times: int = 1) -> tuple[Bench, tuple[str, ...]]:
    """A bench with the starts cut, as a plan has them, and the names of their piles."""
    names = tuple(f"piece {k}" for k in range(len(recipe.method.starts)))
    have = [
        Have(
            name=name,
            count=start.count * times,
            fabric=recipe.unit.fabrics[start.fabric],
            width=recipe.sizing.cut[start.width],
            height=recipe.sizing.cut[start.height],
        )
        for name, start in zip(names, recipe.method.starts, strict=True)
    ]
    cloth = [Supply(fabric=f, width=inches(40), length=inches(0)) for f in dict.fromkeys(recipe.unit.fabrics)]
    return Bench(workroom, cloth, have), names


def keeps_its_promises(m: Method, unit: Unit, workroom: Workroom) -> None:
    """Everything that holds for each method, unit and seam."""
    wanted = raw(unit, workroom)
    exact = solve(m, unit, workroom)
    assert try_out(m, unit, exact, workroom).size == pytest.approx(wanted, abs=1e-9), "the wanted size"

    recipe = make_recipe(m, unit, workroom)
    assert all(float(cut) >= size - 1e-7 for cut, size in zip(recipe.sizing.cut, exact, strict=True)), (
        "cut no smaller than solved"
    )

    times = 3
    bench, names = bench_for(recipe, workroom, times)
    tables = []
    for step in written_for(recipe, names, "unit", times, workroom):
        tables.append(bench.table)
        bench.do(step)
        for put_in, there in total_area(bench.table, bench.rules.widths).values():
            assert there == pytest.approx(put_in, abs=1e-6), f"no cloth lost or won by {step}"
    done = bench.cloth("unit")

    assert bench.count("unit") == m.makes * times, "the right count"
    assert sorted(done.size) == pytest.approx(sorted(wanted), abs=1e-9), "the unfinished size"
    assert compare(done, unit.drawing, {}).differences == (), "looks as drawn, at the finished size"

    besides = 0.0
    for other in m.besides:
        assert bench.count(other.name("unit")) == other.count * times, (
            "the right count of what else comes off"
        )
        besides += sum(cloth.area * number for cloth, number in bench.pile(other.name("unit")).kinds) / times
        if other.unit:
            drawn = other.unit(unit).drawing
            for cloth, _ in bench.pile(other.name("unit")).kinds:
                assert compare(cloth, drawn, {}).differences == (), "looks as it should"
    used = m.makes * recipe.cloth.area + besides
    assert recipe.offcuts == pytest.approx(recipe.cloth_area - used, abs=1e-6), "the recipe's own account"
    assert recipe.offcuts >= -1e-9
    assert recipe.bias_edges == BIAS.get(label(m), 0), "bias edges"

    for table in reversed(tables):
        bench.undo()
        assert bench.table == table, "undone"
