"""The same look at a packet as in `audit`, through PDFium, in a fifth of the time: by whole runs of text, not by words.

It shares no code with the writer, nor with pdfplumber.
"""

from __future__ import annotations

import ctypes
from collections.abc import Iterator
from typing import Any

import pypdfium2
from pypdfium2 import raw

from tests.support.audit import LEAST_EDGE, LEAST_POINTS, MM, Box, Fault, Segment, Strokes, inside, shrunk

CHORDS = 8  # of one piece of a curve
DARK = 190  # of 255: what is lighter does not strike
TRIMMED = 0.5  # points: PDFium's boxes hug the glyphs
COVERED = 0.08  # of the smaller text: less is the corner of a box that is empty, as beside a stacked fraction
Point = tuple[float, float]


def quick_audit(data: bytes) -> Iterator[Fault]:
    """Yield what lies on what, is too small or too near the paper's edge."""
    document = pypdfium2.PdfDocument(data)
    for number in range(len(document)):
        yield from _page(document[number], number + 1)
    document.close()


def _page(page: Any, number: int) -> Iterator[Fault]:
    wide, high = page.get_size()
    texts: list[tuple[str, Box]] = []
    lines: list[Segment] = []
    reader = page.get_textpage()
    for item in page.get_objects(max_depth=6):
        if item.type == raw.FPDF_PAGEOBJ_TEXT:
            said, box = _said(item, reader), item.get_bounds()
            if not said:
                continue
            texts.append((said, box))
            at = (box[0] / MM, box[1] / MM)
            if _points(item) < LEAST_POINTS:
                yield Fault(number, "small", f"{said!r} is {_points(item):.1f} pt", at)
            if min(box[0], box[1], wide - box[2], high - box[3]) < LEAST_EDGE - 1:
                yield Fault(number, "margin", f"{said!r} is too close to the paper's edge", at)
        elif item.type == raw.FPDF_PAGEOBJ_PATH and _dark(item):
            lines += _segments(item)
    if not texts and not lines:
        yield Fault(number, "blank", "nothing on the page", (0, 0))
    strokes = Strokes(lines)
    for said, box in texts:
        inner = shrunk(box, TRIMMED)
        if any(inside(s, inner) > 1.5 for s in strokes.near(box)):
            yield Fault(number, "struck", f"a line runs through {said!r}", (box[0] / MM, box[1] / MM))
    yield from _overlaps(texts, number)


def _overlaps(texts: list[tuple[str, Box]], number: int) -> Iterator[Fault]:
    texts = sorted(((said, shrunk(box, TRIMMED)) for said, box in texts), key=lambda t: t[1][0])
    for i, (said, a) in enumerate(texts):
        for other, b in texts[i + 1 :]:
            if b[0] >= a[2]:
                break
            shared = (min(a[2], b[2]) - b[0]) * (min(a[3], b[3]) - max(a[1], b[1]))
            if shared > COVERED * min(_area(a), _area(b)) > 0:
                yield Fault(number, "overlap", f"{said!r} and {other!r}", (a[0] / MM, a[1] / MM))


def _area(box: Box) -> float:
    return (box[2] - box[0]) * (box[3] - box[1])


def _said(item: Any, reader: Any) -> str:
    length = raw.FPDFTextObj_GetText(item, reader, None, 0)
    buffer = (ctypes.c_ushort * max(1, length // 2))()
    raw.FPDFTextObj_GetText(item, reader, buffer, length)
    return bytes(buffer).decode("utf-16-le", "replace").rstrip("\x00").strip()


def _points(item: Any) -> float:
    size = ctypes.c_float()
    raw.FPDFTextObj_GetFontSize(item, size)
    m = item.get_matrix()
    return float(size.value * (m.c**2 + m.d**2) ** 0.5)


def _dark(item: Any) -> bool:
    """Return whether a path is stroked in something that is no light grey."""
    fill, stroke = ctypes.c_int(), ctypes.c_int()
    raw.FPDFPath_GetDrawMode(item, fill, stroke)
    if not stroke.value:
        return False
    shades = [ctypes.c_uint() for _ in range(4)]
    return bool(raw.FPDFPageObj_GetStrokeColor(item, *shades)) and min(s.value for s in shades[:3]) <= DARK


def _segments(item: Any) -> Iterator[Segment]:
    """Yield the straight pieces of a path on its page, curves in chords."""
    m = item.get_matrix()
    x, y = ctypes.c_float(), ctypes.c_float()
    first = last = (0.0, 0.0)
    held: list[Point] = []
    for n in range(raw.FPDFPath_CountSegments(item)):
        piece = raw.FPDFPath_GetPathSegment(item, n)
        raw.FPDFPathSegment_GetPoint(piece, x, y)
        p = (m.a * x.value + m.c * y.value + m.e, m.b * x.value + m.d * y.value + m.f)
        kind = raw.FPDFPathSegment_GetType(piece)
        if kind == raw.FPDF_SEGMENT_MOVETO:
            first = last = p
        elif kind == raw.FPDF_SEGMENT_LINETO:
            yield (*last, *p)
            last = p
        else:
            held.append(p)
            if len(held) == 3:
                for q in _chords(last, *held):
                    yield (*last, *q)
                    last = q
                held = []
        if raw.FPDFPathSegment_GetClose(piece) and last != first:
            yield (*last, *first)
            last = first


def _chords(a: Point, b: Point, c: Point, d: Point) -> Iterator[Point]:
    for k in range(1, CHORDS + 1):
        t, u = k / CHORDS, 1 - k / CHORDS
        w = (u**3, 3 * u * u * t, 3 * u * t * t, t**3)
        yield (
            sum(i * p[0] for i, p in zip(w, (a, b, c, d), strict=True)),
            sum(i * p[1] for i, p in zip(w, (a, b, c, d), strict=True)),
        )
