"""How large a quilt is to be: beds, sizes that fit, counts that suit, redrafting to inch or cm."""
