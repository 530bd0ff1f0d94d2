"""Letters of the project file that the packet's font lacks: on paper an empty box stands for each."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks.finding import Finding, Grade
from docgen.packet.fonts import unknown
from docgen.piece.model import Piece

CODE = "letters-missing"


def letters_missing(piece: Piece) -> tuple[Finding, ...]:
    """Return a note where texts of the file have letters that cannot be printed; nothing where all can."""
    found: dict[str, list[str]] = {}
    for where, text in _texts(piece):
        for letter in unknown(text):
            found.setdefault(letter, []).append(where)
    if not found:
        return ()
    places = list(dict.fromkeys(where for each in found.values() for where in each))
    # On the sheet of the findings the letters are boxes themselves: their numbers tell them there.
    names = ", ".join(f"{letter} (U+{ord(letter):04X})" for letter in found)
    said = Finding(
        Grade.NOTE,
        CODE,
        (),
        f"The packet's font has no {names}: an empty box stands in its place, in {', '.join(places)}.",
        "each letter of the file is printed as it is written, or said to be missing",
        "the font that the packet carries: Latin, Greek and Cyrillic letters",
        advice="write it in letters of these alphabets",
    )
    return (said,)


def _texts(piece: Piece) -> Iterator[tuple[str, str]]:
    """Yield the texts of the file that come to paper, with where they stand."""
    yield "the piece's name", piece.title
    yield from (
        ("number", piece.number),
        ("revision", piece.revision),
        ("date", piece.date),
        ("author", piece.author),
        ("owner", piece.owner),
        ("approved by", piece.approved),
    )
    for note in piece.notes:
        yield "notes", note
    for part in piece.parts:
        yield f"part {part.number}", f"{part.called} {part.note}"
        yield "materials", f"{part.material.name} {part.material.species} {part.material.sheet} {part.material.bought}"
        for feature in part.features:
            rows = " ".join(f"{row.name} {row.note}" for row in feature.made.holes)
            yield f"a label on part {part.number}", f"{feature.title} {rows}"
    for item in piece.items:
        yield "what is bought", f"{item.what} {item.size} {item.note}"
    for name, _, _ in piece.sizes:
        yield "sizes", name
    yield from (("names", g.name) for g in piece.groups)
    yield from (("names", d.name) for d in piece.drawers)
    yield from (("names", r.name) for r in piece.runs)
    yield from (("names", p.name) for p in piece.panes)
