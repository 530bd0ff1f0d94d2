"""The templates that the file asks for: a whole face of a part, as it leaves the machines, from its solid."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from docgen.geometry.outlines import bounds
from docgen.geometry.shapes import Outline, Vec2
from docgen.geometry.silhouette import FaceShape, face_shape, left_over
from docgen.piece.model import Part
from docgen.piece.records import Face, Stage, Template
from docgen.piece.solids import Solids
from docgen.schedules.bores import Bored, Centre, with_holes
from docgen.schedules.template_rows import in_plane

SAME = 1e-4  # mm: a side this near to the nominal edge is the edge
ROUND = 1.5  # radii from a hole's centre within which the corners of its box lie (√2), a leaning one's mouth too
RIM = 0.1  # mm about a hole within which its own edges are left to its mark


def shown_face(part: Part, word: str) -> Face:
    """Return the face that a word means; without one the face that is seen, else a broad one."""
    if word:
        return part.face(word)
    return part.show or Face(2, 1)


def face_template(part: Part, face: Face, solids: Solids, *, behind: bool = True) -> Bored:
    """Return the whole face: what stays, the openings and what goes as waste, edges within as lines, the holes.

    Holes that come through from the other face are openings of it; without `behind` they are left out.
    """
    u, v = in_plane(face)
    shape = face_shape(
        solids.solid(part.path, Stage.PART), solids.topology(part.path, Stage.PART), face.axis, face.side
    )
    size = (float(part.size[u]), float(part.size[v]))
    first = Template(
        title=part.plain_side(face),
        face=face,
        outline=shape.outside,
        datum=tuple(_datum(shape.outside)),
        grain={u: 0.0, v: 90.0}.get(0),
    )
    made = with_holes(part, first)
    every = (*made.template.holes, *made.template.checks)
    if not behind:
        through = with_holes(part, replace(first, face=Face(face.axis, 1 - face.side))).template
        every = (*every, *through.holes, *through.checks)
    return Bored(_cut_out(made.template, shape, size, every), made.mates, asked=True)


def whole(part: Part, template: Template, solids: Solids) -> Template:
    """Return a template of a whole face with all other cuts through the part in it too, but holes from the other face."""
    face = face_template(part, template.face, solids, behind=False).template
    own = [o for f in part.features for t in f.made.templates if t.face.axis == template.face.axis for o in t.openings]
    return replace(
        template,
        outline=face.outline,
        openings=tuple(_exact(o, own) for o in face.openings),
        waste=face.waste,
        datum=face.datum,
        grain=face.grain if template.grain is None else template.grain,
    )


def _exact(opening: Outline, own: Iterable[Outline]) -> Outline:
    """Return a feature's own outline of an opening where there is one: its arcs have their exact radii."""

    def ends(outline: Outline) -> list[float]:
        return [c for corner in bounds(outline) for c in corner]

    return next((o for o in own if max(abs(a - b) for a, b in zip(ends(o), ends(opening), strict=True)) < RIM), opening)


def _cut_out(template: Template, shape: FaceShape, size: Vec2, holes: tuple[Centre, ...]) -> Template:
    openings = tuple(o for o in shape.openings if not _is_hole(o, holes))
    lines = tuple((a, b, "") for a, b in shape.lines if not any(_near(a, h) and _near(b, h) for h in holes))
    return replace(
        template, waste=left_over(((0.0, 0.0), size), shape.outside), openings=openings, lines=lines, whole=True
    )


def _is_hole(outline: Outline, holes: Iterable[Centre]) -> bool:
    """Return whether an opening is what is seen through a hole: all of it, or the rest of a leaning one."""
    (x0, y0), (x1, y1) = bounds(outline)
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    return any(all(math.dist(c, (x, y)) < ROUND * d / 2 + RIM for c in corners) for x, y, d in holes)


def _near(p: Vec2, hole: Centre) -> bool:
    return math.dist(p, (hole[0], hole[1])) < hole[2] / 2 + RIM


def _datum(outline: Outline) -> Iterable[tuple[Vec2, Vec2]]:
    """Yield the longest straight side on the nominal edge from which y counts, and on the end from which x counts."""
    for axis in (1, 0):
        start = outline.edges[-1].end
        best: tuple[float, Vec2, Vec2] | None = None
        for edge in outline.edges:
            on = abs(start[axis]) < SAME and abs(edge.end[axis]) < SAME and edge.centre is None
            long = math.dist(start, edge.end)
            if on and long > 1.0 and (best is None or long > best[0]):
                best = (long, start, edge.end)
            start = edge.end
        if best:
            yield best[1], best[2]
