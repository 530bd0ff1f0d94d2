"""Dovetail: tails on the end of one board between pins on the end of another, through it or up to a lap."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.cornering import Corner, NoCorner, corner
from docgen.piece.joints.telling import fault
from docgen.piece.model import Joint, Part
from docgen.piece.operations.comb import Comb
from docgen.piece.operations.ground import settled
from docgen.piece.operations.pins import Pins
from docgen.piece.records import Face, Origin
from docgen.project.fields import Count, Field, Length, Many, PartName, Word, Words
from docgen.project.statements import Bound
from docgen.trade.dovetails import CHISEL, FLATTEST, HARDWOOD, STEEPEST, Layout, Slope, by_count, by_spacing, slope
from docgen.units import Number


def build(bench: Bench, values: Bound) -> None:
    """Cut tails and pins wherever a tail board runs into a pin board."""
    leans = slope(values["slope"])
    if leans is None or not FLATTEST <= leans.degrees <= STEEPEST:
        message = f"“{values['slope']}” is no slope of a dovetail: they run from {FLATTEST:g} to {STEEPEST:g} degrees"
        bench.fault(values, "slope", "dovetail-slope", message, f"{HARDWOOD}, 1:6 or 8 deg")
        return
    if (values["count"] is None) == (values["spacing"] is None):
        message = "the tails are laid out either by their count or by their spacing"
        bench.fault(values, "count", "dovetail-layout", message, "count: 4, or spacing: 1 1/4")
        return
    for tails in values["tails"]:
        for pins in values["pins"]:
            _pair(bench, values, leans, bench.part(tails), bench.part(pins))


def _pair(bench: Bench, values: Bound, leans: Slope, one: Part, two: Part) -> None:
    """Join one end of a tail board to one end of a pin board."""
    try:
        at = corner(one, two)
    except NoCorner as found:
        bench.fault(values, "pins", "no-corner", str(found), "the tail board's box reaches into the pin board's end")
        return
    plan = layout(bench, values, at)
    if plan.tail <= plan.pin or plan.root(at.first.deep, leans.degrees) <= 0:
        message = f"{plan.count} tails in {figure(at.width)} leave {figure(plan.tail)} for each at its end"
        fault(values, "count", "comb-crowded", message, "fewer tails, or narrower pins", on=bench)
        return
    degrees = settled(leans.degrees)
    tails = Comb(
        at.first.end,
        at.first.deep,
        at.first.low + plan.half + plan.tail if plan.count > 1 else 0,
        plan.pin if plan.count > 1 else 0,
        plan.step if plan.count > 2 else 0,
        plan.half,
        plan.half,
        degrees,
        at.first.low,
        at.first.high,
        plan.count - 1,
        label="tail",
        gap="pin",
        edge="half pin",
        told=leans.told,
        face=Face(2, 1 - at.first.inner.side),
    )
    blind = float(at.lap) > 0.01
    pins = Pins(
        at.second.end,
        at.second.inner,
        at.second.deep,
        at.second.low + plan.half,
        plan.tail,
        degrees,
        plan.step if plan.count > 1 else 0,
        at.first.deep if blind else None,
        plan.count,
        told=leans.told,
    )
    kind = "half-blind dovetails" if blind else "dovetails"
    a = bench.add(one.path, tails, title=f"tails into {two.path}")
    b = bench.add(two.path, pins, title=f"pins for {one.path}")
    _note(bench, values, leans, at, plan, (one.path, a.name), (two.path, b.name), kind)


def layout(bench: Bench, values: Bound, at: Corner) -> Layout:
    """Return the tails as they are said, over the width that both boards share."""
    pin = CHISEL[bench.units.system] if values["pin"] is None else values["pin"]
    half = pin if values["half pin"] is None else values["half pin"]
    if values["count"] is not None:
        return by_count(at.width, values["count"], pin=pin, half=half)
    return by_spacing(at.width, values["spacing"], pin=pin, half=half)


def _note(
    bench: Bench,
    values: Bound,
    leans: Slope,
    at: Corner,
    plan: Layout,
    one: tuple[str, str],
    two: tuple[str, str],
    kind: str,
) -> None:
    figures: list[tuple[str, Number, str]] = [
        ("tails", plan.count, "count"),
        ("tail at its end", plan.tail, "length"),
        ("pin at its narrow side", plan.pin, "length"),
        ("half pin", plan.half, "length"),
        ("slope", settled(leans.degrees), "angle"),
        ("length of the tails", at.first.deep, "length"),
    ]
    if kind != "dovetails":
        figures.append(("lap", at.lap, "length"))
    title = f"{one[0]} in {kind} with {two[0]}"
    closes = bench.part(two[0]).frame.direction((1.0, 0.0, 0.0))  # tails slide into their sockets along the pin board
    origin = Origin(values.span, values.because)
    bench.joint(Joint("dovetail", title, (one[0], two[0]), (one, two), tuple(figures), origin, closes, holds=True))


WORD = Word(
    name="dovetail",
    room="joint",
    help="tails on the ends of some boards between pins on the ends of others, laid out for cutting by hand",
    fields=(
        Field("tails", Many(PartName()), "the boards with tails: they cannot be pulled off their mates", required=True),
        Field(
            "pins",
            Many(PartName()),
            "the boards with pins; a tail board's box that stops inside one makes it half-blind",
            required=True,
        ),
        Field("count", Count(), "how many tails at each corner"),
        Field("spacing", Length(above=0), "or about how far from tail to tail; the tails come out equal"),
        Field("slope", Words(), "1:8 for hardwood, 1:6 for softwood, or degrees", default=HARDWOOD),
        Field("pin", Length(above=0), "between two tails at their ends: a chisel's width; absent: 1/4 in or 6 mm"),
        Field("half pin", Length(above=0), "at the edges, at its narrow side; absent: as a pin"),
    ),
    example="dovetail: {tails: [left side, right side], pins: [front, back], count: 4, slope: 1:8, pin: 1/4}",
    build=build,
)
