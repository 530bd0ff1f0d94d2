import pytest

from docgen.checks import screws
from docgen.checks.finding import Grade
from docgen.geometry.make import cylinder
from docgen.piece.model import Fastener, Part, Piece
from docgen.piece.records import Cut, Made
from docgen.trade.fasteners import wood_screw
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece

SHANK = float(wood_screw(8).shank)


def screwed(length: float, *, thick: float = 30.0, held: float = 20.0) -> Piece:
    """A cleat `held` thick screwed into a board `thick` thick behind it, at the board's pilot hole."""
    engagement = length - held
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


def laid_in(off: float, *more: Part, pilot: str = "2.8 mm") -> Piece:
    """A panel 6 thick, screwed into the rear edge of a side 20 thick, `off` from that side's outer face."""
    screw = Fastener(
        "A", "wood screw, flat head", "No. 8", 30, 1, grip=6, engagement=24, points=((off, 206.0, 150.0),),
        direction=(0.0, -1.0, 0.0), parts=("panel", "side"), pilot=pilot,
    )  # fmt: skip
    panel = part("panel", ((0, 400), (200, 206), (0, 300)), "across", number=2)
    return piece(part("side", ((0, 20), (0, 200), (0, 300))), panel, *more, fasteners=(screw,))


@pytest.mark.parametrize(
    ("off", "expected"),
    [
        (1.51 * SHANK, []),
        (1.49 * SHANK, ["screw-near-edge"]),
        (20 - 1.51 * SHANK, []),
        (20 - 1.49 * SHANK, ["screw-near-edge"]),
    ],
)
def test_how_near_a_screw_without_a_drilled_pilot_stands_to_an_edge(off: float, expected: list[str]) -> None:
    assert codes(screws, laid_in(off)) == expected
    # A pilot hole that a feature drills is seen by the check of holes.
    assert codes(screws, laid_in(off, pilot="")) == []


def test_an_edge_that_another_part_covers_does_not_split() -> None:
    shelf = part("shelf", ((20, 380), (0, 200), (140, 160)), "across", number=3)
    assert codes(screws, laid_in(18.0, shelf)) == []
    assert codes(screws, laid_in(2.0, shelf)) == ["screw-near-edge"]
