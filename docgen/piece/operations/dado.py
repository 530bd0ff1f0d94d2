"""Dado (housing) and groove: a flat-bottomed trench across or along a face, through or stopped.

Across the grain the trade says dado or housing, along it groove; the cut is the same. With one wall only, at the
end or the edge of the part, it is a rabbet, and is given as one.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from docgen.geometry.make import along_axis, stadium
from docgen.geometry.shapes import Extrusion, Outline, Vec
from docgen.piece.bench import Bench
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.ground import (
    SAME,
    axis,
    bite,
    inside,
    length,
    level,
    need,
    need_floor,
    open_ended,
    outward,
    positive,
    run_out,
    spot,
    third,
    within,
)
from docgen.piece.operations.rabbet import Rabbet
from docgen.piece.operations.runs import ARC, SQUARE, in_face, stop_places
from docgen.piece.records import Assumed, Axis, Caution, Cut, Face, Made, Mark, Point, Setting, Size, Travel
from docgen.project.fields import Choice, Field, Reach, Word
from docgen.project.statements import Bound
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Dado:
    """A trench in `face`, running along axis `along`, from `low` to `high` on the other axis of the face.

    `start` and `stop` are where the full width ends along the run; None runs out of the part.
    `round_end` leaves the cutter's own radius beyond a stop.
    """

    word: ClassVar[str] = "dado"
    face: Face
    along: Axis
    low: Number
    high: Number
    depth: Number
    start: Number | None = None
    stop: Number | None = None
    round_end: bool = False
    label: str = "dado"
    fit: str = ""  # what runs in it and is fitted to it when it is cut: "runner"
    onward: bool = False  # cut in one pass with that of the part before it, to which it is glued: no set-up of its own
    off: Face | None = None  # the side that its place runs from, if not the part's datum

    def made(self, part: Part) -> Made:
        """Return the cutter, the sizes from the datum edges, the stick marks and the set-up."""
        across = third(self.along, self.face.axis)
        need_floor(part, self.face, self.depth, self.label)
        need(self.low < self.high, "width-range", f"the {self.label} has no width", "high", "a width above 0")
        within(part, across, self.low, self.high, self.label, "span")
        self._check_run(part)
        return Made(
            cuts=(Cut(self._cutter(part, across)),),
            sizes=self._sizes(part, across),
            marks=self._marks(across),
            settings=() if self.onward else (self._setting(part, across),),
            cautions=self._cautions(),
            assumed=(Assumed("bottom flat and parallel to the face, walls square to it"),),
            off=self.off,
        )

    def _cautions(self) -> tuple[Caution, ...]:
        if self.onward:
            return ()
        return (Caution("router"), Caution("chisel")) if self._squared else (Caution("router"),)

    @property
    def _squared(self) -> bool:
        return not self.round_end and (self.start is not None or self.stop is not None)

    @property
    def _arc(self) -> Number:
        """What the cutter's radius leaves beyond the full width."""
        return (self.high - self.low) / 2 if self.round_end else 0

    def _check_run(self, part: Part) -> None:
        low, high = part.span(self.along)
        start = low if self.start is None else self.start
        stop = high if self.stop is None else self.stop
        within(part, self.along, start, stop, self.label, "stop")
        need(start < stop, "run-range", f"the {self.label} stops before it starts", "stop", "stops that leave a run")

    def _cutter(self, part: Part, across: Axis) -> Extrusion:
        a, b = run_out(part, self.along, self.start, self.stop)
        if self.round_end:
            lo, hi = float(self.low), float(self.high)
            mid = (lo + hi) / 2
            p, q = ((a, mid), (b, mid)) if self.along < across else ((mid, a), (mid, b))
            outline = stadium(p, q, (hi - lo) / 2)
        else:
            lo, hi = open_ended(part, across, self.low, self.high)
            outline = Outline.rectangle(a, lo, b, hi) if self.along < across else Outline.rectangle(lo, a, hi, b)
        return along_axis(outline, self.face.axis, *bite(part, self.face, self.depth))

    def _sizes(self, part: Part, across: Axis) -> tuple[Size, ...]:
        surface = level(part, self.face)
        run = part.span(self.along)[0] if self.start is None else self.start

        def at(cross: Number, along: Number = run, on: Number = surface) -> Vec:
            return spot({self.along: along, across: cross, self.face.axis: on})

        sizes = [
            length(at(0), at(self.low), axis(across), self.low, ("low",), self.face),
            length(
                at(self.low),
                at(self.high),
                axis(across),
                self.high - self.low,
                ("high", "low"),
                self.face,
                label=self.label,
                note=f"the {self.fit} is fitted to it" if self.fit else "",
            ),
            length(
                at(self.low),
                at(self.low, on=inside(part, self.face, self.depth)),
                axis(self.face.axis, -outward(self.face)),
                self.depth,
                ("depth",),
                Face(self.along, 0),
                label="deep",
            ),
        ]
        for side in (0, 1):
            sizes.extend(self._stop_size(part, across, side))
        return tuple(s for s in sizes if s.value != 0 or s.parameters != ("low",))

    def _stop_size(self, part: Part, across: Axis, side: int) -> tuple[Size, ...]:
        end = self.stop if side else self.start
        if end is None:
            return ()
        reach = end + self._arc if side else end - self._arc
        datum = part.size[self.along] if side else 0
        surface = level(part, self.face)
        at = (self.low + self.high) / 2 if self.round_end else self.low  # an arc ends in the middle
        return (
            length(
                spot({self.along: datum, across: at, self.face.axis: surface}),
                spot({self.along: reach, across: at, self.face.axis: surface}),
                axis(self.along, -1.0 if side else 1.0),
                positive(datum - reach),
                ("stop" if side else "start",),
                self.face,
                label="stop",
                note=ARC if self.round_end else SQUARE,
            ),
        )

    def _marks(self, across: Axis) -> tuple[Mark, ...]:
        if across == 0:
            return (Mark(self.low, -1, self.label, self.face), Mark(self.high, 1, self.label, self.face))
        if self.along == 0:
            ends = ((self.start, -1), (self.stop, 1))
            return tuple(
                Mark(p + wood * self._arc, wood, f"{self.label} stops", self.face) for p, wood in ends if p is not None
            )
        return ()

    def _setting(self, part: Part, across: Axis) -> Setting:
        wide = self.high - self.low
        values: tuple[tuple[str, Number | str, str], ...] = (
            ("straight bit", wide, "length"),
            ("depth", self.depth, "length"),
        )
        near = in_face(part, self.face)
        if self.along == 0:
            values = (*values, ("fence to the near wall", self.low, "length"))
        else:
            near = (*near, (f"near wall from the {part.side(Face(across, 0))}", self.low, "length"))
        at, low = self._middle(part, across), Face(across, 0)
        run = Travel(self.face, self.along, at, self.start, self.stop, deep=self.depth, wide=wide, near=low)
        places = (*near, *stop_places(part, run, arc=self._arc, squared=self._squared))
        note = f"to its figure: each {self.fit} is fitted to its own {self.label} later" if self.fit else ""
        return Setting("router", f"{self.label}, flat-bottomed", values, note, places, run, fitted=self.fit)

    def _middle(self, part: Part, across: Axis) -> Point:
        point = {across: (self.low + self.high) / 2, self.face.axis: level(part, self.face)}
        return (point.get(0, 0), point.get(1, 0), point.get(2, 0))


def trench(part: Part, cut: Dado, *, label: str = "rabbet") -> Dado | Rabbet:
    """Return the trench, or the rabbet of this `label` that it is in truth: where the part ends there is no second wall."""
    across = third(cut.along, cut.face.axis)
    open_at = (cut.low < SAME, cut.high > part.size[across] - SAME)
    if open_at[0] == open_at[1]:
        return cut
    wide = cut.high - cut.low
    left = wide / 2 if cut.round_end and (cut.start is not None or cut.stop is not None) else None
    return Rabbet(cut.face, Face(across, int(open_at[1])), cut.depth, wide, cut.start, cut.stop, left, label)


def build(bench: Bench, values: Bound) -> None:
    """Cut a dado or groove as the file says it."""
    for part in saying.parts(bench, values):
        face = part.face(values["face"])
        along = saying.part_axis(part, saying.DIRECTIONS.index(values["run"]))
        across, low, high = _span(part, values, face, along)
        need(
            along != face.axis and across == third(along, face.axis),
            "run-direction",
            f"a trench in the {values['face']} face cannot run {values['run']}",
            "run",
            " or ".join(w for i, w in enumerate(saying.DIRECTIONS) if saying.part_axis(part, i) != face.axis),
        )
        start, stop = saying.stops(part, along, values["stop"])
        label = values["label"] or ("groove" if along == 0 else "dado")
        whole = Dado(face, along, low, high, values["depth"], start, stop, bool(values["round end"]), label)
        cut = trench(part, whole, label=values["label"] or "rabbet")
        title = "dado (housing)" if cut.label == "dado" else cut.label
        bench.add(part.path, cut, title=title, stage=saying.stage(values))


def _span(part: Part, values: Bound, face: Face, along: Axis) -> tuple[Axis, Number, Number]:
    across = next(
        (w for i, w in enumerate(saying.DIRECTIONS) if saying.part_axis(part, i) not in (face.axis, along)),
        values["run"],
    )
    return saying.reach(part, across, values["span"], values["from"] or ())


WORD = Word(
    name="dado",
    room="operation",
    help="A flat-bottomed trench in a face: a dado (housing) across the grain, a groove along it.",
    fields=(
        saying.PART,
        saying.FACE,
        Field("run", Choice(saying.DIRECTIONS), "the direction in which it runs", required=True),
        Field("span", Reach(), "its two walls, on the other direction of the face", required=True),
        saying.DEPTH,
        saying.STOP,
        saying.ROUND,
        saying.FROM,
        saying.LABEL,
        saying.STAGE,
    ),
    example="dado: {part: left side, face: right, run: deep, span: [6, 6 3/4], depth: 1/4, stop: {front: 3/4}}",
    build=build,
)
