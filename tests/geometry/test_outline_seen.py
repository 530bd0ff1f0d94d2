"""What bounds a part on paper is drawn as seen: the outline of all that looks at the viewer, found another way than by its edges."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from docgen.drawing.unfold import principal
from docgen.geometry.hidden import draw
from docgen.geometry.lines import Stroke
from docgen.geometry.shapes import Frame, Vec2
from docgen.piece.kinds import kinds
from docgen.piece.records import Face, Stage
from tests.support.examples import example

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
