"""The general views stand at the largest scale that fits: the next larger one is tried by plain arithmetic."""

from __future__ import annotations

import pytest

from docgen.drawing.dimensions.wanted import Linear
from docgen.sheets import views
from docgen.sheets.context import Context
from docgen.sheets.overall import overall
from docgen.sheets.views_sizes import wanted
from docgen.sheets.views_words import words
from docgen.sheets.whole import Whole
from tests.sheets.test_joinery import EXAMPLES, context

CAPTION, GAP, NAME = 4.5, 5.0, 4.6  # mm: a line under a view, between two views, a line of the list of parts
FIRST, NEXT, FIGURE = 10.0, 7.5, 3.5  # mm: from the outline to the first dimension line, to the next, its figure
COLUMN = 56.0  # mm: of the list of parts


def lanes(of: Context, upright: bool) -> float:
    """Return how much the dimensions of the front take at least beside or below it; from four on they may share a line."""
    whole = Whole(of.piece, of.solids)
    lines = [w for w in wanted(whole, "front") if isinstance(w, Linear) and (abs(w.along[1]) > 0.5) == upright]
    apart = {round(w.b[1] if upright else w.b[0], 1) for w in lines}
    return FIRST + FIGURE + NEXT * (len(apart) - 1 if len(apart) < 4 else 0)


def fits(of: Context, scale: tuple[int, int]) -> bool:
    """Tell whether three views with their dimensions and the names would go on a page, balloons apart."""
    s = scale[0] / scale[1]
    across, deep, up = (v * s for v in overall(of))
    whole = Whole(of.piece, of.solids)
    told = sum(len(words(whole, name)) for name in ("front", "top"))
    wide = across + deep + GAP + lanes(of, upright=True)
    tall = up + deep + GAP + lanes(of, upright=False) + (2 + told) * CAPTION
    for layout in (of.layout, of.layout.turned()):
        names = -(-len(of.kinds) // int(layout.area.width // COLUMN)) * NAME + 4
        in_corner = deep > 40 and len(of.kinds) * NAME < deep  # mm: beside the top view
        if wide <= layout.area.width and tall + (0 if in_corner else names) <= layout.area.height:
            return True
    return False


@pytest.mark.parametrize("paper", ["letter", "a4", "a3"])
@pytest.mark.parametrize("name", sorted(p.stem for p in EXAMPLES.glob("*.yaml")))
def test_the_next_larger_scale_would_not_go_on_a_page(name: str, paper: str) -> None:
    of = context(name, paper)
    page, *more = views.make(of, {})
    scales = of.layout.scales[of.piece.units.system]
    taken = next(n for n, s in enumerate(scales) if f"{s[0]} : {s[1]}" == page.scale)
    larger = scales[taken - 1]
    assert not more
    assert larger[0] > larger[1] or not fits(of, larger)
