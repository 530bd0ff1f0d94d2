"""Cut of an end or an edge by one plane: square, slanted on the face (mitre), through the thickness (bevel), or both.

Readings of a compound cut on a blade: with the outward normal n of the cut and the wide face on the table, tilt =
asin |n·thickness|, gauge = atan |n·width / n·length|; both from square. (Plane geometry; the second readings are
90° less each.)
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import ClassVar

from docgen.geometry.make import unit
from docgen.geometry.shapes import HalfSpace, Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import Fault, figure
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.between_ends import Between, far_cut
from docgen.piece.operations.end_corner import peak, point_marks
from docgen.piece.operations.end_template import end_template
from docgen.piece.operations.ground import (
    SAME,
    axis,
    in_plane,
    length,
    level,
    need,
    outward,
    positive,
    settled,
    spot,
    tangent,
)
from docgen.piece.operations.runs import end_places
from docgen.piece.records import (
    Assumed,
    Axis,
    Caution,
    Cut,
    Face,
    Made,
    Mark,
    Point,
    Setting,
    Size,
    SizeKind,
    Template,
)
from docgen.project.fields import Angle, Field, Length, Word
from docgen.project.statements import Bound
from docgen.units import Number, format_angle

SQUARE = 1e-7
"""Slopes smaller than this, in degrees, are square."""


@dataclass(frozen=True, slots=True)
class EndCut:
    """All beyond a plane is cut from `end`.

    The plane meets the datum corner line (the two other axes at 0) at `at` on the end's axis, and rises along + of
    those two axes, in rising order, by `slopes` degrees: x = at + tan(slope 0)·u + tan(slope 1)·v.
    """

    word: ClassVar[str] = "end cut"
    end: Face
    at: Number
    slopes: tuple[Number, Number] = (0, 0)
    label: str = "end cut"

    @classmethod
    def through(cls, end: Face, point: Vec | Point, normal: Vec, label: str = "end cut") -> EndCut:
        """Return the cut by the plane through `point` whose `normal` points away from the wood, in part axes."""
        along = normal[end.axis] * outward(end)
        if along <= 1e-9:
            raise Fault("cut-direction", "the plane of the cut does not cross the part", "end", "a plane across it")
        u, v = in_plane(end)
        tu, tv = -normal[u] / normal[end.axis], -normal[v] / normal[end.axis]
        at = float(point[end.axis]) - tu * float(point[u]) - tv * float(point[v])
        slopes = (settled(math.degrees(math.atan(tu))), settled(math.degrees(math.atan(tv))))
        return cls(end, settled(at), slopes, label)

    def made(self, part: Part) -> Made:
        """Return the plane, long and short points, the angles from square, marks, set-up and an angle template."""
        self._check(part)
        return Made(
            cuts=(Cut(self.plane()),),
            sizes=self._sizes(part),
            marks=self._marks(part),
            settings=(self._setting(part),),
            cautions=(Caution("table saw"), *(() if max(self.readings()) < SQUARE else (Caution("mitre on saw"),))),
            templates=self._templates(part),
            assumed=self._assumed(part),
        )

    def plane(self) -> HalfSpace:
        """Return the half space that goes."""
        return HalfSpace(spot({self.end.axis: self.at}), self.normal())

    def normal(self) -> Vec:
        """Return the unit vector out of the wood, square to the cut."""
        u, v = in_plane(self.end)
        s = outward(self.end)
        return unit(spot({self.end.axis: s, u: -s * tangent(self.slopes[0]), v: -s * tangent(self.slopes[1])}))

    def reach(self, u: Number, v: Number) -> Number:
        """Return where the plane stands on the end's axis at (u, v) of the other two; exact for square cuts."""
        x = self.at
        for slope, value in zip(self.slopes, (u, v), strict=True):
            if positive(slope) > SQUARE:
                x = (
                    x + value
                    if slope == 45
                    else x - value
                    if slope == -45
                    else float(x) + tangent(slope) * float(value)
                )
        return settled(x) if isinstance(x, float) else x

    def corners(self, part: Part) -> tuple[tuple[Number, tuple[Number, Number]], ...]:
        """Return (coordinate on the end's axis, (u, v)) at the four long edges of the nominal box."""
        u, v = in_plane(self.end)
        return tuple((self.reach(a, b), (a, b)) for a in (0, part.size[u]) for b in (0, part.size[v]))

    def points(self, part: Part) -> tuple[tuple[Number, tuple[Number, Number]], tuple[Number, tuple[Number, Number]]]:
        """Return the long and the short point: (coordinate on the end's axis, place on the other two)."""
        s = outward(self.end)
        corners = sorted(self.corners(part), key=lambda c: s * float(c[0]))
        return corners[-1], corners[0]

    def lost(self, part: Part) -> bool:
        """Return whether another cut takes this one's long point away, so that nothing can be measured to it."""
        return peak(part, self.end, self.plane(), self.points(part)[0]) is not None

    def readings(self) -> tuple[float, float]:
        """Return (gauge, tilt) from square, degrees, with the part's wide face on the table."""
        n = self.normal()
        upright = 2 if self.end.axis != 2 else 1
        flat = 3 - upright - self.end.axis
        return (
            math.degrees(math.atan2(abs(n[flat]), abs(n[self.end.axis]))),
            math.degrees(math.asin(min(1.0, abs(n[upright])))),
        )

    def _check(self, part: Part) -> None:
        (long, _), (short, _) = self.points(part)
        first, last = part.span(self.end.axis)
        s = outward(self.end)
        beyond = s * (float(short) - float(last if self.end.side else first))
        need(
            beyond < -SAME,
            "cut-misses",
            f"the {self.label} takes nothing from {part.path}: it lies {figure(beyond)} beyond its end",
            "at",
            "a plane that crosses the part",
        )
        far = s * (float(long) - float(first if self.end.side else last))
        need(far > SAME, "cut-all", f"the {self.label} leaves nothing of {part.path}", "at", "a cut inside the part")

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        u, v = in_plane(self.end)
        (long, at_long), (short, at_short) = self.points(part)
        seen = Face(2 if self.end.axis != 2 else 1, 1)
        if abs(float(short) - float(long)) < SAME:
            return self._length_to(part, long, at_long, "", ("at",), seen)
        names = ("at", "slopes.0", "slopes.1")
        between = self._between(part)
        tip = peak(part, self.end, self.plane(), (long, at_long))
        if between is None and tip is not None:
            sizes = list(self._length_to(part, short, at_short, "short point", names, seen))
        elif between is None:
            sizes = list(self._length_to(part, long, at_long, "long point", names, seen))
            sizes.extend(self._length_to(part, short, at_short, "short point", (), seen, note="reference"))
        else:
            sizes = list(between.sizes(names, seen))
        long, at_long = tip or (long, at_long)
        for k, (i, other) in enumerate(((u, v), (v, u))):
            if positive(self.slopes[k]) > SQUARE:
                sizes.append(self._angle(k, i, other, long, at_long))
        return tuple(sizes)

    def _between(self, part: Part) -> Between | None:
        """Return what lies between this cut and the one at the far end, None for a part that is cut at one end."""
        far = far_cut(part, self.end, self.plane(), (EndCut.word, Bevel.word))
        if far is None:
            return None
        return Between(part, self.end, *self.points(part), far, self.label, self.lost(part))

    def _length_to(
        self,
        part: Part,
        x: Number,
        place: tuple[Number, Number],
        label: str,
        names: tuple[str, ...],
        seen: Face,
        note: str = "",
    ) -> tuple[Size, ...]:
        """Return the length from the far end of the box, none when it is the nominal length itself."""
        datum = 0 if self.end.side else part.size[self.end.axis]
        value = x - datum if self.end.side else datum - x
        if names and abs(float(x) - float(level(part, self.end))) < SAME:
            return ()
        u, v = in_plane(self.end)
        where = {u: place[0], v: place[1]}
        return (
            length(
                spot(where | {self.end.axis: datum}),
                spot(where | {self.end.axis: x}),
                axis(self.end.axis, outward(self.end)),
                value,
                names,
                seen,
                label=label,
                note=note,
            ),
        )

    def _angle(self, k: int, i: Axis, other: Axis, long: Number, at_long: tuple[Number, Number]) -> Size:
        """Return the slope along axis `i`, told from square at the long point."""
        slope = self.slopes[k]
        place = {in_plane(self.end)[0]: at_long[0], in_plane(self.end)[1]: at_long[1]}
        apex = spot(place | {self.end.axis: long})
        # From the long point the cut falls away into the wood: toward − of the axis when it stands at the high side.
        toward = -1.0 if float(place[i]) > 0 else 1.0
        arm = 40.0
        square = tuple(c + (arm * toward if j == i else 0.0) for j, c in enumerate(apex))
        fall = tangent(slope) * arm * toward
        slanted = tuple(c + (fall if j == self.end.axis else 0.0) for j, c in enumerate(square))
        return Size(
            SizeKind.ANGLE,
            apex,
            (square[0], square[1], square[2]),
            axis(other),
            positive(slope),
            (f"slopes.{k}",),
            Face(other, 1),
            other=(slanted[0], slanted[1], slanted[2]),
            label="from square",
            note=f"{format_angle(90 - positive(slope))} from the {'edge' if other == 2 else 'face'}",
        )

    def _marks(self, part: Part) -> tuple[Mark, ...]:
        points = self.points(part)[1:] if self.lost(part) else self.points(part)
        tilted = positive(self.slopes[1]) > SQUARE
        return point_marks(self.end, points, self.label, tilted=tilted) if self.end.axis == 0 else ()

    def _setting(self, part: Part) -> Setting:
        gauge, tilt = self.readings()
        values: list[tuple[str, Number | str, str]] = []
        if gauge > SQUARE:
            values += [
                ("gauge, from square", settled(gauge), "angle"),
                ("gauge, from the blade", settled(90 - gauge), "angle"),
            ]
        if tilt > SQUARE:
            values += [
                ("blade, from upright", settled(tilt), "angle"),
                ("blade, from the table", settled(90 - tilt), "angle"),
            ]
        square, between = max(gauge, tilt) <= SQUARE, self._between(part)
        stops = between.places() if between is not None and not square else None
        tilted, gone = tilt > SQUARE, self.lost(part)
        places = end_places(part, self.end, self.points(part), tilted=tilted, square=square, stops=stops, gone=gone)
        what = {
            (False, False): "square cut",
            (True, False): "mitre across the face",
            (False, True): "bevel",
            (True, True): "compound cut",
        }[(gauge > SQUARE, tilt > SQUARE)]
        tall = part.size[2 if self.end.axis != 2 else 1]
        ripped = self.end.axis == 1
        way = "ripped, the opposite edge along the fence" if ripped else "far end against the stop block"
        if tilt > SQUARE:
            way += "; the long point up: the blade meets the table at the short one"
        return Setting("table saw", what, tuple(values), places=places, feed=way, tall=tall)

    def _templates(self, part: Part) -> tuple[Template, ...]:
        """Return the end's outline on the wide face for a slant there that is not a common mitre.

        Of a compound cut it shows the line on that face; the lean through the thickness is set at the saw.
        """
        gauge, lean = (float(positive(slope)) for slope in self.slopes)
        if self.end.axis != 0 or gauge < 0.05 or (abs(gauge - 45) < 1e-6 and lean < 0.05):
            return ()
        level = part.size[2]
        return (
            end_template(
                part, self.end, (self.reach(0, level), self.reach(part.size[1], level)), self.slopes, self.label
            ),
        )

    def _assumed(self, part: Part) -> tuple[Assumed, ...]:
        (long, _), _ = self.points(part)
        if abs(float(long) - float(level(part, self.end))) < SAME and not self.lost(part):
            return (Assumed("long point at the end of the stated length"),)
        return ()


@dataclass(frozen=True, slots=True)
class Bevel:
    """A mitre or bevel of `angle` degrees from square at `end`, whose long point lies on the `keep` face.

    The cut passes through the arris of `end` and `keep`, moved back by `inset`.
    """

    word: ClassVar[str] = "bevel"
    end: Face
    keep: Face
    angle: Number = 45
    inset: Number = 0
    label: str = "mitre"

    def cut(self, part: Part) -> EndCut:
        """Return the same as an end cut."""
        s = outward(self.end)
        arris = level(part, self.end) - self.inset if self.end.side else self.inset
        slope = self.angle if (s > 0) == bool(self.keep.side) else -self.angle
        back = part.size[self.keep.axis] if self.keep.side else 0
        rise: Number = back if slope == 45 else -back if slope == -45 else settled(tangent(slope) * float(back))
        u, _ = in_plane(self.end)
        slopes: tuple[Number, Number] = (slope, 0) if self.keep.axis == u else (0, slope)
        return EndCut(self.end, arris - rise, slopes, self.label)

    def made(self, part: Part) -> Made:
        """Return what the end cut answers, with the angle and the inset as its sizes."""
        need(self.keep.axis != self.end.axis, "bevel-face", "the long point lies on a face beside the end", "keep")
        need(0 < self.angle < 90, "angle-range", "a bevel lies between square and flat", "angle", "above 0, under 90")
        made = self.cut(part).made(part)
        names = {"slopes.0": "angle", "slopes.1": "angle", "at": "inset"}
        sizes = tuple(
            replace(
                s,
                parameters=tuple(
                    dict.fromkeys(names[p] for p in s.parameters if s.kind is SizeKind.ANGLE or p == "at")
                ),
            )
            for s in made.sizes
        )
        return replace(made, sizes=sizes)


def build(bench: Bench, values: Bound) -> None:
    """Cut ends at an angle, the long point on a named face; a second angle makes it compound."""
    for part in saying.parts(bench, values):
        for word in values["end"]:
            end, keep = part.face(word), part.face(values["long point"])
            usual = "bevel" if keep.axis == 2 and values["angle"] != 45 else "mitre"
            bevel = Bevel(end, keep, values["angle"], values["inset"] or 0, values["label"] or usual)
            if values["second angle"] is None:
                bench.add(part.path, bevel, title=bevel.label, stage=saying.stage(values))
                continue
            need(
                values["second long point"] is not None,
                "second-face",
                "the second angle needs its face",
                "second angle",
            )
            other = Bevel(end, part.face(values["second long point"]), values["second angle"]).cut(part)
            first = bevel.cut(part)
            both = EndCut(
                end,
                first.at + other.at - level(part, end),
                (first.slopes[0] + other.slopes[0], first.slopes[1] + other.slopes[1]),
                values["label"] or "compound cut",
            )
            bench.add(part.path, both, title=both.label, stage=saying.stage(values))


WORD = Word(
    name="bevel",
    room="operation",
    help="A mitre or bevel of an end or an edge: its angle from square, and the face that keeps the long point.",
    fields=(
        saying.PART,
        Field("end", saying.FROM.kind, "the end or edge, or several", required=True),
        Field("long point", saying.FACE.kind, "the face on which the long point lies", required=True),
        Field("angle", Angle(least=0, most=89), "degrees from square", default="45 deg"),
        Field("inset", Length(least=0), "how far the long point lies inside the box"),
        Field("second long point", saying.FACE.kind, "for a compound cut: the face of the other long point"),
        Field("second angle", Angle(least=0, most=89), "for a compound cut: degrees from square on that face"),
        saying.LABEL,
        saying.STAGE,
    ),
    example="bevel: {part: left side, end: top, long point: left, angle: 45 deg}",
    build=build,
)
