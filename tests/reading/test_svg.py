"""The one path of a drawing is found with its place; anything else is told in the drawing itself."""

from __future__ import annotations

import pytest

from docgen.reading.problems import Problem, Problems
from docgen.reading.svg import read_svg

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">'


def refused(text: str) -> Problem:
    with pytest.raises(Problems) as caught:
        read_svg("end.svg", text)
    (problem,) = caught.value.items
    assert problem.code == "svg-unreadable" and problem.where.file == "end.svg"
    return problem


def test_the_path_and_the_place_of_each_character() -> None:
    found = read_svg("end.svg", f'{HEAD}\n  <path id="a" fill="none"\n    d="M 0 0\n H 9 Z"/>\n</svg>')
    assert found.data == "M 0 0\n H 9 Z"
    assert (found.place(0).line, found.place(0).column) == (3, 8)
    assert (found.place(7).line, found.place(7).column) == (4, 2)


def test_other_letters_before_the_path_do_not_move_its_place() -> None:
    found = read_svg("end.svg", f"{HEAD}<title>Größe</title><path d='M0 0H9Z'/></svg>")
    text = f"{HEAD}<title>Größe</title><path d='"
    assert (found.place(0).line, found.place(0).column) == (1, len(text) + 1)


@pytest.mark.parametrize(
    "before",
    [
        """aria-label="size d = 'M 0 0 H 9 V 9 H 0 Z'" """,
        """aria-label='d="M 0 0 H 9 Z" &lt;path d="M1 1Z"' """,
        """data-d="M1 1Z" my:d="M2 2Z" id = "d" """,
        """title="a > b" """,
    ],
)
def test_what_only_looks_like_the_data_is_left_alone(before: str) -> None:
    text = f'{HEAD[:-1]} xmlns:my="u"><path {before}d = "M0 0H9V5Z"/></svg>'
    found = read_svg("e", text)
    assert found.data == "M0 0H9V5Z"
    assert (found.place(0).line, found.place(0).column) == (1, text.index("M0 0H9V5Z") + 1)


def test_characters_by_number_and_name_are_those_characters() -> None:
    """Line breaks in attributes are written so by programs that hold to the XML recommendation, section 3.3.3."""
    start = f"{HEAD}<path d='"
    found = read_svg("e", f"{start}M0 0&#10;H9&#x20;V&#53;&apos;Z'/></svg>")
    assert found.data == "M0 0\nH9 V5'Z"
    columns = [found.place(k).column - len(start) for k in (0, 4, 5, 8, 9, 10, 11)]
    assert columns == [1, 5, 10, 18, 19, 24, 30]
    assert found.place(99).column == columns[-1] + len(start)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_end_in_three_ways(end: str) -> None:
    found = read_svg("e", end.join([HEAD, "<g>", "<path", ' d="M 0 0', ' H 9 Z"/></g></svg>']))
    assert (found.place(0).line, found.place(0).column) == (4, 5)
    at = found.data.index("H")
    assert (found.place(at).line, found.place(at).column) == (5, 2)


def test_transforms_outermost_first() -> None:
    found = read_svg("e", f'{HEAD}<g transform="scale(2)"><g><path transform="rotate(3)" d="M0 0H9Z"/></g></g></svg>')
    assert found.transforms == ("scale(2)", "rotate(3)")


def test_paths_that_are_not_drawn_do_not_count() -> None:
    text = f'{HEAD}<defs><path d="M1 1Z"/></defs><clipPath><path d="M2 2Z"/></clipPath><path d="M0 0H9Z"/></svg>'
    assert read_svg("e", text).data == "M0 0H9Z"


def test_a_path_without_data_and_a_prefix() -> None:
    text = '<s:svg xmlns:s="http://www.w3.org/2000/svg"><s:path/><s:path d="M0 0H9Z"/></s:svg>'
    assert read_svg("e", text).data == "M0 0H9Z"


def test_a_plain_doctype_is_no_harm() -> None:
    text = f'<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/x.dtd">{HEAD}<path d="M0 0H9Z"/></svg>'
    assert read_svg("e", text).data == "M0 0H9Z"


def test_what_is_no_drawing_with_one_path() -> None:
    assert "no path" in refused(f"{HEAD}</svg>").message
    assert "circle" in refused(f'{HEAD}<circle r="3"/></svg>').message
    second = refused(f'{HEAD}\n<path d="M0 0H9Z"/>\n<path d="M0 0H9Z"/></svg>')
    assert (second.where.line, second.where.column) == (3, 1)
    assert "begins with <html>" in refused("<html/>").message
    broken = refused(f"{HEAD}\n<path</svg>")
    assert broken.where.line == 2
    refused("")
    refused("{}")


def test_entities_and_depth_are_refused() -> None:
    bomb = '<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>' + HEAD + "<title>&b;</title></svg>"
    assert "entities" in refused(bomb).message
    assert "deep" in refused(HEAD + "<g>" * 60 + "</g>" * 60 + "</svg>").message
