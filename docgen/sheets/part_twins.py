"""Parts of about the same sizes told in one way: where the holes of one are in a table, so are those of the other.

Laid side by side they are compared figure by figure.
"""

from __future__ import annotations

from dataclasses import replace

from docgen.sheets.context import Context
from docgen.sheets.part_block import drawn_at
from docgen.sheets.part_clear import alike
from docgen.sheets.part_holes import worth_it
from docgen.sheets.part_pages import BETWEEN
from docgen.sheets.part_share import Entry, groups, shared


def twinned(context: Context, drawn: list[list[Entry]]) -> list[list[Entry]]:
    """Return the parts, those like one with a hole table told by a table too, else that one without it.

    None is drawn smaller for it, nor takes more paper than a page.
    """
    out = list(drawn)
    for n, entries in enumerate(drawn):
        others = [m for m, other in enumerate(drawn) if _unlike(entries, other)]
        made = [_told(context, drawn[m], entries[0], table=True) for m in others]
        if others and all(made):
            for m, told in zip(others, made, strict=True):
                out[m] = told
        elif others:
            out[n] = _told(context, entries, drawn[others[0]][0], table=False) or entries
    return out


def _unlike(one: list[Entry], other: list[Entry]) -> bool:
    """Return True for a part whose holes stand in a table, and one of about its sizes whose many holes do not."""
    return _tabled(one) and not _tabled(other) and worth_it(other[0].subject.part) and alike(one, other)


def _tabled(entries: list[Entry]) -> bool:
    return entries[0].subject.table


def _told(context: Context, entries: list[Entry], twin: Entry, *, table: bool) -> list[Entry]:
    """Return a part with its holes in a table, or not, at its scale and with figures no lower; none where that has no room.

    It lies or stands as its twin does, if it can.
    """
    first, area = entries[0], context.layout.area
    factor = min(e.placed.setting.factor for e in entries)
    least = min(e.placed.setting.height for e in entries)
    whole = first.subject.unbroken().restricted((), "")
    subject, room = whole.with_table(table), (area.width, area.height)
    most = sum(e.placed.height + BETWEEN for e in entries) + area.height
    for shares in groups(subject):
        made = shared(context, first.kind, subject, shares, room, (factor, 1.0))
        lower = any(e.placed.setting.height < least for e in made)
        if made and not lower and sum(e.placed.height + BETWEEN for e in made) <= most:
            like = drawn_at(made[0].subject, first.kind, context, room, twin.placed.setting)
            able = like is not None and like.setting.factor >= factor - 1e-9
            return [replace(made[0], placed=like), *made[1:]] if like is not None and able else made
    return []
