"""True-size templates: a page that explains and lists them, then the pages to be cut up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from docgen.drawing.placing import Bounds
from docgen.drawing.records import Sheet
from docgen.drawing.tiles import Page, TrueSize, is_small, shared_pages, tile_pages, tiling_of
from docgen.drawing.tiling.crop import Crop, crops
from docgen.drawing.tiling.gauge import gauge_drawing
from docgen.drawing.tiling.ink import bounds_of, outline_ink
from docgen.drawing.tiling.template import TemplateArt, features_of
from docgen.schedules.templates import TemplateRow, gauges, templates
from docgen.sheets.context import Context
from docgen.sheets.truesize import Entry, guide

KIND = "templates"
WHOLE_PAGES = 2  # a template that takes no more is never taken apart
ROUND = {"inch": 25.4, "mm": 10.0}  # what the distances of base lines count in


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing with what the list says of it."""

    number: str
    drawing: TrueSize
    uses: str


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the template sheets; none when the piece asks for no template."""
    drawn = [*_templates(context), *_gauges(context)]
    if not drawn:
        return ()
    layout, metrics = context.layout, context.metrics
    small = [d.drawing for d in drawn if is_small(d.drawing, layout)]
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


def _sheet(key: str, page: Page) -> Sheet:
    title = page.names[0] if len(page.names) == 1 else f"Templates {_range(page.names)}"
    if page.tile:
        title = f"{title}, page {page.tile}"
    return Sheet(key, KIND, title, page.size, page.records, "full size", framed=False, outline=("True-size templates",))


def _range(names: Sequence[str]) -> str:
    return f"{names[0].split()[0]} to {names[-1].split()[0]}"


def _templates(context: Context) -> list[Drawn]:
    out: list[Drawn] = []
    for i, row in enumerate(templates(context.piece, context.kinds), 1):
        windows = _windows(row, context)
        for k, crop in enumerate(windows):
            number = f"T{i}" if len(windows) == 1 else f"T{i}{chr(ord('a') + k)}"
            art = TemplateArt(row, crop, units=context.piece.units, layout=context.layout, metrics=context.metrics)
            ink = art.ink()
            title = f"{number}  {row.parts[0] if not row.seen.shared else ''} {row.title}".replace("   ", "  ")
            drawing = TrueSize(title, _lines(row, crop), ink, art.labels(ink), art.boundary())
            out.append(Drawn(number, drawing, _uses(row)))
    return out


def _windows(row: TemplateRow, context: Context) -> tuple[Crop, ...]:
    """Return the windows of a template: the whole where it takes few pages, else what surrounds its features."""
    ink = outline_ink(row.seen.outline)
    whole = _all_of(row)
    if len(tiling_of(TrueSize("", (), ink), context.layout).tiles) <= WHOLE_PAGES:
        return (Crop(whole),)
    return crops(features_of(row), whole, ROUND[context.piece.units.system])


def _all_of(row: TemplateRow) -> Bounds:
    """Return bounds around everything that the template may draw, marks beyond the outline included."""
    outlines = [row.seen.outline, *row.seen.waste]
    x0, y0, x1, y1 = bounds_of([ink for outline in outlines for ink in outline_ink(outline)])
    return (x0 - 12, y0 - 12, x1 + 12, y1 + 12)


def _lines(row: TemplateRow, crop: Crop) -> tuple[str, ...]:
    lay = f"Lay it, print up, on the {row.face} face"
    if row.seen.datum:
        lay += f"; the outer side of the thick line is the {_edges(row)}"
    out = [f"{lay}. The middle of every other line is the size."]
    if row.seen.holes:
        out.append("Prick the hole centres through the paper and drill from this face.")
    if row.seen.waste:
        out.append("What is hatched is cut away.")
    if crop.bases:
        out.append("Set the long chain line on a line squared at the distance it states.")
    if row.hand:
        out.append(row.hand)
    return (*out, *(f"{note[:1].upper()}{note[1:]}." if not note.endswith(".") else note for note in row.seen.notes))


def _edges(row: TemplateRow) -> str:
    level = any(abs(b[1] - a[1]) < abs(b[0] - a[0]) for a, b in row.seen.datum)
    upright = any(abs(b[1] - a[1]) >= abs(b[0] - a[0]) for a, b in row.seen.datum)
    return " and the ".join([row.end] * upright + [row.edge] * level)


def _uses(row: TemplateRow) -> str:
    named = ", ".join(f"{p} ({n})" for p, n in zip(row.parts[:3], row.numbers[:3], strict=True))
    more = f" and {len(row.parts) - 3} more" if len(row.parts) > 3 else ""
    return f"{named}{more}: {row.uses} ×"


def _gauges(context: Context) -> list[Drawn]:
    out = []
    for i, gauge in enumerate(gauges(context.piece, context.kinds), 1):
        drawing = gauge_drawing(gauge, f"G{i}", context.piece.units, context.layout.heights)
        out.append(
            Drawn(f"G{i}", drawing, gauge.uses[0] + (f" and {len(gauge.uses) - 1} more" if gauge.uses[1:] else ""))
        )
    return out
