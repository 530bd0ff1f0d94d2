"""Templates of holes that a ruler lays out slowly: a face with three or more that do not stand in one line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from docgen.geometry.outlines import bounds
from docgen.geometry.shapes import HalfSpace, Outline
from docgen.piece.model import Part
from docgen.piece.records import Authority, Face, Template
from docgen.schedules.bores import Bored, Centre, with_holes
from docgen.schedules.template_rows import in_plane

LEAST = 3  # holes, pricked not checked, that are worth a sheet
SAME = 0.01  # mm: holes this near to one line stand in it
FAR = 400.0  # mm along the part: a pattern that is longer is taken in groups, as paper over that length is not steady
APART = 150.0  # mm between groups: what lies between is measured by rule


def with_guides(part: Part, standing: Sequence[tuple[Bored, int]]) -> Iterator[tuple[Bored, int]]:
    """Yield the `standing` templates and, behind them, a guide for each face with such holes that none of them shows.

    One that shows them has them for features of its own, so that they are printed however it is cropped. Holes that come
    through a mate are shown to be checked; alone they make no guide.
    """
    own = list(standing)
    guides = []
    rows = [hole for feature in part.features for hole in feature.made.holes if not hole.ruled]
    for face in dict.fromkeys(row.face for row in rows if row.authority is not Authority.MATE):
        every = with_holes(part, _plain(part, face))
        kept = [hole for group in _groups(every.template.holes) if _is_pattern(group) for hole in group]
        shown = next((n for n, (made, _) in enumerate(own) if _shows(made.template, face, kept)), None)
        if kept and shown is None:
            guides.append((_guide(part, every, kept), 1))
        elif kept and shown is not None:
            made, times = own[shown]
            own[shown] = (replace(made, beside=tuple(h for h in made.beside if h not in kept)), times)
    yield from own
    yield from guides


def _plain(part: Part, face: Face) -> Template:
    """Return the nominal face, as all places of holes are told."""
    u, v = in_plane(face)
    long, wide = float(part.size[u]), float(part.size[v])
    return Template(
        title="drill guide",
        face=face,
        outline=Outline.rectangle(0.0, 0.0, long, wide),
        datum=(((0.0, 0.0), (long, 0.0)), ((0.0, 0.0), (0.0, wide))),
        grain={u: 0.0, v: 90.0}.get(0),
        guide=True,
    )


def _guide(part: Part, every: Bored, kept: Sequence[Centre]) -> Bored:
    """Return the guide of the holes that are kept; the others are shown where they lie among them."""
    first = every.template
    low, high = (pick(h[0] for h in kept) for pick in (min, max))
    near = [h for h in first.checks if low - APART <= h[0] <= high + APART]
    beside = [h for h in (*first.holes, *near) if h not in kept]
    drawn = replace(first, checks=tuple(near), notes=tuple(_notes(part, first.face)))
    return Bored(drawn, every.mates if near else (), beside=tuple(beside))


def _notes(part: Part, face: Face) -> Iterator[str]:
    if any(_leaning(part, face)):
        yield "its ends are those of the blank, at the long points of the slanted cuts"
    yield "bores and depths: see the drilling chart"


def _leaning(part: Part, face: Face) -> Iterator[bool]:
    """Yield for each plane cut whether it leaves another outline on this face than on the one opposite."""
    for feature in part.features:
        for cut in feature.made.cuts:
            if isinstance(cut.shape, HalfSpace):
                normal = cut.shape.normal
                yield abs(normal[face.axis]) > SAME and any(abs(normal[i]) > SAME for i in in_plane(face))


def _groups(holes: Sequence[Centre]) -> Iterator[list[Centre]]:
    """Yield the holes together, or in groups along the part where they reach too far."""
    ordered = sorted(holes)
    start = 0
    for n in range(1, len(ordered) + 1):
        if n == len(ordered) or (_reach(ordered) > FAR and ordered[n][0] - ordered[n - 1][0] > APART):
            yield ordered[start:n]
            start = n


def _is_pattern(holes: Sequence[Centre]) -> bool:
    """Return whether the holes are many enough, off one line along or across, and near enough to each other for paper."""
    if len(holes) < LEAST or _reach(holes) > FAR:
        return False
    return all(max(h[axis] for h in holes) - min(h[axis] for h in holes) > SAME for axis in (0, 1))


def _reach(holes: Iterable[Centre]) -> float:
    along = [h[0] for h in holes]
    return max(along) - min(along)


def _shows(template: Template, face: Face, holes: Iterable[Centre]) -> bool:
    """Return whether a template of the part's own that is laid on the face holds all of the holes."""
    if template.face != face or template.shared or template.loose:
        return False
    (x0, y0), (x1, y1) = bounds(template.outline)
    drawn = {*template.holes, *template.checks}
    return all(h in drawn and x0 <= h[0] <= x1 and y0 <= h[1] <= y1 for h in holes)
