from __future__ import annotations

from pathlib import Path

import pytest

from docgen.places import Span
from docgen.reading.problems import Problem, Problems, tell
from docgen.reading.source import read_source
from docgen.reading.tree import MOST_BYTES
from docgen.reading.words import did_you_mean, nearest


def told(line: str, column: int, length: int) -> list[str]:
    return tell([Problem("code", Span("f", 1, column, length), "wrong")], {"f": line}).split("\n")


def test_a_problem_is_told_with_its_line_its_caret_and_its_hint() -> None:
    text = "stool: 1\n    at: [4mm, 20mm]\n"
    problem = Problem("hole-near-edge", Span("stool.yaml", 2, 10, 3), "the hole is near the edge", "move it")
    assert tell([problem], {"stool.yaml": text}) == (
        "stool.yaml:2:10: error: the hole is near the edge [hole-near-edge]\n"
        "    2 |     at: [4mm, 20mm]\n"
        "      |          ^^^\n"
        "  hint: move it"
    )


def test_problems_are_sorted_by_place_and_told_once() -> None:
    late, early = Problem("b", Span("f", 9, 1), "late"), Problem("a", Span("f", 2, 4), "early")
    problems = Problems([late, early, late])
    assert problems.items == (early, late)
    assert tell(problems, {}) == "f:2:4: error: early [a]\nf:9:1: error: late [b]"
    assert str(problems) == "2 problems"


def test_the_caret_stands_under_wide_characters_and_tabs() -> None:
    assert told("木の棚: x", 1, 3)[2] == "      | " + "^" * 6
    assert told("木の棚: xy", 6, 2)[2] == "      | " + " " * 8 + "^^"
    assert told("e\u0301a: b", 5, 1)[2] == "      | " + "    "[:3] + "^"  # a combining mark takes no column
    line, caret = told("\ta: xy", 5, 2)[1:]
    assert line.index("xy") == caret.index("^^")


def test_control_characters_do_not_reach_the_terminal() -> None:
    assert "\x1b" not in tell([Problem("c", Span("f", 1, 1), "m")], {"f": "a\x1b[31m"})


def test_a_long_line_is_cut_to_a_window_round_the_place() -> None:
    line, caret = told("x" * 500 + "HERE" + "y" * 500, 501, 4)[1:]
    assert len(line) < 140
    assert line[caret.index("^") : caret.rindex("^") + 1] == "HERE"


@pytest.mark.parametrize("span", [Span("f", 7, 1), Span("g", 1, 1), Span("f", 1, 99, 5)])
def test_a_place_outside_of_the_text_is_still_told(span: Span) -> None:
    assert "wrong [c]" in tell([Problem("c", span, "wrong")], {"f": "a"})


def test_the_nearest_word() -> None:
    assert nearest("thicknes", ["species", "thickness"]) == "thickness"
    assert nearest("side left", ["left side", "right side"]) == "left side"
    assert nearest("left-side", ["left", "left side"]) == "left side"
    assert nearest("Seat Height", ["seat_height"]) == "seat_height"
    assert nearest("rounover", ["round over", "rabbet"]) == "round over"
    assert nearest("xyz", ["left side"]) is None
    assert nearest("", ["a"]) is None
    assert nearest("abc", []) is None
    assert did_you_mean("xyz", ["a"], otherwise="known are a") == "known are a"
    assert did_you_mean("drawr", ["drawer"]) == "did you mean 'drawer'?"


def test_ties_go_to_the_first() -> None:
    assert nearest("legs", ["lega", "legb"]) == "lega"


def code_of(path: Path) -> tuple[str, int, int]:
    with pytest.raises(Problems) as caught:
        read_source(path)
    (problem,) = caught.value.items
    return problem.code, problem.where.line, problem.where.column


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    assert code_of(tmp_path / "none.yaml") == ("unreadable-file", 1, 1)
    assert code_of(tmp_path) == ("unreadable-file", 1, 1)
    assert code_of(Path("a\0b")) == ("unreadable-file", 1, 1)
    latin = tmp_path / "latin.yaml"
    latin.write_bytes(b"a: 1\nb: caf\xe9\n")
    assert code_of(latin) == ("not-utf8", 2, 7)
    large = tmp_path / "large.yaml"
    large.write_bytes(b"x" * (MOST_BYTES + 1))
    assert code_of(large) == ("file-too-large", 1, 1)


def test_a_file_is_read_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes("a: é\r\n".encode())
    assert read_source(path) == "a: é\r\n"
