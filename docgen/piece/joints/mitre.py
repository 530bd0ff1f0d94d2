"""Mitre: two parts of which the boxes overlap in a corner are cut along the plane from its outer to its inner arris."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.geometry.make import cross, unit
from docgen.geometry.shapes import Frame, Vec
from docgen.piece.bench import Bench
from docgen.piece.joints.meeting import NEAR, dot, seen
from docgen.piece.joints.telling import fault
from docgen.piece.joints.tenoning import TENON, Into, Joining, NoRoom, figures, place, planes
from docgen.piece.model import Joint, Part
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.ground import axis as axis_unit
from docgen.piece.operations.ground import settled
from docgen.piece.operations.mortise import CutMortise
from docgen.piece.records import Face, Feature, Origin
from docgen.project.fields import Field, Many, Nested, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Corner:
    """The corner of two parts, in the first part's axes.

    `outer` and `inner` are points of the two arrises at the low end of the run, `normal` points out of the first
    part's wood, `run` is the axis along the arrises and `ends` the end of each part that is cut.
    """

    outer: Vec
    inner: Vec
    normal: Vec
    run: int
    ends: tuple[Face, Face]

    @property
    def diagonal(self) -> Vec:
        """Return the vector from the inner to the outer arris."""
        return (self.outer[0] - self.inner[0], self.outer[1] - self.inner[1], self.outer[2] - self.inner[2])


class NoCorner(Exception):
    """Parts whose boxes do not overlap in a corner; the text says how they stand."""


def corner(one: Part, two: Part) -> Corner:
    """Return the corner in which the boxes of two square parts overlap; `NoCorner` when there is none."""
    at = seen(two, one)
    if at is None:
        raise NoCorner(f"{one.path} and {two.path} stand at an angle to each other")
    low = [max(0.0, float(at.low[k])) for k in range(3)]
    high = [min(float(one.size[k]), float(at.high[k])) for k in range(3)]
    if any(high[k] - low[k] <= NEAR for k in range(3)):
        raise NoCorner(f"the boxes of {one.path} and {two.path} do not overlap in a corner")
    in_one = [k for k in range(3) if high[k] - low[k] < float(one.size[k]) - NEAR]
    in_two = [k for k in range(3) if high[k] - low[k] < float(at.high[k] - at.low[k]) - NEAR]
    if len(in_one) != 1 or len(in_two) != 1 or in_one == in_two:
        raise NoCorner(f"{one.path} and {two.path} do not both end in their corner")
    e, f = in_one[0], in_two[0]
    out_e = 1 if high[e] >= float(one.size[e]) - NEAR else 0
    out_f = 1 if high[f] >= float(at.high[f]) - NEAR else 0
    outer, inner = [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]
    for k, side in ((e, out_e), (f, out_f)):
        outer[k], inner[k] = (high[k], low[k]) if side else (low[k], high[k])
    run = 3 - e - f
    outer[run] = inner[run] = low[run]
    # Square to the diagonal, out of the first part's end and toward the second part's body.
    normal = [0.0, 0.0, 0.0]
    normal[e] = (1.0 if out_e else -1.0) * (high[f] - low[f])
    normal[f] = (-1.0 if out_f else 1.0) * (high[e] - low[e])
    return Corner(
        (outer[0], outer[1], outer[2]),
        (inner[0], inner[1], inner[2]),
        unit((normal[0], normal[1], normal[2])),
        run,
        (Face(e, out_e), at.guest_face(Face(f, out_f))),
    )


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
    if values["tenons"] is not None:
        made, more = _tenons(bench, values, at, (one.path, two.path))
        features += made
    bench.joint(
        Joint(
            word="mitre",
            title=f"mitre of {one.path} and {two.path}",
            parts=(one.path, two.path),
            features=tuple((path, f.name) for path, f in features),
            figures=tuple((name, settled(float(v)), kind) for name, v, kind in angles) + more,
            origin=Origin(values.span, values.because),
        )
    )


def _tenons(
    bench: Bench, values: Bound, at: Corner, paths: tuple[str, str]
) -> tuple[list[tuple[str, Feature]], tuple[tuple[str, Number, str], ...]]:
    """Cut the mortises in both mitres; return the features and the figures."""
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
        return [], ()
    made = []
    for part, end, into in ((one, at.ends[0], back), (two, at.ends[1], normal)):
        cut = _frame(part, frame.point(at.inner), along, into, run, length_run)
        for p in placed.middles:
            q = cut.inverse().point(part.frame.inverse().point(p))
            op = CutMortise(end, cut, settled(q[0]), settled(q[1]), t["width"], t["thickness"], t["depth"], lengthwise)
            made.append((part.path, bench.add(part.path, op, title="mortise for a loose tenon")))
    return made, figures(placed, t["thickness"], t["width"], 2 * t["depth"])


def _frame(part: Part, heel: Vec, along: Vec, into: Vec, run: Vec, length: float) -> Frame:
    """Return the frame on the mitre's face in the part's axes: from the heel, across, into the wood."""
    inner = part.frame.inverse()
    x, z = inner.direction(along), inner.direction(into)
    y = cross(z, x)
    origin = inner.point(heel)
    r = inner.direction(run)
    if dot(y, r) < 0:  # y runs back along the arris: start at its other end
        origin = (origin[0] + r[0] * length, origin[1] + r[1] * length, origin[2] + r[2] * length)
    return Frame(((x[0], y[0], z[0]), (x[1], y[1], z[1]), (x[2], y[2], z[2])), origin)


WORD = Word(
    name="mitre",
    room="joint",
    help="two parts are cut to meet along the diagonal of the corner in which their boxes overlap",
    fields=(
        Field("parts", Many(PartName(), least=2), "the two parts; both boxes reach to the outer corner", required=True),
        Field("tenons", Nested(TENON), "loose tenons across the mitre"),
    ),
    example="mitre: {parts: [left rail, top rail], tenons: {thickness: 3/8, width: 1, depth: 3/4}}",
    build=build,
)
