"""What a setting means at the machine: blade height, passes, a sled in place of the gauge, a tilt off 45°. mm, degrees."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import product

from docgen.piece.model import Part, Piece
from docgen.piece.records import Face, Feature, Setting
from docgen.schedules.risks import BIG, ROUND, cutter_across
from docgen.schedules.rows import Values
from docgen.trade.cutters import BITS, bits_beside, most_rpm
from docgen.trade.mitres import corner_angle, heel_gap, readings
from docgen.units import Number, format_angle, unit_length

GAUGE_MOST = 60
"""Degrees from square that an ordinary mitre gauge swings to either side; some stop at 45. Saw makers' manuals."""

ABOVE = {"inch": Fraction(254, 80), "mm": Fraction(3)}
"""How far the blade stands above the wood, mm: 1/8 in (a saw maker's manual), 3 mm."""

MOST_BITE = Fraction(254, 10) * 3 / 8
"""Most that a cutter takes in a pass, mm deep: 3/8 in, and that only 3/8 in wide. Common practice."""

SECTION = MOST_BITE**2
"""Most that is taken in a pass, mm² across the run: a wider cut is taken less deep. Common practice."""

ROUND_BITE = Fraction(254, 10) / 4
"""Largest radius that is rounded in a single pass, mm: 1/4 in. Common practice."""

LEAST_BITE = 3
"""No straight bit takes less than this in a pass, mm. Common practice; else half its diameter is the most."""

WIDEST = Fraction(254, 10)
"""Widest straight bit that a router held by hand takes through a trench, mm: 1 in. Common practice."""

BESIDE = {"inch": Fraction(254, 20), "mm": Fraction(12)}
"""Straight bit that a cut is taken with where none is named, mm: 1/2 in, 12 mm. Common practice."""

SIDE_BY_SIDE = "runs side by side in each"
"""How the value begins that tells how many runs lie beside each other in a pass."""

UNSOLD = "no bit of"
"""How the note begins that asks for a smaller bit and the fence moved."""

USUAL_CUT = 3
"""Diameters that common straight bits cut deep: a deeper cut asks for a long bit, whose length is told. Common practice."""

ANY_BIT, EDGE, FLUSH = "straight bit, about", "cutting edge, more than", "flush cutter with a bearing"
"""Names of values: a bit that may be another, how long its edge has to be, a cutter that follows a template."""

LEFT_ON = {"mm": Fraction(2), "inch": Fraction(254, 160)}
"""What a flush cutter takes to the side in a pass over its whole edge, mm: 2 mm, 1/16 in. Common practice."""

DRILLS = ("drill press", "hand drill")
BACKING = "waste clamped under the exit, or turn over when the point shows"

STACK_MOST = 20
"""Widest dado stack that is told as the other way, mm: what European practice allows on saws built for it; saw
makers' manuals elsewhere go to 13/16 in."""

AGAINST = "feed against its turn; the manuals of router and cutter say whether it may be used by hand"
TABLE = (
    "in a router table with guard, and a starting pin where it runs on its bearing, never held by hand; feed against its turn; the "
    "manuals of table and cutter say whether it may be used"
)

BLADE, GAUGE = "blade, from upright", "gauge, from square"
TILTED = (
    "the blade leans away from the gauge or the fence, and from your hands; no wood is held under the leaning blade"
)
SAME = 1e-6
NEAR_45 = 2.0
"""Degrees: a tilt this near to 45° is meant for a mitre, and what it does to one is told."""


def number(setting: Setting, name: str) -> float | None:
    """Return a value of a setting by its name, None when it has none or is a text."""
    return next((float(v) for n, v, _ in setting.values if n == name and not isinstance(v, str)), None)


def values(piece: Piece, part: Part, setting: Setting) -> Values:
    """Return what is set at the machine, with what follows from the wood: blade height, passes."""
    out = tuple((_sled(piece, setting, name), value, kind) for name, value, kind in setting.values)
    if setting.machine == "table saw":
        if any(name.startswith("blade over") for name, _, _ in out):
            return out
        tall = setting.tall or part.size[2]
        return (*out, ("blade height", tall + ABOVE[piece.units.system], "length"))
    deep = _long_bit(setting)
    reach = (("the bit cuts, at least", deep, "length"),) if deep else ()
    count, beside = passes(setting, part), side_by_side(piece, setting)
    told = (("passes", count, "count"),) if count else ()
    several = f"{SIDE_BY_SIDE}, with a bit of {unit_length(BESIDE[piece.units.system], piece.units)}:"
    return (*out, *reach, *told, *(((several, beside, "count"),) if beside > 1 else ()))


def _long_bit(setting: Setting) -> Number | None:
    """Return how long a straight bit has to cut, where that is more than most of its diameter do."""
    told = {name: v for name, v, _ in setting.values if not isinstance(v, str)}
    bit, deep = told.get("straight bit"), told.get("depth")
    if bit is None or deep is None or float(deep) <= float(bit) * USUAL_CUT + SAME:
        return None
    return deep


def passes(setting: Setting, part: Part | None = None) -> int:
    """Return in how many passes a router takes a cut, 0 where nothing tells it; one right through goes by the `part`.

    No pass is deeper than 3/8 in, than half the bit, or takes more across the run than 3/8 in by 3/8 in. Common practice.
    """
    if setting.machine not in ("router", "router table"):
        return 0
    bit = number(setting, "straight bit") or number(setting, ANY_BIT)
    radius = next((float(v) for n, v, _ in setting.values if n in ROUND and not isinstance(v, str)), None)
    deep = number(setting, "depth") or (number(setting, EDGE) if bit else None)
    run = setting.travel
    if bit is not None:
        if deep is None and run is not None and part is not None and ("depth", "through", "text") in setting.values:
            deep = float(part.size[run.face.axis])
        most = min(max(bit / 2, LEAST_BITE), _bite(min(bit, float(WIDEST))))
        return _times(deep, most) if deep else 0
    if radius is not None:
        return _times(radius, float(ROUND_BITE))
    if run is None:
        return _times(deep, float(MOST_BITE)) if deep is not None else 0
    deepest = deep or max(float(d) for d in (run.deep, *(d for _, d in run.also)))
    return _times(deepest, _bite(min(float(run.wide), float(BESIDE["inch"])))) if deepest else 0


def _bite(wide: float) -> float:
    """Return how deep a pass of this width goes, mm."""
    return min(float(MOST_BITE), float(SECTION) / wide) if wide else float(MOST_BITE)


def side_by_side(piece: Piece, setting: Setting) -> int:
    """Return how many runs lie beside each other in a cut that no bit is named for: 1 where one takes its width."""
    run = setting.travel
    named = any(kind == "length" and name in (*ROUND, "straight bit") for name, _, kind in setting.values)
    if (
        run is None
        or named
        or setting.machine != "router"
        or ("cutter", "text") not in {(n, k) for n, _, k in setting.values}
    ):
        return 1
    return _times(float(run.wide), float(BESIDE[piece.units.system]))


def _times(deep: float, bite: float) -> int:
    return max(1, math.ceil(deep / bite - SAME))


def from_blank(part: Part, feature: Feature, setting: Setting) -> Values:
    """Return the places of a setting; what is told from a shoulder again from the end of the blank: no shoulder is cut yet."""
    out = list(setting.places)
    for axis, side in product((0, 1), (0, 1)):
        face = Face(axis, side)
        low, high = part.span(axis)
        more = high - part.size[axis] if side else -low
        if not more or any(a.face == face for a in feature.made.allowances):
            continue
        shoulder, blank = f" from the {part.side(face)}", f" from the {part.plain_side(face)} of the blank"
        last = max((n for n, place in enumerate(out) if place[0].endswith(shoulder)), default=-1)
        again = [
            (name.removesuffix(shoulder) + blank, value + more, kind)
            for name, value, kind in setting.places
            if name.endswith(shoulder) and not isinstance(value, str)
        ]
        out[last + 1 : last + 1] = again
    return tuple(out)


def steep(piece: Piece, setting: Setting) -> bool:
    """Return whether an angle is more than the gauge takes: that of the shop, as stated, else an ordinary one."""
    swung = number(setting, GAUGE)
    stated = dict(piece.shop).get("gauge")
    if swung is None:
        return False
    return swung > float(stated) + SAME if stated is not None else swung >= GAUGE_MOST - SAME  # type: ignore[arg-type]


def _sled(piece: Piece, setting: Setting, name: str) -> str:
    return name.replace("gauge", "sled's fence") if name.startswith("gauge") and steep(piece, setting) else name


def notes(piece: Piece, part: Part, setting: Setting) -> tuple[str, ...]:
    """Return what the maker has to know at this setting and no value tells."""
    tilt, swung = number(setting, BLADE), number(setting, GAUGE)
    out = [setting.note]
    if steep(piece, setting) and swung is not None:
        out.append(
            f"more than a mitre gauge takes: a sled with its fence fixed at {format_angle(_rounded(swung))} from square, "
            f"{format_angle(_rounded(float(readings(swung)[1])))} from the blade, and the part clamped to it"
        )
    elif swung is not None and swung > 45 + SAME:
        out.append("clamp the part to the gauge; a gauge that stops at 45° asks for a sled with a fixed fence")
    if tilt:
        out.append(TILTED)
        out += _off_45(piece, part, tilt) if abs(tilt - 45) > SAME else _at_45(piece, part)
    if _long_bit(setting) is not None:
        out.append(
            "longer than most bits of that diameter: without one, rout as deep as it reaches, then drill and chop"
        )
    out += _edge(piece, setting)
    out += _unsold(piece, part, setting)
    out += _stack(piece, setting)
    out += _big(piece, setting)
    if setting.machine in DRILLS and any(value == "through" for _, value, _ in setting.values):
        out.append(BACKING)
    if setting.machine == "router" and any(name == "travel" for name, _, _ in setting.values):
        out.append("travel is how far the bit's middle moves between the stops")
    return tuple(s for s in out if s)


def _edge(piece: Piece, setting: Setting) -> list[str]:
    """Return what a cutter takes with its whole edge, and what is done where one so long is not at hand."""
    said = unit_length(LEFT_ON[piece.units.system], piece.units)
    if any(name.startswith(FLUSH) for name, _, _ in setting.values):
        return [f"one pass right through takes {said} at most: where the saw left more, saw closer first"]
    bit, deep = number(setting, ANY_BIT), number(setting, EDGE)
    if bit is None or deep is None or deep <= bit * USUAL_CUT + SAME:
        return []
    return [
        "an edge so long is not common: with a shorter one rout as deep as it reaches, then run a flush cutter's bearing on that"
    ]


def _unsold(piece: Piece, part: Part, setting: Setting) -> list[str]:
    """Return what is done where straight bits do not come in the width: a smaller one and the fence moved.

    The shop's own bits count, where the file states them. A slot for a screw is as good a little wider.
    """
    wide = next((v for name, v, _ in setting.values if name == "straight bit" and not isinstance(v, str)), None)
    stated = dict(piece.shop).get("bits")
    beside = None if wide is None else bits_beside(wide, stated or BITS[piece.units.system])  # type: ignore[arg-type]
    if not stated and wide is not None and any(bits_beside(wide, sold) is None for sold in BITS.values()):
        return []  # one of the other measure: its size stands beside the figure
    if wide is None or beside is None:
        return []
    below, above = beside
    if above is not None and any(f.made.slots and setting in f.made.settings for f in part.features):
        return [f"a bit of {unit_length(above, piece.units)} does as well: the screw has only to slide"]
    if below is None:
        return []
    whose = "in the shop" if stated else "usually sold"
    return [
        f"{UNSOLD} {unit_length(wide, piece.units)} is {whose}: take one of {unit_length(below, piece.units)}, and for the rest "
        "move the fence, to both lines on the test piece"
    ]


def _stack(piece: Piece, setting: Setting) -> list[str]:
    """Return the other way to cut a trench that runs right across a part."""
    run, wide, deep = setting.travel, number(setting, "straight bit"), number(setting, "depth")
    if run is None or run.along == 0 or run.edge is not None or (run.start, run.stop) != (None, None):
        return []
    if wide is None or deep is None or wide > STACK_MOST + SAME:
        return []
    told = [unit_length(Fraction(v).limit_denominator(10**6), piece.units) for v in (wide, deep)]
    return [
        f"or on the saw, its arbor upright, with a stack {told[0]} wide and {told[1]} high, where its manual and local rules allow one"
    ]


def _big(piece: Piece, setting: Setting) -> list[str]:
    """Return the usual upper speed of a large cutter: the one named, or the round-over bit that a radius asks for."""
    if not setting.machine.startswith("router"):
        return []
    wide = cutter_across(setting.values)
    if wide <= float(BIG) + SAME:
        return []
    said = unit_length(Fraction(wide).limit_denominator(1000), piece.units)
    rpm = most_rpm(wide)
    if rpm is None:
        return [f"a bit for it is about {said} across, larger than makers' charts go: shape it by hand"]
    held = TABLE if setting.machine == "router table" else AGAINST
    return [
        f"a cutter about {said} across: charts stop at {rpm} turns a minute, and what is marked on the cutter rules; {held}"
    ]


def _at_45(piece: Piece, part: Part) -> list[str]:
    """Return how exact a mitre through the thickness has to be: a corner that is rounded later forgives nothing."""
    if any(part.path in run.parts and run.radius for run in piece.runs):
        return ["exactly 45°: the corner is rounded later, and an outside closed by a steeper tilt would open there"]
    return ["44.9° read from the table closes the outside and opens the inside a little; never the other way"]


def _off_45(piece: Piece, part: Part, tilt: float) -> list[str]:
    """Return which side of a mitre closes, and by how much the other opens, where the tilt is a little off 45°."""
    error = tilt - 45
    if abs(error) < SAME or abs(error) > NEAR_45:
        return []
    gap = unit_length(heel_gap(part.size[2], error), piece.units)
    off = format_angle(_rounded(abs(error)))
    shut, opened = ("outside", "inside") if error > 0 else ("inside", "outside")
    return [
        f"deliberately {off} {'over' if error > 0 else 'under'} 45°: the {shut} closes, the {opened} opens by {gap}; "
        f"clamped shut, the corner stands at {format_angle(_rounded(corner_angle(error)))}"
    ]


def _rounded(degrees: float) -> Number:
    return Fraction(round(degrees * 100), 100)
