"""Break lines, and long members drawn shorter by what has nothing on it; figures stay true."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from docgen.drawing.dimensions.wanted import Angular, Callout, Linear, Wanted
from docgen.drawing.records import Path, Pen, Point
from docgen.geometry.lines import ArcOf, Drawn, Stroke
from docgen.geometry.shapes import Vec2

ZIG = 2.0  # mm: height of a zigzag
ZAG = 1.4  # mm: half its length
OVER = 1.5  # mm: a break line reaches past the outline
LEAST = 2.5  # mm: a shorter line has no zigzag
LEVEL = 1e-6  # mm: lines that lean less run along the member
APART = 28.0  # mm between the zigzags of one line


def zigzag(a: Point, b: Point, over: float = OVER) -> list[Path]:
    """Return the thin continuous line with zigzags that ends what is broken off from `a` to `b` (ISO 128-2, line 01.1.19).

    A line so short that its zigzag would be a blot has none.
    """
    long = math.dist(a, b)
    if long < 1e-6:
        return []
    ux, uy = (b[0] - a[0]) / long, (b[1] - a[1]) / long

    def at(along: float, square: float) -> Point:
        return (a[0] + along * ux - square * uy, a[1] + along * uy + square * ux)

    points = [at(-over, 0.0)]
    count = max(1, round(long / APART)) if long >= LEAST else 0
    for k in range(count):
        middle = long * (k + 0.5) / count
        zag = min(ZAG, long / (3 * count))
        zig = min(ZIG, 1.5 * zag)
        points += [at(middle - zag, 0.0), at(middle - zag / 3, zig), at(middle + zag / 3, -zig), at(middle + zag, 0.0)]
    points.append(at(long + over, 0.0))
    return [Path(tuple(points), Pen.BREAK)]


# -- long members -----------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Gone:
    """A stretch along the broken axis, view mm, that is left out; `gap` of it stays open between the break lines."""

    low: float
    high: float
    gap: float

    @property
    def taken(self) -> float:
        """By how much all beyond comes nearer."""
        return self.high - self.low - self.gap


@dataclass(frozen=True, slots=True)
class Broken:
    """A view without its featureless stretches: lines and dimensions where they come to stand; figures stay true."""

    drawn: Drawn
    wanted: tuple[Wanted, ...]
    axis: int
    gone: tuple[Gone, ...]

    @property
    def taken(self) -> float:
        """By how much the view is shorter, view mm."""
        return sum(g.taken for g in self.gone)

    def place(self, p: Vec2) -> Vec2:
        """Return where a point of the whole view stands in the broken one; one in a gap stands where the gap begins."""
        return moved(p, self.axis, self.gone)

    def ends(self) -> tuple[tuple[float, float], ...]:
        """Return for each break where its two lines stand along the axis in the broken view."""
        out = []
        taken = 0.0
        for g in self.gone:
            out.append((g.low - taken, g.low + g.gap - taken))
            taken += g.taken
        return tuple(out)


def broken(drawn: Drawn, wanted: Sequence[Wanted], axis: int, *, least: float, margin: float, gap: float) -> Broken:
    """Return the view of a long member without its stretches that hold nothing but lines along it (ISO 128-30).

    `axis` is 0 across the paper or 1 up. A stretch of more than `least` mm without an end of a line and without a point
    that is dimensioned loses all but `margin` at both ends and the open `gap`, view mm. Slanted lines and curves hold a
    stretch whole, so that a taper is never broken. Dimensions keep their texts: only where they stand changes.
    """
    gone = tuple(
        Gone(low + margin, high - margin, gap)
        for low, high in empty(held(drawn, wanted, axis))
        if high - low > max(least, 2 * margin + gap + 1e-6)
    )
    if not gone:
        return Broken(drawn, tuple(wanted), axis, ())
    return Broken(parted(drawn, axis, gone), tuple(shifted(w, axis, gone) for w in wanted), axis, gone)


def parted(drawn: Drawn, axis: int, gone: Sequence[Gone]) -> Drawn:
    """Return the lines of a view without what is gone; all beyond it comes nearer."""
    seen, hidden = (
        tuple(piece for stroke in strokes for piece in _parted(stroke, axis, gone))
        for strokes in (drawn.visible, drawn.hidden)
    )
    return Drawn(seen, hidden)


def held(drawn: Drawn, wanted: Sequence[Wanted], axis: int) -> list[tuple[float, float]]:
    """Return the spans along the axis in which something is: ends of lines, slanted lines, curves, dimensioned points."""
    spans: list[tuple[float, float]] = []
    for s in (*drawn.visible, *drawn.hidden):
        if s.arc is not None:
            c = s.arc.centre[axis]
            spans.append((c - s.arc.radius, c + s.arc.radius))
        elif abs(s.a[1 - axis] - s.b[1 - axis]) < LEVEL:
            spans += [(s.a[axis], s.a[axis]), (s.b[axis], s.b[axis])]
        else:
            spans.append((min(s.a[axis], s.b[axis]), max(s.a[axis], s.b[axis])))
    for w in wanted:
        match w:
            case Linear():
                low, high = sorted((w.a[axis], w.b[axis]))
                slanted = min(abs(w.along[0]), abs(w.along[1])) > LEVEL
                spans += [(low, high)] if slanted else [(low, low), (high, high)]
            case Callout():
                spans += [(p[axis] - w.radius, p[axis] + w.radius) for p in (w.at, *w.others)]
            case Angular():
                ends = [p[axis] for p in (w.apex, w.first, w.second)]
                spans.append((min(ends), max(ends)))
    return sorted(spans)


def empty(spans: Sequence[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """Yield the stretches between spans, which are sorted."""
    reach = spans[0][1] if spans else 0.0
    for low, high in spans:
        if low > reach:
            yield reach, low
        reach = max(reach, high)


def moved(p: Vec2, axis: int, gone: Sequence[Gone]) -> Vec2:
    """Return where a point comes to stand; one in a gap stands where the gap begins."""
    taken = 0.0
    for g in gone:
        if p[axis] <= g.low:
            break
        taken += g.taken if p[axis] >= g.high else p[axis] - g.low
    return (p[0] - taken, p[1]) if axis == 0 else (p[0], p[1] - taken)


def _parted(stroke: Stroke, axis: int, gone: Sequence[Gone]) -> Iterator[Stroke]:
    """Yield what is left of a stroke, moved: one that runs through a stretch in two pieces or more."""
    if stroke.arc is not None:
        yield replace(
            stroke, a=moved(stroke.a, axis, gone), b=moved(stroke.b, axis, gone), arc=_arc(stroke.arc, axis, gone)
        )
        return
    low, high = (stroke.a, stroke.b) if stroke.a[axis] <= stroke.b[axis] else (stroke.b, stroke.a)
    taken, start = 0.0, low
    for g in gone:
        if g.high <= low[axis]:
            taken += g.taken
            start = _by(low, axis, -taken)
        elif low[axis] <= g.low and g.high <= high[axis]:
            end = _at_level(low, axis, g.low - taken)
            yield replace(stroke, a=start if taken else low, b=end)
            taken += g.taken
            start = _at_level(low, axis, g.high - taken)
    first = start if taken else low
    yield replace(stroke, a=first, b=_by(high, axis, -taken))


def _arc(arc: ArcOf, axis: int, gone: Sequence[Gone]) -> ArcOf:
    return replace(arc, centre=moved(arc.centre, axis, gone))


def _by(p: Vec2, axis: int, by: float) -> Vec2:
    return (p[0] + by, p[1]) if axis == 0 else (p[0], p[1] + by)


def _at_level(p: Vec2, axis: int, level: float) -> Vec2:
    return (level, p[1]) if axis == 0 else (p[0], level)


def shifted(w: Wanted, axis: int, gone: Sequence[Gone]) -> Wanted:
    """Return a dimension where it comes to stand; a length tells how much of it is left out."""
    match w:
        case Linear():
            a, b = moved(w.a, axis, gone), moved(w.b, axis, gone)
            taken = (abs(w.b[axis] - w.a[axis]) - abs(b[axis] - a[axis])) * abs(w.along[axis])
            return replace(w, a=a, b=b, taken=taken if taken > LEVEL else 0.0)
        case Callout():
            others = tuple(moved(p, axis, gone) for p in w.others)
            return replace(w, at=moved(w.at, axis, gone), others=others)
        case Angular():
            return replace(
                w,
                apex=moved(w.apex, axis, gone),
                first=moved(w.first, axis, gone),
                second=moved(w.second, axis, gone),
            )
