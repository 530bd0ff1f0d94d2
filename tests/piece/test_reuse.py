"""Parts said once and made several times: repeats, turned groups, mirrored copies."""

from fractions import Fraction
from math import cos, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.geometry.shapes import Vec
from docgen.piece.kinds import kinds
from tests.piece.joints.making import Trial, trial
from tests.piece.joints.making import problems as faults

SLATS = """
sizes: {{n: 3}}
parts:
  left: {{of: board, grain: up, box: {{across: [0, 20], deep: [0, 90], up: [0, 300]}}}}
  right: {{of: board, grain: up, box: {{across: [500, 520], deep: [0, 90], up: [0, 300]}}}}
  slat: {{of: board, grain: up, box: {{across: [20, 80], deep: [0, 20], up: [0, 300]}}, repeat: {{along: across, {way}}}}}
"""


def lefts(way: str) -> list[Fraction | float]:
    made = trial(SLATS.format(way=way))
    slats = [p for p in made.piece.parts if p.path.startswith("slat")]
    assert [p.path for p in slats] == [f"slat.{n}" for n in range(1, len(slats) + 1)]
    assert [p.called for p in slats] == [f"slat {n}" for n in range(1, len(slats) + 1)]
    assert all(p.size == (300, 60, 20) for p in slats)
    return [p.box[0][0] for p in slats]


@pytest.mark.parametrize(
    ("way", "places"),
    [
        ("count: n, step: 100", [20, 120, 220]),
        ("count: n, between: [left.right, right.left]", [95, 230, 365]),  # 480 less 3 × 60: four gaps of 75
        ("count: n, spread: [left.right, right.left]", [20, 230, 440]),
        ("count: 2 * n + 1, spread: [20, 500]", [20 + 70 * i for i in range(7)]),
        ("at: [30, 200, 280, 440]", [30, 200, 280, 440]),
    ],
)
def test_copies_are_set_out_exactly(way: str, places: list[int]) -> None:
    assert lefts(way) == places


@given(st.integers(1, 12), st.fractions(1, 60, max_denominator=16), st.fractions(-500, 500, max_denominator=32))
@settings(deadline=None, max_examples=25)
def test_equal_spaces_are_equal_to_the_last_fraction(count: int, size: Fraction, start: Fraction) -> None:
    end = start + count * size + 100
    box = f"{{across: [0, {plain(size)}], deep: [0, 20], up: [0, 300]}}"
    way = f"{{along: across, count: {count}, between: [{plain(start)}, {plain(end)}]}}"
    parts = trial(f"parts: {{slat: {{of: board, grain: up, box: {box}, repeat: {way}}}}}").piece.parts
    faces = [start, *(edge for p in parts for edge in p.box[0]), end]
    assert {b - a for a, b in zip(faces[::2], faces[1::2], strict=True)} == {Fraction(100, count + 1)}
    assert all(p.box[0][1] - p.box[0][0] == size for p in parts)


def plain(value: Fraction) -> str:
    return f"({value.numerator}/{value.denominator})"


def test_a_size_may_have_the_name_of_a_repeated_part() -> None:
    body = (
        SLATS.replace("{{n: 3}}", "{{n: 3, slat: 60}}")
        .replace("[20, 80]", "[20, 20 + slat]")
        .replace("up: [0, 300]}}, rep", "up: [0, 300]}}, rep")
    )
    made = trial(body.format(way="count: n, step: slat + left.right"))
    assert [made.part(f"slat.{k}").box[0] for k in (1, 2)] == [(20, 80), (100, 160)]


def test_a_statement_is_carried_out_for_each_copy_it_names() -> None:
    case = trial("""
    sizes: {gap: 150}
    parts:
      side: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 600]}}
      other: {of: board, grain: up, box: {across: [420, 440], deep: [0, 200], up: [0, 600]}}
      shelf: {of: board, grain: across, box: {across: [side.right, other.left], deep: [10 * copy, 200], up: [40, 60]},
        repeat: {along: up, count: 3, step: gap}}
    joints:
      - housing: {shelf: shelf, into: [side, other], depth: 6, through: back}
    edges:
      - round over: {part: shelf, along: [top front], radius: 3}
    holes:
      - hole: {part: side, face: right, name: P, diameter: 5, depth: 10, at: [{deep: 20, up: shelf.2.top + 30}]}
    """)
    assert [float(m) for m, _ in case.marks("side", "dado")] == [40, 60, 190, 210, 340, 360]
    joints = [j.parts for j in case.piece.joints if j.word == "housing"]
    assert joints == [(f"shelf.{n}", "side", "other") for n in (1, 2, 3)]
    assert [case.part(f"shelf.{n}").box[1][0] for n in (1, 2, 3)] == [10, 20, 30]
    assert all(len(case.features(f"shelf.{n}", "round over")) == 1 for n in (1, 2, 3))
    assert case.holes("side")[0].points[0][0] == 240
    assert case.clashes() == []


def test_an_assembly_is_repeated_by_the_number_of_its_copy() -> None:
    body = """
    sizes: {pitch: 250}
    assemblies:
      box:
        repeat: 2
        housed case: {box: {across: [0, 300], deep: [0, 200], up: [pitch * (copy - 1), pitch * copy - 10]}, material: board,
          thickness: 20, shelves: [pitch * (copy - 1), box.left.top - 20], housing: 6}
    """
    made = trial(body)
    assert [p.path for p in made.piece.parts][::4] == ["box.1.left", "box.2.left"]
    assert made.part("box.2.shelf 2").box[2] == (470, 490)
    assert made.part("box.2.left").called == "box 2 left side"
    assert made.clashes() == []


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ("count: 3, step: 100, at: [1, 2]", "repeat-ways"),
        ("count: 3", "repeat-ways"),
        ("step: 100", "repeat-ways"),
        ("count: 3, at: [1, 2, 3]", "repeat-ways"),
        ("count: right.left / 100, step: 100", "repeat-count"),
        ("count: 1, spread: [20, 500]", "repeat-count"),
        ("count: 0, step: 100", "out-of-bounds"),
        ("count: 2, stepp: 100", "unknown-key"),
        ("count: 2, step: m", "unknown-name"),
    ],
)
def test_wrong_repeats_are_told_at_their_place(change: str, code: str) -> None:
    found = faults(SLATS.format(way=change))
    assert [p.code for p in found] == [code] and found[0].where.line == 12


def test_wrong_uses_of_a_repeat_are_told_in_one_go() -> None:
    found = faults(
        SLATS.format(way="count: 3, step: 100")
        + """
  wide: {of: board, grain: up, box: {across: [slat.right, 500], deep: [0, 20], up: [0, copy]}}
  post: {of: board, grain: up, box: {across: [0, 20], deep: [0, 90], up: [0, 300]}, repeat: {along: across, at: [0, 300]}}
assemblies:
  tray:
    drawer: {cases: [slat, slat.4]}
joints:
  - housing: {shelf: slat, into: post, depth: 5}
  - mortise and tenon: {end: slat, into: post, length: 5}
  - pivot: {sleeve in: [post], bolt in: [slat.9], at: {deep: 5, up: 5}}
""",
    )
    told = {(p.where.line, p.code) for p in found}
    assert {(14, "repeat-which"), (14, "unknown-name"), (18, "unknown-part"), (22, "unknown-part")} <= told


TURNED = """
parts:
  left: {of: board, grain: up, box: {across: [0, 60], deep: [0, 20], up: [0, 400]}}
  right: {of: board, grain: up, box: {across: [340, 400], deep: [0, 20], up: [0, 400]}}
  rail: {of: board, grain: across, box: {across: [left.right, right.left], deep: [0, 20], up: [330, 400]}}
  slat: {of: board, grain: up, box: {across: [0, 40], deep: [0, 20], up: [0, rail.bottom]},
    repeat: {along: across, count: 2, between: [left.right, right.left]}}
groups:
  back: {parts: [left, right, rail, slat], turn: {about: across, at: {deep: 0, up: 100}, by: -12 deg}}
joints:
  - mortise and tenon: {end: rail, into: [left, right], thickness: 7, length: 30, shoulder: {top: 8, bottom: 8}}
  - mortise and tenon: {end: slat, into: rail, thickness: 7, length: 20, shoulder: {left: 6, right: 6}}
"""


def test_a_group_leans_as_a_whole_with_its_joints() -> None:
    back = trial(TURNED)
    a = radians(12)
    # The upper end, 300 above the axis: its front arris and, 20 behind it, its back arris.
    ends = sorted(back.part("left").frame.point((400.0, 0.0, t))[1:] for t in (0.0, 20.0))
    assert ends[0] == pytest.approx((300 * sin(a), 100 + 300 * cos(a)))
    assert ends[1] == pytest.approx((300 * sin(a) + 20 * cos(a), 100 + 300 * cos(a) - 20 * sin(a)))
    assert all(p.turned for p in back.piece.parts)
    assert back.clashes() == [] and len(back.piece.joints) == 4


def test_a_group_turns_after_its_parts_own_turns() -> None:
    text = """
    parts:
      leg: {of: board, grain: up, box: {across: [0, 20], deep: [0, 30], up: [0, 400]}, turn: {about: deep, at: {across: 0, up: 0}, by: 5 deg}}
    groups:
      legs: {parts: leg, turn: [{about: across, at: {deep: 0, up: 0}, by: 8 deg}]}
    """
    a, b = radians(5), radians(8)
    # First about deep: up leans toward +across; then about across: up leans toward −deep.
    way = trial(text).part("leg").frame.direction((1.0, 0.0, 0.0))
    assert way == pytest.approx((sin(a), -cos(a) * sin(b), cos(a) * cos(b)))


def test_unknown_members_are_told_with_the_nearest() -> None:
    found = faults(TURNED.replace("[left, right, rail, slat]", "[left, rigth, rails, slat]"))
    assert [(p.code, p.hint) for p in found] == [
        ("unknown-part", "did you mean 'right'?"), ("unknown-part", "did you mean 'rail'?")]  # fmt: skip


SIDES = """
sizes: {w: 440}
parts:
  left side: {of: board, grain: up, show: left, box: {across: [0, 20], deep: [0, 200], up: [0, 600]}}
  shelf: {of: board, grain: across, box: {across: [left side.right, right side.left], deep: [0, 200], up: [300, 320]}}
mirrors:
  right side: {of: left side, about: {across: w / 2}}
joints:
  - housing: {shelf: shelf, into: [left side, right side], depth: 6}
edges:
  - corner radius: {part: left side, face: left, along: [top front], radius: 40}
  - round over: {part: left side, along: [left front], radius: 4, stop: {bottom: 60}}
operations:
  - rabbet: {part: left side, along: right back, into: 8, on: 6}
  - taper: {part: left side, face: front, end: bottom, run: 200, amount: 30}
holes:
  - hole: {part: left side, face: right, name: P, diameter: 5, depth: 10, at: [{deep: 50, up: 90}, {deep: 50, up: 140}]}
"""


def image(made: Trial, path: str, other: str, plane: float, points: list[Vec]) -> None:
    """Compare the wood of a part with that of its image at some points of the piece."""
    for x, y, z in points:
        assert made.inside(path, (x, y, z)) == made.inside(other, (2 * plane - x, y, z)), (x, y, z)


def test_a_mirrored_part_is_the_other_hand_with_all_that_is_done_to_it() -> None:
    made = trial(SIDES)
    left, right = made.part("left side"), made.part("right side")
    assert right.box[0] == (420, 440) and right.show is not None and right.word(right.show) == "right"
    assert [f.word for f in right.features] == [f.word for f in left.features]
    assert made.volume("left side") == pytest.approx(made.volume("right side"), rel=1e-9)
    points = [(x, y, z) for x in (2.0, 11.0, 19.0) for y in (1.0, 10.0, 195.0) for z in (5.0, 100.0, 310.0, 595.0)]
    image(made, "left side", "right side", 220, points)
    (kind,) = [k for k in kinds(made.piece, made.solids) if k.first == "left side"]
    assert kind.mirrored == ("right side",)
    assert made.clashes() == []


def test_what_is_said_of_a_mirrored_part_is_true_of_it() -> None:
    made = trial(SIDES)
    (row,) = made.holes("right side")
    assert made.part("right side").word(row.face) == "left" and row.name == "P"
    there = {tuple(round(c, 6) for c in made.part("right side").frame.point(tuple(map(float, p)))) for p in row.points}
    assert there == {(420.0, 50.0, 90.0), (420.0, 50.0, 140.0)}
    assert made.marks("right side", "hole") == made.marks("left side", "hole")
    (corner,) = made.features("right side", "corner radius")
    (first,) = made.features("left side", "corner radius")
    assert corner.made.templates[0].shared == first.made.templates[0].shared
    (over,) = made.features("right side", "round over")
    assert {made.part("right side").word(s.face) for s in over.made.sizes if s.face} <= {
        "right",
        "front",
        "top",
        "bottom",
    }


FRAME = """
assemblies:
  window:
    frame round a panel: {box: {across: [0, 380], deep: [0, 20], up: [50, 350]}, material: board, width: 40, face: back,
      panel: {material: thin, thickness: 6, rabbet: 10, clearance: 2}, tenons: {thickness: 5, width: 20, depth: 10}}
mirrors:
  right window: {of: window, about: {across: 400}}
operations:
  - notch: {part: window.left, at: [left bottom], size: {across: 12, up: 30}, through: front}
"""


def test_an_assembly_is_mirrored_with_its_joints() -> None:
    made = trial(FRAME.partition("operations")[0])
    assert made.part("right window.right").box[0] == (760, 800)
    assert made.part("right window.right").called == "right window right rail"
    assert [p.name for p in made.piece.panes] == ["window.panel", "right window.panel"]
    assert made.piece.panes[1].frame == tuple(
        p.replace("window.", "right window.").replace("left", "?").replace("right window.?", "right window.right")
        if "left" in p else p.replace("window.right", "right window.left") if "right" in p else p.replace("window.", "right window.")
        for p in made.piece.panes[0].frame)  # fmt: skip
    assert len([j for j in made.piece.joints if j.word == "mitre"]) == 8
    for one, other in (("left", "right"), ("right", "left"), ("top", "top"), ("panel", "panel")):
        assert made.volume(f"window.{one}") == pytest.approx(made.volume(f"right window.{other}"), rel=1e-9)
    assert made.clashes() == []


LEG = """
parts:
  leg: {of: board, grain: up, box: {across: [20, 60], deep: [30, 50], up: [-20, 400]},
    turn: [{about: deep, at: {across: 40, up: 400}, by: 6 deg}, {about: across, at: {deep: 40, up: 400}, by: -9 deg}]}
mirrors:
  right leg: {of: leg, about: {across: 200}}
  back: {of: [leg, right leg], about: {deep: 150}}
joints:
  - level ends: {part: leg, top: 380, bottom: 0}
"""


def test_four_legs_come_from_one_that_leans_both_ways() -> None:
    made = trial(LEG)
    assert [p.path for p in made.piece.parts] == ["leg", "right leg", "back.leg", "back.right leg"]
    feet = []
    for part in made.piece.parts:
        x, y, z = part.frame.point((0.0, 20.0, 10.0))
        feet.append((x - 200, y - 150, z))
    x, y, z = feet[0]
    assert feet == [pytest.approx(p) for p in ((x, y, z), (-x, y, z), (x, -y, z), (-x, -y, z))]
    assert all(len(p.features) == 2 for p in made.piece.parts)
    (kind,) = kinds(made.piece, made.solids)
    assert kind.count == 4


def test_standing_pairs_take_what_is_done_to_their_images() -> None:
    body = """
    parts:
      left side: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 600]}}
      right side: {of: board, grain: up, box: {across: [780, 800], deep: [0, 200], up: [0, 600]}}
      rail: {of: board, grain: deep, box: {across: [20, 80], deep: [40, 160], up: [300, 320]}}
    mirrors:
      other rail: {of: rail, about: {across: 400}, pairs: [[left side, right side]]}
    joints:
      - screwed: {through: left side, into: rail, gauge: 8, length: 40, at: [{deep: 70, up: 310}, {deep: 130, up: 310}]}
    """
    made = trial(body)
    assert {f.parts for f in made.piece.fasteners} == {("left side", "rail"), ("right side", "other rail")}
    heads = sorted(float(p[0]) for f in made.piece.fasteners for p in f.points)
    assert heads[0] + heads[-1] == 800
    assert len(made.holes("right side")) == len(made.holes("left side"))
    alone = body + "edges:\n      - round over: {part: left side, along: top front, radius: 3}\n"
    assert trial(alone).features("right side", "round over") == []
    (problem,) = faults(body.replace("[left side, right side]", "[left side, rail]"))
    assert problem.code == "mirror-pair"


def test_a_part_in_the_middle_of_the_mirror_is_its_own_image() -> None:
    body = """
    parts:
      top: {of: board, grain: across, box: {across: [0, 800], deep: [0, 200], up: [600, 620]}}
      left cleat: {of: board, grain: deep, box: {across: [100, 160], deep: [20, 180], up: [580, 600]}}
    mirrors:
      right cleat: {of: left cleat, about: {across: 400}, pairs: [[top, top]]}
    joints:
      - screwed: {through: left cleat, into: top, gauge: 8, length: 30, at: [{across: 130, deep: 60}, {across: 130, deep: 150}]}
    """
    made = trial(body)
    assert {f.parts for f in made.piece.fasteners} == {("left cleat", "top"), ("right cleat", "top")}
    assert sorted(float(p[0]) for f in made.piece.fasteners for p in f.points) == [130, 130, 670, 670]
    assert [h.names for h in made.holes("top")] == [
        ("A1", "A2")
    ] * 2  # as in the cleats, which are one the other's image
    assert {j.parts for j in made.piece.joints} == {("left cleat", "top"), ("right cleat", "top")}
    (problem,) = faults(body.replace("{across: 400}", "{across: 390}"))
    assert problem.code == "mirror-pair"


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("about: {across: w / 2}", "about: {across: w / 2, up: 5}", "mirror-plane"),
        ("about: {across: w / 2}", "about: {across: v / 2}", "unknown-name"),
        ("of: left side, about", "of: lft side, about", "unknown-part"),
        ("right side: {of", "shelf: {of", "name-twice"),
        ("{across: w / 2}}", "{across: w / 2}, pairs: [[shelf]]}", "mirror-pair"),
    ],
)
def test_wrong_mirrors_are_told(old: str, new: str, code: str) -> None:
    assert code in {p.code for p in faults(SIDES.replace(old, new))}
