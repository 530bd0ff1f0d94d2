"""Hinge: butt hinges let in between two parts, one of which turns about their pins."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from docgen.geometry.make import cross, dot
from docgen.geometry.shapes import Vec, turned
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.fastening import AXES
from docgen.piece.joints.fitting import hinge
from docgen.piece.joints.meeting import NEAR, PARALLEL, centre, face_middle, moved, on_face, outward
from docgen.piece.joints.telling import fault
from docgen.piece.model import Group, Item, Joint, Part
from docgen.piece.operations.ground import settled, third
from docgen.piece.operations.hole import Hole
from docgen.piece.operations.leaf_recess import LeafRecess
from docgen.piece.records import Authority, Face, Origin, Purpose, Stage
from docgen.project.fields import Angle, Count, FaceWord, Field, Length, Many, Nested, PartName, Place, Word, Words
from docgen.project.statements import Bound
from docgen.trade.drills import Drill
from docgen.trade.fasteners import piloted
from docgen.trade.names import UnknownName
from docgen.units import Number, plain_length, unit_length

USUAL = "butt hinge"  # what one is bought as where the file does not say it


@dataclass(frozen=True, slots=True)
class Hung:
    """How the two parts stand: the faces that look at each other, the gap, and the edge of each toward the barrel.

    `normal` points from the fixed part to the one that turns, `out` to the barrel, `run` along the pins; piece axes.
    """

    turning: Part
    fixed: Part
    faces: tuple[Face, Face]
    edges: tuple[Face, Face]
    gap: Number
    normal: Vec
    out: Vec
    run: int

    @property
    def sides(self) -> tuple[tuple[Part, Face, Face], ...]:
        """Each part with its face and its edge."""
        return ((self.turning, self.faces[0], self.edges[0]), (self.fixed, self.faces[1], self.edges[1]))


def build(bench: Bench, values: Bound) -> None:
    """Let the leaves in, mark their screws, and note hinges, screws and what turns."""
    said = values["hinge"]
    hung = _hung(bench, values)
    pilot = _pilot(bench, values, said["gauge"])
    if hung is None or pilot is None:
        return
    middles = _middles(bench, values, hung)
    depth = (said["barrel"] - hung.gap) / Fraction(2)
    width = said["leaf"] - said["out"]
    if depth <= 0 or width <= 0:
        message = f"a barrel of {figure(said['barrel'])} stands in a gap of {figure(hung.gap)}: nothing is let in"
        fault(values, "hinge", "hinge-gap", message, "parts nearer together, or a thicker hinge", on=bench)
        return
    if middles is None:
        return
    name = bench.next_name()
    made: list[tuple[str, str]] = []
    for part, face, edge in hung.sides:
        made += _let_in(bench, values, hung, part, (face, edge), middles, (depth, width), pilot, name)
    _buy(bench, values, hung, name, len(middles))
    pins = [moved(moved(m, hung.out, float(said["out"])), hung.normal, float(hung.gap) / 2) for m in middles]
    if values["opens"] is not None:
        _swing(bench, values, hung, pins[0])
    figures: tuple[tuple[str, Number, str], ...] = (
        ("hinges", len(middles), "count"),
        ("recess deep", depth, "length"),
        ("recess in from the edge", width, "length"),
        ("gap", hung.gap, "length"),
        ("pin outside of the edge", said["out"], "length"),
    )
    title = f"{hung.turning.path} hinged to {hung.fixed.path}"
    origin = Origin(values.span, values.because)
    parts, sizes = (
        (hung.turning.path, hung.fixed.path),
        tuple(said[k] for k in ("length", "leaf", "thickness", "barrel")),
    )
    ways = (hung.normal, hung.out, _along(hung))
    metal = tuple(x for pin in pins for x in hinge(pin, ways, sizes, parts, said["kind"] or USUAL))
    bench.joint(Joint("hinge", title, parts, tuple(made), figures, origin, fittings=metal))


def _pilot(bench: Bench, values: Bound, gauge: int) -> Drill | None:
    try:
        return piloted(gauge, bench.units.system)[1]
    except UnknownName as found:
        bench.fault(values, "hinge", "unknown-hardware", str(found), found.nearest or "")
        return None


def _hung(bench: Bench, values: Bound) -> Hung | None:
    """Return how the parts stand to each other; what does not fit is told."""
    one, two = bench.part(values["turns"]), bench.part(values["on"])
    edges = (one.face(values["barrel at"]), two.face(values["barrel at"]))
    out = two.frame.direction(outward(edges[1]))
    found: list[tuple[float, Face, Face]] = []
    for a in (Face(i, s) for i in range(3) for s in (0, 1)):
        for b in (Face(i, s) for i in range(3) for s in (0, 1)):
            n = two.frame.direction(outward(b))
            if abs(dot(one.frame.direction(outward(a)), n) + 1) > PARALLEL or abs(dot(n, out)) > PARALLEL:
                continue
            p, q = one.frame.point(face_middle(one, a)), two.frame.point(face_middle(two, b))
            gap = dot((p[0] - q[0], p[1] - q[1], p[2] - q[2]), n)
            if gap >= -NEAR:
                found.append((gap, a, b))
    if not found or min(found)[0] > float(values["hinge"]["barrel"]):
        message = (
            f"{one.path} and {two.path} do not look at each other across a joint beside their {values['barrel at']}"
        )
        bench.fault(values, "on", "hinge-apart", message, "a lid on its box, a door beside its case")
        return None
    gap, a, b = min(found)
    p, q = one.frame.point(face_middle(one, edges[0])), two.frame.point(face_middle(two, edges[1]))
    step = dot((p[0] - q[0], p[1] - q[1], p[2] - q[2]), out)
    if abs(step) > NEAR or abs(dot(one.frame.direction(outward(edges[0])), out) - 1) > PARALLEL:
        message = f"the {values['barrel at']} of {one.path} is not level with that of {two.path}"
        bench.fault(
            values, "barrel at", "hinge-not-level", message, "faces in one plane, before which the barrel stands"
        )
        return None
    normal = two.frame.direction(outward(b))
    along = cross(normal, out)
    run = max(range(3), key=lambda i: abs(along[i]))
    return Hung(one, two, (a, b), edges, settled(max(gap, 0.0)), normal, out, run)


def _middles(bench: Bench, values: Bound, hung: Hung) -> tuple[Vec, ...] | None:
    """Return the hinges' middles on the fixed part's arris, piece axes; None, and told, when a place is another's."""
    part, face, edge = hung.sides[1]
    arris = list(face_middle(part, face))
    arris[edge.axis] = face_middle(part, edge)[edge.axis]
    start = part.frame.point((arris[0], arris[1], arris[2]))
    out = []
    for place in values["at"]:
        if list(place) != [AXES[hung.run]]:
            wanted = AXES[hung.run]
            bench.fault(values, "at", "hinge-place", f"the hinges stand side by side {wanted}", f"{{{wanted}: 4}}")
            return None
        p = list(start)
        p[hung.run] = float(place[AXES[hung.run]])
        out.append((p[0], p[1], p[2]))
    return tuple(out)


def _let_in(
    bench: Bench,
    values: Bound,
    hung: Hung,
    part: Part,
    on: tuple[Face, Face],
    middles: tuple[Vec, ...],
    bed: tuple[Number, Number],
    pilot: Drill,
    name: str,
) -> list[tuple[str, str]]:
    """Cut the recesses of one part and mark the screws; return the features."""
    (face, edge), (depth, width), said = on, bed, values["hinge"]
    run = third(face.axis, edge.axis)
    inner = part.frame.inverse()
    made: list[tuple[str, str]] = []
    spots: list[Vec] = []
    long, count = said["length"], said["screws"]
    for middle in middles:
        at = settled(inner.point(middle)[run])
        cut = LeafRecess(face, edge, at - long / 2, long, width, depth)
        made.append((part.path, bench.add(part.path, cut, title="recess for a hinge").name))
        steps = (float(long) * ((i + 0.5) / count - 0.5) for i in range(count))
        spots += [moved(middle, _along(hung), step) for step in steps]
    inward = tuple(-c for c in hung.out)
    spots = [moved(p, (inward[0], inward[1], inward[2]), float(width) / 2) for p in spots]
    from_floor = unit_length(said["screw"] - said["thickness"], bench.units)
    row = Hole(
        face=face,
        points=tuple(on_face(part, face, p) for p in spots),
        diameter=pilot.diameter,
        depth=depth + said["screw"] - said["thickness"],
        purpose=Purpose.PILOT,
        name=name,
        drill=pilot.name,
        authority=Authority.HARDWARE,
        note="marked through the hinge's own holes",
        off=edge,
        counted=f"{from_floor} deep from the floor of the recess",
        label="pilot hole",
    )
    title = f"pilot holes {name} for hinges"
    made.append((part.path, bench.add(part.path, row, title=title, stage=Stage.FITTED).name))
    return made


def _along(hung: Hung) -> Vec:
    return (1.0 * (hung.run == 0), 1.0 * (hung.run == 1), 1.0 * (hung.run == 2))


SCREWED = (
    "of the hinge's own metal; brass ones shear off: cut each thread first with a steel screw of the same size, then drive them waxed, "
    "by hand, one in each leaf before the others"
)
"""How small screws go into hard wood. Common practice."""


def _buy(bench: Bench, values: Bound, hung: Hung, name: str, count: int) -> None:
    """Note the hinges and their screws."""
    said, units, origin = values["hinge"], bench.units, Origin(values.span, values.because)
    long, leaf, thick, barrel = (plain_length(said[k], units) for k in ("length", "leaf", "thickness", "barrel"))
    size = f"{long} long, leaf {leaf} from the pin, {thick} thick, barrel {barrel} {units.sign}"
    where = f"{hung.turning.path} to {hung.fixed.path}"
    note = "have it in hand before the recesses are cut: depth and place come from it"
    bench.item(Item(said["kind"] or USUAL, count, size, note=note, origin=origin, where=where))
    screws = f"No. {said['gauge']} × {plain_length(said['screw'], units)} {units.sign}"
    bench.item(
        Item(
            "wood screw, flat head, for hinges",
            2 * count * said["screws"],
            screws,
            note=SCREWED,
            origin=origin,
            where=f"{name}: {where}",
        )
    )


def _swing(bench: Bench, values: Bound, hung: Hung, pin: Vec) -> None:
    """Note what turns, to the side on which it leaves the fixed part."""
    axis, angle = hung.run, values["opens"]
    here = hung.turning.frame.point(centre(hung.turning))
    there = turned(axis, 5.0, pin).point(here)
    away = dot((there[0] - here[0], there[1] - here[1], there[2] - here[2]), hung.normal) > 0
    parts = tuple(dict.fromkeys((hung.turning.path, *(values["with"] or ()))))
    span: tuple[Number, Number] = (0, angle) if away else (-angle, 0)
    bench.group(Group(values["name"] or hung.turning.path, parts, pin, axis, span))


HINGE = (
    Field("length", Length(above=0), "of the leaves, along the pin", required=True),
    Field("leaf", Length(above=0), "from the middle of the pin to the leaf's far edge", required=True),
    Field("thickness", Length(above=0), "of a leaf", required=True),
    Field("barrel", Length(above=0), "diameter of the barrel: what the closed hinge measures", required=True),
    Field("out", Length(least=0), "how far the middle of the pin stands outside the edge", required=True),
    Field("screws", Count(), "in each leaf", default="3"),
    Field("gauge", Count(least=0), "number of the screws: 4 for No. 4", default="4"),
    Field("screw", Length(above=0), "length of the screws", required=True),
    Field("kind", Words(), "what is bought; absent: butt hinge"),
)

WORD = Word(
    name="hinge",
    room="joint",
    help="butt hinges let in between two parts, one of which turns about their pins; sizes from the hinge in hand",
    fields=(
        Field("turns", PartName(), "the part that turns", required=True),
        Field("on", PartName(), "the part on which it hangs; the gap between both is as they stand", required=True),
        Field(
            "barrel at",
            FaceWord(),
            "the side before which the barrels stand; both parts are level there",
            required=True,
        ),
        Field("at", Many(Place()), "middles of the hinges, by one direction of the piece", required=True),
        Field("hinge", Nested(HINGE), "the hinge, as it is measured", required=True),
        Field("opens", Angle(least=1, most=270), "how far it turns; absent: the swing is not tried"),
        Field("with", Many(PartName()), "what else turns with it"),
        Field("name", Words(), "of what turns; absent: the part's"),
    ),
    example="hinge: {turns: lid, on: back, barrel at: back, at: [{across: 3}, {across: 9}], opens: 100, hinge: {length: 2, leaf: 5/8, thickness: 1/16, barrel: 3/16, out: 1/8, screw: 1/2}}",
    build=build,
)
