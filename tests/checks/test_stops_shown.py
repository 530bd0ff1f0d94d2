import pytest

from docgen.checks import stops_shown
from docgen.checks.finding import Grade
from docgen.piece.model import Piece
from docgen.piece.operations.dado import Dado
from docgen.piece.records import Face
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece

SIDE = ((0, 20), (0, 300), (0, 720))


def case(
    *, start: float, front: float = 0.0, more: tuple[tuple[float, float], ...] = (), round_end: bool = True
) -> Piece:
    """A side with a stopped dado 20 wide, and a shelf against it whose front edge stands at `front`."""
    op = Dado(Face(2, 0), 1, 100.0, 120.0, 6.0, start, round_end=round_end)
    side = part("side", SIDE, features=(feature("dado", op.made(part("side", SIDE)), title="dado for shelf"),))
    inner = 20.0 if side.frame.point((0.0, 0.0, 0.0))[0] > 10 else 0.0
    out = (inner, inner + 600) if inner else (-600.0, 0.0)
    shelf = part("shelf", (out, (front, 300), (100, 120)), "across", number=2)
    return piece(
        side, shelf, *(part(f"rail {n}", (out, span, (0, 200)), "across", number=3 + n) for n, span in enumerate(more))
    )


@pytest.mark.parametrize(("start", "expected"), [(19.8, []), (19.6, ["stop-shows"])])
def test_a_round_end_before_the_shelfs_edge_is_seen(start: float, expected: list[str]) -> None:
    # the full width starts `start` from the side's front edge, the arc reaches 10 further; the shelf begins at 10
    assert codes(stops_shown, case(start=start, front=10.0)) == expected


def test_how_much_of_it_lies_open() -> None:
    (f,) = found(stops_shown, case(start=15.0, front=10.0))
    assert f.grade is Grade.CARE and f.parts == ("side", "shelf")
    assert f.figures[0][1] == pytest.approx(5.0, abs=1e-3)
    assert "lies open over 5" in f.message


def test_a_squared_end_and_an_end_under_a_rail_are_covered() -> None:
    assert codes(stops_shown, case(start=15.0, front=15.0, round_end=False)) == []
    assert codes(stops_shown, case(start=15.0, front=10.0, more=((0.0, 12.0),))) == []


def test_a_trench_that_nothing_covers_near_its_end_is_meant_to_be_seen() -> None:
    assert codes(stops_shown, case(start=30.0, front=60.5)) == []
    assert codes(stops_shown, case(start=30.0, front=59.5)) == ["stop-shows"]
