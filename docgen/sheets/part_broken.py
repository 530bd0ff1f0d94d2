"""Long parts drawn broken: what is left out of them, the break lines of their views, the marks in dimension lines."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from docgen.drawing.breaks import Gone, empty, held, moved, zigzag
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.dimensions.wanted import Arranged, Linear, Placed, Wanted
from docgen.drawing.records import Line, Path, Pen, Point, Record
from docgen.drawing.unfold import Station
from docgen.geometry.lines import Drawn, View
from docgen.piece.model import Part
from docgen.piece.records import HoleRow

SLENDER = 8.0  # times its width or thickness: a part at least so long may be broken
LONG = 2.0  # times its width or thickness: a part at least so long may be broken where that takes no further page
RATHER = 6.0  # times its width or thickness: a part at least so long may be broken where one of its views would fuse
FUSED = 1.5  # mm on paper: the lines of a view no broader run together
SMALL = 0.5  # 1 : 2: a part drawn as large as that is plain enough unbroken
GAP = 3.0  # mm on paper between the two lines of a break
MARGIN = 9.0  # mm on paper that are kept beside what stands nearest to a break
WORTH = 15.0  # mm on paper: less is not taken out
MOST = 4  # breaks of a part
EACH = 8.0  # mm on paper: a stretch that could lose no more is not broken
SHARES = (1.0, 0.85)  # of the length on paper at the smaller scale is used at the larger one: the first that fits
ZAG, ZIG = 1.2, 1.1  # mm: half length and height of the mark in a dimension line
CLEAR = 0.6  # mm between a mark and a text
HEAD = 5.0  # mm that a mark keeps from an arrow's tip
STEP = 0.8  # mm by which a mark is moved along
REMARK = "Broken: length not to scale between the break lines; a zigzag marks each dimension line that spans a break"


def slender(part: Part) -> bool:
    """Return True for a part that is much longer than it is wide and thick."""
    size = [float(part.span(i)[1] - part.span(i)[0]) for i in range(3)]
    return size[0] >= SLENDER * max(size[1], size[2])


def longish(part: Part) -> bool:
    """Return True for a part that is so much longer than it is wide and thick that it may be broken at all."""
    size = [float(part.span(i)[1] - part.span(i)[0]) for i in range(3)]
    return size[0] >= LONG * max(size[1], size[2])


def fuses(part: Part, factor: float) -> bool:
    """Return True for a rather long part of which a view is so thin on paper that its lines run together."""
    size = [float(part.span(i)[1] - part.span(i)[0]) for i in range(3)]
    return size[0] >= RATHER * max(size[1], size[2]) and min(size[1], size[2]) * factor < FUSED


def axis_of(view: View) -> int | None:
    """Return 0 where a view shows the part's length across the paper, 1 where upward, None where it looks along it."""
    return 0 if view.right[0] > 0.5 else 1 if view.up[0] > 0.5 else None


def along(stations: Iterable[Station]) -> bool:
    """Return True when one of the views shows the part's length."""
    return any(axis_of(s.view) is not None for s in stations)


def stretches(
    views: Iterable[tuple[Drawn, Sequence[Wanted]]],
    rows: Iterable[HoleRow],
    rings: Iterable[tuple[float, float]] = (),
    *,
    factor: float,
    shorter: float,
) -> tuple[Gone, ...]:
    """Return what is left out along the length so that the part comes out `shorter` by so many mm on paper.

    The views show the length across; only what is empty in all of them goes. The longest stretch is broken, in its
    middle, and the next ones where that is not enough; a part that would need more of them than `MOST` has something all
    along it, and nothing goes. `rows` are the holes: one bored along the length holds all of its depth; `rings` hold what they span.
    """
    spans = [span for drawn, wanted in views for span in held(drawn, wanted, 0)]
    spans += [*(span for row in rows for span in _bored(row)), *rings]
    take, kept = shorter / factor, (2 * MARGIN + GAP) / factor
    longest = sorted(empty(sorted(spans)), key=lambda s: (s[0] - s[1], s[0]))[:MOST]
    able = [(low, high, high - low - kept) for low, high in longest if (high - low - kept) * factor >= EACH]
    many = next((n for n in range(1, len(able) + 1) if sum(s[2] for s in able[:n]) >= take), 0)
    if shorter < WORTH or not many:
        return ()
    share = take / sum(s[2] for s in able[:many])
    return tuple(
        sorted((_gone(low, high, share * most, GAP / factor) for low, high, most in able[:many]), key=lambda g: g.low)
    )


def _gone(low: float, high: float, taken: float, gap: float) -> Gone:
    middle, half = (low + high) / 2, (taken + gap) / 2
    return Gone(middle - half, middle + half, gap)


def _bored(row: HoleRow) -> Iterator[tuple[float, float]]:
    if abs(row.direction[0]) < 1e-9:
        return
    deep = row.depth if row.depth is not None else row.reach
    for p in row.points:
        x = float(p[0])
        far = x + row.direction[0] * float(deep) if deep is not None else math.copysign(math.inf, row.direction[0])
        yield (min(x, far), max(x, far))


def rows_moved(rows: Iterable[HoleRow], gone: Sequence[Gone]) -> list[HoleRow]:
    """Return the holes where they come to stand along the length."""
    out = []
    for row in rows:
        points = tuple((moved((float(p[0]), 0.0), 0, gone)[0], p[1], p[2]) for p in row.points)
        out.append(replace(row, points=points))
    return out


def lines_of(whole: Drawn, axis: int, gone: Sequence[Gone], scale: float) -> list[Record]:
    """Return the pairs of zigzag lines on paper where a view is broken, as long as the part is wide there.

    `whole` is the unbroken view.
    """
    out: list[Record] = []
    taken = 0.0
    for g in gone:
        across = [
            s.a[1 - axis]
            for s in (*whole.visible, *whole.hidden)
            if s.arc is None and min(s.a[axis], s.b[axis]) <= g.low and max(s.a[axis], s.b[axis]) >= g.high
        ]
        for level in (g.low - taken, g.low + g.gap - taken):
            ends = [(level, v) if axis == 0 else (v, level) for v in (min(across), max(across))]
            a, b = ((x * scale, y * scale) for x, y in ends)
            out += zigzag(a, b)
        taken += g.taken
    return out


# -- marks in dimension lines -----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a break may be marked along the length, paper mm: its middle, and between which places no dimension ends."""

    middle: float
    low: float
    high: float


def marked(arranged: Arranged, axis: int, gone: Sequence[Gone], engine: Engine) -> Arranged:
    """Return the dimensions with a zigzag in each line that spans a break; one without room for it is left."""
    stops = [a[axis] for p in arranged.placed if p.arrows is not None for a in p.arrows]
    places = _places(gone, engine.field.scale, stops)
    on: dict[tuple[int, int], set[float]] = {}
    missed: list[int] = []
    for n, p in enumerate(arranged.placed):
        if not isinstance(p.wanted, Linear) or not p.wanted.taken or p.arrows is None:
            continue
        where, spots = _marks(arranged.placed, n, axis, places, engine)
        found = [s for s in spots if s is not None]
        if where is None or not found or len(found) < len(spots):
            missed.append(n)
        else:
            on.setdefault(where, set()).update(found)
    records = [list(p.records) for p in arranged.placed]
    for (n, m), along in on.items():
        records[n][m] = path = _with_marks(records[n][m], axis, sorted(along))
        for a, b in itertools.pairwise(path.points):
            engine.occupied.add_line(a, b, "dimension")
    pairs = enumerate(zip(arranged.placed, records, strict=True))
    placed = tuple(replace(p, records=tuple(r)) for n, (p, r) in pairs if n not in missed)
    left = tuple(arranged.placed[n].wanted for n in missed)
    return replace(arranged, placed=placed, left=(*arranged.left, *left))


def _marks(
    placed: Sequence[Placed], n: int, axis: int, places: Sequence[_Place], engine: Engine
) -> tuple[tuple[int, int] | None, list[float | None]]:
    """Return which record is the line of a dimension, and where it is marked: None for a mark that finds no room."""
    p = placed[n]
    assert p.arrows is not None
    level = p.arrows[0][1 - axis]
    low, high = sorted(a[axis] for a in p.arrows)
    spanned = [place for place in places if low < place.middle < high]
    where = _line_at(placed, n, axis, spanned[0].middle, level) if spanned else None
    spots = [_spot(place, axis, level, engine) for place in spanned]
    if p.how == "running":  # each break of the shared line, so that it tells which of the figures span it
        return where, spots
    # a line of its own needs one mark, wherever there is room for it
    wide = [replace(place, low=low + HEAD, high=high - HEAD) for place in spanned[:1]]
    free = [s for s in spots if s is not None]
    return where, [*free[:1]] or [_spot(place, axis, level, engine) for place in wide]


def _places(gone: Sequence[Gone], scale: float, stops: Sequence[float]) -> list[_Place]:
    out = []
    taken = 0.0
    for g in gone:
        low, high = (g.low - taken) * scale, (g.low + g.gap - taken) * scale
        before = max((u for u in stops if u <= low), default=low)
        after = min((u for u in stops if u >= high), default=high)
        out.append(_Place((low + high) / 2, min(low, before + HEAD), max(high, after - HEAD)))
        taken += g.taken
    return out


def _line_at(placed: Sequence[Placed], first: int, axis: int, along: float, level: float) -> tuple[int, int] | None:
    """Return which record is the dimension line at a place: of the dimension itself, or the one that its row shares."""
    for n in (first, *range(len(placed))):
        for m, r in enumerate(placed[n].records):
            if isinstance(r, Line) and abs(r.a[1 - axis] - level) < 1e-6 and abs(r.b[1 - axis] - level) < 1e-6:
                low, high = sorted((r.a[axis], r.b[axis]))
                if low < along < high:
                    return n, m
    return None


def _spot(place: _Place, axis: int, level: float, engine: Engine) -> float | None:
    """Return where the mark stands: at the break, or moved along so that it lies on no text and no line."""
    steps = int((place.high - place.low) / 2 / STEP) + 1
    for k in range(steps):
        for way in (1, -1):
            along = place.middle + way * k * STEP
            if place.low <= along <= place.high and _free(along, axis, level, engine):
                return along
    return None


def _free(along: float, axis: int, level: float, engine: Engine) -> bool:
    a, b = (_at(along + by, level, axis) for by in (-ZAG, ZAG))
    if engine.occupied.strikes(a, b, ZIG + CLEAR):
        return False
    low, high = (_at(along, level + by, axis) for by in (-ZIG, ZIG))
    return not engine.occupied.crossed(low, high, ("leader", "extension", "arc", "view"))


def _at(along: float, across: float, axis: int) -> Point:
    return (along, across) if axis == 0 else (across, along)


def _zig(along: float, axis: int, level: float) -> list[Point]:
    third = ZAG / 3
    turns = ((-ZAG, 0.0), (-third, ZIG), (third, -ZIG), (ZAG, 0.0))
    return [_at(along + u, level + v, axis) for u, v in turns]


def _with_marks(line: Record, axis: int, spots: Sequence[float]) -> Path:
    """Return a dimension line with its zigzags."""
    assert isinstance(line, Line)
    low, high = sorted((line.a, line.b), key=lambda p: p[axis])
    points = [low]
    for along in spots:
        points += _zig(along, axis, low[1 - axis])
    return Path((*points, high), Pen.THIN)
