"""Cutting lists: pieces of several fabrics in a file, the cloth they may come from, and how they are cut.

Words: a *listed fabric* with its *items*; *supplies* are the bolts, pieces and packs that a list names;
a *stand-in* is a fabric that may be taken for another.
"""
