"""Work on an end that is cut at a slant: a tenon that stands square to the cut, and holes square into it.

Places are told on the cut plane as for a mortise there: from the heel, x along the cut away from it, y across it, z into the
wood.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import ClassVar

from docgen.geometry.make import frame_along
from docgen.geometry.shapes import Extrusion, Frame, HalfSpace, Outline, Revolution, Vec
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.between_ends import SHOULDERED
from docgen.piece.operations.cut_frame import heel_frame
from docgen.piece.operations.end_cut import SQUARE, EndCut
from docgen.piece.operations.end_template import end_template
from docgen.piece.operations.ground import OVER, SAME, length, level, need, outward, settled
from docgen.piece.operations.mortise import slot
from docgen.piece.operations.runs import in_face
from docgen.piece.records import (
    Allowance,
    Assumed,
    Authority,
    Caution,
    Cut,
    Face,
    HoleRow,
    Made,
    Purpose,
    Setting,
    Size,
    SizeKind,
    Template,
)
from docgen.units import Number


def at(frame: Frame, x: Number, y: Number, z: Number = 0) -> Vec:
    """Return a place on the cut, part axes; z goes into the wood."""
    return frame.point((float(x), float(y), float(z)))


@dataclass(frozen=True, slots=True)
class SlantedTenon:
    """A tenon `long` on the shoulders that `cut` leaves, square to them.

    On the cut it goes from `low` to `high` along x and from `near` to `far` along y. A `rounded` one has half-round edges,
    as a router leaves its mortise.
    """

    word: ClassVar[str] = SHOULDERED
    cut: EndCut
    way: Vec = field(metadata=TOLD)  # along the cut, part axes
    low: Number
    high: Number
    near: Number
    far: Number
    long: Number
    rounded: bool = False
    label: str = "tenon"
    mate: str = "mortise"

    def made(self, part: Part) -> Made:
        """Return the cuts about the tenon, how far it stands beyond the box, its sizes, its template, how it is sawn."""
        frame = heel_frame(part, self.cut, self.way)
        self._check(part, frame)
        shoulders = self.cut.made(part)
        return Made(
            cuts=tuple(self._cuts(part, frame)),
            sizes=(*(_inner(s) for s in shoulders.sizes), *self._sizes(frame)),
            marks=shoulders.marks,
            settings=(self._setting(),),
            cautions=(Caution("hand saw"),),
            templates=self._templates(part, frame),
            assumed=(
                *shoulders.assumed,
                Assumed(f"{self.label} square to its slanted shoulders"),
                *((Assumed(f"edges of the {self.label} half round"),) if self.rounded else ()),
            ),
            allowances=(Allowance(self.cut.end, self._beyond(part, frame), f"{self.label} on a slanted shoulder"),),
        )

    def _corners(self, frame: Frame) -> Iterator[Vec]:
        """Yield the corners of the tenon, root and tip."""
        for z in (0, -self.long):
            for x in (self.low, self.high):
                for y in (self.near, self.far):
                    yield at(frame, x, y, z)

    def _check(self, part: Part, frame: Frame) -> None:
        need(self.long > 0, "length-range", f"the {self.label} has no length", "length", "a length above 0")
        need(
            self.low < self.high and self.near < self.far,
            "tenon-too-narrow",
            f"the shoulders leave nothing of the {self.label}",
            "shoulder",
            "narrower shoulders",
        )
        for i in (1, 2):
            places = [p[i] for p in self._corners(frame)]
            out = max(-min(places), max(places) - float(part.size[i]))
            need(
                out <= SAME,
                "tenon-outside",
                f"the {self.label} leans {figure(settled(out))} out of the {('width', 'thickness')[i - 1]} of {part.path}",
                "shoulder" if i == 1 else "thickness",
                "a shoulder wide enough for the lean, or a shorter tenon",
            )

    def _beyond(self, part: Part, frame: Frame) -> Number:
        end, side = self.cut.end, outward(self.cut.end)
        return settled(max(side * (p[end.axis] - float(level(part, end))) for p in self._corners(frame)))

    def _cuts(self, part: Part, frame: Frame) -> Iterator[Cut]:
        """Yield what goes about the tenon, then what goes beyond its tip."""
        wide = 2 * sum(float(s) for s in part.size[1:]) + float(self.long)
        reach = wide + self._slack(part)
        middle = (float(self.low + self.high) / 2, float(self.near + self.far) / 2)
        left = slot(
            self.high - self.low >= self.far - self.near,
            *middle,
            float(max(self.high - self.low, self.far - self.near)),
            float(min(self.high - self.low, self.far - self.near)),
            squared=not self.rounded,
        )
        round_about = Outline.rectangle(-wide, -wide, 2 * wide, 2 * wide)
        yield Cut(Extrusion(round_about, frame, -reach, 0.0, (left,)), beside=self.cut.plane())
        yield Cut(HalfSpace(at(frame, 0, 0, -self.long), frame.direction((0.0, 0.0, -1.0))))

    def _slack(self, part: Part) -> float:
        """Return how far the blank may reach beyond the shoulders."""
        low, high = (float(v) for v in part.span(0))
        return high - low + OVER

    def _sizes(self, frame: Frame) -> tuple[Size, ...]:
        x, y, z = (frame.direction(d) for d in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, -1.0)))
        end, mid = self.cut.end, (self.near + self.far) / 2
        tip = at(frame, self.high, mid, -self.long)
        return (
            length(at(frame, 0, mid), at(frame, self.low, mid), x, self.low, ("low",), end, label="from the short point"),
            length(
                at(frame, self.low, mid), at(frame, self.high, mid), x, self.high - self.low, ("high", "low"), end,
                label=self.label, note="wide, along the cut",
            ),
            length(at(frame, self.low, 0), at(frame, self.low, self.near), y, self.near, ("near",), end),
            length(
                at(frame, self.low, self.near), at(frame, self.low, self.far), y, self.far - self.near, ("far", "near"), end,
                label=self.label, note="thick",
            ),
            length(
                at(frame, self.high, mid), tip, z, self.long, ("long",), Face(2, 1), label=self.label,
                note="long, square to the cut",
            ),
        )  # fmt: skip

    def _setting(self) -> Setting:
        gauge, tilt = self.cut.readings()
        values: list[tuple[str, Number | str, str]] = []
        if gauge > SQUARE:
            values.append(("shoulders, from square across the face", settled(gauge), "angle"))
        if tilt > SQUARE:
            values.append(("shoulders, from square through the thickness", settled(tilt), "angle"))
        values += [
            (f"{self.label} thickness", self.far - self.near, "length"),
            (f"{self.label} width, along the cut", self.high - self.low, "length"),
            (f"{self.label} length", self.long, "length"),
        ]
        note = (
            f"mark it from the template on both faces and the gauge on the edges; saw the cheeks square to the shoulders, then "
            f"the shoulders, and pare to fit the {self.mate}"
        )
        return Setting("hand saw", f"{self.label} on slanted shoulders", tuple(values), note=note, mate=self.mate)

    def _templates(self, part: Part, frame: Frame) -> tuple[Template, ...]:
        """Return the template of the shoulders on the wide face, with the tenon as it is seen square to that face."""
        if max(self.cut.readings()) < SQUARE:
            return ()
        wide, thick = part.size[1], part.size[2]
        line = (self.cut.reach(0, thick), self.cut.reach(wide, thick))
        bare = end_template(part, self.cut.end, line, self.cut.slopes, f"shoulders of the {self.label}")
        (back, _), (x0, y0) = bare.datum[0]
        mid = (self.near + self.far) / 2
        tips = sorted((at(frame, x, mid, -self.long)[:2] for x in (self.low, self.high)), key=lambda p: p[1])
        roots = sorted(at(frame, x, mid)[1] for x in (self.low, self.high))
        rooted = [(float(self.cut.reach(settled(y), thick)), y) for y in roots]
        across = [(x0, y0), rooted[0], *tips, rooted[1], (float(line[1]), float(wide))]
        points = [(back, 0.0), *across, (back, float(wide))]
        outline = Outline.polygon(points if self.cut.end.side else points[::-1])
        return (replace(bare, outline=outline, waste=()),)


def _inner(size: Size) -> Size:
    """Return a size of the shoulders' cut, its parameters named as this operation's."""
    return replace(size, parameters=tuple(f"cut.{name}" for name in size.parameters))


@dataclass(frozen=True, slots=True)
class CutHoles:
    """Equal flat-bottomed holes square into the plane of an end cut, at `points` along x and y of its frame."""

    word: ClassVar[str] = "holes in a cut"
    end: Face
    frame: Frame = field(metadata=TOLD)
    points: tuple[tuple[Number, Number], ...]
    diameter: Number
    depth: Number
    name: str = ""
    drill: str = ""
    mate: str = ""
    note: str = ""
    label: str = "dowel hole"

    def made(self, part: Part) -> Made:
        """Return the drillings, their places from the heel, the chart row and the set-up."""
        z = self.frame.direction((0.0, 0.0, 1.0))
        r, deep = float(self.diameter) / 2, float(self.depth)
        profile = Outline.polygon([(0.0, -OVER), (r, -OVER), (r, deep), (0.0, deep)])
        mouths = [at(self.frame, a, b) for a, b in self.points]
        along_cut = tuple(
            ("along the cut, middle from the short point", a, "length")
            for a in dict.fromkeys(a for a, _ in self.points)
        )
        setting = Setting(
            "drill press",
            f"{self.label}, square to the cut",
            (
                ("drill", self.drill or self.diameter, "text" if self.drill else "length"),
                ("depth", self.depth, "length"),
            ),
            places=(*in_face(part, self.end), *along_cut),
        )
        return Made(
            cuts=tuple(Cut(Revolution(profile, frame_along(p, z))) for p in mouths),
            sizes=tuple(self._sizes()),
            holes=(
                HoleRow(
                    name=self.name,
                    purpose=Purpose.DOWEL,
                    face=self.end,
                    points=tuple(mouths),
                    direction=z,
                    diameter=self.diameter,
                    drill=self.drill,
                    depth=self.depth,
                    mate=self.mate,
                    authority=Authority.MATE,
                    note="; ".join(n for n in ("square to the cut end", self.note) if n),
                    tip=180,
                ),
            ),
            settings=(setting,),
            cautions=(Caution("drill press"),),
            assumed=(Assumed("holes square to the cut, flat-bottomed"),),
        )

    def _sizes(self) -> Iterator[Size]:
        """Yield places along the cut and across it, each once, the diameter and the depth."""
        ways = tuple(self.frame.direction(d) for d in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)))
        first = self.points[0]
        for k in (0, 1):
            seen: dict[Number, list[int]] = {}
            for n, place in enumerate(self.points):
                seen.setdefault(place[k], []).append(n)
            for value, which in seen.items():
                p = self.points[which[0]]
                start = at(self.frame, 0, p[1]) if k == 0 else at(self.frame, p[0], 0)
                label = "from the short point" if k == 0 else ""
                names = tuple(f"points.{n}.{k}" for n in which)
                yield length(start, at(self.frame, *p), ways[k], value, names, self.end, label=label)
        rim = at(self.frame, first[0] + self.diameter / 2, first[1])
        yield Size(
            SizeKind.DIAMETER, at(self.frame, *first), rim, ways[2], self.diameter, ("diameter",), self.end,
            label=f"{len(self.points)} ×" if len(self.points) > 1 else "", authority=Authority.MATE,
        )  # fmt: skip
        yield length(
            at(self.frame, *first),
            at(self.frame, *first, self.depth),
            ways[2],
            self.depth,
            ("depth",),
            None,
            label="deep",
        )
