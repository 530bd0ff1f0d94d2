"""A housing in a part that stands at an angle to the shelf: the end is cut at the lean, the dado's floor is parallel to its face.

The parts may lean to each other about one axis: about the way in which the housing runs (the dado's walls lean, to run on with
the shelf's faces), or about the shelf's thickness (the dado is a plain one, the shelf's end runs slanting across its width).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from docgen.geometry.make import dot, plus
from docgen.geometry.shapes import Frame
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.housing_place import Band, Ends, run_axis
from docgen.piece.joints.meeting import NEAR, PARALLEL, centre, face_middle, first_face, outward, relative
from docgen.piece.joints.telling import fault
from docgen.piece.model import Part
from docgen.piece.operations.dado import Dado, trench
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.ground import settled, spot, third
from docgen.piece.operations.leaning_dado import LeaningDado, leaning_trench
from docgen.piece.operations.leaning_rabbet import LeaningRabbet
from docgen.piece.operations.rabbet import Rabbet
from docgen.piece.records import Face
from docgen.project.statements import Bound
from docgen.units import Number

LEAST = math.cos(math.radians(45)) - 1e-9
"""Of the end's direction against the face: beyond 45 degrees from square it is no housing."""


@dataclass(frozen=True, slots=True)
class Slant:
    """How a shelf's end meets a face of a part that leans to it.

    `frame` takes the shelf's axes into the host's; `about` is the shelf's axis about which they lean: the one that both
    have in common. `shoulder` is the cut that lays the end on the face.
    """

    end: Face  # of the shelf
    on: Face  # of the host
    frame: Frame
    about: int
    shoulder: EndCut

    @property
    def run(self) -> int:
        """The host's axis along which the dado runs."""
        return self.host_axis(run_axis(self.end))

    def host_axis(self, mine: int) -> int:
        """Return the host's axis, of those in its face, that lies nearest to the shelf's axis `mine`."""
        column = [abs(self.frame.rotation[k][mine]) for k in range(3)]
        return max((k for k in range(3) if k != self.on.axis), key=lambda k: column[k])

    def tip(self, depth: Number) -> EndCut:
        """Return the cut of the tongue's tip: parallel to the shoulder, `depth` beyond it."""
        normal = self.shoulder.normal()
        point = plus(spot({self.end.axis: self.shoulder.at}), normal, float(depth))
        return EndCut.through(self.end, point, normal, "end in its housing")

    def at(self, mine: int, value: Number, depth: Number) -> float:
        """Return where the shelf's plane `value` on its axis `mine` meets the host's face, or `depth` under it.

        It is told on the host's axis that lies nearest to that axis.
        """
        cut = self.tip(depth) if depth else self.shoulder
        u, _ = (i for i in range(3) if i != self.end.axis)
        x = cut.reach(value, 0) if mine == u else cut.reach(0, value)
        return self.frame.point(spot({self.end.axis: x, mine: value}))[self.host_axis(mine)]


def slant(shelf: Part, host: Part) -> Slant | None:
    """Return how the end of a shelf meets a leaning part; None where it meets none of its faces, or leans about two axes.

    Its middle line is followed out of its ends and edges; the face is the one that it meets nearest to an end.
    """
    frame = relative(shelf, host)
    about = next((i for i in range(3) if max(abs(frame.rotation[k][i]) for k in range(3)) > 1 - PARALLEL), None)
    start = frame.point(centre(shelf))
    found: list[tuple[float, Face, Face]] = []
    for end in (Face(i, side) for i in (0, 1) for side in (0, 1)):
        along = frame.direction(outward(end))
        hit = first_face(host, start, along)
        if hit is not None and -dot(along, outward(hit[1])) > LEAST:
            found.append((abs(hit[0] - float(shelf.size[end.axis]) / 2), end, hit[1]))
    if not found or about is None:
        return None
    _, end, on = min(found)
    if about == end.axis:
        return None  # turned about its own length
    return Slant(end, on, frame, about, _shoulder(shelf, host, frame, end, on))


def _shoulder(shelf: Part, host: Part, frame: Frame, end: Face, on: Face) -> EndCut:
    back = frame.inverse()
    out = back.direction(outward(on))
    return EndCut.through(end, back.point(face_middle(host, on)), (-out[0], -out[1], -out[2]), "shoulder")


def lean(at: Slant) -> float:
    """Return by how much the end stands off square to the face, degrees."""
    return max(abs(float(v)) for v in at.shoulder.slopes)


def reaches(bench: Bench, values: Bound, shelf: Part, host: Part, at: Slant) -> bool:
    """Return whether the shelf's box reaches the face with all its corners; what lies beyond is cut off. Else it is told."""
    side = 1.0 if at.end.side else -1.0
    level = float(shelf.size[at.end.axis]) if at.end.side else 0.0
    short = max(side * (float(x) - level) for x, _ in at.shoulder.corners(shelf))
    if short <= NEAR:
        return True
    message = f"{host.path} leans: one corner of the end of {shelf.path} stays {figure(settled(short))} short of it"
    fault(
        values, "into", "parts-do-not-meet", message, "a box that reaches it at every corner; its end is cut", on=bench
    )
    return False


def cut(
    at: Slant, shelf: Part, host: Part, tongue: Band, depth: Number, ends: Ends, *, round_end: bool
) -> Dado | Rabbet | LeaningDado | LeaningRabbet:
    """Return the dado in the host, or the rabbet where the host ends there; coordinates in the host's axes."""
    faces = sorted(settled(at.at(2, v, 0)) for v in (tongue.low, tongue.high))
    start, stop, stated = _run(at, shelf, host, depth, ends)
    if at.about == 2:
        arcs = round_end and stated and (start is not None or stop is not None)
        return trench(host, Dado(at.on, at.run, faces[0], faces[1], depth, start, stop, round_end=arcs, label="dado"))
    across = third(at.run, at.on.axis)
    way = at.frame.direction(outward(at.end))
    tilt = settled(math.degrees(math.atan2(way[across], abs(way[at.on.axis]))))
    return leaning_trench(
        host,
        LeaningDado(at.on, at.run, faces[0], faces[1], depth, tilt, start, stop, mate=f"ends of the {shelf.called}"),
    )


def _run(at: Slant, shelf: Part, host: Part, depth: Number, ends: Ends) -> tuple[Number | None, Number | None, bool]:
    """Return where the dado starts and stops in the host, and whether all its stops are stated ones; None runs out.

    A stop is measured from the shelf's edge, where its shoulder meets the face. Where the edge itself ends the dado and leans
    along it, the dado ends where that edge reaches furthest.
    """
    mine = run_axis(at.end)
    out: list[Number | None] = [None, None]
    stated = True
    for edge in (Face(mine, 0), Face(mine, 1)):
        level = shelf.size[mine] if edge.side else 0
        side = edge.side if at.frame.rotation[at.run][mine] > 0 else 1 - edge.side
        places = [at.at(mine, level, deep) for deep in (0, depth)]
        reach = max(places) if side else min(places)
        if edge in ends.stops:
            out[side] = settled(at.at(mine, level + ends.stops[edge] * (-1 if edge.side else 1), 0))
        elif edge not in ends.through and NEAR < reach < float(host.size[at.run]) - NEAR:
            out[side], stated = settled(reach), False
    return out[0], out[1], stated
