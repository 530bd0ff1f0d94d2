"""How much of each of many boxes is hidden behind the others, wherever they are moved: asked of places on their faces."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from docgen.geometry.lines import View

Floats = NDArray[np.float64]

PLACES, FEW = 8, 2  # on the faces of a box that look at the viewer, and on those of a small thing
TURNED = 0.1  # of what is seen of a box: a face that shows less has no place
OFF = 0.5  # mm: what lies so near before a place touches it
EDGES = (4, 2, 1)  # the corners at the other ends of the three edges from the first


class Behind:
    """Boxes by their corners (n, 8, 3), each in the order of the product of its two ends along three edges, before a viewer.

    Those from the `small`th on are small things.
    """

    def __init__(self, corners: Floats, view: View, small: int | None = None) -> None:
        edges = np.stack([corners[:, k] - corners[:, 0] for k in EDGES], axis=1)
        toward = np.array(view.toward) / np.linalg.norm(view.toward)
        flat = np.array([view.right, view.up]).T
        small = len(corners) if small is None else small
        counts = [PLACES] * small + [FEW] * (len(corners) - small)
        found = [_places(c, e, toward, flat, n) for c, e, n in zip(corners, edges, counts, strict=True)]
        self._owner = np.repeat(np.arange(len(found)), [len(p) for p, _ in found])
        self._shares = np.concatenate([s for _, s in found])
        inverse = np.linalg.inv(edges)
        points = np.concatenate([p for p, _ in found])
        local = np.einsum("pnk,nkl->lpn", points[:, None, :] - corners[None, :, 0], inverse)
        way = (toward @ inverse).T[:, None, :]
        way = np.where(np.abs(way) < 1e-12, 1e-12, way)
        self._one, self._other = (
            -local / way,
            (1.0 - local) / way,
        )  # how far on each ray enters and leaves a box, by edges
        self._step = inverse.transpose(2, 1, 0)[:, :, None, :] / way[:, None]

    def shares(self, moves: Floats) -> Floats:
        """Return how much of each box (n) is hidden when they are moved so far (n, 3), as a share of what is seen of it alone."""
        by = (moves[:, None, :] - moves[None, :, :]).transpose(2, 0, 1)  # along each axis, of each against each
        off = (self._step * by).sum(axis=1)[:, self._owner]
        one, other = self._one - off, self._other - off
        low, high = np.minimum(one, other), np.maximum(one, other)
        begins = np.maximum(np.maximum(low[0], low[1]), np.maximum(low[2], 0.0))
        before = np.minimum(np.minimum(high[0], high[1]), high[2]) > begins + OFF
        before[np.arange(len(before)), self._owner] = False
        lost = before.any(axis=1) * self._shares
        return np.asarray(np.bincount(self._owner, lost, len(moves)), dtype=np.float64)


def _places(corners: Floats, edges: Floats, toward: Floats, flat: Floats, count: int) -> tuple[Floats, Floats]:
    """Return about `count` places (p, 3) on the faces of a box that look at the viewer, and what share each stands for."""
    faces: list[tuple[Floats, Floats, Floats, float]] = []
    for k in range(3):
        a, b = edges[(k + 1) % 3], edges[(k + 2) % 3]
        out = np.cross(a, b)
        out = out if float(out @ edges[k]) > 0 else -out
        start = corners[0] + (edges[k] if float(out @ toward) > 0 else 0.0)
        (ax, ay), (bx, by) = a @ flat, b @ flat
        faces.append((start, a, b, abs(float(ax * by - ay * bx))))
    whole = sum(area for *_, area in faces)
    shown = [f for f in faces if f[3] > TURNED * whole]
    whole = sum(area for *_, area in shown)
    points: list[Floats] = []
    shares: list[float] = []
    for start, a, b, area in shown:
        own = _grid(start, a, b, count * area / whole)
        points += own
        shares += [area / whole / len(own)] * len(own)
    return np.array(points), np.array(shares)


def _grid(start: Floats, a: Floats, b: Floats, count: float) -> list[Floats]:
    """Return about so many places on a face, in rows about as far apart along both its edges."""
    ratio = float(np.linalg.norm(a) / np.linalg.norm(b))
    across = min(max(1, round(math.sqrt(count * ratio))), max(1, round(count)))
    along = max(1, round(count / across))
    return [start + a * (i + 0.5) / across + b * (j + 0.5) / along for i in range(across) for j in range(along)]
