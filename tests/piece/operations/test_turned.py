import math
from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.geometry.outlines import area, faults
from docgen.piece.faults import Fault
from docgen.piece.operations.turned import BEAD, COVE, Station, Turned, _reversed
from docgen.piece.records import Face, SizeKind
from tests.piece.operations.trial import board, changed, figures_measure_what_they_say, made, parameters, worked


def stick(long: float = 400, square: float = 40):  # type: ignore[no-untyped-def]
    return board(long, square, square)


def frustum(d1: float, d2: float, high: float) -> float:
    return math.pi * high / 12 * (d1 * d1 + d1 * d2 + d2 * d2)


WHOLE = Turned((Station(0, 25), Station(100, 36), Station(300, 36), Station(400, 20)))


def test_tapers_and_a_cylinder() -> None:
    expected = frustum(25, 36, 100) + math.pi * 18**2 * 200 + frustum(36, 20, 100)
    solid = worked(WHOLE, stick())
    assert solid.volume == pytest.approx(expected, rel=1e-3)
    assert solid.pieces == 1
    assert {s.kind for s in solid.marked.surfaces} == {"cone", "cylinder"}


def test_what_is_not_turned_stays_square() -> None:
    solid = worked(Turned((Station(100, 30), Station(300, 30))), stick())
    assert solid.volume == pytest.approx(40 * 40 * 200 + math.pi * 225 * 200, rel=1e-3)
    assert any("square" in a.text for a in made(Turned((Station(100, 30), Station(300, 30))), stick()).assumed)


def test_a_shoulder_where_two_stations_stand_at_one_place() -> None:
    tenon = Turned((Station(0, 36), Station(360, 36), Station(360, 20), Station(400, 20)))
    assert worked(tenon, stick()).volume == pytest.approx(math.pi * (18**2 * 360 + 100 * 40), rel=1e-3)
    assert [m.label for m in made(tenon, stick()).marks] == ["A", "B; C", "D"]


def test_a_rod_tells_its_diameter_once_where_it_is_seen_round() -> None:
    rod = Turned((Station(0, 36), Station(400, 36)))
    (told,) = [s for s in made(rod, stick()).sizes if s.kind is SizeKind.DIAMETER]
    assert (told.value, told.face, told.other) == (36, Face(0, 1), None)
    assert told.parameters == ("stations.0.diameter", "stations.1.diameter")
    inner = made(Turned((Station(100, 36), Station(300, 36))), stick()).sizes  # its circle is hidden by the square end
    assert [s.label for s in inner if s.kind is SizeKind.DIAMETER] == ["A", "B"]


def test_half_round_bead_and_cove() -> None:
    """Pappus: the half disc's centroid lies 4r/3π from its flat."""
    r = 5.0
    half, off = math.pi * r * r / 2, 4 * r / (3 * math.pi)
    bead = Turned((Station(0, 26), Station(100, 26, BEAD), Station(110, 26), Station(400, 26)))
    cove = Turned((Station(0, 26), Station(100, 26, COVE), Station(110, 26), Station(400, 26)))
    plain = math.pi * 13**2 * 400
    assert worked(bead, stick()).volume == pytest.approx(plain + half * math.tau * (13 + off), rel=1e-3)
    assert worked(cove, stick()).volume == pytest.approx(plain - half * math.tau * (13 - off), rel=1e-3)
    assert "torus" in {s.kind for s in worked(bead, stick()).marked.surfaces}
    (radius,) = [s for s in made(bead, stick()).sizes if s.kind is SizeKind.RADIUS]
    assert (radius.value, radius.label, radius.parameters) == (5, "bead", ())


@pytest.mark.parametrize(
    ("next_", "first", "last", "swell", "label", "across"),
    [
        (BEAD, 26, 26, None, "crown", 26 + 2 * 5),  # half round: half its width higher
        (COVE, 26, 26, None, "throat", 26 - 2 * 5),
        (BEAD, 30, 30, 3, "crown", 36),
        (BEAD, 26, 40, 1, "", 0),  # rises all along: the last station is its thickest place
    ],
)
def test_the_crown_of_a_bead_and_the_throat_of_a_cove_are_told_for_the_calliper(
    next_: str, first: int, last: int, swell: int | None, label: str, across: float
) -> None:
    turned = Turned((Station(0, 26), Station(100, first, next_, swell), Station(110, last), Station(400, 26)))
    found = [s for s in made(turned, stick()).sizes if s.reference]
    assert [(s.label, float(s.value)) for s in found] == ([(label, pytest.approx(across))] if label else [])
    low, high = worked(turned, stick()).bounds
    if label == "crown":
        assert high[1] - low[1] == pytest.approx(across, abs=0.02)


def test_every_number_moves_the_solid_and_is_told_once() -> None:
    turned = Turned(
        (Station(20, 25), Station(100, 30, COVE, 4), Station(160, 36), Station(200, 30, BEAD, 2), Station(230, 28))
    )
    names = [n for n, _ in parameters(turned)]
    assert len(names) == 12
    before = worked(turned, stick())
    for name, value in parameters(turned):
        after = worked(changed(turned, name, value + Fraction(1, 8)), stick())
        assert abs(after.volume - before.volume) > 1e-2, name
    told = [p for s in made(turned, stick()).sizes for p in s.parameters]
    assert sorted(told) == sorted(names)
    figures_measure_what_they_say(turned, stick())
    (cove,) = [s for s in made(turned, stick()).sizes if s.label == "cove"]
    chord = math.hypot(60, 3)
    assert float(cove.value) == pytest.approx((chord**2 + 4 * 16) / 32)


def test_diameters_are_told_at_their_rims_on_the_broad_face() -> None:
    sizes = [s for s in made(WHOLE, stick()).sizes if s.kind is SizeKind.DIAMETER]
    assert [(s.label, s.value) for s in sizes] == [("A", 25), ("B", 36), ("C", 36), ("D", 20)]
    assert all(s.other == s.end and s.face == Face(2, 1) for s in sizes)
    assert sizes[1].end == (100, 38, 20)


def test_half_the_profile_is_printed() -> None:
    (template,) = made(replace(WHOLE, told=("a", "b", "c", "d")), stick()).templates
    assert not faults(template.outline)
    assert area(template.outline) == pytest.approx((30.5 * 100 + 36 * 200 + 28 * 100) / 2)
    assert [line[2] for line in template.lines] == ["axis", "a", "b", "c", "d"]
    bead = Turned((Station(0, 26), Station(100, 26, BEAD), Station(110, 26), Station(400, 26)))
    (template,) = made(bead, stick()).templates
    assert not faults(template.outline)
    assert area(template.outline) == pytest.approx(13 * 400 + math.pi * 25 / 2)


def test_lathe() -> None:
    answer = made(WHOLE, stick())
    (setting,) = answer.settings
    assert setting.machine == "lathe"
    assert setting.values == (
        ("blank, square, at least", 40, "length"),
        ("largest diameter", 36, "length"),
        ("turned length", 400, "length"),
    )
    assert [c.key for c in answer.cautions] == ["lathe"]
    assert not setting.skims
    (full,) = made(Turned((Station(0, 25), Station(400, 40))), stick()).settings
    assert full.skims and full.values[0] == ("blank, square, more than", 40, "length")


def test_stations_may_count_from_the_far_end() -> None:
    there = [Station(0, 20), Station(100, 36, BEAD, 1), Station(300, 36), Station(400, 25)]
    back = Turned(tuple(_reversed(there, 400)))
    assert back.stations[0] == Station(0, 25)
    assert back.stations[1] == Station(100, 36, BEAD, 1)
    assert worked(back, stick()).volume == pytest.approx(worked(Turned(tuple(there)), stick()).volume, rel=1e-6)


@pytest.mark.parametrize(
    ("stations", "code"),
    [
        ((Station(0, 25),), "turned-stations"),
        ((Station(100, 25), Station(50, 25)), "turned-order"),
        ((Station(0, 25), Station(401, 25)), "outside-part"),
        ((Station(0, 25), Station(400, 41)), "turned-width"),
        ((Station(0, 38, BEAD), Station(10, 38)), "turned-width"),
        ((Station(0, 8, COVE), Station(10, 8)), "turned-width"),
        ((Station(0, 10, BEAD), Station(5, 30), Station(400, 30)), "turned-returns"),
    ],
)
def test_impossible_turnings(stations: tuple[Station, ...], code: str) -> None:
    with pytest.raises(Fault) as fault:
        Turned(stations).made(stick())
    assert fault.value.code == code


def test_a_blank_that_is_not_square() -> None:
    with pytest.raises(Fault) as fault:
        WHOLE.made(board(400, 40, 38))
    assert fault.value.code == "turned-blank"


def test_a_plain_cylinder_needs_no_template() -> None:
    assert not made(Turned((Station(0, 25), Station(400, 25))), stick()).templates


def test_a_rod_needs_no_stick_and_its_diameter_is_cut_at_both_ends_and_the_middle() -> None:
    rod, tapered = made(Turned((Station(0, 36), Station(400, 36))), stick()), made(WHOLE, stick())
    assert rod.marks == () and "at both ends and the middle" in rod.settings[0].note
    assert len(tapered.marks) == 4 and "each diameter of the turning stick" in tapered.settings[0].note
    inner = made(Turned((Station(100, 36), Station(300, 36))), stick())
    assert [m.position for m in inner.marks] == [100, 300]  # where it becomes square again
