import pytest

from docgen.piece.records import Purpose
from docgen.reading.problems import Problems
from tests.piece.joints.making import Trial, built

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


WIDE = DRAWER.replace(", across: [22, 418], up: [102, 198], gap: 2, corners: [top right], corner radius: 9", ", %s")


def corners(way: str, front: str = "gap: 2", slides: str | None = None) -> Trial:
    body = WIDE % front
    body = body.replace("housing: {depth: 5, tongue: 6}", way)
    if slides is not None:
        body = body[: body.index("      slides:")] + slides + body[body.index("materials:") :]
    return built("docgen: 1\npiece: Trial\nunits: mm\n" + body)


@pytest.mark.parametrize(
    ("way", "word", "across"),
    [
        ("housing: {depth: 5, tongue: 6, from end: 15}", "housing", (44.5, 395.5)),
        ("rabbets: {depth: 6}", "panel in rabbet", (38.5, 401.5)),
        ("dovetails: {count: 3}", "dovetail", (32.5, 407.5)),
        ("fingers: {count: 7}", "finger", (32.5, 407.5)),
    ],
)
def test_the_box_is_joined_in_one_of_four_ways(way: str, word: str, across: tuple[float, float]):
    made = corners(way)
    assert made.part("tray.box front").box[0] == across
    assert word in {j.word for j in made.piece.joints}
    assert made.clashes() == []
    # The grooves hold the bottom with 1 mm left at their floors.
    assert made.part("tray.bottom").box[0] == (39.5, 400.5)


def test_fingers_take_a_back_as_high_as_the_sides():
    assert corners("fingers: {count: 7}").part("tray.back").box[2] == (112, 182)
    assert corners("dovetails: {count: 3}").part("tray.back").box[2] == (128, 182)


@pytest.mark.parametrize(
    ("front", "across", "up"),
    [
        ("gap: 2", (22, 418), (102, 198)),
        ("overlay: 12", (8, 432), (88, 212)),
        ("gap: 2, across: [30, 410]", (30, 410), (102, 198)),
    ],
)
def test_the_front_stands_in_its_opening_or_laps_over_it(front: str, across: tuple[int, int], up: tuple[int, int]):
    made = corners("rabbets: {depth: 6}", front)
    assert made.part("tray.front").box == (across, (0, 20), up)
    assert made.piece.drawers[0].gap == (0 if "overlay" in front else 2)
    assert made.clashes() == []


UNDER = """\
      under slides: {clearance: 5, length: 280, recess: %s, setback: 3, notch: {across: 35, up: 10},
        hooks: {across: 8, up: 26, diameter: 6, depth: 10}, least depth: %s, most side: 16}
"""


def test_slides_under_the_drawer_notch_and_bore_its_back():
    made = corners("dovetails: {count: 3}", slides=UNDER % (10, 300))
    back = made.part("tray.back")
    # 5 a side between box and case; the back reaches down to the sides' lower edges, the bottom is grooved into it.
    assert back.box == ((25, 415), (318, 330), (112, 182))
    assert made.part("tray.bottom").box[1] == (27, 323)
    # The notches begin at the sides' inner faces, 25 + 12.
    assert not made.inside("tray.back", (71.0, 324.0, 115.0)) and made.inside("tray.back", (73.0, 324.0, 115.0))
    (hooks,) = [h for h in made.holes("tray.back") if h.purpose is Purpose.BORE]
    there = sorted(round(back.frame.point(tuple(map(float, p)))[0], 6) for p in hooks.points)
    assert there == [45, 395] and (hooks.diameter, hooks.depth) == (6, 10)
    told = {n: float(v) for n, v, _ in made.piece.drawers[0].figures}
    assert (told["recess"], told["box width"], told["slide front"], told["most side"]) == (10, 390, 23, 16)
    assert [i.what for i in made.piece.items] == ["pair of drawer slides, under the drawer"]
    assert made.clashes() == []


@pytest.mark.parametrize(("recess", "least", "code"), [(12, 300, "slide-recess"), (10, 380, "slide-depth")])
def test_what_the_slides_sheet_does_not_allow_is_told(recess: int, least: int, code: str):
    with pytest.raises(Problems) as caught:
        corners("rabbets: {depth: 6}", slides=UNDER % (recess, least))
    assert [p.code for p in caught.value.items] == [code]


@pytest.mark.parametrize(
    ("way", "front", "slides", "code"),
    [
        ("dovetails: {count: 3}, fingers: {count: 7}", "gap: 2", None, "drawer-corners"),
        ("rabbets: {depth: 6}", "gap: 2, overlay: 3", None, "drawer-front"),
        ("rabbets: {depth: 6}", "gap: 2", "", "drawer-slides"),
    ],
)
def test_what_is_said_twice_or_not_at_all_is_told(way: str, front: str, slides: str | None, code: str):
    with pytest.raises(Problems) as caught:
        corners(way, front, slides)
    assert [p.code for p in caught.value.items] == [code]
