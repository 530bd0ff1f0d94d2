"""The group that all commands belong to; a command's file is loaded when the command is used."""

from __future__ import annotations

import contextlib
import errno
import gc
import os
import sys
from importlib import import_module
from traceback import format_exception
from typing import Any

import click

import docgen

FILES = {
    "build": "packet",
    "check": "packet",
    "facts": "packet",
    "new": "packet",
    "outline": "outlines",
    "printer": "printers",
    "roll": "roll",
    "sheets": "packet",
}
"""Command → the file beside this one that holds it: what a command alone needs then costs no other one any time."""

UNTOLD, FAULT, BROKEN_OFF = 2, 3, 130
"""Exit status where what was to be told could not be written, where the program is at fault, and after an interrupt."""

ALIVE = 1_000_000
"""So many records more may live before dead cycles are looked for among them."""


class Commands(click.Group):
    """A group whose commands stand in files of their own. What none of them foresaw is told as a fault of the program."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names of all commands."""
        return sorted(FILES)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return the command of this name, None when there is none."""
        if cmd_name in FILES:
            import_module(f"docgen.cli.{FILES[cmd_name]}")
        return super().get_command(ctx, cmd_name)

    def main(self, *args: Any, **options: Any) -> Any:
        """Carry out what the command line says; help and version may find the output full too."""
        # One packet and the process ends: looking for dead cycles among records that all live costs a twentieth of the time.
        gc.set_threshold(ALIVE, 50, 50)
        try:
            return super().main(*args, **options)
        except OSError as fault:
            if not _is_output(fault):
                raise
            sys.exit(_unwritten(fault))

    def invoke(self, ctx: click.Context) -> Any:
        """Carry out the command; what goes wrong in it unforeseen ends with a status of its own."""
        try:
            return super().invoke(ctx)
        except (click.ClickException, click.exceptions.Exit, click.Abort, EOFError):
            raise
        except KeyboardInterrupt:
            _say("\nbroken off: no packet was written")
            ctx.exit(BROKEN_OFF)
        except Exception as fault:
            ctx.exit(_unwritten(fault) if _is_output(fault) else _at_fault(fault, whole=ctx.params["traceback"]))


def _is_output(fault: Exception) -> bool:
    """Return whether the terminal, pipe or file that the command writes to would take no more: then no file is named."""
    return isinstance(fault, OSError) and fault.filename is None and fault.errno is not None


def _unwritten(fault: Exception) -> int:
    """Say that nothing more could be written, unless the reader went away, and have nothing more written."""
    assert isinstance(fault, OSError)
    if fault.errno != errno.EPIPE:
        _say(f"docgen: error: the output cannot be written: {fault.strerror} [output-unwritable]")
    with contextlib.suppress(OSError, ValueError):  # else what waits to be written fails once more at the very end
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return UNTOLD


def _at_fault(fault: Exception, *, whole: bool) -> int:
    """Say that the program is at fault, and where if the `whole` way is wished."""
    if whole:
        _say("".join(format_exception(fault)).rstrip())
    said = " ".join(str(fault).split())
    _say(
        f"docgen: this is a fault of docgen, not of your file: {type(fault).__name__}{': ' if said else ''}{said} [docgen-fault]\n"
        "  no packet was written; an earlier one is as it was\n"
        "  please report it with the project file and what this prints: docgen --traceback …"
    )
    return FAULT


def _say(text: str) -> None:
    with contextlib.suppress(OSError):
        click.echo(text, err=True)


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(docgen.__version__, prog_name="docgen")
@click.option("--traceback", is_flag=True, help="Where docgen itself is at fault, print where in it: for a report.")
def main(traceback: bool) -> None:
    """Turn a project file of a piece of furniture into the packet that is printed before the wood is cut."""
