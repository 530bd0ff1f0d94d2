"""Parts that nothing holds: they touch no other part and no joint, drawer or pane names them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, boxes_meet, shifted, where
from docgen.geometry.solids import overlap
from docgen.piece.model import Part
from docgen.piece.records import Origin
from docgen.schedules.gluing import loose
from docgen.schedules.putting_together import unfixed
from docgen.schedules.untied import untied

TITLE = "parts that nothing holds"
CODES = ("stray-part", "part-unjoined", "group-unjoined", "panel-unfixed")
LOOKS = looks.Looks(looks.several)

NEAR = 0.2
"""mm: a part that comes so near another one when pushed counts as touching it."""

_WAYS = ((1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1))


def check(subject: Subject) -> Iterator[Finding]:
    """Yield the parts that are not tied to the largest group of parts that hold one another, and those that only touch it.

    For the latter the order of work says, too, that the file states no joint.
    """
    parts = subject.piece.parts
    if len(parts) < 2:
        return
    for group in untied(subject.piece):
        yield _group(subject, group)
    for path in unfixed(subject.piece):
        yield _unfixed(subject.piece.part(path))
    islands = _islands(subject)
    main = max(islands, key=lambda i: (len(i), -min(subject.piece.part(p).number for p in i)))
    alone = {p for p in loose(subject.piece) if not any(p in (*pane.frame, pane.pane) for pane in subject.piece.panes)}
    for part in parts:
        if part.path in main:
            if part.path in alone:
                yield _unjoined(part)
            continue
        yield Finding(
            Grade.CARE,
            "stray-part",
            (part.path,),
            f"{part.path} touches nothing that it could be held by, and no joint, drawer or pane names it together with the rest.",
            f"each part touches another (within {NEAR} mm) or is joined to it",
            "solids of the finished parts where they stand",
            where(part.origin),
            advice="move it, or say the joint that holds it",
        )


def _group(subject: Subject, group: tuple[str, ...]) -> Finding:
    return _unsaid(
        "group-unjoined",
        group,
        subject.piece.part(group[0]).origin,
        f"Joints hold {', '.join(group[:-1])} and {group[-1]} to each other, and neither a joint nor a fixing ties them to the rest.",
        "what is glued up by itself is named once more by what holds it to the piece",
        "say the joint, or what it is fixed with: fixed: {parts: […], with: glue, count: 1}; what is to come out needs none",
    )


def _unfixed(part: Part) -> Finding:
    return _unsaid(
        "panel-unfixed",
        (part.path,),
        part.origin,
        f"{part.path} lies in rabbets, and the file does not say what fixes it there.",
        "what is laid into rabbets is held by brads, screws or strips",
        "say what fixes it: fixed: {parts: …, with: brads, count: …}",
    )


def _unjoined(part: Part) -> Finding:
    return _unsaid(
        "part-unjoined",
        (part.path,),
        part.origin,
        f"The file states neither a joint nor a fixing for {part.path}: how to hold that there is left to the maker.",
        "a part that stays is named by a joint, a drawer, a pane, or by what fixes it",
        f"its note says: {part.note}" if part.note else "say the joint, or what it is fixed with",
    )


def _unsaid(code: str, paths: tuple[str, ...], origin: Origin, told: str, rule: str, advice: str) -> Finding:
    """Return the note of something that holds parts and that the file leaves out."""
    return Finding(Grade.NOTE, code, paths, told, rule, "what the file states", where(origin), advice=advice)


def _islands(subject: Subject) -> list[set[str]]:
    """Return the parts in groups that are tied by joints, drawers, panes, groups or touch."""
    piece = subject.piece
    islands = [{p.path} for p in piece.parts]
    ties = [j.parts for j in piece.joints] + [d.parts for d in piece.drawers]
    ties += [(*p.frame, p.pane) for p in piece.panes]
    for tie in ties:
        for path in tie[1:]:
            islands = _merged(islands, tie[0], path)
    for a, b in combinations(piece.parts, 2):
        if not any(a.path in i and b.path in i for i in islands) and _touch(subject, a.path, b.path):
            islands = _merged(islands, a.path, b.path)
    return islands


def _merged(islands: list[set[str]], a: str, b: str) -> list[set[str]]:
    one = next((i for i in islands if a in i), None)
    two = next((i for i in islands if b in i), None)
    if one is None or two is None or one is two:
        return islands
    return [i for i in islands if i is not one and i is not two] + [one | two]


def _touch(subject: Subject, a: str, b: str) -> bool:
    one, two = subject.placed(a), subject.placed(b)
    if not boxes_meet(one.bounds, two.bounds, NEAR):
        return False
    return any(overlap(one.moved(shifted((NEAR * x, NEAR * y, NEAR * z))), two) is not None for x, y, z in _WAYS)
