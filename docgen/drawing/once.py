"""Each figure once: equal ones merged, those that follow from others left out or in brackets, those that are alike counted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TypeAlias

from docgen.piece.records import Authority, Face, Size, SizeKind

SQUARE = 1e-6
ALIKE = 0.02  # mm or degrees between sizes that nobody can cut apart, as of ends that lean a little differently
Place: TypeAlias = tuple[object, ...]


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
    run: bool = False  # along the cutter's way
    centred: bool = False  # a place from the centre line of a round part
    reference: bool = False  # others give it already: in brackets

    @property
    def sizes(self) -> tuple[Size, ...]:
        """All sizes that this figure tells."""
        return (self.size, *self.also)


def same_place(size: Size) -> Place:
    """Return what two sizes share when one printed figure tells both."""
    if size.kind is SizeKind.LENGTH:
        a = sum(size.start[i] * size.along[i] for i in range(3))
        b = sum(size.end[i] * size.along[i] for i in range(3))
        sign = 1 if next(c for c in size.along if abs(c) > SQUARE) > 0 else -1
        way = tuple(round(c * sign, 6) + 0.0 for c in size.along)
        return (size.kind, way, *sorted((round(a * sign, 4) + 0.0, round(b * sign, 4) + 0.0)))
    at = tuple(round(c, 4) for c in (*size.start, *size.end))
    return (size.kind, at, tuple(round(abs(c), 6) for c in size.along))


def merged(every: tuple[Figure, ...]) -> tuple[Figure, ...]:
    """Return the figures with those that measure the same distance made one; the first keeps its place.

    A plain length and a labelled one become the labelled one. Two with labels stay two: equal ones are counted later,
    unlike ones are two things that happen to agree. Equal cuts in one line are counted: their widths lie in one place.
    """
    ends = {end for f in every if f.overall for end in _ends(f.size)}
    out: list[Figure] = []
    at: dict[Place, list[int]] = {}
    for f in every:
        key = same_place(f.size)
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
        named = f if size.label and not first.size.label and not first.overall else first  # whose label it carries
        out[twin] = replace(
            first,
            size=size,
            also=(*first.also, other, *f.also),
            asked=asked,
            over=over,
            feature=named.feature,
            word=named.word,
            reference=first.reference and f.reference,
            count=first.count + (_again(first, f) and not ends & _ends(f.size)),
        )
    return tuple(out)


def _again(first: Figure, f: Figure) -> bool:
    """Return True for the same plain size of another operation of the same kind."""
    a, b = first.size, f.size
    plain = a.kind is SizeKind.LENGTH and not (a.label or b.label or first.views or f.views or first.asked or f.asked)
    other = all(f.feature != name for name in (first.feature, "")) and not first.overall
    return plain and other and first.word == f.word and a.parameters == b.parameters


def _ends(size: Size) -> set[Place]:
    """Return the two planes between which a length lies."""
    if size.kind is not SizeKind.LENGTH:
        return set()
    _, way, low, high = same_place(size)
    return {(way, low), (way, high)}


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
    """Return the figures without those plain lengths that others give by adding up; labelled ones become references.

    What is cut to a width or a depth rules over a plain place, a plain place over how far a cut stops before the far end:
    places run from the near one. The place of a hole is left out only where places of the same view give it, the place of
    what lies along the far end of the part where its own width tells it.
    """
    every = tuple(f for f in every if not _flush(f, every))
    whole = [same_place(f.size)[1:] for f in every if f.overall]
    roots = _Roots()
    out: dict[int, Figure] = {}
    for n, f in sorted(enumerate(every), key=lambda e: (_turn(e[1], whole), e[0])):
        if f.size.kind is not SizeKind.LENGTH or f.reference:
            out[n] = f
            continue
        _, way, low, high = same_place(f.size)
        given = any(roots.joined((g, way, low), (g, way, high)) for g in f.views or (None,))
        fat = (
            f.size.over and not f.overall
        )  # told wherever its wood ends; nobody takes the measure of another thing off it
        if given and not (f.overall or f.asked or fat):
            if f.size.label:
                stands = f.size.authority is not Authority.CUT or any(_stands(f, other) for other in out.values())
                out[n] = replace(f, reference=not stands)
            continue
        if fat:
            out[n] = f
            continue
        for g in (None, *(() if f.size.label else _told_on(f))):
            roots.join((g, way, low), (g, way, high))
        out[n] = f
    return tuple(out[n] for n in sorted(out))


def _stands(a: Figure, b: Figure) -> bool:
    """Return True for a labelled figure that needs no brackets beside another: equal operations are counted later.

    Two unlike cuts of one width are two things that happen to agree.
    """
    alike = a.word == b.word and a.size.note == b.size.note and a.size.value == b.size.value
    same = same_place(a.size) == same_place(b.size)
    return not b.reference and bool(b.size.label) and (same or (alike and a.size.label == b.size.label))


class _Roots:
    """Places that figures join to one another."""

    def __init__(self) -> None:
        self.above: dict[Place, Place] = {}

    def _root(self, n: Place) -> Place:
        while self.above.setdefault(n, n) != n:
            n = self.above[n]
        return n

    def joined(self, a: Place, b: Place) -> bool:
        """Return True when figures lead from one place to the other."""
        return self._root(a) == self._root(b)

    def join(self, a: Place, b: Place) -> None:
        """Note that a figure leads from one place to the other."""
        self.above[self._root(a)] = self._root(b)


def _turn(figure: Figure, whole: list[Place]) -> int:
    """Return in which turn a figure is looked at: the earlier ones rule."""
    size = figure.size
    if size.kind is not SizeKind.LENGTH or figure.overall or figure.asked or size.over:
        return 0
    if not size.label:
        return 2
    _, way, low, high = same_place(size)
    far = any(w == way and high == end and low != start for w, start, end in whole)
    return 3 if figure.run and far else 1


def _flush(figure: Figure, every: tuple[Figure, ...]) -> bool:
    """Return True for the plain place of what reaches the far end of the part, where another of its figures runs from there."""
    s = figure.size
    if s.kind is not SizeKind.LENGTH or figure.overall or figure.asked or figure.views or s.label or s.over:
        return False
    _, way, low, high = same_place(s)
    whole = [same_place(f.size)[1:] for f in every if f.overall]
    own = [f.size for f in every if f.feature == figure.feature and f.size.label and f.size.kind is SizeKind.LENGTH]
    return any((way, low, same_place(o)[3]) in whole for o in own if same_place(o)[1:3] == (way, high))


def counted(
    every: tuple[Figure, ...], places: Callable[[Size], bool] = lambda size: not size.label
) -> tuple[Figure, ...]:
    """Return the figures with sizes that are alike printed once with their number: ``3× dado 13⁄16``.

    Sizes of equal operations at both ends of a part or on several of its faces are alike too: one is dimensioned, the
    other is like it. Holes are placed at each end: ``2×`` would read as two holes of the end that is drawn. `places` says
    which sizes without a label are places: these run from other edges on another face.
    """
    loose: dict[Place, list[Figure]] = {}
    values: dict[Place, list[float]] = {}
    for f in every:
        key: Place = (id(f),) if f.overall or f.asked or f.centred else _likeness(f, places)
        met, value = values.setdefault(key, []), float(f.size.value)
        near = next((v for v in met if abs(v - value) < ALIKE), value)
        if near == value:
            met.append(value)
        loose.setdefault((*key, near), []).append(f)
    groups: dict[Place, list[Figure]] = {}
    for key, alike in loose.items():
        told = {(f.feature, _way(f.size)) for f in alike}
        one = len(told) == len({feature for feature, _ in told})  # no operation has it along two ways
        for f in alike:
            groups.setdefault(key if one else (*key, _way(f.size), f.size.face), []).append(f)
    return tuple(
        replace(g[0], also=(*g[0].also, *(s for f in g[1:] for s in f.sizes)), count=sum(f.count for f in g))
        for g in groups.values()
    )


def _way(size: Size) -> tuple[float, ...]:
    return tuple(round(abs(c), 6) for c in size.along)


def _likeness(figure: Figure, places: Callable[[Size], bool]) -> Place:
    """Return what figures share that are printed once: what they measure of which operation, and how it is said."""
    s = figure.size
    bound: Place = ()
    if figure.views or s.kind is SizeKind.ANGLE or (s.kind is SizeKind.LENGTH and not s.label and places(s)):
        bound = ("end" if s.face is not None and s.face.axis == 0 and not figure.views else s.face, _way(s))
    told = s.label or s.parameters
    return (figure.word, s.kind, told, bound, s.authority, s.note, s.over, figure.reference)
