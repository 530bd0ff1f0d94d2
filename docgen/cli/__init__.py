"""The commands; no logic of the piece or of the paper lives here."""

from docgen.cli.group import main

__all__ = ["main"]
