from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.drawing.behind import Behind
from docgen.geometry.lines import VIEWS
from tests.drawing.test_exploding import box

AXONOMETRIC, FRONT = VIEWS["axonometric"], VIEWS["front"]


def test_of_a_board_behind_another_so_much_is_hidden_as_is_covered() -> None:
    """Seen from the front (y runs to the back): a board half in front, one wholly, one behind, one beside."""
    far = box((0, 100, 0), (400, 120, 200))
    for near, share in (
        (box((0, 0, 0), (200, 20, 200)), 0.5),
        (box((-10, 0, -10), (410, 20, 210)), 1.0),
        (box((0, 200, 0), (400, 220, 200)), 0.0),
        (box((500, 0, 0), (900, 20, 200)), 0.0),
    ):
        hidden = Behind(np.array([far, near]), FRONT).shares(np.zeros((2, 3)))
        assert hidden[0] == pytest.approx(share) and (share == 0 or hidden[1] == 0)


def test_moves_are_followed() -> None:
    both = Behind(np.array([box((0, 100, 0), (400, 120, 200)), box((0, 0, 0), (400, 20, 200))]), FRONT)
    assert both.shares(np.zeros((2, 3))).tolist() == [1.0, 0.0]
    assert both.shares(np.array([[0, 0, 0], [200.0, 0, 0]])).tolist() == [0.5, 0.0]
    assert both.shares(np.array([[0, 0, 0], [0, 300.0, 0]])).tolist() == [0.0, 1.0]  # now it stands behind


def test_what_only_touches_hides_nothing_of_the_faces_between() -> None:
    """Two boards in one plane, edge to edge."""
    side = Behind(np.array([box((0, 0, 0), (200, 20, 200)), box((200, 0, 0), (400, 20, 200))]), FRONT)
    assert side.shares(np.zeros((2, 3))).tolist() == [0.0, 0.0]


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 10_000))
def test_it_is_about_what_rays_on_a_fine_grid_meet(seed: int) -> None:
    """Boxes that lean any way, against rays from many places on the first, each asked by stepping along it."""
    rng = np.random.default_rng(seed)
    corners = []
    for _ in range(4):
        turn, _ = np.linalg.qr(rng.normal(size=(3, 3)))
        size = rng.uniform(40, 300, size=3)
        unit = np.array(list(product((0.0, 1.0), repeat=3)))
        corners.append((unit - 0.5) * size @ turn + rng.uniform(-200, 200, size=3))
    every = np.array(corners)
    found = float(Behind(every, AXONOMETRIC).shares(np.zeros((4, 3)))[0])
    assert found == pytest.approx(stepped(every, np.array(AXONOMETRIC.toward)), abs=0.35)


def stepped(corners: np.ndarray, toward: np.ndarray) -> float:
    edges = [np.array([c[k] - c[0] for k in (4, 2, 1)]) for c in corners]
    hits, count = 0.0, 0.0
    for k in range(3):
        a, b = edges[0][(k + 1) % 3], edges[0][(k + 2) % 3]
        out = edges[0][k]
        facing = float(out @ toward)
        start = corners[0][0] + (out if facing > 0 else 0.0)
        area = abs(float(np.cross(a, b) @ toward))
        grid = [start + a * (i + 0.5) / 8 + b * (j + 0.5) / 8 for i in range(8) for j in range(8)]
        for p in grid:
            line = p[None, :] + np.arange(2.0, 1500.0, 4.0)[:, None] * toward
            local = [(line - c[0]) @ np.linalg.inv(e) for c, e in zip(corners[1:], edges[1:], strict=True)]
            inside = any(bool(((own >= 0) & (own <= 1)).all(axis=1).any()) for own in local)
            hits += area * inside
            count += area
    return hits / count
