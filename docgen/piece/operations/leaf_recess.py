"""Recess for the leaf of a hinge: a shallow bed in a face, open toward the edge at which the barrel stands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from docgen.geometry.make import box
from docgen.geometry.shapes import Extrusion, Vec
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.ground import (
    OVER,
    axis,
    inside,
    length,
    level,
    need,
    outward,
    positive,
    spot,
    third,
    within,
)
from docgen.piece.operations.runs import Places, in_face, nearer
from docgen.piece.records import Assumed, Authority, Axis, Caution, Cut, Face, Made, Mark, Setting, Size
from docgen.trade.cutters import WOOD_LEFT
from docgen.units import Number

BIT = "straight bit, no wider than half the leaf"
RECESS = (
    "knife round the leaf itself; fence set so that the bit's far rim stands on the line in from the edge, then rout inside the "
    "lines at the ends, and pare the corners square"
)
"""How a leaf is let in. Common practice."""


@dataclass(frozen=True, slots=True)
class LeafRecess:
    """A bed in `face` from its edge toward `edge`: `start` along the run, `length` long, `width` in, `depth` deep."""

    word: ClassVar[str] = "leaf recess"
    face: Face
    edge: Face
    start: Number
    length: Number
    width: Number
    depth: Number

    def made(self, part: Part) -> Made:
        """Return the bed, its place and sizes, marks where it begins and ends, and how it is let in."""
        run = self.run
        need(self.face.axis != self.edge.axis, "recess-faces", "a recess lies in one face, open toward another", "face")
        within(part, run, self.start, self.start + self.length, "recess", "at")
        for size, along, field in ((self.depth, self.face.axis, "barrel"), (self.width, self.edge.axis, "leaf")):
            need(
                0 < size < part.size[along],
                "depth-range",
                f"a recess of {figure(size)} in {figure(part.size[along])}",
                field,
                "less than the wood there",
            )
        return Made(
            cuts=(Cut(self._box(part)),),
            sizes=self._sizes(part),
            marks=self._marks(),
            settings=(
                Setting(
                    "router",
                    "recess for a hinge's leaf",
                    (
                        ("cutter", BIT, "text"),
                        ("depth", self.depth, "length"),
                        ("in from the edge", self.width, "length"),
                    ),
                    note=RECESS,
                    feed=WOOD_LEFT,
                    places=(
                        *in_face(part, self.face),
                        ("along", f"the {part.side(self.edge)}", "text"),
                        *self._places(part),
                    ),
                    mate="leaf of the hinge",
                    base=part.size[self.edge.axis],
                ),
            ),
            cautions=(Caution("router"), Caution("chisel")),
            assumed=(Assumed("recess square in its corners, bottom flat"),),
        )

    def _places(self, part: Part) -> Places:
        """Return where the leaf begins and ends, from the nearer end of the part."""
        end = nearer(part, self.run, self.start + self.length / 2)
        ends = sorted((positive(at - level(part, end)) for at in (self.start, self.start + self.length)), key=float)
        side = part.side(end)
        return ((f"near end from the {side}", ends[0], "length"), (f"far end from the {side}", ends[1], "length"))

    @property
    def run(self) -> Axis:
        """The axis along the hinge."""
        return third(self.face.axis, self.edge.axis)

    def _box(self, part: Part) -> Extrusion:
        low, high = [0.0] * 3, [0.0] * 3
        low[self.run], high[self.run] = float(self.start), float(self.start + self.length)
        for face, deep in ((self.face, self.depth), (self.edge, self.width)):
            ends = (float(inside(part, face, deep)), float(level(part, face)) + outward(face) * OVER)
            low[face.axis], high[face.axis] = min(ends), max(ends)
        return box((low[0], low[1], low[2]), (high[0], high[1], high[2]))

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        top, rim = level(part, self.face), level(part, self.edge)
        end = self.start + self.length

        def at(run: Number, deep: Number = top, across: Number = rim) -> Vec:
            return spot({self.run: run, self.face.axis: deep, self.edge.axis: across})

        along, hardware = axis(self.run), Authority.HARDWARE
        bed, wall = inside(part, self.face, self.depth), inside(part, self.edge, self.width)
        return (
            length(at(0), at(self.start), along, self.start, ("start",), self.face),
            length(at(self.start), at(end), along, self.length, ("length",), self.face, label="leaf", authority=hardware),
            length(
                at(self.start), at(self.start, across=wall), axis(self.edge.axis, -outward(self.edge)), self.width,
                ("width",), self.face, label="recess", authority=hardware,
            ),
            length(
                at(self.start), at(self.start, bed), axis(self.face.axis, -outward(self.face)), self.depth,
                ("depth",), self.edge, label="deep", authority=hardware,
            ),
        )  # fmt: skip

    def _marks(self) -> tuple[Mark, ...]:
        if self.run != 0:
            return ()
        return (
            Mark(self.start, -1, "hinge", self.face),
            Mark(positive(self.start + self.length), 1, "hinge", self.face),
        )
