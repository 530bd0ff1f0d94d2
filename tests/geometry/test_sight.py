import pytest

from docgen.geometry.hidden import VIEWS
from docgen.geometry.shapes import Frame
from docgen.geometry.sight import in_sight, places
from docgen.geometry.solids import blank
from docgen.geometry.topology import topology

NEAR = (topology(blank((0, 0, 0), (100, 10, 100))), Frame())
FAR = (topology(blank((0, 0, 0), (100, 10, 100))), Frame(origin=(60.0, 50.0, 0.0)))
BEHIND = (topology(blank((20, 0, 20), (80, 5, 80))), Frame(origin=(0.0, 20.0, 0.0)))


def test_places_lie_on_what_is_seen() -> None:
    near, far, behind = places([NEAR, FAR, BEHIND], VIEWS["front"])
    assert near and all(0 < x < 100 and 0 < y < 100 for x, y in near)
    assert far and all(100 < x < 160 for x, _ in far)  # the rest stands behind
    assert behind == []


def test_a_line_is_seen_beside_and_before_things() -> None:
    view = VIEWS["front"]
    ((a, b), _) = in_sight([NEAR], view, [((-50.0, 40.0, 50.0), (150.0, 40.0, 50.0))])[0]
    assert a == pytest.approx((-50, 50)) and b[0] == pytest.approx(0.0, abs=5.1)
    (before,) = in_sight([NEAR], view, [((-50.0, -5.0, 50.0), (150.0, -5.0, 50.0))])
    assert len(before) == 1 and before[0][1][0] == pytest.approx(150)


def test_a_line_toward_the_viewer_is_a_point_and_not_drawn() -> None:
    assert in_sight([NEAR], VIEWS["front"], [((10.0, -90.0, 10.0), (10.0, -20.0, 10.0))]) == [[]]
    assert in_sight([NEAR], VIEWS["front"], []) == []
