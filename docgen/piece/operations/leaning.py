"""Holes that lean: the lean in truth, the sight line along which it is seen, and how both are set and told."""

from __future__ import annotations

import math
from dataclasses import dataclass

from docgen.geometry.shapes import Vec, Vec2
from docgen.piece.model import Part
from docgen.piece.operations.ground import axis, in_plane, outward, positive, settled, spot, tangent, third
from docgen.piece.records import Face, Leaning, Size, SizeKind
from docgen.trade.splay import true_lean
from docgen.units import Number, format_angle

ARM = 20.0  # mm of an angle's arms
SIGHT = 40.0  # mm of the sight line that a template shows to each side of a hole
SEEN = "as seen from this side, from square: not what the drill is set to"
"""What is noted of the lean in one view, where the drill leans in two."""

ARROWS = "an arrow is a sight line: the drill leans to its head as it goes in"
"""What a template says of its sight lines."""
BARB = 6.0  # mm of the arrowhead at its end


@dataclass(frozen=True, slots=True)
class Lean:
    """A drill that leans `leans` from square to `face`, toward + on the face's two axes, degrees, as it goes in."""

    part: Part
    face: Face
    leans: tuple[Number, Number]

    @property
    def compound(self) -> bool:
        """True when it leans in both views of the face."""
        return all(self.leans)

    @property
    def truth(self) -> tuple[Number, Number]:
        """Return (lean from square along the sight line, sight line from the face's first axis), degrees."""
        one, two = (positive(a) for a in self.leans)
        if not self.compound:
            return (one or two), 0 if one else 90
        lean, sight = true_lean(float(one), float(two))
        return settled(lean), settled(sight)

    @property
    def words(self) -> tuple[str, str]:
        """Return the sides toward which it leans on the face's two axes."""
        one, two = (self.part.word(Face(i, 1 if self.leans[k] > 0 else 0)) for k, i in enumerate(in_plane(self.face)))
        return one, two

    def told(self) -> str:
        """Return the lean as the chart tells it."""
        if not any(self.leans):
            return ""
        lean, sight = self.truth
        both = f"{format_angle(lean)} from square ({format_angle(90 - lean)} from the face)"
        one, two = self.words
        if not self.compound:
            return f"leans {both} toward the {one if self.leans[0] else two} as it goes in"
        return (
            f"leans {both} along its sight line as it goes in; the sight line runs toward the {one}, "
            f"swung {format_angle(sight)} to the {two}"
        )

    def record(self) -> Leaning | None:
        """Return the lean as tables tell it; None of a drill that stands square."""
        if not any(self.leans):
            return None
        (lean, sight), (one, two) = self.truth, self.words
        if not self.compound:
            return Leaning(lean, one if self.leans[0] else two, 0, "", self.told())
        return Leaning(lean, one, sight, two, self.told())

    def settings(self) -> list[tuple[str, Number | str, str]]:
        """Return how the drill press is tilted."""
        if not any(self.leans):
            return []
        lean, _ = self.truth
        return [("table tilt, from square", lean, "angle"), ("table tilt, from the drill", 90 - lean, "angle")]

    def places(self) -> tuple[tuple[str, Number | str, str], ...]:
        """Return how the part lies on the tilted table."""
        if not any(self.leans):
            return ()
        _, sight = self.truth
        one, two = self.words
        if not self.compound:
            return (("goes in toward", f"the {one if self.leans[0] else two}", "text"),)
        return ((f"sight line, from straight to the {one}, swung to the {two}", sight, "angle"),)

    def sizes(self, at: Vec) -> tuple[Size, ...]:
        """Return the lean in each view that shows one, from square at the hole's mouth `at`, an arm of 20 mm long."""
        out = []
        into = -outward(self.face)
        for k, i in enumerate(in_plane(self.face)):
            lean, other = self.leans[k], third(i, self.face.axis)
            if lean:
                square = spot({j: c + ARM * into * (j == self.face.axis) for j, c in enumerate(at)})
                slanted = spot({j: c + ARM * tangent(lean) * (j == i) for j, c in enumerate(square)})
                names, seen, note = (
                    (f"leans.{k}",),
                    Face(other, 1),
                    SEEN if self.compound else "from square to the face",
                )
                out.append(
                    Size(
                        SizeKind.ANGLE,
                        at,
                        square,
                        axis(other),
                        positive(lean),
                        names,
                        seen,
                        other=slanted,
                        label="lean",
                        note=note,
                    )
                )
        return tuple(out)

    def line(self, at: Vec2) -> tuple[tuple[Vec2, Vec2, str], ...]:
        """Return the sight line through a hole's mouth as a template shows it, on the face's axes.

        It is an arrow: its head lies where the drill leans to as it goes in (`ARROWS` says so).
        """
        if not any(self.leans):
            return ()
        x, y = tangent(self.leans[0]), tangent(self.leans[1])
        n = math.hypot(x, y)
        dx, dy = x / n, y / n
        tip = (at[0] + dx * SIGHT, at[1] + dy * SIGHT)
        barbs = ((tip[0] - BARB * (dx - s * dy / 3), tip[1] - BARB * (dy + s * dx / 3)) for s in (1, -1))
        whole = ((at[0] - dx * SIGHT, at[1] - dy * SIGHT), tip, "sight line")
        return (whole, *((tip, barb, "") for barb in barbs))
