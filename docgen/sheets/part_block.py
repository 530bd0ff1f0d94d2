"""A part's views and words as one block, at the largest scale of the layout's ladder that fits a given room."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.drawing.cells import block
from docgen.drawing.placing import moved
from docgen.drawing.records import Record, Text
from docgen.layout.model import Layout
from docgen.piece.model import Kind
from docgen.sheets.context import Context
from docgen.sheets.part_view import Setting, Spread, Subject, rough_size, spread
from docgen.sheets.part_words import title, words

AIR = 5.0  # mm between views and words
COLUMN = 62.0  # mm, the words' width beside the views
AFTER = 0.9  # mm after a paragraph
Words = tuple[list[Record], float]


@dataclass(frozen=True, slots=True)
class Placed:
    """A block with its upper left corner at the origin: records below it, width and height in mm."""

    records: tuple[Record, ...]
    width: float
    height: float
    setting: Setting
    spread: Spread


def fitted(
    subject: Subject, kind: Kind, context: Context, room: tuple[float, float], most: float = 1e9
) -> Placed | None:
    """Return the block at the largest scale (no larger than `most`) that fits `room`, with nothing left untold.

    Where only figures of the least height let a scale at least twice as large fit, they are taken.
    """
    heights = context.layout.heights
    tall = _first(subject, kind, context, room, heights.figure, most)
    if tall is None or tall.setting.factor < 0.25:
        small = _first(subject, kind, context, room, heights.least, most)
        if small is not None and (tall is None or small.setting.factor >= 2 * tall.setting.factor):
            return small
    return tall


def told(subject: Subject, kind: Kind, context: Context, room: tuple[float, float]) -> Placed | None:
    """Return the block with its overall sizes alone in the views and everything else in words."""
    bare = subject.told_bare()
    for pair in _settings(context, context.layout.heights.least, 1e9):
        for setting in pair:
            wide, high = rough_size(bare, setting)
            if wide <= room[0] - 15 and high <= room[1] - 15:
                made = spread(bare, setting, context.metrics)
                whole = assembled(bare, kind, context, made, setting, room)
                if whole is not None:
                    return whole
    return None


def _settings(context: Context, height: float, most: float) -> Iterator[tuple[Setting, Setting]]:
    system = context.piece.units.system
    for scale in context.layout.scales[system]:
        if scale[0] / scale[1] <= most + 1e-9:
            yield Setting(scale, height, False), Setting(scale, height, True)


def _first(
    subject: Subject, kind: Kind, context: Context, room: tuple[float, float], height: float, most: float
) -> Placed | None:
    for level, upright in _settings(context, height, most):
        for setting in (level, upright):
            wide, high = rough_size(subject, setting)
            if wide > room[0] - 15 or high > room[1] - 15:
                continue
            made = spread(subject, setting, context.metrics)
            if made.left:
                continue
            whole = assembled(subject, kind, context, made, setting, room)
            if whole is not None:
                return whole
    return None


def assembled(
    subject: Subject, kind: Kind, context: Context, made: Spread, setting: Setting, room: tuple[float, float]
) -> Placed | None:
    """Return heading, views and words in `room` mm, the words beside the views or under them; None if they do not fit."""
    layout, wide = context.layout, made.size[0]
    heading = _heading(subject, kind, context, setting, room[0])
    texts = words(subject, kind, context.lists, made.notes, made.left)
    x0, _, _, y1 = made.bounds
    out: Placed | None = None
    beside = room[0] - wide - AIR
    if beside >= COLUMN:
        side = _column(texts, min(beside, 1.6 * COLUMN), layout, context)
        high = heading[1] + max(made.size[1], side[1])
        shift = wide + AIR
        if high <= room[1]:
            out = Placed(
                (
                    *heading[0],
                    *(moved(r, -x0, -y1 - heading[1]) for r in made.records),
                    *(moved(r, shift, -heading[1]) for r in side[0]),
                ),
                room[0],
                high,
                setting,
                made,
            )
    under = _columns(texts, room[0], layout, context)
    high = heading[1] + made.size[1] + AIR + under[1]
    if wide <= room[0] and high <= room[1] and (out is None or high < out.height):
        middle = (room[0] - wide) / 2
        top = -heading[1]
        out = Placed(
            (
                *heading[0],
                *(moved(r, middle - x0, top - y1) for r in made.records),
                *(moved(r, 0.0, top - made.size[1] - AIR) for r in under[0]),
            ),
            room[0],
            high,
            setting,
            made,
        )
    return out


def _heading(subject: Subject, kind: Kind, context: Context, setting: Setting, wide: float) -> Words:
    heights = context.layout.heights
    number = subject.part.number
    name = f"{number}  {title(kind, context.lists)}{subject.block}"
    text = block(name, wide - 40, heights.heading, context.metrics, bold=True)
    records = text.records((0.0, 0.0))
    scale = f"{setting.scale[0]} : {setting.scale[1]}"
    records.append(Text((wide, -heights.heading), scale, heights.note, "right"))
    return records, text.tall + 3.0


def _column(texts: list[str], wide: float, layout: Layout, context: Context) -> Words:
    """Return paragraphs under one another, the top of the first at 0, and what they fill."""
    records: list[Record] = []
    y = 0.0
    for text in texts:
        part = block(text, wide, layout.heights.note, context.metrics)
        records += part.records((0.0, y))
        y -= part.tall + AFTER
    return records, -y


def _columns(texts: list[str], wide: float, layout: Layout, context: Context) -> Words:
    """Return paragraphs in two columns of about the same height."""
    half = (wide - AIR) / 2
    best: Words | None = None
    for cut in range(1, len(texts) + 1):
        first = _column(texts[:cut], half, layout, context)
        second = _column(texts[cut:], half, layout, context)
        high = max(first[1], second[1])
        if best is None or high < best[1]:
            best = ([*first[0], *(moved(r, half + AIR, 0.0) for r in second[0])], high)
    return best or ([], 0.0)
