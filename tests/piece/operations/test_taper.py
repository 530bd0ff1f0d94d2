import pytest

from docgen.drawing.tiles import tiling_of
from docgen.drawing.tiling.ink import outline_ink
from docgen.drawing.tiling.truesize import TrueSize
from docgen.geometry.outlines import area, bounds, signed_area
from docgen.geometry.shapes import Outline
from docgen.layout.read import read_layout
from docgen.piece.faults import Fault
from docgen.piece.operations.taper import Taper
from docgen.piece.operations.tapered import ONE, TWO
from docgen.piece.records import Face, Template
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
    assert ["its offcut taped back on" in n for n in notes] == [True, False, True, False]


def test_two_neighbouring_faces_are_each_told_from_the_face_opposite() -> None:
    said = "operations:\n  - taper: {part: leg, face: [left, front], end: bottom, run: 20, amount: 1/2}\n"
    assert left_at_the_end(said) == [("left at the end", 1.25), ("left at the end", 1.25)]
    notes = {s.note for f in built(HEAD + PARTS + said).part("leg").features for s in f.made.settings}
    assert len(notes) == 1 and "on the sled a face that stays straight" in notes.pop()


def test_a_single_taper_lies_on_the_sled_on_either_broad_face() -> None:
    (setting,) = made(Taper(Face(1, 0), Face(0, 1), 100, 8), board()).settings
    assert "along the sled's fence" in setting.note and "on the sled a face" not in setting.note


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


LEFT, RIGHT, FRONT, BACK, FOOT = Face(1, 0), Face(1, 1), Face(2, 0), Face(2, 1), Face(0, 0)


def printed(faces: tuple[Face, ...], run: int, wide: int = 40, thick: int = 40) -> list[Template]:
    """Return what is printed of a leg 700 long with these faces tapered toward the foot, 6 mm each."""
    leg = board(700, wide, thick)
    return [t for f in faces for t in made(Taper(f, FOOT, run, 6, group=faces), leg).templates]


def test_one_taper_is_printed_where_two_pages_hold_it_and_a_longer_one_is_left_to_its_figures() -> None:
    (one,) = printed((LEFT,), 400)
    assert one.face == Face(2, 1)
    assert {e.end for e in one.outline.edges} == {(440, 0), (400, 0), (0, 6), (0, 40), (440, 40)}
    assert [{e.end for e in w.edges} for w in one.waste] == [{(400, 0), (0, 0), (0, 6)}]
    assert one.datum == (((440, 40), (0, 40)), ((0, 6), (0, 40)))
    assert signed_area(one.outline) > 0
    assert printed((LEFT,), 500) == []


def test_opposite_tapers_share_one_sheet() -> None:
    (one,) = printed((LEFT, RIGHT), 300)
    assert len(one.waste) == 2
    assert area(one.outline) == pytest.approx(340 * 40 - 2 * 300 * 6 / 2)


def test_neighbouring_tapers_that_are_short_have_a_sheet_each() -> None:
    assert [t.face for t in printed((LEFT, BACK), 150)] == [Face(2, 1), Face(1, 1)]


def test_of_long_neighbouring_tapers_the_end_is_printed() -> None:
    (one,) = printed((LEFT, BACK), 500)
    assert one.face == FOOT and one.title == "tapered end"
    assert bounds(one.outline) == ((6, 0), (40, 34))
    assert sum(area(w) for w in one.waste) == pytest.approx(40 * 40 - 34 * 34)
    assert one.datum == (((40, 0), (40, 34)), ((6, 0), (40, 0)))
    (all_round,) = printed((LEFT, RIGHT, FRONT, BACK), 500)
    assert bounds(all_round.outline) == ((6, 6), (34, 34)) and all_round.datum == ()


@pytest.mark.parametrize("side", [0, 1])
def test_a_taper_over_the_whole_length_has_no_untouched_part(side: int) -> None:
    taper = Taper(LEFT, Face(0, side), 0 if side else 300, 6)
    (one,) = made(taper, board(300, 40, 20)).templates
    assert len(one.outline.edges) == 4 and one.lines == ()
    assert signed_area(one.outline) == pytest.approx(300 * 40 - 300 * 6 / 2)


@pytest.mark.parametrize("name", ["letter", "a4"])
@pytest.mark.parametrize(("rooms", "pages"), [(ONE, 1), (TWO, 2)])
def test_what_is_printed_fits_on_the_pages_that_it_may_take(
    name: str, rooms: tuple[tuple[float, float], ...], pages: int
) -> None:
    for long, wide in rooms:
        ink = outline_ink(Outline.rectangle(0.0, 0.0, long, wide))
        assert len(tiling_of(TrueSize("", (), ink), read_layout(name)).tiles) == pages
