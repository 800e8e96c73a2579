"""Points, isometries, polygons and tilings of the sewing table; floats in inches."""
