"""On the printed page the distance between a dimension's arrows, times the scale, is the figure that is read beside them.

Where a zigzag stands in its line, the figure less what is left out of the broken view.
"""

from dataclasses import replace
from pathlib import Path

import pytest

from docgen.drawing.dimensions.wanted import Linear
from tests.support.arrows import wrong_angles, wrong_lengths
from tests.support.printed import figures

CASES = [
    (path.stem, "letter" if "units: inch" in path.read_text(encoding="utf-8") else "a4")
    for path in sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))
]


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_the_arrows_are_as_far_apart_as_the_figure_says(name: str, paper: str) -> None:
    printed = figures(name, paper)
    assert any(isinstance(f.wanted, Linear) for f in printed)
    assert list(wrong_lengths(printed)) == []


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_the_arcs_open_as_far_as_the_figure_says(name: str, paper: str) -> None:
    assert list(wrong_angles(figures(name, paper))) == []


def test_a_figure_that_is_not_what_is_drawn_is_told() -> None:
    f = next(f for f in figures(*CASES[0]) if isinstance(f.wanted, Linear))
    part = f.entry.subject.part.path
    told = list(wrong_lengths([replace(f, text="7777"), replace(f, broken=True), replace(f, arrows=None)]))
    assert [text.split(" is drawn ")[0] for text in told] == [
        f"{part}: 7777",
        f"{part}: {f.text}",
        f"{part}: {f.text} has no arrows",
    ]
