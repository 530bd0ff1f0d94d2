"""Figures, marks and ticks of a strip stand where their numbers say, on every piece."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.drawing.lettering import box
from docgen.drawing.records import Line, Pen, Text
from docgen.drawing.sticks.pieces import END, STEPS, Piece, Point, Side, pieces, taken
from docgen.drawing.sticks.pieces import sides as sides_of
from docgen.drawing.sticks.strip import MARK, Style, depth, places, shown, strip
from docgen.layout.model import Heights
from docgen.piece.records import BOTH, Face, Mark
from docgen.units import Units
from tests.support.metrics import RoundMetrics

INSIDE, OUTSIDE = Face(2, 1), Face(2, 0)
MM = Units()
INCH = Units("inch", Fraction(1, 32))


def style(units=MM, upright=False):
    return Style(units, Heights(), RoundMetrics(), 15.0, upright=upright)


def sides(marks, ends, datum: str, words: dict[Face, str]) -> tuple[Side, ...]:
    return sides_of(marks, ends, datum, [f"{words[m.face]} face" for m in marks])


def bookcase_marks():
    # Shelves 18 thick, first dado from 80, every 340 mm: 80–98, 420–438, 760–778.
    return [Mark(Fraction(80 + 340 * k + d), w, "dado", INSIDE) for k in range(3) for d, w in ((0, -1), (18, 1))]


def cut(every, ends, way, longest=230.0):
    def fits(start, end):
        from_to = next(iter(pieces(start, end, longest=1e9, step=10, taken=(), fits=lambda a, b: True)))
        return all(places(shown(s, from_to), from_to, way) is not None for s in every)

    return pieces(*ends, longest=longest, step=STEPS[way.units.system], taken=taken(every), fits=fits)


def test_every_mark_is_drawn_at_its_position_with_its_running_figure() -> None:
    every = sides(bookcase_marks(), (Fraction(0), Fraction(900)), "bottom end", {INSIDE: "right"})
    way = style()
    found, figures = [], []
    for piece in cut(every, (0.0, 900.0), way):
        records = strip(piece, every, way, ("Stick 1", "side"), 4)
        found += [r.a[0] for r in records if isinstance(r, Line) and r.a[0] == r.b[0] and {r.a[1], r.b[1]} == {0, MARK}]
        figures += [r.text for r in records if isinstance(r, Text) and r.bold and r.height == 3.5]
    for position in (80, 98, 420, 438, 760, 778):
        assert float(position) in found
        assert str(position) in figures


def test_ticks_stand_at_round_distances_from_the_datum_on_each_piece() -> None:
    every = sides(bookcase_marks(), (Fraction(0), Fraction(900)), "bottom end", {INSIDE: "right"})
    way = style()
    seen = set()
    for piece in cut(every, (0.0, 900.0), way):
        records = strip(piece, every, way, ("Stick 1", "side"), 4)
        numbers = {
            r.at[0]: r.text for r in records if isinstance(r, Text) and r.anchor == "middle" and r.text.isdigit()
        }
        scale = {x: t for x, t in numbers.items() if x % 50 == 0 and t == f"{x:.0f}"}
        assert scale
        seen |= set(scale)
        for x in scale:
            assert any(isinstance(r, Line) and r.a[0] == x == r.b[0] for r in records)
    assert {100.0, 200.0, 300.0, 400.0, 500.0, 600.0, 700.0, 800.0} <= seen | {
        p.end for p in cut(every, (0.0, 900.0), way)
    }


def test_inch_scale_counts_inches() -> None:
    every = sides([Mark(Fraction(254), 0, "hole A", INSIDE)], (Fraction(0), Fraction(508)), "left end", {INSIDE: "top"})
    way = style(INCH)
    for piece in cut(every, (0.0, 508.0), way):
        for r in strip(piece, every, way, ("Stick 1", "rail"), 3):
            if isinstance(r, Text) and r.text.isdigit() and r.height < 3:
                assert r.at[0] == pytest.approx(25.4 * int(r.text))


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.integers(1, 1999), min_size=1, max_size=20, unique=True).map(sorted),
    st.integers(150, 260),
    st.sampled_from([MM, INCH]),
)
def test_pieces_cover_the_stick_and_join_at_round_distances(positions, longest, units) -> None:
    marks = [Mark(Fraction(p), 0, "hole", INSIDE) for p in positions]
    every = sides(marks, (Fraction(0), Fraction(2000)), "bottom end", {INSIDE: "right"})
    found = cut(every, (0.0, 2000.0), style(units, upright=True), float(longest))
    assert found[0].start < 0
    assert found[-1].end > 2000
    step = STEPS[units.system]
    for a, b in pairwise(found):
        assert a.end == b.start
        assert a.end / step == pytest.approx(round(a.end / step))
    for piece in found:
        assert piece.end - piece.start <= longest + 1e-6
    labelled = [p for piece in found for p in shown(every[0], piece) if p.wood != END]
    assert [float(p.position) for p in labelled] == [float(p) for p in positions]


def test_joins_keep_out_of_a_cut() -> None:
    every = sides(bookcase_marks(), (Fraction(0), Fraction(900)), "bottom end", {INSIDE: "right"})
    for piece in cut(every, (0.0, 900.0), style()):
        for low in (80, 420, 760):
            assert not low - 5 < piece.end < low + 18 + 5


def test_a_piece_is_shortened_until_its_labels_fit() -> None:
    marks = [Mark(Fraction(10 * k), 0, f"hole {k}", INSIDE) for k in range(1, 90)]
    every = sides(marks, (Fraction(0), Fraction(900)), "bottom end", {INSIDE: "right"})
    way = style(upright=True)
    found = cut(every, (0.0, 900.0), way)
    assert all(places(shown(every[0], p), p, way) is not None for p in found)


def test_two_faces_take_both_edges() -> None:
    marks = [*bookcase_marks(), Mark(Fraction(100), 0, "hole A", OUTSIDE)]
    every = sides(marks, (Fraction(0), Fraction(900)), "bottom end", {INSIDE: "right", OUTSIDE: "left"})
    assert [s.word for s in every] == ["right face", "left face"]
    way = style()
    first = cut(every, (0.0, 900.0), way)[0]
    records = strip(first, every, way, ("Stick 1", "side"), 5)
    tops = {
        max(r.a[1], r.b[1])
        for r in records
        if isinstance(r, Line) and r.a[0] == r.b[0] == 100.0 and r.pen is Pen.CENTRE
    }
    assert max(tops) == max(r.a[1] for r in records if isinstance(r, Line))


def test_where_wood_stays_on_both_sides_nothing_is_crossed_out() -> None:
    def crosses(wood: int) -> int:
        marks = [Mark(Fraction(60), wood, "tongue, shoulder", INSIDE)]
        every = sides(marks, (Fraction(0), Fraction(90)), "left end", {INSIDE: "top"})
        records = strip(cut(every, (0.0, 90.0), style())[0], every, style(), ("Stick 1", "shelf"), 1)
        near = [r for r in records if isinstance(r, Line) and max(r.a[1], r.b[1]) < MARK - 1.5]
        return sum(r.a[0] != r.b[0] and r.a[1] != r.b[1] for r in near)

    assert crosses(-1) >= 2
    assert crosses(BOTH) == 0


def test_datum_takes_the_words_of_a_mark_that_stands_there() -> None:
    (side,) = sides(
        [Mark(Fraction(0), 1, "tongue, shoulder", INSIDE)], (Fraction(-6), Fraction(100)), "left end", {INSIDE: "top"}
    )
    assert side.points == (
        Point(Fraction(-6), END, "end of the blank"),
        Point(0, END, "datum: left end; tongue, shoulder"),
        Point(Fraction(100), END, "end of the blank"),
    )


def test_a_last_piece_too_short_for_its_words_takes_from_the_one_before() -> None:
    # Joins that go as far as they can would leave the last 11 mm for the words of the end.
    busy = ((200.0, 200.0), (450.0, 450.0), (700.0, 700.0), (727.0, 727.0))

    def fits(start: float, end: float) -> bool:
        return end - start >= 60

    made = pieces(0.0, 727.0, longest=245.0, step=10.0, taken=busy, fits=fits)
    assert all(fits(p.start, p.end) for p in made)
    assert [a.end for a in made[:-1]] == [b.start for b in made[1:]]
    assert all(p.end - p.start <= 245.0 for p in made)


def test_words_with_stacked_fractions_keep_off_each_other() -> None:
    way = style(INCH)
    marks = [Mark(Fraction(254), -1, "dado 2, stops 0.866 ≈ 55⁄64 + 0.007 in 7⁄8 from the front edge", INSIDE)]
    every = sides(marks, (Fraction(0), Fraction(500)), "bottom end", {INSIDE: "right"})
    for piece in cut(every, (0.0, 500.0), way):
        records = strip(piece, every, way, ("Stick 1", "side"), 4)
        top = depth(every, way)
        said = [r for r in records if isinstance(r, Text)]
        boxes = [box(r, way.metrics).bounds() for r in said]
        for i, (x0, y0, x1, y1) in enumerate(boxes):
            assert 0 <= y0 < y1 <= top
            for u0, v0, u1, v1 in boxes[:i]:
                assert min(x1, u1) <= max(x0, u0) + 1e-6 or min(y1, v1) <= max(y0, v0) + 1e-6


def test_long_words_of_an_upright_label_are_wrapped_so_that_the_strip_fits_its_page() -> None:
    long = "dado; right face: end against back left leg, long point, bottom edge, and then some more words"
    every = sides([Mark(Fraction(40), 1, long, INSIDE)], (Fraction(0), Fraction(90)), "front end", {INSIDE: "left"})
    way = style(upright=True)
    assert depth(every, way) < 130
    (piece,) = cut(every, (0.0, 90.0), way)
    told = [r for r in strip(piece, every, way, ("Stick 1", "apron"), 1) if isinstance(r, Text) and r.angle == 90.0]
    assert " ".join(r.text for r in told if not r.bold and r.text in long and "blank" not in r.text) == long
    spots = [box(r, RoundMetrics()) for r in told]
    assert all(
        abs(a.x - b.x) > a.half_h + b.half_h - 0.2 or abs(a.y - b.y) > a.half_w + b.half_w
        for i, a in enumerate(spots)
        for b in spots[i + 1 :]
    )


def test_a_last_piece_has_room_for_its_words_even_where_every_place_lies_between_marks() -> None:
    """A groove from 5 to 275 of 280 mm leaves no place for a join that is clear of both its ends."""
    marks = [Mark(Fraction(5), -1, "groove stops", INSIDE), Mark(Fraction(275), 1, "groove stops", INSIDE)]
    every = sides(marks, (Fraction(0), Fraction(280)), "front end", {INSIDE: "left"})
    way = style()

    def fits(start: float, end: float) -> bool:
        trial = Piece(0, start, end, start < 0, end > 280)
        return all(places(shown(side, trial), trial, way) is not None for side in every)

    for longest in (120.0, 150.0, 200.0, 230.0):
        for piece in pieces(0.0, 280.0, longest=longest, step=STEPS["mm"], taken=taken(every), fits=fits):
            assert all(places(shown(side, piece), piece, way) is not None for side in every), (longest, piece)
