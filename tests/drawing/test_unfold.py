"""How the faces of a part are laid side by side on paper."""

from itertools import combinations, pairwise

import pytest

from docgen.drawing.unfold import normal, stacked
from docgen.piece.records import Face

SIDES = tuple(Face(axis, side) for axis in (1, 2) for side in (0, 1))


def test_views_without_the_principal_one_lie_and_ends_have_one_side_up() -> None:
    sides = stacked((500.0, 60.0, 30.0), (Face(1, 0), Face(2, 0)), beside=False, third=True)
    assert [(s.column, s.row) for s in sides] == [(0, 0), (0, -1)]
    assert all(s.view.right[0] == 1.0 for s in sides)
    for spans in ((500.0, 60.0, 30.0), (500.0, 30.0, 60.0)):
        wide = 1 if spans[1] > spans[2] else 2
        ends = stacked(spans, (Face(0, 0), Face(0, 1)), beside=True, third=True)
        assert [(s.column, s.row) for s in ends] == [(0, 0), (1, 0)]
        assert ends[0].view.up == ends[1].view.up
        assert all(abs(s.view.right[wide]) == 1.0 for s in ends)
        assert all(s.view.toward[0] == (1.0 if s.face.side else -1.0) for s in ends)


@pytest.mark.parametrize("third", [True, False])
@pytest.mark.parametrize("faces", [pair for n in (2, 3, 4) for pair in combinations(SIDES, n)])
def test_long_sides_that_meet_have_their_common_edge_between_them(faces: tuple[Face, ...], third: bool) -> None:
    views = stacked((500.0, 60.0, 30.0), (Face(0, 0), *faces), beside=False, third=third)
    *sides, end = views
    assert [s.row for s in views] == [-n for n in range(len(faces) + 1)]
    assert {s.face for s in sides} == set(faces)
    assert end.face == Face(0, 0)
    apart = 0
    for above, below in pairwise(sides):
        met, other = (above.view.up, below.view.up) if third else (below.view.up, above.view.up)
        if above.face.axis == below.face.axis:
            apart += 1
        elif third:  # a view lies on the side from which it looks
            assert normal(above.face) == other
            assert normal(below.face) == tuple(-c or 0.0 for c in met)
        else:
            assert normal(below.face) == other
            assert normal(above.face) == tuple(-c or 0.0 for c in met)
    assert apart == (len(faces) == 2 and faces[0].axis == faces[1].axis)
