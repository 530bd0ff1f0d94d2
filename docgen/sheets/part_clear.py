"""Parts that come out hard to read at the bench, drawn a step of scale larger on at most one further page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from docgen.sheets.context import Context
from docgen.sheets.part_block import fitted, poor
from docgen.sheets.part_grow import broken, larger
from docgen.sheets.part_pages import BETWEEN
from docgen.sheets.part_share import Entry, groups
from docgen.sheets.part_shorter import Room, restricted
from docgen.sheets.part_view import HERE, LATER

FURTHER = 1.0  # pages: how much more paper a part may take that is hard to read
PLAIN = 3  # figures: a part with no more needs no further page
ALIKE = 0.12  # of a size: parts that differ by no more are laid side by side, and read best at one scale


def clear(context: Context, entries: list[Entry]) -> list[Entry]:
    """Return a part with a drawing that is hard to read at the next scale, where at most one further page takes it; else as it is."""
    return _stepped(context, entries) if any(poor(e.placed) for e in entries) else entries


def levelled(context: Context, drawn: list[list[Entry]]) -> list[list[Entry]]:
    """Return the parts, each that came out smaller than one of about its sizes a step larger, where one further page takes it."""
    least = [min(e.placed.setting.factor for e in entries) for entries in drawn]
    out = []
    for n, entries in enumerate(drawn):
        above = any(least[m] > least[n] + 1e-9 and alike(entries, other) for m, other in enumerate(drawn))
        out.append(_stepped(context, entries) if above and _figures(entries) > PLAIN else entries)
    return out


def _figures(entries: list[Entry]) -> int:
    return sum(len(view.placed) for e in entries for view in e.placed.spread.arranged)


def alike(one: list[Entry], other: list[Entry]) -> bool:
    """Return True for two parts of about the same length, width and thickness."""
    sizes = zip(map(float, one[0].subject.part.size), map(float, other[0].subject.part.size), strict=True)
    return all(abs(a - b) <= ALIKE * max(a, b) for a, b in sizes)


def _stepped(context: Context, entries: list[Entry]) -> list[Entry]:
    """Return a part at the next scale, where at most one further page takes it; else as it is."""
    if entries[0].subject.bare:
        return entries
    area = context.layout.area
    room = (area.width, area.height)
    most = sum(e.placed.height + BETWEEN for e in entries) + FURTHER * area.height
    for made in _ways(context, entries, room):
        if made and sum(e.placed.height + BETWEEN for e in made) <= most:
            return [replace(e, kept=True) for e in made]
    return entries


def _ways(context: Context, entries: list[Entry], room: Room) -> Iterator[list[Entry]]:
    """Yield the part a step larger: in the same blocks, then in others; in each way unbroken where that fits."""
    least = min(entries, key=lambda e: e.placed.setting.factor)
    scale = larger(context, least, 1.0)
    if scale is None:
        return
    subject = least.subject.whole or least.subject
    whole = subject.restricted((), "")
    yield _all(context, entries, room, scale)
    apart = tuple((f,) for f in whole.plan.faces)
    for shares in dict.fromkeys((*groups(whole), apart)):
        told = ("", "") if shares is not apart or len(shares) < 2 else (LATER, HERE)
        if [*shares] != [e.subject.only for e in entries]:
            yield _all(context, [replace(least, subject=b) for b in restricted(whole, shares, told)], room, scale)


def _all(context: Context, entries: list[Entry], room: Room, scale: tuple[int, int]) -> list[Entry]:
    """Return each drawing at a scale, or as it is where that is as large; none where one does not fit a page."""
    factor = scale[0] / scale[1]
    out: list[Entry] = []
    for e in entries:
        made: Entry | None = e
        if e.placed.setting.factor < factor - 1e-9:
            placed = fitted(e.subject, e.kind, context, room, (factor, 1.0))
            made = replace(e, placed=placed, whole=None) if placed is not None else None
            made = made or broken(context, replace(e, subject=e.subject.unbroken()), room, scale, low=True)
        if made is None:
            return []
        out.append(made)
    return out
