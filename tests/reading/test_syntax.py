"""Slips of YAML that a maker makes: each is told at the place that has to be mended, with what to write there."""

import pytest

from docgen.reading.problems import Problems
from docgen.reading.tree import read_tree


@pytest.mark.parametrize(
    ("text", "line", "column", "message", "hint"),
    [
        ("docgen: 1\npiece Wall shelf\nunits: mm\n", 2, 1, "a colon is missing on this line", "piece: Wall shelf"),
        ("docgen: 1\npiece:Wall shelf\nunits: mm\n", 2, 1, "a space is missing behind the colon", "piece: Wall shelf"),
        ("piece: 'Warden's shelf'\nunits: mm\n", 1, 16, "the text ends at this quote", "double quotes"),
        (
            "parts:\n  shelf {of: boards, grain: up}\n",
            2,
            8,
            "a colon is missing here",
            "shelf: {of: boards, grain: up}",
        ),
        ("parts:\n  a: {of: b}}\n  c: {of: d}\n", 2, 13, "one '}' too many", "take it out"),
        ("parts:\n  a: [1, 2]]\n", 2, 12, "one ']' too many", "take it out"),
        ("a:\n\tb: 1\n", 2, 1, "a tab stands", "spaces"),
    ],
)
def test_slips(text: str, line: int, column: int, message: str, hint: str) -> None:
    with pytest.raises(Problems) as found:
        read_tree("x.yaml", text)
    (problem,) = found.value.items
    assert (problem.where.line, problem.message[: len(message)]) == (line, message)
    assert hint in problem.hint
    assert problem.where.column == column
