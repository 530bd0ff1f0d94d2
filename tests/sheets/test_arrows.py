"""On the printed page the distance between a dimension's arrows, times the scale, is the figure that is read beside them.

Where a zigzag stands in its line, the figure less what is left out of the broken view.
"""

import math
from pathlib import Path

import pytest

from docgen.drawing.dimensions.wanted import Angular, Linear
from tests.support.printed import figures, number

CASES = [
    (path.stem, "letter" if "units: inch" in path.read_text(encoding="utf-8") else "a4")
    for path in sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))
]
HALF = {"mm": 0.06, "inch": 0.0008}  # a printed tenth, a printed thousandth
DRAWN = 0.03  # mm on paper


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_the_arrows_are_as_far_apart_as_the_figure_says(name: str, paper: str) -> None:
    linear = [f for f in figures(name, paper) if isinstance(f.wanted, Linear)]
    assert linear
    for f in linear:
        assert f.arrows is not None and isinstance(f.wanted, Linear)
        units = f.entry.subject.units
        factor = f.entry.placed.setting.factor
        apart = math.dist(*f.arrows)
        if f.how == "running":  # from the origin's circle, which may stand on another line of the same side
            along = f.wanted.along
            apart = abs(sum((q - p) * c for p, q, c in zip(*f.arrows, along, strict=True)))
        assert f.broken == (f.wanted.taken > 0), (f.entry.subject.part.path, f.text)  # a zigzag in the line says so
        said = number(f.text) * (25.4 if units.system == "inch" else 1.0) - f.wanted.taken
        assert apart / factor == pytest.approx(
            said, abs=HALF[units.system] * 25.4 ** (units.system == "inch") + DRAWN / factor
        ), (
            f.entry.subject.part.path,
            f.text,
        )


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_the_arcs_open_as_far_as_the_figure_says(name: str, paper: str) -> None:
    for f in figures(name, paper):
        if isinstance(f.wanted, Angular):
            a, b, apex = f.wanted.first, f.wanted.second, f.wanted.apex
            one, two = (math.atan2(p[1] - apex[1], p[0] - apex[0]) for p in (a, b))
            opening = abs((math.degrees(one - two) + 180) % 360 - 180)
            assert opening == pytest.approx(number(f.text), abs=0.06), (f.entry.subject.part.path, f.text)
