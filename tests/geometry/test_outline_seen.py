"""What bounds a part on paper is drawn as seen: the outline of all that looks at the viewer, found another way than by its edges."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from docgen.drawing.unfold import principal
from docgen.geometry.hidden import draw
from docgen.geometry.lines import VIEWS, Stroke
from docgen.geometry.shapes import Frame, Vec2
from docgen.geometry.topology import topology
from docgen.piece.kinds import kinds
from docgen.piece.records import Face, Stage
from tests.support.examples import example
from tests.support.recipes import RECIPES

HAIR = 0.0005  # mm: triangles that meet are one for the union
NEAR = 0.06  # mm from a line: chords stand for true arcs
SHORT = 0.5  # mm of outline that may be left over at corners


def chords(stroke: Stroke) -> list[Vec2]:
    if stroke.arc is None:
        return [stroke.a, stroke.b]
    (x, y), r = stroke.arc.centre, stroke.arc.radius
    steps = np.radians(np.linspace(stroke.arc.start_deg, stroke.arc.end_deg, 361))
    return [(x + r * math.cos(t), y + r * math.sin(t)) for t in steps]


@pytest.mark.parametrize("name", ["sketching-desk", "side-table", "settle"])
def test_the_outline_of_every_part_is_seen_from_all_six_sides(name: str) -> None:
    of = example(name)
    missed = []
    for kind in kinds(of.piece, of.solids):
        shape = of.solids.topology(kind.first, Stage.PART)
        for face in (Face(axis, side) for axis in range(3) for side in (0, 1)):
            view = principal(face, False)
            turn = np.array([view.right, view.up, view.toward])
            flat, looks = (shape.points @ turn.T)[:, :2], (shape.normals @ turn.T)[:, 2] > 1e-6
            seen = flat[shape.triangles[looks[shape.triangle_face]]]
            outline = shapely.union_all(shapely.buffer(shapely.polygons(seen), HAIR)).boundary
            drawn = draw([(shape, Frame())], view).visible
            lines = shapely.union_all([shapely.LineString(chords(s)) for s in drawn]).buffer(NEAR)
            if outline.difference(lines).length > SHORT:
                missed.append((kind.first, face))
    assert missed == []


@pytest.mark.parametrize("name", ["plain", "dadoed", "holed", "raked"])
@pytest.mark.parametrize("merge", [3.0, 8.0, 20.0])
def test_an_outline_stays_closed_however_wide_the_pen_where_that_is_asked_for(name: str, merge: float) -> None:
    items = [(topology(RECIPES[name].solid()), Frame())]
    told = draw(items, VIEWS["axonometric"], hidden=False).visible
    wide = draw(items, VIEWS["axonometric"], merge=merge, hidden=False, whole=True).visible
    assert enclosed(wide) == pytest.approx(enclosed(told), abs=0.1)


def test_an_outline_opens_where_it_is_not_asked_to_stay() -> None:
    items = [(topology(RECIPES["dadoed"].solid()), Frame())]
    open_, closed = (
        draw(items, VIEWS["axonometric"], merge=8.0, hidden=False, whole=whole).visible for whole in (False, True)
    )
    assert enclosed(open_) < 0.99 * enclosed(closed)


def enclosed(lines: tuple[Stroke, ...]) -> float:
    """Return the area that lines close in, view mm²."""
    drawn = [shapely.set_precision(shapely.LineString([s.a, s.b]), 1e-3) for s in lines]
    return float(shapely.union_all(list(shapely.polygonize([shapely.node(shapely.union_all(drawn))]).geoms)).area)
