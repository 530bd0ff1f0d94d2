"""A piece on the wall has screws into it, and nothing bars them."""

from dataclasses import replace

from docgen.checks import wall_fixing
from docgen.checks.finding import Finding, Grade
from docgen.piece.model import Item, Piece
from docgen.piece.records import Face, HoleRow, Made, Purpose
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece

RAIL = ((0, 700), (160, 180), (110, 180))


def hung(row: HoleRow | None = None, *more: object, stands: str = "wall", **rest: object) -> Piece:
    """Return a rail with a row of holes from its front, and what else stands there."""
    made = () if row is None else (feature("hole", Made(holes=(row,))),)
    rail = part("rail", RAIL, "across", features=made)
    return piece(rail, *more, stands=stands, **rest)  # type: ignore[arg-type]


def front(of: Piece) -> Face:
    return of.part("rail").face("front")


def row(depth: float | None = None, purpose: Purpose = Purpose.PLAIN, mate: str = "") -> HoleRow:
    """Return a hole in the rail's front face, 200 from its left end, 30 up."""
    bare = hung()
    face = front(bare)
    at = bare.part("rail").frame.inverse().point((200.0, 160.0, 140.0))
    way = bare.part("rail").frame.inverse().direction((0.0, 1.0, 0.0))
    return HoleRow("W", purpose, face, (at,), way, 5, "5 mm", depth, mate=mate)  # type: ignore[arg-type]


def test_a_wall_piece_without_a_hole_is_told_with_a_way_out() -> None:
    (f,) = found(wall_fixing, hung())
    assert (f.code, f.grade) == ("no-wall-fixing", Grade.CARE) and "screw holes" in f.advice
    assert codes(wall_fixing, hung(stands="floor")) == []


def test_a_hole_right_through_toward_the_wall_is_enough() -> None:
    assert codes(wall_fixing, hung(row())) == ["wall-place"]
    assert codes(wall_fixing, hung(row(depth=10.0))) == ["no-wall-fixing"]
    assert codes(wall_fixing, hung(row(purpose=Purpose.DOWEL))) == ["no-wall-fixing"]
    assert codes(wall_fixing, hung(row(mate="side"))) == ["no-wall-fixing"]


def test_a_hanger_that_is_bought_is_enough() -> None:
    assert codes(wall_fixing, hung(items=(Item("keyhole hanger", 2),))) == []
    assert codes(wall_fixing, hung(items=(Item("glass clip", 2),))) == ["no-wall-fixing"]


def barred(of: Piece) -> list[Finding]:
    return [f for f in found(wall_fixing, of) if f.code == "wall-screw-barred"]


def test_wood_between_the_hole_and_the_wall_bars_the_screw() -> None:
    behind = part("back", ((0, 700), (180, 189), (0, 260)), number=2)
    beside = part("back", ((300, 700), (180, 189), (0, 260)), number=2)
    (f,) = barred(hung(row(), behind))
    assert (f.code, f.parts) == ("wall-screw-barred", ("rail", "back"))
    assert barred(hung(row(), beside)) == []
    before = part("front", ((0, 700), (0, 160), (0, 260)), number=2)
    assert barred(hung(row(), before)) == []


def test_where_the_piece_goes_on_its_wall_is_told() -> None:
    (f,) = [f for f in found(wall_fixing, hung(row())) if f.code == "wall-place"]
    # the rail stands from 110 to 180 up, its hole 200 across and 140 up
    assert f.grade == Grade.NOTE
    assert "lower edge hangs 110 mm above the floor and its top 180 mm" in f.message
    assert "200 mm from the left end: 30 mm up" in f.message


def test_holes_that_stand_apart_are_told_with_their_spacing_and_an_unknown_height_is_said() -> None:
    down = part("foot", ((0, 20), (0, 180), (0, 110)), number=2)
    made = row()
    inverse = hung().part("rail").frame.inverse()
    two = replace(made, points=(*made.points, inverse.point((520.0, 160.0, 150.0))))  # type: ignore[arg-type]
    (f,) = [f for f in found(wall_fixing, hung(two, down)) if f.code == "wall-place"]
    assert "200 mm from the left end: 140 mm up; 520 mm from the left end: 150 mm up" in f.message
    assert (
        "320 mm apart" in f.message
        and "how high it hangs is not told: its lower edge is drawn at floor height" in f.message
    )
