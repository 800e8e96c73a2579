"""Pictures of designs, steps, layouts and pressing, drawn onto a pen; nothing of the trade is computed here."""
