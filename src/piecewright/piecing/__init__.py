"""From a drawn block to sub-assemblies and joins."""
