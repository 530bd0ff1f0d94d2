import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.taper import Taper
from docgen.piece.records import Face
from docgen.piece.solids import Solids
from tests.piece.desk import HEAD, PARTS, built
from tests.piece.operations.trial import board, made, proven, taken


@pytest.mark.parametrize("face", [Face(1, 0), Face(1, 1), Face(2, 0), Face(2, 1)])
@pytest.mark.parametrize("side", [0, 1])
def test_taper_takes_a_wedge(face: Face, side: int) -> None:
    taper = Taper(face, Face(0, side), 100, 8)
    run = 300 if side else 100
    across = 20 if face.axis == 1 else 120
    assert taken(taper, board()) == pytest.approx(8 * run / 2 * across)
    proven(taper, board())


def test_setting_tells_both_readings() -> None:
    values = {n: float(v) for n, v, _ in made(Taper(Face(1, 0), Face(0, 1), 100, 8), board()).settings[0].values}
    assert values["taper, from the edge"] + values["taper, from square"] == pytest.approx(90)


def test_impossible_tapers() -> None:
    for taper in (
        Taper(Face(1, 0), Face(0, 1), 400, 8),
        Taper(Face(1, 0), Face(0, 1), 100, 120),
        Taper(Face(1, 0), Face(1, 1), 100, 8),
    ):
        with pytest.raises(Fault):
            taper.made(board())


def left_at_the_end(piece_text: str) -> list[tuple[str, float]]:
    part = built(HEAD + PARTS + piece_text).part("leg")
    return [(s.label, float(s.value * 10 / 254)) for f in part.features for s in f.made.sizes if s.label != "taper"]


def test_four_faces_tell_what_is_left_between_them() -> None:
    said = "operations:\n  - taper: {part: leg, face: [left, right, front, back], end: bottom, run: 20, amount: 3/8}\n"
    assert left_at_the_end(said) == [
        ("left at the end", 1.0), ("off", 0.375), ("left at the end", 1.0), ("off", 0.375)]  # fmt: skip
    piece = built(HEAD + PARTS + said)
    frustum = 20 / 3 * (1.75**2 + 1.75 * 1 + 1)
    assert Solids(piece).solid("leg").volume == pytest.approx((1.75**2 * 8 + frustum) * 25.4**3)
    notes = [s.note for f in piece.part("leg").features for s in f.made.settings]
    assert ["first offcut" in n for n in notes] == [False, True, False, True]


def test_two_neighbouring_faces_are_each_told_from_the_face_opposite() -> None:
    said = "operations:\n  - taper: {part: leg, face: [left, front], end: bottom, run: 20, amount: 1/2}\n"
    assert left_at_the_end(said) == [("left at the end", 1.25), ("left at the end", 1.25)]


def test_the_second_of_two_opposite_tapers_is_proven_too() -> None:
    for taper in (
        Taper(Face(1, 0), Face(0, 1), 100, 8, opposite=12),
        Taper(Face(1, 1), Face(0, 1), 100, 12, opposite=8, second=True),
    ):
        proven(taper, board())


def test_opposite_tapers_that_meet() -> None:
    with pytest.raises(Fault) as fault:
        Taper(Face(1, 0), Face(0, 1), 100, 60, opposite=60).made(board())
    assert fault.value.code == "depth-range"
