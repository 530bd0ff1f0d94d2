"""Wood round mortises at the edge of the rule: to faces, arcs, slanting ends, rabbets and other mortises."""

import math
from dataclasses import replace

import pytest

from docgen.checks import mortise_walls
from docgen.checks.finding import Grade
from docgen.geometry.make import box, cylinder
from docgen.geometry.shapes import Edge, Extrusion, Frame, HalfSpace, Outline
from docgen.piece.model import Piece
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.leaning_dado import LeaningDado
from docgen.piece.operations.mortise import Mortise
from docgen.piece.records import Cut, Face, Made
from tests.support.by_hand import acute_wall
from tests.support.checking import codes, found, subject
from tests.support.pieces import feature, part, piece

RAIL = ((0, 60), (0, 30), (0, 500))


def rail(*operations: Mortise, cuts: tuple[Cut, ...] = ()) -> Piece:
    """A rail 500 long, 60 wide and 30 thick with mortises in its edge or face, and other cuts."""
    bare = part("rail", RAIL)
    features = tuple(feature("mortise", op.made(bare)) for op in operations)
    if cuts:
        features += (feature("cut", Made(cuts=cuts)),)
    return piece(part("rail", RAIL, features=features))


def mortise(depth: float, *, at: tuple[float, float] = (250, 15), width: float = 8.0) -> Mortise:
    return Mortise(Face(1, 0), at, 0, 40, width, depth)


@pytest.mark.parametrize(("depth", "expected"), [(56.9, []), (57.1, ["mortise-thin"])])
def test_wood_behind_the_bottom(depth: float, expected: list[str]) -> None:
    assert codes(mortise_walls, rail(mortise(depth))) == expected


@pytest.mark.parametrize(("off", "expected"), [(7.1, []), (6.9, ["mortise-thin"])])
def test_wood_to_a_face(off: float, expected: list[str]) -> None:
    findings = found(mortise_walls, rail(mortise(20, at=(250, off))))
    assert [f.code for f in findings] == expected
    for f in findings:
        assert f.figures[0][1] == pytest.approx(off - 4, abs=1e-3)


@pytest.mark.parametrize(("apart", "expected"), [(11.1, []), (10.9, ["mortise-thin"])])
def test_wood_between_two_mortises(apart: float, expected: list[str]) -> None:
    one, two = mortise(20, at=(250, 9)), mortise(20, at=(250, 9 + apart))
    assert codes(mortise_walls, rail(one, two)) == expected


@pytest.mark.parametrize(("deep", "expected"), [(7.9, []), (8.1, ["mortise-thin"]), (11.1, ["mortise-breaks-out"])])
def test_a_rabbet_beside_a_mortise(deep: float, expected: list[str]) -> None:
    rabbet = Cut(box((-1.0, 5.0, 30.0 - deep), (501.0, 61.0, 31.0)))
    findings = found(mortise_walls, rail(mortise(20), cuts=(rabbet,)))
    assert [f.code for f in findings] == expected
    assert [f.grade for f in findings] == [Grade.STOP if "breaks" in code else Grade.CARE for code in expected]


def test_a_mortise_in_a_tapered_face_is_no_break() -> None:
    """The face in which the mouth lies leans: its mouth is cut lower, its walls are whole."""
    taper = Cut(HalfSpace((0.0, 0.0, 0.0), (0.02, -1.0, 0.0)))
    assert codes(mortise_walls, rail(mortise(30), cuts=(taper,))) == []


@pytest.mark.parametrize(("radius", "expected"), [(23.0, []), (27.0, ["mortise-thin"])])
def test_an_arc_behind_a_mortise(radius: float, expected: list[str]) -> None:
    """A corner of the edge rounded to `radius` along the whole rail: a cutter with a hollow arc."""
    r, y, z = radius, 60.0, 30.0
    spandrel = Outline((Edge((y + 1, z + 1)), Edge((y - r, z + 1)), Edge((y - r, z)), Edge((y, z - r), (y - r, z - r), False),
                        Edge((y + 1, z - r))))  # fmt: skip
    turned = Frame(((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)))
    cut = Cut(Extrusion(spandrel, turned, -1.0, 501.0))
    of = rail(mortise(50, at=(250, 18)), cuts=(cut,))
    (cavity,) = subject(of).cavities("rail")
    # the far corner of the mortise lies 10 from the end face, 8 from the side: inside the arc's square
    expected_wall = min(r - math.hypot(r - 10, r - 8), 8.0) if r > 10 else 8.0
    left = mortise_walls.wall(subject(of), of.part("rail"), cavity)
    if expected:
        assert left == pytest.approx(expected_wall, abs=0.05)
    assert codes(mortise_walls, of) == expected


ACUTE = 60.0


def acute(over: float) -> Piece:
    """A part whose end slants at 60° to its length, with a mortise square to the cut, `over` from the acute tip."""
    phi = math.radians(ACUTE)
    c, s = math.cos(phi), math.sin(phi)
    # the cut runs from the tip (0, 0) up to the right; its inward normal is (s, -c)
    plane = HalfSpace((0.0, 0.0, 0.0), (-s, c, 0.0))
    frame = Frame(((c, 0.0, s), (s, 0.0, -c), (0.0, 1.0, 0.0)), (0.0, 0.0, 0.0))
    pocket = Extrusion(Outline.rectangle(over, 10.0, over + 20.0, 20.0), frame, -1.0, 12.0)
    made = Made(cuts=(Cut(plane), Cut(pocket)))
    return piece(part("rail", RAIL, features=(feature("mortise", made),)))


@pytest.mark.parametrize(("more", "expected"), [(0.1, []), (-0.1, ["mortise-thin"])])
def test_an_acute_joint(more: float, expected: list[str]) -> None:
    """u · sin φ − d · cos φ: the wall to the face at the acute tip."""
    phi = math.radians(ACUTE)
    over = (3.0 + more + 12 * math.cos(phi)) / math.sin(phi)
    of = acute(over)
    assert codes(mortise_walls, of) == expected
    if expected:
        assert found(mortise_walls, of)[0].figures[0][1] == pytest.approx(acute_wall(over, 12, ACUTE), abs=0.01)


def test_a_hole_near_a_mortise_counts() -> None:
    hole = Cut(cylinder((250.0, 0.0, 22.0), (0.0, 1.0, 0.0), 2.0, 15.0))
    assert codes(mortise_walls, rail(mortise(20, at=(250, 14)), cuts=(hole,))) == ["mortise-thin"]
    far = Cut(cylinder((250.0, 0.0, 25.0), (0.0, 1.0, 0.0), 2.0, 15.0))
    assert codes(mortise_walls, rail(mortise(20, at=(250, 14)), cuts=(far,))) == []


def test_a_groove_in_the_same_face_that_runs_through_it_is_no_wall() -> None:
    """A panel's groove along the edge passes over the mortise: a haunch fills it."""
    bare = part("rail", RAIL)
    groove = Dado(Face(1, 0), 0, 12.0, 18.0, 10.0).made(bare).cuts
    assert codes(mortise_walls, rail(mortise(30), cuts=groove)) == []
    aside = Dado(Face(1, 0), 0, 21.5, 25.0, 10.0).made(bare).cuts  # beside it, 2.5 away
    assert codes(mortise_walls, rail(mortise(30), cuts=aside)) == ["mortise-thin"]


@pytest.mark.parametrize(("long", "expected"), [(199.0, ["mortise-thin"]), (201.0, [])])
def test_a_stopped_groove_is_no_mortise(long: float, expected: list[str]) -> None:
    """Over 40 % of the rail's 500 mm: grooves are judged by their depth."""
    near = Mortise(Face(1, 0), (250, 6.0), 0, long, 8.0, 10.0)
    assert codes(mortise_walls, rail(near)) == expected


def test_a_dado_with_leaning_walls_may_open_into_one_that_ends_at_it() -> None:
    """A rail under a tread: its dado ends where that of the tread begins, whose wall leans over it at the floor."""
    blank = part("side", ((0, 22), (0, 400), (0, 460)))
    rail = Dado(Face(2, 0), 0, 350.0, 372.0, 7.0, 330.0, 425.0)
    tread = LeaningDado(Face(2, 0), 1, 425.0, 447.0, 7.0, -8.0, 200.0)
    made = (feature("rail", rail.made(blank)), feature("tread", tread.made(blank)))
    assert codes(mortise_walls, piece(replace(blank, features=made))) == []
