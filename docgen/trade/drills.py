"""Drills by name and by diameter: fractions, numbers, letters and metric sizes. Diameters in mm, exact."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from docgen.tables import rows
from docgen.trade.names import INCH, UnknownName, mixed, number
from docgen.units import Number

KINDS = ("fraction", "number", "letter", "metric")

_METRIC = re.compile(r"^(\d+(?:\.\d+)?) ?mm$")
_FRACTION = re.compile(r"^(?:(?:\d+[ -])?\d+/\d+|\d+)(?: ?(?:in|\"))?$")

NEAR = Fraction(1, 10)  # mm: the step of metric drills


@dataclass(frozen=True, slots=True)
class Drill:
    """A drill as bought: name ("17/64", "#7", "F", "6.8 mm"), diameter in mm, kind of series."""

    name: str
    diameter: Fraction
    kind: str


@cache
def series(kinds: tuple[str, ...] = KINDS) -> tuple[Drill, ...]:
    """Return the standing drills of these kinds by rising diameter, fractions first among equals.

    Source: ASME B94.11M for inch sizes; metric sizes are every tenth from 1 to 13 mm (ISO 235, DIN 338
    jobber drills, from memory).
    """
    inch = [Drill(r["name"], _inch_diameter(r), r["kind"]) for r in rows("drills")]
    metric = [Drill(f"{t / 10:g} mm", Fraction(t, 10), "metric") for t in range(10, 131)]
    chosen = [d for d in inch + metric if d.kind in kinds]
    return tuple(sorted(chosen, key=lambda d: (d.diameter, KINDS.index(d.kind))))


def _inch_diameter(row: dict[str, str]) -> Fraction:
    text = row["name"] if row["kind"] == "fraction" else row["inch"]
    return number(text) * INCH


def find(name: str) -> Drill:
    """Return the drill of this name; any fraction of an inch and any metric size is taken at its word.

    Bits over 1/2 in and 13 mm (spade, Forstner) are named the same way. `UnknownName` otherwise.
    """
    text = " ".join(name.strip().split())
    for drill in series():
        if drill.name.lower() == text.lower() or drill.name == "#" + text.lower().removeprefix("no. "):
            if text.isdigit() and drill.kind == "number":
                continue  # a bare number is inches, not a number drill
            return drill
    metric = _METRIC.match(text)
    if metric and Fraction(metric[1]) > 0:
        return Drill(f"{float(Fraction(metric[1])):g} mm", Fraction(metric[1]), "metric")
    if _FRACTION.match(text):
        value = number(text.removesuffix('"').removesuffix("in").strip())
        if value > 0:
            return Drill(mixed(value), value * INCH, "fraction")
    raise UnknownName("drill", name, (d.name for d in series()))


def _choice(on_hand: Iterable[str] | None, kinds: tuple[str, ...]) -> tuple[Drill, ...]:
    if on_hand is None:
        return series(kinds)
    return tuple(sorted((find(n) for n in on_hand), key=lambda d: (d.diameter, KINDS.index(d.kind))))


def nearest(diameter: Number, *, on_hand: Iterable[str] | None = None, kinds: tuple[str, ...] = KINDS) -> Drill:
    """Return the drill nearest to `diameter` (mm), the smaller of two equally near.

    `on_hand` names the drills of the shop; without it the standing series of `kinds` serve.
    ValueError for an empty list.
    """
    return min(_choice(on_hand, kinds), key=lambda d: (abs(d.diameter - Fraction(diameter)), d.diameter))


def at_least(diameter: Number, *, on_hand: Iterable[str] | None = None, kinds: tuple[str, ...] = KINDS) -> Drill | None:
    """Return the smallest drill that is not under `diameter` (mm), None when all are smaller."""
    return next((d for d in _choice(on_hand, kinds) if d.diameter >= Fraction(diameter)), None)


def of_shop(drill: Drill, system: str, *, least: bool = False) -> Drill:
    """Return the drill of a shop's own system for one out of a chart of fractions: in millimetres the nearest tenth.

    `least`: never a smaller one, for what has to pass. In inches, and where no metric drill is near, it is the drill itself.
    """
    if system != "mm" or drill.kind == "metric":
        return drill
    found = at_least(drill.diameter, kinds=("metric",)) if least else nearest(drill.diameter, kinds=("metric",))
    return found if found is not None and abs(found.diameter - drill.diameter) <= NEAR else drill


def told(name: str, system: str) -> str:
    """Return a drill's name with its unit where that is not the packet's: a fraction in millimetres is "7/64 in"."""
    return f"{name} in" if system == "mm" and _FRACTION.match(name) and not name.endswith(("in", '"')) else name


def point_length(diameter: Number) -> Number:
    """Return how far the 118° point reaches beyond the full diameter, mm: 0.3 × diameter.

    Exactly 0.5 · d / tan 59° = 0.3004 · d. Source: geometry of the 118° point (ASME B94.11M); rounding is common practice.
    """
    return Fraction(3, 10) * diameter if isinstance(diameter, (int, Fraction)) else 0.3 * diameter
