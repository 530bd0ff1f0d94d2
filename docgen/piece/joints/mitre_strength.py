"""What holds a mitre besides glue: a spline in grooves along the cut, keys in slots across the glued corner."""

from __future__ import annotations

import math

from docgen.geometry.make import cross, dot, unit
from docgen.geometry.shapes import Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints import filling
from docgen.piece.joints.mitring import Corner, cut_frame
from docgen.piece.joints.spline import spline_item
from docgen.piece.joints.telling import fault, neat
from docgen.piece.joints.tenoning import FAR, Into, planes, room
from docgen.piece.model import Item, Loose, Part, Sets
from docgen.piece.operations.ground import axis as axis_unit
from docgen.piece.operations.ground import settled, third
from docgen.piece.operations.mitre_slots import CutGroove, KeySlots
from docgen.piece.records import Authority, Face, Feature, Origin, Stage
from docgen.project.fields import Count, Field, Length
from docgen.project.statements import Bound
from docgen.units import Number, plain_length

Made = tuple[list[tuple[str, Feature]], tuple[tuple[str, Number, str], ...], tuple[Loose, ...]]
"""Features by their parts, the figures of the joint, and what is set into the cuts."""


def spline(bench: Bench, values: Bound, at: Corner, paths: tuple[str, str]) -> Made:
    """Groove both cuts for a spline that keeps `wall` to every face; as near the middle of that room as it can be."""
    said = values["spline"]
    one, two = (bench.part(p) for p in paths)
    frame = one.frame
    normal, along = frame.direction(at.normal), frame.direction(unit(at.diagonal))
    back = (-normal[0], -normal[1], -normal[2])
    deep = float(said["depth"])
    sides = (Into(planes(one, (at.ends[0],)), back, deep), Into(planes(two, (at.ends[1],)), normal, deep))
    length_run = float(one.size[at.run])
    inner = frame.point(tuple(c + length_run / 2 * (i == at.run) for i, c in enumerate(at.inner)))  # type: ignore[arg-type]
    low, high = room(inner, along, sides, float(said["wall"]))
    wide = float(said["thickness"])
    if not (-FAR < low < high < FAR) or high - low < wide - 1e-6:
        message = f"a groove {figure(said['depth'])} deep leaves no {figure(said['wall'])} of wood all round"
        fault(values, "spline", "spline-no-room", message, "a shallower groove, or a thinner spline", on=bench)
        return [], (), ()
    out = neat((low + high - wide) / 2, bench.units) if said["from heel"] is None else said["from heel"]
    if said["from heel"] is None and not low <= float(out) <= high - wide:
        out = settled((low + high - wide) / 2)
    if not low - 1e-6 <= float(out) <= high - wide + 1e-6:
        message = f"a spline {figure(out)} from the short point leaves less than {figure(said['wall'])} of wood"
        expected = f"{figure(settled(low))} to {figure(settled(high - wide))}"
        fault(values, "spline", "spline-no-room", message, expected, on=bench)
        return [], (), ()
    made: list[tuple[str, Feature]] = []
    run = frame.direction(axis_unit(at.run))
    for part, end, into in ((one, at.ends[0], back), (two, at.ends[1], normal)):
        cut = cut_frame(part, frame.point(at.inner), along, into, run, length_run)
        op = CutGroove(end, cut, settled(length_run), out, said["thickness"], said["depth"])
        made.append((part.path, bench.add(part.path, op, title="groove for a spline")))
    sizes = (said["thickness"], 2 * said["depth"] - said["clearance"], settled(length_run))
    bench.item(spline_item(sizes, bench.units, Origin(values.span, values.because), f"{paths[0]} to {paths[1]}"))
    out_by = float(out) + wide / 2
    middle = tuple(c + along[i] * out_by for i, c in enumerate(inner))
    clear = said["clearance"] / 2
    strip = filling.spline(middle, (run, normal), sizes, clear, paths, _sits(made), shows=True)  # type: ignore[arg-type]
    return made, (("spline thickness", sizes[0], "length"), ("spline width", sizes[1], "length")), (strip,)


def _sits(made: list[tuple[str, Feature]]) -> tuple[tuple[str, str], ...]:
    return tuple((path, feature.name) for path, feature in made)


def keys(bench: Bench, values: Bound, at: Corner, paths: tuple[str, str]) -> Made:
    """Saw slots across the glued corner, with equal wood between them, and note the keys."""
    said = values["keys"]
    one, two = (bench.part(p) for p in paths)
    long = math.sqrt(dot(at.diagonal, at.diagonal))
    if float(said["depth"]) >= long:
        message = (
            f"slots {figure(said['depth'])} deep come out inside the corner, {figure(settled(long))} from its arris"
        )
        fault(values, "keys", "keys-break-through", message, "shallower slots", on=bench)
        return [], (), ()
    wide, thick, count = one.size[at.run], said["thickness"], said["count"]
    gap = (wide - count * thick) / (count + 1)
    places = [gap * (k + 1) + thick * k + thick / 2 for k in range(count)]
    made: list[tuple[str, Feature]] = []
    for part, end in ((one, at.ends[0]), (two, at.ends[1])):
        outer, run, mine = _seen(one, part, at, end, places)
        first, step = min(mine), gap + thick if count > 1 else 0
        assert run == third(end.axis, outer.axis)
        op = KeySlots(end, outer, first, thick, said["depth"], step, count)
        made.append((part.path, bench.add(part.path, op, title="slots for keys", stage=Stage.GLUED)))
    units, chord = bench.units, 2 * said["depth"]
    size = " × ".join(plain_length(v, units) for v in (thick, said["depth"], chord)) + f" {units.sign}"
    note = "thickness × depth × length along the slot's bottom, and some to spare all round; grain across the corner"
    origin, where = Origin(values.span, values.because), f"{paths[0]} to {paths[1]}"
    bench.item(Item("key for a mitred corner", count, size, Authority.CUT, note, origin, where, Sets.SLOTS))
    fills = tuple(_key(one, at, p, (thick, said["depth"]), paths, _sits(made)) for p in places)
    told: tuple[tuple[str, Number, str], ...] = (
        ("keys", count, "count"),
        ("key thickness", thick, "length"),
        ("slot depth", said["depth"], "length"),
    )
    return made, told, fills


def _key(
    one: Part, at: Corner, place: Number, size: tuple[Number, Number], paths: tuple[str, str], sits: filling.Features
) -> Loose:
    """Return the key whose middle stands at `place` along the arris: square in from it, at 45° to both faces."""
    spot = tuple(float(place) if i == at.run else c for i, c in enumerate(at.outer))
    into = unit(tuple(math.copysign(1.0, at.inner[i] - at.outer[i]) * (i != at.run) for i in range(3)))  # type: ignore[arg-type]
    run = axis_unit(at.run)
    frame = one.frame
    ways = frame.direction(cross(into, run)), frame.direction(run)
    return filling.key(frame.point(spot), ways, size, paths, sits)  # type: ignore[arg-type]


def _seen(one: Part, part: Part, at: Corner, end: Face, places: list[Number]) -> tuple[Face, int, list[Number]]:
    """Return the outer face of the corner on `part`, the axis along the arris, and the places along it."""
    turned = part.frame.inverse().after(one.frame)
    run = max(range(3), key=lambda i: abs(turned.direction(axis_unit(at.run))[i]))
    arris = turned.point(at.outer)
    across = third(end.axis, run)
    outer = Face(across, 1 if abs(arris[across]) > abs(arris[across] - float(part.size[across])) else 0)

    def along(place: Number) -> Number:
        p: Vec = tuple(float(place) if i == at.run else c for i, c in enumerate(at.outer))  # type: ignore[assignment]
        return settled(turned.point(p)[run])

    return outer, run, [along(p) for p in places]


SPLINE = (
    Field("thickness", Length(above=0), "of the spline", required=True),
    Field("depth", Length(above=0), "of the groove in each mitre, square to the cut", required=True),
    Field("from heel", Length(least=0), "from the inside arris along the cut; absent: where most wood stays"),
    Field("wall", Length(least=0), "wood to be left to every face", default="3 mm"),
    Field("clearance", Length(least=0), "what the spline is narrower than both grooves", default="0.5 mm"),
)
"""The fields of a spline along a mitre."""

KEYS = (
    Field("count", Count(), "how many at the corner, with equal wood between them", required=True),
    Field("thickness", Length(above=0), "of the keys: the kerf of the saw that cuts their slots", required=True),
    Field("depth", Length(above=0), "of the slots, square in from the arris", required=True),
)
"""The fields of keys across a mitred corner."""
