"""How far figures will reach past a view, without placing them: lanes counted, texts measured, nothing avoided."""

from __future__ import annotations

from collections.abc import Iterable

from docgen.drawing import symbols
from docgen.drawing.dimensions.field import Field
from docgen.drawing.dimensions.label import label
from docgen.drawing.dimensions.lanes import Lane, as_lane, pitch
from docgen.drawing.dimensions.leaders import FIRST, TAIL
from docgen.drawing.dimensions.running import groups, run_together
from docgen.drawing.dimensions.sides import Bounds, Side
from docgen.drawing.dimensions.wanted import Callout, Linear, Rules, Wanted
from docgen.drawing.metrics import Metrics

SLANT = 0.7  # of a leader's length is its reach to the side


def reach(wanted: Iterable[Wanted], field: Field, rules: Rules, metrics: Metrics) -> Bounds:
    """Return about the least bounds of view and figures, paper mm."""
    every = list(wanted)
    x0, y0, x1, y1 = field.outline
    lines = [w for w in every if isinstance(w, Linear) and not field.deep(w)]
    by_side: dict[str, list[Linear]] = {}
    for line in lines:
        by_side.setdefault(field.side(line).name, []).append(line)
    shared = run_together(by_side, field, rules)
    for name, side in field.sides.items():
        mine = [as_lane(w, field.paper(w.a), field.paper(w.b), side, rules, metrics) for w in by_side.get(name, ())]
        if mine:
            low, high, out = _one_side(side, mine, rules, shared[name])
            a, b = side.point(low, 0.0), side.point(high, out)
            x0, y0 = min(x0, a[0], b[0]), min(y0, a[1], b[1])
            x1, y1 = max(x1, a[0], b[0]), max(y1, a[1], b[1])
    for w in every:
        if isinstance(w, Callout):
            wide = FIRST * SLANT + TAIL + label(w.lines, rules.height, metrics).width
            at, foot = field.paper(w.at), w.radius * field.scale * SLANT
            right, left = at[0] + foot + wide - x1, x0 - (at[0] - foot - wide)
            x0, x1 = (x0, x1 + max(0.0, right)) if right <= left else (x0 - max(0.0, left), x1)
    return (x0, y0, x1, y1)


def _one_side(side: Side, lanes: list[Lane], rules: Rules, shared: frozenset[int]) -> tuple[float, float, float]:
    """Return from where to where figures reach along one side, and how far outward."""
    running, rest = groups(lanes, rules, shared)
    step = pitch(rest, rules)
    levels: list[list[tuple[float, float]]] = []
    for lane in sorted(rest, key=lambda lane: (lane.wanted.overall, lane.length)):
        low, high = _interval(lane, rules)
        free = (n for n, level in enumerate(levels) if all(b < low or high < a for a, b in level))
        number = len(levels) if lane.wanted.overall else next(free, len(levels))
        if number == len(levels):
            levels.append([])
        levels[number].append((low, high))
    out = 0.0
    if levels:
        text = rules.lift + max(lane.label.tall for lane in rest)
        out = rules.first + (len(levels) - 1) * step + (text if side.text_side > 0 else rules.over)
    for group in running:
        out = max(out, rules.first + rules.over + max(lane.label.width for lane in group))
    every = [i for level in levels for i in level]
    return min((a for a, _ in every), default=0.0), max((b for _, b in every), default=0.0), out


def _interval(lane: Lane, rules: Rules) -> tuple[float, float]:
    """Return what a dimension takes of its lane: between its arrows, or with its text beyond the upper one."""
    head = symbols.arrow_length(rules.height)
    need = lane.label.width + 2 * (rules.clear + 0.1)
    tail = 0.0 if lane.length >= 2 * head + 2.0 else 2 * head
    if need <= lane.length:
        return lane.low - tail, lane.high + tail
    return lane.low - tail, lane.high + need + (0.4 if tail == 0 else head + 0.4)
