"""A joint on paper: a section with hatching, figures and numbers, or an enlarged view where nothing can be cut."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from docgen.drawing import views
from docgen.drawing.boxes import Box
from docgen.drawing.breaks import zigzag
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.dimensions.shade import Shade
from docgen.drawing.dimensions.wanted import Rules, Wanted
from docgen.drawing.hatching import hatched, hidden, inked, interrupted, lines
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Line, Path, Pen, Point, Record
from docgen.drawing.symbols import balloon as symbol_balloon
from docgen.drawing.symbols import balloon_radius
from docgen.drawing.wording import Notes
from docgen.geometry.clipping import clip_polyline
from docgen.geometry.hidden import draw
from docgen.geometry.lines import VIEWS
from docgen.geometry.outlines import Box2
from docgen.geometry.section import Windowed, broken, own_drawn
from docgen.geometry.shapes import Vec
from docgen.piece.model import Part
from docgen.piece.solids import Solids
from docgen.schedules.terms import kind_numbers
from docgen.sheets import balloons
from docgen.sheets.context import Context
from docgen.sheets.joint_bolts import drawn_bolts
from docgen.sheets.joint_cut import CutView, Face, Fill
from docgen.sheets.joint_metal import drawn_metal, names
from docgen.sheets.joint_sizes import wanted
from docgen.sheets.joint_threads import covered, drawn_threads

CLEAR = 0.8  # mm around a number within a face
SAMPLES = 30  # places in a face that are tried for the foot of its number's leader
TELLS = 16.0  # mm on paper: another part of which less is drawn than that is a scrap which shows no part
OPEN = 0.5  # of its circumference: one that the window breaks off further is a corner in the air
TURNS = 4.0  # mm on paper: nor does one whose lines do not reach so far both across and up: a line alone is no part
SLOPE, STEP = 45.0, 1.5  # degrees, mm: where in another part a foot for its number is looked for
NARROW = 50.0  # mm: half of what an enlarged view shows at the most, so that it has room at half its true size


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawn joint about the paper origin; `left` are figures that found no place."""

    records: tuple[Record, ...]
    bounds: Bounds
    left: tuple[Wanted, ...]
    missed: tuple[int, ...] = ()


def section_picture(
    cut: CutView,
    numbers: Sequence[int],
    scale: float,
    context: Context,
    notes: Notes,
    *,
    bare: bool = False,
    without: frozenset[int] = frozenset(),
) -> Picture:
    """Return a section at a scale; `numbers` are those of the faces' parts; in a `bare` one no figure has a place.

    Other parts that adjoin are drawn with their numbers, those `without` left out: so is one whose number finds no place.
    """
    (x0, y0), (x1, y1) = cut.window
    at = (-(x0 + x1) / 2 * scale, -(y0 + y1) / 2 * scale)
    drawn: list[Record] = []
    shown: tuple[Face | Fill, ...] = (*cut.faces, *cut.fills)
    for face in shown:
        drawn += _edges(face.shown, Pen.VISIBLE, scale, at)
    every = [w for x in (*shown, *cut.metal) for w in x.shown]
    others = [(n, w) for n, w in _others(cut, every, scale, context) if n not in without]
    broken_off = broken([*every, *(w for _, w in others)])
    drawn += [z for a, b in broken_off for z in zigzag(_on(a, scale, at), _on(b, scale, at), 0.8)]
    neighbours = _edges([w for _, w in others], Pen.PHANTOM, scale, at)
    bolts, cover = drawn_bolts(cut, scale, at)
    drawn = [*hidden(drawn, cover), *hidden(drawn_threads(cut, scale, at), covered(cover))]
    metal = drawn_metal(cut, scale, at)
    hatch = [_hatch(face, scale, at) for face in cut.faces]
    inner = [_hatch(fill, scale, at) for fill in cut.fills]
    half = ((x1 - x0) / 2 * scale, (y1 - y0) / 2 * scale)
    engine = Engine(
        [c for r in (*drawn, *neighbours, *bolts, *metal.edges, *metal.about) for c in views.chords(r)],
        outline=(-half[0], -half[1], half[0], half[1]),
        scale=scale,
        at=at,
        rules=Rules(height=context.layout.heights.least, first=7.0, pitch=5.5),
        metrics=context.metrics,
        shade=Shade(_rings(w, scale, at) for x in shown for w in x.shown),
    )
    wishes = [*wanted(cut, notes), *names(cut)]
    arranged = engine.arrange([] if bare else wishes)
    feet = [(n, _samples(own, scale, at)) for n, own in zip(numbers, hatch, strict=True) if own]
    shown_by = {n: [w for m, w in others if m == n] for n, _ in others if n}
    tried = {n: [h for w in own for h in lines(_rings(w, scale, at), SLOPE, (STEP,))] for n, own in shown_by.items()}
    feet += [(n, _samples(own, scale, at)) for n, own in tried.items()]
    balloon, missed = _numbered(feet, engine, context.layout.heights.least)
    if lost := {*shown_by} & {*missed}:
        return section_picture(cut, numbers, scale, context, notes, bare=bare, without=without | lost)
    boxes = [*engine.occupied.boxes, *cover]
    shading = [
        line
        for own, shown in zip((*hatch, *inner), shown, strict=True)
        for line in interrupted(inked(own, shown.cut), boxes)
    ]
    shading += interrupted(metal.hatch, boxes)
    records = (*shading, *metal.filled, *neighbours, *drawn, *metal.edges, *bolts, *arranged.records, *balloon)
    x_low, y_low, x_high, y_high = engine.occupied.bounds()
    bounds = (min(x_low, -half[0]), min(y_low, -half[1]), max(x_high, half[0]), max(y_high, half[1]))
    return Picture(records, bounds, tuple(wishes) if bare else arranged.left, tuple(missed))


def beside(cut: CutView, scale: float, context: Context) -> bool:
    """Tell whether a section shows something of another part, drawn no larger than at a scale."""
    both: tuple[Face | Fill, ...] = (*cut.faces, *cut.fills)
    every = [w for x in both for w in x.shown]
    every += [w for metal in cut.metal for w in metal.shown]
    return any(True for _ in _others(cut, every, scale, context))


def _others(cut: CutView, every: Sequence[Windowed], scale: float, context: Context) -> Iterator[tuple[int, Windowed]]:
    """Yield what is drawn of other parts, each with its number: what shows a part, not a line of it.

    A small thing of another joint is drawn where it is seen whole; it has no number, 0.
    """
    called = kind_numbers(context.piece, context.kinds) if cut.beside else {}
    for other in cut.beside:
        for w in other.shown:
            long, across, up = own_drawn(w, every)
            bounded = _long(w.broken) <= OPEN * (_long(w.broken) + sum(_long(pairwise(run)) for run in w.edges))
            xs, ys = zip(*w.rings[0], strict=True)
            bounded = bounded and across >= OPEN * (max(xs) - min(xs)) and up >= OPEN * (max(ys) - min(ys))
            told = bounded if other.part is not None else not w.broken
            if told and long * scale >= TELLS and min(across, up) * scale >= TURNS:
                yield (called[other.part.path] if other.part is not None else 0), w


def _long(lines: Iterable[tuple[Point, Point]]) -> float:
    return sum(math.dist(a, b) for a, b in lines)


def _numbered(
    feet: Sequence[tuple[int, Sequence[Point]]], engine: Engine, height: float
) -> tuple[list[Record], list[int]]:
    """Return the parts' numbers: within the face where it has room, else outside on a leader; and those without a place."""
    out: list[Record] = []
    left: list[tuple[int, list[Point]]] = []
    radius = balloon_radius(height)
    for number, points in feet:
        at, away = balloons.clearest(points, engine)
        spot = Box(at[0], at[1], radius, radius)
        if away >= radius + CLEAR and engine.occupied.free(spot, CLEAR):
            engine.occupied.add_box(spot)
            out += symbol_balloon(at, number, height)
        else:
            left.append((number, balloons.feet(points, engine)))
    more, missed = balloons.place(left, engine, height)
    return [*out, *more], missed


def _on(p: Point, scale: float, at: Point) -> Point:
    return views.on_paper(p, scale, at)


def _edges(shown: Iterable[Windowed], pen: Pen, scale: float, at: Point) -> list[Record]:
    out: list[Record] = []
    for piece in shown:
        for run in piece.edges:
            points = tuple(_on(p, scale, at) for p in run)
            closed = len(points) > 3 and math.dist(points[0], points[-1]) < 1e-6
            out.append(Path(points[:-1] if closed else points, pen, closed))
    return out


def _hatch(of: Face | Fill, scale: float, at: Point) -> list[Line]:
    """Return the whole lines of hatching in what is cut of a part or of a thing."""
    sits = isinstance(of, Fill)
    return [h for w in of.shown for h in hatched(_rings(w, scale, at), of.degrees, of.cut, sits=sits)]


def _rings(piece: Windowed, scale: float, at: Point) -> list[list[Point]]:
    return [[_on(p, scale, at) for p in ring] for ring in piece.rings]


def _samples(hatch: Sequence[Line], scale: float, at: Point) -> list[Point]:
    """Return middles of the longest hatch lines, view mm: places within a face."""
    longest = sorted(hatch, key=lambda h: (-round(math.dist(h.a, h.b), 3), h.a))[:SAMPLES]
    middles = [((h.a[0] + h.b[0]) / 2, (h.a[1] + h.b[1]) / 2) for h in longest]
    return [((x - at[0]) / scale, (y - at[1]) / scale) for x, y in middles]


# -- where nothing can be cut -----------------------------------------------------------------------------------------


def enlarged_window(spot: Vec, size: float) -> Box2:
    """Return the window of the enlarged view about a joint `size` mm large: the middle of a large one, to be drawn larger."""
    x, y = VIEWS["axonometric"].flat(spot)
    half = min(max(0.8 * size, 30.0), NARROW)
    return ((x - half, y - half), (x + half, y + half))


def enlarged_picture(
    parts: Sequence[Part], numbers: Sequence[int], window: Box2, scale: float, solids: Solids, context: Context
) -> Picture:
    """Return the parts at their joint, seen from a corner within a window, with their numbers."""
    (x0, y0), (x1, y1) = window
    at = (-(x0 + x1) / 2 * scale, -(y0 + y1) / 2 * scale)
    seen = draw([(solids.topology(p.path), p.frame) for p in parts], VIEWS["axonometric"], hidden=False)
    corners = tuple(_on(p, scale, at) for p in ((x0, y0), (x1, y0), (x1, y1), (x0, y1)))
    records: list[Record] = [Path(corners, Pen.THIN, closed=True)]
    feet: dict[int, list[Point]] = {}
    for stroke in seen.visible:
        for run in clip_polyline((stroke.a, stroke.b), window):
            records.append(Path(tuple(_on(p, scale, at) for p in run), Pen.VISIBLE))
            feet.setdefault(stroke.owner, []).append(((run[0][0] + run[-1][0]) / 2, (run[0][1] + run[-1][1]) / 2))
    half = ((x1 - x0) / 2 * scale, (y1 - y0) / 2 * scale)
    engine = Engine(
        [c for r in records for c in views.chords(r)],
        outline=(-half[0], -half[1], half[0], half[1]),
        scale=scale,
        at=at,
        rules=Rules(height=context.layout.heights.least, first=7.0, pitch=5.5),
        metrics=context.metrics,
    )
    wishes = [(numbers[k], [engine.paper(sorted(points)[len(points) // 2])]) for k, points in sorted(feet.items())]
    balloon, missed = balloons.place(wishes, engine, context.layout.heights.least)
    x_low, y_low, x_high, y_high = engine.occupied.bounds()
    bounds = (min(x_low, -half[0]), min(y_low, -half[1]), max(x_high, half[0]), max(y_high, half[1]))
    return Picture((*records, *balloon), bounds, (), tuple(missed))
