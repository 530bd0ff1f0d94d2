"""How a part is turned between the slanted cuts of its two ends, or of its two edges. Geometry.

A turn of the part takes the saw's plane with it. Flat on the table, by half a turn about the upright, what faces along the
cut and across it comes out reversed; end over end what faces along the cut and up. So a tilted blade makes ends that lean to each other by the
first turn and parallel ones by the second, a swung gauge the other way about; where both lean a way that no turn gives, the
gauge is swung to its other side.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import NamedTuple

from docgen.geometry.shapes import HalfSpace, Vec
from docgen.piece.model import Part, Piece
from docgen.piece.records import Feature, Setting
from docgen.schedules.blanks import in_turn
from docgen.schedules.holds import listed
from docgen.schedules.rows import SetupRow

SAWS = ("table saw", "mitre saw")
SLANT = 1e-6
"""Of a unit normal: what it leans less is square."""

ALIKE = 1e-4
"""How near two readings of angles have to lie to be one, degrees."""

BLANK = "Between two cuts turn the blank over about its long axis, on the same side of the blade, never end over end."
WRONG = "the cut leans the wrong way: mark the long point on each part first"

FLAT = "end for end, flat on the table, the same face up"
OVER = "end over end, the other face up"
LONG_OVER = "over about the long axis, the other face up"
TOGETHER, PARALLEL = "lean to each other", "lie parallel"
NOUNS = ("end", "edge")
"""By the axis along which a cut lies."""


class Way(NamedTuple):
    """What is done between two cuts, `{}` stands for the part, and how these lie to each other, "" where no word says it."""

    do: str
    lie: str = ""

    def said(self, noun: str, part: str) -> str:
        """Return it as a sentence about the second end or edge of a part."""
        why = f": the two {self.lie}" if self.lie else ""
        return f"For the second {noun} {self.do.format(part)}{why}."


@dataclass(frozen=True, slots=True)
class Slant:
    """A slanted cut of a part: along which axis it lies, and how its outward normal leans across that and through the thickness."""

    axis: int
    normal: Vec

    @property
    def across(self) -> float:
        """Return how it leans in the plane of the face."""
        return self.normal[1 - self.axis]

    @property
    def through(self) -> float:
        """Return how it leans through the thickness."""
        return self.normal[2]


def slanted(setup: SetupRow) -> bool:
    """Return whether a saw is set to a slant; a taper's sled holds its part by itself."""
    angles = any(kind == "angle" and not isinstance(v, str) for _, v, kind in setup.values)
    return setup.machine in SAWS and angles and not any("taper" in name for name, _, _ in setup.values)


def turning(piece: Piece, setup: SetupRow) -> str:
    """Return how parts are turned for their second slanted cut at a set-up, each kind of turn a sentence; "" for no such cut."""
    if not slanted(setup):
        return ""
    blank = False
    alike: dict[tuple[tuple[str, Way], ...], list[str]] = {}
    for path in dict.fromkeys(path for path, _ in setup.parts):
        part = piece.part(path)
        cuts = list(_cuts(part, setup))
        if any(in_turn(piece, part, feature, setting) for feature, setting in cuts):
            blank = True
        else:
            alike.setdefault(turns([s for f, _ in cuts for s in _slants(f)], fence=_fence(setup)), []).append(path)
    alone = len(alike) == 1 and not blank
    told = [
        way.said(noun, "the part" if alone else listed(piece, paths))
        for ways, paths in alike.items()
        for noun, way in ways
    ]
    return " ".join([*([BLANK] if blank else []), *told])


def turns(slants: Sequence[Slant], fence: str = "gauge") -> tuple[tuple[str, Way], ...]:
    """Return how a part is turned between its slanted cuts: "end" or "edge", and the way; none where none lie opposite."""
    return tuple(
        dict.fromkeys(
            (NOUNS[one.axis], _way(one, two, fence))
            for one, two in combinations(slants, 2)
            if one.axis == two.axis and one.normal[one.axis] * two.normal[one.axis] < 0
        )
    )


def _way(one: Slant, two: Slant, fence: str) -> Way:
    tilted, swung = abs(one.through) > SLANT, abs(one.across) > SLANT
    up, flat = one.through * two.through > 0, one.across * two.across > 0
    over = f"turn {{}} {LONG_OVER if one.axis == 1 else OVER}"
    level = f"turn {{}} {FLAT}"
    if not swung:
        return Way(level, TOGETHER) if up else Way(over, PARALLEL)
    same, other = f", the same edge along the {fence}", f", the other edge along the {fence}"
    if not tilted:
        return Way(over + same, TOGETHER) if flat else Way(level + other, PARALLEL)
    if up is not flat:
        return Way(level + other if up else over + same)
    return Way(f"swing the {fence} as far to its other side and {level if up else over}", TOGETHER if up else PARALLEL)


def _fence(setup: SetupRow) -> str:
    return "sled's fence" if any(name.startswith("sled") for name, _, _ in setup.values) else "gauge"


def _cuts(part: Part, setup: SetupRow) -> Iterator[tuple[Feature, Setting]]:
    """Yield the features of a part that run at a set-up, each with its setting there: of two titled alike only its own."""
    set_to = [float(v) for _, v, kind in setup.values if kind == "angle" and not isinstance(v, str)]
    for feature in part.features:
        if (part.path, feature.title) not in setup.parts:
            continue
        for setting in feature.made.settings:
            angles = [float(v) for _, v, kind in setting.values if kind == "angle" and not isinstance(v, str)]
            same = len(angles) == len(set_to) and all(abs(a - b) < ALIKE for a, b in zip(angles, set_to, strict=True))
            if (setting.machine, setting.what) == (setup.machine, setup.what) and same:
                yield feature, setting


def _slants(feature: Feature) -> Iterator[Slant]:
    """Yield the planes of a feature that slant, by the axis along which each takes most."""
    for cut in feature.made.cuts:
        if isinstance(cut.shape, HalfSpace):
            normal = cut.shape.normal
            axis = max((0, 1), key=lambda i: abs(normal[i]))
            if abs(normal[axis]) < 1 - SLANT:
                yield Slant(axis, normal)
