"""From long point to long point: where the wood of a part ends that is cut at slants."""

import math
from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.piece.model import Part
from docgen.piece.operations.end_cut import Bevel, EndCut
from docgen.piece.operations.reached import reached
from docgen.piece.records import Face, Feature, Stage
from docgen.schedules.terms import finished
from tests.piece.joints.making import one_problem, trial
from tests.piece.operations.trial import board, worked
from tests.support.steps import example


def cut(*operations: Bevel | EndCut, stage: Stage = Stage.PART) -> Part:
    """Return the board of 400 × 120 × 20 with cuts, each worked out beside the others."""
    part = board()
    for _ in operations:
        made = [Feature(f"{o.word} {n}", o.word, o.label, stage, o.made(part)) for n, o in enumerate(operations)]
        part = replace(part, features=tuple(made))
    return part


@pytest.mark.parametrize("angle", [20, 45])
@pytest.mark.parametrize("inset", [0, 30])
def test_slants_at_both_ends_reach_from_long_point_to_long_point(angle: int, inset: int) -> None:
    ends = [Bevel(Face(0, side), Face(2, 1), angle, inset) for side in (0, 1)]
    part = cut(*ends)
    assert reached(part)[0] == (inset, 400 - inset)
    assert finished(part) == (400 - 2 * inset, 120, 20)


def test_an_uncut_part_and_one_cut_later_reach_as_far_as_their_blank() -> None:
    assert reached(board()) == ((0, 400), (0, 120), (0, 20))
    late = Bevel(Face(0, 0), Face(2, 1), 45, 30)
    assert reached(cut(late, stage=Stage.GLUED))[0] == (0, 400)


def test_a_point_that_another_cut_takes_away_is_in_the_air() -> None:
    # One plane at 60° from square would reach 400 at the low edge; the square cut at 300 leaves it there.
    part = cut(EndCut(Face(0, 1), 400, (-60, 0)), EndCut(Face(0, 1), 300))
    assert reached(part)[0] == (0, 300)
    # Two slants that meet: x = 400 − u·tan 60° and x = 250 + u·tan 30° meet at u = 150 / (tan 60° + tan 30°).
    part = cut(EndCut(Face(0, 1), 400, (-60, 0)), EndCut(Face(0, 1), 250, (30, 0)))
    u = 150 / (math.tan(math.radians(60)) + math.tan(math.radians(30)))
    assert float(reached(part)[0][1]) == pytest.approx(250 + u * math.tan(math.radians(30)), abs=1e-6)


def test_the_solid_says_the_same() -> None:
    op = EndCut(Face(0, 1), 380, (-50, 12))
    assert float(reached(cut(op))[0][1]) == pytest.approx(worked(op, board()).bounds[1][0], abs=1e-6)


def test_what_no_slant_decides_stays_exact() -> None:
    assert reached(cut(Bevel(Face(0, 0), Face(2, 1), 33, 7)))[0] == (7, 400)
    assert all(isinstance(v, (int, Fraction)) for v in reached(cut(Bevel(Face(0, 0), Face(2, 1), 33, 7)))[1])


# A strut at 45° between a post and an arm; its low end is drawn `more` longer than its middle line needs.
STRUT = """
parts:
  post: {of: board, grain: up, box: {across: [0, 30], deep: [300, 330], up: [0, 600]}}
  arm: {of: board, grain: deep, box: {across: [0, 30], deep: [0, 300], up: [570, 600]}}
  strut: {of: board, grain: up, box: {across: [0, 30], deep: [285, 315], up: [%d, 700]},
    turn: {about: across, at: {deep: 300, up: 350}, by: 45 deg}}
joints:
  - loose tenon: {end: strut, into: post, thickness: 8, width: 16, depth: 12, wall: 4}
  - loose tenon: {end: strut, into: arm, thickness: 8, width: 16, depth: 12, wall: 4}
"""


def test_a_strut_is_as_long_as_its_long_points_are_apart() -> None:
    frame = trial(STRUT % 300, thick="30")
    # The middle line runs 220 up, at 45°: 220·√2; half the thickness more at either end.
    assert float(finished(frame.piece.part("strut"))[0]) == pytest.approx(220 * math.sqrt(2) + 30, abs=1e-6)
    first, second = frame.features("strut", "end cut")
    stop = {name: value for name, value, kind in first.made.settings[0].places if kind == "length"}
    assert float(stop["long point from the uncut top end"]) == pytest.approx(220 * math.sqrt(2) + 30, abs=1e-6)
    assert "long side from the bottom end" in {name for name, _, _ in second.made.settings[0].places}


def test_a_strut_whose_box_stays_short_at_a_corner_is_told_with_the_length_that_lacks() -> None:
    problem = one_problem(STRUT % 340, thick="30")
    assert problem.code == "parts-do-not-meet"
    assert "stays 5 mm short of post" in problem.message


def test_a_side_that_begins_at_the_short_point_of_the_far_cut_says_so() -> None:
    # the foot's cut runs 0.717 back over 2 1/2 in; the strut's short side is told from there, its stick counts from the long point
    part = example("sketching-desk")[0].part("stand.left rear")
    cut = next(f for f in part.features if f.title == "end against stand.left front")
    ((name, value, _),) = cut.made.settings[0].places
    assert name == "short side from the short point of the bottom end"
    assert any("from the short point of the bottom end to its short point" in s.note for s in cut.made.sizes)
    long = next(m.position for m in cut.made.marks)
    assert float(long - value) == pytest.approx(2.5 * math.tan(math.radians(16)) * 25.4, abs=1e-6)
