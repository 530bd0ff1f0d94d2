import pytest

from docgen.checks import screws
from docgen.checks.finding import Grade
from docgen.geometry.make import cylinder
from docgen.piece.model import Fastener, Piece
from docgen.piece.records import Cut, Made
from docgen.trade.fasteners import wood_screw
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece

SHANK = float(wood_screw(8).shank)


def screwed(length: float, *, thick: float = 30.0, held: float = 20.0) -> Piece:
    """A cleat `held` thick screwed into a board `thick` thick behind it, at the board's pilot hole."""
    engagement = length - held
    pilot = Made(cuts=(Cut(cylinder((250.0, 50.0, 0.0), (0.0, 0.0, 1.0), 1.5, engagement)),))
    board = part("board", ((0, 500), (held, held + thick), (0, 100)), "across", number=2)
    pilot = Made(cuts=(Cut(cylinder(board.frame.inverse().point((250.0, held, 50.0)),
                                    board.frame.inverse().direction((0.0, 1.0, 0.0)), 1.5, engagement)),))  # fmt: skip
    screw = Fastener(
        "A", "wood screw, flat head", "No. 8", length, 1, grip=held, engagement=engagement, points=((250.0, 0.0, 50.0),),
        direction=(0.0, 1.0, 0.0), parts=("cleat", "board"),
    )  # fmt: skip
    return piece(
        part("cleat", ((0, 500), (0, held), (0, 100)), "across"),
        part(
            "board", ((0, 500), (held, held + thick), (0, 100)), "across", number=2, features=(feature("hole", pilot),)
        ),
        fasteners=(screw,),
    )


@pytest.mark.parametrize(
    ("length", "grade"),
    [(46.9, None), (47.1, Grade.CARE), (49.9, Grade.CARE), (50.1, Grade.STOP)],
)
def test_the_point_against_the_far_side(length: float, grade: Grade | None) -> None:
    findings = found(screws, screwed(length))
    assert [(f.grade, f.code) for f in findings] == ([(grade, "screw-breaks-through")] if grade else [])
    for f in findings:
        assert f.figures[0][1] == pytest.approx(50 - length, abs=1e-6)


@pytest.mark.parametrize(("diameters", "expected"), [(2.52, []), (2.48, ["screw-holds-little"])])
def test_how_much_holds(diameters: float, expected: list[str]) -> None:
    assert codes(screws, screwed(20 + diameters * SHANK)) == expected


def test_thin_wood_holds_as_far_as_it_goes() -> None:
    """With 3 mm left beyond the point no longer screw would do."""
    assert codes(screws, screwed(25.0, thick=8.0)) == []
    assert codes(screws, screwed(24.9, thick=8.0)) == ["screw-holds-little"]
