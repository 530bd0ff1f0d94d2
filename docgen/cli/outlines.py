"""The command that writes outlines for those who cut by machine."""

from __future__ import annotations

from pathlib import Path

import click

from docgen.cli.group import main
from docgen.cli.loaded import file_argument, load, refuse, set_option
from docgen.cli.targets import fit_target, write_out
from docgen.drawing.tiling.dxf import dxf
from docgen.drawing.tiling.machine import cut_sheets
from docgen.drawing.tiling.numbering import asked, listed
from docgen.drawing.tiling.svg import svg
from docgen.places import Span
from docgen.reading.problems import Problem, Problems
from docgen.reading.words import did_you_mean
from docgen.schedules.gauges import gauges
from docgen.schedules.templates import templates

FORMS = {".svg": svg, ".dxf": dxf}


@main.command()
@file_argument
@click.option(
    "--template", "key", metavar="KEY", help="Its number as printed, T1 or G1, or its title; without it all are listed."
)
@click.option("-o", "--out", metavar="OUT", help="Where it goes, .svg or .dxf; by default as SVG to the terminal.")
@set_option
def outline(file: str, key: str | None, out: str | None, sets: tuple[str, ...]) -> None:
    """Write the outline of a template or gauge, true size in millimetres, for laser, router or plotter.

    As SVG or as DXF, by the ending of OUT: cuts, holes, centres and what is engraved are told apart. Where a template
    ends within the wood, its last side is where it ends, not a cut.
    """
    if key is None and out is not None:
        raise click.UsageError("say which one is to be written: --template KEY; without --out all keys are listed")
    loaded = load(file, sets)
    piece = loaded.piece
    known = cut_sheets(templates(piece, loaded.kinds, loaded.solids), gauges(piece, loaded.kinds), piece.units)
    titles = {number: sheet.key for number, sheet in known.items()}
    if key is None:
        click.echo("\n".join(listed(titles)) if known else "the piece asks for no template")
        return
    number = asked(key, titles)
    if number is None:
        hint = did_you_mean(key, (*titles, *titles.values()), otherwise=f"docgen outline {file} lists them")
        problem = Problem("unknown-template", Span("--template", 1, 1), f"there is no template '{key}'", hint)
        refuse(Problems([problem]), {"--template": key})
    ending = ".svg" if out is None else Path(out).suffix.lower()
    if ending not in FORMS:
        message = f"'{out}' ends neither in .svg nor in .dxf"
        problem = Problem("outline-form", Span("--out", 1, 1), message, "the ending says in which form it is written")
        refuse(Problems([problem]), {"--out": out or ""})
    if out is not None:
        fit_target(Path(out), loaded.read)
    loaded.judged().go_on_unless_stopped()
    drawing = FORMS[ending](known[number])
    if out is None:
        click.echo(drawing, nl=False)
        return
    write_out(drawing.encode(), Path(out), f"{number} {titles[number]}")
