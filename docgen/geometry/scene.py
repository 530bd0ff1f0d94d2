"""All items of a view in one set of arrays, seen along the view: x right, y up, z toward the viewer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from docgen.geometry.lines import View
from docgen.geometry.shapes import Frame
from docgen.geometry.surfaces import Bools, Floats, Ints
from docgen.geometry.topology import SHARP, TANGENT, Topology

EDGE_ON = 1e-5  # a face whose normal leans less than this toward the viewer is seen on edge
NO_LENGTH = 1e-4  # mm; a shorter line on paper is a point
COINCIDE = 1e3  # ends that agree to 1/1000 mm on paper coincide


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """Points (n, 3), faces, triangles and edges of all items; indices run through all items.

    `circle_*` hold the true circles in view axes; `square` tells those seen square, `thin` those seen on edge.
    """

    points: Floats
    normals: Floats  # (f, 3) outward; what points to the viewer comes last
    looks: Bools  # (f,) the face looks at the viewer
    face_size: Floats  # (f,) mm² of a flat face as it is seen, 0 for the facets of a curved surface
    face_group: Ints  # (f,) one number for all facets of a curved surface, one for each flat face
    triangles: Ints  # (m, 3) of looking faces only
    triangle_face: Ints
    triangle_owner: Ints
    edges: Ints
    edge_faces: Ints
    edge_kind: Ints
    edge_curve: Ints
    edge_circle: Ints
    edge_owner: Ints
    bulging: Ints  # edges whose true curve leaves them
    bulge: Floats  # (b, 3) by so much at their middle
    circle_centre: Floats  # (c, 3)
    circle_radius: Floats
    square: Bools
    thin: Bools
    buried: Bools  # (e,) hidden for sure, behind one large face
    boxes: Floats  # (items, 2, 3) around the items, in the piece's axes
    turn: Floats  # (3, 3): rows are the view's right, up and toward in the piece's axes
    meeting: Ints  # (k, 2): pairs of items whose boxes overlap, so that one might pierce the other


@dataclass(frozen=True, slots=True, eq=False)
class Candidates:
    """Edges that may show: `edge` into the scene's edges, nearest of those that coincide on paper.

    `back` tells those that are hidden whatever stands before them: buried, or between two faces that look away.
    """

    edge: Ints
    back: Bools


def gather(items: Sequence[tuple[Topology, Frame]], view: View) -> Scene:
    """Return the scene of `items` seen by `view`."""
    turn = np.array([view.right, view.up, view.toward])
    placed = [_seen(t, f, turn) for t, f in items]
    at_point = _starts([len(t.points) for t, _ in items])
    at_face = _starts([len(t.normals) for t, _ in items])
    at_edge = _starts([len(t.edges) for t, _ in items])
    at_circle = _starts([len(t.circles) for t, _ in items])
    at_curve = _starts([int(t.edge_curve.max(initial=-1)) + 1 for t, _ in items])
    boxes = np.array([b for _, _, b in placed]).reshape(-1, 2, 3)
    owner = np.arange(len(items))
    normals = _stack([n for _, n, _ in placed], (0, 3), np.float64)
    looks = normals[:, 2] > EDGE_ON
    size = _stack([np.where(t.face_surface < 0, t.face_area, 0.0) for t, _ in items], (0,), np.float64)
    triangle_face = _stack([t.triangle_face + at_face[i] for i, (t, _) in enumerate(items)], (0,), np.int64)
    triangles = _stack([t.triangles + at_point[i] for i, (t, _) in enumerate(items)], (0, 3), np.int64)
    triangle_owner = np.repeat(owner, [len(t.triangles) for t, _ in items])
    front = looks[triangle_face]
    circles = [_circles(t, f, turn) for t, f in items]
    lean = _stack([s for _, _, s in circles], (0,), np.float64)
    return Scene(
        points=_stack([p for p, _, _ in placed], (0, 3), np.float64),
        normals=normals,
        looks=looks,
        face_size=size * normals[:, 2],
        face_group=_stack([_groups(t) + at_face[i] for i, (t, _) in enumerate(items)], (0,), np.int64),
        triangles=triangles[front],
        triangle_face=triangle_face[front],
        triangle_owner=triangle_owner[front],
        edges=_stack([t.edges + at_point[i] for i, (t, _) in enumerate(items)], (0, 2), np.int64),
        edge_faces=_stack([t.edge_faces + at_face[i] for i, (t, _) in enumerate(items)], (0, 2), np.int64),
        edge_kind=_stack([t.edge_kind for t, _ in items], (0,), np.int64),
        edge_curve=_stack([t.edge_curve + at_curve[i] for i, (t, _) in enumerate(items)], (0,), np.int64),
        edge_circle=_stack(
            [np.where(t.edge_circle < 0, -1, t.edge_circle + at_circle[i]) for i, (t, _) in enumerate(items)],
            (0,),
            np.int64,
        ),
        edge_owner=np.repeat(owner, [len(t.edges) for t, _ in items]),
        bulging=_stack([t.bulging + at_edge[i] for i, (t, _) in enumerate(items)], (0,), np.int64),
        bulge=_stack([t.bulge @ (turn @ np.array(f.rotation)).T for t, f in items], (0, 3), np.float64),
        buried=np.zeros(sum(len(t.edges) for t, _ in items), dtype=bool),
        circle_centre=_stack([c for c, _, _ in circles], (0, 3), np.float64),
        circle_radius=_stack([r for _, r, _ in circles], (0,), np.float64),
        square=lean > 1 - 1e-8,
        thin=lean < 1e-6,
        boxes=boxes,
        turn=turn,
        meeting=_meeting(boxes),
    )


def lines(scene: Scene, *, hidden: bool) -> Ints:
    """Return the edges that are lines on paper: sharp ones and those at which a surface turns away.

    Without `hidden` those between two faces that look away are left out: their own part stands before them.
    """
    looks = scene.looks[scene.edge_faces]
    may = (scene.edge_kind == SHARP) | (looks[:, 0] != looks[:, 1])
    if not hidden:
        may &= looks[:, 0] | looks[:, 1]
    return _with_length(scene, np.flatnonzero(may))


def tangent_lines(scene: Scene) -> Ints:
    """Return the edges between two looking faces at which one surface runs on into another; none that is buried."""
    looks = scene.looks[scene.edge_faces].all(axis=1)
    return _with_length(scene, np.flatnonzero((scene.edge_kind == TANGENT) & looks & ~scene.buried))


def _with_length(scene: Scene, edge: Ints) -> Ints:
    a, b = scene.points[scene.edges[edge, 0]], scene.points[scene.edges[edge, 1]]
    dx, dy = b[:, 0] - a[:, 0], b[:, 1] - a[:, 1]
    return np.asarray(edge[dx * dx + dy * dy > NO_LENGTH**2], dtype=np.int64)


def candidates(scene: Scene, line: Ints) -> Candidates:
    """Return those of the edges `line` that may show, in a settled order."""
    looks = scene.looks[scene.edge_faces[line]]
    away = ~(looks[:, 0] | looks[:, 1])
    nearest = _nearest(scene.points[scene.edges[line]], away)
    return Candidates(line[nearest], away[nearest])


def contours(scene: Scene, line: Ints) -> Ints:
    """Return those of the edges `line` of which exactly one face looks at the viewer, without buried ones.

    Of coinciding ones the nearest.
    """
    looks = scene.looks[scene.edge_faces[line]]
    edge = line[(looks[:, 0] != looks[:, 1]) & ~scene.buried[line]]
    nearest = _nearest(scene.points[scene.edges[edge]], np.zeros(len(edge), dtype=bool))
    return np.asarray(edge[nearest], dtype=np.int64)


def _nearest(ends: Floats, away: Bools) -> Ints:
    """Return the rows of (k, 2, 3) that are nearest to the viewer among those that coincide on paper.

    Of edges at one place that of a face which looks at the viewer is taken before one of faces that look `away`.
    """
    if not len(ends):
        return np.zeros(0, dtype=np.int64)
    on_grid = np.round(ends[:, :, :2] * COINCIDE).astype(np.int64)
    swap = (on_grid[:, 0, 0] > on_grid[:, 1, 0]) | (
        (on_grid[:, 0, 0] == on_grid[:, 1, 0]) & (on_grid[:, 0, 1] > on_grid[:, 1, 1])
    )
    key = np.where(swap[:, None, None], on_grid[:, ::-1], on_grid).reshape(len(ends), 4)
    depth = ends[:, :, 2].sum(axis=1)
    order = np.lexsort((away, -np.round(depth, 4), key[:, 3], key[:, 2], key[:, 1], key[:, 0]))
    row = key[order]
    first = np.r_[True, (row[1:] != row[:-1]).any(axis=1)]
    return np.asarray(np.sort(order[first]), dtype=np.int64)


def boxes(ends: Floats, margin: float) -> NDArray[np.object_]:
    """Return the paper boxes of lines or triangles (k, c, 2 or more), grown by `margin` mm.

    A box is told by its diagonal, which a tree of boxes takes as well and which is made in half the time.
    """
    low, high = ends[:, 0, :2], ends[:, 0, :2]
    for k in range(1, ends.shape[1]):
        low, high = np.minimum(low, ends[:, k, :2]), np.maximum(high, ends[:, k, :2])
    return np.asarray(shapely.linestrings(np.stack([low - margin, high + margin], axis=1)), dtype=np.object_)


def _seen(shape: Topology, frame: Frame, turn: Floats) -> tuple[Floats, Floats, Floats]:
    """Return points and normals in view axes, and the box (2, 3) in the piece's axes."""
    rotation = np.array(frame.rotation)
    placed = shape.points @ rotation.T + np.array(frame.origin)
    box = np.stack([placed.min(axis=0), placed.max(axis=0)])
    return placed @ turn.T, shape.normals @ (turn @ rotation).T, box


def _groups(shape: Topology) -> Ints:
    """Return for each face a number: the first facet's for all facets of one surface, its own for a flat face."""
    every = np.arange(len(shape.normals))
    curved = shape.face_surface >= 0
    first = np.full(len(shape.surfaces), len(every))
    np.minimum.at(first, shape.face_surface[curved], every[curved])
    return np.where(curved, first[shape.face_surface] if len(first) else every, every)


def _circles(shape: Topology, frame: Frame, turn: Floats) -> tuple[Floats, Floats, Floats]:
    """Return centres in view axes, radii, and how square the circles are seen (1) or on edge (0)."""
    if not shape.circles:
        return np.zeros((0, 3)), np.zeros(0), np.zeros(0)
    rotation = np.array(frame.rotation)
    centre = np.array([c.centre for c in shape.circles]) @ rotation.T + np.array(frame.origin)
    axis = np.array([c.axis for c in shape.circles]) @ (turn @ rotation).T
    return centre @ turn.T, np.array([c.radius for c in shape.circles]), np.abs(axis[:, 2])


def _meeting(boxes: Floats) -> Ints:
    """Return (k, 2) those pairs of different boxes that share more than 0.05 mm of all three axes, in order."""
    across = shapely.box(boxes[:, 0, 0], boxes[:, 0, 1], boxes[:, 1, 0], boxes[:, 1, 1])
    a, b = shapely.STRtree(across).query(across)
    common = np.minimum(boxes[a, 1], boxes[b, 1]) - np.maximum(boxes[a, 0], boxes[b, 0])
    met = (a != b) & (common > 0.05).all(axis=1)
    order = np.lexsort((b[met], a[met]))
    return np.asarray(np.c_[a[met][order], b[met][order]], dtype=np.int64)


def _starts(sizes: list[int]) -> list[int]:
    return [sum(sizes[:k]) for k in range(len(sizes) + 1)]


def _stack(arrays: list[np.ndarray], empty: tuple[int, ...], kind: type) -> np.ndarray:
    return np.concatenate([np.zeros(empty, dtype=kind), *arrays]).astype(kind)
