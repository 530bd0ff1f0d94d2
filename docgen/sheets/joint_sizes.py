"""What is dimensioned in a section through a joint: sizes once each, with their ends on the wood that they tell of."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from docgen.drawing.dimensions.wanted import Angular, Callout, Linear, Wanted
from docgen.drawing.wording import Notes, figure_text
from docgen.geometry.lines import View
from docgen.geometry.shapes import Vec2
from docgen.piece.records import Authority, SizeKind
from docgen.schedules.planes import Told
from docgen.sheets.joint_cut import CutView
from docgen.sheets.joint_screws import lengths, straight

SAME = 0.3  # mm: sizes whose ends lie nearer than this on their line are one
ON = 0.05  # mm: a point that lies nearer than this to an edge lies on it
SAME_VALUE = 1e-3  # mm, degrees
ROW = re.compile(r"^\d+× ")  # before the name of what stands in a row
FAR = 30.0  # mm: the end of a size is moved no further than this


def wanted(cut: CutView, notes: Notes) -> list[Wanted]:
    """Return the sizes and fasteners of a section as dimensions, but for what is not cut there."""
    plane, view = cut.plane, cut.plane.view
    out: list[Wanted] = [
        _dimension(f"{n:02d}", told, count, cut, notes)
        for n, (told, count) in enumerate(_once(plane.sizes, view))
        if not _elsewhere(told, cut)
    ]
    if plane.fasteners and not plane.second:
        out += lengths(*plane.fasteners[0], view, notes)
    return out


def elsewhere(cut: CutView, notes: Notes) -> list[str]:
    """Return in words what a section cannot show: a shoulder where the tenon alone is cut."""
    return [
        figure_text(told.size, notes, count)
        for told, count in _once(cut.plane.sizes, cut.plane.view)
        if _elsewhere(told, cut)
    ]


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


def _once(sizes: Sequence[Told], view: View) -> list[tuple[Told, int]]:
    """Return each size once with how often it stands: equal ones of a part are counted, two in one place are one."""
    kept: list[Told] = []
    counts: list[dict[object, int]] = []  # by part: the halves of a mortise that stand opposite each other are one
    for told in sizes:
        own = (told.path, told.key)
        same = next((k for k, count in enumerate(counts) if own in count), None)
        twin = next((k for k, t in enumerate(kept) if _coincide(t, told, view)), None) if same is None else None
        row = next((k for k, t in enumerate(kept) if _in_row(t, told, view)), None)
        if same is not None:
            counts[same][own] += 1
        elif row is not None:  # both parts tell the same row of cuts: as it is cut, else as its mate has it
            if kept[row].size.authority is Authority.MATE and told.size.authority is not Authority.MATE:
                kept[row], counts[row] = told, {own: 1}
        elif twin is None:
            kept.append(told)
            counts.append({own: 1})
        else:
            counts[twin][own] = 1
            if told.size.label and not kept[twin].size.label:
                kept[twin] = told
    return [(told, max(count.values())) for told, count in zip(kept, counts, strict=True)]


def _in_row(a: Told, b: Told, view: View) -> bool:
    """Tell whether two parts tell what stands in a row in both, by one name and value: the spacing of pins and of tails."""
    if a.path == b.path or SizeKind.ANGLE in (a.size.kind, b.size.kind) or a.size.kind is not b.size.kind:
        return False
    words = [ROW.sub("", t.size.label) for t in (a, b)]
    if words[0] != words[1] or words == [a.size.label, b.size.label]:
        return False
    return abs(float(a.size.value) - float(b.size.value)) < SAME_VALUE and _parallel(a, b, view)


def _parallel(a: Told, b: Told, view: View) -> bool:
    u, v = view.flat(a.along), view.flat(b.along)
    return abs(u[0] * v[1] - u[1] * v[0]) < SAME_VALUE


def _coincide(a: Told, b: Told, view: View) -> bool:
    """Return True for two lengths of one value between the same lines, and for two angles of one value and label."""
    if a.size.kind is not b.size.kind or abs(float(a.size.value) - float(b.size.value)) > SAME_VALUE:
        return False
    if a.size.kind is not SizeKind.LENGTH:
        return a.size.label == b.size.label
    if not _parallel(a, b, view):
        return False
    u = view.flat(a.along)
    ends = [sorted(p[0] * u[0] + p[1] * u[1] for p in (view.flat(t.start), view.flat(t.end))) for t in (a, b)]
    return all(abs(p - q) < SAME for p, q in zip(*ends, strict=True))


def _dimension(key: str, told: Told, count: int, cut: CutView, notes: Notes) -> Wanted:
    size, view = told.size, cut.plane.view
    text = figure_text(size, notes, count)
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
