"""Views with hidden lines: what of each edge is seen, told as strokes on paper."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.geometry.lines import VIEWS, ArcOf, Drawn, Stroke, View
from docgen.geometry.scene import Candidates, candidates, gather
from docgen.geometry.shapes import Frame
from docgen.geometry.strokes import drawn
from docgen.geometry.topology import Topology
from docgen.geometry.visibility import stretches

__all__ = ["VIEWS", "ArcOf", "Drawn", "Stroke", "View", "draw"]

MERGE = 0.02  # mm; without a scale, only lines within the sag of each other are one


def draw(items: Sequence[tuple[Topology, Frame]], view: View, *, merge: float = MERGE, hidden: bool = True) -> Drawn:
    """Return the visible and hidden strokes of `items`, each placed by its frame, seen by `view`.

    Of lines closer to each other than `merge` mm (a pen's width divided by the scale) the nearest is drawn.
    Without `hidden` the hidden strokes are left out, which is quicker. No items give no strokes.
    """
    scene = gather(items, view)
    found = candidates(scene)
    if not hidden:
        found = Candidates(found.edge[~found.back], found.back[~found.back], found.contour[~found.back])
    told = stretches(scene, found)
    if not hidden:
        told = type(told)(told.ends[told.seen], told.edge[told.seen], told.seen[told.seen])
    return drawn(scene, told, merge)
