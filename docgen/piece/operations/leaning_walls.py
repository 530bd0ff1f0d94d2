"""Walls that lean to the face they are cut into, above a floor parallel to it: their cutter, their angle, how they are made.

With the lean a, from square to the face: width on the face = width square to the walls / cos a, and the floor lies
depth · tan a further on than the mouth. (Plane geometry.) The middle is routed with an upright bit, which leaves the floor
parallel to the face; what is left at a leaning wall is sawn and pared against a block of the same lean. Common practice.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Extrusion, Outline, Vec2
from docgen.piece.model import Part
from docgen.piece.operations.ground import (
    OVER,
    inside,
    level,
    need,
    need_floor,
    outward,
    positive,
    run_out,
    settled,
    spot,
    tangent,
    third,
    within,
)
from docgen.piece.operations.runs import in_face
from docgen.piece.records import Axis, Face, Setting, Size, SizeKind
from docgen.units import Number, format_angle

STEEPEST = 45
"""Degrees from square to the face: beyond, a wall lies rather than stands."""

UPRIGHT_BIT = ("cutter", "straight bit, upright", "text")
STRIP = "strip that it clears"
LEAN = "walls, from square to the face"
BLOCK = "guide block"


@dataclass(frozen=True, slots=True)
class Walls:
    """Walls along axis `along` of a cut `depth` deep in `face`, leaning by `tilt`: above 0 toward the high side, going in."""

    face: Face
    along: Axis
    depth: Number
    tilt: Number
    label: str

    @property
    def across(self) -> Axis:
        """The axis on which the walls stand."""
        return third(self.along, self.face.axis)

    @property
    def shift(self) -> Number:
        """How much further on, along `across`, a wall meets the floor than the face, mm."""
        return settled(tangent(self.tilt) * float(self.depth))

    def square(self, wide: Number) -> Number:
        """Return how wide it is square to its walls, mm, where its mouth is `wide`."""
        return settled(float(wide) * math.cos(math.radians(float(self.tilt))))

    def check(self, part: Part, start: Number | None, stop: Number | None) -> None:
        """Raise a `Fault` for a depth, a lean or a run that cannot be."""
        need_floor(part, self.face, self.depth, self.label)
        need(
            0 < positive(self.tilt) <= STEEPEST,
            "angle-range",
            f"walls that lean {format_angle(self.tilt)} from square to the face",
            "tilt",
            f"above 0, at most {STEEPEST}",
        )
        low, high = part.span(self.along)
        first, last = low if start is None else start, high if stop is None else stop
        within(part, self.along, first, last, self.label, "stop")
        need(first < last, "run-range", f"the {self.label} stops before it starts", "stop", "stops that leave a run")

    def cutter(
        self, part: Part, low: Number | None, high: Number | None, start: Number | None, stop: Number | None
    ) -> Extrusion:
        """Return the cutter between walls that meet the face at `low` and `high`; None is open to that side of the part."""
        rise = tangent(self.tilt)
        near, far = -OVER, float(self.depth)
        first, last = (float(v) for v in part.span(self.across))
        low_wall = [(first - OVER, d) if low is None else (float(low) + rise * d, d) for d in (near, far)]
        high_wall = [(last + OVER, d) if high is None else (float(high) + rise * d, d) for d in (far, near)]
        points = [self._flat(part, *p) for p in (*low_wall, *high_wall)]
        return along_axis(_ccw(points), self.along, *run_out(part, self.along, start, stop))

    def _flat(self, part: Part, cross: float, deep: float) -> Vec2:
        """Return a point by its place across and its depth, in the two axes of the cross-section in rising order."""
        level_ = float(inside(part, self.face, 0)) - outward(self.face) * deep
        return (cross, level_) if self.across < self.face.axis else (level_, cross)

    def angle(self, part: Part, at: Number, run: Number) -> Size:
        """Return the lean as a dimension: at the wall that meets the face at `at`, from square to the face."""
        floor = inside(part, self.face, self.depth)
        apex = {self.along: run, self.across: at, self.face.axis: level(part, self.face)}
        return Size(
            SizeKind.ANGLE,
            spot(apex),
            spot(apex | {self.face.axis: floor}),
            tuple(1.0 if i == self.along else 0.0 for i in range(3)),  # type: ignore[arg-type]
            positive(self.tilt),
            ("tilt",),
            Face(self.along, 0),
            other=spot(apex | {self.face.axis: floor, self.across: at + self.shift}),
            label="wall, from square",
            note=f"{format_angle(90 - positive(self.tilt))} to the face",
        )

    def pared(self, part: Part, wide: tuple[tuple[str, Number | str, str], ...], mate: str, walls: int) -> Setting:
        """Return how the walls are sawn and pared, led by a block; `wide` are figures of the mouth, and where it stands."""
        toward = part.side(Face(self.across, 1 if self.tilt > 0 else 0))
        lean = positive(self.tilt)
        each = "both walls" if walls > 1 else "the wall"
        note = (
            f"hold the saw against the block for {each}, down to the routed floor; pare what is left with a wide chisel held against "
            "the same block"
        )
        places = (
            *in_face(part, self.face),
            *wide,
            (f"going in, {'the walls lean' if walls > 1 else 'the wall leans'} toward", f"the {toward}", "text"),
        )
        size = f"straight hardwood, both edges ripped at {format_angle(lean)} from square, parallel to each other; two clamps"
        return Setting(
            "hand saw",
            f"{'walls' if walls > 1 else 'wall'} of the {self.label}, at the lean",
            ((LEAN, lean, "angle"), ("depth, square to the face", self.depth, "length")),
            note,
            places,
            mate=mate,
            jig=(BLOCK, size),
            run=part.size[self.along],
        )


def _ccw(points: list[Vec2]) -> Outline:
    area = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(points, points[1:] + points[:1], strict=True))
    return Outline.polygon(points if area > 0 else points[::-1])
