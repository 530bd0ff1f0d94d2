"""Views with hidden lines: what of each edge is seen, told as strokes on paper."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from docgen.geometry.culling import culled
from docgen.geometry.lines import VIEWS, ArcOf, Drawn, Stroke, View
from docgen.geometry.scene import Candidates, Scene, candidates, contours, gather, lines, tangent_lines
from docgen.geometry.shapes import Frame
from docgen.geometry.strokes import drawn
from docgen.geometry.topology import Topology
from docgen.geometry.visibility import Stretches, stretches

__all__ = ["VIEWS", "ArcOf", "Drawn", "Stroke", "View", "draw"]

MERGE = 0.02  # mm; without a scale, only lines within the sag of each other are one
KEPT = 8  # views: a packet has about that many of the whole piece


def draw(
    items: Sequence[tuple[Topology, Frame]],
    view: View,
    *,
    merge: float = MERGE,
    hidden: bool = True,
    tangent: bool = False,
    whole: bool = False,
) -> Drawn:
    """Return the visible and hidden strokes of `items`, each placed by its frame, seen by `view`.

    Of lines closer to each other than `merge` mm (a pen's width divided by the scale) the nearest is drawn.
    Without `hidden` the hidden strokes are left out, which is quicker. With `tangent` there are visible strokes as well
    where one surface runs on into another, as along a rounded edge. With `whole` the outline of each item stays closed, however close its lines. No items give no strokes.
    """
    scene, told = _told(tuple(items), view, hidden)
    if tangent:
        more = _tangent(scene)
        told = Stretches(*(np.concatenate([getattr(told, k), getattr(more, k)]) for k in ("ends", "edge", "seen")))
    return drawn(scene, told, merge, whole=whole)


def _tangent(scene: Scene) -> Stretches:
    """Return what is seen of the edges between two looking faces that run on into each other."""
    line = lines(scene, hidden=False)
    edge = tangent_lines(scene)
    told = stretches(scene, Candidates(edge, np.zeros(len(edge), dtype=bool)), contours(scene, line))
    return Stretches(told.ends[told.seen], told.edge[told.seen], told.seen[told.seen])


def seen_scene(items: Sequence[tuple[Topology, Frame]], view: View) -> Scene:
    """Return what `draw` without hidden lines looks at: all faces that look at the viewer and are not buried."""
    return _told(tuple(items), view, False)[0]


@lru_cache(maxsize=KEPT)
def _told(items: tuple[tuple[Topology, Frame], ...], view: View, hidden: bool) -> tuple[Scene, Stretches]:
    """Return what is seen and hidden; kept, since sheets ask for one view at several scales."""
    whole = gather(items, view)
    line = lines(whole, hidden=hidden)
    found = candidates(whole, line)
    scene = culled(whole, items, line, int((~found.back).sum()))
    back = found.back | scene.buried[found.edge]
    found = Candidates(found.edge, back) if hidden else Candidates(found.edge[~back], back[~back])
    told = stretches(scene, found, contours(scene, line))
    if not hidden:
        told = Stretches(told.ends[told.seen], told.edge[told.seen], told.seen[told.seen])
    return scene, told
