"""A part's views and words as one block, at the largest scale of the layout's ladder that fits a given room."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.drawing.cells import Block, block
from docgen.drawing.placing import moved
from docgen.drawing.records import Record, Text
from docgen.layout.model import Layout
from docgen.piece.model import Kind
from docgen.sheets.context import Context
from docgen.sheets.part_view import Setting, Spread, Subject, added, rough_size, spread
from docgen.sheets.part_words import title, words

AIR = 5.0  # mm between views and words
COLUMN = 62.0  # mm, the words' width beside the views
AFTER = 0.9  # mm after a paragraph
LANE = 14.0  # mm that figures take at least
SMALL = 0.1  # 1 : 10
ANY = (0.0, 1.0)  # parts are not drawn larger than they are
WORDS = 8.0  # mm that heading and words take at least
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
    subject: Subject, kind: Kind, context: Context, room: tuple[float, float], between: tuple[float, float] = ANY
) -> Placed | None:
    """Return the block at the largest scale that fits `room`, with nothing left untold; None if there is none.

    Only scales `between` two factors are tried. Where figures of the least height alone let it fit, or let it fit
    at twice a scale under 1 : 8, they are taken.
    """
    heights = context.layout.heights
    tall = _first(subject, kind, context, room, heights.figure, between)
    if tall is None or tall.setting.factor < SMALL:
        least = between if tall is None else (max(between[0], 2 * tall.setting.factor), between[1])
        small = _first(subject, kind, context, room, heights.least, least)
        return small or tall
    return tall


def told(subject: Subject, kind: Kind, context: Context, room: tuple[float, float]) -> Placed | None:
    """Return the block with its overall sizes alone in the views and everything else in words."""
    bare = subject.told_bare()
    for upright in (False, True):
        for setting in _settings(context, context.layout.heights.least, ANY, upright):
            if _may_fit(bare, setting, room, (LANE, LANE)):
                made = spread(bare, setting, context.metrics)
                whole = assembled(bare, kind, context, made, setting, room) if made is not None else None
                if whole is not None:
                    return whole
    return None


def _settings(context: Context, height: float, between: tuple[float, float], upright: bool) -> Iterator[Setting]:
    system = context.piece.units.system
    for scale in context.layout.scales[system]:
        if between[0] - 1e-9 <= scale[0] / scale[1] <= between[1] + 1e-9:
            yield Setting(scale, height, upright)


def _first(
    subject: Subject,
    kind: Kind,
    context: Context,
    room: tuple[float, float],
    height: float,
    between: tuple[float, float],
) -> Placed | None:
    """Return the block at the largest scale that fits; the direction of the length that promises more is tried first."""
    ways = []
    for upright in (False, True):
        able = [
            s for s in _settings(context, height, between, upright) if _may_fit(subject, s, room, added(subject, s))
        ]
        if able:
            ways.append(able)
    best: Placed | None = None
    for able in sorted(ways, key=lambda w: -w[0].factor):
        least = best.setting.factor if best is not None else 0.0
        best = _largest(subject, kind, context, room, [s for s in able if s.factor > least + 1e-9]) or best
    return best


def _largest(
    subject: Subject, kind: Kind, context: Context, room: tuple[float, float], settings: list[Setting]
) -> Placed | None:
    """Return the first setting that fits."""
    for setting in settings:
        made = spread(subject, setting, context.metrics, room)
        whole = assembled(subject, kind, context, made, setting, room) if made is not None else None
        if whole is not None:
            return whole
    return None


def _may_fit(subject: Subject, setting: Setting, room: tuple[float, float], more: tuple[float, float]) -> bool:
    """Return False for a scale at which the bare views and what figures add are larger than the room."""
    wide, high = rough_size(subject, setting)
    return wide <= room[0] - more[0] and high <= room[1] - more[1] - WORDS


def assembled(
    subject: Subject, kind: Kind, context: Context, made: Spread, setting: Setting, room: tuple[float, float]
) -> Placed | None:
    """Return heading, views and words in `room` mm, the words beside the views or under them; None if they do not fit."""
    layout, wide = context.layout, made.size[0]
    heading = _heading(subject, kind, context, setting, room[0])
    texts = words(subject, kind, context.lists, made)
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
    return _stacked([block(t, wide, layout.heights.note, context.metrics) for t in texts])


def _stacked(paragraphs: list[Block]) -> Words:
    records: list[Record] = []
    y = 0.0
    for part in paragraphs:
        records += part.records((0.0, y))
        y -= part.tall + AFTER
    return records, -y


def _columns(texts: list[str], wide: float, layout: Layout, context: Context) -> Words:
    """Return paragraphs in two columns of about the same height."""
    half = (wide - AIR) / 2
    every = [block(t, half, layout.heights.note, context.metrics) for t in texts]
    tall = [p.tall + AFTER for p in every]
    cut = min(range(1, len(every) + 1), key=lambda n: max(sum(tall[:n]), sum(tall[n:])))
    first, second = _stacked(every[:cut]), _stacked(every[cut:])
    return [*first[0], *(moved(r, half + AIR, 0.0) for r in second[0])], max(first[1], second[1])
