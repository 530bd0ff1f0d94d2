"""A side of a face cut to a curve: an arc through three points, a smooth curve through several, an arch of a given rise.

The smooth curve is that of a thin batten bent round pins (the natural cubic spline through the points, over their
chords); on paper and in the solid it is followed by true arcs.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import ClassVar, TypeAlias

from docgen.geometry.curves import arc_through, batten, circle_through
from docgen.geometry.shapes import Vec2
from docgen.piece.bench import Bench
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.arched_edge import ArchedEdge
from docgen.piece.operations.curve_work import Curve, Values, arc_size, run_of, sides
from docgen.piece.operations.ground import (
    SAME,
    axis,
    length,
    level,
    need,
    outward,
    positive,
    settled,
    spot,
)
from docgen.piece.operations.side_line import SideLine
from docgen.piece.records import BOTH, Face, Made, Mark, Size
from docgen.project.fields import Choice, Field, Flag, Length, Many, Place, Reach, Word
from docgen.project.statements import Bound
from docgen.trade import arcs
from docgen.units import Number

On: TypeAlias = tuple[Number, Number]
"""A place on a face: coordinates on its two axes in rising order, from the datum edges."""

SMOOTH = "smooth curve"


@dataclass(frozen=True, slots=True)
class CurvedEdge:
    """The side `edge` of `face` cut to the curve through `points`, from its first to its last, right through the part.

    `shape` is "arc" (three points) or "smooth curve". Where the curve does not end at a corner, the cut ends in a wall
    square to the side.
    """

    word: ClassVar[str] = "curved edge"
    face: Face
    edge: Face
    points: tuple[On, ...]
    shape: str = "arc"
    ease: Number | None = None
    label: str = "curve"

    def made(self, part: Part) -> Made:
        """Return the cutter, each point from the datum edges, the radius, marks, saw and trimming, and a template."""
        line = self._line(part)
        line.check(self.label, "through")
        curve = Curve(line, self.label, self._values(part), tuple(self._flat(part)), self._told(), self.ease)
        made = curve.made()
        return replace(made, sizes=(*self._sizes(part), *made.sizes), marks=self._marks(part))

    def _flat(self, part: Part) -> list[Vec2]:
        """Return the points as (along the side, depth under it)."""
        run = 0 if run_of(self.face, self.edge) < self.edge.axis else 1
        wide = float(part.size[self.edge.axis])
        return [(float(p[run]), wide - float(p[1 - run]) if self.edge.side else float(p[1 - run])) for p in self.points]

    def _line(self, part: Part) -> SideLine:
        sides(self.face, self.edge)
        least = 3 if self.shape == "arc" else 2
        need(
            len(self.points) == 3 if self.shape == "arc" else len(self.points) >= least,
            "curve-points",
            f"{'an arc' if self.shape == 'arc' else 'a smooth curve'} through {len(self.points)} points",
            "through",
            "three points for an arc, two or more for a smooth curve",
        )
        flat = self._flat(part)
        need(
            all(b[0] - a[0] > SAME for a, b in pairwise(flat)),
            "curve-returns",
            "two points of the curve stand over one another",
            "through",
            "points in order along the edge",
        )
        run = arc_through(flat[0], flat[1], flat[2]) if self.shape == "arc" else batten(flat)
        return SideLine(part, self.face, self.edge, flat[0], run)

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        along = run_of(self.face, self.edge)
        k = 0 if along < self.edge.axis else 1
        far = Face(self.edge.axis, 1 - self.edge.side)
        base, on = level(part, far), {self.face.axis: level(part, self.face)}
        sizes = []
        for n, p in enumerate(self.points):
            at = spot(on | {along: p[k], self.edge.axis: p[1 - k]})
            zero = spot(on | {along: 0, self.edge.axis: p[1 - k]})
            if p[k] > SAME:  # a curve that begins at the datum end needs no figure for it
                sizes.append(length(zero, at, axis(along), p[k], (f"points.{n}.{k}",), self.face))
            low = spot(on | {along: p[k], self.edge.axis: base})
            names = (f"points.{n}.{1 - k}",)
            sizes.append(
                length(low, at, axis(self.edge.axis, outward(self.edge)), positive(p[1 - k] - base), names, self.face)
            )
        return (*sizes, *self._radius(part))

    def _radius(self, part: Part) -> tuple[Size, ...]:
        flat = self._flat(part)
        found = circle_through(flat[0], flat[1], flat[2]) if self.shape == "arc" else None
        if found is None:
            return ()
        return (arc_size(part, self.face, self.edge, found[0], flat[1], settled(found[1]), ()),)

    def _marks(self, part: Part) -> tuple[Mark, ...]:
        if run_of(self.face, self.edge) != 0:
            return ()
        inner = [(n, p[0]) for n, p in enumerate(self.points, 1) if SAME < p[0] < part.size[0] - SAME]
        return tuple(Mark(x, BOTH, f"{self.label}, point {n}", self.face) for n, x in inner)

    def _values(self, part: Part) -> Values:
        flat = self._flat(part)
        found = circle_through(flat[0], flat[1], flat[2]) if self.shape == "arc" else None
        if found is None:
            return (("points of the batten", len(self.points), "count"),)
        radius, chord = found[1], math.dist(flat[0], flat[-1])
        return (
            ("radius", settled(radius), "length"),
            ("chord", settled(chord), "length"),
            ("rise over the chord", settled(arcs.rise(radius, chord)), "length"),
        )

    def _told(self) -> tuple[str, ...]:
        if self.shape == "arc":
            return ()
        return ("smooth curve: bend a thin batten round pins at the points, its ends free",)


def build(bench: Bench, values: Bound) -> None:
    """Cut the named edge to the curve that the file says."""
    for part in saying.parts(bench, values):
        face, edge = part.face(values["face"]), part.face(values["edge"])
        label = values["label"] or "curve"
        need(
            (values["through"] is None) != (values["rise"] is None),
            "curve-words",
            "a curved edge is said by the points it goes through, or by its rise",
            "through" if values["through"] is not None else "face",
            "one of through and rise",
        )
        operation = (
            _through(part, face, edge, values, label)
            if values["rise"] is None
            else _arch(part, face, edge, values, label)
        )
        bench.add(part.path, operation, title=values["label"] or "curved edge", stage=saying.stage(values))


def _through(part: Part, face: Face, edge: Face, values: Bound, label: str) -> CurvedEdge:
    need(values["shape"] != "ellipse", "curve-words", "an ellipse is said by its rise", "shape", "rise: in its middle")
    sides(face, edge)
    k = 0 if run_of(face, edge) < edge.axis else 1
    points = [saying.on_face(part, face, at, values["from"] or (), "through") for at in values["through"]]
    if points[0][k] > points[-1][k]:
        points.reverse()
    return CurvedEdge(face, edge, tuple(points), values["shape"], values["ease"] or None, label)


def _arch(part: Part, face: Face, edge: Face, values: Bound, label: str) -> ArchedEdge:
    need(values["shape"] != SMOOTH, "curve-words", "a smooth curve is said by its points", "shape", "through: …")
    sides(face, edge)
    begin: Number | None = None
    end: Number | None = None
    for word in saying.DIRECTIONS:
        if values[word] is not None:
            along, begin, end = saying.reach(part, word, values[word], values["from"] or ())
            need(along == run_of(face, edge), "curve-words", f"{word} does not run along the edge", word)
    return ArchedEdge(
        face, edge, values["rise"], begin, end, values["shape"], bool(values["crown"]), values["ease"] or None, label
    )


WORD = Word(
    name="curved edge",
    room="edge",
    help="An edge of a face cut to a curve: an arc through three points, a smooth curve through several, an arch by its rise.",
    fields=(
        saying.PART,
        saying.FACE,
        Field("edge", saying.FACE.kind, "the side of that face that is cut", required=True),
        Field("through", Many(Place(), least=2), "points of the curve, in order along the edge"),
        Field("rise", Length(above=0), "without points: how far it rises in its middle"),
        saying.FROM,
        Field("across", Reach(), "with a rise: from–to across; without it from corner to corner"),
        Field("deep", Reach(), "with a rise: from–to front to back"),
        Field("up", Reach(), "with a rise: from–to upward"),
        Field("crown", Flag(), "with a rise: highest in the middle, not hollow", default="no"),
        Field(
            "shape",
            Choice(("arc", "ellipse", SMOOTH)),
            "a smooth curve is a thin batten's, bent round pins",
            default="arc",
        ),
        Field("ease", Length(least=0), "radius to which the curve's arrises are rounded over on both faces"),
        saying.LABEL,
        saying.STAGE,
    ),
    example="curved edge: {part: rail, face: top, edge: front, rise: 1}",
    build=build,
)
