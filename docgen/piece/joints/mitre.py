"""Mitre: two parts of which the boxes overlap in a corner are cut along the plane from its outer to its inner arris."""

from __future__ import annotations

from docgen.geometry.make import dot, unit
from docgen.piece.bench import Bench
from docgen.piece.joints.mitre_strength import KEYS, SPLINE, Made, keys, spline
from docgen.piece.joints.mitring import Corner, NoCorner, corner, cut_frame
from docgen.piece.joints.telling import fault
from docgen.piece.joints.tenoning import TENON, Into, Joining, NoRoom, figures, place, planes, tenon_size, tenons
from docgen.piece.model import Joint, Loose, Part
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.ground import axis as axis_unit
from docgen.piece.operations.ground import settled
from docgen.piece.operations.mortise import CutMortise
from docgen.piece.records import Feature, Origin
from docgen.project.fields import Field, Many, Nested, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number


def cuts(one: Part, two: Part, at: Corner) -> tuple[EndCut, EndCut]:
    """Return the mitre of each part."""
    turned = two.frame.inverse().after(one.frame)
    back = (-at.normal[0], -at.normal[1], -at.normal[2])
    return (
        EndCut.through(at.ends[0], at.outer, at.normal, "mitre"),
        EndCut.through(at.ends[1], turned.point(at.outer), turned.direction(back), "mitre"),
    )


def build(bench: Bench, values: Bound) -> None:
    """Cut the mitres, and the mortises of their loose tenons."""
    if len(values["parts"]) != 2:
        bench.fault(
            values, "parts", "mitre-two", f"a mitre joins two parts, here are {len(values['parts'])}", "two parts"
        )
        return
    one, two = (bench.part(p) for p in values["parts"])
    try:
        at = corner(one, two)
    except NoCorner as found:
        bench.fault(values, "parts", "no-corner", str(found), "boxes that both reach to the outer corner")
        return
    features: list[tuple[str, Feature]] = []
    angles: list[tuple[str, Number, str]] = []
    for part, other, cut in zip((one, two), (two, one), cuts(one, two, at), strict=True):
        features.append((part.path, bench.add(part.path, cut, title=f"mitre to {other.path}")))
        angles.append((f"mitre of {part.path}, from square", max(cut.readings()), "angle"))
    more: tuple[tuple[str, Number, str], ...] = ()
    loose: tuple[Loose, ...] = ()
    for field, strengthened in (("tenons", _tenons), ("spline", spline), ("keys", keys)):
        if values[field] is not None:
            made, told, fills = strengthened(bench, values, at, (one.path, two.path))
            features, more, loose = features + made, more + told, loose + fills
    bench.joint(
        Joint(
            word="mitre",
            title=f"mitre of {one.path} and {two.path}",
            parts=(one.path, two.path),
            features=tuple((path, f.name) for path, f in features),
            figures=tuple((name, settled(float(v)), kind) for name, v, kind in angles) + more,
            origin=Origin(values.span, values.because),
            loose=loose,
        )
    )


def _tenons(bench: Bench, values: Bound, at: Corner, paths: tuple[str, str]) -> Made:
    """Cut the mortises in both mitres; return the features, the figures and the tenons."""
    t = values["tenons"]
    one, two = bench.part(paths[0]), bench.part(paths[1])
    frame = one.frame
    normal = frame.direction(at.normal)
    along, run = frame.direction(unit(at.diagonal)), frame.direction(axis_unit(at.run))
    length_run = float(one.size[at.run])
    long = dot(at.diagonal, at.diagonal) ** 0.5
    middle = tuple((at.outer[i] + at.inner[i]) / 2 + (length_run / 2 if i == at.run else 0.0) for i in range(3))
    lengthwise = long >= length_run
    joint = Joining(
        frame.point((middle[0], middle[1], middle[2])),
        along if lengthwise else run,
        run if lengthwise else along,
        normal,
    )
    back = (-normal[0], -normal[1], -normal[2])
    depth = float(t["depth"])
    sides = (
        Into(planes(one, (at.ends[0],)), back, depth),
        Into(planes(two, (at.ends[1],)), normal, depth),
    )
    try:
        placed = place(
            joint,
            sides,
            thickness=float(t["thickness"]),
            width=float(t["width"]),
            count=t["count"],
            wall=float(t["wall"]),
        )
    except NoRoom as found:
        fault(values, "tenons", "tenons-no-room", str(found), "smaller, fewer or shallower tenons", on=bench)
        return [], (), ()
    made = []
    for part, end, into in ((one, at.ends[0], back), (two, at.ends[1], normal)):
        cut = cut_frame(part, frame.point(at.inner), along, into, run, length_run)
        for p in placed.middles:
            q = cut.inverse().point(part.frame.inverse().point(p))
            op = CutMortise(end, cut, settled(q[0]), settled(q[1]), t["width"], t["thickness"], t["depth"], lengthwise)
            made.append((part.path, bench.add(part.path, op, title="mortise for a loose tenon")))
    fills = tenons(bench, t, joint, placed, paths, [(path, f.name) for path, f in made])
    return made, figures(placed, tenon_size(t, bench.units)[0]), fills


WORD = Word(
    name="mitre",
    room="joint",
    help="two parts are cut to meet along the diagonal of the corner in which their boxes overlap",
    fields=(
        Field("parts", Many(PartName(), least=2), "the two parts; both boxes reach to the outer corner", required=True),
        Field("tenons", Nested(TENON), "loose tenons across the mitre"),
        Field("spline", Nested(SPLINE), "a loose strip in grooves along the mitre"),
        Field("keys", Nested(KEYS), "thin keys in slots sawn across the glued corner from outside"),
    ),
    example="mitre: {parts: [left rail, top rail], tenons: {thickness: 3/8, width: 1, depth: 3/4}}",
    build=build,
)
