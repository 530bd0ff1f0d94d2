"""The threads of tapped holes in a section of a joint, as far as no screw sits in them. Paper mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from docgen.drawing import threads, views
from docgen.drawing.boxes import Box
from docgen.drawing.placing import moved
from docgen.drawing.records import Line, Path, Point, Record
from docgen.geometry.clipping import clip_polyline
from docgen.geometry.make import dot
from docgen.geometry.shapes import Vec
from docgen.piece.model import Part
from docgen.piece.records import HoleRow
from docgen.schedules.planes import FLAT, ON, Plane
from docgen.sheets.joint_cut import CutView

BESIDE = 1.5  # mm: what a screw in a hole covers of the thread, beside its own lines


def drawn_threads(cut: CutView, scale: float, at: Point) -> list[Record]:
    """Return the threads of the holes that a plane cuts along their axis or across, within its window."""
    (x0, y0), (x1, y1) = (views.on_paper(p, scale, at) for p in cut.window)
    out: dict[Record, None] = {}
    for mouth, ahead, row, part in _holes(cut):
        radius = threads.major_radius(row)
        deep, ends = threads.full(row, sum(abs(row.direction[i]) * float(part.size[i]) for i in range(3)))
        view, off = cut.plane.view, _off(mouth, cut.plane)
        square = dot(ahead, cut.plane.normal)
        if abs(square) < FLAT and abs(off) < ON:
            lines = threads.beside(view.flat(mouth), view.flat(ahead), (row, radius), (deep, ends), scale)
            for line in (moved(x, *at) for x in lines):
                assert isinstance(line, Line)
                for run in clip_polyline((line.a, line.b), ((x0, y0), (x1, y1))):
                    out[Path(run, line.pen)] = None
        elif abs(square) > threads.ALONG and 0 <= -off / square <= deep:
            x, y = views.on_paper(view.flat(mouth), scale, at)
            if x0 < x < x1 and y0 < y < y1:
                out[moved(threads.looked_into(view.flat(mouth), row, radius, scale), *at)] = None
    return list(out)


def covered(cover: Sequence[Box]) -> list[Box]:
    """Return what screws hide of threads: their own boxes, and the thread that they fill."""
    return [replace(box, half_h=box.half_h + BESIDE) for box in cover]


def _holes(cut: CutView) -> Iterator[tuple[Vec, Vec, HoleRow, Part]]:
    """Yield each tapped hole of the parts in a section: its mouth, the way into the wood, piece axes."""
    for part in (face.part for face in cut.faces):
        for row in (r for f in part.features for r in f.made.holes if threads.major_radius(r)):
            ahead = part.frame.direction(row.direction)
            for p in row.points:
                yield part.frame.point((float(p[0]), float(p[1]), float(p[2]))), ahead, row, part


def _off(p: Vec, plane: Plane) -> float:
    """Return how far a point lies before a plane, mm."""
    return sum((p[i] - plane.point[i]) * plane.normal[i] for i in range(3))
