"""Every template of every example, held against the model in the file's geometry and in three programs' pictures.

    python -m tests.support.true_size            all examples, on Letter and A4, at 600 dots an inch
    python -m tests.support.true_size desk.yaml  one file

It tells the worst of each template and leaves with status 1 where one is off.
"""

from __future__ import annotations

import io
import itertools
import math
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import pdfplumber

from docgen.cli.loaded import context_of, load
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Sheet, Text
from docgen.drawing.tiles import tiling_of
from docgen.drawing.tiling.grid import Tiling
from docgen.drawing.tiling.paper import SHORT, paper
from docgen.geometry.outlines import flatten_edge, pieces
from docgen.geometry.shapes import Outline, Vec2
from docgen.layout.read import read_layout
from docgen.packet.write import write
from docgen.schedules.template_rows import TemplateRow
from docgen.sheets import templates as sheets
from docgen.sheets.context import Context
from docgen.sheets.true_drawings import drawings, shown
from tests.sheets.truesize import mark_centres
from tests.support.rasters import PROGRAMS, off_line, raster, unit_normal

ROOT = Path(__file__).resolve().parents[2]
MM = 72 / 25.4
EXACT = 0.01  # mm: a point of the file's geometry
PIXEL = 1.0  # at DPI
DPI = 600
PEN = 0.5  # mm: width of an outline, as the layouts have it
FINER = (
    2  # programs set strokes on whole pixels and flatten curves: at twice the dots their own rounding is half a pixel
)
EVERY = 4.0  # mm between samples along an outline
CORNER = 3.0  # mm: nearer to a corner or to a mark where an arc begins a picture's line has no clear middle
JOIN = 6.0  # mm beside a join that its marks take
LEAST = 0.4  # of the places must tell: a line that is not where it should be tells nothing

Points = list[Vec2]


@dataclass(frozen=True, slots=True)
class Found:
    """A template's window on a page: the model's points in it, and where the drawing's origin lies on the page, mm."""

    name: str
    page: int
    at: Vec2
    outlines: tuple[Outline, ...]
    blind: tuple[tuple[Vec2, Vec2], ...]  # sides that are not drawn as outlines: datum edges, ends within the wood
    box: Bounds  # the part of the drawing that this page shows


@dataclass(frozen=True, slots=True)
class Page:
    """The geometry of a page as another reader finds it."""

    lines: list[Points]
    ends: Points


def true_pages(context: Context) -> tuple[tuple[Sheet, ...], bytes]:
    """Return the true-size template pages of a piece, and the file that holds them alone."""
    pages = tuple(s for s in sheets.make(context, {}) if not s.framed)
    if not pages:
        return (), b""
    return pages, write(pages, layout=context.layout, piece=context.piece, fingerprint="0123456789")


def geometry_of(data: bytes) -> list[Page]:
    """Return for each page the straight lines and the ends of its curves, mm from the lower left."""
    out = []
    with pdfplumber.open(io.BytesIO(data)) as book:
        for page in book.pages:
            tall = float(page.height)
            lines = [[(x / MM, (tall - y) / MM) for x, y in line["pts"]] for line in page.lines]
            ends: Points = []
            for curve in page.curves:
                steps = curve["path"]
                for k, step in enumerate(steps):
                    if step[0] == "m" or k + 1 == len(steps) or steps[k + 1][0] == "m":
                        ends += [(step[-1][0] / MM, (tall - step[-1][1]) / MM)] if len(step) > 1 else []
            out.append(Page(lines, [*(p for line in lines for p in line), *ends]))
    return out


def located(context: Context, pages: Sequence[Sheet], data: bytes) -> Iterator[Found | str]:
    """Yield each template's windows, page by page, as found in the file, or what is missing of one.

    The corners that a page shows tell where the drawing lies on it. Pages with too few of them are put beside the
    others by the match marks; where both tell, they must agree.
    """
    geometry = geometry_of(data)
    drawn = {d.drawing.title.split()[0]: d.drawing for d in drawings(context)}
    for number, row, crop in shown(context):
        outlines, blind = (row.seen.outline, *row.seen.openings), tuple(_blind(row))
        tiling = tiling_of(drawn[number], context.layout)
        many = len(tiling.tiles) > 1
        title = f"{number} {row.called[0]}: {row.title}"
        where: dict[str, tuple[int, Vec2]] = {}
        for tile in tiling.tiles:
            box = _common(crop.window, tile.cell) if many else crop.window
            corners = [e.end for o in outlines for e in o.edges]
            rims = [(x + d / 2, y) for x, y, d in row.seen.holes]  # where their circles begin
            inner = [p for a, b, _ in row.seen.lines for p in (a, b)]
            wanted = [p for p in (*corners, *rims, *inner) if _within(p, box)]
            here = [k for k, page in enumerate(pages) if _names(page, number, tile.name if many else "")]
            if not here:
                yield f"{title}, {tile.name}: it stands on no page"
            elif len(wanted) > 1:
                hits = [(k, at) for k in here for at in _origins(wanted, _drawn(geometry[k], context, pages[k]))]
                if not hits:
                    yield f"{title}, {tile.name}: its corners stand on no page"
                    continue
                sides = [(start, e.end) for o in outlines for start, e in pieces(o) if e.centre is None]
                seen = [_drawn_sides(sides, at, geometry[k]) for k, at in hits]
                best = [hit for hit, count in zip(hits, seen, strict=True) if count == max(seen)]
                if len(best) == 1 or not many:  # else the marks tell
                    where[tile.name] = best[0]
        yield from (f"{title}: {told}" for told in _joined(tiling, where, pages, number, geometry))
        for tile in tiling.tiles:
            if tile.name in where:
                k, at = where[tile.name]
                box = _common(crop.window, tile.cell) if many else crop.window
                yield Found(f"{title}{f', page {tile.name}' if many else ''}", k, at, outlines, blind, box)


def _joined(
    tiling: Tiling, where: dict[str, tuple[int, Vec2]], pages: Sequence[Sheet], number: str, geometry: Sequence[Page]
) -> Iterator[str]:
    """Put pages that tell nothing themselves beside those known, by their marks; yield where marks and corners differ."""
    by_name = {t.name: k for t in tiling.tiles for k, p in enumerate(pages) if _names(p, number, t.name)}
    pairs = [
        (t, other) for t in tiling.tiles for other in (tiling.at(t.column + 1, t.row), tiling.at(t.column, t.row + 1))
    ]
    for _ in tiling.tiles:
        for one, two in pairs:
            if two is None or one.name not in by_name or two.name not in by_name:
                continue
            axis = 0 if one.row == two.row else 1
            step = _shift(geometry[by_name[one.name]], geometry[by_name[two.name]], axis)
            for a, b, sign in ((one, two, 1.0), (two, one, -1.0)):
                if a.name in where and b.name not in where and step is not None:
                    at = where[a.name][1]
                    where[b.name] = (by_name[b.name], (at[0] + sign * step[0], at[1] + sign * step[1]))
    for one, two in pairs:
        if two is not None and one.name in where and two.name in where:
            step = _shift(geometry[by_name[one.name]], geometry[by_name[two.name]], 0 if one.row == two.row else 1)
            a, b = where[one.name][1], where[two.name][1]
            if step is None or math.dist((a[0] + step[0], a[1] + step[1]), b) > 2 * EXACT:
                yield f"the marks of {one.name} and {two.name} do not meet where the drawing does"


def _shift(before: Page, after: Page, axis: int) -> Vec2 | None:
    """Return how the marks of one join lie on the page after, less how they lie on the page before."""
    one, two = mark_centres(before.lines), mark_centres(after.lines)
    if not one or not two:
        return None
    limit = max(p[0] for p in one) if axis == 0 else min(p[1] for p in one)
    begin = min(p[0] for p in two) if axis == 0 else max(p[1] for p in two)
    here = sorted(p for p in one if abs(p[axis] - limit) < EXACT)
    there = sorted(p for p in two if abs(p[axis] - begin) < EXACT)
    if len(here) != len(there):
        return None
    return (there[0][0] - here[0][0], there[0][1] - here[0][1])


def _drawn(page: Page, context: Context, sheet: Sheet) -> Points:
    """Return the ends that lie where a page shows its drawing, the check lines' ticks left out."""
    room = paper(context.layout.for_size(sheet.size), heading=SHORT).window
    return [p for p in page.ends if p[0] > room.x + 0.5 and p[1] < room.top - 0.5]


def _names(page: Sheet, number: str, tile: str) -> bool:
    words = [
        record.text.split()[0]
        for record in page.records
        if isinstance(record, Text) and record.bold and record.text.strip()
    ]
    return number in words and (not tile or page.title.endswith(f", page {tile}"))


def _common(a: Bounds, b: Bounds) -> Bounds:
    return (max(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), min(a[3], b[3]))


def _within(p: Vec2, box: Bounds) -> bool:
    return box[0] < p[0] < box[2] and box[1] < p[1] < box[3]


def _blind(row: TemplateRow) -> Iterator[tuple[Vec2, Vec2]]:
    yield from row.seen.datum
    for start, edge in pieces(row.seen.outline):
        square = edge.centre is None and abs(edge.end[0] - start[0]) < 1e-6
        if square and 1.0 < start[0] < row.size[0] - 1.0 and row.lengthwise:
            yield start, edge.end


def _on(p: Vec2, segment: tuple[Vec2, Vec2]) -> bool:
    a, b = segment
    return math.dist(a, p) + math.dist(p, b) - math.dist(a, b) < 1e-6


def _origins(wanted: Points, found: Points) -> list[Vec2]:
    """Return where the model's origin may lie on a page on which all wanted points are found within EXACT."""
    grid: dict[tuple[int, int], Points] = {}
    for p in found:
        grid.setdefault((round(p[0]), round(p[1])), []).append(p)

    def there(p: Vec2) -> bool:
        near = ((round(p[0]) + i, round(p[1]) + j) for i in (-1, 0, 1) for j in (-1, 0, 1))
        return any(math.dist(p, q) < EXACT for key in near for q in grid.get(key, ()))

    out: list[Vec2] = []
    for start in dict.fromkeys(found):
        at = (start[0] - wanted[0][0], start[1] - wanted[0][1])
        known = any(math.dist(at, other) < 2 * EXACT for other in out)
        if not known and all(there((p[0] + at[0], p[1] + at[1])) for p in wanted):
            out.append(at)
    return out


def _drawn_sides(sides: Sequence[tuple[Vec2, Vec2]], at: Vec2, page: Page) -> int:
    """Return how many straight sides are lines of the page when the model's origin lies there."""
    drawn = {tuple(sorted((round(x, 1), round(y, 1)) for x, y in line)) for line in page.lines}
    placed = (tuple(sorted((round(p[0] + at[0], 1), round(p[1] + at[1], 1)) for p in side)) for side in sides)
    return sum(side in drawn for side in placed)


def samples(found: Found) -> Iterator[tuple[Vec2, Vec2]]:
    """Yield points along the outlines that are drawn as such, with the direction square to them."""
    b = found.box
    inner = (b[0] + JOIN, b[1] + JOIN, b[2] - JOIN, b[3] - JOIN)
    for outline in found.outlines:
        for start, edge in pieces(outline):
            chain = [start, *flatten_edge(start, edge, 0.001)]
            whole = sum(math.dist(a, b) for a, b in itertools.pairwise(chain))
            run = 0.0
            for a, b in itertools.pairwise(chain):
                long = math.dist(a, b)
                count = max(1, round(long / EVERY))
                for k in range(count):
                    along = run + long * (k + 0.5) / count
                    t = (k + 0.5) / count
                    p = (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]))
                    clear = CORNER < along < whole - CORNER and long > 1e-6 and _within(p, inner)
                    if clear and not any(_on(p, side) for side in found.blind):
                        yield p, unit_normal(a, b)
                run += long


def worst(found: Found, data: bytes, program: str, dpi: int = DPI) -> tuple[float, float]:
    """Return how far, in pixels, the picture's line lies off the model at the worst place, and which share of places told.

    Places where another line runs too near tell nothing.
    """
    seen = [p for p, _ in samples(found)]
    if not seen:
        return 0.0, 1.0  # a page that shows datum edges alone
    x0, x1 = min(p[0] for p in seen), max(p[0] for p in seen)
    y0, y1 = min(p[1] for p in seen), max(p[1] for p in seen)
    box = (x0 + found.at[0] - 2, y0 + found.at[1] - 2, x1 + found.at[0] + 2, y1 + found.at[1] + 2)
    dark, left, top = raster(data, found.page, FINER * dpi, program, box)
    dots = FINER * dpi / 25.4
    off: list[float | None] = []
    for p, normal in samples(found):
        x, y = p[0] + found.at[0], p[1] + found.at[1]
        off.append(off_line(dark, (x * dots - left, top - y * dots), (normal[0], -normal[1]), PEN * dots))
    told = [abs(o) / FINER for o in off if o is not None]
    return max(told, default=math.inf), len(told) / len(off)


def contexts(path: Path) -> Iterator[Context]:
    """Yield an example on Letter and on A4."""
    loaded = load(str(path), ())
    for layout in ("letter", "a4"):
        yield context_of(loaded, read_layout(layout), [])


def told(path: Path) -> int:
    """Print how far each template of a file is off; return how many are."""
    bad = 0
    for context in contexts(path):
        pages, data = true_pages(context)
        if not pages:
            print(f"{path.name}, {context.layout.name}: no templates")
            continue
        for found in located(context, pages, data):
            if isinstance(found, str):
                print(f"{path.name}, {context.layout.name}: {found}")
                bad += 1
                continue
            results = {program: worst(found, data, program) for program in PROGRAMS}
            wrong = any(off > PIXEL or share < LEAST for off, share in results.values())
            bad += wrong
            words = ", ".join(f"{program} {off:.2f} px ({share:.0%})" for program, (off, share) in results.items())
            print(f"{path.name}, {context.layout.name}, {found.name}: {words}{'  OFF' if wrong else ''}")
    return bad


if __name__ == "__main__":
    files = [Path(a) for a in sys.argv[1:]] or sorted((ROOT / "examples").glob("*.yaml"))
    sys.exit(1 if sum(told(path) for path in files) else 0)
