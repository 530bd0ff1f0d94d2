"""Wooden runners: wood left behind their grooves, play in height, and wood round the heads of their screws."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.slides import figures
from docgen.checks.subject import Subject, where
from docgen.checks.trenches import left_behind, trenches
from docgen.piece.model import Drawer, Part
from docgen.piece.records import Feature, Point
from docgen.trade.runners import LEAST_BESIDE, LEAST_PLAY, LEAST_UNDER, LEAST_WALL, MOST_PLAY

TITLE = "wooden runners: play, wood behind their grooves and round their screws"
CODES = ("runner-wall-thin", "runner-play", "runner-thin")
LOOKS = looks.Looks(looks.runners)

SAME = 1e-3
ROUNDED = 0.01  # mm: 1/64 in counts as 0.4 mm


@dataclass(frozen=True, slots=True)
class Sunk:
    """A head in a strip, mm: how deep it is sunk, how wide, and how far its middle lies from the nearer long edge."""

    feature: Feature
    deep: float
    wide: float
    edge: float
    thick: float


def check(subject: Subject) -> Iterator[Finding]:
    """Yield grooves with under 6 mm behind them, play under 0.4 or over 1 mm, and strips too thin for the heads of their screws."""
    for drawer in subject.piece.drawers:
        if drawer.runners:
            yield from _walls(subject, drawer)
            yield from _play(subject, drawer)
            for path in drawer.runners:
                yield from _heads(subject, subject.piece.part(path), drawer)


def _walls(subject: Subject, drawer: Drawer) -> Iterator[Finding]:
    cut = {
        pair
        for j in subject.piece.joints
        if j.parts[0] in drawer.runners
        for pair in j.features
        if pair[0] in drawer.parts
    }
    for path in dict.fromkeys(path for path, _ in sorted(cut)):
        part = subject.piece.part(path)
        for trench in trenches(part):
            if (path, trench.feature.name) not in cut:
                continue
            left = left_behind(subject, part, trench)
            if left >= LEAST_WALL - SAME:
                continue
            yield Finding(
                Grade.CARE,
                "runner-wall-thin",
                (path,),
                f"{trench.feature.title} leaves {subject.say(left)} of {path} behind it, which carries what lies in the drawer.",
                "at least 6 mm (1/4 in) of a drawer's side behind the groove for its runner",
                "common practice; measured on the finished solid",
                where(trench.feature.origin, part.origin),
                (("left", left, "mm"), ("least", LEAST_WALL, "mm")),
                "a shallower groove, or thicker sides",
            )


def _play(subject: Subject, drawer: Drawer) -> Iterator[Finding]:
    play = figures(drawer).get("play")
    if play is None or LEAST_PLAY - ROUNDED <= play <= MOST_PLAY + ROUNDED:
        return
    tight = play < LEAST_PLAY
    yield Finding(
        Grade.CARE,
        "runner-play",
        (*drawer.runners, *drawer.parts),
        f"{drawer.called} has {subject.say(play)} of play on its runners: "
        + ("it binds on a damp day." if tight else "it droops when it is pulled out, and rattles."),
        "a groove is 0.4 to 1 mm (1/64 to 1/32 in and a little) wider than its strip",
        "common practice",
        where(drawer.origin),
        (("play", play, "mm"), ("least", LEAST_PLAY, "mm"), ("most", MOST_PLAY, "mm")),
        "more play" if tight else "less play",
    )


def _heads(subject: Subject, strip: Part, drawer: Drawer) -> Iterator[Finding]:
    """Yield the head that is worst off in a strip, where too little wood is left under it or beside it."""
    sunk = list(_sunk(strip))
    under = min(((s.thick - s.deep, s) for s in sunk), key=lambda found: found[0], default=None)
    beside = min(((s.edge - s.wide / 2, s) for s in sunk), key=lambda found: found[0], default=None)
    for found, least, words in (
        (under, LEAST_UNDER, "under the head of a screw"),
        (beside, LEAST_BESIDE, "beside the head of a screw"),
    ):
        if found is None or found[0] >= least - SAME:
            continue
        yield Finding(
            Grade.CARE,
            "runner-thin",
            (strip.path,),
            f"{strip.path} keeps {subject.say(max(found[0], 0.0))} of wood {words}.",
            f"a runner keeps at least {LEAST_UNDER:g} mm (1/8 in) under the heads of its screws and {LEAST_BESIDE:g} mm beside them",
            "geometry of the countersink or bore; the figures are common practice",
            where(found[1].feature.origin, drawer.origin),
            (("left", found[0], "mm"), ("least", least, "mm")),
            "a thicker or higher strip, or smaller screws",
        )


def _sunk(strip: Part) -> Iterator[Sunk]:
    """Yield the heads that are sunk into a strip, in round holes and in slots."""
    for feature in strip.features:
        for hole in feature.made.holes:
            if hole.sink is not None:
                deep, wide = hole.sink.deep(hole.diameter), float(hole.sink.diameter)
                for point in hole.points:
                    yield Sunk(feature, deep, wide, *_about(strip, hole.face.axis, point))
        for slot in feature.made.slots:
            if slot.bore is not None:
                wide, deep = (float(v) for v in slot.bore)
                yield Sunk(feature, deep, wide, *_about(strip, slot.face.axis, slot.centre))


def _about(strip: Part, into: int, point: Point) -> tuple[float, float]:
    """Return how far a place lies from the strip's nearer long edge, and how thick the strip is there."""
    at, high = float(point[3 - into]), float(strip.size[3 - into])
    return min(at, high - at), float(strip.size[into])
