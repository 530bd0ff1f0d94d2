"""Drawing scales: the series of the standard and the inch customs, and the largest that fits. (paper, real) pairs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

Scale: TypeAlias = tuple[int, int]

ISO: tuple[Scale, ...] = (
    (50, 1), (20, 1), (10, 1), (5, 1), (2, 1), (1, 1), (1, 2), (1, 5), (1, 10), (1, 20), (1, 50), (1, 100),
)  # fmt: skip
"""Source: ISO 5455."""

INCH: tuple[Scale, ...] = ((2, 1), (1, 1), (1, 2), (1, 4), (1, 8), (1, 12), (1, 16), (1, 24), (1, 32), (1, 48), (1, 96))
"""Source: architects' and engineers' inch scales (full, half, 3 in = 1 ft to 1/8 in = 1 ft), custom, from memory."""


def largest(scales: Sequence[Scale], size: tuple[float, float], room: tuple[float, float]) -> Scale | None:
    """Return the largest of `scales` at which `size` (real mm) fits into `room` (paper mm), None when none does.

    A scale that is not on the list is never used: the next smaller one is. Common practice.
    """
    for paper, real in sorted(scales, key=lambda s: s[1] / s[0]):
        if size[0] * paper <= room[0] * real + 1e-9 and size[1] * paper <= room[1] * real + 1e-9:
            return paper, real
    return None
