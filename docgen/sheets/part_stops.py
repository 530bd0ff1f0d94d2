"""Where a round-over stops its face has no edge to measure to: a hook in thin line shows how far it reaches."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.drawing.breaks import Gone, moved
from docgen.drawing.dimensions.wanted import Linear, Wanted
from docgen.drawing.records import Path, Pen
from docgen.drawing.unfold import Station, normal
from docgen.geometry.lines import Drawn
from docgen.geometry.shapes import Vec
from docgen.piece.model import Part
from docgen.piece.records import Size, SizeKind, Stage, Travel
from docgen.sheets.part_broken import axis_of

NEAR = 0.05  # mm in the wood: a line whose end lies so near shows where the cut stops
LEAST = 0.9  # mm on paper: the hook lies so far within the edge at least
LONG = 7.0  # mm on paper: how much of the cut's inner limit is drawn before its end


def hooks(
    part: Part, station: Station, drawn: Drawn, wanted: Sequence[Wanted], scale: float, gone: Sequence[Gone] = ()
) -> list[Path]:
    """Return a thin hook for each end of a cut along an arris that a figure of the view ends at and no line shows.

    It runs along the inner limit of the cut and across it to the arris, about the view's paper origin; `gone` is what the
    view lacks.
    """
    told = {size for w in wanted if isinstance(w, Linear) for size in w.sizes}
    broken = axis_of(station.view) if gone else None
    out: dict[tuple[tuple[float, float], ...], None] = {}
    for travel, size in _stops(part):
        if size not in told or station.face not in (travel.face, travel.edge):
            continue
        wide = max(_wide(travel, station), LEAST / scale)
        back = 1.0 if _begins(travel, size) else -1.0
        corners = _hook(travel, station, size.end, wide, back * LONG / scale)
        seen = [station.view.flat(p) for p in corners]
        seen = [moved(p, broken, gone) if broken is not None else p for p in seen]
        if not _shown(station, size, seen[2], drawn):
            out[tuple((x * scale, y * scale) for x, y in seen)] = None
    return [Path(points, Pen.THIN) for points in out]


def _stops(part: Part) -> Iterator[tuple[Travel, Size]]:
    """Yield each way of a cutter along an arris with the sizes that say where it stops."""
    for f in part.features:
        for travel in (s.travel for s in f.made.settings if s.travel is not None and s.travel.edge is not None):
            for size in f.made.sizes if f.stage is Stage.PART else ():
                on = all(abs(size.end[i] - float(travel.at[i])) < NEAR for i in range(3) if i != travel.along)
                if size.kind is SizeKind.LENGTH and on and abs(size.along[travel.along]) > 1 - 1e-6:
                    yield travel, size


def _wide(travel: Travel, station: Station) -> float:
    return float(travel.wide if station.face == travel.face else travel.deep)


def _begins(travel: Travel, size: Size) -> bool:
    """Return True for the end from which the cut runs on toward the far end of the part."""
    return travel.start is not None and (
        travel.stop is None or size.end[travel.along] < (float(travel.start) + float(travel.stop)) / 2
    )


def _hook(travel: Travel, station: Station, end: Vec, wide: float, back: float) -> tuple[Vec, Vec, Vec]:
    """Return the inner limit of the cut a little before its end, at its end, and the arris there."""
    assert travel.edge is not None
    inward = normal(travel.edge if station.face == travel.face else travel.face)
    inner = (end[0] - inward[0] * wide, end[1] - inward[1] * wide, end[2] - inward[2] * wide)
    run = [0.0, 0.0, 0.0]
    run[travel.along] = back
    return (inner[0] + run[0], inner[1] + run[1], inner[2] + run[2]), inner, end


def _shown(station: Station, size: Size, end: tuple[float, float], drawn: Drawn) -> bool:
    """Return True when a line of the view ends at the level of a point along the size."""
    x, y = station.view.flat(size.along)
    level = end[0] * x + end[1] * y
    ends = (p for s in (*drawn.visible, *drawn.hidden) for p in (s.a, s.b))
    return any(abs(p[0] * x + p[1] * y - level) < NEAR for p in ends)
