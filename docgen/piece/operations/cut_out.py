"""Cut-out: a window or a hand hole right through the part: a rectangle, a slot with round ends, a circle, an ellipse."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar, TypeAlias

from docgen.geometry.curves import ellipse_outline
from docgen.geometry.make import stadium
from docgen.geometry.shapes import Edge, Outline, Vec2
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.curve_work import PATTERN, bearing_bit
from docgen.piece.operations.easing import eased_opening
from docgen.piece.operations.ground import Ground, axis, in_plane, need
from docgen.piece.operations.opening import (
    On,
    across_sizes,
    centre_sizes,
    diameter_size,
    inside_face,
    taken_inside,
)
from docgen.piece.records import Assumed, Caution, Cut, Face, Made, Mark, Setting, Size, SizeKind, Template
from docgen.project.fields import Choice, Field, Length, Place, Word
from docgen.project.statements import Bound
from docgen.units import Number

BORED = 3  # mm; a corner of this radius and more is bored before it is sawn
START = 10  # mm; a hole that lets a jigsaw's blade in
LEAST = 3.0  # mm of wood that must be left beside it

Values: TypeAlias = tuple[tuple[str, Number | str, str], ...]
Bores: TypeAlias = tuple[tuple[Vec2, ...], Number]
"""Where it is bored before it is sawn, on the face, and how wide."""


@dataclass(frozen=True, slots=True)
class Window:
    """A rectangle about `at`, `sizes` on the face's two axes, its corners rounded to `radius` (0: squared)."""

    word: ClassVar[str] = "cut out"
    face: Face
    at: On
    sizes: On
    radius: Number = 0
    ease: Number | None = None
    label: str = "cut-out"

    def made(self, part: Part) -> Made:
        """Return the cutter, its place and sizes, marks, how it is begun, sawn and trimmed, and a template."""
        small = min(self.sizes)
        need(
            small > 0 and 0 <= 2 * self.radius < small,
            "radius-range",
            f"corners of radius {figure(self.radius)} do not fit a {self.label} {figure(small)} wide",
            "radius",
            f"less than {figure(small / 2)}; a slot has round ends",
        )
        (x0, y0), (x1, y1) = _corners(self.at, self.sizes)
        r = float(self.radius)
        outline = _rounded(x0, y0, x1, y1, r)
        bored = self.radius >= BORED
        s = r if bored else START / 2 + 1
        centres = ((x0 + s, y0 + s), (x1 - s, y0 + s), (x1 - s, y1 - s), (x0 + s, y1 - s))
        bores: Bores = (centres, 2 * self.radius) if bored else (centres[:1], START)
        values: Values = bearing_bit(part, self.face, r) if r else (("corners", "squared with a chisel", "text"),)
        made = _made(part, self.face, self.at, outline, self.label, bores, values, whole=not r)
        sizes = across_sizes(part, self.face, self.at, self.sizes, ("sizes.0", "sizes.1"), self.label)
        made = replace(made, sizes=(*centre_sizes(part, self.face, self.at), *sizes, *self._radius(part)))
        return eased_opening(made, part, self.face, outline, self.ease, self.label)

    def _radius(self, part: Part) -> tuple[Size, ...]:
        if not self.radius:
            return ()
        _, high = ((a + s / 2, b + t / 2) for (a, b), (s, t) in [(self.at, self.sizes)] * 2)
        centre = (high[0] - self.radius, high[1] - self.radius)
        k = float(self.radius) / 2**0.5
        ground = Ground(part, self.face)
        rim = ground.at(float(centre[0]) + k, float(centre[1]) + k)
        return (
            Size(
                SizeKind.RADIUS,
                ground.at(*centre),
                rim,
                axis(self.face.axis),
                self.radius,
                ("radius",),
                self.face,
                label="4 ×",
            ),
        )


@dataclass(frozen=True, slots=True)
class HandHole:
    """A slot with half-round ends about `at`, `sizes` on the face's two axes; the longer one is its run."""

    word: ClassVar[str] = "cut out"
    face: Face
    at: On
    sizes: On
    ease: Number | None = None
    label: str = "hand hole"

    def made(self, part: Part) -> Made:
        """Return the cutter, its place and sizes, marks, how it is bored, sawn and trimmed, and a template."""
        need(min(self.sizes) > 0, "radius-range", f"the {self.label} has no width", "size", "more than 0")
        (x0, y0), (x1, y1) = _corners(self.at, self.sizes)
        wide = min(self.sizes)
        r = float(wide) / 2
        flat = self.sizes[0] >= self.sizes[1]
        y, x = (y0 + y1) / 2, (x0 + x1) / 2
        a, b = ((x0 + r, y), (x1 - r, y)) if flat else ((x, y0 + r), (x, y1 - r))
        outline = stadium(a, b, r)
        values = bearing_bit(part, self.face, r)
        made = _made(part, self.face, self.at, outline, self.label, ((a, b), wide), values)
        sizes = across_sizes(part, self.face, self.at, self.sizes, ("sizes.0", "sizes.1"), self.label)
        made = replace(
            made,
            sizes=(*centre_sizes(part, self.face, self.at), *sizes),
            assumed=(*made.assumed, Assumed("ends half round")),
        )
        return eased_opening(made, part, self.face, outline, self.ease, self.label)


@dataclass(frozen=True, slots=True)
class OvalOut:
    """An ellipse about `at`, as long on the face's two axes as `sizes`."""

    word: ClassVar[str] = "cut out"
    face: Face
    at: On
    sizes: On
    ease: Number | None = None
    label: str = "oval cut-out"

    def made(self, part: Part) -> Made:
        """Return the cutter, its place and sizes, marks, how it is begun, sawn and trimmed, and a template."""
        need(min(self.sizes) > 0, "radius-range", f"the {self.label} has no width", "size", "more than 0")
        at, half = (float(self.at[0]), float(self.at[1])), (float(self.sizes[0]) / 2, float(self.sizes[1]) / 2)
        tight = 2 * min(half) ** 2 / max(half)  # the ends' radius of curvature is b² / a
        outline = ellipse_outline(at, half)
        values = bearing_bit(part, self.face, tight / 2)
        circle = half[0] == half[1]
        made = _made(part, self.face, self.at, outline, self.label, ((at,), START), values, radii=circle)
        sizes = across_sizes(part, self.face, self.at, self.sizes, ("sizes.0", "sizes.1"), self.label)
        made = replace(made, sizes=(*centre_sizes(part, self.face, self.at), *sizes))
        return eased_opening(made, part, self.face, outline, self.ease, self.label)


@dataclass(frozen=True, slots=True)
class RoundOut:
    """A circle of `diameter` about `at`, too large for a drill."""

    word: ClassVar[str] = "cut out"
    face: Face
    at: On
    diameter: Number
    ease: Number | None = None
    label: str = "round cut-out"

    def made(self, part: Part) -> Made:
        """Return the cutter, centre and diameter, marks, how it is begun, sawn and trimmed, and a template."""
        need(self.diameter > 0, "diameter-range", f"the {self.label} has no width", "size", "more than 0")
        at = (float(self.at[0]), float(self.at[1]))
        outline = Outline.circle(at, float(self.diameter) / 2)
        values: Values = (("from the pin to the far side of the cut", self.diameter / 2, "length"),)
        made = _made(part, self.face, self.at, outline, self.label, ((at,), START), values)
        sizes = (*centre_sizes(part, self.face, self.at), diameter_size(part, self.face, self.at, self.diameter, ""))
        return eased_opening(replace(made, sizes=sizes), part, self.face, outline, self.ease, self.label)


def _corners(at: On, sizes: On) -> tuple[Vec2, Vec2]:
    (a, b), (s, t) = at, sizes
    return (float(a - s / 2), float(b - t / 2)), (float(a + s / 2), float(b + t / 2))


def _rounded(x0: float, y0: float, x1: float, y1: float, r: float) -> Outline:
    """Return the rectangle with rounded corners, counter-clockwise."""
    if not r:
        return Outline.rectangle(x0, y0, x1, y1)
    return Outline(
        (
            Edge((x1 - r, y0)), Edge((x1, y0 + r), (x1 - r, y0 + r)),
            Edge((x1, y1 - r)), Edge((x1 - r, y1), (x1 - r, y1 - r)),
            Edge((x0 + r, y1)), Edge((x0, y1 - r), (x0 + r, y1 - r)),
            Edge((x0, y0 + r)), Edge((x0 + r, y0), (x0 + r, y0 + r)),
        )
    )  # fmt: skip


def _made(
    part: Part,
    face: Face,
    at: On,
    outline: Outline,
    label: str,
    bores: Bores,
    values: Values,
    *,
    whole: bool = False,
    radii: bool = True,
) -> Made:
    """Return what every cut-out has in common; `whole` when a chisel squares its corners."""
    inside_face(part, face, outline, label, "at", LEAST)
    centres, wide = bores
    u, v = in_plane(face)
    corner = (float(part.size[u]), float(part.size[v]))
    begun: Values = (("drill", wide, "length"), ("holes", len(centres), "count"), ("depth", "through", "text"))
    return Made(
        cuts=(Cut(taken_inside(part, face, outline)),),
        marks=(Mark(at[0], 0, f"middle of the {label}", face),) if u == 0 else (),
        settings=(
            Setting("drill press", f"{label}, begun", begun, note="the template shows the centres"),
            Setting(
                "jigsaw",
                label,
                (("wood", part.size[face.axis], "length"),),
                note="saw in the waste beside the line, from hole to hole",
                late=True,
            ),
            Setting(
                "router",
                f"{label}, trimmed to the line",
                values,
                feed="clockwise round the inside, seen from above",
                late=True,
                jig=("", "") if whole else PATTERN,
            ),
        ),
        cautions=(
            Caution("drill press"),
            Caution("jigsaw"),
            Caution("router"),
            Caution("bearing-guided bit"),
            *((Caution("chisel"),) if whole else ()),
        ),
        templates=(
            Template(
                title=label,
                face=face,
                outline=Outline.rectangle(0.0, 0.0, *corner),
                openings=(outline,),
                holes=tuple((x, y, float(wide)) for x, y in centres),
                datum=(((0.0, 0.0), (corner[0], 0.0)), ((0.0, 0.0), (0.0, corner[1]))),
                grain=0.0 if face.axis != 0 else None,
                notes=(
                    f"bore first: {len(centres)} × in the hatched waste"
                    if len(centres) > 1
                    else "bore first, in the waste",
                ),
                whole=True,
                radii=radii,
            ),
        ),
        assumed=(Assumed("walls square to the face, right through"),),
    )


def build(bench: Bench, values: Bound) -> None:
    """Cut out what the file says, its middle at the named place."""
    for part in saying.parts(bench, values):
        face = part.face(values["face"])
        at = saying.on_face(part, face, values["at"], values["from"] or ())
        operation = _said(part, face, at, values)
        operation = replace(operation, ease=values["ease"] or None, label=values["label"] or operation.label)
        bench.add(part.path, operation, title=operation.label, stage=saying.stage(values))


def _said(part: Part, face: Face, at: On, values: Bound) -> Window | HandHole | OvalOut | RoundOut:
    shape = values["shape"]
    if shape == "circle":
        need(values["diameter"] is not None, "cut-out-size", "a circle is said by its diameter", "shape", "diameter: …")
        return RoundOut(face, at, values["diameter"])
    need(
        values["size"] is not None,
        "cut-out-size",
        f"a {shape} is said by its size",
        "shape",
        "size: both directions of the face",
    )
    sizes = {saying.part_axis(part, saying.DIRECTIONS.index(w)): v for w, v in values["size"].items()}
    u, v = in_plane(face)
    need(
        u in sizes and v in sizes,
        "cut-out-size",
        "the size lacks a direction of the face",
        "size",
        "both directions of the face",
    )
    both = (sizes[u], sizes[v])
    if shape == "slot":
        return HandHole(face, at, both)
    return OvalOut(face, at, both) if shape == "ellipse" else Window(face, at, both, values["radius"] or 0)


WORD = Word(
    name="cut out",
    room="operation",
    help="A window or hand hole right through the part, placed by its middle: rectangle, slot with round ends, circle, ellipse.",
    fields=(
        saying.PART,
        saying.FACE,
        Field("at", Place(), "its middle: two directions of the face", required=True),
        saying.FROM,
        Field("shape", Choice(("rectangle", "slot", "circle", "ellipse")), "its line", default="rectangle"),
        Field("size", Place(), "how far it reaches along both directions of the face"),
        Field("diameter", Length(above=0), "of a circle"),
        Field("radius", Length(least=0), "of a rectangle's corners; squared without it"),
        Field("ease", Length(least=0), "radius to which its arrises are rounded over on both faces"),
        saying.LABEL,
        saying.STAGE,
    ),
    example="cut out: {part: left side, face: left, at: {deep: 7, up: 24}, shape: slot, size: {deep: 4, up: 1 1/4}}",
    build=build,
)
