"""Where parts meet in a joint: pairs of parts, the planes that cut through them best, and what the planes show.

Everything is worked out from placements and records: cutters and allowances tell where the joint is, sizes and holes
what there is to show. Points and directions are in the piece's axes, mm.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

from docgen.geometry.reach import box_corners, corners, shared
from docgen.geometry.shapes import Frame, Vec
from docgen.geometry.solids import LEAST_OVERLAP, blank
from docgen.geometry.surfaces import Floats
from docgen.piece.datums import off_what_goes
from docgen.piece.loose import corners as corners_of
from docgen.piece.loose import ends, extent
from docgen.piece.model import Fastener, Joint, Loose, Part, Piece
from docgen.piece.records import Feature, Size, SizeKind
from docgen.schedules.planes import Bore, Plane, Told, Zone, plane_through

TOUCH = 0.1  # mm: blanks nearer than this touch
APART = 20.0  # mm: what is held together by hardware may stand this far apart
AWAY = 25.0  # mm: how far from where they touch a joint may hold two parts
BESIDE = 12.0  # mm: cuts nearer than this are one place
SQUARE = 0.9999  # of a unit vector: a bore of which so much goes square into the wood does not lean
UNITS = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


@dataclass(frozen=True, slots=True)
class Meeting:
    """Two parts of a joint where they meet.

    `planes` cut through it, the most telling first, a second one for what the first cannot show; none where nothing
    can be cut through both parts. `spare` are other planes, the most telling first: what is left of a tapered part may lie
    beside the first one. `spot` is the middle of it. `also` names the pairs of parts that meet in the same way.
    """

    joint: Joint
    parts: tuple[str, str]
    planes: tuple[Plane, ...]
    spot: tuple[float, float, float]
    size: float  # extent of the joint, mm
    also: tuple[tuple[str, str], ...] = ()
    loose: tuple[Loose, ...] = ()  # what is set into it
    spare: tuple[Plane, ...] = ()

    @property
    def title(self) -> str:
        """What the joint is called on paper: by what is cut where these parts meet, else by its word."""
        own = dict(self.joint.cut_as)
        return next((own[path] for path in self.parts if path in own), self.joint.word)


def meetings(piece: Piece) -> tuple[Meeting, ...]:
    """Return the meetings of all joints in the order of the file, those that are made alike only once."""
    first: dict[tuple[object, ...], Meeting] = {}
    for joint in piece.joints:
        for a, b, gap in pairs(piece, joint):
            found = _meeting(piece, joint, a, b, gap)
            if found is None:
                continue
            key = _likeness(piece, found)
            if key in first:
                first[key] = replace(first[key], also=(*first[key].also, found.parts))
            else:
                first[key] = found
    return tuple(first.values())


def blank_corners(part: Part) -> Floats:
    """Return the corners (8, 3) of a part's blank in the piece's axes."""
    return box_corners(*_corners(part), part.frame)


def _corners(part: Part) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    spans = [part.span(i) for i in range(3)]
    low, high = ([float(s[side]) for s in spans] for side in (0, 1))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def gap_between(a: Floats, b: Floats) -> float:
    """Return how far apart the upright boxes around two sets of points are; negative when they overlap."""
    return float(np.maximum(a.min(axis=0) - b.max(axis=0), b.min(axis=0) - a.max(axis=0)).max())


def pairs(piece: Piece, joint: Joint) -> list[tuple[Part, Part, float]]:
    """Return the parts that meet: those that touch the first part of the joint, else any two that touch or nearly do."""
    parts = [piece.part(path) for path in dict.fromkeys(joint.parts)]
    blanks = {p.path: blank_corners(p) for p in parts}
    every = [(a, b, gap_between(blanks[a.path], blanks[b.path])) for a, b in combinations(parts, 2)]
    touching = [e for e in every if e[2] <= TOUCH]
    return [e for e in touching if e[0] is parts[0]] or touching or [e for e in every if e[2] <= APART]


def features_of(part: Part, joint: Joint) -> list[Feature]:
    """Return what a joint made on a part."""
    named = {name for path, name in joint.features if path == part.path}
    return [f for f in part.features if f.name in named]


def _meeting(piece: Piece, joint: Joint, a: Part, b: Part, gap: float) -> Meeting | None:
    """Return the meeting of two parts of a joint; None where the joint does nothing there.

    What a joint of two parts does away from where they touch (slots for buttons) is shown where it does nothing nearer.
    """
    things = [t for t in joint.loose if {a.path, b.path} >= set(t.parts)]
    near = {p.path: [blank_corners(q), *map(corners_of, things)] for p, q in ((a, b), (b, a))}
    every = [
        (part, feature, [(zone, _gap(zone, near[part.path])) for zone in _zones(part, feature)])
        for part in (a, b)
        for feature in features_of(part, joint)
    ]
    reach = max(gap, 0.0) + 1.0
    if len(set(joint.parts)) == 2 and not any(off <= reach for _, _, found in every for _, off in found):
        reach += AWAY
    zones: list[Zone] = []
    told: list[Told] = []
    bores: list[Bore] = []
    for part, feature, found in every:
        mine = [zone for zone, off in found if off <= reach]
        if mine or len(found) < len(feature.made.cuts):  # a half space has no zone
            zones += mine
            told += _told(part, feature)
            bores += _bores(part, feature)
    both = common(a, b, near[b.path][0], near[a.path][0])
    if len(both):
        zones.append(Zone(both))
    zones += [Zone(corners_of(t), about=True) for t in things]
    told += [_long(t) for t in things if not t.driven]  # a wedge is sawn flush
    if not zones:
        return None
    zones = _one_place(zones, max(BESIDE, gap + 1.0))
    points = np.concatenate([z.points for z in zones])
    low, high = points.min(axis=0), points.max(axis=0)
    bores = [x for x in bores if ((x.mouth >= low - 2.0) & (x.mouth <= high + 2.0)).all()]
    along = np.array(joint.closes if joint.driven else (0.0, 0.0, 0.0))
    planes, spare = _planes((a, b), zones, told, bores, _fasteners(piece, (a.path, b.path), bores), along)
    middle = (low + high) / 2
    spot = (float(middle[0]), float(middle[1]), float(middle[2]))
    size = float((high - low).max())
    return Meeting(joint, (a.path, b.path), planes, spot, size, loose=tuple(things), spare=spare)


def _gap(zone: Zone, near: Iterable[Floats]) -> float:
    """Return how far a zone lies from the nearest of what it may belong to: the other part, what is set into the joint."""
    return min(gap_between(zone.points, points) for points in near)


def _long(thing: Loose) -> Told:
    """Return how long a thing in the joint is."""
    start, end = ends(thing)
    own = thing.frame.rotation
    along = (own[0][thing.long], own[1][thing.long], own[2][thing.long])
    size = Size(SizeKind.LENGTH, start, end, along, extent(thing), ("long",), label=thing.what)
    return Told(thing.parts[0], size, start, end, along)


def upright(part: Part) -> bool:
    """Return True for a part whose axes all lie along those of the piece."""
    return all(abs(abs(c) - round(abs(c))) < 1e-12 for row in part.frame.rotation for c in row)


def common(a: Part, b: Part, mine: Floats, theirs: Floats) -> Floats:
    """Return corners of what the two blanks share; none when they only touch."""
    if upright(a) and upright(b):
        low, high = np.maximum(mine.min(axis=0), theirs.min(axis=0)), np.minimum(mine.max(axis=0), theirs.max(axis=0))
        wide = high - low
        if wide.min() <= 0.0 or float(wide.prod()) < LEAST_OVERLAP:
            return np.zeros((0, 3))
        return box_corners(tuple(low), tuple(high), Frame())
    return shared(blank(*_corners(a)).moved(a.frame), blank(*_corners(b)).moved(b.frame))


def _zones(part: Part, feature: Feature) -> Iterator[Zone]:
    """Yield where a feature's cutters take wood from the part's blank, but for those without bounds."""
    low, high = (np.array(c) for c in _corners(part))
    turned, origin = np.array(part.frame.rotation), np.array(part.frame.origin)
    for made in feature.made.cuts:
        points = corners(made.shape, part.frame)
        if not len(points):
            continue
        own = (points - origin) @ turned
        first, last = np.maximum(own.min(axis=0), low), np.minimum(own.max(axis=0), high)
        if (last - first > 1e-6).all():
            points = box_corners(tuple(first), tuple(last), part.frame)
            if feature.made.allowances:
                yield Zone(points, about=True)
                continue
            ways, runs = _mouths(own, (low, high), last - first)
            turn = part.frame.direction
            yield Zone(
                points, tuple(np.array(turn(UNITS[k])) for k in ways), tuple(np.array(turn(UNITS[k])) for k in runs)
            )


def _mouths(own: Floats, blank_box: tuple[Floats, Floats], extent: Floats) -> tuple[list[int], list[int]]:
    """Return the axes along which a cutter enters the blank, open to one side, and those along which it runs out of it.

    It does not enter along the way in which it reaches furthest; of ways as far, that is one in which it runs through.
    """
    below, beyond = own.min(axis=0) < blank_box[0] - 1e-6, own.max(axis=0) > blank_box[1] + 1e-6
    longest = [k for k in range(3) if extent[k] > extent.max() - 1e-6]
    long = next((k for k in longest if below[k] == beyond[k]), longest[0])
    ways = [k for k in range(3) if below[k] != beyond[k] and k != long]
    return ways, [k for k in range(3) if (below[k] or beyond[k]) and k not in ways]


def _one_place(zones: list[Zone], beside: float) -> list[Zone]:
    """Return the zones of one place, the one with the most: screws in a row are one place each."""
    left = list(range(len(zones)))
    best: list[int] = []
    while left:
        group, at = [left.pop(0)], 0
        while at < len(group):
            near = [k for k in left if gap_between(zones[group[at]].points, zones[k].points) <= beside]
            left = [k for k in left if k not in near]
            group += near
            at += 1
        best = max(best, sorted(group), key=len)
    return [zones[k] for k in best]


def _told(part: Part, feature: Feature) -> Iterator[Told]:
    for size in (off_what_goes(part, s, feature) for s in feature.made.sizes):
        if feature.made.holes and size.kind is not SizeKind.LENGTH:
            continue  # a bore is told in words
        other = part.frame.point(size.other) if size.other is not None else None
        ends = part.frame.point(size.start), part.frame.point(size.end)
        cuts = _each(part, feature) if size.times > 1 else ()
        yield Told(part.path, size, *ends, part.frame.direction(size.along), other, cuts=cuts)


def _each(part: Part, feature: Feature) -> tuple[tuple[Vec, ...], ...]:
    """Return the corners of each cut of a feature, in the piece's axes; of those without bounds none."""
    every = (corners(made.shape, part.frame) for made in feature.made.cuts)
    return tuple(tuple((x, y, z) for x, y, z in points.tolist()) for points in every if len(points))


def _bores(part: Part, feature: Feature) -> Iterator[Bore]:
    for row in feature.made.holes:
        axis = max(range(3), key=lambda k: abs(row.direction[k]))
        square, thick = (0.0, 0.0, 0.0), part.size[axis]
        if abs(row.direction[axis]) < SQUARE:
            into = 1.0 if row.direction[axis] > 0 else -1.0
            square = part.frame.direction((into * (axis == 0), into * (axis == 1), into * (axis == 2)))
        for p in row.points:
            mouth = part.frame.point((float(p[0]), float(p[1]), float(p[2])))
            yield Bore(part.path, row, mouth, part.frame.direction(row.direction), square, thick)


def _fasteners(piece: Piece, pair: tuple[str, str], bores: Iterable[Bore]) -> list[Fastener]:
    keys = {b.row.fastener for b in bores if b.row.fastener}
    return [f for f in piece.fasteners if f.key in keys and set(f.parts) == set(pair)]


def _planes(
    parts: tuple[Part, Part],
    zones: list[Zone],
    told: list[Told],
    bores: list[Bore],
    fasteners: list[Fastener],
    along: Floats,
) -> tuple[tuple[Plane, ...], tuple[Plane, ...]]:
    """Return the plane that shows most, with one that shows what it leaves out, if there is any, and the others.

    A round end that is driven in is cut along its middle line, `along`: across it, it is a circle and tells nothing.
    """
    found: list[Plane] = []
    seen: list[Floats] = []
    blanks = (blank_corners(parts[0]), blank_corners(parts[1]))
    ways = [p.frame.direction(axis) for p in parts for axis in UNITS]
    for n in map(np.array, ways):
        if any(abs(float(n @ m)) > 0.9999 for m in seen):
            continue
        seen.append(n)
        if abs(float(n @ along)) > 1e-6:
            continue
        plane = plane_through(n, zones, told, bores, fasteners, blanks, ways)
        if plane is not None:
            found.append(plane)
    if not found:
        return (), ()
    best, *spare = sorted(found, key=lambda p: (-p.worth, -round(p.long, 1)))
    known = {t.key for t in best.sizes}
    more = [replace(p, sizes=tuple(t for t in p.sizes if t.key not in known)) for p in found if p is not best]
    more = [p for p in more if _square(p, parts) and any(t.own and t.size.kind is SizeKind.LENGTH for t in p.sizes)]
    if not more:
        return (best.bored(),), tuple(spare)
    second = max(more, key=lambda p: (not p.blind, len({t.key for t in p.sizes if t.own}), round(p.long, 1)))
    return (best.bored(), second.narrowed()), tuple(spare)


def _square(plane: Plane, parts: tuple[Part, Part]) -> bool:
    """Return True for a plane that is square to both parts: an oblique second cut tells less than words."""
    normals = [np.array(part.frame.rotation).T @ np.array(plane.normal) for part in parts]
    return all(float(np.abs(n).max()) > 1 - 1e-6 for n in normals)


def _likeness(piece: Piece, of: Meeting) -> tuple[object, ...]:
    """Return what two meetings that are made alike have in common: word, figures, sizes, thicknesses, how screws go in."""
    names = re.compile("|".join(re.escape(p) for p in sorted(of.joint.parts, key=len, reverse=True)))
    figures = tuple((names.sub("", name), round(float(v), 3), kind) for name, v, kind in of.joint.figures)
    thick = sorted(round(float(piece.part(p).size[2]), 3) for p in of.parts)
    sizes = tuple(tuple(sorted({t.key for t in plane.sizes if t.own})) for plane in of.planes)
    return (of.joint.word, figures, tuple(thick), sizes, _driven(piece, of))


def _driven(piece: Piece, of: Meeting) -> tuple[tuple[float, ...], ...]:
    """Return along what the screws and bolts of a meeting go into both parts, in their own axes without signs."""
    ways = [f.direction for plane in of.planes[:1] for f, _ in plane.fasteners[:1]]
    own = (piece.part(path).frame.inverse().direction(way) for way in ways for path in of.parts)
    return tuple(tuple(round(abs(c), 3) for c in way) for way in own)
