"""Solids: blanks, what cutters leave of them, and what can be measured on them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import manifold3d
import numpy as np

from docgen.geometry.cutters import Facets, SolidFault, box_facets, facets
from docgen.geometry.make import unit
from docgen.geometry.shapes import Frame, HalfSpace, Shape, Vec
from docgen.geometry.surfaces import Floats, Ints, Surface
from docgen.units import Number

__all__ = [
    "Overlap",
    "Solid",
    "SolidFault",
    "blank",
    "common",
    "cut",
    "joined",
    "made",
    "overlap",
    "trimmed",
    "wood_between",
]

LEAST_OVERLAP = 1.0  # mm³; less is a meeting of faces, not wood in wood
LEAST_THICK = 0.05  # mm


@dataclass(frozen=True, slots=True)
class _Source:
    """For each facet of a mesh that went into a solid, its curved surface or None, as it was made."""

    facet_surface: tuple[int, ...]
    surfaces: tuple[Surface, ...]


@dataclass(frozen=True, slots=True)
class Marked:
    """A solid's mesh with what each triangle belongs to.

    `vertices` (n, 3) mm; `triangles` (m, 3); `facet` (m,) numbers the flat facets of the cutters;
    `facet_surface` (k,) gives for each facet an index into `surfaces`, or −1.
    """

    vertices: Floats
    triangles: Ints
    facet: Ints
    facet_surface: Ints
    surfaces: tuple[Surface, ...]


class Solid:
    """A closed solid in mm; never changed once made, so it may be shared and cached."""

    def __init__(self, manifold: manifold3d.Manifold, sources: Mapping[int, _Source]) -> None:
        self._manifold = manifold
        self._sources = sources

    @cached_property
    def volume(self) -> float:
        """Volume in mm³."""
        return float(self._manifold.volume())

    @cached_property
    def bounds(self) -> tuple[Vec, Vec]:
        """Low and high corners of the box around the solid, mm."""
        b = self._manifold.bounding_box()
        return (float(b[0]), float(b[1]), float(b[2])), (float(b[3]), float(b[4]), float(b[5]))

    @cached_property
    def area(self) -> float:
        """Surface in mm²."""
        return float(self._manifold.surface_area())

    @cached_property
    def centroid(self) -> Vec:
        """Centre of volume, mm."""
        vertices, triangles = self.mesh()
        middle = vertices.mean(axis=0)
        a, b, c = (vertices[triangles[:, i]] - middle for i in range(3))
        six = np.einsum("ij,ij->i", a, np.cross(b, c))
        centre = middle + (six[:, None] * (a + b + c)).sum(axis=0) / (4 * six.sum())
        return (float(centre[0]), float(centre[1]), float(centre[2]))

    @cached_property
    def pieces(self) -> int:
        """How many separate pieces the solid is in; a hollow inside is none."""
        return sum(1 for part in self._manifold.decompose() if part.volume() > 0)

    def mesh(self) -> tuple[Floats, Ints]:
        """Return (vertices (n, 3) mm, triangles (m, 3) counter-clockwise seen from outside)."""
        marked = self.marked
        return marked.vertices, marked.triangles

    @cached_property
    def marked(self) -> Marked:
        """The mesh with the facets and curved surfaces of the cutters that made it."""
        mesh = self._manifold.to_mesh64()
        triangles = np.asarray(mesh.tri_verts).astype(np.int64)
        vertices = np.asarray(mesh.vert_properties)[:, :3].astype(np.float64)
        if len(mesh.merge_from_vert):
            same = np.arange(len(vertices))
            same[np.asarray(mesh.merge_from_vert, dtype=np.int64)] = np.asarray(mesh.merge_to_vert, dtype=np.int64)
            triangles = same[triangles]
        return _marked(mesh, vertices, triangles, self._sources)

    def moved(self, frame: Frame) -> Solid:
        """Return the solid placed by `frame`."""
        matrix = np.c_[np.array(frame.rotation, dtype=np.float64), np.array(frame.origin, dtype=np.float64)]
        return Solid(self._manifold.transform(matrix), self._sources)

    def mirrored(self, axis: int) -> Solid:
        """Return the other hand: coordinates along `axis` change their sign; the volume stays positive."""
        return Solid(self._manifold.mirror([float(axis == i) for i in range(3)]), self._sources)

    def sliced(self, height: float) -> list[Floats]:
        """Return the rings (k, 2) of the cut at z = `height` mm; outsides counter-clockwise, holes clockwise."""
        return [np.asarray(r, dtype=np.float64) for r in self._manifold.slice(height).to_polygons()]

    def shadow(self) -> list[Floats]:
        """Return the rings (k, 2) of what the solid covers, seen along z; outsides counter-clockwise, holes clockwise."""
        return [np.asarray(r, dtype=np.float64) for r in self._manifold.project().to_polygons()]

    def contains(self, point: Vec) -> bool:
        """Return True when `point` lies in the wood (not reliable within 1e-6 mm of the surface)."""
        return len(_hits(self, point, (0.0, 0.0, 1.0))) % 2 == 1


def blank(low: Sequence[Number], high: Sequence[Number]) -> Solid:
    """Return the box between two corners; SolidFault when it has no volume."""
    a = (float(low[0]), float(low[1]), float(low[2]))
    b = (float(high[0]), float(high[1]), float(high[2]))
    return _solid(box_facets(a, b))


def made(shape: Shape, reach: float = 1000.0) -> Solid:
    """Return the solid of `shape` itself; a half space is cut off `reach` mm from the origin."""
    return _solid(facets(shape, (-reach, -reach, -reach), (reach, reach, reach)))


def cut(solid: Solid, shapes: Sequence[Shape]) -> Solid:
    """Return what all `shapes` together leave of `solid`.

    Raises SolidFault: "outline-crosses", "no-area", "no-volume", "profile-side" for a shape that is none,
    "kernel" with the kernel's own word, "empty" when nothing is left.
    """
    if not shapes:
        return solid
    low, high = solid.bounds
    cutters = [_solid(facets(shape, low, high)) for shape in shapes]
    return _combined([solid, *cutters], manifold3d.OpType.Subtract)


def trimmed(solid: Solid, planes: Sequence[HalfSpace]) -> Solid | None:
    """Return what half spaces leave of `solid`, a little faster than `cut`; None when nothing is left."""
    left = solid._manifold
    for plane in planes:
        n = plane.normal
        left = left.trim_by_plane([-n[0], -n[1], -n[2]], -sum(a * b for a, b in zip(plane.point, n, strict=True)))
    return None if left.is_empty() else Solid(left, solid._sources)


def joined(solids: Sequence[Solid]) -> Solid:
    """Return the union of `solids`."""
    return _combined(solids, manifold3d.OpType.Add)


@dataclass(frozen=True, slots=True)
class Overlap:
    """Wood in wood: volume mm³, thickness mm in the thinnest direction, a point inside."""

    volume: float
    thickness: float
    centre: Vec


def overlap(a: Solid, b: Solid) -> Overlap | None:
    """Return where `a` and `b` both want to be; None below 1 mm³ or 0.05 mm, which is mere touching.

    Of several separate places the largest is told, with the volume of all.
    """
    if not _boxes_meet(a, b):
        return None
    common = a._manifold ^ b._manifold
    if common.is_empty() or common.volume() <= LEAST_OVERLAP:
        return None
    found: list[Overlap] = []
    for part in common.decompose():
        if part.volume() <= LEAST_OVERLAP:
            continue
        thickness = _thickness(part)
        if thickness > LEAST_THICK:
            found.append(Overlap(float(part.volume()), thickness, Solid(part, {**a._sources, **b._sources}).centroid))
    if not found:
        return None
    largest = max(found, key=lambda o: (o.volume, o.centre))
    return Overlap(sum(o.volume for o in found), largest.thickness, largest.centre)


def common(a: Solid, b: Solid) -> float:
    """Return the volume in mm³ that `a` and `b` share."""
    return float((a._manifold ^ b._manifold).volume())


def wood_between(solid: Solid, point: Vec, direction: Vec, reach: float = 1e5) -> float:
    """Return how many mm of wood lie on the ray from `point` along `direction`."""
    distances = _hits(solid, point, direction, reach)
    if len(distances) % 2:
        distances = [0.0, *distances]
    return sum(b - a for a, b in zip(distances[::2], distances[1::2], strict=True))


def _hits(solid: Solid, point: Vec, direction: Vec, reach: float = 1e5) -> list[float]:
    d = unit(direction)
    far = [point[i] + reach * d[i] for i in range(3)]
    return sorted(float(h.distance) * reach for h in solid._manifold.ray_cast(list(point), far))


def _boxes_meet(a: Solid, b: Solid) -> bool:
    (al, ah), (bl, bh) = a.bounds, b.bounds
    return all(min(ah[i], bh[i]) - max(al[i], bl[i]) > LEAST_THICK for i in range(3))


def _thickness(part: manifold3d.Manifold) -> float:
    """Return the least extent across any of the faces, and no more than a thin shell's own thickness allows.

    Six times volume by surface is the side of a cube, the diameter of a ball and three times the thickness
    of a sheet: a shell that curls (a dowel a hair too fat) is thereby not taken for its diameter.
    """
    mesh = part.to_mesh64()
    v = np.asarray(mesh.vert_properties)[:, :3]
    t = np.asarray(mesh.tri_verts).astype(np.int64)
    n = np.cross(v[t[:, 1]] - v[t[:, 0]], v[t[:, 2]] - v[t[:, 0]])
    size = np.sqrt(np.einsum("ij,ij->i", n, n))
    largest = np.argsort(-size, kind="stable")[:200]
    n = n[largest][size[largest] > 1e-9] / size[largest][size[largest] > 1e-9][:, None]
    along = v @ np.unique(np.round(n, 6), axis=0).T
    extent = float((along.max(axis=0) - along.min(axis=0)).min())
    return min(extent, 6 * float(part.volume()) / float(part.surface_area()))


def _solid(mesh: Facets) -> Solid:
    number = manifold3d.Manifold.reserve_ids(1)
    flat = manifold3d.Mesh64(
        np.ascontiguousarray(mesh.vertices),
        np.ascontiguousarray(mesh.triangles.astype(np.uint64)),
        run_index=np.array([0, 3 * len(mesh.triangles)], dtype=np.uint64),
        run_original_id=np.array([number], dtype=np.uint32),
        face_id=np.ascontiguousarray(mesh.facet.astype(np.uint64)),
    )
    manifold = manifold3d.Manifold(flat)
    _check(manifold)
    return Solid(manifold, {number: _Source(mesh.facet_surface, mesh.surfaces)})


def _combined(solids: Sequence[Solid], how: manifold3d.OpType) -> Solid:
    sources: dict[int, _Source] = {}
    for s in solids:
        sources.update(s._sources)
    result = manifold3d.Manifold.batch_boolean([s._manifold for s in solids], how)
    _check(result)
    return Solid(result, sources)


def _check(manifold: manifold3d.Manifold) -> None:
    status = manifold.status()
    if status != manifold3d.Error.NoError:
        raise SolidFault("kernel", f"the shape is no closed solid ({status.name})")
    if manifold.is_empty():
        raise SolidFault("empty", "nothing is left of the part")


def _marked(mesh: manifold3d.Mesh64, vertices: Floats, triangles: Ints, sources: Mapping[int, _Source]) -> Marked:
    """Return the mesh with its facets numbered by their order in the mesh, never by the kernel's own numbers."""
    runs = np.asarray(mesh.run_index, dtype=np.int64) // 3
    own = np.asarray(mesh.face_id, dtype=np.int64)
    facet = np.zeros(len(triangles), dtype=np.int64)
    facet_surface: list[int] = []
    surfaces: list[Surface] = []
    for k, original in enumerate(mesh.run_original_id):
        source = sources[int(original)]
        first, last = runs[k], runs[k + 1]
        names, inverse = np.unique(own[first:last], return_inverse=True)
        facet[first:last] = inverse + len(facet_surface)
        base = len(surfaces)
        facet_surface.extend(
            base + source.facet_surface[f] if source.facet_surface[f] >= 0 else -1 for f in names.tolist()
        )
        surfaces.extend(s.placed(np.asarray(mesh.run_transform[k])) for s in source.surfaces)
    return Marked(vertices, triangles, facet, np.array(facet_surface, dtype=np.int64), tuple(surfaces))
