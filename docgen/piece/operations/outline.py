"""A part cut to a drawn outline: one path of an SVG file beside the project file, or path data in the file itself."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from typing import ClassVar

from docgen.geometry.outlines import backward, bounds, faults, nested, signed_area
from docgen.geometry.shapes import Edge, Outline, Vec2
from docgen.geometry.svg_path import Matrix, PathFault, all_points, apply, outline_of, read_path, read_transform, times
from docgen.piece.bench import Bench
from docgen.piece.faults import Fault
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.curve_work import PATTERN, TURNED, bearing_bit
from docgen.piece.operations.ground import SAME, Ground, axis, in_plane, length, need, settled
from docgen.piece.operations.opening import LINES, On, inside_face, taken_inside, taken_outside
from docgen.piece.records import Assumed, Axis, Caution, Cut, Face, Made, Setting, Size, Template
from docgen.places import Span
from docgen.project.fields import Field, Length, Place, Word, Words
from docgen.project.statements import Bound
from docgen.reading.beside import beside_name, read_beside
from docgen.reading.problems import Problem, Problems
from docgen.reading.svg import Drawn, read_svg
from docgen.trade.cutters import WOOD_LEFT
from docgen.units import Number

FITTED = 1000.0
"""Size at which a drawing's curves are followed by arcs, mm: that of a large part, so that no scale makes them coarse."""

ALONG = f"{WOOD_LEFT}, and only with the grain; for what then runs against it, {TURNED}"
MOST_BYTES = 1 << 20
MOST_OPENINGS = 50

RIGHT = {"left": "front", "right": "back", "front": "right", "back": "left", "top": "right", "bottom": "left"}
"""Face word → the side that lies at the right hand of one who looks at the face from outside."""

UP = {"left": "top", "right": "top", "front": "top", "back": "top", "top": "back", "bottom": "back"}


@dataclass(frozen=True, slots=True)
class Lines:
    """A drawing on a face's two axes, as wide as 1 along its own x, its low corner at the origin: outline and openings.

    `along` is the part's axis on which its width lies, `high` its extent on the other.
    """

    outline: Outline
    openings: tuple[Outline, ...]
    along: Axis
    high: float


@dataclass(frozen=True, slots=True)
class DrawnOutline:
    """The part cut to a drawing `width` wide whose low corner lies at `at` on `face`, right through the part."""

    word: ClassVar[str] = "outline"
    face: Face
    at: On
    width: Number
    lines: Lines = field(metadata=TOLD)
    label: str = "outline"

    def made(self, part: Part) -> Made:
        """Return the cutters, the drawing's place and width, saw and trimming, and a template of the whole face."""
        need(self.width > 0, "diameter-range", f"the {self.label} has no width", "width", "more than 0")
        outline = self._scaled(self.lines.outline)
        openings = tuple(self._scaled(o) for o in self.lines.openings)
        inside_face(part, self.face, outline, self.label, "width")
        cuts = (taken_outside(part, self.face, outline), *(taken_inside(part, self.face, o) for o in openings))
        u, v = in_plane(self.face)
        datum = tuple(_straight(outline, (float(part.size[u]), float(part.size[v]))))
        sawn = "saw just outside the line; a jigsaw does it where the part is large"
        trim, wood = bearing_bit(part, self.face), (("wood", part.size[self.face.axis], "length"),)
        return Made(
            cuts=tuple(Cut(c) for c in cuts),
            sizes=self._sizes(part),
            settings=(
                Setting("band saw", self.label, wood, note=sawn, late=True),
                Setting("router", f"{self.label}, flush to the template", trim, feed=ALONG, late=True, jig=PATTERN),
                *(
                    (Setting("jigsaw", f"{self.label}, openings", wood, note="begin in a bored hole", late=True),)
                    if openings
                    else ()
                ),
            ),
            cautions=(
                Caution("band saw"),
                Caution("router"),
                Caution("bearing-guided bit"),
                *((Caution("jigsaw"),) if openings else ()),
            ),
            templates=(
                Template(
                    title=self.label,
                    face=self.face,
                    outline=outline,
                    openings=openings,
                    datum=datum,
                    grain=0.0 if self.face.axis != 0 else None,
                    notes=("saw outside the line, then trim to it",),
                    whole=True,
                    radii=False,
                ),
            ),
            assumed=(
                Assumed("outline square to the face, as the template shows it"),
                *(() if datum else (Assumed(LINES),)),
            ),
            outlined=not datum,
        )

    def _scaled(self, outline: Outline) -> Outline:
        s, (a, b) = float(self.width), (float(self.at[0]), float(self.at[1]))

        def laid(p: Vec2) -> Vec2:
            return (a + s * p[0], b + s * p[1])

        edges = (Edge(laid(e.end), None if e.centre is None else laid(e.centre), e.ccw) for e in outline.edges)
        return Outline(tuple(edges))

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        ground = Ground(part, self.face)
        out = []
        for k, i in enumerate(ground.axes):
            if self.at[k] > SAME:
                low = ground.at(*(0 if n == k else v for n, v in enumerate(self.at)))
                out.append(length(low, ground.at(*self.at), axis(i), self.at[k], (f"at.{k}",), self.face))
        for k, i in enumerate(ground.axes):
            wide = i == self.lines.along
            reach = self.width if wide else settled(self.lines.high * float(self.width))
            end = ground.at(*(v + reach if n == k else v for n, v in enumerate(self.at)))
            names = ("width",) if wide else ()
            label = f"{self.label}, in all"
            out.append(length(ground.at(*self.at), end, axis(i), reach, names, self.face, label=label))
        return tuple(out)


def _straight(outline: Outline, size: Vec2) -> list[tuple[Vec2, Vec2]]:
    """Return the outline's straight sides that lie on the datum edges of the face, the longest of each."""
    out = []
    for axis_ in (1, 0):
        sides = []
        start = outline.edges[-1].end
        for edge in outline.edges:
            if edge.centre is None and abs(start[axis_]) < SAME and abs(edge.end[axis_]) < SAME:
                sides.append((start, edge.end))
            start = edge.end
        if sides:
            out.append(max(sides, key=lambda s: abs(s[1][1 - axis_] - s[0][1 - axis_])))
    return out


@lru_cache(maxsize=64)
def _followed(data: str, placed: Matrix) -> tuple[Outline, tuple[Outline, ...]]:
    """Return outline and openings of path data, low corner at the origin and 1 wide; raises PathFault."""
    loops = read_path(data)
    xs, ys = zip(*(apply(placed, p) for p in all_points(loops)), strict=True)
    reach = max(max(xs) - min(xs), max(ys) - min(ys))
    if reach <= 0:
        raise PathFault("the path has no size")
    scale = FITTED / reach
    matrix = times((scale, 0.0, 0.0, scale, -scale * min(xs), -scale * min(ys)), placed)
    outlines = [outline_of(loop, matrix) for loop in loops]
    for outline in outlines:
        if faults(outline):
            raise PathFault(f"the path bounds no clean area: {faults(outline)[0]}")
    if len(outlines) > MOST_OPENINGS:
        raise PathFault(f"the path has more than {MOST_OPENINGS} closed lines")
    found = nested(outlines)
    if len(found) > 1:
        raise PathFault("the path draws several areas side by side")
    (outer, holes), (x0, y0), (x1, _) = found[0], *bounds(found[0][0])
    unit = 1 / (x1 - x0)

    def small(outline: Outline) -> Outline:
        def laid(p: Vec2) -> Vec2:
            return ((p[0] - x0) * unit, (p[1] - y0) * unit)

        return Outline(
            tuple(Edge(laid(e.end), None if e.centre is None else laid(e.centre), e.ccw) for e in outline.edges)
        )

    return small(outer), tuple(small(h) for h in holes)


def lines_on(part: Part, word: str, drawn: tuple[Outline, tuple[Outline, ...]]) -> tuple[Lines, tuple[bool, bool]]:
    """Return a drawing (y up) laid on the face called `word` as it is seen from outside.

    Also which of the face's two axes run against the drawing.
    """
    face = part.face(word)
    u, _ = in_plane(face)
    right, up = part.face(RIGHT[word]), part.face(UP[word])
    (_, _), (_, high) = bounds(drawn[0])
    against_x, against_y = right.side == 0, up.side == 0

    def laid(p: Vec2) -> Vec2:
        x = 1 - p[0] if against_x else p[0]
        y = high - p[1] if against_y else p[1]
        return (x, y) if right.axis == u else (y, x)

    def turned(outline: Outline) -> Outline:
        flip = (against_x + against_y + (right.axis != u)) % 2 == 1
        made = Outline(
            tuple(Edge(laid(e.end), None if e.centre is None else laid(e.centre), e.ccw != flip) for e in outline.edges)
        )
        return made if signed_area(made) > 0 else backward(made)

    outline, openings = drawn
    lines = Lines(turned(outline), tuple(turned(o) for o in openings), right.axis, high)
    against = (against_x, against_y) if right.axis == u else (against_y, against_x)
    return lines, against


def build(bench: Bench, values: Bound) -> None:
    """Cut the parts to the drawing."""
    drawn = _drawing(bench, values)
    for part in saying.parts(bench, values):
        lines, against = lines_on(part, values["face"], drawn)
        face = part.face(values["face"])
        at = _place(part, face, lines, against, values)
        operation = DrawnOutline(face, at, values["width"], lines, values["label"] or "outline")
        bench.add(part.path, operation, title=operation.label, stage=saying.stage(values))


def _place(part: Part, face: Face, lines: Lines, against: tuple[bool, bool], values: Bound) -> On:
    """Return where the low corner of the drawing lies; the file tells its lower left corner as the face is seen."""
    reach = [values["width"] if i == lines.along else lines.high * float(values["width"]) for i in in_plane(face)]
    if values["at"] is None:
        one, two = (
            settled(float(part.size[i]) - float(reach[k])) if against[k] else 0 for k, i in enumerate(in_plane(face))
        )
        return one, two
    at = saying.on_face(part, face, values["at"], values["from"] or ())
    one, two = (settled(float(v) - float(reach[k])) if against[k] else v for k, v in enumerate(at))
    return one, two


def _drawing(bench: Bench, values: Bound) -> tuple[Outline, tuple[Outline, ...]]:
    """Return the drawing with y up; `Fault` or Problems at the place of what cannot be read."""
    need(
        (values["svg"] is None) != (values["path"] is None),
        "outline-words",
        "an outline is a drawing beside the file, or path data in it",
        "svg" if values["svg"] is not None else "face",
        "one of svg and path",
    )
    flip: Matrix = (1.0, 0.0, 0.0, -1.0, 0.0, 0.0)
    if values["svg"] is None:
        try:
            return _followed(values["path"], flip)
        except PathFault as fault:
            raise Fault("path-unreadable", f"{fault.message}, at character {fault.offset + 1}", "path") from None
    where = values.spans.get("svg", values.span)
    project = where.file
    text = read_beside(project, values["svg"], MOST_BYTES, where=where)
    bench.beside(values["svg"], text)
    found = read_svg(beside_name(project, values["svg"]), text)
    try:
        return _followed(found.data, _placed(found, flip))
    except PathFault as fault:
        raise Problems([Problem("path-unreadable", found.place(fault.offset), fault.message)]) from None


def _placed(found: Drawn, flip: Matrix) -> Matrix:
    out = flip
    for text in found.transforms:
        try:
            out = times(out, read_transform(text))
        except PathFault as fault:
            where = Span(found.file, found.line, 1)
            raise Problems([Problem("svg-unreadable", where, fault.message)]) from None
    return out


WORD = Word(
    name="outline",
    room="edge",
    help="The whole part cut to a drawn outline, a closed path of an SVG drawing; lines within it become openings.",
    fields=(
        saying.PART,
        Field("face", saying.FACE.kind, "the face on which it is drawn, as it is seen from outside", required=True),
        Field("svg", Words(), "an SVG file in the project file's folder, with one path"),
        Field("path", Words(), "path data in place of a file: M 0 0 H 10 V 4 C …"),
        Field(
            "width", Length(above=0), "how wide the drawing is in all, left to right as the face is seen", required=True
        ),
        Field("at", Place(), "where its lower left corner lies; without it in the face's own lower left corner"),
        saying.FROM,
        saying.LABEL,
        saying.STAGE,
    ),
    example='outline: {part: cheek, face: left, width: 4, path: "M 0 0 H 4 V -4 C 4 -5 3 -6 2 -6 C 1 -6 0 -5 0 -4 Z"}',
    build=build,
)
