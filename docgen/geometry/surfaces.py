"""True descriptions of curved surfaces, so that their facets need never be guessed from angles."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from docgen.geometry.shapes import Vec, Vec2

Floats: TypeAlias = NDArray[np.float64]
Ints: TypeAlias = NDArray[np.int64]
Bools: TypeAlias = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Surface:
    """A surface of revolution: `kind` is "cylinder", "cone" or "torus" (a sphere is a torus with `radius` 0).

    `point` lies on the axis, `axis` has length one. Heights z are measured from `point` along the axis,
    r from the axis. Cylinder: r = `radius`. Cone: ``normal · (r − radius, z) = 0``. Torus: a tube of radius
    `tube` around the circle of `radius` at z = 0. Millimetres.
    """

    kind: str
    point: Vec
    axis: Vec
    radius: float
    tube: float = 0.0
    normal: Vec2 = (1.0, 0.0)

    def placed(self, matrix: Floats) -> Surface:
        """Return the surface after ``p @ matrix[:3] + matrix[3]``, a rigid motion or a mirroring."""
        point = np.asarray(self.point) @ matrix[:3] + matrix[3]
        axis = np.asarray(self.axis) @ matrix[:3]
        return replace(self, point=_vec(point), axis=_vec(axis / np.linalg.norm(axis)))

    def heights(self, points: Floats) -> tuple[Floats, Floats, Floats]:
        """Return (z, r, unit radial vectors) for points (n, 3)."""
        rel = points - np.asarray(self.point)
        z = rel @ np.asarray(self.axis)
        out = rel - z[:, None] * np.asarray(self.axis)
        r = np.sqrt(np.einsum("ij,ij->i", out, out))
        return z, r, out / np.maximum(r, 1e-12)[:, None]

    def normals(self, points: Floats) -> Floats:
        """Return unit normals (n, 3) at points (n, 3) near the surface; the sign is not settled."""
        z, r, out = self.heights(points)
        axis = np.asarray(self.axis)
        if self.kind == "cylinder":
            return out
        if self.kind == "cone":
            return self.normal[0] * out + self.normal[1] * axis
        n = (r - self.radius)[:, None] * out + z[:, None] * axis
        size = np.sqrt(np.einsum("ij,ij->i", n, n))
        return np.asarray(n / np.maximum(size, 1e-12)[:, None], dtype=np.float64)

    def off(self, points: Floats) -> Floats:
        """Return how far points (n, 3) lie off the surface along `normals`, mm."""
        z, r, _ = self.heights(points)
        if self.kind == "cylinder":
            return r - self.radius
        if self.kind == "cone":
            return self.normal[0] * (r - self.radius) + self.normal[1] * z
        return np.asarray(np.hypot(r - self.radius, z) - self.tube, dtype=np.float64)

    def radius_at(self, z: float, near: float) -> float:
        """Return the radius of the surface's circle at height `z`; where there are two, the one closer to `near`."""
        if self.kind == "cylinder":
            return self.radius
        if self.kind == "cone":
            return near if abs(self.normal[0]) < 1e-9 else self.radius - self.normal[1] * z / self.normal[0]
        half = math.sqrt(max(0.0, self.tube**2 - z * z))
        return min((self.radius - half, self.radius + half), key=lambda r: abs(r - near))


def _vec(a: Any) -> Vec:
    return (float(a[0]), float(a[1]), float(a[2]))
