"""Writing a job's folder: all of its files or none, and nothing else in it is touched."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

from piecewright.problems import Problem, Refused


def write_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Writes files (by relative name) into a folder, which is made where it is not there.

    They are written beside first and moved in at the end. Files of the same names are replaced, others
    stay as they are. Raises Refused, in one sentence, where something is in the way.
    """
    names = [PurePosixPath(name) for name in files]
    if any(name.is_absolute() or ".." in name.parts for name in names):
        raise ValueError(f"a job's files stay in its folder, got {names}")
    try:
        _look_for_what_is_in_the_way(folder, names)
        _write(folder, files)
    except OSError as error:
        what = f"the job cannot be written: {error.strerror or error}."
        do = "Name a folder that you may write to with --out."
        raise Refused(Problem(what, str(folder), do)) from error


def _look_for_what_is_in_the_way(folder: Path, names: list[PurePosixPath]) -> None:
    for above in (folder, *folder.parents):
        if above.exists() and not above.is_dir():
            raise Refused(_in_the_way(above, "a folder", "a file"))
    for name in names:
        place = folder / name
        if place.is_dir():
            raise Refused(_in_the_way(place, "a file", "a folder"))
        for inside in map(folder.joinpath, name.parents):
            if inside.exists() and not inside.is_dir():
                raise Refused(_in_the_way(inside, "a folder", "a file"))


def _in_the_way(place: Path, wanted: str, found: str) -> Problem:
    what = f"expected {wanted} or nothing here, found {found}."
    return Problem(what, str(place), "Move it away, or name another folder with --out.")


def _write(folder: Path, files: Mapping[str, bytes]) -> None:
    is_new = not folder.exists()
    beside = folder.parent if is_new else folder
    beside.mkdir(parents=True, exist_ok=True)
    half_done = Path(tempfile.mkdtemp(prefix=".half-done-", dir=beside))
    try:
        for name, content in files.items():
            place = half_done / name
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_bytes(content)
        if is_new:
            half_done.chmod(0o777 & ~_mask())
            half_done.rename(folder)
        else:
            for name in files:
                (folder / name).parent.mkdir(parents=True, exist_ok=True)
                os.replace(half_done / name, folder / name)
    finally:
        shutil.rmtree(half_done, ignore_errors=True)


def _mask() -> int:
    """The mask of permissions, which can only be read by setting it."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
