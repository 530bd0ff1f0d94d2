"""General views: front, right side and top at one scale, dimensioned, with the parts' numbers and a list of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from docgen.drawing import views as lines_of
from docgen.drawing.cells import block
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.dimensions.wanted import Rules, Wanted
from docgen.drawing.lettering import box
from docgen.drawing.placing import Bounds, around, moved
from docgen.drawing.records import Point, Record, Sheet, Text
from docgen.layout.model import Layout
from docgen.sheets import balloons
from docgen.sheets.context import Context
from docgen.sheets.part_words import title
from docgen.sheets.whole import Whole, wanted

ORDER = ("front", "right", "top")
NAMES = {"front": "front", "right": "right side", "top": "top"}
BETWEEN = 8.0  # mm between the fields of two views
PEN = 0.5  # mm on paper: lines nearer than a wide line are one
LIST = 4.6  # mm between lines of the list of numbers
COLUMN = 56.0  # mm
BESIDE = 12.0  # what a balloon pays that makes a narrow page wider


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
    """Return the page of general views at the largest scale at which all of it has room, on the paper's better side."""
    whole = Whole(context.piece, context.solids)
    page = _best(whole, context)
    area = page.layout.area
    return (
        Sheet(
            key="views",
            kind="views",
            title="General views",
            size=page.layout.size,
            records=tuple(moved(r, area.x, area.top) for r in page.records),
            scale=f"{page.scale[0]} : {page.scale[1]}",
        ),
    )


def _best(whole: Whole, context: Context) -> Page:
    for strict in (True, False):
        for scale, height, layout in _ladder(context):
            page = _page(whole, context, scale, height, layout, strict)
            if page is not None:
                return page
    raise ValueError(f"the piece fits {context.layout.name} at no scale of the layout")


def _ladder(context: Context) -> Iterator[tuple[tuple[int, int], float, Layout]]:
    """Yield scales from the largest, the paper as it is before turned, high figures before low ones."""
    heights = context.layout.heights
    for scale in context.layout.scales[context.piece.units.system]:
        if scale[0] > scale[1]:
            continue
        for height in (heights.figure, heights.least):
            for layout in (context.layout, context.layout.turned()):
                yield scale, height, layout


def _page(
    whole: Whole, context: Context, scale: tuple[int, int], height: float, layout: Layout, strict: bool
) -> Page | None:
    """Return the page at a scale; None if it does not fit or, when `strict`, if anything found no place."""
    s = scale[0] / scale[1]
    wide = (whole.size(0) + whole.size(1)) * s + BETWEEN
    high = (whole.size(2) + whole.size(1)) * s + BETWEEN
    if wide > layout.area.width - 20 or high > layout.area.height - 20:
        return None
    third = context.piece.projection != "first angle"
    drafts = [_draft(whole, context, name, s, height) for name in ORDER]
    if strict and any(d.left for d in drafts):
        return None
    list_, deep = _list(context, layout.area.width)
    _, bare = _laid_out([d.view(context) for d in drafts], third)
    if bare[0] > layout.area.width or bare[1] + 4 + deep > layout.area.height:
        return None  # balloons only make it larger
    narrow = wide / layout.area.width > high / layout.area.height
    missed = _number_them(drafts, whole, context, height, BESIDE if narrow else 0.0)
    if strict and missed:
        return None
    records, size = _laid_out([d.view(context) for d in drafts], third)
    if size[0] > layout.area.width or size[1] + 4 + deep > layout.area.height:
        return None
    middle = (layout.area.width - size[0]) / 2
    placed = [moved(r, middle, 0.0) for r in records]
    spare = layout.area.height - size[1] - 4 - deep
    return Page((*placed, *(moved(r, 0.0, -size[1] - 4 - spare) for r in list_)), scale, layout)


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


def _number_them(drafts: list[Draft], whole: Whole, context: Context, height: float, beside: float) -> list[int]:
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
        records, left = balloons.place(mine, d.engine, height, beside)
        d.records += records
        missed += left
    return missed


def _laid_out(made: list[View], third: bool) -> tuple[list[Record], tuple[float, float]]:
    """Return the views in projection, the upper left corner of all at the origin, and their size.

    Third angle: right side on the right, top above; first angle: opposite.
    """
    front, right, top = made
    sign = 1 if third else -1
    columns = _shifts([(0, front), (sign, right), (0, top)], 0)
    rows = _shifts([(0, front), (0, right), (sign, top)], 1)
    records: list[Record] = []
    every: list[Bounds] = []
    for view, column, row in ((front, 0, 0), (right, sign, 0), (top, 0, sign)):
        dx, dy = columns[column], rows[row]
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


def _list(context: Context, wide: float) -> tuple[list[Record], float]:
    """Return number, name and count of each kind in columns, the upper left corner at the origin, and its height."""
    columns = max(1, int(wide // COLUMN))
    each = wide / columns
    height = context.layout.heights.note
    rows = [
        (context.piece.part(k.first).number, title(k, context.lists), k.count)
        for k in sorted(context.kinds, key=lambda k: context.piece.part(k.first).number)
    ]
    deep = -(-len(rows) // columns)
    records: list[Record] = []
    y = [0.0] * columns
    for n, (number, name, count) in enumerate(rows):
        column = n // deep
        text = block(name if count == 1 else f"{count}× {name}", each - 9, height, context.metrics)
        x = column * each
        records.append(Text((x + 5, y[column] - height), str(number), height, "right", bold=True))
        records += text.records((x + 7, y[column]))
        y[column] -= max(LIST, text.tall + 1.4)
    return records, -min(y)
