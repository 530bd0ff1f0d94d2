import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from docgen.drawing.ground import CELL, Ground

LINES = np.array([[(0.0, 0.0), (40.0, 0.0)], [(40.0, 0.0), (10.0, 30.0)], [(5.0, 5.0), (5.0, 5.0)]])


@given(st.floats(-10, 60), st.floats(-10, 40), st.floats(0.5, 8.0))
def test_white_squares_hold_no_line(x: float, y: float, half: float) -> None:
    ground = Ground(LINES)
    (free,) = ground.free(np.array([[x, y]]), half)
    share = np.linspace(0, 1, 400)[:, None]
    passed = any((np.abs(a + share * (b - a) - [x, y]).max(axis=1) < half - CELL).any() for a, b in LINES)
    near = any((np.abs(a + share * (b - a) - [x, y]).max(axis=1) < half + 2 * CELL).any() for a, b in LINES)
    assert not (free and passed)
    assert free or near


def test_nothing_drawn_leaves_all_white() -> None:
    assert Ground(np.zeros((0, 2, 2))).free(np.array([[3.0, 4.0]]), 2.0).all()
