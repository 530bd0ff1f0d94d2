from math import atan, cos, radians, sin, tan

import pytest

from docgen.geometry.shapes import HalfSpace
from docgen.piece.kinds import kinds
from docgen.reading.problems import Problems
from tests.piece.joints.making import Trial, built

BASE = """
sizes: {s: 40}
materials:
  board: {species: sugar maple, thickness: 20}
  squares: {species: sugar maple, thickness: s}
assemblies:
  base:
    table base:
      box: {across: [0, 500], deep: [0, 400], up: [0, 450]}
      legs: {material: squares, size: s}
      %s
      aprons: {material: board, thickness: 20, width: 80, set back: 5, %s}
"""
TENONS = "tenons: {thickness: 8, length: 18, above: 12}"
DOWELS = "dowels: {diameter: 8, count: 2, depth: 18}"
LOOSE = "loose tenons: {thickness: 6, width: 30, depth: 15}"


def base(more: str = "", joint: str = TENONS) -> Trial:
    return built("docgen: 1\npiece: Trial\nunits: mm\n" + BASE % (more, joint))


def test_legs_stand_at_the_corners_and_aprons_between_them():
    made = base()
    assert [p.path for p in made.piece.parts] == [
        *(f"base.{e} {h} leg" for e in ("front", "back") for h in ("left", "right")),
        *(f"base.{s} apron" for s in ("front", "back", "left", "right")),
    ]
    assert made.part("base.back right leg").box == ((460, 500), (360, 400), (0, 450))
    assert made.part("base.front apron").box == ((40, 460), (5, 25), (370, 450))
    assert made.part("base.right apron").box == ((475, 495), (40, 360), (370, 450))
    assert [made.part(f"base.{n}").called for n in ("front left leg", "left apron")] == ["front left leg", "left apron"]
    assert len([j for j in made.piece.joints if j.word == "mortise and tenon"]) == 8
    assert made.clashes() == []


def test_inner_faces_taper_from_under_the_aprons():
    made = base("taper: {foot: 26, under: 20}")
    # From 450 − 80 − 20 = 350 down two inner faces lose up to 14.
    assert made.inside("base.front left leg", (39.0, 20.0, 352.0))
    assert not made.inside("base.front left leg", (27.0, 20.0, 1.0)) and made.inside(
        "base.front left leg", (25.0, 20.0, 1.0)
    )
    assert not made.inside("base.back right leg", (480.0, 373.0, 1.0)) and made.inside(
        "base.back right leg", (480.0, 375.0, 1.0)
    )
    legs = [k for k in kinds(made.piece, made.solids) if "leg" in k.first]
    assert sum(k.count for k in legs) == 4


@pytest.mark.parametrize(("a", "b"), [(8, 5), (10, 0), (0, 12)])
def test_legs_lean_as_said_in_both_views(a, b):
    said = ", ".join(f"{word}: {lean} deg" for word, lean in (("across", a), ("deep", b)) if lean)
    made = base(f"splay: {{{said}}}", LOOSE)
    for end, deep in (("front", 1), ("back", -1)):
        for hand, across in (("left", 1), ("right", -1)):
            x, y, z = made.part(f"base.{end} {hand} leg").frame.direction((1.0, 0.0, 0.0))
            assert (x / z * across, y / z * deep) == pytest.approx((tan(radians(a)), tan(radians(b))))
    # Their middles meet the top at the corners of the box, whatever they lean.
    leg = made.part("base.front left leg")
    way, middle = leg.frame.direction((1.0, 0.0, 0.0)), leg.frame.point((0.0, 20.0, 20.0))
    t = (450 - middle[2]) / way[2]
    assert (middle[0] + t * way[0], middle[1] + t * way[1]) == pytest.approx((20, 20))
    assert made.clashes() == []


def test_splayed_legs_end_level_and_aprons_lie_against_them():
    made = base("splay: {across: 8 deg, deep: 5 deg}", LOOSE)
    for path in ("base.front left leg", "base.back right leg"):
        low, high = made.solids.solid(path).moved(made.part(path).frame).bounds
        assert (low[2], high[2]) == pytest.approx((0, 450), abs=1e-6)
    assert [j.word for j in made.piece.joints].count("loose tenon") == 8
    # The true lean by the handbook formula: atan √(tan² 8° + tan² 5°).
    leg = made.part("base.front left leg").frame.direction((1.0, 0.0, 0.0))
    assert leg[2] == pytest.approx(cos(atan((tan(radians(8)) ** 2 + tan(radians(5)) ** 2) ** 0.5)))
    # The aprons lean with the legs; their upper edges are level, their blanks end at the long points.
    for side in ("front", "back", "left", "right"):
        part, solid = made.part(f"base.{side} apron"), made.solids.solid(f"base.{side} apron")
        assert solid.moved(part.frame).bounds[1][2] == pytest.approx(450)
        assert solid.bounds[1][0] - solid.bounds[0][0] == pytest.approx(float(part.size[0]), abs=0.02)
        lean = 5 if side in ("front", "back") else 8
        assert abs(part.frame.direction((0.0, 0.0, 1.0))[2]) == pytest.approx(sin(radians(lean)))
    # Opposite aprons and all four legs are alike.
    told = {k.first: k.count for k in kinds(made.piece, made.solids)}
    assert told["base.front apron"] == told["base.left apron"] == 2 and told["base.front left leg"] == 4
    # Outside they lie 5 behind the legs' faces at the top.
    assert (
        made.solids.solid("base.front apron").moved(made.part("base.front apron").frame).contains((250.0, 5.1, 449.9))
    )


def test_stretchers_lie_lower_down():
    made = base(
        "stretchers: {material: board, thickness: 20, width: 40, up: 100, set back: 10, sides: [left, right], "
        + TENONS
        + "}"
    )
    assert made.part("base.left stretcher").box == ((10, 30), (40, 360), (100, 140))
    assert made.clashes() == []


@pytest.mark.parametrize(
    ("more", "joint"),
    [
        ("", f"{TENONS}, {LOOSE}"),
        ("", f"{LOOSE}, {DOWELS}"),
        (
            "taper: {foot: 26, under: 20}\n      stretchers: {material: board, thickness: 20, width: 40, up: 100, "
            + TENONS
            + "}",
            TENONS,
        ),
    ],
)
def test_joints_that_cannot_be_are_told(more, joint):
    with pytest.raises(Problems) as caught:
        base(more, joint)
    assert [p.code for p in caught.value.items] == ["rail-joint"]


def test_every_end_of_a_leaning_rail_reaches_its_leg_at_the_long_point_and_no_further():
    more = "stretchers: {material: board, thickness: 20, width: 60, up: 100, set back: 8, sides: [front, back, left, right], "
    made = base("splay: {across: 8 deg, deep: 5 deg}\n      " + more + LOOSE + "}", LOOSE)
    seen = 0
    for part in made.piece.parts:
        for feature in part.features:
            for cut in feature.made.cuts if "against" in feature.title else ():
                assert isinstance(cut.shape, HalfSpace)
                x = float(part.size[0]) if cut.shape.normal[0] > 0 else 0.0
                corners = [(x, y, z) for y in (0.0, float(part.size[1])) for z in (0.0, float(part.size[2]))]
                beyond = [
                    sum((c - p) * n for c, p, n in zip(corner, cut.shape.point, cut.shape.normal, strict=True))
                    for corner in corners
                ]
                assert min(beyond) == pytest.approx(0, abs=1e-9), part.path
                seen += 1
    assert seen == 16 and made.clashes() == []


@pytest.mark.parametrize(("a", "b"), [(0, 0), (8, 5), (10, 0), (0, 12)])
@pytest.mark.parametrize(("joint", "word"), [(TENONS + ", below: 10}", "mortise and tenon"), (DOWELS, "dowel")])
def test_splayed_legs_take_tenons_and_dowels_as_upright_ones_do(a, b, joint, word):
    said = ", ".join(f"{w}: {lean} deg" for w, lean in (("across", a), ("deep", b)) if lean)
    made = base(f"splay: {{{said}}}" if said else "", joint.replace("},", ","))
    joints = [j for j in made.piece.joints if j.word == word]
    assert sum(len(j.parts) - 1 for j in joints) == 8 and made.clashes() == []
    told = {k.first: k.count for k in kinds(made.piece, made.solids)}
    assert told["base.front apron"] == told["base.left apron"] == 2
    if word == "mortise and tenon":
        # Every tenon stands in its leg: its middle is wood of the apron, and none of the leg.
        for j in joints:
            for leg in j.parts[1:]:
                (mortise,) = [f for f in made.features(leg, "mortise") if j.parts[0] in f.title]
                place = {k: float(v) for k, v in mortise.parameters}
                part = made.part(leg)
                (row,) = [t.travel for t in mortise.made.settings if t.travel is not None]
                at = [0.0, 0.0, 0.0]
                u, v = (i for i in range(3) if i != row.face.axis)
                at[u], at[v] = place["centre.0"], place["centre.1"]
                deep = float(part.size[row.face.axis])
                at[row.face.axis] = deep - 9 if row.face.side else 9
                spot = part.frame.point((at[0], at[1], at[2]))
                assert made.inside(j.parts[0], spot) and not made.inside(leg, spot)
