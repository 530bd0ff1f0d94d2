"""General views: front, right side and top at one scale, dimensioned, with the parts' numbers and a list of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from docgen.drawing import views as lines_of
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.dimensions.wanted import Rules, Wanted
from docgen.drawing.lettering import box
from docgen.drawing.placing import Bounds, around, moved
from docgen.drawing.records import Point, Record, Sheet, Text
from docgen.layout.model import Layout
from docgen.sheets import balloons, parts_list
from docgen.sheets.context import Context
from docgen.sheets.parts_list import Listed
from docgen.sheets.whole import Whole, wanted

ORDER = ("front", "right", "top")
NAMES = {"front": "front", "right": "right side", "top": "top"}
SPLITS = ((ORDER,), (ORDER[:2], ORDER[2:]))
"""All on one page, or the top view on a second."""
AIR = 30.0  # mm of white above the views at the most
GAP = 8.0  # mm between the top view and the table of parts
BETWEEN = 8.0  # mm between the fields of two views
PEN = 0.5  # mm on paper: lines nearer than a wide line are one
SPARE = 30.0  # mm: where a page leaves less than that beside or above its views,
DEAR = 12.0  # a balloon that stands there pays so much


@dataclass(frozen=True, slots=True)
class View:
    """One view with everything about it, the piece's origin at the paper's."""

    name: str
    records: tuple[Record, ...]
    bounds: Bounds


@dataclass(frozen=True, slots=True)
class Page:
    """All views and the list, laid out from the upper left corner downward."""

    records: tuple[Record, ...]
    scale: tuple[int, int]
    layout: Layout


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the general views at the largest scale at which they have room: on one page, or the top view on a second."""
    pages = _best(Whole(context.piece, context.solids), context)
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


def _best(whole: Whole, context: Context) -> tuple[Page, ...]:
    for strict in (True, False):
        for scale, height, layout in _ladder(context):
            pages = _pages(whole, context, scale, height, layout, strict)
            if pages:
                return pages
    raise ValueError(f"the piece fits {context.layout.name} at no scale of the layout")


def _ladder(context: Context) -> Iterator[tuple[tuple[int, int], float, Layout]]:
    """Yield scales from the largest, high figures before low ones, the paper as it is before turned."""
    heights = context.layout.heights
    for scale in context.layout.scales[context.piece.units.system]:
        if scale[0] > scale[1]:
            continue
        for height in (heights.figure, heights.least):
            for layout in (context.layout, context.layout.turned()):
                yield scale, height, layout


def _pages(
    whole: Whole, context: Context, scale: tuple[int, int], height: float, layout: Layout, strict: bool
) -> tuple[Page, ...]:
    """Return the pages at a scale; none if they do not fit or, when `strict`, if anything found no place."""
    s = scale[0] / scale[1]
    wide = (whole.size(0) + whole.size(1)) * s + BETWEEN
    high = (whole.size(2) + whole.size(1)) * s + BETWEEN
    if wide > layout.area.width - 20 or max(whole.size(2), whole.size(1)) * s > layout.area.height - 20:
        return ()
    drafts = [_draft(whole, context, name, s, height) for name in ORDER]
    if strict and any(d.left for d in drafts):
        return ()
    third = context.piece.projection != "first angle"
    list_ = parts_list.names(context, layout.area.width)
    splits = SPLITS if high < layout.area.height - 20 else SPLITS[1:]
    fitting = [names for names in splits if _fit(_chosen(drafts, names), context, third, layout, list_)]
    if not fitting:
        return ()  # balloons only make it larger
    spare = _spare(_chosen(drafts, fitting[0]), context, third, layout, list_)
    fees = (DEAR if spare[0] < SPARE else 0.0, DEAR if spare[1] < SPARE else 0.0)
    missed = _number_them(drafts, whole, context, height, fees)
    if strict and missed:
        return ()
    for names in fitting:
        if _fit(_chosen(drafts, names), context, third, layout, list_):
            return tuple(_set(d, context, third, scale, layout, list_) for d in _chosen(drafts, names))
    return ()


def _chosen(drafts: list[Draft], names: tuple[tuple[str, ...], ...]) -> list[list[Draft]]:
    return [[d for d in drafts if d.name in page] for page in names]


def _deep(drafts: list[Draft], list_: Listed) -> float:
    """Return the height that the list of parts takes on this page: it stands below the top view."""
    return list_[1] + 4 if any(d.name == "top" for d in drafts) else 0.0


def _fit(pages: list[list[Draft]], context: Context, third: bool, layout: Layout, list_: Listed) -> bool:
    return min(_spare(pages, context, third, layout, list_)) >= 0


def _spare(
    pages: list[list[Draft]], context: Context, third: bool, layout: Layout, list_: Listed
) -> tuple[float, float]:
    """Return the least width and height that the pages leave, mm; negative where they do not fit."""
    room: list[tuple[float, float]] = []
    for drafts in pages:
        _, size = _laid_out([d.view(context) for d in drafts], third)
        room.append((layout.area.width - size[0], layout.area.height - size[1] - _deep(drafts, list_)))
    return min(r[0] for r in room), min(r[1] for r in room)


def _set(
    drafts: list[Draft],
    context: Context,
    third: bool,
    scale: tuple[int, int],
    layout: Layout,
    list_: Listed,
) -> Page:
    """Return a page: its views in the middle and the list at the foot, or right below a top view that stands alone."""
    records, size = _laid_out([d.view(context) for d in drafts], third)
    deep = _deep(drafts, list_)
    spare = layout.area.height - size[1] - deep
    right = (layout.area.width - size[0]) / 2
    down = max(0.0, min(spare / 2, AIR))
    below: list[Record] = []
    if deep:
        room = layout.area.height - size[1] - GAP
        table = parts_list.full(context, layout.area.width, room) if len(drafts) == 1 else None
        if table:
            down = max(0.0, min((room - table[1]) / 3, AIR))
            below = [moved(r, 0.0, -down - size[1] - GAP) for r in table[0]]
        else:
            below = [moved(r, 0.0, list_[1] - layout.area.height) for r in list_[0]]
    return Page((*(moved(r, right, -down) for r in records), *below), scale, layout)


@dataclass(slots=True)
class Draft:
    """A view that is still open: its dimensions stand, its balloons may come."""

    name: str
    engine: Engine
    records: list[Record]
    left: tuple[Wanted, ...]

    def view(self, context: Context) -> View:
        """Return the view with its name below it."""
        outline, bounds = self.engine.outline, self.engine.occupied.bounds()
        at = ((outline[0] + outline[2]) / 2, bounds[1] - 2.0 - 2.5)
        caption = Text(at, NAMES[self.name], 2.5, "middle")
        extent = around([bounds, box(caption, context.metrics).bounds()])
        return View(self.name, (*self.records, caption), extent)


def _draft(whole: Whole, context: Context, name: str, scale: float, height: float) -> Draft:
    at = (0.0, 0.0)
    drawn = whole.drawn(name, PEN / scale)
    lines = lines_of.stroke_records(drawn, scale, at, hidden=False)
    x0, y0, x1, y1 = lines_of.bounds(drawn)
    engine = Engine(
        [c for r in lines for c in lines_of.chords(r)],
        outline=(x0 * scale, y0 * scale, x1 * scale, y1 * scale),
        scale=scale,
        at=at,
        rules=Rules(height=height),
        metrics=context.metrics,
    )
    arranged = engine.arrange(wanted(whole, name))
    return Draft(name, engine, [*lines, *arranged.records], arranged.left)


def _number_them(
    drafts: list[Draft], whole: Whole, context: Context, height: float, fees: tuple[float, float]
) -> list[int]:
    """Put each kind's balloon where the kind is seen best, in front where that is good; return what found no place."""
    best: dict[int, tuple[float, str, Point]] = {}
    numbers = {p: whole.piece.part(k.first).number for k in context.kinds for p in (*k.parts, *k.mirrored)}
    for d in drafts:
        free: dict[int, list[Point]] = {}
        for path, points in whole.seen(d.name).items():
            free.setdefault(numbers[path], []).extend(points)
        for number, points in sorted(free.items()):
            point, away = balloons.clearest(points, d.engine)
            worth = min(away, 4.0) + (1.5 if d.name == "front" else 0.0)
            if number not in best or worth > best[number][0] + 1e-6:
                best[number] = (worth, d.name, point)
    missed: list[int] = []
    for d in drafts:
        mine = [(n, p) for n, (_, name, p) in sorted(best.items()) if name == d.name]
        records, left = balloons.place(mine, d.engine, height, fees)
        d.records += records
        missed += left
    return missed


def _laid_out(made: list[View], third: bool) -> tuple[list[Record], tuple[float, float]]:
    """Return the views in projection, the upper left corner of all at the origin, and their size.

    Third angle: right side on the right, top above; first angle: opposite.
    """
    sign = 1 if third else -1
    at = {"front": (0, 0), "right": (sign, 0), "top": (0, sign)}
    columns = _shifts([(at[v.name][0], v) for v in made], 0)
    rows = _shifts([(at[v.name][1], v) for v in made], 1)
    records: list[Record] = []
    every: list[Bounds] = []
    for view in made:
        dx, dy = columns[at[view.name][0]], rows[at[view.name][1]]
        records += [moved(r, dx, dy) for r in view.records]
        b = view.bounds
        every.append((b[0] + dx, b[1] + dy, b[2] + dx, b[3] + dy))
    x0, y0, x1, y1 = around(every)
    return [moved(r, -x0, -y1) for r in records], (x1 - x0, y1 - y0)


def _shifts(views: list[tuple[int, View]], axis: int) -> dict[int, float]:
    out: dict[int, float] = {}
    end: float | None = None
    for number in sorted({n for n, _ in views}):
        low = min(v.bounds[axis] for n, v in views if n == number)
        high = max(v.bounds[axis + 2] for n, v in views if n == number)
        out[number] = 0.0 if end is None else end + BETWEEN - low
        end = high + out[number]
    return out
