"""The sampler: traditional blocks as data files, one file each, drawn from geometry."""
