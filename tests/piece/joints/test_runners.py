"""Wooden runners: grooves, strips and screws against figures worked by hand."""

from math import pi

import pytest

from docgen.piece.records import Authority, Purpose, Stage
from tests.piece.joints.making import OPENING, Trial, one_problem, problems, trial

# An opening 400 wide between two uprights; a drawer 1 away from both, sides 15 thick; strips 7.5 thick and 16 high.
WOODS = """\
  ply: {sheet: "plywood, birch", thickness: 20}
  box: {species: sugar maple, thickness: 15}
  strip: {species: sugar maple, thickness: 16}
"""
DRAWER = (
    OPENING
    + """\
  drawer left: {of: box, grain: deep, box: {across: [21, 36], deep: [20, 330], up: [110, 190]}}
  drawer right: {of: box, grain: deep, box: {across: [404, 419], deep: [20, 330], up: [110, 190]}}
  left strip: {of: strip, grain: deep, box: {across: [20, 27.5], deep: [50, 387], up: [140, 156]}}
  right strip: {of: strip, grain: deep, box: {across: [412.5, 420], deep: [50, 387], up: [140, 156]}}
joints:
  - runners: {drawer: paper, parts: [front, drawer left, drawer right], front: front, sides: [drawer left, drawer right],
      cases: [left, right], strips: [left strip, right strip], opening: {across: [20, 420], deep: [20, 390], up: [100, 200]},
      gap: 2, screws: {length: 16}}
"""
)


def body(*changes: tuple[str, str]) -> str:
    said = WOODS + DRAWER
    for old, new in changes:
        assert old in said
        said = said.replace(old, new)
    return said


def paper(*changes: tuple[str, str]) -> Trial:
    return trial(body(*changes))


def test_groove_takes_the_strip_with_its_play() -> None:
    made = paper()
    # The strip stands 6.5 in the side; the groove is 0.5 deeper and wider, from the strip's front end to the side's back.
    groove = 280 * 16.5 * 7
    for side in ("drawer left", "drawer right"):
        assert made.volume(side) == pytest.approx(310 * 80 * 15 - groove, abs=0.01)
    # The play lies under the strip and beside it; the upper wall rides on it.
    assert not made.inside("drawer left", (27.9, 100.0, 139.6)) and made.inside("drawer left", (27.9, 100.0, 139.4))
    assert made.inside("drawer left", (27.9, 100.0, 156.1)) and made.inside("drawer left", (28.1, 100.0, 150.0))
    # It stops with the strip and runs out at the back.
    assert made.inside("drawer left", (24.0, 49.9, 150.0)) and not made.inside("drawer left", (24.0, 329.9, 150.0))
    assert made.clashes() == []


def test_groove_is_cut_to_its_figure_and_the_strip_fitted_to_it() -> None:
    made = paper()
    (feature,) = made.features("drawer left", "dado")
    (setting,) = feature.made.settings
    values = {name: value for name, value, _ in setting.values}
    # The lower wall stands 140 − 0.5 − 110 above the drawer side's lower edge.
    assert (values["straight bit"], values["depth"], values["fence to the near wall"]) == (16.5, 7, 29.5)
    assert setting.fitted == "runner" and setting.note.startswith("to its figure")
    wide = next(s for s in feature.made.sizes if set(s.parameters) == {"low", "high"})
    assert wide.authority is Authority.CUT and wide.value == 16.5
    assert feature.stage is Stage.PART
    # High by the play, at the lower edge; 3 long at the front, where its end stops an inset front.
    strip = made.piece.part("left strip")
    assert [(strip.word(s.face), s.amount) for s in strip.spare] == [("bottom", 0.5), ("front", 3)]
    assert [strip.over(axis) for axis in range(3)] == [3, 0, 0.5] and strip.side(strip.face("front")) == "front line"
    assert paper(("gap: 2,", "gap: 0, stop: front,")).piece.part("left strip").over(0) == 0


def test_front_screw_holds_and_the_others_slide_where_the_case_moves_along_the_strip() -> None:
    made = paper()
    (row,) = made.holes("left strip")
    assert (row.purpose, len(row.points), row.sink is not None and float(row.sink.depth or 0)) == (
        Purpose.CLEARANCE,
        1,
        3,
    )
    slots = [s for f in made.features("left strip", "slotted hole") for s in f.made.slots]
    # 25 from both ends and one between; 287 · 0.00353 · 4 % = 4.05, so that each slides 4.5 either way.
    assert [float(row.points[0][0]), *(float(s.centre[0]) for s in slots)] == [25, 168.5, 312]
    assert {(float(s.length), float(s.width)) for s in slots} == {(12.6, 3.6)}
    assert {tuple(map(float, s.bore or ())) for s in slots} == {(8.5, 3)}
    bores = 3 * (pi / 4 * 8.5**2 * 3 + pi / 4 * 3.6**2 * 4.5) + 2 * 9 * (8.5 * 3 + 3.6 * 4.5)
    assert made.volume("left strip") == pytest.approx(337 * 7.5 * 16 - bores, rel=2e-4)
    # A screw of 16 under a head sunk 3 deep passes 4.5 of the strip and 11.5 of the case.
    holds, slides = made.piece.fasteners[:2]
    assert [(f.count, f.grip, f.engagement, f.what) for f in (holds, slides)] == [
        (1, 4.5, 11.5, "wood screw, pan head"),
        (2, 4.5, 11.5, "wood screw, pan head"),
    ]
    assert not any(holds.slot) and slides.slot == pytest.approx((0, 4.5, 0))
    assert {f.parts for f in made.piece.fasteners} == {("left strip", "left"), ("right strip", "right")}
    pilots = [h for h in made.holes("left") if h.purpose is Purpose.PILOT]
    assert {(h.depth, h.authority) for h in pilots} == {(11.5, Authority.MATE)}
    # 150 up is the middle of the strips, 140 to 156, on both uprights, 8 above their lower edge.
    assert {float(p[0]) for h in pilots for p in h.points} == {148}


@pytest.mark.parametrize(
    "change", [("of: board, grain: up", "of: ply, grain: up"), ("of: board, grain: up", "of: board, grain: deep")]
)
def test_all_screws_hold_on_plywood_and_along_the_grain(change: tuple[str, str]) -> None:
    made = paper(change)
    (row,) = made.holes("left strip")
    assert len(row.points) == 3 and row.sink is not None and row.sink.angle == 82
    assert made.features("left strip", "slotted hole") == []
    # Countersunk flush: 16 less the whole strip.
    assert [(f.count, f.engagement, f.what) for f in made.piece.fasteners] == [(3, 8.5, "wood screw, flat head")] * 2
    assert len({f.key for f in made.piece.fasteners}) == 1


def test_swing_makes_the_slots_longer_and_places_may_be_said() -> None:
    made = paper(("screws: {length: 16}", "screws: {length: 16, swing: 8, at: [40, 300]}"))
    (slot,) = [s for f in made.features("left strip", "slotted hole") for s in f.made.slots]
    # 260 · 0.00353 · 8 = 7.34: 7.5 either way.
    assert (float(slot.centre[0]), float(slot.length)) == (300, pytest.approx(18.6))


def test_a_drawer_that_its_front_stops_has_a_groove_that_goes_on() -> None:
    made = paper(("gap: 2,", "gap: 0, stop: front,"))
    (feature,) = made.features("drawer left", "dado")
    # 30 less 3, less half of 16.5 for the cutter's rim: 18.75, drawn back to 18.5.
    assert dict(feature.parameters)["start"] == 26.75
    stop = next(s for s in feature.made.sizes if s.label == "stop")
    assert (stop.value, stop.note) == (18.5, "to the end of the arc")
    # Round at the end: no chisel.
    (setting,) = feature.made.settings
    assert not any("chisel" in str(value) for _, value, _ in setting.places)


def test_a_strip_that_begins_at_the_front_has_a_groove_right_through() -> None:
    made = paper(("deep: [50, 387]", "deep: [20, 387]"))
    assert made.volume("drawer left") == pytest.approx(310 * 80 * 15 - 310 * 16.5 * 7, abs=0.01)


def test_a_groove_that_would_end_at_the_sides_end_runs_out() -> None:
    made = paper(("gap: 2,", "gap: 0, stop: front,"), ("deep: [50, 387]", "deep: [31, 387]"))
    (feature,) = made.features("drawer left", "dado")
    assert "start" not in dict(feature.parameters) and not any(s.label == "stop" for s in feature.made.sizes)


def test_each_strip_tells_its_own_setback() -> None:
    made = paper(("across: [412.5, 420], deep: [50, 387]", "across: [412.5, 420], deep: [60, 387]"))
    on = [j for j in made.piece.joints if j.word == "runners"]
    assert [[float(v) for n, v, _ in j.figures if n == "setback"] for j in on] == [[30], [40]]


def test_drawer_and_joints_are_noted() -> None:
    made = paper()
    (drawer,) = made.piece.drawers
    figures = {name: float(value) for name, value, _ in drawer.figures}
    assert (drawer.runners, drawer.bed) == (("left strip", "right strip"), "")
    assert (float(drawer.clearance), float(drawer.slide_length), float(drawer.gap)) == (1, 337, 2)
    assert (figures["runner low"], figures["runner front"], figures["setback"]) == (140, 50, 30)
    assert (figures["play"], figures["box width"], figures["room before the runner"]) == (0.5, 398, 0)
    assert [j.parts for j in made.piece.joints] == [
        ("left strip", "left"),
        ("left strip", "drawer left"),
        ("right strip", "right"),
        ("right strip", "drawer right"),
    ]
    assert made.piece.items == ()


def test_the_case_is_marked_for_its_strip() -> None:
    assert (156.0, 3) in paper().marks("left", "place line")
    # On a part whose grain runs front to back the stick tells where the strip ends, since its front is pared.
    lying = paper(("of: board, grain: up", "of: board, grain: deep"))
    assert lying.marks("left", "place line") == [(387.0, 3)]


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("[404, 419]", "[403, 418]", "drawer-room"),
        ("across: [20, 27.5]", "across: [20.5, 28]", "parts-do-not-meet"),
        ("across: [20, 27.5], deep: [50, 387]", "across: [20, 20.9], deep: [50, 387]", "runner-misses"),
        ("up: [140, 156]", "up: [110, 126]", "runner-misses"),
        ("up: [140, 156]", "up: [176, 192]", "runner-misses"),
        ("screws: {length: 16}", "screws: {length: 4}", "screw-too-short"),
        ("screws: {length: 16}", "screws: {length: 16, gauge: 99}", "unknown-hardware"),
        ("screws: {length: 16}", "screws: {length: 16, at: [400]}", "screw-beside-part"),
        ("screws: {length: 16}", "screws: {length: 16, gauge: 3}", "unknown-hardware"),
        ("cases: [left, right]", "cases: [left, right, front]", "runners-two"),
        ("strips: [left strip, right strip]", "strips: [left strip, right strip, front]", "runners-two"),
    ],
)
def test_what_does_not_fit_is_told(old: str, new: str, code: str) -> None:
    assert code in {p.code for p in problems(body((old, new)))}


def test_room_is_told_with_its_figures() -> None:
    problem = one_problem(body(("[404, 419]", "[403, 418]")))
    assert "2 mm from right" in problem.message and "1 mm" in problem.message


BOX = """\
  drawer back: {of: box, grain: across, box: {across: [21, 419], deep: [315, 330], up: [110, 190]}}
joints:
  - finger: {outer: [drawer left, drawer right], inner: drawer back, count: %s}
  - runners: {drawer: paper, parts: [front, drawer left, drawer right, drawer back], front: front"""


def fingered(count: int, up: str = "[140, 156]") -> Trial:
    joint = "joints:\n  - runners: {drawer: paper, parts: [front, drawer left, drawer right], front: front"
    return paper(("up: [140, 156]", f"up: {up}"), (joint, BOX % count))


def test_a_groove_goes_on_through_fingers_once_the_box_is_glued() -> None:
    made = fingered(9)
    for path in ("drawer left", "drawer back"):
        assert {f.stage for f in made.features(path, "dado")} == {Stage.GLUED}
    # The back's fingers are cut through to the groove's floor, 7 from the side's outer face.
    assert not made.inside("drawer back", (27.9, 322.0, 150.0))
    assert made.clashes() == []
    # One pass cuts both: the back asks for no set-up of its own.
    assert [f.made.settings for f in made.features("drawer back", "dado")] == [(), ()]


def test_a_groove_beside_the_backs_fingers_is_cut_before_the_box_is_glued() -> None:
    # Three fingers of 26.7, the sides' at top and bottom: the groove, 116.5 to 133, lies in the lower one.
    made = fingered(3, "[117, 133]")
    assert made.features("drawer back", "dado") == []
    assert {f.stage for f in made.features("drawer left", "dado")} == {Stage.PART}
    assert made.clashes() == []
