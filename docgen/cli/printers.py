"""The command that measures a printer and keeps its record."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path

import click

from docgen.cli.group import main
from docgen.cli.loaded import UNUSABLE, book_text, measured_printer, records_option, refuse, suited
from docgen.cli.targets import fit_target, write_out
from docgen.drawing.tiling.printer_note import fitted
from docgen.layout.model import Layout
from docgen.layout.printer_book import book_path, record
from docgen.layout.printers import ROLL, Printer, printer, sheet_words
from docgen.layout.read import read_layout
from docgen.packet.fingerprint import fingerprint
from docgen.packet.fonts import PacketMetrics
from docgen.packet.write import write
from docgen.places import Span
from docgen.reading.problems import Problems
from docgen.sheets.calibration import calibration, calibration_piece


@main.command(name="printer")
@click.argument("name", required=False)
@click.option("--across", multiple=True, metavar="MEANT=READ", help="A length along the short side, as 180=178.9 (mm).")
@click.option("--down", multiple=True, metavar="MEANT=READ", help="A length along the long side, as 240=239.2 (mm).")
@click.option("-o", "--out", default="printer.pdf", metavar="OUT", help="Where the calibration page goes: printer.pdf.")
@click.option(
    "--paper", default="a4", metavar="NAME", help="Of the page, and what was measured: a4, letter, … or roll."
)
@records_option
def printer_command(
    name: str | None, across: tuple[str, ...], down: tuple[str, ...], out: str, paper: str, printers: str | None
) -> None:
    """Write a calibration page; with NAME and what was measured on it, record that printer and its paper.

    NAME alone writes the page as corrected for that printer, to check the record. A printer of rolls is measured on a page
    that docgen roll writes: --paper roll.
    """
    if across or down:
        _record_printer(name, across, down, paper, Path(printers) if printers else book_path())
        return
    if paper == ROLL:
        raise click.UsageError(
            "a roll has no calibration page: measure the check lines of a page that docgen roll writes"
        )
    measured = measured_printer(name, printers)
    fit_target(Path(out), (printers or book_path(),))
    try:
        layout = read_layout(paper)
        if measured:
            suited(measured, sheet_words(layout.size))
        _write_calibration(layout, measured, Path(out))
    except Problems as problems:
        refuse(problems, {})


def _record_printer(name: str | None, across: Sequence[str], down: Sequence[str], paper: str, path: Path) -> None:
    """Keep what was measured; leave with status 2 when it cannot be true or cannot be kept."""
    if name is None:
        raise click.UsageError("give the printer a name: docgen printer NAME --across … --down …")
    ways = (("--across", across), ("--down", down))
    said = [[(text, Span(way, i, 1, len(text))) for i, text in enumerate(texts, 1)] for way, texts in ways]
    try:
        sheet = ROLL if paper == ROLL else sheet_words(read_layout(paper).size)
        new = printer(name, said[0], said[1], Span("printer", 1, 1), sheet)
        record(new, path)
    except Problems as problems:
        refuse(problems, {way: "\n".join(texts) for way, texts in ways} | book_text(path))
    except OSError as error:
        click.echo(f"{path}: error: cannot be written: {error.strerror} [printers-unwritable]", err=True)
        sys.exit(UNUSABLE)
    x, y = (f"{100 * factor:.2f} %" for factor in new.factors((1.0, 2.0)))
    on = "on a roll" if sheet == ROLL else f"on paper of {sheet}"
    click.echo(f"{path}: '{name}' recorded, {on}: true-size pages are drawn at {x} across and {y} down")
    if sheet == ROLL:
        click.echo(f"next: docgen roll FILE --printer {json.dumps(name)}; the lines of its pages must measure true")
        return
    again = "" if paper == "a4" else f" --paper {paper}"
    click.echo(
        f"next: docgen printer {json.dumps(name)}{again} writes the page so corrected; its lines must measure true"
    )


def _write_calibration(layout: Layout, measured: Printer | None, target: Path) -> None:
    """Write the calibration page on the upright paper of a layout."""
    metrics = PacketMetrics()
    upright = layout.turned() if layout.size[0] > layout.size[1] else layout
    if measured:
        upright = fitted(upright, measured, metrics)
    pdf = write(
        [calibration(upright, metrics, measured)],
        layout=upright,
        piece=calibration_piece(),
        fingerprint=fingerprint(b"", upright, ("calibration", *([measured.words] if measured else []))),
        printer=measured,
    )
    write_out(pdf, target)
    click.echo(f"{target}: calibration page on {layout.name}")
