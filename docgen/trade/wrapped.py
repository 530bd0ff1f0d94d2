"""Parts mitred in turn from one board, so that the grain runs around. Lengths in mm."""

from __future__ import annotations

import math
from collections.abc import Sequence

from docgen.units import Number

ROOT2 = math.sqrt(2.0)
ROUND_LOSS = 2.0 - ROOT2
"""Length of show face that a round corner takes from both parts, by its radius: 2 · (1 − 1/√2) = 0.586."""


def lost_outside(kerf: Number) -> float:
    """Return the show face lost between two parts mitred at 45°, mm: kerf · √2. Geometry."""
    return float(kerf) * ROOT2


def positions(
    lengths: Sequence[Number], *, kerf: Number, miss: Number, trim: Number
) -> tuple[tuple[float, float], ...]:
    """Return where each part starts and ends along the blank, long point to long point, mm from its end.

    `lengths` are outside lengths in order; `miss` is allowed at each cut pair, `trim` at each end of the blank.
    """
    at, out = float(trim), []
    for length in lengths:
        out.append((at, at + float(length)))
        at += float(length) + lost_outside(kerf) + float(miss)
    return tuple(out)


def blank_length(lengths: Sequence[Number], *, kerf: Number, miss: Number, trim: Number) -> float:
    """Return the blank's length, mm: Σ lengths + (n − 1) · (kerf · √2 + miss) + 2 · trim; 0 parts give 0."""
    if not lengths:
        return 0.0
    between = lost_outside(kerf) + float(miss)
    return float(sum(lengths)) + (len(lengths) - 1) * between + 2.0 * float(trim)


def grain_break(kerf: Number, radius: Number) -> float:
    """Return how much of the figure is missing at a corner rounded to `radius`, mm: kerf · √2 + 0.586 · radius."""
    return lost_outside(kerf) + ROUND_LOSS * float(radius)


def keep_out(thickness: Number, kerf: Number, *, tenon: Number = 0, margin: Number = 0) -> float:
    """Return the zone at a corner free of knots and joinery, mm: T + kerf · √2 / 2 + tenon / 2 + margin.

    Measured along the blank from the middle of the cut; `tenon` is a tenon's whole length. Common practice.
    """
    return float(thickness) + lost_outside(kerf) / 2.0 + float(tenon) / 2.0 + float(margin)
