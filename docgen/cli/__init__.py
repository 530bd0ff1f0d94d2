"""The commands; no logic of the piece or of the paper lives here."""

import atexit
import gc

from docgen.cli.group import main

__all__ = ["main", "run"]


def run() -> None:
    """Run the command in a process of its own, which ends with it."""
    atexit.register(gc.freeze)  # else all that lives is searched for dead cycles once more before the process ends
    main(prog_name="docgen")
