"""The whole piece seen square on: its lines, its main positions, lean and spread of what is raked."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from docgen.drawing.dimensions.wanted import Angular, Linear, Wanted
from docgen.drawing.records import Point
from docgen.drawing.views import without_specks
from docgen.geometry.hidden import draw
from docgen.geometry.lines import VIEWS, Drawn, View
from docgen.geometry.shapes import Frame, Vec
from docgen.geometry.sight import places
from docgen.geometry.topology import Topology
from docgen.piece import loose
from docgen.piece.model import Part, Piece
from docgen.piece.records import Size, SizeKind
from docgen.piece.solids import Solids
from docgen.piece.turnings import radius_at
from docgen.units import Number, Units, format_angle, near_length

CALLED = {"front": "front", "right": "right side", "top": "top"}
FACES = ("left", "front", "top")
PLURAL = (
    "positions to the left faces of boards",
    "positions to the front faces of boards",
    "heights to the tops of boards",
)
SAME = 0.05  # mm
SEEN = 0.12  # of an edge's length: so much of it in sight carries an angle
BESIDE = 0.5  # mm: a line that lies nearer than this to an edge is that edge
SPECK = 1.4  # widths of the pen: what is smaller is a dot on paper
STANDS, FLAT = 1.0, 1e-3
"""mm above the lowest point of the piece up to which a part stands on the floor, and above its own that its flat reaches."""
NAMED = 3  # positions of fewer boards than that say which board they mean
UP: Vec = (0.0, 0.0, 1.0)
DIRECTIONS: tuple[Vec, Vec, Vec] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), UP)
SHOWN = {"front": (0, 2), "right": (1,), "top": ()}
"""Which positions (piece directions) each view tells: across and up in front, deep from the side."""


@dataclass(slots=True)
class Whole:
    """The piece with its extent; lines are drawn once for each view and width of pen."""

    piece: Piece
    solids: Solids
    low: Vec = field(init=False)
    high: Vec = field(init=False)
    _drawn: dict[tuple[str, float], Drawn] = field(default_factory=dict)
    _seen: dict[str, dict[str, list[Point]]] = field(default_factory=dict)
    _wanted: dict[str, list[Wanted]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        corners = [c for p in self.piece.parts for c in extent(p, self.solids)]
        self.low = (min(c[0] for c in corners), min(c[1] for c in corners), min(c[2] for c in corners))
        self.high = (max(c[0] for c in corners), max(c[1] for c in corners), max(c[2] for c in corners))

    @property
    def units(self) -> Units:
        """How lengths are printed."""
        return self.piece.units

    def size(self, direction: int) -> float:
        """Return the extent of the piece across, deep or up, mm."""
        return self.high[direction] - self.low[direction]

    def seen(self, name: str) -> dict[str, list[Point]]:
        """Return points of each part that the view shows uncovered, view mm."""
        if name not in self._seen:
            free = places(self.items(), VIEWS[name])
            self._seen[name] = {part.path: spots for part, spots in zip(self.piece.parts, free, strict=False) if spots}
        return self._seen[name]

    def items(self) -> list[tuple[Topology, Frame]]:
        """Return what is drawn: all parts, and what is seen of the things in their joints."""
        return [(self.solids.topology(p.path), p.frame) for p in self.piece.parts] + loose.shown(self.piece)

    def drawn(self, name: str, merge: float) -> Drawn:
        """Return the lines of a view; lines nearer than `merge` mm are one, and what is hardly longer is left out."""
        key = (name, merge)
        if key not in self._drawn:
            seen = draw(self.items(), VIEWS[name], merge=merge, hidden=False)
            self._drawn[key] = without_specks(seen, SPECK * merge)
        return self._drawn[key]


def extent(part: Part, solids: Solids) -> tuple[Vec, Vec]:
    """Return the low and high corner that the part reaches in the piece."""
    return solids.solid(part.path).moved(part.frame).bounds


def main_parts(piece: Piece) -> Iterator[Part]:
    """Yield the parts whose places make the piece: no hardware, nothing in a drawer, nothing raked or loose."""
    inside = {path for d in piece.drawers for path in (*d.parts, *d.runners)}
    panes = {p.pane for p in piece.panes}
    for part in piece.parts:
        if not (part.hardware or part.turned or part.path in inside or part.path in panes or part.group):
            yield part


def _direction(part: Part, axis: int) -> int:
    """Return the piece direction along which a part axis of an unturned part lies."""
    column = [part.frame.rotation[i][axis] for i in range(3)]
    return max(range(3), key=lambda i: abs(column[i]))


def positions(whole: Whole, direction: int, name: str) -> list[tuple[float, Size, Part]]:
    """Return where boards stand whose thickness lies along a piece direction, from the low side of the piece.

    Heights are to their tops, as a shelf is used; places across and deep to the face that comes first. Boards that the
    view does not show are left out, and those that end where the piece or their own assembly ends:
    that size tells where they stand. What was turned has no faces: places are those of its middle.
    """
    found: dict[int, tuple[Size, Part]] = {}
    ends = [float(v) for _, span in groups(whole, direction) for v in span] + [whole.high[direction]]
    seen = whole.seen(name)
    for part in main_parts(whole.piece):
        rod = is_rod(part)
        lies = _direction(part, 0) != direction if rod else _direction(part, 2) == direction
        if part.path not in seen or not lies or float(part.size[2]) > 0.5 * whole.size(direction):
            continue
        low, high = part.box[direction]
        value = ((low + high) / 2 if rod else high if direction == 2 else low) - _exact(whole, direction)
        if any(abs(float(v) - end) < SAME for v in part.box[direction] for end in ends):
            continue
        if rod and abs(2 * float(value) - whole.size(direction)) < SAME:  # in the middle, as is seen
            continue
        if value > SAME and round(float(value) / SAME) not in found:
            found[round(float(value) / SAME)] = (_size(whole, direction, value), part)
    return [(float(s.value), s, p) for _, (s, p) in sorted(found.items())]


def is_rod(part: Part) -> bool:
    """Return True for a part that is turned round its middle line."""
    return radius_at(part, float(part.size[0]) / 2) is not None


def groups(whole: Whole, direction: int) -> list[tuple[str, tuple[Number, Number]]]:
    """Return the assemblies of main parts that do not reach as far as the piece does, each with its span in the piece."""
    spans: dict[str, list[tuple[Number, Number]]] = {}
    for part in main_parts(whole.piece):
        if "." in part.path and not part.path.rpartition(".")[2].isdigit():  # copies of a repeat are no assembly
            spans.setdefault(part.path.split(".")[0], []).append(part.box[direction])
    out: list[tuple[str, tuple[Number, Number]]] = []
    for name, found in spans.items():
        low, high = min(s[0] for s in found), max(s[1] for s in found)
        if len(found) > 1 and float(high - low) < whole.size(direction) - SAME:
            out.append((name, (low, high)))
    return out


def _exact(whole: Whole, direction: int) -> Number:
    """Return the low side of the piece as the exact number that a part's box gives, where one does."""
    low = whole.low[direction]
    boxes = [p.box[direction][0] for p in whole.piece.parts if not p.turned]
    return next((b for b in boxes if abs(float(b) - low) < 1e-6), low)


def _high(whole: Whole, direction: int) -> Number:
    boxes = [p.box[direction][1] for p in whole.piece.parts if not p.turned]
    return next((b for b in boxes if abs(float(b) - whole.high[direction]) < 1e-6), whole.high[direction])


def _size(whole: Whole, direction: int, value: Number) -> Size:
    start = whole.low
    end = [start[0], start[1], start[2]]
    end[direction] += float(value)
    return Size(SizeKind.LENGTH, start, (end[0], end[1], end[2]), DIRECTIONS[direction], value)


def wanted(whole: Whole, name: str) -> list[Wanted]:
    """Return the dimensions of one general view: overall, positions of boards, spread and lean of raked parts."""
    if name not in whole._wanted:
        whole._wanted[name] = _worked_out(whole, name)
    return whole._wanted[name]


def _worked_out(whole: Whole, name: str) -> list[Wanted]:
    view = VIEWS[name]
    out: list[Wanted] = []
    overall = {"front": (0, 2), "right": (1,), "top": ()}[name]
    for d in overall:
        value = _high(whole, d) - _exact(whole, d)
        out.append(_linear(f"overall {d}", whole, view, _size(whole, d, value), overall=True))
    for d in SHOWN[name]:
        places = positions(whole, d, name)
        for n, (_, size, part) in enumerate(places):
            label = _label(part, d) if len(places) < NAMED or is_rod(part) else ""
            far = _far(whole, d, places[0], part) if d != 2 and n and len(places) < NAMED else None
            if far is not None:
                size, label = far, f"over {part.called}: "
            out.append(_linear(f"position {d} {n:02d}", whole, view, size, overall=False, label=label))
        out += _of_groups(whole, d, view)
    if name in ("front", "right"):
        out += raked(whole, name)
    return out


def _label(part: Part, direction: int) -> str:
    """Return what a position is; a colon keeps the number of a part apart from the figure."""
    if is_rod(part):
        return f"{part.called}, middle: "
    # "left of left end" would be beside it, not its near face
    return f"{part.called}, {FACES[direction]}: " if direction == 2 else f"to {part.called}: "


def _far(whole: Whole, direction: int, first: tuple[float, Size, Part], part: Part) -> Size | None:
    """Return the size to the far face of a part that stands as the first one does, seen from the other side; else None.

    Two ends are told over their outsides: the near face of the one and the far face of the other.
    """
    off = whole.high[direction] - float(part.box[direction][1])
    if abs(off - first[0]) > SAME or is_rod(part):
        return None
    return _size(whole, direction, part.box[direction][1] - _exact(whole, direction))


def caption(whole: Whole, name: str) -> str:
    """Return the view's name and, where its figures do not name the boards they go to, which face they mean."""
    told = [PLURAL[d] for d in SHOWN[name] if len(positions(whole, d, name)) >= NAMED]
    return "; ".join([CALLED[name], *told])


def _of_groups(whole: Whole, direction: int, view: View) -> Iterator[Linear]:
    """Yield the size of each assembly that is less than the piece and, off the floor, how high it begins."""
    for name, (low, high) in groups(whole, direction):
        size = _size(whole, direction, high - low)
        shift = tuple(u * float(low - _exact(whole, direction)) for u in size.along)
        start, end = (_plus(p, shift) for p in (size.start, size.end))
        moved = replace(size, start=start, end=end)
        yield _linear(f"group {direction} {name}", whole, view, moved, overall=False, label=f"{name}: ", datum=False)
        if direction == 2 and float(low) > whole.low[2] + SAME:
            below = _size(whole, 2, low - _exact(whole, 2))
            yield _linear(f"below {name}", whole, view, below, overall=False, label=f"below {name}: ")


def _plus(a: Vec, b: Sequence[float]) -> Vec:
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def _linear(
    key: str, whole: Whole, view: View, size: Size, *, overall: bool, label: str = "", datum: bool = True
) -> Linear:
    text = label + near_length(size.value, whole.units)
    along = view.flat(size.along)
    return Linear(key, view.flat(size.start), view.flat(size.end), along, text, (size,), overall, datum)


def raked(whole: Whole, name: str) -> list[Wanted]:
    """Return the lean of each raked part from plumb as this view shows it, equal ones once, and the spread of the feet."""
    view = VIEWS[name]
    across = max(range(3), key=lambda i: abs(view.right[i]))
    leaning: dict[tuple[float, ...], Part] = {}
    feet: list[float] = []
    for part in whole.piece.parts:
        if not part.turned or part.hardware or part.group:
            continue
        axis = part.frame.direction((1.0, 0.0, 0.0))
        flat = view.flat(axis)
        if abs(flat[1]) < 0.5:
            continue
        lean = math.degrees(math.atan2(flat[0], flat[1]))
        lean = (lean + 90) % 180 - 90
        feet += _foot(part, whole, across)
        if abs(lean) > 0.05:
            leaning.setdefault((round(lean, 3), *_apex(part, view, lean)), part)
    out: list[Wanted] = []
    told: dict[float, Part] = {}
    for key, part in sorted(leaning.items(), key=lambda i: i[0]):
        if abs(key[0]) not in told:
            told[abs(key[0])] = part
            out.append(_lean(part, whole, name, key[0], len(out)))
    if feet and max(feet) - min(feet) < whole.size(across) - 1.0:
        out.append(_spread(whole, view, across, min(feet), max(feet)))
    return out


def _apex(part: Part, view: View, lean: float) -> tuple[float, float]:
    p = _edge(part, view, lean)[0]
    return (round(p[0], 1), round(p[1], 1))


def _edge(part: Part, view: View, lean: float) -> tuple[Point, Point]:
    """Return foot and head of the long edge on the side to which the part leans away from plumb."""
    return _edges(part, view, lean)[0]


def _edges(part: Part, view: View, lean: float) -> list[tuple[Point, Point]]:
    """Return foot and head of the long edges, first the one on the side to which the part leans away from plumb."""
    edges = []
    long, wide, thick = (float(v) for v in part.size)
    for y in (0.0, wide):
        for z in (0.0, thick):
            ends = sorted(
                (view.flat(part.frame.point((x, y, z))) for x in (0.0, long)), key=lambda p: (round(p[1], 6), p[0])
            )
            edges.append((ends[0], ends[1]))
    way = 1.0 if lean > 0 else -1.0
    return sorted(edges, key=lambda e: (round(way * e[0][0], 6), round(e[0][1], 6)))


def _lean(part: Part, whole: Whole, name: str, lean: float, number: int) -> Angular:
    """Return the angle at the foot of an edge, or where it comes out from behind what covers its foot."""
    edges = _edges(part, VIEWS[name], lean)
    drawn = next((found for (of, _), found in whole._drawn.items() if of == name), None) or whole.drawn(name, SAME)
    foot, head = next((seen for edge in edges if (seen := _in_sight(edge, drawn)) is not None), edges[0])
    plumb = (foot[0], foot[1] + 1e-3)
    text = f"{format_angle(round(abs(lean), 6))} from plumb"
    return Angular(f"lean {number}", foot, plumb, head, text)


def _in_sight(edge: tuple[Point, Point], drawn: Drawn) -> tuple[Point, Point] | None:
    """Return the longest stretch of an edge along which a line is drawn, from its foot up; None where it is short."""
    (x, y), (u, v) = edge
    long = math.dist(*edge)
    u, v = (u - x) / long, (v - y) / long
    best: tuple[float, float] = (0.0, 0.0)
    for stroke in drawn.visible:
        ends = [((p[0] - x) * u + (p[1] - y) * v, abs((p[0] - x) * v - (p[1] - y) * u)) for p in (stroke.a, stroke.b)]
        if max(off for _, off in ends) < BESIDE:
            low, high = max(min(t for t, _ in ends), 0.0), min(max(t for t, _ in ends), long)
            best = max(best, (low, high), key=lambda s: (round(s[1] - s[0], 3), -s[0]))
    if best[1] - best[0] < SEEN * long:
        return None
    foot = best[0] if best[0] > 0.1 * long else 0.0  # a rounded foot stands on its sharp corner
    return ((x + foot * u, y + foot * v), (x + best[1] * u, y + best[1] * v))


def _foot(part: Part, whole: Whole, across: int) -> list[float]:
    """Return the reach of a part along a direction where it stands on the floor: of its flat alone, not of rounded edges."""
    vertices, _ = whole.solids.solid(part.path).moved(part.frame).mesh()
    low = min(float(v[2]) for v in vertices)
    return [float(v[across]) for v in vertices if v[2] < low + FLAT] if low < whole.low[2] + STANDS else []


def _spread(whole: Whole, view: View, across: int, low: float, high: float) -> Linear:
    start, end = [*whole.low], [*whole.low]
    start[across], end[across] = low, high
    size = Size(
        SizeKind.LENGTH,
        (start[0], start[1], start[2]),
        (end[0], end[1], end[2]),
        DIRECTIONS[across],
        round(high - low, 4),
    )
    text = f"feet {near_length(size.value, whole.units)}"
    return Linear("spread", view.flat(size.start), view.flat(size.end), view.flat(size.along), text, (size,))
