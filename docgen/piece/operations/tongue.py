"""Tongue: what is left of an end or an edge that is longer than the nominal box, thinned from one or both faces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from docgen.geometry.make import along_axis, box
from docgen.geometry.shapes import Edge, Outline, Vec, Vec2
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.ground import (
    OVER,
    axis,
    length,
    level,
    need,
    outward,
    spot,
    third,
)
from docgen.piece.operations.tongue_shape import TongueShape, need_tongue
from docgen.piece.operations.tongue_work import centred, marks, settings, stands
from docgen.piece.records import (
    Allowance,
    Assumed,
    Authority,
    Axis,
    Caution,
    Cut,
    Face,
    Made,
    Size,
    Stage,
)
from docgen.project.fields import Field, Length, Word
from docgen.project.statements import Bound
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Tongue(TongueShape):
    """A tongue as it is cut: the wood beside it goes, and the blank grows by its length."""

    word: ClassVar[str] = "tongue"

    def made(self, part: Part) -> Made:
        """Return the allowance, the cuts beside the tongue, its sizes and marks, and how it is fitted."""
        self._check(part)
        return Made(
            cuts=self._cuts(part),
            sizes=self._sizes(part),
            marks=marks(self, part),
            settings=settings(self, part),
            cautions=self._cautions(part),
            assumed=(
                Assumed(stands(self, part)),
                *((Assumed("shoulders square and in line"),) if self._cut(part) else ()),
                *((Assumed(f"edges of the {self.label} half round"),) if self.rounded else ()),
            ),
            allowances=(Allowance(self.face, self.length, self.reason),),
        )

    def _cut(self, part: Part) -> bool:
        return self.cut_low or self.cut_high(part) or any(True for _ in self.notches())

    def _cautions(self, part: Part) -> tuple[Caution, ...]:
        routed = self.cut_low or self.cut_high(part)
        sawn = any(True for _ in self.notches())
        return (*((Caution("router"),) if routed else ()), *((Caution("hand saw"), Caution("chisel")) if sawn else ()))

    def _check(self, part: Part) -> None:
        thick = part.size[self.cheek]
        along = third(self.face.axis, self.cheek)
        need_tongue(self, thick, part.size[along])
        haunches = ((self.haunch_low, self.notch_low), (self.haunch_high, self.notch_high))
        need(
            all(0 <= h < self.length and (n or not h) for h, n in haunches),
            "haunch-range",
            f"a haunch of {figure(max(self.haunch_low, self.haunch_high))} needs a shoulder beside it and a {self.label} "
            f"longer than {figure(self.length)}",
            "haunch",
            f"less than the {self.label}'s length, at a shoulder",
        )
        edge = part.size[along] - self.notch_low - self.notch_high
        need(
            not self.rounded or (not self.haunch_low and not self.haunch_high and edge >= self.high - self.low),
            "tongue-rounded",
            f"a {self.label} {figure(edge)} wide and {figure(self.high - self.low)} thick cannot be rounded at its edges",
            "rounded",
            "a wider one, without a haunch",
        )

    def _fat(self, part: Part) -> tuple[float, float]:
        """Return the fat on the low and on the high cheek."""
        both = self.cut_low and self.cut_high(part)
        over = float(self.over)
        if both:
            return over / 2, over / 2
        return (over, 0.0) if self.cut_low else (0.0, over if self.cut_high(part) else 0.0)

    def _slab(self, part: Part, cheek: tuple[float, float], along: tuple[float, float], out: Number = 0) -> Cut:
        """Return the cut of a box in the allowance; it starts exactly at the shoulder, or `out` beyond it."""
        shoulder = float(level(part, self.face)) + outward(self.face) * float(out)
        end = float(level(part, self.face)) + outward(self.face) * (float(self.length) + OVER)
        low, high = [0.0] * 3, [0.0] * 3
        low[self.face.axis], high[self.face.axis] = min(shoulder, end), max(shoulder, end)
        low[self.cheek], high[self.cheek] = cheek
        third_axis = third(self.face.axis, self.cheek)
        low[third_axis], high[third_axis] = along
        return Cut(box((low[0], low[1], low[2]), (high[0], high[1], high[2])))

    def _cuts(self, part: Part) -> tuple[Cut, ...]:
        along = third(self.face.axis, self.cheek)
        thick, wide = float(part.size[self.cheek]), float(part.size[along])
        low, high = float(self.low), float(self.high)
        fat_low, fat_high = self._fat(part)
        full = (-OVER, wide + OVER)
        cuts: list[Cut] = []
        if self.cut_low:
            cuts.append(self._slab(part, (-OVER, low - fat_low), full))
        if self.cut_high(part):
            cuts.append(self._slab(part, (high + fat_high, thick + OVER), full))
        for fat, edges in ((fat_low, (-OVER, low)), (fat_high, (high, thick + OVER))):
            if fat:
                cuts.append(Cut(self._slab(part, edges, full).shape, Stage.FITTED))
        if self.notch_low:
            cuts.append(self._slab(part, (-OVER, thick + OVER), (-OVER, float(self.notch_low)), self.haunch_low))
        if self.notch_high:
            edge = (wide - float(self.notch_high), wide + OVER)
            cuts.append(self._slab(part, (-OVER, thick + OVER), edge, self.haunch_high))
        return (*cuts, *self._round(part, along)) if self.rounded else tuple(cuts)

    def _round(self, part: Part, along: Axis) -> Iterator[Cut]:
        """Yield what is taken off the four arrises, so that both edges are half round."""
        shoulder = float(level(part, self.face))
        end = shoulder + outward(self.face) * (float(self.length) + OVER)
        low, high, r = float(self.low), float(self.high), float(self.high - self.low) / 2
        first, last = -OVER, float(part.size[self.cheek]) + OVER
        for edge, way in ((float(self.notch_low), 1.0), (float(part.size[along] - self.notch_high), -1.0)):
            a, b = edge - way * OVER, edge + way * r

            def at(p: float, cheek: float) -> Vec2:
                return (p, cheek) if along < self.cheek else (cheek, p)

            corners = [at(b, low), at(b, first), at(a, first), at(a, last), at(b, last), at(b, high)]
            turns = way > 0 if along < self.cheek else way < 0
            arc = Edge(corners[0], at(b, (low + high) / 2), turns)
            edges = (*(Edge(p) for p in corners[1:]), arc)
            yield Cut(along_axis(Outline(edges), self.face.axis, min(shoulder, end), max(shoulder, end)))

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        along = third(self.face.axis, self.cheek)
        shoulder = level(part, self.face)
        tip = shoulder + self.length if self.face.side else -self.length
        seen = Face(along, 0)

        def at(cheek: Number, out: Number = tip, run: Number = self.notch_low) -> Vec:
            return spot({self.face.axis: out, self.cheek: cheek, along: run})

        sizes = [
            length(
                at(self.low, shoulder),
                at(self.low),
                axis(self.face.axis, outward(self.face)),
                self.length,
                ("length",),
                seen,
                label=self.label,
            ),
            length(
                at(self.low),
                at(self.high),
                axis(self.cheek),
                self.high - self.low,
                ("high", "low", "over") if self.over else ("high", "low"),
                seen,
                authority=Authority.FIT if self.over else Authority.CUT,
                over=self.over,
                note=self.reason if self.reason != self.label else "",
            ),
        ]
        if self.cut_low:
            said = centred(self, part)
            sizes.append(length(at(0), at(self.low), axis(self.cheek), self.low, ("low",), seen, reference=said))
        wide = part.size[along]
        wide_face = Face(self.cheek, 1)
        if self.notch_low:
            sizes.append(
                length(
                    at(self.low, run=0),
                    at(self.low),
                    axis(along),
                    self.notch_low,
                    ("notch_low",),
                    wide_face,
                    label=self.beside,
                )
            )
        if self.notch_high:
            ends = at(self.low, run=wide), at(self.low, run=wide - self.notch_high)
            sizes.append(
                length(*ends, axis(along, -1.0), self.notch_high, ("notch_high",), wide_face, label=self.beside)
            )
        return (*sizes, *self._haunches(part, along))

    def _haunches(self, part: Part, along: Axis) -> Iterator[Size]:
        """Yield how long the haunches are, beyond the shoulder."""
        shoulder, wide = level(part, self.face), part.size[along]
        for side, long in ((0, self.haunch_low), (1, self.haunch_high)):
            if long:
                place: dict[Axis, Number] = {self.cheek: self.low, along: wide if side else 0}
                start = spot(place | {self.face.axis: shoulder})
                end = spot(place | {self.face.axis: shoulder + long if self.face.side else -long})
                yield length(
                    start, end, axis(self.face.axis, outward(self.face)), long,
                    ("haunch_high" if side else "haunch_low",), Face(self.cheek, 1), label="haunch",
                )  # fmt: skip


def build(bench: Bench, values: Bound) -> None:
    """Leave a tongue as the file says it."""
    for part in saying.parts(bench, values):
        face = part.face(values["face"])
        cheek = 2 if face.axis != 2 else 1
        low, high = _between(part, cheek, values)
        notch = {part.face(word): v for word, v in (values["notch"] or {}).items()}
        run = third(face.axis, cheek)
        for f in notch:
            need(f.axis == run, "notch-face", "a notch stands at an end of the tongue", "notch")
        bench.add(
            part.path,
            Tongue(
                face,
                low,
                high,
                values["length"],
                values["over"] or 0,
                notch.get(Face(run, 0), 0),
                notch.get(Face(run, 1), 0),
                cheek,
            ),
            title="tongue",
            stage=saying.stage(values),
        )


def _between(part: Part, cheek: Axis, values: Bound) -> tuple[Number, Number]:
    """Return where the tongue lies on the cheek axis."""
    whole = part.size[cheek]
    thick = whole if values["thickness"] is None else values["thickness"]
    if values["flush"] is None:
        return (whole - thick) / 2, (whole + thick) / 2
    flush = part.face(values["flush"])
    need(flush.axis == cheek, "flush-face", f"the tongue has no cheek toward its {values['flush']}", "flush")
    return (whole - thick, whole) if flush.side else (0, thick)


WORD = Word(
    name="tongue",
    room="operation",
    help="A tongue that stands beyond the part's box on an end or an edge; the blank grows by its length.",
    fields=(
        saying.PART,
        saying.FACE,
        Field("length", Length(above=0), "how far it stands out", required=True),
        Field("thickness", Length(above=0), "its thickness; as thick as the part without it"),
        Field("flush", saying.FACE.kind, "the face with which a bare-faced tongue is flush; centred without it"),
        Field("over", Length(least=0), "fat left for fitting"),
        Field("notch", saying.STOP.kind, "how much shorter it is at a face"),
        saying.STAGE,
    ),
    example="tongue: {part: shelf, face: left, length: 1/4, thickness: 1/2, flush: bottom, over: 1/64, notch: {front: 3/4}}",
    build=build,
)
