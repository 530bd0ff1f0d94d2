"""Wood along a line: where a ray enters and leaves a solid's mesh."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from docgen.geometry.make import unit
from docgen.geometry.shapes import Vec
from docgen.geometry.solids import Solid

Floats = npt.NDArray[np.float64]

ASIDE = np.array((0.3713, 0.5571, 0.7427))
"""A direction along which no edge of furniture runs."""

LEAST = 1e-4
"""Wood or air thinner than this along a ray is a grazed edge, mm."""


class Mesh:
    """Triangles of a closed solid, (m, 3, 3) mm, with what every ray asks of them."""

    __slots__ = ("_a_normal", "_cross_1", "_cross_2", "_edge_1", "_edge_2", "_normal", "triangles")

    def __init__(self, triangles: Floats) -> None:
        self.triangles = triangles
        a = triangles[:, 0]
        self._edge_1, self._edge_2 = triangles[:, 1] - a, triangles[:, 2] - a
        self._normal = _cross(self._edge_1, self._edge_2)
        self._a_normal = np.einsum("ij,ij->i", a, self._normal)
        self._cross_1, self._cross_2 = _cross(self._edge_1, a), _cross(self._edge_2, a)

    @staticmethod
    def of(solid: Solid) -> Mesh:
        """Return the mesh of a solid."""
        vertices, triangles = solid.mesh()
        return Mesh(vertices[triangles])

    def wood(self, start: Vec, direction: Vec) -> list[tuple[float, float]]:
        """Return the stretches of wood on the ray, as distances in mm from `start`, rising.

        A ray that starts in the wood has its first stretch from 0. The ray is shifted a ten-thousandth of a
        millimetre sideways, so that it does not run along an edge of the mesh.
        """
        return self.woods([start], [direction])[0]

    def woods(self, starts: Sequence[Vec], directions: Sequence[Vec]) -> list[list[tuple[float, float]]]:
        """Return the stretches of wood on each of several rays: all at once, which is much quicker than one by one."""
        d = np.array([unit(way) for way in directions], dtype=np.float64)
        side = _cross(d, ASIDE)
        side /= np.sqrt(np.einsum("ij,ij->i", side, side))[:, None]
        return [_stretches(hits) for hits in self._hits(np.array(starts, dtype=np.float64) + 1e-4 * side, d)]

    def _hits(self, origins: Floats, d: Floats) -> list[list[tuple[float, bool]]]:
        """Return for each ray (distance, goes into the wood) of each crossing ahead, by the test of Möller and Trumbore.

        Written with the triangle's normal, so that no cross product of ray and edge is made in the inner step.
        """
        det = -(d @ self._normal.T)  # (rays, triangles); above 0 where the ray enters
        ok = np.abs(det) > 1e-12
        inv = np.where(ok, 1.0 / np.where(ok, det, 1.0), 0.0)
        # With s = o − a and q = s × d: u = e2 · q, v = −e1 · q, t = s · n, all over det.
        t = (origins @ self._normal.T - self._a_normal) * inv
        moment = _cross(origins, d)
        u = (moment @ self._edge_2.T - d @ self._cross_2.T) * inv
        v = (d @ self._cross_1.T - moment @ self._edge_1.T) * inv
        hit = ok & (u >= 0) & (v >= 0) & (u + v <= 1) & (t > 1e-9)
        out: list[list[tuple[float, bool]]] = [[] for _ in range(len(d))]
        for ray, triangle in np.argwhere(hit).tolist():
            out[ray].append((round(float(t[ray, triangle]), 7), bool(det[ray, triangle] > 0)))
        return [sorted(set(found)) for found in out]


def _cross(a: Floats, b: Floats) -> Floats:
    """Return the vector products of rows (n, 3); much quicker than the general one."""
    out = np.empty(a.shape)
    out[:, 0] = a[:, 1] * b[..., 2] - a[:, 2] * b[..., 1]
    out[:, 1] = a[:, 2] * b[..., 0] - a[:, 0] * b[..., 2]
    out[:, 2] = a[:, 0] * b[..., 1] - a[:, 1] * b[..., 0]
    return out


def _stretches(hits: list[tuple[float, bool]]) -> list[tuple[float, float]]:
    out: list[tuple[float, float]] = []
    entered: float | None = None
    for t, into in hits:
        if into and entered is None:
            entered = t
        elif not into:
            begin = 0.0 if entered is None and not out else entered
            if begin is not None and t - begin > LEAST:
                out.append((begin, t))
            entered = None
    return _joined(out)


def _joined(stretches: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return the stretches with gaps thinner than a grazed edge closed."""
    out: list[tuple[float, float]] = []
    for a, b in stretches:
        if out and a - out[-1][1] <= LEAST:
            out[-1] = (out[-1][0], b)
        else:
            out.append((a, b))
    return out


def first_wood(mesh: Mesh, start: Vec, direction: Vec) -> float | None:
    """Return the distance from `start` to the next wood on the ray, mm, None when there is none."""
    stretches = mesh.wood(start, direction)
    return stretches[0][0] if stretches else None
