"""Comb: sockets sawn out of the end of a board, with fingers or tails between them."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import ClassVar

from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Outline, Vec, Vec2
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.ground import OVER, SAME, axis, length, need, outward, several, spot, tangent, within
from docgen.piece.records import BOTH, Assumed, Caution, Cut, Face, Made, Mark, Setting, Size, SizeKind, Template
from docgen.units import Number, format_angle

BEHIND = 25.0
"""mm of wood that the template shows behind the baseline, to tape it by."""


BROAD = Face(2, 1)

ONE_END = "counts of {}s and of what is between them are those of one end"
"""Boards have a comb at both ends."""


SLED = (
    "sled with a key",
    "a fence screwed to the gauge or to a sled, a hardwood key in it as wide as the cutter; near side of the key to near side of the "
    "cutter is the step; waste behind the work for each cut",
)
"""What steps the cuts of a comb. Common practice."""


@dataclass(frozen=True, slots=True)
class Comb:
    """`count` sockets from the end `end`, `deep` to the baseline, right through the thickness.

    Places run along the width from its low edge and are those at the board's end. `first` is where the first inner
    socket begins, `socket` how wide each is, `step` from one to the next. `low` and `high` are sockets open at the
    edges, 0 where the board keeps its edge; they begin `low_rest` and `high_rest` from the edges, where the joint
    does not take the whole width. With a `slope` (degrees from the length) sockets widen inward and tails stay between.
    """

    word: ClassVar[str] = "corner joint"
    end: Face
    deep: Number
    first: Number = 0
    socket: Number = 0
    step: Number = 0
    low: Number = 0
    high: Number = 0
    slope: Number = 0
    low_rest: Number = 0
    high_rest: Number = 0
    count: int = field(default=0, metadata=TOLD)
    index: Number = field(default=0, metadata=TOLD)  # from cut to cut of the machine
    label: str = "finger"
    gap: str = "socket"  # what the sheets call a socket
    edge: str = "open socket"  # and one at an edge
    told: str = ""  # the slope as a ratio
    cutter: str = ""  # the machine's key, "" for hand work
    face: Face = BROAD  # the broad face on which it is laid out

    def made(self, part: Part) -> Made:
        """Return the sockets, baseline, first tooth, spacing and slope, the baseline's mark, set-up and template."""
        self._check(part)
        return Made(
            cuts=tuple(Cut(along_axis(o, 2, -OVER, float(part.size[2]) + OVER)) for o in self._outlines(part, OVER)),
            sizes=self._sizes(part),
            marks=(Mark(self._baseline(part), BOTH, f"baseline of the {self.label}s", self.face),),
            settings=(self._setting(part),),
            cautions=(Caution(self.cutter),) if self.cutter else (Caution("hand saw"), Caution("chisel")),
            templates=() if self.cutter else (self._template(part),),
            assumed=(
                Assumed(f"{self.label}s through the thickness, baseline square to the edges"),
                Assumed(ONE_END.format(self.label)),
            ),
        )

    def _check(self, part: Part) -> None:
        within(part, 0, self._baseline(part), self._baseline(part), self.label, "deep")
        need(0 < self.deep < part.size[0], "depth-range", f"the {self.label}s have no length", "deep", "more than 0")
        need(0 <= self.slope < 45, "slope-range", f"the {self.label}s' slope is no slope", "slope", "under 45 degrees")
        wide = float(part.size[1])
        places = [b for a in self._spans(part) for b in a]
        need(
            places == sorted(places) and all(-SAME <= p <= wide + SAME for p in places),
            "comb-crowded",
            f"the {self.label}s do not fit: their sockets run into each other or out of {figure(part.size[1])}",
            "count",
            f"fewer {self.label}s, or narrower sockets",
        )
        flare = float(self.deep) * tangent(self.slope)
        spans = self._spans(part)
        for before, after in pairwise(spans):
            need(
                after[0] - before[1] - 2 * flare > 0.5,
                "comb-no-root",
                f"nothing is left of a {self.label} at the baseline: {figure(after[0] - before[1])} wide at its end, "
                f"it narrows by {figure(2 * flare)}",
                "slope",
                f"fewer {self.label}s, or a flatter slope",
            )

    def _level(self, part: Part) -> Number:
        return part.size[0] if self.end.side else 0

    def _baseline(self, part: Part) -> Number:
        return part.size[0] - self.deep if self.end.side else self.deep

    def _starts(self) -> list[Number]:
        return [self.first + i * self.step for i in range(self.count)]

    def _spans(self, part: Part) -> list[tuple[float, float]]:
        """Return from–to of every socket at the board's end, rising."""
        wide = part.size[1]
        out: list[tuple[Number, Number]] = []
        if self.low:
            out.append((self.low_rest, self.low_rest + self.low))
        out += [(s, s + self.socket) for s in self._starts()]
        if self.high:
            out.append((wide - self.high_rest - self.high, wide - self.high_rest))
        return [(float(a), float(b)) for a, b in out]

    def _outlines(self, part: Part, over: float) -> list[Outline]:
        """Return each socket in the board's face (length, width), reaching `over` beyond its open sides."""
        base, sign = float(self._baseline(part)), outward(self.end)
        t, deep, wide = tangent(self.slope), float(self.deep), float(part.size[1])
        out = []
        for a, b in self._spans(part):
            left = a > SAME and not (self.low_rest and abs(a - float(self.low_rest)) < SAME)
            right = b < wide - SAME and not (self.high_rest and abs(b - wide + float(self.high_rest)) < SAME)
            a0 = a - t * deep if left else a - (over if a <= SAME else 0)
            b0 = b + t * deep if right else b + (over if b >= wide - SAME else 0)
            a1 = a + t * over if left else a0
            b1 = b - t * over if right else b0
            tip = base + sign * (deep + over)
            points: list[Vec2] = [(base, a0), (tip, a1), (tip, b1), (base, b0)]
            out.append(Outline.polygon(points))
        return [_ccw(o) for o in out]

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        tip, base, wide = self._level(part), self._baseline(part), part.size[1]
        start = self.low_rest + self.low

        def at(across: Number, along: Number = tip) -> Vec:
            return spot({0: along, 1: across, 2: part.size[2] if self.face.side else 0})

        up, down, face = axis(1), axis(1, -1.0), self.face
        teeth = self.count + 1
        sizes = [
            length(
                at(start, base), at(start), axis(0, outward(self.end)), self.deep, ("deep",), face, label="baseline"
            ),
        ]
        if self.low_rest:
            sizes.append(length(at(0), at(self.low_rest), up, self.low_rest, ("low_rest",), face))
        if self.high_rest:
            rest = at(wide), at(wide - self.high_rest)
            sizes.append(length(*rest, down, self.high_rest, ("high_rest",), face))
        low_left, high_left = self._left_over()
        if self.low:
            ends = at(self.low_rest), at(start)
            label = self._open(part, 0)
            sizes.append(length(*ends, up, self.low, ("low",), face, label=label, reference=low_left))
        if self.high:
            ends = at(wide - self.high_rest), at(wide - self.high_rest - self.high)
            label = self._open(part, 1)
            sizes.append(length(*ends, down, self.high, ("high",), face, label=label, reference=high_left))
        if self.count:
            names = ("first", *(("low",) if self.low else ()), *(("low_rest",) if self.low_rest else ()))
            edge = "" if self.low else f", {part.side(Face(1, 0))}"
            same = f"{self.label}{edge}" if edge and not self.slope else several(teeth, self.label)
            tooth = at(start), at(self.first)
            sizes.append(length(*tooth, up, self.first - start, names, face, label=same, reference=bool(self.slope)))
            ends = at(self.first), at(self.first + self.socket)
            sizes.append(length(*ends, up, self.socket, ("socket",), face, label=several(self.count, self.gap)))
        if self.count > 1:
            ends = at(self.first), at(self.first + self.step)
            sizes.append(length(*ends, up, self.step, ("step",), face, label=several(self.count - 1, "spacing")))
        if self.count and not (self.high or self.high_rest or self.slope):
            ends = at(wide - self._last(part)), at(wide)
            label = f"{self.label}, {part.side(Face(1, 1))}"
            sizes.append(length(*ends, up, self._last(part), (), face, label=label, note="reference: what is left"))
        if self.slope:
            sizes.append(self._angle(part))
        return tuple(sizes)

    def _last(self, part: Part) -> Number:
        """Return what is left between the last inner socket and the high edge, or the open socket there."""
        end = self.first + (self.count - 1) * self.step + self.socket
        return part.size[1] - self.high_rest - self.high - end

    def _left_over(self) -> tuple[bool, bool]:
        """Tell of the open sockets at the low and the high edge which is what fingers and sockets leave of the width.

        It is the one that is not as wide as the cutter. Of tails it is their width that pins and spacing leave.
        """
        if not (self.low and self.high and self.count) or self.slope:
            return False, False
        low = abs(float(self.high - self.socket)) < SAME < abs(float(self.low - self.socket))
        return low, not low

    def _open(self, part: Part, side: int) -> str:
        """Return what an open socket is called: how many are alike at one end, or at which edge it is."""
        alike = not (self.low and self.high) or (abs(float(self.low - self.high)) < SAME and not any(self._left_over()))
        if alike and self.low and self.high:
            return several(2, self.edge)
        return self.edge if alike else f"{self.edge}, {part.side(Face(1, side))}"

    def _angle(self, part: Part) -> Size:
        """Return the corner of a tail at the first socket: between the end and the tail's side, 90° less the slope."""
        tip, base = float(self._level(part)), float(self._baseline(part))
        edge = float(self.first) if self.count else float(part.size[1] - self.high_rest - self.high)
        on: Number = part.size[2] if self.face.side else 0
        flare = float(self.deep) * tangent(self.slope)
        return Size(
            SizeKind.ANGLE,
            spot({0: tip, 1: edge, 2: on}),
            spot({0: tip, 1: edge - float(self.deep), 2: on}),
            axis(2),
            90 - self.slope,
            ("slope",),
            self.face,
            other=spot({0: base, 1: edge - flare, 2: on}),
            note=f"slope {self.told}, from the end" if self.told else "",
        )

    def _edges(self, part: Part) -> tuple[tuple[str, Number | str, str], ...]:
        """Return what the first cut is set from, edge by edge: the other edge takes what is left."""
        low, high = (part.side(Face(1, side)) for side in (0, 1))
        if not self.count:
            return ()
        if self.low:
            return (
                (f"open socket at the {low}", self.low, "length"),
                (f"first {self.label} beside it", self.first - self.low_rest - self.low, "length"),
                (f"open socket left at the {high}", self.high, "length"),
            )
        last = (f"{self.label} left at the {high}", self._last(part), "length")
        return ((f"first {self.label} at the {low}", self.first, "length"), last)

    def _setting(self, part: Part) -> Setting:
        if self.cutter:
            return Setting(
                self.cutter,
                f"{self.label}s" if self.low else f"{self.label}s, the part with {self.label}s at both edges",
                (
                    ("cutter", self.socket or self.low, "length"),
                    ("height over the table", self.deep, "length"),
                    ("step from cut to cut", self.index or self.step, "length"),
                ),
                note="set the step on two offcuts: they must go together by hand pressure",
                places=self._edges(part),
                mate=f"{self.label}s of the mating part",
                jig=SLED,
            )
        return Setting(
            "hand saw",
            f"{self.label}s, laid out and cut by hand",
            (
                ("marking gauge, baseline", self.deep, "length"),
                ("sliding bevel", f"{self.told}, {format_angle(self.slope)} from square", "text"),
                (f"{self.label}s", self.count + 1, "count"),
            ),
            note="saw on the waste side, chop from both faces to the baseline; or a router jig of the same slope",
            mate="tails and pins of a sample corner",
        )

    def _template(self, part: Part) -> Template:
        """Return the end of the board from a little behind the baseline, the sockets hatched."""
        wide, deep = float(part.size[1]), float(self.deep)
        base, tip = float(self._baseline(part)), float(self._level(part))
        back = base - outward(self.end) * min(BEHIND, float(part.size[0]) - deep)
        outlines = self._outlines(part, 0.0)
        shared = ""
        if not (self.low_rest or self.high_rest or self.low != self.high):  # the same from both ends: print it once
            shared = f"{self.label}s {wide:.4f} {deep:.4f} {float(self.low):.4f} {self.count} {float(self.slope):.4f}"
            base, back, tip = deep, deep + abs(back - base), 0.0
            outlines = replace(self, end=Face(0, 0))._outlines(part, 0.0)
        x0, x1 = min(back, tip), max(back, tip)
        return Template(
            title=f"{self.label}s",
            face=self.face,
            outline=Outline.rectangle(x0, 0.0, x1, wide),
            waste=tuple(outlines),
            lines=(((base, 0.0), (base, wide), "baseline"),),
            datum=(((x0, 0.0), (x1, 0.0)), ((tip, 0.0), (tip, wide))),
            grain=0.0,
            notes=(
                f"scribe the baseline all round with a gauge set to the mating part; hatched wood goes; slope {self.told}",
            ),
            shared=shared,
            loose=bool(shared),
            lies="on the outer face, at either end" if shared else "",
        )


def _ccw(outline: Outline) -> Outline:
    points = [e.end for e in outline.edges]
    area = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(points, points[1:] + points[:1], strict=True))
    return outline if area > 0 else Outline.polygon(points[::-1])
