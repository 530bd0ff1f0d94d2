"""Notch: a square box taken out of a corner, an edge, or across the part."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, TypeAlias

from docgen.geometry.make import box
from docgen.geometry.shapes import Outline
from docgen.piece.bench import Bench
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.ground import (
    axis,
    in_plane,
    length,
    need,
    positive,
    run_out,
    spot,
    within,
)
from docgen.piece.records import Assumed, Axis, Caution, Cut, Face, Made, Mark, Setting, Size, Template
from docgen.project.fields import Field, Reach, Word
from docgen.project.statements import Bound
from docgen.units import Number

Open: TypeAlias = tuple[Number | None, Number | None]
"""From–to on one axis; None runs out of the part."""


@dataclass(frozen=True, slots=True)
class Notch:
    """A box from–to on each part axis; None on a side means that it is open there.

    With `template` one that goes right through in one direction is printed at true size: a rule and a square do not
    reach well into its inside corners.
    """

    word: ClassVar[str] = "notch"
    length: Open = (None, None)
    width: Open = (None, None)
    thickness: Open = (None, None)
    label: str = "notch"
    template: bool = False

    @property
    def _spans(self) -> tuple[Open, Open, Open]:
        return self.length, self.width, self.thickness

    def made(self, part: Part) -> Made:
        """Return the box, its sizes from the side where it is open, or from the datum, and marks."""
        walls = [(i, side) for i, s in enumerate(self._spans) for side in (0, 1) if s[side] is not None]
        need(bool(walls), "notch-all", "the notch takes the whole part", "length", "at least one wall")
        runs = [run_out(part, i, *self._spans[i]) for i in range(3)]
        for i, (low, high) in enumerate(self._spans):
            first, last = part.span(i)
            a, b = first if low is None else low, last if high is None else high
            need(a < b, "notch-range", f"the {self.label} has no {_NAMES[i]}", _NAMES[i], "a length above 0")
            within(part, i, a, b, self.label, _NAMES[i])
        lows, highs = zip(*runs, strict=True)
        return Made(
            cuts=(Cut(box((lows[0], lows[1], lows[2]), (highs[0], highs[1], highs[2]))),),
            sizes=self._sizes(part, walls),
            marks=self._marks(),
            settings=(Setting("band saw", self.label, self._values(part)),),
            cautions=(Caution("band saw"), Caution("chisel")),
            templates=self._templates(part) if self.template else (),
            assumed=(Assumed("notch square, corners left sharp"),),
        )

    def _face(self) -> Face:
        """Return the face on which the notch is best seen: the first axis that it passes right through."""
        through = [i for i in (2, 1, 0) if self._spans[i] == (None, None)]
        return Face(through[0] if through else 2, 1)

    def _sizes(self, part: Part, walls: list[tuple[Axis, int]]) -> tuple[Size, ...]:
        corner = {
            i: s[0] if s[0] is not None else s[1] if s[1] is not None else part.span(i)[0]
            for i, s in enumerate(self._spans)
        }
        face = self._face()
        sizes = []
        for i, side in walls:
            low, high = self._spans[i]
            value = self._spans[i][side]
            assert value is not None
            if low is not None and high is not None:
                datum: Number = low if side else 0
                names = (f"{_NAMES[i]}.1", f"{_NAMES[i]}.0") if side else (f"{_NAMES[i]}.0",)
            else:
                datum = 0 if side else part.size[i]
                names = (f"{_NAMES[i]}.{side}",)
            sign = 1.0 if value >= datum else -1.0
            start, end = spot(corner | {i: datum}), spot(corner | {i: value})
            sizes.append(length(start, end, axis(i, sign), positive(value - datum), names, face, label=self.label))
        return tuple(sizes)

    def _templates(self, part: Part) -> tuple[Template, ...]:
        """Return the whole face that shows the notch; what runs out in two directions is a step without a corner.

        A blind one has none: the face that it is cut from shows where, its figures tell how deep.
        """
        if sum(s == (None, None) for s in self._spans) != 1:
            return ()
        face = self._face()
        u, v = in_plane(face)
        size = (float(part.size[u]), float(part.size[v]))
        return (
            Template(
                title=self.label,
                face=face,
                outline=Outline.rectangle(0.0, 0.0, *size),
                waste=(self._waste(part, u, v),),
                datum=(((0.0, 0.0), (size[0], 0.0)), ((0.0, 0.0), (0.0, size[1]))),
                grain={u: 0.0, v: 90.0}.get(0),
                whole=True,
            ),
        )

    def _waste(self, part: Part, u: Axis, v: Axis) -> Outline:
        (x0, x1), (y0, y1) = (
            (0.0 if low is None else float(low), float(part.size[i]) if high is None else float(high))
            for i, (low, high) in ((i, self._spans[i]) for i in (u, v))
        )
        return Outline.rectangle(x0, y0, x1, y1)

    def _marks(self) -> tuple[Mark, ...]:
        wood = (-1, 1)
        return tuple(Mark(p, wood[i], self.label, self._face()) for i, p in enumerate(self.length) if p is not None)

    def _values(self, part: Part) -> tuple[tuple[str, Number | str, str], ...]:
        out: list[tuple[str, Number | str, str]] = []
        for i, (low, high) in enumerate(self._spans):
            first, last = part.span(i)
            if (low, high) != (None, None):
                out.append((_NAMES[i], (last if high is None else high) - (first if low is None else low), "length"))
        return tuple(out)


_NAMES = ("length", "width", "thickness")


def build(bench: Bench, values: Bound) -> None:
    """Cut notches: at a corner or edge said by face words with a depth each, or a from–to on a direction."""
    for part in saying.parts(bench, values):
        spans: list[Open] = [(None, None)] * 3
        for word, depth in (values["off"] or {}).items():
            face = part.face(word)
            spans[face.axis] = (part.size[face.axis] - depth, None) if face.side else (None, depth)
        for word in saying.DIRECTIONS:
            if values[word] is not None:
                i, low, high = saying.reach(part, word, values[word], values["from"] or ())
                size = part.size[i]
                spans[i] = (None if low <= 0 else low, None if high >= size else high)
        operation = Notch(spans[0], spans[1], spans[2], template=True)
        bench.add(part.path, operation, title="notch", stage=saying.stage(values))


WORD = Word(
    name="notch",
    room="operation",
    help="A square box out of a corner or an edge; directions that are not said run right through.",
    fields=(
        saying.PART,
        Field("off", saying.STOP.kind, "depth from each named face"),
        Field("across", Reach(), "from–to across"),
        Field("deep", Reach(), "from–to front to back"),
        Field("up", Reach(), "from–to upward"),
        saying.FROM,
        saying.STAGE,
    ),
    example="notch: {part: shelf, off: {left: 1, front: 2}}",
    build=build,
)
