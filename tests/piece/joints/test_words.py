"""Each word's example reads without a problem against its own fields."""

import pytest

from docgen.piece.vocabulary import words
from docgen.project.check import Checker
from docgen.reading.problems import Problems
from docgen.reading.tree import Mapping, read_tree
from docgen.units import Units

MINE = [w for w in words() if w.room in ("joint", "assembly")]


@pytest.mark.parametrize("word", MINE, ids=lambda w: w.name)
def test_example_reads(word):
    tree = read_tree("example.yaml", word.example)
    assert isinstance(tree, Mapping)
    if word.room == "assembly":
        tree = tree.items[0].value
        assert isinstance(tree, Mapping)
    (entry,) = tree.items
    assert entry.key.text == word.name
    checker = Checker(Units("inch"))
    assert checker.statement(word, entry.value, entry.key.span) is not None, Problems(checker.problems).items


@pytest.mark.parametrize("word", MINE, ids=lambda w: w.name)
def test_help_is_one_line_without_a_full_stop(word):
    for text in (word.help, *(f.help for f in word.fields)):
        assert text and "\n" not in text and not text.endswith(".")
