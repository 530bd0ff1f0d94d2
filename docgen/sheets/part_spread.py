"""The views of one part with their figures, and its details, laid out about one another at a scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.drawing.dimensions.wanted import Arranged, Wanted
from docgen.drawing.enlarged import Shown
from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import Bounds, around, moved
from docgen.drawing.records import Record
from docgen.sheets.part_room import Extent, beside, laid
from docgen.sheets.part_view import Setting, Subject, detail_of, view_of


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
    large = [detail_of(subject, s, d, setting, metrics) for s in stations for d in subject.details if d.face == s.face]
    for view in large:
        at = None if room is not None and view.arranged.left else beside(fields, view.bounds, room)
        if at is None:
            return None
        places.append(at)
        fields.append(Extent(0, 0, view.bounds).moved(at))
    records = [moved(r, dx, dy) for view, (dx, dy) in zip([*made, *large], places, strict=True) for r in view.records]
    return Spread(
        tuple(records),
        tuple(fields),
        tuple(view.arranged for view in made),
        tuple(places[: len(made)]),
        tuple((view.arranged, by) for view, by in zip(large, places[len(made) :], strict=True)),
    )


def _too_large(extents: list[Extent], room: tuple[float, float]) -> bool:
    x0, y0, x1, y1 = around(e.moved(by) for e, by in zip(extents, laid(extents), strict=True))
    return x1 - x0 > room[0] or y1 - y0 > room[1]
