"""The thread of a tapped hole in a joinery section: seen where no screw fills it, up to the end of its full thread."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from docgen.drawing.hatching import hidden
from docgen.drawing.records import Arc, Line, Path, Pen, Record
from docgen.sheets.joint_bolts import drawn_bolts
from docgen.sheets.joint_cut import CutView
from docgen.sheets.joint_threads import covered, drawn_threads
from tests.sheets.test_joint_cut import cut_of


def ends(record: Record) -> tuple[tuple[float, float], tuple[float, float]]:
    if isinstance(record, Path):
        return record.points[0], record.points[-1]
    return record.a, record.b  # type: ignore[union-attr]


def test_the_thread_shows_beyond_the_screw() -> None:
    cut = cut_of("sketching-desk", "bolted")
    every = drawn_threads(cut, 2.0, (0.0, 0.0))
    along = [r for r in every if isinstance(r, Path) and r.pen is Pen.THIN]
    across = [r for r in every if isinstance(r, Path) and r.pen is Pen.VISIBLE]
    assert len(along) == 2 and len(across) == 1
    screw = cut.plane.fasteners[0][0]
    full = float(screw.tapped_depth)
    assert all(math.dist(*ends(r)) == pytest.approx(2 * full, abs=1e-6) for r in along)
    assert math.dist(*ends(across[0])) == pytest.approx(2 * 6.35)  # 1/4 in
    _, cover = drawn_bolts(cut, 2.0, (0.0, 0.0))
    left = hidden(along, covered(cover))
    assert len(left) == 2
    assert all(math.dist(*ends(r)) == pytest.approx(2 * (full - float(screw.engagement)), abs=1e-6) for r in left)


def test_the_thread_of_a_bolt_ends_at_a_line_across() -> None:
    cut = cut_of("sketching-desk", "bolted")
    records, _ = drawn_bolts(cut, 2.0, (0.0, 0.0))
    root = [r for r in records if isinstance(r, Line) and r.pen is Pen.THIN]
    (across,) = [r for r in records if isinstance(r, Line) and r.pen is Pen.VISIBLE]
    middle = ((across.a[0] + across.b[0]) / 2, (across.a[1] + across.b[1]) / 2)
    assert math.dist(across.a, across.b) == pytest.approx(2 * 6.35)  # 1/4 in
    half = math.dist(root[0].a, root[1].a) / 2
    assert all(math.dist(middle, r.a) == pytest.approx(half) for r in root)


def test_a_hole_cut_across_shows_three_quarters_of_its_thread() -> None:
    cut = cut_of("sketching-desk", "bolted")
    ahead = cut.plane.fasteners[0][0].direction
    head = cut.plane.fasteners[0][1]
    tapped = float(cut.plane.fasteners[0][0].grip) + 5.0
    point = (head[0] + ahead[0] * tapped, head[1] + ahead[1] * tapped, head[2] + ahead[2] * tapped)
    back = (-ahead[0], -ahead[1], -ahead[2])
    plane = replace(cut.plane, point=point, normal=back, right=cut.plane.normal)
    x, y = plane.view.flat(point)
    across = CutView(plane, ((x - 20, y - 20), (x + 20, y + 20)), cut.faces, ())
    (arc,) = drawn_threads(across, 1.0, (0.0, 0.0))
    assert isinstance(arc, Arc) and arc.end - arc.start == 270
    assert math.dist(arc.centre, (x, y)) < 1e-6
    short = replace(across, window=((x + 5, y - 20), (x + 20, y + 20)))
    assert not drawn_threads(short, 1.0, (0.0, 0.0))
