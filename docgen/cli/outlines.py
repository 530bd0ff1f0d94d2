"""The command that writes outlines for those who cut by machine."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from docgen.cli.group import main
from docgen.cli.loaded import STOPPED, UNUSABLE, file_argument, load, refuse, set_option
from docgen.drawing.tiling.svg import svg, template_keys
from docgen.packet.write import save
from docgen.places import Span
from docgen.reading.problems import Problem, Problems
from docgen.reading.words import did_you_mean
from docgen.schedules.templates import templates


@main.command()
@file_argument
@click.option("--template", "key", metavar="KEY", help="Which template; without it their keys are listed.")
@click.option("-o", "--out", metavar="OUT", help="Where the drawing goes; by default to the terminal.")
@set_option
def outline(file: str, key: str | None, out: str | None, sets: tuple[str, ...]) -> None:
    """Write a template's outline and holes as SVG of true size in millimetres, for laser, router or plotter.

    Where a template ends within the wood, its last side is where it ends, not a cut.
    """
    loaded = load(file, sets)
    known = template_keys(templates(loaded.piece, loaded.kinds, loaded.solids))
    if key is None:
        click.echo("\n".join(known) if known else "the piece asks for no template")
        return
    if key not in known:
        hint = did_you_mean(key, known, otherwise=f"docgen outline {file} lists them")
        problem = Problem("unknown-template", Span("--template", 1, 1), f"there is no template '{key}'", hint)
        refuse(Problems([problem]), {"--template": key})
    if loaded.stopped:
        click.echo("stopped: a finding says that the piece cannot be built as drawn; docgen check tells it", err=True)
        sys.exit(STOPPED)
    drawing = svg(key, known[key])
    if out is None:
        click.echo(drawing, nl=False)
        return
    try:
        save(drawing.encode(), Path(out))
    except OSError as error:
        click.echo(f"{out}: error: cannot be written: {error.strerror} [packet-unwritable]", err=True)
        sys.exit(UNUSABLE)
    click.echo(f"{out}: {key}")
