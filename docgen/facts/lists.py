"""The lists of a piece as plain values for JSON."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.facts.values import AXES, Json, length, number, value
from docgen.schedules.rows import (
    BlankRow,
    ChainRows,
    ChartRow,
    CutRow,
    HardwareRow,
    MeasuredRow,
    Schedules,
    SetupRow,
    Stick,
    StockRow,
    Values,
    WorkRow,
)
from docgen.units import Number, Units, plain_length


def listed(lists: Schedules, units: Units) -> Json:
    """Return the lists by their names."""
    return {
        "drilling": [_chart(row, units) for row in lists.chart],
        "sticks": [_stick(s, units) for s in lists.sticks],
        "cutting": [_cut(row, units) for row in lists.cutting],
        "blanks": [_blank(row, units) for row in lists.blanks],
        "stock": [_stock(row) for row in lists.stock],
        "setups": [_setup(row, units) for row in lists.setups],
        "jigs": [{"what": j.what, "size": j.size, "use": j.use, "until": j.until} for j in lists.jigs],
        "hardware": [_hardware(row) for row in lists.hardware],
        "measured": [_measured(row) for row in lists.measured],
        "chain": _chain(lists.chain, units),
        "work": [_step(row) for row in lists.work],
        "cautions": [{"key": c.key, "title": c.title, "why": list(c.why)} for c in lists.cautions],
    }


def _chart(row: ChartRow, units: Units) -> Json:
    hole = row.hole
    return {
        "name": row.name,
        "purpose": hole.purpose.value,
        "parts": list(row.parts),
        "mirrored": list(row.mirrored),
        "face": row.face,
        "datum_end": row.datum_end,
        "datum_edge": row.datum_edge,
        "positions": [{**length("from_end", a, units), **length("from_edge", b, units)} for a, b in row.at],
        "drill": hole.drill,
        "diameter": number(hole.diameter),
        **length("depth", hole.depth, units),
        "through": hole.depth is None,
        "thread": hole.thread,
        **length("thread_depth", hole.thread_depth, units),
        "percent_of_thread": None if hole.percent is None else round(hole.percent, 1),
        "fastener": row.fastener,
        **length("engagement", row.engagement, units),
        "each": row.each,
        "total": row.total,
        "authority": hole.authority.value,
        "note": row.note,
        "marks": list(row.marks),
        "when": row.when,
        "on_hand": row.on_hand,
    }


def _stick(stick: Stick, units: Units) -> Json:
    return {
        "name": stick.name,
        "parts": list(stick.parts),
        "mirrored": list(stick.mirrored),
        "length": [number(v) for v in stick.length],
        "datum": stick.datum,
        "faces": [{"parts": list(parts), "words": list(words)} for parts, words in stick.faces],
        "marks": [
            {
                "label": m.label,
                "wood": m.wood,
                "face": [m.face.axis, m.face.side],
                **length("position", m.position, units),
                "tells": [{"note": note, "parts": list(parts)} for note, parts in told],
            }
            for m, told in zip(stick.marks, stick.notes, strict=True)
        ],
    }


def _three(values: Sequence[Number], units: Units) -> Json:
    return {name: {"mm": number(v), "text": plain_length(v, units)} for name, v in zip(AXES, values, strict=True)}


def _cut(row: CutRow, units: Units) -> Json:
    return {
        "number": row.number,
        "title": row.title,
        "parts": list(row.parts),
        "count": row.count,
        "hands": row.hands,
        "material": row.material,
        "bought": row.bought,
        "finished": _three(row.finished, units),
        "rough": None if row.blank else _three(row.rough, units),
        "blank": row.blank,
        "grain": row.grain,
        "board_feet": row.board_feet,
        "area_m2": row.area_m2,
        "weight_kg": row.weight_kg,
        "authority": row.authority.value,
        "note": row.note,
    }


def _blank(row: BlankRow, units: Units) -> Json:
    return {
        "name": row.name,
        "material": row.material,
        **length("length", row.length, units),
        **length("width", row.width, units),
        **length("thickness", row.thickness, units),
        "pieces": [{"part": p.path, "start": number(p.start), "end": number(p.end)} for p in row.pieces],
        "kerf": number(row.kerf),
        "lost": number(row.lost),
        "miss": number(row.miss),
        "trim": number(row.trim),
        "board_feet": row.board_feet,
        "unmatched": row.unmatched,
        "note": row.note,
    }


def _stock(row: StockRow) -> Json:
    return {
        "material": row.material,
        "bought": row.bought,
        "net": row.net,
        "unit": row.unit,
        "with_waste": row.with_waste,
        "waste_percent": row.waste_percent,
        "weight_kg": row.weight_kg,
    }


def _setup(row: SetupRow, units: Units) -> Json:
    return {
        "machine": row.machine,
        "what": row.what,
        "values": _values(row.values, units),
        "parts": [{"part": path, "feature": title} for path, title in row.parts],
        "note": row.note,
        "number": row.number,
        "when": row.when,
        "runs": [
            {"parts": list(run.parts), "what": run.what, "places": _values(run.places, units), "feed": run.feed}
            for run in row.runs
        ],
        "proof": list(row.proof),
    }


def _values(values: Values, units: Units) -> list[Json]:
    return [{"name": name, **value(of, kind, units)} for name, of, kind in values]


def _chain(rows: ChainRows, units: Units) -> Json:
    return {
        "boxes": [
            {
                "title": b.title,
                "parts": list(b.parts),
                "column": b.column,
                "size": _three(b.size, units),
                "authority": b.authority.value,
                "lines": list(b.lines),
            }
            for b in rows.boxes
        ],
        "arrows": [list(arrow) for arrow in rows.arrows],
        "alone": list(rows.alone),
        "holds": [
            {
                "name": h.name,
                "what": h.what,
                "figure": h.figure,
                "before": h.before,
                "moves": h.moves,
                "authority": h.authority.value,
                "parts": list(h.parts),
            }
            for h in rows.holds
        ],
        "sizes": [
            {
                "name": m.name,
                **length("value", m.value, units),
                "from": m.source,
                "on": m.on,
                "moves": [{"factor": number(f), "what": what, "parts": list(parts)} for f, what, parts in m.moves],
                "used_by": list(m.used),
                "stays": [{"face": word, "parts": list(parts)} for word, parts in m.stays],
            }
            for m in rows.sizes
        ],
    }


def _step(row: WorkRow) -> Json:
    return {
        "number": row.number,
        "phase": row.phase,
        "what": row.what,
        "parts": list(row.parts),
        "see": row.see,
        "may_go_wrong": row.wrong,
        "hold": row.hold,
    }


def _measured(row: MeasuredRow) -> Json:
    return {
        "name": row.name,
        "from": row.source,
        "value": number(row.used.value),
        "drawn": None if row.drawn is None else number(row.drawn.value),
        "kind": row.used.kind.value,
        "on": row.on,
        "sizes": list(row.sizes),
        "parts": list(row.parts),
    }


def _hardware(row: HardwareRow) -> Json:
    return {
        "what": row.what,
        "size": row.size,
        "count": row.count,
        "where": row.where,
        "depends": list(row.depends),
        "note": row.note,
        "group": row.group,
    }
