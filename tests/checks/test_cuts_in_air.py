from fractions import Fraction

from docgen.checks import cuts_in_air
from docgen.geometry.make import along_axis, box, frame_along
from docgen.geometry.shapes import Edge, Extrusion, Frame, Outline, Revolution
from docgen.piece.model import Piece
from docgen.piece.records import Cut, Face, HoleRow, Made, Purpose
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece

SIDE = ((0, 20), (0, 300), (0, 700))


def cutting(z: float) -> Piece:
    """A cutter over the whole high face that reaches down to `z` in a part 20 thick."""
    made = Made(cuts=(Cut(box((100.0, 10.0, z), (200.0, 100.0, 30.0))),))
    return piece(part("side", SIDE, features=(feature("dado", made),)))


def test_a_cutter_that_meets_no_wood() -> None:
    assert codes(cuts_in_air, cutting(20.0)) == ["cut-in-air"]
    assert codes(cuts_in_air, cutting(20.00005)) == ["cut-in-air"]


def test_a_cutter_that_takes_a_shaving() -> None:
    assert codes(cuts_in_air, cutting(19.9999)) == []  # 100 × 90 × 0.0001 mm is 0.9 mm³


def drilled(y: Fraction) -> Piece:
    row = HoleRow("A", Purpose.PLAIN, Face(2, 0), ((100, y, 0),), (0.0, 0.0, 1.0), Fraction(6), "6 mm")
    return piece(part("side", SIDE, features=(feature("hole", Made(holes=(row,))),)))


def test_a_hole_beside_its_part() -> None:
    (f,) = found(cuts_in_air, drilled(Fraction(301)))
    assert (f.code, f.figures) == ("hole-beside-part", (("outside by", 1.0, "mm"),))
    assert codes(cuts_in_air, drilled(Fraction(-1, 100))) == ["hole-beside-part"]


def test_a_hole_on_the_rim_is_on_the_part() -> None:
    assert codes(cuts_in_air, drilled(Fraction(300))) == []


def test_a_hollow_cutter_whose_middle_misses() -> None:
    """The waste of a rounded corner beside the part: its box meets the part, its outline does not."""

    def arc(s: float) -> Piece:
        """The waste of a corner of radius 50 at length 0, width 300, moved outward by `s` both ways."""
        start, end = (-s, 250.0 + s), (50.0 - s, 300.0 + s)
        outline = Outline(
            (
                Edge((-1.0 - s, 301.0 + s)),
                Edge((-1.0 - s, 250.0 + s)),
                Edge(start),
                Edge(end, (50.0 - s, 250.0 + s), False),
                Edge((50.0 - s, 301.0 + s)),
            )
        )
        made = Made(cuts=(Cut(along_axis(outline, 2, -1.0, 21.0)),))
        return piece(part("side", SIDE, features=(feature("corner", made),)))

    assert codes(cuts_in_air, arc(0.0)) == []
    assert codes(cuts_in_air, arc(14.0)) == []  # 0.9 mm of the waste's tip still meets the corner
    assert codes(cuts_in_air, arc(15.0)) == ["cut-in-air"]  # its box meets the part, its outline does not


def test_rings_and_cutters_with_holes_are_looked_at_as_solids() -> None:
    """A ring about the part, and a frame about its outline, take nothing though their middles lie in the wood."""
    ring = Revolution(
        Outline.rectangle(400.0, 0.0, 420.0, 700.0), frame_along((0.0, 150.0, 10.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    )
    frame = Extrusion(
        Outline.rectangle(-50.0, -50.0, 750.0, 350.0),
        Frame(),
        -1.0,
        21.0,
        (Outline.rectangle(-5.0, -5.0, 705.0, 305.0),),
    )
    for shape in (ring, frame):
        of = piece(part("side", ((0, 20), (0, 300), (0, 700)), features=(feature("shape", Made(cuts=(Cut(shape),))),)))
        assert codes(cuts_in_air, of) == ["cut-in-air"]
