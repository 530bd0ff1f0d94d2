"""Shoulder lines of a part's views: where a tongue as thick as its part begins there is no edge to measure from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.drawing.breaks import Gone, moved
from docgen.drawing.dimensions.wanted import Linear, Wanted
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Line, Pen
from docgen.drawing.unfold import Station
from docgen.geometry.lines import Drawn
from docgen.piece.model import Part
from docgen.piece.records import Stage
from docgen.sheets.part_broken import axis_of

NEAR = 1e-3  # mm in the wood: what lies so near lies on the line
REMARK = "Thin line across a view: the shoulder line, drawn and not cut; figures run from it"


def shoulder_lines(
    part: Part, station: Station, drawn: Drawn, wanted: Sequence[Wanted], bounds: Bounds, gone: Sequence[Gone] = ()
) -> list[tuple[int, float, float, float]]:
    """Return the lines at which wood begins that stands out beyond the box, where a figure of the view ends on one of them.

    Each is the axis of the view on which it has one place, that place, and from where to where it reaches, view mm. One on
    which the view has a line of its own, as at a cut shoulder, is left out; `gone` is what the view lacks.
    """
    out = []
    measured = False
    for axis, at in _planes(part, station, gone):
        lies = any(
            s.arc is None and abs(s.a[axis] - at) < NEAR and abs(s.b[axis] - at) < NEAR
            for s in (*drawn.visible, *drawn.hidden)
        )
        ends = (p[axis] for w in wanted if isinstance(w, Linear) and abs(w.along[axis]) > 1 - NEAR for p in (w.a, w.b))
        if not lies:
            measured = measured or any(abs(p - at) < NEAR for p in ends)
            out.append((axis, at, bounds[1 - axis], bounds[3 - axis]))
    return out if measured else []


def _planes(part: Part, station: Station, gone: Sequence[Gone]) -> Iterator[tuple[int, float]]:
    """Yield the axis of the view and the place on it of each plane beyond which an operation leaves wood standing out."""
    view = station.view
    faces = dict.fromkeys(
        a.face for f in part.features if f.stage is Stage.PART for a in f.made.allowances if a.amount > 0
    )
    for face in faces:
        p = [0.0, 0.0, 0.0]
        p[face.axis] = float(part.size[face.axis]) if face.side else 0.0
        for axis, way in enumerate((view.right, view.up)):
            if abs(way[face.axis]) > 1 - NEAR:
                seen = view.flat((p[0], p[1], p[2]))
                broken = axis_of(view)
                yield axis, (moved(seen, broken, gone) if gone and broken is not None else seen)[axis]


def lines(found: Sequence[tuple[int, float, float, float]], scale: float) -> list[Line]:
    """Return shoulder lines about the paper origin."""
    return [
        Line((at * scale, low * scale), (at * scale, high * scale), Pen.THIN)
        if axis == 0
        else Line((low * scale, at * scale), (high * scale, at * scale), Pen.THIN)
        for axis, at, low, high in found
    ]
