"""How far true curves leave the chords that stand for them, where a slanted cut draws the cutters' chords out."""

from __future__ import annotations

import numpy as np

from docgen.geometry.surfaces import Floats, Ints, Surface

WORTH = 0.012  # mm; as far as cutters' own chords lie off (0.01), nothing is to be mended
MOST = 0.2  # mm; what lies farther off is another branch of the curve
LEAN = 0.1  # sine: surfaces that meet at less run into each other smoothly, and where they do is not settled
STEPS = 3  # of Newton's method: the chord's middle lies some hundredths of a mm off


def bulges(
    points: Floats,
    edges: Ints,
    faces: Ints,
    circle: Ints,
    normals: Floats,
    face_surface: Ints,
    surfaces: tuple[Surface, ...],
) -> tuple[Ints, Floats]:
    """Return rows of `edges`, and vectors (k, 3) from the middle of each to the curve in which its two surfaces meet, mm.

    Only curves that lie more than `WORTH` off are told; none is a true `circle`, whose chords are the cutter's own.
    """
    own = face_surface[faces]
    row = np.flatnonzero((circle < 0) & (own >= 0).any(axis=1) & (own[:, 0] != own[:, 1]))
    start, middle = points[edges[row, 0]], points[edges[row]].mean(axis=1)
    at = middle.copy()
    lean = np.zeros(len(row))
    for _ in range(STEPS if len(row) else 0):
        off, slope = zip(
            *(_off(at, start, faces[row, k], normals, face_surface, surfaces) for k in (0, 1)), strict=True
        )
        way, lean = _onto(off[0], slope[0], off[1], slope[1])
        at += way
    bulge = at - middle
    size = np.sqrt(np.einsum("ij,ij->i", bulge, bulge))
    worth = (size > WORTH) & (size < MOST) & (lean > LEAN)
    return row[worth], bulge[worth]


def _onto(f: Floats, u: Floats, g: Floats, v: Floats) -> tuple[Floats, Floats]:
    """Return the shortest way to where two planes meet, and the sine of the angle at which they do.

    The planes lie `f` and `g` mm off along the unit vectors `u` and `v`.
    """
    c = np.einsum("ij,ij->i", u, v)
    square = np.maximum(1 - c * c, LEAN**2)
    return ((c * g - f) / square)[:, None] * u + ((c * f - g) / square)[:, None] * v, np.sqrt(
        np.maximum(1 - c * c, 0.0)
    )


def _off(
    at: Floats, start: Floats, face: Ints, normals: Floats, face_surface: Ints, surfaces: tuple[Surface, ...]
) -> tuple[Floats, Floats]:
    """Return how far places lie off the true surfaces of their faces, and the unit vectors along which they do."""
    slope = normals[face].copy()
    off = np.einsum("ij,ij->i", slope, at - start)
    own = face_surface[face]
    for s in np.unique(own[own >= 0]).tolist():
        mine = np.flatnonzero(own == s)
        off[mine], slope[mine] = surfaces[s].off(at[mine]), surfaces[s].normals(at[mine])
    return off, slope
