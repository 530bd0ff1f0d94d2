"""Where figures crowd one place of a part's view, that place is drawn once more, larger, with them: an enlarged detail."""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from docgen.drawing import crowds
from docgen.drawing.dimensions.wanted import Arranged
from docgen.drawing.unfold import Station
from docgen.geometry.shapes import Vec
from docgen.piece.model import Piece
from docgen.piece.records import Feature
from docgen.sheets.context import Context
from docgen.sheets.part_block import fitted
from docgen.sheets.part_broken import SMALL, axis_of
from docgen.sheets.part_grow import broken
from docgen.sheets.part_pages import BETWEEN
from docgen.sheets.part_share import Entry
from docgen.sheets.part_shorter import Room
from docgen.sheets.part_view import Detail, Setting, Subject, every_in

LETTERS = (
    "ZYXWVUTSRQPNMLKJHGFEDCBA"  # from the end: holes, cutting planes and turned places are lettered from the beginning
)
MOST = 2  # details of one block
ENOUGH = 0.75  # of what is hard to read at the most: with less in details, smaller figures are taken to have all there
TRIES = 5  # choices of places, until one finds room
_LETTER = re.compile(r"\b([A-Z])[0-9]*\b")


@dataclass(slots=True)
class Letters:
    """The letters of a packet's details, each given once, none that the piece has for something else."""

    piece: Piece
    given: int = 0
    _free: list[str] = field(init=False, default_factory=list)

    def next(self, many: int) -> list[str]:
        """Return the next letters, which are free until they are `given`; with a number behind them where none are left."""
        if not self._free:
            used = {
                m for p in self.piece.parts for f in p.features for name in _names(f) for m in _LETTER.findall(name)
            }
            self._free = [c for c in LETTERS if c not in used] or [*LETTERS]
        out = []
        for n in range(self.given, self.given + many):
            turn, at = divmod(n, len(self._free))
            out.append(f"{self._free[at]}{turn + 1 if turn else ''}")
        return out


def _names(feature: Feature) -> Iterator[str]:
    """Yield what stands on paper for a feature's holes and slots, and before its sizes."""
    made = feature.made
    yield from (row.name for row in made.holes)
    yield from (row.name for row in made.slots)
    yield from (s.label for s in made.sizes)


def detailed(context: Context, entries: list[Entry], letters: Letters) -> list[Entry]:
    """Return a part's blocks, each with enlarged details of the places where its figures crowd, if these have room on a page.

    A block as large as half true size reads well without.
    """
    out = [_detailed(context, e, letters) for e in entries]
    details = tuple(d for e in out for d in e.subject.details)
    return [replace(e, joined=_joined(context, e.joined, details)) if e.joined and details else e for e in out]


def _joined(context: Context, whole: Entry, details: tuple[Detail, ...]) -> Entry | None:
    """Return the part with all its views in one block with the details of these; None where that has no room."""
    room = (context.layout.area.width, context.layout.area.height)
    return _fitted(context, replace(whole, subject=whole.subject.enlarged(details)), room)


def _detailed(context: Context, entry: Entry, letters: Letters) -> Entry:
    """Return a block with details where its figures crowd: of the most of them, as it stands, else broken anew."""
    if entry.subject.bare or entry.placed.setting.factor >= SMALL - 1e-9:
        return entry
    places = crowded(entry)
    able = [_named(entry, details, letters) for details in _choices(places)[:TRIES]]
    taken = [sum(places[replace(d, letter="")] for d in e.subject.details) for e in able]
    for e, many in zip(able, taken, strict=True):
        made = _on_page(context, e)
        if made is not None and many < ENOUGH * taken[0]:
            made = _on_page(context, able[0], low=True) or made
        if made is not None:
            break
    else:
        made = next((m for e in able[:1] if (m := _anew(context, e)) is not None), None)
    letters.given += len(made.subject.details) if made is not None else 0
    return made or entry


def _named(entry: Entry, details: tuple[Detail, ...], letters: Letters) -> Entry:
    """Return a block with details that have letters, not yet placed."""
    names = letters.next(len(details))
    named = tuple(replace(d, letter=name) for d, name in zip(details, names, strict=True))
    return replace(entry, subject=entry.subject.enlarged(named))


def _on_page(context: Context, entry: Entry, *, low: bool = False) -> Entry | None:
    """Return a block with its details, on half a page if it stands on half a page now; None where they have no room."""
    area = context.layout.area
    half = (area.height - BETWEEN) / 2
    rooms = (half, area.height) if entry.placed.height <= half else (area.height,)
    made = (_fitted(context, entry, (area.width, high), low=low) for high in rooms)
    return next((m for m in made if m is not None), None)


def _choices(found: Mapping[Detail, int]) -> list[tuple[Detail, ...]]:
    """Return which places may be drawn as details of a block, two or one: those that take most of what is hard to read first."""
    pairs = [pair for pair in itertools.combinations(found, MOST) if _apart(*pair)]
    every = [*pairs, *((d,) for d in found)]
    return sorted(every, key=lambda ds: (-sum(found[d] for d in ds), sum(d.radius for d in ds)))


def _apart(one: Detail, other: Detail) -> bool:
    """Return True for two places with different figures, whose rings do not meet."""
    away = math.dist(one.centre, other.centre) > one.radius + other.radius
    return not one.keys & other.keys and (away or one.face != other.face)


def _fitted(context: Context, entry: Entry, room: Room, *, low: bool = False) -> Entry | None:
    """Return a block with its details in a room, at its own scale; its figures are no smaller, unless they may be `low`."""
    setting = entry.placed.setting
    made = fitted(entry.subject, entry.kind, context, room, (setting.factor, setting.factor), low=low)
    return replace(entry, placed=made) if made is not None and (low or made.setting.height >= setting.height) else None


def _anew(context: Context, entry: Entry) -> Entry | None:
    """Return a long block with its details on a page, broken anew at its own scale; None where it is not broken, or fits none."""
    subject, setting, area = entry.subject, entry.placed.setting, context.layout.area
    if not subject.gone:
        return None
    low = setting.height < context.layout.heights.figure - 1e-9
    whole = replace(entry, subject=subject.unbroken())
    return broken(context, whole, (area.width, area.height), setting.scale, low=low)


def crowded(entry: Entry) -> dict[Detail, int]:
    """Return the places of a block where figures crowd, without letters yet, each with how many of them are hard to read."""
    subject, setting = entry.subject, entry.placed.setting
    out: dict[Detail, int] = {}
    for station, arranged in zip(subject.stations(setting.upright), entry.placed.spread.arranged, strict=True):
        hard = {p.wanted.key for p in arranged.placed if crowds.strained(p)}
        for keys in crowds.crowded(arranged.placed, setting.factor):
            found = _place(subject, station, arranged, keys, setting)
            if found is not None:
                out[found] = len(found.keys & hard)
    return out


def _place(
    subject: Subject, station: Station, arranged: Arranged, keys: frozenset[str], setting: Setting
) -> Detail | None:
    """Return the place of one view where figures crowd; None where it is wide, or a break lies in it."""
    whole = subject.whole or subject
    x0, y0, x1, y1 = subject.bounds(station, setting.upright)
    rows = {p.wanted.key for p in arranged.placed if p.how == crowds.RUNNING}
    able = [w for w in every_in(whole, station) if w.key not in rows]
    found = crowds.place(able, keys, setting.factor, max(x1 - x0, y1 - y0))
    if found is None:
        return None
    (x, y), view = found.centre, station.view
    centre: Vec = (
        view.right[0] * x + view.up[0] * y,
        view.right[1] * x + view.up[1] * y,
        view.right[2] * x + view.up[2] * y,
    )
    low, high = centre[0] - found.radius, centre[0] + found.radius
    if axis_of(view) is not None and any(g.low < high and low < g.high for g in subject.gone):
        return None
    return Detail(station.face, centre, found.radius, "", found.keys, found.least)
