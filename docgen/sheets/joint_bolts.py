"""Screws and bolts of a section as they are drawn: shank, thread, head, and what of the wood they cover."""

from __future__ import annotations

import math
from dataclasses import dataclass

from docgen.drawing import views
from docgen.drawing.boxes import Box
from docgen.drawing.records import Line, Path, Pen, Point, Record
from docgen.drawing.threads import APART
from docgen.geometry.shapes import Vec
from docgen.piece.model import Fastener
from docgen.piece.records import Sink
from docgen.sheets.joint_cut import CutView
from docgen.sheets.joint_screws import bored_for, root_radius, shank_radius

LEAST_ROOT = 0.4  # of a thread's radius, where its lines are drawn further apart than they lie
ROOT = 0.82  # of a thread's radius: its root, as drawn where no pilot hole tells it
FLAT_HEAD = 82.0  # degrees of a flat head (ASME B18.6.1), where no countersink tells it
ROUND_HEAD = (1.9, 0.7)  # width and height of a round or pan head, shanks (ASME B18.6.1, rounded; from memory)


@dataclass(frozen=True, slots=True)
class _Axis:
    """The axis of a fastener on paper: where its head sits, and the way it goes in."""

    p: Point
    d: Point

    def place(self, along: float, square: float) -> Point:
        """Return a point `along` from the seat of the head, `square` beside the axis; mm."""
        (x, y), (u, v) = self.p, self.d
        return (x + u * along - v * square, y + v * along + u * square)

    def ring(self, *corners: tuple[float, float]) -> Path:
        """Return a closed outline through such points."""
        return Path(tuple(self.place(*c) for c in corners), Pen.VISIBLE, closed=True)

    def box(self, low: float, high: float, half: float) -> Box:
        """Return the box from `low` to `high` along the axis, `half` to both sides."""
        middle = self.place((low + high) / 2, 0.0)
        return Box(middle[0], middle[1], (high - low) / 2, half, math.degrees(math.atan2(self.d[1], self.d[0])))


def drawn_bolts(cut: CutView, scale: float, at: Point) -> tuple[list[Record], list[Box]]:
    """Return the fasteners in a plane, uncut as is usual, and the boxes that they cover."""
    out: list[Record] = []
    cover: list[Box] = []
    for fastener, head in (*cut.plane.fasteners, *cut.passing):
        records, boxes = _bolt(fastener, head, cut, scale, at)
        out += records
        cover += boxes
    return out, cover


def _bolt(fastener: Fastener, head: Vec, cut: CutView, scale: float, at: Point) -> tuple[list[Record], list[Box]]:
    view = cut.plane.view
    axis = _Axis(views.on_paper(view.flat(head), scale, at), view.flat(fastener.direction))
    rows = bored_for(fastener, (face.part for face in cut.faces))
    r = shank_radius(fastener, rows) * scale
    washer = float(fastener.washer) * scale
    end = float(fastener.length or fastener.grip + fastener.engagement) * scale - washer
    engaged = float(fastener.engagement) * scale
    tip = [(-washer, r), (end - 0.4 * r, r), (end, 0.6 * r), (end, -0.6 * r), (end - 0.4 * r, -r), (-washer, -r)]
    sink = next((row.sink for row in rows if row.sink), None)
    shape, top = _head(fastener, axis, r, sink, scale)
    start = max(0.0, end - engaged - 2 * r)
    root = min(root_radius(fastener, rows) * scale or ROOT * r, max(r - APART, LEAST_ROOT * r))
    thread = [Line(axis.place(start, s * root), axis.place(end - 0.4 * r, s * root), Pen.THIN) for s in (1.0, -1.0)]
    if start:  # a wide line across tells where a thread ends (ISO 6410-1)
        thread.append(Line(axis.place(start, r), axis.place(start, -r), Pen.VISIBLE))
    return [axis.ring(*tip), *shape, *thread], [axis.box(0.0, end, r), *top]


def _head(fastener: Fastener, axis: _Axis, r: float, sink: Sink | None, scale: float) -> tuple[list[Record], list[Box]]:
    """Return the head of a fastener, with its washer, and the box that it covers.

    A head of which no height is known is flat, or about as high as a round one.
    """
    wide, tall = (float(v) * scale for v in fastener.head)
    washer = float(fastener.washer) * scale
    if (sink is not None and sink.angle is not None) or (wide and not tall and "flat" in fastener.what):
        angle = FLAT_HEAD if sink is None or sink.angle is None else float(sink.angle)
        big = (wide if sink is None or sink.angle is None else float(sink.diameter) * scale) / 2
        deep = (big - r) / math.tan(math.radians(angle / 2))
        return [axis.ring((0.0, big), (deep, r), (deep, -r), (0.0, -big))], []
    if not tall:
        if not fastener.what.startswith("wood screw"):
            return [], []
        wide, tall = (2 * r * share for share in ROUND_HEAD)
    top, half = -washer - tall, wide / 2
    out: list[Record] = [axis.ring((top, 0.7 * half), (-washer, half), (-washer, -half), (top, -0.7 * half))]
    if washer:
        out.append(axis.ring((-washer, half), (0.0, half), (0.0, -half), (-washer, -half)))
    return out, [axis.box(top, 0.0, half)]
