"""A plane that cuts through a joint: where it lies and which sizes, bores and fasteners lie in it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np

from docgen.geometry.lines import View
from docgen.geometry.section import section_view
from docgen.geometry.shapes import Vec, Vec2
from docgen.geometry.surfaces import Floats
from docgen.piece.model import Fastener
from docgen.piece.records import HoleRow, Size, SizeKind
from docgen.schedules.turned import turn, turned_about
from docgen.units import Number

FLAT = 1e-4  # of a unit vector: what leans less lies in the plane
LOCAL = 30.0  # mm: a size that begins in the joint may end this far outside it
ON = 0.5  # mm off the plane for the axis of what is drawn in it
ON_TOP = 5.0  # mm: heads sit this far off the wood at the most
BLIND = 4  # sizes that a plane is set back by which is square to the way in which one part enters the other
PROFILE = 2  # sizes that a plane is put before others by which shows the profile of what runs
ARM = 1e-3  # mm: the arms of an angle that no line of the piece shows; so short, they are drawn out to its arc
ROW = 2.0  # lengths of a screw: where a joint reaches further across it, one screw with what is near it is shown
FASTENED = 3  # sizes that a plane is put before others by in which a screw or a bolt lies
STRETCHES = ("grip", "engaged")  # that are told along a screw
UPRIGHT = 0.9  # a plane whose normal leans less from plumb is seen from above


Span: TypeAlias = tuple[Floats, Floats]
"""The least and the greatest corner of something."""
Held: TypeAlias = tuple[tuple[Fastener, Vec], ...]
"""Screws and bolts, each with the place of its head."""


@dataclass(frozen=True, slots=True)
class Told:
    """A size of one of the parts, in the piece's axes."""

    path: str
    size: Size
    start: Vec
    end: Vec
    along: Vec
    other: Vec | None = None
    inside: bool = False  # both ends lie in the joint
    cuts: tuple[tuple[Vec, ...], ...] = ()  # the corners of each cut that a size with `times` tells of

    @property
    def own(self) -> bool:
        """True for a size of the joint itself, False for one that tells where in the part it lies."""
        return self.inside or bool(self.size.label)

    @property
    def key(self) -> tuple[str, str, float]:
        """What two sizes that say the same have in common; those without a name say the same of the same numbers alone."""
        name = self.size.label or "".join(f" {p}" for p in self.size.parameters)
        return (self.size.kind.value, name, round(float(self.size.value), 2))


@dataclass(frozen=True, slots=True, eq=False)
class Zone:
    """Corners (n, 3) of a place where wood is taken, or shared; directions in which it is entered, and in which it runs out.

    What stands `about` a tongue bounds the joint but does not tell where to cut it.
    """

    points: Floats
    entries: tuple[Floats, ...] = ()
    runs: tuple[Floats, ...] = ()
    about: bool = False


@dataclass(frozen=True, slots=True)
class Bore:
    """One hole of a row, in the piece's axes; `direction` points into the wood."""

    path: str
    row: HoleRow
    mouth: Vec
    direction: Vec
    square: Vec = (0.0, 0.0, 0.0)  # into the wood square to the face, where the bore leans
    thick: Number = 0  # of the wood there


@dataclass(frozen=True, slots=True)
class Plane:
    """A cutting plane through `point`, its `normal` toward the viewer and `right` to the right.

    `low` and `high` bound the joint in the view of the plane, `sizes`, `bores` and `fasteners` lie in it; `long` is how
    far the two parts reach along the normal.
    """

    point: Vec
    normal: Vec
    right: Vec
    low: Vec2
    high: Vec2
    sizes: tuple[Told, ...]
    bores: tuple[Bore, ...]
    fasteners: tuple[tuple[Fastener, Vec], ...]
    long: float
    blind: bool = False  # square to the way in which one part enters the other
    profile: bool = False  # square to the way in which the cut runs
    second: bool = False  # shows what another plane leaves out: fasteners are drawn but not told again
    free: tuple[float, float] = (0.0, 0.0)  # along the normal: between these it may lie as well and pass the same cuts
    turned: float = 0.0  # degrees by which its view is turned on paper, counter-clockwise, so that figures stand square

    @property
    def view(self) -> View:
        """The view square to the plane."""
        return section_view(self.normal, self.right)

    @property
    def worth(self) -> int:
        """How much the plane shows: sizes of the joint once each, bores twice, what holds it; less across the entry."""
        bores = len({(b.path, b.row.name) for b in self.bores})
        held = FASTENED * bool(self.fasteners)
        return (
            len({t.key for t in self.sizes if t.own}) + 2 * bores + held - BLIND * self.blind + PROFILE * self.profile
        )

    def at(self, level: float) -> Plane:
        """Return the plane laid elsewhere along its normal."""
        by = level - sum(p * n for p, n in zip(self.point, self.normal, strict=True))
        x, y, z = (p + by * n for p, n in zip(self.point, self.normal, strict=True))
        return replace(self, point=(x, y, z))

    def bored(self) -> Plane:
        """Return the plane with its bores as its sizes, where no other and no fastener tells what is done there."""
        if self.sizes or self.fasteners:
            return self
        return replace(self, sizes=tuple(size for b in self.bores for size in _straight(b, np.array(self.normal))))

    def narrowed(self) -> Plane:
        """Return the plane bounded by the sizes that it tells, each where it stands nearest to the first of them.

        A dado that is stopped at both ends is shown at one of them.
        """
        view = self.view
        flat = {t: (view.flat(t.start), view.flat(t.end)) for t in self.sizes}
        home = flat[self.sizes[0]][0]
        near: dict[tuple[str, str, float], Told] = {}
        for told in sorted(self.sizes, key=lambda t: round(math.dist(flat[t][0], home), 3)):
            near.setdefault(told.key, told)
        shown = [p for t in near.values() for p in flat[t]]
        low = (min(p[0] for p in shown), min(p[1] for p in shown))
        high = (max(p[0] for p in shown), max(p[1] for p in shown))
        rest = tuple(t for t in self.sizes if t not in near.values())
        return replace(self, low=low, high=high, sizes=(*near.values(), *rest), second=True)


def plane_through(
    normal: Floats,
    zones: Sequence[Zone],
    told: Sequence[Told],
    bores: Sequence[Bore],
    fasteners: Sequence[Fastener],
    blanks: tuple[Floats, Floats],
    ways: Sequence[Vec] = (),
) -> Plane | None:
    """Return the plane square to `normal` through the most of the zones (n, 3); None when it misses one of the blanks.

    Its view is turned to one of the `ways` of the parts where most of what it tells would lean on paper.
    """
    n = _toward(normal)
    spans = [(float((b @ n).min()), float((b @ n).max())) for b in blanks]
    free = _level(n, zones, spans)
    if free is None:
        return None
    level = (free[0] + free[1]) / 2
    x = np.array([1.0, 0.0, 0.0]) if abs(n[2]) > UPRIGHT else np.cross([0.0, 0.0, 1.0], n)
    view = section_view(_vec(n), _vec(x))
    lines = [t.along for t in {t.key: t for t in told if t.size.kind is SizeKind.LENGTH and _in_plane(t, n)}.values()]
    turned = turn(view, ways, [*lines, *(f.direction for f in fasteners for _ in STRETCHES)])
    view = section_view(_vec(n), turned_about(view, turned)) if turned else view
    axes = np.array([n, view.right, view.up])
    cut = [z.points @ axes.T for z in zones if (z.points @ n).min() - 1e-6 <= level <= (z.points @ n).max() + 1e-6]
    every = np.concatenate([z.points @ axes.T for z in zones])
    flat = np.concatenate(cut)[:, 1:]
    box = _span(every)
    blind = any(abs(float(n @ e)) > 1 - FLAT for z in zones for e in z.entries)
    profile = any(abs(float(n @ e)) > 1 - FLAT for z in zones for e in z.runs)
    within = [
        b for b in bores if abs(float(np.dot(b.direction, n))) < FLAT and abs(float(np.dot(b.mouth, n)) - level) < ON
    ]
    held = tuple(
        (f, _vec(at)) for f in fasteners for at in (np.array([float(c) for c in p]) for p in f.points)
        if abs(float(np.dot(f.direction, n))) < FLAT and abs(float(at @ n) - level) < ON and _beside(at @ axes.T, flat)
    )  # fmt: skip
    held, bounds, box = _about(held, axes, flat, box)
    sizes = tuple(placed for t in told if _in_plane(t, n) for placed in _local(t, axes, box))
    sizes += tuple(size for bore in within for size in _leaning(bore, n))
    (x0, y0), (x1, y1) = bounds
    return Plane(
        _vec(level * n), _vec(n), view.right, (float(x0), float(y0)), (float(x1), float(y1)),
        sizes, tuple(within), held, sum(high - low for low, high in spans), blind, profile, free=free, turned=turned,
    )  # fmt: skip


def tip(fastener: Fastener, head: Vec) -> Vec:
    """Return where a screw or a bolt ends in the wood."""
    long = float(fastener.grip + fastener.passes + fastener.engagement)
    return _vec(np.array(head) + np.array(fastener.direction) * long)


def _about(held: Held, axes: Floats, flat: Floats, box: Span) -> tuple[Held, Span, Span]:
    """Return the screws and bolts, what bounds the joint with them in the plane, and what bounds it in space (plane's axes).

    Where the joint reaches far across their length, as up the slope of a side, it is the first of them alone.
    """
    if not held:
        return held, _span(flat), box
    ends = [np.array([head, tip(f, head)]) @ axes.T for f, head in held]
    way = (ends[0][1] - ends[0][0])[1:]
    long = float(np.hypot(*way))
    across = flat @ np.array([-way[1], way[0]]) / long
    if float(across.max() - across.min()) > ROW * long:
        return held[:1], _span(ends[0][:, 1:]), _span(ends[0])
    return held, _span(np.concatenate([flat, *(e[:, 1:] for e in ends)])), box


def _span(points: Floats) -> Span:
    return points.min(axis=0), points.max(axis=0)


def _beside(at: Floats, flat: Floats) -> bool:
    """Return True when a point in the plane's axes lies in the joint, or a washer's thickness off."""
    return bool(((at[1:] >= flat.min(axis=0) - ON_TOP) & (at[1:] <= flat.max(axis=0) + ON_TOP)).all())


def _vec(a: Floats) -> Vec:
    return (float(a[0]) + 0.0, float(a[1]) + 0.0, float(a[2]) + 0.0)


def _toward(n: Floats) -> Floats:
    """Return the direction or its opposite: from above, from the front, from the right."""
    if abs(n[2]) > UPRIGHT:
        return n if n[2] > 0 else -n
    if abs(n[1]) >= abs(n[0]) - 1e-9:
        return n if n[1] < 0 else -n
    return n if n[0] > 0 else -n


def _level(n: Floats, zones: Sequence[Zone], within: Sequence[tuple[float, float]]) -> tuple[float, float] | None:
    """Return between where along `n` a plane passes the most zones, best in the middle: what the narrowest two have in common.

    None where no such plane passes between the ends of each of `within`, the reaches of the parts.
    """
    telling = [z for z in zones if not z.about] or list(zones)
    spans = [(float((z.points @ n).min()), float((z.points @ n).max())) for z in telling]
    tries = [(max(a[0], b[0]), min(a[1], b[1])) for k, a in enumerate(spans) for b in spans[k:]]

    def worth(span: tuple[float, float]) -> tuple[int, float, float]:
        middle = (span[0] + span[1]) / 2
        return (sum(a - 1e-6 <= middle <= b + 1e-6 for a, b in spans), -round(span[1] - span[0], 3), -round(middle, 3))

    sound = [t for t in tries if t[1] >= t[0] and all(a + 1e-3 < (t[0] + t[1]) / 2 < b - 1e-3 for a, b in within)]
    if not sound:
        return None
    return max(sound, key=worth)


def _leaning(bore: Bore, n: Floats) -> Iterator[Told]:
    """Yield diameter, lean and depth of wood of a bore that leans in the plane; one for a screw is told with its screw."""
    d, square = np.array(bore.direction), np.array(bore.square)
    if not square.any() or bore.row.fastener or abs(float(square @ n)) > FLAT:
        return
    mouth, level = np.array(bore.mouth), float(d @ square)
    across = np.cross(n, d)
    across *= 1.0 if float(across @ square) <= 0 else -1.0  # to the side on which the angle is acute
    radius, thick = float(bore.row.diameter) / 2, float(bore.thick)
    middle = mouth + d * thick / 2 / level
    yield _bored(
        bore, SizeKind.DIAMETER, (middle - radius * across, middle + radius * across), across, bore.row.diameter
    )
    along = np.cross(n, square)
    along *= np.sign(float(along @ across))
    corner = mouth - along * radius / level  # where its wall breaks through the face
    lean = round(math.degrees(math.acos(min(level, 1.0))), 9)
    if bore.thick and bore.row.depth is None:
        yield _bored(bore, SizeKind.LENGTH, (corner, corner + thick * square), square, bore.thick)
        corner = corner + thick * d / level  # where it comes out there is nothing in the way of an angle
    ends = (corner, corner + ARM * square)
    yield _bored(bore, SizeKind.ANGLE, ends, n, lean, other=corner + ARM * d, label="from square")


def _straight(bore: Bore, n: Floats) -> Iterator[Told]:
    """Yield diameter and depth of a bore that is cut along its axis; of one right through, the wood that it passes."""
    d, mouth = np.array(bore.direction), np.array(bore.mouth)
    across, deep = np.cross(n, d), float(bore.row.depth or bore.thick)
    radius, middle = float(bore.row.diameter) / 2, mouth + d * deep / 2
    ends = (middle - radius * across, middle + radius * across)
    yield _bored(bore, SizeKind.DIAMETER, ends, across, bore.row.diameter)
    if deep:
        label = "deep" if bore.row.depth else ""
        corner = mouth + radius * across
        yield _bored(bore, SizeKind.LENGTH, (corner, corner + d * deep), d, bore.row.depth or bore.thick, label=label)


def _bored(
    bore: Bore,
    kind: SizeKind,
    ends: tuple[Floats, Floats],
    along: Floats,
    value: Number,
    *,
    other: Floats | None = None,
    label: str = "",
) -> Told:
    start, end, way = _vec(ends[0]), _vec(ends[1]), _vec(along)
    size = Size(kind, start, end, way, value, (label or kind.value,), label=label)
    return Told(bore.path, size, start, end, way, None if other is None else _vec(other), inside=True)


def _in_plane(t: Told, n: Floats) -> bool:
    """Return True for a length that runs in the plane, and for an angle or a radius that opens in it."""
    lean = abs(float(np.dot(t.along, n)))
    if t.size.kind is SizeKind.LENGTH:
        return lean < FLAT
    return t.size.kind is not SizeKind.DIAMETER and lean > 1 - FLAT


def _local(t: Told, axes: Floats, box: tuple[Floats, Floats]) -> tuple[Told, ...]:
    """Return the size when it begins or ends in the joint and lies wholly near it, told whether it lies inside."""
    ends = np.array([t.start] if t.size.kind is SizeKind.ANGLE else [t.start, t.end]) @ axes.T
    off = np.maximum(box[0] - ends, ends - box[1]).max(axis=1)
    if off.min() >= 1e-3 or off.max() > LOCAL:
        return ()
    return (replace(t, inside=bool(off.max() < 1e-3)),)
