import math
from itertools import pairwise

import pytest

from docgen.drawing import views
from docgen.drawing.records import Arc, Line, Path, Pen
from docgen.drawing.specks import clear, larger
from docgen.geometry.lines import ArcOf, Drawn, Stroke, View
from docgen.piece.records import Face, HoleRow, Purpose

FRONT = View((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


def test_lines_arcs_and_chains_come_out_at_scale() -> None:
    arc = ArcOf((10.0, 0.0), 5.0, 0.0, 90.0)
    drawn = Drawn(
        (
            Stroke((0, 0), (10, 0), 0),
            Stroke((15, 0), (10, 5), 0, arc=arc),
            Stroke((0, 0), (1, 1), 0, chain=4),
            Stroke((1, 1), (2, 3), 0, chain=4),
        ),
        (Stroke((0, 5), (10, 5), 0),),
    )
    records = views.stroke_records(drawn, 0.5, (100, 50))
    assert records[0] == Line((100, 52.5), (105, 52.5), Pen.HIDDEN)
    assert records[1] == Line((100, 50), (105, 50), Pen.VISIBLE)
    assert records[2] == Arc((105, 50), 2.5, 0, 90, Pen.VISIBLE)
    assert records[3] == Path(((100, 50), (100.5, 50.5), (101, 51.5)), Pen.VISIBLE)
    assert views.bounds(drawn) == pytest.approx((0, 0, 15, 5))


def test_chords_stay_near_their_arc() -> None:
    arc = Arc((3, 4), 20, 30, 200)
    chords = views.chords(arc)
    assert math.dist(chords[0][0], (3, 4)) == pytest.approx(20)
    for a, b in chords:
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        assert 20 - math.dist(middle, (3, 4)) <= views.SAG + 1e-9


def test_later_cuts_are_what_the_part_does_not_show_yet() -> None:
    now = Drawn((Stroke((0, 0), (10, 0), 0), Stroke((10, 0), (10, 5), 0)), ())
    new = Stroke((0, 2), (10, 2), 0)
    later = Drawn((Stroke((0, 0), (6, 0), 0), new), ())
    assert views.later_strokes(now, later) == [new]


def test_holes_get_centre_marks_from_the_mouth_and_axes_from_beside() -> None:
    row = HoleRow("A", Purpose.PLAIN, Face(2, 1), ((20, 10, 20),), (0.0, 0.0, -1.0), 8, "8", depth=12)
    face = views.centre_lines([row], (100, 50, 20), FRONT, 1.0, (0, 0))
    assert len(face) == 2
    edge = views.centre_lines([row], (100, 50, 20), View((1.0, 0.0, 0.0), (0.0, 0.0, 1.0)), 1.0, (0, 0))
    (axis,) = edge
    assert isinstance(axis, Line)
    assert axis.a[0] == axis.b[0] == 20
    assert {axis.a[1] > 20, axis.b[1] < 8} == {True}


def test_a_blind_hole_has_no_centre_mark_on_the_face_that_it_does_not_reach() -> None:
    blind, through = (
        HoleRow("A", Purpose.PLAIN, Face(2, 0), ((20, 10, 0),), (0.0, 0.0, 1.0), 8, "8", depth=deep)
        for deep in (12, None)
    )
    assert views.centre_lines([blind], (100, 50, 20), FRONT, 1.0, (0, 0)) == []
    assert len(views.centre_lines([through], (100, 50, 20), FRONT, 1.0, (0, 0))) == 2


def test_specks_go_and_steps_of_an_outline_stay() -> None:
    long = Stroke((0.0, 0.0), (100.0, 0.0), 0)
    other = Stroke((100.0, 3.0), (200.0, 3.0), 0)
    step = Stroke((100.0, 0.0), (100.0, 3.0), 0)  # from the end of one to the end of the other
    tick = Stroke((50.0, 0.0), (50.0, 3.0), 0)  # from the middle of one into the air
    hole = Stroke((33.0, 20.0), (33.0, 20.0), 0, arc=ArcOf((30.0, 20.0), 3.0, 0.0, 360.0))
    wide = Stroke((45.0, 40.0), (45.0, 40.0), 0, arc=ArcOf((30.0, 40.0), 15.0, 0.0, 360.0))
    drawn = Drawn((long, other, step, tick, hole, wide), ())
    assert views.without_specks(drawn, 7.0).visible == (long, other, step, wide)
    assert views.without_specks(drawn, 1.0) is drawn


def test_what_is_left_of_a_line_that_went_goes_and_an_outline_stays_closed() -> None:
    """Of a slot's two sides one is drawn; of the end of a board a piece ends where a line went, and it still closes."""
    slot, hook = Stroke((0.0, 0.0), (100.0, 0.0), 0), Stroke((100.0, 0.0), (100.0, 3.0), 0)
    near, far = Stroke((0.0, 50.0), (100.0, 50.0), 0), Stroke((0.0, 56.0), (100.0, 56.0), 0)
    first, last = Stroke((100.0, 50.0), (100.0, 53.0), 0), Stroke((100.0, 53.0), (100.0, 56.0), 0)
    drawn = Drawn((slot, hook, near, far, first, last), ())
    assert views.without_specks(drawn, 5.0).visible == (slot, near, far, first, last)


def test_a_hidden_tick_goes_and_a_short_side_of_a_hidden_recess_stays() -> None:
    """The mitre of two round-overs seen from the other side is a stroke in the corner; the recess closes with its side."""
    rim = tuple(
        Stroke(a, b, 0) for a, b in pairwise([(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0), (0.0, 0.0)])
    )
    mitre = Stroke((0.0, 60.0), (2.0, 58.0), 0)
    recess = (
        Stroke((30.0, 0.0), (30.0, 2.0), 0),
        Stroke((30.0, 2.0), (60.0, 2.0), 0),
        Stroke((60.0, 0.0), (60.0, 2.0), 0),
    )
    drawn = Drawn(rim, (mitre, *recess))

    def dashed(scale: float) -> int:
        return sum(r.pen is Pen.HIDDEN for r in views.stroke_records(drawn, scale, (0.0, 0.0)) if isinstance(r, Line))

    assert (dashed(1.0), dashed(2.0)) == (3, 4)  # 2.8 mm on paper, and 5.7


def test_hidden_lines_go_that_would_be_specks_on_paper() -> None:
    """A pilot hole of 2 mm behind a face is half a millimetre at 1:4; what closes a gap in a visible line stays."""
    hole = Stroke((5.0, 5.0), (5.0, 5.0), 0, arc=ArcOf((4.0, 5.0), 1.0, 0.0, 360.0))
    notch = (
        Stroke((20.0, 0.0), (20.0, 3.0), 0),
        Stroke((20.0, 3.0), (23.0, 3.0), 0),
        Stroke((23.0, 3.0), (23.0, 0.0), 0),
    )
    behind = Stroke((40.0, 20.0), (42.0, 20.0), 0)
    seen = (
        Stroke((0.0, 20.0), (40.0, 20.0), 0),
        Stroke((42.0, 20.0), (90.0, 20.0), 0),
        Stroke((0.0, 0.0), (90.0, 0.0), 0),
    )
    drawn = Drawn(seen, (hole, *notch, behind))
    assert clear(drawn, 1.0) == drawn
    assert clear(drawn, 0.7).hidden == (*notch, behind)  # 1.4 mm, and 2.1
    assert clear(drawn, 0.25).hidden == (behind,)
    assert larger([hole, *notch], 0.7) == list(notch)


def test_rounded_edges_are_thin_lines_clear_of_their_ends() -> None:
    drawn = Drawn(
        (
            Stroke((0.0, 0.0), (100.0, 0.0), 0),
            Stroke((0.0, 9.0), (100.0, 9.0), 0, kind="tangent"),
            Stroke((0.0, 12.0), (9.0, 12.0), 0, kind="tangent"),  # too short
        ),
        (),
    )
    soft, edge = views.soft_records(drawn, 0.5, (0.0, 0.0))
    assert soft == Line((1.0, 4.5), (49.0, 4.5), Pen.THIN)
    assert edge == Line((0.0, 0.0), (50.0, 0.0), Pen.VISIBLE)
