"""Volumes and views against an independent CAD kernel with true curves (Open CASCADE, through cadquery-ocp-novtk).

Where the two drawings differ, a third referee decides: whether the topmost surface changes there.
"""

from collections.abc import Sequence

import pytest

from docgen.geometry.hidden import VIEWS, View, draw
from docgen.geometry.make import cross, unit
from docgen.geometry.shapes import Frame
from docgen.geometry.solids import Solid
from docgen.geometry.topology import topology
from tests.support.kernel import centre, compound, curves, hidden_lines, kernel_blank, kernel_cut, placed, volume
from tests.support.recipes import RECIPES, Recipe, stand
from tests.support.referee import inked, line_belongs, polylines, strays

WITHIN = 0.02  # mm on paper at true size
SEEN_ALONG = 0.04  # mm; a round wall seen nearly along its axis draws the 0.01 mm of its chords out


def _oblique() -> View:
    toward = unit((0.35, -0.8, 0.5))
    right = unit(cross((0, 0, 1), toward))
    return View(right, cross(toward, right))


LOOKED_AT = {**{k: VIEWS[k] for k in ("front", "top", "right", "axonometric")}, "oblique": _oblique()}


def kernel(recipe: Recipe):
    return kernel_cut(kernel_blank((0.0, 0.0, 0.0), recipe.size), recipe.cuts)


@pytest.mark.parametrize("name", sorted(RECIPES))
def test_volume_and_centre_agree(name: str) -> None:
    recipe = RECIPES[name]
    ours, theirs = recipe.solid(), kernel(recipe)
    assert ours.volume == pytest.approx(volume(theirs), rel=1e-3)
    assert ours.centroid == pytest.approx(centre(theirs), abs=0.01)


@pytest.mark.parametrize("view", sorted(LOOKED_AT))
@pytest.mark.parametrize("name", sorted(RECIPES))
def test_the_lines_of_a_part_agree(name: str, view: str) -> None:
    solid = RECIPES[name].solid()
    _agree([solid], [(topology(solid), Frame())], kernel(RECIPES[name]), LOOKED_AT[view], name == "raked")


@pytest.mark.parametrize("view", sorted(LOOKED_AT))
def test_the_lines_of_a_stand_of_nine_parts_agree(view: str) -> None:
    parts = stand()
    assert len(parts) >= 9
    made = {r: kernel(r) for r, _ in parts}
    whole = compound([placed(made[r], f) for r, f in parts])
    items = [(topology(r.solid()), f) for r, f in parts]
    _agree([r.solid().moved(f) for r, f in parts], items, whole, LOOKED_AT[view], False)


def _agree(solids: Sequence[Solid], items: list, shape: object, view: View, drawn_out: bool) -> None:
    ours = draw(items, view)
    result = hidden_lines(shape, view)
    seen, dashed = curves(result, seen=True), curves(result, seen=False)
    visible, hidden = polylines(ours.visible), polylines(ours.hidden)
    within = SEEN_ALONG if drawn_out else WITHIN
    extra = [p for p in strays(visible, seen, within) if not line_belongs(solids, view, tuple(p))]
    missing = [p for p in strays(seen, visible, within) if line_belongs(solids, view, tuple(p))]
    assert extra == []
    assert missing == []
    assert inked(visible) == pytest.approx(inked(seen), rel=1e-3)
    assert len(strays(dashed, visible + hidden, within)) == 0
    assert len(strays(hidden, dashed + seen, within)) == 0
