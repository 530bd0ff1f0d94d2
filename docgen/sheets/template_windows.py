"""The windows through which templates are printed: the whole where it takes few pages, else what surrounds the features."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from docgen.drawing.placing import Bounds
from docgen.drawing.records import Line
from docgen.drawing.tiles import tiling_of
from docgen.drawing.tiling.clip import clip
from docgen.drawing.tiling.crop import Crop, based, crops
from docgen.drawing.tiling.ink import Ink, bounds_of, outline_ink
from docgen.drawing.tiling.template import features_of
from docgen.drawing.tiling.truesize import TrueSize
from docgen.schedules.template_rows import TemplateRow, seen_mirrored
from docgen.sheets.context import Context

WHOLE_PAGES = 2  # a template that takes no more is never taken apart
ROUND = {"inch": 25.4, "mm": 10.0}  # what the distances of base lines count in
SAME = 1e-6  # mm


def windows(row: TemplateRow, context: Context) -> tuple[Crop, ...]:
    """Return the windows of a template: the whole where it takes few pages, else what surrounds its features.

    One that shows no edge of the wood to lay it by has a base line along the part.
    """
    return tuple(_held(row, crop) for crop in _windows(row, context))


def _held(row: TemplateRow, crop: Crop) -> Crop:
    """Return a window with a base line along the middle of the part where no datum edge runs along it: tapers take both."""
    if row.seen.shared or row.seen.loose or not row.lengthwise:
        return crop
    datum = clip([Line(a, b) for a, b in row.seen.datum if abs(a[1] - b[1]) < SAME], crop.window)
    if datum or any(axis == 1 for axis, _ in crop.bases):
        return crop
    middle = -row.size[1] / 2 if seen_mirrored(row.seen.face) else row.size[1] / 2
    return replace(crop, bases=(*crop.bases, (1, middle)))


def _windows(row: TemplateRow, context: Context) -> tuple[Crop, ...]:
    ink = outline_ink(row.seen.outline)
    whole = _all_of(row)
    step = ROUND[context.piece.units.system]
    if row.asked:
        return (Crop(whole),)
    pages = _pages(ink, context)
    if pages > WHOLE_PAGES:
        return crops(features_of(row), whole, step)
    if row.seen.guide:  # the datum corner stays on it, unless leaving it out saves a page
        some = crops(features_of(row), whole, step)
        if sum(_pages(clip(ink, crop.window), context) for crop in some) < pages:
            return some
    if row.seen.shared or not row.lengthwise or _lies_by_an_end(row):
        return (Crop(whole),)
    return (based(bounds_of(ink), row.size[0], step),)


def _lies_by_an_end(row: TemplateRow) -> bool:
    """Return whether a thick line across the part tells where a template lies along it, so that it needs no base line."""
    return any(row.side(a, b) in (row.end, row.far) for a, b in row.seen.datum)


def _pages(inks: Sequence[Ink], context: Context) -> int:
    return len(tiling_of(TrueSize("", (), tuple(inks)), context.layout).tiles)


def _all_of(row: TemplateRow) -> Bounds:
    """Return bounds around everything that the template may draw, marks beyond the outline included."""
    outlines = [row.seen.outline, *row.seen.waste]
    x0, y0, x1, y1 = bounds_of([ink for outline in outlines for ink in outline_ink(outline)])
    return (x0 - 12, y0 - 12, x1 + 12, y1 + 12)
