import pytest

from docgen.geometry.shapes import turned
from docgen.geometry.solids import overlap
from tests.piece.joints.making import Trial, one_problem, trial

CASE = """
parts:
  left: {of: board, grain: up, box: {across: [0, 20], deep: [0, 250], up: [0, 600]}}
  right: {of: board, grain: up, box: {across: [380, 400], deep: [0, 250], up: [0, 600]}}
assemblies:
  door:
    door:
      opening: {across: [left.right, right.left], deep: [0, 250], up: [20, 580]}
      thickness: 20
      %s
      material: board
      width: 50
      half laps: yes
      panel: {material: thin, thickness: 6, groove: 8, clearance: 2}
      %s
"""
HINGES = "hinges: {on: %s, side: %s, kind: butt hinge 50 mm, count: 2, opens: 100}"


def edges(fit: str) -> tuple[object, ...]:
    made = trial(CASE % (fit, ""))
    left, right = made.part("door.left stile"), made.part("door.right stile")
    assert made.clashes() == []
    return (left.box[0][0], right.box[0][1], *left.box[2], *left.box[1])


@pytest.mark.parametrize(
    ("fit", "box"),
    [
        ("gap: 2", (22, 378, 22, 578, 0, 20)),
        ("gap: 2\n      gaps: {right: 1, top: 3}\n      set back: 4", (22, 379, 22, 577, 4, 24)),
        ("overlay: 12", (8, 392, 8, 592, -20, 0)),
        ("overlays: {left: 12, right: -1, bottom: 10, top: 10}\n      behind: 1", (8, 379, 10, 590, -21, -1)),
    ],
)
def test_a_door_stands_in_or_over_its_opening(fit: str, box: tuple[int, ...]) -> None:
    assert edges(fit) == box


@pytest.mark.parametrize("fit", ["", "gap: 2\n      overlay: 3", "gaps: {left: 2}"])
def test_gaps_or_an_overlay_are_said_for_every_edge(fit: str) -> None:
    assert one_problem(CASE % (fit, "")).code == "door-fit"


def swung(made: Trial, degrees: float) -> float:
    """Return the door's reach in front of the case, mm, when it is opened so far; nothing may be in its way."""
    (group,) = made.piece.groups
    turn = turned(group.axis, degrees, group.point)
    solids = {p: made.solids.solid(p).moved(turn.after(made.part(p).frame)) for p in group.parts}
    for other in ("left", "right"):
        still = made.solids.solid(other).moved(made.part(other).frame)
        assert not any(overlap(s, still) for s in solids.values())
    return -min(s.bounds[0][1] for s in solids.values())


@pytest.mark.parametrize(("side", "sign"), [("left", -1), ("right", 1)])
def test_it_swings_forward_about_the_hinged_edge(side: str, sign: int) -> None:
    made = trial(CASE % ("gap: 2", HINGES % (side, side)))
    (group,) = made.piece.groups
    assert group.parts == tuple(f"door.{n}" for n in ("left stile", "right stile", "bottom rail", "top rail", "panel"))
    assert sorted(group.range) == ([-100, 0] if sign < 0 else [0, 100])
    # Opened square it stands 356 out, its whole width.
    assert swung(made, 90 * sign) == pytest.approx(356)
    assert {p.group for p in made.piece.parts} == {"", "door"}
    hung = made.joint("hung")
    assert hung.parts == (f"door.{side} stile", side) and made.figure("hung", "clearance") == 2
    (item,) = made.piece.items
    assert (item.what, item.count) == ("butt hinge 50 mm", 2)


def test_a_pair_of_doors_is_one_and_its_mirror() -> None:
    text = (
        CASE.replace("across: [left.right, right.left]", "across: [left.right, 200]")
        + """
mirrors:
  right door: {of: door, about: {across: 200}, pairs: [[left, right]]}
"""
    )
    made = trial(text % ("gap: 2\n      gaps: {right: 1}", HINGES % ("left", "left")))
    assert made.part("right door.right stile").box[0] == (328, 378)
    first, second = made.piece.groups
    assert second.name == "right door" and second.range == (0, 100)
    assert second.point[0] == 400 - first.point[0]
    assert [i.count for i in made.piece.items] == [2, 2]
    assert made.clashes() == []


LET_IN = """hinges: {on: left, side: left, opens: 95, at: [120, 480],
        let in: {length: 50, leaf: 14, thickness: 1.5, barrel: 6, out: 4, screw: 15}}"""


def test_hinges_are_let_into_door_and_case() -> None:
    made = trial(CASE % ("gap: 2", LET_IN))
    assert made.joint("hinge").parts == ("door.left stile", "left")
    # The closed hinge measures 6, the gap is 2: each leaf is let in 2, over 50 × (14 − 4).
    for path in ("door.left stile", "left"):
        assert len(made.features(path, "leaf recess")) == 2
    (group,) = made.piece.groups
    assert group.name == "door" and set(group.parts) == {p.path for p in made.piece.parts if p.group == "door"}
    assert swung(made, -90) == pytest.approx(356, abs=6)
    hinges, screws = made.piece.items
    assert (hinges.count, hinges.what, screws.count) == (2, "butt hinge", 12)


def test_hinges_of_the_other_hand_are_let_in_there() -> None:
    text = (
        CASE.replace("across: [left.right, right.left]", "across: [left.right, 200]")
        + """
mirrors:
  right door: {of: door, about: {across: 200}, pairs: [[left, right]]}
"""
    )
    made = trial(text % ("gap: 2", LET_IN))
    assert len(made.features("right", "leaf recess")) == 2
    assert made.volume("left") == pytest.approx(made.volume("right"), rel=1e-9)
    assert made.piece.items[-2].where.startswith("right door.right stile to ")
