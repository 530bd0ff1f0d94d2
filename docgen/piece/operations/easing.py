"""Arrises along a line on a face, straight and curved, rounded over on both faces: windows, hand holes, curved edges.

A bit with a bearing runs along the line; each straight piece takes a prism, each arc a part of a ring.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from docgen.geometry.make import frame_along
from docgen.geometry.outlines import backward, bounds, seams, signed_area
from docgen.geometry.shapes import Edge, Extrusion, Outline, Revolution, Shape, Vec, Vec2
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.corner import corner_cutter, rounding
from docgen.piece.operations.ground import OVER, Ground, axis, in_plane, level, need, outward
from docgen.piece.records import Assumed, Caution, Cut, Face, Made, Setting, Size, SizeKind
from docgen.units import Number

INSIDE = "clockwise round the inside, seen from above"

CLEAR = 2e-6
"""How far the round-over stands off the wall that it meets, mm: more than coordinates are rounded by, so that it leaves no
ledge there, and so little that the two still run on smoothly."""

PAST = 2.0
"""How far they run on where the line leaves the part, mm."""


@dataclass(frozen=True, slots=True)
class Easing:
    """The arrises along the line through `start` and `edges` on `face`, rounded to `radius` on it and on the face behind.

    The wood lies to the right of the line. A closed line ends where it starts; an open one may run `out` of the part.
    """

    part: Part
    face: Face
    start: Vec2
    edges: tuple[Edge, ...]
    radius: Number
    out: tuple[bool, bool] = (False, False)

    @property
    def faces(self) -> tuple[Face, Face]:
        """Return the two faces that the line's wall meets."""
        return self.face, Face(self.face.axis, 1 - self.face.side)

    def check(self, label: str) -> None:
        """Raise a `Fault` unless both round-overs fit the thickness and the tightest convex arc.

        Arcs that follow another curve and run straight into one another are refused: their rings would leave seams.
        """
        need(
            not any(a.centre is not None and b.centre is not None for a, b in pairwise(self.edges)),
            "ease-curve",
            f"the {label} is no run of arcs and straight lines",
            "ease",
            "no ease here: its arrises are broken by hand; say so in a note",
        )
        most = [float(self.part.size[self.face.axis]) / 2]
        most += [math.dist(e.centre, e.end) for e in self.edges if e.centre is not None and not e.ccw]
        hollow = [math.dist(e.centre, e.end) for e in self.edges if e.centre is not None and e.ccw]
        need(
            all(r > OVER for r in hollow),
            "radius-range",
            f"no bit eases the arrises of the {label} in its turns",
            "ease",
            "rounder turns, or arrises left sharp",
        )
        need(
            0 < self.radius <= min(most),
            "radius-range",
            f"the eased arrises of the {label} take {figure(self.radius)} of {figure(min(most))}",
            "ease",
            "no more than half the thickness, or the tightest round",
        )

    def cuts(self) -> tuple[Cut, ...]:
        """Return the cutters along both faces."""
        return tuple(Cut(shape) for face in self.faces for shape in self._along(face))

    def setting(self, label: str, feed: str) -> Setting:
        """Return the set-up of the round-over bit."""
        values = (("round-over bit, radius", self.radius, "length"),)
        return Setting("router", f"{label}, arrises eased on both faces", values, feed=feed, late=True)

    def caution(self) -> Caution:
        """Return what is asked for beside the router's own caution."""
        return Caution("round over")

    def size(self, at: Vec2, wood: Vec2) -> Size:
        """Return the radius, in the section through the point `at` of the line; `wood` is the way into the wood there."""
        u, v = in_plane(self.face)
        r, k = float(self.radius), float(self.radius) / 2**0.5
        on = Ground(self.part, self.face)
        out = outward(self.face)

        def point(deep: float, under: float) -> Vec:
            p = list(on.at(at[0] + wood[0] * deep, at[1] + wood[1] * deep))
            p[self.face.axis] -= out * under
            return (p[0], p[1], p[2])

        along = u if abs(wood[1]) > abs(wood[0]) else v
        seen = Face(along, 0)
        return Size(
            SizeKind.RADIUS,
            point(r, r),
            point(r - k, r - k),
            axis(along),
            self.radius,
            ("ease",),
            seen,
            label="eased",
        )

    def _along(self, face: Face) -> Iterator[Shape]:
        start = self.start
        for n, edge in enumerate(self.edges):
            first, last = n == 0 and self.out[0], n == len(self.edges) - 1 and self.out[1]
            ends = (PAST if first else 0.0, PAST if last else 0.0)
            if edge.centre is None:
                yield self._straight(face, start, edge.end, ends)
            else:
                yield self._arc(face, start, edge, ends)
            start = edge.end

    def _profile(self, wood: float, at: float = 0.0) -> Outline:
        """Return the waste in a section square to the line: x across it, the wood on the side `wood`, y out of the face."""
        r = rounding((at - wood * CLEAR, 0.0), (wood, 0.0), (0.0, -1.0), float(self.radius))
        return corner_cutter(r)

    def _straight(self, face: Face, a: Vec2, b: Vec2, ends: tuple[float, float]) -> Extrusion:
        n = math.dist(a, b)
        dx, dy = (b[0] - a[0]) / n, (b[1] - a[1]) / n
        along, right = self._way(dx, dy), self._way(dy, -dx)
        out = axis(face.axis, outward(face))
        # x to the wood, z along the line; y then points out of the face or into it, and the profile is turned to fit.
        z = along if _handed(right, out, along) else _back(along)
        frame = frame_along(self._on(face, a), z, right)
        low, high = (-ends[0], n + ends[1]) if z == along else (-n - ends[1], ends[0])
        return Extrusion(self._profile(1.0), frame, low, high)

    def _arc(self, face: Face, start: Vec2, edge: Edge, ends: tuple[float, float]) -> Revolution:
        assert edge.centre is not None
        c = edge.centre
        radius = math.dist(c, edge.end)
        inward = -1.0 if not edge.ccw else 1.0  # right of a clockwise arc lies its centre
        u, v = in_plane(self.face)
        out = axis(face.axis, outward(face))
        frame = frame_along(self._on(face, c), out, axis(u))
        stops = seams(start, edge)
        before, after = (math.degrees(e / radius) for e in (ends if edge.ccw else ends[::-1]))
        if stops[-1] - stops[0] < 360.0 - 1e-9:
            stops = [*([stops[0] - before] if before else []), *stops, *([stops[-1] + after] if after else [])]
        if frame.rotation[v][1] < 0:  # the frame's y runs against the face's second axis
            stops = [-s for s in reversed(stops)]
        return Revolution(self._profile(inward, radius), frame, tuple(stops))

    def _on(self, face: Face, p: Vec2) -> Vec:
        u, v = in_plane(face)
        out = [0.0, 0.0, 0.0]
        out[u], out[v], out[face.axis] = p[0], p[1], float(level(self.part, face))
        return (out[0], out[1], out[2])

    def _way(self, x: float, y: float) -> Vec:
        u, v = in_plane(self.face)
        out = [0.0, 0.0, 0.0]
        out[u], out[v] = x, y
        return (out[0], out[1], out[2])


def eased(made: Made, easing: Easing, label: str, feed: str, at: Vec2, wood: Vec2) -> Made:
    """Return what an operation answers with its arrises eased; the radius is told at a point of the line."""
    easing.check(label)
    return replace(
        made,
        cuts=(*made.cuts, *easing.cuts()),
        sizes=(*made.sizes, easing.size(at, wood)),
        settings=(*made.settings, easing.setting(label, feed)),
        cautions=tuple(dict.fromkeys((*made.cautions, easing.caution()))),
        assumed=(*made.assumed, Assumed("arrises eased on both faces alike")),
    )


def eased_opening(made: Made, part: Part, face: Face, outline: Outline, radius: Number | None, label: str) -> Made:
    """Return an opening's answers with its arrises eased, where it has a radius for them."""
    if not radius:
        return made
    (x0, _), (x1, y1) = bounds(outline)
    line = outline if signed_area(outline) > 0 else backward(outline)
    easing = Easing(part, face, line.edges[-1].end, line.edges, radius)
    return eased(made, easing, label, INSIDE, ((x0 + x1) / 2, y1), (0.0, 1.0))


def _back(v: Vec) -> Vec:
    return (-v[0], -v[1], -v[2])


def _handed(x: Vec, y: Vec, z: Vec) -> bool:
    """Return whether three directions are right-handed."""
    c = (x[1] * y[2] - x[2] * y[1], x[2] * y[0] - x[0] * y[2], x[0] * y[1] - x[1] * y[0])
    return c[0] * z[0] + c[1] * z[1] + c[2] * z[2] > 0
