"""The command that draws the true-size pages for a roll, as print shops have them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import click

from docgen.cli.group import main
from docgen.cli.loaded import (
    context_of,
    file_argument,
    judged,
    layout_of,
    measured_printer,
    records_option,
    refuse,
    set_option,
    suited,
)
from docgen.cli.targets import fit_target, write_out
from docgen.layout.printers import ROLL
from docgen.packet.fonts import PacketMetrics
from docgen.packet.write import write
from docgen.reading.problems import Problems
from docgen.sheets.roll import for_printer, make, roll_width


@main.command()
@file_argument
@click.option("--width", default="610 mm", metavar="WIDTH", help="Width of the roll: 610 mm, or 36 in.")
@click.option("-o", "--out", metavar="OUT", help="Where the pages go; by default the file's name with -roll.pdf, here.")
@set_option
@click.option("--force", is_flag=True, help="Print although a finding stops the work; each page says so.")
@click.option("--printer", "name", metavar="NAME", help="Draw the pages for this measured printer of rolls.")
@records_option
def roll(
    file: str,
    width: str,
    out: str | None,
    sets: tuple[str, ...],
    force: bool,
    name: str | None,
    printers: str | None,
) -> None:
    """Write the true-size templates and sticks for a print shop's roll: each whole on a page as long as it needs.

    A printer of rolls is measured on such a page: across the roll with --across, along it with --down, --paper roll.
    """
    try:
        wide = roll_width(width)
    except Problems as problems:
        refuse(problems, {"--width": width})
    measured = measured_printer(name, printers)
    if measured:
        suited(measured, ROLL)
    loaded = judged(file, sets)
    if not force:
        loaded.go_on_unless_stopped()
    target = Path(out) if out else Path(Path(file).stem + "-roll.pdf")
    fit_target(target, loaded.read)
    layout = layout_of(None, loaded.piece)
    if measured:
        measured = replace(measured, roll=wide)
        layout = for_printer(layout, measured, PacketMetrics())
    options = [*loaded.sets, f"roll={wide:g}", *([measured.words] if measured else [])]
    context = context_of(loaded, layout, options, measured)
    pages = make(context, wide)
    if not pages:
        click.echo("the piece has neither templates nor story sticks")
        return
    pdf = write(
        pages,
        layout=layout,
        piece=loaded.piece,
        fingerprint=context.fingerprint,
        stopped=loaded.stopped,
        printer=measured,
    )
    metres = sum(sum(page.size) - wide for page in pages) / 1000
    count = f"{len(pages)} {'page' if len(pages) == 1 else 'pages'}"
    write_out(pdf, target, f"{count}, {metres:.1f} m of a roll of {wide:g} mm; print at 100 %, unscaled")
