from math import cos, radians, tan

import pytest

from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.slanted_tenon import SlantedTenon
from docgen.piece.records import Face
from tests.piece.joints.making import one_problem, trial
from tests.piece.operations.trial import board, proven

# A post 60 × 30 and a rail 80 wide, 30 thick. The rail reaches 10 into the post and is turned about the place where its
# middle line meets the post's face: 370 of the middle line is left.
RAIL = """
parts:
  post: {of: board, grain: up, box: {across: [0, 30], deep: [0, 60], up: [0, 400]}}
  rail: {of: board, grain: across, box: {across: [%s, 400], deep: [10, 40], up: [300, 380]},
    turn: {about: deep, at: {across: 30, up: 340}, by: %s deg}}
joints:
  - mortise and tenon: {end: rail, into: post, %s}
"""
SAID = "thickness: 10, shoulder: {top: 12, bottom: 8}, length: 20"


def leaning(said: str = SAID, by: int = 5, low: int = 20) -> str:
    return RAIL % (low, by, said)


@pytest.mark.parametrize("by", [5, -5])
def test_the_tenon_stands_square_to_its_slanted_shoulders(by):
    frame = trial(leaning(by=by), thick="30")
    wide = 80 / cos(radians(5)) - 12 - 8
    assert frame.figure("mortise and tenon", "tenon width") == pytest.approx(wide)
    assert frame.volume("rail") == pytest.approx(370 * 80 * 30 + 20 * wide * 10)
    assert frame.volume("post") == pytest.approx(400 * 60 * 30 - 21.5 * wide * 10)
    # The cut end reaches from 340 − 40 / cos 5° to 340 + 40 / cos 5° up; the tenon is level.
    low, high = 340 - 40 / cos(radians(5)) + 8, 340 + 40 / cos(radians(5)) - 12
    for x in (29.9, 10.1):
        assert frame.inside("rail", (x, 20.1, low + 0.1)) and not frame.inside("rail", (x, 20.1, low - 0.1))
        assert frame.inside("rail", (x, 29.9, high - 0.1)) and not frame.inside("rail", (x, 29.9, high + 0.1))
        assert not frame.inside("rail", (x, 19.9, 340)) and not frame.inside("rail", (x, 30.1, 340))
    assert not frame.inside("rail", (9.9, 25, 340)) and not frame.inside("post", (8.6, 25, 340))
    assert frame.clashes() == []
    assert frame.joint("mortise and tenon").closes == pytest.approx((-1, 0, 0))


def test_a_through_tenon_ends_flush_and_may_be_rounded():
    frame = trial(leaning("thickness: 10, shoulder: {top: 12, bottom: 8}, through: yes, rounded: yes"), thick="30")
    assert frame.inside("rail", (0.1, 25, 340)) and not frame.inside("rail", (-0.1, 25, 340))
    assert not frame.inside("rail", (15, 20.2, 340 + 40 / cos(radians(5)) - 12.2)) and frame.clashes() == []
    (hole,) = frame.features("post", "mortise")
    assert "square" not in hole.made.settings[0].note


def test_the_blank_is_longer_by_the_farthest_corner_of_the_tenon():
    frame = trial(leaning(), thick="30")
    low, high = frame.part("rail").span(0)
    # Along the rail: 10 to the face in the middle, 20 · cos 5° on, and the tenon's upper edge sin 5° of its 28.15 further.
    rise = (40 / cos(radians(5)) - 12) * cos(radians(85))
    assert (float(low), float(high)) == pytest.approx((10 - 20 * cos(radians(5)) - rise, 380))


def test_the_template_shows_the_shoulders_and_the_tenon():
    frame = trial(leaning(), thick="30")
    (tenon,) = frame.features("rail", "tenon on a cut")
    (template,) = tenon.made.templates
    assert template.title == "shoulders of the tenon, 5°"
    points = [e.end for e in template.outline.edges]
    assert len(points) == 8 and sum(
        a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1], strict=True)
    ) / 2 == pytest.approx(1.5 * 80 * 80 + (80 * tan(radians(5))) * 80 / 2 + 20 * (80 / cos(radians(5)) - 20))
    # The tenon's tip lies 20 off the shoulders.
    tips = sorted(points)[:2]
    assert abs(tips[0][1] - tips[1][1]) == pytest.approx((80 / cos(radians(5)) - 20) * cos(radians(5)))


@pytest.mark.parametrize(
    ("said", "low", "code"),
    [
        # 20 · tan 5° = 1.75 is what the tenon leans out of the rail's width without a shoulder.
        ("thickness: 10, length: 20, shoulder: {top: 1, bottom: 8}", 20, ""),
        ("thickness: 10, length: 20, shoulder: {top: 8, bottom: 1}", 20, "tenon-outside"),
        ("thickness: 31, length: 20, shoulder: {top: 12}", 20, "tenon-too-thick"),
        ("thickness: 10, length: 20, shoulder: {top: 12, bottom: 70}", 20, "tenon-too-narrow"),
        ("thickness: 10, length: 20, shoulder: {top: 12}, haunch: {top: 5}", 20, "tenon-skew"),
        ("thickness: 10, through: yes, shoulder: {top: 12}, wedges: {by: 2}", 20, "tenon-skew"),
        (SAID, 30, "parts-do-not-meet"),
        (SAID, 60, "parts-do-not-meet"),
    ],
)
def test_what_cannot_be_is_told(said, low, code):
    body = leaning(said, low=low)
    if code:
        assert one_problem(body, thick="30").code == code
    else:
        assert trial(body, thick="30").clashes() == []


def test_a_rail_turned_about_its_own_length_is_told():
    body = leaning(low=30).replace("about: deep, at: {across: 30, up: 340}", "about: across, at: {deep: 25, up: 340}")
    assert one_problem(body, thick="30").code == "tenon-skew"


@pytest.mark.parametrize("end", [Face(0, 0), Face(0, 1)])
@pytest.mark.parametrize("slopes", [(-10.0, 4.0), (6.0, -3.0)])
@pytest.mark.parametrize("rounded", [False, True])
def test_each_number_shapes_the_tenon_and_is_told(end, slopes, rounded):
    cut = EndCut(end, 340 if end.side else 60, slopes, "shoulders")
    proven(SlantedTenon(cut, (0.0, 1.0, 0.0), 20, 90, 6.0, 14.0, 20, rounded=rounded), board(), derived=["short point"])


def test_lengths_are_told_from_shoulder_to_shoulder():
    """A rail between two posts, shorter below than above: its edges by tan 5° of their distance."""
    body = leaning().replace(
        "  rail:", "  other: {of: board, grain: up, box: {across: [400, 430], deep: [0, 60], up: [0, 400]}}\n  rail:"
    )
    body = body.replace("into: post", "into: [post, other]").replace("[20, 400]", "[20, 425]")
    frame = trial(body, thick="30")
    told = {
        s.label: float(s.value)
        for s in frame.sizes("rail", "tenon on a cut")
        if "finished" in s.note or "reference" in s.note
    }
    # The posts are upright and both ends lean alike: both edges are 370 / cos 5° long.
    assert told and all(v == pytest.approx(370 / cos(radians(5))) for v in told.values())
    assert frame.clashes() == []
