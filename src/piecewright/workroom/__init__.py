"""One person's settings: seam, rounding, tools, cloth widths, likes, pace."""
