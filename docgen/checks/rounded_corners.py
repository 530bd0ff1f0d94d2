"""Wood left where parts meet in a mitre whose outside corner is rounded, rabbets and mortises included."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.geometry.make import cross, dot, plus, unit
from docgen.geometry.shapes import HalfSpace, Vec
from docgen.piece.model import Joint, Part

TITLE = "wood left at mitred corners that are rounded"
CODES = ("corner-breaks-through", "corner-thin")
LOOKS = looks.Looks(looks.runs)

LEAST = 3.0
"""mm of wood that should be left, about 1/8 in. Common practice."""

BESIDE = 0.02  # mm from the mitre's plane into each part
SLICE = 0.5  # mm along the corner; a change of shape shorter than this is passed over
SHARP = 0.1  # mm off the diagonal; less is a sharp corner, seen beside its plane

RULE = "wood left on the mitre's diagonal = (T − w)·√2 − (R − r_c)·(√2 − 1), measured here on the solids"


@dataclass(frozen=True, slots=True)
class Mitre:
    """The plane in which two parts meet: a point, `normal` out of the first part, the way along the corner."""

    joint: Joint
    parts: tuple[Part, Part]
    point: Vec
    normal: Vec
    run: Vec
    outward: Vec  # on the plane, from the heel to the long points


def mitres(subject: Subject) -> Iterator[Mitre]:
    """Yield the joints of two parts that both end on one plane, which leans to both."""
    for joint in subject.piece.joints:
        if len(joint.parts) != 2:
            continue
        one, two = (subject.piece.part(p) for p in joint.parts)
        made = dict.fromkeys(joint.features)
        planes = [_planes(p, {name for path, name in made if path == p.path}) for p in (one, two)]
        for point, normal in planes[0]:
            if any(_same_plane((point, normal), other) for other in planes[1]):
                found = _mitre(joint, one, two, point, normal)
                if found is not None:
                    yield found


def _planes(part: Part, names: set[str]) -> list[tuple[Vec, Vec]]:
    return [
        (part.frame.point(c.shape.point), part.frame.direction(unit(c.shape.normal)))
        for f in part.features
        if f.name in names
        for c in f.made.cuts
        if isinstance(c.shape, HalfSpace)
    ]


def _same_plane(a: tuple[Vec, Vec], b: tuple[Vec, Vec]) -> bool:
    between = plus(a[0], b[0], -1.0)
    return dot(a[1], b[1]) < -1 + 1e-9 and abs(dot(between, a[1])) < 0.01


def _mitre(joint: Joint, one: Part, two: Part, point: Vec, normal: Vec) -> Mitre | None:
    """Return the mitre with its directions; None when the parts run on in one line."""
    along = [p.frame.direction((1.0, 0.0, 0.0)) for p in (one, two)]
    run = cross(along[0], along[1])
    if dot(run, run) < 1e-6:
        return None
    run = unit(run)
    if abs(dot(run, normal)) > 1e-6:
        return None
    outward = cross(run, normal)
    middle = [p.frame.point((float(p.size[0]) / 2, float(p.size[1]) / 2, float(p.size[2]) / 2)) for p in (one, two)]
    inside = plus(plus(middle[0], middle[1], 1.0), point, -2.0)
    if dot(outward, inside) > 0:
        outward = (-outward[0], -outward[1], -outward[2])
    return Mitre(joint, (one, two), point, normal, run, outward)


def check(subject: Subject) -> Iterator[Finding]:
    """Yield mitred corners that are rounded and keep less than 3 mm of wood somewhere behind the arc."""
    for mitre in mitres(subject):
        full = _full(mitre)
        thinnest, outside = _thinnest(subject, mitre)
        if thinnest is None or full - outside < SHARP:
            continue  # nothing was measured, or the corner stays sharp
        if thinnest < LEAST:
            yield _finding(subject, mitre, thinnest, full, full - outside)


def _full(mitre: Mitre) -> float:
    """Return how far the nominal long points lie out along the plane, from the plane's point."""
    return max(dot(plus(c, mitre.point, -1.0), mitre.outward) for c in _corner_points(mitre))


def _corner_points(mitre: Mitre) -> list[Vec]:
    """Return the corners of both nominal boxes that lie on the plane."""
    out = []
    for part in mitre.parts:
        x, y, z = (float(s) for s in part.size)
        for p in ((a, b, c) for a in (0.0, x) for b in (0.0, y) for c in (0.0, z)):
            q = part.frame.point(p)
            if abs(dot(plus(q, mitre.point, -1.0), mitre.normal)) < 0.01:
                out.append(q)
    return out or [mitre.point]


def _places(subject: Subject, mitre: Mitre, low: float, high: float) -> list[float]:
    """Return where to measure along the corner: between any two places at which one of the parts changes its shape."""
    marks = {round(low, 3), round(high, 3)}
    for part in mitre.parts:
        triangles = subject.mesh(part.path).triangles.reshape(-1, 3)
        along = (triangles - mitre.point) @ mitre.run
        marks |= set(np.unique(np.round(along[(along > low) & (along < high)], 3)).tolist())
    order = sorted(marks)
    return [(a + b) / 2 for a, b in pairwise(order) if b - a >= SLICE]


def _thinnest(subject: Subject, mitre: Mitre) -> tuple[float | None, float]:
    """Return the least outermost stretch of wood on the plane, and how far out the wood reaches (from the point)."""
    on_plane = _corner_points(mitre)
    along = [dot(plus(c, mitre.point, -1.0), mitre.run) for c in on_plane]
    low, high = min(along), max(along)
    reach = 2.0 * max(float(p.size[2]) + float(p.size[1]) for p in mitre.parts)
    least: float | None = None
    outermost = -reach
    places = _places(subject, mitre, low, high)
    back = (-mitre.outward[0], -mitre.outward[1], -mitre.outward[2])
    for part, side in zip(mitre.parts, (-1.0, 1.0), strict=True):
        beside = plus(plus(mitre.point, mitre.normal, side * BESIDE), mitre.outward, reach)
        starts = [plus(beside, mitre.run, at) for at in places]
        for stretches in subject.mesh(part.path).woods(starts, [back] * len(starts)) if starts else ():
            wood = stretches[0][1] - stretches[0][0] if stretches else 0.0
            least = wood if least is None else min(least, wood)
            if stretches:
                outermost = max(outermost, reach - stretches[0][0])
    return least, outermost


def _finding(subject: Subject, mitre: Mitre, wood: float, full: float, off: float) -> Finding:
    names = tuple(p.path for p in mitre.parts)
    gone = wood <= 0.05
    return Finding(
        Grade.STOP if gone else Grade.CARE,
        "corner-breaks-through" if gone else "corner-thin",
        names,
        f"At the rounded corner of {names[0]} and {names[1]} "
        + (
            "the rounding breaks through into what is cut inside."
            if gone
            else f"only {subject.say(wood)} of wood is left behind the arc."
        )
        + f" The rounding takes {subject.say(off)} off the mitre's diagonal.",
        RULE,
        "geometry; 3 mm (1/8 in) as the least is common practice",
        where(mitre.joint.origin),
        (("wood left", wood, "mm"), ("taken off the diagonal", off, "mm")),
        "a smaller outside radius, thicker boards, or a shallower rabbet or mortise",
    )
