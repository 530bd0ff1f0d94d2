"""Slotted hole: a round-ended slot for a screw that lets solid wood move."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Outline
from docgen.piece.bench import Bench
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.ground import OVER, Ground, axis, bite, in_plane, length, level, need, third, within
from docgen.piece.operations.mortise import slot
from docgen.piece.operations.runs import slot_run
from docgen.piece.records import Assumed, Axis, Caution, Cut, Face, Made, Mark, Setting, Size, SlotRow
from docgen.project.fields import Choice, Field, Length, Place, Word
from docgen.project.statements import Bound
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class SlottedHole:
    """A slot right through the part from `face`: `width` across, `length` over all on axis `along`.

    `bore` is a wider slot for the screw's head: (width, depth), concentric; it lets the head travel as far.
    """

    word: ClassVar[str] = "slotted hole"
    face: Face
    centre: tuple[Number, Number]
    along: Axis
    length: Number
    width: Number
    bore: tuple[Number, Number] | None = None
    name: str = ""
    label: str = "slotted hole"

    def made(self, part: Part) -> Made:
        """Return the cutters, the centre from the datum edges, the slot's sizes, a mark and the set-up."""
        u, v = in_plane(self.face)
        need(self.along in (u, v), "run-direction", f"the {self.label} does not lie in its face", "along")
        need(self.length > self.width > 0, "length-range", "a slot is longer than it is wide", "length")
        thick = part.size[self.face.axis]
        widest = self.width
        if self.bore is not None:
            need(self.bore[0] > self.width, "bore-range", "the slot for the head is too narrow", "counterbore")
            need(0 < self.bore[1] < thick, "depth-range", "the slot for the head goes through", "counterbore depth")
            widest = self.bore[0]
        for i, c in zip((u, v), self.centre, strict=True):
            half = widest / 2 + (self.travel / 2 if i == self.along else 0)
            within(part, i, c - half, c + half, self.label, "at")
        low, high = part.span(self.face.axis)
        cuts = [Cut(along_axis(self._outline(self.width), self.face.axis, float(low) - OVER, float(high) + OVER))]
        if self.bore is not None:
            sunk = along_axis(self._outline(self.bore[0]), self.face.axis, *bite(part, self.face, self.bore[1]))
            cuts.append(Cut(sunk))
        return Made(
            cuts=tuple(cuts),
            sizes=self._sizes(part),
            marks=(Mark(self.centre[0], 0, f"{self.label} {self.name}".strip(), self.face),)
            if self.face.axis != 0
            else (),
            settings=(self._setting(part),),
            cautions=(Caution("router"),),
            assumed=(Assumed("slot through, ends round"),),
            slots=(self._row(part),),
        )

    def _row(self, part: Part) -> SlotRow:
        at = {**dict(zip(in_plane(self.face), self.centre, strict=True)), self.face.axis: level(part, self.face)}
        return SlotRow(self.name, self.face, (at[0], at[1], at[2]), self.along, self.length, self.width, self.bore)

    @property
    def travel(self) -> Number:
        """Return how far the screw can travel, end to end, mm."""
        return self.length - self.width

    def _outline(self, width: Number) -> Outline:
        u, _ = in_plane(self.face)
        a, b = float(self.centre[0]), float(self.centre[1])
        return slot(self.along == u, a, b, float(width + self.travel), float(width))

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        ground = Ground(part, self.face)
        u, v = ground.axes
        a, b = self.centre
        across = third(self.along, self.face.axis)
        step = {self.along: self.length / 2, across: 0}
        side = {self.along: 0, across: self.width / 2}
        out = [
            length(ground.at(0, b), ground.at(a, b), axis(u), a, ("centre.0",), self.face),
            length(ground.at(a, 0), ground.at(a, b), axis(v), b, ("centre.1",), self.face),
            length(
                ground.at(a - step[u], b - step[v]), ground.at(a + step[u], b + step[v]), axis(self.along),
                self.length, ("length",), self.face, label="slot",
            ),
            length(
                ground.at(a - side[u], b - side[v]), ground.at(a + side[u], b + side[v]), axis(across),
                self.width, ("width",), self.face,
            ),
        ]  # fmt: skip
        if self.bore is not None:
            wide = {self.along: 0, across: self.bore[0] / 2}
            over_all = self.bore[0] + self.travel
            far = {self.along: over_all / 2, across: 0}
            out.append(
                length(
                    ground.at(a - far[u], b - far[v]), ground.at(a + far[u], b + far[v]), axis(self.along),
                    over_all, (), self.face, label="counterbore",
                )
            )  # fmt: skip
            out.append(
                length(
                    ground.at(a - wide[u], b - wide[v]), ground.at(a + wide[u], b + wide[v]), axis(across),
                    self.bore[0], ("bore.0",), self.face, label="counterbore",
                )
            )  # fmt: skip
            out.append(
                length(
                    ground.at(a, b), ground.at(a, b, self.bore[1]), ground.inward, self.bore[1], ("bore.1",),
                    Face(across, 0), label="deep",
                )
            )  # fmt: skip
        return tuple(out)

    def _setting(self, part: Part) -> Setting:
        values: list[tuple[str, Number | str, str]] = [
            ("straight bit", self.width, "length"),
            ("travel", self.travel, "length"),
            ("depth", "through", "text"),
        ]
        if self.bore is not None:
            values += [
                ("bit for the head, first", self.bore[0], "length"),
                ("its depth", self.bore[1], "length"),
                ("its slot, over all", self.bore[0] + self.travel, "length"),
            ]
        setting = Setting("router", self.label, tuple(values))
        return slot_run(setting, part, self.face, self.along, self.centre, self.length)


def build(bench: Bench, values: Bound) -> None:
    """Cut a slotted hole as the file says it."""
    for part in saying.parts(bench, values):
        face = part.face(values["face"])
        at = saying.on_face(part, face, values["at"], values["from"] or ())
        along = saying.part_axis(part, saying.DIRECTIONS.index(values["run"]))
        bore = None
        if values["counterbore"] is not None:
            need(values["counterbore depth"] is not None, "bore-depth", "the counterbore has no depth", "counterbore")
            bore = (values["counterbore"], values["counterbore depth"])
        bench.add(
            part.path,
            SlottedHole(face, at, along, values["length"], values["width"], bore, values["name"] or ""),
            title="slotted hole",
            stage=saying.stage(values),
        )


WORD = Word(
    name="slotted hole",
    room="hole",
    help="A round-ended slot through a part, for a screw that lets the wood move.",
    fields=(
        saying.PART,
        saying.FACE,
        Field("at", Place(), "its centre: two directions of the face", required=True),
        saying.FROM,
        Field("run", Choice(saying.DIRECTIONS), "the direction in which the screw can travel", required=True),
        Field("length", Length(above=0), "over all, round ends included", required=True),
        Field("width", Length(above=0), "across: the screw's clearance", required=True),
        Field("counterbore", Length(above=0), "width of the slot for the head"),
        Field("counterbore depth", Length(above=0), "depth of the slot for the head"),
        Field("name", saying.LABEL.kind, "letter in the drilling chart"),
        saying.STAGE,
    ),
    example="slotted hole: {part: rail, face: top, at: {across: 4, deep: 1}, run: deep, length: 1/2, width: 3/16}",
    build=build,
)
