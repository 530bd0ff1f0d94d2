"""A round part is told by its diameter, and what stands on it from its centre lines."""

from fractions import Fraction

from docgen.drawing.choose import figures
from docgen.piece.model import Part
from docgen.piece.operations.hole import Hole
from docgen.piece.operations.round_part import Disc
from docgen.piece.records import Face, Feature, SizeKind, Stage
from docgen.schedules.discs import disc_of
from tests.support.pieces import part

TOP = Face(2, 1)


def seat(across: int = 330, diameter: int = 330) -> Part:
    bare = part("seat", ((0, across), (0, across), (0, 36)), "across")
    middle = Fraction(across, 2)
    bored = Hole(TOP, ((Fraction(90), Fraction(80)), (middle, Fraction(250))), Fraction(25))
    rim = Disc(TOP, (middle, middle), Fraction(diameter))
    features = (
        Feature("hole 1", "hole", "hole", Stage.PART, bored.made(bare)),
        Feature("round 1", "round", "disc", Stage.PART, rim.made(bare)),
    )
    return part("seat", ((0, across), (0, across), (0, 36)), "across", features=features)


def told(of: Part) -> list[tuple[SizeKind, float]]:
    return [(f.size.kind, float(f.size.value)) for f in figures(of)]


def test_a_disc_has_its_diameter_alone_and_its_holes_from_the_centre_lines() -> None:
    """Holes at 90, 80 and 165, 250 of a disc of 330: 75 left of the middle, 85 before it, 85 behind it."""
    assert disc_of(seat()) is not None
    assert told(seat()) == [
        (SizeKind.LENGTH, 36.0),
        (SizeKind.LENGTH, 75.0),
        (SizeKind.LENGTH, 85.0),
        (SizeKind.LENGTH, 85.0),
        (SizeKind.DIAMETER, 330.0),
    ]


def test_a_disc_that_leaves_its_box_is_placed_from_the_sides_of_the_box() -> None:
    small = seat(diameter=300)
    assert disc_of(small) is None
    lengths = [value for kind, value in told(small) if kind is SizeKind.LENGTH]
    assert lengths[:3] == [330.0, 330.0, 36.0]
    assert {90.0, 80.0, 250.0, 165.0} <= {*lengths}
