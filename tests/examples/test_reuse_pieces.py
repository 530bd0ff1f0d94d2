"""The door cabinet, the map case and the settle: what is said once, and stands twice or more."""

from math import cos, pi, radians, sin, tan

import pytest

from docgen.geometry.shapes import turned
from docgen.geometry.solids import overlap
from docgen.piece.kinds import kinds
from docgen.units import Number
from tests.examples.test_pieces import example
from tests.piece.joints.making import INCH, Trial


def counts(made: Trial) -> dict[str, tuple[int, int]]:
    return {k.first: (len(k.parts), len(k.mirrored)) for k in kinds(made.piece, made.solids)}


def figure(made: Trial, name: str) -> Number:
    return next(value.value for size, value, _ in made.piece.sizes if size == name)


def test_doors_are_a_left_and_a_right() -> None:
    cabinet = example("door-cabinet")
    told = counts(cabinet)
    # The hinges are let into the outer stiles alone.
    assert told["left door.left stile"] == (1, 1) and told["left door.right stile"] == (1, 1)
    assert told["left door.left bead"] == (4, 0)
    assert told["case.left"] == (1, 1) and told["case.shelf 1"] == (4, 0)
    # 800 less 2 × 20 of sides; a gap at each side, half of one to either side of the middle.
    gap = figure(cabinet, "gap")
    left, right = cabinet.part("left door.left stile"), cabinet.part("left door.right stile")
    assert (left.box[0][0], right.box[0][1]) == (20 + gap, 400 - gap / 2)
    assert cabinet.part("right door.left stile").box[0][0] == 400 + gap / 2
    pane = cabinet.part("left door.pane")
    assert pane.size[1] == 380 - gap * 3 / 2 - 2 * 55 + 2 * 10 - 2 * 2
    # Door: from the lowest shelf's underside at 80 to the top one's upper face at 1000, less the gaps.
    assert left.box[2] == (80 + gap, 1000 - gap) and pane.size[0] == 920 - 2 * gap - 80 - 55 + 20 - 4


def test_a_stile_of_the_cabinet_keeps_what_is_not_cut() -> None:
    cabinet = example("door-cabinet")
    # Two mortises 36.5 deep and 7 wide, 80 and 55 less both shoulders of 14; the rabbet of 10 × 12 round the pane.
    long = 920 - 2 * figure(cabinet, "gap")
    whole = long * 55 * 20 - 36.5 * 7 * (80 - 28 + 55 - 28) - float(long - 80 - 55 + 20) * 10 * 12
    assert cabinet.volume("left door.right stile") == pytest.approx(whole, rel=1e-6)
    assert cabinet.volume("right door.left stile") == pytest.approx(whole, rel=1e-6)


@pytest.mark.parametrize("name", ["door-cabinet", "map-case"])
def test_doors_swing_clear_of_everything(name: str) -> None:
    made = example(name)
    for group in made.piece.groups:
        still = [made.solids.solid(p.path).moved(p.frame) for p in made.piece.parts if p.path not in group.parts]
        for share in (0.05, 0.3, 1.0):
            turn = turned(group.axis, share * float(min(group.range, key=lambda a: -abs(a))), group.point)
            for path in group.parts:
                moving = made.solids.solid(path).moved(turn.after(made.part(path).frame))
                assert not any(overlap(moving, s) for s in still), (path, share)


def test_map_case_tells_the_chain_of_its_pane() -> None:
    case = example("map-case")
    (pane,) = case.piece.panes
    told = {name: float(value) for name, value, kind in pane.figures}
    # Outside 760 × 560, rails of 48, 10 of rabbet, 2 of clearance.
    assert (told["sight long"], told["opening long"], told["pane long"]) == (664, 684, 680)
    assert (told["sight wide"], told["opening wide"], told["pane wide"]) == (464, 484, 480)
    assert told["bed"] == 1 and pane.rabbet == (10, 13)
    told = counts(case)
    assert told["front.bottom"] == (2, 0) and told["front.left"] == told["front.right"] == (
        1,
        0,
    )  # hinges are let into the left


def test_settle_back_leans_as_a_whole() -> None:
    settle = example("settle")
    told = counts(settle)
    assert told["slat.1"] == (9, 0) and told["left end"] == (1, 1)
    assert told["left stile"] in ((1, 1), (2, 0))
    lean = radians(12)
    for path in ("left stile", "crest", "foot rail", "slat.5", "right stile"):
        # Every part's broad faces lean by 12°: 15 3/4 deep at 17 1/2 up, further back above.
        _, y, z = settle.part(path).frame.direction((0.0, 0.0, 1.0))
        assert abs(y) == pytest.approx(cos(lean)) and abs(z) == pytest.approx(sin(lean))
    top = settle.part("left stile").frame.point((20 * INCH, 1.0, 0.0))
    assert top[2] / INCH == pytest.approx(17.5 + 20 * cos(lean), abs=0.25)
    # Between the stiles 42 3/4: nine slats and ten spaces of 2 1/4 each.
    firsts = [float(settle.part(f"slat.{n}").box[0][0]) / INCH for n in range(1, 10)]
    assert firsts == pytest.approx([1.125 + 2.5 + 2.25 + 4.5 * k for k in range(9)])


def test_settle_screws_lie_on_the_stiles_middle_lines() -> None:
    settle = example("settle")
    heads = sorted(tuple(float(c) / INCH for c in p) for f in settle.piece.fasteners for p in f.points)
    assert len(heads) == 4 and {f.parts for f in settle.piece.fasteners} == {
        ("left end", "left stile"),
        ("right end", "right stile"),
    }
    for x, y, z in heads:
        middle = 15.75 + (z - 17.5) * tan(radians(12)) + 1.125 / 2 / cos(radians(12))
        assert y == pytest.approx(middle) and min(x, 50 - x) == pytest.approx(0.375)
    for path in ("left stile", "right stile"):
        (row,) = settle.holes(path)
        assert all(float(p[2]) / INCH == pytest.approx(9 / 16) for p in row.points)


def test_volume_of_a_slat_and_an_end() -> None:
    settle = example("settle")
    # Between the rails 20 − 3 1/2 − 2 1/2 = 14; tenons of 5/8 × 1 1/2 × 3/8 at both ends.
    slat = 14 * 2.25 * 0.625 + 2 * 0.625 * 1.5 * 0.375
    assert settle.volume("slat.3") / INCH**3 == pytest.approx(slat, rel=1e-6)
    ends = [settle.volume(p) for p in ("left end", "right end")]
    assert ends[0] == pytest.approx(ends[1], rel=1e-9)
    corners = 2 * (1 - pi / 4) * 4 * 1.125
    assert ends[0] / INCH**3 < 25 * 20.5 * 1.125 - corners
