"""General views: front, right side and top at one scale, dimensioned, with the parts' numbers and a list of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TypeAlias

from docgen.drawing import symbols
from docgen.drawing.placing import Bounds, PaperFault, around, moved
from docgen.drawing.records import Point, Record, Sheet
from docgen.layout.model import Layout, Rect
from docgen.sheets import balloons, parts_list
from docgen.sheets.context import Context
from docgen.sheets.parts_list import Listed
from docgen.sheets.views_draft import BETWEEN, ORDER, Draft, Drafts, View
from docgen.sheets.whole import Whole

Split: TypeAlias = tuple[tuple[str, ...], ...]
SPLITS: tuple[Split, ...] = ((ORDER,), (ORDER[:2], ORDER[2:]))
"""All on one page, or the top view on a second."""
AIR = 30.0  # mm of white above the views at the most
GAP = 8.0  # mm between the top view and the table of parts
LANE = 12.0  # mm: so much a dimension line takes at least
MORE = 6.0  # mm more between two views beside each other, where there is room
LEGIBLE = 55.0  # mm: a view that is drawn a step smaller, so that all stand on one page, is at least so long
BROAD = 240.0  # mm: a wider table has lines too long for one look
NARROW = 40.0  # mm: the least width of the names between the views
SEVERAL = 4  # rows of balloons: where a page leaves less than that beside or above its views,
DEAR, BARRED = 12.0, 60.0  # a balloon that stands there pays so much, and so much where it has no room at all


Laid: TypeAlias = tuple[View, Bounds, Point]
"""A view with its bounds where it comes to stand, and how far it is moved there."""


@dataclass(frozen=True, slots=True)
class Page:
    """All views and the list, laid out from the upper left corner downward."""

    records: tuple[Record, ...]
    scale: tuple[int, int]
    layout: Layout


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
            if len(pages) > 1:  # all on one page is worth low figures, or a step that does not make the views too small
                one = _at(drafts, context, scale, context.layout.heights.least, strict, SPLITS[:1])
                for less in scales[n + 1 : n + 2]:
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
            return tuple(_set(d, context, scale, layout) for d in _chosen(drafts, fitting[0]))
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
    room: list[tuple[float, float]] = []
    for drafts in pages:
        placed = _laid([d.view(context) for d in drafts], _third(context))
        x0, y0, x1, y1 = around([b for _, b, _ in placed])
        wide, tall = layout.area.width - x1 + x0, layout.area.height - y1 + y0
        told = _names(context, layout.area.width)[1] if _tells(drafts) else 0.0
        if tall < told and _cornered(context, placed) is not None:
            told = 0.0
        room.append((wide, tall - told))
    return min(r[0] for r in room), min(r[1] for r in room)


def _tells(drafts: Sequence[Draft]) -> bool:
    """Tell whether the list of parts goes on this page: it goes with the top view."""
    return any(d.name == "top" for d in drafts)


def _names(context: Context, wide: float) -> Listed:
    """Return the names of the parts with a little air above them."""
    records, tall = parts_list.names(context, wide)
    return records, tall + 4


def _cornered(context: Context, placed: list[Laid]) -> list[Record] | None:
    """Return the names of the parts in the corner that the three views leave free; None where that has no room for them."""
    at = {view.name: bounds for view, bounds, _ in placed}
    if set(at) != set(ORDER):
        return None
    front, side, top = (at[name] for name in ORDER)
    across, up = (0 if side[0] > front[0] else 2), (1 if top[1] > front[1] else 3)
    x0, x1 = (top[2] + BETWEEN, side[2]) if across == 0 else (side[0], top[0] - BETWEEN)
    low = max(front[3], side[3]) if up == 1 else top[1]
    high = top[3] if up == 1 else min(front[1], side[1])
    records, tall = parts_list.names(context, x1 - x0)
    if x1 - x0 < NARROW or tall > high - low:
        return None
    return [moved(r, x0, (high + low + tall) / 2 if up == 3 else high) for r in records]


def _third(context: Context) -> bool:
    return context.piece.projection != "first angle"


def _set(drafts: list[Draft], context: Context, scale: tuple[int, int], layout: Layout) -> Page:
    """Return a page: its views in the middle, with the list as a table where there is room, as names at the foot or between."""
    more = min(MORE, _spare([drafts], context, layout)[0] / 2)
    placed = _laid([d.view(context) for d in drafts], _third(context), BETWEEN + more)
    x0, y0, x1, y1 = around([bounds for _, bounds, _ in placed])
    size, area = (x1 - x0, y1 - y0), layout.area
    right, down, told = _with_names(context, size, area, told=_tells(drafts))
    if down < 0:  # in the corner
        down = (area.height - size[1]) / 2
        told = [moved(r, right - x0, -down - y1) for r in _cornered(context, placed) or ()]
    elif _tells(drafts):
        right, down, told = _with_table(context, size, area) or (right, down, told)
    views = [moved(r, right - x0 + dx, -down - y1 + dy) for v, _, (dx, dy) in placed for r in v.records]
    return Page((*views, *told), scale, layout)


Set: TypeAlias = tuple[float, float, list[Record]]
"""How far the views stand from the left and from the top, and what tells the parts."""


def _with_names(context: Context, size: tuple[float, float], area: Rect, *, told: bool) -> Set:
    """Return the names at the foot; the views stand above the page where both have no room."""
    names, deep = parts_list.names(context, area.width) if told else ([], 0.0)
    down = min((area.height - size[1] - deep) / 2, AIR)
    return (area.width - size[0]) / 2, down, [moved(r, 0.0, deep - area.height) for r in names]


def _with_table(context: Context, size: tuple[float, float], area: Rect) -> Set | None:
    """Return the table below the view, or else beside it; None where it has room in neither place."""
    room = area.height - size[1] - GAP
    broad = min(area.width, BROAD)
    below = parts_list.full(context, broad, room)
    if below:
        down = max(0.0, min((room - below[1]) / 3, AIR))
        left, low = (area.width - broad) / 2, down + size[1] + GAP
        return (area.width - size[0]) / 2, down, [moved(r, left, -low) for r in below[0]]
    wide = area.width - size[0] - GAP
    beside = parts_list.full(context, wide, area.height) if wide > parts_list.LEAST else None
    return (0.0, 0.0, [moved(r, size[0] + GAP, 0.0) for r in beside[0]]) if beside else None


def _number_them(
    drafts: list[Draft], whole: Whole, context: Context, height: float, room: Callable[[Draft], balloons.Room]
) -> list[int]:
    """Put each kind's balloon where the kind is seen best, in front where that is good; return what found no place.

    A kind of which hardly more than a line is seen has none here: it is numbered in the piece taken apart.
    """
    best: dict[int, tuple[float, str, list[Point]]] = {}
    numbers = parts_list.numbers(context)
    for d in drafts:
        free: dict[int, list[Point]] = {}
        for path, points in whole.seen(d.name).items():
            free.setdefault(numbers[path], []).extend(points)
        for number, points in sorted(free.items()):
            _, away = balloons.clearest(points, d.engine)
            worth = min(away, 4.0) + (1.5 if d.name == "front" else 0.0)
            if away > balloons.LINE and (number not in best or worth > best[number][0] + 1e-6):
                best[number] = (worth, d.name, points)
    missed: list[int] = []
    for d in drafts:
        mine = [(n, balloons.feet(p, d.engine)) for n, (_, name, p) in sorted(best.items()) if name == d.name]
        records, left = balloons.place(mine, d.engine, height, partial(room, d))
        d.records += records
        missed += left
    return missed


def _laid(made: list[View], third: bool, beside: float = BETWEEN) -> list[Laid]:
    """Return the views in projection, each with its bounds where it comes to stand and how far it is moved there.

    Third angle: right side on the right, top above; first angle: opposite.
    """
    sign = 1 if third else -1
    at = {"front": (0, 0), "right": (sign, 0), "top": (0, sign)}
    columns = _shifts([(at[v.name][0], v) for v in made], 0, beside)
    rows = _shifts([(at[v.name][1], v) for v in made], 1, BETWEEN)
    out: list[Laid] = []
    for view in made:
        dx, dy = columns[at[view.name][0]], rows[at[view.name][1]]
        b = view.bounds
        out.append((view, (b[0] + dx, b[1] + dy, b[2] + dx, b[3] + dy), (dx, dy)))
    return out


def _shifts(views: list[tuple[int, View]], axis: int, gap: float) -> dict[int, float]:
    out: dict[int, float] = {}
    end: float | None = None
    for number in sorted({n for n, _ in views}):
        low = min(v.bounds[axis] for n, v in views if n == number)
        high = max(v.bounds[axis + 2] for n, v in views if n == number)
        out[number] = 0.0 if end is None else end + gap - low
        end = high + out[number]
    return out
