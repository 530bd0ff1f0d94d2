"""What all edge shapes have in common: the arris they run along, where they start and stop, how the bit travels."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

from docgen.geometry.make import frame_along
from docgen.geometry.outlines import seams
from docgen.geometry.shapes import Edge, Outline, Revolution
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.ground import axis, length, level, need, outward, positive, settled, spot, third, within
from docgen.piece.operations.runs import Places, at_arris
from docgen.piece.records import Axis, Face, Mark, Setting, Size, Travel
from docgen.trade.cutters import router_for
from docgen.units import Number

BEARING = Fraction(254, 40)
"""mm: radius of the bearing of an edge bit, 1/2 in over. Common practice; the bit in hand rules."""


def run_out_of(leg: Number) -> Number:
    """Return how far before a stop the full shape ends: there the bit stands, and what it leaves runs out round.

    With a bearing of radius b on the edge and a bit of radius b + leg at the face, √((b + leg)² − b²) (plane geometry).
    """
    return settled(math.sqrt(float((BEARING + leg) ** 2 - BEARING**2)))


def full_run(start: Number | None, stop: Number | None, leg: Number, label: str) -> tuple[Number | None, Number | None]:
    """Return where the full shape starts and stops along the arris; `Fault` where the bit finds no room between the stops."""
    reach = run_out_of(leg)
    a, b = (None if start is None else start + reach), (None if stop is None else stop - reach)
    need(
        a is None or b is None or a < b,
        "run-range",
        f"the bit runs out {figure(reach)} before each stop of the {label}: between them it never cuts its full shape",
        "stop",
        "stops further apart, or no stops",
    )
    return a, b


def round_ends(
    part: Part, sides: tuple[Face, Face], ends: tuple[Number | None, Number | None], profile: Outline
) -> Iterator[Revolution]:
    """Yield what the bit takes beyond the ends of its full run: a quarter turn about its axis, on from the prism's end.

    `profile` is the waste across the arris: x from the bit's axis into the wood, y out of the face.
    """
    face, edge = sides
    along = third(face.axis, edge.axis)
    out, into = axis(face.axis, outward(face)), axis(edge.axis, -outward(edge))
    widest = max(e.end[0] for e in profile.edges)
    turn = tuple(seams((widest, 0.0), Edge((0.0, widest), (0.0, 0.0))))
    for side, end in enumerate(ends):
        if end is not None:
            beside = level(part, edge) + (BEARING if edge.side else -BEARING)
            frame = frame_along(spot({along: end, edge.axis: beside, face.axis: level(part, face)}), out, into)
            ahead = (frame.rotation[along][1] > 0) == bool(side)
            yield Revolution(profile, frame, turn if ahead else tuple(-a for a in reversed(turn)))


def arris_axis(part: Part, face: Face, edge: Face, start: Number | None, stop: Number | None, label: str) -> Axis:
    """Return the axis along the arris; `Fault` for faces that do not meet or a run outside the part."""
    need(face.axis != edge.axis, "arris-faces", f"the {label} lies between two neighbouring faces", "along")
    along = third(face.axis, edge.axis)
    low, high = part.span(along)
    a, b = low if start is None else start, high if stop is None else stop
    within(part, along, a, b, label, "stop")
    need(a < b, "run-range", f"the {label} stops before it starts", "stop", "stops that leave a run")
    return along


def room(part: Part, face: Face, size: Number, label: str, field: str) -> None:
    """Raise a `Fault` unless `size` fits the wood under `face`."""
    thick = part.size[face.axis]
    need(
        0 < size <= thick,
        "radius-range",
        f"the {label} takes {figure(size)} of {figure(thick)}",
        field,
        "more than 0, no more than the wood there",
    )


def stop_sizes(part: Part, run: tuple[Face, Face, Number | None, Number | None], label: str) -> tuple[Size, ...]:
    """Return how far from the ends of the part an edge shape stops; `run` is face, edge, start and stop."""
    face, edge, start, stop = run
    along = third(face.axis, edge.axis)
    on = {edge.axis: level(part, edge), face.axis: level(part, face)}
    out = []
    for value, side, name in ((start, 0, "start"), (stop, 1, "stop")):
        if value is not None:
            datum: Number = part.size[along] if side else 0
            out.append(
                length(
                    spot(on | {along: datum}),
                    spot(on | {along: value}),
                    axis(along, -1.0 if side else 1.0),
                    positive(datum - value),
                    (name,),
                    face,
                    label=f"{label} stops",
                )
            )
    return tuple(out)


def stop_marks(along: Axis, face: Face, start: Number | None, stop: Number | None, label: str) -> tuple[Mark, ...]:
    """Return the marks of a run's ends, where it runs along the part."""
    if along != 0:
        return ()
    return tuple(Mark(p, w, f"{label} stops", face) for p, w in ((start, -1), (stop, 1)) if p is not None)


def bit_travel(
    part: Part, along: Axis, face: Face, edge: Face, start: Number | None, stop: Number | None, leg: Number
) -> Travel:
    """Return how a bit with a bearing runs along the arris."""
    at = spot({face.axis: level(part, face), edge.axis: level(part, edge)})
    return Travel(face, along, at, start, stop, edge, leg, leg)


def bit_setting(
    part: Part,
    run: tuple[Face, Face, Number | None, Number | None],
    radius: Number,
    label: str,
    bit: str,
    *,
    full: tuple[Number | None, Number | None] | None = None,
) -> Setting:
    """Return the router's set-up for a bit of a radius with a bearing; `run` is face, edge, start and stop.

    `full` is where the full shape ends, where that is before the stops.
    """
    face, edge, start, stop = run
    values = ((f"{bit}, radius", radius, "length"),)
    travel = bit_travel(part, third(face.axis, edge.axis), face, edge, *(full or (start, stop)), radius)
    places = edge_places(part, travel, edge, (start, stop), label)
    return Setting(router_for(radius), label, values, places=places, travel=travel, late=True)


def edge_places(part: Part, run: Travel, edge: Face, stops: tuple[Number | None, Number | None], label: str) -> Places:
    """Return the arris, where the edge shape stops along it, and how far before that the bit turns back."""
    told: list[tuple[str, Number | str, str]] = []
    for side, (end, full) in enumerate(zip(stops, (run.start, run.stop), strict=True)):
        if end is None or full is None:
            continue
        name = part.side(Face(run.along, side))
        told.append((f"{label} stops from the {name}", part.size[run.along] - end if side else end, "length"))
        if full != end:
            told.append(
                (f"bit's middle stops from the {name}", part.size[run.along] - full if side else full, "length")
            )
    return (*at_arris(part, run.face, edge), *told)
