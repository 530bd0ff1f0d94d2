import pytest

from docgen.checks import frames
from docgen.piece.model import Pane, Piece
from tests.support.checking import codes, found
from tests.support.pieces import GLASS, part, piece


def frame(*, top: float = 0.0, outside: float = 380.0) -> Piece:
    """Four rails 40 wide round a pane 304 × 204 with 2 mm clearance and rabbets 6 wide: 376 × 276 outside, less or more."""
    return piece(
        part("pane", ((38, 342), (0, 4), (38, 242)), "across", material=GLASS),
        part("left", ((0, 40), (0, 20), (0, 280)), number=2),
        part("right", ((340, 380), (0, 20), (0, 280)), number=3),
        part("top", ((0, 380 + top), (0, 20), (240, 280)), "across", number=4),
        part("bottom", ((0, 380), (0, 20), (0, 40)), "across", number=5),
        panes=(
            Pane(
                "pane", ("left", "top", "right", "bottom"), "pane", 2, (4, 4),
                (("outside long", outside, "length"), ("outside wide", 280.0, "length")),
            ),
        ),
    )  # fmt: skip


def test_a_frame_whose_rails_are_alike_is_silent() -> None:
    assert codes(frames, frame()) == []


@pytest.mark.parametrize(("longer", "expected"), [(0.09, []), (-0.09, []), (-0.11, ["rails-differ"])])
def test_opposite_rails(longer: float, expected: list[str]) -> None:
    findings = found(frames, frame(top=longer))
    assert [f.code for f in findings] == expected
    for f in findings:
        assert set(f.parts) == {"top", "bottom"}
        assert f.figures[0][1] == pytest.approx(abs(longer), abs=1e-6)


@pytest.mark.parametrize(
    ("outside", "expected"), [(380.09, []), (380.11, ["frame-size-differs"]), (379.8, ["frame-size-differs"])]
)
def test_the_outside_against_the_chain(outside: float, expected: list[str]) -> None:
    assert codes(frames, frame(outside=outside)) == expected
