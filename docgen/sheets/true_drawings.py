"""The true-size drawings of a piece, templates and gauges, before they are cut into pages."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from docgen.drawing.records import Line, Point
from docgen.drawing.tiling.clip import clip
from docgen.drawing.tiling.crop import Crop
from docgen.drawing.tiling.gauge import gauge_drawing
from docgen.drawing.tiling.grid import letters
from docgen.drawing.tiling.rounds import place
from docgen.drawing.tiling.template import TemplateArt
from docgen.drawing.tiling.truesize import TrueSize
from docgen.piece.records import HoleRow, Sink
from docgen.schedules.gauges import gauges
from docgen.schedules.template_rows import TemplateRow, in_plane, seen_mirrored
from docgen.sheets.by_template import numbered_templates
from docgen.sheets.context import Context
from docgen.sheets.template_windows import windows
from docgen.trade.drills import told
from docgen.units import Units, format_length

GLUED = "on the glued corner, over the edges of both boards"
HOLES = "holes "  # begins the note that names a template's holes
NAMED = 8  # holes of a template that are called by their names; more are counted, but on a drill guide


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing whose title begins with its number, with what the list says of it."""

    drawing: TrueSize
    uses: str


def shown(context: Context) -> Iterator[tuple[str, TemplateRow, Crop]]:
    """Yield the windows of templates with their numbers, large ones first: T1, T2A, T2B … the same on every paper."""
    listed = {path: row.number for row in context.lists.cutting for path in row.parts}
    for number, made in numbered_templates(context.solids, context.kinds):
        row = replace(made, numbers=tuple(listed.get(p, n) for p, n in zip(made.parts, made.numbers, strict=True)))
        crops = windows(row, context)
        for i, crop in enumerate(crops):
            yield f"{number}{letters(i) if len(crops) > 1 else ''}", row, crop


def drawings(context: Context) -> list[Drawn]:
    """Return templates and gauges with their numbers before their titles."""
    units = context.piece.units
    out: list[Drawn] = []
    for name, row, crop in shown(context):
        named = _tags(row, context)
        drills = _drills(row, context)
        sinks = _sinks(row, context)
        art = TemplateArt(
            row,
            crop,
            units=units,
            layout=context.layout,
            metrics=context.metrics,
            tags=named,
            drills=drills,
            sinks=sinks,
        )
        ink = art.ink()
        title = f"{name}  {_title(row, crop, units)}"
        out.append(
            Drawn(TrueSize(title, (*_lines(row, crop), *art.told()), ink, art.labels(), art.boundary()), _uses(row))
        )
    for i, d in enumerate(_gauges(context), 1):
        out.append(replace(d, drawing=replace(d.drawing, title=f"G{i}  {d.drawing.title}")))
    return out


def _tags(row: TemplateRow, context: Context) -> dict[Point, str]:
    """Return what the holes of the template are called on all pages, by their places as seen.

    One that parts share has the names that they all have; a plain template of many holes has none.
    """
    if not row.seen.guide and len((*row.seen.holes, *row.seen.checks)) > NAMED:
        return {}
    found: dict[Point, set[str]] = {}
    for hole, places in _mouths(row, context):
        for at, name in zip(places, hole.names, strict=True) if hole.names else ():
            found.setdefault(at, set()).add(name)
    return {at: names.pop() for at, names in found.items() if len(names) == 1}


def _sinks(row: TemplateRow, context: Context) -> dict[Point, Sink]:
    """Return the counterbores and countersinks that all parts of the template have, by the places of their holes as seen."""
    found: dict[Point, set[Sink | None]] = {}
    for hole, places in _mouths(row, context):
        for at in places:
            found.setdefault(at, set()).add(hole.sink)
    alike = ((at, sinks.pop()) for at, sinks in found.items() if len(sinks) == 1)
    return {at: sink for at, sink in alike if sink is not None}


def _mouths(row: TemplateRow, context: Context) -> Iterator[tuple[HoleRow, list[Point]]]:
    """Yield the holes in the face of the template, on all its parts, with their places as seen."""
    face = row.seen.face
    u, v = in_plane(face)
    sign = -1.0 if seen_mirrored(face) else 1.0
    for part in (context.piece.part(path) for path in row.parts):
        for hole in (h for f in part.features for h in f.made.holes if h.face == face):
            yield hole, [place((float(p[u]), sign * float(p[v]))) for p in hole.points]


def _drills(row: TemplateRow, context: Context) -> dict[float, str]:
    """Return the drills that are not of the file's unit or have a number for a name: the nearest fraction is another drill."""
    system = context.piece.units.system
    parts = (context.piece.part(p) for p in row.parts)
    holes = (hole for part in parts for f in part.features for hole in f.made.holes)
    foreign = ("#", " mm") if system == "inch" else ("#",)
    return {
        round(float(h.diameter), 3): h.drill if h.drill.startswith("#") else f"⌀{told(h.drill, system)}"
        for h in holes
        if h.drill.startswith(foreign[0]) or h.drill.endswith(foreign[1:])
    }


def _title(row: TemplateRow, crop: Crop, units: Units) -> str:
    """Return "leg: raking ends, bottom end", or the template's own title where many parts share it."""
    name = row.title if row.seen.shared else f"{row.called[0]}: {row.title}"
    cut = [side for side in crop.cuts if side in ("left", "right")]
    if not cut:
        return name
    if len(cut) == 2:
        at = next(place for axis, place in crop.bases if axis == 0)
        return f"{name}, from {format_length(at, units)} {units.sign}"
    return f"{name}, {row.end if cut == ['right'] else row.far}"


def _lines(row: TemplateRow, crop: Crop) -> tuple[str, ...]:
    corner = GLUED if row.seen.glued else "on the corner"
    where = row.seen.lies or (corner if row.seen.shared else f"on the {row.face}")
    lay = f"Lay it, print up, {where}"
    edges = " and ".join(
        dict.fromkeys(row.side_word(a, b) for a, b in row.seen.datum if clip([Line(a, b)], crop.window))
    )
    first = f" of {row.called[0]}" if row.turned else ""
    out = [f"{lay}{'' if edges else first}{f'; thick line: {edges}{first}' if edges else ''}."]
    if edges and row.boxed:
        out.append("Thick lines: the lines of the finished box drawn on the blank, not its edges.")
    if row.turned:
        out.append(f"It lies turned on {_listed(row.turned)}: hatched is what goes there.")
    if any(crop.shows(x, y) for x, y, _ in row.seen.holes):
        out.append("Prick the hole centres, drill from this face.")
    if any(crop.shows(x, y) for x, y, _ in row.seen.checks):
        through = f"through {' or '.join(row.mates[:2])}" if row.mates else "through the part that it meets"
        out.append(f"Open cross in a dashed circle: check only, drilled {through}.")
    if row.hand:
        out.append(row.hand)
    names = [note.removeprefix(HOLES) for note in row.seen.notes if note.startswith(HOLES)]
    notes = [*([f"{HOLES}{_listed(names)}"] if names else []), *(n for n in row.seen.notes if not n.startswith(HOLES))]
    return (*out, *(f"{note[:1].upper()}{note[1:].rstrip('.')}." for note in notes))


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _uses(row: TemplateRow) -> str:
    named = ", ".join(f"{p} ({n})" for p, n in zip(row.called[:3], row.numbers[:3], strict=True))
    more = f" and {len(row.parts) - 3} more" if len(row.parts) > 3 else ""
    return f"{named}{more}: {row.uses} ×"


def _gauges(context: Context) -> list[Drawn]:
    out = []
    for gauge in gauges(context.piece, context.kinds):
        drawing = gauge_drawing(gauge, context.piece.units, context.layout.heights)
        more = f" and {len(gauge.uses) - 1} more" if gauge.uses[1:] else ""
        out.append(Drawn(drawing, f"{gauge.uses[0]}{more}"))
    return out
