"""From the sizes of a part to what is dimensioned where: overall first, each once, holes by callout.

Nothing here knows an operation by name: a size says what it measures, on which face it is seen best and which
parameters it fixes.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from docgen.drawing.asked import as_asked
from docgen.drawing.dimensions.wanted import Wanted
from docgen.drawing.unfold import normal
from docgen.geometry.shapes import Vec
from docgen.piece.model import DrawingWish, Part
from docgen.piece.operations.reached import reached
from docgen.piece.records import Authority, Face, Feature, Size, SizeKind, Stage
from docgen.units import Number

SQUARE = 1e-6
HARDLY = 0.15  # about the sine of 9 degrees
TRUE = 0.02  # mm that a length in the wood may look shorter in a view: what lies on a cut that hardly leans
WORDS = ("long", "wide", "thick")


@dataclass(frozen=True, slots=True)
class Figure:
    """A size that is to be printed, with the equal ones that it stands for."""

    size: Size
    also: tuple[Size, ...] = ()
    feature: str = ""  # "" for the part's own length, width and thickness
    word: str = ""
    overall: bool = False
    count: int = 1
    asked: bool = False  # by the file, on this face: printed even if others give it by adding up
    over: bool = False  # on the other side of the view from where it would stand
    views: tuple[Face, ...] = ()  # where it must be told because holes are placed by it; () where any view will do

    @property
    def sizes(self) -> tuple[Size, ...]:
        """All sizes that this figure tells."""
        return (self.size, *self.also)


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
            sizes = [(n, size) for n, size in enumerate(f.made.sizes) if not told_by_hole(f, size)]
            own += [
                Figure(a.size, feature=f.name, word=f.word, asked=a.placed, over=a.over, views=_views(f, a.size))
                for a in as_asked(f.name, sizes, asked)
            ]
    own += [Figure(w.made, word=w.word, asked=True) for w in asked if w.made is not None]
    return counted(underived(merged(_unrounded(tuple(own)))))


def _unrounded(every: tuple[Figure, ...]) -> tuple[Figure, ...]:
    """Return the figures without width and thickness of what is turned to them: its diameter tells both."""
    turned = {
        round(float(f.size.value), 6)
        for f in every
        if f.size.kind is SizeKind.DIAMETER and (f.size.other is not None or abs(f.size.along[0]) > 1 - SQUARE)
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


def _same_place(size: Size) -> tuple[object, ...]:
    """Return what two sizes share when one printed figure tells both."""
    if size.kind is SizeKind.LENGTH:
        a = sum(size.start[i] * size.along[i] for i in range(3))
        b = sum(size.end[i] * size.along[i] for i in range(3))
        sign = 1 if next(c for c in size.along if abs(c) > SQUARE) > 0 else -1
        way = tuple(round(c * sign, 6) for c in size.along)
        return (size.kind, way, *sorted((round(a * sign, 4), round(b * sign, 4))))
    at = tuple(round(c, 4) for c in (*size.start, *size.end))
    return (size.kind, at, tuple(round(abs(c), 6) for c in size.along))


def merged(every: tuple[Figure, ...]) -> tuple[Figure, ...]:
    """Return the figures with those that measure the same distance made one; the first keeps its place.

    A plain length and a labelled one become the labelled one. Two with labels stay two: equal ones are counted later,
    unlike ones are two things that happen to agree.
    """
    out: list[Figure] = []
    at: dict[tuple[object, ...], list[int]] = {}
    for f in every:
        key = _same_place(f.size)
        twin = next((i for i in at.get(key, ()) if _one_thing(out[i], f)), None)
        if twin is None:
            at.setdefault(key, []).append(len(out))
            out.append(f)
            continue
        first = out[twin]
        size, other = first.size, f.size
        if size.label and other.label and not size.parameters and not first.overall:
            size, other = other, size  # the one that is cut to, not the one for reference
        if not first.overall:
            size = replace(size, label=size.label or other.label, note=size.note or other.note)
            size = size if size.face is not None else replace(size, face=other.face)
        asked, over = first.asked or f.asked, first.over or f.over
        out[twin] = replace(first, size=size, also=(*first.also, other, *f.also), asked=asked, over=over)
    return tuple(out)


def _one_thing(a: Figure, b: Figure) -> bool:
    """Return True when one printed figure tells both sizes, which measure the same distance.

    A hole is placed where its callout stands: what another view says of its place is not read there.
    """
    if (a.views or b.views) and not {*_told_on(a)} & {*_told_on(b)}:
        return False
    if a.size.authority is not b.size.authority and not a.overall:
        return False
    if a.size.label and b.size.label:
        same = a.feature == b.feature and a.size.label == b.size.label
        return same or bool(a.size.parameters) != bool(b.size.parameters)  # one for reference says nothing new
    return not (a.overall and b.size.label and b.size.note)


def _told_on(figure: Figure) -> tuple[Face | None, ...]:
    return figure.views or (figure.size.face,)


def underived(every: tuple[Figure, ...]) -> tuple[Figure, ...]:
    """Return the figures without those plain lengths that the ones before them already give by adding up.

    The place of a hole is left out only where figures of the same view give it, the place of what lies along the far
    end of the part where its own width tells it.
    """
    every = tuple(f for f in every if not _flush(f, every))
    roots: dict[tuple[object, ...], tuple[object, ...]] = {}

    def root(n: tuple[object, ...]) -> tuple[object, ...]:
        while roots.setdefault(n, n) != n:
            n = roots[n]
        return n

    out = []
    for f in every:
        if f.size.kind is not SizeKind.LENGTH:
            out.append(f)
            continue
        _, way, low, high = _same_place(f.size)
        grounds = f.views or (None,)
        given = any(root((g, way, low)) == root((g, way, high)) for g in grounds)
        if given and not f.size.label and not f.overall and not f.asked and not f.size.over:
            continue  # fat that is left is told, though its wood lies where another figure ends
        for g in (None, *_told_on(f)):
            roots[root((g, way, low))] = root((g, way, high))
        out.append(f)
    return tuple(out)


def _flush(figure: Figure, every: tuple[Figure, ...]) -> bool:
    """Return True for the plain place of what reaches the far end of the part, where another of its figures runs from there."""
    s = figure.size
    if s.kind is not SizeKind.LENGTH or figure.overall or figure.asked or figure.views or s.label or s.over:
        return False
    _, way, low, high = _same_place(s)
    whole = [_same_place(f.size)[1:] for f in every if f.overall]
    own = [f.size for f in every if f.feature == figure.feature and f.size.label and f.size.kind is SizeKind.LENGTH]
    return any((way, low, _same_place(o)[3]) in whole for o in own if _same_place(o)[1:3] == (way, high))


def counted(every: tuple[Figure, ...]) -> tuple[Figure, ...]:
    """Return the figures with sizes that are alike printed once with their number: ``3× dado 13⁄16``.

    Sizes of equal operations at both ends of a part are alike too: one end is dimensioned, the other is like it. Holes
    are placed at each end: ``2×`` would read as two holes of the end that is drawn.
    """
    alike: dict[tuple[object, ...], list[Figure]] = {}
    for f in every:
        alike.setdefault((id(f),) if f.overall or f.asked else _likeness(f), []).append(f)
    return tuple(
        replace(g[0], also=(*g[0].also, *(s for f in g[1:] for s in f.sizes)), count=len(g)) for g in alike.values()
    )


def _likeness(figure: Figure) -> tuple[object, ...]:
    """Return what figures share that are printed once: what they measure of which operation, and how it is said."""
    s = figure.size
    face = "end" if s.face is not None and s.face.axis == 0 and not figure.views else s.face
    told = s.label or s.parameters
    value = round(float(s.value), 6)
    way = tuple(round(abs(c), 6) for c in s.along)
    return (figure.word, s.kind, told, value, face, way, s.authority, s.note, s.over)


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


def broad_axis(part: Part) -> int:
    """Return the axis square to the part's broad faces: 2, or 1 for a part that is thinner in its width."""
    extent = [float(part.span(i)[1] - part.span(i)[0]) for i in range(3)]
    return 1 if extent[1] < extent[2] - SQUARE else 2


def _slender(part: Part, flat: int) -> bool:
    """Return True for a part so long that a view of its end beside it would cost it a scale."""
    return float(part.size[0]) > 3.5 * float(part.size[3 - flat])


def plan(part: Part, every: tuple[Figure, ...], seen: Callable[[Face, Size], bool], also: Iterable[Face] = ()) -> Plan:
    """Return the faces that must be drawn so that each figure is shown once, on visible lines where there are any.

    `seen` tells whether a view of a face shows the two points of a size on visible lines. The faces `also` are drawn in
    any case.
    """
    flat = broad_axis(part)
    either = {f.name for f in part.features if through(f)}
    asked: dict[Face, int] = {}
    for f in every:
        face = f.size.face
        if face is not None and shows(face, f.size):
            for side in (face, opposite(face)) if f.feature in either else (face,):
                asked[side] = asked.get(side, 0) + 1
    sides = (Face(flat, 1), Face(flat, 0))
    wished = part.show if part.show in sides else None
    first = max(sides, key=lambda s: (asked.get(s, 0), s == wished, s.side))
    told = tuple(_turned(f, first, flat, either, seen) for f in every)
    bored = {
        row.face
        for f in part.features
        if f.stage is Stage.PART and f.made.holes and not (f.name in either and opposite(first) == f.made.holes[0].face)
        for row in f.made.holes
    }
    need = {f.size.face for f in told if f.size.face is not None and shows(f.size.face, f.size)} | bored | {*also}
    others = sorted(need - {first})
    if _turned_round(every) and not any(face.axis == 0 for face in others):
        others.append(Face(0, 1))
    if not any(face.axis != flat for face in others):
        others.append(Face(3 - flat, 0) if _slender(part, flat) else Face(0, 1))
    return Plan(first, tuple(others), told)


def _turned_round(every: tuple[Figure, ...]) -> bool:
    """Return True for a part of which diameters are told from the side: only its end shows it round, and what lies askew."""
    return any(f.size.kind is SizeKind.DIAMETER and f.size.other is not None for f in every)


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
