"""Loose tenon: the end of one part is cut to lie on a face of another, with mortises for tenons in both."""

from __future__ import annotations

import math

from docgen.geometry.make import cross, unit
from docgen.geometry.shapes import Frame, Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.meeting import NEAR, dot, face_middle, on_face, outward, pierced
from docgen.piece.joints.telling import fault
from docgen.piece.joints.tenoning import (
    TENON,
    Into,
    Joining,
    NoRoom,
    Placed,
    figures,
    place,
    planes,
    tenon_size,
    tenons,
)
from docgen.piece.model import Joint, Part
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.ground import axis as axis_unit
from docgen.piece.operations.ground import settled
from docgen.piece.operations.mortise import CutMortise, Mortise
from docgen.piece.records import Face, Origin
from docgen.project.fields import Field, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number


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


def build(bench: Bench, values: Bound) -> None:
    """Cut the end to the face, then the mortises in both."""
    end, into = bench.part(values["end"]), bench.part(values["into"])
    met = pierced(end, into)
    if met is None:
        bench.fault(
            values,
            "into",
            "parts-do-not-meet",
            f"{end.path}, followed along its length, passes {into.path} by",
            "a part that its end points to",
        )
        return
    side, on = met
    try:
        cut = end_on_face(end, side, into, on)
    except ValueError as found:
        message = f"{end.path} ends {found} before {into.path}"
        fault(values, "end", "parts-do-not-meet", message, "an end that reaches it", on=bench)
        return
    made = [] if cut is None else [(end.path, bench.add(end.path, cut, title=cut.label).name)]
    joint = _joining(end, side, into, on)
    try:
        placed = _placed(values, joint, bench.part(end.path), side, bench.part(into.path))
    except NoRoom as found:
        fault(values, "count", "tenons-no-room", str(found), "smaller, fewer or shallower tenons", on=bench)
        return
    into_mortises, end_mortises = [], []
    for p in placed.middles:
        a, b = on_face(into, on, p)
        op = Mortise(on, (a, b), 0 if on.axis else 1, values["width"], values["thickness"], values["depth"])
        into_mortises.append((into.path, bench.add(into.path, op, title=f"mortise for {end.path}").name))
        other = _end_mortise(values, end, side, cut, joint, p)
        end_mortises.append((end.path, bench.add(end.path, other, title="mortise for a loose tenon").name))
    mortises = (*into_mortises, *end_mortises)
    angle = lean(end, into, on)
    bench.joint(
        Joint(
            word="loose tenon",
            title=f"{end.path} to {into.path}",
            parts=(end.path, into.path),
            features=(*made, *mortises),
            figures=(
                ("angle between length and face", settled(angle), "angle"),
                *figures(placed, tenon_size(values, bench.units)[0]),
                ("wall", values["wall"], "length"),
            ),
            origin=Origin(values.span, values.because),
            holds=True,
            loose=tenons(bench, values, joint, placed, (end.path, into.path), mortises),
        )
    )


def _joining(end: Part, side: Face, into: Part, on: Face) -> Joining:
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


def _placed(values: Bound, joint: Joining, end: Part, side: Face, into: Part) -> Placed:
    depth = float(values["depth"])
    n = joint.normal
    sides = (
        Into(planes(end, (side,)), n, depth),
        Into(planes(into), (-n[0], -n[1], -n[2]), depth),
    )
    return place(
        joint,
        sides,
        thickness=float(values["thickness"]),
        width=float(values["width"]),
        count=values["count"],
        wall=float(values["wall"]),
    )


def _end_mortise(
    values: Bound, end: Part, side: Face, cut: EndCut | None, joint: Joining, p: Vec
) -> Mortise | CutMortise:
    """Return the mortise in the end: on its square face, or on the slanted cut, measured from the heel."""
    back = end.frame.inverse()
    way = back.direction(joint.width)
    along = next((i for i in (1, 2) if abs(abs(way[i]) - 1) < 1e-9), None)
    sizes: tuple[Number, Number, Number] = (values["width"], values["thickness"], values["depth"])
    square = cut is None or not any(cut.slopes)
    if square and along is not None and cut is None:
        a, b = on_face(end, side, p)
        return Mortise(side, (a, b), along, *sizes)
    plane = cut if cut is not None else EndCut(side, end.size[0] if side.side else 0)
    frame = heel_frame(end, plane, way)
    q = frame.inverse().point(back.point(p))
    return CutMortise(side, frame, settled(q[0]), settled(q[1]), *sizes)


def heel_frame(end: Part, cut: EndCut, way: Vec) -> Frame:
    """Return the frame on a cut plane in part axes: at the heel (the short point), x away from it, z into the wood."""
    out = cut.normal()
    z = (-out[0], -out[1], -out[2])
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


WORD = Word(
    name="loose tenon",
    room="joint",
    help="the end of one part is cut to lie on a face of another, and mortises for loose tenons are cut in both",
    fields=(
        Field(
            "end",
            PartName(),
            "the part whose end meets the other; it may reach into it, and is then cut",
            required=True,
        ),
        Field("into", PartName(), "the part on whose face it lies", required=True),
        *TENON,
    ),
    example="loose tenon: {end: rail, into: leg, thickness: 3/8, width: 1 1/4, depth: 3/4}",
    build=build,
)
