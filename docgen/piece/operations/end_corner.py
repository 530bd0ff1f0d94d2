"""Ends with two cuts: where they meet, and how long the wood really is between them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from docgen.geometry.shapes import HalfSpace, Vec
from docgen.piece.model import Part
from docgen.piece.operations.ground import SAME, in_plane, outward, settled, spot
from docgen.piece.records import Face, Mark, Stage
from docgen.units import Number

Tip: TypeAlias = tuple[Number, tuple[Number, Number]]
"""A point of an end cut: where it stands on the end's axis, and on the two others in rising order."""


def planes(part: Part) -> Iterator[HalfSpace]:
    """Yield the planes by which the single part is cut."""
    for feature in part.features:
        for cut in feature.made.cuts:
            if isinstance(cut.shape, HalfSpace) and (cut.stage or feature.stage) is Stage.PART:
                yield cut.shape


def above(plane: HalfSpace, at: Vec) -> float:
    """Return how far a point lies in the waste of a plane, mm; below 0 in the wood."""
    return sum(n * (a - p) for n, a, p in zip(plane.normal, at, plane.point, strict=True))


def peak(part: Part, end: Face, own: HalfSpace, long: Tip) -> Tip | None:
    """Return the long point that a cut has on the finished part, None where that is `long`, its own one.

    Another cut of the same end may take that away: what is left of the cut's plane ends where the two meet.
    """
    u, v = in_plane(end)
    others = [p for p in planes(part) if abs(above(p, own.point)) > SAME or not _parallel(p, own)]
    at = spot({end.axis: long[0], u: long[1][0], v: long[1][1]})
    if all(above(p, at) <= SAME for p in others):
        return None
    rectangle = [(a, b) for a, b in ((0, 0), (1, 0), (1, 1), (0, 1))]
    polygon = [_on(own, end, (a * float(part.size[u]), b * float(part.size[v]))) for a, b in rectangle]
    for plane in others:
        polygon = _clipped(polygon, plane)
    if not polygon:
        return None
    best = max(polygon, key=lambda p: (round(outward(end) * p[end.axis], 6), p[u], p[v]))
    return settled(best[end.axis]), (settled(best[u]), settled(best[v]))


def point_marks(end: Face, points: tuple[Tip, ...], label: str, *, tilted: bool) -> tuple[Mark, ...]:
    """Return the marks of an end's points, the long one first or gone; of a square cut one.

    A tilted cut leaves the two faces at different lengths: each point is marked where it lies.
    """
    wood, last = -1 if end.side else 1, points[-1]
    if abs(float(points[0][0]) - float(last[0])) < SAME and len(points) > 1:
        return (Mark(points[0][0], wood, label, Face(2, 1)),)
    words = ("long", "short")[-len(points) :]
    low = [tilted and float(place[1]) < SAME for _, place in points]
    return tuple(
        Mark(x, wood, f"{label}, {word} point", Face(2, 0 if under else 1))
        for (x, _), word, under in zip(points, words, low, strict=True)
    )


def _parallel(a: HalfSpace, b: HalfSpace) -> bool:
    return all(abs(p - q) < SAME for p, q in zip(a.normal, b.normal, strict=True))


def _on(plane: HalfSpace, end: Face, at: tuple[float, float]) -> Vec:
    """Return the point of a plane at a place on the end's two other axes."""
    u, v = in_plane(end)
    n, p = plane.normal, plane.point
    x = p[end.axis] - (n[u] * (at[0] - p[u]) + n[v] * (at[1] - p[v])) / n[end.axis]
    return spot({end.axis: x, u: at[0], v: at[1]})


def _clipped(polygon: list[Vec], plane: HalfSpace) -> list[Vec]:
    """Return what a plane leaves of a flat polygon."""
    out: list[Vec] = []
    for n, here in enumerate(polygon):
        before = polygon[n - 1]
        a, b = above(plane, before), above(plane, here)
        if (a > SAME) != (b > SAME):
            k = a / (a - b)
            x, y, z = (p + k * (q - p) for p, q in zip(before, here, strict=True))
            out.append((x, y, z))
        if b <= SAME:
            out.append(here)
    return out
