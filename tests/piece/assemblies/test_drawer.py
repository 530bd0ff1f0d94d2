import pytest

DRAWER = """
sizes:
  slide: 12.5
parts:
  left: {of: board, grain: up, box: {across: [0, 20], deep: [20, 400], up: [0, 300]}}
  right: {of: board, grain: up, box: {across: [420, 440], deep: [20, 400], up: [0, 300]}}
assemblies:
  tray:
    drawer:
      opening: {across: [left.right, right.left], deep: [20, 390], up: [100, 200]}
      cases: [left, right]
      front: {material: board, thickness: 20, across: [22, 418], up: [102, 198], gap: 2, corners: [top right], corner radius: 9}
      box: {material: box board, thickness: 12, length: 310, height: 70, below: 12, housing: {depth: 5, tongue: 6},
        bottom: {material: thin, thickness: 6, up: 10, groove: 6, clearance: 1}}
      slides: {clearance: slide, length: 300, height: 45, up: 147, setback: 3, screws: [35, 163]}
materials:
  board: {species: sugar maple, thickness: 20}
  thin: {sheet: "plywood, birch", thickness: 6}
  box board: {sheet: "plywood, birch", thickness: 12}
"""


def tray(**changes: str):
    from tests.piece.joints.making import built

    body = DRAWER
    for old, new in changes.items():
        body = body.replace(old.replace("_", " "), new)
    return built("docgen: 1\npiece: Trial\nunits: mm\n" + body)


def test_box_stands_a_slide_away_from_both_sides():
    made = tray()
    # Opening 20 to 420; 12.5 a side; sides 12 thick; front and back between them.
    assert made.part("tray.left").box == ((32.5, 44.5), (20, 330), (112, 182))
    assert made.part("tray.right").box[0] == (395.5, 407.5)
    assert made.part("tray.box front").box == ((44.5, 395.5), (20, 32), (112, 182))
    # The back stands on the bottom: 112 + 10 + 6.
    assert made.part("tray.back").box == ((44.5, 395.5), (318, 330), (128, 182))
    # The bottom enters its grooves by 6 − 1 and passes under the back.
    assert made.part("tray.bottom").box == ((39.5, 400.5), (27, 330), (122, 128))
    assert made.clashes() == []


def test_front_and_back_are_housed_in_the_sides():
    made = tray()
    # Tongues of 6 × 5 over 70 and 54; the front's are cut through by its groove of 6 × 6.
    assert made.volume("tray.back") == pytest.approx((351 * 12 + 2 * 5 * 6) * 54, abs=0.1)
    assert made.volume("tray.box front") == pytest.approx((351 * 12 + 60) * 70 - 361 * 6 * 6, abs=0.1)


def test_front_is_measured_first_and_its_corner_nests():
    made = tray()
    front = made.part("tray.front")
    assert front.authority == "measure" and front.box == ((22, 418), (0, 20), (102, 198))
    (corner,) = made.features("tray.front", "corner radius")
    assert dict(corner.parameters)["radius"] == 9
    assert not made.inside("tray.front", (417.0, 10.0, 197.0)) and made.inside("tray.front", (23.0, 10.0, 197.0))


def test_drawer_is_noted():
    (drawer,) = tray().piece.drawers
    assert drawer.parts == tuple(f"tray.{p}" for p in ("front", "left", "right", "box front", "back", "bottom"))
    assert drawer.name == "tray" and [tuple(map(float, s)) for s in drawer.opening] == [
        (20, 420),
        (20, 390),
        (100, 200),
    ]


@pytest.mark.parametrize("slide", ["10", "13"])
def test_slide_moves_the_box(slide):
    made = tray(**{"slide:_12.5": f"slide: {slide}"})
    assert made.part("tray.left").box[0][0] == 20 + int(slide)
    assert made.clashes() == []
