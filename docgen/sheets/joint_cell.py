"""A detail laid out in its column: heading, picture, the small key view where it has room, and what is said of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from docgen.drawing.cells import block, measure
from docgen.drawing.placing import Bounds, moved
from docgen.drawing.records import Record, Text
from docgen.drawing.symbols_turned import turned_sign
from docgen.sheets.context import Context

AIR = 2.0
LINES = 1.2  # mm between paragraphs
BESIDE = 58.0  # mm: words beside a picture have this width at least

Group = tuple[Sequence[Record], float, float]
"""Records and where their origin goes."""


@dataclass(frozen=True, slots=True)
class Cell:
    """A detail laid out, its upper left corner at the origin."""

    groups: tuple[Group, ...]
    tall: float


@dataclass(frozen=True, slots=True)
class Content:
    """What a cell holds: title and name of the section, the picture and the key view with what they fill, paragraphs."""

    title: str
    name: str
    picture: tuple[Sequence[Record], Bounds]
    key: tuple[Sequence[Record], Bounds]
    paragraphs: tuple[str, ...]
    turned: float = 0.0  # degrees by which the picture is turned, counter-clockwise


def cell(context: Context, content: Content, wide: float) -> Cell:
    """Return the lowest of the ways to lay a detail out in a column."""
    head, top = _head(context, content, wide)
    bodies = list(_ways(context, content, wide))
    groups, tall = min(bodies, key=lambda b: round(b[1], 1))
    return Cell(((head, 0.0, 0.0), *((records, x, y - top) for records, x, y in groups)), top + tall)


def _head(context: Context, content: Content, wide: float) -> tuple[list[Record], float]:
    height = context.layout.heights.figure
    sign, taken = turned_sign(content.turned, context.layout.heights.least, context.metrics)
    free = wide - measure(content.name, height, context.metrics, bold=True) - (AIR if sign else 2 * AIR)
    room = free - taken
    head = block(content.title, room, height, context.metrics, bold=True)
    name = block(content.name, wide, height, context.metrics, bold=True)
    low = max(up for up, _ in (head.reach[0], name.reach[0]))  # of the first line, where both stand
    caption = Text((wide, -low), content.name, height, "right", bold=True)
    down = head.reach[0][0] - low
    mark = [moved(r, free, -low) for r in sign]
    return [*head.records((0.0, down)), *mark, caption], head.tall - down + AIR


def _ways(context: Context, content: Content, wide: float) -> Iterator[tuple[list[Group], float]]:
    """Yield the ways to lay out picture, key view and words, each with its height."""
    (x0, y0, x1, y1), (kx0, ky0, kx1, ky1) = content.picture[1], content.key[1]
    across, tall, key_wide, key_tall = x1 - x0, y1 - y0, kx1 - kx0, ky1 - ky0
    left = key_wide + 3 * AIR

    def drawn(x: float, y: float, key_x: float, key_y: float) -> list[Group]:
        """Return picture and key view with their upper left corners there."""
        return [(content.picture[0], x - x0, y - y1), (content.key[0], key_x - kx0, key_y - ky1)]

    # The key view below the picture, words beside it.
    low = -tall - 2 * AIR
    words, end = _words(context, content.paragraphs, low, wide, (left, low - key_tall))
    yield [*drawn((wide - across) / 2, 0.0, 0.0, low), words], -min(end, low - key_tall)
    if across + left <= wide:  # the key view beside the picture, words below both
        low = -max(tall, key_tall) - 2 * AIR
        words, end = _words(context, content.paragraphs, low, wide)
        yield [*drawn(left + (wide - left - across) / 2, 0.0, 0.0, 0.0), words], -end
    right = across + 4 * AIR
    if wide - right >= BESIDE:  # both beside the picture
        words, end = _words(context, content.paragraphs, -key_tall - 2 * AIR, wide - right)
        yield [*drawn(0.0, 0.0, right, 0.0), (words[0], right, 0.0)], max(tall, -end)


def _words(
    context: Context, paragraphs: Sequence[str], y: float, wide: float, around: tuple[float, float] = (0.0, 0.0)
) -> tuple[Group, float]:
    """Return the paragraphs below `y`, and where they end; those that begin above `around` y are indented by its x."""
    out: list[Record] = []
    for text in paragraphs:
        x = around[0] if y > around[1] - LINES else 0.0
        said = block(text, wide - x, context.layout.heights.note, context.metrics)
        out += said.records((x, y))
        y -= said.tall + LINES
    return (out, 0.0, 0.0), y
