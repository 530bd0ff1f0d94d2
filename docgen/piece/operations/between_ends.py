"""Lengths of a part that is cut at both ends: told from cut to cut, as a rule finds them on the finished part."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias

from docgen.geometry.shapes import HalfSpace
from docgen.piece.model import Part
from docgen.piece.operations.ground import SAME, axis, in_plane, length, level, outward, positive, settled, spot
from docgen.piece.operations.reached import reached
from docgen.piece.records import Axis, Face, Size, Stage
from docgen.units import Number

Tip: TypeAlias = tuple[Number, tuple[Number, Number]]
"""A point of an end cut: where it stands on the end's axis, and on the two others in rising order."""

SHOULDERED = "tenon on a cut"
"""The word of an operation that leaves a tenon on a slanted end: its shoulders are a cut like any other."""

HOUSED = "tongue on a cut"
"""The word of an operation that leaves a tongue on a slanted end: its tip is a cut like any other."""

SIDES = {0: ("long side", "short side"), 1: ("wide side", "narrow side"), 2: ("thick side", "thin side")}
"""What the two sides of a part are called that is cut at a slant at both ends, by the axis on which they are measured."""


@dataclass(frozen=True, slots=True)
class FarCut:
    """The cut at the other end of a part. `first`: it is made before this one. `whole`: the wood ends there, with no tenon beyond."""

    end: Face
    plane: HalfSpace
    first: bool
    whole: bool = False

    def reach(self, at: Mapping[Axis, Number]) -> Number:
        """Return where the plane stands on the end's axis at a place on the two others."""
        n, p = self.plane.normal, self.plane.point
        fall = sum(n[i] * (float(v) - p[i]) for i, v in at.items() if i != self.end.axis)
        return settled(p[self.end.axis] - fall / n[self.end.axis])

    @property
    def square(self) -> bool:
        """True for a cut that leans nowhere."""
        return abs(abs(self.plane.normal[self.end.axis]) - 1) < SAME

    @property
    def measured(self) -> bool:
        """True where this end is measured from the far cut: it stands already, or is square to the part."""
        return self.first or self.square


def far_cut(part: Part, end: Face, plane: HalfSpace, words: tuple[str, ...]) -> FarCut | None:
    """Return the cut at the end across from `end` among the part's features of these words, None for an uncut end.

    `plane` is this end's own.
    """
    far = Face(end.axis, 1 - end.side)
    cuts = [
        (shape, f.word == HOUSED)
        for f in part.features
        if f.stage is Stage.PART and f.word in (*words, SHOULDERED, HOUSED)
        for c in f.made.cuts
        if isinstance(shape := c.beside or c.shape, HalfSpace)
    ]
    own = next((n for n, (shape, _) in enumerate(cuts) if _alike(shape, plane)), len(cuts))
    for n, (shape, whole) in enumerate(cuts):
        along = shape.normal[far.axis] * outward(far)
        if along > SAME and along >= max(abs(c) for c in shape.normal) - SAME:
            return FarCut(far, shape, n < own, whole)
    return None


def _alike(a: HalfSpace, b: HalfSpace) -> bool:
    return all(abs(p - q) < SAME for p, q in zip((*a.point, *a.normal), (*b.point, *b.normal), strict=True))


@dataclass(frozen=True, slots=True)
class Between:
    """What lies between an end's own cut, by its long and short point, and the far one."""

    part: Part
    end: Face
    long: Tip
    short: Tip
    far: FarCut
    label: str  # what this end's cut is called
    gone: bool = False  # another cut takes the long point away: all is told by the short one

    def side(self, tip: Tip) -> tuple[Number, Number]:
        """Return where the arris through a point of this end begins, at the far cut, and its length there."""
        start = self.far.reach(dict(zip(in_plane(self.end), tip[1], strict=True)))
        return start, positive(exact(tip[0] - start))

    @property
    def _uncut(self) -> Number:
        """Where the far end stands before its own cut: the part is cut square to length from long point to long point."""
        return reached(self.part)[self.end.axis][self.far.end.side]

    @property
    def _far(self) -> str:
        """What the far end is called: a shoulder where wood stands out beyond it, but not where that itself is cut."""
        return self.part.plain_side(self.far.end) if self.far.whole else self.part.side(self.far.end)

    @property
    def skew(self) -> bool:
        """True where the cuts lean alike, so that a long point stands across from a short one."""
        (a, _), (b, _) = self.side(self.long), self.side(self.short)
        return not self.far.square and outward(self.end) * float(a - b) > SAME

    @property
    def names(self) -> tuple[str, str]:
        """What the sides through the long and the short point are called."""
        return ("edge", "edge") if self.skew else SIDES[self.end.axis]

    def sizes(self, names: tuple[str, ...], seen: Face) -> tuple[Size, ...]:
        """Return the lengths of this end; `names` are the parameters of its cut."""
        far = self._far
        if self.gone:
            return (self._by_short(names, seen),)
        at_end = abs(float(self.long[0]) - float(level(self.part, self.end))) < SAME
        if not self.far.measured:
            start = self._uncut
            note = f"long point, from the {far} as it is before its own cut"
            return () if at_end else (self._size(self.long, start, names, seen, "first cut", note),)
        (a, long), (b, short) = self.side(self.long), self.side(self.short)
        one, other = self.names
        points = ("point to point",) * 2 if self.skew else tuple(f"{w} point to {w} point" for w in ("long", "short"))
        out = []
        if not at_end:
            out.append(self._size(self.long, a, names, seen, one, f"finished, {points[0]}"))
        elif abs(float(long) - float(self.part.size[self.end.axis])) > SAME:
            out.append(self._size(self.long, a, (), seen, one, f"reference, {points[0]}"))
        if not (out and self.skew and abs(float(long) - float(short)) < SAME):
            out.append(self._size(self.short, b, (), seen, other, f"reference, {points[1]}"))
        return tuple(out)

    def _by_short(self, names: tuple[str, ...], seen: Face) -> Size:
        if not self.far.measured:
            note = f"short point, from the {self._far} as it is before its own cut"
            return self._size(self.short, self._uncut, names, seen, "first cut", note)
        start, _ = self.side(self.short)
        note = f"finished, from the {self._begins(start)} to its short point"
        return self._size(self.short, start, names, seen, self.names[1], note)

    def _begins(self, start: Number) -> str:
        """Return where a side begins at the far end: at which point of a cut that leans there, the rule is held to that one."""
        far = self._far
        u, v = in_plane(self.end)
        there = [float(self.far.reach({u: a, v: b})) for a in (0, self.part.size[u]) for b in (0, self.part.size[v])]
        out = (
            {"long": max(there), "short": min(there)}
            if self.far.end.side
            else {"long": min(there), "short": max(there)}
        )
        if abs(out["long"] - out["short"]) < SAME:
            return far
        return next((f"{word} point of the {far}" for word, at in out.items() if abs(float(start) - at) < SAME), far)

    def _size(self, tip: Tip, start: Number, names: tuple[str, ...], seen: Face, label: str, note: str) -> Size:
        i = self.end.axis
        where = dict(zip(in_plane(self.end), tip[1], strict=True))
        value = positive(exact(tip[0] - start))
        ends = (spot(where | {i: start}), spot(where | {i: tip[0]}))
        return length(*ends, axis(i, outward(self.end)), value, names, seen, label=label, note=f"{self.label}: {note}")

    def places(self) -> tuple[tuple[str, Number | str, str], ...]:
        """Return where the stop of this cut stands, with what the cut leaves."""
        far = self._far
        if not self.far.measured:
            tip, word = (self.short, "short") if self.gone else (self.long, "long")
            return ((f"{word} point from the uncut {far}", positive(exact(tip[0] - self._uncut)), "length"),)
        one, other = self.names
        (_, long), (start, short) = self.side(self.long), self.side(self.short)
        if self.gone:
            return ((f"{other} from the {self._begins(start)}", short, "length"),)
        if self.skew:
            # From the point cut first to the long point of a parallel cut it is as far as that cut stood from the uncut end.
            return ((f"along the {one} from the {far}, cut first", long, "length"),)
        return ((f"{one} from the {far}", long, "length"), (f"{other} from the {far}", short, "length"))


def exact(value: Number) -> Number:
    """Return a difference without the noise of a float."""
    return settled(value) if isinstance(value, float) else value
