"""Where a command writes: nothing is overwritten that was read, nor anything that this program did not write itself."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from pathlib import Path

import click

from docgen.cli.loaded import UNUSABLE, refuse
from docgen.places import Span
from docgen.reading.problems import Problem, Problems
from docgen.saving import save

SIGNS = {".svg": (b"<metadata>docgen</metadata>",), ".dxf": (b"docgen",)}
"""Ending → what stands in a drawing that this program wrote; all else that it writes is PDF."""

PDF = (b"%PDF-", b"/Producer (docgen ")


def fit_target(target: Path, read: Iterable[str | Path], *, option: str = "--out") -> None:
    """Leave with status 2 unless `target` is new, empty, or an earlier file of this program that was not read just now."""
    problem = _problem(target, read, option)
    if problem is not None:
        refuse(Problems([problem]), {option: str(target)})


def write_out(data: bytes, target: Path, told: str = "") -> None:
    """Write the file at once and say `told` of it, if anything; leave with status 2 where that cannot be done.

    What goes to a pipe or a device goes there alone: it is told on the other way.
    """
    try:
        save(data, target)
    except OSError as error:
        click.echo(f"{target}: error: cannot be written: {unwritten(target, error)} [packet-unwritable]", err=True)
        sys.exit(UNUSABLE)
    if told:
        click.echo(f"{target}: {told}", err=not target.is_file())


def unwritten(target: Path, error: OSError) -> str:
    """Return why a file cannot be written."""
    if isinstance(error, FileNotFoundError) and not target.parent.exists():
        return f"there is no folder {target.parent}"
    return error.strerror or "unknown reason"


def _problem(target: Path, read: Iterable[str | Path], option: str) -> Problem | None:
    where = Span(option, 1, 1, len(str(target)))
    try:
        if not target.is_file():
            return None  # new, or told when it is written to
        for path in read:
            if Path(path).exists() and target.samefile(path):
                message = f"'{target}' is a file that this command reads: the packet would take its place"
                return Problem("out-is-read", where, message, "give the packet another name")
        data = target.read_bytes()
    except (OSError, ValueError):
        return None  # told when it is written to
    signs = SIGNS.get(target.suffix.lower(), PDF)
    if not data or all(sign in data for sign in signs):
        return None
    message = f"'{target}' is there already, and was not written by docgen"
    return Problem("out-not-ours", where, message, "give another name, or move that file away")
