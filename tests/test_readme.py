"""The README names nothing that is not there, and the set-up installs nothing that is not pinned."""

import re
import subprocess
import sys
import tomllib
from importlib.metadata import requires, version
from pathlib import Path

from packaging.markers import Marker
from packaging.requirements import Requirement

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text("utf-8")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
PINS = dict(re.findall(r"^([\w.-]+)==([\w.]+)$", (ROOT / "constraints.txt").read_text("utf-8"), re.MULTILINE))


def plain(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def test_every_make_target_in_the_readme_exists():
    named = set(re.findall(r"\bmake ([a-z]+)\b(?=`|\s+#)", README))
    assert named >= {"demo", "test", "setup", "bench"}
    targets = set(re.findall(r"^([a-z]+):", (ROOT / "Makefile").read_text("utf-8"), re.MULTILINE))
    assert named - targets == set()


def test_every_command_in_the_readme_exists():
    named = set(re.findall(r"\bpiecewright ([a-z]+) ", README))
    assert named >= {"plan", "unit", "replay", "check"}
    piecewright = Path(sys.executable).with_name("piecewright")
    for command in sorted(named):
        done = subprocess.run(
            [piecewright, command, "--help"], capture_output=True, text=True, timeout=60, check=False
        )
        assert done.returncode == 0, f"piecewright {command}: {done.stderr}"
        assert command in done.stdout


def test_every_page_and_folder_in_the_readme_exists():
    links = re.findall(r"\]\(([^)#]+)\)", README)
    assert len(links) >= 3
    assert [link for link in links if not (ROOT / link).exists()] == []


def test_every_folder_is_in_the_readme():
    folders = [p.name for p in (ROOT / "src" / "piecewright").iterdir() if (p / "__init__.py").exists()]
    assert [name for name in folders if not re.search(rf"\b{name} {{2,}}\S", README)] == []


def test_every_dependency_is_in_the_readme_with_its_reason():
    project = PROJECT["project"]
    wanted = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    table = README[README.index("| package | why |") :]
    assert [name for name in wanted if not re.search(rf"^\|[^|]*\b{name}\b", table, re.MULTILINE)] == []


def test_direct_and_indirect_dependencies_are_pinned_to_what_is_installed():
    pins = {plain(name): number for name, number in PINS.items()}
    project = PROJECT["project"]
    waiting = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    seen: set[str] = set()
    while waiting:
        requirement = Requirement(waiting.pop())
        name = plain(requirement.name)
        if name in seen or not _applies(requirement.marker):
            continue
        seen.add(name)
        assert pins.get(name) == version(name)
        waiting += requires(name) or []
    assert len(seen) > 20


def _applies(marker: Marker | None) -> bool:
    return marker is None or marker.evaluate({"extra": ""})


def test_the_build_is_pinned_too():
    assert PROJECT["build-system"]["requires"] == [f"setuptools=={PINS['setuptools']}"]
