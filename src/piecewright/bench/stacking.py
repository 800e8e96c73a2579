"""Stack, sew, cut, open: the one primitive behind nearly every way of making a unit.

Cloths lie face down on a base. Lines of stitching go through all of them, then lines of cutting. In each
region between the cuts every sewn top opens about its own longest line of stitching, the deeper side of
the base stays, and any other stitching must lie within the allowance (those stitches are picked out).
What is not sewn falls away. Faces are convex, which straight cuts keep so.
"""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.bench.cloth import Cloth, SeamSize
from piecewright.bench.layers import Cut, Layer, cut_layer, layer_of, outline_of, regions_between
from piecewright.bench.opening import Opened, open_region
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.polygon import Line, Polygon, bounds, centroid, clip, clip_segment, grown

__all__ = ["Opened", "slice_apart", "stack"]


def stack(
    base: Cloth,
    tops: Sequence[tuple[Cloth, Isometry]],
    sew: Sequence[Line],
    cut: Sequence[Line],
    name: str,
    seam: SeamSize,
) -> list[Opened]:
    """Every region of a stack after sewing, cutting and opening, lowest centre first, then left-most.

    `tops` lie by mirroring isometries. Lines of `sew` are where the needle goes; `cut` lines are endless.
    Raises Refused where a part cannot be opened flat.
    """
    whole = [layer_of(base, Isometry()), *(layer_of(top, place) for top, place in tops)]
    opened = []
    regions = regions_between(whole, cut)
    for region in regions:
        layers = [cut_layer(layer, region, len(regions)) for layer in whole]
        window = _window_of(region, layers)
        stitches = [s for line in sew if window and (s := clip_segment(line, window))]
        opened.append(open_region(layers, stitches, name, seam))
    return sorted(opened, key=lambda o: (round(o.centre[1], 4), round(o.centre[0], 4)))


def slice_apart(cloth: Cloth, cut: Sequence[Line], seam: SeamSize) -> list[Cloth]:
    """The parts of a cloth cut along endless lines, lowest centre first, then left-most."""
    layer = layer_of(cloth, Isometry())
    cut_layers = [cut_layer(layer, region) for region in regions_between([layer], cut)]
    parts = [_assembled(part, seam) for part in cut_layers if part.faces]
    return sorted(parts, key=lambda c: (round(centroid(c.raw)[1], 4), round(centroid(c.raw)[0], 4)))


def _assembled(layer: Layer, seam: SeamSize) -> Cloth:
    raw = outline_of(layer.faces)
    return Cloth(raw, grown(raw, -seam.take_up), layer.faces, (), layer.seams)


def _window_of(region: Sequence[Cut], layers: Sequence[Layer]) -> Polygon:
    """A region as far as any cloth reaches, and a little beyond; () where it is too narrow to sew in."""
    x0, y0, x1, y1 = bounds([p for layer in layers for f in layer.faces for p in f.flat] or [(0.0, 0.0)])
    window: Polygon = ((x0 - 1, y0 - 1), (x1 + 1, y0 - 1), (x1 + 1, y1 + 1), (x0 - 1, y1 + 1))
    for a, b, keep in region:
        window = clip(window, a, b, keep)
    return window
