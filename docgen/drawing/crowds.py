"""Where the figures of a view crowd: several in one small place, that stand for little or had to be moved far away.

Such a place is drawn once more, larger, with its figures: an enlarged detail (ISO 128-3).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from docgen.drawing.dimensions.wanted import Angular, Callout, Linear, Placed, Wanted
from docgen.drawing.placing import point_bounds
from docgen.drawing.records import Line, Point, Text

FINE = 2.5  # mm on paper: what stands for less has its arrows outside, and lines that nearly touch
AWAY = 11.0  # mm on paper: a figure so far from what it measures had to be moved out
LED = 15.0  # mm on paper: a leader so long crosses what lies between
SPAN = 16.0  # mm on paper: what is longer reads well where it is
REACHES = (4.0, 7.0, 10.0, 13.0, 16.0)  # mm on paper about the middle of a figure: a crowd is no wider
MANY = 3  # figures make a crowd
STRAINED = 2  # of them are hard to read
CHOICE = 4  # places are offered of a view
DENSE = 2.7  # mm on paper for each figure: in a wider circle they stand loosely
AIR = 0.25  # of the radius is added around what is measured
EDGE = 3.0  # mm on paper that is added at least
RUNNING = "running"  # figures of a row from one datum stay in their row
NONE = 1e-6  # mm
STEPS = 60  # toward the middle of a circle: it is good to a hundredth of its radius then
HALF = 0.5  # of the view's longer side: a wider place is as good as the view


@dataclass(frozen=True, slots=True)
class Crowd:
    """A place of a view, view mm, the keys of the figures that crowd there, and the least that one of them stands for, mm."""

    centre: Point
    radius: float
    keys: frozenset[str]
    least: float


def spots(wanted: Wanted) -> tuple[Point, ...]:
    """Return the points that a dimension measures; none for one that belongs to the whole view.

    Overall sizes do, what passes a break, and what speaks for others elsewhere. The leader to an arc may end anywhere on it.
    """
    match wanted:
        case Linear():
            whole = wanted.overall or wanted.over or wanted.taken > 0
            return () if whole else (wanted.a, wanted.b)
        case Angular():
            return (wanted.apex,)
        case Callout():
            if wanted.others or wanted.near or not wanted.sizes:
                return ()
            (x, y), r = wanted.at, wanted.radius
            if wanted.toward is None:
                return ((x - r, y), (x + r, y), (x, y - r), (x, y + r)) if r else (wanted.at,)
            turns = (wanted.toward - wanted.spread, wanted.toward, wanted.toward + wanted.spread)
            return tuple((x + r * math.cos(math.radians(t)), y + r * math.sin(math.radians(t))) for t in turns)


def strained(placed: Placed) -> bool:
    """Return True for a figure that is hard to read where it stands."""
    if placed.arrows is not None and math.dist(*placed.arrows) < FINE and isinstance(placed.wanted, Linear):
        return True
    texts = [r for r in placed.records if isinstance(r, Text)]
    if placed.how == "leader":
        return sum(math.dist(r.a, r.b) for r in placed.records if isinstance(r, Line)) > LED
    if placed.arrows is None or not texts:
        return False
    (ax, ay), (bx, by) = placed.arrows
    return math.dist(texts[0].at, ((ax + bx) / 2, (ay + by) / 2)) > AWAY


@dataclass(frozen=True, slots=True)
class _Seen:
    """A figure on paper: what it measures, mm, and whether it is hard to read."""

    key: str
    low: Point
    high: Point
    hard: bool

    @property
    def middle(self) -> Point:
        return ((self.low[0] + self.high[0]) / 2, (self.low[1] + self.high[1]) / 2)

    def near(self, p: Point, reach: float) -> bool:
        return all(math.dist(c, p) <= reach for c in (self.low, self.high))


def crowded(placed: Sequence[Placed], scale: float, *, many: int = MANY, hard: int = STRAINED) -> list[frozenset[str]]:
    """Return the keys of figures that crowd in one place of a view, for some places: with most that are hard to read first.

    `scale` is paper mm for each mm of the view; `many` figures make a crowd, `hard` of them hard to read.
    """
    every = [seen for p in placed if p.how != RUNNING and (seen := _seen(p, scale)) is not None]
    if len(every) < many or sum(s.hard for s in every) < hard:
        return []
    found: dict[frozenset[str], tuple[int, float]] = {}
    for s, o in itertools.combinations_with_replacement(every, 2):
        middle = ((s.middle[0] + o.middle[0]) / 2, (s.middle[1] + o.middle[1]) / 2)
        for reach in REACHES:
            here = [o for o in every if o.near(middle, reach)]
            difficult = sum(o.hard for o in here)
            if len(here) >= many and difficult >= hard:
                found.setdefault(frozenset(o.key for o in here), (-difficult, reach))
    return sorted(found, key=lambda keys: (*found[keys], sorted(keys)))[:CHOICE]


def _seen(placed: Placed, scale: float) -> _Seen | None:
    points = spots(placed.wanted)
    if not points:
        return None
    x0, y0, x1, y1 = (c * scale for c in point_bounds(points))
    if math.hypot(x1 - x0, y1 - y0) > SPAN:
        return None
    return _Seen(placed.wanted.key, (x0, y0), (x1, y1), strained(placed))


def place(
    wanted: Iterable[Wanted],
    keys: frozenset[str],
    scale: float,
    longest: float,
    *,
    dense: float = DENSE,
    edge: float = EDGE,
    air: float = AIR,
) -> Crowd | None:
    """Return the place around the crowd's figures with all that lies in it.

    None where they stand loosely, or it is as wide as half the view. `wanted` is what may stand there, `longest` the view's
    longer side, view mm; each figure may take `dense` mm on paper, and `air` of the radius, `edge` mm at least, is left about.
    """
    wanted = list(wanted)
    every = {w.key: points for w in wanted if (points := spots(w))}
    lines = {w.key for w in wanted if isinstance(w, Linear)}
    own = [p for key in sorted(keys) for p in every[key]]
    middle = _middle(own)
    far = max(math.dist(p, middle) for p in own)
    radius = max(far * (1 + air), far + edge / scale)
    if 2 * radius > HALF * longest or far * scale > dense * len(keys):
        return None
    held = frozenset(k for k, points in every.items() if all(math.dist(p, middle) <= radius for p in points))
    spans = (math.dist(p, q) for k in held for p, q in itertools.pairwise(every[k]) if k in lines)
    return Crowd(middle, radius, held, min((s for s in spans if s > NONE), default=math.inf))


def _middle(points: Sequence[Point]) -> Point:
    """Return the middle of about the smallest circle around points.

    Steps toward the furthest one, each shorter than the last, by Bădoiu and Clarkson, Smaller core-sets for balls (2003);
    from memory.
    """
    x0, y0, x1, y1 = point_bounds(points)
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    best = (max(math.dist(p, (x, y)) for p in points), (x, y))
    for k in range(1, STEPS):
        far, p = max((math.dist(p, (x, y)), p) for p in points)
        best = min(best, (far, (x, y)), key=lambda b: b[0])
        x, y = x + (p[0] - x) / (k + 1), y + (p[1] - y) / (k + 1)
    return best[1]
