"""A part turned into a disc or an oval: all outside a circle or an ellipse on one of its faces is cut away."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import ClassVar

from docgen.geometry.curves import ellipse_outline
from docgen.geometry.shapes import Outline
from docgen.piece.bench import Bench
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.curve_work import GRAIN_WAY, PATTERN, bearing_bit
from docgen.piece.operations.ground import SAME, in_plane, need, positive, settled
from docgen.piece.operations.opening import (
    LINES,
    On,
    across_sizes,
    centre_sizes,
    diameter_size,
    inside_face,
    taken_outside,
)
from docgen.piece.operations.rim import Rim
from docgen.piece.records import Assumed, Caution, Cut, Face, Made, Mark, Setting, Template
from docgen.project.fields import Field, Length, Many, Word
from docgen.project.statements import Bound
from docgen.trade import arcs
from docgen.units import Number

ROUND = (
    "counter-clockwise round the outside, seen from above, never the other way; two of the four quarters then run from the end "
    "grain to the long grain, against it: there slowly"
)
SPARE = {"mm": Fraction(2), "inch": Fraction(254, 160)}
"""Wood that the saw leaves outside the line, mm: 2 mm, 1/16 in. Common practice."""
BIT = {"mm": Fraction(12), "inch": Fraction(254, 20)}
"""A straight bit on a trammel, mm: 12 mm, 1/2 in, the stoutest of the common shanks. Common practice."""
CENTRE = 6.0  # mm that the cross at the centre reaches to each side on the template


PIVOT = (
    "pivot board for the band saw",
    "plywood clamped to the table, a pin in it level with the teeth, its distance from them as the set-up says",
)
TRAMMEL = (
    "trammel for the router",
    "a strip screwed under its base, a pin in it at the distance that the set-up says; a waste board and double-sided tape",
)
"""What carries a disc past the blade, and the router round it. Common practice."""

TAPED = (
    "stuck to a waste board all over with double-sided tape, the face with the pin's hole up: no clamp is in the router's way, and "
    "nothing moves when the last pass sets it free, just into the waste board"
)
"""How a disc is held while a router goes all the way round it. Common practice."""


ROUND_LINES = "centre lines and lines of the finished box, drawn on the rough blank, stay until the outline is cut"


@dataclass(frozen=True, slots=True)
class Disc:
    """The part cut to a circle of `diameter` about `at` on `face`, right through."""

    word: ClassVar[str] = "round"
    face: Face
    at: On
    diameter: Number
    label: str = "disc"
    system: str = field(default="mm", metadata=TOLD)  # of units: what is left for the router, and its bit

    def made(self, part: Part) -> Made:
        """Return the cutter, centre and diameter, marks, how it is sawn on a pivot, and a template."""
        need(self.diameter > 0, "diameter-range", f"the {self.label} has no width", "diameter", "more than 0")
        at, radius = (float(self.at[0]), float(self.at[1])), float(self.diameter) / 2
        outline = Outline.circle(at, radius)
        inside_face(part, self.face, outline, self.label, "diameter")
        pivot = (("radius, pin to blade", self.diameter / 2 + SPARE[self.system], "length"),)
        saw = Setting(
            "band saw",
            f"{self.label}, on a pivot",
            pivot,
            note="pivot level with the teeth; mark the centre on the underside; the router takes what is left outside the line",
            late=True,
            jig=PIVOT,
        )
        trim = Setting(
            "router",
            f"{self.label}, on a trammel",
            (
                ("from the pin to the near side of the cut", self.diameter / 2, "length"),
                ("straight bit, about", BIT[self.system], "length"),
                ("cutting edge, more than", part.size[self.face.axis], "length"),
            ),
            note=TAPED,
            feed=ROUND,
            late=True,
            jig=TRAMMEL,
        )
        made = _made(part, self.face, self.at, outline, self.label)
        return replace(
            made,
            sizes=(
                *centre_sizes(part, self.face, self.at),
                replace(diameter_size(part, self.face, self.at, self.diameter, ""), note=""),
            ),
            settings=(saw, trim),
        )


@dataclass(frozen=True, slots=True)
class Oval:
    """The part cut to an ellipse about `at` on `face`, as long on the face's two axes as `sizes`, right through."""

    word: ClassVar[str] = "round"
    face: Face
    at: On
    sizes: On
    label: str = "oval"

    def made(self, part: Part) -> Made:
        """Return the cutter, centre and both lengths, marks, how it is drawn with a string, and a template."""
        need(min(self.sizes) > 0, "diameter-range", f"the {self.label} has no width", "size", "more than 0")
        at, half = (float(self.at[0]), float(self.at[1])), (float(self.sizes[0]) / 2, float(self.sizes[1]) / 2)
        outline = ellipse_outline(at, half)
        inside_face(part, self.face, outline, self.label, "size")
        apart = settled(2 * arcs.focus(max(half), min(half)))
        made = _made(part, self.face, self.at, outline, self.label)
        values = (
            ("length", max(self.sizes), "length"),
            ("width", min(self.sizes), "length"),
            ("pins for a string, apart", apart, "length"),
            ("string round both pins and the pencil", settled(float(max(self.sizes)) + float(apart)), "length"),
        )
        return replace(
            made,
            sizes=(
                *centre_sizes(part, self.face, self.at),
                *across_sizes(part, self.face, self.at, self.sizes, ("sizes.0", "sizes.1"), ""),
            ),
            settings=(
                Setting("band saw", self.label, values, note="saw just outside the line", late=True),
                Setting(
                    "router",
                    f"{self.label}, flush to the template",
                    bearing_bit(part, self.face),
                    feed=GRAIN_WAY,
                    late=True,
                    jig=PATTERN,
                ),
            ),
        )


def _made(part: Part, face: Face, at: On, outline: Outline, label: str) -> Made:
    """Return what a disc and an oval have in common."""
    u, _ = in_plane(face)
    x, y = float(at[0]), float(at[1])
    cross = (((x - CENTRE, y), (x + CENTRE, y), "centre"), ((x, y - CENTRE), (x, y + CENTRE), ""))
    circle = len(outline.edges) == 1
    return Made(
        cuts=(Cut(taken_outside(part, face, outline)),),
        marks=(Mark(at[0], 0, f"centre of the {label}", face),) if u == 0 else (),
        cautions=(Caution("band saw"), Caution("router"), *(() if circle else (Caution("bearing-guided bit"),))),
        templates=(
            Template(
                title=label,
                face=face,
                outline=outline,
                lines=cross,
                grain=0.0 if face.axis != 0 else None,
                notes=("saw outside the line, then trim to it",),
                whole=True,
                radii=circle,
            ),
        ),
        assumed=(Assumed("rim square to the face"), Assumed(ROUND_LINES if circle else LINES)),
        outlined=True,
    )


def build(bench: Bench, values: Bound) -> None:
    """Make the parts round as their boxes allow, or to a diameter about the middle."""
    for part in saying.parts(bench, values):
        face = part.face(values["face"])
        u, v = in_plane(face)
        at = (part.size[u] / 2, part.size[v] / 2)
        label = values["label"] or ""
        diameter = values["diameter"]
        if diameter is None and positive(part.size[u] - part.size[v]) < SAME:
            diameter = part.size[u]
        operation: Disc | Oval = (
            Oval(face, at, (part.size[u], part.size[v]), label or "oval")
            if diameter is None
            else Disc(face, at, diameter, label or "disc", bench.units.system)
        )
        bench.add(part.path, operation, title=operation.label, stage=saying.stage(values))
        for word in values["rim"] or ():
            _rim(bench, part, operation, word, values)


def _rim(bench: Bench, part: Part, disc: Disc | Oval, word: str, values: Bound) -> None:
    """Round the rim over on the face called `word`."""
    need(values["rim radius"] is not None, "rim-words", "a rounded rim needs its radius", "rim", "rim radius: …")
    need(isinstance(disc, Disc), "rim-words", "only a disc's rim can be rounded", "rim", "a square box, or a diameter")
    assert isinstance(disc, Disc)
    face = part.face(word)
    need(
        face.axis == disc.face.axis, "rim-words", f"the rim does not meet the {word} face", "rim", "a face of the disc"
    )
    rim = Rim(face, disc.at, disc.diameter, values["rim radius"])
    bench.add(part.path, rim, title=f"{disc.label}, {word} rim", stage=saying.stage(values))


WORD = Word(
    name="round",
    room="edge",
    help="The whole part cut to a disc, or to the oval that its box holds where that is not square.",
    fields=(
        saying.PART,
        saying.FACE,
        Field("diameter", Length(above=0), "of a disc smaller than the box"),
        Field("rim", Many(saying.FACE.kind), "faces of a disc toward which its rim is rounded over"),
        Field("rim radius", Length(above=0), "of that round-over"),
        saying.LABEL,
        saying.STAGE,
    ),
    example="round: {part: cheek, face: left, label: plaque}",
    build=build,
)
