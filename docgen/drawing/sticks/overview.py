"""The whole stick reduced: ends, datum, joins with the pieces' numbers, and the marks by number."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.drawing.metrics import Metrics
from docgen.drawing.records import Area, Line, Path, Pen, Record, Text
from docgen.drawing.sticks.fan import spread
from docgen.drawing.sticks.pieces import Piece
from docgen.layout.model import Heights, Rect

BAR = 6.0  # mm: height of the reduced stick
FAN = 6.0  # mm
SHADE = 0.88  # of every other piece


def overview(
    room: Rect,
    ends: tuple[float, float],
    pieces: Sequence[Piece],
    marks: Sequence[tuple[int, float]],
    heights: Heights,
    metrics: Metrics,
) -> list[Record]:
    """Return the stick within `room`: `marks` (number, mm from the datum) above, numbers of `pieces` below."""
    scale = room.width / (ends[1] - ends[0])

    def x_of(position: float) -> float:
        return room.x + (position - ends[0]) * scale

    low = room.y + heights.note + 2.5
    high = low + BAR
    out: list[Record] = []
    for piece in pieces:
        left, right = x_of(max(piece.start, ends[0])), x_of(min(piece.end, ends[1]))
        if piece.number % 2 == 0:
            out.append(Area((((left, low), (right, low), (right, high), (left, high)),), SHADE))
        if not piece.first:
            out.append(Line((left, low - 2), (left, high), Pen.TRIM))
        out.append(Text(((left + right) / 2, room.y), str(piece.number), heights.note, "middle"))
    out.append(Path(((room.x, low), (room.right, low), (room.right, high), (room.x, high)), Pen.THIN, closed=True))
    out.append(Line((x_of(0.0), low - 1), (x_of(0.0), high + 1), Pen.DATUM))
    names = [str(number) for number, _ in marks]
    widths = [metrics.width(n, heights.small) + 1.4 for n in names]
    at = spread([x_of(m) for _, m in marks], widths, room.x - 4, room.right + 4)
    for i, (name, (_, mark)) in enumerate(zip(names, marks, strict=True)):
        out.append(Line((x_of(mark), low), (x_of(mark), high), Pen.THIN))
        if at is not None:
            out.append(Line((x_of(mark), high), (at[i], high + FAN - 1), Pen.THIN))
            out.append(Text((at[i], high + FAN), name, heights.small, "middle"))
    return out


def overview_height(heights: Heights) -> float:
    """Return the height in mm that an overview takes."""
    return heights.note + 2.5 + BAR + FAN + heights.small + 1
