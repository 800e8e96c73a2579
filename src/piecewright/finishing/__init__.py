"""Borders, backing, batting and binding: what lies between the blocks and the bed."""
