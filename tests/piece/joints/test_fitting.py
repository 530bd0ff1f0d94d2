"""Hinges and slides as solids: they fill what was let in or left free for them, and nothing else of the piece."""

from __future__ import annotations

import math

import pytest

from docgen.geometry.shapes import Vec
from docgen.geometry.solids import Solid, common, made
from docgen.piece import loose
from docgen.piece.hardware import Fitting
from docgen.piece.joints.fitting import hinge, slide
from docgen.piece.model import Piece
from docgen.piece.solids import Solids
from tests.sheets.test_joinery import context


def fittings(piece: Piece, word: str) -> list[Fitting]:
    return [x for j in piece.joints if j.word == word for x in j.fittings]


def solid(thing: Fitting) -> Solid:
    return made(thing.shape).moved(thing.frame)


def within(piece: Piece, thing: Fitting) -> float:
    """Return how much wood of the piece a piece of hardware fills, mm³."""
    solids = Solids(piece)
    return sum(common(solid(thing), solids.solid(p.path).moved(p.frame)) for p in piece.parts)


@pytest.mark.parametrize(
    ("name", "word"), [("door-cabinet", "hinge"), ("dovetailed-box", "hinge"), ("sketching-desk", "side slides")]
)
def test_hardware_fills_no_wood(name: str, word: str) -> None:
    piece = context(name).piece
    things = fittings(piece, word)
    assert things and {p for x in things for p in x.parts} <= {p.path for p in piece.parts}
    assert all(within(piece, x) < 1e-3 for x in things[:3])


def test_leaves_lie_flush_in_their_recesses_and_touch_the_barrel() -> None:
    ways: tuple[Vec, Vec, Vec] = ((1.0, 0.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, 1.0))
    barrel, turning, fixed = hinge((10.0, -4.0, 100.0), ways, (50, 14, 1.5, 6), ("door", "side"))
    assert (turning.parts, fixed.parts, barrel.parts) == (("door",), ("side",), ("door", "side"))
    low, high = solid(turning).bounds
    assert [round(float(v), 6) for v in (*low, *high)] == [11.5, -4.0, 75.0, 13.0, 10.0, 125.0]
    low, high = solid(fixed).bounds
    assert [round(float(v), 6) for v in (*low, *high)] == [7.0, -4.0, 75.0, 8.5, 10.0, 125.0]
    assert solid(barrel).volume == pytest.approx(math.pi * 9 * 50, rel=0.01)


def test_a_slide_fills_the_room_beside_its_drawer() -> None:
    low, high = solid(slide((0.0, 1.0, 2.0), (13.0, 301.0, 47.0), ("side", "drawer side"))).bounds
    assert [float(v) for v in (*low, *high)] == [0.0, 1.0, 2.0, 13.0, 301.0, 47.0]


def test_a_mirrored_hinge_is_the_image_of_the_first() -> None:
    """The right door of the cabinet is the left one's image: their hinges lie as far from the middle."""
    piece = context("door-cabinet").piece
    spots = [loose.corners(x)[:, 0] for x in fittings(piece, "hinge") if x.what == "barrel"]
    middle = (min(s.min() for s in spots) + max(s.max() for s in spots)) / 2
    left = sorted(round(float(middle - s.mean()), 6) for s in spots if s.mean() < middle)
    right = sorted(round(float(s.mean() - middle), 6) for s in spots if s.mean() > middle)
    assert left == right and len(left) == 2
