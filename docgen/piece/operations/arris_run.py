"""What all edge shapes have in common: the arris they run along, where they start and stop, how the bit travels."""

from __future__ import annotations

from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.ground import axis, length, level, need, positive, spot, third, within
from docgen.piece.operations.runs import Places, at_arris
from docgen.piece.records import Axis, Face, Mark, Setting, Size, Travel
from docgen.units import Number


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
    part: Part, run: tuple[Face, Face, Number | None, Number | None], radius: Number, label: str, bit: str
) -> Setting:
    """Return the router's set-up for a bit of a radius with a bearing; `run` is face, edge, start and stop."""
    face, edge, start, stop = run
    travel = bit_travel(part, third(face.axis, edge.axis), face, edge, start, stop, radius)
    values = ((f"{bit}, radius", radius, "length"),)
    return Setting("router", label, values, places=edge_places(part, travel, edge, label), travel=travel, late=True)


def edge_places(part: Part, run: Travel, edge: Face, label: str) -> Places:
    """Return the arris and where the edge shape stops along it."""
    ends = [(side, end) for side, end in enumerate((run.start, run.stop)) if end is not None]
    stops = (
        (f"{label} stops from the {part.side(Face(run.along, s))}", part.size[run.along] - e if s else e, "length")
        for s, e in ends
    )
    return (*at_arris(part, run.face, edge), *stops)
