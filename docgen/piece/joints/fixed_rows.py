"""Rows of screws that fix a panel on what lies behind it: the strip that the two share, the places along it, the holes."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from docgen.piece.bench import Bench
from docgen.piece.faults import Fault, figure
from docgen.piece.joints.fastening import PILOT, clear_holes, flush, milled, wood_screws
from docgen.piece.joints.meeting import NEAR, moved, outward, seen
from docgen.piece.joints.telling import neat
from docgen.piece.model import Fastener, Part
from docgen.piece.operations.ground import Ground
from docgen.piece.operations.hole import On
from docgen.piece.records import Face, Origin
from docgen.project.fields import Choice, Count, Field, Length, Many, PartName
from docgen.project.statements import Bound
from docgen.trade.drills import Drill, at_least
from docgen.trade.fasteners import HEAD, WoodScrew
from docgen.units import Number, Units


@dataclass(frozen=True, slots=True)
class Strip:
    """Where a panel lies on another part: its face there, the axis of the row, from–to along it, and where the row stands."""

    inner: Face
    run: int
    low: Number
    high: Number
    level: Number


def strip(panel: Part, host: Part, edge: Number | None, units: Units) -> Strip:
    """Return the strip that a panel shares with a part behind it; the row stands `edge` in from the panel's own edge.

    Where no edge is said, and where the strip lies at no edge of the panel, as at a shelf, the row stands in the middle of
    what the two share. `Fault` where there is none.
    """
    at = seen(host, panel)
    if at is None:
        raise Fault("fixed-askew", f"{panel.path} stands askew to {host.path}: no row of screws follows it", "screws")
    low, high, thick = at.low[2], at.high[2], panel.size[2]
    sides = [low < -NEAR and -NEAR <= high <= thick + NEAR, high > thick + NEAR and -NEAR <= low <= thick + NEAR]
    spans = [(max(at.low[i], 0), min(at.high[i], panel.size[i])) for i in (0, 1)]
    if sides.count(True) != 1 or any(b - a <= NEAR for a, b in spans):
        message = f"no face of {panel.path} lies on {host.path}: there is nothing behind it to screw into"
        raise Fault("parts-do-not-meet", message, "screws", "a part that lies behind the panel")
    run = 0 if spans[0][1] - spans[0][0] >= spans[1][1] - spans[1][0] else 1
    near, far = spans[1 - run]
    wide = panel.size[1 - run]
    first, last = near <= NEAR, far >= wide - NEAR
    level = (near + far) / 2
    if edge is None:
        level = neat(level, units) if near < neat(level, units) < far else level
    elif first != last:
        level = edge if first else wide - edge
    if edge is not None and not near < level < far:
        message = f"screws {figure(edge)} in from the edge of {panel.path} miss {host.path}, which lies behind {figure(far - near)} of it"
        raise Fault("screw-beside-part", message, "screws", f"less than {figure(far - near)}")
    return Strip(Face(2, sides.index(True)), run, *spans[run], level)


def both(panel: Part, row: Strip, edge: Number | None) -> tuple[Strip, Strip]:
    """Return two rows for a panel that lies on a part with its whole width, `edge` in from its two edges; `Fault` otherwise."""
    wide = panel.size[1 - row.run]
    if edge is None or not 0 < edge < wide / 2:
        message = f"two rows of screws in {panel.path} want their distance from its edges"
        raise Fault("screw-beside-part", message, "screws", f"edge: less than {figure(wide / 2)}")
    return replace(row, level=edge), replace(row, level=wide - edge)


def spots(row: Strip, *, apart: Number, ends: Number, units: Units) -> tuple[On, ...]:
    """Return the places of the screws on the panel's face: the same distance apart, no more than `apart`, `ends` from the ends.

    Those between are set to half a millimetre or 1/32 in. A row with no room for two has one screw in its middle.
    """
    free = row.high - row.low - 2 * ends
    count = 1 if free <= 0 else 1 + math.ceil(float(free / apart) - 1e-9)
    along: list[Number] = [(row.low + row.high) / 2]
    if count > 1:
        step = free / (count - 1)
        along = [row.low + ends + step * n for n in range(count)]
        along[1:-1] = [neat(v, units) for v in along[1:-1]]
    return tuple((a, row.level) if row.run == 0 else (row.level, a) for a in along)


def driven(bench: Bench, values: Bound, path: str) -> int:
    """Drill the panel for its rows, note the screws of each part behind it, and return how many there are."""
    said, panel = values["screws"], bench.part(path)
    screw, pilot = wood_screws(bench, said, "screws")
    engagement = said["length"] - panel.size[2]
    if engagement <= 0:
        message = f"a screw of {figure(said['length'])} ends inside {path}, {figure(panel.size[2])} thick"
        raise Fault("screw-too-short", message, "screws", "a longer screw")
    through = screw.clearance
    if said["over"]:
        kinds = ("metric",) if bench.units.system == "mm" else ("fraction",)
        through = at_least(through.diameter + Fraction(said["over"]), kinds=kinds) or through
    if said["rows"] > 2:
        raise Fault("fixed-count", f"screws stand in {said['rows']} rows", "screws", "rows: 1, or 2")
    count = 0
    for into in said["into"]:
        host = bench.part(into)
        row = strip(panel, host, said["edge"], bench.units)
        rows = both(panel, row, said["edge"]) if said["rows"] > 1 else (row,)
        ends = said["apart"] / 2 if said["ends"] is None else said["ends"]
        points = tuple(p for r in rows for p in spots(r, apart=said["apart"], ends=ends, units=bench.units))
        count += len(points)
        how = (bench.next_name(), pilot.name, engagement, through)
        _row(bench, values, (panel, host), row.inner, points, screw, how)
    return count


def _row(
    bench: Bench, values: Bound, parts: tuple[Part, Part], inner: Face, points: tuple[On, ...], screw: WoodScrew,
    how: tuple[str, str, Number, Drill],
) -> None:  # fmt: skip
    """Drill one row through the panel, and note its screws and what they hold."""
    (panel, host), (name, pilot, engagement, through) = parts, how
    flat, said = values["screws"]["head"] == "flat", values["screws"]
    face, origin = Face(2, 1 - inner.side), Origin(values.span, values.because)
    hole = clear_holes(through, name, face, points, host, flush(screw) if flat else None, ruled=True)
    bench.add(panel.path, hole, title=f"screw holes {name} into {host.path}")
    ground, way = Ground(panel, face), panel.frame.direction(outward(inner))
    bench.fastener(
        Fastener(
            key=name,
            what=values["with"],
            thread=f"No. {screw.gauge}",
            length=said["length"],
            count=len(points),
            head=(HEAD * screw.shank, 0),
            grip=panel.size[2],
            engagement=engagement,
            drill_depth=engagement,
            points=tuple(moved(panel.frame.point(ground.at(*p)), way, 0.0) for p in points),
            direction=way,
            parts=(panel.path, host.path),
            depends=milled(panel),
            notes=(values["note"],) if values["note"] else (),
            origin=origin,
            pilot=pilot,
            lays=True,
        )
    )


SCREWS = (
    Field("into", Many(PartName()), "the parts behind, each with a row of its own", required=True),
    Field("gauge", Count(least=0), "number of the screw: 4 for No. 4", required=True),
    Field("length", Length(above=0), "of the screws, as bought", required=True),
    Field("apart", Length(above=0), "no further apart than this", required=True),
    Field(
        "edge",
        Length(above=0),
        "how far in from the panel's edge, where a part lies behind that edge; absent: the middle of what both share",
    ),
    Field("rows", Count(), "2 for a panel that lies on its part all over: a row along either edge", default="1"),
    Field("over", Length(least=0), "how much wider the holes are, so that the part can be shifted", default="0"),
    Field(
        "ends", Length(above=0), "how far the first and the last stand from the ends of a row; absent: half of apart"
    ),
    Field("head", Choice(("flat", "pan")), "flat ones are countersunk, pan ones lie on the face", default="flat"),
    PILOT,
)
"""The fields of screws that are set out in rows."""
