"""The section that asks for templates: what it takes, and what it says of what it cannot take."""

import pytest

from docgen.piece.build import build
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.reading.problems import Problem, Problems

FILE = """\
docgen: 1
piece: Bench
units: mm
materials:
  boards: {species: white oak, thickness: 20}
parts:
  seat: {of: boards, grain: across, show: top, box: {across: [0, 900], deep: [0, 300], up: [400, 420]}}
  slide: {of: boards, grain: deep, hardware: yes, box: {across: [0, 20], deep: [0, 300], up: [0, 40]}}
templates:
"""


def wishes(text: str):
    words = vocabulary()
    piece = build(read_project("b.yaml", FILE + text, words, {}), words)
    return [(w.parts, w.face, w.none) for w in piece.templates]


def problem(text: str) -> Problem:
    with pytest.raises(Problems) as caught:
        wishes(text)
    (found,) = caught.value.items
    return found


def test_what_is_asked_stands_in_the_order_of_the_file() -> None:
    assert wishes("") == []
    assert wishes("  - {part: seat, face: top}\n  - {part: [seat, slide], none: yes}\n  - none: yes\n") == [
        (("seat",), "top", False),
        (("seat", "slide"), "", True),
        ((), "", True),
    ]


@pytest.mark.parametrize(
    ("text", "code", "place", "said"),
    [
        ("  part: seat\n", "wrong-shape", (9, 1), "begin each line with a dash"),
        ("  - {face: top}\n", "missing-key", (10, 5), "lacks 'part'"),
        ("  - {part: seat, face: topp}\n", "unknown-word", (10, 24), "did you mean 'top'?"),
        ("  - {part: saet}\n", "unknown-part", (10, 12), "did you mean 'seat'?"),
        ("  - {part: seat, fase: top}\n", "unknown-key", (10, 18), "did you mean 'face'?"),
        ("  - {part: slide, face: left}\n", "template-bought", (10, 12), "bought, not made"),
    ],
)
def test_what_cannot_be_asked_is_told_at_its_place(text: str, code: str, place: tuple[int, int], said: str) -> None:
    found = problem(text)
    assert (found.code, (found.where.line, found.where.column)) == (code, place)
    assert said in f"{found.message} {found.hint}"
