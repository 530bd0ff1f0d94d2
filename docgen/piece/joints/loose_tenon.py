"""Loose tenon: the end of one part is cut to lie on a face of another, with mortises for tenons in both."""

from __future__ import annotations

from docgen.geometry.shapes import Vec
from docgen.piece.bench import Bench
from docgen.piece.joints.meeting import NEAR, on_face, pierced
from docgen.piece.joints.slanted_end import end_on_face, joining, lean, short_by, tell_short
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
from docgen.piece.operations.cut_frame import heel_frame
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.ground import settled
from docgen.piece.operations.mortise import CutMortise, Mortise
from docgen.piece.records import Face, Origin
from docgen.project.fields import Field, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number


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
    short = short_by(end, side, cut)
    if short > NEAR:
        tell_short(bench, values, end, into, "end", short)
        return
    made = [] if cut is None else [(end.path, bench.add(end.path, cut, title=cut.label).name)]
    joint = joining(end, side, into, on)
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
            ),
            origin=Origin(values.span, values.because),
            holds=True,
            loose=tenons(bench, values, joint, placed, (end.path, into.path), mortises),
        )
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
