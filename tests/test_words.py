"""The glossary holds every word that one meets: folders, public classes, commands and their options."""

import ast
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from commands import COMMANDS

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "src" / "piecewright"
GLOSSARY = (ROOT / "docs" / "words.md").read_text("utf-8")


def stem(word: str) -> str:
    return re.sub(r"(?<=...)(ies|s)$", lambda found: "y" if found[1] == "ies" else "", word.lower())


# What the glossary explains stands in bold or between backticks there.
TERMS = re.findall(r"\*\*(.+?)\*\*|`(.+?)`", GLOSSARY)
KNOWN = {stem(word) for bold, code in TERMS for word in re.findall(r"[A-Za-z]+", bold or code)}


def public_classes() -> list[str]:
    trees = [ast.parse(file.read_text("utf-8")) for file in sorted(PACKAGE.rglob("*.py"))]
    classes = [node for tree in trees for node in tree.body if isinstance(node, ast.ClassDef)]
    return sorted({node.name for node in classes if not node.name.startswith("_")})


def words_of(name: str) -> list[str]:
    """The words of a name: HalfSquare, half_square and half-square are half and square."""
    return [stem(word) for word in re.findall(r"[A-Z]{2,}(?![a-z])|[A-Z]?[a-z]+", name)]


def missing(names: list[str]) -> dict[str, list[str]]:
    lacking = {name: [word for word in words_of(name) if word not in KNOWN] for name in names}
    return {name: words for name, words in lacking.items() if words}


def help_of(*command: str) -> str:
    call = [Path(sys.executable).with_name("piecewright"), *command, "--help"]
    wide = {**os.environ, "COLUMNS": "200"}
    done = subprocess.run(call, capture_output=True, text=True, timeout=60, check=False, env=wide)
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_every_folder_is_in_the_glossary():
    folders = [p.name for p in PACKAGE.iterdir() if (p / "__init__.py").exists()]
    assert [name for name in folders if f"`{name}`" not in GLOSSARY] == []


def test_the_words_of_every_public_class_are_in_the_glossary():
    assert missing(public_classes()) == {}


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_and_option_is_in_the_glossary(command):
    assert f"`{command}`" in GLOSSARY or f"`piecewright {command}`" in GLOSSARY
    options = set(re.findall(r"--[a-z][a-z-]*", help_of(command))) - {"--help", "--version"}
    assert options or command == "replay"
    options = {option.replace("--no-", "--") for option in options}
    assert [option for option in sorted(options) if f"`{option}`" not in GLOSSARY] == []


def test_a_word_that_nobody_explained_is_found_missing():
    assert missing(["FrobnicatedSeam"]) == {"FrobnicatedSeam": ["frobnicated"]}
