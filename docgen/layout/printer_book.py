"""The measured printers in a file of the user's own, read like any other file and written as it is read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from platformdirs import user_config_path

from docgen.layout.printers import ROLL, SHAPE, Printer, printer, sheet_size
from docgen.places import Span
from docgen.reading.problems import Problem, Problems
from docgen.reading.source import read_source
from docgen.reading.tree import Mapping, Node, Scalar, Sequence, read_tree
from docgen.reading.words import did_you_mean
from docgen.saving import save

FILE = "printers.yaml"
WAYS = ("across", "down")
PAPER = "paper"
HEAD = (
    "# Measured printers: lengths as they were meant = as they came out on paper, mm. `docgen printer` adds to them.\n"
)


def book_path() -> Path:
    """Return where the records stand: a file in the user's settings folder."""
    return user_config_path("docgen") / FILE


def read_book(path: Path) -> dict[str, Printer]:
    """Return the printers by name; none when there is no file. Problems with everything that is wrong in it."""
    if not _there(path):
        return {}
    tree = read_tree(str(path), read_source(path))
    if not isinstance(tree, Mapping):
        raise Problems([Problem("wrong-shape", tree.span, "the file of printers holds names with their lengths")])
    out: dict[str, Printer] = {}
    problems: list[Problem] = []
    for entry in tree.items:
        try:
            out[entry.key.text] = _record(entry.key, entry.value)
        except Problems as wrong:
            problems += wrong.items
    if problems:
        raise Problems(problems)
    return out


def _there(path: Path) -> bool:
    """Return whether there is a file; one in a closed folder may be there, and reading it tells what is wrong."""
    try:
        return path.exists()
    except OSError:
        return True


def find_printer(name: str, path: Path) -> Printer:
    """Return the printer of this name; Problems when there is none or the file cannot be used."""
    book = read_book(path)
    if name not in book:
        known = f"there are {', '.join(book)}" if book else "`docgen printer` tells how to measure and record one"
        hint = did_you_mean(name, book, otherwise=known)
        raise Problems([Problem("unknown-printer", Span("--printer", 1, 1), f"there is no printer '{name}'", hint)])
    return book[name]


def record(new: Printer, path: Path) -> None:
    """Add a printer to the file, in the place of an earlier one of its name; OSError when it cannot be written."""
    book = {**read_book(path), new.name: new}
    path.parent.mkdir(parents=True, exist_ok=True)
    save((HEAD + "".join(_lines(book[name] for name in sorted(book)))).encode(), path)


def _lines(printers: Iterable[Printer]) -> Iterator[str]:
    for p in printers:
        yield f'"{p.name}":\n'
        for way, lengths in zip(WAYS, (p.across, p.down), strict=True):
            yield f"  {way}: [{', '.join(map(str, lengths))}]\n"
        if p.paper:
            yield f"  {PAPER}: {p.paper}\n"


def _record(name: Scalar, node: Node) -> Printer:
    if not isinstance(node, Mapping):
        message = f"'{name.text}' takes across and down"
        raise Problems([Problem("wrong-shape", node.span, message, "across: [200=198.4]")])
    problems = [
        Problem("unknown-key", e.key.span, f"unknown word '{e.key.text}'", did_you_mean(e.key.text, (*WAYS, PAPER)))
        for e in node.items
        if e.key.text not in (*WAYS, PAPER)
    ]
    if problems:
        raise Problems(problems)
    return printer(name.text, _texts(node, "across"), _texts(node, "down"), name.span, _paper(node))


def _paper(node: Mapping) -> str:
    """Return on what a printer was measured, "" where the record does not say."""
    entry = node.get(PAPER)
    if entry is None:
        return ""
    text = entry.value.text if isinstance(entry.value, Scalar) else ""
    if text != ROLL and sheet_size(text) is None:
        hint = "roll, or a size in this way: 210 × 297 mm"
        raise Problems([Problem("printer-paper", entry.value.span, f"'{text}' is no paper", hint)])
    return text


def _texts(node: Mapping, way: str) -> list[tuple[str, Span]]:
    """Return the texts of one direction with their places."""
    entry = node.get(way)
    if entry is None:
        raise Problems([Problem("missing-key", node.span, f"'{way}' is missing", SHAPE)])
    items = entry.value.items if isinstance(entry.value, Sequence) else (entry.value,)
    out: list[tuple[str, Span]] = []
    for item in items:
        if not isinstance(item, Scalar):
            raise Problems([Problem("wrong-shape", item.span, f"'{way}' takes measured lengths", SHAPE)])
        out.append((item.text, item.span))
    return out
