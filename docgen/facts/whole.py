"""Everything computed of a piece, as plain values for JSON: documented in shared/facts.md.

Lengths are millimetres, angles degrees, volumes mm³, weights kg. A length that a person reads also
stands as text in the file's own units under the same name with `_text` behind it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import docgen
from docgen.checks.finding import Finding
from docgen.facts.lists import listed
from docgen.facts.values import AXES, PIECE_AXES, Json, length, number, origin, place, vector
from docgen.piece.model import Joint, Kind, Part, Piece
from docgen.piece.records import BOTH, Allowance, Feature, HoleRow, Mark, Size, SizeKind, SlotRow
from docgen.piece.solids import Solids
from docgen.schedules.rows import Schedules
from docgen.schedules.terms import finished
from docgen.units import Units, format_angle, plain_length

SAME = 1e-6  # mm: a hole's diameter and its size on the drawing

FORMAT = 1
"""Version of the form of the facts; it rises when a name changes its meaning or goes."""


def facts(piece: Piece, solids: Solids, kinds: Sequence[Kind], lists: Schedules, findings: Sequence[Finding]) -> Json:
    """Return everything that is known of the piece as dicts, lists, text and numbers."""
    return {
        "facts": FORMAT,
        "docgen": docgen.__version__,
        "piece": _head(piece),
        "sizes": [
            {"name": name, "value": number(q.value), "kind": q.kind.value, "from": origin}
            for name, q, origin in piece.sizes
        ],
        "parts": [_part(part, solids, piece.units) for part in piece.parts],
        "kinds": [{"parts": list(k.parts), "mirrored": list(k.mirrored), "count": k.count} for k in kinds],
        "joints": [_joint(j) for j in piece.joints],
        "runs": [
            {"name": r.name, "parts": list(r.parts), "closed": r.closed, "radius": number(r.radius)} for r in piece.runs
        ],
        "groups": [
            {
                "name": g.name,
                "parts": list(g.parts),
                "point": vector(g.point),
                "axis": PIECE_AXES[g.axis],
                "range": [number(a) for a in g.range],
            }
            for g in piece.groups
        ],
        "fasteners": [_fastener(f, piece.units) for f in piece.fasteners],
        **listed(lists, piece.units),
        "findings": [_finding(f) for f in findings],
    }


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
    size = finished(part)
    weight = None if part.material.density is None else number(solid.volume * 1e-9 * part.material.density)
    return {
        "path": part.path,
        "called": part.called,
        "number": part.number,
        "material": part.material.name,
        "grain": part.grain_word,
        "group": part.group,
        "hardware": part.hardware,
        "authority": part.authority.value,
        "nominal": dict(zip(AXES, (number(s) for s in part.size), strict=True)),
        "finished": dict(zip(AXES, (number(s) for s in size), strict=True)),
        "finished_text": dict(zip(AXES, (plain_length(s, units) for s in size), strict=True)),
        "spans": {word: [number(low[i]), number(high[i])] for i, word in enumerate(PIECE_AXES)},
        "centre_of_gravity": vector(placed.centroid),
        "volume": number(solid.volume),
        "weight": weight,
        "features": [_feature(part, f, units) for f in part.features],
        "at": origin(part.origin),
    }


def _feature(part: Part, feature: Feature, units: Units) -> Json:
    made = feature.made
    return {
        "name": feature.name,
        "operation": feature.word,
        "title": feature.title,
        "stage": feature.stage.value,
        "parameters": {name: number(value) for name, value in feature.parameters},
        "sizes": [_size(part, s, _text(s, made.holes, units)) for s in made.sizes],
        "marks": [_mark(part, m, units) for m in made.marks],
        "holes": [_hole(part, h) for h in made.holes],
        "slots": [_slot(part, s) for s in made.slots],
        "allowances": [_allowance(part, a) for a in made.allowances],
        "spare": [{"face": part.word(s.face), "amount": number(s.amount), "note": s.note} for s in made.spare],
        "at": origin(feature.origin),
    }


def _text(size: Size, holes: tuple[HoleRow, ...], units: Units) -> str:
    """Return a size as it is printed; the diameter of a hole as its drill is named."""
    if size.kind is SizeKind.ANGLE:
        return format_angle(size.value)
    same = (h for h in holes if size.kind is SizeKind.DIAMETER and abs(float(h.diameter - size.value)) < SAME)
    return next((h.drill for h in same if h.drill), plain_length(size.value, units))


def _size(part: Part, size: Size, text: str) -> Json:
    return {
        "kind": size.kind.value,
        "label": size.label,
        "from": vector(size.start),
        "to": vector(size.end),
        "value": number(size.value),
        "value_text": text,
        "face": None if size.face is None else part.word(size.face),
        "authority": size.authority.value,
        "over": number(size.over),
        "fixes": list(size.parameters),
    }


def _mark(part: Part, mark: Mark, units: Units) -> Json:
    side = {-1: "toward the datum", 0: "centre", 1: "away from the datum", BOTH: "both"}[mark.wood]
    return {
        "label": mark.label,
        "face": part.word(mark.face),
        "wood": side,
        **length("position", mark.position, units),
    }


def _hole(part: Part, hole: HoleRow) -> Json:
    return {
        "name": hole.name,
        "purpose": hole.purpose.value,
        "face": part.word(hole.face),
        "points": [vector(p) for p in hole.points],
        "diameter": number(hole.diameter),
        "drill": hole.drill,
        "depth": None if hole.depth is None else number(hole.depth),
        "thread": hole.thread,
        "thread_depth": None if hole.thread_depth is None else number(hole.thread_depth),
        "mate": hole.mate,
        "authority": hole.authority.value,
    }


def _slot(part: Part, slot: SlotRow) -> Json:
    return {
        "name": slot.name,
        "face": part.word(slot.face),
        "centre": vector(slot.centre),
        "along": AXES[slot.along],
        "length": number(slot.length),
        "width": number(slot.width),
        "bore": None if slot.bore is None else [number(v) for v in slot.bore],
    }


def _allowance(part: Part, allowance: Allowance) -> Json:
    return {"face": part.word(allowance.face), "amount": number(allowance.amount), "reason": allowance.reason}


def _joint(joint: Joint) -> Json:
    return {
        "joint": joint.word,
        "title": joint.title,
        "parts": list(joint.parts),
        "features": [{"part": path, "feature": name} for path, name in joint.features],
        "figures": [{"name": name, "value": number(value), "kind": kind} for name, value, kind in joint.figures],
        "at": origin(joint.origin),
    }


def _fastener(f: Any, units: Units) -> Json:
    return {
        "key": f.key,
        "what": f.what,
        "thread": f.thread,
        "count": f.count,
        "parts": list(f.parts),
        "wood_behind": None if f.wood_behind is None else number(f.wood_behind),
        **length("length", f.length, units),
        **length("grip", f.grip, units),
        **length("engagement", f.engagement, units),
        **length("tapped_depth", f.tapped_depth, units),
        **length("drill_depth", f.drill_depth, units),
        "depends": list(f.depends),
        "notes": list(f.notes),
        "at": origin(f.origin),
    }


def _finding(f: Finding) -> Json:
    return {
        "grade": f.grade.value,
        "code": f.code,
        "parts": list(f.parts),
        "message": f.message,
        "rule": f.rule,
        "source": f.source,
        "figures": [{"name": name, "value": number(value), "unit": unit} for name, value, unit in f.figures],
        "advice": f.advice,
        "at": place(f.where),
    }
