"""What a mark along a part's length leaves open: the edge of a slanted cut's point, where a trench stops or a run lies."""

from __future__ import annotations

from docgen.geometry.shapes import HalfSpace
from docgen.piece.datums import datum, measured
from docgen.piece.model import Part
from docgen.piece.records import Face, Feature, Mark, Size, SizeKind
from docgen.units import Units, format_length

SAME = 1e-4  # mm
SQUARE = 1e-6  # of a unit normal: a cut this square to the edge has no points
ALONG = "along the "  # begins the note of a run along the part that stops at the mark: beside it nothing is cut


def note_of(part: Part, feature: Feature, mark: Mark, units: Units) -> str:
    """Return what a mark leaves open, "" for one that says all.

    "front edge" for the point of a slanted cut or the beginning of an arc; "stops 5 mm from the front edge" for a trench
    across the part, at the first mark of its feature; "along the back edge" where a run along the part stops.
    """
    if mark.face.axis == 0:
        return ""
    edge = _slanted(part, feature, mark)
    if edge is None:
        edge = _arc(part, feature, mark)
    if edge is not None:
        return part.plain_side(edge)
    if run := _run(part, feature, mark, units):
        return run
    first = min((m.position for m in feature.made.marks if m.face == mark.face), default=mark.position)
    return _stops(part, feature, mark, units) if abs(float(mark.position) - float(first)) < SAME else ""


def _across(mark: Mark) -> int:
    """Return the axis of the part that runs across the mark on its face."""
    return 3 - mark.face.axis


def _slanted(part: Part, feature: Feature, mark: Mark) -> Face | None:
    """Return the edge at which a plane that is cut meets the mark's face in the mark."""
    f, w = mark.face.axis, _across(mark)
    level = float(part.size[f]) if mark.face.side else 0.0
    for cut in feature.made.cuts:
        if not isinstance(cut.shape, HalfSpace):
            continue
        n, p = cut.shape.normal, cut.shape.point
        if abs(n[0]) < SQUARE or abs(n[w]) < SQUARE:
            continue
        for side, at in ((0, 0.0), (1, float(part.size[w]))):
            along = p[0] - (n[w] * (at - p[w]) + n[f] * (level - p[f])) / n[0]
            if abs(along - float(mark.position)) < SAME:
                return Face(w, side)
    return None


def _arc(part: Part, feature: Feature, mark: Mark) -> Face | None:
    """Return the edge on which an arc begins: its centre stands square to the edge there."""
    w = _across(mark)
    for size in feature.made.sizes:
        square = size.kind is SizeKind.RADIUS and abs(size.along[mark.face.axis]) > 1 - SQUARE
        if square and abs(size.start[0] - float(mark.position)) < SAME:
            return Face(w, 0 if size.start[w] < float(part.size[w]) / 2 else 1)
    return None


def _run(part: Part, feature: Feature, mark: Mark, units: Units) -> str:
    """Return "along the back edge" for a mark at which a run along the part stops, or how far from an edge the run lies.

    The run is as wide as the size across the part that has both its ends in the face, or one of them on an edge.
    """
    w, wide = _across(mark), float(part.size[_across(mark)])
    sizes = [s for s in feature.made.sizes if s.kind is SizeKind.LENGTH]
    if not any("stop" in s.label and abs(s.along[0]) > 1 - SQUARE and _ends_at(s, mark) for s in sizes):
        return ""
    spans = sorted(
        {(min(s.start[w], s.end[w]), max(s.start[w], s.end[w])) for s in sizes if abs(s.along[w]) > 1 - SQUARE}
    )
    if not spans:
        return ""
    low, high = next((span for span in spans if span[0] > SAME and span[1] < wide - SAME), spans[0])
    if low <= SAME or high >= wide - SAME:
        return f"{ALONG}{part.plain_side(Face(w, 0 if low <= SAME else 1))}"
    off = feature.made.off
    side = off if off is not None and off.axis == w else datum(part, w)
    near, far = sorted(measured(part, side, at) for at in (low, high))
    figures = f"{format_length(near, units)} to {format_length(far, units)} {units.sign}"
    return f"{ALONG}part {figures} from the {part.plain_side(side)}"


def _ends_at(size: Size, mark: Mark) -> bool:
    return any(abs(float(p[0]) - float(mark.position)) < SAME for p in (size.start, size.end))


def _stops(part: Part, feature: Feature, mark: Mark, units: Units) -> str:
    told = [text for size in feature.made.sizes if (text := _stop(part, size, mark, units))]
    return f"stops {' and '.join(told)}" if told else ""


def _stop(part: Part, size: Size, mark: Mark, units: Units) -> str:
    """Return "5 mm from the front edge" for a size that tells a stop across the part."""
    w = _across(mark)
    if size.kind is not SizeKind.LENGTH or "stop" not in size.label or abs(size.along[w]) < 1 - SQUARE:
        return ""
    ends = (size.start[w], size.end[w])
    wide = float(part.size[w])
    edge = next((s for s, at in ((0, 0.0), (1, wide)) if any(abs(e - at) < SAME for e in ends)), None)
    if edge is None:
        return ""
    more = f", {size.note}" if size.note else ""
    return f"{format_length(size.value, units)} {units.sign} from the {part.plain_side(Face(w, edge))}{more}"
