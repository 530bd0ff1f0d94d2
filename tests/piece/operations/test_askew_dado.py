import math

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.askew_dado import AskewDado
from docgen.piece.records import Face, SizeKind
from tests.piece.operations.trial import board, made, proven, taken

TOP, BOTTOM, FRONT = Face(2, 1), Face(2, 0), Face(1, 0)


@pytest.mark.parametrize("face", [TOP, BOTTOM])
@pytest.mark.parametrize("angle", [15, -12.5])
def test_every_number_of_an_askew_dado_counts_and_is_told_once(face: Face, angle: float) -> None:
    across = AskewDado(face, 1, 200, 18, 6, angle, start=30, long=60)
    assert taken(across, board()) == pytest.approx(18 * 60 * 6)
    proven(across, board())
    along = AskewDado(face, 0, 55, 18, 6, angle, start=60, long=100)
    assert taken(along, board()) == pytest.approx(18 * 100 * 6)
    proven(along, board())


def test_without_stops_it_runs_out_at_both_sides() -> None:
    """A strip `wide` from wall to wall, at an angle a across a board of width w, takes wide · w / cos a of its face."""
    through = AskewDado(TOP, 1, 200, 18, 6, 20)
    assert taken(through, board()) == pytest.approx(18 * 120 / math.cos(math.radians(20)) * 6)
    proven(through, board())


def test_one_stop() -> None:
    stopped = AskewDado(TOP, 1, 200, 18, 6, 20, long=70)
    assert taken(stopped, board()) == pytest.approx((18 * 70 - 18**2 * math.tan(math.radians(20)) / 2) * 6)
    proven(stopped, board())
    proven(AskewDado(TOP, 1, 200, 18, 6, 20, start=40), board())


def test_it_runs_from_its_corner_toward_the_high_side() -> None:
    """Corners by hand: from (30, 200), 60 along a line 15° off the width, 18 to its left; 18 · sin 15° further back."""
    (cut,) = made(AskewDado(TOP, 1, 200, 18, 6, 15, start=30, long=60), board()).cuts
    corners = {tuple(round(v, 3) for v in cut.shape.frame.point((*e.end, 0.0))[:2]) for e in cut.shape.outline.edges}
    c, s = math.cos(math.radians(15)), math.sin(math.radians(15))
    expected = [
        (200, 30),
        (200 + 60 * s, 30 + 60 * c),
        (200 + 18 * c, 30 - 18 * s),
        (200 + 60 * s + 18 * c, 30 + 60 * c - 18 * s),
    ]
    assert corners == {(round(x, 3), round(y, 3)) for x, y in expected}


def test_the_figures_of_its_set_up() -> None:
    found = made(AskewDado(TOP, 1, 200, 18, 6, 15, start=30, long=60, mate="shelf"), board())
    (routed,) = found.settings
    told = {name: value for name, value, _ in (*routed.values, *routed.places)}
    assert told["straight bit"] == 18 and told["depth"] == 6 and told["straightedge, from square"] == 15
    assert told["near wall, long"] == 60
    assert routed.mate == "shelf"
    (angle,) = [s for s in found.sizes if s.kind is SizeKind.ANGLE]
    assert angle.value == 15


@pytest.mark.parametrize(
    ("dado", "code", "field"),
    [
        (AskewDado(TOP, 1, 200, 18, 20, 15), "depth-range", "depth"),
        (AskewDado(TOP, 1, 200, 18, 6, 0), "angle-range", "angle"),
        (AskewDado(TOP, 1, 200, 18, 6, 46), "angle-range", "angle"),
        (AskewDado(TOP, 1, 200, 0, 6, 15), "width-range", "wide"),
        (AskewDado(TOP, 1, 200, 18, 6, 15, start=30, long=0), "run-range", "long"),
        (AskewDado(TOP, 1, 200, 18, 6, 15, start=30, long=130), "outside-part", "near"),
        (AskewDado(TOP, 1, 200, 18, 6, 15, start=2, long=60), "outside-part", "near"),
    ],
)
def test_impossible_ones(dado: AskewDado, code: str, field: str) -> None:
    with pytest.raises(Fault) as fault:
        dado.made(board())
    assert (fault.value.code, fault.value.field) == (code, field)
