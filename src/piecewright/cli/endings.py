"""How a command ends: the exit codes, and one sentence for whatever went wrong on the way."""

from __future__ import annotations

import os
import signal
import sys
import threading
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from cyclopts import CycloptsError, MissingArgumentError, UnusedCliTokensError

from piecewright.cli.telling import tell, tell_problems
from piecewright.problems import Refused

FINE = 0
WRONG_INPUT = 1
WRONG_CALL = 2
NOT_REPLAYED = 3
OUR_MISTAKE = 4
INTERRUPTED = 130


def code_of(command: Callable[[], int | None]) -> int:
    """The exit code of a command that is run now; what it raises is told on the standard error."""
    try:
        code = command() or FINE
        sys.stdout.flush()
        return code
    except CycloptsError as error:
        return _wrong_call(error)
    except Refused as refused:
        tell_problems(refused.problems)
        return WRONG_INPUT
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        # Whoever read the output (`head`, say) has enough; that is no mistake.
        _silence()
        return FINE
    except OSError as error:
        _silence()
        tell(f"the result cannot be written: {error.strerror or error}.")
        return WRONG_INPUT
    except Exception as error:
        return _our_mistake(error)


@contextmanager
def uninterrupted() -> Iterator[None]:
    """Ctrl-C waits until this is over: numpy, in the middle of its import, would answer with a traceback."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    pressed: list[bool] = []
    before = signal.signal(signal.SIGINT, lambda *_: pressed.append(True))
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
    if pressed:
        raise KeyboardInterrupt


def _wrong_call(error: CycloptsError) -> int:
    command = " ".join(["piecewright", *(error.command_chain or ())])
    name = error.argument.name if error.argument else ""
    if isinstance(error, MissingArgumentError):
        what = f"`{command}` expected {name}, got none."
    elif isinstance(error, UnusedCliTokensError):
        what = f"`{command}` expected nothing more, got {' '.join(error.unused_tokens or ())}."
    else:
        what = str(error).replace("?.", "?")
    tell(f"{what} `{command} --help` shows how to call it.")
    return WRONG_CALL


def _our_mistake(error: Exception) -> int:
    if os.environ.get("PIECEWRIGHT_DEBUG") == "1":
        traceback.print_exc()
    tell(
        f"Piecewright itself has made a mistake ({type(error).__name__}: {str(error)[:200]}); please send "
        "its makers the files you named and what this command prints with PIECEWRIGHT_DEBUG=1 set."
    )
    return OUR_MISTAKE


def _silence() -> None:
    """Nothing more goes to the standard output, not even when Python ends."""
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (OSError, ValueError):
        sys.stdout = open(os.devnull, "w")  # noqa: SIM115
