"""Boxes in columns with arrows between them: what hangs on what, from left to right. Paper millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from docgen.drawing.cells import Block, block
from docgen.drawing.metrics import Metrics
from docgen.drawing.records import Area, Line, Path, Pen, Point, Record
from docgen.layout.model import Rect

WIDEST, NARROWEST = 62.0, 30.0  # of a box
GAP, LEAST_GAP = 13.0, 8.0  # between columns, for the arrows
AIR = 1.6  # between a box and its text
BETWEEN, TIGHT = 3.5, 1.6  # boxes of a column
PASSING = 2.0  # height that an arrow takes which passes a column
HEAD = (2.6, 0.9)  # length of an arrow's head and half its width
APART = 0.9  # least distance between level lines of one gap


@dataclass(frozen=True, slots=True)
class Item:
    """A box: its column, a bold title, lines under it."""

    column: int
    title: str
    lines: tuple[str, ...] = ()


@dataclass(slots=True)
class _Node:
    """A box, or the place where an arrow passes a column (`item` is None)."""

    item: int | None
    column: int
    tall: float = PASSING
    before: list[int] = field(default_factory=list)  # nodes whose arrows come in
    x: float = 0.0
    top: float = 0.0

    @property
    def middle(self) -> float:
        return self.top - self.tall / 2


def drawn(
    items: Sequence[Item],
    arrows: Sequence[tuple[int, int]],
    area: Rect,
    height: float,
    metrics: Metrics,
    *,
    between: float = BETWEEN,
) -> tuple[list[Record], float] | None:
    """Return the records and the height taken, from the top of the area down; None when it does not fit.

    Arrows go from a box to one in a later column. Boxes of a column stand in the order that crosses arrows least.
    """
    columns = 1 + max((i.column for i in items), default=0)
    wide = min(WIDEST, (area.width - GAP * (columns - 1)) / columns)
    gap = GAP
    if wide < NARROWEST:  # closer together before there is no picture
        wide = NARROWEST
        gap = (area.width - wide * columns) / max(1, columns - 1)
        if gap < LEAST_GAP:
            return None
    texts = [_text(item, wide - 2 * AIR, height, metrics) for item in items]
    nodes, links = _nodes(items, texts, arrows)
    _placed(nodes, columns, (wide, gap), area, between)
    low = min(n.top - n.tall for n in nodes)
    if low < area.y - 1e-6:
        return None
    records: list[Record] = []
    for node in nodes:
        if node.item is not None:
            records += _box(node, texts[node.item], wide)
    return records + _lines(nodes, links, (wide, gap)), area.top - low


def _text(item: Item, room: float, height: float, metrics: Metrics) -> tuple[Block, Block]:
    return block(item.title, room, height, metrics, bold=True), block("\n".join(item.lines), room, height, metrics)


def _nodes(
    items: Sequence[Item], texts: Sequence[tuple[Block, Block]], arrows: Sequence[tuple[int, int]]
) -> tuple[list[_Node], list[tuple[int, int]]]:
    """Return the nodes and the arrows between neighbouring columns; a long one passes through nodes of its own."""
    nodes = [
        _Node(i, item.column, title.tall + lines.tall + (1.0 if lines.lines else 0.0) + 2 * AIR)
        for i, (item, (title, lines)) in enumerate(zip(items, texts, strict=True))
    ]
    links: list[tuple[int, int]] = []
    passing: dict[tuple[int, int], int] = {}  # arrows of one box share their way
    for a, b in arrows:
        last = a
        for column in range(nodes[a].column + 1, nodes[b].column):
            if (a, column) not in passing:
                passing[a, column] = len(nodes)
                nodes.append(_Node(None, column, before=[last]))
                links.append((last, passing[a, column]))
            last = passing[a, column]
        links.append((last, b))
        nodes[b].before.append(last)
    return nodes, links


def _placed(nodes: list[_Node], columns: int, each: tuple[float, float], area: Rect, between: float) -> None:
    """Give every node its place, a column so wide `each` with so much between; it is sorted by where its arrows come from."""
    for column in range(columns):
        own = [n for n in nodes if n.column == column]
        if column:
            own.sort(key=lambda n: -sum(nodes[i].middle for i in n.before) / len(n.before) if n.before else 0.0)
        y = area.top
        for node in own:
            node.x, node.top = area.x + column * sum(each), y
            y -= node.tall + between


def _box(node: _Node, text: tuple[Block, Block], wide: float) -> list[Record]:
    title, lines = text
    x, y, low = node.x, node.top, node.top - node.tall
    corners: tuple[Point, ...] = ((x, low), (x + wide, low), (x + wide, y), (x, y))
    return [
        Path(corners, Pen.VISIBLE, closed=True),
        *title.records((x + AIR, y - AIR)),
        *lines.records((x + AIR, y - AIR - title.tall - 1.0)),
    ]


def _lines(nodes: list[_Node], links: Sequence[tuple[int, int]], each: tuple[float, float]) -> list[Record]:
    """Return the arrows: out at the middle, up or down in the source's own lane of the gap, in beside one another."""
    wide, gap = each
    records: list[Record] = []
    for column in sorted({nodes[a].column for a, _ in links}):
        here = [(a, b) for a, b in links if nodes[a].column == column]
        sources = sorted(dict.fromkeys(a for a, _ in here), key=lambda a: -nodes[a].middle)
        taken = [nodes[a].middle for a in sources]
        for k, a in enumerate(sources):
            source = nodes[a]
            right = source.x + wide
            lane = right + (gap - HEAD[0]) * (k + 1) / (len(sources) + 1)
            ends = []
            for b in (b for s, b in here if s == a):
                y = _entry(nodes[b], nodes[b].before.index(a), taken)
                taken.append(y)
                ends.append(y)
                records += _arrow(lane, y, nodes[b], wide)
            start = right if source.item is not None else source.x + wide
            records.append(Line((start, source.middle), (lane, source.middle), Pen.THIN))
            levels = (*ends, source.middle)
            if max(levels) - min(levels) > 1e-6:
                records.append(Line((lane, min(levels)), (lane, max(levels)), Pen.THIN))
    return records


def _entry(node: _Node, which: int, taken: Sequence[float]) -> float:
    """Return the height at which an arrow comes in, clear of the other level lines of the gap where there is room."""
    if node.item is None:
        return node.middle
    count = len(node.before)
    wished = node.top - node.tall * (which + 1) / (count + 1)
    spots = [wished + sign * step * APART for step in range(6) for sign in (1, -1)]
    inside = [y for y in spots if node.top - node.tall + 0.5 < y < node.top - 0.5]
    return next((y for y in inside if all(abs(y - t) >= APART - 1e-9 for t in taken)), wished)


def _arrow(lane: float, y: float, node: _Node, wide: float) -> list[Record]:
    """Return the way into a node: with a head at a box, right through where the arrow only passes."""
    if node.item is None:
        return [Line((lane, y), (node.x + wide, y), Pen.THIN)]
    tip, (long, half) = node.x, HEAD
    return [
        Line((lane, y), (tip - long, y), Pen.THIN),
        Area((((tip, y), (tip - long, y + half), (tip - long, y - half)),)),
    ]
