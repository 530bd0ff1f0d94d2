"""Many candidates looked at in one go: the answers are those of the exact questions, and the reckoning is never far above."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.drawing.boxes import Box
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.dimensions.estimate import reach
from docgen.drawing.dimensions.field import Field
from docgen.drawing.dimensions.occupied import Occupied
from docgen.drawing.dimensions.screen import bounds
from docgen.drawing.dimensions.wanted import Angular, Callout, Linear, Rules, Wanted
from docgen.drawing.records import Text
from tests.support.metrics import RoundMetrics

METRICS = RoundMetrics()
spots = st.tuples(st.integers(0, 60), st.integers(0, 60))
lines = st.lists(st.tuples(spots, spots).filter(lambda s: s[0] != s[1]), max_size=8)
boxes = st.lists(st.tuples(spots, st.integers(1, 12), st.integers(1, 6)), min_size=1, max_size=8)


def occupied(drawn: list[tuple[tuple[int, int], tuple[int, int]]], texts: list[Box]) -> Occupied:
    out = Occupied()
    for a, b in drawn:
        out.add_line((float(a[0]), float(a[1])), (float(b[0]), float(b[1])), "view")
    for box in texts:
        out.add_box(box)
    return out


def made(told: list[tuple[tuple[int, int], int, int]]) -> list[Box]:
    return [Box(x + 0.37, y + 0.23, w / 2, h / 2) for (x, y), w, h in told]


@given(lines, boxes, boxes)
@settings(max_examples=80, deadline=None)
def test_the_screen_answers_as_the_exact_questions_do(drawn: list, texts: list, asked: list) -> None:  # type: ignore[type-arg]
    paper = occupied(drawn, made(texts))
    for clear in (0.0, 0.7):
        quick = paper.screen.free(bounds(made(asked), clear))
        assert quick.tolist() == [paper.free(box, clear) for box in made(asked)]


@given(lines.filter(bool), boxes)
@settings(max_examples=80, deadline=None)
def test_lines_are_struck_alike(asked: list, texts: list) -> None:  # type: ignore[type-arg]
    paper = occupied([], made(texts))
    rows = np.array([(*a, *b) for a, b in asked], dtype=np.float64)
    quick = paper.screen.unstruck(rows, 0.45)
    exact = [not paper.strikes((a[0], a[1]), (b[0], b[1]), 0.45) for a, b in asked]
    assert quick.tolist() == exact


def test_an_empty_paper_is_free() -> None:
    paper = Occupied()
    assert paper.screen.free(bounds([Box(0, 0, 5, 2)], 0.7)).all()
    assert paper.screen.unstruck(np.array([[0.0, 0.0, 9.0, 9.0]]), 0.45).all()


WIDE, HIGH = 400.0, 200.0
WISHES: list[Wanted] = [
    Linear("a", (0, 0), (WIDE, 0), (1.0, 0.0), "400", overall=True, datum=True),
    Linear("b", (0, 0), (0, HIGH), (0.0, 1.0), "200", overall=True, datum=True),
    Linear("c", (0, 10), (120, 10), (1.0, 0.0), "120", datum=True),
    Linear("d", (120, 190), (138, 190), (1.0, 0.0), "dado 18"),
    Callout("e", (300, 60), 4.0, ("A: 2× ⌀8 THRU",)),
]


def engine(scale: float) -> Engine:
    corners = [(0.0, 0.0), (WIDE * scale, 0.0), (WIDE * scale, HIGH * scale), (0.0, HIGH * scale)]
    outline = (0.0, 0.0, WIDE * scale, HIGH * scale)
    return Engine(
        zip(corners, corners[1:] + corners[:1], strict=True),
        outline=outline,
        scale=scale,
        at=(0.0, 0.0),
        rules=Rules(height=2.5),
        metrics=METRICS,
    )


@pytest.mark.parametrize("scale", [0.1, 0.2, 0.5])
def test_what_figures_are_reckoned_to_fill_is_what_they_fill_or_less(scale: float) -> None:
    filled = engine(scale).arrange(WISHES).bounds
    field = Field((0.0, 0.0, WIDE * scale, HIGH * scale), scale, (0.0, 0.0))
    least = reach(WISHES, field, Rules(height=2.5), METRICS)
    off = 2.5
    assert least[0] >= filled[0] - off
    assert least[1] >= filled[1] - off
    assert least[2] <= filled[2] + off
    assert least[3] <= filled[3] + off
    assert least[3] - least[1] > HIGH * scale + 10  # lanes are counted


def test_the_figure_of_an_angle_stands_at_its_arc() -> None:
    wish = Angular("a", (0, HIGH), (0, HIGH + 60), (40, HIGH + 40), "2× from square 45° (d)")
    (placed,) = engine(0.2).arrange([wish]).placed
    (text,) = [r for r in placed.records if isinstance(r, Text)]
    corner = (0.0, HIGH * 0.2)
    assert abs(text.at[0] - corner[0]) < 25
    assert abs(text.at[1] - corner[1]) < 25
