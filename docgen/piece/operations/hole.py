"""Holes: through or blind, plain, tapped, countersunk or counterbored, square to a face or leaning."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import ClassVar, TypeAlias

from docgen.geometry.make import frame_along, unit
from docgen.geometry.shapes import Outline, Revolution, Vec
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.ground import (
    OVER,
    Ground,
    axis,
    in_plane,
    inside,
    length,
    level,
    need,
    positive,
    spot,
    tangent,
)
from docgen.piece.operations.leaning import ARROWS, Lean
from docgen.piece.records import (
    Assumed,
    Authority,
    Caution,
    Cut,
    Face,
    HoleRow,
    Made,
    Mark,
    Purpose,
    Setting,
    Sink,
    Size,
    SizeKind,
    Template,
)
from docgen.units import Number

On: TypeAlias = tuple[Number, Number]
"""A place on a face: coordinates on its two axes in rising order, from the datum edges."""

TWIST = 118
"""Point angle of a common twist drill, degrees; 180 is a flat-bottomed bit."""


@dataclass(frozen=True, slots=True)
class Hole:
    """Equal holes in `face` at `points`, `diameter` wide; `depth` is that of the full diameter, None goes through.

    A blind hole ends in the drill's point of `tip` degrees: 118 when it is not said, 180 is flat. `leans` tilts the drill from square to the
    face, toward + on the face's two axes, degrees. `thread`, `thread_depth` and `percent` tell of the tap.
    """

    word: ClassVar[str] = "hole"
    face: Face
    points: tuple[On, ...]
    diameter: Number
    depth: Number | None = None
    purpose: Purpose = Purpose.PLAIN
    name: str = ""
    drill: str = ""
    sink: Sink | None = None
    thread: str = ""
    thread_depth: Number | None = field(default=None, metadata=TOLD)
    percent: float | None = field(default=None, metadata=TOLD)
    fastener: str = ""
    mate: str = ""
    authority: Authority = Authority.CUT
    note: str = ""
    tip: Number | None = None
    leans: tuple[Number, Number] = (0, 0)
    template: bool = False
    label: str = "hole"
    reach: Number | None = field(default=None, metadata=TOLD)  # see `HoleRow.reach`
    meets: str = ""  # see `HoleRow.meets`
    ruled: bool = False  # see `HoleRow.ruled`
    off: Face | None = None  # see `HoleRow.off`
    counted: str = ""  # how its depth is measured where that is not from the face: told in chart and set-up

    def made(self, part: Part) -> Made:
        """Return the drillings, positions from the datum edges, marks, the chart row and the set-up."""
        self._check(part)
        ground = Ground(part, self.face)
        into = self._into()
        return Made(
            cuts=tuple(Cut(self._cutter(part, ground.at(*p), into)) for p in self.points),
            sizes=self._sizes(part, ground),
            marks=self._marks(),
            holes=(self._row(part, into),),
            settings=self._settings(part),
            cautions=(Caution("drill press"), *((Caution("tap"),) if self.purpose is Purpose.TAPPED else ())),
            templates=(self._template(part),) if self.template else (),
            assumed=self._assumed(),
        )

    def _check(self, part: Part) -> None:
        thick = part.size[self.face.axis]
        need(self.diameter > 0, "diameter-range", f"the {self.label} has no width", "diameter", "more than 0")
        need(self.depth is None or self.depth > 0, "depth-range", f"the {self.label} has no depth", "depth", "above 0")
        need(
            self.depth is None or self.depth < thick,
            "hole-too-deep",
            f"the {self.label} is {figure(self.depth or 0)} deep in {figure(thick)}",
            "depth",
            "less than the wood there, or no depth for a through hole",
        )
        need(
            self.tip is None or 0 < self.tip <= 180,
            "tip-range",
            "the drill's point is not an angle",
            "tip",
            "more than 0, at most 180",
        )
        need(
            all(positive(a) < 80 for a in self.leans),
            "lean-range",
            "the hole leans too far",
            "lean",
            "under 80 degrees",
        )
        for a, b in self.points:
            self._check_place(part, (a, b))
        if self.sink is not None:
            self._check_sink(part, self.sink)

    def _check_sink(self, part: Part, sink: Sink) -> None:
        need(
            sink.diameter > self.diameter,
            "sink-range",
            "the sink is no wider than the hole",
            "sink",
            f"more than {figure(self.diameter)}",
        )
        straight = abs(self._into()[self.face.axis])  # along a leaning drill there is more wood
        wood = float(part.size[self.face.axis]) / straight if self.depth is None else self.depth
        deep = sink.deep(self.diameter)
        need(
            deep < wood,
            "sink-deep",
            f"the sink goes {figure(deep)} deep where the hole has {figure(wood)}",
            "sink",
            "a sink that leaves some of the hole",
        )

    def check_exit(self, part: Part, at: On) -> None:
        """Raise a `Fault` when a hole at `at` comes out of another face than the one opposite, or ends beside the part.

        A joint may want that (a pocket for a screw); a hole that the file says is checked.
        """
        into = self._into()
        straight = abs(into[self.face.axis])
        run = float(part.size[self.face.axis]) / straight if self.depth is None else float(self.depth)
        for i, value in zip(in_plane(self.face), at, strict=True):
            low, high = part.span(i)
            end = float(value) + into[i] * run
            r = float(self.diameter) / 2 * (1 / straight if self.depth is None else 1.0)
            need(
                end - r >= float(low) and end + r <= float(high),
                "hole-exit",
                f"the leaning {self.label} ends {figure(end)} along the {('length', 'width', 'thickness')[i]} of {part.path}, "
                f"which goes from {figure(low)} to {figure(high)}: it breaks out at the side",
                "lean",
                "a place or a lean at which it stays inside the part",
            )

    def _check_place(self, part: Part, at: On) -> None:
        for i, value in zip(in_plane(self.face), at, strict=True):
            low, high = part.span(i)
            r = self.diameter / 2
            need(
                value - r >= low and value + r <= high,
                "hole-outside",
                f"the {self.label} at {figure(value)}, {figure(self.diameter)} wide, runs out of "
                f"{part.path}, which goes from {figure(low)} to {figure(high)} on its "
                f"{('length', 'width', 'thickness')[i]}",
                "at",
                "a place inside the part",
            )

    def _assumed(self) -> tuple[Assumed, ...]:
        out = () if any(self.leans) else (Assumed("holes square to the face"),)
        if self.depth is None:
            return out
        tip = TWIST if self.tip is None else self.tip
        return (*out, Assumed("flat-bottomed" if tip == 180 else f"drill's point {float(tip):.4g}°"))

    def _into(self) -> Vec:
        sign = -1.0 if self.face.side else 1.0
        if not any(self.leans):
            return axis(self.face.axis, sign)
        u, v = in_plane(self.face)
        return unit(spot({u: tangent(self.leans[0]), v: tangent(self.leans[1]), self.face.axis: sign}))

    def _cutter(self, part: Part, mouth: Vec, into: Vec) -> Revolution:
        u, _ = in_plane(self.face)
        return Revolution(Outline.polygon(self._profile(part, into)), frame_along(mouth, into, axis(u)))

    def _profile(self, part: Part, into: Vec) -> list[tuple[float, float]]:
        """Return the drill's half section (radius, depth), from outside the face to the point."""
        r = float(self.diameter) / 2
        straight = abs(into[self.face.axis])
        slant = math.sqrt(max(0.0, 1 - straight * straight)) / straight
        widest = max(r, float(self.sink.diameter) / 2 if self.sink else 0.0)
        top = -(OVER + widest * slant)
        first, last = part.span(self.face.axis)
        profile = [(0.0, top)]
        profile += self._mouth(r, top)
        if self.depth is None:
            end = (float(last) - float(first)) / straight + r * slant + OVER
            profile += [(r, end), (0.0, end)]
        else:
            depth, tip = float(self.depth), float(TWIST if self.tip is None else self.tip)
            profile.append((r, depth))
            profile.append((0.0, depth + (r / tangent(tip / 2) if tip < 180 else 0.0)))
        return profile

    def _mouth(self, r: float, top: float) -> list[tuple[float, float]]:
        if self.sink is None:
            return [(r, top)]
        wide, shoulder = float(self.sink.diameter) / 2, float(self.sink.depth or 0)
        return [(wide, top), (wide, shoulder), (r, self.sink.deep(self.diameter))]

    def _sizes(self, part: Part, ground: Ground) -> tuple[Size, ...]:
        sizes: list[Size] = []
        for k, axis_at in enumerate(ground.axes):
            seen: dict[Number, list[int]] = {}
            for n, p in enumerate(self.points):
                seen.setdefault(p[k], []).append(n)
            for value, which in seen.items():
                end = ground.at(*self.points[which[0]])
                high = self.off == (axis_at, 1)
                rim, way = (part.size[axis_at], -1.0) if high else (0, 1.0)
                start = tuple(float(rim) if i == axis_at else c for i, c in enumerate(end))
                names = tuple(f"points.{n}.{k}" for n in which)
                at = positive(rim - value) if high else value
                sizes.append(length((start[0], start[1], start[2]), end, axis(axis_at, way), at, names, self.face))
        first = ground.at(*self.points[0])
        u = ground.axes[0]
        sizes.append(self._diameter(first, u, self.diameter, ("diameter",), "", f"{len(self.points)} ×"))
        if self.depth is not None:
            sizes.append(self._depth(part, self.depth, ("depth",), "deep", "full diameter"))
        sizes.extend(self._sink_sizes(part, first, u))
        return (*sizes, *Lean(part, self.face, self.leans).sizes(first))

    def _diameter(self, at: Vec, u: int, value: Number, names: tuple[str, ...], note: str, label: str) -> Size:
        rim = tuple(c + (float(value) / 2 if i == u else 0.0) for i, c in enumerate(at))
        return Size(
            SizeKind.DIAMETER,
            at,
            (rim[0], rim[1], rim[2]),
            self._into() if any(self.leans) else axis(self.face.axis),
            value,
            names,
            self.face,
            label="" if label == "1 ×" else label,
            note=note,
            authority=self.authority,
        )

    def _depth(self, part: Part, value: Number, names: tuple[str, ...], label: str, note: str) -> Size:
        u, v = in_plane(self.face)
        a, b = self.points[0]
        start = {u: a, v: b, self.face.axis: level(part, self.face)}
        if any(self.leans):  # measured along the drill
            p, way = spot(start), self._into()
            tip = (p[0] + way[0] * float(value), p[1] + way[1] * float(value), p[2] + way[2] * float(value))
            return length(p, tip, way, value, names, Face(v, 0), label=label, note=note)
        end = start | {self.face.axis: inside(part, self.face, value)}
        along = axis(self.face.axis, -1.0 if self.face.side else 1.0)
        return length(spot(start), spot(end), along, value, names, Face(v, 0), label=label, note=note)

    def _sink_sizes(self, part: Part, at: Vec, u: int) -> list[Size]:
        if self.sink is None:
            return []
        kind = "countersink" if self.sink.angle is not None else "counterbore"
        sizes = [self._diameter(at, u, self.sink.diameter, ("sink.diameter",), kind, "")]
        if self.sink.depth is not None:
            sizes.append(self._depth(part, self.sink.depth, ("sink.depth",), kind, ""))
        if self.sink.angle is not None:
            half = math.radians(float(self.sink.angle) / 2)
            v = in_plane(self.face)[1]
            into = -1.0 if self.face.side else 1.0
            arms = [
                tuple(
                    c + (s * math.sin(half) if i == u else -into * math.cos(half) if i == self.face.axis else 0.0)
                    for i, c in enumerate(at)
                )
                for s in (1.0, -1.0)
            ]
            one, two = ((a[0], a[1], a[2]) for a in arms)
            sizes.append(
                Size(
                    SizeKind.ANGLE,
                    at,
                    one,
                    axis(v),
                    self.sink.angle,
                    ("sink.angle",),
                    Face(v, 0),
                    other=two,
                    label=kind,
                )
            )
        return sizes

    def _marks(self) -> tuple[Mark, ...]:
        if self.face.axis == 0 or self.ruled:
            return ()
        name = f"{self.label} {self.name}".strip()
        return tuple(Mark(p, 0, name, self.face) for p in sorted({p[0] for p in self.points}))

    def _row(self, part: Part, into: Vec) -> HoleRow:
        u, v = in_plane(self.face)
        on = level(part, self.face)
        mouths = tuple(_point({u: a, v: b, self.face.axis: on}) for a, b in self.points)
        return HoleRow(
            name=self.name,
            purpose=self.purpose,
            face=self.face,
            points=mouths,
            direction=into,
            diameter=self.diameter,
            drill=self.drill,
            depth=self.depth,
            thread=self.thread,
            thread_depth=self.thread_depth,
            percent=self.percent,
            sink=self.sink,
            fastener=self.fastener,
            mate=self.mate,
            authority=self.authority,
            note="; ".join(t for t in (self.note, self.counted, Lean(part, self.face, self.leans).told()) if t),
            reach=self.reach,
            meets=self.meets,
            ruled=self.ruled,
            leaning=Lean(part, self.face, self.leans).record(),
            tip=self.tip,
            off=self.off,
        )

    def _settings(self, part: Part) -> tuple[Setting, ...]:
        lean = Lean(part, self.face, self.leans)
        values: list[tuple[str, Number | str, str]] = [("drill", self.drill or self.diameter, _kind(self.drill))]
        values.append(("depth", "through", "text") if self.depth is None else ("depth", self.depth, "length"))
        values += lean.settings()
        if self.sink is not None:
            values += sunk(self.sink)
        out = [Setting("drill press", self.label, tuple(values), note=self.counted, places=lean.places())]
        if self.purpose is Purpose.TAPPED:
            tap: list[tuple[str, Number | str, str]] = [("tap", self.thread, "text")]
            if self.thread_depth is not None:
                tap.append(("full threads", self.thread_depth, "length"))
            out.append(Setting("tap", f"tap {self.thread}", tuple(tap), note="test piece first"))
        return tuple(out)

    def _template(self, part: Part) -> Template:
        u, v = in_plane(self.face)
        w, h = float(part.size[u]), float(part.size[v])
        return Template(
            title=f"{self.label} pattern",
            face=self.face,
            outline=Outline.rectangle(0.0, 0.0, w, h),
            holes=tuple((float(a), float(b), float(self.diameter)) for a, b in self.points),
            lines=tuple(
                line for a, b in self.points for line in Lean(part, self.face, self.leans).line((float(a), float(b)))
            ),
            datum=(((0.0, 0.0), (w, 0.0)), ((0.0, 0.0), (0.0, h))),
            grain={0: 0.0, 1: 90.0}.get(0 if u == 0 else 1, 0.0) if 0 in (u, v) else None,
            notes=(*([f"holes {self.name}"] if self.name else []), *([ARROWS] if any(self.leans) else [])),
        )


def _point(values: dict[int, Number]) -> tuple[Number, Number, Number]:
    return values[0], values[1], values[2]


def sunk(sink: Sink) -> tuple[tuple[str, Number | str, str], ...]:
    """Return what is set for a hole's mouth; a counterbore is bored before its hole, while the drill's point has wood."""
    if sink.angle is not None:
        return (("countersink, diameter", sink.diameter, "length"), ("countersink", sink.angle, "angle"))
    return (("counterbore first, diameter", sink.diameter, "length"), ("counterbore, depth", sink.depth or 0, "length"))


def _kind(drill: str) -> str:
    return "text" if drill else "length"
