"""A part's views and words as one block, at the largest scale of the layout's ladder that fits a given room."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from docgen.drawing.cells import block
from docgen.drawing.crowds import FINE
from docgen.drawing.dimensions.wanted import Wanted
from docgen.drawing.lettering import width
from docgen.drawing.placing import Bounds, moved
from docgen.drawing.records import Record, Text
from docgen.piece.model import Kind
from docgen.sheets.context import Context
from docgen.sheets.part_broken import FUSED
from docgen.sheets.part_grid import Grid
from docgen.sheets.part_guess import extents, guessed, too_large
from docgen.sheets.part_pages import NARROW
from docgen.sheets.part_room import Said, Spot, spot
from docgen.sheets.part_spread import Spread, spread
from docgen.sheets.part_view import Setting, Subject
from docgen.sheets.part_words import table_rows, title, words

SMALL = 0.1  # 1 : 10
TINY = 65.0  # mm on paper: a part that comes out no longer is drawn larger with smaller figures, if that doubles it
ANY = (0.0, 1.0)  # parts are not drawn larger than they are
LARGER = 2.0  # times the scale of its view: a detail is drawn so much larger at least
SEVERAL = 2  # figures that stand for less than `FUSED` mm on paper: a drawing with so many is hard to read
SCALE = 24.0  # mm of the heading's line that the scale takes
ALONE = 14.0  # mm of them that the scale itself takes
MORE = 42.0  # mm of it that the sheets take on which more of the part stands
HEADING = 6.5  # mm that the heading takes at least


@dataclass(frozen=True, slots=True)
class Placed:
    """A block with its upper left corner at the origin: records below it, the width that it uses and its height in mm."""

    records: tuple[Record, ...]
    width: float
    height: float
    setting: Setting
    spread: Spread
    long: float  # mm, the part's longest side


def fitted(
    subject: Subject,
    kind: Kind,
    context: Context,
    room: tuple[float, float],
    between: tuple[float, float] = ANY,
    *,
    low: bool = True,
) -> Placed | None:
    """Return the block at the largest scale that fits `room`, with nothing left untold; None if there is none.

    Only scales `between` two factors are tried. Where figures of the least height alone let it fit, or let it fit
    at twice a scale that is small, they are taken, if they may be `low`.
    """
    heights = context.layout.heights
    tall = _first(subject, kind, context, room, heights.figure, between)
    if low and (tall is None or tall.setting.factor < SMALL or tiny(tall)):
        least = between if tall is None else (max(between[0], 2 * tall.setting.factor), between[1])
        small = _first(subject, kind, context, room, heights.least, least)
        return small or tall
    return tall


def drawn_at(
    subject: Subject, kind: Kind, context: Context, room: tuple[float, float], setting: Setting
) -> Placed | None:
    """Return the block at one setting, with nothing left untold; None if it does not fit `room`."""
    return _largest(subject, kind, context, room, [setting])


def tiny(placed: Placed) -> bool:
    """Return True when all views together are so small on the paper that their figures crowd them."""
    return placed.long * placed.setting.factor < TINY


def fine(placed: Placed) -> int:
    """Return how many figures stand for so little on the paper that their arrows, and the lines there, run together.

    How thick the whole part is reads well from its figure alone.
    """
    every = (p for view in placed.spread.arranged for p in view.placed if not getattr(p.wanted, "overall", False))
    return sum(p.arrows is not None and math.dist(*p.arrows) < FUSED for p in every)


def poor(placed: Placed) -> bool:
    """Return True for a drawing that is hard to read at the bench: several figures stand for next to nothing, or it is tiny."""
    return tiny(placed) or fine(placed) >= SEVERAL


def told(subject: Subject, kind: Kind, context: Context, room: tuple[float, float]) -> Placed | None:
    """Return the block with its overall sizes alone in the views and everything else in words."""
    bare = subject.told_bare()
    for upright in (False, True):
        for setting in _settings(context, context.layout.heights.least, ANY, upright):
            if _may_fit(bare, kind, context, setting, room):
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
    """Return the block at the largest scale that fits; of one scale the direction of the length that promises more is tried first."""
    ways = []
    for upright in (False, True):
        every = list(_settings(context, height, between, upright))
        while every and not _may_fit(subject, kind, context, every[0], room):
            every.pop(0)
        if every:
            ways.append(every)
    ways.sort(key=lambda w: -w[0].factor)
    return _largest(subject, kind, context, room, sorted((s for w in ways for s in w), key=lambda s: -s.factor))


def _largest(
    subject: Subject, kind: Kind, context: Context, room: tuple[float, float], settings: list[Setting]
) -> Placed | None:
    """Return the first setting that fits, its details as large as they have room for."""
    for setting in settings:
        if not _may_fit(subject, kind, context, setting, room):  # what was tried in the meantime tells more
            continue
        expected = extents(subject, setting, context.metrics)
        for at in _detailed(subject, setting, context):
            made = spread(subject, at, context.metrics, room, expected)
            whole = assembled(subject, kind, context, made, at, room) if made is not None else None
            if whole is not None:
                return whole
    return None


def _detailed(subject: Subject, setting: Setting, context: Context) -> list[Setting]:
    """Return the setting with each scale at which its details read well, the largest first; itself where it has none."""
    faces = [s.face for s in subject.stations(setting.upright)] if subject.details else ()
    shown = [d for d in subject.details if d.face in faces]
    if not shown:
        return [setting]
    every = [s for s in context.layout.scales[context.piece.units.system] if s[0] / s[1] <= ANY[1]]
    least = max(LARGER * setting.factor, min(max(a / b for a, b in every), FINE / min(d.least for d in shown))) - 1e-9
    able = [s for s in every if s[0] / s[1] >= least]
    return [replace(setting, large=s) for s in sorted(able, key=lambda s: -s[0] / s[1])]


def _may_fit(subject: Subject, kind: Kind, context: Context, setting: Setting, room: tuple[float, float]) -> bool:
    """Return False for a scale at which views and words are sure to be larger than the room."""
    key = (subject.only, subject.told, subject.bare, setting, room, len(subject.filled))  # each view drawn tells more
    if key not in subject.fits:
        left = (room[0], room[1] - HEADING)
        subject.fits[key] = (
            not too_large(subject, setting, left)
            and _spot(subject, guessed(subject, setting, context.metrics), _said(subject, kind, context), left)
            is not None
        )
    return subject.fits[key]


def _spot(subject: Subject, fields: Sequence[Bounds], said: Said, room: tuple[float, float]) -> Spot | None:
    """Return where the words stand; a part in one block may have them in a narrow column: other blocks would take more paper."""
    return spot(fields, said, room, narrow=not subject.only)


def _said(subject: Subject, kind: Kind, context: Context) -> Said:
    """Return the words of a block in which all figures found a place; worked out once."""
    key = (subject.only, subject.bare, subject.told)
    if key not in subject.said:
        subject.said[key] = _measured(subject, kind, context, ())
    return subject.said[key]


def _measured(subject: Subject, kind: Kind, context: Context, left: tuple[Wanted, ...]) -> Said:
    height, metrics = context.layout.heights.note, context.metrics
    grids = tuple((caption, Grid(rows, height, metrics)) for caption, rows in table_rows(subject))
    return Said(tuple(words(subject, kind, context.lists, left)), height, metrics, grids)


def assembled(
    subject: Subject, kind: Kind, context: Context, made: Spread, setting: Setting, room: tuple[float, float]
) -> Placed | None:
    """Return heading, views and words in `room` mm, the words where they leave the block lowest; None if they do not fit."""
    above = _heading(subject, kind, context, setting, room[0])[1]
    said = _said(subject, kind, context)
    if made.left:
        said = _measured(subject, kind, context, made.left)
    place = _spot(subject, made.fields, said, (room[0], room[1] - above))
    if place is None:
        return None
    right = max(v[2] for v in made.fields)
    used = max(right, place.right, _title_width(subject, kind, context))
    used = used if used <= NARROW * room[0] else room[0]
    aside = 0.0 if place.wide else (room[0] - right) / 2
    records = [
        *_heading(subject, kind, context, setting, used)[0],
        *(moved(r, aside, -above) for r in made.records),
        *(moved(r, 0.0, -above) for r in place.records(said, room[0])),
    ]
    return Placed(tuple(records), used, above + place.tall, setting, made, max(map(float, subject.part.size)))


def _title_width(subject: Subject, kind: Kind, context: Context) -> float:
    """Return the width at which the heading keeps to one line, mm."""
    return (
        width(_name(subject, kind, context), context.layout.heights.heading, context.metrics, True)
        + _after(subject)
        + 0.1
    )


def _after(subject: Subject) -> float:
    """Return what must stay free in the heading's line behind the name, mm."""
    return SCALE + MORE if subject.block else SCALE


def _name(subject: Subject, kind: Kind, context: Context) -> str:
    return f"{subject.part.number}  {title(kind, context.lists)}{subject.block}"


def _heading(
    subject: Subject, kind: Kind, context: Context, setting: Setting, wide: float
) -> tuple[list[Record], float]:
    heights = context.layout.heights
    text = block(_name(subject, kind, context), wide - _after(subject), heights.heading, context.metrics, bold=True)
    records = text.records((0.0, 0.0))
    scale = f"{setting.scale[0]} : {setting.scale[1]}"
    records.append(Text((wide, -heights.heading), scale, heights.note, "right"))
    return records, text.tall + 3.0
