"""One general view on its way to a page: its lines, dimensions and words, made once for a scale and a height of figures."""

from __future__ import annotations

from copy import copy
from dataclasses import dataclass, field, replace

from docgen.drawing import symbols
from docgen.drawing import views as lines_of
from docgen.drawing.boxes import Box
from docgen.drawing.cells import block, measure
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.dimensions.wanted import Rules, Wanted
from docgen.drawing.lettering import box
from docgen.drawing.placing import Bounds, around
from docgen.drawing.records import Record, Text
from docgen.geometry.lines import Drawn
from docgen.sheets.context import Context
from docgen.sheets.views_leans import axes, ends
from docgen.sheets.views_sizes import caption, wanted
from docgen.sheets.views_words import words
from docgen.sheets.whole import Whole

ORDER = ("front", "right", "top")
BETWEEN = 5.0  # mm between the fields of two views at least
PEN = 0.5  # mm on paper: lines nearer than a wide line are one
LEAST = 3.0  # mm on paper: hidden lines that are shorter are left out
UNDER = 2.0  # mm: from a view with its dimensions to its name
WORDS = 60.0  # mm: lines of words under a view may be so wide, even where it is less so


@dataclass(frozen=True, slots=True)
class View:
    """One view with everything about it, the piece's origin at the paper's."""

    name: str
    records: tuple[Record, ...]
    bounds: Bounds


@dataclass(slots=True, eq=False)
class Draft:
    """A view that is still open: its dimensions stand, its balloons may come."""

    name: str
    engine: Engine
    records: list[Record]
    left: tuple[Wanted, ...]
    below: str  # its name, then what is told in words, a line each

    def view(self, context: Context) -> View:
        """Return the view with its name and what is told in words below it, as near as balloons let it stand."""
        (x0, low, x1, _), bounds = self.engine.outline, self.engine.occupied.bounds()
        text = block(self.below, max(x1 - x0, WORDS), context.layout.heights.note, context.metrics)
        middle, wide = (x0 + x1) / 2, max((measure(t, text.height, context.metrics) for t in text.lines), default=0.0)
        lines = self.engine.occupied.lines
        top = min([low, *(min(a[1], b[1]) for a, b, kind in lines if kind in ("dimension", "extension"))]) - UNDER
        while top > bounds[1] - UNDER and not self._free(Box(middle, top - text.tall / 2, wide / 2, text.tall / 2)):
            top -= 1.0
        told = text.records((middle, top), "middle")
        extent = around([bounds, *(box(t, context.metrics).bounds() for t in told if isinstance(t, Text))])
        return View(self.name, (*self.records, *told), extent)

    def _free(self, of: Box) -> bool:
        return self.engine.occupied.free(of, 1.0)

    def again(self) -> Draft:
        """Return a copy on which balloons may be placed."""
        engine = copy(self.engine)
        engine.occupied = self.engine.occupied.copy()
        return replace(self, engine=engine, records=[*self.records])


@dataclass(slots=True)
class Drafts:
    """The views without balloons, each made once for a scale and a height of figures."""

    whole: Whole
    context: Context
    _made: dict[tuple[str, float, float], Draft] = field(default_factory=dict)

    def take(self, scale: float, height: float) -> list[Draft]:
        """Return all views to work on."""
        return [self._one(name, scale, height).again() for name in ORDER]

    def wide(self, scale: float, height: float) -> float:
        """Return how wide front and side are beside each other, mm; the top view is not needed for it."""
        views = [self._one(name, scale, height).view(self.context).bounds for name in ORDER[:2]]
        return sum(b[2] - b[0] for b in views) + BETWEEN

    def _one(self, name: str, scale: float, height: float) -> Draft:
        key = (name, scale, height)
        if key not in self._made:
            self._made[key] = _draft(self.whole, self.context, name, scale, height)
        return self._made[key]


def _draft(whole: Whole, context: Context, name: str, scale: float, height: float) -> Draft:
    at = (0.0, 0.0)
    drawn = whole.drawn(name, PEN / scale)
    hidden = whole.within(name, LEAST / scale)
    lines = lines_of.stroke_records(Drawn(drawn.visible, tuple(hidden)), scale, at, hidden=True)
    middles = _centre_lines(whole, name, scale)
    x0, y0, x1, y1 = lines_of.bounds(drawn)
    engine = Engine(
        [c for r in lines for c in lines_of.chords(r)],
        outline=(x0 * scale, y0 * scale, x1 * scale, y1 * scale),
        scale=scale,
        at=at,
        rules=Rules(height=height),
        metrics=context.metrics,
    )
    for a, b in (c for r in middles for c in lines_of.chords(r)):
        engine.occupied.add_line(a, b, "axis")
    arranged = engine.arrange(wanted(whole, name))
    below = "\n".join([caption(whole, name), *words(whole, name)])
    return Draft(name, engine, [*lines, *middles, *arranged.records], arranged.left, below)


def _centre_lines(whole: Whole, name: str, scale: float) -> list[Record]:
    """Return the axes of turned parts: a line along what is seen of them, a mark where they are seen from their end."""
    out: list[Record] = []
    for a, b in axes(whole, name):
        p, q = (a[0] * scale, a[1] * scale), (b[0] * scale, b[1] * scale)
        out.append(lines_of.axis(p, q))
    for at, radius in ends(whole, name):
        out += symbols.centre_mark((at[0] * scale, at[1] * scale), radius * scale)
    return out
