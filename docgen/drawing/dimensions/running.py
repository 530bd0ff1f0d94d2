"""Running (superimposed) dimensions: one line, an origin circle, figures at the ends of the extension lines."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Mapping, Sequence

from docgen.drawing import symbols
from docgen.drawing.boxes import Box
from docgen.drawing.dimensions.field import Field
from docgen.drawing.dimensions.lanes import Lane
from docgen.drawing.dimensions.occupied import Occupied
from docgen.drawing.dimensions.sides import Side, gather
from docgen.drawing.dimensions.trial import Trial, commit, possible, stand
from docgen.drawing.dimensions.wanted import Linear, Placed, Rules
from docgen.drawing.records import Line, Pen, Point, Record

SAME = 0.01  # mm on paper
TIGHT = 0.8  # mm between figures that stand side by side
FEW = 2  # figures from a datum run where those of the side opposite do
OPPOSITE = {"bottom": "top", "top": "bottom", "left": "right", "right": "left"}


def run_together(by_side: Mapping[str, Sequence[Linear]], field: Field, rules: Rules) -> dict[str, frozenset[int]]:
    """Return for each side the data from which few dimensions are enough to run, because more run off the side opposite.

    So one direction of a view is told in one way, as far as there is more than one figure on a side. Figures that are many
    on both sides together run on both.
    """
    data: dict[str, Counter[int]] = {}
    for name, wanted in by_side.items():
        side = field.sides[name]
        data[name] = Counter(_key(side.u(field.paper(w.a))) for w in wanted if w.datum and not w.overall)
    out: dict[str, frozenset[int]] = {}
    for name, other in OPPOSITE.items():
        own, across = data.get(name, Counter()), data.get(other, Counter())
        many = (
            at
            for at in own
            if across[at] >= rules.running_from or (across[at] >= FEW and own[at] + across[at] > rules.running_from)
        )
        out[name] = frozenset(many)
    return out


def groups(
    lanes: list[Lane], rules: Rules, shared: frozenset[int] = frozenset()
) -> tuple[list[list[Lane]], list[Lane]]:
    """Return the groups that share a datum and are many enough to run, and the rest.

    An overall dimension from the same datum joins its group, so that the length is the last figure of the row. For a
    datum that is `shared` with the side opposite few are enough, and where one's figure would stand under the next one's arrow.
    """
    by_datum: dict[int, list[Lane]] = {}
    for lane in lanes:
        if lane.wanted.datum:
            by_datum.setdefault(_key(origin(lane)), []).append(lane)
    running = [
        g
        for at, g in sorted(by_datum.items())
        if sum(not lane.wanted.overall for lane in g)
        >= (FEW if at in shared or (rules.apart and _astray(g, rules)) else rules.running_from)
    ]
    taken = {id(lane) for g in running for lane in g}
    return running, [lane for lane in lanes if id(lane) not in taken]


def _astray(group: Sequence[Lane], rules: Rules) -> bool:
    """Return True where a figure fits neither between its own arrows nor between its arrow and that of the next longer one."""
    order = sorted((lane for lane in group if not lane.wanted.overall), key=lambda lane: lane.length)
    return any(
        lane.turned == longer.turned
        and max(lane.length, longer.length - lane.length) < lane.label.width + 2 * rules.clear
        for lane, longer in itertools.pairwise(order)
    )


def _key(u: float) -> int:
    return round(u / SAME)


def origin(lane: Lane) -> float:
    """Return where the dimension starts along the side."""
    return lane.high if lane.turned else lane.low


def target(lane: Lane) -> float:
    """Return where the dimension ends along the side."""
    return lane.low if lane.turned else lane.high


def _target_point(lane: Lane) -> Point:
    return lane.first if lane.turned else lane.second


def place_running(
    side: Side, group: list[Lane], later: list[float], occupied: Occupied, rules: Rules
) -> list[Placed] | None:
    """Place one group as a row; None when no distance from the view is free for all of it."""
    order = sorted(group, key=lambda lane: (target(lane), lane.wanted.key))
    step = max(lane.label.tall for lane in order) + TIGHT
    wished = [target(lane) for lane in order]
    places = gather(wished, step)
    jog = max((abs(p - w) for p, w in zip(places, wished, strict=True)), default=0.0)
    jog = 0.0 if jog < SAME else max(3.0, 0.6 * jog)
    ends = [origin(order[0]), *wished]
    for number in range(rules.lanes):
        v = rules.first + number * rules.pitch
        trials = [_one(side, lane, v, place, jog, rules) for lane, place in zip(order, places, strict=True)]
        clear = all(abs(u - p) > step / 2 for u in later for p in places)
        row = (side.point(min(ends), v), side.point(max(ends), v), "dimension")
        if clear and stand([row], occupied) and all(possible(t, occupied, rules) for t in trials):
            return _commit(side, order, trials, v, occupied, rules)
    return None


def _one(side: Side, lane: Lane, v: float, place: float, jog: float, rules: Rules) -> Trial:
    """Return the extension line with its jog and the figure at its end."""
    u, top = target(lane), v + rules.over
    foot = side.v(_target_point(lane)) + rules.gap
    bends = [(u, foot), (u, top), (place, top + jog), (place, top + jog + 1.5)] if jog else [(u, foot), (u, top)]
    points = [side.point(*p) for p in bends]
    lines = tuple((a, b, "extension") for a, b in itertools.pairwise(points))
    end = bends[-1][1] + rules.clear + 0.4 + lane.label.width / 2
    box = Box(*side.point(place, end), lane.label.width / 2, lane.label.tall / 2, 90.0 if side.level else 0.0)
    return Trial(lane.label, box, lines, (), (side.point(origin(lane), v), side.point(u, v)))


def _commit(
    side: Side, order: list[Lane], trials: list[Trial], v: float, occupied: Occupied, rules: Rules
) -> list[Placed]:
    start = origin(order[0])
    low, high = min([start, *map(target, order)]), max([start, *map(target, order)])
    placed: list[Placed] = []
    occupied.add_line(side.point(low, v), side.point(high, v), "dimension")
    ring = symbols.origin_radius(rules.height)
    occupied.add_line(side.point(start - ring, v), side.point(start + ring, v), "dimension")
    feet = [lane.second if lane.turned else lane.first for lane in order]
    foot = max(side.v(p) for p in feet)
    extension = (side.point(start, foot + rules.gap), side.point(start, v + rules.over))
    occupied.add_line(*extension, "extension")
    shared: list[Record] = [
        Line(side.point(low, v), side.point(high, v), Pen.THIN),
        Line(*extension, Pen.THIN),
        *symbols.origin_circle(side.point(start, v), rules.height),
    ]
    for lane, trial, head in zip(order, trials, _heads(side, order, v, rules), strict=True):
        one = commit(trial, lane.wanted, "running", occupied, rules)
        placed.append(Placed(one.wanted, one.how, one.arrows, (*shared, *head, *one.records)))
        shared = []
    return placed


def _heads(side: Side, order: list[Lane], v: float, rules: Rules) -> list[list[Record]]:
    """Return each figure's head on the row: an arrow away from the origin, a dot where the next one is too near."""
    start, size = origin(order[0]), symbols.arrow_length(rules.height)
    stations = sorted({round(t, 4) for t in [start, *map(target, order)]})
    out: list[list[Record]] = []
    for lane in order:
        u = target(lane)
        inner = [s for s in stations if (s < u - SAME if u > start else s > u + SAME)]
        nearest = min((abs(u - s) for s in inner), default=size * 2)
        way = (0.0 if u > start else 180.0) if side.level else (90.0 if u > start else 270.0)
        if nearest >= size + 0.6:
            out.append(symbols.arrowhead(side.point(u, v), way, size))
        else:
            out.append(symbols.dot(side.point(u, v)))
    return out
