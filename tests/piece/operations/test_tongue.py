import math
from fractions import Fraction

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.tongue import Tongue
from docgen.piece.records import BOTH, Authority, Face, Stage
from tests.piece.operations.trial import (
    board,
    every_parameter_is_told_once,
    every_parameter_moves_the_solid,
    figures_measure_what_they_say,
    made,
    proven,
    taken,
)


@pytest.mark.parametrize("end", [Face(0, 0), Face(0, 1)])
def test_bare_faced_tongue_fat_by_its_over_until_it_is_fitted(end: Face) -> None:
    tongue = Tongue(end, 0, 12, 6, over=Fraction(1, 2), notch_low=15)
    assert -taken(tongue, board()) == pytest.approx(6 * 12 * 105)
    assert -taken(tongue, board(), Stage.PART) == pytest.approx(6 * 12.5 * 105)
    every_parameter_moves_the_solid(Tongue(end, 1, 12, 6, 1, 15, 10), board())
    figures_measure_what_they_say(tongue, board())


def test_centred_tongue_with_two_notches() -> None:
    tongue = Tongue(Face(0, 1), 6, 14, 10, notch_low=15, notch_high=20)
    assert -taken(tongue, board()) == pytest.approx(10 * 8 * 85)
    proven(tongue, board())
    assert "centred" in made(tongue, board()).assumed[0].text


def test_tongue_along_an_edge() -> None:
    tongue = Tongue(Face(1, 1), 7, 13, 8)
    assert -taken(tongue, board()) == pytest.approx(8 * 6 * 400)
    every_parameter_is_told_once(tongue, board())
    figures_measure_what_they_say(tongue, board())


def test_the_fat_size_is_to_be_fitted() -> None:
    size = next(s for s in made(Tongue(Face(0, 1), 0, 12, 6, over=Fraction(2, 5)), board()).sizes if s.over)
    assert (size.value, size.over, size.authority) == (12, Fraction(2, 5), Authority.FIT)


@pytest.mark.parametrize(
    ("tongue", "told"),
    [
        (Tongue(Face(0, 1), 6, 14, 12, over=Fraction(1, 2)), {"tongue thickness, fat": 8.5, "shoulders, depth of each": 5.75}),
        (Tongue(Face(0, 1), 0, 12, 6, over=Fraction(1, 2)), {"tongue thickness, fat": 12.5, "shoulder, depth": 7.5}),
        (Tongue(Face(0, 1), 0, 12, 6), {"tongue thickness": 12, "shoulder, depth": 8}),
    ],
)  # fmt: skip
def test_the_first_shoulders_leave_the_fat(tongue: Tongue, told: dict[str, float]) -> None:
    (setting,) = made(tongue, board()).settings
    values = {name: value for name, value, _ in setting.values}
    assert (
        setting.values[0] == ("cutter", "straight bit and fence", "text")
        and "far rim stands on the shoulder" in setting.note
    )
    assert {name: values[name] for name in told} == told
    thick = next(v for name, v in told.items() if "thickness" in name)
    deep = next(v for name, v in told.items() if "depth" in name)
    assert thick + deep * (2 if "each" in str(told) else 1) == board().size[2]


def test_the_blank_grows_by_the_tongue() -> None:
    (allowance,) = made(Tongue(Face(0, 0), 0, 12, 6), board()).allowances
    assert (allowance.face, allowance.amount) == (Face(0, 0), 6)


@pytest.mark.parametrize(
    ("tongue", "code"),
    [
        (Tongue(Face(0, 0), 0, 21, 6), "tongue-range"),
        (Tongue(Face(0, 0), 0, 12, 0), "length-range"),
        (Tongue(Face(0, 0), 0, 12, 6, over=9), "over-range"),
        (Tongue(Face(0, 0), 0, 12, 6, notch_low=70, notch_high=50), "notch-range"),
    ],
)
def test_impossible_tongues(tongue: Tongue, code: str) -> None:
    with pytest.raises(Fault) as fault:
        tongue.made(board())
    assert fault.value.code == code


@pytest.mark.parametrize("end", [Face(0, 0), Face(0, 1)])
def test_a_haunch_stays_beside_the_shoulder(end: Face) -> None:
    tongue = Tongue(end, 6, 14, 30, notch_low=20, notch_high=25, haunch_low=8, haunch_high=10)
    assert -taken(tongue, board()) == pytest.approx(8 * (75 * 30 + 20 * 8 + 25 * 10))
    proven(tongue, board())


@pytest.mark.parametrize("face", [Face(0, 0), Face(0, 1), Face(1, 0), Face(1, 1)])
def test_rounded_edges_are_half_round(face: Face) -> None:
    tongue = Tongue(face, 6, 14, 30, notch_low=10, notch_high=15, rounded=True)
    wide = (120 if face.axis == 0 else 400) - 25
    assert -taken(tongue, board()) == pytest.approx(30 * (8 * (wide - 8) + math.pi * 16), rel=1e-3)
    figures_measure_what_they_say(tongue, board())


@pytest.mark.parametrize(
    ("tongue", "code"),
    [
        (Tongue(Face(0, 0), 6, 14, 30, notch_low=20, haunch_low=30), "haunch-range"),
        (Tongue(Face(0, 0), 6, 14, 30, haunch_high=5), "haunch-range"),
        (Tongue(Face(0, 0), 6, 14, 30, notch_low=20, haunch_low=5, rounded=True), "tongue-rounded"),
        (Tongue(Face(0, 0), 6, 14, 30, notch_low=60, notch_high=55, rounded=True), "tongue-rounded"),
    ],
)
def test_impossible_haunches_and_rounded_edges(tongue: Tongue, code: str) -> None:
    with pytest.raises(Fault) as fault:
        tongue.made(board())
    assert fault.value.code == code


def test_a_tongue_as_thick_as_the_part_has_no_shoulder_and_nothing_is_marked_as_waste() -> None:
    """A helper who sawed at the end of the box would make every shelf too short."""
    got = made(Tongue(Face(0, 1), 0, 20, 6), board())
    assert (got.settings, got.cautions, got.marks) == ((), (), ())
    assert [a.text for a in got.assumed] == ["tongue as thick as the part, nothing is cut there"]


def test_the_shoulder_of_a_thinned_tongue_stands_on_the_face_that_is_cut() -> None:
    marks = {low: made(Tongue(Face(0, 1), low, 12 + low, 6), board()).marks[0] for low in (0, 8)}
    assert [(m.face, m.wood, m.label) for m in marks.values()] == [
        (Face(2, 1), BOTH, "tongue, shoulder"),
        (Face(2, 0), BOTH, "tongue, shoulder"),
    ]


def test_notches_have_a_set_up_and_a_line_on_the_stick() -> None:
    got = made(Tongue(Face(0, 1), 0, 20, 6, notch_low=15, notch_high=20), board())
    (saw,) = got.settings
    assert (saw.machine, saw.what) == ("hand saw", "notches of the tongue")
    assert saw.values == (("deep, from the tip to the shoulder", 6, "length"),)
    low, high = (board().side(Face(1, side)) for side in (0, 1))
    end = board().word(Face(0, 1))
    assert saw.places == (
        (f"wide from the {low}", 15, "length"), (f"wide from the {high}", 20, "length"), ("at the", f"{end} end", "text"),
    )  # fmt: skip
    assert got.marks[0].label.startswith("notch to here at the ")
    assert [c.key for c in got.cautions] == ["hand saw", "chisel"]


def test_the_edge_shoulders_of_a_tenon_are_cut_too_and_leave_a_haunch() -> None:
    tenon = Tongue(
        Face(0, 0),
        6,
        14,
        30,
        notch_low=20,
        notch_high=25,
        haunch_low=8,
        label="tenon",
        beside="shoulder",
        mate="mortise",
    )
    cheeks, low, high = made(tenon, board()).settings
    assert cheeks.machine == "router"
    assert low.what == high.what == "edge shoulders of the tenon"
    assert low.values == (("deep, from the tip to the haunch", 22, "length"),)
    assert (low.places[0][1], high.places[0][1], high.values[0][1]) == (20, 25, 30)
