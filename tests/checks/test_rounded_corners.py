import math

import pytest

from docgen.checks import rounded_corners
from docgen.checks.finding import Grade
from docgen.geometry.make import along_axis, box
from docgen.geometry.shapes import Edge, HalfSpace, Outline, Shape, Vec
from docgen.piece.model import Joint, Part, Piece
from docgen.piece.placement import into
from docgen.piece.records import Cut, Made, Stage
from tests.support.by_hand import breakthrough_radius, wood_left
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece

T = 20.0
R2 = math.sqrt(2)


def waste(radius: float) -> Shape:
    """The waste of the outside corner at across 0, up 500, rounded, through the whole depth."""
    outline = Outline(
        (
            Edge((-1.0, 501.0)),
            Edge((-1.0, 500.0 - radius)),
            Edge((0.0, 500.0 - radius)),
            Edge((radius, 500.0), (radius, 500.0 - radius), False),
            Edge((radius, 501.0)),
        )
    )
    return along_axis(outline, 1, -1.0, 301.0)


def case(radius: float, rabbet: float = 0.0) -> Piece:
    side = part("side", ((0, T), (0, 300), (0, 500)))
    top = part("top", ((0, 400), (0, 300), (500 - T, 500)), "across", number=2)
    later: list[Shape] = [waste(radius)] if radius else []
    if rabbet:
        later.append(box((T - rabbet, -1.0, -1.0), (401.0, 15.0, 500 - T + rabbet)))
    point: Vec = (0.0, 150.0, 500.0)
    out: Vec = (1 / R2, 0.0, 1 / R2)

    def cut(p: Part, normal: Vec) -> Part:
        mitre = feature("mitre", Made(cuts=(Cut(into(p, HalfSpace(point, normal))),)))
        shapes = tuple(Cut(into(p, s)) for s in later)
        from dataclasses import replace

        return replace(p, features=(mitre, feature("rounding", Made(cuts=shapes), stage=Stage.GLUED)))

    return piece(
        cut(side, out),
        cut(top, (-out[0], 0.0, -out[2])),
        joints=(Joint("mitre", "mitre", ("side", "top"), (("side", "mitre 1"), ("top", "mitre 1"))),),
    )


def least_left(rabbet: float) -> float:
    """The radius that leaves exactly 3 mm."""
    return ((T - rabbet) * R2 - 3.0) / (R2 - 1)


@pytest.mark.parametrize("rabbet", [0.0, 9.0])
def test_under_3_mm_of_wood_is_told(rabbet: float) -> None:
    (f,) = found(rounded_corners, case(least_left(rabbet) + 0.3, rabbet))
    assert (f.grade, f.code) == (Grade.CARE, "corner-thin")
    measured = {n: v for n, v, _ in f.figures}["wood left"]
    assert measured == pytest.approx(wood_left(T, least_left(rabbet) + 0.3, rabbet=rabbet), abs=0.05)


@pytest.mark.parametrize("rabbet", [0.0, 9.0])
def test_over_3_mm_is_silent(rabbet: float) -> None:
    assert codes(rounded_corners, case(least_left(rabbet) - 0.3, rabbet)) == []


def test_the_radius_that_breaks_through_stops() -> None:
    (f,) = found(rounded_corners, case(breakthrough_radius(T, 9.0) + 0.1, 9.0))
    assert (f.grade, f.code) == (Grade.STOP, "corner-breaks-through")
    (f,) = found(rounded_corners, case(breakthrough_radius(T, 9.0) - 0.3, 9.0))
    assert f.code == "corner-thin"


def test_a_sharp_corner_is_not_looked_at() -> None:
    assert codes(rounded_corners, case(0.0, 18.5)) == []  # 2.1 mm on the diagonal, but no rounding
