"""What each check has to look at in a piece, and which figures of the file it wants for that."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from docgen.checks.year import year
from docgen.piece.model import Part, Piece
from docgen.piece.records import Feature, HoleRow
from docgen.schedules.terms import stated

Has = Callable[[Piece], bool]

LEVEL = 1e-6
"""How far from level the direction of a shelf may lie."""

ROOMS = ("gap", "clearance")
"""Figures of a joint that leave its first part room to move."""


@dataclass(frozen=True, slots=True)
class Looks:
    """When a check has a subject, and when the file says what it needs; `wants` tells what is missing, in words."""

    at: Has
    told: Has | None = None
    wants: str = ""

    def looked(self, piece: Piece) -> bool:
        """Return True where the check had something to look at and the figures for it."""
        return self.at(piece) and (self.told is None or self.told(piece))

    def missing(self, piece: Piece) -> str:
        """Return what the file would have to say, where there is a subject and nothing is said of it; else ""."""
        return self.wants if self.at(piece) and not self.looked(piece) else ""


def several(piece: Piece) -> bool:
    """Return True for a piece of more than one part."""
    return len(piece.parts) > 1


def drawers(piece: Piece) -> bool:
    """Return True for a piece with drawers."""
    return bool(piece.drawers)


def slides(piece: Piece) -> bool:
    """Return True where a drawer runs on slides."""
    return any(d.slide_length for d in piece.drawers)


def runners(piece: Piece) -> bool:
    """Return True where a drawer hangs on wooden strips."""
    return any(d.runners for d in piece.drawers)


def panes(piece: Piece) -> bool:
    """Return True where a pane or panel lies in a frame."""
    return bool(piece.panes)


def groups(piece: Piece) -> bool:
    """Return True where parts turn or tilt together."""
    return bool(piece.groups)


def panels(piece: Piece) -> bool:
    """Return True where a joint leaves a panel room."""
    return any(name in ROOMS for j in piece.joints for name, _, _ in j.figures)


def doors(piece: Piece) -> bool:
    """Return True where parts turn about an upright line."""
    return any(g.axis == 2 for g in piece.groups)


def tilting(piece: Piece) -> bool:
    """Return True where parts turn about a level line."""
    return any(g.axis != 2 for g in piece.groups)


def runs(piece: Piece) -> bool:
    """Return True where grain runs round corners."""
    return bool(piece.runs)


def fasteners(piece: Piece) -> bool:
    """Return True where the lengths of screws or bolts are worked out."""
    return bool(piece.fasteners)


def wood_screws(piece: Piece) -> bool:
    """Return True where wood screws are worked out."""
    return any(f.thread.startswith("No. ") for f in piece.fasteners)


def bolts(piece: Piece) -> bool:
    """Return True where machine screws or bolts are worked out."""
    return any(f.thread and not f.thread.startswith("No. ") for f in piece.fasteners)


def joints(piece: Piece) -> bool:
    """Return True where a joint holds two parts together."""
    return any(len(j.parts) > 1 for j in piece.joints)


def level(part: Part) -> bool:
    """Return True for a board that lies flat: its length level, its thickness upright."""
    along, thick = part.frame.direction((1.0, 0.0, 0.0)), part.frame.direction((0.0, 0.0, 1.0))
    return abs(along[2]) < LEVEL and abs(abs(thick[2]) - 1) < LEVEL


def boards(piece: Piece) -> bool:
    """Return True where a board lies flat, as shelves, seats and tops do."""
    return any(level(p) for p in piece.parts if not p.hardware)


def solid(piece: Piece) -> bool:
    """Return True where two parts or more are solid wood."""
    return sum(p.material.solid_wood for p in piece.parts) > 1


def features(piece: Piece) -> Iterator[Feature]:
    """Yield all features of all parts."""
    return (f for part in piece.parts for f in part.features)


def hole_rows(piece: Piece) -> Iterator[HoleRow]:
    """Yield all rows of holes."""
    return (row for f in features(piece) for row in f.made.holes)


def holes(piece: Piece) -> bool:
    """Return True where anything is drilled."""
    return any(True for _ in hole_rows(piece))


def cuts(piece: Piece) -> bool:
    """Return True where anything is cut or drilled."""
    return any(f.made.cuts for f in features(piece))


def knots(piece: Piece) -> bool:
    """Return True where the file tells of knots, and where holes are drilled that a later cut may open."""
    return any(f.made.defects for f in features(piece)) or holes(piece)


def openings(piece: Piece) -> bool:
    """Return True where something is cut out inside a face."""
    return any(t.openings for f in features(piece) for t in f.made.templates)


def tongues(piece: Piece) -> bool:
    """Return True where tongues or tenons are cut."""
    return any(f.made.allowances for f in features(piece))


def machine(name: str) -> Has:
    """Return what tells whether a machine is set up for the piece."""
    return lambda piece: any(s.machine.startswith(name) for f in features(piece) for s in f.made.settings)


def on_floor(piece: Piece) -> bool:
    """Return True for a piece that stands."""
    return piece.stands != "wall"


def both(one: Has, other: Has) -> Has:
    """Return what tells whether both hold."""
    return lambda piece: one(piece) and other(piece)


def either(one: Has, other: Has) -> Has:
    """Return what tells whether one of two holds."""
    return lambda piece: one(piece) or other(piece)


def says(*names: str) -> Has:
    """Return what tells whether one of these conditions is stated."""
    return lambda piece: any(stated(piece, name) for name in names)


def shop(*names: str) -> Has:
    """Return what tells whether one of these figures of the shop is stated; any, without a name."""
    return lambda piece: any(not names or name in names for name, _ in piece.shop)


def moisture(piece: Piece) -> bool:
    """Return True where the file states the year's moisture or humidity."""
    return year(piece) is not None
