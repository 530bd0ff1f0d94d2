"""One piece of a stick as records: marks on its edges, labels fanned out, a scale of its own, the joins.

The strip stands with its low edge at y = 0 and the datum end at the left; a position p lies at x = p. The caller moves
it to its place on the page.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from docgen.drawing.lettering import reach, width, wrap
from docgen.drawing.metrics import Metrics
from docgen.drawing.records import Arc, Line, Pen, Record, Text
from docgen.drawing.sticks.fan import spread
from docgen.drawing.sticks.pieces import BOLD_STEPS, END, ROUND, STEPS, Piece, Point, Side
from docgen.drawing.symbols import arrowhead
from docgen.layout.model import Heights
from docgen.piece.records import BOTH
from docgen.units import Units, exact, format_length

MARK = 9.0  # mm: length of a mark from the working edge
FAN = 5.0  # mm in which leaders spread to the labels, at least
MOST_FAN = 12.0  # mm
SLOPE = 4.0  # mm along the strip that a leader may run for each mm across
CAPTION = 5.0  # mm: one row of small text
SCALE = 8.2  # mm
AIR = 1.4  # mm between labels
JOIN_AIR = 4.5  # mm kept free of labels at a join, for its match marks
CROSSES = (2.0, 3.46)  # mm: half of the width and height of the X at a join
CROSS = 3.0  # mm: half of the X on what is cut away
PAIR = 30.0  # mm: the two edges of a cut this far apart share one X
BEYOND = 1e6  # mm: no point on that side
LEADING = 1.5  # distance of baselines in heights of the text
UPRIGHT = 70.0  # mm: words of a label at right angles to the strip are wrapped to this
WOOD = 5.0  # mm: length of the arrow towards the wood


@dataclass(frozen=True, slots=True)
class Style:
    """What all pieces of a stick have in common."""

    units: Units
    heights: Heights
    metrics: Metrics
    overlap: float
    broad: float = 24.0  # mm: words of a level label are wrapped to this
    upright: bool = False  # labels set at right angles to the strip
    fan: float = FAN  # mm in which leaders spread: the farther a label stands from its mark, the deeper
    sizes: dict[tuple[bool, float, Point], tuple[float, float]] = field(
        default_factory=dict, compare=False
    )  # as measured

    def figure(self, point: Point) -> str:
        """Return the running figure of a point."""
        return format_length(point.position, self.units)

    def label_size(self, point: Point) -> tuple[float, float]:
        """Return how much of the strip a label takes along it and across it, mm."""
        key = (self.upright, self.broad, point)
        found = self.sizes.get(key)
        if found is None:
            found = self.sizes[key] = self._measured(point)
        return found

    def _measured(self, point: Point) -> tuple[float, float]:
        h = self.heights
        figure = self.figure(point)
        wide = width(figure, h.figure, self.metrics, True)
        stacked = "\u2044" in figure
        lines = self.lines(point)
        broad = max(width(line, h.note, self.metrics) for line in lines)
        if self.upright:
            return max((1.9 if stacked else 1.3) * h.figure, LEADING * h.note * len(lines)) + 0.6, wide + 2.5 + broad
        tall = self.baselines(lines)[-1] - 0.4 * h.note + (2.2 if stacked else 1.4) * h.figure
        return max(wide, broad) + 2 * AIR, tall

    def lines(self, point: Point) -> list[str]:
        """Return a label's words in lines: level ones about as wide as the figure."""
        h = self.heights
        if self.upright:
            return wrap(point.label, UPRIGHT, h.note, self.metrics) or [""]
        most = max(width(self.figure(point), h.figure, self.metrics, True), self.broad)
        return wrap(point.label, most, h.note, self.metrics) or [""]

    def baselines(self, lines: Sequence[str]) -> list[float]:
        """Return how high the words' baselines stand over a label's foot, the last line first, then the figure's.

        A line with a stacked fraction pushes its neighbours away.
        """
        h = self.heights.note
        rises, falls = zip(*(reach(line, h, self.metrics) for line in reversed(lines)), strict=True)
        out = [max(0.35 * h, falls[0])]
        for rise, fall in zip(rises, (*falls[1:], 0.0), strict=True):
            out.append(out[-1] + max(LEADING * h, rise + fall + 0.2 * h))
        return [*out[:-1], out[-1] + 0.05 * h]


def shown(side: Side, piece: Piece) -> list[Point]:
    """Return the points of a side that the piece labels: between its joins, the lower one included."""
    start, end = exact(piece.start), exact(piece.end)  # once: a fraction beside a float makes one of it each time
    return [p for p in side.points if start <= p.position < end or (piece.last and p.position == end)]


def places(points: Sequence[Point], piece: Piece, style: Style) -> tuple[float, ...] | None:
    """Return where the labels stand along the strip, None if they do not fit between the joins."""
    return spread(
        [float(p.position) for p in points],
        [style.label_size(p)[0] for p in points],
        piece.start + (0.5 if piece.first else JOIN_AIR),
        piece.end - (0.5 if piece.last else JOIN_AIR),
    )


def label_depth(side: Side, style: Style) -> float:
    """Return the depth in mm that the labels of a side take across the strip."""
    return max(style.label_size(p)[1] for p in side.points)


def depth(sides: Sequence[Side], style: Style) -> float:
    """Return how wide the strip is across, mm."""
    return sum(MARK + style.fan + label_depth(s, style) + CAPTION for s in sides) + SCALE


def fanned(sides: Sequence[Side], pieces: Sequence[Piece], style: Style) -> Style:
    """Return the style with leaders that rise at least as one in SLOPE, as far as MOST_FAN allows."""
    shifts = [0.0]
    for piece in pieces:
        for side in sides:
            points = shown(side, piece)
            at = places(points, piece, style) or ()
            shifts += [abs(x - float(p.position)) for p, x in zip(points, at, strict=False)]
    return replace(style, fan=min(MOST_FAN, max(FAN, max(shifts) / SLOPE)))


def strip(piece: Piece, sides: Sequence[Side], style: Style, caption: Sequence[str], count: int) -> list[Record]:
    """Return the records of one piece; one side at the low edge, a second one at the high edge.

    `caption` is what the stick is called: its number, which stands on every piece, its name, and shorter names for pieces
    that have no room for it.
    """
    tall = depth(sides, style)
    lap = style.overlap / 2
    left = piece.start - (0 if piece.first else lap)
    right = piece.end + (0 if piece.last else lap)
    out: list[Record] = [Line((left, 0), (right, 0), Pen.THIN), Line((left, tall), (right, tall), Pen.THIN)]
    out += [Line((x, 0), (x, tall), Pen.THIN) for x in (left, right)]
    level = 0.0
    for i, side in enumerate(sides):
        up = i == 0
        edge = 0.0 if up else tall
        out.extend(_side(side, piece, style, edge, 1.0 if up else -1.0, tall))
        band = MARK + style.fan + label_depth(side, style)
        y = edge + band + 1.6 if up else edge - band - CAPTION + 1.1
        room = piece.end - piece.start - 2 * JOIN_AIR
        told = next(t for t in _captions(caption, side, f"{piece.number} of {count}") if _fits(t, room, style))
        out.append(Text((piece.start + JOIN_AIR, y), told, style.heights.note))
        if up:
            level = edge + band + CAPTION
    out.extend(_scale(piece, style, level, one_sided=len(sides) == 1))
    out.extend(_joins(piece, style, tall))
    return out


def _captions(caption: Sequence[str], side: Side, piece: str) -> Iterator[str]:
    """Yield what a piece is called, the fullest words first: its name is cut short before it is left off."""
    number, name, *shorter = caption
    along = side.word if side.word == ROUND else f"{side.word} along this side"
    if side.told:
        yield f"{number}: {name}, {along}: {side.told}. Piece {piece}."
        yield f"{number}, {along}: {side.told}. Piece {piece}."
        yield from (f"{number}: {called}, {side.word} ({side.short}), {piece}" for called in (name, *shorter))
    yield f"{number}: {name}, {along}. Piece {piece}."
    yield from (f"{number}: {called}, {side.word}, {piece}" for called in (name, *shorter))
    yield from (f"{number}: {called}, {piece}" for called in shorter)
    yield from (f"{number}: {called}, {side.word}, {piece}" for called in _cut_short(name))
    yield f"{number}, {side.word}, {piece}"
    yield f"{number}, {piece}"
    yield ""


def _cut_short(name: str) -> tuple[str, ...]:
    """Return a name cut short in the order of trial: the first part's, then that without its last words."""
    words = name.partition(" and ")[0].split()
    whole = len(words) == len(name.split())
    return tuple(f"{' '.join(words[:most])} …" for most in range(len(words) - whole, 0, -1))


def _fits(text: str, room: float, style: Style) -> bool:
    return style.metrics.width(text, style.heights.note) <= room


def _side(side: Side, piece: Piece, style: Style, edge: float, up: float, tall: float) -> Iterator[Record]:
    points = shown(side, piece)
    at = places(points, piece, style)
    if at is None:  # the caller takes a style in which all labels fit, if there is one
        at = tuple(float(p.position) for p in points)
    for point, x in zip(points, at, strict=True):
        yield from _mark(point, side.points, edge, up, tall)
        p = float(point.position)
        yield Line((p, edge + up * MARK), (x, edge + up * (MARK + style.fan)), Pen.THIN)
        yield from _label(point, x, edge + up * (MARK + style.fan), up, label_depth(side, style), style)


def _mark(point: Point, all_of: Sequence[Point], edge: float, up: float, tall: float) -> Iterator[Record]:
    x = float(point.position)
    if point.wood == END:
        if point.position == 0:
            yield Line((x + 0.5, edge), (x + 0.5, edge + up * MARK), Pen.DATUM)
        yield Line((x, edge), (x, edge + up * MARK), Pen.VISIBLE)
        return
    yield Line((x, edge), (x, edge + up * MARK), Pen.CENTRE if point.wood == 0 else Pen.THIN)
    if point.wood == 0:
        yield Arc((x, edge + up * 4.5), 1.3, 0.0, 360.0, Pen.THIN)
        yield Line((x - 2.2, edge + up * 4.5), (x + 2.2, edge + up * 4.5), Pen.THIN)
        return
    if point.wood == BOTH:
        return
    away = -point.wood  # the waste lies on the other side
    gap = _gap(point, all_of, away)  # beyond the ends of the blank nothing is cut
    mate = next((q for q in all_of if q.wood == away and 0 < (q.position - point.position) * away <= PAIR), None)
    if mate is None or away > 0:
        half = min(CROSS, (gap if mate is None else abs(float(mate.position) - float(point.position))) / 2 - 0.7)
        middle = x + away * (half + 0.7) if mate is None else (x + float(mate.position)) / 2
        if half > 0.4 and gap < BEYOND:
            y = edge + up * 4.0
            yield Line((middle - half, y - half), (middle + half, y + half), Pen.THIN)
            yield Line((middle - half, y + half), (middle + half, y - half), Pen.THIN)
    if _gap(point, all_of, point.wood) > WOOD + 1.5 and _gap(point, all_of, point.wood) < BEYOND:
        y, tip = edge + up * 7.6, x + point.wood * WOOD
        yield Line((x, y), (tip - point.wood, y), Pen.THIN)
        yield from arrowhead((tip, y), 0.0 if point.wood > 0 else 180.0, 2.2, 30)


def _gap(point: Point, all_of: Sequence[Point], direction: int) -> float:
    """Return the distance to the next point on one side, BEYOND if there is none."""
    ahead = ((float(q.position) - float(point.position)) * direction for q in all_of)
    return min((d for d in ahead if d > 0), default=BEYOND)


def _label(point: Point, x: float, base: float, up: float, room: float, style: Style) -> Iterator[Record]:
    h = style.heights
    figure = style.figure(point)
    if style.upright:
        start = base + 1.0 if up > 0 else base - style.label_size(point)[1]
        yield Text((x + h.figure / 2, start), figure, h.figure, "left", True, 90.0)
        wide = width(figure, h.figure, style.metrics, True)
        lines = style.lines(point)
        for k, line in enumerate(lines):
            beside = x + h.note / 2 + (k - (len(lines) - 1) / 2) * LEADING * h.note
            yield Text((beside, start + wide + 1.5), line, h.note, "left", False, 90.0)
        return
    stack = 0.55 * h.figure if "\u2044" in figure else 0.0
    lines = style.lines(point)
    # At the low edge the words stand on the leader and the figure above them; at the high edge all hang from it.
    low = base + 0.5 if up > 0 else base - style.label_size(point)[1]
    *up_to, top = style.baselines(lines)
    for at, line in zip(up_to, reversed(lines), strict=True):
        yield Text((x, low + at), line, h.note, "middle")
    yield Text((x, low + top + stack), figure, h.figure, "middle", True)


def _scale(piece: Piece, style: Style, level: float, *, one_sided: bool) -> Iterator[Record]:
    """Yield ticks at round distances: at the strip's free edge, or along its middle when both edges carry marks."""
    step, bold = STEPS[style.units.system], BOLD_STEPS[style.units.system]
    top = level + SCALE
    line = top if one_sided else level + SCALE - 1.0
    lap = style.overlap / 2
    left = piece.start - (0 if piece.first else lap)
    right = piece.end + (0 if piece.last else lap)
    if not one_sided:
        yield Line((left, line), (right, line), Pen.THIN)
    first, last = int(-(-left // step)), int(right // step)
    unit = 1 if style.units.system == "inch" else 10
    for k in range(first, last + 1):
        x = k * step
        strong = k % bold == 0
        half = k % bold == bold // 2 and style.units.system == "mm"
        yield Line((x, line), (x, line - (4.0 if strong else 3.0 if half else 2.0)), Pen.THIN)
        named = strong or half or style.units.system == "inch"
        if named and piece.start + JOIN_AIR - 1 <= x <= piece.end - JOIN_AIR + 1:
            height = style.heights.note if strong else style.heights.small
            yield Text((x, level + 0.6), f"{k * unit}".replace("-", "−"), height, "middle", strong)


def _joins(piece: Piece, style: Style, tall: float) -> Iterator[Record]:
    for x, here, pen in ((piece.start, not piece.first, Pen.TRIM), (piece.end, not piece.last, Pen.THIN)):
        if not here:
            continue
        yield Line((x, 0), (x, tall), pen)
        for y in (MARK + style.fan, tall - MARK if tall > 60 else tall - SCALE - 3):
            a, up = CROSSES  # steep: a gap moves its strokes sideways, as in the marks of tiles
            yield Line((x - a, y - up), (x + a, y + up), Pen.THIN)
            yield Line((x - a, y + up), (x + a, y - up), Pen.THIN)
            yield Line((x - 3.4, y), (x + 3.4, y), Pen.THIN)
