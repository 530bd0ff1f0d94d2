"""Where the parts of a table base stand: legs that may lean in both views, and rails that lean with them."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.expressions import Expr, atan, cos, sin, tan
from docgen.piece.assemblies.terms import AXES, SIDES, Box, from_high, from_low, half
from docgen.piece.bench import Draft, Lazy


@dataclass(frozen=True, slots=True)
class Leg:
    """One leg: on which side of the base it stands, its middle at the top, and its turns.

    It is turned about deep by `alpha`, then about across by `beta`, about its middle at the top. So that it leans by a
    from plumb in the front view and by b in the side view, tan α = tan a · cos b and β = b.
    """

    hand: str  # left or right
    end: str  # front or back
    across: Expr
    deep: Expr
    alpha: Expr
    beta: Expr

    @property
    def path(self) -> str:
        """Its name in the base."""
        return f"{self.end} {self.hand} leg"


@dataclass(frozen=True, slots=True)
class Base:
    """What all parts of a base are made from."""

    draft: Draft
    values: Lazy
    legs: tuple[Leg, ...]
    splayed: bool

    @property
    def box(self) -> Box:
        """The base's outside, at the legs' upper ends."""
        box: Box = self.values["box"]
        return box

    @property
    def size(self) -> Expr:
        """The width of the legs."""
        found: Expr = self.values["legs"]["size"]
        return found

    def lean(self, axis: int) -> Expr:
        """Return how far the legs lean from plumb toward an axis, 0 across or 1 deep."""
        return _lean(self.values["splay"], AXES[axis]) or _upright()

    def leans(self, axis: int) -> bool:
        """Tell whether the legs lean toward an axis."""
        return _lean(self.values["splay"], AXES[axis]) is not None

    def named(self, word: str) -> str:
        """Return the path of a part."""
        return f"{self.draft.name}.{word}"


def legs_of(values: Lazy) -> tuple[Leg, ...]:
    """Return the four legs; at the left and in front their upper ends lean inward by positive and negative turns."""
    box, size, splay = values["box"], values["legs"]["size"], values["splay"]
    a, b = (_lean(splay, word) or _upright() for word in ("across", "deep"))
    alpha = atan(tan(a) * cos(b))
    out = []
    for end in SIDES[1]:
        for hand in SIDES[0]:
            left, front = hand == "left", end == "front"
            across = box[0][0] + half(size) if left else box[0][1] - half(size)
            deep = box[1][0] + half(size) if front else box[1][1] - half(size)
            out.append(Leg(hand, end, across, deep, alpha if left else -alpha, -b if front else b))
    return tuple(out)


def _lean(splay: Lazy | None, word: str) -> Expr | None:
    """Return the lean in one view, None when the legs stand plumb there."""
    return None if splay is None else splay[word]


def _upright() -> Expr:
    """Return no lean."""
    return atan(Expr.of(0))


@dataclass(frozen=True, slots=True)
class Place:
    """Where a rail stands: it runs `along`, its outer face lies at `outer` on the axis `square` to it, at its upper edge."""

    base: Base
    rail: Lazy
    along: int
    square: int
    high: bool  # on the high side: back or right
    outer: Expr
    top: Expr
    lean: Expr  # of the rail, from plumb
    level: bool  # its upper edge is bevelled level

    @staticmethod
    def of(base: Base, rail: Lazy, side: str, top: Expr, *, level: bool) -> Place:
        """Return where the rail of a side stands."""
        along = 0 if side in SIDES[1] else 1
        square, high = 1 - along, side in ("back", "right")
        lean = base.lean(square)
        out = (base.box[2][1] - top) * tan(lean) - rail["set back"] if base.splayed else -rail["set back"]
        outer = base.box[square][1] + out if high else base.box[square][0] - out
        return Place(base, rail, along, square, high, outer, top, lean, level)

    def box(self) -> Box:
        """Return the rail's box at rest; its inner face is higher where the upper edge is bevelled level."""
        thick, low = self.rail["thickness"], self.top - self.rail["width"]
        across = from_high(self.outer, thick) if self.high else from_low(self.outer, thick)
        high = self.top + thick * tan(self.lean) if self.base.splayed and self.level else self.top
        run = self._run()
        return (run, across, (low, high)) if self.along == 0 else (across, run, (low, high))

    def turns(self) -> tuple[tuple[int, Expr, Expr, Expr], ...]:
        """Return the rail's turn about the arris of its outer face and its upper edge."""
        if not self.base.leans(self.square):
            return ()
        # About across, up turns forward where the angle is positive; about deep, to the right.
        positive = self.high if self.along == 0 else not self.high
        return ((self.along, self.lean if positive else -self.lean, self.outer, self.top),)

    def _run(self) -> tuple[Expr, Expr]:
        """Return from where to where the rail runs: between the legs, where they lean to its long points below."""
        base, half_size = self.base, half(self.base.size)
        low, high = base.box[self.along]
        if not base.splayed:
            return low + base.size, high - base.size
        leg, (_, upper), wide, thick = base.legs[0], base.box[2], self.rail["width"], self.rail["thickness"]
        a, b = leg.alpha, -leg.beta  # both positive
        if self.along == 0:
            # The rail leans as the legs do in the side view: in its own upright the leg only leans by α, about a point
            # that comes to lie a little higher.
            off = self.outer - base.box[1][1] + half_size if self.high else leg.deep - self.outer
            pivot = self.top + off * sin(b) + (upper - self.top) * cos(b)
            first = leg.across + (half_size + sin(a) * (self.top - wide - pivot)) / cos(a)
        else:
            lowest = self.top - thick * sin(self.lean) - wide * cos(self.lean)
            first = leg.deep + (half_size + sin(b) * (lowest - upper)) / cos(b)
        return first, low + high - first
