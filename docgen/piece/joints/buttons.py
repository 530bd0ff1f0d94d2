"""Buttons: wooden blocks screwed under a solid top, their tongues in slots of the aprons, so that the top can move."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from docgen.geometry.make import cross, dot
from docgen.geometry.shapes import Outline, Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.filling import Features, button
from docgen.piece.joints.meeting import centre, facing, moved, on_face, outward
from docgen.piece.joints.telling import NEAT, fault
from docgen.piece.model import Fastener, Item, Joint, Loose, Part
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.ground import Ground, in_plane, settled
from docgen.piece.operations.hole import Hole
from docgen.piece.operations.mortise import Mortise
from docgen.piece.records import Authority, Face, Origin, Purpose, Template
from docgen.piece.woods import movement
from docgen.project.fields import Choice, Count, Field, Length, Many, Nested, PartName, Plain, Word
from docgen.project.statements import Bound
from docgen.trade.buttons import DRAW, HOLD, PLAY, Seat, move, places, seat
from docgen.trade.drills import Drill, told
from docgen.trade.fasteners import WoodScrew, piloted
from docgen.trade.names import UnknownName
from docgen.units import Number, plain_length

BEHIND = 90.0
"""mm of the board behind the first button that its pattern shows."""


@dataclass(frozen=True, slots=True)
class Apron:
    """One apron under the top: where its buttons stand and how far the top moves there.

    `upper` is its edge under the top, `inner` the face in which the slots are cut. `moves` are by button; `along` tells that
    the top moves along the apron.
    """

    part: Part
    upper: Face
    inner: Face
    at: tuple[Number, ...]
    moves: tuple[float, ...]
    along: bool
    across: Vec  # the direction in which the top moves, piece axes


def build(bench: Bench, values: Bound) -> None:
    """Slot the aprons, mark the screws under the top, and note buttons and screws."""
    top = bench.part(values["top"])
    try:
        wood = movement(top.material)
        screw, pilot = piloted(values["gauge"], bench.units.system)
    except UnknownName as found:
        field = "gauge" if found.what.endswith("wood screw") else "top"
        bench.fault(values, field, "unknown-hardware", str(found), found.nearest or "")
        return
    coefficient = 0.0 if wood is None else wood.tangential
    name = bench.next_name()
    sound: list[tuple[Apron, Seat]] = []
    for path in values["aprons"]:
        apron = _apron(bench, values, top, bench.part(path), coefficient)
        seated = None if apron is None else _seat(bench, values, apron)
        if apron is not None and seated is not None:
            sound.append((apron, seated))
    if not sound or not _thick(bench, values, top):
        return
    places_ = [_screws(values, apron, sits) for apron, sits in sound]
    pilots = _pilots(bench, values, top, sound[0][0], tuple(p for found in places_ for p in found), pilot, name)
    for (apron, sits), points in zip(sound, places_, strict=True):
        made = (*_slots(bench, values, apron, screw), (top.path, pilots))
        _note(bench, values, top, apron, sits, name, points, made)
    _buy(bench, values, name, sum(len(p) for p in places_))


def _apron(bench: Bench, values: Bound, top: Part, part: Part, coefficient: float) -> Apron | None:
    """Return how an apron stands under the top; None, and told, when its upper edge does not touch it."""
    pairs = [(a, b) for a, b in facing(part, top) if a.axis == 1 and b.axis == 2]
    if not pairs:
        message = f"no edge of {part.path} lies against a broad face of {top.path}"
        bench.fault(values, "aprons", "parts-do-not-meet", message, "aprons whose upper edge carries the top")
        return None
    middle = top.frame.point(centre(top))
    here = part.frame.point(centre(part))
    way: Vec = (middle[0] - here[0], middle[1] - here[1], middle[2] - here[2])
    inner = next(Face(2, s) for s in (0, 1) if s == 1 or dot(part.frame.direction(outward(Face(2, s))), way) > 0)
    across = top.frame.direction((0.0, 1.0, 0.0))
    along = abs(dot(part.frame.direction((1.0, 0.0, 0.0)), across)) > 0.7
    at = places(part.size[0], values["ends"], values["spacing"])
    moves = []
    for p in at:
        spot = part.frame.point((float(p), 0.0, float(part.size[2]) / 2))
        off = dot((spot[0] - middle[0], spot[1] - middle[1], spot[2] - middle[2]), across)
        moves.append(move(off, coefficient, float(values["swing"])))
    return Apron(part, pairs[0][0], inner, at, tuple(moves), along, across)


def _seat(bench: Bench, values: Bound, apron: Apron) -> Seat | None:
    """Return how the buttons sit against an apron; None, and told, where tongue or slot are too short for the movement."""
    toward = 0.0 if apron.along else max(apron.moves)
    sits = seat(values["button"]["tongue"], toward, NEAT[bench.units.system])
    deep = values["slot"]["depth"]
    if sits.least < HOLD:
        message = (
            f"the top moves {figure(settled(toward))} at {apron.part.path}: of a tongue {figure(values['button']['tongue'])} "
            f"long {figure(settled(sits.least))} stay in the slot"
        )
        fault(values, "button", "button-leaves-slot", message, f"a tongue that keeps {figure(HOLD)} in", on=bench)
        return None
    if sits.deepest > float(deep):
        message = f"the tongue goes {figure(settled(sits.deepest))} into a slot of {figure(deep)} at {apron.part.path}"
        fault(values, "slot", "button-bottoms", message, "a deeper slot, or a shorter tongue", on=bench)
        return None
    return sits


def _thick(bench: Bench, values: Bound, top: Part) -> bool:
    """Tell whether the screws hold in the top and stay inside it; else say what is wrong."""
    into = values["screw"] - values["button"]["thickness"]
    if not 0 < into < top.size[2]:
        message = (
            f"a screw of {figure(values['screw'])} goes {figure(into)} into {top.path}, {figure(top.size[2])} thick"
        )
        fault(values, "screw", "button-screw", message, "a screw that ends inside the top", on=bench)
        return False
    return True


def _below(bench: Bench, values: Bound) -> tuple[Number, Number]:
    """Return how far the slot's upper wall lies under the top, and the thickness of the tongue."""
    tongue = values["slot"]["width"] - PLAY[bench.units.system]
    return values["button"]["thickness"] - tongue + DRAW[bench.units.system], tongue


def _slots(bench: Bench, values: Bound, apron: Apron, screw: WoodScrew) -> list[tuple[str, str]]:
    """Cut the slots of one apron; return the features."""
    part, slot, wide = apron.part, values["slot"], values["button"]["width"]
    mid = _below(bench, values)[0] + slot["width"] / 2
    level = part.size[1] - mid if apron.upper.side else mid
    if values["slots"] == "groove":
        half = slot["width"] / 2
        ends = max(apron.at[0] - wide, half), min(apron.at[-1] + wide, part.size[0] - half)
        cut = Dado(
            apron.inner,
            0,
            level - half,
            level + half,
            slot["depth"],
            *ends,
            round_end=True,
            label="groove",
            off=apron.upper,
        )
        return [(part.path, bench.add(part.path, cut, title="groove for buttons").name)]
    made, step, pattern = [], NEAT[bench.units.system], _pattern(bench, values, screw)
    for p, moves in zip(apron.at, apron.moves, strict=True):
        sideways = ceil(round(moves / float(step), 6)) * step if apron.along else 0
        long = wide + 2 * sideways + slot["width"]
        hole = Mortise(
            apron.inner, (p, level), 0, long, slot["width"], slot["depth"], label="slot", pattern=pattern, off=apron.upper
        )  # fmt: skip
        made.append((part.path, bench.add(part.path, hole, title="slot for a button").name))
    return made


def _pattern(bench: Bench, values: Bound, screw: WoodScrew) -> Template:
    """Return a button's side, true size, to mark offcuts by."""
    drill = told(screw.clearance.name, bench.units.system)
    button = values["button"]
    long, high, out = (float(button[k]) for k in ("length", "thickness", "tongue"))
    tongue, middle = float(_below(bench, values)[1]), (long + out) / 2
    board = long + BEHIND
    sign = bench.units.sign
    whole, screwed = (f"{plain_length(v, bench.units)} {sign}" for v in (button["length"], settled(middle)))
    side = [(0.0, 0.0), (board, 0.0), (board, high), (out, high), (out, tongue), (0.0, tongue)]
    return Template(
        title="button",
        face=Face(1, 0),
        outline=Outline.polygon(side),
        waste=(Outline.rectangle(0.0, tongue, out, high),),
        lines=(
            ((middle, 0.0), (middle, high), f"screw, {screwed} from the end"),
            ((long, 0.0), (long, high), f"saw off here, {whole} from the end"),
        ),
        datum=(((0.0, 0.0), (board, 0.0)),),
        notes=(
            f"rip a strip {plain_length(button['width'], bench.units)} {bench.units.sign} wide, grain along it, rabbet its end, saw one off and "
            f"go on: what comes off, rabbet and screw on it, is the button; the thick line lies under, the screw goes up through the block: drill it {drill}, so that the shank slips through",
        ),
        shared=f"button {long:.4f} {high:.4f} {out:.4f} {tongue:.4f}",
        loose=True,
        of="button",
        lies="on the edge of the strip",
    )


def _pilots(
    bench: Bench, values: Bound, top: Part, first: Apron, points: tuple[Vec, ...], pilot: Drill, name: str
) -> str:
    """Mark the screws of all aprons in the top's under side; return the feature's name."""
    under = next(b for a, b in facing(first.part, top) if a == first.upper)
    row = Hole(
        face=under,
        points=tuple(on_face(top, under, p) for p in points),
        diameter=pilot.diameter,
        depth=values["screw"] - values["button"]["thickness"],
        purpose=Purpose.PILOT,
        name=name,
        drill=pilot.name,
        fastener=name,
        authority=Authority.MATE,
        note="marked through the buttons with the top in its place, then drilled with the top lying free",
        label="pilot hole",
    )
    return bench.add(top.path, row, title=f"pilot holes {name} for buttons").name


def _screws(values: Bound, apron: Apron, sits: Seat) -> tuple[Vec, ...]:
    """Return where the screws enter the top, piece axes: in the middle of the buttons' blocks."""
    part = apron.part
    ground = Ground(part, apron.upper)
    off = sits.gap + (values["button"]["length"] - values["button"]["tongue"]) / 2
    thick = part.size[2] + off if apron.inner.side else -off
    u, _ = in_plane(apron.upper)
    return tuple(part.frame.point(ground.at(p, thick) if u == 0 else ground.at(thick, p)) for p in apron.at)


def _note(
    bench: Bench,
    values: Bound,
    top: Part,
    apron: Apron,
    sits: Seat,
    name: str,
    points: tuple[Vec, ...],
    made: tuple[tuple[str, str], ...],
) -> None:
    part, thick = apron.part, values["button"]["thickness"]
    up = part.frame.direction(outward(apron.upper))
    into = values["screw"] - thick
    reach = max(apron.moves)
    origin = Origin(values.span, values.because)
    bench.fastener(
        Fastener(
            key=name,
            what="wood screw, round head",
            thread=f"No. {values['gauge']}",
            length=values["screw"],
            count=len(points),
            grip=thick,
            engagement=into,
            drill_depth=into,
            wood_behind=top.size[2] - into,
            points=tuple(moved(p, up, -float(thick)) for p in points),
            direction=up,
            parts=(part.path, top.path),
            depends=(f"milling of {top.material.name}",),
            notes=("the button may slide in its slot: no glue",),
            origin=origin,
            slot=(apron.across[0] * reach, apron.across[1] * reach, apron.across[2] * reach),
        )
    )
    figures: list[tuple[str, Number, str]] = [
        ("buttons", len(points), "count"),
        ("room to move, either way", settled(reach), "length"),
        ("between button and apron", sits.gap, "length"),
        ("tongue in the slot", sits.enters, "length"),
        ("slot under the top", _below(bench, values)[0], "length"),
    ]
    title, paths = f"{top.path} on buttons in {part.path}", (part.path, top.path)
    loose = _blocks(bench, values, apron, sits, paths, made[:-1])
    bench.joint(Joint("buttons", title, paths, made, tuple(figures), origin, loose=loose))


def _blocks(
    bench: Bench, values: Bound, apron: Apron, sits: Seat, paths: tuple[str, str], slots: Features
) -> tuple[Loose, ...]:
    """Return the buttons as solids, their tongues against the slots' upper walls, as the screws draw them."""
    part, said = apron.part, values["button"]
    ground = Ground(part, apron.upper)
    tongue = (said["tongue"], _below(bench, values)[1])
    enters, low = float(sits.enters), DRAW[bench.units.system]
    thick = float(part.size[2]) - enters if apron.inner.side else enters
    away = part.frame.direction(outward(apron.inner))
    up = part.frame.direction(outward(apron.upper))
    down = (-up[0], -up[1], -up[2])
    ways = away, cross(away, down)
    u, _ = in_plane(apron.upper)
    corners = (ground.at(p, thick, low) if u == 0 else ground.at(thick, p, low) for p in apron.at)
    block = (said["length"], said["width"], said["thickness"])
    sat = slots if len(slots) == len(apron.at) else slots[:1] * len(apron.at)
    return tuple(
        button(part.frame.point(c), ways, block, tongue, paths, (slot,)) for c, slot in zip(corners, sat, strict=True)
    )


def _buy(bench: Bench, values: Bound, name: str, count: int) -> None:
    """Note the buttons, to be made from offcuts."""
    button, units = values["button"], bench.units
    block = " × ".join(plain_length(button[k], units) for k in ("length", "width", "thickness"))
    tongue, long = (plain_length(v, units) for v in (_below(bench, values)[1], button["tongue"]))
    size = f"{block}, tongue {tongue} × {long} {units.sign}"
    note = "length with the grain × width × thickness, tongue on the under side of an end; make them of a hard offcut"
    origin = Origin(values.span, values.because)
    bench.item(Item("button", count, size, Authority.CUT, note, origin, where=f"{name}: under {values['top']}"))


BUTTON = (
    Field("length", Length(above=0), "with the grain, tongue included", required=True),
    Field("width", Length(above=0), "along the apron", required=True),
    Field("thickness", Length(above=0), "of the block", required=True),
    Field("tongue", Length(above=0), "how far it stands out", required=True),
)
SLOT = (
    Field("width", Length(above=0), "up and down: the cutter", required=True),
    Field("depth", Length(above=0), "into the apron", required=True),
)

WORD = Word(
    name="buttons",
    room="joint",
    help="wooden buttons screwed under a solid top, their tongues in slots of the aprons, so that the top can move",
    fields=(
        Field("top", PartName(), "the top; it lies on the aprons", required=True),
        Field("aprons", Many(PartName()), "the parts with slots; their upper edges touch the top", required=True),
        Field("button", Nested(BUTTON), "the buttons", required=True),
        Field("slot", Nested(SLOT), "the slots in the aprons' inner faces", required=True),
        Field(
            "slots", Choice(("mortises", "groove")), "one for each button, or one along the apron", default="mortises"
        ),
        Field("spacing", Length(above=0), "buttons stand no further apart", required=True),
        Field("ends", Length(above=0), "from the apron's ends to the first and the last", required=True),
        Field("gauge", Count(least=0), "number of the screws: 8 for No. 8", default="8"),
        Field("screw", Length(above=0), "length of the screws", required=True),
        Field("swing", Plain(least=0), "per cent of moisture that the top goes through in a year", default="4"),
    ),
    example="buttons: {top: top, aprons: [front apron, left apron], button: {length: 1 1/2, width: 1, thickness: 3/4, tongue: 1/2}, slot: {width: 3/8, depth: 1/2}, spacing: 8, ends: 3, screw: 1 1/4}",
    build=build,
)
