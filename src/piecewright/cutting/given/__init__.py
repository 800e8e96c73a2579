"""Cloth that is there already or is sold in pieces: what is cut from it, and what is lacking.

Words: *given* cloth, a *pack* of precuts, what is *offered* (shelf, packs, bolt), a *source* of cloth.
"""
