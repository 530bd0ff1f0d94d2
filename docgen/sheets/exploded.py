"""The piece taken apart: parts moved away from each other along their joints, numbered, with the list of parts."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from docgen.drawing import views
from docgen.drawing.exploding import Apart, Between, Floats, Whole, spread
from docgen.drawing.placing import Bounds, around, moved, point_bounds
from docgen.drawing.records import Line, Pen, Point, Record, Sheet
from docgen.geometry.closing import closed
from docgen.geometry.hidden import draw
from docgen.geometry.lines import VIEWS
from docgen.geometry.shapes import Frame, Vec, Vec2
from docgen.geometry.sight import in_sight
from docgen.geometry.topology import Topology
from docgen.layout.model import Layout, Rect
from docgen.piece import loose
from docgen.piece.model import Loose, Piece
from docgen.schedules.meetings import blank_corners
from docgen.schedules.partings import Parting, beside, clusters, partings
from docgen.sheets import exploded_metal, parts_list
from docgen.sheets.context import Context
from docgen.sheets.exploded_leaders import parted
from docgen.sheets.exploded_numbers import Crowd, numbers
from docgen.sheets.flow import stacked

VIEW = VIEWS["axonometric"]
AIR = 4.0  # mm between picture and list
RIM = 9.0  # mm about the picture, for numbers
BETTER = 1.15  # a paper is turned where the picture becomes this much larger by it
BIT = 3.6  # mm: what is seen of a way, and is shorter, does not show that it is a chain line
TELLING, FROM = 30.0, 12.0  # mm: a stretch so long tells its way by itself, a shorter one begins so near an end of it
OUT = 0.04  # of the piece's extent: how far keys and plugs stand out of what is joined
LETTERS = "abcdefghjkmnpqrstuvwxyz"  # of what is set into joints, without those that look like figures
FINE = 0.002  # of the piece's extent: lines nearer than this are one where only the extent is asked for
SPECK = 1.4  # of that: what is smaller is left of a line that went, and a dot on paper
SHORT = 3.0  # of that: a line that ends so short of another runs on to it
APART = 0.62  # mm on paper: wide lines that are nearer would fill with ink between them, and are one


@dataclass(frozen=True, slots=True)
class Scattered:
    """The parts where the exploded view has them: topologies with their frames, and how far each was moved."""

    items: tuple[tuple[Topology, Frame], ...]
    moves: dict[str, Vec]
    links: tuple[Parting, ...]
    extent: float  # of the piece, mm
    drawn_out: tuple[
        tuple[Vec, Vec], ...
    ] = ()  # where things lie that are drawn out of what is joined, and where they belong


@dataclass(frozen=True, slots=True)
class Way:
    """What is seen in one piece of a way from `a` to `b`, view mm; `route` are the ends and bends of the whole way."""

    a: Vec2
    b: Vec2
    route: tuple[Vec2, ...]


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the page; none for a piece of a single part."""
    if len(context.piece.parts) < 2:
        return ()
    scattered = _scattered(context)
    rough = draw(scattered.items, VIEW, merge=scattered.extent * FINE, hidden=False)
    flat = _ways(scattered)
    extent = around([views.bounds(rough), *(point_bounds((w.a, w.b)) for w in flat)])
    layout = _better(context, extent)
    area = layout.area
    list_, tall = _list(context, area)
    room = _room(area, tall)
    scale, at = _placed(extent, room)
    drawn = draw(scattered.items, VIEW, merge=APART / scale, hidden=False, tangent=True, whole=True)
    plain = closed(views.without_specks(drawn, SPECK * APART / scale), SHORT * APART / scale)
    lines = views.soft_records(plain, scale, at)
    ways = _way_lines(flat, scale, at)
    lots = exploded_metal.lots(context)
    screws, spots = exploded_metal.drawn(lots, scattered.moves, scattered.items, scale, at)
    crowd = Crowd.of(drawn, scale, at)
    marks = _marks(context)
    under = [*lines, *ways, *screws]
    told = numbers(context, scattered.items, marks, under, crowd, scale, at, area, area.y + tall, spots)
    leaders = [(r.a, r.b) for r in told if isinstance(r, Line)]
    ways, screws = (parted(under, leaders, BIT) for under in (ways, screws))
    records = (*ways, *lines, *screws, *told, *(moved(r, area.x, area.y + tall) for r in list_))
    return (Sheet("exploded", "exploded", "Exploded view", layout.size, records, scale="none"),)


def _scattered(context: Context) -> Scattered:
    piece = context.piece
    every = partings(piece)
    links = tuple(i for i in every if i.touching)  # what hardware holds apart is apart already
    index = {p.path: k for k, p in enumerate(piece.parts)}
    apart = [Apart(index[i.part], index[i.other], i.axis, i.sign) for i in links]
    wholes = [Whole(tuple(index[p] for p in c.parts), c.axis, c.sign, c.steps) for c in clusters(piece, every)]
    corners = np.array([blank_corners(p) for p in piece.parts])
    area = context.layout.area
    room = _room(area, parts_list.names(context, area.width)[1])
    extent = float((corners.reshape(-1, 3).max(axis=0) - corners.reshape(-1, 3).min(axis=0)).max())
    things = loose.every(piece)
    between = _boxes(things, index, extent)
    weak = [Apart(index[i.part], index[i.other], i.axis, i.sign) for i in beside(piece, every)]
    moves: Floats = spread(corners, apart, wholes, VIEW, (room.width, room.height), between, weak)
    moves = _along(moves, links, index)
    items: list[tuple[Topology, Frame]] = []
    told: dict[str, Vec] = {}
    for part, move in zip(piece.parts, moves.tolist(), strict=True):
        told[part.path] = (move[0], move[1], move[2])
        items.append((context.solids.topology(part.path), _shifted(part.frame, told[part.path])))
    items += [_between(thing, told, extent) for thing in things]
    for fitting, home in loose.metal(piece):
        items.append((loose.topology(fitting.shape), _shifted(fitting.frame, told[home])))
    out = tuple(_drawn_out(thing, told, extent) for thing in things if any(thing.leaves))
    return Scattered(tuple(items), told, links, extent, out)


def _shifted(frame: Frame, by: Vec) -> Frame:
    return replace(frame, origin=_sum(frame.origin, by))


def _drawn_out(thing: Loose, moves: Mapping[str, Vec], extent: float) -> tuple[Vec, Vec]:
    """Return the middle of a thing where it is drawn, and where it would be in its part there."""
    _, frame = _between(thing, moves, extent)
    low, high = loose.box(thing)
    at = frame.point(((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2))
    out = _out(thing, extent)
    return at, (at[0] - out[0], at[1] - out[1], at[2] - out[2])


def _along(moves: Floats, links: Sequence[Parting], index: Mapping[str, int]) -> Floats:
    """Return the moves with those of parts that one oblique joint holds, as splayed legs, laid along that joint."""
    out = moves.copy()
    held = Counter(path for link in links for path in (link.part, link.other))
    for link in links:
        if not any(link.way) or min(held[link.part], held[link.other]) > 1:
            continue
        leaf, other = (link.part, link.other) if held[link.part] == 1 else (link.other, link.part)
        way = np.array(link.way)
        off = float((moves[index[leaf]] - moves[index[other]])[link.axis])
        way = way * off / way[link.axis]
        way[link.axis] = 0.0
        out[index[leaf]] = moves[index[leaf]] + np.round(way, 2)
    return out


def _boxes(things: Sequence[Loose], index: Mapping[str, int], extent: float) -> Between:
    """Return the boxes of things, drawn out as far as they are, and with which parts they go."""
    shares = np.zeros((len(things), len(index)))
    for n, thing in enumerate(things):
        for path in _taking(thing):
            shares[n, index[path]] += 1 / len(_taking(thing))
    boxes = [loose.corners(thing) + np.array(_out(thing, extent)) for thing in things]
    return Between(np.array(boxes).reshape(-1, 8, 3), shares)


def _taking(thing: Loose) -> tuple[str, ...]:
    """Return the parts with which a thing goes: half-way between them; a wedge with the part by which it goes in."""
    return thing.parts[-1:] if thing.driven else thing.parts


def _out(thing: Loose, extent: float) -> Vec:
    """Return how far a thing is drawn out of what is joined already; a wedge until it is wholly out."""
    off = OUT * extent + (float(loose.extent(thing)) if thing.driven else 0.0)
    out = thing.frame.direction(thing.leaves)
    return (out[0] * off, out[1] * off, out[2] * off)


def _between(thing: Loose, moves: Mapping[str, Vec], extent: float) -> tuple[Topology, Frame]:
    """Return a thing between its parts, or drawn out of them where it is set into what is joined already."""
    own = [moves[path] for path in _taking(thing)]
    out, o = _out(thing, extent), thing.frame.origin
    at = [o[i] + sum(m[i] for m in own) / len(own) + out[i] for i in range(3)]
    return loose.topology(thing.shape), replace(thing.frame, origin=(at[0], at[1], at[2]))


def _lots(context: Context) -> list[tuple[str, str, list[int]]]:
    """Return the letter of each kind of thing and of hardware that has a solid, its words, and which of the items they are."""
    piece = context.piece
    things, metal = loose.every(piece), loose.metal(piece)
    wood: dict[object, list[int]] = {}
    for n, thing in enumerate(things):
        wood.setdefault((thing.what, thing.told), []).append(n)
    bought: dict[str, list[int]] = {}
    for n, (fitting, _) in enumerate(metal, len(things)):
        bought.setdefault(fitting.sold or fitting.what, []).append(n)
    told = [(stacked(loose.titles([things[n] for n in same], piece.units)[0]), same) for same in wood.values()]
    told += [(_bought(piece, sold), same) for sold, same in bought.items()]
    first = len(piece.parts)
    return [(LETTERS[k % len(LETTERS)], words, [first + n for n in same]) for k, (words, same) in enumerate(told)]


def _bought(piece: Piece, sold: str) -> str:
    count = sum(i.count for i in piece.items if i.what == sold)
    return f"{count}× {sold}" if count > 1 else sold


def _listed(context: Context) -> list[tuple[str, str]]:
    things = [(letter, words) for letter, words, _ in _lots(context)]
    return things + [(lot.letter, lot.words) for lot in exploded_metal.lots(context)]


def _list(context: Context, area: Rect) -> parts_list.Listed:
    """Return what numbers and letters stand for, for the foot of the page."""
    return parts_list.noted(context, parts_list.names(context, area.width, _listed(context)), area.width, area.height)


def _room(area: Rect, tall: float) -> Rect:
    return Rect(area.x, area.y + tall + AIR, area.width, area.height - tall - AIR).inset(RIM)


def _better(context: Context, extent: Bounds) -> Layout:
    """Return the paper as it is, or turned where that makes the picture notably larger."""
    layouts = (context.layout, context.layout.turned())
    scales = [_placed(extent, _room(x.area, parts_list.names(context, x.area.width)[1]))[0] for x in layouts]
    return layouts[1] if scales[1] > BETTER * scales[0] else layouts[0]


def _placed(extent: Bounds, room: Rect) -> tuple[float, Point]:
    """Return the scale at which the picture fills the room, and where its origin goes."""
    x0, y0, x1, y1 = extent
    scale = min(room.width / (x1 - x0), room.height / (y1 - y0))
    middle = (room.x + room.width / 2, room.y + room.height / 2)
    return scale, (middle[0] - (x0 + x1) / 2 * scale, middle[1] - (y0 + y1) / 2 * scale)


def _ways(scattered: Scattered) -> list[Way]:
    """Return what is seen of the ways that the parts went: first along the joint, then aside."""
    routes: list[tuple[Vec, ...]] = []
    for link in scattered.links:
        a, b = (_sum(link.spot, scattered.moves[path]) for path in (link.part, link.other))
        off = (a[link.axis] - b[link.axis]) / link.way[link.axis] if any(link.way) else 0.0
        bend = _sum(a, (-off * link.way[0], -off * link.way[1], -off * link.way[2]))
        if not any(link.way):
            corner = list(a)
            corner[link.axis] = b[link.axis]
            bend = (corner[0], corner[1], corner[2])
        routes.append((a, bend, b))
    routes += scattered.drawn_out
    steps = [(route, step) for route in routes for step in pairwise(route)]
    seen = in_sight(scattered.items, VIEW, [step for _, step in steps])
    return [
        Way(*stretch, tuple(VIEW.flat(p) for p in route))
        for (route, _), stretches in zip(steps, seen, strict=True)
        for stretch in stretches
    ]


def _way_lines(ways: Sequence[Way], scale: float, at: Point) -> list[Record]:
    """Return the ways as thin chain lines, without bits and without short ones that come from nowhere and go nowhere."""
    out: list[Record] = []
    for way in ways:
        a, b = views.on_paper(way.a, scale, at), views.on_paper(way.b, scale, at)
        long = math.dist(a, b)
        off = min(math.dist(p, q) for p in (way.a, way.b) for q in way.route) * scale
        if long >= BIT and (long >= TELLING or off <= FROM):
            out.append(Line(a, b, Pen.CENTRE))
    return out


def _sum(a: Vec, b: Vec) -> Vec:
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def _marks(context: Context) -> list[tuple[str, list[int]]]:
    """Return the numbers of the kinds of parts, then the letters of what is set into joints, with the items they mark."""
    piece = context.piece
    index = {p.path: k for k, p in enumerate(piece.parts)}
    out = [
        (str(piece.part(k.first).number), [index[path] for path in (*k.parts, *k.mirrored)])
        for k in parts_list.in_order(context)
    ]
    return out + [(letter, found) for letter, _, found in _lots(context)]
