"""Dowels: a row of dowel holes in each of two parts, on the faces in which they touch."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.filling import Features, dowel
from docgen.piece.joints.meeting import NEAR, Seen, distance, on_face, outward, seen, touching
from docgen.piece.joints.slanted_end import slanted
from docgen.piece.joints.telling import fault
from docgen.piece.model import Item, Joint, Loose, Part, Sets
from docgen.piece.operations.cut_frame import across
from docgen.piece.operations.ground import Ground, axis, in_plane, settled
from docgen.piece.operations.hole import Hole, On
from docgen.piece.operations.slanted_tenon import CutHoles
from docgen.piece.records import Authority, Face, Origin, Purpose
from docgen.project.fields import Count, Field, Length, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number, Units, plain_length, unit_length

DEEPER = {"inch": Fraction(254, 160), "mm": Fraction(3, 2)}
"""mm: how much deeper than its dowel each hole is, room for glue: 1/16 in or 1.5 mm. Common practice."""

FLAT = 180
"""Degrees: a brad-point bit, as dowel holes are drilled with (common practice), leaves a flat bottom."""


class NoRoom(Exception):
    """Dowels that do not fit the faces that touch; the text has `faults.figure`s."""


@dataclass(frozen=True, slots=True)
class Shared:
    """Where two parts touch, in the axes of the second: its face, the row's axis, from–to along it and across it."""

    on: Face
    along: int
    run: tuple[Number, Number]
    across: tuple[Number, Number]


def shared(at: Seen, on: Face, host: Part) -> Shared:
    """Return the rectangle in which the guest's box touches the host's face `on`; the row runs along its longer side."""
    spans = {i: (max(at.low[i], 0), min(at.high[i], host.size[i])) for i in in_plane(on)}
    u, v = in_plane(on)
    along = u if spans[u][1] - spans[u][0] >= spans[v][1] - spans[v][0] else v
    return Shared(on, along, spans[along], spans[u + v - along])


def row(where: Shared, *, count: int, diameter: Number, spacing: Number | None) -> tuple[On, ...]:
    """Return the dowels' places on the host's face, the row in the middle of the shared rectangle.

    Without a spacing each dowel stands in the middle of an equal share of the length. `NoRoom` when dowels would
    reach past the shared rectangle or run into each other.
    """
    (low, high), (near, far) = where.run, where.across
    if far - near < diameter:
        raise NoRoom(f"a dowel {figure(diameter)} thick does not fit faces that share {figure(far - near)}")
    step = (high - low) / Fraction(count) if spacing is None else spacing
    if count > 1 and step <= diameter:
        raise NoRoom(f"dowels {figure(diameter)} thick run into each other at a spacing of {figure(step)}")
    reach = step * (count - 1) + diameter
    if reach > high - low:
        raise NoRoom(f"{count} dowels reach over {figure(reach)}; the faces share {figure(high - low)}")
    middle, level = (low + high) / Fraction(2), (near + far) / Fraction(2)
    steps = [middle + step * (k - (count - 1) / Fraction(2)) for k in range(count)]
    return tuple((s, level) if where.along == in_plane(where.on)[0] else (level, s) for s in steps)


def opposite(at: Seen, on: Face, points: tuple[On, ...]) -> tuple[Face, tuple[On, ...]]:
    """Return the guest's face that touches the host's face `on`, and the same places on it."""
    mine = at.guest_face(Face(on.axis, 1 - on.side))
    hosts = in_plane(on)

    def place(axis: int, p: On) -> Number:
        k = at.axis[axis]
        value = p[hosts.index(k)]
        return value - at.low[k] if at.sign[axis] > 0 else at.high[k] - value

    u, v = in_plane(mine)
    return mine, tuple((place(u, p), place(v, p)) for p in points)


def build(bench: Bench, values: Bound) -> None:
    """Drill the rows in both parts, and note the dowels."""
    part, into = bench.part(values["part"]), bench.part(values["into"])
    deeper = DEEPER[bench.units.system]
    depths = (values["depth"], values["depth"] if values["depth into"] is None else values["depth into"])
    long = depths[0] + depths[1] - 2 * deeper
    at = seen(part, into)
    on = touching(at, into) if at is not None else None
    if at is not None and on is None:
        _apart(bench, values, part, into, at)
        return
    if min(depths) <= deeper:
        message = f"a hole {figure(min(depths))} deep holds no dowel: each is {figure(deeper)} deeper than its dowel"
        fault(values, "depth", "dowel-too-short", message, "deeper holes", on=bench)
        return
    if at is None or on is None:
        _slanted(bench, values, part, into, depths, long)
        return
    try:
        points = row(
            shared(at, on, into), count=values["count"], diameter=values["diameter"], spacing=values["spacing"]
        )
    except NoRoom as found:
        fault(values, "count", "dowels-no-room", str(found), "fewer, thinner or closer dowels", on=bench)
        return
    mine, places = opposite(at, on, points)
    name = bench.next_name()
    first = _hole(values, bench.units, name, mine, places, depths[0], into)
    second = _hole(values, bench.units, name, on, points, depths[1], part, marked=True)
    a = bench.add(part.path, first, title=f"dowel holes {name}")
    b = bench.add(into.path, second, title=f"dowel holes {name}")
    sits = ((part.path, a.name), (into.path, b.name))
    _note(bench, values, (part, into), long, sits, _pins(values, (part, into), on, points, depths, long, sits))


def _slanted(bench: Bench, values: Bound, part: Part, into: Part, depths: tuple[Number, Number], long: Number) -> None:
    """Cut an end that leans to lie on the other part, and drill both square to that face.

    The holes of the face are measured: on the cut end there is no edge to measure from that a rule finds.
    """
    found = slanted(bench, values, part, into, "part")
    if found is None:
        return
    cut, frame, on = found
    edges, span = across(cut, part, frame)
    run = sorted(edges.values(), key=sum)
    where = Shared(Face(2, 1), 0, (settled(run[0][1]), settled(run[1][0])), (settled(span[0]), settled(span[1])))
    try:
        places = row(where, count=values["count"], diameter=values["diameter"], spacing=values["spacing"])
    except NoRoom as told:
        fault(values, "count", "dowels-no-room", str(told), "fewer, thinner or closer dowels", on=bench)
        return
    points = tuple(on_face(into, on, part.frame.point(frame.point((float(a), float(b), 0.0)))) for a, b in places)
    name = bench.next_name()
    measured = _hole(values, bench.units, name, on, points, depths[1], part)
    note = f"mark from the holes in {into.path} with dowel centres or a jig"
    marked = CutHoles(
        cut.end, frame, places, values["diameter"], depths[0], name, measured.drill, mate=into.path, note=note
    )
    first = bench.add(part.path, cut, title=cut.label)
    a = bench.add(part.path, marked, title=f"dowel holes {name}")
    b = bench.add(into.path, measured, title=f"dowel holes {name}")
    sits = ((part.path, a.name), (into.path, b.name))
    pins = _pins(values, (part, into), on, points, depths, long, sits)
    _note(bench, values, (part, into), long, ((part.path, first.name), *sits), pins)


def _pins(
    values: Bound, parts: tuple[Part, Part], on: Face, points: tuple[On, ...], depths: tuple[Number, Number],
    long: Number, sits: Features,
) -> tuple[Loose, ...]:  # fmt: skip
    """Return the dowels as solids, from the places of their holes on the second part's face."""
    part, into = parts
    deeper = (sum(depths) - long) / 2
    ground, (u, _) = Ground(into, on), in_plane(on)
    way, across = (into.frame.direction(d) for d in (outward(on), axis(u)))
    span = (deeper - depths[1], depths[0] - deeper)
    return tuple(
        dowel(
            into.frame.point(ground.at(*p)),
            way,
            across,
            (values["diameter"], long),
            span,
            deeper,
            (part.path, into.path),
            sits,
        )
        for p in points
    )


def _hole(
    values: Bound, units: Units, name: str, face: Face, points: tuple[On, ...], depth: Number, mate: Part,
    *, marked: bool = False,
) -> Hole:  # fmt: skip
    """Return the row in one part; `marked` through the other one, whose row is measured."""
    return Hole(
        face=face,
        points=points,
        diameter=values["diameter"],
        depth=depth,
        purpose=Purpose.DOWEL,
        name=name,
        drill=unit_length(values["diameter"], units),
        mate=mate.path,
        authority=Authority.MATE if marked else Authority.CUT,
        note=f"mark from the holes in {mate.path} with dowel centres or a jig" if marked else "",
        tip=FLAT,
        label="dowel hole",
    )


def _note(
    bench: Bench, values: Bound, parts: tuple[Part, Part], long: Number, made: Features, pins: tuple[Loose, ...]
) -> None:
    units, origin = bench.units, Origin(values.span, values.because)
    size = f"{plain_length(values['diameter'], units)} × {plain_length(long, units)} {units.sign}"
    bench.item(Item("dowel, fluted", values["count"], size, note="diameter × length", origin=origin, sets=Sets.GLUED))
    one, two = parts
    figures: tuple[tuple[str, Number, str], ...] = (
        ("dowels", values["count"], "count"),
        ("diameter", values["diameter"], "length"),
        ("dowel length", long, "length"),
    )
    title = f"{one.path} dowelled to {two.path}"
    bench.joint(Joint("dowel", title, (one.path, two.path), made, figures, origin, loose=pins))


def _apart(bench: Bench, values: Bound, part: Part, into: Part, at: Seen) -> None:
    gap = distance(at, into)
    apart = figure(settled(abs(gap)))
    how = f"stands {apart} away from" if gap > NEAR else f"reaches {apart} into" if gap < -NEAR else "only meets"
    message = f"{part.path} {how} {into.path}: no face of it lies on a face of that part"
    fault(values, "into", "parts-do-not-meet", message, "two faces that touch", on=bench)


WORD = Word(
    name="dowel",
    room="joint",
    help="a row of dowel holes in each of two parts, in the middle of the faces in which they touch; an end that leans is cut",
    fields=(
        Field("part", PartName(), "the part whose holes are measured and drilled first", required=True),
        Field("into", PartName(), "the part whose holes are marked from them", required=True),
        Field("diameter", Length(above=0), "of the dowels", required=True),
        Field("count", Count(), "how many dowels", required=True),
        Field("depth", Length(above=0), "of the holes in each part", required=True),
        Field("depth into", Length(above=0), "of the holes in the second part, where it differs"),
        Field("spacing", Length(above=0), "from middle to middle; absent: each in the middle of an equal share"),
    ),
    example="dowel: {part: rail, into: leg, diameter: 3/8, count: 2, depth: 1 1/16, spacing: 1 1/2}",
    build=build,
)
