import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from docgen.drawing.breaks import broken, zigzag
from docgen.drawing.dimensions.wanted import Angular, Callout, Linear
from docgen.geometry.lines import ArcOf, Drawn, Stroke


def rail(length: float = 1800.0, *, dado: float = 300.0) -> Drawn:
    """A long rail with a dado near its left end and a hole near its right one."""
    outline = [((0, 0), (length, 0)), ((length, 0), (length, 60)), ((length, 60), (0, 60)), ((0, 60), (0, 0))]
    cut = [((dado, 0), (dado, 60)), ((dado + 20, 0), (dado + 20, 60))]
    hole = Stroke((length - 40, 30), (length - 40, 30), 0, arc=ArcOf((length - 50, 30), 10, 0, 360))
    dashed = (Stroke((0, 20), (length, 20), 0),)
    return Drawn((*(Stroke(a, b, 0) for a, b in (*outline, *cut)), hole), dashed)


OVERALL = Linear("0", (0.0, 0.0), (1800.0, 0.0), (1.0, 0.0), "1800", overall=True)
DADO = Linear("1", (0.0, 0.0), (300.0, 0.0), (1.0, 0.0), "300")
HOLE = Callout("2", (1750.0, 30.0), 10.0, ("⌀20 THRU",))
WAYS = {"least": 150.0, "margin": 30.0, "gap": 12.0}


def test_the_stretches_that_hold_nothing_go_and_figures_stay_true() -> None:
    made = broken(rail(), [OVERALL, DADO, HOLE], 0, **WAYS)
    assert [(g.low, g.high) for g in made.gone] == [(30.0, 270.0), (350.0, 1710.0)]
    assert made.taken == pytest.approx((240 - 12) + (1360 - 12))
    overall, dado, hole = made.wanted
    assert isinstance(overall, Linear) and isinstance(dado, Linear) and isinstance(hole, Callout)
    assert [overall.text, dado.text, hole.lines[0]] == ["1800", "300", "⌀20 THRU"]
    assert overall.b[0] == pytest.approx(1800 - made.taken)
    assert dado.b[0] == pytest.approx(300 - 228)
    assert hole.at[0] == pytest.approx(1750 - made.taken)


def test_lines_are_parted_at_the_breaks_and_keep_their_ink_elsewhere() -> None:
    whole = rail()
    made = broken(whole, [], 0, **WAYS)
    ends = made.ends()
    for stroke in (*made.drawn.visible, *made.drawn.hidden):
        low, high = sorted((stroke.a[0], stroke.b[0]))
        for a, b in ends:
            assert high <= a + 1e-9 or low >= b - 1e-9
    lost = sum(g.high - g.low for g in made.gone)
    ink = [sum(math.dist(s.a, s.b) for s in d.visible) for d in (whole, made.drawn)]
    assert ink[0] - ink[1] == pytest.approx(2 * lost)  # two edges run along the rail
    assert len(made.drawn.hidden) == 3


def test_a_hole_is_moved_with_its_circle() -> None:
    made = broken(rail(), [], 0, **WAYS)
    (hole,) = (s for s in made.drawn.visible if s.arc is not None)
    assert hole.arc is not None
    assert hole.arc.centre == pytest.approx((1750 - made.taken, 30))
    assert hole.arc.radius == 10 and hole.a[0] == pytest.approx(hole.arc.centre[0] + 10)


def test_upright_members_break_upward() -> None:
    turned = Drawn(tuple(Stroke((s.a[1], s.a[0]), (s.b[1], s.b[0]), 0) for s in rail().visible if s.arc is None), ())
    made = broken(turned, [], 1, **WAYS)
    assert made.gone and max(p[1] for s in made.drawn.visible for p in (s.a, s.b)) == pytest.approx(1800 - made.taken)


def test_a_taper_is_never_broken() -> None:
    slanted = Drawn((Stroke((0, 0), (1000, 0), 0), Stroke((0, 60), (1000, 40), 0)), ())
    assert broken(slanted, [], 0, **WAYS).gone == ()
    angle = Angular("a", (100.0, 0.0), (900.0, 0.0), (100.0, 50.0), "90°")
    straight = Drawn((Stroke((0, 0), (1000, 0), 0), Stroke((0, 60), (1000, 60), 0)), ())
    assert all(g.high <= 100 or g.low >= 900 for g in broken(straight, [angle], 0, **WAYS).gone)


def test_a_short_part_stays_whole() -> None:
    short = rail(400.0, dado=150.0)
    made = broken(short, [DADO], 0, least=250.0, margin=30.0, gap=12.0)
    assert made.gone == () and made.drawn == short and made.wanted == (DADO,)


@example(1699.0, 1710.0)
@given(st.floats(0, 1800), st.floats(0, 1800))
def test_places_keep_their_order_and_never_grow_apart(a: float, b: float) -> None:
    made = broken(rail(), [], 0, **WAYS)
    p, q = (made.place((v, 0.0))[0] for v in sorted((a, b)))
    left_out = any(g.low < v < g.high for g in made.gone for v in (a, b))  # it stands where the open gap begins
    assert -1e-9 <= q - p <= abs(b - a) + (WAYS["gap"] if left_out else 0.0) + 1e-9


def test_no_line_no_zigzag() -> None:
    assert zigzag((1.0, 1.0), (1.0, 1.0)) == []
