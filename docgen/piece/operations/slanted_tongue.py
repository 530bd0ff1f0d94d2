"""Tongue on an end that is cut at a slant, for a housing in a part that leans: its cheeks run on with the part's faces.

Its tip lies parallel to the shoulders, `length` further out square to both: as deep as the dado, whose floor is parallel to
the face that the shoulders lie on.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, ClassVar

from docgen.geometry.make import along_axis, dot, plus
from docgen.geometry.shapes import Outline, Vec
from docgen.piece.model import Part
from docgen.piece.operations.between_ends import HOUSED
from docgen.piece.operations.end_cut import SQUARE, EndCut
from docgen.piece.operations.ground import (
    OVER,
    SAME,
    axis,
    in_plane,
    length,
    level,
    outward,
    positive,
    settled,
    spot,
    tangent,
    third,
)
from docgen.piece.operations.tongue_shape import TongueShape, need_tongue
from docgen.piece.operations.tongue_work import BIT, FENCE, PARED
from docgen.piece.records import (
    BOTH,
    Allowance,
    Assumed,
    Authority,
    Axis,
    Caution,
    Cut,
    Face,
    Feature,
    Made,
    Mark,
    Setting,
    Size,
    SizeKind,
    Stage,
)
from docgen.trade.cutters import WOOD_LEFT
from docgen.units import Number

LONGEST = "long point at the end of the stated length"
TIP = "end in its housing"
SHOULDERS = "shoulders, from square through the thickness"
SAWN = (
    "knife the shoulders parallel to the cut end, saw them at its lean against the block that serves the dado, split or saw "
    "the waste off along the cheeks and pare them"
)


@dataclass(frozen=True, slots=True)
class SlantedTongue:
    """What is left between `low` and `high` of the thickness of `end`, beyond shoulders that lie parallel to its tip.

    The tip's long point stands `beyond` the nominal end; it rises by `slope` degrees along the part's axis `slants`.
    The shoulders lie `length` behind it, square to it. As thick as the part it has none: the end is cut at the slant and
    enters whole. `over` is the fat left on the cut cheeks until it is fitted. `notch_low` and `notch_high` shorten it at the
    ends of the end's run, as behind a stop.
    """

    word: ClassVar[str] = HOUSED
    end: Face
    beyond: Number
    slope: Number
    slants: Axis
    low: Number
    high: Number
    length: Number
    over: Number = 0
    notch_low: Number = 0
    notch_high: Number = 0
    label: str = "tongue"
    reason: str = "tongue for the housing"
    mate: str = "dado"

    def made(self, part: Part) -> Made:
        """Return the cut of the tip and what goes beside the tongue, its sizes and marks, and how it is cut."""
        self._check(part)
        allowance = Allowance(self.end, max(self.beyond, 0), self.reason)
        grown = replace(part, features=(*part.features, Feature("", "", "", Stage.PART, Made(allowances=(allowance,)))))
        tip = self.cut(part).made(grown)
        cut, longest = not self.whole(part), allowance.amount > SAME
        return Made(
            cuts=(*tip.cuts, *self._cuts(part)),
            sizes=(*(_inner(s) for s in tip.sizes if not (longest and _length(s))), *self._sizes(part)),
            marks=(*tip.marks, *self._marks(part)),
            settings=(*tip.settings, *self._settings(part)),
            cautions=(*tip.cautions, *((Caution("hand saw"), Caution("chisel")) if cut else ())),
            assumed=(
                *((Assumed(LONGEST),) if longest else tip.assumed),
                *((Assumed("shoulders parallel to the cut end, cheeks to the faces"),) if cut else ()),
            ),
            allowances=(allowance,),
        )

    @classmethod
    def at_tip(cls, part: Part, tip: EndCut, low: Number, high: Number, long: Number, **more: Any) -> SlantedTongue:
        """Return the tongue whose tip is cut so; the cut leans along one axis only."""
        u, v = in_plane(tip.end)
        one, two = tip.slopes
        slants, slope = (u, one) if positive(one) > SQUARE else (v, two)
        (longest, _), _ = tip.points(part)
        out = longest - level(part, tip.end)
        return cls(tip.end, settled(float(out if tip.end.side else -out)), slope, slants, low, high, long, **more)

    def cut(self, part: Part) -> EndCut:
        """Return the cut of its tip."""
        rise = tangent(self.slope) * float(part.size[self.slants])
        side = outward(self.end)
        at = float(level(part, self.end)) + side * (float(self.beyond) - max(0.0, side * rise))
        first = self.slants == in_plane(self.end)[0]
        return EndCut(self.end, settled(at), (self.slope, 0) if first else (0, self.slope), TIP)

    @property
    def _run(self) -> Axis:
        return third(self.end.axis, 2)

    def _cheeks(self, part: Part) -> list[tuple[int, Number]]:
        """Return the faces at which the tongue is cut thinner: the side, and how much goes in the end."""
        sides = ((0, self.low), (1, part.size[2] - self.high))
        return [(side, deep) for side, deep in sides if deep > SAME]

    def whole(self, part: Part) -> bool:
        """Return whether the end enters as it is: nothing is cut beside a tongue."""
        return not (self._cheeks(part) or self.notch_low or self.notch_high)

    def _check(self, part: Part) -> None:
        notches = (self.notch_low, self.notch_high)
        shape = TongueShape(self.end, self.low, self.high, self.length, self.over, *notches, label=self.label)
        need_tongue(shape, part.size[2], part.size[self._run])

    def _shoulder(self, part: Part, on: Number) -> Vec:
        """Return the point of the shoulders' plane whose coordinate on the sloping axis is `on`, 0 on the third one."""
        u, _ = in_plane(self.end)
        out = self.cut(part).normal()
        back = float(self.length) / positive(out[self.end.axis]) * outward(self.end)
        at = self.cut(part).reach(on, 0) if self.slants == u else self.cut(part).reach(0, on)
        return spot({self.end.axis: float(at) - back, self.slants: on})

    def _prism(self, points: list[Vec], along: Axis, low: float, high: float) -> Cut:
        u, v = (i for i in range(3) if i != along)
        flat = [(p[u], p[v]) for p in points]
        area = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(flat, flat[1:] + flat[:1], strict=True))
        return Cut(along_axis(Outline.polygon(flat if area > 0 else flat[::-1]), along, low, high))

    def _slab(self, part: Part, on: tuple[float, float], along: tuple[float, float]) -> Cut:
        """Return what lies beyond the shoulders, between two places on the sloping axis and two on the third one.

        Where it ends inside the part on the sloping axis that end is square to the cut where it is a notch, along the
        cheeks where the slope goes through the thickness.
        """
        end, out = self.end.axis, self.cut(part).normal()
        way: Vec = axis(end, outward(self.end)) if self.slants == 2 else out
        far = (float(self.length) + OVER) / dot(way, out)
        a, b = self._shoulder(part, on[0]), self._shoulder(part, on[1])
        points = [a, b, plus(b, way, far), plus(a, way, far)]
        return self._prism(points, third(end, self.slants), *along)

    def _within(self, part: Part, cheek: tuple[float, float], run: tuple[float, float]) -> Cut:
        return self._slab(part, cheek, run) if self.slants == 2 else self._slab(part, run, cheek)

    def _fat(self, part: Part) -> tuple[float, float]:
        """Return the fat on the low and on the high cheek."""
        sides = [side for side, _ in self._cheeks(part)]
        each = float(self.over) / len(sides) if sides else 0.0
        return (each if 0 in sides else 0.0, each if 1 in sides else 0.0)

    def _cuts(self, part: Part) -> Iterator[Cut]:
        """Yield what goes beside the tongue, then the fat, then the notches."""
        thick, wide = float(part.size[2]), float(part.size[self._run])
        reach = float(self.length) + OVER  # a slab square to a slanting cut leans: it has to begin further out
        below, above = -reach, thick + reach
        full = (-reach, wide + reach)
        low, high = float(self.low), float(self.high)
        fat = self._fat(part)
        sides = {side for side, _ in self._cheeks(part)}
        if 0 in sides:
            yield self._within(part, (below, low - fat[0]), full)
        if 1 in sides:
            yield self._within(part, (high + fat[1], above), full)
        for some, edges in ((fat[0], (below, low)), (fat[1], (high, above))):
            if some:
                yield replace(self._within(part, edges, full), stage=Stage.FITTED)
        if self.notch_low:
            yield self._within(part, (below, above), (full[0], float(self.notch_low)))
        if self.notch_high:
            yield self._within(part, (below, above), (wide - float(self.notch_high), full[1]))

    def _sizes(self, part: Part) -> Iterator[Size]:
        """Yield the tongue's length square to the cut, its thickness and place, and the notches."""
        if self.whole(part):
            return
        end, run, out = self.end, self._run, self.cut(part).normal()
        wide = part.size[run]
        first = self.notch_low if not self.notch_high else 0
        root = self._shoulder(part, self.low if self.slants == 2 else first)
        side = Face(third(end.axis, self.slants), 1)
        yield length(root, plus(root, out, float(self.length)), out, self.length, ("length",), side, label=self.label,
                     note="square to the cut")  # fmt: skip
        if self._cheeks(part):
            yield from self._thick(part, root)
        for at, notch, name in ((0, self.notch_low, "notch_low"), (1, self.notch_high, "notch_high")):
            if notch:
                corner, inner = (wide, wide - notch) if at else (0, notch)
                way = axis(run, -1.0 if at else 1.0)
                a, b = (self._shoulder(part, v if self.slants == run else self.low) for v in (corner, inner))
                ends = spot_at(a, run, corner), spot_at(b, run, inner)
                yield length(*ends, way, notch, (name,), Face(2, 1), label="notch")

    def _thick(self, part: Part, root: Vec) -> Iterator[Size]:
        """Yield how thick it is, and where it lies in the part's thickness."""
        seen = Face(self._run, 0)
        tip = plus(root, self.cut(part).normal(), float(self.length))
        ends = spot_at(tip, 2, self.low), spot_at(tip, 2, self.high)
        yield length(
            *ends, axis(2), self.high - self.low, ("high", "low", "over") if self.over else ("high", "low"), seen,
            authority=Authority.FIT if self.over else Authority.CUT, over=self.over, note=self.reason,
        )  # fmt: skip
        if self.low > SAME:
            centred = abs(float(self.low + self.high - part.size[2])) < SAME
            yield length(spot_at(tip, 2, 0), ends[0], axis(2), self.low, ("low",), seen, reference=centred)

    def _marks(self, part: Part) -> Iterator[Mark]:
        """Yield the shoulders on the faces that are cut; wood stays on both sides, since the tongue goes on beyond."""
        if self.end.axis != 0 or self.whole(part):
            return
        sides = [side for side, _ in self._cheeks(part)]
        what = f"{self.label}, shoulder" if sides else f"notch to here: {self.label}"
        if self.slants == 2:
            for side in sides or (0, 1):
                p = self._shoulder(part, part.size[2] if side else 0)
                yield Mark(settled(p[0]), BOTH, what, Face(2, side))
            return
        seen = Face(2, 0 if sides == [0] else 1)
        for side in (0, 1):
            p = self._shoulder(part, part.size[1] if side else 0)
            yield Mark(settled(p[0]), BOTH, f"{what}, {part.side(Face(1, side))}", seen)

    def _settings(self, part: Part) -> Iterator[Setting]:
        """Yield how the shoulders and the notches are cut."""
        cheeks = self._cheeks(part)
        at_end = ("at the", part.plain_side(self.end), "text")
        if cheeks:
            faces = " and ".join(part.word(Face(2, side)) for side, _ in cheeks)
            values: list[tuple[str, Number | str, str]] = [
                (f"{self.label} thickness{', fat' if self.over else ''}", self.high - self.low + self.over, "length"),
                (f"{self.label} length, square to the cut end", self.length, "length"),
            ]
            fit = f"; fit each {self.label} to its {self.mate}" if self.over else ""
            places = (("cut from", f"the {faces} face{'s' if len(cheeks) > 1 else ''}", "text"), at_end)
            if self.slants == 2:
                values.append((SHOULDERS, positive(self.slope), "angle"))
                yield Setting(
                    "hand saw", f"{self.label} on a slanted end", tuple(values), f"{SAWN}{fit}", places, mate=self.mate
                )
            else:
                note = f"{FENCE}; the fence runs along the slanted end{fit}"
                yield Setting(
                    "router",
                    f"{self.label} on a slanted end",
                    (("cutter", BIT, "text"), *values),
                    note,
                    places,
                    feed=WOOD_LEFT,
                    mate=self.mate,
                )
        wides = [
            (f"wide from the {part.side(Face(self._run, side))}", wide, "length")
            for side, wide in ((0, self.notch_low), (1, self.notch_high))
            if wide
        ]
        if wides:
            deep = (("deep, from the cut end, square to it", self.length, "length"),)
            yield Setting("hand saw", f"notches of the {self.label}", deep, PARED, (*wides, at_end))


def spot_at(p: Vec, i: Axis, value: Number) -> Vec:
    """Return a point with one of its coordinates changed."""
    out = list(p)
    out[i] = float(value)
    return (out[0], out[1], out[2])


def _length(size: Size) -> bool:
    """Return whether a size of the tip's cut tells where its long point lies: the part's own length does, where it is longest."""
    return size.kind is SizeKind.LENGTH and "beyond" in _inner(size).parameters


def _inner(size: Size) -> Size:
    """Return a size of the tip's cut, its parameters named as this operation's."""
    names = (("beyond" if name == "at" else "slope") for name in size.parameters)
    parameters = ("slope",) if size.kind is SizeKind.ANGLE else tuple(dict.fromkeys(names))
    return replace(size, parameters=parameters if size.parameters else ())
