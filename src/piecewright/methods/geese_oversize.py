"""Flying geese that are made a little large and trimmed, measured from the point."""

from __future__ import annotations

from dataclasses import replace

from piecewright.methods import geese_flip, geese_four

_TRIM = "Trim every goose: the ruler's seam line on the point, then the long edge and both ends."

FLIP = replace(
    geese_flip.METHOD,
    name="stitch and flip, trimmed",
    reason="every goose comes out true, whatever the seam, but it takes more cloth and four cuts each",
    says=(*geese_flip.METHOD.says, _TRIM),
    may_round=True,
    oversize=True,
)

FOUR = replace(
    geese_four.METHOD,
    name="four at a time, trimmed",
    reason="four at once, and every goose is trimmed true, but that is four more cuts each",
    says=(*geese_four.METHOD.says, _TRIM),
    oversize=True,
)
