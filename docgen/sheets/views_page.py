"""A page of general views: the views in projection, the parts as a table, as names or between the views, a picture."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from docgen.drawing.placing import Bounds, around, moved
from docgen.drawing.records import Point, Record, Text
from docgen.layout.model import Layout, Rect
from docgen.sheets import parts_list
from docgen.sheets.context import Context
from docgen.sheets.overall import standing
from docgen.sheets.parts_list import Listed
from docgen.sheets.views_draft import BETWEEN, ORDER, Draft, View

AIR = 30.0  # mm of white above the views at the most
GAP = 8.0  # mm between the top view and the table of parts
MORE = 6.0  # mm more between two views beside each other, where there is room
BROAD = 240.0  # mm: a wider table has lines too long for one look
SHORT = 180.0  # mm: beside the views the lines are no longer
PICTURE = 50.0  # mm: a smaller picture of the piece shows too little
NARROW = 40.0  # mm: the least width of the names between the views

Laid: TypeAlias = tuple[View, Bounds, Point]
"""A view with its bounds where it comes to stand, and how far it is moved there."""


@dataclass(frozen=True, slots=True)
class Page:
    """All views and the list, laid out from the upper left corner downward."""

    records: tuple[Record, ...]
    scale: tuple[int, int]
    layout: Layout


def _tells(drafts: Sequence[Draft]) -> bool:
    """Tell whether the list of parts goes on this page: it goes with the top view."""
    return any(d.name == "top" for d in drafts)


def _names(context: Context, wide: float) -> Listed:
    """Return the names of the parts with a little air above them."""
    records, tall = parts_list.names(context, wide)
    return records, tall + 4


def cornered(context: Context, placed: list[Laid]) -> list[Record] | None:
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


def left(drafts: list[Draft], context: Context, layout: Layout) -> tuple[float, float]:
    """Return how much width and height a page leaves beside its views and what is told of the parts, mm."""
    placed = laid([d.view(context) for d in drafts], _third(context))
    x0, y0, x1, y1 = around([b for _, b, _ in placed])
    wide, tall = layout.area.width - x1 + x0, layout.area.height - y1 + y0
    told = _names(context, layout.area.width)[1] if _tells(drafts) else 0.0
    if tall < told and cornered(context, placed) is not None:
        told = 0.0
    return wide, tall - told


def composed(drafts: list[Draft], context: Context, scale: tuple[int, int], layout: Layout) -> Page:
    """Return a page: its views in the middle, with the list as a table where there is room, as names at the foot or between."""
    more = min(MORE, left(drafts, context, layout)[0] / 2)
    placed = laid([d.view(context) for d in drafts], _third(context), BETWEEN + more)
    x0, y0, x1, y1 = around([bounds for _, bounds, _ in placed])
    size, area = (x1 - x0, y1 - y0), layout.area
    right, down, told = _with_names(context, size, area, told=_tells(drafts))
    if down < 0:  # in the corner
        down = (area.height - size[1]) / 2
        told = [moved(r, right - x0, -down - y1) for r in cornered(context, placed) or ()]
    elif _tells(drafts):
        right, down, told = _with_table(context, size, area) or (right, down, told)
    if [d.name for d in drafts] == ["top"]:
        right, picture = _pictured(context, right, down, size, told, area)
        told = [*told, *picture]
    views = [moved(r, right - x0 + dx, -down - y1 + dy) for v, _, (dx, dy) in placed for r in v.records]
    return Page((*views, *told), scale, layout)


def _pictured(
    context: Context, right: float, down: float, size: tuple[float, float], told: Sequence[Record], area: Rect
) -> tuple[float, list[Record]]:
    """Return where the top view stands that has a page of its own, and the piece seen from a corner in what it leaves free.

    That is beside it, or under all that is told, where it becomes larger; no picture where it would be small.
    """
    texts = [t.at for t in told if isinstance(t, Text)]
    foot = down + size[1]
    beside = Rect(size[0] + GAP, -foot, area.width - size[0] - GAP, foot)
    free = area.height - max([foot, *(-y for _, y in texts)]) - GAP
    rooms = [(Rect(0.0, -area.height, area.width, free), right)]
    if not any(y > -foot for _, y in texts):
        rooms.insert(0, (beside, 0.0))
    room, stands = max(rooms, key=lambda r: min(r[0].width, r[0].height))
    if min(room.width, room.height) < PICTURE:
        return right, []
    name = Text((room.x + room.width / 2, room.y + 1.0), "seen from a corner, without scale", 2.5, "middle")
    return stands, [*standing(context, Rect(room.x, room.y + 6.0, room.width, room.height - 6.0)), name]


Set: TypeAlias = tuple[float, float, list[Record]]
"""How far the views stand from the left and from the top, and what tells the parts."""


def _with_names(context: Context, size: tuple[float, float], area: Rect, *, told: bool) -> Set:
    """Return the names at the foot; the views stand above the page where both have no room."""
    names, deep = parts_list.names(context, area.width) if told else ([], 0.0)
    names, deep = parts_list.noted(context, (names, deep), area.width, area.height - size[1] - GAP if told else 0.0)
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
    wide = min(area.width - size[0] - GAP, SHORT)
    beside = parts_list.full(context, wide, area.height) if wide > parts_list.LEAST else None
    if beside is None:
        return None
    left, down = (area.width - size[0] - GAP - wide) / 2, min((area.height - size[1]) / 3, AIR)
    low = -min(down, area.height - beside[1])
    return left, down, [moved(r, left + size[0] + GAP, low) for r in beside[0]]


def laid(made: list[View], third: bool, beside: float = BETWEEN) -> list[Laid]:
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
