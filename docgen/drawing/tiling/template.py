"""A template as a true-size drawing: outline, waste, datum edges, holes, lines, grain, radii, and its labels."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Arc, Line, Path, Pen, Point
from docgen.drawing.tiling.clip import clip
from docgen.drawing.tiling.crop import Crop, corner_of
from docgen.drawing.tiling.hatch import hatch
from docgen.drawing.tiling.ink import Ink, bounds_of, inside, outline_ink, segments
from docgen.drawing.tiling.labels import Label, Row
from docgen.drawing.tiling.rounds import Rounds, place
from docgen.drawing.tiling.signs import centre_mark, check_mark, zigzag
from docgen.geometry.shapes import Outline
from docgen.layout.model import Layout
from docgen.piece.records import OTHER_CUT, Sink
from docgen.schedules.template_rows import TemplateRow
from docgen.units import Units, format_length

EACH = 4  # holes of one size that are all labelled; of more only the first is
GLUED = "glued corner"  # on what one lies that is laid over a joint
CHECK_ONLY = "check only"
OUTSIDE = 0.5  # mm beyond a side, where it is asked what lies there
ALONG = (0.35, 0.65, 0.2, 0.8)  # of a line, where its label begins: not the middle, where other labels like to stand
WITHIN = (0.2, 0.35, 0.65, 0.8)  # of a base line: where its label may as well begin


class TemplateArt:
    """The ink and the labels of one window of a template; with `tags` each hole that has one is called by it."""

    def __init__(
        self,
        row: TemplateRow,
        crop: Crop,
        *,
        units: Units,
        layout: Layout,
        metrics: Metrics,
        tags: Mapping[Point, str] | None = None,
        drills: Mapping[float, str] | None = None,
        sinks: Mapping[Point, Sink] | None = None,
    ) -> None:
        self.row, self.crop, self.units = row, crop, units
        self.tags = tags or {}  # names of holes by their places as seen, rounded by `place`
        self.sinks = sinks or {}  # by the places of their holes, rounded so too
        self.drills = drills or {}  # names of drills that no fraction tells, by their diameter rounded to 0.001 mm
        self.layout, self.metrics = layout, metrics
        self.heights = layout.heights
        self.closed = outline_ink(row.seen.outline)
        self.chords = [s for side in self.closed for s in segments(side)]
        self.wasted = [[s for side in outline_ink(w) for s in segments(side)] for w in row.seen.waste]
        self.outline = tuple(side for side in self.closed if not self._broken_off(side))
        inner = [side for opening in row.seen.openings for side in outline_ink(opening)]
        self.rounds = Rounds(row, self.outline, inner, self.chords, crop.shows)

    def boundary(self) -> tuple[Ink, ...]:
        """Return the outline in which captions like to stand."""
        return self.closed

    def ink(self) -> tuple[Ink, ...]:
        """Return everything that is drawn, cut at the window."""
        seen = self.row.seen
        whole: list[Ink] = [*self.outline]
        for waste in seen.waste:
            whole.extend(hatch((waste, seen.outline) if _around(waste, seen.outline) else (waste,)))
            whole.extend(outline_ink(waste, Pen.HATCH))
        for opening in seen.openings:
            whole.extend(hatch((opening,)))
            whole.extend(outline_ink(opening))
        whole.extend(self._datum())
        whole.extend(Line(a, b, Pen.PHANTOM if text == OTHER_CUT else Pen.THIN) for a, b, text in seen.lines)
        for x, y, diameter in seen.holes:
            sink = self.sinks.get(place((x, y)))
            whole.extend(centre_mark((x, y), diameter / 2, float(sink.diameter) / 2 if sink else 0.0))
        for x, y, diameter in seen.checks:
            whole.extend(check_mark((x, y), diameter / 2))
        whole.extend(self.rounds.ink())
        out = clip(whole, self.crop.window)
        out.extend(self._bases())
        out.extend(self._breaks())
        return tuple(out)

    def _datum(self) -> Iterator[Line]:
        """Yield the datum edges, shifted so that the outer side of the thick line is the edge itself."""
        half = self.layout.pens[Pen.DATUM.value].width / 2
        for a, b in self.row.seen.datum:
            length = math.dist(a, b)
            nx, ny = -(b[1] - a[1]) / length * half, (b[0] - a[0]) / length * half
            middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
            if not inside((middle[0] + nx, middle[1] + ny), self.chords):
                nx, ny = -nx, -ny
            yield Line((a[0] + nx, a[1] + ny), (b[0] + nx, b[1] + ny), Pen.DATUM)

    def _bases(self) -> Iterator[Line]:
        x0, y0, x1, y1 = self._seen_bounds()
        for axis, at in self.crop.bases:
            ends = ((at, y0 - 5), (at, y1 + 5)) if axis == 0 else ((x0 - 5, at), (x1 + 5, at))
            yield Line(ends[0], ends[1], Pen.CENTRE)

    def _seen_bounds(self) -> Bounds:
        """Return bounds of the part of the outline's inside that the window shows."""
        a, b = bounds_of(self.closed), self.crop.window
        return (max(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), min(a[3], b[3]))

    def _broken_off(self, side: Line | Arc) -> bool:
        """Return whether a side is where the template ends within the wood: beyond it lies neither waste nor an edge."""
        seen = self.row.seen
        if (
            isinstance(side, Arc)
            or seen.shared
            or seen.loose
            or any({*ends} == {side.a, side.b} for ends in seen.datum)
        ):
            return False
        (ax, ay), (bx, by) = side.a, side.b
        long = math.dist(side.a, side.b) or 1.0
        nx, ny = OUTSIDE * (by - ay) / long, OUTSIDE * (ax - bx) / long
        x, y = (ax + bx) / 2, (ay + by) / 2
        if inside((x + nx, y + ny), self.chords):
            nx, ny = -nx, -ny
        x, y = x + nx, y + ny
        up = -y if _downward(self.row) else y
        within = 0.0 < x < self.row.size[0] and 0.0 < up < self.row.size[1]
        return within and not any(inside((x, y), chords) for chords in self.wasted)

    def _breaks(self) -> Iterator[Path]:
        for end in self.closed:
            if isinstance(end, Line) and self._broken_off(end):
                yield zigzag(end.a, end.b)
        x0, y0, x1, y1 = self.crop.window
        bx0, by0, bx1, by1 = self._seen_bounds()
        for side in self.crop.cuts:
            if side in ("left", "right"):
                yield zigzag((x0 if side == "left" else x1, by0), (x0 if side == "left" else x1, by1))
            else:
                yield zigzag((bx0, y0 if side == "bottom" else y1), (bx1, y0 if side == "bottom" else y1))

    def labels(self) -> tuple[Label, ...]:
        """Return the labels of what lies in the window, the caption last: it has the most freedom."""
        out = [*self._base_labels(), *self._hole_labels(), *self._edge_labels()]
        for a, b, text in self.row.seen.lines:
            shown = [p for p in (_between(b, a, share) for share in ALONG) if self._shows(p)]
            if text and shown:
                out.append(Label(shown[0], (Row(text, self.heights.note),), also=tuple(shown[1:])))
        out.extend(sorted(self.rounds.labels(self.units, self.heights), key=lambda label: label.spare))
        out.append(self._caption())
        return tuple(out)

    def told(self) -> tuple[str, ...]:
        """Return what is said of the drawing in sentences: where the centres of its wide arcs lie."""
        return tuple(self.rounds.told(self.units))

    def _base_labels(self) -> Iterator[Label]:
        """Yield the labels of the base lines, each at the end of its line or anywhere along it."""
        x0, y0, x1, y1 = self._seen_bounds()
        for axis, at in self.crop.bases:
            where = self.row.end if axis == 0 else self.row.edge
            text = f"{format_length(abs(at), self.units)} {self.units.sign} from the {where}"
            ends = ((at, y1 + 5), (at, y0 - 5)) if axis == 0 else ((x1 + 5, at), (x0 - 5, at))
            within = tuple(_between(*ends, share) for share in WITHIN)
            rows = (Row(text, self.heights.figure), Row("measured on the blank", self.heights.note))
            yield Label(ends[0], rows, also=(ends[1], *within))

    def _shows(self, p: Point) -> bool:
        return self.crop.shows(*p)

    def _caption(self) -> Label:
        x0, y0, x1, y1 = self._seen_bounds()
        numbers = ", ".join(str(n) for n in list(dict.fromkeys(self.row.numbers))[:4])
        grain = self.row.seen.grain
        face = "" if self.row.seen.shared else f", {self.row.face}"
        of = self.row.seen.of
        name = f"{of}, its strip" if of else GLUED if self.row.seen.glued else self.row.called[0]
        rows = [
            Row(name, self.heights.heading, True),
            Row(f"{'for ' if of else ''}No. {numbers}{face}", self.heights.note),
        ]
        if grain is not None:
            rows.append(Row("grain:", self.heights.note))
        return Label(((x0 + x1) / 2, (y0 + y1) / 2), tuple(rows), leader=False, arrow=grain)

    def _hole_labels(self) -> Iterator[Label]:
        for centres, more in ((self.row.seen.holes, ()), (self.row.seen.checks, (CHECK_ONLY,))):
            shown = [h for h in centres if self._shows((h[0], h[1]))]
            for diameter in sorted({h[2] for h in shown}):
                same = [h for h in shown if h[2] == diameter]
                text = self.drills.get(round(diameter, 3)) or f"⌀{format_length(diameter, self.units)}"
                called = [h for h in same if place((h[0], h[1])) in self.tags]
                told: set[str] = set()  # of many holes the first of each name tells the bore of all that share it
                for x, y, d in called:
                    tag = self.tags[place((x, y))]
                    name = tag.rstrip("0123456789.")
                    bore = "" if len(called) > EACH and name in told else f"  {text}"
                    told.add(name)
                    row = Row(f"{tag}{bore}", self.heights.figure)
                    under = (*(self._sunk(x, y) if bore else ()), *more)
                    rows = (row, *(Row(line, self.heights.note) for line in under))
                    yield Label((x, y), rows, reach=self._rim(x, y, d))
                same = [h for h in same if h not in called]
                if len(same) > EACH:
                    text, same = f"{len(same)} × {text}", same[:1]
                for x, y, d in same:
                    under = (*self._sunk(x, y), *more)
                    rows = (Row(text, self.heights.figure), *(Row(line, self.heights.note) for line in under))
                    yield Label((x, y), rows, reach=self._rim(x, y, d))

    def _rim(self, x: float, y: float, diameter: float) -> float:
        """Return where a leader to a hole ends, mm from its centre: on the outer circle that is drawn there."""
        sink = self.sinks.get(place((x, y)))
        return max(diameter / 2, float(sink.diameter) / 2 if sink else 0.0, 1.0)

    def _sunk(self, x: float, y: float) -> tuple[str, ...]:
        """Return what is said of the wider circle about a hole: "counterbore ⌀½, 3/8 deep", "countersink ⌀10"."""
        sink = self.sinks.get(place((x, y)))
        if sink is None:
            return ()
        wide = f"⌀{format_length(sink.diameter, self.units)}"
        if sink.depth is None:
            return (f"countersink {wide}",)
        return (f"counterbore {wide},", f"{format_length(sink.depth, self.units)} deep")

    def _edge_labels(self) -> Iterator[Label]:
        for a, b in self.row.seen.datum:
            kept = clip([Line(a, b)], self.crop.window)
            if not kept or not isinstance(kept[0], Line):
                continue
            (ax, ay), (bx, by) = kept[0].a, kept[0].b
            p = _between((ax, ay), (bx, by), ALONG[0])
            also = tuple(_between((ax, ay), (bx, by), share) for share in ALONG[1:])
            text = self.row.side_word(a, b) if self.row.seen.shared else f"datum: {self.row.side_word(a, b)}"
            yield Label(p, (Row(text, self.heights.note),), also=also)


def _between(a: Point, b: Point, share: float) -> Point:
    return (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))


def _around(waste: Outline, outline: Outline) -> bool:
    """Return whether the waste goes all round what stays, if only touching it here and there: this is a hole in it then."""
    chords = [[chord for side in outline_ink(o) for chord in segments(side)] for o in (waste, outline)]
    _, y0, _, y1 = bounds_of(outline_ink(outline))
    level = y0 + 0.4873 * (y1 - y0)  # through no corner
    crossed = sorted(
        a[0] + (level - a[1]) / (b[1] - a[1]) * (b[0] - a[0]) for a, b in chords[1] if (a[1] < level) != (b[1] < level)
    )
    return len(crossed) > 1 and inside(((crossed[0] + crossed[1]) / 2, level), chords[0])


def _downward(row: TemplateRow) -> bool:
    """Return whether y runs downward from the datum edge, as where the face is seen from the part's low side."""
    return any(e.end[1] < -1e-6 for e in row.seen.outline.edges)


def features_of(row: TemplateRow) -> tuple[Bounds, ...]:
    """Return the boxes of what a ruler cannot lay out: corners that are not the blank's, arcs, holes, lines, waste."""
    seen = row.seen
    wide, high = row.size
    sign = -1.0 if _downward(row) else 1.0
    corners = [(x, sign * y) for x in (0.0, wide) for y in (0.0, high)]
    out: list[Bounds] = []
    for side in (side for o in (() if seen.guide else (seen.outline, *seen.openings)) for side in outline_ink(o)):
        if isinstance(side, Arc):
            out.append(bounds_of([side]))
        else:
            out.extend((p[0], p[1], p[0], p[1]) for p in (side.a, side.b) if not corner_of(p, corners))
    own = [h for h in (*seen.holes, *seen.checks) if h not in row.beside]
    out.extend((x - d / 2, y - d / 2, x + d / 2, y + d / 2) for x, y, d in own)
    out.extend(bounds_of([Line(a, b)]) for a, b, _ in seen.lines)
    out.extend((x, y, x, y) for x, y, _ in seen.points)
    return tuple(out)
