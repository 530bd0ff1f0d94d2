"""Mortise with round ends, as a router leaves it for a loose tenon: in a face, or in the plane of an end cut."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import ClassVar

from docgen.geometry.make import along_axis, stadium
from docgen.geometry.shapes import Extrusion, Frame, Outline, Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.ground import (
    OVER,
    Ground,
    axis,
    bite,
    in_plane,
    inside,
    length,
    need,
    third,
    within,
)
from docgen.piece.operations.mortise_steps import Flare, Haunch, Slot
from docgen.piece.operations.runs import across, in_face, slot_run
from docgen.piece.records import Assumed, Axis, Caution, Cut, Face, Made, Mark, Setting, Size, Template
from docgen.project.fields import Choice, Field, Flag, Length, Place, Word
from docgen.project.statements import Bound
from docgen.units import Number


def slot(along_u: bool, a: float, b: float, long: float, wide: float, *, squared: bool = False) -> Outline:
    """Return a slot's outline around (a, b), `long` over all along x or y, with round ends or square ones."""
    half, r = long / 2, wide / 2
    if squared:
        return Outline.rectangle(
            *((a - half, b - r, a + half, b + r) if along_u else (a - r, b - half, a + r, b + half))
        )
    d = half - r
    return stadium((a - d, b), (a + d, b), r) if along_u else stadium((a, b - d), (a, b + d), r)


@dataclass(frozen=True, slots=True)
class Mortise:
    """A slot in `face`: `centre` on the face's two axes in rising order, `length` over all on axis `along`.

    `width` is across the slot (the tenon's thickness), `depth` from the face, None goes through. `squared` chops the
    ends square. `steps` are shallower steps for haunches, and end walls that lean out for wedges.
    """

    word: ClassVar[str] = "mortise"
    face: Face
    centre: tuple[Number, Number]
    along: Axis
    length: Number
    width: Number
    depth: Number | None
    squared: bool = False
    steps: tuple[Haunch | Flare, ...] = ()
    label: str = "mortise"
    pattern: Template | None = field(default=None, metadata=TOLD)  # of what goes into it, made of an offcut
    off: Face | None = field(default=None, metadata=TOLD)  # the side that its place runs from, if not the part's datum

    def made(self, part: Part) -> Made:
        """Return the cutter, the place of the centre from the datum edges, the slot's sizes, marks and set-up."""
        u, v = in_plane(self.face)
        need(self.along in (u, v), "run-direction", f"the {self.label} does not lie in its face", "along")
        _check_slot(self.length, self.width, self.label)
        thick = part.size[self.face.axis]
        need(
            self.depth is None or 0 < self.depth < thick,
            "depth-range",
            f"the {self.label} is {figure(self.depth or 0)} deep in {figure(thick)}",
            "depth",
            "less than the wood there",
        )
        for i, c in zip((u, v), self.centre, strict=True):
            half = (self.length if i == self.along else self.width) / 2
            within(part, i, c - half, c + half, self.label, "at")
        a, b = float(self.centre[0]), float(self.centre[1])
        outline = slot(self.along == u, a, b, float(self.length), float(self.width), squared=self.squared)
        low, high = part.span(self.face.axis)
        through = (float(low) - OVER, float(high) + OVER)
        reach = through if self.depth is None else bite(part, self.face, self.depth)
        return Made(
            cuts=(Cut(along_axis(outline, self.face.axis, *reach)), *(s.cut(part, self._slot()) for s in self.steps)),
            sizes=(*self._sizes(part), *self._step_sizes(part)),
            marks=self._marks(),
            settings=(self._setting(part),),
            cautions=(Caution("router"), Caution("chisel")) if self.squared else (Caution("router"),),
            templates=() if self.pattern is None else (self.pattern,),
            assumed=(Assumed("ends squared" if self.squared else "ends left round, walls square to the face"),),
            off=self.off,
        )

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        ground = Ground(part, self.face)
        u, v = ground.axes
        a, b = self.centre
        half, r = self.length / 2, self.width / 2
        long_u = self.along == u
        ends = ((a - half, b), (a + half, b)) if long_u else ((a, b - half), (a, b + half))
        walls = ((a, b - r), (a, b + r)) if long_u else ((a - r, b), (a + r, b))
        across = third(self.along, self.face.axis)
        sizes = (
            length(ground.at(0, b), ground.at(a, b), axis(u), a, ("centre.0",), self.face, label="to the centre", place=True),
            length(ground.at(a, 0), ground.at(a, b), axis(v), b, ("centre.1",), self.face, label="to the centre", place=True),
            length(
                ground.at(*ends[0]), ground.at(*ends[1]), axis(self.along), self.length, ("length",), self.face,
                label=self.label,
            ),
            length(ground.at(*walls[0]), ground.at(*walls[1]), axis(across), self.width, ("width",), self.face),
        )  # fmt: skip
        if self.depth is None:
            return sizes
        bottom, seen = ground.at(a, b, self.depth), Face(across, 0)
        return (
            *sizes,
            length(ground.at(a, b), bottom, ground.inward, self.depth, ("depth",), seen, label="deep"),
        )

    def _slot(self) -> Slot:
        first = self.along == in_plane(self.face)[0]
        middle, beside = self.centre if first else self.centre[::-1]
        return Slot(self.face, self.along, middle, beside, self.length, self.width)

    def _step_sizes(self, part: Part) -> Iterator[Size]:
        for i, step in enumerate(self.steps):
            yield from step.sizes(part, self._slot(), f"steps.{i}")

    def _setting(self, part: Part) -> Setting:
        setting = _setting(self.label, self.length, self.width, self.depth, squared=self.squared)
        return slot_run(setting, part, self.face, self.along, self.centre, self.length)

    def _marks(self) -> tuple[Mark, ...]:
        if self.face.axis == 0:
            return ()
        centre = self.centre[0]
        half = (self.length if self.along == 0 else self.width) / 2
        return (
            Mark(centre - half, -1, self.label, self.face),
            Mark(centre + half, 1, self.label, self.face),
        )


SQUARE = 1 - 1e-6
"""Cosine from which a cut lies square across its part."""


@dataclass(frozen=True, slots=True)
class CutMortise:
    """A round-ended slot square to the plane of an end cut, as across a mitre.

    `frame` stands on the cut plane (part axes): origin at the heel on the datum side, x along the cut away from the
    heel, y across it, z into the wood. The slot's centre is `out` along x and `over` along y; `length` is measured
    along x when `lengthwise`, else along y.
    """

    word: ClassVar[str] = "mortise in a cut"
    end: Face
    frame: Frame = field(metadata=TOLD)
    out: Number
    over: Number
    length: Number
    width: Number
    depth: Number
    lengthwise: bool = True
    label: str = "mortise"

    def made(self, part: Part) -> Made:
        """Return the cutter, the slot's place on the cut from heel and datum side, its sizes and set-up."""
        _check_slot(self.length, self.width, self.label)
        need(self.depth > 0, "depth-range", f"the {self.label} has no depth", "depth", "more than 0")
        outline = slot(self.lengthwise, float(self.out), float(self.over), float(self.length), float(self.width))
        return Made(
            cuts=(Cut(Extrusion(outline, self.frame, -OVER, float(self.depth))),),
            sizes=self._sizes(),
            settings=(
                replace(
                    _setting(self.label, self.length, self.width, self.depth),
                    places=(
                        *in_face(part, self.end),
                        ("along the cut, middle from the short point", self.out, "length"),
                        self._across(part),
                    ),
                ),
            ),
            cautions=(Caution("router"),),
            assumed=(Assumed("ends left round, mortise square to the cut"),),
        )

    def _across(self, part: Part) -> tuple[str, Number, str]:
        """Return where the middle stands across the cut: from the nearer side of the part where the cut lies square to it."""
        beside, over = self._beside(), self._reach()
        side = part.side(beside)
        if abs(self.frame.direction((0.0, 1.0, 0.0))[beside.axis]) > SQUARE:
            side, over = across(part, beside.axis, inside(part, beside, over))
        return f"middle from the {side}", over, "length"

    def _reach(self) -> Number:
        """Return how far the middle lies from the side that it is measured from."""
        return self.over if self.over >= 0 else -self.over

    def _beside(self) -> Face:
        """Return the side of the part that `over` is measured from."""
        way = self.frame.direction((0.0, 1.0 if self.over >= 0 else -1.0, 0.0))
        beside = max(range(3), key=lambda i: abs(way[i]))
        return Face(beside, 0 if way[beside] > 0 else 1)

    def _at(self, x: Number, y: Number, z: Number = 0) -> Vec:
        return self.frame.point((float(x), float(y), float(z)))

    def _sizes(self) -> tuple[Size, ...]:
        a, b = self.out, self.over
        away = 1.0 if b >= 0 else -1.0  # from the datum side to the middle
        x, y, z = (self.frame.direction(d) for d in ((1.0, 0.0, 0.0), (0.0, away, 0.0), (0.0, 0.0, 1.0)))
        long, wide = (self.length, self.width) if self.lengthwise else (self.width, self.length)
        names = ("length", "width") if self.lengthwise else ("width", "length")
        called = (self.label, "") if self.lengthwise else ("", self.label)
        return (
            length(
                self._at(0, b), self._at(a, b), x, a, ("out",), self.end, label="from the short point to the centre"
            ),
            length(
                self._at(a, 0), self._at(a, b), y, self._reach(), ("over",), self.end, label="to the centre", place=True
            ),
            length(
                self._at(a - long / 2, b), self._at(a + long / 2, b), x, long, (names[0],), self.end, label=called[0]
            ),
            length(
                self._at(a, b - away * wide / 2),
                self._at(a, b + away * wide / 2),
                y,
                wide,
                (names[1],),
                self.end,
                label=called[1],
            ),
            length(self._at(a, b), self._at(a, b, self.depth), z, self.depth, ("depth",), None, label="deep"),
        )


def _check_slot(long: Number, wide: Number, label: str) -> None:
    need(wide > 0, "width-range", f"the {label} has no width", "width", "more than 0")
    need(
        long >= wide,
        "length-range",
        f"the {label} is {figure(long)} long and {figure(wide)} wide",
        "length",
        "at least the width",
    )


def _setting(label: str, long: Number, wide: Number, deep: Number | None, *, squared: bool = False) -> Setting:
    values: tuple[tuple[str, Number | str, str], ...] = (
        ("straight bit", wide, "length"),
        ("travel", long - wide, "length"),
        ("depth", "through", "text") if deep is None else ("depth", deep, "length"),
    )
    return Setting("router", label, values, note="then square the ends with a chisel" if squared else "")


def build(bench: Bench, values: Bound) -> None:
    """Cut a mortise as the file says it."""
    for part in saying.parts(bench, values):
        face = part.face(values["face"])
        at = saying.on_face(part, face, values["at"], values["from"] or ())
        along = saying.part_axis(part, saying.DIRECTIONS.index(values["run"]))
        squared = bool(values["squared"])
        bench.add(
            part.path,
            Mortise(face, at, along, values["length"], values["width"], values["depth"], squared),
            title="mortise",
            stage=saying.stage(values),
        )


WORD = Word(
    name="mortise",
    room="operation",
    help="A slot in a face for a tenon or a loose tenon, with round or squared ends.",
    fields=(
        saying.PART,
        saying.FACE,
        Field("at", Place(), "its centre: two directions of the face", required=True),
        saying.FROM,
        Field("run", Choice(saying.DIRECTIONS), "the direction of its length", required=True),
        Field("length", Length(above=0), "over all, round ends included", required=True),
        Field("width", Length(above=0), "across: the tenon's thickness", required=True),
        saying.DEPTH,
        Field("squared", Flag(), "chop the ends square", default="no"),
        saying.STAGE,
    ),
    example="mortise: {part: leg, face: right, at: {deep: 1, up: 14}, run: up, length: 2, width: 3/8, depth: 1}",
    build=build,
)
