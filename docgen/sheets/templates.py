"""True-size templates: a page that explains and lists them, then the pages to be cut up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from docgen.drawing.records import Sheet
from docgen.drawing.tiles import Page, shared_pages, sharing, tile_pages
from docgen.sheets.context import Context
from docgen.sheets.true_drawings import drawings
from docgen.sheets.truesize import Entry, guide

KIND = "templates"
TITLE = "True-size templates"
NAMED = 4  # drawings on one page whose numbers its title tells


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the template sheets; none when the piece asks for no template."""
    layout, metrics = context.layout, context.metrics
    drawn = drawings(context)
    if not drawn:
        return ()
    whole = [d.drawing for d in drawn]
    shared = sharing(whole, layout, metrics)
    pages: list[Page] = [p for d in whole if d not in shared for p in tile_pages(d, layout, metrics)]
    pages.extend(shared_pages(shared, layout, metrics, TITLE))
    order = {d.title: n for n, d in enumerate(whole)}
    pages.sort(key=lambda p: order[p.names[0]])
    keys = [f"template/{i}" for i in range(1, len(pages) + 1)]
    entries = []
    for d in drawn:
        mine = [(k, p) for k, p in zip(keys, pages, strict=True) if d.drawing.title in p.names]
        entries.append(Entry(d.drawing.title, d.uses, tuple(p.tile for _, p in mine), mine[0][0], d.drawing))
    first = guide(context, entries, kind=KIND, key="template/guide", title=TITLE)
    return (*first, *(_sheet(k, p) for k, p in zip(keys, pages, strict=True)))


def _sheet(key: str, page: Page) -> Sheet:
    title = page.names[0] if len(page.names) == 1 else f"Templates {_numbers(page.names)}"
    if page.tile:
        title = f"{title}, page {page.tile}"
    return Sheet(key, KIND, title, page.size, page.records, "full size", framed=False, outline=(TITLE,))


def _numbers(titles: Sequence[str]) -> str:
    names = [title.split()[0] for title in titles]
    return ", ".join(names) if len(names) <= NAMED else f"{names[0]} to {names[-1]}"
