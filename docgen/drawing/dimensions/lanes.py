"""Outside dimensions: lanes off one side of a view, shortest nearest, text between or beyond its arrows.

Text keeps clear of every extension line that is still to come on its side, so a later and longer dimension can
always be added further out: the placing ends without going back.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass

from docgen.drawing import symbols
from docgen.drawing.dimensions.label import Label, label
from docgen.drawing.dimensions.occupied import Occupied, Segment
from docgen.drawing.dimensions.sides import Side
from docgen.drawing.dimensions.trial import Trial, clear, commit, stand
from docgen.drawing.dimensions.wanted import Linear, Placed, Rules
from docgen.drawing.metrics import Metrics
from docgen.drawing.records import Point

SLIDES = 8
"""In so many steps a text is moved along between two extension lines."""


@dataclass(frozen=True, slots=True)
class Lane:
    """A dimension as one side sees it: `low` and `high` along the side, and the two points on paper."""

    wanted: Linear
    label: Label
    low: float
    high: float
    first: Point  # the point at `low`
    second: Point
    turned: bool  # `wanted.a` is the point at `high`

    @property
    def length(self) -> float:
        """Distance between the arrows, paper mm."""
        return self.high - self.low


def as_lane(wanted: Linear, a: Point, b: Point, side: Side, rules: Rules, metrics: Metrics) -> Lane:
    """Return the dimension between paper points `a` and `b` as `side` sees it.

    A datum edge is met where it leaves the outline, wherever on it the dimension was said to start, but where it does not
    reach so far.
    """
    text = label((wanted.text,), rules.height, metrics)
    a = side.point(side.u(a), 0.0) if wanted.datum and not wanted.reaches else a
    ua, ub = side.u(a), side.u(b)
    if ua <= ub:
        return Lane(wanted, text, ua, ub, a, b, False)
    return Lane(wanted, text, ub, ua, b, a, True)


def pitch(lanes: list[Lane], rules: Rules) -> float:
    """Return the distance between lanes that the tallest text needs, one for the whole side."""
    return max([rules.pitch, *(lane.label.tall + rules.lift + 0.9 for lane in lanes)])


def place_lanes(
    side: Side, lanes: list[Lane], later: list[float], occupied: Occupied, rules: Rules, beyond: float = 0.0
) -> tuple[list[Placed], list[Lane], float]:
    """Place dimensions off one side; `later` are places of extension lines that others will need there.

    One whose figure would stand beyond an extension line of a longer one, and be read there, goes outside of that one.
    Overall ones stand outermost, further off the view than `beyond`. Returns what was placed, what found no lane, and how
    far off the view the outermost line stands, mm.
    """
    step = pitch(lanes, rules)
    placed: list[Placed] = []
    left: list[Lane] = []
    used, reach = -1, beyond
    order = sorted(lanes, key=lambda lane: (lane.wanted.overall, lane.length, lane.low, lane.wanted.key))
    outside: list[Lane] = []
    while order:
        lane, *order = order
        late = lane in outside
        coming = sorted({u for other in order for u in (other.low, other.high)} | set(later))
        start = used + 1 if late or lane.wanted.overall else 0
        if lane.wanted.overall and reach > 0:
            start = max(start, math.ceil((reach + step / 2 - rules.first) / step))
        first = rules.first + (rules.over + rules.clear if late else 0.0)  # clear of the ends of extension lines within
        found = _find(side, lane, coming, (first, start, step), occupied, rules)
        if found is None:
            left.append(lane)
            continue
        number, trial = found
        longer = [other for other in order if not other.wanted.overall and other not in outside]
        if not late and longer and _passes(trial, lane, side, [u for other in longer for u in (other.low, other.high)]):
            outside.append(lane)
            order[len(longer) : len(longer)] = [lane]
            continue
        used, reach = max(used, number), max(reach, first + number * step)
        placed.append(commit(trial, lane.wanted, "lane", occupied, rules))
    return placed, left, reach


def _passes(trial: Trial, lane: Lane, side: Side, others: list[float]) -> bool:
    """Return whether the line of a dimension runs on to its figure across the place of another one's extension line."""
    low, high = sorted(side.u(p) for p in trial.lines[0][:2])
    return any(low < u < lane.low or lane.high < u < high for u in others)


def _find(
    side: Side, lane: Lane, coming: list[float], at: tuple[float, int, float], occupied: Occupied, rules: Rules
) -> tuple[int, Trial] | None:
    """Return the nearest lane with room; `at` is how far off the first lane stands, where to begin, and their distance."""
    first, start, step = at
    for number in range(start, start + rules.lanes):
        v = first + number * step
        barred: set[tuple[Segment, ...]] = set()  # lines that may not stand, wherever the text is on them
        for trial in lane_trials(side, lane, v, coming, rules):
            if trial.lines in barred or not clear(trial, occupied, rules):
                continue
            if stand(trial.lines, occupied):
                return number, trial
            barred.add(trial.lines)
    return None


def lane_trials(side: Side, lane: Lane, v: float, coming: list[float], rules: Rules) -> Iterator[Trial]:
    """Yield the ways to set a dimension at `v`, best first: text in the middle, moved along, beyond either end."""
    head = symbols.arrow_length(rules.height)
    inside = lane.length >= 2 * head + 2.0
    for centre, kept in text_places(lane, coming, inside, head, rules):
        wide = lane.label.width / 2
        tail = 0.0 if inside else 2 * head
        start, end = lane.low - tail, lane.high + tail
        if not kept:
            start, end = min(start, centre - wide), max(end, centre + wide)
        yield _trial(side, lane, v, centre, (start, end), inside, rules)


def text_places(
    lane: Lane, coming: list[float], inside: bool, head: float, rules: Rules
) -> Iterator[tuple[float, bool]]:
    """Yield (middle of the text along the side, True when it stands between the arrows)."""
    need = lane.label.width / 2 + rules.clear + 0.1
    middle = (lane.low + lane.high) / 2
    stops = [lane.low, *(u for u in coming if lane.low < u < lane.high), lane.high]
    places = []
    for low, high in itertools.pairwise(stops):
        room = high - low - 2 * need
        if room >= 0:
            spots = {
                min(max(middle, low + need), high - need),
                *(low + need + room * k / SLIDES for k in range(SLIDES + 1)),
            }
            places += [(abs(place - middle), place) for place in sorted(spots)]
    for _, place in sorted(places):
        yield place, True
    off = need + (0.4 if inside else head + 0.4)
    yield _beyond(lane.high + off, coming, need, 1.0), False
    yield _beyond(lane.low - off, coming, need, -1.0), False
    ends = [*coming, lane.low, lane.high]
    yield max(ends) + off, False
    yield min(ends) - off, False


def _beyond(place: float, coming: list[float], need: float, way: float) -> float:
    """Return the first place from `place` on, going `way`, at which the text spans no extension line to come."""
    for u in sorted(coming, reverse=way < 0):
        if abs(u - place) < need:
            place = u + way * need
    return place


def _trial(
    side: Side, lane: Lane, v: float, centre: float, span: tuple[float, float], inside: bool, rules: Rules
) -> Trial:
    middle = v + side.text_side * (rules.lift + lane.label.tall / 2)
    box = lane.label.box(side.point(centre, middle), side.angle)
    lines = [(side.point(span[0], v), side.point(span[1], v), "dimension")]
    for u, p in ((lane.low, lane.first), (lane.high, lane.second)):
        lines.append((side.point(u, side.v(p) + rules.gap), side.point(u, v + rules.over), "extension"))
    low, high = side.point(lane.low, v), side.point(lane.high, v)
    back = 180.0 if side.level else 270.0
    heads = ((low, back if inside else back - 180), (high, back - 180 if inside else back))
    arrows = (high, low) if lane.turned else (low, high)
    return Trial(lane.label, box, tuple(lines), heads, arrows)
