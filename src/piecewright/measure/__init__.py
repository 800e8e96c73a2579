"""Lengths: exact where a ruler measures; reading, showing, rounding, the tolerances."""
