"""Bolted: a machine screw goes through one part into threads tapped in the wood of another, to be undone again."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.geometry.shapes import Vec
from docgen.piece.bench import Bench
from docgen.piece.joints.bolting import Screwing, work_out
from docgen.piece.joints.fastening import milled, places
from docgen.piece.joints.meeting import moved, on_face, outward
from docgen.piece.model import Fastener, Joint, Part
from docgen.piece.operations.hole import Hole
from docgen.piece.records import Authority, Face, Origin, Purpose
from docgen.project.fields import Choice, Field, Flag, Length, Many, PartName, Place, Word, Words
from docgen.project.statements import Bound
from docgen.trade.clearance import clearance
from docgen.trade.drills import Drill
from docgen.trade.fasteners import head
from docgen.trade.names import UnknownName
from docgen.trade.threads import Thread
from docgen.trade.threads import find as find_thread
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Hardware:
    """What is screwed in: thread, clearance drill, head and washer (diameter, height)."""

    thread: Thread
    hole: Drill
    kind: str
    head: tuple[Number, Number]
    washer: tuple[Number, Number]

    @property
    def outside(self) -> tuple[Number, Number]:
        """Return the largest diameter under the head, and how far head and washer stand out of the face."""
        return max(self.head[0], self.washer[0]), self.head[1] + self.washer[1]


def hardware(bench: Bench, values: Bound) -> Hardware | None:
    """Return the hardware that the statement names; what no table holds is told, and None comes back."""
    try:
        thread = find_thread(values["thread"])
        return Hardware(
            thread,
            clearance(thread, values["fit"]),
            values["head"],
            head(values["head"], thread.size),
            _washer(values["washer"], thread),
        )
    except UnknownName as fault:
        field = "thread" if fault.what == "thread" else "head" if fault.what == "head" else "fit"
        bench.fault(values, field, "unknown-hardware", str(fault), fault.nearest or "")
        return None


def _washer(thickness: Number | None, thread: Thread) -> tuple[Number, Number]:
    """Return (diameter, thickness): the standard washer, or its diameter at a stated thickness, or none."""
    if thickness == 0:
        return 0, 0
    diameter, standard = head("washer", thread.size)
    return diameter, standard if thickness is None else thickness


def build(bench: Bench, values: Bound) -> None:
    """Drill the clearance holes, tap the other part, note the fasteners."""
    bolt = hardware(bench, values)
    held, tapped = values["through"], values["into"]
    if len(held) != len(tapped):
        bench.fault(
            values,
            "into",
            "pairs-differ",
            f"{len(held)} parts are drilled through and {len(tapped)} are tapped",
            "as many of one as of the other, in the same order",
        )
        return
    if bolt is None:
        return
    name = bench.next_name()
    for one, two in zip(held, tapped, strict=True):
        _pair(bench, values, bolt, name, bench.part(one), bench.part(two))


def _pair(bench: Bench, values: Bound, bolt: Hardware, name: str, held: Part, tapped: Part) -> None:
    """Join one part to another."""
    found = places(bench, values, held, tapped)
    if found is None:
        return
    (inner, against), points = found
    work = work_out(
        bolt.thread,
        grip=held.size[inner.axis],
        washer=bolt.washer[1],
        tapped=tapped.size[against.axis],
        wanted=values["engagement"],
        through=not values["blind"],
        length=values["length"],
    )
    mouth = Face(inner.axis, 1 - inner.side)
    clear = bench.add(
        held.path, clearance_hole(bolt, name, held, mouth, points, tapped.path), title=f"clearance holes {name}"
    )
    tap = bench.add(
        tapped.path,
        tapped_hole(bolt.thread, work, name, tapped, against, points, held.path),
        title=f"tapped holes {name}",
    )
    into = held.frame.direction(outward(inner))
    heads = tuple(moved(p, into, -float(held.size[inner.axis])) for p in points)
    origin = Origin(values.span, values.because)
    bench.fastener(
        Fastener(
            key=name,
            what=f"machine screw, {bolt.kind}",
            thread=bolt.thread.designation,
            length=work.length,
            count=len(points),
            washer=bolt.washer[1],
            head=bolt.outside,
            grip=work.grip,
            engagement=work.engagement,
            tapped_depth=work.full_threads,
            drill_depth=tapped.size[against.axis] if work.drilled is None else work.drilled,
            wood_behind=work.behind,
            points=heads,
            direction=into,
            parts=(held.path, tapped.path),
            depends=milled(held, tapped),
            notes=_notes(work),
            origin=origin,
        )
    )
    bench.joint(
        Joint(
            word="bolted",
            title=f"{held.path} bolted to {tapped.path}",
            parts=(held.path, tapped.path),
            features=((held.path, clear.name), (tapped.path, tap.name)),
            figures=figures(work),
            origin=origin,
        )
    )


def clearance_hole(bolt: Hardware, name: str, held: Part, mouth: Face, points: tuple[Vec, ...], mate: str) -> Hole:
    """Return the clearance holes under the heads."""
    return Hole(
        face=mouth,
        points=tuple(on_face(held, mouth, p) for p in points),
        diameter=bolt.hole.diameter,
        purpose=Purpose.CLEARANCE,
        name=name,
        drill=bolt.hole.name,
        fastener=name,
        mate=mate,
        label="clearance hole",
    )


def tapped_hole(
    thread: Thread, work: Screwing, name: str, part: Part, face: Face, points: tuple[Vec, ...], mate: str
) -> Hole:
    """Return the tapped holes, which are marked through the mating part."""
    return Hole(
        face=face,
        points=tuple(on_face(part, face, p) for p in points),
        diameter=thread.tap_drill.diameter,
        depth=work.drilled,
        purpose=Purpose.TAPPED,
        name=name,
        drill=thread.tap_drill.name,
        thread=thread.designation,
        thread_depth=work.full_threads,
        percent=thread.percent,
        fastener=name,
        mate=mate,
        authority=Authority.MATE,
        note=f"mark through {mate}",
        label="tapped hole",
    )


def figures(work: Screwing) -> tuple[tuple[str, Number, str], ...]:
    """Return what was worked out, for the lists."""
    out: list[tuple[str, Number, str]] = [
        ("grip", work.grip, "length"),
        ("washer", work.washer, "length"),
        ("length", work.length, "length"),
        ("engagement", work.engagement, "length"),
        ("full threads", work.full_threads, "length"),
    ]
    if work.drilled is not None and work.behind is not None:
        out += [("drill depth", work.drilled, "length"), ("wood behind the drill's point", work.behind, "length")]
    return tuple(out)


def _notes(work: Screwing) -> tuple[str, ...]:
    return ("order after milling: thickness decides the length", "test piece first") + (
        () if not work.short else ("the longest in stock has less thread in the wood than wanted",)
    )


BOLT = (
    Field("thread", Words(), "full designation: 1/4-20 UNC, M6", required=True),
    Field("fit", Choice(("close", "normal", "free")), "of the clearance holes", default="close"),
    Field("head", Words(), "kind of head: button head, socket head", default="button head"),
    Field("washer", Length(least=0), "thickness of the washer; absent: the standard one, 0: none"),
    Field("engagement", Length(above=0), "least thread in the wood; absent: 2 diameters"),
    Field("blind", Flag(), "the tapped hole ends in the wood", default="yes"),
    Field("length", Length(above=0), "length of screw at hand; absent: from stock lengths"),
)
"""The fields of a machine screw, wherever it is said."""

WORD = Word(
    name="bolted",
    room="joint",
    help="machine screws through clearance holes in one part into threads tapped in the wood of another",
    fields=(
        Field("through", Many(PartName()), "the part under the heads, or several", required=True),
        Field("into", Many(PartName()), "the part that is tapped, one for each of those", required=True),
        Field("at", Many(Place()), "places of the screws, by two directions of the piece", required=True),
        *BOLT,
    ),
    example="bolted: {through: side, into: leg, at: [{deep: 9, up: 27}], thread: 1/4-20 UNC, fit: close}",
    build=build,
)
