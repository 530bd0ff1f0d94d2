"""Part sheets: each different part once, several small ones on a page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from docgen.drawing.choose import opposite
from docgen.drawing.placing import moved
from docgen.drawing.records import Line, Pen, Record, Sheet
from docgen.layout.model import Rect
from docgen.piece.model import Kind
from docgen.sheets.context import Context
from docgen.sheets.part_block import Placed, fitted
from docgen.sheets.part_view import Subject
from docgen.sheets.part_words import title

BETWEEN = 6.0  # mm between two parts on a page
MOST = 1.0  # parts are not drawn larger than they are


@dataclass(frozen=True, slots=True)
class Entry:
    """A part ready for its page."""

    kind: Kind
    placed: Placed
    subject: Subject


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return one block for each kind of part that is made, in the order of their numbers, packed on pages."""
    area = context.layout.area
    pages: list[list[Entry]] = []
    room = 0.0
    for kind in context.kinds:
        if context.piece.part(kind.first).hardware:
            continue
        for entry in _entries(context, kind, area):
            if pages and entry.placed.height > room > area.height / 5:
                entry = _squeezed(context, entry, (area.width, room))
            need = entry.placed.height
            if pages and need <= room:
                pages[-1].append(entry)
                room -= need + BETWEEN
            else:
                pages.append([entry])
                room = area.height - need - BETWEEN
    return tuple(_sheet(context, page, area) for page in pages)


def _entries(context: Context, kind: Kind, area: Rect) -> list[Entry]:
    """Return the part on half a page where that costs no more than one step of scale, on one page, or on two.

    Two pages, the second for the face behind, are taken where one would need a scale that is smaller by a step.
    """
    part = context.piece.part(kind.first)
    subject = Subject(part, context.solids, context.piece.units, context.piece.projection != "first angle")
    room = (area.width, area.height)
    whole = fitted(subject, kind, context, room, MOST)
    behind = opposite(subject.first)
    if (whole is None or whole.setting.factor < 0.2) and behind in subject.plan.others:
        front = tuple(f for f in subject.plan.faces if f != behind)
        halves = (subject.restricted(front), subject.restricted((behind,)))
        pair = [fitted(s, kind, context, room, MOST) for s in halves]
        if all(p and (whole is None or p.setting.factor > whole.setting.factor + 1e-9) for p in pair):
            return [Entry(kind, p, s) for p, s in zip(pair, halves, strict=True) if p]
    if whole is None:
        raise ValueError(f"{part.path} fits no page of {context.layout.name} at any scale")
    if whole.height <= area.height / 2:
        return [Entry(kind, whole, subject)]
    half = fitted(subject, kind, context, (area.width, (area.height - BETWEEN) / 2), whole.setting.factor)
    return [Entry(kind, half if half is not None and _as_good(half, whole, context) else whole, subject)]


def _squeezed(context: Context, entry: Entry, room: tuple[float, float]) -> Entry:
    """Return the part as it fits what is left of a page, if that is as good; else as it was."""
    whole = entry.placed
    tight = fitted(entry.subject, entry.kind, context, room, whole.setting.factor)
    return replace(entry, placed=tight) if tight is not None and _as_good(tight, whole, context) else entry


def _as_good(half: Placed, whole: Placed, context: Context) -> bool:
    """Return True when half a page costs no more than one step of scale and no height of lettering."""
    ladder = [a / b for a, b in context.layout.scales[context.piece.units.system]]
    lost = sum(whole.setting.factor + 1e-9 >= s > half.setting.factor + 1e-9 for s in ladder)
    return half.setting.height >= whole.setting.height and lost <= 1 and half.setting.factor >= 0.2


def _sheet(context: Context, page: list[Entry], area: Rect) -> Sheet:
    records: list[Record] = []
    y = area.top
    for n, entry in enumerate(page):
        if n:
            y -= BETWEEN / 2
            records.append(Line((area.x, y), (area.right, y), Pen.THIN))
            y -= BETWEEN / 2
        records += [moved(r, area.x, y) for r in entry.placed.records]
        y -= entry.placed.height
    names = [title(e.kind, context.lists) for e in page]
    scales = dict.fromkeys(f"{e.placed.setting.scale[0]} : {e.placed.setting.scale[1]}" for e in page)
    return Sheet(
        key=f"part/{page[0].kind.first}",
        kind="parts",
        title=", ".join(names),
        size=context.layout.size,
        records=tuple(records),
        scale=next(iter(scales)) if len(scales) == 1 else "as shown",
    )
