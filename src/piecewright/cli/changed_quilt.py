"""Writing a changed quilt file: a new file beside the old one, which stays as it is."""

from __future__ import annotations

from pathlib import Path

from piecewright.cli.folder import write_folder
from piecewright.design.model import Design
from piecewright.problems import Problem, Refused
from piecewright.sizing.quilt_text import rewritten


def write_changed(quilt: Path, out: str, before: Design, after: Design) -> Path:
    """Writes the quilt file with the sizes of another design under a new name; remarks stay.

    Raises Refused where a file of that name is there already, or it is none for a quilt.
    """
    place = Path(out)
    if place.suffix.lower() != ".toml" or not place.stem.strip():
        raise Refused(Problem("expected the name of a file that ends in .toml, got another.", "--out"))
    if place.exists():
        what = "expected no file of this name, found one, which is left as it is."
        raise Refused(Problem(what, str(place), "Name another file with --out."))
    text = rewritten(quilt.read_text("utf-8-sig"), str(place), before, after)
    write_folder(place.parent, {place.name: text.encode()})
    return place
