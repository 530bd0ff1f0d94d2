"""The corner in which two boxes overlap and are mitred, and the frame on the plane of the cut."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.geometry.make import cross, dot, unit
from docgen.geometry.shapes import Frame, Vec
from docgen.piece.joints.meeting import NEAR, seen
from docgen.piece.model import Part
from docgen.piece.records import Face


@dataclass(frozen=True, slots=True)
class Corner:
    """The corner of two parts, in the first part's axes.

    `outer` and `inner` are points of the two arrises at the low end of the run, `normal` points out of the first
    part's wood, `run` is the axis along the arrises and `ends` the end of each part that is cut.
    """

    outer: Vec
    inner: Vec
    normal: Vec
    run: int
    ends: tuple[Face, Face]

    @property
    def diagonal(self) -> Vec:
        """Return the vector from the inner to the outer arris."""
        return (self.outer[0] - self.inner[0], self.outer[1] - self.inner[1], self.outer[2] - self.inner[2])


class NoCorner(Exception):
    """Parts whose boxes do not overlap in a corner; the text says how they stand."""


def corner(one: Part, two: Part) -> Corner:
    """Return the corner in which the boxes of two square parts overlap; `NoCorner` when there is none."""
    at = seen(two, one)
    if at is None:
        raise NoCorner(f"{one.path} and {two.path} stand at an angle to each other")
    low = [max(0.0, float(at.low[k])) for k in range(3)]
    high = [min(float(one.size[k]), float(at.high[k])) for k in range(3)]
    if any(high[k] - low[k] <= NEAR for k in range(3)):
        raise NoCorner(f"the boxes of {one.path} and {two.path} do not overlap in a corner")
    in_one = [k for k in range(3) if high[k] - low[k] < float(one.size[k]) - NEAR]
    in_two = [k for k in range(3) if high[k] - low[k] < float(at.high[k] - at.low[k]) - NEAR]
    if len(in_one) != 1 or len(in_two) != 1 or in_one == in_two:
        raise NoCorner(f"{one.path} and {two.path} do not both end in their corner")
    e, f = in_one[0], in_two[0]
    out_e = 1 if high[e] >= float(one.size[e]) - NEAR else 0
    out_f = 1 if high[f] >= float(at.high[f]) - NEAR else 0
    outer, inner = [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]
    for k, side in ((e, out_e), (f, out_f)):
        outer[k], inner[k] = (high[k], low[k]) if side else (low[k], high[k])
    run = 3 - e - f
    outer[run] = inner[run] = low[run]
    # Square to the diagonal, out of the first part's end and toward the second part's body.
    normal = [0.0, 0.0, 0.0]
    normal[e] = (1.0 if out_e else -1.0) * (high[f] - low[f])
    normal[f] = (-1.0 if out_f else 1.0) * (high[e] - low[e])
    return Corner(
        (outer[0], outer[1], outer[2]),
        (inner[0], inner[1], inner[2]),
        unit((normal[0], normal[1], normal[2])),
        run,
        (Face(e, out_e), at.guest_face(Face(f, out_f))),
    )


def cut_frame(part: Part, heel: Vec, along: Vec, into: Vec, run: Vec, length: float) -> Frame:
    """Return the frame on the mitre's face in the part's axes: from the heel, across, into the wood."""
    inner = part.frame.inverse()
    x, z = inner.direction(along), inner.direction(into)
    y = cross(z, x)
    origin = inner.point(heel)
    r = inner.direction(run)
    if dot(y, r) < 0:  # y runs back along the arris: start at its other end
        origin = (origin[0] + r[0] * length, origin[1] + r[1] * length, origin[2] + r[2] * length)
    return Frame(((x[0], y[0], z[0]), (x[1], y[1], z[1]), (x[2], y[2], z[2])), origin)
