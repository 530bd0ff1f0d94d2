"""What a machine cuts of a template or a gauge: closed outlines, holes with their centres, lines and words to engrave."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.drawing.tiling.gauge import corners
from docgen.drawing.tiling.ink import bounds_of, outline_ink
from docgen.drawing.tiling.numbering import numbered
from docgen.geometry.shapes import Outline, Vec2
from docgen.schedules.template_rows import Gauge, TemplateRow
from docgen.units import Units, format_angle

TOLD = (
    "True size in millimetres, seen on the {face} from outside. Where the template ends within the wood, its last "
    "side is where it ends, not a cut."
)
GAUGE = "True size in millimetres: {angle} at the long corner, {rest} at the short one, a right angle between."
CROSS = 3.0  # mm that a centre mark reaches to each side

Segment = tuple[Vec2, Vec2]


@dataclass(frozen=True, slots=True)
class CutSheet:
    """One drawing for a machine, in mm, y up. `cuts` are closed; `holes` are (x, y, diameter)."""

    key: str
    told: str
    cuts: tuple[Outline, ...]
    holes: tuple[tuple[float, float, float], ...] = ()
    lines: tuple[Segment, ...] = ()  # to engrave: edges within the face, base lines
    words: tuple[str, ...] = ()  # to engrave, one under the other

    @property
    def box(self) -> tuple[float, float, float, float]:
        """The bounds of the cuts: x low, y low, x high, y high."""
        return bounds_of([ink for cut in self.cuts for ink in outline_ink(cut)])

    def centres(self) -> tuple[Segment, ...]:
        """Return the crosses in the middles of the holes."""
        return tuple(
            line
            for x, y, _ in self.holes
            for line in (((x - CROSS, y), (x + CROSS, y)), ((x, y - CROSS), (x, y + CROSS)))
        )


def cut_sheets(rows: Sequence[TemplateRow], gauges: Sequence[Gauge], units: Units) -> dict[str, CutSheet]:
    """Return the templates by the numbers that they are printed with, then the gauges; their keys are their titles.

    "left side: corner radius", "angle gauge 14°"; equal titles are numbered from 2, in the order of the templates.
    """
    keys: dict[int, str] = {}
    for row in rows:
        name = f"{row.called[0]}: {row.title}"
        count, key = 1, name
        while key in keys.values():
            count += 1
            key = f"{name} {count}"
        keys[id(row)] = key
    out = {number: template_sheet(keys[id(row)], row) for number, row in numbered(rows)}
    for n, gauge in enumerate(gauges, 1):
        out[f"G{n}"] = gauge_sheet(f"angle gauge {format_angle(gauge.angle)}", gauge, units)
    return out


def template_sheet(key: str, row: TemplateRow) -> CutSheet:
    """Return what is cut of a template: what stays, the openings in it and the holes; waste is no line."""
    seen = row.seen
    parts = ", ".join(row.called[:3]) + (f" and {len(row.parts) - 3} more" if len(row.parts) > 3 else "")
    words = (row.title, parts, f"{row.face}, this side up")
    lines = tuple((a, b) for a, b, _ in seen.lines)
    return CutSheet(key, TOLD.format(face=row.face), (seen.outline, *seen.openings), seen.holes, lines, words)


def gauge_sheet(key: str, gauge: Gauge, units: Units) -> CutSheet:
    """Return the triangle of a gauge."""
    angle, rest = format_angle(gauge.angle), format_angle(90 - gauge.angle)
    outline = Outline.polygon(list(corners(gauge, units)))
    return CutSheet(key, GAUGE.format(angle=angle, rest=rest), (outline,), words=(f"{angle} / {rest}",))


def words_at(sheet: CutSheet, height: float, advance: float = 0.62) -> tuple[tuple[Vec2, float], ...]:
    """Return where each line of words begins and its letter height, mm: in the middle of the outline, as large as fits.

    `advance` is a letter's mean width in heights.
    """
    x0, y0, x1, y1 = sheet.box
    points = [edge.end for edge in sheet.cuts[0].edges]
    middle = (sum(p[0] for p in points) / len(points), sum(p[1] for p in points) / len(points))
    middle = (min(max(middle[0], x0), x1), min(max(middle[1], y0), y1))
    longest = max((len(w) for w in sheet.words), default=1)
    size = min(height, 0.5 * (x1 - x0) / (advance * longest), 0.4 * (y1 - y0) / (1.6 * max(1, len(sheet.words))))
    top = middle[1] + 0.8 * size * len(sheet.words)
    left = middle[0] - advance * longest * size / 2
    return tuple(((left, top - 1.6 * size * (i + 1)), size) for i in range(len(sheet.words)))
