"""A round-over that stops has a mark where its figure ends; what shows its end by a line of its own has none."""

import pytest

from docgen.drawing.dimensions.wanted import Linear
from docgen.drawing.records import Pen
from docgen.piece.records import Face, Stage
from docgen.sheets.part_stops import LEAST, LONG, hooks
from docgen.sheets.part_view import wanted_in
from tests.sheets.test_part_blank import principal
from tests.sheets.test_part_shoulders import subject


@pytest.mark.parametrize(("scale", "within"), [(0.5, 25.4 / 8 * 0.5), (0.1, LEAST)])
def test_a_hook_stands_where_the_figure_of_a_stopped_round_over_ends(scale: float, within: float) -> None:
    leg = subject("sketching-desk", "stand.left front")
    station = principal(leg)
    drawn, wanted = leg.drawn(station, False, Stage.PART), wanted_in(leg, station)
    (hook,) = hooks(leg.part, station, drawn, wanted, scale)
    (figure,) = [w for w in wanted if isinstance(w, Linear) and w.sizes[0].label == "round-over stops"]
    assert hook.pen is Pen.THIN and len(hook.points) == 3
    back, inner, arris = hook.points
    assert arris == pytest.approx((figure.b[0] * scale, figure.b[1] * scale))
    assert abs(inner[1] - arris[1]) == pytest.approx(within) and inner[0] == pytest.approx(arris[0])
    assert back == pytest.approx((inner[0] - LONG, inner[1]))  # the cut runs from the foot up to there
    assert hooks(leg.part, station, drawn, (), scale) == []  # no figure ends there


def test_the_edge_on_which_the_end_is_seen_needs_no_hook() -> None:
    leg = subject("sketching-desk", "stand.left front")
    station = next(s for s in leg.stations(False) if s.face == Face(1, 1))
    wanted = wanted_in(leg, principal(leg))
    assert hooks(leg.part, station, leg.drawn(station, False, Stage.PART), wanted, 0.5) == []


@pytest.mark.parametrize(("name", "path"), [("wall-shelf", "left side"), ("door-cabinet", "left door.left stile")])
def test_a_rabbet_that_stops_at_a_wall_has_none(name: str, path: str) -> None:
    part = subject(name, path)
    for s in part.stations(False):
        assert hooks(part.part, s, part.drawn(s, False, Stage.PART), wanted_in(part, s), 0.5) == []
