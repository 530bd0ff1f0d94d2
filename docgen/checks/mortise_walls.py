"""Wood left round mortises and other pockets: to faces, to arcs and rounded arrises, to slanting ends, to the next cut."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt

from docgen.checks import looks
from docgen.checks.cavities import Cavity, Floats, cavities, distances
from docgen.checks.finding import Finding, Grade
from docgen.checks.oriented import Oriented
from docgen.checks.rays import Mesh
from docgen.checks.subject import Subject, where
from docgen.geometry.make import dot, plus
from docgen.geometry.outlines import bounds
from docgen.geometry.shapes import Extrusion, Vec
from docgen.piece.model import Part

TITLE = "wood left round mortises and pockets"
CODES = ("mortise-breaks-out", "mortise-thin")
LOOKS = looks.Looks(lambda piece: any(True for p in piece.parts for _ in cavities(p)))

LEAST = 3.0
"""mm of wood that should be left beside and behind a mortise, about 1/8 in. Common practice."""

SKIN = 0.05  # mm: less is no wood
BELOW = 0.6  # mm from the mouth's rim to where the wall is measured
OUTSIDE = 1.0  # mm outside of the mouth, where rays start
FACING = 0.7  # of a face's normal along the pocket: it is one that the pocket opens

RULE = "at least 3 mm (1/8 in) of wood beside and behind a mortise after all cuts, measured on the finished solid"


def check(subject: Subject) -> Iterator[Finding]:
    """Yield pockets with less than 3 mm of wood to a face, an arc, a slanting end or the next cut; the thinnest of a part."""
    known: dict[object, tuple[float, Cavity] | None] = {}
    for part in subject.piece.parts:
        key = subject.solids.key(part.path)
        if key not in known:
            walls = [
                (w, c)
                for c in subject.cavities(part.path)
                if not _opening(c) and not c.runs(part) and (w := wall(subject, part, c)) < LEAST - 1e-3
            ]
            known[key] = min(walls, key=lambda found: found[0], default=None)
        thin = known[key]
        if thin is not None:
            yield _finding(subject, part, *thin)


def _opening(cavity: Cavity) -> bool:
    """Return True for a window or a hand hole, around which more wood is asked for elsewhere."""
    return any(template.openings for template in cavity.feature.made.templates)


def wall(subject: Subject, part: Part, cavity: Cavity) -> float:
    """Return the least wood round a pocket, mm, infinite when nothing comes within reach.

    Points of the pocket's wall, just under the face that it really opens and at its bottom, against all of the part's
    surface but the pocket's own and what faces the same way as its mouth.
    """
    mesh = subject.own_mesh(part.path)
    box = cavity.oriented()
    low, high = box.bounds()
    triangles = mesh.triangles
    reach = LEAST + SKIN
    near = (triangles.min(axis=1) < np.array(high) + reach).all(axis=1)
    near &= (triangles.max(axis=1) > np.array(low) - reach).all(axis=1)
    others = _others(triangles[near], cavity)
    for box in cavity.shares(part) if len(others) else ():
        others = others[~_inside(others, box)]
    if not len(others):
        return float("inf")
    points = _points(mesh, cavity)
    return 0.0 if points is None else float(distances(np.array(points), others).min())


def _points(mesh: Mesh, cavity: Cavity) -> list[Vec] | None:
    """Return the points to measure from; None where some of the rim has no wood beside it over half the way down."""
    frame = cavity.shape.frame
    down = 1.0 if cavity.bottom > cavity.mouth else -1.0
    way = frame.direction((0.0, 0.0, down))
    rim = cavity.rim(cavity.mouth - down * OUTSIDE)
    x, y, z = (sum(p[i] for p in rim) / len(rim) for i in range(3))
    middle = (x, y, z)
    starts = [_outward(p, middle) for p in rim]
    points: list[Vec] = []
    for p, wood in zip(rim, mesh.woods(starts, [way] * len(starts)), strict=True):
        beside = sum(max(0.0, min(b, OUTSIDE + cavity.length) - max(a, OUTSIDE)) for a, b in wood)
        if beside < cavity.length / 2:
            return None
        begins = max(wood[0][0], OUTSIDE) - OUTSIDE
        ends = min(wood[-1][1] - OUTSIDE, cavity.length) - BELOW if cavity.through else cavity.length
        points += [plus(p, way, at + OUTSIDE) for at in (min(begins + BELOW, ends), ends)]
    if not cavity.through:
        points.append(plus(middle, way, cavity.length + OUTSIDE))
    return points


def _outward(p: Vec, middle: Vec) -> Vec:
    """Return a point of the rim moved a hair away from the pocket's middle, into its wall."""
    away = plus(p, middle, -1.0)
    return plus(p, away, SKIN / max(dot(away, away) ** 0.5, SKIN))


def _inside(triangles: Floats, box: Oriented) -> npt.NDArray[np.bool_]:
    """Tell which triangles lie wholly in a box."""
    own = np.einsum("mvk,ak->mva", triangles - np.array(box.middle), np.array(box.axes))
    return np.asarray((np.abs(own) < np.array(box.half) + SKIN).all(axis=(1, 2)))


def _others(triangles: Floats, cavity: Cavity) -> Floats:
    """Return the triangles that are not the pocket's own surface and do not face the way its mouths do."""
    inner = cavity.shape.frame.inverse()
    turn, origin = np.array(inner.rotation), np.array(inner.origin)
    own = triangles @ turn.T + origin  # in the prism's frame: its mouths are level there
    normal = np.cross(own[:, 1] - own[:, 0], own[:, 2] - own[:, 0])
    normal /= np.maximum(np.sqrt(np.einsum("ij,ij->i", normal, normal)), 1e-12)[:, None]
    level = normal[:, 2]
    out = -1.0 if cavity.bottom > cavity.mouth else 1.0
    at_mouth = np.abs(level) > FACING if cavity.through else level * out > FACING
    (x0, y0), (x1, y1) = bounds(cavity.shape.outline)
    x0, y0, x1, y1 = x0 - SKIN, y0 - SKIN, x1 + SKIN, y1 + SKIN
    low, high = sorted((cavity.mouth, cavity.bottom))
    inside = _within(own, cavity.shape, low, high)
    for cut in cavity.feature.made.cuts:  # the steps of one mortise (a haunch) are no walls to each other
        if isinstance(cut.shape, Extrusion) and cut.shape is not cavity.shape:
            back = cut.shape.frame.inverse()
            there = triangles @ np.array(back.rotation).T + np.array(back.origin)
            inside |= _within(there, cut.shape, cut.shape.low, cut.shape.high)
    # A plane that keeps further than the least wall from all corners of the pocket's box holds no wall that is too thin.
    corners = np.array([(a, b, c) for a in (x0, x1) for b in (y0, y1) for c in (low, high)])
    off = corners @ normal.T - np.einsum("ij,ij->i", own[:, 0], normal)
    far = (off < -LEAST - SKIN).all(axis=0) | (off > LEAST + SKIN).all(axis=0)
    return np.asarray(triangles[~at_mouth & ~far & ~inside.all(axis=1)])


def _within(triangles: Floats, shape: Extrusion, low: float, high: float) -> npt.NDArray[np.bool_]:
    """Tell which corners of triangles, in the prism's frame, lie in the box around a prism or on it."""
    (x0, y0), (x1, y1) = bounds(shape.outline)
    x, y, z = triangles[:, :, 0], triangles[:, :, 1], triangles[:, :, 2]
    flat = (x > x0 - SKIN) & (x < x1 + SKIN) & (y > y0 - SKIN) & (y < y1 + SKIN)
    return np.asarray(flat & (z > low - SKIN) & (z < high + SKIN))


def _finding(subject: Subject, part: Part, left: float, cavity: Cavity) -> Finding:
    gone = left < SKIN
    title = cavity.feature.title
    return Finding(
        Grade.STOP if gone else Grade.CARE,
        "mortise-breaks-out" if gone else "mortise-thin",
        (part.path,),
        f"{title} of {part.path} breaks out: its wall or bottom is cut open."
        if gone
        else f"{title} of {part.path} leaves {subject.say(left)} of wood at its thinnest place.",
        RULE,
        "geometry; 3 mm (1/8 in) as the least is common practice",
        where(cavity.feature.origin, part.origin),
        (("wood left", left, "mm"), ("least", LEAST, "mm")),
        "a shorter, thinner or shallower mortise, or move it further in",
    )
