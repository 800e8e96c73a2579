"""All tolerances of the project, in inches, in one place."""

# Two points nearer than this are one point.
WELD = 1e-6

# A size this little above a mark of the ruler counts as on the mark (a share of the ruler's step).
ROUNDING_SLACK = 1e-6

# A finished patch lies where it was drawn when no corner is farther off than this.
AS_DRAWN = 1e-3

# Raw edges and seam ends that are to be joined may differ by this much.
EDGE_MATCH = 1e-3

# Two directions (unit vectors) nearer than this are parallel.
PARALLEL = 1e-6
