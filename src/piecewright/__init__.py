"""Plans pieced quilts: a plan is a program, replayed on a virtual bench before anyone sees it."""

__version__ = "0.1.0"
