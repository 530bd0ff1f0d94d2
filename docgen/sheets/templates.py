"""True-size templates: a page that explains and lists them, then the pages to be cut up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from docgen.drawing.placing import Bounds
from docgen.drawing.records import Line, Sheet
from docgen.drawing.tiles import Page, is_small, shared_pages, tile_pages, tiling_of
from docgen.drawing.tiling.clip import clip
from docgen.drawing.tiling.crop import Crop, based, crops
from docgen.drawing.tiling.gauge import gauge_drawing
from docgen.drawing.tiling.ink import bounds_of, outline_ink
from docgen.drawing.tiling.template import TemplateArt, features_of
from docgen.drawing.tiling.truesize import TrueSize
from docgen.schedules.gauges import gauges
from docgen.schedules.template_rows import TemplateRow
from docgen.schedules.templates import templates
from docgen.sheets.context import Context
from docgen.sheets.truesize import Entry, guide
from docgen.units import Units, format_length

KIND = "templates"
WHOLE_PAGES = 2  # a template that takes no more is never taken apart
ROUND = {"inch": 25.4, "mm": 10.0}  # what the distances of base lines count in


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing that has no number yet, with what the list says of it."""

    drawing: TrueSize
    uses: str
    letter: str = "T"


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the template sheets; none when the piece asks for no template."""
    layout, metrics = context.layout, context.metrics
    found = [*_templates(context), *_gauges(context)]
    if not found:
        return ()
    drawn = _numbered(sorted(found, key=lambda d: is_small(d.drawing, layout, metrics)))
    small = [d.drawing for d in drawn if is_small(d.drawing, layout, metrics)]
    pages: list[Page] = []
    for d in drawn:
        if d.drawing not in small:
            pages.extend(tile_pages(d.drawing, layout, metrics))
    pages.extend(shared_pages(small, layout, metrics, "True-size templates"))
    keys = [f"template/{i}" for i in range(1, len(pages) + 1)]
    entries = []
    for d in drawn:
        mine = [(k, p) for k, p in zip(keys, pages, strict=True) if d.drawing.title in p.names]
        entries.append(Entry(d.drawing.title, d.uses, tuple(p.tile for _, p in mine), mine[0][0], d.drawing))
    first = guide(context, entries, kind=KIND, key="template/guide", title="True-size templates")
    return (*first, *(_sheet(k, p) for k, p in zip(keys, pages, strict=True)))


def _numbered(drawn: Sequence[Drawn]) -> list[Drawn]:
    """Return the drawings with numbers before their titles: T1, T2 … for templates, G1 … for gauges."""
    counts: dict[str, int] = {}
    out = []
    for d in drawn:
        counts[d.letter] = counts.get(d.letter, 0) + 1
        title = f"{d.letter}{counts[d.letter]}  {d.drawing.title}"
        out.append(replace(d, drawing=replace(d.drawing, title=title)))
    return out


def _sheet(key: str, page: Page) -> Sheet:
    title = page.names[0] if len(page.names) == 1 else f"Templates {_range(page.names)}"
    if page.tile:
        title = f"{title}, page {page.tile}"
    return Sheet(key, KIND, title, page.size, page.records, "full size", framed=False, outline=("True-size templates",))


def _range(names: Sequence[str]) -> str:
    return f"{names[0].split()[0]} to {names[-1].split()[0]}"


def _templates(context: Context) -> list[Drawn]:
    out: list[Drawn] = []
    for row in templates(context.piece, context.kinds, context.solids):
        for crop in _windows(row, context):
            art = TemplateArt(row, crop, units=context.piece.units, layout=context.layout, metrics=context.metrics)
            ink = art.ink()
            drawing = TrueSize(
                _title(row, crop, context.piece.units), _lines(row, crop), ink, art.labels(ink), art.boundary()
            )
            out.append(Drawn(drawing, _uses(row)))
    return out


def _title(row: TemplateRow, crop: Crop, units: Units) -> str:
    """Return "leg: raking ends, bottom end", or the template's own title where many parts share it."""
    name = row.title if row.seen.shared else f"{row.parts[0]}: {row.title}"
    cut = [side for side in crop.cuts if side in ("left", "right")]
    if not cut:
        return name
    if len(cut) == 2:
        at = next(place for axis, place in crop.bases if axis == 0)
        return f"{name}, from {format_length(at, units)} {units.sign}"
    return f"{name}, {row.end if cut == ['right'] else row.far}"


def _windows(row: TemplateRow, context: Context) -> tuple[Crop, ...]:
    """Return the windows of a template: the whole where it takes few pages, else what surrounds its features."""
    ink = outline_ink(row.seen.outline)
    whole = _all_of(row)
    step = ROUND[context.piece.units.system]
    if row.asked:
        return (Crop(whole),)
    if len(tiling_of(TrueSize("", (), ink), context.layout).tiles) > WHOLE_PAGES:
        return crops(features_of(row), whole, step)
    if row.seen.shared or not row.lengthwise:
        return (Crop(whole),)
    return (based(bounds_of(ink), row.size[0], step),)


def _all_of(row: TemplateRow) -> Bounds:
    """Return bounds around everything that the template may draw, marks beyond the outline included."""
    outlines = [row.seen.outline, *row.seen.waste]
    x0, y0, x1, y1 = bounds_of([ink for outline in outlines for ink in outline_ink(outline)])
    return (x0 - 12, y0 - 12, x1 + 12, y1 + 12)


def _lines(row: TemplateRow, crop: Crop) -> tuple[str, ...]:
    lay = f"Lay it, print up, on the {row.face} face"
    edges = " and ".join(
        dict.fromkeys(row.side_word(a, b) for a, b in row.seen.datum if clip([Line(a, b)], crop.window))
    )
    out = [f"{lay}; thick line: {edges}." if edges else f"{lay}."]
    if any(crop.shows(x, y) for x, y, _ in row.seen.holes):
        out.append("Prick the hole centres, drill from this face.")
    if any(crop.shows(x, y) for x, y, _ in row.seen.checks):
        through = f"through {' or '.join(row.mates[:2])}" if row.mates else "through the part that it meets"
        out.append(f"Open cross in a dashed circle: check only, drilled {through}.")
    if row.hand:
        out.append(row.hand)
    return (*out, *(f"{note[:1].upper()}{note[1:].rstrip('.')}." for note in row.seen.notes))


def _uses(row: TemplateRow) -> str:
    named = ", ".join(f"{p} ({n})" for p, n in zip(row.parts[:3], row.numbers[:3], strict=True))
    more = f" and {len(row.parts) - 3} more" if len(row.parts) > 3 else ""
    return f"{named}{more}: {row.uses} ×"


def _gauges(context: Context) -> list[Drawn]:
    out = []
    for gauge in gauges(context.piece, context.kinds):
        drawing = gauge_drawing(gauge, context.piece.units, context.layout.heights)
        more = f" and {len(gauge.uses) - 1} more" if gauge.uses[1:] else ""
        out.append(Drawn(drawing, f"{gauge.uses[0]}{more}", "G"))
    return out
