"""What a level push at the piece's top does to the bolts between what stands on the floor and what it carries."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.geometry.shapes import Vec
from docgen.piece.model import Fastener
from docgen.piece.records import Origin
from docgen.schedules.terms import stated
from docgen.trade.beams import GRAVITY

TITLE = "load on knock-down bolts from a stated push at the top"
CODES = ("bolt-load",)
LOOKS = looks.Looks(looks.both(looks.bolts, looks.on_floor), looks.says("side push"), "no side push")

TOUCH = 1.0
"""mm from the floor, or from the piece's top, that still count as there."""

SAME = 1e-9

WAYS = ((0, "sideways"), (1, "front to back"))


@dataclass(frozen=True, slots=True)
class Load:
    """What the worst bolt of a group bears, N: `even` its share of the push, `turning` its share of the moment."""

    words: str
    lever: float  # mm, from the middle of the bolts up to the push
    even: float
    turning: float

    @property
    def all(self) -> float:
        """Both shares together, as if they pulled the same way."""
        return self.even + self.turning


def check(subject: Subject) -> Iterator[Finding]:
    """Yield one note for each group of bolts that carries the push to the floor; silent unless the file states a push."""
    push = stated(subject.piece, "side push")
    if push is None or push <= 0 or subject.piece.stands == "wall":
        return
    top = max((subject.placed(p.path).bounds[1][2] for p in subject.piece.parts), default=0.0)
    for bolts in _groups(subject, top):
        points = [p for f in bolts for p in _points(f)]
        loads = [load for axis, words in WAYS if (load := worst(points, float(push) * GRAVITY, axis, words, top))]
        if loads:
            yield _finding(subject, bolts, max(loads, key=lambda one: (one.all, one.words)), float(push), top)


def _bolts(subject: Subject) -> list[Fastener]:
    return [f for f in subject.piece.fasteners if f.what.startswith("machine screw") and all(f.parts)]


def _points(fastener: Fastener) -> list[Vec]:
    return [(float(p[0]), float(p[1]), float(p[2])) for p in fastener.points]


def _groups(subject: Subject, top: float) -> Iterator[list[Fastener]]:
    """Yield the bolts between two sub-assemblies, where all that the push reaches hangs on them alone."""
    bolts = _bolts(subject)
    lumps = _lumps(subject)
    between: dict[tuple[int, int], list[Fastener]] = {}
    for f in bolts:
        a, b = sorted((lumps[f.parts[0]], lumps[f.parts[1]]))
        if a != b:
            between.setdefault((a, b), []).append(f)
    low = {lumps[p.path] for p in subject.piece.parts if subject.placed(p.path).bounds[0][2] < TOUCH}
    high = {lumps[p.path] for p in subject.piece.parts if subject.placed(p.path).bounds[1][2] > top - TOUCH}
    for pair, held in sorted(between.items()):
        links = [other for other in between if other != pair]
        one, two = _reached(pair[0], links), _reached(pair[1], links)
        if one & two:
            continue  # another way round carries a share that nobody knows
        if any(upper & high and not upper & low and lower & low for upper, lower in ((one, two), (two, one))):
            yield held


def _lumps(subject: Subject) -> dict[str, int]:
    """Return for each part the number of the sub-assembly that stays together when the bolts are undone.

    The joint that is made by bolts, into nuts, inserts or cross dowels, comes from the same statement as they do.
    """
    undone: dict[frozenset[str], list[Origin]] = {}
    for f in _bolts(subject):
        undone.setdefault(frozenset(f.parts), []).append(f.origin)
    links = [
        (subject.piece.part(a).number, subject.piece.part(b).number)
        for joint in subject.piece.joints
        for a, b in combinations(joint.parts, 2)
        if joint.origin not in undone.get(frozenset((a, b)), ())
    ]
    return {p.path: min(_reached(p.number, links)) for p in subject.piece.parts}


def _reached(start: int, links: Sequence[tuple[int, int]]) -> set[int]:
    found, edge = {start}, [start]
    while edge:
        here = edge.pop()
        new = {b if a == here else a for a, b in links if here in (a, b)} - found
        found |= new
        edge += sorted(new)
    return found


def worst(points: Sequence[Vec], push: float, axis: int, words: str, top: float) -> Load | None:
    """Return the load on the worst bolt when `push` (N) acts along `axis` at height `top` (mm).

    The group turns about its middle: P / n + M · r / Σr², r in the plane of the push. None where the bolts have
    no lever against turning, or the push comes in at or under their middle.
    """
    if len(points) < 2:
        return None
    middle = [sum(p[i] for p in points) / len(points) for i in range(3)]
    arms = [math.hypot(p[axis] - middle[axis], p[2] - middle[2]) for p in points]
    squares = sum(r * r for r in arms)
    lever = top - middle[2]
    if squares < SAME or lever <= 0:
        return None
    return Load(words, lever, push / len(points), push * lever * max(arms) / squares)


def _finding(subject: Subject, bolts: list[Fastener], load: Load, push: float, top: float) -> Finding:
    names = ", ".join(sorted({f.key for f in bolts}))
    count = sum(len(f.points) for f in bolts)
    newtons = push * GRAVITY
    return Finding(
        Grade.NOTE,
        "bolt-load",
        tuple(dict.fromkeys(p for f in bolts for p in f.parts)),
        f"A level push of {subject.force(newtons)} {load.words} at the top, {subject.say(top)} up, acts over a lever of "
        f"{subject.say(load.lever)} on the {count} bolts {names}: about {subject.force(load.all)} on the worst of them, "
        f"{subject.force(load.even)} as its share and {subject.force(load.turning)} from the turning.",
        "P / n + M · r / Σr², M = P · lever; r from the middle of the bolts, in the plane of the push",
        "statics; bolts of equal stiffness between stiff parts, friction and bearing of the wood left out; "
        "an estimate and a caution, not a rating",
        where(*(f.origin for f in bolts)),
        (
            ("push", newtons, "N"),
            ("lever", load.lever, "mm"),
            ("share of the push", load.even, "N"),
            ("from the turning", load.turning, "N"),
            ("on the worst bolt", load.all, "N"),
        ),
        "try the joint with that push before use; bolts further apart bear less",
    )
