"""The piece as a whole: how much room it takes, and how it looks from a corner."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np

from docgen.drawing.records import Pen, Record
from docgen.drawing.views import soft_records
from docgen.geometry.hidden import VIEWS, Drawn, draw
from docgen.geometry.shapes import Frame
from docgen.geometry.topology import Topology
from docgen.layout.model import Rect
from docgen.piece import loose
from docgen.piece.records import Stage
from docgen.piece.solids import Solids
from docgen.sheets.context import Context


def _points(context: Context) -> Any:
    """Return all corners of the finished parts in the piece's axes, as (n, 3) mm."""
    found = []
    for part in context.piece.parts:
        vertices, _ = context.solids.solid(part.path, Stage.FITTED).mesh()
        found.append(vertices @ np.array(part.frame.rotation).T + np.array(part.frame.origin))
    return np.concatenate(found)


def overall(context: Context) -> tuple[float, float, float]:
    """Return width across, depth and height of the finished piece at rest, in mm, from its solids."""
    points = _points(context)
    across, deep, up = (float(v) for v in np.round(points.max(axis=0) - points.min(axis=0), 6))
    return across, deep, up


def standing(context: Context, room: Rect) -> list[Record]:
    """Return the finished piece seen from a corner, as large as `room` takes it; only what is seen is drawn."""
    view = VIEWS["axonometric"]
    seen = _points(context) @ np.array([view.right, view.up]).T
    (left, low), (right, high) = seen.min(axis=0), seen.max(axis=0)
    pen = context.layout.pens[Pen.VISIBLE.value].width
    scale = min((room.width - pen) / max(right - left, 1e-6), (room.height - pen) / max(high - low, 1e-6))
    scale = float(scale)
    at = (
        room.x + room.width / 2 - float(left + right) / 2 * scale,
        room.y + room.height / 2 - float(low + high) / 2 * scale,
    )
    placed = tuple((p.path, p.frame) for p in context.piece.parts)
    return soft_records(_seen(context.solids, placed, tuple(loose.shown(context.piece)), pen / scale), scale, at)


@lru_cache(maxsize=2)
def _seen(
    solids: Solids, placed: tuple[tuple[str, Frame], ...], more: tuple[tuple[Topology, Frame], ...], merge: float
) -> Drawn:
    """Return what a corner shows; kept, since a trial cover is made while other sheets are waited for."""
    items = [(solids.topology(path, Stage.FITTED), frame) for path, frame in placed]
    return draw([*items, *more], VIEWS["axonometric"], merge=merge, hidden=False, tangent=True, whole=True)
