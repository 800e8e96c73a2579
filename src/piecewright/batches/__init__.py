"""Which way for which units, and how many at a time."""
