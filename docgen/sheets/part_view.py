"""One part drawn from the faces it needs: lines, dimensions, captions, grain; ready to be laid out with others."""

from __future__ import annotations

import copy
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from docgen.drawing import views
from docgen.drawing.asked import notes as notes_of
from docgen.drawing.breaks import Gone, parted, shifted
from docgen.drawing.breaks import moved as closed_up
from docgen.drawing.choose import Plan, figures, home, plan
from docgen.drawing.dimensions.wanted import Linear, Wanted
from docgen.drawing.enlarged import Shown, engine_on, enlarged, lettered, mark
from docgen.drawing.lettering import box
from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import Bounds, around
from docgen.drawing.records import Pen, Point, Record
from docgen.drawing.ring import ring
from docgen.drawing.specks import clear, larger
from docgen.drawing.unfold import Station, principal, stacked, stations
from docgen.drawing.wishes import hole_wishes, later_wishes, wish
from docgen.drawing.wording import Notes
from docgen.geometry.hidden import draw
from docgen.geometry.lines import Drawn
from docgen.geometry.shapes import Frame, Vec
from docgen.piece.model import DrawingWish, Part
from docgen.piece.records import Face, Size, SizeKind, Stage
from docgen.piece.solids import Solids
from docgen.schedules.terms import grained
from docgen.sheets import part_curves
from docgen.sheets.part_blank import blank_edges
from docgen.sheets.part_broken import axis_of, lines_of, marked, stretches
from docgen.sheets.part_centres import centres, crosses, later_crosses, tapped
from docgen.sheets.part_holes import leaning, left_to_views, tabled, tag_wishes
from docgen.sheets.part_room import Said
from docgen.sheets.part_shoulders import lines as shoulders
from docgen.sheets.part_shoulders import shoulder_lines
from docgen.sheets.part_signs import caption, grain
from docgen.sheets.part_stops import hooks
from docgen.units import Units

LATER, HERE = "later", "here"


@dataclass(frozen=True, slots=True)
class Detail:
    """A place of one of a part's views that is drawn once more, larger, with the figures that crowd there.

    The middle is in the part's axes, the radius in mm; `keys` are those of the figures that stand in it, `least` is what
    the finest of them stands for, mm.
    """

    face: Face
    centre: Vec
    radius: float
    letter: str
    keys: frozenset[str]
    least: float


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
    A broken part lacks what is `gone` along its length; `whole` is the same part unbroken. The same breaks are tried in
    several blocks: what is drawn with them is kept in `_cut`.
    What `details` show has its figures there alone.
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
    details: tuple[Detail, ...] = ()
    notes: Notes = field(init=False)
    plan: Plan = field(init=False)
    pins: tuple[part_curves.Pin, ...] = field(init=False)  # points of curves, which a table places
    _drawn: dict[tuple[Vec, Vec, Stage], Drawn] = field(init=False, default_factory=dict)
    _bounds: dict[tuple[Vec, Vec], Bounds] = field(init=False, default_factory=dict)
    _wanted: dict[tuple[Vec, Vec], tuple[Wanted, ...]] = field(init=False, default_factory=dict)
    _views: dict[tuple[object, ...], Shown] = field(init=False, default_factory=dict)
    _large: dict[tuple[Vec, Vec, Detail, Setting], Shown] = field(init=False, default_factory=dict)
    said: dict[tuple[tuple[Face, ...], bool, str], Said] = field(init=False, default_factory=dict)
    reckoned: dict[tuple[Vec, Vec, Setting, bool], Bounds] = field(init=False, default_factory=dict)
    filled: dict[tuple[Vec, Vec, Setting, bool], Bounds] = field(init=False, default_factory=dict)
    fits: dict[tuple[object, ...], bool] = field(init=False, default_factory=dict)
    _cut: dict[tuple[Gone, ...], dict[str, Any]] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self.notes = Notes(self.units, leaning=bool(leaning(self.part)))
        noted = [w.face for w in self.asked if w.word == "note" and w.face is not None]
        self.plan = plan(self.part, figures(self.part, asked=self.asked), self._seen, noted)
        self.pins = part_curves.pins(self.part, self.plan.faces)

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

    def with_table(self, table: bool = True) -> Subject:
        """Return the same part with its holes told in a table, or in its views; lines that were drawn already are shared."""
        return self._like(table=table, _wanted={}, _large={}, said={}, reckoned={}, filled={}, fits={}, _cut={})

    def enlarged(self, details: tuple[Detail, ...]) -> Subject:
        """Return the same part with some places drawn once more, larger; lines that were drawn already are shared."""
        whole = self.whole.enlarged(details) if self.whole is not None else None
        fresh: dict[str, Any] = {name: {} for name in ("said", "reckoned", "filled", "fits", "_cut")}
        return self._like(details=details, whole=whole, **fresh)

    def broken(self, factor: float, shorter: float) -> Subject | None:
        """Return the same part broken so that it comes out `shorter` by mm on paper at a scale; None if nothing can go."""
        seen = [s for s in self.restricted((), "").stations(False) if s.face.axis != 0]
        stages = (Stage.PART, Stage.FITTED) if self.later else (Stage.PART,)
        every = [(self.drawn(s, False, stage), every_in(self, s)) for s in seen for stage in stages]
        rows = [row for f in self.part.features for row in f.made.holes]
        kept = [(d.centre[0] - d.radius, d.centre[0] + d.radius) for d in self.details if d.face.axis != 0]
        gone = stretches(every, rows, kept, factor=factor, shorter=shorter) if self.first.axis != 0 else ()
        if not gone:
            return None
        kept_by_name = ("_drawn", "_bounds", "_wanted", "said", "reckoned")
        shared = self._cut.setdefault(gone, {name: {} for name in kept_by_name})
        return self._like(only=(), block="", gone=gone, whole=self, **shared, filled={}, fits={}, _cut={})

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
            return stacked(spans, self.only, beside=ends and not upright, third=self.third)
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
    """How a part is drawn: scale (paper, real), height of the figures, length upward or to the right, scale of its details."""

    scale: tuple[int, int]
    height: float
    upright: bool
    large: tuple[int, int] | None = None

    @property
    def factor(self) -> float:
        """Paper mm for each mm of the part."""
        return self.scale[0] / self.scale[1]


def view_of(subject: Subject, station: Station, setting: Setting, metrics: Metrics) -> Shown:
    """Return one view at a setting; it is made once, however many ways to share out the views, or to tell the part, are tried."""
    setting = replace(setting, large=None) if setting.large else setting
    key = (station.view.right, station.view.up, setting, subject.bare)
    gone = subject.gone if axis_of(station.view) is not None else ()
    shown = (*key, gone, wanted_in(subject, station))
    if shown not in subject._views:
        subject._views[shown] = _one(subject, station, setting, metrics)
    view = subject._views[shown]
    subject.filled[key] = view.bounds
    return view


def _one(subject: Subject, station: Station, setting: Setting, metrics: Metrics) -> Shown:
    """Return one view with its dimensions about the paper origin."""
    s = setting.factor
    lines = _lines(subject, station, s, setting.upright)
    axis = axis_of(station.view) if subject.whole is not None else None
    if subject.whole is not None and axis is not None:
        lines += lines_of(subject.whole.drawn(station, setting.upright, Stage.PART), axis, subject.gone, s)
    x0, y0, x1, y1 = subject.bounds(station, setting.upright)
    outline = (x0 * s, y0 * s, x1 * s, y1 * s)
    engine = engine_on(lines, outline, s, setting.height, metrics)
    wanted = wanted_in(subject, station)
    middles = [*_middles(subject, station, wanted, s, setting.upright), *_rings(subject, station, s)]
    mark(engine, middles)
    told = [w for w in wanted if subject.bare and not (isinstance(w, Linear) and w.overall)]
    arranged = engine.arrange([w for w in wanted if w not in told])
    if axis is not None:
        arranged = marked(arranged, axis, subject.gone, engine)
    arranged = replace(arranged, left=(*arranged.left, *told))
    led = station.face == subject.first and grained(subject.part.material)
    signs = grain(engine, outline, setting.upright) if led else []
    name = caption(subject.part, station, arranged.bounds, outline, metrics)
    records = (*lines, *middles, *signs, *arranged.records, name)
    return Shown(records, around([arranged.bounds, box(name, metrics).bounds()]), arranged)


def _lines(subject: Subject, station: Station, s: float, upright: bool) -> list[Record]:
    """Return the lines of a view about the paper origin: edges, what is cut later, threads."""
    now = subject.drawn(station, upright, Stage.PART)
    lines = views.stroke_records(clear(now, s), s, (0.0, 0.0))
    if subject.later:
        later = views.later_strokes(now, subject.drawn(station, upright, Stage.FITTED))
        lines += views.strokes(larger(later, s), Pen.PHANTOM, s, (0.0, 0.0))
    return lines + tapped(subject.part, station, s, subject.gone)


def _middles(subject: Subject, station: Station, wanted: Sequence[Wanted], s: float, upright: bool) -> list[Record]:
    """Return the thin lines of a view about the paper origin: of centres, shoulders, the blank, points that are measured to."""
    now, bounds = clear(subject.drawn(station, upright, Stage.PART), s), subject.bounds(station, upright)
    found = shoulder_lines(subject.part, station, now, wanted, bounds, subject.gone)
    middles = [
        *centres(subject.part, station, bounds, s, subject.gone),
        *later_crosses(subject.part, station, s, subject.gone),
        *shoulders(found, s),
        *blank_edges(subject.part, station, now, wanted, bounds, s, subject.gone),
        *hooks(subject.part, station, now, wanted, s, subject.gone),
        *part_curves.ticks(subject.pins, station, s, subject.gone),
    ]
    return [*middles, *crosses(wanted, now, middles, s)]


def _rings(subject: Subject, station: Station, s: float) -> list[Record]:
    """Return the rings of a view's details about its paper origin."""
    held = [d for d in subject.details if d.face == station.face]
    return [ring((x * s, y * s), d.radius * s) for d in held for x, y in (_middle(subject, station, d),)]


def _middle(subject: Subject, station: Station, detail: Detail) -> Point:
    """Return where a detail lies in a view, view mm."""
    axis, seen = axis_of(station.view), station.view.flat(detail.centre)
    return closed_up(seen, axis, subject.gone) if axis is not None else seen


def detail_of(subject: Subject, station: Station, detail: Detail, setting: Setting, metrics: Metrics) -> Shown:
    """Return what lies within a detail's ring at its own scale, with its figures; it is made once.

    It shows the part unbroken, whatever else is drawn of it, so that all ways to draw the part share it.
    """
    scale = setting.large or setting.scale
    key = (station.view.right, station.view.up, detail, replace(setting, scale=scale, large=None))
    if key in subject._large:
        return subject._large[key]
    whole, s = subject.whole or subject, scale[0] / scale[1]
    wanted = [w for w in every_in(whole, station) if w.key in detail.keys]
    subject._large[key] = enlarged(
        _lines(whole, station, s, setting.upright),
        _middles(whole, station, wanted, s, setting.upright),
        wanted,
        at=station.view.flat(detail.centre),
        radius=detail.radius,
        letter=detail.letter,
        scale=scale,
        height=setting.height,
        metrics=metrics,
    )
    return subject._large[key]


def wanted_in(subject: Subject, station: Station) -> tuple[Wanted, ...]:
    """Return what is to be dimensioned in a view, and the letters of its details, which have figures of their own."""
    every = every_in(subject, station)
    held = [d for d in subject.details if d.face == station.face]
    if not held:
        return every
    elsewhere = frozenset[str]().union(*(d.keys for d in held))
    letters = (lettered(d.letter, _middle(subject, station, d), d.radius) for d in held)
    return (*(w for w in every if w.key not in elsewhere), *letters)


def every_in(subject: Subject, station: Station) -> tuple[Wanted, ...]:
    """Return what is to be dimensioned in a view, in it or in its details; worded once."""
    key = (station.view.right, station.view.up)
    if key not in subject._wanted and subject.whole is not None:
        axis = axis_of(station.view)
        plain = every_in(subject.whole, station)
        subject._wanted[key] = plain if axis is None else tuple(shifted(w, axis, subject.gone) for w in plain)
    if key not in subject._wanted:
        part, notes, faces = subject.part, subject.notes, subject.plan.faces
        figures = subject.plan.figures
        kept = part_curves.left_to_views(figures, subject.pins)
        kept = left_to_views(part, kept) if subject.table else kept
        out: list[Wanted] = [
            wish(f, f"{n:03d}", part, station.view, notes)
            for n, f in enumerate(figures)
            if f in kept and home(f.size, subject.first, subject.plan.others) == station.face
        ]
        but = tabled(part) if subject.table else ()
        out += hole_wishes(part, station.face, faces, station.view, notes, part.plain_side, but)
        out += later_wishes(part, station.face, faces, station.view)
        out += part_curves.tag_wishes(subject.pins, station.face, station.view)
        if subject.table:
            out += tag_wishes(part, station.face, faces, station.view)
        out += notes_of(subject.asked, station.face, station.view)
        subject._wanted[key] = tuple(out)
    return subject._wanted[key]
