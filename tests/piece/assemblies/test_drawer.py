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
        (
            "rabbets: {depth: 6}",
            "gap: 2",
            "      on: {part: left}\n      slides: {clearance: 9, length: 9, height: 9, up: 9, setback: 9}\n",
            "drawer-slides",
        ),
    ],
)
def test_what_is_said_twice_or_not_at_all_is_told(way: str, front: str, slides: str | None, code: str):
    with pytest.raises(Problems) as caught:
        corners(way, front, slides)
    assert [p.code for p in caught.value.items] == [code]


RUNNERS = "      runners: {material: strip, height: 16, depth: 6, setback: 30, screws: {length: 16}%s}\n"


def hung(more: str = "", front: str = "gap: 2", **changes: str) -> Trial:
    body = (WIDE % front).replace("housing: {depth: 5, tongue: 6}", "rabbets: {depth: 3}")
    body = body[: body.index("      slides:")] + RUNNERS % more + body[body.index("materials:") :]
    body += "  strip: {species: sugar maple, thickness: 16}\n"
    for old, new in changes.items():
        assert old in body
        body = body.replace(old, new)
    return built("docgen: 1\npiece: Trial\nunits: mm\n" + body)


def test_runners_are_strips_on_the_case_in_the_middle_of_the_sides():
    made = hung()
    # 1 of room a side; sides 112 to 182 up: the strips' middle is 147. They stand 1 + 6 − 0.5 out, and end 3 before the back.
    assert made.part("tray.left").box[0] == (21, 33)
    assert made.part("tray.left runner").box == ((20, 26.5), (50, 387), (139, 155))
    assert made.part("tray.right runner").box == ((413.5, 420), (50, 387), (139, 155))
    assert made.part("tray.left runner").grain_word == "deep"
    (groove,) = [f for f in made.features("tray.left", "dado") if "runner" in f.title]
    numbers = dict(groove.parameters)
    assert (numbers["high"] - numbers["low"], numbers["depth"], numbers["start"]) == (16.5, 6, 30)
    (drawer,) = made.piece.drawers
    assert drawer.runners == ("tray.left runner", "tray.right runner") and "tray.left runner" not in drawer.parts
    assert made.clashes() == []


def test_runners_as_the_file_says_them():
    made = hung(", up: 120, length: 250, clearance: 2, play: 1, stop: front")
    assert made.part("tray.left runner").box == ((20, 27), (50, 300), (120, 136))
    (groove,) = [f for f in made.features("tray.left", "dado") if "runner" in f.title]
    numbers = dict(groove.parameters)
    assert (numbers["high"] - numbers["low"], numbers["depth"], numbers["start"]) == (17, 6, 27)
    assert made.clashes() == []


def test_the_front_stops_a_drawer_that_laps_over_the_case():
    (groove,) = [f for f in hung(front="overlay: 12").features("tray.left", "dado") if "runner" in f.title]
    # The rim of a cutter 16.5 wide at 18.5, as a rule shows it.
    assert dict(groove.parameters)["start"] == 26.75


def test_drawers_on_runners_may_be_made_several_times():
    source = {
        "  tray:\n    drawer:": "  tray:\n    repeat: 2\n    drawer:",
        "up: [100, 200]": "up: [copy * 100, copy * 100 + 100]",
    }
    made = hung(**source)
    assert [d.runners for d in made.piece.drawers] == [
        (f"tray.{n}.left runner", f"tray.{n}.right runner") for n in (1, 2)
    ]
    assert [made.part(f"tray.{n}.left runner").box[2] for n in (1, 2)] == [(139, 155), (239, 255)]
    assert [d.called for d in made.piece.drawers] == ["tray 1", "tray 2"]
    assert made.clashes() == []


def test_a_mirrored_drawer_hangs_on_runners_of_its_own():
    made = hung(**{"materials:": "mirrors:\n  other: {of: tray, about: {across: 500}, pairs: [[left, far], [right, near]]}\nmaterials:",
        "assemblies:": """  near: {of: board, grain: up, box: {across: [560, 580], deep: [20, 400], up: [0, 300]}}
  far: {of: board, grain: up, box: {across: [980, 1000], deep: [20, 400], up: [0, 300]}}
assemblies:"""})  # fmt: skip
    one, two = made.piece.drawers
    assert len({*one.runners, *two.runners}) == 4 and all(r.startswith("other.") for r in two.runners)
    assert [f.parts[1] for f in made.piece.fasteners if f.parts[0].startswith("other.")].count("near") == 2
    for path in ("left", "right"):
        assert made.volume(f"other.{path}") == pytest.approx(made.volume("tray.left"), abs=0.01)
        assert made.volume(f"other.{path} runner") == pytest.approx(made.volume("tray.left runner"), rel=1e-6)
    assert made.clashes() == []


def test_a_drawer_may_slide_on_the_case_itself():
    body = (
        (WIDE % "gap: 2")
        .replace("housing: {depth: 5, tongue: 6}", "rabbets: {depth: 6}")
        .replace("below: 12", "below: 0")
    )
    body = body[: body.index("      slides:")] + "      on: {part: floor}\n" + body[body.index("materials:") :]
    floor = "  floor: {of: board, grain: across, box: {across: [20, 420], deep: [20, 400], up: [80, 100]}}\nassemblies:"
    made = built("docgen: 1\npiece: Trial\nunits: mm\n" + body.replace("assemblies:", floor))
    assert made.part("tray.left").box == ((21, 33), (20, 330), (100, 170))
    assert made.piece.drawers[0].bed == "floor" and made.clashes() == []
