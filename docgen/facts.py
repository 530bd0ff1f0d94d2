"""Everything computed of a piece, as plain values for JSON: documented in shared/facts.md.

Lengths are millimetres, angles degrees, volumes mm³, weights kg. A length that a person reads also
stands as text in the file's own units under the same name with `_text` behind it.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

import docgen
from docgen.checks.finding import Finding
from docgen.piece.model import Joint, Kind, Part, Piece
from docgen.piece.records import Allowance, Feature, HoleRow, Mark, Origin, Size
from docgen.piece.solids import Solids
from docgen.places import Span
from docgen.schedules.rows import (
    BlankRow,
    ChartRow,
    CutRow,
    HardwareRow,
    MeasuredRow,
    Schedules,
    SetupRow,
    Stick,
    StockRow,
)
from docgen.units import Number, Units, format_angle, plain_length

FORMAT = 1
"""Version of the form of the facts; it rises when a name changes its meaning or goes."""

AXES = ("length", "width", "thickness")
PIECE_AXES = ("across", "deep", "up")

Json = dict[str, Any]


def facts(piece: Piece, solids: Solids, kinds: Sequence[Kind], lists: Schedules, findings: Sequence[Finding]) -> Json:
    """Return everything that is known of the piece as dicts, lists, text and numbers."""
    return {
        "facts": FORMAT,
        "docgen": docgen.__version__,
        "piece": _head(piece),
        "sizes": [
            {"name": name, "value": _number(q.value), "kind": q.kind.value, "from": origin}
            for name, q, origin in piece.sizes
        ],
        "parts": [_part(part, solids, piece.units) for part in piece.parts],
        "kinds": [{"parts": list(k.parts), "mirrored": list(k.mirrored), "count": k.count} for k in kinds],
        "joints": [_joint(j) for j in piece.joints],
        "runs": [
            {"name": r.name, "parts": list(r.parts), "closed": r.closed, "radius": _number(r.radius)}
            for r in piece.runs
        ],
        "groups": [
            {
                "name": g.name,
                "parts": list(g.parts),
                "point": _vector(g.point),
                "axis": PIECE_AXES[g.axis],
                "range": [_number(a) for a in g.range],
            }
            for g in piece.groups
        ],
        "fasteners": [_fastener(f, piece.units) for f in piece.fasteners],
        "drilling": [_chart(row, piece.units) for row in lists.chart],
        "sticks": [_stick(s, piece.units) for s in lists.sticks],
        "cutting": [_cut(row, piece.units) for row in lists.cutting],
        "blanks": [_blank(row, piece.units) for row in lists.blanks],
        "stock": [_stock(row) for row in lists.stock],
        "setups": [_setup(row, piece.units) for row in lists.setups],
        "hardware": [_hardware(row) for row in lists.hardware],
        "measured": [_measured(row) for row in lists.measured],
        "cautions": [{"key": c.key, "title": c.title, "why": list(c.why)} for c in lists.cautions],
        "findings": [_finding(f) for f in findings],
    }


def _number(value: Number) -> float | int:
    """Return a JSON number: whole where the value is, else to a millionth."""
    if isinstance(value, Fraction) and value.denominator == 1:
        return value.numerator
    rounded = round(float(value), 6) + 0.0
    return int(rounded) if rounded == int(rounded) else rounded


def _vector(v: Sequence[Number]) -> list[float | int]:
    return [_number(x) for x in v]


def _place(span: Span | None) -> Json | None:
    return None if span is None else {"file": span.file, "line": span.line, "column": span.column}


def _origin(origin: Origin) -> Json:
    return {"at": _place(origin.span), "because": [_place(s) for s in origin.because], "source": origin.source}


def _length(name: str, value: Number | None, units: Units) -> Json:
    """Return the number and, where there is one, its text."""
    if value is None:
        return {name: None}
    return {name: _number(value), f"{name}_text": plain_length(value, units)}


def _value(value: Number | str, kind: str, units: Units) -> Json:
    if isinstance(value, str):
        return {"value": value, "kind": kind}
    text = (
        plain_length(value, units)
        if kind == "length"
        else format_angle(value)
        if kind == "angle"
        else str(_number(value))
    )
    return {"value": _number(value), "kind": kind, "text": text}


def _head(piece: Piece) -> Json:
    return {
        "title": piece.title,
        "number": piece.number,
        "revision": piece.revision,
        "date": piece.date,
        "units": piece.units.system,
        "finest": str(piece.units.finest),
        "projection": piece.projection,
        "notes": list(piece.notes),
    }


def _part(part: Part, solids: Solids, units: Units) -> Json:
    solid = solids.solid(part.path)
    placed = solid.moved(part.frame)
    low, high = placed.bounds
    finished = [b - a for a, b in (part.span(axis) for axis in range(3))]
    weight = None if part.material.density is None else _number(solid.volume * 1e-9 * part.material.density)
    return {
        "path": part.path,
        "number": part.number,
        "material": part.material.name,
        "grain": part.grain_word,
        "group": part.group,
        "hardware": part.hardware,
        "authority": part.authority.value,
        "nominal": dict(zip(AXES, (_number(s) for s in part.size), strict=True)),
        "finished": dict(zip(AXES, (_number(s) for s in finished), strict=True)),
        "finished_text": dict(zip(AXES, (plain_length(s, units) for s in finished), strict=True)),
        "spans": {word: [_number(low[i]), _number(high[i])] for i, word in enumerate(PIECE_AXES)},
        "centre_of_gravity": _vector(placed.centroid),
        "volume": _number(solid.volume),
        "weight": weight,
        "features": [_feature(part, f, units) for f in part.features],
        "at": _origin(part.origin),
    }


def _feature(part: Part, feature: Feature, units: Units) -> Json:
    made = feature.made
    return {
        "name": feature.name,
        "operation": feature.word,
        "title": feature.title,
        "stage": feature.stage.value,
        "parameters": {name: _number(value) for name, value in feature.parameters},
        "sizes": [_size(part, s, units) for s in made.sizes],
        "marks": [_mark(part, m, units) for m in made.marks],
        "holes": [_hole(part, h) for h in made.holes],
        "allowances": [_allowance(part, a) for a in made.allowances],
        "at": _origin(feature.origin),
    }


def _size(part: Part, size: Size, units: Units) -> Json:
    angle = size.kind.value == "angle"
    return {
        "kind": size.kind.value,
        "label": size.label,
        "from": _vector(size.start),
        "to": _vector(size.end),
        "value": _number(size.value),
        "value_text": format_angle(size.value) if angle else plain_length(size.value, units),
        "face": None if size.face is None else part.word(size.face),
        "authority": size.authority.value,
        "over": _number(size.over),
        "fixes": list(size.parameters),
    }


def _mark(part: Part, mark: Mark, units: Units) -> Json:
    side = {-1: "toward the datum", 0: "centre", 1: "away from the datum"}[mark.wood]
    return {
        "label": mark.label,
        "face": part.word(mark.face),
        "wood": side,
        **_length("position", mark.position, units),
    }


def _hole(part: Part, hole: HoleRow) -> Json:
    return {
        "name": hole.name,
        "purpose": hole.purpose.value,
        "face": part.word(hole.face),
        "points": [_vector(p) for p in hole.points],
        "diameter": _number(hole.diameter),
        "drill": hole.drill,
        "depth": None if hole.depth is None else _number(hole.depth),
        "thread": hole.thread,
        "thread_depth": None if hole.thread_depth is None else _number(hole.thread_depth),
        "mate": hole.mate,
        "authority": hole.authority.value,
    }


def _allowance(part: Part, allowance: Allowance) -> Json:
    return {"face": part.word(allowance.face), "amount": _number(allowance.amount), "reason": allowance.reason}


def _joint(joint: Joint) -> Json:
    return {
        "joint": joint.word,
        "title": joint.title,
        "parts": list(joint.parts),
        "features": [{"part": path, "feature": name} for path, name in joint.features],
        "figures": [{"name": name, "value": _number(value), "kind": kind} for name, value, kind in joint.figures],
        "at": _origin(joint.origin),
    }


def _fastener(f: Any, units: Units) -> Json:
    return {
        "key": f.key,
        "what": f.what,
        "thread": f.thread,
        "count": f.count,
        "parts": list(f.parts),
        "wood_behind": None if f.wood_behind is None else _number(f.wood_behind),
        **_length("length", f.length, units),
        **_length("grip", f.grip, units),
        **_length("engagement", f.engagement, units),
        **_length("tapped_depth", f.tapped_depth, units),
        **_length("drill_depth", f.drill_depth, units),
        "depends": list(f.depends),
        "notes": list(f.notes),
        "at": _origin(f.origin),
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
        "positions": [{**_length("from_end", a, units), **_length("from_edge", b, units)} for a, b in row.at],
        "drill": hole.drill,
        "diameter": _number(hole.diameter),
        **_length("depth", hole.depth, units),
        "through": hole.depth is None,
        "thread": hole.thread,
        **_length("thread_depth", hole.thread_depth, units),
        "percent_of_thread": None if hole.percent is None else round(hole.percent, 1),
        "fastener": row.fastener,
        **_length("engagement", row.engagement, units),
        "each": row.each,
        "total": row.total,
        "authority": hole.authority.value,
        "note": row.note,
    }


def _stick(stick: Stick, units: Units) -> Json:
    return {
        "name": stick.name,
        "parts": list(stick.parts),
        "mirrored": list(stick.mirrored),
        "length": [_number(v) for v in stick.length],
        "datum": stick.datum,
        "marks": [
            {
                "label": m.label,
                "wood": m.wood,
                "face": [m.face.axis, m.face.side],
                **_length("position", m.position, units),
            }
            for m in stick.marks
        ],
    }


def _three(values: Sequence[Number], units: Units) -> Json:
    return {name: {"mm": _number(v), "text": plain_length(v, units)} for name, v in zip(AXES, values, strict=True)}


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
        **_length("length", row.length, units),
        **_length("width", row.width, units),
        **_length("thickness", row.thickness, units),
        "pieces": [{"part": p.path, "start": _number(p.start), "end": _number(p.end)} for p in row.pieces],
        "kerf": _number(row.kerf),
        "lost": _number(row.lost),
        "miss": _number(row.miss),
        "trim": _number(row.trim),
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
        "values": [{"name": name, **_value(value, kind, units)} for name, value, kind in row.values],
        "parts": [{"part": path, "feature": title} for path, title in row.parts],
        "note": row.note,
    }


def _measured(row: MeasuredRow) -> Json:
    return {
        "name": row.name,
        "from": row.source,
        "value": _number(row.used.value),
        "drawn": None if row.drawn is None else _number(row.drawn.value),
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
    }


def _finding(f: Finding) -> Json:
    return {
        "grade": f.grade.value,
        "code": f.code,
        "parts": list(f.parts),
        "message": f.message,
        "rule": f.rule,
        "source": f.source,
        "figures": [{"name": name, "value": _number(value), "unit": unit} for name, value, unit in f.figures],
        "advice": f.advice,
        "at": _place(f.where),
    }
