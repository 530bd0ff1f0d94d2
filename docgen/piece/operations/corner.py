"""Rounded corner of a face's outline, right through the part; at the box's own corner or at an end cut's."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import ClassVar

from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Edge, Outline, Vec2
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.ground import OVER, axis, in_plane, level, need, spot
from docgen.piece.records import BOTH, Assumed, Axis, Caution, Cut, Face, Made, Mark, Setting, Size, SizeKind, Template
from docgen.project.fields import Field, Length, Word
from docgen.project.statements import Bound
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Rounding:
    """An arc that touches two lines: where it touches, its centre, and the corner that goes."""

    first: Vec2  # tangent point on the first line
    second: Vec2
    centre: Vec2
    corner: Vec2


def rounding(corner: Vec2, one: Vec2, two: Vec2, radius: float) -> Rounding:
    """Return the arc of `radius` in the corner from which the outline leaves along unit vectors `one` and `two`.

    Tangent length = r / tan(φ/2), centre at r / sin(φ/2) on the bisector, φ the angle inside (plane geometry).
    """
    phi = math.acos(max(-1.0, min(1.0, one[0] * two[0] + one[1] * two[1])))
    t = radius / math.tan(phi / 2)
    half = (one[0] + two[0], one[1] + two[1])
    n = math.hypot(*half)
    d = radius / math.sin(phi / 2)
    return Rounding(
        (corner[0] + t * one[0], corner[1] + t * one[1]),
        (corner[0] + t * two[0], corner[1] + t * two[1]),
        (corner[0] + d * half[0] / n, corner[1] + d * half[1] / n),
        corner,
    )


def corner_cutter(r: Rounding) -> Outline:
    """Return the waste of a rounded corner, counter-clockwise, overshooting both sides by 1 mm."""

    def outside(p: Vec2) -> Vec2:
        # Straight out from the tangent point, away from the centre.
        dx, dy = p[0] - r.centre[0], p[1] - r.centre[1]
        n = math.hypot(dx, dy)
        return (p[0] + dx / n * OVER, p[1] + dy / n * OVER)

    a, b = outside(r.first), outside(r.second)
    # The two outer lines, each parallel to its side, meet beyond the corner.
    n1 = ((a[0] - r.first[0]) / OVER, (a[1] - r.first[1]) / OVER)
    n2 = ((b[0] - r.second[0]) / OVER, (b[1] - r.second[1]) / OVER)
    det = n1[0] * n2[1] - n1[1] * n2[0]
    c1 = n1[0] * r.corner[0] + n1[1] * r.corner[1] + OVER
    c2 = n2[0] * r.corner[0] + n2[1] * r.corner[1] + OVER
    beyond = ((c1 * n2[1] - c2 * n1[1]) / det, (n1[0] * c2 - n2[0] * c1) / det)
    if det > 0:  # first → beyond → second runs counter-clockwise, the arc back clockwise
        return Outline((Edge(a), Edge(beyond), Edge(b), Edge(r.second), Edge(r.first, r.centre, False)))
    return Outline((Edge(b), Edge(beyond), Edge(a), Edge(r.first), Edge(r.second, r.centre, False)))


@dataclass(frozen=True, slots=True)
class CornerRadius:
    """The corner of `face`'s outline between the sides `first` and `second`, rounded to `radius`.

    When `cut` is given, the corner is where that end cut (whose end is `first`) meets `second`.
    """

    word: ClassVar[str] = "corner radius"
    face: Face
    first: Face
    second: Face
    radius: Number
    cut: EndCut | None = field(default=None, metadata=TOLD)
    label: str = "corner"

    def made(self, part: Part) -> Made:
        """Return the cutter, the radius, tangent points as marks, the set-up and a corner template."""
        need(self.radius > 0, "radius-range", f"the {self.label} has no radius", "radius", "more than 0")
        need(
            {self.first.axis, self.second.axis} == set(in_plane(self.face)),
            "corner-faces",
            "a corner lies between two sides of the face",
            "corner",
        )
        r = self._rounding(part)
        for i in in_plane(self.face):
            k = in_plane(self.face).index(i)
            far = max(abs(r.first[k] - r.corner[k]), abs(r.second[k] - r.corner[k]))
            low, high = part.span(i)
            need(
                far <= float(high) - float(low) + 1e-6,
                "radius-range",
                f"a radius of {figure(self.radius)} does not fit the {self.label} of {part.path}",
                "radius",
                f"a radius whose tangent points lie within {figure(high - low)}",
            )
        low, high = part.span(self.face.axis)
        cutter = along_axis(corner_cutter(r), self.face.axis, float(low) - OVER, float(high) + OVER)
        return Made(
            cuts=(Cut(cutter),),
            sizes=(self._size(part, r),),
            marks=self._marks(r),
            settings=(Setting("band saw", self.label, (("radius", self.radius, "length"),), late=True),),
            cautions=(Caution("band saw"),),
            templates=(self._template(part, r),),
            assumed=(Assumed("arc tangent to both sides"),),
        )

    def _rounding(self, part: Part) -> Rounding:
        u, v = in_plane(self.face)
        place: dict[Axis, Number] = {
            self.first.axis: level(part, self.first),
            self.second.axis: level(part, self.second),
        }
        one, two = {u: 0.0, v: 0.0}, {u: 0.0, v: 0.0}
        one[self.second.axis] = -1.0 if self.second.side else 1.0  # along the first side, away from the second
        two[self.first.axis] = -1.0 if self.first.side else 1.0
        if self.cut is not None:
            e = self.cut.end.axis
            others = in_plane(self.cut.end)
            at = [level(part, self.second) if i == self.second.axis else part.size[i] / 2 for i in others]
            place[e] = self.cut.reach(at[0], at[1])
            slope = self.cut.slopes[others.index(self.second.axis)]
            t = math.tan(math.radians(float(slope)))
            n = math.hypot(1.0, t)
            one[e] = t * one[self.second.axis] / n
            one[self.second.axis] /= n
        corner = (float(place[u]), float(place[v]))
        return rounding(corner, (one[u], one[v]), (two[u], two[v]), float(self.radius))

    def _size(self, part: Part, r: Rounding) -> Size:
        u, v = in_plane(self.face)
        on = level(part, self.face)
        mid = (r.corner[0] - r.centre[0], r.corner[1] - r.centre[1])
        n = math.hypot(*mid)
        k = float(self.radius) / n
        rim = (r.centre[0] + mid[0] * k, r.centre[1] + mid[1] * k)
        return Size(
            SizeKind.RADIUS,
            spot({u: r.centre[0], v: r.centre[1], self.face.axis: on}),
            spot({u: rim[0], v: rim[1], self.face.axis: on}),
            axis(self.face.axis),
            self.radius,
            ("radius",),
            self.face,
            label=self.label if self.label != "corner" else "",
        )

    def _marks(self, r: Rounding) -> tuple[Mark, ...]:
        u, _ = in_plane(self.face)
        if u != 0:
            return ()
        inner = max((r.first[0], r.second[0]), key=lambda x: abs(x - r.corner[0]))
        return (Mark(inner, BOTH, f"{self.label}, arc begins", self.face),)

    def _template(self, part: Part, r: Rounding) -> Template:
        """Return a block of wood with the corner rounded, in the corner's own place."""
        size = max(2.5 * float(self.radius), 60.0)

        def away(p: Vec2) -> Vec2:
            n = math.hypot(p[0] - r.corner[0], p[1] - r.corner[1])
            return (
                r.corner[0] + (p[0] - r.corner[0]) / n * size,
                r.corner[1] + (p[1] - r.corner[1]) / n * size,
            )

        p, q = away(r.first), away(r.second)
        inner = (p[0] + q[0] - r.corner[0], p[1] + q[1] - r.corner[1])
        turn = (p[0] - r.corner[0]) * (q[1] - r.corner[1]) - (p[1] - r.corner[1]) * (q[0] - r.corner[0])
        if turn > 0:  # corner → p → q turns left: the arc runs from the second tangent point to the first
            edges = (Edge(r.second), Edge(r.first, r.centre, True), Edge(p), Edge(inner), Edge(q))
            waste = (Edge(r.first), Edge(r.second, r.centre, False), Edge(r.corner))
        else:
            edges = (Edge(r.first), Edge(r.second, r.centre, True), Edge(q), Edge(inner), Edge(p))
            waste = (Edge(r.second), Edge(r.first, r.centre, False), Edge(r.corner))
        square = self.cut is None
        return Template(
            title="corner radius",
            face=self.face,
            outline=Outline(edges),
            waste=(Outline(waste),),
            lines=((r.centre, r.first, ""), (r.centre, r.second, "")),
            datum=((r.first, p), (r.second, q)),
            notes=("the marks show where the arc begins",),
            shared=f"corner radius {float(self.radius):.4f}" if square else "",
        )


def build(bench: Bench, values: Bound) -> None:
    """Round corners of a face as the file says them: top left, top right."""
    for part in saying.parts(bench, values):
        face = part.face(values["face"])
        for text in values["along"]:
            first, second = saying.arris(part, text)
            bench.add(
                part.path,
                CornerRadius(face, first, second, values["radius"]),
                title="corner radius",
                stage=saying.stage(values),
            )


WORD = Word(
    name="corner radius",
    room="edge",
    help="Round a corner of a face's outline, right through the part.",
    fields=(
        saying.PART,
        saying.FACE,
        Field("along", saying.ALONG.kind, "the corners, each by the two sides that meet: top left", required=True),
        Field("radius", Length(above=0), "radius of the arc", required=True),
        saying.STAGE,
    ),
    example="corner radius: {part: cheek, face: left, along: [top front, top back], radius: 1}",
    build=build,
)
