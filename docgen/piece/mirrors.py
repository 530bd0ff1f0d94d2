"""Parts turned in groups, and mirrored copies: first their definitions, then what is done to them.

A copy gets everything that is done to the part that it is the image of, by mirroring the records of each operation:
so it holds for any operation, joint and assembly.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from docgen.expressions import Expr
from docgen.geometry.shapes import Extrusion, Frame, Vec
from docgen.piece.bench import Operation
from docgen.piece.hardware import Fitting
from docgen.piece.model import FACE_WORDS, Drawer, Fastener, Group, Item, Joint, Loose, Pane, Part, Run
from docgen.piece.naming import spoken
from docgen.piece.records import Made, Point
from docgen.piece.reflect import Reflection
from docgen.places import Span
from docgen.project.model import GroupDef, MirrorDef, PartDef, Turn
from docgen.reading.problems import Problem
from docgen.reading.words import did_you_mean
from docgen.units import Number

SIDES = (("left", "right"), ("front", "back"), ("bottom", "top"))
NEAR = 1e-6
"""Placements that differ by less are the same, mm."""


@dataclass(frozen=True, slots=True)
class Planned:
    """A mirrored copy before anything has a place: each part with its image."""

    axis: int
    at: Expr
    pairs: Mapping[str, str]
    names: Mapping[str, str]  # of the assemblies that are copied, with those of their copies
    standing: tuple[tuple[str, str], ...]
    span: Span
    spans: Mapping[str, Span]


def swapped(text: str, axis: int) -> str:
    """Return a text with the two words of a direction exchanged: left and right, front and back, bottom and top."""
    low, high = SIDES[axis]
    other = {low: high, high: low}
    return re.sub(rf"\b(?:{low}|{high})\b", lambda found: other[found[0]], text)


def members(parts: Iterable[PartDef], name: str) -> list[PartDef]:
    """Return the part of this name, or those of the repeated part or assembly of this name."""
    return [p for p in parts if p.path == name or p.path.startswith(f"{name}.")]


def turned(parts: list[PartDef], groups: Iterable[GroupDef], problems: list[Problem]) -> list[PartDef]:
    """Return the parts with the turns of their groups behind their own."""
    turns: dict[str, tuple[Turn, ...]] = {}
    for group in groups:
        found = [_known(parts, name, where, problems) for name, where in group.parts]
        if not all(found):
            continue  # half of a group turned would be told as joints that stand askew
        for path in dict.fromkeys(p.path for some in found for p in some):
            turns[path] = (*turns.get(path, ()), *group.turns)
    return [replace(p, turns=(*p.turns, *turns[p.path])) if p.path in turns else p for p in parts]


def _known(parts: Iterable[PartDef], name: str, where: Span, problems: list[Problem]) -> list[PartDef]:
    found = members(parts, name)
    if not found:
        names = dict.fromkeys(word for p in parts for word in (p.path, p.path.rpartition(".")[0]) if word)
        hint = did_you_mean(name, names)
        problems.append(Problem("unknown-part", where, f"no part and no assembly is called '{name}'", hint))
    return found


def copied(parts: list[PartDef], mirror: MirrorDef, problems: list[Problem]) -> tuple[list[PartDef], Planned]:
    """Return the parts that a mirror adds, and what it plans."""
    made: list[PartDef] = []
    pairs: dict[str, str] = {}
    names: dict[str, str] = {}
    for name, where in mirror.of:
        found = _known(parts, name, where, problems)
        alone = len(mirror.of) == 1 and len(found) == 1 and found[0].path == name
        if not any(p.path == name for p in found):
            names[name] = mirror.name
        for part in found:
            path = mirror.name if alone else _image_path(part.path, name, mirror)
            pairs[part.path] = path
            made.append(_image(part, path, name, mirror))
    taken = {p.path for p in parts}
    for part in made:
        if part.path in taken:
            message = f"'{part.path}', which '{mirror.name}' makes, is the name of a part already"
            problems.append(Problem("name-twice", mirror.span, message, "give the mirrored copy another name"))
        taken.add(part.path)
    for i, pair in enumerate(mirror.pairs):
        for j, name in enumerate(pair):
            if name not in taken:
                where = mirror.spans.get(f"pairs.{i}.{j}", mirror.span)
                hint = did_you_mean(name, sorted(taken))
                problems.append(Problem("unknown-part", where, f"no part is called '{name}'", hint))
    joined = {**pairs, **dict(mirror.pairs)}
    return made, Planned(mirror.axis, mirror.at, joined, names, mirror.pairs, mirror.span, mirror.spans)


def _image_path(path: str, name: str, mirror: MirrorDef) -> str:
    """Return what the image of a part is called: under the copy's name, the words of place exchanged."""
    tail = path if path == name or len(mirror.of) > 1 else path[len(name) + 1 :]
    return f"{mirror.name}.{swapped(tail, mirror.axis)}"


def _image(part: PartDef, path: str, name: str, mirror: MirrorDef) -> PartDef:
    """Return the definition of a part's image, its box said by the faces of that part."""

    def face(word: str) -> Expr:
        return Expr.name(f"{part.path}.{word}", mirror.span)

    twice = mirror.at * 2
    box = tuple(
        (twice - face(high), twice - face(low)) if axis == mirror.axis else (face(low), face(high))
        for axis, (low, high) in enumerate(SIDES)
    )
    show = swapped(part.show, mirror.axis)
    words = "" if path == mirror.name else _called(part, name, mirror)
    return replace(
        part,
        path=path,
        box=(box[0], box[1], box[2]),
        turns=tuple(_turn(t, mirror.axis, twice) for t in part.turns),
        show=show,
        group=mirror.name if part.group == name else swapped(part.group, mirror.axis),
        span=mirror.span,
        because=(mirror.span, part.span),
        called=words,
    )


def _called(part: PartDef, name: str, mirror: MirrorDef) -> str:
    words = part.called or spoken(part.path)
    if words.startswith(name):
        return f"{mirror.name}{swapped(words[len(name) :], mirror.axis)}"
    return swapped(words, mirror.axis)


def _turn(turn: Turn, mirror: int, twice: Expr) -> Turn:
    """Return the image of a turn: about the mirror's own direction it keeps its sense, about others it changes it."""
    axis, angle, first, second = turn
    points = [first, second]
    others = [i for i in range(3) if i != axis]
    if mirror in others:
        points[others.index(mirror)] = twice - points[others.index(mirror)]
        angle = -angle
    return axis, angle, points[0], points[1]


@dataclass(frozen=True, slots=True)
class Mirror:
    """A mirror that stands at a place of the piece: records of the piece, and their images."""

    axis: int
    at: Number  # mm
    pairs: Mapping[str, str]
    names: Mapping[str, str]
    standing: frozenset[str] = frozenset()  # parts whose images are no copies of theirs

    def serves(self, named: Iterable[str]) -> bool:
        """Tell whether what is done to these parts is done to their images as well: one of them has a copy here.

        A part through whose middle the mirror stands is its own image.
        """
        named = frozenset(named)
        images = {image for part, image in self.pairs.items() if image != part}
        return bool(named - self.standing) and all(name in self.pairs and name not in images for name in named)

    def has(self, parts: Iterable[str]) -> bool:
        """Tell whether each of the parts has an image."""
        return all(path in self.pairs for path in parts if path)

    def reflection(self, part: Part, image: Part) -> Reflection | None:
        """Return how the part's own axes are mirrored to lay it on its image; None when it is not its image."""
        for axis in range(3):
            one = Reflection(axis, part.size[axis], self.words)
            corners = ((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
            there = [self.point(part.frame.point(c)) for c in corners]
            mine = [image.frame.point(one.point(c)) for c in corners]
            off = max(abs(a - b) for p, q in zip(there, mine, strict=True) for a, b in zip(p, q, strict=True))
            if off < NEAR and all(abs(float(a - b)) < NEAR for a, b in zip(part.size, image.size, strict=True)):
                return one
        return None

    def words(self, text: str) -> str:
        """Return a text in which parts are called by the names of their images."""
        if text in self.pairs:
            return self.pairs[text]
        known = sorted((p for p in self.pairs if p not in FACE_WORDS), key=len, reverse=True)
        either = "|".join(map(re.escape, known))
        return re.sub(rf"(?<![\w.])(?:{either})(?![\w.])", lambda f: self.pairs[f[0]], text) if known else text

    def name(self, name: str) -> str:
        """Return what the image of a drawer, pane or group is called."""
        return self.names.get(name) or self.words(name)

    def point(self, p: Vec) -> Vec:
        """Return the image of a point of the piece."""
        out = list(p)
        out[self.axis] = 2 * float(self.at) - p[self.axis]
        return (out[0], out[1], out[2])

    def exact(self, p: Point) -> Point:
        """Return the image of a point of the piece whose figures may be exact."""
        out = list(p)
        out[self.axis] = 2 * self.at - p[self.axis]
        return (out[0], out[1], out[2])

    def way(self, d: Vec) -> Vec:
        """Return the image of a direction of the piece."""
        out = list(d)
        out[self.axis] = -d[self.axis] + 0.0
        return (out[0], out[1], out[2])

    def figures(self, figures: tuple[tuple[str, Number, str], ...]) -> tuple[tuple[str, Number, str], ...]:
        """Return figures with the names of parts in their words changed."""
        return tuple((self.words(name), value, kind) for name, value, kind in figures)

    def joint(self, joint: Joint, features: Mapping[tuple[str, str], tuple[str, str]]) -> Joint:
        """Return the image of a joint; `features` are those that were mirrored, by part and name."""
        return replace(
            joint,
            title=self.words(joint.title),
            parts=tuple(self.pairs[p] for p in joint.parts),
            features=tuple(features[f] for f in joint.features if f in features),
            figures=self.figures(joint.figures),
            closes=self.way(joint.closes),
            loose=tuple(self.loose(x, features) for x in joint.loose),
            fittings=tuple(self.fitting(x) for x in joint.fittings),
            cut_as=tuple((self.pairs[path], what) for path, what in joint.cut_as),
        )

    def solid(self, shape: Extrusion, frame: Frame) -> tuple[Extrusion, Frame]:
        """Return the image of a solid: its own axis 2 is turned about, so that its axes stay right-handed."""
        mirrored = tuple(
            tuple((-1.0 if i == self.axis else 1.0) * (-c if j == 2 else c) + 0.0 for j, c in enumerate(row))
            for i, row in enumerate(frame.rotation)
        )
        turned = Frame(mirrored, self.point(frame.origin))  # type: ignore[arg-type]
        return replace(shape, low=-shape.high, high=-shape.low), turned

    def fitting(self, thing: Fitting) -> Fitting:
        """Return the image of a piece of hardware."""
        shape, frame = self.solid(thing.shape, thing.frame)
        return replace(thing, shape=shape, frame=frame, parts=tuple(self.pairs[p] for p in thing.parts))

    def loose(self, thing: Loose, features: Mapping[tuple[str, str], tuple[str, str]]) -> Loose:
        """Return the image of a small thing."""
        shape, frame = self.solid(thing.shape, thing.frame)
        return replace(
            thing,
            shape=shape,
            frame=frame,
            parts=tuple(self.pairs[p] for p in thing.parts),
            sits=tuple(features[f] for f in thing.sits if f in features),
            leaves=(thing.leaves[0], thing.leaves[1], -thing.leaves[2] + 0.0),
        )

    def fastener(self, fastener: Fastener) -> Fastener:
        """Return the image of a fastener."""
        held, tapped = fastener.parts
        return replace(
            fastener,
            points=tuple(self.exact(p) for p in fastener.points),
            direction=self.way(fastener.direction),
            parts=(self.pairs.get(held, held), self.pairs.get(tapped, tapped)),
            slot=self.way(fastener.slot),
        )

    def item(self, item: Item) -> Item:
        """Return what is bought for the image: the same, with the names of its parts."""
        parts = tuple(self.pairs.get(p, p) for p in item.parts)
        return replace(item, note=self.words(item.note), where=self.words(item.where), parts=parts)

    def group(self, group: Group) -> Group:
        """Return the image of parts that swing: about an axis that lies in the mirror they swing the other way."""
        low, high = group.range
        return replace(
            group,
            name=self.name(group.name),
            parts=tuple(self.pairs.get(p, p) for p in group.parts),
            point=self.point(group.point),
            range=(low, high) if group.axis == self.axis else (-high, -low),
        )

    def pane(self, pane: Pane) -> Pane:
        """Return the image of a panel in its frame."""
        frame = tuple(self.pairs.get(p, p) for p in pane.frame)
        return replace(pane, name=self.name(pane.name), frame=frame, pane=self.pairs.get(pane.pane, pane.pane))

    def drawer(self, drawer: Drawer) -> Drawer:
        """Return the image of a drawer."""
        opening = list(drawer.opening)
        low, high = opening[self.axis]
        opening[self.axis] = (2 * self.at - high, 2 * self.at - low)
        return replace(
            drawer,
            name=self.name(drawer.name),
            parts=tuple(self.pairs.get(p, p) for p in drawer.parts),
            opening=(opening[0], opening[1], opening[2]),
            runners=tuple(self.pairs.get(p, p) for p in drawer.runners),
            bed=self.pairs.get(drawer.bed, drawer.bed),
        )

    def run(self, run: Run) -> Run:
        """Return the image of parts cut in turn from one blank."""
        return replace(
            run,
            name=self.name(run.name),
            parts=tuple(self.pairs.get(p, p) for p in run.parts),
            inner=tuple(swapped(word, self.axis) for word in run.inner),
        )


@dataclass(frozen=True, slots=True)
class MirroredOperation:
    """An operation on the image of the part that it was made for."""

    of: Operation
    word: str
    reflection: Reflection
    hand: Part  # the part that it was made for

    def made(self, part: Part) -> Made:
        """Return the image of what the operation means for the other hand."""
        return self.reflection.made(self.of.made(self.reflection.view(self.hand, part)))
