"""A printer that was measured, and what a page must be drawn at so that it comes out of it true.

“Across” is along the paper's short side, “down” along its long side, whichever way a page lies: a page that lies on
its side is turned by the printer before it is printed.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from docgen.expressions import ExprFault, KindFault, as_length, parse
from docgen.layout.model import Layout
from docgen.places import Span
from docgen.reading.problems import Problem, Problems
from docgen.units import Quantity, Units

MOST = 0.03  # of the length: what is further off is a page that was fitted, not a printer
LEAST_LENGTH = 150.0  # mm: a reading error of 0.25 mm is then 0.17 per cent
MOST_APART = 0.004  # between two lengths of one direction: both read 0.25 mm wrongly the opposite way, and some
MOST_LENGTHS = 2
NAME = re.compile(r"[^\W_][\w .-]{0,39}")
_SHEET = re.compile(r"([\d.]+) × ([\d.]+) mm")
SHAPE = "write the printed length's true size, =, and what the rule says: 200=198.4"
ROLL = "roll"
"""What a record says of its paper when that was a roll; of sheets it says their size."""
SLACK = 1.0  # mm by which a line may be longer than its paper: sizes of paper are rounded
FITTED = (
    "no printer errs by more than 3 %: print the page at actual size, 100 %, without “fit” or “shrink to page”, "
    "and measure it again"
)


@dataclass(frozen=True, slots=True)
class Measured:
    """A length that was meant and what a steel rule said of it on paper, mm."""

    meant: float
    read: float

    def __str__(self) -> str:
        return f"{self.meant:.10g}={self.read:.10g}"


@dataclass(frozen=True, slots=True)
class Printer:
    """A printer by its name, with one or two measured lengths in each direction.

    On a `roll` so wide, mm, “across” is over the roll and “down” along it, however long a page is. `paper` is what it was
    measured on: "roll", a size as `sheet_words` tells it, or "" for an old record that does not say.
    """

    name: str
    across: tuple[Measured, ...]
    down: tuple[Measured, ...]
    roll: float | None = None
    paper: str = ""

    def factors(self, size: tuple[float, float]) -> tuple[float, float]:
        """Return by how much a page of `size` is drawn larger in x and in y."""
        across, down = 1 / scale(self.across), 1 / scale(self.down)
        upright = size[0] <= size[1] if self.roll is None else size[1] != self.roll
        return (across, down) if upright else (down, across)

    @property
    def words(self) -> str:
        """The record in one line; equal records, equal words."""
        return f"printer={self.name} across={list(map(str, self.across))} down={list(map(str, self.down))}"

    def inside(self, layout: Layout) -> Layout:
        """Return the layout with as much white at the edges as keeps drawn pages in the printable area.

        A page that is drawn larger about its middle must still end where the printer can reach.
        """
        edge = layout.unprintable
        needed = (
            side / 2 - (side / 2 - edge) / f for side, f in zip(layout.size, self.factors(layout.size), strict=True)
        )
        return replace(layout, unprintable=max(edge, *needed))


def scale(lengths: Sequence[Measured]) -> float:
    """Return what the printer makes of 1: the slope of the best line through the origin and all lengths."""
    return sum(m.meant * m.read for m in lengths) / sum(m.meant**2 for m in lengths)


def sheet_words(size: tuple[float, float]) -> str:
    """Return what a sheet's size is called, its short side first: "210 × 297 mm"."""
    return f"{min(size):g} × {max(size):g} mm"


def sheet_size(words: str) -> tuple[float, float] | None:
    """Return the size that `sheet_words` tells, None for anything else."""
    found = _SHEET.fullmatch(words)
    return (float(found[1]), float(found[2])) if found else None


def printer(
    name: str, across: Sequence[tuple[str, Span]], down: Sequence[tuple[str, Span]], where: Span, paper: str = ""
) -> Printer:
    """Return the printer of texts like "200=198.4", each with its place; Problems with all that is wrong.

    Lengths that do not fit on the `paper` were measured on another one.
    """
    problems = [] if NAME.fullmatch(name) and name == name.strip() else [_bad_name(name, where)]
    found: list[tuple[Measured, ...]] = []
    for way, texts in (("across", across), ("down", down)):
        try:
            found.append(_direction(way, texts, where))
        except Problems as wrong:
            problems += wrong.items
    if problems:
        raise Problems(problems)
    made = Printer(name, found[0], found[1], paper=paper)
    size = sheet_size(paper)
    for way, side, lengths in (("across", 0, made.across), ("down", 1, made.down)) if size else ():
        if size and lengths[-1].meant > size[side] + SLACK:
            message = f"{lengths[-1].meant:g} mm {way} does not lie on paper of {paper}"
            hint = "say what was measured: --paper letter, --paper a3, a layout file, or --paper roll"
            problems.append(Problem("printer-paper", (across if side == 0 else down)[-1][1], message, hint))
    if problems:
        raise Problems(problems)
    return made


def unsuited(measured: Printer, sheet: str) -> str:
    """Return why a record does not serve pages for `sheet`, "roll" or a size; "" where it does or does not say."""
    if not measured.paper or (measured.paper == ROLL) == (sheet == ROLL):
        return ""
    on, now = (_on(words) for words in (measured.paper, sheet))
    return f"'{measured.name}' was measured {on}, these pages are printed {now}, which it feeds otherwise"


def doubtful(measured: Printer, sheet: str) -> str:
    """Return what to look at before pages for `sheet` are used, "" for nothing."""
    if measured.paper == sheet or (not measured.paper and sheet != ROLL):
        return ""
    if not measured.paper:
        return f"the record of '{measured.name}' does not say on what paper it was measured; these pages are for a roll"
    return f"'{measured.name}' was measured {_on(measured.paper)}, these pages are printed {_on(sheet)}"


def _on(paper: str) -> str:
    return "on a roll" if paper == ROLL else f"on paper of {paper}"


def _bad_name(name: str, where: Span) -> Problem:
    hint = "use letters, digits, spaces, -, _ and ., beginning with a letter or digit, at most 40 in all"
    return Problem("printer-name", where, f"a printer cannot be called '{name}'", hint)


def _direction(way: str, texts: Sequence[tuple[str, Span]], where: Span) -> tuple[Measured, ...]:
    """Return the lengths of one direction, sorted; Problems when they are none, too many, or contradict."""
    if not 1 <= len(texts) <= MOST_LENGTHS:
        message = f"'{way}' takes one or two measured lengths, here are {len(texts)}"
        raise Problems([Problem("printer-figures", where, message, SHAPE)])
    lengths = tuple(sorted((_measured(way, text, span) for text, span in texts), key=lambda m: (m.meant, m.read)))
    ratios = [m.read / m.meant for m in lengths]
    if max(ratios) - min(ratios) > MOST_APART:
        message = f"the lengths {way} contradict: {' and '.join(f'{100 * r:.2f} %' for r in ratios)}"
        raise Problems([Problem("printer-lengths-differ", texts[-1][1], message, "measure both again")])
    return lengths


def _measured(way: str, text: str, span: Span) -> Measured:
    meant, sign, read = text.partition("=")
    if not sign:
        raise Problems([Problem("printer-figures", span, f"'{text}' is no measured length {way}", SHAPE)])
    found = Measured(_length(meant, span), _length(read, span))
    if found.meant < LEAST_LENGTH:
        message = f"{found.meant:g} mm {way} is too short to tell; the least is {LEAST_LENGTH:g} mm"
        raise Problems([Problem("printer-short", span, message, "measure the long line of the calibration page")])
    if found.read <= 0 or abs(found.meant / found.read - 1) > MOST + 1e-9:
        message = f"{found.meant:g} mm printed as {found.read:g} mm {way} is {100 * found.read / found.meant:.1f} %"
        raise Problems([Problem("printer-range", span, message, FITTED)])
    return found


def _length(text: str, span: Span) -> float:
    """Return a length in mm; a bare number is one in millimetres."""
    try:
        return float(as_length(parse(text.strip(), span, Units("mm")).evaluate(_no_names), Units("mm")))
    except (ExprFault, KindFault) as fault:
        raise Problems([Problem("printer-figures", span, f"'{text.strip()}' is no length: {fault}", SHAPE)]) from None


def _no_names(name: str) -> Quantity:
    raise KeyError(name)
