"""Dado that runs askew over a face: for a sloping shelf between upright sides. Floor parallel to the face, walls square to it.

The way of the run leans by an angle from the nearer axis of the face. It is laid out from one corner, or from where its
wall leaves the part, with a bevel set to the angle. Common practice.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

from docgen.geometry.make import along_axis
from docgen.geometry.outlines import backward, signed_area
from docgen.geometry.shapes import Extrusion, Outline, Vec, Vec2
from docgen.piece.model import Part
from docgen.piece.operations.ground import (
    OVER,
    axis,
    bite,
    inside,
    length,
    level,
    need,
    need_floor,
    outward,
    positive,
    settled,
    spot,
    third,
    within,
)
from docgen.piece.operations.runs import in_face
from docgen.piece.records import Assumed, Axis, Caution, Cut, Face, Made, Setting, Size, SizeKind
from docgen.units import Number, format_angle

STEEPEST = 45
"""Degrees from the axis along which it runs: beyond, it runs along the other axis of the face."""


@dataclass(frozen=True, slots=True)
class AskewDado:
    """A trench `wide` from wall to wall in `face`, running by `angle` degrees off axis `along`, above 0 toward the high side.

    Its wall on the low side starts at `near` on the other axis of the face, at `start` on `along`; without `start` it runs
    out of the part, and `near` is where the part begins. `long` is the run from there along the wall, squared at its end;
    None runs out.
    """

    word: ClassVar[str] = "askew dado"
    face: Face
    along: Axis
    near: Number
    wide: Number
    depth: Number
    angle: Number
    start: Number | None = None
    long: Number | None = None
    label: str = "dado"
    mate: str = ""

    def made(self, part: Part) -> Made:
        """Return the cutter, the sizes that lay it out, and how it is routed against a straightedge."""
        self._check(part)
        stopped = self.start is not None or self.long is not None
        return Made(
            cuts=(Cut(self._cutter(part)),),
            sizes=self._sizes(part),
            settings=(self._setting(part),),
            cautions=(Caution("router"), Caution("chisel")) if stopped else (Caution("router"),),
            assumed=(Assumed("bottom flat and parallel to the face, walls square to it"),),
        )

    @property
    def across(self) -> Axis:
        """The other axis of the face."""
        return third(self.along, self.face.axis)

    @property
    def _way(self) -> Vec2:
        """The way of the run, on `along` and across it."""
        a = math.radians(float(self.angle))
        return (math.cos(a), math.sin(a))

    def _at(self, run: float, over: float = 0.0) -> Vec2:
        """Return the point `run` along the low wall and `over` beside it, on `along` and across it, mm."""
        c, s = self._way
        return (float(self.start or 0) + run * c - over * s, float(self.near) + run * s + over * c)

    def _check(self, part: Part) -> None:
        need_floor(part, self.face, self.depth, self.label)
        need(
            0 < positive(self.angle) <= STEEPEST,
            "angle-range",
            f"a {self.label} that runs {format_angle(self.angle)} askew",
            "angle",
            f"above 0, at most {STEEPEST}",
        )
        need(self.wide > 0, "width-range", f"the {self.label} has no width", "wide", "a width above 0")
        need(
            self.long is None or self.long > 0, "run-range", f"the {self.label} has no length", "long", "a run above 0"
        )
        corners = [self._at(0.0)]
        if self.start is not None:
            corners.append(self._at(0.0, float(self.wide)))
        if self.long is not None:
            corners.extend(self._at(float(self.long), over) for over in (0.0, float(self.wide)))
        for ax, values in ((self.along, [c[0] for c in corners]), (self.across, [c[1] for c in corners])):
            within(part, ax, settled(min(values)), settled(max(values)), self.label, "near")

    def _cutter(self, part: Part) -> Extrusion:
        first, last = self._past(part)
        if self.start is not None:
            first = 0.0
        if self.long is not None:
            last = float(self.long)
        wide = float(self.wide)
        corners = [self._at(r, o) for r, o in ((first, 0.0), (last, 0.0), (last, wide), (first, wide))]
        outline = Outline.polygon([p if self.along < self.across else (p[1], p[0]) for p in corners])
        if signed_area(outline) < 0:
            outline = backward(outline)
        return along_axis(outline, self.face.axis, *bite(part, self.face, self.depth))

    def _past(self, part: Part) -> tuple[float, float]:
        """Return where along the low wall both walls have left the part."""
        c, s = self._way
        spans = [[float(v) for v in part.span(i)] for i in (self.along, self.across)]
        runs = [(x - float(self.start or 0)) * c + (y - float(self.near)) * s for x in spans[0] for y in spans[1]]
        return min(runs) - OVER, max(runs) + OVER

    def _spot(self, place: Vec2, on: Number) -> Vec:
        return spot({self.along: place[0], self.across: place[1], self.face.axis: on})

    def _vector(self, p: Vec2) -> Vec:
        return spot({self.along: p[0], self.across: p[1], self.face.axis: 0})

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        surface = level(part, self.face)
        c, s = self._way
        corner = self._spot(self._at(0.0), surface)
        start = self.start or 0
        sizes = [
            length(
                self._spot((float(start), 0.0), surface), corner, axis(self.across), self.near, ("near",), self.face
            ),
            self._width(surface),
            length(
                corner,
                self._spot(self._at(0.0), inside(part, self.face, self.depth)),
                axis(self.face.axis, -outward(self.face)),
                self.depth,
                ("depth",),
                Face(self.along, 0),
                label="deep",
            ),
            Size(
                SizeKind.ANGLE,
                corner,
                self._spot((self._at(0.0)[0] + self._reach(part), float(self.near)), surface),
                axis(self.face.axis),
                positive(self.angle),
                ("angle",),
                self.face,
                other=self._spot(self._at(self._reach(part) / c), surface),
            ),
        ]
        if self.start is not None:
            sizes.append(
                length(
                    self._spot((0.0, float(self.near)), surface), corner, axis(self.along), start, ("start",), self.face
                )
            )
        if self.long is not None:
            end = self._spot(self._at(float(self.long)), surface)
            sizes.append(length(corner, end, self._vector((c, s)), self.long, ("long",), self.face, label="long"))
        return tuple(s for s in sizes if s.value != 0 or s.parameters != ("near",))

    def _width(self, surface: Number) -> Size:
        c, s = self._way
        at = float(self.long) if self.long is not None else 0.0
        ends = self._spot(self._at(at), surface), self._spot(self._at(at, float(self.wide)), surface)
        return length(*ends, self._vector((-s, c)), self.wide, ("wide",), self.face, label=self.label)

    def _reach(self, part: Part) -> float:
        """Return how far along the axis the arms of the angle are drawn."""
        if self.long is not None:
            return float(self.long) * self._way[0]
        return float(part.size[self.along] - (self.start or 0)) / 2

    def _setting(self, part: Part) -> Setting:
        begin = Face(self.along, 0)
        side, run = (part.side(Face(self.across, 0)), part.side(begin))
        toward = part.side(Face(self.across, 1 if self.angle > 0 else 0))
        starts = "start of the near wall" if self.start is not None else "near wall, at its end,"
        places: list[tuple[str, Number | str, str]] = [
            *in_face(part, self.face),
            (f"{starts} from the {side}", self.near, "length"),
        ]
        if self.start is not None:
            places.append((f"{starts} from the {run}", self.start, "length"))
        places.append((f"runs on, off the line square to the {run}, toward", f"the {toward}", "text"))
        if self.long is not None:
            places.append(("near wall, long", self.long, "length"))
        if self.start is not None or self.long is not None:
            both = self.start is not None and self.long is not None
            places.append(("then", f"square the stopped {'ends' if both else 'end'} with a chisel", "text"))
        values = (
            ("straight bit", self.wide, "length"),
            ("depth", self.depth, "length"),
            ("straightedge, from square", positive(self.angle), "angle"),
        )
        return Setting(
            "router",
            f"{self.label} askew, flat-bottomed",
            values,
            "clamp a straightedge parallel to the wall, half the router's base less half the bit away from it",
            tuple(places),
            feed="along the straightedge, so that the turning bit presses the router's base against it",
            mate=self.mate,
        )
