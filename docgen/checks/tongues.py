"""Tongues and the housings that take them: thickness against width, length against depth, as they stand in the piece."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from docgen.checks import looks
from docgen.checks.cavities import Floats
from docgen.checks.finding import Finding, Grade
from docgen.checks.oriented import Oriented, apart
from docgen.checks.subject import Subject, where
from docgen.checks.trenches import Trench, trenches
from docgen.geometry.shapes import Frame, Vec
from docgen.piece.model import Part
from docgen.piece.records import Allowance, Feature, Origin

TITLE = "tongues against the housings that take them"
CODES = ("tongue-fat", "tongue-loose", "tongue-bottoms")
LOOKS = looks.Looks(looks.tongues)

LOOSE = 0.2
"""mm of play over which a tongue rattles in its dado. Common practice: it goes in by hand and stays."""

TIGHT = 0.02  # mm: what the finest plane shaving takes
SAME = 1e-3
UPRIGHT = 1e-6
UNDER = 0.05  # mm under the host's face: deeper than the corners of a shoulder
NEAR = 2.0  # mm beside a trench: what is not further off is meant to enter it


@dataclass(frozen=True, slots=True)
class Fit:
    """A tongue as it stands in a dado, mm: play across it, and how far its end stays off the dado's floor."""

    play: float
    room: float


def check(subject: Subject) -> Iterator[Finding]:
    """Yield tongues thicker than their dado, looser than 0.2 mm, or longer than it is deep."""
    hosts = [(p, tuple(trenches(p))) for p in subject.piece.parts]
    yield from _all_leaning(subject, hosts)
    for guest in subject.piece.parts:
        for feature in guest.features:
            for allowance in feature.made.allowances:
                box = _tongue(subject, guest, allowance)
                if box is None:
                    continue
                stands = Oriented.of(*box, guest.frame)
                for host, cut in hosts:
                    if cut and host.path != guest.path and apart(stands, subject.oriented(host.path)) < -SAME:
                        for trench in cut:
                            fit = _fit(guest, allowance, box, host, trench)
                            if fit is not None:
                                yield from _judged(subject, (guest, feature), (host, trench), fit)


def _all_leaning(subject: Subject, hosts: list[tuple[Part, tuple[Trench, ...]]]) -> Iterator[Finding]:
    """Yield the same of tongues in trenches whose walls lean, which their boxes do not tell."""
    for host, cut in hosts:
        for trench in (t for t in cut if t.leans is not None):
            place = (host.path, trench.feature.name)
            meant = {path for joint in subject.piece.joints if place in joint.features for path in joint.parts}
            for guest in subject.piece.parts:
                feature = next((f for f in guest.features if f.made.allowances), None)
                if feature is None or guest.path == host.path or guest.path not in meant:
                    continue
                fit = _leaning_fit(subject, guest, host, trench)
                if fit is not None:
                    yield from _judged(subject, (guest, feature), (host, trench), fit)


def _leaning_fit(subject: Subject, guest: Part, host: Part, trench: Trench) -> Fit | None:
    """Return how what of the guest lies under the host's face sits in a trench that leans; None where nothing does.

    Its corners there, and where its edges come through the face, are measured along the normal of the walls and from the face.
    """
    assert trench.leans is not None
    normal, low, high = trench.leans
    frame = host.frame.inverse().after(guest.frame)
    sides = subject.own_mesh(guest.path).triangles @ np.array(frame.rotation).T + np.array(frame.origin)
    deep = float(host.size[2]) - sides[:, :, 2] if trench.side else sides[:, :, 2]
    points, under = _under(sides, deep)
    first, last = np.array(trench.low[:2]) - NEAR, np.array(trench.high[:2]) + NEAR
    near = ((points[:, :2] > first) & (points[:, :2] < last)).all(axis=1)
    if not near.any():
        return None
    along = points[near] @ np.array(normal)
    floor = float(host.size[2]) - trench.low[2] if trench.side else trench.high[2]
    return Fit(high - low - float(along.max() - along.min()), floor - float(under[near].max()))


def _under(sides: Floats, deep: Floats) -> tuple[Floats, Floats]:
    """Return the corners of triangles that lie under a face, and where their edges come through just there; and how deep."""
    a, b = sides.reshape(-1, 3), np.roll(sides, -1, axis=1).reshape(-1, 3)
    p, q = deep.reshape(-1), np.roll(deep, -1, axis=1).reshape(-1)
    through = (p - UNDER) * (q - UNDER) < 0
    share = ((UNDER - p) / np.where(through, q - p, 1.0))[:, None]
    cut = (a + (b - a) * share)[through]
    below = p > UNDER
    return np.concatenate((a[below], cut)), np.concatenate((p[below], np.full(len(cut), UNDER)))


def _fit(guest: Part, allowance: Allowance, box: tuple[Vec, Vec], host: Part, trench: Trench) -> Fit | None:
    """Return how the tongue sits in the trench; None when it does not enter it by the trench's own face."""
    frame = host.frame.inverse().after(guest.frame)
    seen = Oriented.of(*box, frame)
    if not all(max(abs(c) for c in axis) > 1 - UPRIGHT for axis in seen.axes):
        return None  # it leans to the host
    low, high = seen.bounds()
    if apart(seen, Oriented.of(trench.low, trench.high, Frame())) > -SAME:
        return None
    own = [0.0, 0.0, 0.0]
    own[allowance.face.axis] = 1.0 if allowance.face.side else -1.0
    into = frame.direction((own[0], own[1], own[2]))
    if (
        trench.way[trench.along] < 1 - UPRIGHT
        or abs(into[trench.axis]) < 1 - UPRIGHT
        or (into[trench.axis] > 0) == bool(trench.side)
    ):
        return None
    across = 3 - trench.axis - trench.along
    if high[across] - low[across] > high[trench.along] - low[trench.along]:
        return None  # it crosses the trench: another one takes it
    play = (trench.high[across] - trench.low[across]) - (high[across] - low[across])
    room = low[trench.axis] - trench.low[trench.axis] if trench.side else trench.high[trench.axis] - high[trench.axis]
    return Fit(play, room)


def _tongue(subject: Subject, guest: Part, allowance: Allowance) -> tuple[Vec, Vec] | None:
    """Return the box of the finished wood beyond the nominal face, in the guest's axes."""
    axis, side = allowance.face
    edge = float(guest.size[axis]) if side else 0.0
    points = subject.own_mesh(guest.path).triangles.reshape(-1, 3)
    beyond = points[points[:, axis] > edge + SAME] if side else points[points[:, axis] < edge - SAME]
    if not len(beyond):
        return None
    low, high = beyond.min(axis=0), beyond.max(axis=0)
    if side:
        low[axis] = edge
    else:
        high[axis] = edge
    return (float(low[0]), float(low[1]), float(low[2])), (float(high[0]), float(high[1]), float(high[2]))


def _judged(subject: Subject, of: tuple[Part, Feature], into: tuple[Part, Trench], fit: Fit) -> Iterator[Finding]:
    guest, feature = of
    host, trench = into
    about = f"The {feature.title} of {guest.path} and {trench.feature.title} in {host.path}:"
    origins = (feature.origin, trench.feature.origin, guest.origin)
    if fit.play < -TIGHT:
        yield _finding(
            "tongue-fat", Grade.STOP, (guest, host), f"{about} the tongue is {subject.say(-fit.play)} too thick.",
            "tongue thickness ≤ width of the dado", ("play", fit.play), origins, "thin the tongue from its shoulder side, or widen the dado",
        )  # fmt: skip
    elif fit.play > LOOSE + SAME:
        yield _finding(
            "tongue-loose", Grade.CARE, (guest, host), f"{about} the tongue has {subject.say(fit.play)} of play.",
            "a tongue goes in by hand and has at most 0.2 mm of play", ("play", fit.play), origins,
            "cut the tongue fat and plane it to its dado, or take a narrower bit",
        )  # fmt: skip
    if fit.room < -TIGHT:
        yield _finding(
            "tongue-bottoms", Grade.STOP, (guest, host),
            f"{about} the tongue is {subject.say(-fit.room)} longer than the dado is deep; the shoulder stays open.",
            "tongue length ≤ depth of the dado", ("room at the floor", fit.room), origins, "shorten the tongue, or deepen the dado",
        )  # fmt: skip


def _finding(
    code: str,
    grade: Grade,
    parts: tuple[Part, Part],
    message: str,
    rule: str,
    figure: tuple[str, float],
    origins: tuple[Origin, ...],
    advice: str,
) -> Finding:
    return Finding(
        grade,
        code,
        (parts[0].path, parts[1].path),
        message,
        rule,
        "geometry, measured on the solids where they stand; 0.2 mm is common practice",
        where(*origins),
        ((*figure, "mm"),),
        advice,
    )
