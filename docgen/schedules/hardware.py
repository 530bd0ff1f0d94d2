"""The hardware list: fasteners with their lengths worked out, items, bought parts, panes; what to measure first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from docgen.piece.model import Fastener, Item, Joint, Kind, Pane, Part, Piece
from docgen.piece.records import Authority
from docgen.schedules.holds import ORDERED_SHEETS, listed
from docgen.schedules.rows import HardwareRow
from docgen.schedules.sold import sold
from docgen.schedules.terms import finished, kind_title
from docgen.schedules.used_up import used_up
from docgen.schedules.wall_screws import wall_screws
from docgen.units import plain_length

FASTENERS, TENONS, HARDWARE = "Screws, bolts and washers", "Loose tenons", "Hardware"
BOUGHT, SHEETS = (
    "Panes, and parts that are bought",
    "Sheet stock: pieces of finished size, to which saw and trimming add",
)

_TENON = ("thickness", "width", "length")
"""The figures of a joint with loose tenons that give their size."""

MILLED = "thickness of the milled wood"
"""A sixteenth of thickness decides whether a screw bottoms, so lengths are ordered after milling."""


def hardware(piece: Piece, kinds: Sequence[Kind]) -> tuple[HardwareRow, ...]:
    """Return what is bought besides wood, equal things once with their count; with it, what is used up at the work."""
    groups = (
        (FASTENERS, (*_fasteners(piece), *_washers(piece))),
        (TENONS, _tenons(piece)),
        (HARDWARE, _items(piece)),
    )
    listed = [replace(row, group=group) for group, rows in groups for row in rows]
    bought = (*listed, *wall_screws(piece), *_bought_parts(piece, kinds))
    return (*bought, *used_up(piece))


def sized(piece: Piece, fastener: Fastener) -> str:
    """Return thread and length of a fastener, as it is ordered."""
    if fastener.length is None:
        return fastener.thread
    return f"{fastener.thread} × {plain_length(fastener.length, piece.units)}".strip(" ×")


def _fasteners(piece: Piece) -> list[HardwareRow]:
    groups: dict[tuple[str, str], list[Fastener]] = {}
    for f in piece.fasteners:
        groups.setdefault((f.what, sized(piece, f)), []).append(f)
    out = []
    for (what, size), found in groups.items():
        depends = dict.fromkeys(d for f in found for d in f.depends)
        if found[0].length is not None and not depends:
            depends = {MILLED: None}
        out.append(
            HardwareRow(
                what=what,
                size=size,
                count=sum(f.count for f in found),
                where="; ".join(_wheres(piece, found)),
                depends=tuple(depends),
                note="; ".join(
                    n
                    for n in dict.fromkeys(
                        (*(n for f in found for n in _lengths(piece, f)), *_notes(found), sold(what, size, piece.units))
                    )
                    if n
                ),
            )
        )
    return out


def _washers(piece: Piece) -> list[HardwareRow]:
    """Return the washers that the lengths of the fasteners count on."""
    groups: dict[tuple[str, str], list[Fastener]] = {}
    for f in piece.fasteners:
        if f.washer:
            size = f"for {f.thread}, {plain_length(f.washer, piece.units)} {piece.units.sign} thick"
            groups.setdefault((size, f.key), []).append(f)
    out: dict[str, HardwareRow] = {}
    for (size, key), found in groups.items():
        count = sum(f.count for f in found)
        row = out.get(size)
        if row is not None:
            count, key = row.count + count, f"{row.where}, {key}"
        out[size] = HardwareRow("washer, flat", size, count, key, (), "the screws' lengths count on this thickness")
    return list(out.values())


def _tenons(piece: Piece) -> list[HardwareRow]:
    """Return the loose tenons of the joints, by size: thickness × width × length."""
    note = "thickness × width × length; bought or made of hardwood, grain along the length"
    found = loose_tenons(piece, piece.joints)
    return [HardwareRow("loose tenon", size, n, "; ".join(w), (), note) for size, (n, w) in found.items()]


def loose_tenons(piece: Piece, joints: Sequence[Joint]) -> dict[str, tuple[int, list[str]]]:
    """Return how many loose tenons of each size these joints take, and the joints' titles."""
    counts: dict[str, tuple[int, list[str]]] = {}
    for joint in joints:
        told = {name: value for name, value, _ in joint.figures}
        if "tenons" not in told or any(name not in told for name in _TENON):
            continue
        size = " × ".join(plain_length(told[name], piece.units, rest=False) for name in _TENON) + f" {piece.units.sign}"
        count, where = counts.get(size, (0, []))
        counts[size] = (count + int(told["tenons"]), [*where, joint.title])
    return counts


def _wheres(piece: Piece, found: Sequence[Fastener]) -> list[str]:
    """Return where fasteners go, the name of their holes said once: "A: side into leg, other side into other leg"."""
    known = {p.path for p in piece.parts}
    places: dict[str, list[str]] = {}
    for f in found:
        held, tapped = (listed(piece, [p]) if p in known else p for p in f.parts)
        place = f"{held} into {tapped}" if held and tapped else held or tapped
        places.setdefault(f.key, []).extend([place] if place else [])
    alike: dict[tuple[str, ...], list[str]] = {}
    for key, told in places.items():
        alike.setdefault(tuple(told), []).append(key)
    return [", ".join(keys) + (f": {', '.join(told)}" if told else "") for told, keys in alike.items()]


def _notes(found: Sequence[Fastener]) -> Iterator[str]:
    """Yield the notes of fasteners; what is told of several by their keys, once: "A, C each alone holds its strip"."""
    alike: dict[str, dict[str, None]] = {}
    for f in found:
        for note in f.notes:
            own = note.startswith(f"{f.key} ") if f.key else False
            alike.setdefault(note.removeprefix(f"{f.key} ") if own else note, {})[f.key if own else ""] = None
    for note, keys in alike.items():
        told = ", ".join(k for k in keys if k)
        yield f"{told}{' each' if len(keys) > 1 else ''} {note}" if told else note


def _lengths(piece: Piece, fastener: Fastener) -> list[str]:
    """Return the chain that the length comes from: washers, grip, engagement; bolts into metal tell their own."""
    if fastener.length is None or fastener.metal:
        return []
    steps = (("washers", fastener.washer), ("grip", fastener.grip), ("engagement", fastener.engagement))
    told = [f"{name} {plain_length(value, piece.units)}" for name, value in steps if value]
    return [f"length from {' + '.join(told)}"] if told else []


def _items(piece: Piece) -> list[HardwareRow]:
    groups: dict[tuple[str, str, str], list[Item]] = {}
    for item in piece.items:
        groups.setdefault((item.what, item.size, item.note), []).append(item)
    return [
        HardwareRow(
            what,
            size,
            sum(i.count for i in found),
            "; ".join(dict.fromkeys(told for i in found for told in _item_wheres(piece, i))),
            ("the place it goes to",) if any(i.authority is Authority.MEASURE for i in found) else (),
            "; ".join(n for n in (note, sold(what, size, piece.units)) if n),
        )
        for (what, size, note), found in groups.items()
    ]


def _item_wheres(piece: Piece, item: Item) -> tuple[str, ...]:
    """Return where a thing goes as its statement says, else the drawer or the joints of the same statement."""
    if item.where or item.origin.span is None:
        return (item.where,) if item.where else ()
    drawers = tuple(d.called for d in piece.drawers if d.origin.span == item.origin.span)
    return drawers or tuple(
        f"{listed(piece, j.parts[:1])} to {listed(piece, j.parts[1:])}"
        for j in piece.joints
        if j.origin.span == item.origin.span and len(j.parts) > 1
    )


def _bought_parts(piece: Piece, kinds: Sequence[Kind]) -> list[HardwareRow]:
    """Return the parts that are hardware, panes that are ordered cut to size, then the sheets that parts are cut from."""
    panes = {pane.pane: pane for pane in piece.panes}
    out = []
    sheets: dict[str, list[Kind]] = {}
    for kind in kinds:
        part = piece.part(kind.first)
        ordered = not part.material.solid_wood and any(w in part.material.sheet for w in ORDERED_SHEETS)
        if part.hardware or ordered:
            paths = (*kind.parts, *kind.mirrored)
            waits = tuple(_waits(piece, kind, panes))
            what, size = _what(piece, part, paths), _box(piece, part)
            out.append(HardwareRow(what, size, kind.count, ", ".join(paths), waits, part.note, BOUGHT))
        elif not part.material.solid_wood:
            sheets.setdefault(part.material.name, []).append(kind)
    return [*out, *(_sheet(piece, cut, panes) for cut in sheets.values())]


def _waits(piece: Piece, kind: Kind, panes: Mapping[str, Pane]) -> Iterator[str]:
    """Yield the measurement that a part waits for."""
    paths = (*kind.parts, *kind.mirrored)
    frames = dict.fromkeys(r for p in paths if p in panes for r in panes[p].frame)
    if frames:
        yield f"the opening in {', '.join(frames)}"
    elif piece.part(kind.first).authority is Authority.MEASURE:
        yield f"the place of {_title(piece, paths)}"


def _sheet(piece: Piece, cut: Sequence[Kind], panes: Mapping[str, Pane]) -> HardwareRow:
    """Return a sheet material with the finished sizes of all that is cut from it; its count is that of the pieces."""
    material, units = piece.part(cut[0].first).material, piece.units
    pieces = []
    for kind in cut:
        long, wide, _ = (plain_length(v, units, rest=False) for v in finished(piece.part(kind.first)))
        title = _title(piece, (*kind.parts, *kind.mirrored))
        pieces.append(f"{title}: {kind.count} of {long} × {wide} {units.sign}")
    bought = f", bought as {material.bought}" if material.bought else ""
    return HardwareRow(
        what=f"{material.sheet}, {material.name}",
        size=f"{plain_length(material.thickness, units)} {units.sign} thick{bought}",
        count=sum(kind.count for kind in cut),
        where="\n".join(pieces),
        depends=tuple(text for kind in cut for text in _waits(piece, kind, panes)),
        note="",
        group=SHEETS,
    )


def _what(piece: Piece, part: Part, paths: tuple[str, ...]) -> str:
    return f"{part.material.sheet or part.material.name}: {_title(piece, paths)}"


def _title(piece: Piece, paths: tuple[str, ...]) -> str:
    return kind_title([piece.part(p).called for p in paths])


def _box(piece: Piece, part: Part) -> str:
    return " × ".join(plain_length(v, piece.units, rest=False) for v in finished(part)) + f" {piece.units.sign}"
