"""Where to measure on an end that is cut: from its heel, along the cut and across it."""

from __future__ import annotations

from docgen.geometry.make import cross, dot, unit
from docgen.geometry.shapes import Frame, Vec
from docgen.piece.model import Part
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.ground import SAME
from docgen.units import Number

NEAR = 0.01
"""mm: corners of the cut that lie no further apart count as one."""


def heel_frame(end: Part, cut: EndCut, way: Vec) -> Frame:
    """Return the frame on a cut plane in part axes: at the heel (the short point), x away from it, z into the wood.

    x lies along `way`, or against it, as far as that lies in the plane.
    """
    out = cut.normal()
    z = (-out[0], -out[1], -out[2])
    way = unit(_less(way, out, dot(way, out)))
    (long, at_long), (short, at_short) = cut.points(end)
    u, v = (i for i in range(3) if i != cut.end.axis)

    def spot(x: Number, place: tuple[Number, Number]) -> Vec:
        p = [0.0, 0.0, 0.0]
        p[cut.end.axis], p[u], p[v] = float(x), float(place[0]), float(place[1])
        return (p[0], p[1], p[2])

    heel, tip = spot(short, at_short), spot(long, at_long)
    rise = dot(way, (tip[0] - heel[0], tip[1] - heel[1], tip[2] - heel[2]))
    x = unit(way if rise >= 0 else (-way[0], -way[1], -way[2]))
    y = cross(z, x)
    corners = [spot(c, place) for c, place in cut.corners(end)]
    low_x = min(dot(x, c) for c in corners)
    at_heel = [c for c in corners if dot(x, c) < low_x + NEAR]
    origin = min(at_heel, key=lambda c: dot(y, c))
    return Frame(((x[0], y[0], z[0]), (x[1], y[1], z[1]), (x[2], y[2], z[2])), origin)


def _less(a: Vec, b: Vec, times: float) -> Vec:
    return (a[0] - b[0] * times, a[1] - b[1] * times, a[2] - b[2] * times)


def across(cut: EndCut, part: Part, frame: Frame) -> tuple[dict[int, tuple[float, float]], tuple[float, float]]:
    """Return the cut end in its frame: from–to along x at the part's low and high edge (by side), and from–to along y.

    Corners of one edge lie apart where the cut leans through the thickness too.
    """
    edges: dict[int, list[float]] = {0: [], 1: []}
    faces: dict[int, list[float]] = {0: [], 1: []}
    for x, (v, w) in cut.corners(part):
        p = frame.inverse().point((float(x), float(v), float(w)))
        edges[int(float(v) > SAME)].append(p[0])
        faces[int(float(w) > SAME)].append(p[1])
    one, two = sorted(faces.values(), key=min)
    spans = {side: (min(found), max(found)) for side, found in edges.items()}
    return spans, (max(one), min(two))
