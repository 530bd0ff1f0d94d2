"""One part drawn from the faces it needs: lines, dimensions, captions, grain; ready to be put on a page at a scale."""

from __future__ import annotations

import copy
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from docgen.drawing import symbols, views
from docgen.drawing.asked import notes as notes_of
from docgen.drawing.boxes import Box
from docgen.drawing.breaks import Gone, parted, shifted
from docgen.drawing.choose import Plan, figures, home, plan
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.dimensions.wanted import Arranged, Linear, Rules, Wanted
from docgen.drawing.lettering import box, width
from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import Bounds, around, moved
from docgen.drawing.records import Pen, Record, Text
from docgen.drawing.unfold import Station, principal, stacked, stations
from docgen.drawing.wishes import hole_wishes, later_wishes, wish
from docgen.drawing.wording import Notes
from docgen.geometry.hidden import draw
from docgen.geometry.lines import Drawn, View
from docgen.geometry.shapes import Frame, Vec
from docgen.piece.model import DrawingWish, Part
from docgen.piece.records import Face, Size, SizeKind, Stage
from docgen.piece.solids import Solids
from docgen.schedules.terms import grained
from docgen.sheets.part_broken import axis_of, lines_of, marked, stretches
from docgen.sheets.part_centres import centres, crosses, tapped
from docgen.sheets.part_holes import leaning, left_to_views, tabled, tag_wishes
from docgen.sheets.part_room import Extent, Said, laid
from docgen.sheets.part_shoulders import lines as shoulders
from docgen.sheets.part_shoulders import shoulder_lines
from docgen.units import Units

LATER, HERE = "later", "here"
GRAIN = 26.0  # mm, length of the grain arrow


@dataclass(slots=True)
class Subject:
    """A part with everything about it that does not depend on the scale; views are drawn once and kept.

    `only` restricts the views to some faces, for a part that takes several blocks, `block` says which of how many;
    `told` where stock and work are told: "" with the principal view, LATER in a block after it, HERE in this one.
    `filled` holds what a view with its figures fills at a setting about its own origin, mm, `reckoned` what it would at least;
    `said` the words of a block in which all figures found a place, `fits` whether a scale may fit a room at all.
    `placing` is how far from its figure a line or a hole may come out, as it is printed.
    `asked` is what the file wants of the sheet, `names` is what the parts of the piece are called on paper, by path.
    With `table` the holes carry tags, and a table has their places.
    A `bare` part is drawn with its overall sizes alone and all else is told in words: the last step of the ladder.
    A broken part lacks what is `gone` along its length; `whole` is the same part unbroken.
    """

    part: Part
    solids: Solids
    units: Units
    third: bool
    only: tuple[Face, ...] = ()
    block: str = ""
    told: str = ""
    bare: bool = False
    table: bool = False
    names: Mapping[str, str] = field(default_factory=dict)
    asked: tuple[DrawingWish, ...] = ()
    placing: str = ""
    shown: str = ""  # which of the equal parts show another face
    gone: tuple[Gone, ...] = ()
    whole: Subject | None = None
    notes: Notes = field(init=False)
    plan: Plan = field(init=False)
    _drawn: dict[tuple[Vec, Vec, Stage], Drawn] = field(init=False, default_factory=dict)
    _bounds: dict[tuple[Vec, Vec], Bounds] = field(init=False, default_factory=dict)
    _wanted: dict[tuple[Vec, Vec], tuple[Wanted, ...]] = field(init=False, default_factory=dict)
    _views: dict[tuple[Vec, Vec, Setting, bool], _View] = field(init=False, default_factory=dict)
    said: dict[tuple[tuple[Face, ...], bool, str], Said] = field(init=False, default_factory=dict)
    reckoned: dict[tuple[Vec, Vec, Setting, bool], Bounds] = field(init=False, default_factory=dict)
    filled: dict[tuple[Vec, Vec, Setting, bool], Bounds] = field(init=False, default_factory=dict)
    fits: dict[tuple[object, ...], bool] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self.notes = Notes(self.units, leaning=bool(leaning(self.part)))
        noted = [w.face for w in self.asked if w.word == "note" and w.face is not None]
        self.plan = plan(self.part, figures(self.part, asked=self.asked), self._seen, noted)

    @property
    def first(self) -> Face:
        """The face of the principal view."""
        return self.plan.first

    def restricted(self, only: tuple[Face, ...], block: str, told: str = "") -> Subject:
        """Return the same part with some of its views alone; what was drawn already is shared."""
        return self._like(only=only, block=block, told=told)

    def unbroken(self) -> Subject:
        """Return the same views of the part without breaks; the subject itself where it has none."""
        return self if self.whole is None else self.whole.restricted(self.only, self.block, self.told)

    def told_bare(self) -> Subject:
        """Return the same part with all but its overall sizes told in words."""
        return self._like(bare=True)

    def with_table(self) -> Subject:
        """Return the same part with its holes told in a table; lines that were drawn already are shared."""
        return self._like(table=True, _wanted={}, _views={}, said={}, reckoned={}, filled={}, fits={})

    def broken(self, factor: float, shorter: float) -> Subject | None:
        """Return the same part broken so that it comes out `shorter` by mm on paper at a scale; None if nothing can go."""
        seen = [s for s in self.restricted((), "").stations(False) if s.face.axis != 0]
        stages = (Stage.PART, Stage.FITTED) if self.later else (Stage.PART,)
        every = [(self.drawn(s, False, stage), wanted_in(self, s)) for s in seen for stage in stages]
        rows = [row for f in self.part.features for row in f.made.holes]
        gone = stretches(every, rows, factor=factor, shorter=shorter) if self.first.axis != 0 else ()
        fresh: dict[str, Any] = {
            name: {} for name in ("_drawn", "_bounds", "_wanted", "_views", "said", "reckoned", "filled", "fits")
        }
        return self._like(only=(), block="", gone=gone, whole=self, **fresh) if gone else None

    def _like(self, **changes: Any) -> Subject:
        other = copy.copy(self)
        for name, value in changes.items():
            setattr(other, name, value)
        return other

    def _seen(self, face: Face, size: Size) -> bool:
        """Return True when visible lines of a view of `face` pass both points of a size, or the point of its arc."""
        station = Station(face, principal(face, False), 0, 0)
        lines = self.drawn(station, False, Stage.PART).visible
        round_ = size.kind in (SizeKind.RADIUS, SizeKind.DIAMETER)
        points = (size.other or size.end,) if round_ else (size.start, size.end)
        return all(views.covered(station.view.flat(p), lines) for p in points)

    @property
    def later(self) -> bool:
        """True when the part is cut again after it was glued or fitted."""
        return any(f.stage is not Stage.PART and f.made.cuts for f in self.part.features)

    def stations(self, upright: bool) -> tuple[Station, ...]:
        """Return the views in their places.

        Without the principal one they lie under one another, or stand as they would beside it; ends alone lie side by side.
        """
        ends = len(self.only) > 1 and all(face.axis == 0 for face in self.only)
        if self.only and self.first not in self.only and (ends or not upright):
            low, high = zip(*(map(float, self.part.span(i)) for i in range(3)), strict=True)
            spans = (high[0] - low[0], high[1] - low[1], high[2] - low[2])
            return stacked(spans, self.only, beside=ends and not upright)
        others = tuple(f for f in self.plan.others if not self.only or f in self.only)
        every = stations(self.first, others, upright=upright, third=self.third)
        return tuple(s for s in every if not self.only or s.face in self.only)

    def bounds(self, station: Station, upright: bool) -> Bounds:
        """Return the extent of one view of the part as it leaves the machine, view mm."""
        key = (station.view.right, station.view.up)
        if key not in self._bounds:
            flat = principal(station.face, False)
            plain = views.bounds(self.drawn(Station(station.face, flat, 0, 0), upright, Stage.PART))
            self._bounds[key] = plain if station.view == flat else views.bounds_by(plain, flat, station.view)
        return self._bounds[key]

    def drawn(self, station: Station, upright: bool, stage: Stage) -> Drawn:
        """Return the lines of one view at a stage."""
        key = (station.view.right, station.view.up, stage)
        if key not in self._drawn:
            flat = principal(station.face, False)
            if station.view == flat and self.whole is not None:
                plain = self.whole.drawn(station, upright, stage)
                self._drawn[key] = plain if axis_of(flat) is None else parted(plain, 0, self.gone)
            elif station.view == flat:
                shape = self.solids.topology(self.part.path, stage)
                self._drawn[key] = draw([(shape, Frame())], flat)
            else:  # the same view turned on the paper
                self._drawn[key] = views.seen_by(
                    self.drawn(Station(station.face, flat, 0, 0), upright, stage), flat, station.view
                )
        return self._drawn[key]


@dataclass(frozen=True, slots=True)
class Setting:
    """How a part is drawn: scale (paper, real), height of the figures, length upward or to the right."""

    scale: tuple[int, int]
    height: float
    upright: bool

    @property
    def factor(self) -> float:
        """Paper mm for each mm of the part."""
        return self.scale[0] / self.scale[1]


def _view(subject: Subject, station: Station, setting: Setting, metrics: Metrics) -> _View:
    """Return one view at a setting; it is made once, however many ways to share out the views are tried."""
    key = (station.view.right, station.view.up, setting, subject.bare)
    if key not in subject._views:
        view = subject._views[key] = _one(subject, station, setting, metrics)
        subject.filled[key] = view.bounds
    return subject._views[key]


@dataclass(frozen=True, slots=True)
class Spread:
    """The views of one part, laid out: the whole hangs from (0, 0).

    `fields` is what each view fills, `places` how far each was moved from its own origin.
    """

    records: tuple[Record, ...]
    fields: tuple[Bounds, ...]
    arranged: tuple[Arranged, ...]
    places: tuple[tuple[float, float], ...]

    @property
    def left(self) -> tuple[Wanted, ...]:
        """What found no place in its view."""
        return tuple(w for a in self.arranged for w in a.left)


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
    made: list[_View] = []
    extents: list[Extent] = []
    for station in subject.stations(setting.upright):
        made.append(_view(subject, station, setting, metrics))
        extents.append(Extent(station.column, station.row, made[-1].bounds))
        if room is not None and (made[-1].arranged.left or _too_large([*extents, *expected[len(extents) :]], room)):
            return None
    places = laid(extents)
    records = [moved(r, dx, dy) for view, (dx, dy) in zip(made, places, strict=True) for r in view.records]
    fields = tuple(e.moved(by) for e, by in zip(extents, places, strict=True))
    return Spread(tuple(records), fields, tuple(view.arranged for view in made), tuple(places))


def _too_large(extents: list[Extent], room: tuple[float, float]) -> bool:
    x0, y0, x1, y1 = around(e.moved(by) for e, by in zip(extents, laid(extents), strict=True))
    return x1 - x0 > room[0] or y1 - y0 > room[1]


@dataclass(frozen=True, slots=True)
class _View:
    records: tuple[Record, ...]
    bounds: Bounds
    arranged: Arranged


def _one(subject: Subject, station: Station, setting: Setting, metrics: Metrics) -> _View:
    """Return one view with its dimensions about the paper origin."""
    s, at = setting.factor, (0.0, 0.0)
    now = subject.drawn(station, setting.upright, Stage.PART)
    lines = views.stroke_records(now, s, at)
    if subject.later:
        lines += views.strokes(
            views.later_strokes(now, subject.drawn(station, setting.upright, Stage.FITTED)), Pen.PHANTOM, s, at
        )
    axis = axis_of(station.view) if subject.whole is not None else None
    if subject.whole is not None and axis is not None:
        lines += lines_of(subject.whole.drawn(station, setting.upright, Stage.PART), axis, subject.gone, s)
    lines += tapped(subject.part, station, s, subject.gone)
    x0, y0, x1, y1 = subject.bounds(station, setting.upright)
    outline = (x0 * s, y0 * s, x1 * s, y1 * s)
    engine = Engine(
        [c for r in lines for c in views.chords(r)],
        outline=outline,
        scale=s,
        at=at,
        rules=Rules(height=setting.height),
        metrics=metrics,
    )
    wanted = wanted_in(subject, station)
    found = shoulder_lines(subject.part, station, now, wanted, (x0, y0, x1, y1), subject.gone)
    middles = [*centres(subject.part, station, (x0, y0, x1, y1), s, subject.gone), *shoulders(found, s)]
    middles += crosses(wanted, now, middles, s)
    for r in middles:
        for a, b in views.chords(r):
            engine.occupied.add_line(a, b, "centre")
    told = [w for w in wanted if subject.bare and not (isinstance(w, Linear) and w.overall)]
    arranged = engine.arrange([w for w in wanted if w not in told])
    if axis is not None:
        arranged = marked(arranged, axis, subject.gone, engine)
    arranged = replace(arranged, left=(*arranged.left, *told))
    signs = _grain(subject, station, engine, outline, setting.upright)
    caption = _caption(subject, station, arranged.bounds, outline, metrics)
    spot = box(caption, metrics).bounds()
    records = (*lines, *middles, *signs, *arranged.records, caption)
    return _View(records, around([arranged.bounds, spot]), arranged)


def wanted_in(subject: Subject, station: Station) -> tuple[Wanted, ...]:
    """Return what is to be dimensioned in a view; worded once."""
    key = (station.view.right, station.view.up)
    if key not in subject._wanted and subject.whole is not None:
        axis = axis_of(station.view)
        plain = wanted_in(subject.whole, station)
        subject._wanted[key] = plain if axis is None else tuple(shifted(w, axis, subject.gone) for w in plain)
    if key not in subject._wanted:
        part, notes, faces = subject.part, subject.notes, subject.plan.faces
        figures = subject.plan.figures
        kept = left_to_views(part, figures) if subject.table else figures
        out: list[Wanted] = [
            wish(f, f"{n:03d}", part, station.view, notes)
            for n, f in enumerate(figures)
            if f in kept and home(f.size, subject.first, subject.plan.others) == station.face
        ]
        but = tabled(part) if subject.table else ()
        out += hole_wishes(part, station.face, faces, station.view, notes, part.plain_side, but)
        out += later_wishes(part, station.face, faces, station.view)
        if subject.table:
            out += tag_wishes(part, station.face, faces, station.view)
        out += notes_of(subject.asked, station.face, station.view)
        subject._wanted[key] = tuple(out)
    return subject._wanted[key]


def _caption(subject: Subject, station: Station, bounds: Bounds, outline: Bounds, metrics: Metrics) -> Text:
    """Return the view's name under its field, with what is up on it: ``right face, top up, show face``."""
    text = f"{subject.part.plain_side(station.face)}, {_upward(subject.part, station.view)} up"
    if station.face == subject.part.show:
        text += ", show face"
    text += _crossed(subject.part, station.view)
    height = 2.5
    half = width(text, height, metrics) / 2
    middle = (outline[0] + outline[2]) / 2
    middle = max(middle, bounds[0] + half) if bounds[2] - bounds[0] >= 2 * half else (bounds[0] + bounds[2]) / 2
    return Text((middle, bounds[1] - 2.0 - height), text, height, "middle")


def _crossed(part: Part, view: View) -> str:
    """Return that what is called the left side lies at the reader's right, as in a view from behind; "" where it does not."""
    axis = max(range(3), key=lambda i: abs(view.right[i]))
    at_right = Face(axis, int(view.right[axis] > 0))
    return f", {part.plain_side(at_right)} at the right" if part.word(at_right) == "left" else ""


def _upward(part: Part, view: View) -> str:
    """Return the word of the side that lies upward on paper: unfolded views may stand on their heads."""
    axis = max(range(3), key=lambda i: abs(view.up[i]))
    return part.word(Face(axis, int(view.up[axis] > 0)))


def _grain(subject: Subject, station: Station, engine: Engine, outline: Bounds, upright: bool) -> list[Record]:
    """Return the grain arrow with its word where the principal view is clear; nothing where there is no room."""
    material = subject.part.material
    if station.face != subject.first or not grained(material):
        return []
    x0, y0, x1, y1 = outline
    long = (y1 - y0) if upright else (x1 - x0)
    size = min(GRAIN, 0.5 * long)
    if size < 10:
        return []
    angle = 90.0 if upright else 0.0
    for along in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.15, 0.85):
        for across in (0.5, 0.35, 0.65, 0.25, 0.75):
            u, v = (across, along) if upright else (along, across)
            spot = Box(x0 + u * (x1 - x0), y0 + v * (y1 - y0), size / 2 + 1, 3.0, angle)
            low_x, low_y, high_x, high_y = spot.bounds()
            inside = low_x > x0 + 1 and high_x < x1 - 1 and low_y > y0 + 1 and high_y < y1 - 1
            if inside and engine.occupied.free(spot, 0.3):
                engine.occupied.add_box(spot)
                word = Text(spot.point(0.0, -0.2), "grain", 2.5, "middle", angle=angle)
                return [*symbols.grain_arrow(spot.point(0.0, -1.9), angle, size), word]
    return []
