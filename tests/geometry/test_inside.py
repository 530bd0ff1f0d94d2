import math

from docgen.geometry.inside import holds
from docgen.geometry.make import along_axis, box, stadium
from docgen.geometry.shapes import HalfSpace


def test_a_box_takes_what_lies_in_it() -> None:
    shape = box((0.0, 0.0, 0.0), (10.0, 20.0, 30.0))
    assert holds(shape, (9.9, 19.9, 29.9)) and not holds(shape, (10.1, 19.9, 29.9))
    assert not holds(shape, (5.0, 5.0, 30.1)) and not holds(shape, (5.0, -0.1, 5.0))


def test_a_plane_takes_all_beyond_it() -> None:
    k = 1 / math.sqrt(2)
    shape = HalfSpace((10.0, 0.0, 0.0), (k, k, 0.0))
    assert holds(shape, (10.0, 0.2, 0.0)) and not holds(shape, (10.0, -0.2, 0.0))


def test_arcs_count_as_their_chords() -> None:
    # A slot 40 × 10 with round ends: between its corners, 5 from either end.
    shape = along_axis(stadium((5.0, 0.0), (35.0, 0.0), 5.0), 2, 0.0, 8.0)
    assert holds(shape, (6.0, 4.9, 4.0)) and not holds(shape, (6.0, 5.1, 4.0))
    assert not holds(shape, (20.0, 0.0, 8.1))
