"""The sketching desk: places, lengths and volumes worked by hand, in inches."""

from functools import cache
from math import cos, pi, radians, sin, tan
from pathlib import Path

import pytest

from docgen.geometry.shapes import turned
from docgen.geometry.solids import overlap
from docgen.piece.kinds import kinds
from docgen.piece.records import Authority, Purpose, Stage
from tests.piece.joints.making import INCH, Trial, built

FILE = Path(__file__).parents[2] / "examples" / "sketching-desk.yaml"

T = 13 / 16
A, B = radians(14), radians(16)
CORNER = 1 - pi / 4  # of r²: what an arc takes off a square corner


@cache
def desk(**sets: str) -> Trial:
    return built(FILE.read_text(encoding="utf-8"), "sketching-desk.yaml", dict(sets))


def inches(*values: float) -> tuple[float, ...]:
    return tuple(float(v) / INCH for v in values)


def cubic(path: str, stage: Stage = Stage.FITTED) -> float:
    return desk().volume(path, stage) / INCH**3


def slot(width: float, thickness: float, depth: float) -> float:
    return ((width - thickness) * thickness + pi * thickness**2 / 4) * depth


def drilled(diameter: float, depth: float) -> float:
    """A blind hole with the point of a 118° drill."""
    r = diameter / 2
    return pi * r * r * (depth + r / tan(radians(59)) / 3)


TAPPED = drilled(0.2010, 0.875)  # see test_bolts
PILOT = drilled(2 / INCH, 8 / INCH)


def test_nothing_overlaps():
    assert desk().clashes() == []


def test_nothing_is_in_the_way_of_the_tilting_board():
    trial = desk()
    (group,) = trial.piece.groups
    assert group.range == (-55, 0) and inches(*group.point[1:]) == pytest.approx((16.5, 29.1875))
    still = [trial.solids.solid(p.path).moved(p.frame) for p in trial.piece.parts if p.path not in group.parts]
    for degrees in range(-55, 0, 5):
        turn = turned(group.axis, degrees, group.point)
        for path in group.parts:
            moving = trial.solids.solid(path).moved(turn.after(trial.part(path).frame))
            assert not any(overlap(moving, s) for s in still), (path, degrees)


def test_hands_are_told_apart_and_counted():
    trial = desk()
    told = {k.first: k for k in kinds(trial.piece, trial.solids)}
    for first, other in (
        ("left cheek", "right cheek"),
        ("stand.left front", "stand.right front"),
        ("stand.left rear", "stand.right rear"),
        ("easel.left", "easel.right"),
        ("drawer.left", "drawer.right"),
    ):
        assert told[first].mirrored == (other,)
    assert told["easel.front"].parts == ("easel.front", "easel.back")
    # The case sides differ: only the right one carries a slide.
    assert told["case.left"].count == told["case.right"].count == 1


def test_volume_of_the_bottom():
    # Box, two tongues of 1/4 × 1/2 notched by 3/4, less the divider's dado with its half round end.
    dado = (14.25 * 0.5 + pi * 0.25**2 / 2) * 0.25
    assert cubic("bottom") == pytest.approx(32.375 * 15 * T + 2 * 0.25 * 0.5 * 14.25 - dado, rel=1e-5)


def test_tongues_are_fat_before_they_are_fitted():
    # 1/64 on the cheek of each tongue; bottom and divider have two.
    fat = 2 * 0.25 * 14.25 / 64
    for path in ("bottom", "divider"):
        assert cubic(path, Stage.PART) - cubic(path) == pytest.approx(fat, rel=1e-6)


def test_volume_of_the_divider():
    assert cubic("divider") == pytest.approx(4.5 * 15 * T + 2 * 0.25 * 0.5 * 14.25 - 3 * PILOT, rel=1e-5)


def test_volume_of_the_back():
    # Between the lips 34 − 2 × 7/16 less 1/32 a side; from 22 3/8 to 28 1/2 − 7/16 − 1/32.
    assert cubic("back") == pytest.approx(33.0625 * 5.65625 * 0.25, rel=1e-9)


def test_volume_of_a_cheek():
    bored = pi * (3 / 16) ** 2 * 1.25
    whole = 5.75 * 3.75 * 1.25 - 2 * CORNER * 1.25**2 * 1.25
    assert cubic("left cheek") == pytest.approx(whole - bored - 2 * TAPPED, rel=1e-4)


def test_volume_of_the_drawer_front():
    # Its corner nests in a rabbet corner of 11/16 with a gap of 1/32: radius 21/32.
    assert cubic("drawer.front") == pytest.approx((21.21875 * 5.65625 - CORNER * (21 / 32) ** 2) * 0.75, rel=1e-5)


def test_volume_of_an_easel_rail():
    # Mitred rail of 20: the inside is 15 long; the rabbet of 3/8 × 3/4 grows from 15 to 15 3/4 between the mitres.
    whole = (20 + 15) / 2 * 2.5 * 1.25 - 0.375 * 0.75 * 15.375
    assert cubic("easel.left") == pytest.approx(whole - 2 * slot(1, 0.375, 0.75) - TAPPED, rel=2e-5)
    whole = (33.875 + 28.875) / 2 * 2.5 * 1.25 - 0.375 * 0.75 * 29.25
    assert cubic("easel.front") == pytest.approx(whole - 2 * slot(1, 0.375, 0.75), rel=1e-5)


def test_volume_of_the_case_top():
    # Mitred board; the rear rabbet, between the mitres on average 32 3/8 + 3/8 long; the divider's dado.
    flat = (34 * T - T * T) * 16 - 0.25 * 0.375 * 32.75 - (14.25 * 0.5 + pi * 0.25**2 / 2) * 0.25
    assert cubic("case.top", Stage.PART) == pytest.approx(flat, rel=1e-5)
    # After glue-up: the front rabbet, half of whose round corners of 11/16 lies in this board, and the outside
    # corners of 1 1/8, half of each in this board.
    glued = flat - 0.75 * (0.375 * 32.75 - CORNER * (11 / 16) ** 2) - 16 * CORNER * 1.125**2
    assert cubic("case.top") == pytest.approx(glued, rel=1e-4)


def test_volume_of_the_stretcher():
    assert cubic("stand.stretcher") == pytest.approx(34 * 2.5 * 1.25 - 2 * slot(1.25, 0.375, 0.75), rel=1e-5)


def test_volume_of_a_front_leg():
    # Level at 0 and 27 3/4: 27.75 / cos 14° on the middle line. Foot corners of 76° and 104°, radius 3/8.
    long = 27.75 / cos(A)
    foot = sum((3 / 8) ** 2 * (1 / tan(p / 2) - (pi - p) / 2) for p in (radians(76), radians(104))) * 1.25
    # The outer arrises are rounded by 1/8: the front one all along, the rear one up to where the rear leg begins,
    # its foot at 1 1/4 / sin 30° below the place where the middle lines meet the joint.
    joint = (27.75 - 26.5) / cos(A) + 1.25 / sin(A + B)
    arrises = CORNER / 64 * (2 * long - joint)
    whole = long * 2.5 * 1.25 - foot - 2 * slot(0.875, 0.375, 0.75) - 2 * TAPPED - arrises
    assert cubic("stand.left front") == pytest.approx(whole, rel=2e-4)


def test_bolts():
    by_key = {}
    for f in desk().piece.fasteners:
        by_key.setdefault(f.key, []).append(f)
    # Washer 1/16 + 13/16 + 2 diameters = 1 3/8: 1 1/2 in stock, 0.625 of it in the tapped wood; one pitch more of
    # full thread, four for the tap's lead: 0.875 deep; the point 0.3 × 0.201.
    for key, count in (("A", 2), ("B", 1), ("C", 2)):
        assert [f.count for f in by_key[key]] == [count, count]
        for f in by_key[key]:
            assert inches(f.length, f.grip, f.engagement, f.drill_depth) == pytest.approx((1.5, T, 0.625, 0.875))
            assert inches(f.wood_behind) == pytest.approx((1.25 - 0.875 - 0.0603,))
            assert f.thread == "1/4-20 UNC"
    # The pivots: washer 1/16 + cheek 1 1/4 + spacer 1/16 + 1/2 = 1 7/8: 2 in stock.
    for f in by_key["D"]:
        assert inches(f.length, f.grip, f.engagement) == pytest.approx((2, 1.3125, 0.625))
        assert f.what.startswith("pivot bolt")


def test_bolts_lie_on_the_legs_middle_lines():
    # Front: 8.97 deep at 27 high, leaning 14°; rear: it meets the front leg's rear face at 26 1/2.
    low = 23.6875
    front = 8.97 - (27 - low) * tan(A)
    meet = 8.97 - 0.5 * tan(A) + 1.25 / cos(A)
    rear = meet + (26.5 - low) * tan(B)
    heads = [inches(*p) for f in desk().piece.fasteners if f.parts[0] == "case.left" for p in f.points]
    assert heads[:3] == [
        pytest.approx((T, 8.97 - 0.125 * tan(A), 26.875)),
        pytest.approx((T, front, low)),
        pytest.approx((T, rear, low)),
    ]
    # In the legs they stand on the middle of the width, in the face that lies on the case.
    for leg in ("front", "rear"):
        (row,) = desk().holes(f"stand.left {leg}")
        assert desk().part(f"stand.left {leg}").word(row.face) == "right"
        assert row.authority is Authority.MATE
        assert all(inches(p[1]) == pytest.approx((1.25,)) for p in row.points)


def test_heads_stay_clear_of_slide_and_bottom():
    (drawer,) = desk().piece.drawers
    told = {n: float(v) / INCH for n, v, _ in drawer.figures}
    assert (told["slide low"], told["slide high"]) == (24.5, 26.25)
    for f in desk().piece.fasteners:
        for p in f.points:
            up, r = p[2] / INCH, float(f.head[0]) / INCH / 2
            if told["slide front"] <= p[1] / INCH <= told["slide back"]:
                assert up + r < told["slide low"] or up - r > told["slide high"]
            assert up - r > 23.1875


def test_stick_marks_of_the_case_side():
    marks = {round(p / INCH, 4) for p, _ in desk().marks("case.left")}
    # From the lower end at 22: the bottom's tongue from 3/8 to 7/8; bolts at 26 7/8, 23 11/16, 25 1/4, 26 3/4; the mitre
    # from 28 1/2 − 13/16 (short point) to the end.
    assert {0.375, 0.875, 4.875, 1.6875, 3.25, 4.75, 5.6875, 6.5} <= marks


def test_stick_marks_of_top_and_bottom_are_the_divider():
    top = [p / INCH for p, _ in desk().marks("case.top", "dado")]
    bottom = [p / INCH for p, _ in desk().marks("bottom", "dado")]
    # The tongue is flush with the divider's right face: 13 1/8 − 1/2 to 13 1/8 from the case's left end; the bottom
    # begins 13/16 further in.
    assert top == pytest.approx([12.625, 13.125])
    assert bottom == pytest.approx([12.625 - T, 13.125 - T])


def test_acute_joint_of_the_legs():
    trial = desk()
    (joint,) = [j for j in trial.piece.joints if j.title == "stand.left rear to stand.left front"]
    told = {n: float(v) for n, v, _ in joint.figures}
    assert told["angle between length and face"] == pytest.approx(30)
    assert (told["tenons"], told["thickness"] / INCH, told["width"] / INCH, told["length"] / INCH) == pytest.approx(
        (2, 0.375, 0.875, 1.4375)  # two mortises of 3/4, less 1/32 at each end
    )
    # From the acute tip u: the wall of 1/4 at the mortise's bottom needs u = (1/4 + 3/4 · cos 30°) / sin 30° = 1.7990,
    # at the heel 5 − 1/4 / sin 30° = 4.5. Two of 7/8 with three equal gaps of 0.3170.
    low, high = (0.25 + 0.75 * cos(A + B)) / sin(A + B), 4.5
    gap = (high - low - 1.75) / 3
    # The tip is 2 1/2 above the place where the middle line meets the face, measured along the front leg.
    outs = sorted(
        float(dict(f.parameters)["out"]) / INCH for f in trial.features("stand.left rear", "mortise in a cut")
    )
    assert outs == pytest.approx(sorted(5 - u for u in (low + gap + 0.4375, low + 2 * gap + 1.3125)), abs=1e-6)


def test_frame_chain_and_board():
    (pane,) = desk().piece.panes
    told = {n: float(v) / INCH for n, v, _ in pane.figures}
    assert [told[f"{n} long"] for n in ("panel", "opening", "sight", "outside")] == pytest.approx(
        [29.5, 29.625, 28.875, 33.875]
    )
    assert [told[f"{n} wide"] for n in ("panel", "opening", "sight", "outside")] == pytest.approx(
        [15.625, 15.75, 15, 20]
    )


def test_legs_stand_on_the_floor_and_end_level():
    for path in ("stand.left front", "stand.right rear"):
        low, high = desk().solids.solid(path).moved(desk().part(path).frame).bounds
        assert (low[2] / INCH, high[2] / INCH) == (pytest.approx(0, abs=1e-6), pytest.approx(27.75))


def test_pivot_turns_in_a_sleeve():
    (bore,) = [h for h in desk().holes("left cheek") if h.purpose is Purpose.BORE]
    assert bore.depth is None and inches(bore.diameter) == pytest.approx((0.375,))
    # From the cheek's lower front corner at (13 1/2, 24 1/4).
    assert inches(*bore.points[0][:2]) == pytest.approx((29.1875 - 24.25, 3.0))
    # The frame's lower edge swings past the case's back: the pivot lies (t / 2) · tan(tilt / 2) = 0.33 or more behind.
    (group,) = desk().piece.groups
    behind = group.point[1] / INCH - float(desk().part("case.left").box[1][1]) / INCH
    assert behind == pytest.approx(0.5) and behind > 1.25 / 2 * tan(radians(-group.range[0] / 2))


ALL_FIVE = {
    "board": "7/8",
    "case_low": "21 1/2",
    "case_top": "28 3/4",
    "bottom_up": "case_low + 1/2",
    "front_lean": "13 deg",
    "rear_lean": "17 deg",
    "leg_width": "2 5/8",
    "apex": "26 1/4",
    "frame_thick": "1 3/8",
    "washer": "1/8",
}


def volumes(t: Trial):
    return {p.path: round(t.volume(p.path), 3) for p in t.piece.parts}


def dimensions(t: Trial):
    return [(p.path, s.kind, s.label, float(s.value)) for p in t.piece.parts for f in p.features for s in f.made.sizes]


def marks(t: Trial):
    return [(p.path, *m) for p in t.piece.parts for m in t.marks(p.path)]


def rows(t: Trial):
    return [
        (p.path, h.name, [tuple(map(float, q)) for q in h.points], h.depth)
        for p in t.piece.parts
        for h in t.holes(p.path)
    ]


def lengths(t: Trial):
    return [(p.path, tuple(map(float, p.size))) for p in t.piece.parts]


@pytest.mark.parametrize("name", ALL_FIVE)
def test_setting_a_size_changes_everything_alike(name):
    before, after = desk(), desk(**{name: ALL_FIVE[name]})
    for told in (volumes, dimensions, marks, rows, lengths):
        assert told(before) != told(after), told.__name__


OTHERS = {
    "width": "35", "depth": "16 1/2", "rabbet": "5/16", "bearing": "1/2", "front_thick": "7/8", "gap": "1/16",
    "back_thick": "3/16", "bay": "12", "dado": "7/16", "dado_deep": "3/16", "leg_thick": "1 3/8", "slide": "9/16",
    "slide_up": "25 1/2", "frame_width": "2 3/4", "pivot_deep": "16 5/8",
}  # fmt: skip


@pytest.mark.parametrize("name", OTHERS)
def test_every_other_size_moves_the_solids_and_the_dimensions(name):
    before, after = desk(), desk(**{name: OTHERS[name]})
    keys = [[t.solids.key(p.path) for p in t.piece.parts] for t in (before, after)]
    assert keys[0] != keys[1]
    assert dimensions(before) != dimensions(after) or lengths(before) != lengths(after)


def test_tilt_moves_the_range():
    assert desk(tilt="40 deg").piece.groups[0].range == (-40, 0)
