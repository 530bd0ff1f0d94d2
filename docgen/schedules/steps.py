"""The phases of the work and a step of it."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.schedules.rows import WorkRow

READY, STOCK, MACHINES = "Before any wood is cut", "Stock", "At the machines, part by part"
TOGETHER, LATER, MATES = "Gluing up", "On what is glued", "Through the mating part"
WAITED, AT_FITTING = "Parts that waited for a measurement", "When all is fitted"
BESIDE, DRIVEN = "Small things beside the parts", "Screwed, and plugged over"
FINISH, LAST = "Surface and finish", "Putting together"


def step(
    phase: str,
    what: str,
    see: str,
    wrong: str,
    parts: Sequence[str] = (),
    *,
    hold: bool = False,
    key: str = "",
    cautions: Sequence[str] = (),
) -> WorkRow:
    """Return a step, its number to be given when all are known."""
    return WorkRow(0, phase, what, tuple(parts), see, wrong, hold, key, tuple(cautions))
