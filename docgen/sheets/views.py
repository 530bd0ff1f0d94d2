"""General views: front, right side and top at one scale, dimensioned, with the parts' numbers and a list of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import TypeAlias

from docgen.drawing import symbols
from docgen.drawing.placing import PaperFault, around, moved
from docgen.drawing.records import Point, Sheet
from docgen.layout.model import Layout
from docgen.schedules.terms import kind_numbers
from docgen.sheets import balloons
from docgen.sheets.context import Context
from docgen.sheets.views_draft import BETWEEN, ORDER, Draft, Drafts
from docgen.sheets.views_page import Page, composed, left
from docgen.sheets.whole import Whole

Split: TypeAlias = tuple[tuple[str, ...], ...]
SPLITS: tuple[Split, ...] = ((ORDER,), (ORDER[:2], ORDER[2:]))
"""All on one page, or the top view on a second."""
LANE = 12.0  # mm: so much a dimension line takes at least
LEGIBLE = 50.0  # mm: a view that is drawn a step smaller, so that all stand on one page, is at least so long
NODES = 4.5  # mm: so near to each other it is asked where a view shows nothing; less than a balloon is wide
SEVERAL = 4  # rows of balloons: where a page leaves less than that beside or above its views,
DEAR, BARRED = 12.0, 60.0  # a balloon that stands there pays so much, and so much where it has no room at all


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the general views at the largest scale at which they have room: on one page, or the top view on a second."""
    pages = _best(Drafts(Whole(context.piece, context.solids), context), context)
    return tuple(
        Sheet(
            key="views" if n == 0 else f"views {n + 1}",
            kind="views",
            title="General views" if len(pages) == 1 else f"General views {n + 1} of {len(pages)}",
            size=page.layout.size,
            records=tuple(moved(r, page.layout.area.x, page.layout.area.top) for r in page.records),
            scale=f"{page.scale[0]} : {page.scale[1]}",
        )
        for n, page in enumerate(pages)
    )


def _best(drafts: Drafts, context: Context) -> tuple[Page, ...]:
    scales = [s for s in context.layout.scales[context.piece.units.system] if s[0] <= s[1]]
    for strict in (True, False):
        for n, scale in enumerate(scales):
            pages = _first(drafts, context, scale, strict, SPLITS)
            if len(pages) > 1:  # all on one page is worth low figures, or steps that do not make the views too small
                one = _at(drafts, context, scale, context.layout.heights.least, strict, SPLITS[:1])
                for less in scales[n + 1 :]:
                    if not one and max(drafts.whole.size(d) for d in range(3)) * less[0] / less[1] >= LEGIBLE:
                        one = _first(drafts, context, less, strict, SPLITS[:1])
                return one or pages
            if pages:
                return pages
    raise PaperFault("the whole piece in its views")


def _first(
    drafts: Drafts, context: Context, scale: tuple[int, int], strict: bool, splits: Sequence[Split]
) -> tuple[Page, ...]:
    """Return the pages at a scale, with high figures or else with low ones; none if they do not fit."""
    heights = context.layout.heights
    tries = (_at(drafts, context, scale, height, strict, splits) for height in (heights.figure, heights.least))
    return next((pages for pages in tries if pages), ())


def _at(
    made: Drafts, context: Context, scale: tuple[int, int], height: float, strict: bool, splits: Sequence[Split]
) -> tuple[Page, ...]:
    """Return the pages at a scale, on the paper as it is or else turned; none if they do not fit.

    When `strict`, everything must have found its place.
    """
    s, whole = scale[0] / scale[1], made.whole
    for layout in (context.layout, context.layout.turned()):
        wide = (whole.size(0) + whole.size(1)) * s + BETWEEN
        if wide > layout.area.width - LANE or max(whole.size(2), whole.size(1)) * s > layout.area.height - LANE:
            continue
        if made.wide(s, height) > layout.area.width:  # front and side stand beside each other in any case
            continue
        drafts = made.take(s, height)
        if strict and any(d.left for d in drafts):
            return ()
        fitting = _fitting(drafts, context, layout, splits)
        if not fitting:
            continue  # balloons only make it larger
        room = partial(_room, _chosen(drafts, fitting[0]), context, layout, height)
        missed = _number_them(drafts, whole, context, height, room)
        fitting = _fitting(drafts, context, layout, fitting)
        if fitting and not (strict and missed):
            return tuple(composed(d, context, scale, layout) for d in _chosen(drafts, fitting[0]))
    return ()


def _room(pages: list[list[Draft]], context: Context, layout: Layout, height: float, of: Draft) -> balloons.Room:
    """Return how far a view and those in line with it reach, and what a balloon pays that stands further out.

    The more, the less room the pages leave.
    """
    need = 2 * symbols.balloon_radius(height) + balloons.CLEAR
    wide, tall = (BARRED if v < need else DEAR if v < SEVERAL * need else 0.0 for v in _spare(pages, context, layout))
    page = next(page for page in pages if of in page)
    column = around([balloons.reached(d.engine) for d in page if (d.name == "right") == (of.name == "right")])
    row = around([balloons.reached(d.engine) for d in page if (d.name == "top") == (of.name == "top")])
    return balloons.Room((column[0], row[1], column[2], row[3]), wide, tall)


def _fitting(drafts: list[Draft], context: Context, layout: Layout, splits: Sequence[Split]) -> list[Split]:
    return [names for names in splits if min(_spare(_chosen(drafts, names), context, layout)) >= 0]


def _chosen(drafts: list[Draft], names: Split) -> list[list[Draft]]:
    return [[d for d in drafts if d.name in page] for page in names]


def _spare(pages: list[list[Draft]], context: Context, layout: Layout) -> tuple[float, float]:
    """Return the least width and height that the pages leave, mm; negative where they do not fit."""
    room = [left(drafts, context, layout) for drafts in pages]
    return min(r[0] for r in room), min(r[1] for r in room)


def _number_them(
    drafts: list[Draft], whole: Whole, context: Context, height: float, room: Callable[[Draft], balloons.Room]
) -> list[int]:
    """Put each kind's balloon where the kind is seen best, in front where that is good; return what found no place.

    A kind of which hardly more than a line is seen has none here: it is numbered in the piece taken apart.
    """
    best: dict[int, tuple[float, str, list[Point]]] = {}
    numbers = kind_numbers(context.piece, context.kinds)
    for d in drafts:
        free: dict[int, list[Point]] = {}
        for path, points in whole.spots(d.name).items():
            free.setdefault(numbers[path], []).extend(points)
        for number, points in sorted(free.items()):
            _, away = balloons.clearest(points, d.engine)
            worth = min(away, 4.0) + (1.5 if d.name == "front" and away > balloons.WELL - 0.5 else 0.0)
            if away > balloons.LINE and (number not in best or worth > best[number][0] + 1e-6):
                best[number] = (worth, d.name, points)
    missed: list[int] = []
    for d in drafts:
        mine = [(n, balloons.feet(p, d.engine)) for n, (_, name, p) in sorted(best.items()) if name == d.name]
        records, left = balloons.place(mine, d.engine, height, partial(room, d), _bare(whole, d))
        d.records += records
        missed += left
    return missed


def _bare(whole: Whole, of: Draft) -> Callable[[Point], bool]:
    """Return what tells of a point on paper whether a view shows nothing of the piece there."""
    scale, (x, y) = of.engine.field.scale, of.engine.field.at
    told: list[Callable[[Point], bool]] = []

    def asked(p: Point) -> bool:
        told[:] = told or [whole.bare(of.name, NODES / scale)]
        return told[0](((p[0] - x) / scale, (p[1] - y) / scale))

    return asked
