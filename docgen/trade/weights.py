"""Weights and forces as a shop says them: pounds beside kilograms where it measures in inches. kg, N, N·m."""

from __future__ import annotations

from docgen.trade.beams import GRAVITY

POUND = 0.45359237
"""kg in a pound (avoirdupois), exact by the international agreement of 1959."""

POUND_FORCE = POUND * GRAVITY
"""N in a pound-force: the weight of a pound where g is 9.80665 m/s²."""

FOOT = 0.3048
"""Metres in a foot, exact."""


def weight_told(kg: float, system: str) -> str:
    """Return a weight: "6.4 kg", in a file in inches "14.1 lb (6.4 kg)"."""
    return f"{kg / POUND:.1f} lb ({kg:.1f} kg)" if system == "inch" else f"{kg:.1f} kg"


def force_told(newtons: float, system: str) -> str:
    """Return a force: "24 N", in a file in inches "5 lbf (24 N)"."""
    return f"{newtons / POUND_FORCE:.0f} lbf ({newtons:.0f} N)" if system == "inch" else f"{newtons:.0f} N"


def moment_told(newton_metres: float, system: str) -> str:
    """Return a moment: "4.8 N·m", in a file in inches "3.5 lbf·ft (4.8 N·m)"."""
    feet = newton_metres / (POUND_FORCE * FOOT)
    return f"{feet:.1f} lbf·ft ({newton_metres:.1f} N·m)" if system == "inch" else f"{newton_metres:.1f} N·m"
