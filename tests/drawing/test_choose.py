from fractions import Fraction
from typing import Any

import pytest

from docgen.drawing.choose import figures, overall, plan, rank
from docgen.drawing.once import Figure, counted, merged, underived
from docgen.drawing.unfold import stations
from docgen.geometry.shapes import Frame
from docgen.piece.model import Material, Part
from docgen.piece.operations.base import parameters
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.hole import Hole
from docgen.piece.operations.slot import SlottedHole
from docgen.piece.operations.tongue import Tongue
from docgen.piece.operations.turned import Station, Turned
from docgen.piece.records import Authority, Face, Feature, Made, Size, SizeKind, Stage
from tests.support.by_hand import arrow_value
from tests.support.pieces import part

WORDS = (
    ("bottom", Face(0, 0)),
    ("top", Face(0, 1)),
    ("front", Face(1, 0)),
    ("back", Face(1, 1)),
    ("left", Face(2, 0)),
    ("right", Face(2, 1)),
)


TOP = Face(2, 1)


def board(*operations: Dado | Hole | Tongue | SlottedHole) -> Part:
    material = Material("boards", Fraction(20), species="black cherry")
    bare = Part("side", 1, material, (Fraction(600), Fraction(250), Fraction(20)), Frame(), WORDS, "up")
    features = tuple(
        Feature(f"{op.word} {n}", op.word, op.word, Stage.PART, op.made(bare), parameters(op))
        for n, op in enumerate(operations)
    )
    return Part("side", 1, material, bare.size, Frame(), WORDS, "up", features)


def dado(low: int) -> Dado:
    return Dado(Face(2, 1), 1, Fraction(low), Fraction(low + 20), Fraction(6), start=Fraction(12))


def unseen(face: Face, size: Size) -> bool:
    return face.side == 1


def test_the_whole_comes_first() -> None:
    first = figures(board(dado(100)))[:3]
    assert [float(f.size.value) for f in first] == [600, 250, 20]
    assert all(f.overall for f in first)


def test_every_size_is_told_once() -> None:
    part = board(dado(100), dado(300), dado(450))
    told = [s for f in figures(part) for s in f.sizes]
    wanted = [s for f in part.features for s in f.made.sizes]
    assert all(told.count(s) <= wanted.count(s) for s in wanted)
    assert all(any(t.parameters == s.parameters and t.value == s.value for t in told) for s in wanted)
    values = [(f.size.label, f.size.value, f.size.start, f.size.end) for f in figures(part)]
    assert len(set(values)) == len(values)


def test_alike_sizes_are_counted() -> None:
    part = board(dado(100), dado(300), dado(450))
    assert {(f.size.label, f.count) for f in figures(part) if f.size.label} == {("dado", 3), ("deep", 3), ("stop", 3)}


def test_every_figure_measures_what_it_says() -> None:
    for f in figures(board(dado(100), Hole(Face(2, 1), ((Fraction(50), Fraction(40)),), Fraction(8)))):
        assert arrow_value(f.size) == pytest.approx(float(f.size.value))


def test_a_length_that_others_add_up_to_is_dropped() -> None:
    def size(a: float, b: float, label: str = "") -> Size:
        return Size(SizeKind.LENGTH, (a, 0, 0), (b, 0, 0), (1, 0, 0), b - a, ("at",), Face(2, 1), label=label)

    made = Made(sizes=(size(0, 100), size(100, 130), size(0, 130), size(0, 130, "rabbet")))
    plain = Part("p", 1, board().material, board().size, Frame(), WORDS, "up")
    part = Part(
        "p", 1, plain.material, plain.size, Frame(), WORDS, "up", (Feature("f", "cut", "cut", Stage.PART, made),)
    )
    told = [(f.size.label, f.size.value) for f in figures(part) if not f.overall]
    assert told == [("", 100), ("rabbet", 130)]


def test_through_holes_are_told_on_the_principal_face() -> None:
    part = board(dado(100), Hole(Face(2, 0), ((Fraction(50), Fraction(40)),), Fraction(8)))
    chosen = plan(part, figures(part), unseen)
    assert chosen.first == Face(2, 1)
    assert Face(2, 0) not in chosen.others


def test_blind_holes_behind_need_a_view_of_their_own() -> None:
    part = board(dado(100), Hole(Face(2, 0), ((Fraction(50), Fraction(40)),), Fraction(8), depth=Fraction(10)))
    assert Face(2, 0) in plan(part, figures(part), unseen).others


def test_a_turned_part_is_seen_from_its_end() -> None:
    for profile in ((Station(0, 30), Station(400, 30)), (Station(0, 30), Station(200, 20), Station(400, 30))):
        bare = part("leg", ((0, 30), (0, 30), (0, 400)))
        turned = Feature("turned 1", "turned", "turned", Stage.PART, Turned(profile).made(bare))
        leg = part("leg", ((0, 30), (0, 30), (0, 400)), features=(turned,))
        chosen = plan(leg, figures(leg), lambda face, size: True)
        assert [face.axis for face in chosen.others] == [0]


def test_a_depth_is_told_on_the_edge_where_its_lines_are_seen() -> None:
    part = board(dado(100))
    assert Face(1, 1) in plan(part, figures(part), unseen).others


def test_the_sizes_of_a_dado_fix_its_parameters_and_no_more() -> None:
    part = board(dado(100))
    feature = part.features[0]
    answer = rank(feature.parameters, feature.made.sizes)
    assert answer.loose == ()
    assert answer.doubled == ()


def test_the_rank_names_what_is_loose_and_what_is_doubled() -> None:
    feature = board(dado(100)).features[0]
    without = tuple(s for s in feature.made.sizes if s.parameters != ("depth",))
    assert rank(feature.parameters, without).loose == ("depth",)
    twice = (*feature.made.sizes, feature.made.sizes[0])
    assert rank(feature.parameters, twice).doubled == (feature.made.sizes[0],)


def test_what_lies_along_the_far_end_is_placed_by_its_own_width() -> None:
    places = [float(f.size.value) for f in figures(board(dado(100), dado(580))) if not f.size.label and not f.overall]
    assert 100 in places
    assert 580 not in places
    assert 579 in [float(f.size.value) for f in figures(board(dado(579))) if not f.overall]


def test_width_and_thickness_of_what_is_turned_to_them_are_told_by_its_diameter() -> None:
    bare = part("leg", ((0, 30), (0, 30), (0, 400)))
    turned = Feature("turned 1", "turned", "turned", Stage.PART, Turned((Station(0, 30), Station(400, 30))).made(bare))
    leg = part("leg", ((0, 30), (0, 30), (0, 400)), features=(turned,))
    assert [(f.size.kind, float(f.size.value)) for f in figures(leg)] == [
        (SizeKind.LENGTH, 400.0),
        (SizeKind.DIAMETER, 30.0),
    ]
    assert len(figures(bare)) == 3


def test_a_length_for_reference_is_not_told_beside_the_one_that_is_cut_to() -> None:
    def size(label: str, *parameters: str) -> Size:
        return Size(SizeKind.LENGTH, (0, 0, 0), (90, 0, 0), (1.0, 0.0, 0.0), 90, parameters, Face(2, 1), label=label)

    for order in ((size("edge"), size("first cut", "at")), (size("first cut", "at"), size("edge"))):
        (one,) = merged(tuple(Figure(s, feature=f"end cut {n}") for n, s in enumerate(order)))
        assert one.size.label == "first cut"
        assert {s.label for s in one.sizes} == {"edge", "first cut"}
    assert len(merged((Figure(size("a", "at")), Figure(size("b", "at"))))) == 2


@pytest.mark.parametrize("third", [True, False])
@pytest.mark.parametrize("upright", [True, False])
def test_views_stand_where_the_projection_puts_them(third: bool, upright: bool) -> None:
    others = (Face(0, 1), Face(1, 0), Face(1, 1), Face(0, 0))
    first, *rest = stations(Face(2, 1), others, upright=upright, third=third)
    assert first.view.toward == (0, 0, 1)
    for s in rest:
        side = s.view.toward
        right = sum(a * b for a, b in zip(side, first.view.right, strict=True))
        up = sum(a * b for a, b in zip(side, first.view.up, strict=True))
        sign = 1 if third else -1
        assert (s.column, s.row) == (sign * right, sign * up)
        if s.column:
            assert s.view.up == first.view.up
        else:
            assert s.view.right == first.view.right


@pytest.mark.parametrize("third", [True, False])
@pytest.mark.parametrize("upright", [True, False])
@pytest.mark.parametrize("sides", [(0,), (1,), (0, 1), ()])
def test_the_face_behind_stands_beyond_the_side_about_which_it_unrolls(
    third: bool, upright: bool, sides: tuple[int, ...]
) -> None:
    others = (*(Face(1, s) for s in sides), Face(2, 0))
    *beside, behind = stations(Face(2, 1), others, upright=upright, third=third)[1:]
    at = (behind.column, behind.row)
    assert sum(map(abs, at)) == 2
    assert not beside or any(at == (2 * s.column, 2 * s.row) for s in beside)  # never next to the face in front of it


def test_empty_lists_stay_empty() -> None:
    assert merged(()) == underived(()) == counted(()) == ()
    assert len(overall(board())) == 3


def test_the_place_of_a_cut_rules_over_how_far_another_stops_before_the_far_end() -> None:
    """180 from the near end and 80 from the far end of 260 say one thing: the second is for reference."""

    def size(a: float, b: float, label: str = "") -> Size:
        return Size(SizeKind.LENGTH, (a, 0, 0), (b, 0, 0), (1.0, 0.0, 0.0), abs(b - a), ("at",), TOP, label=label)

    whole = Figure(size(0, 260), overall=True)
    place, stop = Figure(size(0, 180), feature="dado 1"), Figure(size(260, 180, "stop"), feature="dado 2", run=True)
    told = underived((whole, stop, place))
    assert [(float(f.size.value), f.reference) for f in told] == [(260.0, False), (80.0, True), (180.0, False)]
    width = Figure(size(180, 260, "rabbet"), feature="rabbet 1")
    assert [(float(f.size.value), f.reference) for f in underived((whole, width, place))] == [
        (260.0, False),
        (80.0, False),
    ]


def test_equal_cuts_on_two_faces_are_counted() -> None:
    def cut(face: Face, n: int, low: float) -> list[Figure]:
        u = 1 if face.axis == 2 else 2
        way = tuple(float(i == u) for i in range(3))
        wall = tuple(low * c for c in way)
        other = tuple((low + 8) * c for c in way)
        long = Size(SizeKind.LENGTH, (458, 0, 0), (526, 0, 0), (1.0, 0.0, 0.0), 68, ("length",), face, label="mortise")
        wide = Size(SizeKind.LENGTH, wall, other, way, 8, ("width",), face)
        return [Figure(s, feature=f"mortise {n}", word="mortise") for s in (long, wide)]

    every = (*cut(Face(2, 0), 1, 10.0), *cut(Face(1, 1), 2, 24.0))
    told = counted(underived(merged(every)), lambda size: False)
    assert [(float(f.size.value), f.count) for f in told] == [(68.0, 2), (8.0, 2)]


def along_width(low: float, high: float, **more: Any) -> Size:
    return Size(SizeKind.LENGTH, (0, low, 0), (0, high, 0), (0.0, 1.0, 0.0), high - low, face=TOP, **more)


def test_what_is_cut_fat_does_not_tell_the_width_of_another_cut_in_the_same_place() -> None:
    fat = along_width(8, 17, authority=Authority.FIT, over=0.5, parameters=("high", "low", "over"))
    tenon = Figure(fat, feature="tenon 1", word="tenon")
    mortise = Figure(along_width(8, 17, parameters=("width",)), feature="mortise 1", word="mortise")
    for every in ((tenon, mortise), (mortise, tenon)):
        told = underived(merged(every))
        assert {(f.word, float(f.size.value), f.reference) for f in told} == {
            ("tenon", 9.0, False),
            ("mortise", 9.0, False),
        }


def test_equal_cuts_in_one_line_are_counted_but_not_their_place_from_the_edge() -> None:
    whole = Figure(along_width(0, 40), overall=True)
    cuts = [
        Figure(along_width(*ends, parameters=(name,)), feature=f"mortise {n}", word="mortise")
        for n in range(3)
        for ends, name in (((8, 17), "width"), ((0, 8), "low"))
    ]
    told = counted(underived(merged((whole, *cuts))), lambda size: size.start[1] == 0)
    assert [(float(f.size.value), f.count) for f in told] == [(40.0, 1), (9.0, 3), (8.0, 1)]


@pytest.mark.parametrize(("low", "high", "reference"), [(6, 14, True), (5, 13, False)])
def test_how_far_in_a_tenon_begins_that_is_called_centred_is_for_reference(
    low: int, high: int, reference: bool
) -> None:
    tenon = Tongue(Face(0, 1), Fraction(low), Fraction(high), Fraction(30), over=Fraction(1, 2))
    told = [f for f in figures(board(tenon)) if f.size.parameters == ("low",)]
    assert [f.reference for f in told] == [reference]


def test_the_slot_for_a_head_is_told_with_its_length_for_reference() -> None:
    slot = SlottedHole(
        TOP, (Fraction(100), Fraction(60)), 0, Fraction(21, 2), Fraction(7, 2), (Fraction(9), Fraction(3))
    )
    told = {float(f.size.value): f.reference for f in figures(board(slot)) if f.size.label == "counterbore"}
    assert told == {9.0: False, 16.0: True}  # 9 and the travel, 10.5 less 3.5
