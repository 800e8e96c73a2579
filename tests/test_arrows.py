"""The folders stand in the order of a maker's day; what is imported always stands further up."""

import ast
from pathlib import Path

PACKAGE = Path(__file__).parents[1] / "src" / "piecewright"

ORDER = [
    "measure",
    "problems",
    "toml_places",
    "solver",
    "geometry",
    "workroom",
    "design",
    "blocks",
    "bench",
    "methods",
    "piecing",
    "batches",
    "cutting",
    "shelf",
    "sewing",
    "pressing",
    "finishing",
    "sizing",
    "planning",
    "tolerance",
    "rescue",
    "drawing",
    "handout",
    "cli",
    "__main__",
]


def imports_of(file: Path) -> set[str]:
    """The parts of piecewright that a file imports, wherever in the file."""
    names = set()
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{file.name} imports by dots: write the whole name"
            whole = f"{node.module}." if node.module != "piecewright" else ""
            names |= {whole or f"piecewright.{alias.name}." for alias in node.names}
        elif isinstance(node, ast.Import):
            names |= {f"{alias.name}." for alias in node.names}
    return {name.split(".")[1] for name in names if name.startswith("piecewright.")} - {"", "__version__"}


def part_of(file: Path) -> str:
    return file.relative_to(PACKAGE).with_suffix("").parts[0]


def test_imports_run_upwards_only():
    files = [file for file in sorted(PACKAGE.rglob("*.py")) if part_of(file) != "__init__"]
    unknown = {part_of(file) for file in files} - set(ORDER)
    assert not unknown, f"give {unknown} a place in ORDER"
    wrong = [
        f"{file.relative_to(PACKAGE)} -> {other}"
        for file in files
        for other in imports_of(file)
        if ORDER.index(other) > ORDER.index(part_of(file))
    ]
    assert not wrong, f"these arrows run downwards: {', '.join(wrong)}"


def test_the_replay_knows_nothing_of_how_a_plan_was_found():
    seen, waiting = set(), [PACKAGE / "bench"]
    while waiting:
        place = waiting.pop()
        for file in [place.with_suffix(".py")] if not place.is_dir() else place.rglob("*.py"):
            for other in imports_of(file) - seen:
                seen.add(other)
                waiting.append(PACKAGE / other)
    assert not seen & {"planning", "methods", "piecing", "cutting"}, f"bench reaches {seen}"
