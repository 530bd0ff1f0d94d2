"""The angle gauges of a piece: each different angle that a machine or a bevel is set to, once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.piece.model import Kind, Part, Piece
from docgen.piece.naming import in_words
from docgen.piece.records import Feature, SizeKind
from docgen.schedules.template_rows import Gauge

SEEN = {
    "front": "from the front", "back": "from the front", "left": "from the side", "right": "from the side",
    "bottom": "from above", "top": "from above",
}  # fmt: skip
SAME_ANGLE = 0.005  # degrees: finer than any gauge is set


def gauges(piece: Piece, kinds: Sequence[Kind]) -> tuple[Gauge, ...]:
    """Return each different angle of the piece's sizes and settings once, smallest first.

    Right angles and 45 degrees are left out: a combination square has both. So are the cones of countersinks: the
    cutter brings its angle along. A file that wants no templates at all has none.
    """
    if any(wish.none and not wish.parts and not wish.face for wish in piece.templates):
        return ()
    called = {p.path: p.called for p in piece.parts}
    found: list[tuple[float, list[str]]] = []
    for kind in kinds:
        part = piece.part(kind.first)
        if part.hardware:
            continue
        for feature in part.features:
            every = list(angles(part, feature))
            for degrees, what in every:
                angle = acute(degrees)
                if angle < SAME_ANGLE or angle > 45.0 - SAME_ANGLE:
                    continue
                told = f", {what}" if what and len({round(d, 2) for d, _ in every}) > 1 else ""
                use = f"{part.called}: {in_words(feature.title or feature.name, called)}{told}"
                same = next((uses for known, uses in found if abs(known - angle) < SAME_ANGLE), None)
                if same is None:
                    found.append((angle, [use]))
                elif use not in same:
                    same.append(use)
    return tuple(Gauge(angle, tuple(uses)) for angle, uses in sorted(found, key=lambda g: g[0]))


def acute(degrees: float) -> float:
    """Return the angle, at most 45 degrees, at which a gauge is made for an angle or for what it lacks of 90."""
    return min(degrees % 90.0, 90.0 - degrees % 90.0)


def angles(part: Part, feature: Feature) -> Iterator[tuple[float, str]]:
    """Yield each angle of a feature, degrees, and what it is: the setting of a machine, or how it is seen."""
    sinks = {float(hole.sink.angle) for hole in feature.made.holes if hole.sink and hole.sink.angle is not None}
    for size in feature.made.sizes:
        if size.kind is SizeKind.ANGLE and float(size.value) not in sinks:
            seen = "" if size.face is None else f"as seen {SEEN[part.word(size.face)]}"
            yield float(size.value), seen
    for setting in feature.made.settings:
        for name, value, kind in setting.values:
            if kind == "angle" and not isinstance(value, str) and float(value) not in sinks:
                yield float(value), name.split(",")[0]
