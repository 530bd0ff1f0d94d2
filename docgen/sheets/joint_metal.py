"""Hardware in a section of a joint, as it is drawn: close hatching, and black where it is thin (ISO 128-50)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from docgen.drawing import views
from docgen.drawing.dimensions.wanted import Callout
from docgen.drawing.hatching import Cut, lines, pitches
from docgen.drawing.records import Area, Line, Path, Pen, Point
from docgen.geometry.section import Ring, Windowed
from docgen.sheets.joint_cut import CutView

THIN = 2.0  # mm on paper: what is thinner is filled
INSIDE = 0.7  # of its height: where the name of what has an outline alone is sought a place
SLOPES = (45.0, 135.0)  # degrees, of one piece of hardware and the next


@dataclass(frozen=True, slots=True)
class Drawn:
    """Hardware on paper: outlines, hatching, what is filled. The filled have their outlines too, for text to keep off."""

    edges: tuple[Path, ...]  # in phantom where no more is known than the room that it fills
    hatch: tuple[Line, ...]
    filled: tuple[Area, ...]
    about: tuple[Path, ...]


def drawn_metal(cut: CutView, scale: float, at: Point) -> Drawn:
    """Return the hardware of a section on paper."""
    edges: list[Path] = []
    hatch: list[Line] = []
    filled: list[Area] = []
    about: list[Path] = []
    for n, metal in enumerate(cut.metal):
        for piece in metal.shown:
            rings = tuple(tuple(views.on_paper(p, scale, at) for p in ring) for ring in piece.rings)
            if metal.thing.room:
                edges += [Path(tuple(views.on_paper(p, scale, at) for p in run), Pen.PHANTOM) for run in piece.edges]
                continue
            if thickness(piece) * scale < THIN:
                filled.append(Area(rings))
                about += [Path(ring, Pen.THIN, closed=True) for ring in rings]
                continue
            hatch += lines(rings, SLOPES[n % len(SLOPES)], pitches(Cut.METAL))
            edges += [Path(tuple(views.on_paper(p, scale, at) for p in run), Pen.VISIBLE) for run in piece.edges]
    return Drawn(tuple(edges), tuple(hatch), tuple(filled), tuple(about))


def names(cut: CutView) -> list[Callout]:
    """Return the names of the hardware of a section, each once, with a leader to an edge of it; view mm."""
    out: dict[str, Callout] = {}
    for metal in cut.metal:
        name = metal.thing.called
        if name and name not in out and metal.thing.room:  # there is room within the outline
            points = [p for piece in metal.shown for p in piece.rings[0]]
            (x0, y0), (x1, y1) = ((f(p[i] for p in points) for i in (0, 1)) for f in (min, max))
            out[name] = Callout(f"~{name}", ((x0 + x1) / 2, y0 + INSIDE * (y1 - y0)), 0.5, (name,), near=True)
        elif name and name not in out:
            sides = [(a, b) for piece in metal.shown for ring in piece.rings for a, b in pairwise([*ring, ring[0]])]
            sides.sort(key=lambda s: (-round(math.dist(*s), 3), s))
            spots = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in sides[:6]]
            out[name] = Callout(f"~{name}", spots[0], 0.0, (name,), others=tuple(spots[1:]))
    return list(out.values())


def thickness(piece: Windowed) -> float:
    """Return about how thick a piece of a cut is, mm: the thinner side of a rectangle of its area and circumference.

    What is rounder than a square has the side of that square.
    """
    half = sum(math.dist(a, b) for ring in piece.rings for a, b in pairwise([*ring, ring[0]])) / 2
    area = abs(sum(_area(ring) for ring in piece.rings))
    return (half - math.sqrt(half * half - 4 * area)) / 2 if half * half > 4 * area else math.sqrt(area)


def _area(ring: Ring) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*ring, ring[0]])) / 2
