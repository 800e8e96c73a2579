"""How long planning takes, and how little of that grows with the number of blocks."""
