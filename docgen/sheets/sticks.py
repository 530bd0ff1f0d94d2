"""Story sticks: the whole reduced with a table of its marks, then its pieces at true size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from docgen.drawing.columns import Column
from docgen.drawing.placing import moved
from docgen.drawing.records import Record, Sheet
from docgen.drawing.sticks.overview import overview, overview_height
from docgen.drawing.sticks.pieces import END, STEPS, Piece, Side, pieces, sides, taken
from docgen.drawing.sticks.strip import Style as StripStyle
from docgen.drawing.sticks.strip import depth, places, shown, strip
from docgen.drawing.tables import Row, Style
from docgen.drawing.tiling.heading import PRINT, heading
from docgen.drawing.tiling.paper import SHORT, Paper, papers
from docgen.schedules.rows import Stick
from docgen.schedules.sticks import marks_of, other_faces
from docgen.sheets.context import Context
from docgen.sheets.flow import Flow, length
from docgen.sheets.truesize import printing

KIND = "sticks"
TABLE = 3.0  # mm: lettering of the tables of marks
ROW = 5.2  # mm: what a row of them takes
MOST_KEPT = 110.0  # mm: what is kept together of a picture and its table
EDGES = 2  # of a strip that carry marks
LEFT = 2.0  # mm between the upright check line and the strips
TOLD = (
    "Cut the strips out along their long edges. Cut the dashed end and lay it over the strip before so that the crosses meet. "
    "A piece without marks is not printed: set the next one to its figures with a steel rule.",
    PRINT,
)
BROADS = (24.0, 36.0, 60.0)  # mm: widths tried for level labels
BETWEEN = 3.0  # mm between strips on a page
STICK_USE = (
    "A story stick is a strip of wood that carries every mark of a part at true size, so that nothing is measured twice. Cut the "
    "pieces out, lay each over the one before on the dashed line so that the crosses meet, and glue them to a straight strip of wood.",
    "Each piece has its own scale and its figures count from the datum end: lay a steel rule on it and set the piece to its figures. "
    "A printer's small error then stays within one piece and cannot add up.",
    "The squared end of the strip of wood is the datum: hold it flush with the datum end of the part. Where the datum is a shoulder, hold 0 at the line "
    "of the shoulder; the tongue reaches past it. X: cut away here. Arrow: the wood that stays. Ring on a chain line: centre of a hole. Marks of two faces "
    "stand on the two edges of the stick.",
    "In the pictures of whole sticks the numbers above are those of the table, the numbers below are the pieces, a grey or white field each. The tables say "
    "on which side of a line the wood stays: after it is away from the datum.",
)
PRINT_AS = (
    "Print at actual size, 100 %, and measure both check lines: all as the first page of the true-size templates says.",
)
WOOD = {-1: "before", 1: "after", 0: "centre"}


@dataclass(frozen=True, slots=True)
class Laid:
    """A stick laid out: its sides two by two, the pieces of each pair, and how labels are set."""

    sides: tuple[Side, ...]
    pieces: tuple[Piece, ...]
    style: StripStyle


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return overviews and tables of all sticks, then their strips; none when no part has marks."""
    every = [(stick, _laid(context, stick)) for stick in context.lists.sticks]
    if not every:
        return ()
    flow = Flow(context, key="sticks", kind=KIND, title="Story sticks")
    flow.heading("How to use these pages")
    flow.points((*STICK_USE, *(PRINT_AS if before.get("templates") else printing(context))))
    for number, (stick, laid) in enumerate(every, 1):
        _first(flow, context, number, stick, laid)
    return (*flow.sheets(outline=("Story sticks",)), *_strips(context, every))


def _paper(context: Context) -> Paper:
    """Return the page lying the way that takes the longer pieces."""
    return max(papers(context.layout, SHORT), key=lambda p: p.window.width)


def _laid(context: Context, stick: Stick) -> tuple[Laid, ...]:
    part = context.piece.part(stick.parts[0])
    words = {f: part.word(f) for f in {m.face for m in stick.marks}}
    every = _two(_busy(sides(stick.marks, stick.length, stick.datum, words)))
    page = _paper(context)
    style = StripStyle(context.piece.units, page.layout.heights, context.metrics, page.layout.overlap)
    out: list[Laid] = []
    for i in range(0, len(every), EDGES):
        pair = _cut(every[i : i + EDGES], stick, style, page)
        if depth(pair.sides, pair.style) <= page.window.height - 4:
            out.append(pair)
        else:  # long labels on both edges: a strip for each face
            out.extend(_cut((side,), stick, style, page) for side in pair.sides)
    return tuple(out)


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
    """Return at most two sides: marks of further faces stand on the second edge, with the face before their words."""
    if len(every) <= EDGES:
        return every
    merged = every[1:]
    points = {p for p in merged[0].points if p.wood == END}
    points.update(replace(p, label=f"{side.word}: {p.label}") for side in merged for p in side.points if p.wood != END)
    word = " and ".join(side.word for side in merged)
    ordered = sorted(points, key=lambda p: (p.position, p.wood, p.label))
    return (every[0], replace(merged[0], word=word, points=tuple(ordered)))


def _cut(pair: tuple[Side, ...], stick: Stick, style: StripStyle, page: Paper) -> Laid:
    """Return the pieces of a strip: labels level or at right angles, whichever takes less paper."""
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
        laid = Laid(pair, cut, way)
        crowded = any(places(shown(side, p), p, way) is None for p in cut for side in pair)
        paper = depth(pair, way) * sum(not _blank(p, laid) for p in cut)
        tried.append((crowded, paper, laid))
    return min(tried, key=lambda t: t[:2])[2]


def _first(flow: Flow, context: Context, number: int, stick: Stick, laid: Sequence[Laid]) -> None:
    """Set the overview and the table of one stick."""
    heights = context.layout.heights
    keep = min(MOST_KEPT, len(laid) * (overview_height(heights) + 3) + ROW * (len(stick.marks) + 3))
    flow.heading(f"Stick {number}: {stick.name}, from the {stick.datum}", keep=keep)
    flow.text(_hands(context, stick))
    ends = (float(stick.length[0]), float(stick.length[1]))
    for part in laid:
        room = flow.take(overview_height(heights) + 3)
        inner = replace(room, x=room.x + 5, width=room.width - 10, height=room.height)
        # Faces without an edge of their own have their marks on the last strip.
        others = {s.face for p in laid if p is not part for s in p.sides}
        here = {m.face for m in stick.marks} - others if part is laid[-1] else {s.face for s in part.sides}
        numbered = [(i, m) for i, m in enumerate(stick.marks, 1) if m.face in here]
        marks = [(i, float(m.position)) for i, m in numbered]
        flow.add(overview(inner, ends, part.pieces, marks, heights, context.metrics))
    flow.gap(2.0)
    unit = context.piece.units.sign
    columns = [
        Column("mark", "middle", bold=True),
        Column(f"from the {stick.datum}, {unit}", "figures", bold=True),
        Column("what", grow=1.0),
        Column("face"),
        Column("wood"),
    ]
    if stick.mirrored:
        columns.insert(4, Column(f"face on {stick.mirrored[0]}"))
    flow.table(columns, _table(context, stick), Style(TABLE, heights.least, heights.note, heights.note))


def _table(context: Context, stick: Stick) -> list[Row]:
    part = context.piece.part(stick.parts[0])
    hand = context.piece.part(stick.mirrored[0]) if stick.mirrored else None
    faces = other_faces(stick.marks, marks_of(hand)) if hand else None
    out = []
    for i, mark in enumerate(stick.marks):
        cells = [str(i + 1), length(context, mark.position), mark.label, part.word(mark.face), WOOD[mark.wood]]
        if hand and faces:
            cells.insert(4, hand.word(faces[i]))
        out.append(Row(tuple(cells)))
    return out


def _hands(context: Context, stick: Stick) -> str:
    """Return which parts the stick serves, and that the other hand has its marks on other faces."""
    several = f"For {', '.join(stick.parts)}. " if len(stick.parts) > 1 else ""
    told = f"{several}Length {_with_unit(context, stick)}."
    if not stick.mirrored:
        return told
    return f"{told} It serves {', '.join(stick.mirrored)} too, from the same end: the table names the faces there."


def _with_unit(context: Context, stick: Stick) -> str:
    return f"{length(context, stick.length[1] - stick.length[0])} {context.piece.units.sign}"


def _strips(context: Context, every: Sequence[tuple[Stick, Sequence[Laid]]]) -> tuple[Sheet, ...]:
    """Return pages filled with the strips of all sticks; each stands on the first page that has room for it."""
    page = _paper(context)
    pages: list[list[Record]] = []
    names: list[list[str]] = []
    levels: list[float] = []
    for number, stick, part in ((n, stick, part) for n, (stick, laid) in enumerate(every, 1) for part in laid):
        tall = depth(part.sides, part.style)
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
            drawn = strip(piece, part.sides, part.style, (f"Stick {number}", stick.name), len(part.pieces))
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
