"""Which way parts come apart at each joint: the exploded view moves them along these directions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

from docgen.geometry.shapes import Vec
from docgen.geometry.surfaces import Floats
from docgen.piece.model import Joint, Part, Piece
from docgen.schedules.meetings import SQUARE, TOUCH, blank_corners, common, features_of, pairs, upright
from docgen.schedules.untied import rides

FREE = "#"  # begins the names of wholes that are no assemblies: no part is called so
WAYS = (
    (2, 1),
    (1, -1),
    (0, 1),
    (0, -1),
    (1, 1),
    (2, -1),
)  # out of a whole, the first that is free: up, to the front, …
NEAR = 8.0  # mm: parts that face each other across no more air than this stand beside each other
ASIDE = 0.5  # of the half extent of the largest whole: what lies further from its middle leaves it on that side


@dataclass(frozen=True, slots=True)
class Parting:
    """`part` leaves `other` along an axis of the piece (0 across, 1 deep, 2 up), to its low (−1) or high (1) side."""

    part: str
    other: str
    axis: int
    sign: int
    spot: Vec  # middle of where they meet
    touching: bool = True  # False where hardware holds them apart
    way: Vec = (0.0, 0.0, 0.0)  # the direction in which it really comes out, where that is oblique


@dataclass(frozen=True, slots=True)
class Cluster:
    """Parts that are made as a whole (a drawer, a frame, a stand) and leave the piece together, along an axis.

    It goes as far as `steps` say: what stands before others of its way leaves a step further than they do.
    """

    parts: tuple[str, ...]
    axis: int
    sign: int
    steps: int = 1


def clusters(piece: Piece, links: tuple[Parting, ...]) -> tuple[Cluster, ...]:
    """Return the wholes of the piece and where they go: a drawer to the front, others to the side on which they lie.

    Parts of an assembly are one whole; a part by itself goes with the whole to which it is joined first. Where there are no
    assemblies, what no joint ties together is a whole: a tray in its box, a lid on hinges. The whole of most wood stays
    where it is; what stands within it is lifted out, or drawn out to where it is open.
    """
    of = {p.path: p.path.rpartition(".")[0] for p in piece.parts}
    for link in sorted(links, key=lambda i: not i.touching):
        for path, other in ((link.part, link.other), (link.other, link.part)):
            of[path] = of[path] or of[other]
    of = of if any(of.values()) else _tied(piece, links)
    groups: dict[str, list[Part]] = {}
    for part in piece.parts:
        groups.setdefault(of[part.path], []).append(part)
    if len(groups) < 2:
        return ()
    drawers = {path for d in piece.drawers for path in d.parts}
    base = max(groups, key=lambda g: (groups[g][0].path not in drawers, round(_wood(groups[g]))))
    low, high = _box(groups[base])
    out: list[Cluster] = []
    for name, parts in groups.items():
        paths = tuple(p.path for p in parts)
        first, last = _box(parts)
        off = ((first + last) - (low + high)) / np.maximum(high - low, 1e-6)
        axis = int(np.argmax(np.round(np.abs(off), 6)))
        if drawers & set(paths):
            out.append(Cluster(paths, 1, -1))
        elif name != base and abs(float(off[axis])) > ASIDE:
            out.append(Cluster(paths, axis, 1 if off[axis] > 0 else -1))
        elif name != base and name.startswith(FREE):
            out.append(Cluster(paths, *_way_out(parts, groups[base])))
    return tuple(replace(c, steps=1 + _before(piece, c, out)) for c in out)


def _way_out(parts: list[Part], base: list[Part]) -> tuple[int, int]:
    """Return axis and side by which a whole is taken out of the one in which it stands: up, if nothing of it is in the way."""
    low, high = _box(parts)
    boxes = [_box([part]) for part in base]
    for axis, sign in WAYS:
        beside = [k for k in range(3) if k != axis]
        ahead = (
            (np.minimum(high, last) - np.maximum(low, first))[beside].min() > TOUCH
            and sign * float((first + last)[axis]) > sign * float((low + high)[axis])
            for first, last in boxes
        )
        if not any(ahead):
            return axis, sign
    return WAYS[0]


def _tied(piece: Piece, links: tuple[Parting, ...]) -> dict[str, str]:
    """Return for each part the whole to which joints tie it that touch; what hinges or slides hold is one by itself."""
    of = {p.path: f"{FREE}{n}" for n, p in enumerate(piece.parts)}
    for link in links:
        if link.touching and not any(rides(d, (link.part, link.other)) for d in piece.drawers):
            one, other = of[link.part], of[link.other]
            of = {path: one if name == other else name for path, name in of.items()}
    return of


def _before(piece: Piece, cluster: Cluster, every: Sequence[Cluster]) -> int:
    """Return how many wholes that leave the same way stand behind one, so that it has to leave before them."""
    axis, sign = cluster.axis, cluster.sign
    beside = [k for k in range(3) if k != axis]
    low, high = _box([piece.part(path) for path in cluster.parts])
    count = 0
    for other in every:
        if other is cluster or (other.axis, other.sign) != (axis, sign):
            continue
        first, last = _box([piece.part(path) for path in other.parts])
        common = np.minimum(high, last) - np.maximum(low, first)
        nearer = sign * float((first + last)[axis]) < sign * float((low + high)[axis]) - TOUCH
        count += nearer and bool((common[beside] > TOUCH).all())
    return count


def _wood(parts: Sequence[Part]) -> float:
    """Return how much wood the blanks of parts have, mm³."""
    return sum(float(p.size[0]) * float(p.size[1]) * float(p.size[2]) for p in parts)


def _box(parts: list[Part]) -> tuple[Floats, Floats]:
    corners = np.concatenate([blank_corners(p) for p in parts])
    return corners.min(axis=0), corners.max(axis=0)


def partings(piece: Piece) -> tuple[Parting, ...]:
    """Return how the parts of all joints come apart, each pair of parts once, in the order of the file.

    A part without a joint leaves the one that it touches most.
    """
    found: dict[frozenset[str], Parting] = {}
    for joint in piece.joints:
        for a, b, gap in pairs(piece, joint):
            found.setdefault(frozenset((a.path, b.path)), _parting(joint, a, b, gap <= TOUCH))
    joined = {path for pair in found for path in pair}
    for part in piece.parts:
        if part.path not in joined and (other := _neighbour(piece, part)) is not None:
            found.setdefault(frozenset((part.path, other.path)), _parting(None, part, other, True))
    return tuple(found.values())


def beside(piece: Piece, links: Sequence[Parting]) -> tuple[Parting, ...]:
    """Return the pairs of upright parts that face each other without a joint, in the order of the file.

    A rail under a shelf, the fronts of two drawers one above the other, the stiles of two doors that meet: each leaves the
    other square to the faces that look at each other. What is tied together and stands between two sides of another whole,
    as a ring of beads in a frame or a drawer in its case, leaves it by neither of these.
    """
    of = _tied(piece, tuple(links))
    found = list(_facing(piece, links))
    sides: dict[tuple[frozenset[str], int], set[tuple[str, int]]] = {}
    for i in found:
        one, other = of[i.part], of[i.other]
        first = min(one, other)
        pair = (frozenset((one, other)), i.axis)
        sides.setdefault(pair, set()).add((first, i.sign if one == first else -i.sign))
    return tuple(
        i for i in found if of[i.part] == of[i.other] or len(sides[frozenset((of[i.part], of[i.other])), i.axis]) == 1
    )


def _facing(piece: Piece, links: Sequence[Parting]) -> Iterator[Parting]:
    """Yield the upright parts that face each other, pair by pair, but those that a joint holds."""
    joined = {frozenset((i.part, i.other)) for i in links}
    square = [p for p in piece.parts if upright(p)]
    for a, b in combinations(square, 2):
        if frozenset((a.path, b.path)) in joined:
            continue
        mine, theirs = _box([a]), _box([b])
        low, high = np.maximum(mine[0], theirs[0]), np.minimum(mine[1], theirs[1])
        axis = int(np.argmin(high - low))
        across = np.delete(high - low, axis)
        if not -NEAR <= float((high - low)[axis]) <= TOUCH or float(across.min()) <= TOUCH:
            continue
        middle = (low + high) / 2
        sign = 1 if float((mine[0] + mine[1] - theirs[0] - theirs[1])[axis]) > 0 else -1
        spot = (float(middle[0]), float(middle[1]), float(middle[2]))
        yield Parting(a.path, b.path, axis, sign, spot)


def _neighbour(piece: Piece, part: Part) -> Part | None:
    """Return the part whose blank's box shares most with this one's; None where it touches none."""
    mine = blank_corners(part)
    best: tuple[float, Part] | None = None
    for other in piece.parts:
        theirs = blank_corners(other)
        common = np.minimum(mine.max(axis=0), theirs.max(axis=0)) - np.maximum(mine.min(axis=0), theirs.min(axis=0))
        if other is part or common.min() < -TOUCH:
            continue
        shared = round(float(np.prod(np.maximum(common, TOUCH))), 3)
        if best is None or shared > best[0]:
            best = (shared, other)
    return best[1] if best else None


def _parting(joint: Joint | None, a: Part, b: Part, touching: bool) -> Parting:
    """Return how `a` leaves `b`: out of the mortise with its tenon, along the screws, or where they overlap least."""
    mine, theirs = blank_corners(a), blank_corners(b)
    between = mine.mean(axis=0) - theirs.mean(axis=0)
    low, high = np.maximum(mine.min(axis=0), theirs.min(axis=0)), np.minimum(mine.max(axis=0), theirs.max(axis=0))
    way = next(iter(_ways(joint, a, b, between)), None) if joint else None
    if way is None:
        # flush ones (ties) part where their middles are furthest from each other; never where both their faces lie
        # flush, as those of a mitred frame's sides do: no side of that is the one to leave by
        flush = np.maximum(np.abs(mine.min(axis=0) - theirs.min(axis=0)), np.abs(mine.max(axis=0) - theirs.max(axis=0)))
        off = [k for k in range(3) if float(flush[k]) > TOUCH] or range(3)
        axis = min(off, key=lambda k: (round(float(high[k] - low[k]), 2), -abs(float(between[k]))))
    else:
        axis = int(np.argmax(np.abs(way)))
    toward = float(between[axis]) if way is None else float(way[axis])
    spot = _spot(joint, a, b, (low, high))
    oblique = (0.0, 0.0, 0.0)
    if way is not None and float(np.abs(way).max()) < SQUARE:
        oblique = (float(way[0]), float(way[1]), float(way[2]))
    return Parting(a.path, b.path, axis, 1 if toward >= 0 else -1, spot, touching, oblique)


def _spot(joint: Joint | None, a: Part, b: Part, box: tuple[Floats, Floats]) -> Vec:
    """Return the middle of where two parts meet; `box` is what the upright boxes about their blanks share.

    What stands askew meets in little of that box: there it is the middle of the bores, or of what the blanks share.
    """
    low, high = box
    middle = (low + high) / 2
    if joint is not None and not (upright(a) and upright(b)):
        bores = [p for p in _bored((a, b), joint, middle) if (p >= low - TOUCH).all() and (p <= high + TOUCH).all()]
        shared = common(a, b, blank_corners(a), blank_corners(b)) if not bores else np.zeros((0, 3))
        if bores:
            middle = np.mean(bores, axis=0)
        elif len(shared):
            middle = (shared.min(axis=0) + shared.max(axis=0)) / 2
    return (float(middle[0]), float(middle[1]), float(middle[2]))


def _bored(parts: tuple[Part, Part], joint: Joint, near: Floats) -> list[Floats]:
    """Return the points next to `near` on the axes of a joint's bores, in the first of two parts that has any."""
    for part in parts:
        rows = [row for feature in features_of(part, joint) for row in feature.made.holes]
        found: list[Floats] = []
        for row in rows:
            way = np.array(part.frame.direction(row.direction))
            for x, y, z in row.points:
                mouth = np.array(part.frame.point((float(x), float(y), float(z))))
                found.append(mouth + float((near - mouth) @ way) * way)
        if found:
            return found
    return []


def _ways(joint: Joint, a: Part, b: Part, between: Floats) -> Iterator[Floats]:
    """Yield the directions in which `a` comes away from `b`, the surest first."""
    for part, sign in ((a, 1.0), (b, -1.0)):
        out = [
            sign * -np.array(part.frame.direction(tuple((1.0 if f.side else -1.0) * (k == f.axis) for k in range(3))))  # type: ignore[arg-type]
            for feature in features_of(part, joint)
            for f in (allowance.face for allowance in feature.made.allowances)
        ]
        yield from sorted((w for w in out if float(w @ between) > 0), key=lambda w: -float(w @ between))
    for part in (a, b):
        for feature in features_of(part, joint):
            for row in feature.made.holes:
                way = np.array(part.frame.direction(row.direction))
                yield way if float(way @ between) >= 0 else -way
