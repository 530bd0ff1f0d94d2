from math import cos, radians, sin, tan

import pytest

from tests.piece.joints.making import trial

STAND = """
sizes:
  front_lean: 12 deg
  rear_lean: 18 deg
  apex: 600
parts:
  left side: {of: thin, grain: up, box: {across: [0, 6], deep: [0, 400], up: [500, 700]}}
  right side: {of: thin, grain: up, box: {across: [594, 600], deep: [0, 400], up: [500, 700]}}
assemblies:
  stand:
    raking stand:
      left: left side
      right: right side
      material: board
      thickness: 30
      width: 60
      top: 650
      front: {lean: front_lean, through: {deep: 200, up: 600}}
      rear: {lean: rear_lean, apex: apex}
      tenons: {thickness: 8, width: 25, depth: 15}
      %s
"""


def test_legs_lie_on_the_outside_of_the_sides():
    stand = trial(STAND % "", thick="30")
    for leg in ("front", "rear"):
        assert stand.part(f"stand.left {leg}").box[0] == (-30, 0)
        assert stand.part(f"stand.right {leg}").box[0] == (600, 630)
    assert stand.clashes() == []


@pytest.mark.parametrize(("front", "rear", "apex"), [(12, 18, 600), (5, 25, 590), (20, 8, 610)])
def test_legs_lean_and_meet_as_said(front, rear, apex):
    body = (
        STAND.replace("12 deg", f"{front} deg").replace("18 deg", f"{rear} deg").replace("apex: 600", f"apex: {apex}")
    )
    stand = trial(body % "", thick="30")
    a, b = radians(front), radians(rear)
    # Middle lines: the front one through (200, 600), the rear one through its meeting with the front leg's rear face.
    meet = 200 + (apex - 600) * tan(a) + 30 / cos(a)
    # The rear leg ends level, or in the tip of its own slant where that lies lower.
    tip = min(650, apex + 30 / sin(a + b) * cos(a))
    for path, p, lean, top in (("stand.left front", (200, 600), -a, 650), ("stand.left rear", (meet, apex), b, tip)):
        part = stand.part(path)
        up = part.frame.direction((1.0, 0.0, 0.0))
        assert up == pytest.approx((0, -sin(lean), cos(lean)))
        middle = part.frame.inverse().point((-15.0, *p))
        assert middle[1] == pytest.approx(30) and middle[2] == pytest.approx(15)
        low, high = stand.solids.solid(path).moved(part.frame).bounds
        assert low[2] == pytest.approx(0, abs=1e-6) and high[2] == pytest.approx(top, abs=1e-6)
    angle = stand.figure("loose tenon", "angle between length and face")
    assert angle == pytest.approx(front + rear)
    assert stand.clashes() == []


def test_left_and_right_are_mirror_images():
    stand = trial(STAND % "foot radius: 8\n      outside arrises: 3", thick="30")
    for leg in ("front", "rear"):
        left, right = (
            stand.solids.solid(f"stand.{h} {leg}").moved(stand.part(f"stand.{h} {leg}").frame)
            for h in ("left", "right")
        )
        assert left.volume == pytest.approx(right.volume)
        # Mirrored in the middle plane across = 300.
        assert left.centroid == pytest.approx((600 - right.centroid[0], right.centroid[1], right.centroid[2]))
        # The round-over is on the outside: more wood toward the case.
        assert left.centroid[0] > -15


def test_arris_stays_sharp_where_the_legs_join():
    stand = trial(STAND % "outside arrises: 3", thick="30")
    (front, back) = stand.features("stand.left front", "round over")
    a, b = radians(12), radians(18)
    told = dict(back.parameters)
    assert dict(front.parameters)["radius"] == told["radius"] == 3
    # The stop, from the leg's top: from the joint's foot to the leg's upper long point.
    stop = float(stand.part("stand.left front").size[0]) - float(told["stop"])
    assert stop == pytest.approx(50 / cos(a) + 30 / sin(a + b))


def test_stretcher_lies_square_between_the_rear_legs():
    body = (
        STAND
        % "stretcher: {material: board, up: 200, thickness: 30, height: 50, tenons: {thickness: 8, width: 30, depth: 15}}"
    )
    stand = trial(body, thick="30")
    stretcher, leg = stand.part("stand.stretcher"), stand.part("stand.left rear")
    assert stretcher.size[0] == 600
    # Its height lies along the leg.
    ways = [stretcher.frame.direction((0.0, float(i == 1), float(i == 2))) for i in (1, 2)]
    assert any(w == pytest.approx(leg.frame.direction((1.0, 0.0, 0.0))) for w in ways)
    assert len(stand.features("stand.stretcher", "mortise")) == 2
    assert stand.clashes() == []


def test_bolts_stand_on_the_middle_lines():
    body = STAND % "bolts: {front: [640, 560], rear: 520, thread: M6, washer: 0, engagement: 10}"
    stand = trial(body, thick="30")
    front, rear = (stand.holes(f"stand.left {leg}")[0] for leg in ("front", "rear"))
    assert [float(p[1]) for p in (*front.points, *rear.points)] == pytest.approx([30, 30, 30])
    # In the side they stand at their heights above its lower end at 500.
    heights = [float(p[0]) for h in stand.holes("left side") for p in h.points]
    assert heights == pytest.approx([140, 60, 20])
