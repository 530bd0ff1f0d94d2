"""Cuts on a case that is glued up: a rabbet round the front with a bearing-guided bit, and rounded outside corners.

A bearing of radius r_b on the inside face and a rabbet w into the thickness leave the corner radius r_c = r_b + w;
the lip is even all round only where the outside radius is thickness + r_b. (Geometry of the cutter.)
"""

from __future__ import annotations

from dataclasses import dataclass

from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Edge, Outline, Shape, Vec, Vec2
from docgen.piece.bench import Bench
from docgen.piece.faults import Fault
from docgen.piece.model import FACE_WORDS, Part
from docgen.piece.operations import saying
from docgen.piece.operations.corner import Rounding, corner_cutter, rounding
from docgen.piece.operations.ground import OVER, axis, in_plane, length, need
from docgen.piece.operations.piece_cut import PieceCut, facing, on_part, size_into
from docgen.piece.records import Assumed, Axis, Caution, Face, Setting, Size, SizeKind, Stage, Template
from docgen.project.fields import Box, FaceWord, Field, Length, Many, Word
from docgen.project.statements import Bound
from docgen.units import Number

FAR = 10.0
"""How far a cutter reaches beyond an opening's open side, mm."""

Span = tuple[Number, Number]


@dataclass(frozen=True, slots=True)
class GluedRabbet:
    """A rabbet round an opening of the piece, cut from the face `face` of the piece (axis, side).

    `opening` gives the inside faces on the two other axes in rising order; `level` is where the face stands.
    `into` goes into the thickness, `depth` from the face; `bearing` is the bearing's radius. `runs_out` names the sides
    (as faces of the piece) where there is no wall.
    """

    face: Face
    level: Number
    opening: tuple[Span, Span]
    into: Number
    depth: Number
    bearing: Number
    runs_out: tuple[Face, ...] = ()

    @property
    def radius(self) -> Number:
        """Return the radius that is left in the corners."""
        return self.bearing + self.into

    def walls(self) -> tuple[tuple[float, float, bool, bool], tuple[float, float, bool, bool]]:
        """Return (low, high, low is a wall, high is a wall) of the cutter on both axes."""
        out = []
        for i, (low, high) in zip(in_plane(self.face), self.opening, strict=True):
            open_low, open_high = Face(i, 0) in self.runs_out, Face(i, 1) in self.runs_out
            out.append(
                (
                    float(low) - (FAR if open_low else float(self.into)),
                    float(high) + (FAR if open_high else float(self.into)),
                    not open_low,
                    not open_high,
                )
            )
        return out[0], out[1]

    def shape(self) -> Shape:
        """Return the cutter in the piece's axes: the opening grown by `into`, with the bit's own corners."""
        (x0, x1, wall_x0, wall_x1), (y0, y1, wall_y0, wall_y1) = self.walls()
        r = float(self.radius)
        corners = (
            ((x0, y0), (r if wall_x0 and wall_y0 else 0.0)),
            ((x1, y0), (r if wall_x1 and wall_y0 else 0.0)),
            ((x1, y1), (r if wall_x1 and wall_y1 else 0.0)),
            ((x0, y1), (r if wall_x0 and wall_y1 else 0.0)),
        )
        low, high = (self.level - self.depth, self.level) if self.face.side else (self.level, self.level + self.depth)
        return along_axis(
            rounded(corners),
            self.face.axis,
            float(low) - (0.0 if self.face.side else OVER),
            float(high) + (OVER if self.face.side else 0.0),
        )


def rounded(corners: tuple[tuple[Vec2, float], ...]) -> Outline:
    """Return the rectangle through four corners, counter-clockwise from the low one, each with its own radius."""
    steps = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))
    edges: list[Edge] = []
    for n, ((x, y), r) in enumerate(corners):
        if not r:
            edges.append(Edge((x, y)))
            continue
        (ax, ay), (bx, by) = steps[n - 1], steps[n]
        centre = (x - r * ax + r * bx, y - r * ay + r * by)
        edges.append(Edge((x - r * ax, y - r * ay)))
        edges.append(Edge((x + r * bx, y + r * by), centre, True))
    return Outline(tuple(edges))


def rabbet_on(rabbet: GluedRabbet, part: Part) -> PieceCut:
    """Return the rabbet as it stands on one of the parts."""
    inside = _inside(rabbet, part)
    return PieceCut(
        shapes=on_part(part, (rabbet.shape(),)),
        figures=(("into", rabbet.into), ("depth", rabbet.depth), ("bearing", rabbet.bearing)),
        sizes=tuple(size_into(part, s) for s in _rabbet_sizes(rabbet, part, inside)),
        settings=(
            Setting(
                "router",
                "rabbet after glue-up",
                (
                    ("rabbeting bit, into the thickness", rabbet.into, "length"),
                    ("bearing, diameter", 2 * rabbet.bearing, "length"),
                    ("depth", rabbet.depth, "length"),
                ),
                note="two passes; the bearing runs on the inside faces",
            ),
        ),
        cautions=(Caution("router"),),
        assumed=(Assumed(f"corners left round, radius {float(rabbet.radius):.4g} mm, as the bit leaves them"),),
    )


def _inside(rabbet: GluedRabbet, part: Part) -> Face:
    """Return the side of the opening (as a face of the piece) on which the part stands."""
    middle = part.frame.point((float(part.size[0]) / 2, float(part.size[1]) / 2, float(part.size[2]) / 2))
    best = max(
        (
            (float(low) - middle[i] if side == 0 else middle[i] - float(high), Face(i, side))
            for i, (low, high) in zip(in_plane(rabbet.face), rabbet.opening, strict=True)
            for side in (0, 1)
        ),
        key=lambda found: (found[0], -found[1].axis, -found[1].side),
    )
    if best[0] <= 0:
        raise Fault("rabbet-part", f"{part.path} does not stand round the opening", "part", "a part beside the opening")
    return best[1]


def _rabbet_sizes(rabbet: GluedRabbet, part: Part, side: Face) -> tuple[Size, ...]:
    u, v = in_plane(rabbet.face)
    opening = dict(zip((u, v), rabbet.opening, strict=True))
    low, high = opening[3 - side.axis - rabbet.face.axis]
    run = 3 - side.axis - rabbet.face.axis
    middle = (float(low) + float(high)) / 2
    wall = float(opening[side.axis][side.side])
    out = 1.0 if side.side else -1.0
    deep = -1.0 if rabbet.face.side else 1.0

    def at(into: float, depth: float) -> Vec:
        p = {run: middle, side.axis: wall + out * into, rabbet.face.axis: float(rabbet.level) + deep * depth}
        return (p[0], p[1], p[2])

    into, depth = float(rabbet.into), float(rabbet.depth)
    seen = facing(part, axis(run))
    sizes = [
        length(at(0, 0), at(into, 0), axis(side.axis, out), rabbet.into, ("into",), seen, label="into the thickness"),
        length(at(into, 0), at(into, depth), axis(rabbet.face.axis, deep), rabbet.depth, ("depth",), seen,
               label="along the inside face"),
    ]  # fmt: skip
    sizes.extend(_corner_sizes(rabbet, part))
    return tuple(sizes)


def _corner_sizes(rabbet: GluedRabbet, part: Part) -> list[Size]:
    """Return the corner radii that lie in this part: one size, at the first corner."""
    u, v = in_plane(rabbet.face)
    (x0, x1, wall_x0, wall_x1), (y0, y1, wall_y0, wall_y1) = rabbet.walls()
    r = float(rabbet.radius)
    for x, wx, sx in ((x0, wall_x0, 1.0), (x1, wall_x1, -1.0)):
        for y, wy, sy in ((y0, wall_y0, 1.0), (y1, wall_y1, -1.0)):
            if not (wx and wy):
                continue
            k = r * (1 - 2**-0.5)
            centre = {u: x + sx * r, v: y + sy * r, rabbet.face.axis: float(rabbet.level)}
            rim = {u: x + sx * k, v: y + sy * k, rabbet.face.axis: float(rabbet.level)}
            return [
                Size(
                    SizeKind.RADIUS,
                    (centre[0], centre[1], centre[2]),
                    (rim[0], rim[1], rim[2]),
                    axis(rabbet.face.axis),
                    rabbet.radius,
                    ("bearing", "into"),
                    facing(part, axis(rabbet.face.axis, 1.0 if rabbet.face.side else -1.0)),
                    label="leave round",
                )
            ]
    return []


@dataclass(frozen=True, slots=True)
class GluedCorner:
    """An outside corner of a glued case rounded along axis `along` of the piece.

    `corner` is its place on the two other axes in rising order; `sides` tell on which side of it the air is (0 low).
    """

    along: Axis
    corner: tuple[Number, Number]
    sides: tuple[int, int]
    run: Span
    radius: Number

    def rounding(self) -> Rounding:
        """Return the arc in the two other axes of the piece."""
        one = (-1.0 if self.sides[0] else 1.0, 0.0)
        two = (0.0, -1.0 if self.sides[1] else 1.0)
        return rounding((float(self.corner[0]), float(self.corner[1])), one, two, float(self.radius))

    def shape(self) -> Shape:
        """Return the cutter in the piece's axes."""
        return along_axis(
            corner_cutter(self.rounding()), self.along, float(self.run[0]) - OVER, float(self.run[1]) + OVER
        )


def corner_on(corner: GluedCorner, part: Part) -> PieceCut:
    """Return the rounded corner as it stands on one of the parts."""
    r = corner.rounding()
    u, v = (i for i in range(3) if i != corner.along)
    end = float(corner.run[0])
    mid = (r.corner[0] - r.centre[0], r.corner[1] - r.centre[1])
    k = 2**-0.5

    def at(x: float, y: float) -> Vec:
        p = {u: x, v: y, corner.along: end}
        return (p[0], p[1], p[2])

    size = Size(
        SizeKind.RADIUS,
        at(*r.centre),
        at(r.centre[0] + mid[0] * k, r.centre[1] + mid[1] * k),
        axis(corner.along),
        corner.radius,
        ("radius",),
        facing(part, axis(corner.along, -1.0)),
        label="outside corner",
    )
    waste = corner.radius * (2 - 2**0.5)
    return PieceCut(
        shapes=on_part(part, (corner.shape(),)),
        figures=(("radius", corner.radius),),
        sizes=(size_into(part, size),),
        settings=(
            Setting(
                "router",
                "outside corner after glue-up",
                (("radius", corner.radius, "length"), ("chamfer the waste off first at", waste, "length")),
                note="or shape by hand to the corner template",
            ),
        ),
        cautions=(Caution("router"),),
        templates=(corner_template(corner.radius),),
        assumed=(Assumed("arc tangent to both outside faces"),),
    )


def corner_template(radius: Number) -> Template:
    """Return the true-size template of an outside corner, lying on the end of the boards."""
    r, size = float(radius), max(2.5 * float(radius), 60.0)
    arc = Edge((0.0, r), (r, r), False)
    return Template(
        title="corner radius",
        face=Face(1, 0),
        outline=Outline(
            (Edge((0.0, size)), Edge((0.0, r)), Edge((r, 0.0), (r, r), True), Edge((size, 0.0)), Edge((size, size)))
        ),
        waste=(Outline((Edge((0.0, 0.0)), Edge((r, 0.0)), arc)),),
        lines=(((r, r), (r, 0.0), ""), ((r, r), (0.0, r), "")),
        datum=(((r, 0.0), (size, 0.0)), ((0.0, r), (0.0, size))),
        notes=("the marks show where the arc begins",),
        shared=f"corner radius {r:.4f}",
    )


def _piece_face(word: str) -> Face:
    return Face(*FACE_WORDS[word])


def build_rabbet(bench: Bench, values: Bound) -> None:
    """Cut a rabbet round an opening of parts that are glued up."""
    face = _piece_face(values["face"])
    u, v = in_plane(face)
    box = values["opening"]
    low, high = box[face.axis]
    rabbet = GluedRabbet(
        face,
        high if face.side else low,
        (box[u], box[v]),
        values["into"],
        values["depth"],
        values["bearing"] / 2,
        tuple(_piece_face(w) for w in values["open"] or ()),
    )
    for part in saying.parts(bench, values):
        bench.add(part.path, rabbet_on(rabbet, part), title="rabbet after glue-up", stage=Stage.GLUED)


def build_corner(bench: Bench, values: Bound) -> None:
    """Round an outside corner of parts that are glued up."""
    words = values["corner"].split()
    faces = sorted(_piece_face(w) for w in words if w in FACE_WORDS)
    need(
        len(words) == 2 and len(faces) == 2 and faces[0].axis != faces[1].axis,
        "arris-words",
        f"“{values['corner']}” does not name a corner",
        "corner",
        "two outside faces, as in: left top",
    )
    along = 3 - faces[0].axis - faces[1].axis
    parts = tuple(saying.parts(bench, values))
    boxes = [p.box for p in parts]
    place = tuple(max(b[f.axis][1] for b in boxes) if f.side else min(b[f.axis][0] for b in boxes) for f in faces)
    run = (min(b[along][0] for b in boxes), max(b[along][1] for b in boxes))
    corner = GluedCorner(along, (place[0], place[1]), (faces[0].side, faces[1].side), run, values["radius"])
    for part in parts:
        bench.add(part.path, corner_on(corner, part), title="outside corner after glue-up", stage=Stage.GLUED)


WORDS = (
    Word(
        name="glued rabbet",
        room="operation",
        help="A rabbet round an opening, cut after glue-up with a bearing-guided bit; its corners stay round.",
        fields=(
            saying.PART,
            Field("face", FaceWord(), "the face of the piece from which it is cut", required=True),
            Field("opening", Box(), "the opening between the inside faces, from the cut face inward", required=True),
            Field("into", Length(above=0), "how far into the thickness", required=True),
            Field("depth", Length(above=0), "how deep, from the face", required=True),
            Field("bearing", Length(above=0), "diameter of the bearing", required=True),
            Field("open", Many(FaceWord()), "sides where the rabbet runs out"),
        ),
        example="glued rabbet: {part: [case.left, case.top, case.right], face: front, opening: {across: [1, 33], "
        "deep: [0, 16], up: [22, 27]}, into: 3/8, depth: 3/4, bearing: 5/8, open: bottom}",
        build=build_rabbet,
    ),
    Word(
        name="glued corner",
        room="edge",
        help="An outside corner rounded after glue-up, through all the parts that meet there.",
        fields=(
            saying.PART,
            Field("corner", saying.LABEL.kind, "the two outside faces that meet: left top", required=True),
            Field("radius", Length(above=0), "radius of the arc", required=True),
        ),
        example="glued corner: {part: [case.left, case.top], corner: left top, radius: 1 1/8}",
        build=build_corner,
    ),
)
