"""`python -m piecewright` is the command `piecewright`."""

from piecewright.cli.main import run

run()
