"""Which way every seam is pressed, so that seams that meet nest."""
