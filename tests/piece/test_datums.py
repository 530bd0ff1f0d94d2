"""Places run from the sides that stay and from the show face, on all pages alike."""

from dataclasses import replace

from docgen.piece.datums import as_placed, datum, measured
from docgen.piece.model import Part
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.mortise import Mortise
from docgen.piece.operations.rabbet import Rabbet
from docgen.piece.operations.taper import Taper
from docgen.piece.records import Face, Size
from tests.piece.operations.trial import board
from tests.support.pieces import feature

LOW = [Face(0, 0), Face(1, 0), Face(2, 0)]


def datums(part: Part) -> list[Face]:
    return [datum(part, i) for i in range(3)]


def with_features(part: Part, *operations: object) -> Part:
    return replace(part, features=tuple(feature(f"cut {n}", o.made(part)) for n, o in enumerate(operations)))  # type: ignore[attr-defined]


def told(part: Part) -> list[Size]:
    """The sizes of the last operation, as they are placed."""
    last = part.features[-1]
    return [as_placed(part, s, last) for s in last.made.sizes]


def told_by(part: Part, name: str) -> Size:
    return next(s for s in told(part) if s.parameters == (name,))


def test_the_low_sides_where_nothing_speaks_against_them() -> None:
    assert datums(board()) == LOW


def test_a_side_that_a_taper_takes_is_none_to_measure_from() -> None:
    leg = board(540, 42, 42)
    assert datums(with_features(leg, Taper(Face(2, 0), Face(0, 0), 420, 16))) == [*LOW[:2], Face(2, 1)]
    assert datums(with_features(leg, Taper(Face(1, 0), Face(0, 0), 420, 16))) == [LOW[0], Face(1, 1), LOW[2]]
    assert datums(with_features(leg, Taper(Face(2, 1), Face(0, 0), 420, 16))) == LOW
    both = (Taper(Face(1, 0), Face(0, 0), 420, 8), Taper(Face(1, 1), Face(0, 0), 420, 8, opposite=8, second=True))
    assert datums(with_features(leg, *both)) == LOW


def test_the_show_face_is_the_datum_through_the_thickness() -> None:
    assert datums(replace(board(), show=Face(2, 1))) == [*LOW[:2], Face(2, 1)]
    assert datums(replace(board(), show=Face(2, 0))) == LOW


def test_the_centre_of_a_mortise_is_measured_from_the_side_that_stays() -> None:
    """42 wide, 28 from the side that goes: 14 from the one that stays."""
    mortise = Mortise(Face(1, 1), (492, 28), 0, 68, 8, 21.5)
    leg = with_features(board(540, 42, 42), Taper(Face(2, 0), Face(0, 0), 420, 16), mortise)
    size = next(s for s in told(leg) if s.value == 14)
    assert (size.start[2], size.end[2], size.along) == (42.0, 28.0, (0.0, 0.0, -1.0))


def test_from_the_other_side_it_is_the_other_wall_that_is_placed() -> None:
    """A groove from 5 to 11 in an edge 20 thick: its near wall lies 9 from the face opposite."""
    groove = Dado(Face(1, 0), 0, 5, 11, 8)
    assert told_by(with_features(board(), groove), "low").value == 5
    shown = with_features(replace(board(), show=Face(2, 1)), groove)
    size = told_by(shown, "low")
    assert size.value == 9 and (size.start[2], size.end[2]) == (20.0, 11.0)
    assert told_by(shown, "depth").value == 8


def test_a_cut_with_a_side_of_its_own_is_placed_from_there() -> None:
    """A slot 15 under the upper edge of a board 100 wide, which bears there: 15, not 85 from the edge below."""
    slot = Mortise(Face(2, 1), (200, 85), 0, 40, 8, 10, off=Face(1, 1))
    size = told_by(with_features(board(600, 100, 20), slot), "centre.1")
    assert size.value == 15 and (size.start[1], size.end[1]) == (100.0, 85.0)
    groove = Dado(Face(2, 1), 0, 81, 89, 10, off=Face(1, 1))
    size = told_by(with_features(board(600, 100, 20), groove), "low")
    assert size.value == 11 and (size.start[1], size.end[1]) == (100.0, 89.0)


def test_what_a_rabbet_takes_is_told_on_the_cut_and_not_as_the_wood_that_stays() -> None:
    """A rabbet in the face opposite the show face: its figures are the operation's own, on every page."""
    for show in (Face(2, 0), Face(2, 1)):
        for face in (Face(2, 0), Face(2, 1)):
            part = with_features(replace(board(), show=show), Rabbet(face, Face(1, 0), 11, 7))
            assert {s.parameters[0]: s.value for s in told(part)} == {"into": 11, "on": 7}


def test_how_far_a_place_lies_from_either_side() -> None:
    assert (measured(board(), Face(2, 0), 5), measured(board(), Face(2, 1), 5)) == (5, 15)
