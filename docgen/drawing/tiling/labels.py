"""Labels of a true-size drawing, and where one of them stands: whole, off the lines and off what stands there already."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from docgen.drawing.lettering import ASCENT, DESCENT, reach, width
from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Point, Record, Text
from docgen.drawing.symbols import arrow
from docgen.drawing.tiling.ink import Segment, inside
from docgen.drawing.tiling.room import Room

AROUND = 8.0  # mm
CLEAR = 0.9  # mm kept free around lettering
BETWEEN = 0.2  # air between rows in heights of the text
REACHES = (4.0, 7.0, 11.0, 16.0, 22.0, 30.0, 40.0, 55.0, 75.0)  # mm from what is labelled to the label
DIRECTIONS = tuple(math.radians(22.5 * k) for k in (2, 6, 1, 7, 3, 5, 10, 14, 9, 15, 11, 13, 0, 8, 4, 12))
ARROW = 26.0  # mm: length of a caption's arrow
HEAD = 3.0  # mm: of its heads
STEP = 4.0  # mm between tried places of a caption


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a label; `height` is the height of the text in mm."""

    text: str
    height: float
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Label:
    """Lettering that belongs to the point `at`.

    With `leader` a line leads from `reach` mm off the point to the lettering; without, the label is a caption
    that stands as near to the point as it can, within the outline if it fits there. A caption may have a double
    `arrow` in that direction (degrees) under its rows. Where it finds no place of its own it has the rows `less` instead,
    if there are any; one that is `spare` is left out where these find none either. A leader likes to run `away` from that
    point: from the centre of an arc to the outside, from the arc into the wood. The leader may as well begin at one of the
    points `also`, which belong to the same: a long line, an arc.
    """

    at: Point
    rows: tuple[Row, ...]
    leader: bool = True
    reach: float = 0.0
    arrow: float | None = None
    spare: bool = False
    less: tuple[Row, ...] = ()
    away: Point | None = None
    also: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class LabelCosts:
    """What speaks against a place, beside its distance in mm."""

    over_line: float = 12.0  # leader across a line of the drawing
    over_hatching: float = 3.0
    over_leader: float = 60.0
    over_label: float = 200.0
    along_line: float = 90.0  # leader on a line of the drawing, or so near beside it that it is taken for one
    elsewhere: float = 10.0  # leader from another point of the same line or arc
    back: float = 8.0  # leader across from where it likes to run; twice that straight back
    outside: float = 40.0  # caption beside the outline rather than in it


COSTS = LabelCosts()


def size_of(rows: Sequence[Row], metrics: Metrics) -> tuple[float, float]:
    """Return the width and height in mm of rows set one under the other, with the room of stacked fractions."""
    wide = max(width(r.text, r.height, metrics, r.bold) for r in rows)
    tall = sum(sum(_reach(r, metrics)) for r in rows)
    return wide, tall + sum(BETWEEN * r.height for r in rows[1:])


def _reach(row: Row, metrics: Metrics) -> tuple[float, float]:
    """Return how far a row reaches above and below its baseline, never less than its long letters do."""
    up, down = reach(row.text, row.height, metrics, row.bold)
    return max(up, ASCENT * row.height), max(down, DESCENT * row.height)


def set_rows(rows: Sequence[Row], x: float, top: float, metrics: Metrics, anchor: str = "left") -> list[Text]:
    """Return the rows under each other, the first one reaching up to `top`."""
    out: list[Text] = []
    y = top
    for i, row in enumerate(rows):
        up, down = _reach(row, metrics)
        y -= up + (BETWEEN * row.height if i else 0.0)
        out.append(Text((x, y), row.text, row.height, anchor, row.bold))
        y -= down
    return out


def stands(label: Label, room: Room, boundary: Sequence[Segment], metrics: Metrics) -> tuple[Bounds, Segment | None]:
    """Return the box of a label and its leader, where it has one."""
    wide, tall = room_for(label, metrics)
    return _with_leader(label, wide, tall, room) if label.leader else caption(label, wide, tall, room, boundary)


def room_for(label: Label, metrics: Metrics) -> tuple[float, float]:
    """Return the width and height in mm of a label with the air around it and its arrow."""
    wide, tall = size_of(label.rows, metrics)
    wide, tall = wide + 2 * CLEAR, tall + 2 * CLEAR
    if label.arrow is None:
        return wide, tall
    across, down = arrow_room(label.arrow)
    return max(wide, across), tall + down


def arrow_room(degrees: float) -> tuple[float, float]:
    """Return the width and height in mm that a double arrow takes."""
    c, s = abs(math.cos(math.radians(degrees))), abs(math.sin(math.radians(degrees)))
    return ARROW * c + HEAD * s + 2 * CLEAR, ARROW * s + HEAD * c + 2 * CLEAR


def double_arrow(middle: Point, degrees: float) -> list[Record]:
    """Return an arrow with two heads about its middle, in a direction."""
    dx, dy = ARROW / 2 * math.cos(math.radians(degrees)), ARROW / 2 * math.sin(math.radians(degrees))
    one, two = (middle[0] - dx, middle[1] - dy), (middle[0] + dx, middle[1] + dy)
    return [*arrow(middle, one, HEAD), *arrow(middle, two, HEAD)]


def _with_leader(label: Label, wide: float, tall: float, room: Room) -> tuple[Bounds, Segment | None]:
    best: tuple[float, Bounds, Segment] | None = None
    starts = (label.at, *(p for p in label.also if room.shows(p)))
    for far in REACHES:
        if best and best[0] <= far:
            break
        for place_, at in enumerate(starts):
            for turn, angle in enumerate(DIRECTIONS):
                c, s = math.cos(angle), math.sin(angle)
                start = (at[0] + label.reach * c, at[1] + label.reach * s)
                end = (start[0] + far * c, start[1] + far * s)
                box = _box_at(end, c, s, wide, tall)
                if not room.free(box):
                    continue
                cost = (
                    far + 0.05 * turn + COSTS.elsewhere * bool(place_) + _spoken_against(label, at, (start, end), room)
                )
                if best is None or cost < best[0]:
                    best = (cost, box, (start, end))
    if best:
        return best[1], best[2]
    return _least_covered(label, wide, tall, room), None


def _spoken_against(label: Label, at: Point, leader: Segment, room: Room) -> float:
    """Return what a leader costs beyond its length: for what it crosses, or where it runs."""
    lines, hatching, leaders, boxes = room.across(leader)
    crossed = (
        COSTS.over_line * lines
        + COSTS.over_hatching * hatching
        + COSTS.over_leader * leaders
        + COSTS.over_label * boxes
        + COSTS.along_line * room.along(leader)
    )
    if label.away is None:
        return crossed
    (ux, uy), (vx, vy) = _unit(label.away, at), _unit(*leader)
    return crossed + COSTS.back * (1.0 - ux * vx - uy * vy)


def _unit(a: Point, b: Point) -> Point:
    """Return the direction from `a` to `b`, of length 1."""
    long = math.dist(a, b) or 1.0
    return ((b[0] - a[0]) / long, (b[1] - a[1]) / long)


def _least_covered(label: Label, wide: float, tall: float, room: Room) -> Bounds:
    """Return the place near the label's point, within the window, where other lettering is covered least."""
    x, y = label.at
    tried = [_pushed_in((x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2), room.window)]
    for far in REACHES:
        for angle in DIRECTIONS:
            c, s = math.cos(angle), math.sin(angle)
            end = (x + (label.reach + far) * c, y + (label.reach + far) * s)
            tried.append(_pushed_in(_box_at(end, c, s, wide, tall), room.window))
    return min(tried, key=lambda box: (sum(_shared(box, other) for other in room.boxes), not room.clear(box)))


def _shared(a: Bounds, b: Bounds) -> float:
    """Return the area in mm² that two rectangles have in common."""
    return max(0.0, min(a[2], b[2]) - max(a[0], b[0])) * max(0.0, min(a[3], b[3]) - max(a[1], b[1]))


def _box_at(end: Point, c: float, s: float, wide: float, tall: float) -> Bounds:
    """Return the box of lettering at the end of a leader that runs in direction (c, s)."""
    left = end[0] if c > 0.3 else end[0] - wide if c < -0.3 else end[0] - wide / 2
    low = end[1] if s > 0.95 else end[1] - tall if s < -0.95 else end[1] - tall / 2
    return (left, low, left + wide, low + tall)


def caption(
    label: Label, wide: float, tall: float, room: Room, boundary: Sequence[Segment]
) -> tuple[Bounds, Segment | None]:
    """Return the box of a label without leader: the free one nearest to its point, rather within the outline."""
    w = room.window
    columns = max(1, int((w[2] - w[0] - wide) / STEP))
    rows = max(1, int((w[3] - w[1] - tall) / STEP))
    middles = [
        (w[0] + wide / 2 + (w[2] - w[0] - wide) * i / columns, w[1] + tall / 2 + (w[3] - w[1] - tall) * j / rows)
        for i in range(columns + 1)
        for j in range(rows + 1)
    ]
    best: tuple[float, Bounds] | None = None
    for middle in sorted(middles, key=lambda m: (math.dist(m, label.at), m)):
        cost = math.dist(middle, label.at)
        if best and cost >= best[0]:
            break
        box = (middle[0] - wide / 2, middle[1] - tall / 2, middle[0] + wide / 2, middle[1] + tall / 2)
        if room.free(box):
            cost += 0.0 if inside(middle, boundary) else COSTS.outside
            if best is None or cost < best[0]:
                best = (cost, box)
    if best:
        return best[1], None
    return _least_covered(label, wide, tall, room), None


def _pushed_in(box: Bounds, window: Bounds) -> Bounds:
    dx = max(0.0, window[0] - box[0]) - max(0.0, box[2] - window[2])
    dy = max(0.0, window[1] - box[1]) - max(0.0, box[3] - window[3])
    return (box[0] + dx, box[1] + dy, box[2] + dx, box[3] + dy)
