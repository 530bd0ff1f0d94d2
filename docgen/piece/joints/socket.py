"""Sockets: the round end of a leg, rung or rod enters a bore in each part that its middle line meets, square or leaning."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from docgen.geometry.shapes import Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.meeting import NEAR, centre, first_face, moved, outward, relative
from docgen.piece.joints.socket_wedge import TOLD, WEDGE, can_be, wedged
from docgen.piece.joints.telling import fault
from docgen.piece.model import Joint, Loose, Part
from docgen.piece.operations import saying
from docgen.piece.operations.ground import in_plane, settled
from docgen.piece.operations.hole import Hole, On
from docgen.piece.operations.leaning import Lean
from docgen.piece.records import Face, Origin, Purpose
from docgen.piece.turnings import radius_at
from docgen.project.fields import FaceWord, Field, Flag, Length, Many, Nested, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number

NOTE = "try the round end in a bore in waste first"


@dataclass(frozen=True, slots=True)
class Entry:
    """Where a middle line enters a part: its face, the place on it, the lean of the drill there, and how far in it reaches."""

    face: Face
    at: On
    leans: tuple[Number, Number]
    reach: float  # mm of the round part beyond the face, along its middle line
    way: Vec  # piece axes, into the wood
    end: Face  # of the round part, that enters
    mouth: float  # mm on the round part's length, where it enters
    wood: float  # mm along the middle line, right through


def enters(guest: Part, host: Part) -> Entry | None:
    """Return how the middle line of `guest` enters `host`; None where it passes by or ends before it.

    The line is followed from the middle of the part out of both ends.
    """
    frame, half = relative(guest, host), float(guest.size[0]) / 2
    start = frame.point(centre(guest))
    for side in (Face(0, 0), Face(0, 1)):
        way = frame.direction(outward(side))
        hit = first_face(host, start, way)
        if hit is None or half - hit[0] <= NEAR:
            continue
        away, face = hit
        place, straight = moved(start, way, away), abs(way[face.axis])
        u, v = in_plane(face)
        one, two = (settled(math.degrees(math.atan2(way[i], straight))) for i in (u, v))
        along = guest.frame.direction(outward(side))
        spot, mouth = (settled(place[u]), settled(place[v])), half + (away if side.side else -away)
        return Entry(face, spot, (one, two), half - away, along, side, mouth, float(host.size[face.axis]) / straight)
    return None


def other_side(found: Entry, host: Part) -> Entry:
    """Return the same bore as it is drilled from the face behind, right through."""
    thick = float(host.size[found.face.axis])
    u, v = (
        settled(float(a) + thick * math.tan(math.radians(float(lean))))
        for a, lean in zip(found.at, found.leans, strict=True)
    )
    one, two = found.leans
    return replace(found, face=Face(found.face.axis, 1 - found.face.side), at=(u, v), leans=(-one, -two))


def build(bench: Bench, values: Bound) -> None:
    """Bore each part that the round ends enter, and note each joint."""
    for guest in values["part"]:
        part = bench.part(guest)
        name = bench.next_name()
        for path in values["into"]:
            _bored(bench, values, part, bench.part(path), name)


def _bored(bench: Bench, values: Bound, part: Part, into: Part, name: str) -> None:
    found = enters(part, into)
    if found is None:
        message = f"the middle line of {part.path} ends before {into.path}, or passes it by: there is nothing to bore"
        fault(values, "into", "parts-do-not-meet", message, "a part that reaches into the other one", on=bench)
        return
    depth = values["depth"]
    if depth is not None and found.reach > float(depth) + NEAR:
        message = (
            f"{part.path} reaches {figure(settled(found.reach))} into {into.path}, its socket is {figure(depth)} deep"
        )
        fault(values, "depth", "socket-shallow", message, "a deeper socket, or a shorter part", on=bench)
        return
    if values["from"] is not None:
        asked, behind = into.face(values["from"]), other_side(found, into)
        if asked not in (found.face, behind.face) or (asked == behind.face and depth is not None):
            own = into.word(found.face)
            through = f" or {into.word(behind.face)}" if depth is None else ""
            message = f"{part.path} enters {into.path} by its {own} face: the bore cannot be drilled from its {values['from']}"
            bench.fault(values, "from", "socket-face", message, f"{own}{through}")
            return
        found = found if asked == found.face else behind
    diameter = _diameter(bench, values, part, into, found)
    if diameter is None or (values["wedge"] is not None and not can_be(bench, values, into, found.reach, found.wood)):
        return
    hole = Hole(
        face=found.face,
        points=(found.at,),
        diameter=diameter,
        depth=depth,
        purpose=Purpose.PLAIN,
        name=name,
        mate=part.path,
        note=NOTE if values["wedge"] is None else f"{NOTE}; {TOLD}",
        leans=found.leans,
        template=values["template"],
        label=values["label"] or "socket",
    )
    made = bench.add(into.path, hole, title=f"{hole.label} for {part.path}")
    figures = _figures(into, found, diameter, depth)
    set_in: tuple[Loose, ...] = ()
    if values["wedge"] is not None:
        spread = wedged(bench, values, part, into, found.end, diameter, reach=found.reach, wood=found.wood)
        if spread is not None:
            figures.append(("kerf for the wedge, deep from the tip", spread[0], "length"))
            set_in = (spread[1],)
    bench.joint(
        Joint(
            "socket",
            f"{part.path} in {into.path}",
            (part.path, into.path),
            # The kerf is none of these: details are cut along the drill's lean, which the bore alone tells.
            ((into.path, made.name),),
            tuple(figures),
            Origin(values.span, values.because),
            closes=found.way,
            driven=True,
            loose=set_in,
        )
    )


def _diameter(bench: Bench, values: Bound, part: Part, into: Part, found: Entry) -> Number | None:
    """Return the bore's diameter: as it is said, else that to which the round end is turned; None where it has none."""
    if values["diameter"] is not None:
        said: Number = values["diameter"]
        return said
    tip = found.mouth + min(found.reach, found.wood) * (1 if found.end.side else -1)
    radii = [radius_at(part, along) for along in (found.mouth, tip)]
    if radii[0] is None or radii[1] is None:
        message = f"the end of {part.path} that enters {into.path} is not turned: it gives the socket no diameter"
        bench.fault(values, "diameter", "socket-diameter", message, "a diameter, or an end that is turned")
        return None
    one, two = (settled(2 * r) for r in radii if r is not None)
    if abs(float(one - two)) > NEAR:
        message = (
            f"{part.path} is {figure(one)} thick where it enters {into.path}, and {figure(two)} at its other end there"
        )
        fault(values, "diameter", "socket-diameter", message, "an end that is turned straight, or a diameter", on=bench)
        return None
    return one


def _figures(into: Part, found: Entry, diameter: Number, depth: Number | None) -> list[tuple[str, Number, str]]:
    lean, sight = Lean(into, found.face, found.leans).truth
    figures: list[tuple[str, Number, str]] = [("diameter", diameter, "length")]
    figures += [("depth", depth, "length")] if depth is not None else []
    figures += [("lean from square", lean, "angle")] if lean else []
    figures += [("sight line", sight, "angle")] if all(found.leans) else []
    figures.append(("end past the face, along its middle", settled(found.reach), "length"))
    return figures


WORD = Word(
    name="socket",
    room="joint",
    help="the round end of a leg, rung or rod is glued into a bore of another part, which leans as the part does",
    fields=(
        Field("part", Many(PartName()), "the round part, or the parts that enter alike", required=True),
        Field("into", Many(PartName()), "the parts that are bored", required=True),
        Field("diameter", Length(above=0), "of the bore and of the round end; absent: what the end is turned to"),
        Field("depth", Length(above=0), "of the bore, along the drill; absent: it goes through"),
        Field("from", FaceWord(), "the face that is drilled; absent: the one by which the round part enters"),
        Field(
            "wedge", Nested(WEDGE), "a wedge spreads the tenon of a through socket along the grain of the bored part"
        ),
        Field("template", Flag(), "print a true-size drilling template", default="no"),
        saying.LABEL,
    ),
    example="socket: {part: [left leg, right leg], into: seat, diameter: 1}",
    build=build,
    waits="diameter",
)
