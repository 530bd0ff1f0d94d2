"""What bolts into cross dowels and into inserts share: clearance holes, the bolt in the lists, its fields."""

from __future__ import annotations

from docgen.geometry.shapes import Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.bolted import Hardware
from docgen.piece.joints.fastening import milled
from docgen.piece.joints.meeting import moved, outward
from docgen.piece.joints.telling import fault
from docgen.piece.model import Fastener, Part
from docgen.piece.records import Face, Origin
from docgen.project.fields import Choice, Field, Length, Many, PartName, Place, Words
from docgen.project.statements import Bound
from docgen.trade.fasteners import stock_lengths
from docgen.trade.knockdown import IN_METAL, Bolting
from docgen.units import Number, plain_length


def stock(values: Bound, bolt: Hardware) -> tuple[Number, ...]:
    """Return the lengths to choose from: what is at hand, else what is in stock."""
    return stock_lengths(bolt.thread.system) if values["length"] is None else (values["length"],)


def holds(bench: Bench, values: Bound, bolt: Hardware, work: Bolting, what: str) -> bool:
    """Tell whether the bolt reaches far enough into the metal and is no longer than its bore; else say what is wrong."""
    wanted = IN_METAL * bolt.thread.major
    if work.engagement < wanted:
        message = f"a bolt of {figure(work.length)} has {figure(work.engagement)} of thread in the {what}"
        fault(
            values, "length", "bolt-too-short", message, f"a longer bolt: {figure(wanted)} of thread or more", on=bench
        )
        return False
    if work.into > work.bore:
        message = (
            f"a bolt of {figure(work.length)} bottoms: it goes {figure(work.into)} into a bore of {figure(work.bore)}"
        )
        fault(
            values,
            "length",
            "bolt-bottoms-in-bore",
            message,
            "a shorter bolt, a deeper bore, a thicker washer",
            on=bench,
        )
        return False
    return True


def chain(bench: Bench, bolt: Hardware, work: Bolting, grip: Number, what: str) -> str:
    """Return where a bolt's length comes from, as the hardware list tells it."""
    washer, wood, into = (plain_length(v, bench.units) for v in (bolt.washer[1], grip, work.into))
    return f"length from washers {washer} + grip {wood} + into the other part {into}, {what}"


def fastener(
    bench: Bench,
    bolt: Hardware,
    work: Bolting,
    name: str,
    parts: tuple[Part, Part],
    inner: Face,
    points: tuple[Vec, ...],
    metal: tuple[Number, str, Number],
    origin: Origin,
) -> Fastener:
    """Return the bolts for the lists; `metal` is the length of thread that the nut or insert has, its name, and the wood before it."""
    held, other = parts
    way, grip = held.frame.direction(outward(inner)), held.size[inner.axis]
    thread = plain_length(work.engagement, bench.units)
    return Fastener(
        key=name,
        what=f"machine screw, {bolt.kind}",
        thread=bolt.thread.designation,
        length=work.length,
        count=len(points),
        washer=bolt.washer[1],
        head=bolt.outside,
        grip=grip,
        engagement=work.engagement,
        tapped_depth=metal[0],
        drill_depth=work.bore,
        points=tuple(moved(p, way, -float(grip)) for p in points),
        direction=way,
        parts=(held.path, other.path),
        depends=milled(held),
        notes=(
            chain(bench, bolt, work, grip, f"{thread} of them in the {metal[1]}"),
            "check it with the hardware in hand",
        ),
        origin=origin,
        metal=True,
        passes=metal[2],
    )


def figures(work: Bolting) -> tuple[tuple[str, Number, str], ...]:
    """Return what was worked out, for the lists."""
    return (
        ("length", work.length, "length"),
        ("into the wood", work.into, "length"),
        ("thread in the metal", work.engagement, "length"),
        ("depth of the bolt's bore", work.bore, "length"),
    )


PAIR = (
    Field("through", PartName(), "the part under the heads", required=True),
    Field("into", PartName(), "the part in which the metal sits", required=True),
    Field("at", Many(Place()), "places of the bolts, by two directions of the piece", required=True),
)

BOLT = (
    Field("thread", Words(), "full designation: 1/4-20 UNC, M6", required=True),
    Field("fit", Choice(("close", "normal", "free")), "of the clearance holes", default="normal"),
    Field("head", Words(), "kind of head: button head, socket head", default="button head"),
    Field("washer", Length(least=0), "thickness of the washer; absent: the standard one, 0: none"),
    Field("length", Length(above=0), "length of bolt at hand; absent: from stock lengths"),
)
"""The fields of a bolt into metal."""
