"""Wood along a line: where a ray enters and leaves a solid's mesh."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from docgen.geometry.make import unit
from docgen.geometry.shapes import Vec
from docgen.geometry.solids import Solid

Floats = npt.NDArray[np.float64]

LEAST = 1e-4
"""Wood or air thinner than this along a ray is a grazed edge, mm."""


@dataclass(frozen=True, slots=True)
class Mesh:
    """Triangles of a closed solid, (m, 3, 3) mm."""

    triangles: Floats

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
        d = np.array(unit(direction))
        side = np.cross(d, (0.3713, 0.5571, 0.7427))
        origin = np.array(start, dtype=np.float64) + 1e-4 * side / np.linalg.norm(side)
        hits = self._hits(origin, d)
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

    def _hits(self, origin: Floats, d: Floats) -> list[tuple[float, bool]]:
        """Return (distance, goes into the wood) of each crossing ahead, by the test of Möller and Trumbore."""
        a, b, c = self.triangles[:, 0], self.triangles[:, 1], self.triangles[:, 2]
        e1, e2 = b - a, c - a
        p = np.cross(np.broadcast_to(d, e2.shape), e2)
        det = np.einsum("ij,ij->i", e1, p)
        ok = np.abs(det) > 1e-12
        inv = np.where(ok, 1.0 / np.where(ok, det, 1.0), 0.0)
        s = origin - a
        u = np.einsum("ij,ij->i", s, p) * inv
        q = np.cross(s, e1)
        v = (q @ d) * inv
        t = np.einsum("ij,ij->i", e2, q) * inv
        hit = ok & (u >= 0) & (v >= 0) & (u + v <= 1) & (t > 1e-9)
        found = {(round(float(x), 7), bool(into)) for x, into in zip(t[hit], det[hit] > 0, strict=True)}
        return sorted(found, key=lambda h: (h[0], h[1]))


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
