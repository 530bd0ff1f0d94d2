"""What is cut after the glue-up: which parts together, and the sizes of those cuts, each on the view that shows it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from docgen.drawing import views
from docgen.drawing.enlarged import Shown
from docgen.drawing.once import Figure
from docgen.drawing.wording import Notes
from docgen.geometry.hidden import VIEWS, draw
from docgen.geometry.lines import Drawn
from docgen.geometry.shapes import Vec
from docgen.piece.model import Part, Piece
from docgen.piece.records import Feature, Size, SizeKind, Stage
from docgen.schedules.glueups import features_of
from docgen.sheets.context import Context

PLACES = {"front": (0, 0), "right": (1, 0), "left": (-1, 0), "top": (0, 1), "bottom": (0, -1), "back": (2, 0)}
"""Columns to the right and rows upward in third angle; the front view is always drawn."""


@dataclass(slots=True)
class Glued:
    """Parts that are cut together after the glue-up, in the piece's axes.

    `shown` keeps their views and details by what these depend on: they are tried in several rooms.
    """

    context: Context
    parts: tuple[Part, ...]
    notes: Notes
    told: dict[str, list[Figure]] = field(init=False)  # by view
    shown: dict[tuple[object, ...], Shown] = field(init=False, default_factory=dict)
    _drawn: dict[str, Drawn] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self.told = {"front": []}
        for figure in _counted(self.context.piece, self.parts):
            name, size = self._best(figure)
            self.told.setdefault(name, []).append(replace(figure, size=size))

    @property
    def title(self) -> str:
        """What the parts are called together: by what stands before all their names, or one by one."""
        heads = {p.path.rpartition(".")[0] for p in self.parts}
        return heads.pop() if len(heads) == 1 and "" not in heads else ", ".join(p.called for p in self.parts)

    def drawn(self, name: str) -> Drawn:
        """Return the lines of one view of the glued parts after these cuts."""
        if name not in self._drawn:
            solids = self.context.solids
            items = [(solids.topology(p.path, Stage.GLUED), p.frame) for p in self.parts]
            self._drawn[name] = draw(items, VIEWS[name])
        return self._drawn[name]

    def _best(self, figure: Figure) -> tuple[str, Size]:
        """Return the view that shows a figure on visible lines, and which of the equal sizes is dimensioned there."""
        able = [(name, s) for name in PLACES for s in figure.sizes if _shown(name, s)]
        for name, s in able:
            if all(views.covered(VIEWS[name].flat(p), self.drawn(name).visible) for p in _points(s)):
                return name, s
        return able[0] if able else ("front", figure.size)


def _points(size: Size) -> tuple[Vec, ...]:
    return (size.start, size.end) if size.kind is SizeKind.LENGTH else (size.end,)


def _shown(name: str, size: Size) -> bool:
    toward = VIEWS[name].toward
    along = abs(sum(a * b for a, b in zip(toward, size.along, strict=True)))
    return along < 1e-6 if size.kind is SizeKind.LENGTH else along > 1 - 1e-6


def groups(context: Context) -> Iterator[tuple[Part, ...]]:
    """Yield the parts that are cut together after the glue-up: those whose late cuts come from the same line of the file."""
    found: list[tuple[set[object], list[Part]]] = []
    for part in context.piece.parts:
        why: set[object] = {(f.origin.because or (f.origin.span,)) for f in late(part)}
        if not why:
            continue
        same = [g for g in found if g[0] & why]
        for g in same:
            found.remove(g)
        found.append((why.union(*(g[0] for g in same)), [*(p for g in same for p in g[1]), part]))
    for _, parts in found:
        yield tuple(parts)


def late(part: Part) -> list[Feature]:
    """Return what is cut on a part after the glue-up."""
    return [f for f in part.features if f.stage is Stage.GLUED]


def _counted(piece: Piece, parts: Sequence[Part]) -> list[Figure]:
    """Return the sizes of the late cuts in the piece's axes, those that are alike once with their number.

    A cut that a joint makes through both its parts is told by the first of them.
    """
    alike: dict[tuple[object, ...], list[tuple[str, Size]]] = {}
    again = _halves(piece)
    for part in parts:
        for f in late(part):
            for s in f.made.sizes if (part.path, f.name) not in again else ():
                key = (f.word, s.kind, s.label, round(float(s.value), 6), s.note, s.authority, s.times)
                placed = _placed(s, part)
                if all(_where(placed) != _where(other) for _, other in alike.setdefault(key, [])):
                    alike[key].append((f.word, placed))
    return [
        Figure(every[0][1], tuple(s for _, s in every[1:]), word=every[0][0], count=len(every))
        for every in alike.values()
    ]


def _halves(piece: Piece) -> set[tuple[str, str]]:
    """Return the features, by part and name, that make the same late cut as one before them in their joint."""
    again: set[tuple[str, str]] = set()
    for joint in piece.joints:
        told: set[str] = set()
        for part, feature in features_of(piece, joint):
            if feature.stage is not Stage.GLUED:
                continue
            if feature.word in told:
                again.add((part.path, feature.name))
            told.add(feature.word)
    return again


def _where(size: Size) -> tuple[float, ...]:
    """Return what tells a size from one like it elsewhere: an arc that two parts share is one."""
    points = size.start if size.kind is SizeKind.RADIUS else (*size.start, *size.end)
    return tuple(round(c, 2) for c in points)


def _placed(size: Size, part: Part) -> Size:
    frame = part.frame
    other = frame.point(size.other) if size.other is not None else None
    along = frame.direction(size.along)
    return replace(size, start=frame.point(size.start), end=frame.point(size.end), along=along, other=other, face=None)
