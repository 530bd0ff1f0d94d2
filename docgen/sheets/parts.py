"""Part sheets: each different part once, several small ones on a page."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from docgen.drawing.choose import opposite
from docgen.drawing.placing import moved
from docgen.drawing.records import Line, Pen, Record, Sheet
from docgen.layout.model import Rect
from docgen.piece.model import DrawingWish, Kind
from docgen.piece.records import Face
from docgen.sheets import part_glued
from docgen.sheets.context import Context
from docgen.sheets.part_block import Placed, drawn_at, fitted, tiny, told
from docgen.sheets.part_broken import SHARES, SMALL, along, slender
from docgen.sheets.part_holes import mixed, worth_it
from docgen.sheets.part_pages import BETWEEN, Page
from docgen.sheets.part_view import Subject
from docgen.sheets.part_words import placing, title

GOOD = 0.1  # 1 : 10: a part drawn no smaller is not shared out over several blocks
LITTLE = 80.0  # mm on paper: a part that comes out no longer is, where that doubles it


@dataclass(frozen=True, slots=True)
class Entry:
    """A part ready for its page."""

    kind: Kind
    placed: Placed
    subject: Subject
    whole: Placed | None = None  # as it stood before it was drawn smaller to share its page

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of its block, mm."""
        return (self.placed.width, self.placed.height)


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return one block for each kind of part that is made, in the order of their numbers, packed on pages.

    Sheets of what is cut after the glue-up follow.
    """
    pages = packed(context)
    return (*(_sheet(context, page, context.layout.area) for page in pages), *part_glued.make(context))


def packed(context: Context) -> list[Page[Entry]]:
    """Return the blocks of all parts on their pages."""
    area = context.layout.area
    pages: list[Page[Entry]] = []
    for kind in context.kinds:
        if context.piece.part(kind.first).hardware:
            continue
        first = 0
        for entry in _broken(context, _entries(context, kind, area), area):
            first = _put(context, pages, first, entry, area)
    return [_alone(page) for page in pages]


def _alone(page: Page[Entry]) -> Page[Entry]:
    """Return the page; a part that was drawn smaller and shares its page with none after all is drawn larger again."""
    entry = page.blocks[0].block
    if len(page.blocks) > 1 or entry.whole is None:
        return page
    again: Page[Entry] = Page(page.wide, page.high)
    again.take(lambda room: replace(entry, placed=entry.whole or entry.placed, whole=None))
    return again


def _put(context: Context, pages: list[Page[Entry]], first: int, entry: Entry, area: Rect) -> int:
    """Put a part on the first page from `first` on with room for it, a step smaller if that is as good, or on a new one.

    Returns the page's number: blocks of one part stay in their order.
    """
    for n, page in enumerate(pages[first:], first):
        if page.take(lambda room: _again(context, entry, room)):
            return n
    if len(pages) > first and pages[-1].take(lambda room: _tight(context, entry, room, area)):
        return len(pages) - 1
    pages.append(Page(area.width, area.height))
    if not pages[-1].take(lambda room: entry):
        raise ValueError(f"{entry.subject.part.path} has no place on a page of its own")
    return len(pages) - 1


def _again(context: Context, entry: Entry, room: tuple[float, float]) -> Entry | None:
    """Return the part as it stands in a free rectangle, at the same scale and with figures of the same height."""
    placed = entry.placed
    if placed.width <= room[0] and placed.height <= room[1]:
        return entry
    if room[0] >= context.layout.area.width - 1e-6:
        return None  # it was made for this width
    factor = placed.setting.factor
    narrow = fitted(entry.subject, entry.kind, context, room, (factor, factor))
    good = narrow is not None and narrow.setting.height >= placed.setting.height
    return replace(entry, placed=narrow) if narrow is not None and good else None


def _tight(context: Context, entry: Entry, room: tuple[float, float], area: Rect) -> Entry | None:
    """Return the part a step smaller where that brings it into what is left of a page."""
    if room[0] < area.width or room[1] < area.height / 5:
        return None
    tight = _squeezed(context, entry, room)
    return tight if tight.placed.height <= room[1] else None


def _entries(context: Context, kind: Kind, area: Rect) -> list[Entry]:
    """Return the part as one block, on half a page where that costs no more than one step of scale, or as several.

    Several blocks, each with some of the views, are taken where one would need a scale under 1 : 10.
    """
    part = context.piece.part(kind.first)
    third = context.piece.projection != "first angle"
    names = {p.path: p.called for p in context.piece.parts}
    asked, within = _asked(context, kind), placing(context.piece)
    subject = Subject(part, context.solids, context.piece.units, third, names=names, asked=asked, placing=within)
    blocks = _blocks(context, kind, subject, (area.width, area.height))
    if len(blocks) > 1:
        return blocks
    whole = blocks[0].placed
    if whole.height <= area.height / 2:
        return blocks
    return [_squeezed(context, blocks[0], (area.width, (area.height - BETWEEN) / 2))]


def _broken(context: Context, entries: list[Entry], area: Rect) -> list[Entry]:
    """Return a long part broken where that draws it a step of scale larger in the same blocks, else as it is."""
    subject, factor = entries[0].subject, min(e.placed.setting.factor for e in entries)
    larger = [(a, b) for a, b in context.layout.scales[context.piece.units.system] if a / b > factor + 1e-9]
    if subject.bare or not larger or factor >= SMALL or not slender(subject.part):
        return entries
    scale = min(larger, key=lambda s: s[0] / s[1])
    long = float(subject.part.span(0)[1] - subject.part.span(0)[0])
    half = (area.width, (area.height - BETWEEN) / 2)
    small = len(entries) == 1 and entries[0].placed.height <= half[1]
    for share in SHARES if len(entries) == 1 else SHARES[:1]:  # of several blocks the first try tells
        broken = subject.broken(scale[0] / scale[1], long * (scale[0] / scale[1] - share * factor))
        for room in (half,) if small else (half, (area.width, area.height)):
            made = [_again_broken(context, e, broken, scale, room) for e in entries] if broken is not None else []
            if made and None not in made:
                return [e for e in made if e is not None]
    return entries


def _again_broken(
    context: Context, entry: Entry, broken: Subject, scale: tuple[int, int], room: tuple[float, float]
) -> Entry | None:
    """Return a block with its views broken, at a scale; one that looks along the length as it is, None if it does not fit."""
    if not along(entry.subject.stations(False)):
        return entry
    setting = replace(entry.placed.setting, scale=scale)
    subject = broken.restricted(entry.subject.only, entry.subject.block)
    placed = drawn_at(subject, entry.kind, context, room, setting)
    return Entry(entry.kind, placed, subject) if placed is not None else None


def _ladder(context: Context) -> list[float]:
    """Return the scales of the layout as factors, largest first."""
    return sorted((a / b for a, b in context.layout.scales[context.piece.units.system]), reverse=True)


def _asked(context: Context, kind: Kind) -> tuple[DrawingWish, ...]:
    """Return what the file asks of the sheet of any of the parts that are made alike."""
    return tuple(w for w in context.piece.drawing if w.part in kind.parts)


def _blocks(context: Context, kind: Kind, subject: Subject, room: tuple[float, float]) -> list[Entry]:
    """Return the views in as few blocks as a good scale allows; ValueError if the paper is too small for anything."""
    several = subject.with_table() if worth_it(subject.part) else None
    for between in ((GOOD, 1.0), (0.0, GOOD)):
        for n, groups in enumerate(_groups(subject)):
            made = [] if n == 0 and mixed(subject.part) else _shared(context, kind, subject, groups, room, between)
            if n == 0 and several is not None:
                least = made[0].placed.setting.factor if made else between[0]
                made = _better(made, _shared(context, kind, several, groups, room, (least, between[1])))
                made = made or _shared(context, kind, subject, groups, room, between)
            if made:
                return made if n else _doubled(context, kind, subject, made, room) or made
    bare = told(subject, kind, context, room)
    if bare is None:
        raise ValueError(f"{subject.part.path} fits no page of {context.layout.name} at any scale")
    return [Entry(kind, bare, subject)]


def _doubled(
    context: Context, kind: Kind, subject: Subject, whole: list[Entry], room: tuple[float, float]
) -> list[Entry]:
    """Return a part that comes out little on a page of its own as several blocks of at least twice the scale; none otherwise."""
    placed = whole[0].placed
    if placed.long * placed.setting.factor > LITTLE or placed.height <= room[1] / 2:
        return []
    between = (2 * placed.setting.factor, 1.0)
    for groups in list(_groups(subject))[1:]:
        if made := _shared(context, kind, subject, groups, room, between):
            return made
    return []


def _better(plain: list[Entry], tabled: list[Entry]) -> list[Entry]:
    """Return the part with a hole table where that gives a larger scale or higher figures, or where nothing else fits."""
    if not plain or not tabled:
        return plain or tabled
    one, other = plain[0].placed.setting, tabled[0].placed.setting
    return tabled if (other.factor, other.height) > (one.factor, one.height) else plain


def _shared(
    context: Context,
    kind: Kind,
    subject: Subject,
    groups: tuple[tuple[Face, ...], ...],
    room: tuple[float, float],
    between: tuple[float, float],
) -> list[Entry]:
    """Return the part with its views shared out over blocks; none when one of them does not fit."""
    many = len(groups)
    blocks = [subject.restricted(only, f", {n} of {many}" if many > 1 else "") for n, only in enumerate(groups, 1)]
    return _all_fitted(context, kind, blocks, room, between)


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
    """Return the part as it fits less room, if that costs no more than one step of scale and stays large enough."""
    if entry.subject.gone:  # what is left out suits its scale
        return entry
    whole = entry.placed
    smaller = [s for s in _ladder(context) if s < whole.setting.factor - 1e-9]
    between = (max(smaller[0] if smaller else 0.0, GOOD), whole.setting.factor)
    tight = fitted(entry.subject, entry.kind, context, room, between)
    good = tight is not None and tight.setting.height >= whole.setting.height and (tiny(whole) or not tiny(tight))
    return replace(entry, placed=tight, whole=whole) if tight is not None and good else entry


def _sheet(context: Context, page: Page[Entry], area: Rect) -> Sheet:
    records: list[Record] = []
    for s in page.blocks:
        x, y = area.x + s.free.x, area.top - s.free.y
        wide, high = s.block.size
        records += [moved(r, x, y) for r in s.block.placed.records]
        if s.free.y > 0:
            end = x + (wide if s.beside else s.free.wide)
            records.append(Line((x, y + BETWEEN / 2), (end, y + BETWEEN / 2), Pen.THIN))
        if s.free.x > 0:
            records.append(Line((x - BETWEEN / 2, y), (x - BETWEEN / 2, y - high), Pen.THIN))
    entries = [s.block for s in page.blocks]
    names = [title(e.kind, context.lists) for e in entries]
    scales = dict.fromkeys(f"{e.placed.setting.scale[0]} : {e.placed.setting.scale[1]}" for e in entries)
    return Sheet(
        key=f"part/{entries[0].kind.first}",
        kind="parts",
        title=", ".join(names),
        size=context.layout.size,
        records=tuple(records),
        scale=next(iter(scales)) if len(scales) == 1 else "as shown",
    )
