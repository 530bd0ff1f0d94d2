import math
from dataclasses import replace

import pytest

from docgen.piece.faults import Fault
from docgen.piece.model import Part
from docgen.piece.operations.base import parameters
from docgen.piece.operations.glued_corner import GluedCorner
from docgen.piece.operations.glued_rabbet import GluedRabbet
from docgen.piece.placement import place
from docgen.piece.records import Face
from tests.piece.operations.trial import (
    CHORDS,
    board,
    every_parameter_moves_the_solid,
    figures_measure_what_they_say,
    made,
    proven,
    worked,
)

BOARD = 20


def standing(box: tuple, grain: str, path: str) -> Part:  # type: ignore[type-arg]
    placed = place(box, grain, BOARD)
    return replace(
        board(), path=path, size=placed.size, frame=placed.frame, rest=placed.rest, words=placed.words, box=placed.box
    )


LEFT = standing(((0, 20), (0, 200), (0, 300)), "up", "left")
RIGHT = standing(((480, 500), (0, 200), (0, 300)), "up", "right")
TOP = standing(((0, 500), (0, 200), (280, 300)), "across", "top")
RABBET = GluedRabbet(Face(1, 0), 0, ((20, 480), (0, 280)), 9, 18, 8, (Face(2, 0),))


def lost(operation: object, part: Part) -> float:
    return float(part.size[0] * part.size[1] * part.size[2]) - worked(operation, part).volume


def strip(radius: float, width: float) -> float:
    """Between a tangent and its circle, from the touching side line inward by `width`: r·w less the circle's area."""

    def under(s: float) -> float:
        return (s * math.sqrt(radius * radius - s * s) + radius * radius * math.asin(s / radius)) / 2

    return radius * width - (under(radius) - under(radius - width))


def test_a_rabbet_round_a_case_cuts_each_board() -> None:
    side = 18 * (9 * 289 - strip(17, 9))
    assert lost(RABBET, LEFT) == pytest.approx(side, rel=1e-4)
    assert lost(RABBET, RIGHT) == pytest.approx(side, rel=1e-4)
    assert lost(RABBET, TOP) == pytest.approx(18 * (9 * 478 - 2 * strip(17, 9)), rel=1e-4)


def test_its_numbers_move_the_wood_and_are_told_once() -> None:
    for part in (LEFT, RIGHT, TOP):
        proven(RABBET, part)
    assert [n for n, _ in parameters(RABBET)] == ["into", "depth", "bearing"]


def test_the_corner_radius_is_bearing_and_rabbet() -> None:
    size = next(s for s in made(RABBET, LEFT).sizes if s.label == "leave round")
    assert size.value == RABBET.radius == 17


def test_a_rabbet_with_walls_all_round_has_four_round_corners() -> None:
    closed = replace(RABBET, runs_out=())
    shape = closed.shape()
    assert sum(e.centre is not None for e in shape.outline.edges) == 4  # type: ignore[union-attr]


def test_a_part_inside_the_opening_is_refused() -> None:
    shelf = standing(((20, 480), (0, 200), (100, 120)), "across", "shelf")
    with pytest.raises(Fault) as fault:
        RABBET.made(shelf)
    assert fault.value.code == "rabbet-part"


@pytest.mark.parametrize(
    ("corner", "part"),
    [
        (GluedCorner(1, (0, 300), (0, 1), (0, 200), 28), LEFT),
        (GluedCorner(1, (500, 300), (1, 1), (0, 200), 28), RIGHT),
    ],
)
def test_outside_corner(corner: GluedCorner, part: Part) -> None:
    assert lost(corner, part) == pytest.approx(200 * strip(28, BOARD), rel=CHORDS)
    every_parameter_moves_the_solid(corner, part)
    figures_measure_what_they_say(corner, part)
    assert made(corner, part).templates[0].shared == "corner radius 28.0000"
