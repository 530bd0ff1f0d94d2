"""The angle gauges of a piece: each different angle that a machine or a bevel is set to, once."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from docgen.piece.model import Kind, Part, Piece
from docgen.piece.naming import in_words
from docgen.piece.records import Feature, SizeKind
from docgen.schedules.template_rows import Gauge, Turn

SEEN = {
    "front": "from the front", "back": "from the front", "left": "from the side", "right": "from the side",
    "bottom": "from above", "top": "from above",
}  # fmt: skip
SAME_ANGLE = 0.005  # degrees: finer than any gauge is set
SQUARE = ("from square", "from upright")
"""How an angle is told that is 0 where the cut is square."""
OTHER = re.compile(r"\b(?:from|to) the (\w+)")
LEAN = "face"  # what a lean is counted from where nothing else is said


@dataclass(frozen=True, slots=True)
class Reading:
    """An angle of a feature, degrees, and what it is.

    `square`: counted from square; None where its words do not say. `other`: "edge", what it or the rest of 90 is counted from.
    """

    degrees: float
    what: str  # the setting of a machine, or how it is seen
    square: bool | None = None
    other: str = ""

    @property
    def from_square(self) -> float:
        """What it is from square, degrees."""
        return 90.0 - self.degrees if self.square is False else self.degrees


def gauges(piece: Piece, kinds: Sequence[Kind]) -> tuple[Gauge, ...]:
    """Return each different angle of the piece's sizes and settings once, smallest first.

    Right angles and 45 degrees are left out: a combination square has both. So are the cones of countersinks: the
    cutter brings its angle along. A file that wants no templates at all has none.
    """
    if any(wish.none and not wish.parts and not wish.face for wish in piece.templates):
        return ()
    called = {p.path: p.called for p in piece.parts}
    found: list[tuple[float, dict[str, None], dict[tuple[bool, str], dict[str, None]]]] = []
    for part in (piece.part(kind.first) for kind in kinds):
        for feature in () if part.hardware else part.features:
            for reading, told in _told(part, feature):
                angle = acute(reading.degrees)
                if angle < SAME_ANGLE or angle > 45.0 - SAME_ANGLE:
                    continue
                use = f"{part.called}: {in_words(feature.title or feature.name, called)}{told}"
                same = next((f for f in found if abs(f[0] - angle) < SAME_ANGLE), None)
                if same is None:
                    found.append(same := (angle, {}, {}))
                same[1][use] = None
                if reading.square is not None:
                    turned = (acute_from(reading.from_square) < 45.0, reading.other or LEAN)
                    same[2].setdefault(turned, {})[use] = None
    return tuple(
        Gauge(angle, tuple(uses), tuple(Turn(square, other, tuple(u)) for (square, other), u in turns.items()))
        for angle, uses, turns in sorted(found, key=lambda g: g[0])
    )


def _told(part: Part, feature: Feature) -> Iterator[tuple[Reading, str]]:
    """Yield each reading of a feature once, the same angle told from the other side too, with what tells it from others."""
    every: list[Reading] = []
    for reading in angles(part, feature):
        if not any(abs(reading.from_square - r.from_square) < SAME_ANGLE for r in every):
            every.append(reading)
    for reading in every:
        yield reading, f", {reading.what}" if reading.what and len(every) > 1 else ""


def acute_from(square: float) -> float:
    """Return an angle from square, degrees, below 90."""
    turned = square % 180.0
    return min(turned, 180.0 - turned)


def acute(degrees: float) -> float:
    """Return the angle, at most 45 degrees, at which a gauge is made for an angle or for what it lacks of 90."""
    return min(degrees % 90.0, 90.0 - degrees % 90.0)


def angles(part: Part, feature: Feature) -> Iterator[Reading]:
    """Yield each angle of a feature: those of its sizes, then those that a machine is set to."""
    sinks = {float(hole.sink.angle) for hole in feature.made.holes if hole.sink and hole.sink.angle is not None}
    for size in feature.made.sizes:
        if size.kind is SizeKind.ANGLE and float(size.value) not in sinks:
            seen = "" if size.face is None else f"as seen {SEEN[part.word(size.face)]}"
            yield _reading(float(size.value), seen, f"{size.label}, {size.note}")
    for setting in feature.made.settings:
        for name, value, kind in setting.values:
            if kind == "angle" and not isinstance(value, str) and float(value) not in sinks:
                yield _reading(float(value), name.split(",")[0], name)


def _reading(degrees: float, what: str, words: str) -> Reading:
    """Return an angle with what it is counted from, as the words beside it say."""
    other = OTHER.search(words)
    square = True if any(w in words for w in SQUARE) else False if other else None
    return Reading(degrees, what, square, other[1] if other else "")
