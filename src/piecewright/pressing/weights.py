"""What counts at the ironing board, and how much: one table.

A clash at a crossing counts 1, and no sum of wishes below is worth one. An open seam at a crossing counts
`PIN`, since it neither nests nor clashes, and wants a pin. The wishes are common practice, no source; the
figures are our own, set against one another, for one seam of one thing:

| wish | weight | why |
|---|---|---|
| `POINT` | 4 | a goose is pressed away from its point, corners outwards: there is least bulk |
| `BULK` | 2 | away from the side on which more seams run out |
| `DARK` | 1 | to the darker side, so that no allowance shows through |
| `SPUN` | 2 | a spun centre lies flat: for every two seams that come together on the one changing side |
| `PICKED_OUT` | 1 1/2 | stitches are picked out: for every crossing of a seam that changes side |
| `WHOLE_ROW` | 1 | all seams of a row lie one way, so that a strip is ironed in one go: for two that do not |
| `BY_TURNS` | 1/4 | rows beside one another lie opposite ways, so that like rows are pressed alike |
| `BOTH_ALIKE` | 1 | both pressings of a block lie alike where they can: for each second one that does not |
| `OPEN` | 3 | a seam takes longer to press open |

So a four-patch is spun (2 against 1 1/2), a seam with more crossings changes side only to save a clash, and
the seams of a row are pressed one way unless bulk or much darkness is against it.
"""

POINT = 4.0
BULK = 2.0
DARK = 1.0
SPUN = 2.0
PICKED_OUT = 1.5
WHOLE_ROW = 1.0
BY_TURNS = 0.25
BOTH_ALIKE = 1.0
OPEN = 3.0
PIN = 0.25

MOST_CROSSINGS = 8
"""A seam with more crossings than this is ironed in one go, and never changes side."""
