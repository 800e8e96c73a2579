"""Pictures of designs, steps, layouts and pressing, drawn onto a pen; no sums of the trade are done here."""
