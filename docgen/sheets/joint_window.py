"""What of a section through a joint is shown: the joint with a margin, what is set into it, the ends of what is told. View mm."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from docgen.geometry.outlines import Box2
from docgen.geometry.section import Ring, Windowed, share_within
from docgen.geometry.shapes import Vec2
from docgen.geometry.surfaces import Floats
from docgen.piece import loose
from docgen.piece.hardware import Fitting
from docgen.piece.model import Loose
from docgen.piece.records import SizeKind
from docgen.schedules.planes import Plane

LEAST_MARGIN, MOST_MARGIN = 8.0, 12.0  # mm about the joint
NEARBY = 22.0  # mm: what ends or begins so near beside the window is taken in
MOSTLY = 0.5  # of what is seen of another part: so much of it in the joint's own room makes it one of the joint
HOLLOW = 3.0  # mm of wood that is lacking where a hollow is cut through
FLAT = 0.01  # mm: the ends of a line that runs along an edge of the window
KEPT = 3.0  # mm about the joint that are shown anyway
NEAR = 0.5  # mm within the end of a part
END = 2.0  # mm of wood about the end of a length
ABOUT = 4.0  # mm of wood about what is set into a joint


def about(boxes: Sequence[Box2], plane: Plane, most: float = MOST_MARGIN) -> Box2:
    """Return the joint with a margin, `most` mm at the most; a part that ends not far beyond is shown to its end."""
    wide, high = plane.high[0] - plane.low[0], plane.high[1] - plane.low[1]
    margin = min(max(0.4 * max(wide, high), LEAST_MARGIN), most)
    low, top = list(plane.low), list(plane.high)
    for i in (0, 1):
        for box in boxes:
            if plane.low[i] - 2 * margin < box[0][i] < low[i]:
                low[i] = min(low[i], box[0][i] + margin - 2.0)
            if top[i] < box[1][i] < plane.high[i] + 2 * margin:
                top[i] = max(top[i], box[1][i] - margin + 2.0)
    return ((low[0] - margin, low[1] - margin), (top[0] + margin, top[1] + margin))


def roomy(boxes: Sequence[Box2], plane: Plane, window: Box2) -> Box2:
    """Return a wider window: what of another part lies about the joint does not hang on how closely the picture is cropped."""
    low, high = about(boxes, plane, NEARBY)
    return (
        (min(low[0], window[0][0]), min(low[1], window[0][1])),
        (max(high[0], window[1][0]), max(high[1], window[1][1])),
    )


def with_bores(window: Box2, plane: Plane) -> Box2:
    """Return the window with the bottoms of the bores that lie in the plane, where little is lacking, and wood about them."""
    view, boxes = plane.view, []
    for bore in plane.bores:
        if bore.row.depth is not None:
            deep = float(bore.row.depth)
            m, d = bore.mouth, bore.direction
            end = view.flat((m[0] + deep * d[0], m[1] + deep * d[1], m[2] + deep * d[2]))
            boxes.append((end, end))
    return _grown(window, boxes, ABOUT)


def with_ends(window: Box2, plane: Plane) -> Box2:
    """Return the window with the ends of the lengths that are told in it, where little is lacking, and a little about them."""
    view = plane.view
    told = [t for t in plane.sizes if t.size.kind is SizeKind.LENGTH]
    boxes = [
        ((min(a[0], b[0]), min(a[1], b[1])), (max(a[0], b[0]), max(a[1], b[1])))
        for a, b in ((view.flat(t.start), view.flat(t.end)) for t in told)
    ]
    return _grown(window, boxes, END)


def with_parts(window: Box2, cuts: Iterable[Sequence[Ring]]) -> Box2:
    """Return the window with some of each part that a plane cuts, `cuts` its rings, where it lies not far beside it."""
    low, high = list(window[0]), list(window[1])
    for rings in (c for c in cuts if c):
        for i in (0, 1):
            first, last = (f(p[i] for ring in rings for p in ring) for f in (min, max))
            if last < window[0][i] < last + NEARBY:
                low[i] = min(low[i], last - LEAST_MARGIN)
            if first - NEARBY < window[1][i] < first:
                high[i] = max(high[i], first + LEAST_MARGIN)
    return ((low[0], low[1]), (high[0], high[1]))


def with_hollows(window: Box2, cuts: Iterable[Sequence[Ring]]) -> Box2:
    """Return the window with the rest of a part where its edge would run through a hollow of it, if that ends not far beyond.

    Broken off there, the mortise of another joint looks like a step in the wood. `cuts` are the rings of each part.
    """
    low, high = list(window[0]), list(window[1])
    for rings in (c for c in cuts if c):
        for i in (0, 1):
            first, last = (f(p[i] for ring in rings for p in ring) for f in (min, max))
            if 0 < low[i] - first < NEARBY and _hollow(rings, i, low[i], first + NEAR):
                low[i] = first - END
            if 0 < last - high[i] < NEARBY and _hollow(rings, i, high[i], last - NEAR):
                high[i] = last + END
    return ((low[0], low[1]), (high[0], high[1]))


def off_hollows(window: Box2, cuts: Iterable[Sequence[Ring]], plane: Plane) -> Box2:
    """Return the window with edges that would run through a hollow of a part drawn in before it, where that is not the joint's.

    So a bore or a mortise of another joint is shown whole or not at all. `cuts` are the rings of each part.
    """
    low, high = list(window[0]), list(window[1])
    for rings in (c for c in cuts if c):
        for i in (0, 1):
            top = _before(rings, i, high[i], plane.high[i])
            high[i] = high[i] if top is None else top
            turned = [tuple((-x, y) if i == 0 else (x, -y) for x, y in ring) for ring in rings]
            foot = _before(turned, i, -low[i], -plane.low[i])
            low[i] = low[i] if foot is None else -foot
    return ((low[0], low[1]), (high[0], high[1]))


def _before(rings: Sequence[Ring], axis: int, at: float, joint: float) -> float | None:
    """Return a level before the hollow through which the line at `at` runs, beyond the joint's end; None where there is none."""
    floors = [
        p[axis]
        for ring in rings
        for p, q in zip(ring, (*ring[1:], ring[0]), strict=True)
        if abs(p[axis] - q[axis]) < FLAT and abs(p[1 - axis] - q[1 - axis]) > HOLLOW
    ]
    here = _wood(rings, axis, at)
    for floor in sorted((f for f in floors if joint + KEPT + END < f < at), reverse=True):
        if 0 < here < _wood(rings, axis, floor - NEAR) - HOLLOW:
            return floor - END
    return None


def sunk(shown: Sequence[Windowed], cuts: Iterable[Sequence[Ring]]) -> bool:
    """Tell whether most of what is seen of another part lies in a hollow of one that is joined: the tenon of another joint."""
    boxes = [
        [(min(v), max(v)) for v in zip(*(p for ring in rings for p in ring), strict=True)] for rings in cuts if rings
    ]
    return any(share_within(shown, ((x0, y0), (x1, y1))) >= MOSTLY for (x0, x1), (y0, y1) in boxes)


def _hollow(rings: Sequence[Ring], axis: int, at: float, end: float) -> bool:
    """Return whether less wood lies on the line at `at` than on the one near the part's end."""
    return 0 < _wood(rings, axis, at) < _wood(rings, axis, end) - HOLLOW


def _wood(rings: Sequence[Ring], axis: int, at: float) -> float:
    """Return how much of the line across `axis` at `at` lies within rings, mm, holes left out."""
    places = []
    for ring in rings:
        for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
            if (p[axis] > at) != (q[axis] > at):
                share = (at - p[axis]) / (q[axis] - p[axis])
                places.append(p[1 - axis] + share * (q[1 - axis] - p[1 - axis]))
    places.sort()
    return sum(b - a for a, b in zip(places[::2], places[1::2], strict=True))


def _grown(window: Box2, boxes: Iterable[Box2], about: float) -> Box2:
    """Return the window with boxes and a little `about` them; a side stays where much would be lacking beyond it."""
    low, high = list(window[0]), list(window[1])
    for box in boxes:
        for i in (0, 1):
            if window[0][i] - NEARBY < box[0][i] - about < low[i]:
                low[i] = box[0][i] - about
            if high[i] < box[1][i] + about < window[1][i] + NEARBY:
                high[i] = box[1][i] + about
    return ((low[0], low[1]), (high[0], high[1]))


def with_things(window: Box2, plane: Plane, things: Sequence[Loose | Fitting]) -> Box2:
    """Return the window with all of what is set into the joint and met there, where little is lacking, and a little about it."""
    met = [loose.corners(t) for t in things if not passed(t, plane, window)]
    flat = [points @ np.array([plane.view.right, plane.view.up]).T for points in met]
    return _grown(window, [(_pair(f.min(axis=0)), _pair(f.max(axis=0))) for f in flat], ABOUT)


def _pair(p: Floats) -> Vec2:
    return (float(p[0]), float(p[1]))


def passed(thing: Loose | Fitting, plane: Plane, window: Box2) -> bool:
    """Tell whether a plane passes a thing by, or meets it wholly beside a window."""
    points, view = loose.corners(thing), plane.view
    off = (points - np.array(plane.point)) @ np.array(plane.normal)
    flat = points @ np.array([view.right, view.up]).T
    return bool(off.min() > -1e-3 or off.max() < 1e-3) or _aside(flat, window)


def _aside(flat: Floats, window: Box2) -> bool:
    """Tell whether points lie wholly beside a window."""
    (x0, y0), (x1, y1) = window
    low, high = flat.min(axis=0), flat.max(axis=0)
    return bool(high[0] < x0 or low[0] > x1 or high[1] < y0 or low[1] > y1)
