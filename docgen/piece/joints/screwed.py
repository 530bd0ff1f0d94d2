"""Screwed: wood screws through clearance holes in one part into pilot holes in another, countersunk or under plugs.

Screws in slots hold solid wood down and let it move across its grain: their heads lie on the face, never in a sink.
"""

from __future__ import annotations

from dataclasses import dataclass

from docgen.geometry.shapes import Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.fastening import (
    PILOT,
    clear_holes,
    flush,
    milled,
    on_a_slope,
    pilot_holes,
    places,
    wood_screws,
)
from docgen.piece.joints.filling import Features, plug
from docgen.piece.joints.meeting import moved, on_face, outward
from docgen.piece.joints.telling import fault
from docgen.piece.model import Fastener, Item, Joint, Loose, Part, Sets
from docgen.piece.operations import saying
from docgen.piece.operations.ground import axis
from docgen.piece.operations.slot import SlottedHole
from docgen.piece.records import Authority, Face, Origin, Sink
from docgen.project.fields import Choice, Count, Field, Length, Many, Nested, PartName, Place, Word
from docgen.project.statements import Bound
from docgen.trade.fasteners import HEAD, WoodScrew
from docgen.units import Number, plain_length

FREE = "do not glue; draw tight so that the wood can still move"


@dataclass(frozen=True, slots=True)
class Driving:
    """One screw worked out: `grip` is the wood under its head, `engagement` what is in the other part; mm."""

    grip: Number
    engagement: Number
    sink: Sink | None


def work_out(
    screw: WoodScrew,
    *,
    thickness: Number,
    length: Number,
    plug: tuple[Number, Number] | None = None,
    washer: Number | None = None,
) -> Driving:
    """Return grip and engagement of a screw of `length` through `thickness`; `plug` is (diameter, depth) of its bore.

    A countersunk head ends flush, so that the whole length counts from the face; a round one lies on its `washer`,
    which is as thick as is said.
    """
    if washer is not None:
        return Driving(thickness, length - thickness - washer, None)
    if plug is None:
        return Driving(thickness, length - thickness, flush(screw))
    grip = thickness - plug[1]
    return Driving(grip, length - grip, Sink(plug[0], plug[1]))


def build(bench: Bench, values: Bound) -> None:
    """Drill both parts and note the screws."""
    screw, pilot = wood_screws(bench, values, "gauge")
    held, other = bench.part(values["through"]), bench.part(values["into"])
    sloped = on_a_slope(values, held, other)
    found_places = places(bench, values, held, other) if sloped is None else None
    if sloped is not None:
        (inner, points), against = sloped, None
    elif found_places is not None:
        (inner, against), points = found_places
    else:
        return
    plug, slot = values["plug"], values["slot"]
    if plug is not None and slot is not None:
        message = "a screw under a plug cannot travel in a slot"
        bench.fault(values, "plug", "plug-over-slot", message, "either a plug or a slot")
        return
    bore = None if plug is None else (plug["diameter"], plug["depth"])
    thickness = held.size[inner.axis]
    washer = None if slot is None else slot["washer"]
    work = work_out(screw, thickness=thickness, length=values["length"], plug=bore, washer=washer)
    if work.engagement <= 0 or work.grip <= 0:
        fault(
            values,
            "length",
            "screw-too-short",
            f"a screw of {figure(values['length'])} has {figure(max(work.engagement, 0))} left beyond {held.path}",
            "a longer screw, or a deeper plug hole",
            on=bench,
        )
        return
    name = bench.next_name()
    mouth = Face(inner.axis, 1 - inner.side)
    if slot is None:
        spots = tuple(on_face(held, mouth, p) for p in points)
        clear = clear_holes(screw.clearance, name, mouth, spots, other, work.sink)
        made = [bench.add(held.path, clear, title=f"screw holes {name}").name]
    else:
        made = _slots(bench, slot, screw, name, held, mouth, points)
    features = [(held.path, n) for n in made]
    if against is not None:
        spots = tuple(on_face(other, against, p) for p in points)
        drilled = pilot_holes(pilot, name, against, spots, held, work.engagement)
        features.append((other.path, bench.add(other.path, drilled, title=f"pilot holes {name}").name))
    by_hand = "" if against is not None else pilot.name
    _note(bench, values, name, screw, work, (held, inner), other, points, tuple(features), by_hand)


def _slots(
    bench: Bench, slot: Bound, screw: WoodScrew, name: str, held: Part, mouth: Face, points: tuple[Vec, ...]
) -> list[str]:
    """Cut a slot round each screw, whose middle it is, and return the features' names."""
    along = saying.part_axis(held, saying.DIRECTIONS.index(slot["run"]))
    title = f"slot for screw {name}"
    return [
        bench.add(
            held.path,
            SlottedHole(mouth, on_face(held, mouth, p), along, slot["length"], screw.clearance.diameter, name=name),
            title=title,
        ).name
        for p in points
    ]


def _travel(part: Part, slot: Bound | None, screw: WoodScrew) -> Vec:
    """Return how far a screw travels to either side in its slot, in the piece's axes; nothing without one."""
    if slot is None:
        return (0.0, 0.0, 0.0)
    along = axis(saying.part_axis(part, saying.DIRECTIONS.index(slot["run"])))
    way, half = part.frame.direction(along), float(slot["length"] - screw.clearance.diameter) / 2
    return (way[0] * half, way[1] * half, way[2] * half)


def _note(
    bench: Bench,
    values: Bound,
    name: str,
    screw: WoodScrew,
    work: Driving,
    held: tuple[Part, Face],
    other: Part,
    points: tuple[tuple[float, float, float], ...],
    features: tuple[tuple[str, str], ...],
    by_hand: str,
) -> None:
    part, inner = held
    way = part.frame.direction(outward(inner))
    back = float(part.size[inner.axis])
    sunk = 0 if values["plug"] is None else values["plug"]["depth"]
    origin = Origin(values.span, values.because)
    bench.fastener(
        Fastener(
            key=name,
            what=f"wood screw, {_head(values)}",
            thread=f"No. {screw.gauge}",
            length=values["length"],
            count=len(points),
            washer=0 if values["slot"] is None else values["slot"]["washer"],
            head=(HEAD * screw.shank if work.sink is None else work.sink.diameter, 0),
            grip=work.grip,
            engagement=work.engagement,
            drill_depth=work.engagement,
            points=tuple(moved(p, way, float(sunk) - back) for p in points),
            direction=way,
            parts=(part.path, other.path),
            depends=milled(part),
            notes=(
                *(() if values["slot"] is None else (FREE,)),
                *((f"pilot holes {by_hand}, drilled through these when the parts lie together",) if by_hand else ()),
            ),
            origin=origin,
            slot=_travel(part, values["slot"], screw),
            pilot=by_hand,
        )
    )
    if values["plug"] is not None:
        size = " × ".join(plain_length(values["plug"][k], bench.units) for k in ("diameter", "depth"))
        note = "of the same wood, cut across the grain, grain laid with the part's; glued over the head, where it stands proud, and pared flush"
        plug = f"{size} {bench.units.sign}"
        bench.item(Item("plug", len(points), plug, Authority.CUT, note, origin, f"{name}: {part.path}", Sets.HEADS))
    figures: tuple[tuple[str, Number, str], ...] = (
        ("grip", work.grip, "length"),
        ("engagement", work.engagement, "length"),
        ("length", values["length"], "length"),
    )
    title = f"{part.path} screwed to {other.path}"
    plugs = _plugs(values, part, tuple(moved(p, way, -back) for p in points), way, features)
    bench.joint(Joint("screwed", title, (part.path, other.path), features, figures, origin, loose=plugs))


def _head(values: Bound) -> str:
    """Return the head: a cone for a countersink, flat below for a flat-bottomed bore under a plug and for a slot's washer."""
    return "round head" if values["slot"] is not None else "pan head" if values["plug"] is not None else "flat head"


def _plugs(values: Bound, part: Part, mouths: tuple[Vec, ...], way: Vec, features: Features) -> tuple[Loose, ...]:
    """Return the plugs over the heads, if any."""
    said = values["plug"]
    if said is None:
        return ()
    grain, size = part.frame.direction((1.0, 0.0, 0.0)), (said["diameter"], said["depth"])
    return tuple(plug(p, way, grain, size, part.path, features[:1]) for p in mouths)


WORD = Word(
    name="screwed",
    room="joint",
    help="wood screws through clearance holes in one part into pilot holes in another, countersunk or under plugs",
    fields=(
        Field("through", PartName(), "the part under the heads", required=True),
        Field("into", PartName(), "the part that holds the screws", required=True),
        Field("at", Many(Place()), "places of the screws, by two directions of the piece", required=True),
        Field("gauge", Count(least=0), "number of the screw: 8 for No. 8", required=True),
        Field("length", Length(above=0), "of the screws, as bought", required=True),
        PILOT,
        Field(
            "plug",
            Nested(
                (
                    Field("diameter", Length(above=0), "of the plug", required=True),
                    Field("depth", Length(above=0), "of its bore", required=True),
                )
            ),
            "the heads lie under plugs; absent: countersunk flush",
        ),
        Field(
            "slot",
            Nested(
                (
                    Field("run", Choice(saying.DIRECTIONS), "the direction in which the wood moves", required=True),
                    Field("length", Length(above=0), "over all, round ends included", required=True),
                    Field("washer", Length(above=0), "thickness of the washer under the head", default="1 mm"),
                )
            ),
            "round-headed screws go through slots, so that solid wood can move",
        ),
    ),
    example="screwed: {through: cleat, into: side, at: [{deep: 2, up: 9}], gauge: 8, length: 1 1/4}",
    build=build,
)
