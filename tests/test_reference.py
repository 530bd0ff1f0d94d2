"""The reference of the file's words is what the program checks."""

from docgen.piece.vocabulary import vocabulary
from docgen.project.reference import reference
from tests.support.reference import PAGE


def test_the_reference_is_current() -> None:
    assert PAGE.read_text(encoding="utf-8") == reference(vocabulary()), "run: python -m tests.support.reference"


def test_each_word_has_an_example() -> None:
    known = vocabulary()
    for room in (known.operations, known.edges, known.holes, known.joints, known.assemblies):
        assert room
        for word in room.values():
            assert word.name in word.example, word.name
