import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.dimensions.shade import Shade
from docgen.drawing.dimensions.wanted import Linear, Rules
from docgen.drawing.records import Line
from docgen.packet.fonts import PacketMetrics

SQUARE = [(0.0, 0.0), (60.0, 0.0), (60.0, 40.0), (0.0, 40.0)]
HOLE = [(20.0, 10.0), (20.0, 30.0), (40.0, 30.0), (40.0, 10.0)]


@pytest.mark.parametrize(
    ("a", "b", "long"),
    [
        ((-10.0, 5.0), (70.0, 5.0), 60.0),
        ((-10.0, 20.0), (70.0, 20.0), 40.0),  # through the hole
        ((5.0, 5.0), (15.0, 5.0), 10.0),
        ((10.0, 50.0), (50.0, 50.0), 0.0),
        ((30.0, 15.0), (30.0, 25.0), 0.0),
        ((30.0, -5.0), (30.0, 5.0), 5.0),
        ((7.0, 7.0), (7.0, 7.0), 0.0),
    ],
)
def test_what_of_a_line_lies_on_hatching(a: tuple[float, float], b: tuple[float, float], long: float) -> None:
    assert Shade([[SQUARE, HOLE]]).length(a, b) == pytest.approx(long)
    assert Shade([[SQUARE, HOLE]]).length(b, a) == pytest.approx(long)
    assert Shade().length(a, b) == 0.0


@given(st.floats(0.0, 180.0), st.floats(-30.0, 30.0))
def test_it_is_the_chord_of_a_disc(degrees: float, off: float) -> None:
    ring = [(20 * math.cos(math.radians(t)), 20 * math.sin(math.radians(t))) for t in range(0, 360, 2)]
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    a, b = ((t * c - off * s, t * s + off * c) for t in (-50.0, 50.0))
    chord = 2 * math.sqrt(max(400 - off * off, 0.0))
    assert Shade([[ring]]).length(a, b) == pytest.approx(chord, abs=0.8)


def set_on(shade: Shade | None) -> list[Line]:
    """Return the lines of a slanted dimension between two points within a square."""
    sides = [(SQUARE[k], SQUARE[(k + 1) % 4]) for k in range(4)]
    engine = Engine(
        sides,
        outline=(0.0, 0.0, 60.0, 40.0),
        scale=1.0,
        at=(0.0, 0.0),
        rules=Rules(),
        metrics=PacketMetrics(),
        shade=shade,
    )
    wish = Linear("a", (0.0, 40.0), (20.0, 20.0), (math.sqrt(0.5), -math.sqrt(0.5)), "28 deep")
    (placed,) = engine.arrange([wish]).placed
    return [r for r in placed.records if isinstance(r, Line)]


def test_a_slanted_dimension_line_stands_off_hatching_where_it_can() -> None:
    """The depth of a key was told on a line through the hatching of both parts."""
    ground = Shade([[SQUARE]])
    over, beside = (sum(ground.length(h.a, h.b) for h in set_on(s)[:1]) for s in (None, ground))
    assert over > 20 and beside < over / 4
