"""Hidden and later lines that would be specks on paper: no dash has room on them, and they tell nothing there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from docgen.drawing.views import bounds
from docgen.geometry.lines import Drawn, Stroke

SPECK = 1.7  # mm on paper: a dash with its gap is longer
GRID = 2  # decimals of a mm to which ends are compared, view mm


def clear(drawn: Drawn, scale: float) -> Drawn:
    """Return a view without the hidden lines that stay within a speck at `scale`: a pilot hole behind a face, a small step.

    What begins and ends where visible lines do stays: it is the piece between them that something stands before.
    """
    kept = list(_large(drawn.hidden, scale, {p for s in drawn.visible for p in _ends(s)}))
    return drawn if len(kept) == len(drawn.hidden) else Drawn(drawn.visible, tuple(kept))


def larger(strokes: Sequence[Stroke], scale: float) -> list[Stroke]:
    """Return lines of a later stage without those that stay within a speck: a cross stands there for a hole."""
    return list(_large(strokes, scale, set()))


def _large(strokes: Sequence[Stroke], scale: float, seen: set[tuple[float, float]]) -> Iterator[Stroke]:
    small = {
        k
        for group in _groups(strokes)
        if _extent([strokes[n] for n in group]) * scale < SPECK
        and not ({p for n in group for p in _ends(strokes[n])} & seen)
        for k in group
    }
    yield from (s for k, s in enumerate(strokes) if k not in small)


def _groups(strokes: Sequence[Stroke]) -> list[list[int]]:
    """Return the lines that hang together by their ends, by their numbers."""
    groups: dict[int, list[int]] = {}
    group_at: dict[tuple[float, float], int] = {}
    for k, s in enumerate(strokes):
        groups[k] = [k]
        for other in sorted({group_at[p] for p in _ends(s) if p in group_at}):
            groups[k] += groups.pop(other)
        group_at.update({p: k for n in groups[k] for p in _ends(strokes[n])})
    return list(groups.values())


def _ends(s: Stroke) -> Iterable[tuple[float, float]]:
    return [(round(x, GRID) + 0.0, round(y, GRID) + 0.0) for x, y in (s.a, s.b)]


def _extent(strokes: Sequence[Stroke]) -> float:
    """Return how long or how high lines are, whichever is more, view mm."""
    x0, y0, x1, y1 = bounds(Drawn(tuple(strokes), ()))
    return max(x1 - x0, y1 - y0)
