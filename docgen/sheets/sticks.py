"""Story sticks: the whole reduced with a table of its marks, then its pieces at true size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from docgen.drawing.columns import Column
from docgen.drawing.placing import moved
from docgen.drawing.records import Record, Sheet
from docgen.drawing.sticks.overview import overview, overview_height
from docgen.drawing.sticks.pieces import STEPS, Piece, Side, pieces, sides, taken
from docgen.drawing.sticks.strip import Style, depth, places, shown, strip
from docgen.drawing.tables import Row
from docgen.drawing.tiling.heading import PRINT, heading
from docgen.drawing.tiling.paper import Paper, papers
from docgen.piece.records import Face
from docgen.schedules.rows import Stick
from docgen.schedules.sticks import hand_faces, marks_of
from docgen.sheets.context import Context
from docgen.sheets.flow import Flow, length
from docgen.sheets.truesize import printing

KIND = "sticks"
EDGES = 2  # of a strip that carry marks
LEFT = 2.0  # mm between the upright check line and the strips
BETWEEN = 5.0  # mm between strips on a page
STICK_USE = (
    "A story stick is a strip of wood that carries every mark of a part at true size, so that nothing is measured twice. Cut the "
    "pieces out, lay each over the one before on the dashed line so that the crosses meet, and glue them to a straight strip of wood.",
    "Each piece has its own scale and its figures count from the datum end: lay a steel rule on it and set the piece to its figures. "
    "A printer's small error then stays within one piece and cannot add up.",
    "Hold the datum end flush with the datum end of the part. X: cut away here. Arrow: the wood that stays. Ring on a chain line: "
    "centre of a hole. Marks of two faces stand on the two edges of the stick.",
)
WOOD = {-1: "wood before it", 1: "wood after it", 0: "centre"}


@dataclass(frozen=True, slots=True)
class Laid:
    """A stick laid out: its sides two by two, the pieces of each pair, and how labels are set."""

    sides: tuple[Side, ...]
    pieces: tuple[Piece, ...]
    style: Style


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return for each stick its overview and table, and its strips; none when no part has marks."""
    out: list[Sheet] = []
    for i, stick in enumerate(context.lists.sticks, 1):
        laid = _laid(context, stick)
        out.extend(_first(context, stick, i, laid))
        out.extend(_strips(context, stick, i, laid))
    return tuple(out)


def _paper(context: Context) -> Paper:
    """Return the page lying the way that takes the longer pieces."""
    return max(papers(context.layout), key=lambda p: p.window.width)


def _laid(context: Context, stick: Stick) -> tuple[Laid, ...]:
    part = context.piece.part(stick.parts[0])
    every = sides(stick.marks, stick.length, stick.datum, {f: part.word(f) for f in {m.face for m in stick.marks}})
    page = _paper(context)
    style = Style(context.piece.units, page.layout.heights, context.metrics, page.layout.overlap)
    out: list[Laid] = []
    for i in range(0, len(every), EDGES):
        pair = _cut(every[i : i + EDGES], stick, style, page)
        if depth(pair.sides, pair.style) <= page.window.height - 4:
            out.append(pair)
        else:  # long labels on both edges: a strip for each face
            out.extend(_cut((side,), stick, style, page) for side in pair.sides)
    return tuple(out)


def _cut(pair: tuple[Side, ...], stick: Stick, style: Style, page: Paper) -> Laid:
    """Return the pieces of a strip: labels level where that takes no more pieces, else at right angles."""
    low, high = float(stick.length[0]), float(stick.length[1])
    tried = []
    for way in (style, replace(style, upright=True)):

        def fits(start: float, end: float, way: Style = way) -> bool:
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
        tried.append(Laid(pair, cut, way))
    return min(tried, key=lambda laid: len(laid.pieces))


def _title(stick: Stick) -> str:
    return f"Story stick: {stick.name}"


def _first(context: Context, stick: Stick, number: int, laid: Sequence[Laid]) -> tuple[Sheet, ...]:
    flow = Flow(context, key=f"stick/{number}", kind=KIND, title=_title(stick))
    if number == 1:
        flow.points(STICK_USE)
        flow.points(printing(context))
    flow.heading(f"The whole stick, from the {stick.datum}")
    flow.text(_hands(context, stick))
    heights = context.layout.heights
    ends = (float(stick.length[0]), float(stick.length[1]))
    for part in laid:
        room = flow.take(overview_height(heights) + 3)
        inner = replace(room, x=room.x + 5, width=room.width - 10, height=room.height)
        numbered = [(i, m) for i, m in enumerate(stick.marks, 1) if any(s.face == m.face for s in part.sides)]
        marks = [(i, float(m.position)) for i, m in numbered]
        flow.add(overview(inner, ends, part.pieces, marks, heights, context.metrics))
    flow.gap(2.0)
    flow.text("Numbers above are those of the table; numbers below are the pieces.")
    unit = context.piece.units.sign
    columns = (
        Column("mark", "middle", bold=True),
        Column(f"from the {stick.datum}, {unit}", "figures", bold=True),
        Column("what", grow=1.0),
        Column("face"),
        Column("the line is"),
    )
    flow.table(columns, _table(context, stick))
    return flow.sheets(outline=("Story sticks",))


def _table(context: Context, stick: Stick) -> list[Row]:
    part = context.piece.part(stick.parts[0])
    return [
        Row((str(i), length(context, m.position), m.label, part.word(m.face), WOOD[m.wood]))
        for i, m in enumerate(stick.marks, 1)
    ]


def _hands(context: Context, stick: Stick) -> str:
    """Return which parts the stick serves and how the faces of the other hand are called."""
    told = f"For {', '.join(stick.parts)}. Length {_with_unit(context, stick)}."
    if not stick.mirrored:
        return told
    part, other = context.piece.part(stick.parts[0]), context.piece.part(stick.mirrored[0])
    faces: dict[Face, Face] = hand_faces(stick.marks, marks_of(other)) or {}
    pairs = [f"its {other.word(b)} face for the {part.word(a)} face" for a, b in faces.items()]
    return (
        f"{told} The same stick serves the other hand, {', '.join(stick.mirrored)}: from its own {stick.datum}, "
        f"{' and '.join(pairs)}."
    )


def _with_unit(context: Context, stick: Stick) -> str:
    return f"{length(context, stick.length[1] - stick.length[0])} {context.piece.units.sign}"


def _strips(context: Context, stick: Stick, number: int, laid: Sequence[Laid]) -> tuple[Sheet, ...]:
    page = _paper(context)
    pages: list[list[Record]] = []
    y = page.window.top - 2
    for part in laid:
        tall = depth(part.sides, part.style)
        for piece in part.pieces:
            if not pages or y - tall < page.window.y:
                told = [
                    "Cut the strips out along their long edges. Cut the dashed end, lay it over the strip before so that the crosses meet.",
                    PRINT,
                ]
                pages.append(
                    heading(page, name="", title=_title(stick), lines=told, metrics=context.metrics, mapped=False)
                )
                y = page.window.top - 2
            y -= tall
            left = piece.start - (0 if piece.first else part.style.overlap / 2)
            drawn = strip(piece, part.sides, part.style, stick.name, len(part.pieces))
            pages[-1].extend(moved(r, page.window.x + LEFT - left, y) for r in drawn)
            y -= BETWEEN
    return tuple(
        Sheet(
            f"stick/{number}/strips/{i}",
            KIND,
            f"{_title(stick)}, strips",
            page.size,
            tuple(records),
            "full size",
            framed=False,
            outline=("Story sticks",),
        )
        for i, records in enumerate(pages, 1)
    )
