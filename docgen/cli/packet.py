"""The commands on a project file: build, check, facts, sheets, and a starter for a new one."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from importlib import import_module
from pathlib import Path
from typing import cast

import click

from docgen.checks.tell import names_of, tell_findings
from docgen.cli.group import main
from docgen.cli.loaded import (
    BUILT,
    STOPPED,
    UNUSABLE,
    context_of,
    file_argument,
    judged,
    layout_of,
    load,
    measured_printer,
    only_option,
    only_words,
    paper_option,
    records_option,
    refuse,
    set_option,
    suited,
)
from docgen.cli.targets import fit_target, unwritten, write_out
from docgen.drawing.tiling.printer_note import fitted
from docgen.facts import facts
from docgen.layout.printers import sheet_words
from docgen.packet.fonts import PacketMetrics
from docgen.reading.problems import Problems
from docgen.saving import create
from docgen.sheets.order import begin
from docgen.sheets.order import sheets as make_sheets
from docgen.tables import data_path


@main.command()
@file_argument
@click.option("-o", "--out", metavar="OUT", help="Where the packet goes; by default the file's name with .pdf, here.")
@paper_option
@only_option
@set_option
@click.option("--force", is_flag=True, help="Print although a finding stops the work; each page says so.")
@click.option("--printer", "name", metavar="NAME", help="Draw true-size pages for this measured printer.")
@records_option
def build(
    file: str,
    out: str | None,
    paper: str | None,
    only: str | None,
    sets: tuple[str, ...],
    force: bool,
    name: str | None,
    printers: str | None,
) -> None:
    """Write the packet. Exit status: 0 built, 1 stopped by a finding, 2 the file cannot be used, 3 a fault of docgen."""
    measured = measured_printer(name, printers)
    loaded = load(file, sets)
    target = Path(out) if out else Path(Path(file).stem + ".pdf")
    fit_target(target, loaded.read)
    layout = layout_of(paper, loaded.piece)
    if measured:
        suited(measured, sheet_words(layout.size))
        layout = fitted(layout, measured, PacketMetrics())
    options = [*loaded.sets, f"only={only or ''}", f"force={force}", *([measured.words] if measured else [])]
    try:
        begun = begin(context_of(loaded, layout, options, measured), only_words(only))
        write = _writer()
        loaded = loaded.judged()
    except Problems as problems:
        refuse(problems, {})
    if loaded.findings:
        click.echo(tell_findings(loaded.findings, loaded.piece.units, names_of(loaded.piece)), err=True)
    if not force:
        loaded.go_on_unless_stopped("nothing was written (--force prints it all the same, and each page says so)")
    try:
        pages = make_sheets(context_of(loaded, layout, options, measured), only_words(only), begun)
        pdf = write(
            pages,
            layout=layout,
            piece=loaded.piece,
            fingerprint=loaded.mark(layout, options),
            stopped=loaded.stopped,
            printer=measured,
        )
    except Problems as problems:
        refuse(problems, {})
    write_out(pdf, target, f"{len(pages)} pages on {layout.name}")


def _writer() -> Callable[..., bytes]:
    """Return what writes pages; it is loaded here, a tenth of a second, while a copy makes the part sheets."""
    return cast(Callable[..., bytes], import_module("docgen.packet.write").write)


@main.command()
@file_argument
@set_option
def check(file: str, sets: tuple[str, ...]) -> None:
    """Tell the findings. Exit status: 0 none that stops, 1 stopped, 2 the file cannot be used, 3 a fault of docgen."""
    loaded = judged(file, sets)
    click.echo(tell_findings(loaded.findings, loaded.piece.units, names_of(loaded.piece)))
    sys.exit(STOPPED if loaded.stopped else BUILT)


@main.command(name="facts")
@file_argument
@set_option
def facts_command(file: str, sets: tuple[str, ...]) -> None:
    """Print everything computed as JSON; shared/facts.md tells what each name means."""
    loaded = judged(file, sets)
    out = facts(loaded.piece, loaded.solids, loaded.kinds, loaded.lists, loaded.findings)
    click.echo(json.dumps(out, ensure_ascii=False, indent=1))


@main.command()
@file_argument
def new(file: str) -> None:
    """Write a commented starter that builds at once; an existing file is left alone."""
    target = Path(file)
    try:
        create(data_path("shared", "starters/start.yaml").read_bytes(), target)
    except OSError as error:
        click.echo(f"{target}: error: cannot be written: {unwritten(target, error)} [starter-unwritable]", err=True)
        sys.exit(UNUSABLE)
    click.echo(f"{target}: written; next: docgen build {target}")


@main.command(name="sheets")
@file_argument
@paper_option
@only_option
@set_option
def sheets_command(file: str, paper: str | None, only: str | None, sets: tuple[str, ...]) -> None:
    """List the sheets that the packet would hold, with their page counts."""
    loaded = judged(file, sets)
    layout = layout_of(paper, loaded.piece)
    try:
        pages = make_sheets(context_of(loaded, layout, loaded.sets), only_words(only))
    except Problems as problems:
        refuse(problems, {})
    counts: dict[str, int] = {}
    for page in pages:
        counts[page.kind] = counts.get(page.kind, 0) + 1
    for kind, count in counts.items():
        click.echo(f"{kind:<12} {count:>3} {'page' if count == 1 else 'pages'}")
    click.echo(f"{'in all':<12} {len(pages):>3} on {layout.name}")
