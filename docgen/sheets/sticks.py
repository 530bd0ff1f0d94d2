"""Story sticks: the whole reduced with a table of its marks, then its pieces at true size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial

from docgen.drawing.columns import Column
from docgen.drawing.records import Sheet
from docgen.drawing.sticks.overview import overview, overview_height
from docgen.drawing.tables import Row, Style
from docgen.piece.naming import in_words
from docgen.piece.records import BOTH
from docgen.schedules.discs import SAME, disc_of
from docgen.schedules.milled import left_rough
from docgen.schedules.rows import Stick
from docgen.sheets.context import Context
from docgen.sheets.flow import Flow, drawn_together, length
from docgen.sheets.stick_faces import LENGTHWISE, called_by, face_words, lettered, on_face
from docgen.sheets.stick_strips import KIND, Laid, laid, strips
from docgen.sheets.truesize import LONG_PAPER, moves, printing

TABLE = 3.0  # mm: lettering of the tables of marks
ROW = 5.2  # mm: what a row of them takes
MOST_KEPT = 110.0  # mm: what is kept together of a picture and its table
STICK_USE = (
    "A story stick carries every mark of a part at true size, so that nothing is measured twice. Cut the pieces out, lay each over "
    "the one before on the dashed line so that the crosses meet, and glue them to a straight strip of wood.",
    "Lay a steel rule along and set each piece to its own figures, which count from the datum end: a printer's small error then "
    "stays within one piece and cannot add up.",
    "The squared end of the strip of wood is the datum: hold it flush with the datum end of the part. Where that is a shoulder, hold "
    "0 at its line; the tongue reaches past it. X: cut away here. Arrow: the wood that stays. A line without either: wood stays on "
    "both sides. Ring on a chain line: a centre. Marks of two faces stand on the two edges of the stick, or each face has a strip of "
    "its own.",
    "In the pictures of whole sticks the numbers above are those of the table, those below the pieces, a grey or white field each. "
    "“After” in the tables: the wood stays on the side away from the datum.",
)
PRINT_AS = (
    "Print at actual size, 100 %, and measure both check lines: all as the first page of the true-size templates says.",
)
RUNS = "Lengthwise: a run along the part, as a rabbet at one edge, begins or stops there. Its marks have a line of their own, and hold for that edge alone."
WOOD = {-1: "before", 1: "after", 0: "centre", BOTH: "both"}


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return overviews and tables of all sticks, then their strips; none when no part has marks."""
    every = [(n, stick, laid(context, stick)) for n, stick in enumerate(context.lists.sticks, 1)]
    if not every:
        return ()
    flow = drawn_together(partial(_filled, context, every, printed=bool(before.get("templates"))))
    return (*flow.sheets(outline=("Story sticks",)), *strips(context, every))


def _filled(context: Context, every: Sequence[tuple[int, Stick, Sequence[Laid]]], air: float, *, printed: bool) -> Flow:
    """Return the pages of overviews and tables with so much of the usual air; `printed`: how to print is told before."""
    flow = Flow(context, key="sticks", kind=KIND, title="Story sticks", air=air)
    flow.heading("How to use these pages")
    longest = max(float(s.length[1] - s.length[0]) for s in context.lists.sticks)
    own = (moves(longest, context.piece.units),) if longest > LONG_PAPER else ()
    runs = (RUNS,) if any(LENGTHWISE in s.word for _, _, parts in every for p in parts for s in p.sides) else ()
    flow.points((*STICK_USE, *runs, *(PRINT_AS if printed else printing(context)), *own))
    for number, stick, parts in every:
        _first(flow, context, number, stick, parts)
    return flow


def _first(flow: Flow, context: Context, number: int, stick: Stick, parts: Sequence[Laid]) -> None:
    """Set which face is which on each part, the overview and the table of one stick."""
    heights = context.layout.heights
    style = Style(TABLE, heights.least, heights.note, heights.note)
    smaller = replace(style, height=heights.least)
    faces = lettered(context, stick)
    marks = _table(context, stick)
    tall = flow.tall(_columns(context, stick), marks, smaller) + len(parts) * (overview_height(heights) + 3)
    keep = min(MOST_KEPT, tall + ROW * (2 + (len(stick.faces) + 2 if faces else 0)))
    flow.heading(f"Stick {number}: {stick.name}, from the {stick.datum}", keep=keep)
    flow.text(_hands(context, stick))
    if faces:
        columns = [Column("on the"), *(Column(f"face {letter} is the") for letter in faces)]
        flow.table(columns, _faces(context, stick), style)
    _pictures(flow, context, stick, parts)
    columns = _columns(context, stick)
    saves = flow.breaks(columns, marks, style) and not flow.breaks(columns, marks, smaller)
    flow.table(columns, marks, smaller if saves else style)


def _columns(context: Context, stick: Stick) -> list[Column]:
    return [
        Column("mark", "middle", bold=True),
        Column(f"from the {stick.datum}, {context.piece.units.sign}", "figures", bold=True),
        Column("what", grow=1.0),
        Column("face"),
        Column("wood"),
    ]


def _pictures(flow: Flow, context: Context, stick: Stick, parts: Sequence[Laid]) -> None:
    """Set the whole stick reduced, once for each of its strips, with the numbers of the marks there."""
    heights = context.layout.heights
    ends = (float(stick.length[0]), float(stick.length[1]))
    words = face_words(context, stick)
    for part in parts:
        room = flow.take(overview_height(heights) + 3)
        inner = replace(room, x=room.x + 5, width=room.width - 10, height=room.height)
        # Faces without an edge of their own have their marks on the last strip.
        others = {w for p in parts if p is not part for s in p.sides for w in s.word.split(" and ")}
        here = {*words} - others if part is parts[-1] else {w for s in part.sides for w in s.word.split(" and ")}
        marks = [(i, float(m.position)) for i, m in enumerate(stick.marks, 1) if words[i - 1] in here]
        flow.add(overview(inner, ends, part.pieces, marks, heights, context.metrics))
    flow.gap(2.0)


def _faces(context: Context, stick: Stick) -> list[Row]:
    """Return one row for parts that lie alike: their names, and which of their faces each letter is."""
    names = called_by(context)
    lies = lettered(context, stick).values()
    return [
        Row((", ".join(names[p] for p in parts), *(face[k][1] for face in lies)))
        for k, (parts, _) in enumerate(stick.faces)
    ]


def _table(context: Context, stick: Stick) -> list[Row]:
    names = called_by(context)
    out = []
    for i, (mark, face) in enumerate(zip(stick.marks, face_words(context, stick), strict=True)):
        what = "; ".join(text for text in (in_words(mark.label, names), _noted(stick.notes[i], names)) if text)
        word = on_face(face).removeprefix("face ")
        out.append(Row((str(i + 1), length(context, mark.position), what, word, WOOD[mark.wood])))
    return out


def _noted(notes: Sequence[tuple[str, tuple[str, ...]]], names: Mapping[str, str]) -> str:
    """Return what a mark leaves open; where it differs from part to part, with their names."""
    if len(notes) < 2:
        return "".join(note for note, _ in notes)
    return "; ".join(f"{', '.join(names[p] for p in where)}: {note}" for note, where in notes)


def _hands(context: Context, stick: Stick) -> str:
    """Return which parts the stick serves, and that letters stand for faces that are not the same on all."""
    names = called_by(context)
    every = (*stick.parts, *stick.mirrored)
    several = f"For {', '.join(names[p] for p in every)}. " if len(every) > 1 else ""
    letters = (
        " A letter stands for a face or an edge that is not the same on all of them; all are marked from the same end."
    )
    return (
        f"{several}Length {_with_unit(context, stick)}.{letters if stick.mirrored else ''}{_on_centre(context, stick)}"
    )


def _on_centre(context: Context, stick: Stick) -> str:
    """Return how the stick of a part that is left rough is laid: its end is a line drawn on the blank, and is cut away."""
    part = context.piece.part(stick.parts[0])
    if not left_rough(part):
        return ""
    middle = sum(map(float, stick.length)) / 2
    nth = next((i for i, m in enumerate(stick.marks, 1) if abs(float(m.position) - middle) < SAME), None)
    lay = f"lay mark {nth}, the centre, on the centre line" if nth and disc_of(part) else "hold 0 there"
    return f" The {stick.datum} is the line of the finished box drawn on the blank, not its edge: {lay}."


def _with_unit(context: Context, stick: Stick) -> str:
    return f"{length(context, stick.length[1] - stick.length[0])} {context.piece.units.sign}"
