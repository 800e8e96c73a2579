"""Flying geese four at a time without waste: one large square, four small ones."""

from __future__ import annotations

from piecewright.bench.steps import AnyStep, Stack
from piecewright.methods.lines import both_sides, face_down, press_all, rising, ruled
from piecewright.methods.method import Making, Method, Start


def steps(making: Making) -> tuple[AnyStep, ...]:
    """Small squares in two opposite corners, sewn beside the diagonal; then one in each third corner."""
    (large, small), (goose, sky) = making.sizes, making.pieces
    hearts = f"{making.gives} hearts"
    down = ruled((large, 0.0), (large / 2, large / 2))
    return (
        Stack(
            base=goose,
            tops=(face_down(sky, small), face_down(sky, small, (large - small, large - small))),
            sew=both_sides(rising(large)),
            cut=(rising(large),),
            gives=(hearts,),
            times=making.times,
        ),
        press_all(hearts, f"{hearts}.0"),
        Stack(
            base=hearts,
            tops=(face_down(sky, small, (large - small, 0.0)),),
            sew=both_sides(ruled((large, 0.0), (large - small, small))),
            cut=(down,),
            gives=(making.gives,),
            times=2 * making.times,
        ),
        press_all(making.gives, f"{making.gives}.0"),
    )


METHOD = Method(
    name="four at a time",
    kind="geese",
    makes=4,
    starts=(Start(0, 1, 0, 0), Start(1, 4, 1, 1)),
    steps=steps,
    landmark="point",
    reason="hardly any cloth is lost, and four alike come off at once",
    says=(
        "Draw a line from corner to corner on the wrong side of the small squares.",
        "Lay two of them in opposite corners of a large square, right sides together; they overlap a little.",
        "Sew on both sides of the line, the needle's distance from it, and cut on it.",
        "Press the small triangles up: two hearts.",
        "Lay a small square in the corner of each heart, its line running up between the wings.",
        "Sew on both sides of the line, cut on it, and press: four geese from each large square.",
    ),
    unknowns=2,
)
