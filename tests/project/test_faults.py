"""Files with faults that say in place what is wrong with them, and the page that explains each code."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from docgen.expressions import ExprFault, parse
from docgen.places import Span
from docgen.project.read import read_project
from docgen.reading.problems import Problem, Problems, tell
from docgen.tables import data_text
from docgen.units import Units
from tests.project.words import GOOD, VOCABULARY

FAULTS = sorted((Path(__file__).parent / "faults").glob("*.yaml"))
ROOMS = ("expressions", "reading", "project")
_SAID = re.compile(r"# error (?P<code>[\w-]+) (?P<first>\d+)-(?P<last>\d+)(?:, hint: (?P<hint>[^#]*[^# ]))?")
_CODE = re.compile(r'(?:Problem|[Ff]ault)\(\s*f?"(?P<code>[a-z0-9{}-]+)"|return "(?P<name>[a-z]+-[a-z-]+)", f"')


def problems_of(name: str, text: str) -> tuple[Problem, ...]:
    with pytest.raises(Problems) as caught:
        read_project(name, text, VOCABULARY, {})
    return caught.value.items


@pytest.mark.parametrize("path", FAULTS, ids=lambda p: p.stem)
def test_each_fault_is_told_at_its_place_and_nothing_else_is(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    expected = sorted(
        (number, found["code"], int(found["first"]), int(found["last"]))
        for number, line in enumerate(text.splitlines(), start=1)
        for found in _SAID.finditer(line)
    )
    problems = problems_of(path.name, text)
    found = [(p.where.line, p.code, p.where.column, p.where.column + p.where.length - 1) for p in problems]
    assert sorted(set(found)) == sorted(set(expected)), tell(problems, {path.name: text})


@pytest.mark.parametrize("path", FAULTS, ids=lambda p: p.stem)
def test_hints_are_those_that_the_file_says(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    hints = {(p.where.line, p.code): p.hint for p in problems_of(path.name, text)}
    for number, line in enumerate(text.splitlines(), start=1):
        for found in _SAID.finditer(line):
            if found["hint"]:
                assert hints[number, found["code"]] == found["hint"].strip()


def codes_in_source() -> set[str]:
    """Return the codes that the rooms can tell, from their source."""
    root = Path(__file__).parents[2] / "docgen"
    found = {
        match["code"] or match["name"]
        for room in ROOMS
        for path in sorted((root / room).glob("*.py"))
        for match in _CODE.finditer(path.read_text(encoding="utf-8"))
    }
    return (found - {"unknown-{what}"}) | {"unknown-part", "unknown-material"}


def codes_in_tests() -> set[str]:
    """Return the codes that some test of these rooms expects."""
    here = Path(__file__).parents[1]
    texts = [path.read_text(encoding="utf-8") for path in FAULTS]
    said = {found["code"] for text in texts for found in _SAID.finditer(text)}
    files = [path for room in ROOMS for path in sorted((here / room).glob("test_*.py"))]
    quoted = {
        word for path in files for word in re.findall(r'"([a-z0-9]+(?:-[a-z0-9]+)*)"', path.read_text(encoding="utf-8"))
    }
    return said | quoted


def test_each_code_is_explained() -> None:
    headings = re.findall(r"^## (\S+)$", data_text("shared", "problems.md"), re.MULTILINE)
    assert len(headings) == len(set(headings))
    assert codes_in_source() - set(headings) == set()


def test_each_code_is_tested() -> None:
    assert len(codes_in_source()) > 50
    assert codes_in_source() - codes_in_tests() == set()


def test_a_file_that_is_a_list_is_no_project() -> None:
    (problem,) = problems_of("f.yaml", "- a\n- b\n")
    assert problem.code == "wrong-shape"


def test_a_text_has_an_end() -> None:
    codes = [p.code for p in problems_of("f.yaml", GOOD.replace("Porch bench", "x" * 501))]
    assert codes == ["too-long"]


def test_brackets_have_a_bottom() -> None:
    text = "(" * 41 + "1" + ")" * 41
    with pytest.raises(ExprFault) as caught:
        parse(text, Span("f", 1, 1, len(text)), Units())
    assert caught.value.code == "too-deep"
