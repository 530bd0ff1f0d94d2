"""Rabbet whose wall leans, at the end of a part or along its edge, for a board that meets the face at an angle."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.ground import axis, inside, length, level, need, outward, positive, spot, third
from docgen.piece.operations.leaning_walls import STRIP, UPRIGHT_BIT, Walls
from docgen.piece.operations.runs import SQUARE, stop_places
from docgen.piece.records import Assumed, Axis, Caution, Cut, Face, Made, Mark, Setting, Size, Travel
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class LeaningRabbet:
    """A step `into` the wood from `face`, whose wall meets that face `on` far from `edge` and leans by `tilt` degrees.

    Above 0 the wall runs toward the high side as it goes in. The floor is parallel to the face and open at `edge`.
    `start` and `stop` are where it ends along the arris, squared; None runs out of the part. `mate` is what lies in it.
    """

    word: ClassVar[str] = "rabbet"  # as one whose wall is upright
    face: Face
    edge: Face
    into: Number
    on: Number
    tilt: Number
    start: Number | None = None
    stop: Number | None = None
    label: str = "rabbet"
    mate: str = ""

    def made(self, part: Part) -> Made:
        """Return the cutter, the sizes of the step, its marks, how it is routed and how its wall is pared."""
        walls = self._walls
        walls.check(part, self.start, self.stop)
        long = part.size[self.edge.axis]
        need(
            0 < self.on < long and self._clear > 0,
            "width-range",
            f"the {self.label} takes {figure(self.on)} of {figure(long)} along the face",
            "on",
            "more than its wall leans, and less than the wood there",
        )
        wall = inside(part, self.edge, self.on)
        low, high = (wall, None) if self.edge.side else (None, wall)
        return Made(
            cuts=(Cut(walls.cutter(part, low, high, self.start, self.stop)),),
            sizes=self._sizes(part, wall),
            marks=self._marks(wall),
            settings=(self._routed(part), self._pared(part)),
            cautions=(Caution("router"), Caution("hand saw"), Caution("chisel")),
            assumed=(Assumed("floor of the rabbet flat and parallel to the face"),),
        )

    @property
    def _along(self) -> Axis:
        return third(self.face.axis, self.edge.axis)

    @property
    def _walls(self) -> Walls:
        return Walls(self.face, self._along, self.into, self.tilt, self.label)

    @property
    def _clear(self) -> Number:
        """How far from the edge an upright bit clears it, mm."""
        shift = self._walls.shift
        return self.on - max(shift if self.edge.side else -shift, 0)

    def _sizes(self, part: Part, wall: Number) -> tuple[Size, ...]:
        along = self._along
        run = part.span(along)[0] if self.start is None else self.start
        surface = {along: run, self.face.axis: level(part, self.face)}
        arris, foot = surface | {self.edge.axis: level(part, self.edge)}, surface | {self.edge.axis: wall}
        floor = inside(part, self.face, self.into)
        sizes = [
            length(
                spot(arris),
                spot(foot),
                axis(self.edge.axis, -outward(self.edge)),
                self.on,
                ("on",),
                self.face,
                label="along the face",
            ),
            length(
                spot(foot),
                spot(foot | {self.face.axis: floor}),
                axis(self.face.axis, -outward(self.face)),
                self.into,
                ("into",),
                Face(along, 0),
                label="into the thickness" if self.face.axis == 2 else "deep",
            ),
            self._walls.angle(part, wall, run),
        ]
        for side, end in enumerate((self.start, self.stop)):
            if end is not None:
                datum = part.size[along] if side else 0
                ends = spot(foot | {along: datum}), spot(foot | {along: end})
                name = ("stop" if side else "start",)
                way = axis(along, -1.0 if side else 1.0)
                sizes.append(length(*ends, way, positive(datum - end), name, self.face, label="stop", note=SQUARE))
        return tuple(sizes)

    def _marks(self, wall: Number) -> tuple[Mark, ...]:
        if self.edge.axis == 0:
            return (Mark(wall, -1 if self.edge.side else 1, self.label, self.face),)
        if self._along == 0:
            ends = ((self.start, -1), (self.stop, 1))
            return tuple(Mark(p, wood, f"{self.label} stops", self.face) for p, wood in ends if p is not None)
        return ()

    def _cut_into(self, part: Part) -> tuple[str, str, str]:
        return ("cut into", f"the {part.side(self.face)}, along the {part.side(self.edge)}", "text")

    def _routed(self, part: Part) -> Setting:
        clear = inside(part, self.edge, self._clear)
        at = {self.edge.axis: clear, self.face.axis: level(part, self.face)}
        run = Travel(
            self.face,
            self._along,
            (at.get(0, 0), at.get(1, 0), at.get(2, 0)),
            self.start,
            self.stop,
            self.edge,
            self.into,
            self._clear,
        )
        squared = self.start is not None or self.stop is not None
        values = (
            UPRIGHT_BIT,
            (STRIP, self._clear, "length"),
            ("depth", self.into, "length"),
        )
        places = (self._cut_into(part), *stop_places(part, run, squared=squared))
        note = "the floor parallel to the face; what is left at the wall is sawn at the lean afterwards"
        return Setting("router", f"{self.label} with a leaning wall, its floor", values, note, places, run)

    def _pared(self, part: Part) -> Setting:
        figures = (("wall on the face, from the " + part.side(self.edge), self.on, "length"),)
        return self._walls.pared(part, figures, self.mate, 1)
