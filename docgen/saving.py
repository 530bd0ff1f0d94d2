"""Files written at once: what stood there before stays whole until the new file is complete."""

from __future__ import annotations

import contextlib
import os
import stat
from itertools import count
from pathlib import Path
from typing import BinaryIO


def save(data: bytes, path: Path) -> None:
    """Write a file, in the place of an earlier one whose permissions it keeps; OSError when that cannot be done.

    A link stays a link. What is no plain file, a pipe or a device, is written into and stays what it is.
    """
    try:
        earlier = path.stat().st_mode
    except FileNotFoundError:
        earlier = None
    if earlier is not None and not stat.S_ISREG(earlier):
        path.write_bytes(data)
        return
    target = Path(os.path.realpath(path))
    file, part = _beside(target)
    try:
        with file:
            file.write(data)
            file.flush()
            if earlier is not None:
                part.chmod(stat.S_IMODE(earlier))
            os.fsync(file.fileno())
        part.replace(target)
    except BaseException:
        with contextlib.suppress(OSError):
            part.unlink()
        raise


def create(data: bytes, path: Path) -> None:
    """Write a file that was not there; FileExistsError when it was, other OSError when it cannot be written."""
    with path.open("xb") as file:
        try:
            file.write(data)
            file.flush()
        except BaseException:
            with contextlib.suppress(OSError):
                path.unlink()
            raise


def _beside(target: Path) -> tuple[BinaryIO, Path]:
    """Return a new file in the target's folder, opened, with a short name that no file had."""
    for number in count():
        part = target.with_name(f".docgen-{os.getpid()}-{number}.part")
        with contextlib.suppress(FileExistsError):
            return part.open("xb"), part
    raise AssertionError("counting never ends")
