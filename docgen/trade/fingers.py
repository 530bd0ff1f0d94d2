"""Finger (box) joints: how many fingers share a board's width, and what the cutter must be. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import floor

from docgen.units import Number

PLAY = {"inch": Fraction(1016, 10000), "mm": Fraction(1, 10)}
"""mm: what a finger is thinner than its socket, so that glue and hand bring it home: 0.004 in or 0.1 mm. Common practice."""


@dataclass(frozen=True, slots=True)
class Fingers:
    """An odd `count` of fingers across a width, so that both edges are alike; mm.

    `socket` is what the cutter takes, `finger` what stays between two sockets, `last` the width of the last finger.
    """

    count: int
    socket: Number
    finger: Number
    play: Number
    last: Number

    @property
    def pitch(self) -> Number:
        """From one finger to the socket beside it: half the step from finger to finger."""
        return (self.socket + self.finger) / Fraction(2)


def by_count(width: Number, count: int, play: Number) -> Fingers:
    """Return `count` equal fingers; the cutter is wider than width / count by half the play. Arithmetic."""
    pitch = width / Fraction(count)
    return Fingers(count, pitch + play / Fraction(2), pitch - play / Fraction(2), play, pitch)


def by_cutter(width: Number, cutter: Number, play: Number) -> Fingers:
    """Return as many fingers as a cutter of this width gives, an odd number; the last finger takes what is left.

    That is from half to two and a half of the others: a thinner one would break off.
    """
    pitch = cutter - play / Fraction(2)
    count = max(1, 2 * floor((float(width / pitch) - 0.5) / 2 + 1e-9) + 1)
    return Fingers(count, cutter, cutter - play, play, width - (count - 1) * pitch)
