"""Files that a project file names: they lie in its own folder or in one below it, nowhere else."""

from __future__ import annotations

import re
from pathlib import Path
from stat import S_ISREG

from docgen.places import Span
from docgen.reading.problems import Problem, Problems
from docgen.reading.source import decoded
from docgen.reading.tree import MOST_BYTES

_DRIVE = re.compile(r"[A-Za-z]:")


def beside_name(project_path: str, name: str) -> str:
    """Return what messages call the file `name` that lies beside the project file."""
    return (Path(project_path).parent / name).as_posix()


def read_beside(project_path: str, name: str, limit_bytes: int = MOST_BYTES, *, where: Span) -> str:
    """Return the text of the file `name`, a path from the project file's folder.

    `where` is the place in the project file that names it. Raises Problems there, with the code "beside-outside" for a
    path that leaves the folder (absolute, by `..` or by a link), "beside-unreadable" for what is no file that can
    be read, "beside-too-large"; and "not-utf8" in the file itself.
    """
    path = _inside(project_path, name, where)
    try:
        if not S_ISREG(path.stat().st_mode):  # a pipe or a device would never end
            raise _refused("beside-unreadable", where, f"“{name}” is no plain file", "name a file")
        with path.open("rb") as file:
            data = file.read(limit_bytes + 1)
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        hint = "the file lies beside the project file, or in a folder below it"
        raise _refused("beside-unreadable", where, f"“{name}” cannot be read: {reason}", hint) from None
    if len(data) > limit_bytes:
        raise _refused("beside-too-large", where, f"“{name}” has more than {limit_bytes} bytes", "name a smaller file")
    return decoded(beside_name(project_path, name), data)


def _inside(project_path: str, name: str, where: Span) -> Path:
    """Return the true place of the file; Problems when it lies outside the project file's folder."""
    hint = "give a path from the project file's folder, as in: outline.svg or drawings/outline.svg"
    if not name.strip() or "\0" in name:
        raise _refused("beside-unreadable", where, "this is no name of a file", hint)
    if name.startswith(("/", "\\", "~")) or _DRIVE.match(name) or Path(name).is_absolute():
        raise _refused("beside-outside", where, f"“{name}” starts outside the project file's folder", hint)
    try:
        folder = Path(project_path).parent.resolve()
        path = (folder / name).resolve()
    except (OSError, RuntimeError):  # links that run in a ring
        raise _refused("beside-unreadable", where, f"“{name}” cannot be followed", hint) from None
    if not path.is_relative_to(folder):
        raise _refused("beside-outside", where, f"“{name}” leads out of the project file's folder", hint)
    return path


def _refused(code: str, where: Span, message: str, hint: str) -> Problems:
    return Problems([Problem(code, where, message, hint)])
