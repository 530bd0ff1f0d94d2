"""What the commands share: a file read and made, its layout, a measured printer, and how problems are told."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import NoReturn

import click

from docgen.checks.finding import Finding, Grade
from docgen.checks.run import findings
from docgen.cli.letters import letters_missing
from docgen.layout.model import Layout
from docgen.layout.printer_book import book_path, find_printer
from docgen.layout.printers import ROLL, Printer, doubtful, unsuited
from docgen.layout.read import read_layout
from docgen.packet.fingerprint import fingerprint
from docgen.packet.fonts import METRICS
from docgen.piece.build import build as build_piece
from docgen.piece.build import impossible
from docgen.piece.kinds import kinds
from docgen.piece.model import Kind, Piece
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.places import Span
from docgen.project.model import UnfinishedProject
from docgen.project.read import read_project
from docgen.project.sizes import set_source
from docgen.reading.problems import Problem, Problems, tell
from docgen.reading.source import read_source
from docgen.schedules.make import schedules
from docgen.schedules.rows import Schedules
from docgen.sheets.context import Context

BUILT, STOPPED, UNUSABLE = 0, 1, 2


@dataclass(frozen=True, slots=True)
class Loaded:
    """A file with all that follows from it, before any paper."""

    source: bytes
    piece: Piece
    solids: Solids
    kinds: tuple[Kind, ...]
    lists: Schedules
    read: tuple[Path, ...] = ()  # the project file and the files that it names
    sets: tuple[str, ...] = ()  # NAME=VALUE for each size that was set for this run, by name
    findings: tuple[Finding, ...] = ()

    def judged(self) -> Loaded:
        """Return the same with what the checks find."""
        found = findings(self.piece, self.solids, self.kinds, self.lists)
        return replace(self, findings=(*found, *letters_missing(self.piece)))

    def mark(self, layout: Layout, options: Sequence[str]) -> str:
        """Return the fingerprint of everything that shapes the packet, the files beside the project file too."""
        included = {name: text.encode() for name, text in self.piece.beside}
        return fingerprint(self.source, layout, tuple(options), included=included)

    @property
    def stopped(self) -> bool:
        """True when the piece cannot be built as drawn."""
        return any(f.grade is Grade.STOP for f in self.findings)

    def go_on_unless_stopped(self, told: str = "the piece cannot be built as drawn; docgen check tells why") -> None:
        """Say `told` and leave with status 1 when a finding stops the work."""
        if self.stopped:
            click.echo(f"stopped: {told}", err=True)
            sys.exit(STOPPED)


def refuse(problems: Problems, sources: dict[str, str]) -> NoReturn:
    """Tell all problems and leave with status 2."""
    click.echo(tell(problems.items, sources), err=True)
    sys.exit(UNUSABLE)


def _sets(values: Sequence[str]) -> dict[str, str]:
    """Return the values set for this run by name; of one that is set twice the last."""
    out: dict[str, str] = {}
    for value in values:
        name, sign, figure = value.partition("=")
        if not sign or not name.strip() or not figure.strip():
            raise click.BadParameter(f"{value!r} is not NAME=VALUE", param_hint="--set")
        out[name.strip()] = figure.strip()
    return out


def load(file: str, given: Sequence[str]) -> Loaded:
    """Read and make everything up to the findings; leave with status 2 when the file cannot be used."""
    sets = _sets(given)
    sources = {"--set": set_source(sets)}
    try:
        text = read_source(file)
        sources[file] = text
        words = vocabulary()
        piece = build_piece(read_project(file, text, words, sets, sources), words)
        solids = Solids(piece)
        same = kinds(piece, solids)
        read = (Path(file), *(Path(file).parent / name for name, _ in piece.beside))
        final = tuple(f"{size}={value}" for size, value in sorted(sets.items()))
        return Loaded(text.encode(), piece, solids, same, schedules(piece, solids, same), read, final)
    except UnfinishedProject as unfinished:
        refuse(impossible(unfinished, words), sources)
    except Problems as problems:
        refuse(problems, sources)


def judged(file: str, given: Sequence[str]) -> Loaded:
    """Read and make everything, the findings too."""
    return load(file, given).judged()


def layout_of(paper: str | None, piece: Piece) -> Layout:
    """Return the layout asked for on the command line, by the file, or by the file's unit."""
    name = paper or piece.paper or ("letter" if piece.units.system == "inch" else "a4")
    try:
        return read_layout(name)
    except Problems as problems:
        files = dict.fromkeys(Path(problem.where.file) for problem in problems.items)
        refuse(problems, {file: text for path in files for file, text in book_text(path).items()})


def suited(measured: Printer, sheet: str) -> None:
    """Leave with status 2 where a record was made on a roll and pages are for sheets, or the other way; tell other doubts."""
    wrong = unsuited(measured, sheet)
    if wrong:
        way = f"--paper {sheet}" if sheet == ROLL else "--paper NAME"
        hint = f"measure it so: docgen printer NAME {way} --across … --down …"
        refuse(Problems([Problem("printer-paper", Span("--printer", 1, 1), wrong, hint)]), {"--printer": measured.name})
    doubt = doubtful(measured, sheet)
    if doubt:
        click.echo(f"note: {doubt}: hold a steel rule to the check lines before you use them", err=True)


def measured_printer(name: str | None, records: str | None) -> Printer | None:
    """Return the measured printer of this name; leave with status 2 when there is none."""
    if name is None:
        return None
    path = Path(records) if records else book_path()
    try:
        return find_printer(name, path)
    except Problems as problems:
        refuse(problems, book_text(path))


def book_text(path: Path) -> dict[str, str]:
    """Return the text of the file of printers under its name, nothing when it cannot be read."""
    try:
        return {str(path): read_source(path)}
    except Problems:
        return {}


def context_of(loaded: Loaded, layout: Layout, options: Sequence[str], measured: Printer | None = None) -> Context:
    """Return what the sheets are made from."""
    return Context(
        piece=loaded.piece,
        solids=loaded.solids,
        kinds=loaded.kinds,
        lists=loaded.lists,
        findings=loaded.findings,
        layout=layout,
        metrics=METRICS,
        fingerprint=loaded.mark(layout, options),
        printer=measured,
    )


def only_words(value: str | None) -> tuple[str, ...] | None:
    """Return the words of a list parted by commas, None when there is none."""
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
