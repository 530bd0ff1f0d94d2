"""What is told twice on a part's sheet, found from what is drawn alone: doubles, closed chains, repeated callouts.

The figures are taken as a reader has them: a text, and two arrows in a view. Each dimension is an edge between two
coordinates of the part; a ring of edges says something twice, unless one of them is for reference, in brackets.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations

from docgen.drawing.boxes import crossing
from docgen.drawing.dimensions.wanted import Angular, Callout, Linear, Placed
from docgen.drawing.records import Line, Text
from docgen.drawing.unfold import Station
from docgen.packet.fonts import PacketMetrics
from docgen.piece.model import Part
from docgen.piece.records import Size, SizeKind
from docgen.sheets.part_spread import spread
from docgen.sheets.part_view import Setting, Subject
from tests.support.ways import way

NEAR = 0.02  # mm in the wood: what is drawn so near is one line
BRACKETS = re.compile(r"\((?![a-z]\d*\)).*\d.*\)")  # a figure for reference; a lettered remark is none
FAT = "⊕"  # wood is left on, then fitted
COUNT = re.compile(r"^\s*\d+×\s*")
NAMES = re.compile(r"^[\w–, ]+:\s*")
SETTING = Setting((1, 4), 2.5, False)


@dataclass(frozen=True)
class Drawn:
    """One dimension as it is drawn: `low` and `high` are coordinates of the part along `way`, mm."""

    text: str
    view: str
    way: tuple[float, ...]
    low: float
    high: float
    centred: bool  # one of its ends lies in the middle of a circle of the view, or of what a remark says
    datum: bool
    more: tuple[tuple[float, float], ...] = ()  # ends of those that ``n×`` tells besides

    @property
    def reference(self) -> bool:
        return BRACKETS.search(self.text) is not None

    def __str__(self) -> str:
        return f"{self.text!r} on {self.view}"


def told_twice(subject: Subject) -> list[str]:
    """Return what the views of a part say twice, in words."""
    made = spread(subject, SETTING, PacketMetrics())
    assert made is not None
    remarks = dict(line.split(" ", 1) for line in subject.notes.lines())
    every: list[Drawn] = []
    out: list[str] = []
    for station, arranged in zip(subject.stations(False), made.arranged, strict=True):
        mine = [d for p in arranged.placed for d in _drawn(p, station, _middles(arranged.placed), remarks)]
        every += mine
        out += list(_rings(mine))
        out += list(_callouts(station, [p for p in arranged.placed if isinstance(p.wanted, Callout)]))
        out += list(_across(station, mine, arranged.placed))
    out += list(_rings([d for d in every if not d.centred]))
    out += list(_alike(subject.part, [p for a in made.arranged for p in a.placed]))
    return sorted(set(out))


def crossed(subject: Subject) -> list[str]:
    """Return the pairs of callouts of one view whose leaders cross."""
    made = spread(subject, SETTING, PacketMetrics())
    assert made is not None
    out = []
    for arranged in made.arranged:
        led = [p for p in arranged.placed if p.how == "leader"]
        ways = [[(r.a, r.b) for r in p.records if isinstance(r, Line)] for p in led]
        for i, j in combinations(range(len(led)), 2):
            if any(crossing(*one, *two) for one in ways[i] for two in ways[j]):
                out.append(f"{_text(led[i])!r} and {_text(led[j])!r}")
    return out


def _text(placed: Placed) -> str:
    return " / ".join(r.text for r in placed.records if isinstance(r, Text))


def _middles(placed: Iterable[Placed]) -> list[tuple[float, float]]:
    return [p for w in (p.wanted for p in placed) if isinstance(w, Callout) and w.radius for p in (w.at, *w.others)]


def _drawn(
    placed: Placed, station: Station, middles: list[tuple[float, float]], remarks: dict[str, str]
) -> Iterator[Drawn]:
    w = placed.wanted
    if not isinstance(w, Linear) or placed.arrows is None:
        return
    view = station.view
    way = tuple(round(w.along[0] * view.right[i] + w.along[1] * view.up[i], 4) + 0.0 for i in range(3))
    sign = -1.0 if next(c for c in way if abs(c) > 1e-3) < 0 else 1.0
    ends = [sign * (p[0] * w.along[0] + p[1] * w.along[1]) / SETTING.factor for p in placed.arrows]
    if placed.how == "running":  # from the origin's circle on the same side
        ends = [sign * (p[0] * w.along[0] + p[1] * w.along[1]) for p in (w.a, w.b)]
    centred = any(
        abs(p[0] * w.along[0] + p[1] * w.along[1] - q[0] * w.along[0] - q[1] * w.along[1]) < NEAR
        and (abs(p[0] - q[0]) + abs(p[1] - q[1]) < NEAR or w.datum)
        for p in (w.a, w.b)
        for q in middles
    ) or any("centre" in text for sign, text in remarks.items() if sign in w.text)
    turned = tuple(sign * c for c in way)
    others = [s for s in w.sizes[1:] if s.kind is SizeKind.LENGTH and abs(abs(_dot(s.along, turned)) - 1) < 1e-3]
    spans = [sorted((_dot(s.start, turned), _dot(s.end, turned))) for s in others if not centred]
    yield Drawn(
        _text(placed),
        f"face {station.face.axis}{station.face.side}",
        turned,
        min(ends),
        max(ends),
        centred,
        w.datum,
        tuple((a, b) for a, b in spans),
    )


def _dot(p: Iterable[float], q: Iterable[float]) -> float:
    return sum(a * b for a, b in zip(p, q, strict=True))


def _rings(every: list[Drawn]) -> Iterator[str]:
    """Yield each dimension that closes a ring of others, in each direction."""
    ways: dict[tuple[float, ...], list[Drawn]] = {}
    for d in every:
        if not d.reference:
            ways.setdefault(tuple(round(c, 2) + 0.0 for c in d.way), []).append(d)
    for own in ways.values():
        graph: dict[int, list[tuple[int, Drawn]]] = {}
        for d in sorted(own, key=lambda d: (d.high - d.low, d.text)):
            spans = dict.fromkeys((round(a / NEAR), round(b / NEAR)) for a, b in ((d.low, d.high), *d.more))
            for a, b in spans:
                ring = way(graph, a, b)
                if ring is not None and any(r is not d for r in ring) and not _agree(d, ring):
                    yield f"{d} closes a ring with {', '.join(dict.fromkeys(map(str, ring)))}"
                graph.setdefault(a, []).append((b, d))
                graph.setdefault(b, []).append((a, d))


def _agree(one: Drawn, ring: list[Drawn]) -> bool:
    """Return True for two cuts that happen to have one width: with names of their own, or one of them left fat."""
    others = [COUNT.sub("", d.text) for d in ring]
    if len(others) == 1 and (FAT in one.text) != (FAT in others[0]):
        return True
    return len(others) == 1 and _named(one.text) and _named(others[0]) and others[0] != COUNT.sub("", one.text)


def _callouts(station: Station, placed: list[Placed]) -> Iterator[str]:
    """Yield each callout that stands more than once on one view but for its name and its count."""
    seen: dict[str, str] = {}
    for p in placed:
        text = _text(p)
        bare = COUNT.sub("", NAMES.sub("", text))
        if not any(c.isdigit() for c in bare):
            continue
        if bare in seen:
            yield f"callout {text!r} beside {seen[bare]!r} on face {station.face.axis}{station.face.side}"
        seen.setdefault(bare, text)


def _across(station: Station, every: list[Drawn], placed: Iterable[Placed]) -> Iterator[str]:
    """Yield each dimension that a diameter of the same view tells as well: the width of a disc."""
    for p in placed:
        w = p.wanted
        if isinstance(w, Callout) and not re.search("THRU|↧", _text(p)):  # a hole is no disc
            for s in (s for s in w.sizes if s.kind is SizeKind.DIAMETER and (s.other is not None or w.radius)):
                for d in every:
                    middle = _dot(s.start, d.way)
                    across = abs(_dot(s.along, d.way)) < 1e-6 and (s.other is None or abs(d.way[0]) < 1e-6)
                    if (
                        across
                        and abs(d.low - (middle - float(s.value) / 2)) < NEAR
                        and abs(d.high - (middle + float(s.value) / 2)) < NEAR
                    ):
                        yield f"{d} beside {_text(p)!r}"


def _alike(part: Part, placed: list[Placed]) -> Iterator[str]:
    """Yield each named figure of one operation that stands at several places where one with its number would do."""
    words = {_where(s): (f.word, f.name) for f in part.features for s in f.made.sizes}
    bored = {f.name for f in part.features if f.made.holes}
    seen: dict[tuple[object, ...], list[tuple[str, str]]] = {}
    for p in placed:
        w = p.wanted
        if isinstance(w, Angular | Callout) and not w.sizes:
            continue
        if isinstance(w, Linear) and (w.overall or (w.datum and not _named(w.text))):
            continue  # places run from a datum: equal ones are two places
        word, name = next((words[_where(s)] for s in w.sizes if _where(s) in words), ("", ""))
        if not word or (isinstance(w, Callout) and w.radius and w.sizes[0].kind is SizeKind.DIAMETER):
            continue
        text = _text(p)
        if name in bored and isinstance(w, Linear) and not _named(text):
            continue  # places of holes
        key = (word, COUNT.sub("", text), w.sizes[0].parameters[-1:] if not _named(text) else ())
        seen.setdefault(key, []).append((text, name))
    for (word, *_), found in seen.items():
        if len(found) > 1 and (len({name for _, name in found}) > 1 or len(found) > 2):  # one cut may be square
            yield f"{word}: {', '.join(repr(text) for text, _ in found)}"


def _named(text: str) -> bool:
    return re.search(r"[a-z×]", text) is not None


def _where(size: Size) -> tuple[object, ...]:
    return (size.kind, tuple(round(c, 5) for c in (*size.start, *size.end)), round(float(size.value), 5))
