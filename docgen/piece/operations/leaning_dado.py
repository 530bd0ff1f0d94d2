"""Dado with leaning walls, for a board that meets the face at an angle: the walls run on with the board's two faces."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from docgen.piece.model import Part
from docgen.piece.operations.end_corner import above, planes
from docgen.piece.operations.ground import (
    SAME,
    axis,
    inside,
    length,
    level,
    need,
    outward,
    positive,
    settled,
    spot,
    within,
)
from docgen.piece.operations.leaning_rabbet import LeaningRabbet
from docgen.piece.operations.leaning_walls import STRIP, UPRIGHT_BIT, Walls
from docgen.piece.operations.runs import SQUARE, in_face, stop_places
from docgen.piece.records import Assumed, Axis, Caution, Cut, Face, Made, Mark, Setting, Size, Travel
from docgen.units import Number

NEAR = 0.01
"""mm: a wall that lies no further inside a plane of the part's end counts as lying in it."""


@dataclass(frozen=True, slots=True)
class LeaningDado:
    """A trench in `face`, running along axis `along`, from `low` to `high` on the other axis of the face, at its mouth.

    The walls lean by `tilt` degrees from square to the face: above 0 they run toward the high side as they go in. `start`
    and `stop` are where it ends along the run, squared; None runs out of the part. `mate` is what goes into it.
    """

    word: ClassVar[str] = "dado"  # as one with upright walls: what both have alike is told once
    face: Face
    along: Axis
    low: Number
    high: Number
    depth: Number
    tilt: Number
    start: Number | None = None
    stop: Number | None = None
    label: str = "dado"
    mate: str = ""

    def made(self, part: Part) -> Made:
        """Return the cutter, the sizes at the mouth, the stick marks, how it is routed and how its walls are pared."""
        walls = self.walls
        walls.check(part, self.start, self.stop)
        bottom = self._bottom()
        need(
            bottom[0] < bottom[1], "width-range", f"the {self.label} is too narrow for its lean", "high", "a wider one"
        )
        ends = (self.low, self.high, self.low + walls.shift, self.high + walls.shift)
        within(part, walls.across, min(ends), max(ends), self.label, "span")
        return Made(
            cuts=(Cut(walls.cutter(part, self.low, self.high, self.start, self.stop)),),
            sizes=self._sizes(part),
            marks=self._marks(),
            settings=(self._routed(part), self._pared(part)),
            cautions=(Caution("router"), Caution("hand saw"), Caution("chisel")),
            assumed=(Assumed("bottom flat and parallel to the face, walls parallel to each other"),),
        )

    @property
    def walls(self) -> Walls:
        """What it has in common with a rabbet whose wall leans."""
        return Walls(self.face, self.along, self.depth, self.tilt, self.label)

    def _bottom(self) -> tuple[Number, Number]:
        """Return between which places across the floor lies under the mouth: what an upright bit clears."""
        shift = self.walls.shift
        return (self.low + shift, self.high) if shift > 0 else (self.low, self.high + shift)

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        walls, surface = self.walls, level(part, self.face)
        across = walls.across
        run = part.span(self.along)[0] if self.start is None else self.start

        def at(cross: Number, on: Number = surface) -> tuple[float, float, float]:
            return spot({self.along: run, across: cross, self.face.axis: on})

        under = self.high if self.tilt > 0 else self.low
        wide = self.high - self.low
        sizes = [
            length(at(0), at(self.low), axis(across), self.low, ("low",), self.face),
            length(at(self.low), at(self.high), axis(across), wide, ("high", "low"), self.face, label=self.label),
            length(
                at(under),
                at(under, inside(part, self.face, self.depth)),
                axis(self.face.axis, -outward(self.face)),
                self.depth,
                ("depth",),
                Face(self.along, 0),
                label="deep",
            ),
            walls.angle(part, self.low, run),
            *self._stops(part),
        ]
        return tuple(s for s in sizes if s.value != 0 or s.parameters != ("low",))

    def _stops(self, part: Part) -> list[Size]:
        out = []
        for side, end in enumerate((self.start, self.stop)):
            if end is not None:
                datum = part.size[self.along] if side else 0
                place = {self.walls.across: self.low, self.face.axis: level(part, self.face)}
                ends = spot(place | {self.along: datum}), spot(place | {self.along: end})
                name = ("stop" if side else "start",)
                way = axis(self.along, -1.0 if side else 1.0)
                out.append(length(*ends, way, positive(datum - end), name, self.face, label="stop", note=SQUARE))
        return out

    def _marks(self) -> tuple[Mark, ...]:
        if self.walls.across == 0:
            return (Mark(self.low, -1, self.label, self.face), Mark(self.high, 1, self.label, self.face))
        if self.along == 0:
            ends = ((self.start, -1), (self.stop, 1))
            return tuple(Mark(p, wood, f"{self.label} stops", self.face) for p, wood in ends if p is not None)
        return ()

    def _from(self, part: Part) -> str:
        return f"from the {part.side(Face(self.walls.across, 0))}"

    def _routed(self, part: Part) -> Setting:
        low, high = self._bottom()
        wide = high - low
        at = {self.walls.across: (low + high) / 2, self.face.axis: level(part, self.face)}
        middle = (at.get(0, 0), at.get(1, 0), at.get(2, 0))
        side = Face(self.walls.across, 0)
        run = Travel(self.face, self.along, middle, self.start, self.stop, deep=self.depth, wide=wide, near=side)
        squared = self.start is not None or self.stop is not None
        places = (
            *in_face(part, self.face),
            (f"near side of the strip that it clears {self._from(part)}", low, "length"),
            (f"far side of the strip that it clears {self._from(part)}", high, "length"),
            *stop_places(part, run, squared=squared),
        )
        values = (UPRIGHT_BIT, (STRIP, wide, "length"), ("depth", self.depth, "length"))
        note = "the floor parallel to the face; what is left at the two walls is sawn at the lean afterwards"
        return Setting("router", f"{self.label} with leaning walls, its floor", values, note, places, run)

    def _pared(self, part: Part) -> Setting:
        wide = self.high - self.low
        said = self._from(part)
        figures: tuple[tuple[str, Number | str, str], ...] = (
            (f"near edge on the face {said}", self.low, "length"),
            (f"far edge on the face {said}", self.high, "length"),
            ("wide, on the face", wide, "length"),
            ("wide, square to the walls", self.walls.square(wide), "length"),
        )
        return self.walls.pared(part, figures, self.mate, 2)


def leaning_trench(part: Part, cut: LeaningDado) -> LeaningDado | LeaningRabbet:
    """Return the trench, or the rabbet that it is where the part ends, or is cut off, at one of its walls."""
    walls = cut.walls
    size = part.size[walls.across]
    for side, mouth in ((0, cut.low), (1, cut.high)):
        out = 1.0 if side else -1.0
        ends = (float(mouth), float(mouth + walls.shift))
        open_end = all(out * (v - float(size if side else 0)) > -SAME for v in ends)
        if open_end or _cut_off(part, cut, ends, out):
            wall = cut.low if side else cut.high
            on = settled(float(size - wall)) if side else wall
            more = (cut.start, cut.stop, "rabbet", cut.mate)
            return LeaningRabbet(cut.face, Face(walls.across, side), cut.depth, on, cut.tilt, *more)
    return cut


def _cut_off(part: Part, cut: LeaningDado, ends: tuple[float, float], out: float) -> bool:
    """Return whether a plane cut of the part's end lies in a wall, or takes it away."""
    surface = (level(part, cut.face), inside(part, cut.face, cut.depth))
    walls = cut.walls
    wall = [spot({walls.across: v, cut.face.axis: s}) for v, s in zip(ends, surface, strict=True)]
    return any(
        plane.normal[walls.across] * out > SAME
        and abs(plane.normal[cut.along]) < SAME
        and all(above(plane, p) > -NEAR for p in wall)
        for plane in planes(part)
    )
