from math import cos, pi, radians, tan

import pytest

from tests.piece.joints.making import trial

# A leg 60 wide and 30 thick that leans back by 15 degrees about (100, 300); floor and top level.
LEG = """
parts:
  leg: {of: board, grain: up, box: {across: [0, 30], deep: [70, 130], up: [-50, 650]},
    turn: {about: across, at: {deep: 100, up: 300}, by: -15 deg}}
joints:
  - level ends: {part: leg%s}
"""


def test_level_ends_are_cut_at_their_heights():
    leg = trial(LEG % ", top: 500, bottom: 0", thick="30")
    # Between two level planes 500 apart a leaning leg is 500 / cos 15° long on its middle line.
    assert leg.volume("leg") == pytest.approx(500 / cos(radians(15)) * 60 * 30, rel=1e-9)
    slopes = [abs(float(v)) for f in leg.features("leg", "end cut") for n, v in f.parameters if n == "slopes.0"]
    assert slopes == [15, 15]
    placed = leg.solids.solid("leg").moved(leg.part("leg").frame)
    low, high = placed.bounds
    assert (low[2], high[2]) == (pytest.approx(0, abs=1e-6), pytest.approx(500, abs=1e-6))


def test_foot_corners_are_rounded():
    sharp = trial(LEG % ", bottom: 0", thick="30")
    leg = trial(LEG % ", bottom: 0, foot radius: 8", thick="30")
    # Waste of a corner of φ: r²·(1 / tan(φ/2) − (π − φ) / 2); the foot's corners are 75° and 105°.
    waste = sum(64 * (1 / tan(p / 2) - (pi - p) / 2) for p in (radians(75), radians(105)))
    assert sharp.volume("leg") - leg.volume("leg") == pytest.approx(
        waste * 30, abs=6
    )  # chords lie up to 0.01 mm inside the arc
    assert [f.word for f in leg.features("leg")].count("corner radius") == 2


def test_level_that_takes_nothing_is_left_out():
    leg = trial(LEG % ", top: 900, bottom: 0", thick="30")
    assert len(leg.features("leg", "end cut")) == 1
