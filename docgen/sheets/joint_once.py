"""Each figure of a section once: equal ones counted as far as they are seen, what follows from others in brackets. View mm."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from docgen.geometry.lines import View
from docgen.geometry.outlines import Box2
from docgen.geometry.shapes import Vec2
from docgen.piece.records import Authority, SizeKind
from docgen.schedules.planes import Plane, Told
from docgen.sheets.joint_screws import held_spans

SAME = 0.3  # mm: sizes whose ends lie nearer than this on their line are one
SAME_VALUE = 1e-3  # mm, degrees
ONE_LINE = 0.02  # mm: ends so near are drawn on one line
ROW = re.compile(r"^\d+× ")  # before the name of what stands in a row
MIDDLE = re.compile(r"\b(?:centre|middle)\b")  # in the words of a size that ends in the middle of another


@dataclass(frozen=True, slots=True)
class Once:
    """A size that is told once: how often it is seen, and whether it follows from others."""

    told: Told
    count: int = 1
    reference: bool = False


@dataclass(slots=True)
class _Group:
    """One size with all places that it tells, by part."""

    told: Told
    places: list[Told] = field(default_factory=list)


def once(plane: Plane, window: Box2) -> list[Once]:
    """Return each size of a plane once, with how often it is seen in a window; one that is not seen there counts all places."""
    view = plane.view
    screwed = list(held_spans(plane))
    groups = [g for g in _grouped(plane.sizes, view) if not any(_spans(g.told, s, view) for s in screwed)]
    found = [_counted(group, plane, window) for group in _halved(_both(groups, view), view)]
    return _bracketed(found, screwed, view)


def _grouped(sizes: Sequence[Told], view: View) -> list[_Group]:
    """Return equal sizes of a part as one; so are two in one place, and what two parts tell of one row of cuts."""
    kept: list[_Group] = []
    known: dict[tuple[object, ...], _Group] = {}
    for told in sizes:
        own = (told.path, told.key)
        if own in known:
            if known[own].told.path == told.path:
                known[own].places.append(told)
            continue
        row = next((g for g in kept if _in_row(g.told, told, view)), None)
        twin = next((g for g in kept if _coincide(g.told, told, view)), None)
        if row is not None:  # both parts tell the same row of cuts: as it is cut, else as its mate has it
            known[own] = row
            if row.told.size.authority is Authority.MATE and told.size.authority is not Authority.MATE:
                row.told, row.places = told, [told]
        elif twin is not None:
            known[own] = twin
            if told.size.label and not twin.told.size.label:
                twin.told, twin.places = told, [told]
        else:
            known[own] = _Group(told, [told])
            kept.append(known[own])
    return kept


def _both(groups: Sequence[_Group], view: View) -> list[_Group]:
    """Return the groups with what is cut alike in both parts told together: two recesses of one depth."""
    out: list[_Group] = []
    for group in groups:
        a = group.told
        for other in out:
            b = other.told
            named = _length(a) and a.size.label and not MIDDLE.search(a.size.label) and a.path != b.path
            same = (a.key, a.size.authority, a.size.note) == (b.key, b.size.authority, b.size.note)
            if named and same and _parallel(a, b, view):
                other.places += group.places
                break
        else:
            out.append(group)
    return out


def _halved(groups: Sequence[_Group], view: View) -> Iterator[_Group]:
    """Yield the groups without a second half: two parts that are as wide tell one middle, each from its own face."""
    kept: list[_Group] = []
    for group in groups:
        a = group.told
        for b in (g.told for g in kept):
            one = a.key == b.key and _length(a) and MIDDLE.search(a.size.label) and _parallel(a, b, view)
            if one and abs(_levels(a, view)[1] - _levels(replace(b, along=a.along), view)[1]) < ONE_LINE:
                break
        else:
            kept.append(group)
            yield group


def _counted(group: _Group, plane: Plane, window: Box2) -> Once:
    """Return a group with the number of its places that are seen, told at the first of those."""
    view = plane.view
    seen = [t for t in group.places if _seen(t, view, window)]
    told = group.told if not seen or group.told in seen else seen[0]
    count = len({_place(t, view) for t in seen or group.places})
    if told.size.times > 1:
        times = sum(_met(cut, plane, window) for cut in told.cuts)
        told = replace(told, size=replace(told.size, times=max(times, 1)))
    return Once(told, count)


def _seen(told: Told, view: View, window: Box2) -> bool:
    low, high = window
    ends = (view.flat(told.start), view.flat(told.end))
    return all(low[i] - SAME < p[i] < high[i] + SAME for p in ends for i in (0, 1))


def _place(told: Told, view: View) -> tuple[float, ...]:
    """Return where a size stands in the view: a cut that lies behind another is drawn as one with it."""
    a, b = sorted((view.flat(told.start), view.flat(told.end)))
    return tuple(round(c, 1) + 0.0 for c in (*a, *b))


def _met(cut: Sequence[tuple[float, float, float]], plane: Plane, window: Box2) -> bool:
    """Tell whether a plane passes through the box of a cut within a window."""
    off = [sum((p[i] - plane.point[i]) * plane.normal[i] for i in range(3)) for p in cut]
    flat = [plane.view.flat(p) for p in cut]
    inside = all(
        max(p[i] for p in flat) > window[0][i] + SAME and min(p[i] for p in flat) < window[1][i] - SAME for i in (0, 1)
    )
    return min(off) < -SAME_VALUE and max(off) > SAME_VALUE and inside


# -- what follows from others -----------------------------------------------------------------------------------------


def _bracketed(found: Sequence[Once], screwed: Iterable[tuple[Vec2, Vec2]], view: View) -> list[Once]:
    """Return the sizes with those in brackets that others give by adding up; a middle gives half of what it lies in.

    What is cut to a width or a depth rules over a place; fat is told wherever its wood ends.
    """
    lengths = [o for o in found if _length(o.told)]
    ways: dict[tuple[float, float], list[Once]] = {}
    for o in lengths:
        ways.setdefault(_way(o.told, view), []).append(o)
    derived: set[int] = {id(o) for o in found if _follows(o.told)}
    for way, own in ways.items():
        sums = _Sums()
        for o in (o for o in own if MIDDLE.search(o.told.size.label)):
            for other in own:
                sums.halved(_at(o.told, view, way)[1], _at(other.told, view, way))
        for a, b in screwed:
            if abs(_cross((b[0] - a[0], b[1] - a[1]), way)) < SAME_VALUE:
                sums.new((_dot(a, way), _dot(b, way)))
        for o in sorted((o for o in own if id(o) not in derived), key=lambda o: _turn(o.told)):
            if not sums.new(_at(o.told, view, way)) and not o.told.size.over:
                derived.add(id(o))
    return [replace(o, reference=id(o) in derived) for o in found]


def _follows(told: Told) -> bool:
    """Tell whether a size fixes nothing that is cut, or words tell it too."""
    size = told.size
    return size.reference or (size.kind in (SizeKind.LENGTH, SizeKind.RADIUS) and not size.parameters)


def _turn(told: Told) -> int:
    size = told.size
    return 0 if size.over else 3 if not size.label else 2 if MIDDLE.search(size.label) else 1


class _Sums:
    """Lengths between levels of one direction: which of them others give by adding up, found by elimination."""

    def __init__(self) -> None:
        self.levels: list[float] = []
        self.rows: list[tuple[int, dict[int, float]]] = []  # each with the level that it settles

    def _level(self, at: float) -> int:
        for n, level in enumerate(self.levels):
            if abs(level - at) < ONE_LINE:
                return n
        self.levels.append(at)
        return len(self.levels) - 1

    def new(self, ends: tuple[float, float]) -> bool:
        """Tell whether a length between two levels says something that those before it do not, and note it."""
        return self._note(((ends[0], -1.0), (ends[1], 1.0)))

    def halved(self, middle: float, ends: tuple[float, float]) -> None:
        """Note that a level is drawn in the middle between two others, where it is."""
        if abs(middle - (ends[0] + ends[1]) / 2) < ONE_LINE:
            self._note(((middle, 2.0), (ends[0], -1.0), (ends[1], -1.0)))

    def _note(self, terms: Iterable[tuple[float, float]]) -> bool:
        row: dict[int, float] = {}
        for at, share in terms:
            n = self._level(at)
            row[n] = row.get(n, 0.0) + share
        for lead, other in self.rows:
            share = row.get(lead, 0.0)
            for n, c in other.items():
                row[n] = row.get(n, 0.0) - share * c
        leads = [n for n, c in sorted(row.items()) if abs(c) > 1e-9]
        if leads:
            self.rows.append((leads[0], {n: c / row[leads[0]] for n, c in row.items()}))
        return bool(leads)


# -- where sizes lie --------------------------------------------------------------------------------------------------


def _length(told: Told) -> bool:
    return told.size.kind is SizeKind.LENGTH


def _dot(p: Vec2, way: Vec2) -> float:
    return p[0] * way[0] + p[1] * way[1]


def _cross(p: Vec2, q: Vec2) -> float:
    return p[0] * q[1] - p[1] * q[0]


def _way(told: Told, view: View) -> tuple[float, float]:
    """Return along which line of the view a length runs, one way for both."""
    x, y = (round(c, 4) + 0.0 for c in view.flat(told.along))
    return (x, y) if (x, y) > (-x, -y) else (-x + 0.0, -y + 0.0)


def _at(told: Told, view: View, way: Vec2) -> tuple[float, float]:
    return _dot(view.flat(told.start), way), _dot(view.flat(told.end), way)


def _levels(told: Told, view: View) -> tuple[float, float]:
    return _at(told, view, view.flat(told.along))


def _spans(told: Told, span: tuple[Vec2, Vec2], view: View) -> bool:
    """Tell whether a length runs beside a stretch of a screw, from one end of it to the other."""
    (a, b), u = span, view.flat(told.along)
    if not _length(told) or abs(_cross(u, (b[0] - a[0], b[1] - a[1]))) > SAME:
        return False
    ends = sorted(_levels(told, view)), sorted((_dot(a, u), _dot(b, u)))
    return all(abs(p - q) < SAME for p, q in zip(*ends, strict=True))


def _in_row(a: Told, b: Told, view: View) -> bool:
    """Tell whether two parts tell what stands in a row in both, by one name and value: the spacing of pins and of tails."""
    if a.path == b.path or SizeKind.ANGLE in (a.size.kind, b.size.kind) or a.size.kind is not b.size.kind:
        return False
    words = [ROW.sub("", t.size.label) for t in (a, b)]
    if words[0] != words[1] or words == [a.size.label, b.size.label]:
        return False
    return abs(float(a.size.value) - float(b.size.value)) < SAME_VALUE and _parallel(a, b, view)


def _parallel(a: Told, b: Told, view: View) -> bool:
    return abs(_cross(view.flat(a.along), view.flat(b.along))) < SAME_VALUE


def _coincide(a: Told, b: Told, view: View) -> bool:
    """Return True for two lengths of one value between the same lines, and for two angles of one value and label."""
    if a.size.kind is not b.size.kind or abs(float(a.size.value) - float(b.size.value)) > SAME_VALUE:
        return False
    if a.size.kind is not SizeKind.LENGTH:
        return a.size.label == b.size.label
    if not _parallel(a, b, view):
        return False
    u = view.flat(a.along)
    ends = [sorted(_at(t, view, u)) for t in (a, b)]
    return all(abs(p - q) < SAME for p, q in zip(*ends, strict=True))
