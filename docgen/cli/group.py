"""The group that all commands belong to; a command's file is loaded when the command is used."""

from __future__ import annotations

import gc
from importlib import import_module

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


class Commands(click.Group):
    """A group whose commands stand in files of their own."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names of all commands."""
        return sorted(FILES)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return the command of this name, None when there is none."""
        if cmd_name in FILES:
            import_module(f"docgen.cli.{FILES[cmd_name]}")
        return super().get_command(ctx, cmd_name)


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(docgen.__version__, prog_name="docgen")
def main() -> None:
    """Turn a project file of a piece of furniture into the packet that is printed before the wood is cut."""
    # One packet and the process ends: looking for dead cycles among records that all live costs a twentieth of the time.
    gc.set_threshold(200_000, 50, 50)
