"""Solid panels in grooves and rabbets over the year: room to swell at the floors, and how much stays held when they shrink."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.nesting import lies_in
from docgen.checks.subject import Subject, where
from docgen.checks.year import Year, year
from docgen.geometry.shapes import Vec
from docgen.piece.model import Part
from docgen.piece.records import Origin
from docgen.piece.woods import movement
from docgen.trade.movement import change

TITLE = "solid panels in grooves: room to swell and hold when dry"
CODES = ("panel-swells", "panel-falls-out")
LOOKS = looks.Looks(looks.either(looks.panes, looks.panels), looks.moisture, "no moisture or humidity")

SAME = 1e-3
OFF = 0.5  # mm beside the panel's faces, where the groove's walls are
ROOMS = ("clearance", "gap")
"""Names of the figures with which a joint says that its first part is held with room round it."""


@dataclass(frozen=True, slots=True)
class Hold:
    """One edge of a panel: how far it reaches into what holds it, and how far it stays off the floor there; mm."""

    engaged: float
    room: float


def check(subject: Subject) -> Iterator[Finding]:
    """Yield solid panels that swell by more than their room, or shrink by more than an edge is held."""
    told = year(subject.piece)
    if told is None:
        return
    panes = {pane.pane for pane in subject.piece.panes}
    for pane in subject.piece.panes:
        yield from _panel(subject, subject.piece.part(pane.pane), pane.frame, pane.origin, told, pane=True)
    for joint in subject.piece.joints:
        if joint.parts[0] not in panes and lies_in(joint) and any(name in ROOMS for name, _, _ in joint.figures):
            panel = subject.piece.part(joint.parts[0])
            yield from _panel(subject, panel, joint.parts[1:], joint.origin, told)


def _panel(
    subject: Subject,
    panel: Part,
    hosts: tuple[str, ...],
    origin: Origin,
    moisture: Year,
    *,
    pane: bool = False,
) -> Iterator[Finding]:
    """Judge one panel; the swelling of panes is judged against their stated clearance elsewhere."""
    wood = movement(panel.material)
    if wood is None:
        return
    held = [h for side in (0, 1) if (h := _hold(subject, panel, hosts, side)) is not None]
    if len(held) != 2:
        return
    wide = float(panel.size[1])
    grows = change(wide, wood.tangential, moisture.start, moisture.wet)
    shrinks = -change(wide, wood.tangential, moisture.wet if moisture.day is None else moisture.day, moisture.dry)
    room = held[0].room + held[1].room
    if grows > room + SAME and not pane:
        yield _finding(
            subject, panel, origin, "panel-swells", f"swells by {subject.beside(grows, room)} up to {moisture.wet:g} % moisture; "
            f"it has {subject.say(room)} in all before it pushes the frame apart",
            "ΔD = D · C · (M₂ − M₁) ≤ room at both edges together", (("swelling", grows), ("room", room)),
            "deeper grooves, a narrower panel, or quarter-sawn wood", wood.source,
        )  # fmt: skip
    least = min(h.engaged for h in held)
    if shrinks >= least - SAME:
        yield _finding(
            subject, panel, origin, "panel-falls-out", f"shrinks by {subject.beside(shrinks, least)} down to {moisture.dry:g} % moisture; "
            f"an edge is held over {subject.say(least)} and can come free",
            "ΔD < how far an edge is held: the panel may lie against the other one",
            (("shrinking", shrinks), ("held over", least)), "a wider panel in deeper grooves, or a pin in the middle of each end",
            wood.source,
        )  # fmt: skip


def _hold(subject: Subject, panel: Part, hosts: tuple[str, ...], side: int) -> Hold | None:
    """Return how the panel's edge across the grain is held, by rays through it and just beside its faces."""
    x, y, z = (float(s) / 2 for s in panel.size)
    way: Vec = panel.frame.direction((0.0, 1.0 if side else -1.0, 0.0))
    levels = (z, -OFF, 2 * z + OFF)
    starts = [panel.frame.point((x, y, level)) for level in levels]
    found = [subject.mesh(path).woods(starts, [way] * 3) for path in hosts]
    inside, *beside = ([w[k][0][0] for w in found if w[k]] for k in range(3))
    faces = [min(b) for b in beside if b]
    if not inside or not faces:
        return None
    return Hold(y - min(faces), min(inside) - y)


def _finding(
    subject: Subject,
    panel: Part,
    origin: Origin,
    code: str,
    said: str,
    rule: str,
    figures: tuple[tuple[str, float], ...],
    advice: str,
    source: str,
) -> Finding:
    return Finding(
        Grade.CARE,
        code,
        (panel.path,),
        f"{panel.path} is {subject.say(panel.size[1])} across the grain and {said}, if it is flat-sawn.",
        rule,
        f"Wood Handbook, FPL-GTR-190, Equation 13-2; figures: {source}; held and free edges measured on the solids",
        where(origin, panel.origin),
        tuple((name, value, "mm") for name, value in figures),
        advice,
    )
