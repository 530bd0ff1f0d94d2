"""Sections through joints with something set into them, against an independent CAD kernel: what is cut, of parts and things."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache
from itertools import pairwise

import pytest

from docgen.geometry.make import frame_along
from docgen.geometry.section import Windowed
from docgen.geometry.shapes import Frame, Outline, Vec, Vec2
from docgen.schedules.meetings import Meeting, meetings
from docgen.sheets.joint_cut import Blanks, CutView, cut_view
from tests.support.examples import example
from tests.support.kernel import cut_area, kernel_shape, placed

JOINTS = (
    ("sketching-desk", "loose tenon", 0),
    ("sketching-desk", "loose tenon", 1),
    ("sketching-desk", "mitre", 1),
    ("map-case", "mitre", 0),
    ("map-case", "dowel", 0),
    ("side-table", "buttons", 0),
)


@cache
def sections(name: str, word: str, which: int) -> tuple[tuple[Meeting, CutView], ...]:
    of = example(name)
    meeting = [m for m in meetings(of.piece) if m.joint.word == word][which]
    things = [t for j in of.piece.joints for t in j.loose]
    parts = [of.piece.part(p) for p in meeting.parts]
    blanks = Blanks.of(of.piece.parts)
    views = (cut_view(parts, blanks, plane, of.solids, things, meeting.loose) for plane in meeting.planes)
    return tuple((meeting, view) for view in views if view is not None)


def area(shown: Sequence[Windowed]) -> float:
    """The area of the pieces of a cut face: the first ring of each is its outside."""
    return sum(abs(shoelace(w.rings[0])) - sum(abs(shoelace(r)) for r in w.rings[1:]) for w in shown)


def shoelace(ring: Sequence[Vec2]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, [*ring[1:], ring[0]], strict=True)) / 2


def standing(view: CutView) -> tuple[Outline, Frame]:
    """The window of a section, and the frame of its plane: the paper's origin is the foot of the piece's on the plane."""
    p = view.plane
    level = sum(a * b for a, b in zip(p.point, p.normal, strict=True))
    foot: Vec = (p.normal[0] * level, p.normal[1] * level, p.normal[2] * level)
    (x0, y0), (x1, y1) = view.window
    return Outline.rectangle(x0, y0, x1, y1), frame_along(foot, p.normal, p.right)


@pytest.mark.parametrize(("name", "word", "which"), JOINTS)
def test_what_a_section_shows_is_what_the_kernel_cuts(name: str, word: str, which: int) -> None:
    of = example(name)
    shown = sections(name, word, which)
    assert any(view.fills for _, view in shown)
    for _, view in shown:
        window, frame = standing(view)
        for face in view.faces:
            theirs = cut_area(placed(of.shape(face.part.path), face.part.frame), window, frame)
            assert area(face.shown) == pytest.approx(theirs, rel=1e-3), face.part.path
        for fill in view.fills:
            theirs = cut_area(placed(kernel_shape(fill.thing.shape), fill.thing.frame), window, frame)
            sag = 0.01 * sum(
                math.dist(*ends) for w in fill.shown for ends in pairwise(w.rings[0])
            )  # round ones are facetted
            assert area(fill.shown) == pytest.approx(theirs, rel=1e-3, abs=sag), fill.thing.what


def test_a_tenon_and_its_clearance_fill_the_mortises() -> None:
    """In the stretcher's joint the empty room is 2 × 1/32 in of the mortises' 1 1/2 in, over the tenon's thickness."""
    meeting, view = sections("sketching-desk", "loose tenon", 1)[0]
    window, frame = standing(view)
    (thing,) = meeting.loose
    of = example("sketching-desk")
    mortises = [
        cut_area(placed(kernel_shape(c.shape), of.piece.part(path).frame), window, frame)
        for path, name in thing.sits
        for f in of.piece.part(path).features
        if f.name == name
        for c in f.made.cuts
    ]
    over = 2 * 1.0 * 9.525  # each cutter overshoots its mouth by 1 mm
    tenon = area([w for fill in view.fills for w in fill.shown])
    assert sum(mortises) - over - tenon == pytest.approx(2 * 25.4 / 32 * 9.525, rel=0.01)
