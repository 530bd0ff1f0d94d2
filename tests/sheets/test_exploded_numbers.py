"""Which of several equal things a number points at: the one that stands by itself."""

from __future__ import annotations

import math

import numpy as np
import pytest

from docgen.drawing.ground import Ground
from docgen.drawing.records import Line, Pen, Text
from docgen.geometry.hidden import draw
from docgen.geometry.lines import Drawn, Stroke
from docgen.sheets import exploded
from docgen.sheets.exploded_numbers import ALONE, VIEW, Crowd, _clearest
from tests.sheets.test_joinery import context, pages


def test_distances_are_those_to_other_items() -> None:
    drawn = Drawn((Stroke((0, 0), (10, 0), 0), Stroke((0, 4), (10, 4), 1), Stroke((0, 50), (10, 50), 2)), ())
    crowd = Crowd.of(drawn, 2.0, (1.0, 1.0))
    spot = np.array([[11.0, 4.0]])  # on paper; the lines stand at 1, 9 and 101 up
    assert crowd.away(spot, [0]) == pytest.approx([5.0])
    assert crowd.away(spot, [1]) == pytest.approx([3.0])
    assert crowd.away(spot, [0, 1]) == pytest.approx([ALONE])


def test_a_place_on_a_line_is_the_last_to_be_taken() -> None:
    """Alone but on its own edge, or on white paper nearer to something else: the white one is taken."""
    drawn = Drawn((Stroke((0, 0), (40, 0), 0), Stroke((0, 8), (40, 8), 1)), ())
    crowd = Crowd.of(drawn, 1.0, (0.0, 0.0))
    ground = Ground(np.array([(s.a, s.b) for s in drawn.visible]))
    assert _clearest([(20.0, 0.0), (20.0, 4.0)], ground, crowd, [0])[0] == (20.0, 4.0)


@pytest.mark.parametrize("letter", ["a", "b", "c"])
def test_a_letter_of_the_desk_points_at_a_tenon_that_stands_apart(letter: str) -> None:
    """Where the stand's and the easel's tenons come to lie in one heap, others of each stand free."""
    of = context("sketching-desk")
    (sheet,) = pages("exploded", "sketching-desk")
    name = next(r for r in sheet.records if isinstance(r, Text) and r.text == letter and r.anchor == "middle")
    thin = [r for r in sheet.records if isinstance(r, Line) and r.pen is Pen.THIN]
    foot = min(thin, key=lambda r: math.dist(r.b, name.at)).a
    scattered = exploded._scattered(of)
    which = next(found for told, found in exploded._marks(of) if told == letter)
    others = [n for n in range(len(of.piece.parts), len(scattered.items)) if n not in which]
    drawn = draw(scattered.items, VIEW, merge=scattered.extent * exploded.FINE, hidden=False)
    ends = [exploded.views.bounds(drawn), *(exploded.point_bounds((w.a, w.b)) for w in exploded._ways(scattered))]
    extent = exploded.around(ends)
    layout = exploded._better(of, extent)
    tall = exploded._list(of, layout.area)[1]
    scale, at = exploded._placed(extent, exploded._room(layout.area, tall))
    crowd = Crowd.of(Drawn(tuple(s for s in drawn.visible if s.owner in others), ()), scale, at)
    assert crowd.away(np.array([foot]), which)[0] == pytest.approx(ALONE)
