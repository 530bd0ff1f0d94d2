import math

import pytest

from docgen.checks.rim_speed import cutter
from docgen.geometry.outlines import area
from docgen.piece.faults import Fault
from docgen.piece.operations.cut_out import HandHole, OvalOut, RoundOut, Window
from docgen.piece.records import Face
from tests.piece.operations.trial import board, made, proven, taken

TOP = Face(2, 1)
FACES = [Face(2, 0), TOP]


@pytest.mark.parametrize("face", FACES)
def test_window_with_rounded_corners(face: Face) -> None:
    window = Window(face, (150, 60), (100, 60), 10)
    assert taken(window, board()) == pytest.approx((100 * 60 - (4 - math.pi) * 100) * 20, rel=1e-3)
    proven(window, board())


def test_window_with_square_corners() -> None:
    window = Window(TOP, (150, 60), (100, 60))
    assert taken(window, board()) == pytest.approx(100 * 60 * 20)
    answer = made(window, board())
    assert answer.settings[2].values == (("corners", "squared with a chisel", "text"),)
    assert [c.key for c in answer.cautions][-1] == "chisel"
    assert [s.parameters for s in answer.sizes] == [("at.0",), ("at.1",), ("sizes.0",), ("sizes.1",)]


@pytest.mark.parametrize("sizes", [(100, 30), (30, 100)])
def test_hand_hole(sizes: tuple[int, int]) -> None:
    hole = HandHole(TOP, (200, 60), sizes)
    assert taken(hole, board()) == pytest.approx((70 * 30 + math.pi * 225) * 20, rel=1e-3)
    proven(hole, board())
    answer = made(hole, board())
    bored, sawn, trimmed = answer.settings
    assert [s.machine for s in answer.settings] == ["drill press", "jigsaw", "router"]
    assert bored.values == (("drill", 30, "length"), ("holes", 2, "count"), ("depth", "through", "text"))
    bit = ("flush cutter with a bearing, diameter at most", 30, "length")
    assert trimmed.values == (bit, ("cutting edge, more than", 20, "length"))
    assert sawn.values == (("wood", 20, "length"),)
    (template,) = answer.templates
    assert area(template.openings[0]) == pytest.approx(70 * 30 + math.pi * 225)
    ends = {(165.0, 60.0, 30.0), (235.0, 60.0, 30.0)} if sizes[0] > 50 else {(200.0, 25.0, 30.0), (200.0, 95.0, 30.0)}
    assert set(template.holes) == ends


def test_ellipse() -> None:
    oval = OvalOut(TOP, (200, 60), (120, 60))
    assert taken(oval, board()) == pytest.approx(math.pi * 60 * 30 * 20, rel=1e-3)
    proven(oval, board())
    assert made(oval, board()).settings[2].values[0][1] == 30  # across the tightest turn: 2 · 30² / 60


def test_circle() -> None:
    ring = RoundOut(TOP, (200, 60), 80)
    assert taken(ring, board()) == pytest.approx(math.pi * 1600 * 20, rel=1e-3)
    proven(ring, board())


def test_a_cut_out_of_an_edge_on_part() -> None:
    hole = HandHole(Face(1, 0), (200, 10), (100, 10))
    assert taken(hole, board()) == pytest.approx((90 * 10 + math.pi * 25) * 120, rel=5e-3)


def test_marks_stand_at_the_middle() -> None:
    assert [(m.position, m.wood) for m in made(RoundOut(TOP, (200, 60), 80), board()).marks] == [(200, 0)]


@pytest.mark.parametrize(
    ("operation", "code"),
    [
        (Window(TOP, (40, 60), (100, 60), 10), "outside-part"),
        (Window(TOP, (200, 60), (100, 116), 10), "outside-part"),
        (Window(TOP, (200, 60), (100, 60), 30), "radius-range"),
        (HandHole(TOP, (200, 110), (100, 30)), "outside-part"),
        (RoundOut(TOP, (200, 60), 115), "outside-part"),
        (RoundOut(TOP, (200, 60), 0), "diameter-range"),
    ],
)
def test_impossible_cut_outs(operation: Window | HandHole | RoundOut, code: str) -> None:
    with pytest.raises(Fault) as fault:
        operation.made(board())
    assert fault.value.code == code


def test_a_limit_is_no_cutter_of_that_size() -> None:
    """The widest cutter that still fits a turn is not the one that is asked for: no rim speed is judged by it."""
    assert cutter(made(HandHole(TOP, (200, 60), (100, 30)), board()).settings[2]) is None
