"""A cutting list in a file: .toml with everything it may say, or .csv with the pieces alone.

```toml
unit = "in"
width = 40

[[items]]
name = "geese"
w = "2 1/2"
h = "4 1/2"
count = 64
```
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from piecewright.cutting.lists.csv_file import fabrics_from_csv
from piecewright.cutting.lists.entries import Entries
from piecewright.cutting.lists.listed import UNNAMED, CuttingList, ListedBolt, ListedFabric
from piecewright.cutting.lists.toml_file import list_from_toml
from piecewright.measure.length import Unit
from piecewright.measure.number import shortened
from piecewright.problems import Problem, Refused
from piecewright.toml_places import read_toml
from piecewright.workroom.workroom import Workroom


def read_list(
    path: str | Path, width: str | None = None, unit: Unit | None = None, room: Workroom | None = None
) -> CuttingList:
    """The list in a file; `width` goes before the list's own, `unit` stands for what it does not say.

    Where the list is silent on cloth, ruler and shop, the `room` says how they are.
    Raises Refused with all that is wrong in it, each with its line.
    """
    usual: Unit = unit or (room.unit if room is not None else "in")
    if str(path).lower().endswith(".csv"):
        return _from_csv(Path(path), width, Entries(usual, room))
    if not str(path).lower().endswith(".toml"):
        raise Refused(Problem("expected a cutting list in a .toml or .csv file.", str(path)))
    listed, problems = list_from_toml(read_toml(path), width, usual, room)
    if problems:
        raise Refused(*problems)
    _check_names(listed.fabrics, str(path))
    return listed


def _from_csv(path: Path, width: str | None, entries: Entries) -> CuttingList:
    fabrics = fabrics_from_csv(path, width, UNNAMED, entries)
    if entries.problems:
        raise Refused(*entries.problems)
    _check_names(fabrics, str(path))
    return CuttingList(entries.unit, tuple(fabrics), bolts=tuple(ListedBolt(one.supply) for one in fabrics))


def _check_names(fabrics: Sequence[ListedFabric], name: str) -> None:
    names = [fabric.name for fabric in fabrics]
    for fabric in sorted(set(names)):
        if names.count(fabric) > 1:
            what = f"expected every fabric to have its own name, got {shortened(fabric)} twice."
            raise Refused(Problem(what, name, "Name them apart, or put their pieces together."))
