"""Part sheets: each different part once, several small ones on a page."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from docgen.drawing.choose import opposite
from docgen.drawing.placing import moved
from docgen.drawing.records import Line, Pen, Record, Sheet
from docgen.layout.model import Rect
from docgen.piece.model import Kind
from docgen.piece.records import Face
from docgen.sheets.context import Context
from docgen.sheets.part_block import Placed, fitted, told
from docgen.sheets.part_view import Subject
from docgen.sheets.part_words import title

BETWEEN = 6.0  # mm between two parts on a page
GOOD = 0.1  # 1 : 10: a part drawn no smaller is not shared out over several blocks


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
    rooms: list[float] = []
    for kind in context.kinds:
        if context.piece.part(kind.first).hardware:
            continue
        first = 0
        for entry in _entries(context, kind, area):
            first, entry = _page_for(context, entry, rooms, first, area)
            if first == len(pages):
                pages.append([])
                rooms.append(area.height)
            pages[first].append(entry)
            rooms[first] -= entry.placed.height + BETWEEN
    return tuple(_sheet(context, page, area) for page in pages)


def _page_for(context: Context, entry: Entry, rooms: list[float], first: int, area: Rect) -> tuple[int, Entry]:
    """Return the first page from `first` on with room for a part, drawn a step smaller if that is as good; or a new one.

    Blocks of one part stay in their order.
    """
    for n, room in enumerate(rooms[first:], first):
        if entry.placed.height <= room:
            return n, entry
    if rooms and first < len(rooms) and rooms[-1] > area.height / 5:
        tight = _squeezed(context, entry, (area.width, rooms[-1]))
        if tight.placed.height <= rooms[-1]:
            return len(rooms) - 1, tight
    return len(rooms), entry


def _entries(context: Context, kind: Kind, area: Rect) -> list[Entry]:
    """Return the part as one block, on half a page where that costs no more than one step of scale, or as several.

    Several blocks, each with some of the views, are taken where one would need a scale under 1 : 10.
    """
    part = context.piece.part(kind.first)
    third = context.piece.projection != "first angle"
    names = {p.path: p.called for p in context.piece.parts}
    subject = Subject(part, context.solids, context.piece.units, third, names=names)
    blocks = _blocks(context, kind, subject, (area.width, area.height))
    if len(blocks) > 1:
        return blocks
    whole = blocks[0].placed
    if whole.height <= area.height / 2:
        return blocks
    return [_squeezed(context, blocks[0], (area.width, (area.height - BETWEEN) / 2))]


def _blocks(context: Context, kind: Kind, subject: Subject, room: tuple[float, float]) -> list[Entry]:
    """Return the views in as few blocks as a good scale allows; ValueError if the paper is too small for anything."""
    for between in ((GOOD, 1.0), (0.0, GOOD)):
        for groups in _groups(subject):
            many = len(groups) > 1
            halves = [
                subject.restricted(only, f", {n} of {len(groups)}" if many else "") for n, only in enumerate(groups, 1)
            ]
            made = _all_fitted(context, kind, halves, room, between)
            if made:
                return made
    bare = told(subject, kind, context, room)
    if bare is None:
        raise ValueError(f"{subject.part.path} fits no page of {context.layout.name} at any scale")
    return [Entry(kind, bare, subject)]


def _all_fitted(
    context: Context, kind: Kind, subjects: list[Subject], room: tuple[float, float], between: tuple[float, float]
) -> list[Entry]:
    """Return a block for each share of the views; none when one of them does not fit."""
    made: list[Entry] = []
    for subject in subjects:
        placed = fitted(subject, kind, context, room, between)
        if placed is None:
            return []
        made.append(Entry(kind, placed, subject))
    return made


def _groups(subject: Subject) -> Iterator[tuple[tuple[Face, ...], ...]]:
    """Yield ways to share out the views over blocks: all in one, the face behind apart, the principal one apart, each apart."""
    faces = subject.plan.faces
    behind = opposite(subject.first)
    yield ((),)
    if behind in faces:
        yield (tuple(f for f in faces if f != behind), (behind,))
    if len(faces) > 2:
        yield ((subject.first,), tuple(faces[1:]))
    if len(faces) > 3:
        yield tuple((f,) for f in faces)


def _squeezed(context: Context, entry: Entry, room: tuple[float, float]) -> Entry:
    """Return the part as it fits less room, if that costs no more than one step of scale; else as it was."""
    whole = entry.placed
    ladder = sorted((a / b for a, b in context.layout.scales[context.piece.units.system]), reverse=True)
    smaller = [s for s in ladder if s < whole.setting.factor - 1e-9]
    between = (max(smaller[0] if smaller else 0.0, GOOD), whole.setting.factor)
    tight = fitted(entry.subject, entry.kind, context, room, between)
    good = tight is not None and tight.setting.height >= whole.setting.height
    return replace(entry, placed=tight) if tight is not None and good else entry


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
