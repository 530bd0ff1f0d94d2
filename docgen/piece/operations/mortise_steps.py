"""What a mortise may have besides its slot: a shallow step for a haunch, end walls that lean out for wedges."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Outline, Vec
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.ground import (
    OVER,
    Ground,
    axis,
    bite,
    inside,
    length,
    need,
    open_ended,
    outward,
    third,
    within,
)
from docgen.piece.records import Axis, Cut, Face, Size
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Slot:
    """The slot beside which a step stands: on `face`, its middle on `along` and across, `length` and `width`."""

    face: Face
    along: Axis
    middle: Number
    beside: Number  # its middle across the run
    length: Number
    width: Number

    def swept(self, outline: Outline) -> Cut:
        """Return an outline, drawn in run and depth, as a cut swept across the slot.

        Steps are swept so, since they are no mortises of their own.
        """
        across = third(self.along, self.face.axis)
        half = float(self.width) / 2
        return Cut(along_axis(outline, across, float(self.beside) - half, float(self.beside) + half))

    def at(self, ground: Ground, run: Number, deep: Number = 0) -> Vec:
        """Return the point on the slot's middle line at `run`, `deep` under the face."""
        return ground.at(run, self.beside, deep) if self.along == ground.axes[0] else ground.at(self.beside, run, deep)


@dataclass(frozen=True, slots=True)
class Haunch:
    """A step that goes on by `reach` beyond the slot's end, the `high` or the low one, `deep`; open where the part ends."""

    high: bool
    reach: Number
    deep: Number

    def span(self, slot: Slot) -> tuple[Number, Number]:
        """Return from–to on the slot's run."""
        half = slot.length / 2
        if self.high:
            return slot.middle + half, slot.middle + half + self.reach
        return slot.middle - half - self.reach, slot.middle - half

    def cut(self, part: Part, slot: Slot) -> Cut:
        """Return the step's cutter."""
        need(0 < self.deep < part.size[slot.face.axis], "depth-range", "a haunch deeper than its part", "haunch")
        a, b = self.span(slot)
        within(part, slot.along, a, b, "haunch", "haunch")
        run, into = open_ended(part, slot.along, a, b), bite(part, slot.face, self.deep)
        x, y = (run, into) if slot.along < slot.face.axis else (into, run)
        return slot.swept(Outline.rectangle(x[0], y[0], x[1], y[1]))

    def sizes(self, part: Part, slot: Slot, name: str) -> Iterator[Size]:
        """Yield how far it reaches and how deep it is."""
        ground, (a, b) = Ground(part, slot.face), self.span(slot)
        start, end = (a, b) if self.high else (b, a)
        way = axis(slot.along, 1.0 if self.high else -1.0)
        yield length(
            slot.at(ground, start), slot.at(ground, end), way, self.reach, (f"{name}.reach",), slot.face, label="haunch"
        )
        seen = Face(third(slot.along, slot.face.axis), 0)
        ends = slot.at(ground, end), slot.at(ground, end, self.deep)
        yield length(*ends, ground.inward, self.deep, (f"{name}.deep",), seen, label="deep", note="haunch")


@dataclass(frozen=True, slots=True)
class Flare:
    """End walls of a through mortise that lean out by `by` each at the far face, from `start` under the entry on."""

    start: Number
    by: Number

    def cut(self, part: Part, slot: Slot) -> Cut:
        """Return the cutter, a wedge wider at the far face; it takes the slot's own wood with it."""
        thick = part.size[slot.face.axis]
        need(
            0 <= self.start < thick and self.by > 0,
            "depth-range",
            f"a mortise that widens from {figure(self.start)} on in {figure(thick)}",
            "wedges",
            "less than the post's thickness",
        )
        c, half = slot.middle, slot.length / 2 + self.by
        within(part, slot.along, c - half, c + half, "widened mortise", "wedges")
        near, far = float(inside(part, slot.face, self.start)), float(inside(part, slot.face, thick))
        mid, small = float(c), float(slot.length) / 2
        big = small + float(self.by) * (1 + OVER / float(thick - self.start))
        tip = far - outward(slot.face) * OVER
        points = [(mid - small, near), (mid + small, near), (mid + big, tip), (mid - big, tip)]
        if slot.along > slot.face.axis:
            points = [(b, a) for a, b in points]
        area = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(points, points[1:] + points[:1], strict=True))
        return slot.swept(Outline.polygon(points if area > 0 else points[::-1]))

    def sizes(self, part: Part, slot: Slot, name: str) -> Iterator[Size]:
        """Yield by how much it is longer at each end of the far face, and where the walls begin to lean."""
        ground, thick = Ground(part, slot.face), part.size[slot.face.axis]
        end = slot.middle + slot.length / 2
        back = Face(slot.face.axis, 1 - slot.face.side)
        ends = slot.at(ground, end, thick), slot.at(ground, end + self.by, thick)
        yield length(*ends, axis(slot.along), self.by, (f"{name}.by",), back, label="longer by", note="at each end")
        seen = Face(third(slot.along, slot.face.axis), 0)
        ends = slot.at(ground, end), slot.at(ground, end, self.start)
        yield length(*ends, ground.inward, self.start, (f"{name}.start",), seen, label="widens from")
