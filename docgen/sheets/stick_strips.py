"""The strips of story sticks: each stick laid out, cut into pieces, and set on pages."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from docgen.drawing.placing import moved
from docgen.drawing.records import Record, Sheet
from docgen.drawing.sticks.pieces import END, STEPS, Piece, Side, pieces, sides, taken
from docgen.drawing.sticks.strip import Style as StripStyle
from docgen.drawing.sticks.strip import depth, fanned, places, shown, strip
from docgen.drawing.tiling.heading import PRINT, heading
from docgen.drawing.tiling.paper import SHORT, Paper, papers
from docgen.piece.naming import in_words
from docgen.piece.records import Mark
from docgen.schedules.milled import left_rough
from docgen.schedules.rows import Stick
from docgen.sheets.context import Context
from docgen.sheets.stick_faces import (
    LENGTHWISE,
    called_by,
    face_words,
    lettered,
    on_each,
    on_face,
    shared_name,
    short_on_each,
)

KIND = "sticks"
SPARES = 0.75  # of the paper: what single strips must save at least to stand for one with two edges
EDGES = 2  # of a strip that carry marks
FAR = 0.15  # mm of paper that a label may cost to stand 1 mm nearer to its mark
LEFT = 2.0  # mm between the upright check line and the strips
TOLD = (
    "Cut the strips out along their long edges. Cut the dashed end and lay it over the strip before so that the crosses meet. "
    "A piece without marks is not printed: set the next one to its figures with a steel rule.",
    PRINT,
)
BROADS = (24.0, 36.0, 60.0)  # mm: widths tried for level labels
BETWEEN = 3.0  # mm between strips on a page


@dataclass(frozen=True, slots=True)
class Laid:
    """A stick laid out: its sides two by two, the pieces of each pair, and how labels are set."""

    sides: tuple[Side, ...]
    pieces: tuple[Piece, ...]
    style: StripStyle


def page_of(context: Context) -> Paper:
    """Return the page lying the way that takes the longer pieces."""
    return max(papers(context.layout, SHORT), key=lambda p: p.window.width)


def laid(context: Context, stick: Stick) -> tuple[Laid, ...]:
    """Return the stick laid out on the layout's paper: one strip, its edges for two faces, or one for each face.

    Each face has its own where one strip would be too deep or its labels would crowd, or where the marks of the two lie so
    far apart along the part that the strip would be printed half empty.
    """
    names = called_by(context)
    words = face_words(context, stick)
    faces = {
        f"face {letter}": (on_each(lies, names), short_on_each(lies, names))
        for letter, lies in lettered(context, stick).items()
    }
    told = {word: faces[on_face(word)] for word in words if on_face(word) in faces}
    drawn = "line of the " if left_rough(context.piece.part(stick.parts[0])) else ""  # not the edge of the blank
    every = _two(_busy(sides(_told(stick, names), stick.length, f"{drawn}{stick.datum}", words, told)))
    page = page_of(context)
    style = StripStyle(context.piece.units, page.layout.heights, context.metrics, page.layout.overlap)
    out: list[Laid] = []
    for i in range(0, len(every), EDGES):
        pair = _cut(every[i : i + EDGES], stick, style, page)
        alone = [_cut((side,), stick, style, page) for side in pair.sides] if len(pair.sides) > 1 else []
        too_deep = depth(pair.sides, pair.style) > page.window.height - 4
        spares = bool(alone) and sum(map(_paper, alone)) < SPARES * _paper(pair)
        out.extend(alone if alone and (too_deep or spares or _crowded(pair)) else [pair])
    return tuple(out)


def _paper(laid: Laid) -> float:
    """Return what a stick takes of its pages, mm down: the pieces that are printed."""
    return depth(laid.sides, laid.style) * sum(not _blank(p, laid) for p in laid.pieces)


def _told(stick: Stick, names: Mapping[str, str]) -> list[Mark]:
    """Return the marks with what each leaves open behind its label, in short."""
    out = []
    for mark, notes in zip(stick.marks, stick.notes, strict=True):
        note = _short(notes[0][0]) if len(notes) == 1 else "edge: see the table" if notes else ""
        out.append(replace(mark, label=", ".join(text for text in (in_words(mark.label, names), note) if text)))
    return out


def _short(note: str) -> str:
    """Return a note without what the table adds behind commas: "stops 5 mm from the front edge and 30 mm from the back edge"."""
    return " and ".join(text.partition(",")[0] for text in note.split(" and "))


def _busy(every: tuple[Side, ...]) -> tuple[Side, ...]:
    """Return the sides that carry more than datum and ends; what others say of an end stands on the first."""
    busy = [s for s in every if any(p.wood != END for p in s.points)] or list(every[:1])
    for side in every:
        if side in busy:
            continue
        told = {p.position: p.label.partition("; ")[2] for p in side.points}
        first = busy[0]
        points = tuple(
            replace(p, label=f"{p.label}; {side.word}: {told[p.position]}")
            if p.wood == END and told.get(p.position)
            else p
            for p in first.points
        )
        busy[0] = replace(first, points=points)
    return tuple(busy)


def _two(every: tuple[Side, ...]) -> tuple[Side, ...]:
    """Return at most two sides: marks of further faces stand on an edge with others, with the face before their words.

    Runs along a face never share the edge of that face: they were taken off it.
    """
    if len(every) <= EDGES:
        return every
    words = {s.word for s in every}
    lead = next((s for s in every if f"{s.word}{LENGTHWISE}" in words), every[0])
    beside = [s for s in every if s.word.endswith(LENGTHWISE) and on_face(s.word) != lead.word]
    return (_merged([lead, *beside]), _merged([s for s in every if s is not lead and s not in beside]))


def _merged(several: Sequence[Side]) -> Side:
    """Return sides that share an edge of the strip as one."""
    if len(several) == 1:
        return several[0]
    points = {p for p in several[0].points if p.wood == END}
    points.update(replace(p, label=f"{side.word}: {p.label}") for side in several for p in side.points if p.wood != END)
    told, short = (
        "; ".join(f"{side.word} {text}" for side, text in some if text)
        for some in ([(s, s.told) for s in several], [(s, s.short) for s in several])
    )
    ordered = sorted(points, key=lambda p: (p.position, p.wood, p.label))
    return Side(" and ".join(side.word for side in several), tuple(ordered), told, short)


def _cut(pair: tuple[Side, ...], stick: Stick, style: StripStyle, page: Paper) -> Laid:
    """Return the pieces of a strip: labels level or at right angles, whichever takes less paper and keeps them near."""
    low, high = float(stick.length[0]), float(stick.length[1])
    tried: list[tuple[bool, float, Laid]] = []
    ways = [replace(style, broad=broad) for broad in BROADS]
    for way in (*ways, replace(style, upright=True)):

        def fits(start: float, end: float, way: StripStyle = way) -> bool:
            trial = Piece(0, start, end, start < low, end > high)
            return all(places(shown(side, trial), trial, way) is not None for side in pair)

        cut = pieces(
            low,
            high,
            longest=page.window.width - LEFT - style.overlap,
            step=STEPS[style.units.system],
            taken=taken(pair),
            fits=fits,
        )
        way = fanned(pair, cut, way)
        laid = Laid(pair, cut, way)
        tried.append((_crowded(laid), _paper(laid) + FAR * _shifted(laid), laid))
    return min(tried, key=lambda t: t[:2])[2]


def _shifted(laid: Laid) -> float:
    """Return how far all labels stand from their marks along the strip, mm."""
    total = 0.0
    for piece in laid.pieces:
        for points in (shown(side, piece) for side in laid.sides):
            at = places(points, piece, laid.style) or ()
            total += sum(abs(x - float(p.position)) for p, x in zip(points, at, strict=False))
    return total


def _crowded(laid: Laid) -> bool:
    """Return whether the labels of one of its pieces do not fit side by side."""
    return any(places(shown(side, p), p, laid.style) is None for p in laid.pieces for side in laid.sides)


def strips(context: Context, every: Sequence[tuple[int, Stick, Sequence[Laid]]]) -> tuple[Sheet, ...]:
    """Return pages filled with the strips of numbered sticks; each stands on the first page that has room for it."""
    page = page_of(context)
    pages: list[list[Record]] = []
    names: list[list[str]] = []
    levels: list[float] = []
    for number, stick, part in ((n, stick, part) for n, stick, parts in every for part in parts):
        tall, shorter = depth(part.sides, part.style), shared_name(context, stick)
        for piece in part.pieces:
            if _blank(piece, part):
                continue
            at = next((i for i, y in enumerate(levels) if y - tall >= page.window.y), len(pages))
            if at == len(pages):
                pages.append(
                    heading(page, name="", title="Story sticks", lines=TOLD, metrics=context.metrics, mapped=False)
                )
                names.append([])
                levels.append(page.window.top - 2)
            left = piece.start - (0 if piece.first else part.style.overlap / 2)
            drawn = strip(piece, part.sides, part.style, (f"Stick {number}", stick.name, *shorter), len(part.pieces))
            pages[at].extend(moved(r, page.window.x + LEFT - left, levels[at] - tall) for r in drawn)
            names[at].append(str(number))
            levels[at] -= tall + BETWEEN
    return tuple(
        Sheet(
            f"sticks/strips/{i}",
            KIND,
            f"Strips of {'sticks' if len(set(here)) > 1 else 'stick'} {', '.join(dict.fromkeys(here))}",
            page.size,
            tuple(records),
            "full size",
            framed=False,
            outline=("Story sticks",),
        )
        for i, (records, here) in enumerate(zip(pages, names, strict=True), 1)
    )


def _blank(piece: Piece, laid: Laid) -> bool:
    """Return whether a piece carries no mark: the datum and the ends alone need no print."""
    return not any(p.wood != END or ";" in p.label for side in laid.sides for p in shown(side, piece))
