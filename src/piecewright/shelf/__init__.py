"""The shelf: cloth on hand, in a plain `.toml` file; what is taken out, and what is put in.

Words: an *entry* is equal pieces of one fabric, `width` across and `length` along the selvedge, at the
size that can be used; what a plan *used* goes off the shelf, what is *left* of it and worth keeping goes in.
"""
