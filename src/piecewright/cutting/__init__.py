"""From the pieces wanted of one cloth to strips, subcuts and what to buy, with proven bounds.

Words: a *strip* runs across the usable width and has a height along the length of the cloth; a *section*
is a crosscut of a strip, and holds one piece or a *stack* of equal pieces above each other, subcut along
the length; a *pattern* is the way one strip is cut, and how often; a *layout* is all patterns of one cloth.
"""
