"""Rabbet round an opening of a case that is glued up, cut with a bearing-guided bit.

A bearing of radius r_b on the inside faces and a rabbet w into the thickness leave the corner radius r_c = r_b + w;
the lip is even all round only where the case's outside radius is thickness + r_b. (Geometry of the cutter.)
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import ClassVar

from docgen.geometry.make import along_axis, box
from docgen.geometry.shapes import Edge, Outline, Shape, Vec, Vec2
from docgen.piece.bench import Bench
from docgen.piece.faults import Fault
from docgen.piece.model import FACE_WORDS, Part
from docgen.piece.operations import saying
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.carried import cuts_into, facing, piece_face, size_into
from docgen.piece.operations.ground import OVER, axis, in_plane, length, need
from docgen.piece.placement import into
from docgen.piece.records import Assumed, Caution, Face, Made, Setting, Size, SizeKind, Stage
from docgen.project.fields import Box, FaceWord, Field, Length, Many, Word
from docgen.project.statements import Bound
from docgen.units import Number

FAR = 10.0
"""How far a cutter reaches beyond an opening's open side, mm."""

BEARING_HIGH = 6.35
"""How far the bearing and its screw reach beyond the cutter, mm: 1/4 in. Common practice; bits differ."""

Span = tuple[Number, Number]


@dataclass(frozen=True, slots=True)
class GluedRabbet:
    """A rabbet round an opening, cut from the piece's face `face`; coordinates are the piece's.

    `opening` gives the inside faces on the two other axes in rising order, `level` where the face stands; both belong
    to the parts. The cut goes `into` the thickness and `depth` from the face; `bearing` is the bearing's radius.
    `runs_out` names the sides (as faces of the piece) where there is no wall.
    """

    word: ClassVar[str] = "glued rabbet"
    face: Face
    level: Number = field(metadata=TOLD)
    opening: tuple[Span, Span] = field(metadata=TOLD)
    into: Number
    depth: Number
    bearing: Number
    runs_out: tuple[Face, ...] = ()

    @property
    def radius(self) -> Number:
        """Return the radius that is left in the corners, mm."""
        return self.bearing + self.into

    def made(self, part: Part) -> Made:
        """Return the cutter in the part's axes, the step's two sizes, the corner radius and the set-up."""
        need(self.into > 0 and self.depth > 0, "depth-range", "the rabbet takes nothing", "into", "more than 0")
        need(self.bearing >= 0, "bearing-range", "the bearing has no size", "bearing", "its diameter")
        side = self._side(part)
        return Made(
            cuts=cuts_into(part, (self.shape(),)),
            sizes=tuple(size_into(part, s) for s in (*self._step(part, side), *self._corner(part, side))),
            settings=(self._setting(part, side),),
            cautions=(Caution("router"), Caution("bearing-guided bit")),
            assumed=(Assumed("corners of the rabbet left round, as the bit leaves them"),),
        )

    def shape(self) -> Shape:
        """Return the cutter in the piece's axes: the opening grown by `into`, with the bit's own corners."""
        (x0, x1), (y0, y1) = self.walls()
        u, v = in_plane(self.face)
        r = float(self.radius)

        def at(i: int, j: int) -> float:
            return 0.0 if {Face(u, i), Face(v, j)} & set(self.runs_out) else r

        outline = rounded((((x0, y0), at(0, 0)), ((x1, y0), at(1, 0)), ((x1, y1), at(1, 1)), ((x0, y1), at(0, 1))))
        level, depth = float(self.level), float(self.depth)
        low, high = (level - depth, level + OVER) if self.face.side else (level - OVER, level + depth)
        return along_axis(outline, self.face.axis, low, high)

    def walls(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Return the low and high walls of the cutter on both axes; an open side lies far out."""

        def grown(i: int, span: Span) -> tuple[float, float]:
            low, high = (FAR if Face(i, s) in self.runs_out else float(self.into) for s in (0, 1))
            return float(span[0]) - low, float(span[1]) + high

        u, v = in_plane(self.face)
        return grown(u, self.opening[0]), grown(v, self.opening[1])

    def _side(self, part: Part) -> Face:
        """Return the side of the opening, as a face of the piece, on which the part stands."""
        middle = part.frame.point((float(part.size[0]) / 2, float(part.size[1]) / 2, float(part.size[2]) / 2))
        out = [
            (float(span[0]) - middle[i] if side == 0 else middle[i] - float(span[1]), -i, -side)
            for i, span in zip(in_plane(self.face), self.opening, strict=True)
            for side in (0, 1)
        ]
        distance, i, side = max(out)
        if distance <= 0:
            raise Fault("rabbet-part", f"{part.path} stands inside the opening", "part", "a part beside the opening")
        return Face(-i, -side)

    def _step(self, part: Part, side: Face) -> tuple[Size, Size]:
        run = 3 - side.axis - self.face.axis
        opening = dict(zip(in_plane(self.face), self.opening, strict=True))
        middle = (float(opening[run][0]) + float(opening[run][1])) / 2
        wall, level = float(opening[side.axis][side.side]), float(self.level)
        out, deep = (1.0 if side.side else -1.0), (-1.0 if self.face.side else 1.0)

        def at(into: Number, depth: Number) -> Vec:
            p = {
                run: middle,
                side.axis: wall + out * float(into),
                self.face.axis: level + deep * float(depth),
            }
            return (p[0], p[1], p[2])

        seen = facing(part, axis(run))
        into, down = axis(side.axis, out), axis(self.face.axis, deep)
        start, across, end = at(0, 0), at(self.into, 0), at(self.into, self.depth)
        return (
            length(start, across, into, self.into, ("into",), seen, label="into the thickness"),
            length(across, end, down, self.depth, ("depth",), seen, label="along the inside face"),
        )

    def _corner(self, part: Part, side: Face) -> tuple[Size, ...]:
        """Return the corner radius, once, at a corner that this part has a share in."""
        u, v = in_plane(self.face)
        walls = self.walls()
        r, level = float(self.radius), float(self.level)
        for i, j in ((0, 0), (1, 0), (1, 1), (0, 1)):
            corner = {Face(u, i), Face(v, j)}
            if side not in corner or corner & set(self.runs_out):
                continue
            k = r * (1 - 2**-0.5)
            x, y = walls[0][i], walls[1][j]
            sx, sy = (-1.0 if i else 1.0), (-1.0 if j else 1.0)
            centre = {u: x + sx * r, v: y + sy * r, self.face.axis: level}
            rim = {u: x + sx * k, v: y + sy * k, self.face.axis: level}
            return (
                Size(
                    SizeKind.RADIUS,
                    (centre[0], centre[1], centre[2]),
                    (rim[0], rim[1], rim[2]),
                    axis(self.face.axis),
                    self.radius,
                    ("bearing", "into"),
                    facing(part, axis(self.face.axis, 1.0 if self.face.side else -1.0)),
                    label="leave round",
                ),
            )
        return ()

    def _bearing_room(self, side: Face) -> Shape:
        """Return where the bearing runs along one side of the opening, beyond the cutter's depth; piece axes."""
        opening = dict(zip(in_plane(self.face), self.opening, strict=True))
        run = 3 - side.axis - self.face.axis
        wall, wide = float(opening[side.axis][side.side]), 2 * float(self.bearing)
        deep = -1.0 if self.face.side else 1.0
        near = float(self.level) + deep * float(self.depth)
        spans = {
            run: (float(opening[run][0]), float(opening[run][1])),
            side.axis: (wall - wide, wall) if side.side else (wall, wall + wide),
            self.face.axis: tuple(sorted((near, near + deep * BEARING_HIGH))),
        }
        return box(*((spans[0][i], spans[1][i], spans[2][i]) for i in (0, 1)))

    def _setting(self, part: Part, side: Face) -> Setting:
        word = next(w for w, (axis, at) in FACE_WORDS.items() if Face(axis, at) == self.face)
        return Setting(
            "router",
            "rabbet after glue-up",
            (
                ("rabbeting bit, into the thickness", self.into, "length"),
                ("bearing, diameter", 2 * self.bearing, "length"),
                ("cutter, diameter", 2 * (self.bearing + self.into), "length"),
                ("depth", self.depth, "length"),
                ("radius left in the corners", self.radius, "length"),
            ),
            note=(
                f"round the {word} of the opening, the bearing on the inside faces; boards clamped flush beside the rim carry the "
                "base, inside clear of the bearing"
            ),
            feed="clockwise round the inside, seen from the router: the wood on the left of the travel",
            base=min(part.size),
            clear=(into(part, self._bearing_room(side)),) if self.bearing else (),
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


def build(bench: Bench, values: Bound) -> None:
    """Cut a rabbet round an opening of parts that are glued up."""
    face = piece_face(values["face"])
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
        tuple(piece_face(w) for w in values["open"] or ()),
    )
    for part in saying.parts(bench, values):
        bench.add(part.path, rabbet, title="rabbet after glue-up", stage=Stage.GLUED)


WORD = Word(
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
    example="glued rabbet: {part: [left side, top, right side], face: front, opening: {across: [3/4, 35 1/4], "
    "deep: [0, 14], up: [0, 29 1/4]}, into: 3/8, depth: 3/4, bearing: 5/8, open: bottom}",
    build=build,
)
