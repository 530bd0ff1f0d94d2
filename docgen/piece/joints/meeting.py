"""Where two parts stand to each other: boxes seen in the other part's axes, touching faces, pierced faces.

Everything is worked from the placements, never from the numbers in the file, so it holds for turned
parts as well. Points are in millimetres.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from docgen.geometry.make import dot
from docgen.geometry.shapes import Frame, Vec
from docgen.piece.model import Part
from docgen.piece.operations.ground import axis as unit
from docgen.piece.operations.ground import settled
from docgen.piece.records import Face, Point
from docgen.units import Number

NEAR = 0.01
"""mm: faces that are no further apart touch; a hundredth is finer than any wooden joint."""

PARALLEL = 1e-9
"""How far from 0 or 1 a component of a direction may be when two axes count as parallel."""


def moved(p: Vec, d: Vec, by: float) -> Vec:
    """Return the point `by` further along `d`."""
    return (p[0] + d[0] * by, p[1] + d[1] * by, p[2] + d[2] * by)


def relative(guest: Part, host: Part) -> Frame:
    """Return the placement of `guest` in the axes of `host`."""
    return host.frame.inverse().after(guest.frame)


def centre(part: Part) -> Vec:
    """Return the middle of the nominal box, in the part's axes."""
    return (float(part.size[0]) / 2, float(part.size[1]) / 2, float(part.size[2]) / 2)


def face_middle(part: Part, face: Face) -> Vec:
    """Return the middle of a face of the nominal box, in the part's axes."""
    p = list(centre(part))
    p[face.axis] = float(part.size[face.axis]) if face.side else 0.0
    return (p[0], p[1], p[2])


def outward(face: Face) -> Vec:
    """Return the direction in which a face looks, as a vector in the part's axes."""
    return unit(face.axis, 1.0 if face.side else -1.0)


@dataclass(frozen=True, slots=True)
class Seen:
    """A guest's nominal box in the axes of a host that it is parallel to.

    `axis[i]` is the host's axis along which the guest's axis i lies, `sign[i]` +1 where both point alike.
    """

    low: Point
    high: Point
    axis: tuple[int, int, int]
    sign: tuple[int, int, int]

    def host_face(self, face: Face) -> Face:
        """Return the side of the host that the guest's `face` looks to."""
        side = face.side if self.sign[face.axis] > 0 else 1 - face.side
        return Face(self.axis[face.axis], side)

    def guest_face(self, face: Face) -> Face:
        """Return the guest's face that looks to the host's `face` side."""
        mine = self.axis.index(face.axis)
        return Face(mine, face.side if self.sign[mine] > 0 else 1 - face.side)

    def level(self, face: Face) -> Number:
        """Return where the guest's `face` lies on the host's axis."""
        on = self.host_face(face)
        return self.high[on.axis] if on.side else self.low[on.axis]


def seen(guest: Part, host: Part) -> Seen | None:
    """Return the guest's nominal box in the host's axes, None when their axes are not parallel."""
    frame = relative(guest, host)
    axis, sign = [], []
    for i in range(3):
        column = [frame.rotation[k][i] for k in range(3)]
        k = max(range(3), key=lambda j: abs(column[j]))
        if abs(abs(column[k]) - 1) > PARALLEL:
            return None
        axis.append(k)
        sign.append(1 if column[k] > 0 else -1)
    a = frame.point((0.0, 0.0, 0.0))
    low: list[Number] = [0, 0, 0]
    high: list[Number] = [0, 0, 0]
    for i in range(3):
        k, start = axis[i], settled(a[axis[i]])
        low[k], high[k] = (start, start + guest.size[i]) if sign[i] > 0 else (start - guest.size[i], start)
    return Seen(
        (low[0], low[1], low[2]), (high[0], high[1], high[2]), (axis[0], axis[1], axis[2]), (sign[0], sign[1], sign[2])
    )


def touching(at: Seen, host: Part) -> Face | None:
    """Return the face of the host that the guest's box touches from outside, None when none does."""
    for k in range(3):
        others = [j for j in range(3) if j != k]
        if any(at.high[j] <= NEAR or at.low[j] >= host.size[j] - NEAR for j in others):
            continue
        if abs(float(at.high[k])) <= NEAR:
            return Face(k, 0)
        if abs(float(at.low[k] - host.size[k])) <= NEAR:
            return Face(k, 1)
    return None


def distance(at: Seen, host: Part) -> float:
    """Return how far apart two parallel boxes are; negative by how deep they run into each other."""
    gaps = [max(float(at.low[k] - host.size[k]), float(-at.high[k])) for k in range(3)]
    apart = [g for g in gaps if g > 0]
    return math.hypot(*apart) if apart else max(gaps)


def pierced(end: Part, into: Part) -> tuple[Face, Face] | None:
    """Return the end of `end` that meets `into`, and the face of `into` that it meets.

    The middle line of `end` is followed from its middle out of both ends; the face is the first that it meets, the end
    the one that lies nearer to that place. None when the line passes by.
    """
    frame = relative(end, into)
    start = frame.point(centre(end))
    half = float(end.size[0]) / 2
    found: list[tuple[float, Face, Face]] = []
    for side in (Face(0, 0), Face(0, 1)):
        along = frame.direction(outward(side))
        hit = first_face(into, start, along)
        if hit is not None:
            found.append((abs(hit[0] - half), side, hit[1]))
    if not found:
        return None
    _, side, on = min(found)
    return side, on


def first_face(part: Part, start: Vec, along: Vec) -> tuple[float, Face] | None:
    """Return how far off and through which face a line, in the part's axes, enters its box; None when it passes by."""
    best: tuple[float, Face] | None = None
    for axis in range(3):
        side = 0 if along[axis] > 0 else 1
        if abs(along[axis]) < PARALLEL:
            continue
        level = float(part.size[axis]) if side else 0.0
        t = (level - start[axis]) / along[axis]
        p = moved(start, along, t)
        inside = all(-NEAR <= p[j] <= float(part.size[j]) + NEAR for j in range(3) if j != axis)
        if t >= -NEAR and inside and (best is None or t < best[0]):
            best = (t, Face(axis, side))
    return best


def facing(a: Part, b: Part, gap: float = 0.0) -> list[tuple[Face, Face]]:
    """Return the pairs of faces, of `a` and of `b`, that look at each other `gap` apart."""
    frame = relative(b, a)
    out = []
    for one in (Face(i, s) for i in range(3) for s in (0, 1)):
        for two in (Face(i, s) for i in range(3) for s in (0, 1)):
            way = frame.direction(outward(two))
            if abs(dot(way, outward(one)) + 1) > PARALLEL:
                continue
            p, q = face_middle(a, one), frame.point(face_middle(b, two))
            between = dot((q[0] - p[0], q[1] - p[1], q[2] - p[2]), outward(one))
            if abs(between - gap) <= NEAR:
                out.append((one, two))
    return out


def on_face(part: Part, face: Face, p: Vec) -> tuple[Number, Number]:
    """Return the place of a point of the piece on a face of the part: its two axes in rising order."""
    q = part.frame.inverse().point(p)
    u, v = (i for i in range(3) if i != face.axis)
    return settled(q[u]), settled(q[v])


def holds(part: Part, face: Face, p: Vec) -> bool:
    """Tell whether the point of the piece lies within the rectangle of the part's face (seen square to it)."""
    place = on_face(part, face, p)
    sizes = [part.size[i] for i in range(3) if i != face.axis]
    return all(-NEAR <= c <= float(s) + NEAR for c, s in zip(place, sizes, strict=True))


def in_plane(part: Part, face: Face, given: dict[int, Number]) -> Vec | None:
    """Return the point of a face's plane of which two coordinates of the piece are given; None where it is open."""
    free = next(i for i in range(3) if i not in given)
    p, n = part.frame.point(face_middle(part, face)), part.frame.direction(outward(face))
    if abs(n[free]) < PARALLEL:
        return None
    rest = sum(n[i] * (float(given[i]) - p[i]) for i in given)
    point = [float(given.get(i, 0)) for i in range(3)]
    point[free] = p[free] - rest / n[free]
    return (point[0], point[1], point[2])
