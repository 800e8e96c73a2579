"""An assortment planned as a whole: how many prints it takes, and what is cut from each.

A *print* is one fabric of an assortment; a *share* is what is cut from one print.
"""
