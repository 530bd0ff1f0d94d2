"""Joinery details: one for each kind of joint in the piece, cut where it tells most, with its figures and its own scale."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from docgen.drawing.cells import block, measure
from docgen.drawing.dimensions.wanted import Callout, Wanted
from docgen.drawing.hatching import Cut, lines, pitches
from docgen.drawing.placing import Bounds, moved
from docgen.drawing.records import Line, Path, Pen, Record, Sheet, Text
from docgen.drawing.wording import Notes, authority_key
from docgen.geometry.outlines import Box2
from docgen.layout.model import Rect
from docgen.piece.naming import in_words
from docgen.piece.records import Authority
from docgen.schedules.meetings import Meeting, meetings
from docgen.sheets.context import Context
from docgen.sheets.flow import valued
from docgen.sheets.joint_cut import Blanks, CutView, bores, cut_view
from docgen.sheets.joint_view import Picture, enlarged_picture, enlarged_window, section_picture
from docgen.sheets.key_view import key_view

COLUMN = 84.0  # mm: the least width of a detail
BROADEST = 150.0  # mm: the greatest
LOW = 75.0  # mm: a picture in a narrow column may be this tall
WORDS = 50.0  # mm: about what the key view and the words below a picture take
BETWEEN = 6.0  # mm between details
TALLEST = 0.34  # of the page that one picture may take
ROOM = 16.0  # mm that figures take beside a picture at least
AIR = 2.0
LEAST = 40.0  # mm: a picture is not made smaller than this to give all its figures a place
LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ"  # without those that look like figures
FOOT = 8.0  # mm: the key of the lines at the foot of the page


@dataclass(frozen=True, slots=True)
class Detail:
    """One picture of a meeting: a section through it, or None for an enlarged view."""

    meeting: Meeting
    cut: CutView | None
    letter: str
    first: str = ""  # for a second section: the letter of the first


@dataclass(frozen=True, slots=True)
class Cell:
    """A detail laid out, its upper left corner at the origin."""

    groups: tuple[tuple[Sequence[Record], float, float], ...]  # records and where their origin goes
    tall: float


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the pages of joinery details; none for a piece without joints."""
    area = context.layout.area
    found = list(_details(context))
    room = Rect(area.x, area.y + FOOT, area.width, area.height - FOOT)
    count = _columns(len(found), room)
    wide = (area.width - (count - 1) * BETWEEN) / count
    cells = [_cell(context, detail, wide) for detail in found]
    pages = list(_pages(cells, count, wide, room))
    return tuple(
        Sheet(
            key="joinery" if i == 0 else f"joinery/{i + 1}",
            kind="joinery",
            title="Joinery details",
            size=context.layout.size,
            records=(*records, *_legend(context)),
            scale="as noted",
        )
        for i, records in enumerate(pages)
    )


def _columns(details: int, room: Rect) -> int:
    """Return how many columns: as few and wide ones as take all details on one page, else as many as have room."""
    most = max(1, int((room.width + BETWEEN) // (COLUMN + BETWEEN)))
    for count in range(1, most):
        wide = (room.width - (count - 1) * BETWEEN) / count
        rows = int(room.height // (_tallest(wide, room.height) + WORDS))
        if count * rows >= details and wide <= BROADEST:
            return count
    return most


def _tallest(wide: float, high: float) -> float:
    """Return how tall a picture may be in a column on a page, mm."""
    return min(TALLEST * high, max(0.75 * wide, LOW))


def _details(context: Context) -> Iterator[Detail]:
    """Yield the details in the order of the joints: one or two sections, or one enlarged view."""
    piece, number, blanks = context.piece, 0, Blanks.of(context.piece.parts)
    for meeting in meetings(piece):
        parts = [piece.part(path) for path in meeting.parts]
        cuts = [cut for plane in meeting.planes if (cut := cut_view(parts, blanks, plane, context.solids)) is not None]
        for i, cut in enumerate(cuts or [None]):
            yield Detail(meeting, cut, _letter(number), _letter(number - i) if i else "")
            number += 1


def _letter(number: int) -> str:
    """Return A, B … Z, AA, BB …, without letters that look like figures."""
    return LETTERS[number % len(LETTERS)] * (1 + number // len(LETTERS))


def _pages(cells: Sequence[Cell], count: int, wide: float, area: Rect) -> Iterator[list[Record]]:
    """Yield the records of each page: columns of details, filled one after the other."""
    out: list[Record] = []
    column, y = 0, area.top
    for cell in cells:
        if y < area.top and y - cell.tall < area.y:
            column, y = column + 1, area.top
        if column == count:
            yield out
            out, column = [], 0
        x = area.x + column * (wide + BETWEEN)
        out += [moved(r, x + dx, y + dy) for records, dx, dy in cell.groups for r in records]
        y -= cell.tall + BETWEEN
    if out:
        yield out


# -- one detail -------------------------------------------------------------------------------------------------------


def _cell(context: Context, detail: Detail, wide: float) -> Cell:
    notes = Notes(context.piece.units)
    picture, scale = _picture(context, detail, wide, notes)
    heights = context.layout.heights
    title = detail.meeting.joint.word.capitalize()
    name = f"{detail.letter} – {detail.letter}" if detail.cut else f"Detail {detail.letter}"
    caption = Text((wide, -heights.figure), f"{name}   {scale[0]} : {scale[1]}", heights.figure, "right", bold=True)
    room = wide - measure(caption.text, heights.figure, context.metrics, bold=True) - 2 * AIR
    head = block(title, room, heights.figure, context.metrics, bold=True)
    words: list[Record] = [*head.records((0.0, 0.0)), caption]
    y = -head.tall - AIR
    x0, y0, x1, y1 = picture.bounds
    groups: list[tuple[Sequence[Record], float, float]] = [(picture.records, wide / 2 - (x0 + x1) / 2, y - y1)]
    y -= y1 - y0 + 2 * AIR
    key, (kx0, ky0, kx1, ky1) = key_view(
        context, detail.cut.plane if detail.cut else None, detail.meeting.spot, detail.letter
    )
    groups += [(key, -kx0, y - ky1), (words, 0.0, 0.0)]
    left = kx1 - kx0 + 3 * AIR
    low = y
    for text in _words(context, detail, picture, notes):
        said = block(text, wide - left, heights.note, context.metrics)
        words += said.records((left, low))
        low -= said.tall + 1.2
    return Cell(tuple(groups), -min(low, y - (ky1 - ky0)))


def _picture(context: Context, detail: Detail, wide: float, notes: Notes) -> tuple[Picture, tuple[int, int]]:
    """Return the picture at the largest scale at which it fits with all its figures; at the smallest what is left is told."""
    most = _tallest(wide, context.layout.area.height)
    window = detail.cut.window if detail.cut else enlarged_window(detail.meeting.spot, detail.meeting.size)
    across, up = window[1][0] - window[0][0], window[1][1] - window[0][1]
    scales = context.layout.scales[context.piece.units.system]
    fitting = [s for s in scales if across * s[0] / s[1] + ROOM <= wide and up * s[0] / s[1] + ROOM <= most]
    best: tuple[Picture, tuple[int, int]] | None = None
    for scale in fitting:
        factor = scale[0] / scale[1]
        if best is not None and max(across, up) * factor < LEAST:
            break
        picture = _drawn(context, detail, factor, window, notes)
        if _fits(picture.bounds, wide, most) and (best is None or _missing(picture) < _missing(best[0])):
            best = picture, scale
            if not _missing(picture):
                break
    if best is None:
        scale = fitting[0] if fitting else scales[-1]
        best = _drawn(context, detail, scale[0] / scale[1], window, notes, bare=True), scale
    return best


def _missing(picture: Picture) -> int:
    return len(picture.left) + len(picture.missed)


def _fits(bounds: Bounds, wide: float, tall: float) -> bool:
    return bounds[2] - bounds[0] <= wide and bounds[3] - bounds[1] <= tall


def _drawn(
    context: Context,
    detail: Detail,
    factor: float,
    window: Box2,
    notes: Notes,
    *,
    bare: bool = False,
) -> Picture:
    numbers = [_numbers(context)[path] for path in detail.meeting.parts]
    if detail.cut is not None:
        return section_picture(detail.cut, numbers, factor, context, notes, bare=bare)
    parts = [context.piece.part(path) for path in detail.meeting.parts]
    return enlarged_picture(parts, numbers, window, factor, context.solids, context)


def _numbers(context: Context) -> dict[str, int]:
    """Return the balloon number of each part, that of its kind."""
    return {p: context.piece.part(k.first).number for k in context.kinds for p in (*k.parts, *k.mirrored)}


# -- words ------------------------------------------------------------------------------------------------------------


def _words(context: Context, detail: Detail, picture: Picture, notes: Notes) -> list[str]:
    """Return the paragraphs beside the key: the parts, figures that the picture does not show, where else, remarks."""
    meeting, numbers = detail.meeting, _numbers(context)
    out = [", ".join(f"{numbers[path]} {context.piece.part(path).called}" for path in meeting.parts)]
    if detail.first:
        out.append(f"The joint of {detail.first} – {detail.first}")
    else:
        out.append(_figures(context, meeting))
        out += bores(meeting.planes[0], notes) if meeting.planes else []
        out.append(_also(meeting, numbers))
    if picture.left:
        out.append("Also: " + "; ".join(" ".join(_texts(w)) for w in picture.left))
    out += notes.lines()
    out += authority_key(a for a in notes.authorities if a is not Authority.CUT)
    names = {p.path: p.called for p in context.piece.parts}
    return [in_words(text, names) for text in out if text]


def _figures(context: Context, meeting: Meeting) -> str:
    """Return what the joint worked out and no size of its sections tells."""
    told = {round(float(t.size.value), 2) for plane in meeting.planes for t in plane.sizes}
    told |= {round(float(v), 2) for plane in meeting.planes for f, _ in plane.fasteners for v in (f.grip, f.engagement)}
    left = [(n, v, k) for n, v, k in meeting.joint.figures if round(float(v), 2) not in told and v]
    return "; ".join(f"{name} {valued(context, value, kind)}" for name, value, kind in left)


def _also(meeting: Meeting, numbers: Mapping[str, int]) -> str:
    """Return where else parts meet so, by their numbers."""
    pairs = [(numbers[a], numbers[b]) for a, b in meeting.also]
    own = pairs.count((numbers[meeting.parts[0]], numbers[meeting.parts[1]]))
    other = [p for p in dict.fromkeys(pairs) if p != (numbers[meeting.parts[0]], numbers[meeting.parts[1]])]
    told = [f"{own + 1} of these"] if own else []
    told += [f"{f'{n}× ' if (n := pairs.count(p)) > 1 else ''}{p[0]} with {p[1]}" for p in other]
    return f"Alike: {'; '.join(told)}" if told else ""


def _texts(wanted: Wanted) -> tuple[str, ...]:
    return wanted.lines if isinstance(wanted, Callout) else (wanted.text,)


def _legend(context: Context) -> list[Record]:
    """Return the key of hatching and lines, in a line at the foot of the page."""
    area, height = context.layout.area, context.layout.heights.note
    told = {
        Cut.END: "end grain",
        Cut.LONG: "long grain",
        Cut.SHEET: "sheet stock, glass",
    }
    x, y = area.x, area.y + 0.5
    out: list[Record] = []
    for cut, text in told.items():
        ring = ((x, y), (x + 9.0, y), (x + 9.0, y + 4.5), (x, y + 4.5))
        out.append(Path(ring, Pen.VISIBLE, closed=True))
        out += lines([ring], {Cut.END: 45.0, Cut.LONG: 0.0, Cut.SHEET: 90.0}[cut], pitches(cut))
        out.append(Text((x + 11.0, y + 1.0), text, height))
        x += 11.0 + measure(text, height, context.metrics) + 5.0
    out.append(Line((x, y + 2.2), (x + 14.0, y + 2.2), Pen.PHANTOM))
    out.append(Text((x + 16.0, y + 1.0), "another part", height))
    return out
