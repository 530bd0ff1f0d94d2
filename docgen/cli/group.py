"""The group that all commands belong to."""

from __future__ import annotations

import gc

import click

import docgen


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(docgen.__version__, prog_name="docgen")
def main() -> None:
    """Turn a project file of a piece of furniture into the packet that is printed before the wood is cut."""
    # One packet and the process ends: looking for dead cycles among records that all live costs a twentieth of the time.
    gc.set_threshold(200_000, 50, 50)
