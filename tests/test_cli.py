"""The command line as a whole: help, version, exit codes, and what is never shown."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

import piecewright
from commands import COMMANDS
from piecewright.cli.endings import code_of
from piecewright.cli.main import call
from piecewright.cli.telling import clean, sentence, show, show_table
from piecewright.problems import Problem, Refused

ROOT = Path(__file__).parents[1]
PIECEWRIGHT = str(Path(sys.executable).with_name("piecewright"))


def ran(*words: str, **more):
    return subprocess.run(words, capture_output=True, text=True, timeout=60, check=False, **more)


@pytest.mark.parametrize("command", [[PIECEWRIGHT], [sys.executable, "-m", "piecewright"]])
def test_both_ways_to_call_it_tell_the_version(command):
    done = ran(*command, "--version")
    assert (done.returncode, done.stdout, done.stderr) == (0, f"{piecewright.__version__}\n", "")


def test_the_exit_code_of_a_command_is_that_of_the_process():
    done = ran(PIECEWRIGHT, "check", "no-such-quilt.toml")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.startswith("no-such-quilt.toml: expected a file to read")


def test_help_and_version_load_nothing_heavy():
    script = (
        "import sys\n"
        "from piecewright.cli.main import call\n"
        "for words in [['--version'], ['--help'], ['plan', '--help'], ['unit', '--help']]:\n"
        "    assert call(words) == 0\n"
        "heavy = {'numpy', 'shapely', 'highspy', 'typst', 'coloraide', 'msgspec'}\n"
        "print(sorted(heavy & sys.modules.keys()), file=sys.stderr)\n"
    )
    assert ran(sys.executable, "-c", script).stderr == "[]\n"


def test_a_reader_that_has_seen_enough_is_no_mistake():
    command = [PIECEWRIGHT, "unit", "hst", "--finished", "2", "--count", "48"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    process.stdout.close()
    with process.stderr as stderr:
        assert stderr.read() == b""
    assert process.wait(timeout=60) == 0


@pytest.mark.skipif(
    not os.path.exists("/dev/full"), reason="needs a device that is always full, as Linux has"
)
@pytest.mark.parametrize("words", ["--help", "--version", "unit hourglass --finished 2 --count 2 --json"])
def test_a_full_disk_is_told_in_a_sentence(words):
    command = [PIECEWRIGHT, *words.split()]
    with open("/dev/full", "w") as full:
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert (done.returncode, done.stderr.count("\n")) == (1, 1)
    assert done.stderr.startswith("the result cannot be written: ")


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_examples_in_its_help(command, capsys):
    assert call([command, "--help"]) == 0
    assert f"Examples:\n  piecewright {command} " in capsys.readouterr().out


def test_without_a_command_there_is_help(capsys):
    assert call([]) == 0
    out = capsys.readouterr().out
    assert all(f"  {command}: " in out for command in COMMANDS)


WRONG_CALLS = {
    "plan": "expected QUILT, got none",
    "plan a.toml b.toml": "expected nothing more, got b.toml",
    "plan a.toml --colour red": "--colour",
    "plan a.toml --paper a3": '"letter", "a4"',
    "unit hst --finished 2": "expected --count, got none",
    "unit hst --finished 2 --count": "--count",
    "unit hst --count 2": "expected --finished, got none",
    "unit hst --finished 2 --count 2 --unit mm": '"in", "cm"',
    "unit hst --finished 2 --count 2 --count 3": "--count",
    "replay plan.json": "expected QUILT, got none",
    "check --out x": "--out",
    "sew": '"sew"',
    "--sew": '"--sew"',
}


@pytest.mark.parametrize("words", WRONG_CALLS)
def test_a_wrong_call_ends_with_2_and_says_how_to_call(words, capsys):
    assert call(words.split()) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert WRONG_CALLS[words] in err
    assert re.search(r"`piecewright( \w+)? --help` shows how to call it\.\n$", err)


def test_ctrl_c_is_quiet(capsys):
    def interrupted():
        raise KeyboardInterrupt

    assert code_of(interrupted) == 130
    assert capsys.readouterr() == ("", "")


def test_a_mistake_of_ours_is_one_sentence_and_its_traceback_is_for_the_makers(capsys, monkeypatch):
    def broken():
        raise RuntimeError("the needle\nbroke")

    monkeypatch.delenv("PIECEWRIGHT_DEBUG", raising=False)
    assert code_of(broken) == 4
    err = capsys.readouterr().err
    assert err.count("\n") == 1
    assert "RuntimeError: the needle broke" in err
    assert "PIECEWRIGHT_DEBUG=1" in err
    assert "Traceback" not in err
    monkeypatch.setenv("PIECEWRIGHT_DEBUG", "1")
    assert code_of(broken) == 4
    assert "Traceback" in capsys.readouterr().err


def test_every_problem_is_a_line_with_its_place_first(capsys):
    def refusing():
        raise Refused(Problem("no cloth", "a.toml:3", "Add some."), Problem("no thread.", weight="note"))

    assert code_of(refusing) == 1
    assert capsys.readouterr() == ("", "a.toml:3: no cloth. Add some.\nnote: no thread.\n")


def test_a_problem_that_says_nothing_to_do_ends_as_it_was_written():
    assert sentence(Problem("no cloth", "here")) == "here: no cloth"


def test_no_line_is_wrapped_where_nobody_looks_at_a_screen(capsys):
    long = "seam " * 1000 + "end"
    show(long)
    show_table(("a", "b"), [(long, "c")])
    first, _, row = capsys.readouterr().out.splitlines()
    assert first == long
    assert row == f"{long}  c"


def test_brackets_and_signs_that_steer_a_terminal_are_only_text(capsys):
    show("[bold]:spool: \x1b[31mred\x07")
    assert capsys.readouterr().out == "[bold]:spool:  [31mred \n"
    assert clean("Mål ½\n") == "Mål ½ "
