"""Solids of the parts, made when asked for and kept: equal shapes are made once."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from docgen.geometry.make import box
from docgen.geometry.shapes import Edge, Extrusion, Frame, HalfSpace, Outline, Revolution, Shape, Vec
from docgen.geometry.solids import Solid, SolidFault, blank, cut
from docgen.geometry.topology import Topology, topology
from docgen.piece.model import Part, Piece
from docgen.piece.records import Face, Feature, Stage
from docgen.places import Span
from docgen.reading.problems import Problem, Problems

ORDER = (Stage.PART, Stage.GLUED, Stage.FITTED)
OVER = 1.0
"""How far the cutter of a blank's empty corner reaches beyond it, mm."""

Key = tuple[tuple[Vec, Vec], tuple[Shape, ...]]


class Solids:
    """The solids of a piece's parts in their own axes, by stage."""

    def __init__(self, piece: Piece) -> None:
        self.piece = piece
        self._parts = {p.path: p for p in piece.parts}
        self._keys: dict[tuple[str, Stage], Key] = {}
        self._solids: dict[Key, Solid] = {}
        self._topologies: dict[Key, Topology] = {}
        # The same by part: a key is long, and looking it up costs more than all else that is asked of what is kept.
        self._solid_of: dict[tuple[str, Stage], Solid] = {}
        self._topology_of: dict[tuple[str, Stage], Topology] = {}

    def solid(self, path: str, stage: Stage = Stage.FITTED) -> Solid:
        """Return the part after all cuts of `stage` and before; Problems when one cannot be made."""
        if (path, stage) not in self._solid_of:
            key = self.key(path, stage)
            if key not in self._solids:
                try:
                    self._solids[key] = cut(blank(*key[0]), key[1])
                except SolidFault as fault:
                    raise Problems([self._problem(self._parts[path], stage, fault)]) from fault
            self._solid_of[path, stage] = self._solids[key]
        return self._solid_of[path, stage]

    def alike(self, path: str) -> Solid:
        """Return the finished part without what is marked from its mates: equal parts are told by it."""
        part = self._parts[path]
        if not any(c.mated for f in part.features for c in f.made.cuts):
            return self.solid(path)
        low_high, _ = self.key(path)
        shapes = [c.shape for f in part.features for c in f.made.cuts if not c.mated]
        return cut(blank(*low_high), [snapped(s) for s in (*_empty_corners(part), *shapes)])

    def topology(self, path: str, stage: Stage = Stage.FITTED) -> Topology:
        """Return faces and edges of the part's solid; equal parts share one."""
        if (path, stage) not in self._topology_of:
            key = self.key(path, stage)
            if key not in self._topologies:
                self._topologies[key] = topology(self.solid(path, stage))
            self._topology_of[path, stage] = self._topologies[key]
        return self._topology_of[path, stage]

    def key(self, path: str, stage: Stage = Stage.FITTED) -> Key:
        """Return what the solid is made of: blank and cutters, rounded to 1e-6 mm; equal keys are equal solids."""
        if (path, stage) not in self._keys:
            part = self._parts[path]
            spans = [part.span(i) for i in range(3)]
            low = (_mm(spans[0][0]), _mm(spans[1][0]), _mm(spans[2][0]))
            high = (_mm(spans[0][1]), _mm(spans[1][1]), _mm(spans[2][1]))
            shapes = [*_empty_corners(part), *(s for _, s in _cuts(part, stage))]
            self._keys[path, stage] = ((low, high), tuple(snapped(s) for s in shapes))
        return self._keys[path, stage]

    def _problem(self, part: Part, stage: Stage, fault: SolidFault) -> Problem:
        """Return the problem of the first feature that cannot be cut by itself, or that leaves nothing."""
        solid = blank(*self.key(part.path, stage)[0])
        for feature, shape in _cuts(part, stage):
            try:
                solid = cut(solid, [snapped(shape)])
            except SolidFault as found:
                where = feature.origin.span or part.origin.span or Span("", 1, 1)
                return Problem("cut-fails", where, f"{part.path}: {feature.title} cannot be cut: {found}")
        return Problem("cut-fails", part.origin.span or Span("", 1, 1), f"{part.path} cannot be made: {fault}")


def _cuts(part: Part, stage: Stage) -> list[tuple[Feature, Shape]]:
    """Return the cutters of the features up to a stage, with their features."""
    last = ORDER.index(stage)
    return [
        (feature, c.shape)
        for feature in part.features
        for c in feature.made.cuts
        if ORDER.index(c.stage or feature.stage) <= last
    ]


def _empty_corners(part: Part) -> list[Shape]:
    """Return cutters for the corners of the blank's box that neither the nominal box nor an allowance fills."""
    spans = [part.span(i) for i in range(3)]
    grown = [Face(i, s) for i in range(3) for s in (0, 1) if spans[i][s] != (part.size[i] if s else 0)]
    out: list[Shape] = []
    for n, a in enumerate(grown):
        for b in grown[n + 1 :]:
            if a.axis != b.axis:
                low = [float(s[0]) - OVER for s in spans]
                high = [float(s[1]) + OVER for s in spans]
                for face in (a, b):
                    if face.side:
                        low[face.axis] = float(part.size[face.axis])
                    else:
                        high[face.axis] = 0.0
                out.append(box((low[0], low[1], low[2]), (high[0], high[1], high[2])))
    return out


def _mm(value: Any) -> float:
    return round(float(value), 6) + 0.0


def _vec(v: Vec) -> Vec:
    return (_mm(v[0]), _mm(v[1]), _mm(v[2]))


def _frame(f: Frame) -> Frame:
    rows = tuple(tuple(round(c, 12) + 0.0 for c in row) for row in f.rotation)
    return Frame(rows, _vec(f.origin))  # type: ignore[arg-type]


def _outline(o: Outline) -> Outline:
    return Outline(
        tuple(
            Edge(
                (_mm(e.end[0]), _mm(e.end[1])),
                None if e.centre is None else (_mm(e.centre[0]), _mm(e.centre[1])),
                e.ccw,
            )
            for e in o.edges
        )
    )


def snapped(shape: Shape) -> Shape:
    """Return the shape with lengths rounded to 1e-6 mm and directions to 1e-12."""
    if isinstance(shape, HalfSpace):
        n = shape.normal
        return HalfSpace(_vec(shape.point), (round(n[0], 12) + 0.0, round(n[1], 12) + 0.0, round(n[2], 12) + 0.0))
    if isinstance(shape, Extrusion):
        holes = tuple(_outline(hole) for hole in shape.holes)
        return Extrusion(_outline(shape.outline), _frame(shape.frame), _mm(shape.low), _mm(shape.high), holes)
    assert isinstance(shape, Revolution)
    return replace(shape, profile=_outline(shape.profile), frame=_frame(shape.frame))
