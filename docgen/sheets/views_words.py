"""What a maker checks first and no dimension line tells, in words under a view: doors, fronts, boards behind them, seats."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from docgen.drawing.dimensions.wanted import Callout
from docgen.geometry.shapes import Vec
from docgen.piece import loose
from docgen.piece.model import Part
from docgen.piece.naming import spoken
from docgen.piece.operations.ground import settled
from docgen.sheets.views_sizes import SHOWN, groups, wanted
from docgen.sheets.whole import SAME, Whole, direction_of, is_rod, low_side, main_parts
from docgen.units import Number, near_length

BROAD = 0.5  # of the piece's width: a board that goes so far is a shelf or a floor of it
HALF = 0.5  # of its height: under what lies higher there is room
LESS = 0.85  # of the piece: a top board that reaches less far along one way is told
ACROSS = {"front": (0, 2, 1), "right": (1, 2, 0), "top": (0, 1, 2)}
"""The two piece directions in which a view shows sizes, and the one along which it looks."""

OUTSIDE = (("on the left", "on the right"), ("in front", "behind"), ("below", "above"))
"""Where what stands out of the piece is, by direction and side."""

Span = tuple[Number, Number]


def words(whole: Whole, name: str) -> list[str]:
    """Return the lines under a view: what opens or tilts, drawer fronts, the heights of boards out of sight, the seat."""
    out = [*_moving(whole, name), *_fronts(whole, name)]
    if name == "front":
        out += [*_behind(whole), *_beneath(whole)]
    if name == "top":
        out += _upper(whole)
    return [*out, *_standing_out(whole, name)]


def _standing_out(whole: Whole, name: str) -> Iterator[str]:
    """Yield what hardware stands out of the sizes over all that a view tells: those are sizes of the wood."""
    out: dict[tuple[str, int, int], float] = {}
    for fitting, _ in loose.metal(whole.piece):
        reach = loose.corners(fitting)
        for d in SHOWN[name]:
            for side, off in ((0, whole.low[d] - reach[:, d].min()), (1, reach[:, d].max() - whole.high[d])):
                key = (fitting.sold or fitting.what, d, side)
                out[key] = max(out.get(key, 0.0), float(off))
    for (what, d, side), off in out.items():
        if off > SAME:
            yield f"without {what.partition(',')[0]}s: they stand out {_said(whole, settled(off))} {OUTSIDE[d][side]}"


def _moving(whole: Whole, name: str) -> Iterator[str]:
    """Yield width and height of each group that turns and lies flat in this view, equal ones together, and how far up."""
    piece, (across, up, away) = whole.piece, ACROSS[name]
    found: dict[tuple[Number, Number, Number], list[str]] = {}
    for group in piece.groups:
        parts = [piece.part(path) for path in group.parts]
        if any(p.turned for p in parts):
            continue
        box = [_span(parts, d) for d in range(3)]
        size = [box[d][1] - box[d][0] for d in range(3)]
        whole_of_it = all(abs(float(size[d]) - whole.size(d)) < SAME for d in (across, up))
        if min(range(3), key=lambda d: size[d]) == away and not whole_of_it:
            low = box[up][0] - low_side(whole, up) if up == 2 else 0
            found.setdefault((size[across], size[up], low), []).append(spoken(group.name))
    for (wide, high, low), names in found.items():
        above = f", {_said(whole, low)} up" if float(low) > SAME else ""
        yield f"{', '.join(names)}: {_said(whole, wide)} × {_said(whole, high)}{above}"


def _fronts(whole: Whole, name: str) -> Iterator[str]:
    """Yield width and height of the drawer fronts that the view shows, equal ones together."""
    across, up, away = ACROSS[name]
    found: dict[tuple[Number, Number], int] = {}
    for drawer in whole.piece.drawers if away == 1 else ():
        fronts = [p for p in map(whole.piece.part, drawer.parts) if p.path in whole.seen(name) and not p.turned]
        fronts = [p for p in fronts if direction_of(p, 2) == away]
        if fronts:
            box = min(fronts, key=lambda p: (p.box[away][0], p.number)).box
            size = (box[across][1] - box[across][0], box[up][1] - box[up][0])
            found[size] = found.get(size, 0) + 1
    for (wide, high), count in found.items():
        times = f"{count}× " if count > 1 else ""
        yield f"{times}drawer front: {_said(whole, wide)} × {_said(whole, high)}"


def _behind(whole: Whole) -> Iterator[str]:
    """Yield the heights to the tops of boards that lie in the piece behind its doors."""
    seen = whole.seen("front")
    doors = [[whole.piece.part(path) for path in group.parts] for group in whole.piece.groups]
    heights = {
        part.box[2][1] - low_side(whole, 2)
        for part in main_parts(whole.piece)
        if part.path not in seen and _broad(whole, part) and any(_before(door, part) for door in doors)
    }
    if heights:
        yield f"boards within, to their tops: {', '.join(_said(whole, h) for h in sorted(heights))}"


def _beneath(whole: Whole) -> Iterator[str]:
    """Yield the room under what goes across a piece that stands on legs: under an apron, for knees."""
    bridges = [
        p
        for p in main_parts(whole.piece)
        if not is_rod(p) and direction_of(p, 2) != 2 and _across(p) > BROAD * whole.size(0)
    ]
    low = min(bridges, key=lambda p: (round(float(p.box[2][0]), 3), p.number), default=None)
    if low is None or groups(whole, 2) or float(low.box[2][0]) - whole.low[2] < HALF * whole.size(2):
        return
    yield f"clear under {low.called}: {_said(whole, low.box[2][0] - low_side(whole, 2))}"


def _upper(whole: Whole) -> Iterator[str]:
    """Yield the size of the highest board that lies across the piece, where it is a good deal less than the piece.

    A round one is told by its diameter, one of an assembly by the size of that.
    """
    seen = whole.seen("top")
    boards = [p for p in main_parts(whole.piece) if p.path in seen and _broad(whole, p)]
    part = max(boards, key=lambda p: (p.box[2][1], -p.number), default=None)
    told = {name for d in (0, 1) for name, _ in groups(whole, d)}
    if part is None or part.path.split(".")[0] in told or any(isinstance(w, Callout) for w in wanted(whole, "top")):
        return
    size = [part.box[d][1] - part.box[d][0] for d in (0, 1)]
    if any(float(size[d]) < LESS * whole.size(d) for d in (0, 1)):
        hidden = any(a.face.axis != 2 for f in part.features for a in f.made.allowances)  # tongues
        shown = [_between(whole, part, d) for d in (0, 1)] if hidden else size
        word = ", top face" if shown != size else " seen" if hidden else ""
        yield f"{part.called}{word}: {_said(whole, shown[0])} × {_said(whole, shown[1])}"


def _between(whole: Whole, part: Part, direction: int) -> Number:
    """Return how far the top of a board reaches between those that it is housed in, which may lean toward each other over it."""
    low, high = part.box[direction]
    ends = [float(low), float(high)]
    level, middle = float(part.box[2][1]), (ends[0] + ends[1]) / 2
    beside = {path for joint in whole.piece.joints if part.path in joint.parts for path in joint.parts} - {part.path}
    for path in sorted(beside):
        at = [p[direction] for p in _at_level(whole.piece.part(path), level)]
        if at and max(at) < middle:
            ends[0] = max(ends[0], max(at))
        elif at and min(at) > middle:
            ends[1] = min(ends[1], min(at))
    wide = ends[1] - ends[0]
    return wide if abs(wide - float(high - low)) > SAME else high - low


def _at_level(part: Part, level: float) -> list[Vec]:
    """Return where the edges of a part's blank pass a height of the piece; none where it lies above or below."""
    spans = [tuple(map(float, part.span(i))) for i in range(3)]
    out: list[Vec] = []
    for axis in range(3):
        for other in product(*(spans[i] for i in range(3) if i != axis)):
            ends = [part.frame.point(_put(other, axis, end)) for end in spans[axis]]
            (a, b), rise = ends, ends[1][2] - ends[0][2]
            share = (level - a[2]) / rise if abs(rise) > SAME else -1.0
            if 0.0 <= share <= 1.0:
                out.append((a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]), level))
    return out


def _put(other: Sequence[float], axis: int, value: float) -> Vec:
    own = [*other[:axis], value, *other[axis:]]
    return (own[0], own[1], own[2])


def _broad(whole: Whole, part: Part) -> bool:
    """Return True for a board that lies and goes a good way across the piece, neither its floor nor its top."""
    low, high = part.box[2]
    ends = abs(float(low) - whole.low[2]) < SAME or abs(float(high) - whole.high[2]) < SAME
    return direction_of(part, 2) == 2 and _across(part) > BROAD * whole.size(0) and not ends


def _across(part: Part) -> float:
    return float(part.box[0][1] - part.box[0][0])


def _before(door: Sequence[Part], part: Part) -> bool:
    """Return True where an upright frame or panel stands in front of a board, so that it has to be opened."""
    spans = [_span(door, d) for d in range(3)]
    if min(range(3), key=lambda d: spans[d][1] - spans[d][0]) != 1:
        return False
    return spans[1][0] < part.box[1][0] + (part.box[1][1] - part.box[1][0]) / 2


def _span(parts: Sequence[Part], direction: int) -> Span:
    return min(p.box[direction][0] for p in parts), max(p.box[direction][1] for p in parts)


def _said(whole: Whole, value: Number) -> str:
    return near_length(value, whole.units)
