"""The rows of templates and gauges: what is printed at true size, and how it is seen on the wood."""

from __future__ import annotations

from dataclasses import dataclass, replace

from docgen.geometry.outlines import mirrored
from docgen.geometry.shapes import Vec2
from docgen.piece.records import Face, Template

SAME = 1e-6  # mm


@dataclass(frozen=True, slots=True)
class TemplateRow:
    """One template, as it is seen on the face from outside.

    x runs along the part's length (on an end: along its width) from the datum end, y away from the datum edge;
    y runs downward from it where the face is seen from the part's low side: then `seen` has negative y.
    """

    title: str
    seen: Template
    face: str  # that it is laid on: "left face", "front edge"
    end: str  # "bottom end": where x is 0
    far: str  # "top end": the other one
    edge: str  # "front edge": where y is 0
    far_edge: str  # "back edge": the other one
    parts: tuple[str, ...]  # that it serves
    numbers: tuple[int, ...]  # their balloon numbers
    uses: int  # how often it is laid on
    hand: str = ""  # what is said of the other hand
    other: str = ""  # a part that is the other hand, where the template does not serve it
    size: tuple[float, float] = (0.0, 0.0)  # of the face along x and y, nominal
    lengthwise: bool = True  # x runs with the part's length
    mates: tuple[str, ...] = ()  # what the parts are called through which the holes that are only checked are drilled
    asked: bool = False  # by the file, which wants the whole of it
    names: tuple[str, ...] = ()  # what the parts are called on paper
    beside: tuple[tuple[float, float, float], ...] = ()  # those of its holes that other features bring, as seen
    turned: tuple[
        str, ...
    ] = ()  # what the equal parts are called on which it lies turned: the sides are the first one's
    boxed: bool = False  # the part's sides are lines drawn on a rough blank, not its edges

    @property
    def called(self) -> tuple[str, ...]:
        """What the parts are called on paper, their paths where nothing else is said."""
        return self.names or self.parts

    def side_word(self, a: Vec2, b: Vec2) -> str:
        """Return what a datum line is called: the end or edge of the part that it lies at or nearest to.

        One that lies aslant is no side of the blank: "bottom end as cut"; nor is one that is drawn on a rough blank.
        """
        if self.seen.shared:
            return "outer face" if self.seen.glued else "edge of the wood"
        drawn = "line of the " if self.boxed else ""
        return f"{drawn}{self.side(a, b)}{' as cut' if aslant(a, b) else ''}"

    def side(self, a: Vec2, b: Vec2) -> str:
        """Return the end or edge of the part that a datum line lies at or nearest to."""
        if abs(b[1] - a[1]) < abs(b[0] - a[0]):
            return self.edge if abs(a[1] + b[1]) / 2 <= self.size[1] / 2 else self.far_edge
        return self.end if (a[0] + b[0]) / 2 <= self.size[0] / 2 else self.far


@dataclass(frozen=True, slots=True)
class Gauge:
    """An angle to set a bevel or a sled by; `angle` is at most 45 degrees, its complement is the rest of 90."""

    angle: float
    uses: tuple[str, ...]  # "leg: foot, level"
    turns: tuple[Turn, ...] = ()  # the same uses, told apart by which of the two angles is counted from square


@dataclass(frozen=True, slots=True)
class Turn:
    """Uses of a gauge that are turned alike: whether its `angle` is the one from square, and what the other is from."""

    square: bool
    other: str  # "edge", "face", "end"
    uses: tuple[str, ...]


def aslant(a: Vec2, b: Vec2) -> bool:
    """Return whether a line runs neither along a part nor square across it."""
    return min(abs(b[0] - a[0]), abs(b[1] - a[1])) > SAME


def in_plane(face: Face) -> tuple[int, int]:
    """Return the two axes of a face in rising order."""
    u, v = (axis for axis in range(3) if axis != face.axis)
    return u, v


def seen_mirrored(face: Face) -> bool:
    """Return whether the face's axes, seen from outside, are left-handed: then one of them must be turned."""
    return face.side == (1 if face.axis == 1 else 0)


def as_seen(template: Template) -> Template:
    """Return the template as it looks on the wood from outside, its datum end at the left."""
    if not seen_mirrored(template.face):
        return template

    def flip(p: Vec2) -> Vec2:
        return (p[0], -p[1])

    return replace(
        template,
        outline=mirrored(template.outline, 1),
        waste=tuple(mirrored(w, 1) for w in template.waste),
        openings=tuple(mirrored(o, 1) for o in template.openings),
        holes=tuple((x, -y, d) for x, y, d in template.holes),
        checks=tuple((x, -y, d) for x, y, d in template.checks),
        lines=tuple((flip(a), flip(b), label) for a, b, label in template.lines),
        points=tuple((x, -y, name) for x, y, name in template.points),
        datum=tuple((flip(a), flip(b)) for a, b in template.datum),
        grain=None if template.grain is None else -template.grain,
    )
