"""From a path to the text of a file, within bounds."""

from __future__ import annotations

from pathlib import Path

from docgen.places import Span
from docgen.reading.problems import Problem, Problems
from docgen.reading.tree import MOST_BYTES


def read_source(path: str | Path) -> str:
    """Return the text of the file; Problems when it cannot be read, is too large or is not UTF-8."""
    name = str(path)
    start = Span(name, 1, 1)
    try:
        with Path(path).open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        message = f"the file cannot be read: {(error.strerror or 'unknown reason').lower()}"
        raise Problems([Problem("unreadable-file", start, message)]) from None
    except ValueError:  # a NUL in the path
        raise Problems([Problem("unreadable-file", start, "this is no name of a file")]) from None
    if len(data) > MOST_BYTES:
        raise Problems([Problem("file-too-large", start, f"the file has more than {MOST_BYTES} bytes")])
    return decoded(name, data)


def decoded(name: str, data: bytes) -> str:
    """Return the text of UTF-8 bytes; Problems at the first byte that is none."""
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8")
        line = before.count("\n") + 1
        where = Span(name, line, len(before) - before.rfind("\n"))
        message = f"the byte 0x{data[error.start]:02X} is not UTF-8"
        raise Problems([Problem("not-utf8", where, message, "save the file as UTF-8")]) from None
