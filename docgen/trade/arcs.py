"""Chord, rise and radius of arcs. Lengths in mm (any one unit), angles in degrees."""

from __future__ import annotations

import math

from docgen.units import Number


def radius(chord: Number, rise: Number) -> Number:
    """Return the radius: (c² + 4 · h²) / (8 · h), exact for exact input. Source: Machinery's Handbook, 31st ed., p. 79."""
    if rise == 0:
        raise ValueError("an arc without rise has no radius")
    return (chord * chord + 4 * rise * rise) / (8 * rise)


def chord(radius: Number, rise: Number) -> float:
    """Return the chord: 2 · √(h · (2r − h)). Source: Machinery's Handbook, 31st ed., p. 79."""
    return 2.0 * math.sqrt(float(rise * (2 * radius - rise)))


def rise(radius: Number, chord: Number) -> float:
    """Return the rise of the flatter arc over a chord: r − √(r² − c²/4). Geometry."""
    r, c = float(radius), float(chord)
    return r - math.sqrt(r * r - c * c / 4.0)


def angle(radius: Number, chord: Number) -> float:
    """Return the angle at the centre of the flatter arc, degrees: 2 · asin(c / 2r). Geometry."""
    return 2.0 * math.degrees(math.asin(float(chord) / (2.0 * float(radius))))


def length(radius: Number, degrees: float) -> float:
    """Return the length along an arc of `degrees`. Geometry."""
    return float(radius) * math.radians(degrees)


def focus(long: float, short: float) -> float:
    """Return how far the pins of an ellipse's string lie from its middle: √(a² − b²), half axes a ≥ b. Geometry."""
    return math.sqrt(max(0.0, long * long - short * short))
