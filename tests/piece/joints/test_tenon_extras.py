from math import pi

import pytest

from docgen.geometry.solids import overlap
from docgen.piece import loose
from docgen.piece.records import Stage
from tests.piece.joints.making import problems, size_of, trial

# A post 30 × 60 and a rail 80 wide, 30 thick, whose top is level with the post's top.
TOP = """
parts:
  post: {of: board, grain: up, box: {across: [0, 30], deep: [0, 60], up: [0, 400]}}
  rail: {of: board, grain: across, box: {across: [30, 400], deep: [10, 40], up: [%s, %s]}}
joints:
  - mortise and tenon: {end: rail, into: post, thickness: 10, %s}
"""
HAUNCHED = TOP % (320, 400, "length: 20, shoulder: {top: 25, bottom: 10}, haunch: {top: 6}, deeper: 1")


def test_a_haunch_fills_a_trench_that_is_open_at_the_top_of_the_post():
    frame = trial(HAUNCHED, thick="30")
    # Tenon 45 × 10 × 20, haunch 25 × 10 × 6; the mortise 21 deep, its haunch 7.
    assert frame.volume("rail") == pytest.approx(370 * 80 * 30 + 10 * (45 * 20 + 25 * 6))
    assert frame.volume("post") == pytest.approx(400 * 60 * 30 - 10 * (45 * 21 + 25 * 7))
    assert frame.clashes() == []
    assert frame.inside("rail", (25, 25, 399)) and not frame.inside("rail", (23, 25, 399))
    assert not frame.inside("post", (24, 25, 399.9)) and frame.inside("post", (22, 25, 399))
    assert size_of(frame.sizes("rail", "tongue"), "haunch_high") == 6
    sizes = frame.sizes("post", "mortise")
    assert (size_of(sizes, "steps.0.reach"), size_of(sizes, "steps.0.deep")) == (25, 7)


def test_a_haunch_below_the_top_of_the_post_is_closed_in():
    frame = trial(HAUNCHED.replace("[320, 400]", "[300, 380]"), thick="30")
    assert frame.inside("post", (29, 25, 380.5)) and not frame.inside("post", (29, 25, 379.5))
    assert frame.clashes() == []


def test_a_haunch_may_stand_at_the_bottom():
    frame = trial(TOP % (0, 80, "length: 20, shoulder: {top: 10, bottom: 25}, haunch: {bottom: 6}"), thick="30")
    assert frame.inside("rail", (25, 25, 1)) and not frame.inside("post", (25, 25, 1))
    assert frame.clashes() == []


def test_rounded_tenon_fits_a_mortise_as_the_router_leaves_it():
    frame = trial(
        TOP % (300, 380, "length: 20, shoulder: {top: 12, bottom: 8}, rounded: yes, deeper: 1, fat: 0"), thick="30"
    )
    flat = (60 - 10) * 10 + pi * 25
    assert frame.volume("post") == pytest.approx(400 * 60 * 30 - flat * 21, rel=1e-5)
    assert frame.volume("rail") == pytest.approx(370 * 80 * 30 + flat * 20, rel=1e-5)
    assert frame.clashes() == []
    (hole,) = frame.features("post", "mortise")
    assert "square" not in hole.made.settings[0].note
    (tenon,) = frame.features("rail", "tongue")
    assert ("edges rounded, radius", 5, "length") in tenon.made.settings[0].values


WEDGED = TOP % (300, 380, "through: yes, shoulder: {top: 10, bottom: 10}, fat: 0, wedges: {by: 2, kerf: 1, deep: 18}")


def test_wedged_tenon_has_two_kerfs_and_its_mortise_widens_to_the_far_face():
    frame = trial(WEDGED, thick="30")
    assert frame.volume("rail") == pytest.approx(370 * 80 * 30 + 60 * 10 * 30 - 2 * 18 * 1 * 10)
    # From a quarter of 30 on both ends lean out by 2: two triangles of 22.5 × 2 / 2.
    assert frame.volume("post") == pytest.approx(400 * 60 * 30 - 60 * 10 * 30 - 2 * 22.5 * 2 / 2 * 10)
    # The far face is at 0 across, the entry at 30; up the mortise goes from 310 to 370.
    assert not frame.inside("post", (0.1, 25, 371.9)) and frame.inside("post", (23, 25, 370.1))
    # A kerf stands (60 − 2) / 6 in from the edge, to the half millimetre 9.5.
    y = 310 + 9.5 + 0.5
    assert not frame.inside("rail", (17.9, 25, y)) and frame.inside("rail", (18.1, 25, y))
    (item,) = frame.piece.items
    assert (item.what, item.size, item.count) == ("wedge of hardwood", "3 × 10 × 18 mm", 2)
    assert frame.clashes() == []
    assert {f.stage for f in frame.features("rail")} == {Stage.PART}


def test_the_wedges_are_solids_and_spread_the_outer_strips():
    """Each is 1 thick at the bottom of its kerf, 3 at the tip, 18 long and 10 wide: (1 + 3)/2 × 18 × 10 = 360."""
    frame = trial(WEDGED, thick="30")
    low, high = frame.joint("mortise and tenon").loose
    for wedge in (low, high):
        assert loose.solid(wedge.shape).volume == pytest.approx(360)
        assert (wedge.what, [float(v) for _, v in wedge.told]) == ("wedge", [3, 10, 18])
    # Kerfs from 319.5 and from 359.5, 1 wide; the core between them stays straight, the strips outside bend away by 2.
    spans = [loose.solid(w.shape).moved(w.frame).bounds for w in (low, high)]
    assert [z for lo, hi in spans for z in (lo[2], hi[2])] == pytest.approx([317.5, 320.5, 359.5, 362.5])
    assert [x for lo, hi in spans for x in (lo[0], hi[0])] == pytest.approx([0, 18, 0, 18])
    post = frame.solids.solid("post").moved(frame.part("post").frame)
    assert all(overlap(loose.solid(w.shape).moved(w.frame), post) is None for w in (low, high))


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ("length: 20, shoulder: {top: 25}, haunch: {bottom: 6}", "haunch-range"),
        ("length: 20, shoulder: {top: 25}, haunch: {top: 20}", "haunch-range"),
        ("length: 20, shoulder: {top: 12}, wedges: {by: 2}", "wedges-blind"),
        ("through: yes, shoulder: {top: 12}, wedges: {by: 2, deep: 30}", "depth-range"),
        ("through: yes, shoulder: {top: 12}, wedges: {by: 2, kerf: 35}", "kerfs-crowded"),
        ("length: 20, shoulder: {top: 72}, rounded: yes", "tongue-rounded"),
    ],
)
def test_what_cannot_be_cut_is_told(said, code):
    assert code in {p.code for p in problems(TOP % (310, 390, said), thick="30")}
