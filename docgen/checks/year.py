"""How the wood's moisture swings over the year: as the file states it, or as the air's stated humidity makes it."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.piece.model import Piece
from docgen.schedules.terms import stated
from docgen.trade.moisture import equilibrium


@dataclass(frozen=True, slots=True)
class Year:
    """Moisture of the wood in per cent: driest, wettest, and on the day of fitting where that is known."""

    dry: float
    wet: float
    day: float | None = None

    @property
    def start(self) -> float:
        """From where it swells: the day of fitting, else the driest."""
        return self.dry if self.day is None else self.day


def year(piece: Piece) -> Year | None:
    """Return the year's moisture; None where the file states neither moisture nor humidity.

    Stated moisture rules. Humidity gives the moisture that wood comes to in such air, by Wood Handbook, Equation 4-5, to 0.1 %.
    """
    dry, wet, day = (stated(piece, f"moisture {name}") for name in ("from", "to", "on the day"))
    if dry is not None and wet is not None:
        return Year(float(dry), float(wet), None if day is None else float(day))
    low, high, then = (stated(piece, f"humidity {name}") for name in ("from", "to", "on the day"))
    if low is None or high is None:
        return None
    celsius = float(stated(piece, "humidity temperature") or 20)
    driest, wettest = (round(equilibrium(celsius, float(h)), 1) for h in (low, high))
    return Year(driest, wettest, None if then is None else round(equilibrium(celsius, float(then)), 1))
