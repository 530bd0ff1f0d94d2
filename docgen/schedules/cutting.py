"""The cutting list: equal parts counted together, with finished and rough sizes, grain, measure and weight."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.piece.model import Kind, Material, Part, Piece
from docgen.piece.solids import Solids
from docgen.schedules.rows import CutRow, Lwt
from docgen.schedules.terms import bought_thickness, finished, grained, hands, kind_titles, over, weight, wide
from docgen.trade.boards import board_feet, rough_size
from docgen.units import Units


def cutting(piece: Piece, solids: Solids, kinds: Sequence[Kind]) -> tuple[CutRow, ...]:
    """Return a row for each kind of part that is made, by balloon number; bought parts are on the hardware list."""
    blanks = {path: run.name for run in piece.runs for path in run.parts}
    made = [same for kind in kinds if not piece.part(kind.first).hardware for same in _from_blanks(kind, blanks)]
    titles = kind_titles(piece, [kind for kind, _ in made])
    rows = [_row(piece, solids, kind, blank, title) for (kind, blank), title in zip(made, titles, strict=True)]
    return tuple(sorted(rows, key=lambda r: r.number))


def _from_blanks(kind: Kind, blanks: dict[str, str]) -> list[tuple[Kind, str]]:
    """Return a kind with its blank ("" for none); where its parts come from different ones, or only some do, once for each."""
    out = []
    for name in dict.fromkeys(blanks.get(p, "") for p in (*kind.parts, *kind.mirrored)):
        parts = tuple(p for p in kind.parts if blanks.get(p, "") == name)
        mirrored = tuple(p for p in kind.mirrored if blanks.get(p, "") == name)
        out.append((Kind(parts, mirrored) if parts else Kind(mirrored), name))
    return out


def _row(piece: Piece, solids: Solids, kind: Kind, blank: str, title: str) -> CutRow:
    part = piece.part(kind.first)
    size = finished(part)
    rough = rough_of(part.material, (size[0] + part.over(0), size[1] + part.over(1), size[2]), piece.units)
    paths = (*kind.parts, *kind.mirrored)
    solid = part.material.solid_wood
    return CutRow(
        number=min(piece.part(p).number for p in paths),
        title=title,
        parts=paths,
        count=kind.count,
        hands=hands(kind),
        material=part.material.name,
        bought=part.material.bought,
        finished=size,
        rough=rough,
        grain=_grain(part.material, blank),
        board_feet=board_feet(rough[2], rough[1], rough[0]) * kind.count if solid and not blank else None,
        area_m2=None if solid else float(size[0] * size[1]) * 1e-6 * kind.count,
        weight_kg=weight(part, solids),
        authority=part.authority,
        blank=blank,
        note="; ".join(n for n in (part.note, _left(piece, part), "" if blank else wide(piece, part, rough[1])) if n),
    )


def _left(piece: Piece, part: Part) -> str:
    told = over(piece, part)
    return f"first cut to {'; '.join(told)}: fitted later" if told else ""


def rough_of(material: Material, size: Lwt, units: Units) -> Lwt:
    """Return the rough size, mm: solid wood with trim and in its bought thickness, sheet goods as finished.

    Trim 1 in and 1/4 in, or 25 mm and 6 mm: common practice.
    """
    if not material.solid_wood:
        return size
    length, width = rough_size(size[0], size[1], units.system)
    return length, width, bought_thickness(material, units)


def _grain(material: Material, blank: str) -> str:
    if blank:
        return f"runs around: see blank {blank}"
    if material.solid_wood:
        return "along the length"
    return "face grain along the length" if grained(material) else "none"
