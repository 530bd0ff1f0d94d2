"""The views of one part with their figures, and its details, laid out about one another at a scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.drawing.dimensions.wanted import Arranged, Wanted
from docgen.drawing.enlarged import Shown
from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import Bounds, around, moved
from docgen.drawing.records import Point, Record
from docgen.drawing.unfold import Station
from docgen.sheets.part_room import Extent, beside, laid
from docgen.sheets.part_view import Detail, Setting, Subject, detail_of, view_of

NAME = 4.0  # mm under a ring that the name of its detail takes


@dataclass(frozen=True, slots=True)
class Spread:
    """The views of one part, laid out: the whole hangs from (0, 0).

    `fields` is what each view and each detail fills, `places` how far each view was moved from its own origin. `large`
    has the figures of the details, and how far each was moved.
    """

    records: tuple[Record, ...]
    fields: tuple[Bounds, ...]
    arranged: tuple[Arranged, ...]
    places: tuple[tuple[float, float], ...]
    large: tuple[tuple[Arranged, tuple[float, float]], ...] = ()

    @property
    def left(self) -> tuple[Wanted, ...]:
        """What found no place in its view."""
        return tuple(w for a in (*self.arranged, *(a for a, _ in self.large)) for w in a.left)


def spread(
    subject: Subject,
    setting: Setting,
    metrics: Metrics,
    room: tuple[float, float] | None = None,
    expected: Sequence[Extent] = (),
) -> Spread | None:
    """Return the views of a part at a setting, dimensioned and laid out.

    With a `room` the work stops with None as soon as a figure finds no place, or the views so far, with what the
    others are `expected` to fill, are larger.
    """
    made: list[Shown] = []
    extents: list[Extent] = []
    stations = subject.stations(setting.upright)
    for station in stations:
        made.append(view_of(subject, station, setting, metrics))
        extents.append(Extent(station.column, station.row, made[-1].bounds))
        if room is not None and (made[-1].arranged.left or _too_large([*extents, *expected[len(extents) :]], room)):
            return None
    places = laid(extents)
    fields = [e.moved(by) for e, by in zip(extents, places, strict=True)]
    shown = list(zip(made, places, strict=True))
    for s, d in ((s, d) for s in stations for d in subject.details if d.face == s.face):
        found = _beside(subject, s, d, setting, metrics, room, (fields, shown))
        if found is None:
            return None
        shown.append(found)
        fields.append(Extent(0, 0, found[0].bounds).moved(found[1]))
    records = [moved(r, dx, dy) for view, (dx, dy) in shown for r in view.records]
    views, large = shown[: len(made)], shown[len(made) :]
    return Spread(
        tuple(records),
        tuple(fields),
        tuple(view.arranged for view, _ in views),
        tuple(by for _, by in views),
        tuple((view.arranged, by) for view, by in large),
    )


def _beside(
    subject: Subject,
    station: Station,
    detail: Detail,
    setting: Setting,
    metrics: Metrics,
    room: tuple[float, float] | None,
    others: tuple[Sequence[Bounds], Sequence[tuple[Shown, Point]]],
) -> tuple[Shown, Point] | None:
    """Return a detail and how far it is moved to stand beside others, between their figures where these leave room.

    None, with a `room`, where it does not fit or a figure finds no place. What its ring has no room for is not drawn at all.
    """
    fields, shown = others
    pieces = [b for view, by in shown for b in view.pieces(metrics, by)]
    scale = setting.large or setting.scale
    r = detail.radius * scale[0] / scale[1]
    if beside(pieces, (-r, -r - NAME, r, r), room) is None:
        return None
    view = detail_of(subject, station, detail, setting, metrics)
    if room is not None and view.arranged.left:
        return None
    at = beside(fields, view.bounds, room) or beside(pieces, view.bounds, room)
    return None if at is None else (view, at)


def _too_large(extents: list[Extent], room: tuple[float, float]) -> bool:
    x0, y0, x1, y1 = around(e.moved(by) for e, by in zip(extents, laid(extents), strict=True))
    return x1 - x0 > room[0] or y1 - y0 > room[1]
