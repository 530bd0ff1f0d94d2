"""The drilling and tapping chart: equal groups of holes over equal parts in one row, by hole name."""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass, replace

from docgen.piece.datums import datum, end_word, measured
from docgen.piece.hole_names import inward, slots_alike
from docgen.piece.model import Fastener, Part, Piece
from docgen.piece.records import HoleRow, Purpose, Sink
from docgen.schedules.discs import disc_of, from_centre_line
from docgen.schedules.rows import ChartRow
from docgen.schedules.setups import FIRST, WHEN, when_of
from docgen.schedules.showing import beside_show
from docgen.schedules.terms import exact
from docgen.schedules.wall_holes import for_the_wall
from docgen.trade.drills import find, nearest, point_length
from docgen.trade.drills import told as drill_told
from docgen.trade.names import UnknownName
from docgen.units import SLASH, Number, near_length, plain_length, unit_length

SLOT = "router"
"""What stands for the drill of a slot."""

FLAT = "flat-bottomed bit"

GRIPPED = (Purpose.TAPPED, Purpose.PILOT)
"""What the holes are for in which a thread holds: what is engaged is told of them."""

SAME = 1e-3
"""mm: drills closer than this are one."""


@dataclass(frozen=True, slots=True)
class Seat:
    """A hole row as it stands on one part: face word, datums, positions from them."""

    part: Part
    hole: HoleRow
    datum_end: str
    datum_edge: str
    at: tuple[tuple[Number, Number], ...]
    when: str

    @property
    def face(self) -> str:
        """The word of the face that is drilled."""
        return self.part.word(self.hole.face)

    @property
    def key(self) -> Hashable:
        """What must be alike for two parts to share a row; of the face its axis, of a leaning hole its lean."""
        h = self.hole
        return (
            h.name, h.purpose, h.face.axis, self.datum_end, self.datum_edge, h.drill, h.thread, h.fastener,
            exact(h.diameter), *(None if v is None else exact(v) for v in (h.depth, h.thread_depth, h.tip)), h.sink,
            h.authority, self.when, h.names, _without_mate(h), tuple((exact(a), exact(b)) for a, b in self.at),
            tuple(round(d, 6) for i, d in enumerate(h.direction) if i != h.face.axis),
        )  # fmt: skip


def drilling(piece: Piece) -> tuple[ChartRow, ...]:
    """Return the chart's rows in the order of work and, within it, of drill changes; positions in mm from named datums."""
    seats = [seat for part in piece.parts for seat in _seats(piece, part)]
    return tuple(_row(piece, group) for group in sorted(_grouped(seats), key=_order))


def _seats(piece: Piece, part: Part) -> Iterator[Seat]:
    for feature in part.features:
        for hole in feature.made.holes:
            yield _seat(part, hole, when_of(part, feature))
    for hole in slotted(piece, part):
        yield _seat(part, hole, FIRST)


def _order(group: Sequence[Seat]) -> tuple[object, ...]:
    """Sort by time, slots behind the holes, then the drill, thinnest first, then the name."""
    hole, name = group[0].hole, group[0].hole.name
    number = min(s.part.number for s in group)
    drill = round(float(hole.diameter), 4)
    return (WHEN.index(group[0].when), hole.drill == SLOT, drill, len(name) if name else 99, name, number)


def slotted(piece: Piece, part: Part) -> Iterator[HoleRow]:
    """Yield the slots of a part as rows of the chart, equal ones of one name together: middles, width and length."""
    for slots in slots_alike(part):
        first = slots[0]
        yield HoleRow(
            name=first.name,
            purpose=Purpose.CLEARANCE,
            face=first.face,
            points=tuple(slot.centre for slot in slots),
            direction=inward(first.face),
            diameter=first.width,
            drill=SLOT,
            sink=None if first.bore is None else Sink(*first.bore),
            fastener=first.name,
            note=f"slot {unit_length(first.width, piece.units)} wide and {unit_length(first.length, piece.units)} long over all along the "
            f"{('length', 'width', 'thickness')[first.along]}, cut with a router; the positions are its middle",
            names=tuple(slot.called for slot in slots) if first.called else (),
        )


def _grouped(seats: Sequence[Seat]) -> list[list[Seat]]:
    """Return the seats that share a row: alike from the same datums, on the same face or on the one opposite.

    A part has one seat in a row: two equal rows of one part stay two.
    """
    out: dict[Hashable, list[list[Seat]]] = {}
    for seat in seats:
        alike = out.setdefault(seat.key, [])
        room = next((g for g in alike if all(s.part.path != seat.part.path for s in g)), None)
        if room is None:
            alike.append([seat])
        else:
            room.append(seat)
    return [group for alike in out.values() for group in alike]


def _seat(part: Part, hole: HoleRow, when: str) -> Seat:
    """Return the hole with its positions along the face's two axes, each from a named side of the part.

    On a round face they run from its centre lines: its sides are lines on the rough blank that are cut away.
    """
    u, v = (i for i in range(3) if i != hole.face.axis)
    disc = disc_of(part)
    if disc is not None and disc.axis == hole.face.axis:
        (end, us), (edge, vs) = (from_centre_line(part, i, [p[i] for p in hole.points]) for i in (u, v))
        return Seat(part, hole, end, edge, tuple(zip(us, vs, strict=True)), when)
    du, dv = (hole.off if hole.off and hole.off.axis == i else datum(part, i) for i in (u, v))
    at = tuple((measured(part, du, p[u]), measured(part, dv, p[v])) for p in hole.points)
    return Seat(part, hole, end_word(part, du), part.side(dv), at, when)


def _row(piece: Piece, group: Sequence[Seat]) -> ChartRow:
    first = group[0]
    hole, marks = first.hole, first.hole.names
    order = sorted(range(len(first.at)), key=lambda i: (len(marks[i]), marks[i])) if marks else range(len(first.at))
    fastener = _fastener(piece, hole, first.part)
    face = first.face
    plain = tuple(s.part.path for s in group if s.face == face)
    other = tuple(s.part.path for s in group if s.face != face)
    if other:
        face = f"{face} ({next(s.face for s in group if s.face != face)} in the mirrored)"
    return ChartRow(
        name=hole.name,
        hole=_for_all(group),
        parts=plain,
        mirrored=other,
        face=face,
        datum_end=first.datum_end,
        datum_edge=first.datum_edge,
        at=tuple(first.at[i] for i in order),
        each=len(hole.points),
        total=len(hole.points) * len(group),
        fastener=fastener_text(piece, fastener) if fastener else "",
        engagement=(fastener.engagement or None) if fastener and hole.purpose in GRIPPED else None,
        note="; ".join(told for told in (_note(piece, first, fastener), beside_show(piece, plain, first.face)) if told),
        marks=tuple(marks[i] for i in order) if marks else (),
        when=first.when,
        on_hand=_on_hand(piece, hole),
    )


def _on_hand(piece: Piece, hole: HoleRow) -> str:
    """Return the drill of the shop's own list that is nearest, where the list has not the one that is asked for."""
    stated = dict(piece.shop).get("drills")
    names = [str(n) for n in stated] if isinstance(stated, tuple) else []
    if not names or hole.drill == SLOT or hole.drill in names:
        return ""
    try:
        known = [n for n in names if find(n)]
        near = nearest(hole.diameter, on_hand=known)
    except UnknownName:
        return ""
    return "" if abs(float(near.diameter) - float(hole.diameter)) < SAME else near.name


def _without_mate(hole: HoleRow) -> str:
    """Return the hole's note with the mating part's name left out: pairs of parts say the same of each other."""
    return hole.note.replace(hole.mate, "…") if hole.mate else hole.note


def _for_all(group: Sequence[Seat]) -> HoleRow:
    """Return the first hole of the group with the mating parts of all."""
    hole = group[0].hole
    mates = ", ".join(dict.fromkeys(s.hole.mate for s in group if s.hole.mate))
    if mates == hole.mate:
        return hole
    return replace(hole, mate=mates, note=hole.note.replace(hole.mate, mates) if hole.mate else hole.note)


def _fastener(piece: Piece, hole: HoleRow, part: Part) -> Fastener | None:
    """Return the fastener of a hole: the one between this part and another, where several carry its name."""
    named = [f for f in piece.fasteners if hole.fastener and f.key == hole.fastener]
    return next((f for f in named if part.path in f.parts), named[0] if named else None)


def fastener_text(piece: Piece, fastener: Fastener) -> str:
    """Return a fastener as it is ordered: "1/4-20 UNC × 1 1/2 machine screw, button head"."""
    length = f" × {plain_length(fastener.length, piece.units)}" if fastener.length is not None else ""
    return f"{fastener.thread}{length} {fastener.what}".strip()


def _note(piece: Piece, seat: Seat, fastener: Fastener | None) -> str:
    """Say what a blind hole's point reaches beyond its depth, and how much wood is left behind it.

    A hole right through toward the wall on which the piece hangs says that a screw goes in there.
    A clearance hole says the pilot that is drilled through it when its parts lie together.
    """
    hole = seat.hole
    if piece.stands == "wall" and for_the_wall(seat.part, hole) and "wall" not in hole.note:
        return "for a screw into the wall"
    if hole.depth is None and fastener is not None and fastener.pilot and hole.purpose is Purpose.CLEARANCE:
        deep = unit_length(fastener.drill_depth or fastener.engagement, piece.units)
        drill = drill_told(fastener.pilot, piece.units.system)
        return f"pilot {drill}, {deep} deep, drilled through it into the other part when both lie together"
    if hole.depth is None:
        return ""
    point = _near(piece, _point(hole))
    flat = "" if FLAT in hole.note else FLAT
    said = [f"the drill's point reaches {point} further" if _point(hole) else flat]
    if fastener is not None and hole.purpose is Purpose.TAPPED and fastener.wood_behind is not None:
        said.append(f"{_near(piece, fastener.wood_behind)} of wood is left behind it")
    return "; ".join(text for text in said if text)


def _near(piece: Piece, value: Number) -> str:
    """Return a length that is looked at and not worked to."""
    return f"{near_length(value, piece.units).replace(SLASH, '/')} {piece.units.sign}"


def _point(hole: HoleRow) -> Number:
    """Return how far the drill's point reaches beyond the full depth; 0 for one that cuts flat."""
    if hole.tip is None:
        return point_length(hole.diameter)
    return 0 if hole.tip >= 180 else float(hole.diameter) / 2 / math.tan(math.radians(float(hole.tip) / 2))
