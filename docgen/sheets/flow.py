"""Pages that are filled from the top down with text, tables and pictures, and go on as long as there is more.

A large paper is filled in columns: no line of text is longer than one reads at a glance.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from docgen.drawing.cells import Block, block
from docgen.drawing.columns import Column
from docgen.drawing.placing import moved
from docgen.drawing.records import Record, Sheet
from docgen.drawing.symbols import AUTHORITY, AUTHORITY_WORDS
from docgen.drawing.tables import Row, Style, table
from docgen.layout.model import Layout, Rect
from docgen.piece.records import Authority
from docgen.sheets.context import Context
from docgen.units import MINUS, Number, format_angle, format_length, format_number

AFTER_TEXT = 1.5  # mm
AFTER_TABLE = 5.0  # mm
LESS_AIR = (0.7, 0.45)  # of that between paragraphs and in rows, where it saves a page: first the more
COLUMN = 250.0  # mm: as wide as the tables are made for; a paper that has twice so much has two columns
NARROW = 80.0  # mm: of short lines without a table, so that an upright sheet has two columns
BETWEEN = 12.0  # mm between columns
_PLAIN_MINUS = re.compile(r"(?<=\d) - (?=0\.\d)")
_PLAIN_FRACTION = re.compile(r"(?<![\d/.])(\d+)/(\d+)(?![\d/.-])")


class Flow:
    """A sheet of as many pages as it needs; `wide` lays an upright paper on its side for broad tables.

    `area` is the column that is being filled; with `whole` a page has but one, as drawings over its width need it. `column` is
    the least width of one, mm. `air` is the share of the usual air between texts and in the rows of tables.
    """

    def __init__(
        self,
        context: Context,
        *,
        key: str,
        kind: str,
        title: str,
        wide: bool = False,
        whole: bool = False,
        column: float = COLUMN,
        air: float = 1.0,
    ) -> None:
        self.context, self.key, self.kind, self.title, self.air = context, key, kind, title, air
        upright = context.layout.size[0] < context.layout.size[1]
        self.layout: Layout = context.layout.turned() if wide and upright else context.layout
        self.columns = (self.layout.area,) if whole else _columns(self.layout.area, column)
        self.area: Rect = self.columns[0]
        self.pages: list[list[Record]] = [[]]
        self.y = self.area.top
        self._headed: tuple[str, list[Record], int, int] = (
            "",
            [],
            0,
            0,
        )  # the last heading: its page, its records from, to

    @property
    def at_top(self) -> bool:
        """True when nothing stands on the page yet."""
        return self.y >= self.area.top - 1e-6

    @property
    def rest(self) -> Rect:
        """What is left of the page."""
        return Rect(self.area.x, self.area.y, self.area.width, self.y - self.area.y)

    def turn_page(self) -> None:
        """Go on at the top of the next column, or of a new page under a line that says what goes on."""
        nth = self.columns.index(self.area) + 1
        self.area = self.columns[nth % len(self.columns)]
        self.y = self.area.top
        if nth < len(self.columns):
            return
        self.pages.append([])
        self._line(f"{self.title}, continued", self.layout.heights.note, bold=False, indent=0.0)
        self.y -= AFTER_TEXT * self.air

    def gap(self, mm: float) -> None:
        """Leave some air, unless a page begins here."""
        if not self.at_top:
            self.y -= mm * self.air

    def need(self, mm: float) -> None:
        """Go to a new page if less than so much is left, and more would be there."""
        if self.rest.height < mm and not self.at_top:
            self.turn_page()

    def heading(self, text: str, *, keep: float = 20.0) -> None:
        """Set a heading that stays with at least `keep` mm of what follows."""
        self.need(2 * self.layout.heights.heading + keep)
        self.gap(2.0)
        page, start = self.pages[-1], len(self.pages[-1])
        self._line(text, self.layout.heights.heading, bold=True, indent=0.0)
        self._headed = (text, page, start, len(page))
        self.y -= AFTER_TEXT * self.air

    def text(self, text: str, *, height: float | None = None, bold: bool = False, indent: float = 0.0) -> None:
        """Set a paragraph, over several pages if need be."""
        self._line(text, height or self.layout.heights.note, bold=bold, indent=indent)
        self.y -= AFTER_TEXT * self.air

    def points(self, texts: Sequence[str], *, sign: str = "–", indent: float = 0.0) -> None:
        """Set paragraphs that each begin with a sign."""
        for text in texts:
            self._line(text, self.layout.heights.note, bold=False, indent=indent + 4.0, sign=sign)
            self.y -= AFTER_TEXT * 0.6 * self.air

    def _line(self, text: str, height: float, *, bold: bool, indent: float, sign: str = "") -> None:
        rest = block(text, self.area.width - indent, height, self.context.metrics, bold=bold)
        while rest.lines:
            fits, rest = rest.parted(self.rest.height)
            if fits.lines:
                x = self.area.x + indent
                if sign:
                    mark = Block((sign,), height, bold, fits.reach[:1])
                    self.add(mark.records((x - 3.5, self.y)))
                    sign = ""
                self.add(fits.records((x, self.y)))
                self.y -= fits.tall
            if rest.lines:
                self.turn_page()

    def add(self, records: Sequence[Record]) -> None:
        """Put records on the page where they are."""
        self.pages[-1] += records

    def take(self, mm: float) -> Rect:
        """Return a strip of the page's full width, `mm` high, on a new page if it does not fit on this one."""
        self.need(mm)
        self.y -= mm
        return Rect(self.area.x, self.y, self.area.width, mm)

    def table(self, columns: Sequence[Column], rows: Sequence[Row], style: Style | None = None) -> None:
        """Set a table, over several pages if need be."""
        style = self._airy(style)
        following = self.following()
        placed = table(columns, rows, (self.rest, following), self.context.metrics, style)
        text, on, start, end = self._headed
        if (
            not placed[0].records and on is self.pages[-1] and 0 < start < end == len(on)
        ):  # a heading goes with its table
            del on[start:]
            self.turn_page()
            self.heading(text, keep=0.0)
            placed = table(columns, rows, (self.rest, following), self.context.metrics, style)
        for i, page in enumerate(placed):
            dx = dy = 0.0
            if i:
                self.turn_page()
                dx, dy = self.area.x - following.x, self.y - following.top
            self.add([moved(r, dx, dy) for r in page.records] if dx or dy else page.records)
            self.y = page.box.y + dy
        self.y -= AFTER_TABLE * self.air

    def _airy(self, style: Style | None) -> Style:
        heights = self.layout.heights
        style = style or Style(heights.figure, heights.least, heights.note, heights.note)
        return replace(style, air=style.air * self.air)

    def breaks(self, columns: Sequence[Column], rows: Sequence[Row], style: Style) -> bool:
        """Return whether a table set here would go on beyond this page or column."""
        return len(table(columns, rows, (self.rest, self.following()), self.context.metrics, self._airy(style))) > 1

    def tall(self, columns: Sequence[Column], rows: Sequence[Row], style: Style) -> float:
        """Return the height in mm of a table on a page of its own; of one that takes more, what it fills of the first."""
        following = self.following()
        return table(columns, rows, (following, following), self.context.metrics, self._airy(style))[0].box.height

    def following(self) -> Rect:
        """Return the room of a page that goes on: its first column less the line at its top."""
        area = self.columns[0]
        line = block("X", area.width, self.layout.heights.note, self.context.metrics)
        return Rect(area.x, area.y, area.width, area.height - line.tall - AFTER_TEXT * self.air)

    def sheets(self, *, outline: tuple[str, ...] = (), scale: str = "none") -> tuple[Sheet, ...]:
        """Return the pages; the first has the flow's key, the others are numbered after it."""
        return tuple(
            Sheet(
                key=self.key if i == 0 else f"{self.key}/{i + 1}",
                kind=self.kind,
                title=self.title,
                size=self.layout.size,
                records=tuple(records),
                scale=scale,
                outline=outline,
            )
            for i, records in enumerate(self.pages)
        )


def drawn_together(filled: Callable[[float], Flow]) -> Flow:
    """Return a flow on as few pages as it takes with slightly less air: no last page for what the others have room for.

    `filled` makes the flow with a share of the usual air; letters keep their size. A last page that stays gets all the air.
    """
    loose = filled(1.0)
    if len(loose.pages) == 1:
        return loose
    least = filled(LESS_AIR[-1])
    if len(least.pages) == len(loose.pages):
        return loose
    closer = (filled(air) for air in LESS_AIR[:-1])
    return next((flow for flow in closer if len(flow.pages) == len(least.pages)), least)


def _columns(area: Rect, column: float) -> tuple[Rect, ...]:
    count = max(1, int((area.width + BETWEEN) // (column + BETWEEN)))
    width = (area.width - (count - 1) * BETWEEN) / count
    return tuple(Rect(area.x + i * (width + BETWEEN), area.y, width, area.height) for i in range(count))


def signs_line(used: set[Authority]) -> str:
    """Return the explanation of the signs that stand on a page, in one line; nothing when none is used."""
    marked = [a for a in Authority if a in used and AUTHORITY[a]]
    return "   ".join([f"{AUTHORITY[a]} {AUTHORITY_WORDS[a]}" for a in marked] + ([NO_SIGN] if marked else []))


NO_SIGN = AUTHORITY_WORDS[Authority.CUT]


def length(context: Context, value: Number | None, *, without: str = "–") -> str:
    """Return a length as the packet prints it; `without` when there is none."""
    return without if value is None else format_length(value, context.piece.units)


def valued(context: Context, value: Number | str, kind: str) -> str:
    """Return a value of a set-up by its kind: length, angle, count or text."""
    if isinstance(value, str):
        return stacked(value)
    if kind == "length":
        return f"{format_length(value, context.piece.units)} {context.piece.units.sign}"
    return format_angle(value) if kind == "angle" else format_number(value)


def stacked(text: str) -> str:
    """Return `text` with its plain fractions as stacked ones, and a true minus before what a line of the rule is over.

    Thread sizes (1/4-20) stay on the line, and so do the quarters that boards are sold by (4/4, 6/4): they are names.
    """

    def stack(found: re.Match[str]) -> str:
        return f"{found[1]}\u2044{found[2]}" if int(found[1]) < int(found[2]) else found[0]

    return _PLAIN_FRACTION.sub(stack, _PLAIN_MINUS.sub(f" {MINUS} ", text))
