"""Dados and grooves: how deep they go into the thickness, and whether a stopped one ends in wood."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.geometry.make import cross, dot, plus, unit
from docgen.geometry.outlines import bounds, flatten, pieces
from docgen.geometry.shapes import Extrusion, Vec
from docgen.piece.model import Part
from docgen.piece.operations.ground import axis as axis_way
from docgen.piece.records import Face, Feature

TITLE = "dados and grooves: depth, and what their stops end in"
CODES = ("trench-deep", "trench-over-third", "stop-opens", "stop-thin")
LOOKS = looks.Looks(lambda piece: any(True for p in piece.parts for _ in trenches(p)))

DEEP, USUAL = 1 / 2, 1 / 3
"""Of the thickness: deeper than half weakens the part; a third is usual. Common practice."""

THIN = 15.0
"""mm: boards thinner than this, as drawer sides are, are commonly grooved to half; over a third is not told. Common practice."""

LEAST_WALL = 3.0
"""mm of wood to leave between a stop and the next cut or edge, about 1/8 in. Common practice."""

RUNS = 0.4
"""A trench runs out at an end or over at least this share of its part; shorter ones are mortises."""

SAME = 1e-3
OPENS = 0.1  # mm: wood that begins further from the stop is another wall, behind an opening


@dataclass(frozen=True, slots=True)
class Trench:
    """A flat-bottomed cut into one face that runs along another axis, in the part's axes, mm."""

    feature: Feature
    axis: int  # into the wood
    side: int  # 0 from the low face, 1 from the high face
    along: int
    low: Vec
    high: Vec
    way: Vec  # of its run, a unit vector: off the axis `along` where it runs askew
    reach: tuple[float, float]  # along `way`, from the middle to its ends or to the part's own, mm
    leans: tuple[Vec, float, float] | None = None  # unit normal of leaning walls, and where both lie along it, mm

    @property
    def middle(self) -> Vec:
        """The middle of the trench's box."""
        return tuple((a + b) / 2 for a, b in zip(self.low, self.high, strict=True))  # type: ignore[return-value]

    def at(self, run: float) -> Vec:
        """Return the point `run` along the trench from its middle."""
        return plus(self.middle, self.way, run)

    def stops(self, part: Part) -> Iterator[int]:
        """Yield the ends (0 low, 1 high) at which it stops inside its part."""
        for end in (0, 1):
            place = self.at(self.reach[end])
            if all(SAME < place[i] < float(part.size[i]) - SAME for i in (0, 1)):
                yield end


def trenches(part: Part) -> Iterator[Trench]:
    """Yield the cuts of a part that are dados or grooves by their shape: walls on both sides, and a run."""
    for feature in part.features:
        if feature.made.holes:
            continue
        for cut in feature.made.cuts:
            if isinstance(cut.shape, Extrusion) and not cut.shape.holes:
                found = _trench(part, feature, cut.shape) or _leaning(part, feature, cut.shape)
                if found is not None:
                    yield found


def box_of(shape: Extrusion) -> tuple[Vec, Vec]:
    """Return the box of an extrusion in the part's axes."""
    (x0, y0), (x1, y1) = bounds(shape.outline)
    corners = [shape.frame.point((x, y, z)) for x in (x0, x1) for y in (y0, y1) for z in (shape.low, shape.high)]
    low = tuple(min(c[i] for c in corners) for i in range(3))
    high = tuple(max(c[i] for c in corners) for i in range(3))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _trench(part: Part, feature: Feature, shape: Extrusion) -> Trench | None:
    axis = next((i for i in range(3) if abs(abs(shape.frame.rotation[i][2]) - 1) < 1e-9), None)
    if axis != 2:  # depth is judged against the thickness; other faces have wood enough behind them
        return None
    low, high = box_of(shape)
    size = [float(s) for s in part.size]
    opens = [low[axis] < -SAME, high[axis] > size[axis] + SAME]
    if opens[0] == opens[1]:
        return None  # right through, or inside
    walls = [i for i in (0, 1) if low[i] > SAME and high[i] < size[i] - SAME]
    runs = [i for i in (0, 1) if _runs(part, i, low, high)]
    along = next((i for i in runs if 1 - i in walls), None)
    if along is None:
        return None
    way = _way(shape, along)
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2)
    return Trench(feature, axis, 1 if opens[1] else 0, along, low, high, way, _reach(shape, way, middle, size))


def _leaning(part: Part, feature: Feature, shape: Extrusion) -> Trench | None:
    """Return the trench whose two walls lean alike to the face: a prism along its run, its section a parallelogram."""
    along = next((i for i in (0, 1) if abs(abs(shape.frame.rotation[i][2]) - 1) < 1e-9), None)
    corners = [shape.frame.point((*edge.end, 0.0)) for edge in shape.outline.edges if edge.centre is None]
    if along is None or len(corners) != 4 or feature.made.allowances:
        return None
    sides = [plus(b, a, -1.0) for a, b in pairwise((*corners, corners[0]))]
    walls = [unit(d) for d in sides if abs(d[2]) > SAME]
    leaning = len(walls) == 2 and SAME < abs(walls[0][2]) < 1 - SAME and abs(dot(*walls)) > 1 - SAME
    (low, high), size = box_of(shape), [float(s) for s in part.size]
    opens = [low[2] < -SAME, high[2] > size[2] + SAME]
    across = 1 - along
    inside = low[across] > SAME and high[across] < size[across] - SAME
    if not leaning or opens[0] == opens[1] or not inside or not _runs(part, along, low, high):
        return None
    way = axis_way(along)
    normal = unit(cross(way, walls[0]))
    levels = sorted(dot(p, normal) for p in corners)
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2)
    reach = (max(low[along], 0.0) - middle[along], min(high[along], size[along]) - middle[along])
    leans = (normal, levels[0], levels[-1])
    return Trench(feature, 2, 1 if opens[1] else 0, along, low, high, way, reach, leans)


def _way(shape: Extrusion, along: int) -> Vec:
    """Return the unit vector of a trench's run: the axis `along`, or its longest wall where no wall lies along an axis."""
    straight = [(a, edge.end) for a, edge in pieces(shape.outline) if edge.centre is None]
    walls = [[shape.frame.point((x, y, 0.0)) for x, y in wall] for wall in straight]
    ways = [unit(plus(b, a, -1.0)) for a, b in sorted(walls, key=lambda wall: math.dist(*wall))]
    if not ways or any(max(map(abs, way)) > 1 - SAME for way in ways):
        return axis_way(along)
    way = ways[-1]
    return way if way[along] > 0 else (-way[0], -way[1], -way[2])


def _reach(shape: Extrusion, way: Vec, middle: Vec, size: Sequence[float]) -> tuple[float, float]:
    """Return how far a trench reaches along `way` from its middle, within the box of its part, mm."""
    chords = [shape.frame.point((x, y, 0.0)) for x, y in flatten(shape.outline)]
    runs = [dot(plus(p, middle, -1.0), way) for p in chords]
    low, high = min(runs), max(runs)
    for i in (0, 1):
        if abs(way[i]) > SAME:
            ends = sorted(((0.0 - middle[i]) / way[i], (size[i] - middle[i]) / way[i]))
            low, high = max(low, ends[0]), min(high, ends[1])
    return low, high


def _runs(part: Part, i: int, low: Vec, high: Vec) -> bool:
    size = float(part.size[i])
    out = low[i] < SAME or high[i] > size - SAME
    return (out or high[i] - low[i] >= RUNS * size) and high[i] - low[i] > high[1 - i] - low[1 - i]


def check(subject: Subject) -> Iterator[Finding]:
    """Yield trenches over half (care) or a third (note) of the thickness, and stops that do not end in wood."""
    for part in subject.piece.parts:
        for trench in trenches(part):
            yield from _depth(subject, part, trench)
            for end in trench.stops(part):
                yield from _stop(subject, part, trench, end)


def left_behind(subject: Subject, part: Part, trench: Trench) -> float:
    """Return the wood left behind the trench's bottom, mm: the median of five rays along it."""
    mesh = subject.own_mesh(part.path)
    size = float(part.size[2])
    low, high = trench.reach
    way: Vec = (0.0, 0.0, -1.0 if trench.side else 1.0)
    starts: list[Vec] = []
    for share in (0.15, 0.325, 0.5, 0.675, 0.85):
        x, y, _ = trench.at(low + (high - low) * share)
        starts.append((x, y, size + 1.0 if trench.side else -1.0))
    found = [sum(b - a for a, b in wood) for wood in mesh.woods(starts, [way] * len(starts))]
    return median(found)


def _depth(subject: Subject, part: Part, trench: Trench) -> Iterator[Finding]:
    thick = float(part.size[2])
    gone = thick - left_behind(subject, part, trench)
    if gone <= thick * USUAL + SAME:
        return
    deep = gone > thick * DEEP + SAME
    if not deep and (thick < THIN - SAME or gone > thick * DEEP - SAME):
        return  # thin stock, or just half: a lap
    yield Finding(
        Grade.CARE if deep else Grade.NOTE,
        "trench-deep" if deep else "trench-over-third",
        (part.path,),
        f"{trench.feature.title} takes {subject.say(gone)} of the {subject.say(thick)} of {part.path}; {subject.say(thick - gone)} is left.",
        "a dado or groove takes a third of the thickness, half at the most; in stock under 15 mm (5/8 in) half is usual",
        "common practice",
        where(trench.feature.origin, part.origin),
        (("taken", gone, "mm"), ("left", thick - gone, "mm"), ("share", gone / thick, "")),
        "a shallower dado, or a thicker board" if deep else "",
    )


def _stop(subject: Subject, part: Part, trench: Trench, end: int) -> Iterator[Finding]:
    """Yield a finding where a stop is not followed by wood, or by too little of it."""
    x, y, _ = trench.at(trench.reach[end])
    deep = (max(trench.low[2], 0.0) + min(trench.high[2], float(part.size[2]))) / 2
    way = trench.way if end else (-trench.way[0], -trench.way[1], -trench.way[2])
    wood = subject.own_mesh(part.path).wood((x, y, deep), way)
    opens = not wood or wood[0][0] > OPENS
    wall = 0.0 if opens else wood[0][1] - wood[0][0]
    if not opens and wall >= LEAST_WALL:
        return
    title, toward = trench.feature.title, part.word(Face(trench.along, end))
    message = (
        f"Toward the {toward} {title} in {part.path} does not end in wood: another cut takes its wall away there."
        if opens
        else f"Toward the {toward} {title} in {part.path} ends with only {subject.say(wall)} of wood before the next cut or edge."
    )
    lacks = subject.say(LEAST_WALL - wall)
    advice = (
        f"let it run out at the {toward} (a housing says through: {toward}) where it is covered, or stop it before that cut"
        if opens
        else f"stop it {lacks} earlier; where the end of a panel sets the stop, let the panel reach {lacks} less into the part that "
        "crosses there (a shallower groove), or take thicker boards"
    )
    yield Finding(
        Grade.CARE,
        "stop-opens" if opens else "stop-thin",
        (part.path,),
        message,
        "a stopped dado or groove ends in at least 3 mm (1/8 in) of wood after all cuts",
        "common practice",
        where(trench.feature.origin, part.origin),
        (("wall", wall, "mm"),),
        advice,
    )
