"""What is dimensioned in a section through a joint: sizes once each, with their ends on the wood that they tell of."""

from __future__ import annotations

import math
from collections.abc import Sequence

from docgen.drawing.dimensions.wanted import Angular, Callout, Linear, Wanted
from docgen.drawing.wording import Notes, figure_text
from docgen.geometry.shapes import Vec2
from docgen.piece.records import SizeKind
from docgen.schedules.planes import Told
from docgen.sheets.joint_cut import CutView
from docgen.sheets.joint_once import SAME, Once, once
from docgen.sheets.joint_screws import lengths, straight

ON = 0.05  # mm: a point that lies nearer than this to an edge lies on it
FAR = 30.0  # mm: the end of a size is moved no further than this


def wanted(cut: CutView, notes: Notes) -> list[Wanted]:
    """Return the sizes and fasteners of a section as dimensions, but for what is not cut there."""
    plane = cut.plane
    out: list[Wanted] = [
        _dimension(f"{n:02d}", one, cut, notes)
        for n, one in enumerate(once(plane, cut.window))
        if not _elsewhere(one.told, cut)
    ]
    return [*out, *lengths(plane, notes)]


def elsewhere(cut: CutView, notes: Notes) -> list[str]:
    """Return in words what a section cannot show: a shoulder where the tenon alone is cut."""
    return [
        figure_text(one.told.size, notes, one.count, reference=one.reference)
        for one in once(cut.plane, cut.window)
        if _elsewhere(one.told, cut)
    ]


def brackets(cut: CutView) -> bool:
    """Tell whether a figure of the section stands in brackets."""
    return any(one.reference for one in once(cut.plane, cut.window))


def shortest(cut: CutView) -> float:
    """Return the shortest length that a section tells, mm."""
    told = (one.told for one in once(cut.plane, cut.window) if not _elsewhere(one.told, cut))
    return min((float(t.size.value) for t in told if t.size.kind is SizeKind.LENGTH), default=math.inf)


def _elsewhere(told: Told, cut: CutView) -> bool:
    """Tell whether a length ends in the window on no line of the section, and beyond what is cut of its part."""
    if told.size.kind is not SizeKind.LENGTH or not told.inside:
        return False
    view, (low, high) = cut.plane.view, cut.window
    along = view.flat(told.along)
    rings = [(face.part.path, ring) for face in cut.faces for w in face.shown for ring in w.rings]
    set_in = (*(fill.shown for fill in cut.fills), *(metal.shown for metal in cut.metal))
    rings += [("", ring) for shown in set_in for w in shown for ring in w.rings]
    every = [(path, q[0] * along[0] + q[1] * along[1]) for path, ring in rings for q in ring]
    own = [level for path, level in every if path == told.path]
    for p in (view.flat(told.start), view.flat(told.end)):
        level = p[0] * along[0] + p[1] * along[1]
        beyond = bool(own) and not min(own) - ON < level < max(own) + ON
        inside = all(low[i] < p[i] < high[i] for i in (0, 1))
        if beyond and inside and not any(abs(other - level) < SAME for _, other in every):
            return True
    return False


def _dimension(key: str, one: Once, cut: CutView, notes: Notes) -> Wanted:
    told, size, view = one.told, one.told.size, cut.plane.view
    text = figure_text(size, notes, one.count, reference=one.reference)
    start, end = view.flat(told.start), view.flat(told.end)
    if size.kind in (SizeKind.LENGTH, SizeKind.DIAMETER):  # of a bore that is cut lengthwise
        along = straight(view.flat(told.along))
        if size.kind is SizeKind.LENGTH:
            edges = [ring for face in cut.faces if face.part.path == told.path for w in face.shown for ring in w.rings]
            start, end = (_on_wood(p, along, edges) for p in (start, end))
        return Linear(key, start, end, along, text, (size,), datum=True, reaches=True)
    if size.kind is SizeKind.ANGLE:
        return Angular(key, start, end, view.flat(told.other) if told.other is not None else end, text, (size,))
    toward = math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
    return Callout(key, start, math.dist(start, end), (text,), (size,), toward, 20.0)


def _on_wood(p: Vec2, along: Vec2, rings: Sequence[Sequence[Vec2]]) -> Vec2:
    """Return the end of a size where its extension line comes to the part, square to the size; the end itself if it does not.

    A rabbet is told by the corner that it takes away: there is no wood to which a line could be drawn.
    """
    if any(abs(x - p[0]) < ON and abs(y - p[1]) < ON for ring in rings for x, y in ring):
        return p
    square = (-along[1], along[0])
    hits: list[float] = []
    for ring in rings:
        flat = [(_dot(q, p, along), _dot(q, p, square)) for q in ring]
        for (u, v), (w, x) in zip(flat, (*flat[1:], flat[0]), strict=True):
            if abs(u) < ON:
                hits.append(v)
            if u * w < 0:
                hits.append(v + (x - v) * u / (u - w))
            if abs(u) < ON and abs(w) < ON and v * x < 0:  # on an edge that runs along the line
                return p
    off = min(hits, key=lambda t: (round(abs(t), 3), t), default=0.0)
    return (p[0] + off * square[0], p[1] + off * square[1]) if ON < abs(off) < FAR else p


def _dot(q: Vec2, p: Vec2, way: Vec2) -> float:
    return (q[0] - p[0]) * way[0] + (q[1] - p[1]) * way[1]
