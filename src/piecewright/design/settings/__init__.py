"""Settings: how blocks lie in the middle of a quilt, one file for each kind.

Words: a *setting* has *cells* in rows (0 is the top one) and columns (0 is the left one), in each of which
a block or plain cloth is *laid*, perhaps turned; the *middle* is all that lies inside the borders.
"""
