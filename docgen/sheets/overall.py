"""The piece as a whole: how much room it takes, and how it looks from a corner."""

from __future__ import annotations

from typing import Any

import numpy as np

from docgen.drawing.records import Pen, Record
from docgen.drawing.views import stroke_records
from docgen.geometry.hidden import VIEWS, draw
from docgen.layout.model import Rect
from docgen.piece.records import Stage
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
    items = [(context.solids.topology(p.path, Stage.FITTED), p.frame) for p in context.piece.parts]
    return stroke_records(draw(items, view, merge=pen / scale, hidden=False), scale, at)
