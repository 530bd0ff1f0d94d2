"""Dimensions set within or close beside the view, in any direction: candidates by distance, scored."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from docgen.drawing import symbols
from docgen.drawing.boxes import readable
from docgen.drawing.dimensions.label import Label
from docgen.drawing.dimensions.occupied import Occupied, Segment
from docgen.drawing.dimensions.shade import Shade
from docgen.drawing.dimensions.trial import Batch, Trial, in_order, screened
from docgen.drawing.dimensions.wanted import Linear, Rules
from docgen.drawing.records import Point

SQUARE = 1e-6
OFFSETS = (4.0, 6.0, 8.0, 10.0, 12.0, 15.0, 18.0, 22.0, 27.0, 33.0, 40.0, 50.0, 65.0)


OUT_LENGTHS = (6.0, 11.0, 18.0, 28.0, 40.0)
OUT_TURNS = (45.0, -45.0, 135.0, -135.0, 20.0, -20.0, 160.0, -160.0, 70.0, -70.0, 110.0, -110.0)
LEVEL = 2.5  # mm of level line between a leader's bend and its text
TAILS = (3.0, 8.0)  # mm from the arrow of a slanted line to the bend before its level figure


def _slanted(d: Point) -> bool:
    return min(abs(d[0]), abs(d[1])) > SQUARE


def _dot(p: Point, q: Point) -> float:
    return p[0] * q[0] + p[1] * q[1]


def inside_trials(
    wanted: Linear,
    a: Point,
    b: Point,
    text: Label,
    occupied: Occupied,
    rules: Rules,
    shade: Shade | None = None,
) -> Iterator[Trial]:
    """Yield the candidates for the distance between paper points `a` and `b` along `wanted.along`, cheapest first.

    Those whose text would lie on something are left out; a line pays for what of it would run over hatching.
    """
    d = wanted.along
    n = (-d[1], d[0])
    spots = [("middle", 0.0), *((s, t) for t in (TAILS if _slanted(d) else TAILS[:1]) for s in ("after", "before"))]

    def at(lines: list[_Line]) -> Iterator[Trial]:
        made = [
            _set(wanted, (a, b), d, n, line.base, spot, text, rules, line.extensions, line.price, tail)
            for line in lines
            for spot, tail in spots
        ]
        return screened([trial for trial in made if trial is not None], occupied, rules)

    def batches() -> Iterator[Batch]:
        for number, bases in enumerate(_by_distance(_dot(a, n), _dot(b, n))):
            lines = [_line((a, b), d, n, base, off, rules, shade) for base, off in bases]
            yield Batch(min(line.price for line in lines), number, partial(at, lines))

    return in_order(batches() if shade is None else sorted(batches(), key=lambda b: (b.least, b.number)))


@dataclass(frozen=True, slots=True)
class _Line:
    """Where a dimension line may lie on the normal, with its extension lines and what it costs with the text inside."""

    base: float
    extensions: list[Segment]
    price: float


def _line(
    ends: tuple[Point, Point], d: Point, n: Point, base: float, off: float, rules: Rules, shade: Shade | None
) -> _Line:
    extensions = _extensions(ends, d, n, base, rules)
    price = rules.costs.away * (off + sum(math.dist(p, q) for p, q, _ in extensions))
    if shade is not None:
        p, q = ((d[0] * t + n[0] * base, d[1] * t + n[1] * base) for t in (_dot(ends[0], d), _dot(ends[1], d)))
        price += rules.costs.over_hatch * shade.length(p, q)
    return _Line(base, extensions, price)


def _by_distance(na: float, nb: float) -> Iterator[list[tuple[float, float]]]:
    """Yield the bases by twos of their distances, the nearest first: what is further off costs more."""
    bases = _bases(na, nb)
    distances = sorted({off for _, off in bases})
    for k in range(0, len(distances), 2):
        yield [b for b in bases if b[1] in distances[k : k + 2]]


def moved_out_trials(
    wanted: Linear, a: Point, b: Point, text: Label, rules: Rules, able: Callable[[Trial], bool]
) -> list[Trial]:
    """Return candidates whose text stands on a leader from the end of the dimension line: where nothing else fits.

    Dimension lines that could not stand by themselves (`able` says so) get no leaders.
    """
    d = wanted.along
    n = (-d[1], d[0])
    out: list[Trial] = []
    for base, off in _bases(_dot(a, n), _dot(b, n)):
        if off > 10.0:
            break
        bare = _bare(wanted, (a, b), d, n, base, rules)
        if not able(bare):
            continue
        p, q, _ = bare.lines[0]
        for end in (q, p):
            out += _on_leader(bare, end, off, text, rules)
    return sorted(out, key=lambda t: t.cost)


def _bare(wanted: Linear, ends: tuple[Point, Point], d: Point, n: Point, base: float, rules: Rules) -> Trial:
    """Return dimension line, heads and extension lines without text."""
    short = Label(("",), rules.height, 0.0, 0.0, (0.0,))
    extensions = _extensions(ends, d, n, base, rules)
    for spot in ("middle", "after"):
        trial = _set(wanted, ends, d, n, base, spot, short, rules, extensions)
        if trial is not None:
            return trial
    raise ValueError("a dimension line can always be drawn")


def _on_leader(bare: Trial, end: Point, off: float, text: Label, rules: Rules) -> Iterator[Trial]:
    for long in OUT_LENGTHS:
        for turn in OUT_TURNS:
            c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
            bend = (end[0] + long * c, end[1] + long * s)
            way = 1.0 if c > 0 else -1.0
            stop = (bend[0] + way * LEVEL, bend[1])
            box = text.box((stop[0] + way * (rules.clear + 0.3 + text.width / 2), bend[1]))
            leader: tuple[Segment, ...] = ((end, bend, "leader"), (bend, stop, "leader"))
            cost = rules.costs.away * (off + long) + 2 * rules.costs.outside_text
            yield Trial(
                text,
                box,
                (*bare.lines, *leader),
                bare.heads,
                bare.arrows,
                anchor="left" if c > 0 else "right",
                cost=cost,
            )


def _bases(na: float, nb: float) -> list[tuple[float, float]]:
    """Return (place of the dimension line on the normal, its distance from the points)."""
    out = [(na, 0.0)] if abs(na - nb) < 0.05 else []
    for off in OFFSETS:
        out += [(max(na, nb) + off, off), (min(na, nb) - off, off)]
    return out


def _set(
    wanted: Linear,
    ends: tuple[Point, Point],
    d: Point,
    n: Point,
    base: float,
    spot: str,
    text: Label,
    rules: Rules,
    extensions: list[Segment],
    price: float = 0.0,
    longer: float = TAILS[0],
) -> Trial | None:
    """Return the candidate whose dimension line lies at `base` on the normal; `price` is what it costs with the text inside.

    A slanted line whose figure stands beyond its arrow runs on by `longer`, and then level to the figure.
    """

    def at(along: float, normal: float) -> Point:
        return (d[0] * along + n[0] * normal, d[1] * along + n[1] * normal)

    ta, tb = _dot(ends[0], d), _dot(ends[1], d)
    low, high = min(ta, tb), max(ta, tb)
    head = symbols.arrow_length(rules.height)
    inside = high - low >= 2 * head + 2.0
    slanted = _slanted(d)
    # Beside a slanted line the figure stays level, so that it is read without turning the sheet.
    half = text.width / 2 * abs(d[0]) + text.tall / 2 * abs(d[1]) if slanted else text.width / 2
    place = _place(low, high, inside, head, spot, half, rules)
    if place is None:
        return None
    tail = 0.0 if inside else 2 * head
    start, end = low - tail, high + tail
    shelf: tuple[Segment, ...] = ()
    way = 1.0 if (d[0] > 0) == (spot == "after") else -1.0
    if spot != "middle" and slanted:
        start, end = (start, end + longer) if spot == "after" else (start - longer, end)
        bend = at(end if spot == "after" else start, base)
        shelf = ((bend, (bend[0] + way * LEVEL, bend[1]), "leader"),)
        price += rules.costs.away * longer
    elif spot != "middle":  # under the figure
        start, end = min(start, place - half), max(end, place + half)
    direction = math.degrees(math.atan2(d[1], d[0]))
    angle = 0.0 if slanted else readable(round(direction, 9))
    up = 1.0 if _dot(n, (-math.sin(math.radians(angle)), math.cos(math.radians(angle)))) > 0 else -1.0
    reach = text.width / 2 * abs(n[0]) + text.tall / 2 * abs(n[1]) if slanted else text.tall / 2
    if shelf:
        (_, foot, _) = shelf[0]
        box = text.box((foot[0] + way * (rules.clear + 0.3 + text.width / 2), foot[1]))
    else:
        box = text.box(at(place, base + up * (rules.lift + reach)), angle)
    lines: tuple[Segment, ...] = ((at(start, base), at(end, base), "dimension"), *shelf, *extensions)
    heads = (
        (at(low, base), direction + 180 if inside else direction),
        (at(high, base), direction if inside else direction + 180),
    )
    cost = price if spot == "middle" else price + rules.costs.outside_text
    anchor = "right" if shelf and way < 0 else "left"
    return Trial(text, box, lines, heads, (at(ta, base), at(tb, base)), anchor=anchor, cost=cost)


def _place(low: float, high: float, inside: bool, head: float, spot: str, half: float, rules: Rules) -> float | None:
    need = half + rules.clear + 0.1
    if spot == "middle":
        return (low + high) / 2 if high - low >= 2 * need else None
    off = need + (0.4 if inside else head + 0.4)
    return high + off if spot == "after" else low - off


def _extensions(ends: tuple[Point, Point], d: Point, n: Point, base: float, rules: Rules) -> list[Segment]:
    out: list[Segment] = []
    for p in ends:
        t, m = _dot(p, d), _dot(p, n)
        way = 1.0 if base > m else -1.0
        if abs(base - m) <= rules.gap:
            continue
        foot, top = m + way * rules.gap, base + way * rules.over
        out.append(
            (
                (d[0] * t + n[0] * foot, d[1] * t + n[1] * foot),
                (d[0] * t + n[0] * top, d[1] * t + n[1] * top),
                "extension",
            )
        )
    return out
