"""What leads a router over a trench: an edge that a fence rides on, or a straightedge clamped to the wood. mm.

The bit turns clockwise, seen from above the router. In a trench the router pulls to the left of its way: a straightedge
that is clamped to the wood stands on the left; a fence that is screwed to the router rides on an edge on the right, so that
the pull draws it against that edge. Geometry of the cut; common practice.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.geometry.inside import holds
from docgen.geometry.shapes import HalfSpace, Shape, Vec
from docgen.piece.model import Part
from docgen.piece.operations.runs import cut_off
from docgen.piece.records import Face, Feature, Stage, Travel
from docgen.units import Number

FENCE = "fence to the near wall"
"""The value of a groove's set-up that tells how far a fence's face stands from the cutter."""

REACH = 200
"""How far an ordinary router's fence reaches from the cutter, mm. Common practice; the router's own rods rule."""

BRIDGED = 50
"""How much of an edge may be missing in one go, mm: a fence, some 150 to 200 long, slides over that. Common practice."""

HANGS = 15
"""How deep under the base a fence touches the edge, mm. Common practice."""

STATION = 5.0
"""mm along a run from place to place at which is asked whether its edge still stands."""

NEAR = 0.5
"""mm by which a point is taken inside a face, to ask what is left there."""


def across(run: Travel) -> int:
    """Return the part's axis square to a run, in its face."""
    return 3 - run.face.axis - run.along


def near(run: Travel) -> Face:
    """Return the side of the part from which the near wall of a trench is told."""
    return run.near if run.near is not None else Face(across(run), 0)


def opposite(side: Face) -> Face:
    """Return the side opposite."""
    return Face(side.axis, 1 - side.side)


def off(part: Part, run: Travel, side: Face) -> Number:
    """Return how far the wall of a trench that looks at a side lies from it, mm."""
    at, half = run.at[side.axis], run.wide / 2
    return part.size[side.axis] - at - half if side.side else at - half


def fence_edge(part: Part, feature: Feature, run: Travel) -> Face | None:
    """Return the edge on which a fence rides: the near one, else the other; None where neither stands or is in reach."""
    first = near(run)
    edges = (first, opposite(first))
    return next((e for e in edges if float(off(part, run, e)) <= REACH and _rides(part, feature, run, e)), None)


def sawn_away(part: Part, feature: Feature, run: Travel, side: int) -> bool:
    """Return whether a side of the part is gone, all through the wood, where a run comes to it: a notch took it.

    A slanted end does not count: what is measured from it goes by its long point.
    """
    shapes = [s for s in _earlier(part, feature) if not isinstance(s, HalfSpace)]
    low, high = 0.0, float(part.size[run.along])
    half = max(float(run.wide) / 2 - NEAR, 0.0)
    for aside in {-half, 0.0, half}:
        point = [float(v) for v in run.at]
        point[run.along] = high - NEAR if side else low + NEAR
        point[across(run)] += aside
        if not _gone(part, shapes, run.face, (point[0], point[1], point[2]), float(part.size[run.face.axis])):
            return False
    return True


def _rides(part: Part, feature: Feature, run: Travel, edge: Face) -> bool:
    """Return whether an edge stands all along a run, but for what a fence slides over."""
    if cut_off(part, edge):
        return False
    shapes = _earlier(part, feature)
    missing = 0.0
    for point in _stations(part, run):
        beside = list(point)
        beside[edge.axis] = float(part.size[edge.axis]) - NEAR if edge.side else NEAR
        stands = not _gone(part, shapes, run.face, (beside[0], beside[1], beside[2]), HANGS)
        # Where the part itself has ended, the run has too.
        missing = 0.0 if stands or _gone(part, shapes, run.face, point, HANGS) else missing + STATION
        if missing > BRIDGED:
            return False
    return True


def _stations(part: Part, run: Travel) -> Iterator[Vec]:
    """Yield the places along a run, in the middle of its trench."""
    low, high = part.span(run.along)
    start, stop = float(low if run.start is None else run.start), float(high if run.stop is None else run.stop)
    for step in range(int((stop - start) / STATION) + 1):
        point = [float(v) for v in run.at]
        point[run.along] = start + step * STATION
        yield (point[0], point[1], point[2])


def _earlier(part: Part, feature: Feature) -> list[Shape]:
    """Return what other cuts take of the part before it is glued; what comes late, with the arrises, is still there."""
    others = (f for f in part.features if f is not feature and f.stage is Stage.PART)
    return [c.shape for f in others if not any(s.late for s in f.made.settings) for c in f.made.cuts]


def _gone(part: Part, shapes: Sequence[Shape], face: Face, at: Vec, deep: float) -> bool:
    """Return whether the wood under a point of a face is taken, down to `deep`."""
    thick = float(part.size[face.axis])
    for share in (0.05, 0.35, 0.65, 0.95):
        into = min(deep, thick) * share
        point = list(at)
        point[face.axis] = thick - into if face.side else into
        if not any(holds(shape, (point[0], point[1], point[2])) for shape in shapes):
            return False
    return True
