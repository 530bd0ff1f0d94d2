"""What is cut after the glue-up: one view or more of the glued parts together, with the sizes of those cuts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.drawing.placing import moved
from docgen.drawing.records import Line, Pen, Record, Sheet
from docgen.drawing.wording import Notes
from docgen.piece.model import Part
from docgen.sheets.context import Context
from docgen.sheets.part_detail import Letters
from docgen.sheets.part_glued_block import Block, Place, crowded, detailed, fitted
from docgen.sheets.part_glued_cuts import Glued, groups
from docgen.sheets.part_pages import BETWEEN


@dataclass(slots=True)
class _Told:
    """Parts that are cut together, as they stand without details and as they are drawn, and where details may help."""

    glued: Glued
    plain: Block
    places: tuple[Place, ...]
    made: Block


def make(context: Context, letters: Letters | None = None) -> tuple[Sheet, ...]:
    """Return a block for each set of parts that are cut together after the glue-up, as many on a page as it takes.

    `letters` are those that their details may have. A block that stands alone on its page has all of it.
    """
    area = context.layout.area
    page, letters = (area.width, area.height), letters or Letters(context.piece)
    pages: list[list[_Told]] = []
    left = 0.0
    for parts in groups(context):
        told = _told(context, parts, letters, page)
        if not pages or told.made.size[1] > left:
            pages.append([])
            left = area.height
        pages[-1].append(told)
        left -= told.made.size[1] + BETWEEN
    for alone in (every[0] for every in pages if len(every) == 1):
        alone.made = detailed(context, alone.glued, alone.plain, alone.places, page) or alone.made
    return tuple(_sheet(context, [(t.glued, t.made) for t in every]) for every in pages)


def _told(context: Context, parts: tuple[Part, ...], letters: Letters, page: tuple[float, float]) -> _Told:
    """Return parts that are cut together, with details on half a page, else on one, else without."""
    glued = Glued(context, parts, Notes(context.piece.units))
    plain = fitted(context, glued, page)
    places = tuple(crowded(glued, plain, letters))
    half = (page[0], (page[1] - BETWEEN) / 2)
    made = (detailed(context, glued, plain, places, room) for room in (half, page))
    return _Told(glued, plain, places, next((m for m in made if m is not None), plain))


def _sheet(context: Context, page: Sequence[tuple[Glued, Block]]) -> Sheet:
    """Return the blocks under one another, parted by a thin line."""
    area = context.layout.area
    records: list[Record] = []
    y = area.top
    for n, (_, made) in enumerate(page):
        if n:
            records.append(Line((area.x, y + BETWEEN / 2), (area.x + area.width, y + BETWEEN / 2), Pen.THIN))
        records += [moved(r, area.x, y) for r in made.records]
        y -= made.size[1] + BETWEEN
    scales = dict.fromkeys(f"{made.scale[0]} : {made.scale[1]}" for _, made in page)
    return Sheet(
        key=f"glued/{page[0][0].parts[0].path}",
        kind="parts",
        title=f"{', '.join(glued.title for glued, _ in page)} after the glue-up",
        size=context.layout.size,
        records=tuple(records),
        scale=next(iter(scales)) if len(scales) == 1 else "as shown",
    )
