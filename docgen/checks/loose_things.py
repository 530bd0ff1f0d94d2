"""What is set into joints, against everything else: wood, later cuts, screws, and what is set into other joints.

Holes that run into the mortise or the groove of such a thing are told where pockets are looked at.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from docgen.checks import looks
from docgen.checks.cavities import Floats, around
from docgen.checks.finding import Finding, Grade
from docgen.checks.oriented import Oriented, apart
from docgen.checks.overlap import declared
from docgen.checks.subject import Subject, where
from docgen.geometry.make import cylinder, frame_along
from docgen.geometry.outlines import flatten
from docgen.geometry.shapes import Extrusion, Frame, HalfSpace, Vec
from docgen.geometry.solids import LEAST_OVERLAP, LEAST_THICK, Solid, common, made, overlap, trimmed
from docgen.piece import loose
from docgen.piece.loose import box
from docgen.piece.model import Fastener, Joint, Loose, Part
from docgen.piece.records import Feature, Stage
from docgen.places import Span
from docgen.trade.fasteners import wood_screw
from docgen.trade.names import UnknownName
from docgen.trade.threads import find

TITLE = "loose tenons, splines, keys, dowels, wedges and buttons against wood, cuts and screws"
CODES = ("loose-in-wood", "loose-cut", "loose-meet")
LOOKS = looks.Looks(lambda piece: any(j.loose for j in piece.joints))

RINGS = 3

AXES: tuple[Vec, Vec, Vec] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


@dataclass(frozen=True, slots=True)
class _Thing:
    """One of them with its joint, where it stands in the piece."""

    joint: Joint
    of: Loose
    box: Oriented

    @property
    def solid(self) -> Solid:
        return loose.solid(self.of.shape).moved(self.of.frame)

    @property
    def said(self) -> str:
        return f"the {self.of.what} of {' and '.join(self.of.parts)}"


def check(subject: Subject) -> Iterator[Finding]:
    """Yield what wants the room of a thing, or cuts into it."""
    things = [
        _Thing(j, x, Oriented.of(*box(x), x.frame)) for j in subject.piece.joints for x in j.loose
    ]  # each is small: its box tells most of what lies apart
    for thing in things:
        yield from _in_wood(subject, thing)
        yield from _cut(subject, thing)
        yield from _screwed(subject, thing)
    for one, other in combinations(things, 2):
        if apart(one.box, other.box) < -LEAST_THICK and (met := overlap(one.solid, other.solid)) is not None:
            message = f"{one.said} and {other.said} are in the same place: {met.volume:.0f} mm³."
            parts = tuple(dict.fromkeys((*one.of.parts, *other.of.parts)))
            yield _finding("loose-meet", parts, message, met.volume, where(one.joint.origin, other.joint.origin))


def _in_wood(subject: Subject, thing: _Thing) -> Iterator[Finding]:
    """Yield parts that want the same room: a mortise that is too shallow, another part that reaches in."""
    spread = thing.of.parts[:1] if thing.of.driven else ()  # a wedge pushes that wood aside
    near = [
        p
        for p in subject.piece.parts
        if p.path not in spread and apart(thing.box, subject.oriented(p.path)) < -LEAST_THICK
    ]
    own = [p for p in near if p.path in thing.of.parts]
    covered = _covered(subject, thing) if own else False
    for part in near:
        if covered and part in own:
            continue
        met = overlap(thing.solid, subject.placed(part.path))
        if met is None or met.thickness <= max(
            (declared(subject.piece, p, part.path) for p in thing.of.parts), default=0
        ):
            continue
        message = f"{thing.said} and {part.path} are in the same place: {met.volume:.0f} mm³, {subject.say(met.thickness)} thick."
        parts = tuple(dict.fromkeys((*thing.of.parts, part.path)))
        yield _finding("loose-in-wood", parts, message, met.volume, where(thing.joint.origin, part.origin))


def _covered(subject: Subject, thing: _Thing) -> bool:
    """Tell whether the cuts that are made for a thing hold it wholly: then its own parts have no wood there.

    The thing is looked at in three rings along its own axis 2; what lies between two that one cut holds is held.
    """
    flat = np.array(flatten(thing.of.shape.outline))
    levels = np.linspace(thing.of.shape.low, thing.of.shape.high, RINGS)
    rings = np.concatenate([np.c_[flat, np.full(len(flat), z)] for z in levels])
    placed = rings @ np.array(thing.of.frame.rotation).T + np.array(thing.of.frame.origin)
    held: list[list[bool]] = []
    for path, name in thing.of.sits:
        part = subject.piece.part(path)
        for one in (c.shape for f in part.features if f.name == name for c in f.made.cuts):
            if isinstance(one, Extrusion):
                inside = _holds(one, part.frame.after(one.frame), placed)
                held.append(np.asarray(inside.reshape(RINGS, -1).all(axis=1)).tolist())
    return all(any(h[k] and h[k + 1] for h in held) for k in range(RINGS - 1))


def _holds(shape: Extrusion, frame: Frame, points: Floats) -> Floats:
    """Tell of each point whether a prism without hollows holds it, to the least overlap; of others it holds none."""
    own = (points - np.array(frame.origin)) @ np.array(frame.rotation)
    ring = np.array(flatten(shape.outline))
    along = np.roll(ring, -1, axis=0) - ring
    inward = np.c_[-along[:, 1], along[:, 0]] / np.maximum(np.hypot(*along.T), 1e-9)[:, None]
    if ((np.roll(ring, -2, axis=0) - ring) * inward).sum(axis=1).min() < -1e-6:
        return np.zeros(len(points), dtype=bool)
    off = own[:, :2] @ inward.T - (ring * inward).sum(axis=1)
    level = (own[:, 2] > shape.low - LEAST_THICK) & (own[:, 2] < shape.high + LEAST_THICK)
    return np.asarray((off.min(axis=1) > -LEAST_THICK) & level)


def _cut(subject: Subject, thing: _Thing) -> Iterator[Finding]:
    """Yield cuts of the parts in which it sits that go into it, but for those that are made for it."""
    for path in thing.of.parts:
        part = subject.piece.part(path)
        frame = part.frame.inverse()
        around_it = thing.box.moved(frame)
        inside: Solid | None = None
        for feature, shape in _cutters(part, thing.of):
            if apart(around_it, around(shape)) > -LEAST_THICK:
                continue
            inside = inside or _within(part, thing.solid.moved(frame))
            volume = 0.0 if inside is None else common(inside, made(shape, 1e5))
            if volume > LEAST_OVERLAP:
                message = f"{feature.title} of {part.path} cuts {volume:.0f} mm³ off {thing.said}."
                at = where(feature.origin, thing.joint.origin)
                yield _finding("loose-cut", thing.of.parts, message, volume, at)


def _cutters(part: Part, of: Loose) -> Iterator[tuple[Feature, Extrusion]]:
    """Yield what takes wood from a part within bounds; what shows is pared with the part and takes its later cuts."""
    made_for = {name for path, name in of.sits if path == part.path}
    for feature in part.features:
        if feature.name in made_for or feature.made.holes or feature.made.allowances:
            continue
        for one in feature.made.cuts:
            late = (one.stage or feature.stage) is not Stage.PART
            if isinstance(one.shape, Extrusion) and not (of.shows and late):
                yield feature, one.shape


def _within(part: Part, solid: Solid) -> Solid | None:
    """Return what of a thing lies in the part: within its blank and behind its end cuts; None for nothing. Part axes."""
    planes = [c.shape for f in part.features for c in f.made.cuts if isinstance(c.shape, HalfSpace)]
    for i, axis in enumerate(AXES):
        low, high = (float(v) for v in part.span(i))
        planes.append(HalfSpace((high * axis[0], high * axis[1], high * axis[2]), axis))
        planes.append(HalfSpace((low * axis[0], low * axis[1], low * axis[2]), (-axis[0], -axis[1], -axis[2])))
    return trimmed(solid, planes)


def _screwed(subject: Subject, thing: _Thing) -> Iterator[Finding]:
    """Yield screws without a hole of their own in one of their parts that go into it."""
    for fastener in subject.piece.fasteners:
        if not fastener.length or fastener.origin.span == thing.joint.origin.span or _bored(subject, fastener):
            continue
        long, radius = float(fastener.length) - float(fastener.washer), _radius(fastener)
        for point in fastener.points:
            start: Vec = (float(point[0]), float(point[1]), float(point[2]))
            shank = Oriented.of((-radius, -radius, 0.0), (radius, radius, long), frame_along(start, fastener.direction))
            if apart(thing.box, shank) > -LEAST_THICK:
                continue
            volume = common(thing.solid, made(cylinder(start, fastener.direction, radius, long, before=0.0), 1e5))
            if volume > LEAST_OVERLAP:
                message = f"screw {fastener.key} of {fastener.parts[0]} runs into {thing.said}."
                at = where(fastener.origin, thing.joint.origin)
                yield _finding("loose-cut", thing.of.parts, message, volume, at)


def _bored(subject: Subject, fastener: Fastener) -> bool:
    """Tell whether each part of a fastener has its hole: those are looked at with the pockets."""
    paths = [p.path for p in subject.piece.parts if p.path in fastener.parts]
    holes = {p: {h.fastener for f in subject.piece.part(p).features for h in f.made.holes} for p in paths}
    return bool(paths) and all(fastener.key in keys for keys in holes.values())


def _radius(fastener: Fastener) -> float:
    """Return half the shank of a screw, mm; of one that no table knows a quarter of its head."""
    try:
        if fastener.thread.startswith("No. "):
            return float(wood_screw(int(fastener.thread.removeprefix("No. "))).shank) / 2
        return float(find(fastener.thread).major) / 2
    except (UnknownName, ValueError):
        return float(fastener.head[0]) / 4


def _finding(code: str, parts: tuple[str, ...], message: str, volume: float, at: Span | None) -> Finding:
    return Finding(
        Grade.STOP,
        code,
        parts,
        message,
        "what is set into a joint shares at most 1 mm³ with anything else, and no cut or screw goes into it",
        "solids of the parts and of what is set into their joints",
        at,
        (("shared", volume, "mm³"),),
        "move the tenons or the cut, make one of them smaller, or leave one out",
    )
