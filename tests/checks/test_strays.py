from dataclasses import replace

from docgen.checks import strays
from docgen.piece.model import Drawer, Item, Joint, Piece, Sets
from docgen.schedules.glueups import glueups
from docgen.schedules.gluing import unjoined
from docgen.schedules.putting_together import laid_in
from tests.piece.joints.making import trial
from tests.support.checking import codes, found
from tests.support.pieces import part, piece


def three(gap: float, **more: object) -> Piece:
    return piece(
        part("left", ((0, 20), (0, 300), (0, 700))),
        part("shelf", ((20, 400), (0, 300), (100, 120)), "across", number=2),
        part("stray", ((400 + gap, 420 + gap), (0, 300), (0, 700)), number=3),
        **more,
    )


def test_a_part_that_touches_nothing() -> None:
    (f,) = [f for f in found(strays, three(0.25)) if f.code == "stray-part"]
    assert (f.code, f.parts) == ("stray-part", ("stray",))


def test_a_part_within_a_fifth_of_a_millimetre_touches() -> None:
    assert set(codes(strays, three(0))) == set(codes(strays, three(0.1))) == {"part-unjoined"}


def test_a_joint_or_a_drawer_holds_across_a_gap() -> None:
    assert "stray-part" not in codes(strays, three(5, joints=(Joint("pivot", "pivot", ("shelf", "stray"), ()),)))
    drawer = Drawer("d", ("shelf", "stray"), ((0, 1), (0, 1), (0, 1)), 1, 1, 1)
    assert "stray-part" not in codes(strays, three(5, drawers=(drawer,)))


def test_a_part_that_only_touches_is_told_as_the_order_of_work_tells_it() -> None:
    glued = Joint("dowel", "dowel", ("left", "shelf"), (("left", "x"),))
    of = three(0, joints=(glued,))
    (f,) = found(strays, of)
    assert (f.code, f.grade, f.parts) == ("part-unjoined", "note", ("stray",))
    (step,) = unjoined(of)
    assert step.parts == f.parts and "no joint of the drawings holds" in step.what
    assert codes(strays, three(0, joints=(glued, Joint("dowel", "d", ("stray", "shelf"), (("stray", "y"),))))) == []


def test_a_lone_part_is_no_stray() -> None:
    assert codes(strays, piece(part("bench", ((0, 20), (0, 300), (0, 700))))) == []


def frame_and_case(*more: Joint) -> Piece:
    """A case of two boards, and before it a frame of two stiles that a rail joins; `more` may tie the two."""
    return piece(
        part("side", ((0, 20), (20, 300), (0, 700))),
        part("floor", ((20, 400), (20, 300), (0, 20)), "across", number=2),
        part("stile", ((0, 40), (0, 20), (0, 700)), number=3),
        part("rail", ((40, 400), (0, 20), (0, 40)), "across", number=4),
        joints=(
            Joint("dowel", "", ("side", "floor"), (("side", "x"),)),
            Joint("dowel", "", ("stile", "rail"), (("stile", "y"),)),
            *more,
        ),
    )


def test_a_frame_that_nothing_ties_to_its_case_is_told_and_gets_a_step() -> None:
    of = frame_and_case()
    (f,) = [f for f in found(strays, of) if f.code == "group-unjoined"]
    assert set(f.parts) == {"stile", "rail"} and "part-unjoined" not in codes(strays, of)
    (step,) = unjoined(of)
    assert step.parts == f.parts and "no joint of the drawings ties them" in step.what


def test_a_joint_or_a_stated_fixing_ties_it() -> None:
    assert codes(strays, frame_and_case(Joint("dowel", "", ("stile", "side"), (("stile", "z"),)))) == []
    glue = Item("glue", 1, sets=Sets.FIXES, parts=("stile",))
    assert codes(strays, replace(frame_and_case(), items=(glue,))) == []


def test_what_the_file_states_to_fix_is_a_step_even_where_a_joint_names_the_part() -> None:
    screws = Item("wood screws", 9, "3.5 × 25", sets=Sets.FIXES, parts=("stile",))
    of = replace(frame_and_case(), items=(screws,))
    (step,) = unjoined(of)
    assert step.what.startswith("Fix stile with 9 × wood screws, 3.5 × 25")
    assert list(unjoined(of, ("stile",))) == []  # told where it is put in


def test_a_back_in_rabbets_without_a_fixing_is_told() -> None:
    text = """
parts:
  left: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 400]}}
  right: {of: board, grain: up, box: {across: [380, 400], deep: [0, 200], up: [0, 400]}}
  shelf: {of: board, grain: across, box: {across: [20, 380], deep: [0, 194], up: [100, 120]}}
  back: {of: thin, grain: up, box: {across: [10, 390], deep: [194, 200], up: [0, 400]}}
joints:
  - housing: {shelf: shelf, into: [left, right], depth: 6}
  - panel in rabbet: {panel: back, into: [left, right], gap: 1}
"""
    fixed = "  - fixed: {parts: back, with: brads, count: 20}\n"
    for more, told in (("", ["panel-unfixed"]), (fixed, [])):
        of = trial(text + more).piece
        assert codes(strays, of) == told
        (step,) = [r for r in laid_in(of, glueups(of)) if r.key == "lay back"]
        assert ("20 × brads" in step.what) is bool(more) and ("states no fixing" in step.what) is not bool(more)
