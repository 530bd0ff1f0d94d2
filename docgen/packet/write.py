"""The packet as a PDF file: records replayed on pages, with labels, outline and links.

Same sheets, same bytes: neither the clock nor the environment is asked, and nothing is numbered at random.
"""

from __future__ import annotations

import contextlib
import hashlib
import io
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import groupby
from typing import Any

from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFInfo, PDFName, PDFString
from reportlab.pdfgen.canvas import Canvas

import docgen
from docgen.drawing.lettering import set_text
from docgen.drawing.records import Arc, Area, Line, Link, Picture, Record, Sheet, Text
from docgen.drawing.records import Path as Chain
from docgen.layout.model import Layout
from docgen.layout.printers import Printer
from docgen.packet.fonts import METRICS, POINTS_PER_MM, PacketMetrics, font, points, printable
from docgen.packet.frames import page_records
from docgen.packet.pictures import picture
from docgen.packet.strokes import filled, moved_back, number, placed_text, stroked
from docgen.piece.model import Piece

PDF_VERSION = (1, 6)  # the first that knows PrintScaling
rl_config.useA85 = 0  # streams stay binary: half the size and half the time


class _Information(PDFInfo):  # type: ignore[misc]
    """The document's description without any time of day."""

    def format(self, document: Any) -> Any:
        """Return the dictionary as it stands in the file."""
        entries = {
            "Title": self.title,
            "Subject": self.subject,
            "Keywords": self.keywords,
            "Creator": self.creator,
            "Producer": self.producer,
        }
        if self.author:
            entries["Author"] = self.author
        described = {key: PDFString(value) for key, value in entries.items()}
        return PDFDictionary({**described, "Trapped": PDFName("False")}).format(document)


def write(
    sheets: Sequence[Sheet],
    *,
    layout: Layout,
    piece: Piece,
    fingerprint: str,
    stopped: bool = False,
    printer: Printer | None = None,
) -> bytes:
    """Return the packet as the bytes of a PDF file.

    Each sheet gets its frame, title block, page number and fingerprint; with `stopped` each page says that it must
    not be cut from. With a `printer` unframed pages are drawn so that they come out of it true. No sheets, two with
    one key, or links on a page that is drawn for a printer, are a ValueError.
    """
    if not sheets:
        raise ValueError("a packet needs at least one sheet")
    keys = [sheet.key for sheet in sheets]
    if len(set(keys)) < len(keys):
        raise ValueError(f"two sheets have the key {next(k for k in keys if keys.count(k) > 1)!r}")
    out = io.BytesIO()
    canvas = _canvas(out, piece, fingerprint)
    metrics = METRICS
    shown = partial(_shown, canvas, {})
    marks = _marks(sheets)
    for index, sheet in enumerate(sheets):
        paper = layout.for_size(sheet.size)
        canvas.setPageSize((sheet.size[0] * POINTS_PER_MM, sheet.size[1] * POINTS_PER_MM))
        for key in dict.fromkeys([sheet.key, *(m.key for m in marks if m.page == index)]):
            canvas.bookmarkPage(key)
        canvas.addPageLabel(index, style="ARABIC", start=index + 1)
        around = page_records(
            sheet,
            paper,
            piece,
            metrics,
            page=index + 1,
            pages=len(sheets),
            fingerprint=fingerprint,
            stopped=stopped,
            printer=printer,
        )
        apart = printer is not None and printer.roll is not None  # there the foot stays by the edge of the longer page
        layers = ((around, True), (sheet.records, False)) if apart else (((*around, *sheet.records), False),)
        for records, foot in layers:
            with _corrected(canvas, sheet, printer, foot=foot):
                _page(canvas, records, layout, metrics, frozenset(keys), shown)
        canvas.showPage()
    for mark in marks:
        canvas.addOutlineEntry(mark.title, mark.key, mark.level, closed=True)
    canvas.save()
    return out.getvalue()


def _canvas(out: io.BytesIO, piece: Piece, fingerprint: str) -> Canvas:
    for bold in (False, True):
        pdfmetrics.registerFont(font(bold))
    canvas = Canvas(
        out,
        pageCompression=1,
        invariant=1,
        pdfVersion=PDF_VERSION,
        initialFontName=font(False).fontName,  # else the file would name a font that it does not hold
        lang="en",
    )
    document = canvas._doc
    document.info = _Information()
    # The library mixes a time into the file's identifier, which SOURCE_DATE_EPOCH may set: begin anew without it.
    document.signature = hashlib.md5(f"docgen {fingerprint}".encode(), usedforsecurity=False)
    number_text = f"{piece.number} " if piece.number else ""
    revision = f", revision {piece.revision}" if piece.revision else ""
    canvas.setTitle(f"{number_text}{piece.title}{revision}")
    canvas.setSubject(f"Shop packet, fingerprint {fingerprint}")
    canvas.setKeywords(fingerprint)
    canvas.setAuthor(piece.author)
    canvas.setCreator(f"docgen {docgen.__version__}")
    canvas.setProducer(f"docgen {docgen.__version__}")
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("Duplex", "Simplex")  # pages are cut up
    canvas.setViewerPreference("DisplayDocTitle", "true")
    canvas.showOutline()
    return canvas


@contextlib.contextmanager
def _corrected(canvas: Canvas, sheet: Sheet, printer: Printer | None, *, foot: bool = False) -> Iterator[None]:
    """Draw an unframed page larger or smaller about its middle, as its printer needs it; links have no place there.

    The `foot` of a page on a roll is corrected over the roll alone.
    """
    if printer is None or sheet.framed:
        yield
        return
    if any(isinstance(record, Link) for record in sheet.records):
        raise ValueError(f"the true-size page {sheet.key!r} has links, which would not follow the printer's scale")
    (x, y), (width, height) = printer.factors(sheet.size), sheet.size
    if foot:
        x, y = (1.0, y) if height == printer.roll else (x, 1.0)
    shift = (width / 2 * (1 - x) * POINTS_PER_MM, height / 2 * (1 - y) * POINTS_PER_MM)
    canvas.addLiteral(f"q {x:.8f} 0 0 {y:.8f} {number(shift[0])} {number(shift[1])} cm")
    yield
    canvas.addLiteral("Q")


def _page(
    canvas: Canvas,
    records: Iterable[Record],
    layout: Layout,
    metrics: PacketMetrics,
    keys: frozenset[str],
    shown: Callable[[Text], str],
) -> None:
    for kind, group in groupby(_set(records, metrics), key=_kind):
        if kind is Line:
            for operators in stroked(group, layout.pens):  # type: ignore[arg-type]
                canvas.addLiteral(operators)
            continue
        for record in group:
            match record:
                case Area():
                    canvas.addLiteral(filled(record))
                case Text():
                    canvas.addLiteral(_text(record, metrics, shown))
                case Picture():
                    canvas.addLiteral(picture(record.name, record.box))
                case Link() if record.target in keys:
                    x, y, width, height = (v * POINTS_PER_MM for v in record.box)
                    canvas.linkRect("", record.target, Rect=(x, y, x + width, y + height), relative=0)


def _kind(record: Record) -> type:
    """Return Line for everything that is stroked, so that runs of strokes are drawn together."""
    return Line if isinstance(record, (Line, Chain, Arc)) else type(record)


def _set(records: Iterable[Record], metrics: PacketMetrics) -> Iterator[Record]:
    """Yield the records with stacked fractions taken apart into plain runs and bars."""
    for record in records:
        if isinstance(record, Text):
            yield from set_text(record, metrics)
        else:
            yield record


BACK = {"left": 0.0, "middle": 0.5, "right": 1.0}
"""How far before its anchor a text begins, in its widths."""


def _text(text: Text, metrics: PacketMetrics, shown: Callable[[Text], str]) -> str:
    """Return the operators of one plain run; its anchor is resolved here."""
    back = BACK[text.anchor]
    if back:
        back *= metrics.width(printable(text.text), text.height, text.bold)
    return placed_text(shown(text), moved_back(text.at, back, text.angle), text.angle)


def _shown(canvas: Canvas, known: dict[tuple[str, float, bool], str], text: Text) -> str:
    """Return font and string of a plain run; `known` holds those of the document: the same words stand on many pages.

    A character has its place in the font's subset from the first time that the document shows it.
    """
    key = (text.text, text.height, text.bold)
    if key not in known:
        face = font(text.bold)
        size = number(points(text.height, text.bold))
        known[key] = " ".join(
            f"{face.getSubsetInternalName(subset, canvas._doc)} {size} Tf <{codes.hex()}> Tj"
            for subset, codes in face.splitString(printable(text.text), canvas._doc)
        )
    return known[key]


@dataclass(frozen=True, slots=True)
class _Mark:
    """A line of the outline: its place in the tree, the page it leads to, a name of its own for that place."""

    title: str
    level: int
    page: int
    key: str


def _marks(sheets: Sequence[Sheet]) -> list[_Mark]:
    """Return the outline: one line for each sheet under its path; pages that go on with a title share one."""
    out: list[_Mark] = []
    above: tuple[str, ...] = ()
    last = ""
    for page, sheet in enumerate(sheets):
        same = 0
        while same < min(len(above), len(sheet.outline)) and above[same] == sheet.outline[same]:
            same += 1
        if same < len(above) or same < len(sheet.outline):
            last = ""
        out += [
            _Mark(sheet.outline[level], level, page, f"{sheet.key} above {level}")
            for level in range(same, len(sheet.outline))
        ]
        if sheet.title != last:
            out.append(_Mark(sheet.title, len(sheet.outline), page, sheet.key))
        above, last = sheet.outline, sheet.title
    return out
