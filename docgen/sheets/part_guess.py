"""What a part's views will fill, before they are dimensioned: to pass over scales that cannot fit."""

from __future__ import annotations

from docgen.drawing.dimensions.estimate import reach
from docgen.drawing.dimensions.field import Field
from docgen.drawing.dimensions.wanted import Linear, Rules
from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import Bounds
from docgen.drawing.unfold import Station
from docgen.sheets.part_room import BETWEEN, Extent, laid
from docgen.sheets.part_view import Setting, Subject, wanted_in

CAPTION = 4.5  # mm, a view's name under it
OFF = 1.0  # mm: the reckoning is that good
KEPT = 0.4  # of what figures took beyond the reckoning at one scale they take at least at another


def guessed(subject: Subject, setting: Setting, metrics: Metrics) -> list[Bounds]:
    """Return about the least that each view with its figures fills, laid out, mm."""
    every = extents(subject, setting, metrics)
    return [e.moved(by) for e, by in zip(every, laid(every), strict=True)]


def too_large(subject: Subject, setting: Setting, room: tuple[float, float]) -> bool:
    """Return True when the views alone, without figures, are larger than the room."""
    wide: dict[int, float] = {}
    high: dict[int, float] = {}
    for s in subject.stations(setting.upright):
        x0, y0, x1, y1 = subject.bounds(s, setting.upright)
        wide[s.column] = max(wide.get(s.column, 0.0), (x1 - x0) * setting.factor)
        high[s.row] = max(high.get(s.row, 0.0), (y1 - y0) * setting.factor + CAPTION)
    across, up = sum(wide.values()) + BETWEEN * (len(wide) - 1), sum(high.values()) + BETWEEN * (len(high) - 1)
    return across > room[0] or up > room[1]


def extents(subject: Subject, setting: Setting, metrics: Metrics) -> list[Extent]:
    """Return about the least that each view with its figures fills, about its own origin, mm."""
    return [Extent(s.column, s.row, _filled(subject, s, setting, metrics)) for s in subject.stations(setting.upright)]


def _filled(subject: Subject, station: Station, setting: Setting, metrics: Metrics) -> Bounds:
    """Return what one view fills about its own origin: known where it was drawn, else reckoned."""
    key = (station.view.right, station.view.up, setting, subject.bare)
    drawn = subject.filled.get(key)
    if drawn is not None:
        return drawn
    least = _reckoned(subject, station, setting, metrics)
    more = _excess(subject, station, setting, metrics)
    return (least[0] - more[0], least[1] - more[1], least[2] + more[2], least[3] + more[3])


def _reckoned(subject: Subject, station: Station, setting: Setting, metrics: Metrics) -> Bounds:
    key = (station.view.right, station.view.up, setting, subject.bare)
    if key not in subject.reckoned:
        s = setting.factor
        x0, y0, x1, y1 = (c * s for c in subject.bounds(station, setting.upright))
        wanted = [w for w in wanted_in(subject, station) if not subject.bare or (isinstance(w, Linear) and w.overall)]
        a0, b0, a1, b1 = reach(
            wanted, Field((x0, y0, x1, y1), s, (0.0, 0.0)), Rules(height=setting.height, apart=True), metrics
        )
        subject.reckoned[key] = (
            min(x0, a0 + OFF),
            min(y0, b0 + OFF) - CAPTION,
            max(x1, a1 - OFF),
            max(y1, b1 - OFF),
        )
    return subject.reckoned[key]


def _excess(subject: Subject, station: Station, setting: Setting, metrics: Metrics) -> Bounds:
    """Return what the view took beyond the reckoning, on each side, at the nearest setting at which it was drawn."""
    right, up = station.view.right, station.view.up
    drawn = [k for k in subject.filled if k[0] == right and k[1] == up and k[3] == subject.bare]
    if not drawn:
        return (0.0, 0.0, 0.0, 0.0)
    near = min(drawn, key=lambda k: (k[2].height != setting.height, abs(k[2].factor - setting.factor)))
    took, least = subject.filled[near], _reckoned(subject, station, near[2], metrics)
    share = KEPT * min(1.0, setting.height / near[2].height)
    return (
        share * max(0.0, least[0] - took[0]),
        share * max(0.0, least[1] - took[1]),
        share * max(0.0, took[2] - least[2]),
        share * max(0.0, took[3] - least[3]),
    )
