"""A place of a view drawn once more, larger, within a ring, with its figures and its name: ``Detail Z   1 : 1``."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from docgen.drawing import views
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.dimensions.wanted import Arranged, Callout, Rules, Wanted
from docgen.drawing.lettering import box
from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import Bounds, around, moved, point_bounds
from docgen.drawing.records import Area, Point, Record, Text
from docgen.drawing.ring import ring, within


@dataclass(frozen=True, slots=True)
class Shown:
    """A view or a detail about its own origin, with all that it fills, and its dimensions."""

    records: tuple[Record, ...]
    bounds: Bounds
    arranged: Arranged

    def pieces(self, metrics: Metrics, by: tuple[float, float]) -> list[Bounds]:
        """Return what it fills where it is moved to, piece by piece: the drawing, each of its figures, its name."""
        drawn = self.records[: -1 - len(self.arranged.records)]
        groups = [drawn, *(p.records for p in self.arranged.placed), self.records[-1:]]
        return [around(_bounds(moved(r, *by), metrics) for r in group) for group in groups if group]


def _bounds(record: Record, metrics: Metrics) -> Bounds:
    if isinstance(record, Text):
        return box(record, metrics).bounds()
    if isinstance(record, Area):
        return point_bounds(p for ring in record.rings for p in ring)
    return point_bounds(p for line in views.chords(record) for p in line)


def engine_on(lines: Iterable[Record], outline: Bounds, scale: float, height: float, metrics: Metrics) -> Engine:
    """Return what places the figures of a view about the paper origin; they may be `height` mm high."""
    chords = [c for r in lines for c in views.chords(r)]
    return Engine(
        chords, outline=outline, scale=scale, at=(0.0, 0.0), rules=Rules(height=height, apart=True), metrics=metrics
    )


def mark(engine: Engine, middles: Iterable[Record]) -> None:
    """Note thin lines that figures may cross, and on which no text lies."""
    for r in middles:
        for a, b in views.chords(r):
            engine.occupied.add_line(a, b, "centre")


def lettered(letter: str, at: Point, radius: float) -> Callout:
    """Return the letter at the ring of a detail, view mm."""
    return Callout(f"~{letter}", at, radius, (letter,), near=True)


def enlarged(
    lines: Sequence[Record],
    middles: Sequence[Record],
    wanted: Sequence[Wanted],
    *,
    at: Point,
    radius: float,
    letter: str,
    scale: tuple[int, int],
    height: float,
    metrics: Metrics,
) -> Shown:
    """Return what of lines at a scale about the paper origin lies within a ring, with figures `height` mm high.

    The ring's middle `at` and `radius` are in mm of the wood, in the view's own directions.
    """
    s = scale[0] / scale[1]
    x, y, r = at[0] * s, at[1] * s, radius * s
    edge = ring((x, y), r)
    lines, middles = within(lines, (x, y), r), within(middles, (x, y), r)
    engine = engine_on(lines, (x - r, y - r, x + r, y + r), s, height, metrics)
    mark(engine, [*middles, edge])
    arranged = engine.arrange(wanted)
    name = Text((x, arranged.bounds[1] - 4.5), f"Detail {letter}   {scale[0]} : {scale[1]}", 2.5, "middle")
    bounds = around([arranged.bounds, box(name, metrics).bounds()])
    return Shown((*lines, *middles, edge, *arranged.records, name), bounds, arranged)
