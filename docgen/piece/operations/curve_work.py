"""What every curved side has in common: saw, trimming, cautions, and a template of the whole face."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from docgen.geometry.shapes import Vec, Vec2
from docgen.piece.model import Part
from docgen.piece.operations.easing import Easing, eased
from docgen.piece.operations.ground import SAME, axis, level, need, settled, spot, third
from docgen.piece.operations.side_line import SideLine
from docgen.piece.records import Assumed, Axis, Caution, Cut, Face, Made, Setting, Size, SizeKind, Template
from docgen.trade.cutters import WOOD_LEFT
from docgen.units import Number

Values: TypeAlias = tuple[tuple[str, Number | str, str], ...]

WIDEST = 32
"""mm: bearing-guided straight bits are hardly wider, about 1 1/4 in; a hollow that takes them all limits none. Common practice."""

LEVEL = 0.5
"""mm by which a line has to fall to have a way with the grain."""

PATTERN = (
    "template for the bearing to run on",
    "thin plywood or hardboard, worked to the line of the true-size sheet that is taped to it; longer than the cut where that runs "
    "out, fixed to the part with double-sided tape",
)
"""What a flush cutter follows, one for each shape. Common practice."""


TURNED = "turn part and template over"
GRAIN_WAY = f"{WOOD_LEFT}, and only from the long grain toward the end grain; for the rest, {TURNED}"
"""How a flush cutter goes round a bulging outline: with the grain, yet never with the cutter's turn. One way round both hold
on every other quarter only; from the other face they hold on the rest. Geometry of the cut; common practice."""

EASED = f"{WOOD_LEFT} on either face; light passes where it runs against the grain"


def bearing_bit(part: Part, face: Face, hollow: float | None = None) -> tuple[tuple[str, Number | str, str], ...]:
    """Return the bit that trims an outline through `face` flush to its template; `hollow` is the tightest radius, mm."""
    edge = ("cutting edge, more than", part.size[face.axis], "length")
    if hollow is None or 2 * hollow > WIDEST:
        return (("flush cutter with a bearing", "any diameter", "text"), edge)
    return (("flush cutter with a bearing, diameter at most", settled(2 * hollow), "length"), edge)


def run_of(face: Face, edge: Face) -> Axis:
    """Return the axis along the side `edge` of `face`."""
    return third(face.axis, edge.axis)


def feed_of(line: SideLine) -> str:
    """Return how a flush cutter goes along a side: with the grain, yet never with its own turn.

    Along the grain that is down the slope, where the fibres it cuts lie on longer ones; over an end it is toward the end.
    Where a line does both, half of it is cut from the other face. Geometry of the cut.
    """
    if line.face.axis == 0:  # the grain runs through with the cutter's axis, and no way goes against it
        return WOOD_LEFT
    steps = [b[1] - a[1] for a, b in pairwise(line.points())]
    both = all(sum(max(sign * s, 0.0) for s in steps) > LEVEL for sign in (1, -1))
    way, back = ("toward the end of the part", "away from it") if line.edge.axis == 0 else ("down the slope", "up it")
    if both:
        return f"{WOOD_LEFT}, and only {way}; for what then runs {back}, {TURNED}"
    return f"{WOOD_LEFT}, and {way}: the template on that face where both hold"


def sides(face: Face, edge: Face) -> None:
    """Raise a `Fault` unless `edge` is a side of `face`."""
    need(
        face.axis != edge.axis, "curve-edge", "the edge that is cut lies beside the face", "edge", "a side of the face"
    )


def arc_size(
    part: Part, face: Face, edge: Face, centre: Vec2, rim: Vec2, radius: Number, names: tuple[str, ...]
) -> Size:
    """Return the radius of an arc of a side from its centre and a point of it, both along the side and under it."""
    along = run_of(face, edge)
    on = {face.axis: level(part, face)}

    def at(p: Vec2) -> Vec:
        deep = float(part.size[edge.axis]) - p[1] if edge.side else p[1]
        return spot(on | {along: p[0], edge.axis: deep})

    return Size(SizeKind.RADIUS, at(centre), at(rim), axis(face.axis), radius, names, face)


@dataclass(frozen=True, slots=True)
class Curve:
    """What every curved side has in common; `pins` are the points that it is laid out by."""

    line: SideLine
    label: str
    values: Values
    pins: tuple[Vec2, ...]
    told: tuple[str, ...] = ()
    ease: Number | None = None

    def made(self) -> Made:
        """Return cutter, set-ups, cautions and template."""
        part, hollow = self.line.part, self.line.hollow()
        trim = bearing_bit(part, self.line.face, hollow)
        sawn = "saw just outside the line; a jigsaw does it where the part is large"
        feed = feed_of(self.line)
        plain = Made(
            cuts=(Cut(self.line.cutter()),),
            settings=(
                Setting("band saw", self.label, self.values, note=sawn, late=True),
                Setting(
                    "router",
                    f"{self.label}, flush to the template",
                    trim,
                    feed=feed,
                    late=True,
                    jig=PATTERN,
                ),
            ),
            cautions=(Caution("band saw"), Caution("bearing-guided bit"), Caution("router")),
            templates=(self._template(),),
            assumed=(Assumed("curve square to the face"),),
        )
        return self._eased(plain) if self.ease else plain

    def _eased(self, made: Made) -> Made:
        """Return the same with the curve's arrises rounded over on both faces; the radius is told at its middle."""
        start, edges, out = self.line.wall()
        easing = Easing(self.line.part, self.line.face, start, edges, self.ease or 0, out)
        x, d = self.pins[len(self.pins) // 2]
        at, deep = self.line.place((x, d)), self.line.place((x, d + 1))
        return eased(made, easing, self.label, EASED, at, (deep[0] - at[0], deep[1] - at[1]))

    def _template(self) -> Template:
        """Return the whole face: what stays, the waste, the points with a short line across the curve."""
        line = self.line
        wide, begins = line.wide, line.start[1] if line.start[0] <= SAME else 0.0
        named = len(line.run) != 1  # of a smooth curve, not of one arc
        points = [(*line.place(pin), f"point {n}" if named else "") for n, pin in enumerate(self.pins, 1)]
        datum = [(line.place((0.0, wide)), line.place((line.long, wide)))]
        if begins < wide - 1:
            datum.append((line.place((0.0, wide)), line.place((0.0, begins))))
        return Template(
            title=self.label if self.label != "curve" else "curved edge",
            face=line.face,
            outline=line.stays(),
            waste=(line.goes(),),
            datum=tuple(datum),
            grain=0.0 if line.face.axis != 0 else None,
            notes=("hatched: waste; saw outside the line, then trim to it", *self.told),
            whole=True,
            radii=len(line.run) == 1,
            points=tuple(points),
        )
