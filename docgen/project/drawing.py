"""What the file asks of the part sheets: a dimension more or fewer, told on another view, or a note with a leader."""

from __future__ import annotations

from docgen.project.check import Checker
from docgen.project.fields import Choice, FaceWord, Field, Flag, Length, PartName, Place, Word, Words
from docgen.project.names import Names
from docgen.project.saying import read_statements
from docgen.project.schema import AXES
from docgen.project.statements import Lazy
from docgen.reading.tree import Mapping

SECTION = "drawing"


def _none(*_: object) -> None:
    """Build nothing: the sheets read a wish."""


_PART = Field("part", PartName(), "the part on whose sheet it goes", required=True)
_SIZE = Field(
    "size", Words(), 'which size: "length", or an operation and what it measures, "dado 2 stop"', required=True
)

WORDS = {
    word.name: word
    for word in (
        Word(
            "dimension",
            SECTION,
            "prints a distance that the program would leave out",
            (
                _PART,
                Field("along", Choice(AXES), "the direction in which it is measured", required=True),
                Field("from", Length(), "where it begins, a coordinate of the piece", required=True),
                Field("to", Length(), "where it ends", required=True),
                Field("view", FaceWord(), "the face on whose view it stands", required=True),
                Field("label", Words(), "what stands before the figure", default=""),
            ),
            "dimension: {part: left side, along: up, from: shelf.top, to: top.bottom, view: right, label: clear}",
            _none,
        ),
        Word(
            "drop",
            SECTION,
            "leaves out a size; who reads the sheet then has to know it",
            (_PART, _SIZE),
            "drop: {part: left side, size: dado 2 stop}",
            _none,
        ),
        Word(
            "move",
            SECTION,
            "tells a size on another view, or on the other side of its view",
            (
                _PART,
                _SIZE,
                Field("view", FaceWord(), "the face on whose view it is to stand"),
                Field("other side", Flag(), "on the far side of the view from where it would stand", default="no"),
            ),
            "move: {part: left side, size: dado 2 stop, other side: yes}",
            _none,
        ),
        Word(
            "note",
            SECTION,
            "prints words with a leader to a point of the part",
            (
                _PART,
                Field("at", Place(need=AXES), "where the leader ends, in the piece", required=True),
                Field("view", FaceWord(), "the face on whose view it stands", required=True),
                Field("text", Words(), "what is said", required=True),
            ),
            "note: {part: left side, view: right, text: best side out,\n"
            "  at: {across: left side.right, deep: 6, up: 20}}",
            _none,
        ),
    )
}


def read_drawing(tree: Mapping, checker: Checker, names: Names) -> tuple[Lazy, ...]:
    """Return the lines of the section; the checker keeps what is wrong."""
    found = read_statements(tree.get(SECTION), WORDS, checker, names)
    return tuple(lazy for lazy in found if _moves(lazy, checker))


def _moves(lazy: Lazy, checker: Checker) -> bool:
    if lazy.word.name != "move" or lazy["view"] or lazy["other side"]:
        return True
    checker.fault("missing-key", lazy.span, "'move' does not say where to", "view: the face, or other side: yes")
    return False
