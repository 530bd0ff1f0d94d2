"""From the sizes of a part to what is dimensioned where: overall first, each once, holes by callout.

Nothing here knows an operation by name: a size says what it measures, on which face it is seen best and which
parameters it fixes.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from docgen.drawing.asked import as_asked
from docgen.drawing.dimensions.wanted import Wanted
from docgen.drawing.once import SQUARE, Figure, counted, merged, underived
from docgen.drawing.round_blank import from_centre
from docgen.drawing.unfold import normal
from docgen.geometry.shapes import Vec
from docgen.piece.datums import as_placed, datum
from docgen.piece.model import DrawingWish, Part
from docgen.piece.operations.reached import reached
from docgen.piece.records import Authority, Face, Feature, Size, SizeKind, Stage
from docgen.units import Number

HARDLY = 0.15  # about the sine of 9 degrees
TRUE = 0.02  # mm that a length in the wood may look shorter in a view: what lies on a cut that hardly leans
SAME = 1e-4  # mm
WORDS = ("long", "wide", "thick")


def overall(part: Part) -> tuple[Figure, ...]:
    """Return length, width and thickness of the part as its wood reaches: box and allowances, less what slants take."""
    spans = reached(part)
    low = [float(first) for first, _ in spans]
    out = []
    for i, (first, last) in enumerate(spans):
        end = [low[0], low[1], low[2]]
        end[i] = float(last)
        along: Vec = (1.0 * (i == 0), 1.0 * (i == 1), 1.0 * (i == 2))
        start: Vec = (low[0], low[1], low[2])
        size = Size(
            SizeKind.LENGTH, start, (end[0], end[1], end[2]), along, last - first, (WORDS[i],), authority=part.authority
        )
        if part.over(i):
            notes = "; ".join(s.note for s in part.spare if s.face.axis == i and s.note)
            size = replace(size, authority=Authority.FIT, over=part.over(i), note=notes)
        out.append(Figure(size, overall=True))
    return tuple(out)


def figures(part: Part, stage: Stage = Stage.PART, asked: tuple[DrawingWish, ...] = ()) -> tuple[Figure, ...]:
    """Return what must be printed for the part as it leaves the machine, overall sizes first, each once.

    `asked` is what the file wants otherwise.
    """
    blank = [f.size for f in overall(part)]
    own = [Figure(a.size, overall=True, over=a.over) for a in as_asked("", list(enumerate(blank)), asked)]
    for f in part.features:
        if f.stage is stage:
            sizes = [(n, as_placed(part, size, f)) for n, size in enumerate(f.made.sizes) if not told_by_hole(f, size)]
            own += [
                Figure(
                    a.size,
                    feature=f.name,
                    word=f.word,
                    asked=a.placed,
                    over=a.over,
                    views=_views(f, a.size),
                    run=_along_run(f, a.size),
                    reference=_for_reference(a.size) and not a.placed,
                )
                for a in as_asked(f.name, sizes, asked)
            ]
    own += [Figure(w.made, word=w.word, asked=True) for w in asked if w.made is not None]
    own = list(from_centre(part, _unrounded(tuple(own))))
    return counted(underived(merged(tuple(own))), lambda size: is_place(size, part))


def _unrounded(every: tuple[Figure, ...]) -> tuple[Figure, ...]:
    """Return the figures without width and thickness of what is turned to them: its diameter tells both."""
    turned = {
        round(float(f.size.value), 6)
        for f in every
        if f.size.kind is SizeKind.DIAMETER
        and not f.reference
        and (f.size.other is not None or abs(f.size.along[0]) > 1 - SQUARE)
    }

    def spoken(f: Figure) -> bool:
        across = f.overall and abs(f.size.along[0]) < SQUARE and not f.size.over
        return across and round(float(f.size.value), 6) in turned

    return tuple(f for f in every if not spoken(f))


def _views(feature: Feature, size: Size) -> tuple[Face, ...]:
    """Return the faces on which the place of a hole may be told: the one that it is bored in, or either for one right through."""
    if not feature.made.holes or size.kind is not SizeKind.LENGTH or size.face is None:
        return ()
    return (size.face, opposite(size.face)) if through(feature) else (size.face,)


def _for_reference(size: Size) -> bool:
    """Return True for a length or a radius that fixes none of its operation's numbers, or only those that words tell too."""
    return size.reference or (size.kind in (SizeKind.LENGTH, SizeKind.RADIUS) and not size.parameters)


def _along_run(feature: Feature, size: Size) -> bool:
    """Return True for a length along the way of the cutter: how far it runs, or stops before an end."""
    ways = {setting.travel.along for setting in feature.made.settings if setting.travel is not None}
    return size.kind is SizeKind.LENGTH and any(abs(size.along[i]) > 1 - SQUARE for i in ways)


def is_place(size: Size, part: Part) -> bool:
    """Return True for a length that runs from the part's datum end, shoulder or edge: it places something."""
    return on_datum(size.start, size.along, part) or on_datum(size.end, size.along, part)


def on_datum(p: Vec, along: Vec, part: Part) -> bool:
    """Return True when `p` lies on the part's datum end along the direction, from which places are measured."""
    axes = [i for i in range(3) if abs(along[i]) > 1 - SAME]
    if not axes:
        return False
    i = axes[0]
    side = datum(part, i).side
    return any(abs(p[i] - end) < SAME for end in (float(part.size[i] if side else 0), float(part.span(i)[side])))


def told_by_hole(feature: Feature, size: Size) -> bool:
    """Return True when a callout of the feature's holes tells this size: diameter, depth, countersink."""
    for row in feature.made.holes:
        along = abs(sum(size.along[i] * row.direction[i] for i in range(3)))
        if size.kind is SizeKind.DIAMETER and along > 0.999:
            return True
        if size.kind is SizeKind.LENGTH and along > 0.999:
            return True
        if size.kind is SizeKind.ANGLE and row.sink is not None and row.sink.angle == size.value:
            return True
    return False


def shows(face: Face, size: Size) -> bool:
    """Return True when a view of `face` shows the size in its true measure, a length to within TRUE."""
    n = normal(face)
    along = abs(sum(n[i] * size.along[i] for i in range(3)))
    if size.kind is not SizeKind.LENGTH:
        return along > 1 - SQUARE
    lost = float(size.value) * (1 - math.sqrt(max(0.0, 1 - along * along)))
    return along < SQUARE or (along < HARDLY and lost < TRUE)


@dataclass(frozen=True, slots=True)
class Plan:
    """Which faces of a part are drawn, and its figures with the face on which each is told."""

    first: Face
    others: tuple[Face, ...]
    figures: tuple[Figure, ...]

    @property
    def faces(self) -> tuple[Face, ...]:
        """All faces that are drawn, the principal one first."""
        return (self.first, *self.others)


def opposite(face: Face) -> Face:
    """Return the face behind."""
    return Face(face.axis, 1 - face.side)


def through(feature: Feature) -> bool:
    """Return True for a feature of holes that look the same from both sides."""
    rows = feature.made.holes
    return bool(rows) and all(row.depth is None and row.sink is None for row in rows)


def _slender(part: Part, flat: int) -> bool:
    """Return True for a part so long that a view of its end beside it would cost it a scale."""
    return float(part.size[0]) > 3.5 * float(part.size[3 - flat])


def plan(part: Part, every: tuple[Figure, ...], seen: Callable[[Face, Size], bool], also: Iterable[Face] = ()) -> Plan:
    """Return the faces that must be drawn so that each figure is shown once, on visible lines where there are any.

    `seen` tells whether a view of a face shows the two points of a size on visible lines. The faces `also` are drawn in
    any case.
    """
    flat = part.broad_axis
    either = {f.name for f in part.features if through(f)} | _within(every, flat, seen)
    asked: dict[Face, int] = {}
    for f in every:
        face = f.size.face
        if face is not None and shows(face, f.size):
            for side in (face, opposite(face)) if f.feature in either else (face,):
                asked[side] = asked.get(side, 0) + 1
    sides = (Face(flat, 1), Face(flat, 0))
    wished = part.show if part.show in sides else None
    first = max(sides, key=lambda s: (asked.get(s, 0), s == wished, s.side))
    told = _apart(tuple(_turned(f, first, flat, either, seen) for f in every))
    bored = {
        row.face
        for f in part.features
        if f.stage is Stage.PART and f.made.holes and not (f.name in either and opposite(first) == f.made.holes[0].face)
        for row in f.made.holes
    }
    need = {f.size.face for f in told if f.size.face is not None and shows(f.size.face, f.size)} | bored | {*also}
    need |= {face for f in told for face in _only_there(f, {first, *need}, seen)}
    others = sorted(need - {first})
    if _turned_round(every) and not any(face.axis == 0 for face in others):
        others.append(Face(0, 1))
    if not any(face.axis != flat for face in others):
        others.append(Face(3 - flat, 0) if _slender(part, flat) else Face(0, 1))
    return Plan(first, tuple(others), told)


def _apart(every: tuple[Figure, ...]) -> tuple[Figure, ...]:
    """Return the figures with each angle that stands for several told at a corner where no other is, if there is one."""
    taken = [f.size for f in every if f.size.kind is SizeKind.ANGLE]
    out = []
    for f in every:
        if f.size.kind is SizeKind.ANGLE and sum(_same_corner(f.size, s) for s in taken) > 1:
            here = [
                (n, replace(s, face=f.size.face)) for n, s in enumerate(f.also) if f.size.face and shows(f.size.face, s)
            ]
            free = [(n, s) for n, s in here if not any(_same_corner(s, t) for t in taken)]
            if free:
                place, size = free[0]
                taken[next(n for n, s in enumerate(taken) if s is f.size)] = size
                f = replace(f, size=size, also=(f.size, *(s for n, s in enumerate(f.also) if n != place)))
        out.append(f)
    return tuple(out)


def _same_corner(a: Size, b: Size) -> bool:
    axes = [i for i in range(3) if a.face is None or i != a.face.axis]
    return max(abs(a.start[i] - b.start[i]) for i in axes) < SAME


def _only_there(figure: Figure, drawn: set[Face], seen: Callable[[Face, Size], bool]) -> Iterator[Face]:
    """Yield the faces that show on visible lines what a figure counts besides, where none that is `drawn` shows it.

    An end is like the other end, which is drawn.
    """
    for size in figure.also:
        face = size.face
        if face is not None and face.axis != 0 and face not in drawn and shows(face, size) and size.label:
            others = [f for f in sorted(drawn) if shows(f, size)]
            if seen(face, size) and not any(seen(f, size) for f in others):
                yield face


def _turned_round(every: tuple[Figure, ...]) -> bool:
    """Return True for a part of which diameters are told from the side: only its end shows it round, and what lies askew."""
    return any(f.size.kind is SizeKind.DIAMETER and f.size.other is not None for f in every)


def _within(every: tuple[Figure, ...], flat: int, seen: Callable[[Face, Size], bool]) -> set[str]:
    """Return the features told on a broad face, where all of them are hidden from both: of mortises in the ends.

    Either face shows them as well.
    """
    broad = [f for f in every if f.size.face is not None and f.size.face.axis == flat and shows(f.size.face, f.size)]
    hidden = all(not (f.asked or f.views or seen(Face(flat, 0), f.size) or seen(Face(flat, 1), f.size)) for f in broad)
    return {f.feature for f in broad} if hidden else set()


def _turned(figure: Figure, first: Face, flat: int, either: set[str], seen: Callable[[Face, Size], bool]) -> Figure:
    """Return the figure told on the principal face or on the face behind its own where that is as good or better."""
    face = figure.size.face
    if face is None or figure.asked or not shows(face, figure.size):
        return figure
    behind = opposite(face)
    if face.axis == flat:
        better = behind == first and (figure.feature in either or seen(behind, figure.size))
    else:
        better = not seen(face, figure.size) and seen(behind, figure.size)
    return replace(figure, size=replace(figure.size, face=behind)) if better else figure


def home(size: Size, first: Face, others: tuple[Face, ...]) -> Face | None:
    """Return the face among those drawn on which the size is told: its own, the opposite one, any that shows it."""
    drawn = (first, *others)
    if size.face is not None:
        for face in (size.face, Face(size.face.axis, 1 - size.face.side)):
            if face in drawn and shows(face, size):
                return face
    return next((face for face in drawn if shows(face, size)), None)


@dataclass(frozen=True, slots=True)
class Rank:
    """Whether sizes fix parameters: those that none fixes, and sizes that fix nothing that is not fixed already."""

    loose: tuple[str, ...]
    doubled: tuple[Size, ...]


def rank(parameters: tuple[tuple[str, Number], ...], sizes: tuple[Size, ...]) -> Rank:
    """Return which parameters the sizes leave loose and which sizes say a thing twice.

    A size fixes one of its parameters; parameters and sizes are matched one to one, as many as can be
    (structural rank by augmenting paths). Whole numbers are choices, not measures, and are left out.
    """
    names = [name for name, value in parameters if not isinstance(value, int)]
    taken: dict[str, int] = {}

    def match(i: int, tried: set[str]) -> bool:
        for name in sizes[i].parameters:
            if name in tried:
                continue
            tried.add(name)
            if name not in taken or match(taken[name], tried):
                taken[name] = i
                return True
        return False

    doubled = tuple(sizes[i] for i in range(len(sizes)) if not match(i, set()))
    return Rank(tuple(n for n in names if n not in taken), doubled)


def told(wanted: tuple[Wanted, ...]) -> tuple[Size, ...]:
    """Return every size that the wanted dimensions tell, in order."""
    return tuple(s for w in wanted for s in w.sizes)
