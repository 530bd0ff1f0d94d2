"""How a cutter runs over a part: where it enters and leaves, what covers the exit or backs it, where the guide lies.

A router's bit turns clockwise, seen from above the router. On an open edge the wood lies on the left of its way; in a trench
it pulls to the left (`guides`). Geometry of the cut; common practice.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from docgen.geometry.inside import holds
from docgen.geometry.make import cross
from docgen.geometry.shapes import HalfSpace, Vec
from docgen.piece.model import Part, Piece
from docgen.piece.operations.ground import level
from docgen.piece.records import Face, Feature, Stage, Travel
from docgen.schedules.guides import across, fence_edge, near, opposite
from docgen.trade.cutters import TABLE_WAY, WOOD_LEFT

BACKED = "back the exit with waste"

CLAMPED = "straightedge clamped along it: no edge for a fence"
"""How a trench along the part is led where a fence has nothing to ride on."""

EITHER = "with the wood on the left on either face"
"""How shoulders go that are cut from two faces: from the other face the other way."""

SLANT = 1e-3
"""Of a unit normal: a plane nearer than this to square or along is no slanted end."""

NEAR = 0.5
"""mm by which a point is taken inside or outside a face, to ask what lies there."""

STEPS = 24
"""Points through a part's thickness at which is asked whether another cut takes what a cutter leaves there."""

NO_NUMBERS: Mapping[str, int] = MappingProxyType({})


def feed(
    piece: Piece, part: Part, feature: Feature, run: Travel, numbers: Mapping[str, int] = NO_NUMBERS, passes: int = 0
) -> str:
    """Return in words how the cutter runs: in, out, exit and guide; `numbers` of parts by path, where not their own.

    With several `passes` between two stops it is told that there are. What is cut from two faces is told for both.
    """
    return (
        _feed(piece, part, feature, run, numbers, passes)
        if not run.also
        else _either(piece, part, feature, run, numbers)
    )


def _either(piece: Piece, part: Part, feature: Feature, run: Travel, numbers: Mapping[str, int]) -> str:
    """Return how shoulders are run from two faces: the way turns round with the face, and so does the side of the exit."""
    by_side: dict[int, dict[str, None]] = {}
    for one in faces(part, run):
        out = _leaving(piece, part, feature, one)
        by_side.setdefault(out, {})[_exit(piece, part, feature, one, out, numbers)] = None
    fates = [" and ".join(by_side[side]) for side in sorted(by_side)]
    if len(set(fates)) == 1:
        return "; ".join(s for s in (EITHER, fates[0]) if s)
    sides = [part.plain_side(Face(run.along, side)) for side in sorted(by_side)]
    return "; ".join([EITHER, *(f"at the {side} {fate}" for side, fate in zip(sides, fates, strict=True))])


def by_each(told: list[tuple[str, str]]) -> str:
    """Return ways with what each holds for before it, a line each; the last words that all of them end with stand once."""
    ways = [way.split("; ") for _, way in told]
    same = 0
    while all(len(w) > same + 1 and w[-1 - same] == ways[0][-1 - same] for w in ways):
        same += 1
    lines = [f"{name}: {'; '.join(w[: len(w) - same])}" for (name, _), w in zip(told, ways, strict=True)]
    return "\n".join([*lines, *(["; ".join(ways[0][-same:])] if same else [])])


def faces(part: Part, run: Travel) -> tuple[Travel, ...]:
    """Return a run for each face that is cut in the same way."""
    out = [replace(run, also=())]
    for face, deep in run.also:
        at = list(run.at)
        at[face.axis] = level(part, face)
        out.append(replace(run, face=face, at=(at[0], at[1], at[2]), deep=deep, also=()))
    return tuple(out)


def _feed(piece: Piece, part: Part, feature: Feature, run: Travel, numbers: Mapping[str, int], passes: int) -> str:
    out = _leaving(piece, part, feature, run)
    if run.start is not None and run.stop is not None:
        end = f"and run to the other{', in passes' if passes > 1 else ''}"
        if run.edge is not None or not run.wide:
            return f"plunge at one stop {end}" + (f", {WOOD_LEFT}" if run.edge is not None else "")
        begin = part.plain_side(Face(run.along, 1 - out))
        return "; ".join([f"plunge at the stop by the {begin} {end}", *_guide(part, feature, run)])
    marked = (run.start is not None, run.stop is not None)
    if run.edge is not None and run.along == 0 and not any(marked):
        return WOOD_LEFT
    exit_ = "" if marked[out] else _exit(piece, part, feature, run, out, numbers)
    return "; ".join(s for s in (_way(run, part, out, marked), exit_, *_guide(part, feature, run)) if s)


def _way(run: Travel, part: Part, out: int, marked: tuple[bool, bool]) -> str:
    """Return where the cutter enters and leaves: over a tongue it runs to the end of the blank, where no shoulder stops it."""
    enter, leave = (part.plain_side(Face(run.along, side)) for side in (1 - out, out))
    if not any(marked):
        return f"through from the {enter} to the {leave}"
    plunge = "start at the mark" if run.edge is not None else "plunge at the stop"
    begin = plunge if marked[1 - out] else f"in at the {enter}"
    end = "stop at the mark" if marked[out] else f"out at the {leave}"
    on = f", the router on the {part.side(run.face)}" if run.edge is not None else ""
    return f"{begin}, {end}{on}"


def on_table(fed: str) -> str:
    """Return the same way on a router table: where the cutter enters and leaves stays, as the wood is turned over with it."""
    way = f"the wood{TABLE_WAY}"
    return way if fed in ("", WOOD_LEFT) else f"{fed}; {way}"


def straightedge(piece: Piece, part: Part, feature: Feature, run: Travel) -> Face | None:
    """Return the side of a trench on which a straightedge stands, on the left of the way; None where something else leads it."""
    if run.edge is not None or not run.wide or (run.along == 0 and fence_edge(part, feature, run) is not None):
        return None
    out = _leaving(piece, part, feature, run)
    high = Face(across(run), 1)
    return opposite(high) if leaving(run.face, high, run.along) == out else high


def _leaving(piece: Piece, part: Part, feature: Feature, run: Travel) -> int:
    """Return the side at which the cutter leaves: as edge or guide ask for, through a part where the exit is covered."""
    if run.edge is not None:
        return leaving(run.face, run.edge, run.along)
    edge = fence_edge(part, feature, run) if run.along == 0 else None
    led = leaving(run.face, edge or opposite(near(run)), run.along)
    if run.along == 0 or (run.start, run.stop) != (None, None):
        return led
    covered = [bool(_covered(piece, part, feature, run, side)) for side in (0, 1)]
    return led if covered[led] or not covered[1 - led] else 1 - led


def leaving(face: Face, edge: Face, along: int) -> int:
    """Return the side toward which the cutter runs with `edge` on the right, what lies away from it on the left.

    With n out of the face and e out of the edge the left of the travel d is n × d, so d = (−e) × n.
    """
    n, e = _out(face), _out(edge)
    minus = (-e[0], -e[1], -e[2])
    d = cross(minus, n)
    return 1 if d[along] > 0 else 0


def _out(face: Face) -> Vec:
    sign = 1.0 if face.side else -1.0
    return (sign * (face.axis == 0), sign * (face.axis == 1), sign * (face.axis == 2))


def _exit(piece: Piece, part: Part, feature: Feature, run: Travel, side: int, numbers: Mapping[str, int]) -> str:
    """Return what becomes of the exit: along the grain nothing breaks out, across it the edge does unless it is covered."""
    if run.along == 0:
        return ""
    return _covered(piece, part, feature, run, side, numbers) or BACKED


def _covered(
    piece: Piece,
    part: Part,
    feature: Feature,
    run: Travel,
    side: int,
    numbers: Mapping[str, int] = NO_NUMBERS,
) -> str:
    """Return what takes the exit away or hides it; nothing when it stays in sight."""
    later = takes_exit(part, feature, run, side)
    if later is not None:
        return f"the {later.title} takes the exit away"
    behind = _point(part, run, side, outside=True)
    at = part.frame.point(behind)
    for other in piece.parts:
        if other.path != part.path and _stays(piece, part, other) and _within(other, at):
            number = numbers.get(other.path, other.number)
            return f"no backing: part {number}, {other.called}, hides later what breaks out there"
    return ""


def _stays(piece: Piece, part: Part, other: Part) -> bool:
    """Return whether two parts stay where they are to each other: not a drawer and the case that it slides on, nor a door."""
    drawers = [{d.name for d in piece.drawers if path in d.parts} for path in (part.path, other.path)]
    return part.group == other.group and drawers[0] == drawers[1]


def takes_exit(part: Part, feature: Feature, run: Travel, side: int) -> Feature | None:
    """Return another cut of the part that takes the whole exit at a side of the run, so that it has to come later.

    A tenon's shoulders come out in both faces: a rabbet in one of them leaves the other to break out.
    """
    at = _point(part, run, side, outside=False)
    own = [cut.shape for cut in feature.made.cuts]
    found = [p for p in _section(part, run, at) if any(holds(shape, q) for shape in own for q in _beside(run, p))]
    exit_ = found or [at]
    others = (f for f in part.features if f is not feature)
    return next((f for f in others if all(any(holds(c.shape, p) for c in f.made.cuts) for p in exit_)), None)


def _beside(run: Travel, at: Vec) -> tuple[Vec, ...]:
    """Return a point at an edge with the one beyond it: what a tongue's shoulders take lies outside the box."""
    if run.edge is None:
        return (at,)
    beyond = list(at)
    beyond[run.edge.axis] += 2 * NEAR if run.edge.side else -2 * NEAR
    return at, (beyond[0], beyond[1], beyond[2])


def _section(part: Part, run: Travel, at: Vec) -> Iterator[Vec]:
    """Yield points over the section at an exit: through the wood under the run's middle, and near both its walls."""
    into, beside = run.face.axis, across(run)
    low, high = (float(v) for v in part.span(into))
    half = float(run.wide) / 2 - NEAR if run.edge is None else 0.0
    for step in range(STEPS):
        for aside in (0.0, -half, half) if half > 0 else (0.0,):
            point = list(at)
            point[into] = low + (high - low) * (step + 0.5) / STEPS
            point[beside] += aside
            yield (point[0], point[1], point[2])


def _point(part: Part, run: Travel, side: int, *, outside: bool) -> Vec:
    """Return the middle of the exit, a little inside the blank or outside it."""
    low, high = part.span(run.along)
    beyond = NEAR if outside else -NEAR
    at = [float(v) for v in run.at]
    at[run.along] = float(high) + beyond if side else float(low) - beyond
    into = float(run.deep) / 2
    at[run.face.axis] += -into if run.face.side else into
    if run.edge is not None:
        at[run.edge.axis] = float(part.size[run.edge.axis]) - NEAR if run.edge.side else NEAR
    return (at[0], at[1], at[2])


def _within(part: Part, at: Vec) -> bool:
    own = part.frame.inverse().point(at)
    spans = (part.span(i) for i in range(3))
    return all(float(low) <= own[i] <= float(high) for i, (low, high) in enumerate(spans))


def _guide(part: Part, feature: Feature, run: Travel) -> tuple[str, ...]:
    """Return on which edge a fence rides along the part; a straightedge across it stands where the page's head says."""
    if run.edge is not None or run.along != 0:
        return ()
    edge = fence_edge(part, feature, run)
    return (CLAMPED if edge is None else f"fence on the {part.plain_side(edge)}",)


def leaves_by_slant(part: Part, run: Travel | None) -> bool:
    """Return whether a cut along the part runs out through an end that is cut at a slant: it is run before that end is cut."""
    if run is None or run.along != 0 or (run.start, run.stop) != (None, None):
        return False
    planes = [c.shape for f in part.features if f.stage is Stage.PART for c in f.made.cuts]
    return any(isinstance(p, HalfSpace) and SLANT < abs(p.normal[0]) < 1 - SLANT for p in planes)


def exits(run: Travel) -> Iterator[int]:
    """Yield the sides at which the run leaves the part."""
    yield from (side for side, end in enumerate((run.start, run.stop)) if end is None)
