"""The end of a part that is cut to lie on a face of another: the cut, the plane of the joint, where to measure on it."""

from __future__ import annotations

import math

from docgen.geometry.make import dot
from docgen.geometry.shapes import Frame
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.meeting import NEAR, face_middle, outward, pierced
from docgen.piece.joints.telling import fault
from docgen.piece.joints.tenoning import Joining
from docgen.piece.model import Part
from docgen.piece.operations.cut_frame import heel_frame
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.ground import axis as axis_unit
from docgen.piece.operations.ground import settled
from docgen.piece.records import Face
from docgen.project.statements import Bound


def end_on_face(end: Part, side: Face, into: Part, on: Face) -> EndCut | None:
    """Return the cut that lays the part's end on the other part's face; None when it lies there as it is.

    `ValueError` with the gap as a `faults.figure` when the end does not reach the face.
    """
    back = end.frame.inverse()
    point = back.point(into.frame.point(face_middle(into, on)))
    out = back.direction(into.frame.direction(outward(on)))
    normal = (-out[0], -out[1], -out[2])  # out of the end's wood, into the other part
    level = float(end.size[0]) if side.side else 0.0
    if abs(abs(normal[0]) - 1) < 1e-9 and abs(point[0] - level) <= NEAR:
        return None
    reach = max(dot(normal, (level - point[0], v - point[1], w - point[2])) for v, w in _corners(end))
    if reach < -NEAR:
        raise ValueError(figure(settled(-reach)))
    return EndCut.through(side, point, normal, f"end against {into.path}")


def _corners(part: Part) -> list[tuple[float, float]]:
    return [(v, w) for v in (0.0, float(part.size[1])) for w in (0.0, float(part.size[2]))]


def lean(end: Part, into: Part, on: Face) -> float:
    """Return the acute angle between the end's length and the face, degrees; 90 for a square joint."""
    along = end.frame.direction((1.0, 0.0, 0.0))
    normal = into.frame.direction(outward(on))
    return math.degrees(math.asin(min(1.0, abs(dot(along, normal)))))


def joining(end: Part, side: Face, into: Part, on: Face) -> Joining:
    """Return the joint's plane: where the end's middle line meets it, tenons along the other part's length."""
    frame = into.frame
    normal = frame.direction(outward(on))
    along = end.frame.direction(outward(side))
    start = end.frame.point(face_middle(end, side))
    q = frame.point(face_middle(into, on))
    gap = (q[0] - start[0], q[1] - start[1], q[2] - start[2])
    t = dot(gap, normal) / dot(along, normal)
    point = (start[0] + along[0] * t, start[1] + along[1] * t, start[2] + along[2] * t)
    width = 0 if on.axis else 1
    return Joining(
        point,
        frame.direction(axis_unit(width)),
        frame.direction(axis_unit(3 - width - on.axis)),
        normal,
    )


def slanted(bench: Bench, values: Bound, end: Part, into: Part, field: str) -> tuple[EndCut, Frame, Face] | None:
    """Return the cut that lays a leaning end on a face, the frame on it along the other part's length, and the face.

    None, with a problem told, where the end passes by, does not reach the face with all its corners, or is only turned about
    its own length.
    """
    met = pierced(end, into)
    if met is None:
        message = f"{end.path}, followed along its length, passes {into.path} by"
        bench.fault(values, "into", "parts-do-not-meet", message, "a part that its end points to")
        return None
    side, on = met
    try:
        cut = end_on_face(end, side, into, on)
        short = short_by(end, side, cut)
    except ValueError as found:
        message = f"{end.path} ends {found} before {into.path}"
        fault(values, field, "parts-do-not-meet", message, "an end that reaches it", on=bench)
        return None
    if cut is None:
        message = f"{end.path} is turned about its own length: its end stands across the grain of {into.path}"
        bench.fault(values, field, "tenon-skew", message, "a rail whose faces look along the other part's")
        return None
    if short > NEAR:
        tell_short(bench, values, end, into, field, short)
        return None
    along = end.frame.inverse().direction(joining(end, side, into, on).width)
    return cut, heel_frame(end, cut, along), on


def short_by(end: Part, side: Face, cut: EndCut | None) -> float:
    """Return by how much the end's box stays short of the cut at one of its corners, along its length, mm; 0 for none."""
    return 0.0 if cut is None else max(0.0, -_least(end, side, cut) / abs(cut.normal()[0]))


def tell_short(bench: Bench, values: Bound, end: Part, into: Part, field: str, short: float) -> None:
    """Tell that a corner of the end's box does not reach the other part: it would be a part too short."""
    message = f"{end.path} leans: one corner of its end stays {figure(settled(short))} short of {into.path}"
    fault(
        values, field, "parts-do-not-meet", message, "a box that reaches it at every corner; its end is cut", on=bench
    )


def _least(end: Part, side: Face, cut: EndCut) -> float:
    """Return how far the corner of the end that is least beyond the cut lies beyond it."""
    plane, level = cut.plane(), float(end.size[0]) if side.side else 0.0
    corners = [(level, v, w) for v, w in _corners(end)]
    return min(
        dot(plane.normal, (c[0] - plane.point[0], c[1] - plane.point[1], c[2] - plane.point[2])) for c in corners
    )
