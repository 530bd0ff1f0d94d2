"""What is printed at true size of tapers: the tapered stretch where paper holds it well, else the end that it comes to.

A taper is a straight line between two marks. Where all that is tapered fits on two pages it is quickest stuck on and sawn.
What is longer is truer along a straightedge than along joined paper: its figures are enough. But where neighbouring faces
are tapered, as of a leg, the likely fault is the wrong face: then the end is printed, its waste hatched, for the end grain.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from docgen.geometry.shapes import Outline, Vec2
from docgen.piece.model import Part
from docgen.piece.operations.ground import level, third
from docgen.piece.records import Face, Template
from docgen.units import Number

BACK = 40.0  # mm of the untouched part that are printed with it
ONE = ((220.0, 130.0), (160.0, 190.0))  # mm along and across, that a page of Letter or A4 holds, lying and upright
TWO = ((460.0, 130.0), (340.0, 190.0))  # the same of two pages, joined
SAME = 1e-6


def templates(part: Part, face: Face, group: Sequence[Face], end: Face, begin: Number, amount: Number) -> tuple[
    Template, ...
]:  # fmt: skip
    """Return what the taper of `face` brings; of the `group` of faces tapered alike each sheet comes with the first it shows."""
    shape = _Shape(part, group, end, float(begin), float(amount))
    first = next(f for f in group if f.axis == face.axis)
    axes = {f.axis for f in group}
    if all(shape.fits(axis, TWO if len(axes) == 1 else ONE) for axis in axes):
        return (shape.stretch(face.axis),) if face == first else ()
    return (shape.end_on(),) if face == group[0] and len(axes) > 1 else ()


class _Shape:
    """A part whose faces in `group` are tapered by `amount` from `begin` to `end`."""

    def __init__(self, part: Part, group: Sequence[Face], end: Face, begin: float, amount: float) -> None:
        self.part, self.end, self.begin = part, end, begin
        self.tip = float(level(part, end))
        back = begin - BACK if end.side else begin + BACK
        self.back = min(max(back, 0.0), float(part.size[0]))
        self.off = dict.fromkeys(group, amount)

    def _left(self, axis: int) -> Vec2:
        """Return from where to where wood stays at the end."""
        return self.off.get(Face(axis, 0), 0.0), float(self.part.size[axis]) - self.off.get(Face(axis, 1), 0.0)

    def fits(self, axis: int, rooms: Iterable[Vec2]) -> bool:
        """Return whether the tapered stretch is small enough to be stuck on."""
        long, wide = abs(self.tip - self.back), float(self.part.size[axis])
        return any(long <= most and wide <= high for most, high in rooms)

    def stretch(self, axis: int) -> Template:
        """Return the stretch that is tapered along `axis`, on the face beside."""
        wide, (low, high) = float(self.part.size[axis]), self._left(axis)
        tip, begin, back = self.tip, self.begin, self.back
        stays = [(back, 0.0), (begin, 0.0), (tip, low), (tip, high), (begin, wide), (back, wide)]
        waste = []
        if low > 0:
            waste.append(_ring([(begin, 0.0), (tip, 0.0), (tip, low)]))
        if high < wide:
            waste.append(_ring([(begin, wide), (tip, high), (tip, wide)]))
        straight = 0.0 if low == 0 else wide
        whole = low == 0 or high == wide
        edge = ((back, straight), (tip, straight)) if whole else ((back, 0.0), (begin, 0.0))
        return Template(
            title="taper",
            face=Face(third(0, axis), 1),
            outline=_ring(stays),
            waste=tuple(waste),
            lines=(((begin, 0.0), (begin, wide), "taper begins"),) if abs(begin - back) > SAME else (),
            datum=(*((edge,) if edge[0] != edge[1] else ()), ((tip, low), (tip, high))),
            grain=0.0,
        )

    def end_on(self) -> Template:
        """Return the end grain with what stays of it, its straight sides for datum edges."""
        wide, thick = float(self.part.size[1]), float(self.part.size[2])
        (x0, x1), (y0, y1) = self._left(1), self._left(2)
        strips = ((0.0, 0.0, x0, thick), (x1, 0.0, wide, thick), (x0, 0.0, x1, y0), (x0, y1, x1, thick))
        sides = (
            (Face(1, 0), (0.0, y0), (0.0, y1)),
            (Face(1, 1), (wide, y0), (wide, y1)),
            (Face(2, 0), (x0, 0.0), (x1, 0.0)),
            (Face(2, 1), (x0, thick), (x1, thick)),
        )
        return Template(
            title="tapered end",
            face=self.end,
            outline=Outline.rectangle(x0, y0, x1, y1),
            waste=tuple(Outline.rectangle(*s) for s in strips if s[2] - s[0] > SAME and s[3] - s[1] > SAME),
            datum=tuple((a, b) for face, a, b in sides if face not in self.off),
            notes=(
                "square a line round the blank where the taper begins, and from it draw to the corners of what stays "
                "here with a straightedge",
            ),
        )


def _ring(points: Sequence[Vec2]) -> Outline:
    """Return the polygon counter-clockwise, without corners that lie on the line of their neighbours or on one another."""
    kept = list(_corners(list(dict.fromkeys(points))))
    turn = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(kept, kept[1:] + kept[:1], strict=True))
    return Outline.polygon(kept if turn > 0 else kept[::-1])


def _corners(points: Sequence[Vec2]) -> Iterator[Vec2]:
    for n, p in enumerate(points):
        a, b = points[n - 1], points[(n + 1) % len(points)]
        if abs((p[0] - a[0]) * (b[1] - a[1]) - (p[1] - a[1]) * (b[0] - a[0])) > SAME:
            yield p
