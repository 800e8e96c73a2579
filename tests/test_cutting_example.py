"""The example of a cutting list, as the README calls it: told, printed, and settled with the shelf."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

from piecewright.cli.main import call
from piecewright.shelf.file import read_shelf

CUTTING = Path(__file__).parents[1] / "examples" / "cutting"


def test_the_list_is_cut_from_the_loft_and_printed_and_the_loft_is_settled(tmp_path, capsys):
    for file in CUTTING.glob("*.toml"):
        shutil.copy(file, tmp_path)
    listed, loft, sheet = (tmp_path / name for name in ("evening-tide.toml", "loft.toml", "cutting.pdf"))
    assert call(["cut", str(listed), "--sheet", str(sheet)]) == 0
    assert sheet.read_bytes().startswith(b"%PDF")
    capsys.readouterr()
    assert call(["cut", str(listed), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    # All of the net fits beside its lengthwise borders, which the piece in the loft is too short for.
    assert {used["fabric"] for used in told["shelf"]["used"]} == {"glass"}
    (tmp_path / "cut.json").write_text(json.dumps(told), "utf-8")
    before = {(cloth.fabric, cloth.width, cloth.length) for cloth in read_shelf(loft).cloth}
    assert call(["shelf", str(loft), "--cut", str(tmp_path / "cut.json")]) == 0
    after = {(cloth.fabric, cloth.width, cloth.length) for cloth in read_shelf(loft).cloth}
    assert after != before
    assert (tmp_path / "loft.toml.before").exists()
