"""The commands; no logic of the piece or of the paper lives here."""

from docgen.cli import outlines, packet, printers, roll
from docgen.cli.group import main

__all__ = ["main", "outlines", "packet", "printers", "roll"]
