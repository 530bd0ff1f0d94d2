"""Which holes of a part are drawn on a template, and which of them are only checked there."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from docgen.geometry.outlines import contains
from docgen.geometry.shapes import Extrusion, HalfSpace, Outline, Shape
from docgen.piece.model import Part
from docgen.piece.records import Authority, Face, Feature, HoleRow, Template
from docgen.schedules.template_rows import in_plane

SAME = 1e-6  # mm
Centre = tuple[float, float, float]  # x, y, diameter


@dataclass(frozen=True, slots=True)
class Bored:
    """A template with the part's holes; `mates` are the parts through which those that are checked are drilled."""

    template: Template
    mates: tuple[str, ...] = ()
    asked: bool = False  # by the file
    beside: tuple[Centre, ...] = ()  # holes of other features, shown where they lie in what is shown anyway


@dataclass(frozen=True, slots=True)
class _Seen:
    """The holes of one face within an outline: those that are cut to the template, those that come through the mate."""

    holes: tuple[Centre, ...] = ()
    checks: tuple[Centre, ...] = ()
    mates: tuple[str, ...] = ()


def bored(part: Part, feature: Feature, template: Template) -> Bored:
    """Return the template with the part's holes that lie within it.

    One authority for a hole: those that are marked or drilled through the mate are shown to be checked, no more.
    A template of a cut that goes square through the part is laid on the face from which the holes are drilled.
    A shared one (a corner radius that many parts have) stays as it is unless a hole lies in it: then it is the part's own.
    """
    if template.loose:
        return Bored(template)
    here, there = (_seen(part, face, template.outline) for face in (template.face, _opposite(template.face)))
    wanted = (there.holes and not here.holes) or (there.checks and not (*here.holes, *here.checks))
    seen, face = here, template.face
    if wanted and _through(part, feature, template.face.axis):
        seen, face = there, _opposite(template.face)
    if template.shared and not seen.holes:
        return Bored(template)
    own = replace(template, face=face)
    if template.shared:
        more = "with its hole" if len(seen.holes) == 1 else "with its holes"
        own = replace(own, shared="", title=f"{template.title} {more}")
    return _with(own, seen)


def with_holes(part: Part, template: Template) -> Bored:
    """Return the template with the holes of its own face that lie within it."""
    return _with(template, _seen(part, template.face, template.outline))


def _with(own: Template, seen: _Seen) -> Bored:
    kept = tuple(hole for hole in own.holes if not _among(hole, seen.checks))
    holes = tuple(dict.fromkeys((*kept, *seen.holes)))
    checks = tuple(dict.fromkeys((*own.checks, *seen.checks)))
    own_ones = {*own.holes, *own.checks}
    beside = tuple(h for h in (*holes, *checks) if h not in own_ones)
    return Bored(replace(own, holes=holes, checks=checks), seen.mates, beside=beside)


def _opposite(face: Face) -> Face:
    return Face(face.axis, 1 - face.side)


def _among(hole: Centre, others: Iterable[Centre]) -> bool:
    return any(abs(hole[0] - o[0]) < SAME and abs(hole[1] - o[1]) < SAME for o in others)


def _seen(part: Part, face: Face, outline: Outline) -> _Seen:
    rows = [hole for feature in part.features for hole in feature.made.holes if hole.face == face]
    ruled = [hole for hole in rows if hole.authority is Authority.MATE]
    own = [hole for hole in rows if hole.authority is not Authority.MATE]
    checks = _centres(ruled, face, outline)
    mates = tuple(dict.fromkeys(h.mate for h in ruled if h.mate and _centres([h], face, outline)))
    return _Seen(_centres(own, face, outline), checks, mates)


def _centres(rows: Iterable[HoleRow], face: Face, outline: Outline) -> tuple[Centre, ...]:
    u, v = in_plane(face)
    return tuple(
        (float(p[u]), float(p[v]), float(hole.diameter))
        for hole in rows
        for p in hole.points
        if contains(outline, (float(p[u]), float(p[v])), float(hole.diameter) / 2)
    )


def _through(part: Part, feature: Feature, axis: int) -> bool:
    """Return whether all that the feature cuts is cut square through the part along `axis`."""
    far = float(part.size[axis])

    def square(shape: Shape) -> bool:
        if isinstance(shape, HalfSpace):
            return abs(shape.normal[axis]) < SAME
        if not isinstance(shape, Extrusion):
            return False
        along = shape.frame.rotation[axis][2]
        ends = sorted(shape.frame.origin[axis] + along * level for level in (shape.low, shape.high))
        return abs(abs(along) - 1) < SAME and ends[0] <= SAME and ends[1] >= far - SAME

    return bool(feature.made.cuts) and all(square(cut.shape) for cut in feature.made.cuts)
