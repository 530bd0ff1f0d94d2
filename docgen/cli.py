"""The commands; no logic of the piece or of the paper lives here."""

from __future__ import annotations

import gc
import json
import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import NoReturn

import click

import docgen
from docgen.checks.finding import Finding, Grade
from docgen.checks.run import findings
from docgen.checks.tell import tell_findings
from docgen.drawing.tiling.printer_note import fitted
from docgen.drawing.tiling.svg import svg, template_keys
from docgen.facts import facts
from docgen.layout.model import Layout
from docgen.layout.printer_book import book_path, find_printer, record
from docgen.layout.printers import Printer, printer
from docgen.layout.read import read_layout
from docgen.packet.fingerprint import fingerprint
from docgen.packet.fonts import PacketMetrics
from docgen.packet.write import save, write
from docgen.piece.build import build as build_piece
from docgen.piece.kinds import kinds
from docgen.piece.model import Kind, Piece
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.places import Span
from docgen.project.read import read_project
from docgen.project.sizes import set_source
from docgen.reading.problems import Problem, Problems, tell
from docgen.reading.source import read_source
from docgen.reading.words import did_you_mean
from docgen.schedules.make import schedules
from docgen.schedules.rows import Schedules
from docgen.schedules.templates import templates
from docgen.sheets.calibration import calibration, calibration_piece
from docgen.sheets.context import Context
from docgen.sheets.order import begin
from docgen.sheets.order import sheets as make_sheets
from docgen.tables import data_path

BUILT, STOPPED, UNUSABLE = 0, 1, 2


@dataclass(frozen=True, slots=True)
class Loaded:
    """A file with all that follows from it, before any paper."""

    source: bytes
    piece: Piece
    solids: Solids
    kinds: tuple[Kind, ...]
    lists: Schedules
    findings: tuple[Finding, ...] = ()

    def judged(self) -> Loaded:
        """Return the same with what the checks find."""
        return replace(self, findings=findings(self.piece, self.solids, self.kinds, self.lists))

    @property
    def stopped(self) -> bool:
        """True when the piece cannot be built as drawn."""
        return any(f.grade is Grade.STOP for f in self.findings)


def _refuse(problems: Problems, sources: dict[str, str]) -> NoReturn:
    """Tell all problems and leave with status 2."""
    click.echo(tell(problems.items, sources), err=True)
    sys.exit(UNUSABLE)


def _sets(values: Sequence[str]) -> dict[str, str]:
    out: dict[str, str] = {}
    for value in values:
        name, sign, figure = value.partition("=")
        if not sign or not name.strip() or not figure.strip():
            raise click.BadParameter(f"{value!r} is not NAME=VALUE", param_hint="--set")
        out[name.strip()] = figure.strip()
    return out


def _load(file: str, given: Sequence[str]) -> Loaded:
    """Read and make everything up to the findings; leave with status 2 when the file cannot be used."""
    sets = _sets(given)
    sources = {"--set": set_source(sets)}
    try:
        text = read_source(file)
        sources[file] = text
        words = vocabulary()
        piece = build_piece(read_project(file, text, words, sets), words)
        solids = Solids(piece)
        same = kinds(piece, solids)
        return Loaded(text.encode(), piece, solids, same, schedules(piece, solids, same))
    except Problems as problems:
        _refuse(problems, sources)


def _judged(file: str, given: Sequence[str]) -> Loaded:
    """Read and make everything, the findings too."""
    return _load(file, given).judged()


def _layout(paper: str | None, piece: Piece) -> Layout:
    """Return the layout asked for on the command line, by the file, or by the file's unit."""
    name = paper or piece.paper or ("letter" if piece.units.system == "inch" else "a4")
    try:
        return read_layout(name)
    except Problems as problems:
        _refuse(problems, {})


def _measured(name: str | None, records: str | None) -> Printer | None:
    """Return the measured printer of this name; leave with status 2 when there is none."""
    if name is None:
        return None
    path = Path(records) if records else book_path()
    try:
        return find_printer(name, path)
    except Problems as problems:
        _refuse(problems, _book_text(path))


def _book_text(path: Path) -> dict[str, str]:
    """Return the text of the file of printers under its name, nothing when it cannot be read."""
    try:
        return {str(path): read_source(path)}
    except Problems:
        return {}


def _context(loaded: Loaded, layout: Layout, options: Sequence[str], measured: Printer | None = None) -> Context:
    return Context(
        piece=loaded.piece,
        solids=loaded.solids,
        kinds=loaded.kinds,
        lists=loaded.lists,
        findings=loaded.findings,
        layout=layout,
        metrics=PacketMetrics(),
        fingerprint=fingerprint(loaded.source, layout, tuple(options)),
        printer=measured,
    )


def _only(value: str | None) -> tuple[str, ...] | None:
    return None if value is None else tuple(word.strip() for word in value.split(",") if word.strip())


file_argument = click.argument("file", type=click.Path(dir_okay=False))
set_option = click.option(
    "--set", "sets", multiple=True, metavar="NAME=VALUE", help="Give a size another value for this run."
)
paper_option = click.option("--paper", metavar="NAME", help="Layout: letter, letter-landscape, a4, … or a layout file.")
records_option = click.option(
    "--printers", metavar="PATH", help="File of the measured printers; by default one in your settings folder."
)
only_option = click.option("--only", metavar="SHEET,…", help="Make only these kinds of sheet.")


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(docgen.__version__, prog_name="docgen")
def main() -> None:
    """Turn a project file of a piece of furniture into the packet that is printed before the wood is cut."""
    # One packet and the process ends: looking for dead cycles among records that all live costs a twentieth of the time.
    gc.set_threshold(200_000, 50, 50)


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
    """Write the packet. Exit status: 0 built, 1 stopped by a finding, 2 the file cannot be used."""
    measured = _measured(name, printers)
    loaded = _load(file, sets)
    layout = _layout(paper, loaded.piece)
    if measured:
        layout = fitted(layout, measured, PacketMetrics())
    options = [*sorted(sets), f"only={only or ''}", f"force={force}", *([measured.words] if measured else [])]
    try:
        begun = begin(_context(loaded, layout, options, measured), _only(only))
        loaded = loaded.judged()
    except Problems as problems:
        _refuse(problems, {})
    if loaded.findings:
        click.echo(tell_findings(loaded.findings, loaded.piece.units), err=True)
    if loaded.stopped and not force:
        click.echo("stopped: nothing was written (--force prints it all the same, and each page says so)", err=True)
        sys.exit(STOPPED)
    target = Path(out) if out else Path(Path(file).stem + ".pdf")
    try:
        pages = make_sheets(_context(loaded, layout, options, measured), _only(only), begun)
        pdf = write(
            pages,
            layout=layout,
            piece=loaded.piece,
            fingerprint=fingerprint(loaded.source, layout, tuple(options)),
            stopped=loaded.stopped,
            printer=measured,
        )
        save(pdf, target)
    except Problems as problems:
        _refuse(problems, {})
    except OSError as error:
        click.echo(f"{target}: error: cannot be written: {error.strerror} [packet-unwritable]", err=True)
        sys.exit(UNUSABLE)
    click.echo(f"{target}: {len(pages)} pages on {layout.name}")


@main.command()
@file_argument
@set_option
def check(file: str, sets: tuple[str, ...]) -> None:
    """Tell the findings. Exit status: 0 none that stops, 1 stopped, 2 the file cannot be used."""
    loaded = _judged(file, sets)
    click.echo(tell_findings(loaded.findings, loaded.piece.units))
    sys.exit(STOPPED if loaded.stopped else BUILT)


@main.command(name="facts")
@file_argument
@set_option
def facts_command(file: str, sets: tuple[str, ...]) -> None:
    """Print everything computed as JSON; shared/facts.md tells what each name means."""
    loaded = _judged(file, sets)
    out = facts(loaded.piece, loaded.solids, loaded.kinds, loaded.lists, loaded.findings)
    click.echo(json.dumps(out, ensure_ascii=False, indent=1))


@main.command()
@file_argument
def new(file: str) -> None:
    """Write a commented starter that builds at once; an existing file is left alone."""
    target = Path(file)
    try:
        with target.open("x", encoding="utf-8") as handle:
            handle.write(data_path("shared", "starters/start.yaml").read_text(encoding="utf-8"))
    except OSError as error:
        click.echo(f"{target}: error: cannot be written: {error.strerror} [starter-unwritable]", err=True)
        sys.exit(UNUSABLE)
    click.echo(f"{target}: written; next: docgen build {target}")


@main.command(name="sheets")
@file_argument
@paper_option
@only_option
@set_option
def sheets_command(file: str, paper: str | None, only: str | None, sets: tuple[str, ...]) -> None:
    """List the sheets that the packet would hold, with their page counts."""
    loaded = _judged(file, sets)
    layout = _layout(paper, loaded.piece)
    try:
        pages = make_sheets(_context(loaded, layout, sorted(sets)), _only(only))
    except Problems as problems:
        _refuse(problems, {})
    counts: dict[str, int] = {}
    for page in pages:
        counts[page.kind] = counts.get(page.kind, 0) + 1
    for kind, count in counts.items():
        click.echo(f"{kind:<12} {count:>3} {'page' if count == 1 else 'pages'}")
    click.echo(f"{'in all':<12} {len(pages):>3} on {layout.name}")


@main.command()
@file_argument
@click.option("--template", "key", metavar="KEY", help="Which template; without it their keys are listed.")
@click.option("-o", "--out", metavar="OUT", help="Where the drawing goes; by default to the terminal.")
@set_option
def outline(file: str, key: str | None, out: str | None, sets: tuple[str, ...]) -> None:
    """Write a template's outline and holes as SVG of true size in millimetres, for laser, router or plotter.

    Where a template ends within the wood, its last side is where it ends, not a cut.
    """
    loaded = _load(file, sets)
    known = template_keys(templates(loaded.piece, loaded.kinds))
    if key is None:
        click.echo("\n".join(known) if known else "the piece asks for no template")
        return
    if key not in known:
        hint = did_you_mean(key, known, otherwise=f"docgen outline {file} lists them")
        problem = Problem("unknown-template", Span("--template", 1, 1), f"there is no template '{key}'", hint)
        _refuse(Problems([problem]), {"--template": key})
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


@main.command(name="printer")
@click.argument("name", required=False)
@click.option("--across", multiple=True, metavar="MEANT=READ", help="A length along the short side, as 180=178.9 (mm).")
@click.option("--down", multiple=True, metavar="MEANT=READ", help="A length along the long side, as 240=239.2 (mm).")
@click.option("-o", "--out", default="printer.pdf", metavar="OUT", help="Where the calibration page goes: printer.pdf.")
@click.option("--paper", default="a4", metavar="NAME", help="Layout of the calibration page: a4.")
@records_option
def printer_command(
    name: str | None, across: tuple[str, ...], down: tuple[str, ...], out: str, paper: str, printers: str | None
) -> None:
    """Write a calibration page; with NAME and what was measured on it, record that printer.

    NAME alone writes the page as corrected for that printer, to check the record.
    """
    if across or down:
        _record_printer(name, across, down, Path(printers) if printers else book_path())
        return
    measured = _measured(name, printers)
    try:
        _write_calibration(read_layout(paper), measured, Path(out))
    except Problems as problems:
        _refuse(problems, {})
    except OSError as error:
        click.echo(f"{out}: error: cannot be written: {error.strerror} [packet-unwritable]", err=True)
        sys.exit(UNUSABLE)


def _record_printer(name: str | None, across: Sequence[str], down: Sequence[str], path: Path) -> None:
    """Keep what was measured; leave with status 2 when it cannot be true or cannot be kept."""
    if name is None:
        raise click.UsageError("give the printer a name: docgen printer NAME --across … --down …")
    ways = (("--across", across), ("--down", down))
    said = [[(text, Span(way, i, 1, len(text))) for i, text in enumerate(texts, 1)] for way, texts in ways]
    try:
        new = printer(name, said[0], said[1], Span("printer", 1, 1))
        record(new, path)
    except Problems as problems:
        _refuse(problems, {way: "\n".join(texts) for way, texts in ways} | _book_text(path))
    except OSError as error:
        click.echo(f"{path}: error: cannot be written: {error.strerror} [printers-unwritable]", err=True)
        sys.exit(UNUSABLE)
    x, y = (f"{100 * factor:.2f} %" for factor in new.factors((1.0, 2.0)))
    click.echo(f"{path}: '{name}' recorded: true-size pages are drawn at {x} across and {y} down")
    click.echo(f"next: docgen printer {json.dumps(name)} writes the page so corrected; its lines must measure true")


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
    save(pdf, target)
    click.echo(f"{target}: calibration page on {layout.name}")
