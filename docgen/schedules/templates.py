"""The true-size templates of a piece, as its operations ask for them: equal ones once, each hand told."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

from docgen.geometry.outlines import bounds
from docgen.geometry.shapes import Vec2
from docgen.piece.model import Kind, Part, Piece
from docgen.piece.naming import in_words
from docgen.piece.records import Face, Template
from docgen.piece.solids import Solids
from docgen.schedules.bores import Bored, bored, with_holes
from docgen.schedules.drill_guides import with_guides
from docgen.schedules.faces import face_template, shown_face, whole
from docgen.schedules.milled import left_rough
from docgen.schedules.showing import beside_show
from docgen.schedules.template_rows import TemplateRow, as_seen, in_plane, seen_mirrored

SAME = 1e-6  # mm
GRADES = 6  # decimals that keys are rounded to


def templates(piece: Piece, kinds: Sequence[Kind], solids: Solids | None = None) -> tuple[TemplateRow, ...]:
    """Return the piece's templates in the order of its parts; those that are printed alike appear once.

    Those that the operations bring come without asking, but for parts or faces for which the file wants none. The faces
    that the file asks for follow behind the part's own; they need the `solids`, as whole faces do.
    """
    rows: dict[tuple[object, ...], TemplateRow] = {}
    for kind in kinds:
        for paths in (kind.parts, kind.mirrored):
            others = [p for p in (*kind.parts, *kind.mirrored) if p not in paths]
            for made, times, here in _of_hand(piece, paths, solids):
                row = _row(piece, here, made, times, others[:1])
                key = ("shared", made.template.shared) if made.template.shared else _key(row)
                rows[key] = _together(rows[key], row) if key in rows else row
    told = (_showing(piece, _other_hand(r, rows.values())) for r in rows.values())
    return tuple(sorted(told, key=lambda r: r.numbers[0]))


def _showing(piece: Piece, row: TemplateRow) -> TemplateRow:
    """Return the row with what its face is on each of its parts, where that is not the same and no hand was told."""
    if row.hand or row.seen.shared:
        return row
    told = beside_show(piece, row.parts, piece.part(row.parts[0]).word(row.seen.face))
    return replace(row, hand=f"{told[:1].upper()}{told[1:]}." if told else "")


def _other_hand(row: TemplateRow, every: Collection[TemplateRow]) -> TemplateRow:
    """Return the row with the sheet of the other hand told, where there is one."""
    if not row.other:
        return row
    there = any(row.other in r.parts and r is not row and _untold(r.title) == _untold(row.title) for r in every)
    return replace(row, hand=f"{row.hand} It has a sheet of its own.") if there else row


def _of_hand(piece: Piece, paths: Sequence[str], solids: Solids | None) -> Iterator[tuple[Bored, int, tuple[str, ...]]]:
    """Yield the templates of equal parts of one hand: how often each is laid on a part, and on which of them."""
    if not paths:
        return
    part = piece.part(paths[0])
    for made, times in with_guides(part, tuple(_merged(part, solids))):
        here = tuple(p for p in paths if _is_wanted(piece, piece.part(p), made.template))
        if here:
            yield made, times, here
    if solids is None:
        return
    asked: dict[Face, list[str]] = {}
    for path in paths:
        for face in dict.fromkeys(_asked(piece, piece.part(path))):
            asked.setdefault(face, []).append(path)
    for face, some in asked.items():
        yield face_template(part, face, solids), 1, tuple(some)


def _asked(piece: Piece, part: Part) -> Iterator[Face]:
    """Yield the faces of the part that the file asks for."""
    for wish in piece.templates:
        if part.path in wish.parts and not wish.none:
            yield shown_face(part, wish.face)


def _is_wanted(piece: Piece, part: Part, template: Template) -> bool:
    """Return whether the file lets a template come by itself; a whole face that it asks for is guide to its holes."""
    covered = template.guide and template.face in _asked(piece, part)
    return not covered and not _declined(piece, part, template.face)


def _declined(piece: Piece, part: Part, face: Face) -> bool:
    """Return whether the file wants no template of this face."""
    return any(
        wish.none and (not wish.parts or part.path in wish.parts) and (not wish.face or part.face(wish.face) == face)
        for wish in piece.templates
    )


def _merged(part: Part, solids: Solids | None) -> Iterator[tuple[Bored, int]]:
    """Yield the part's templates; hole patterns on the plain face are drawn into the shaped template of that face.

    Those of the whole face are one, with all that is cut through the part.
    """
    by_face: dict[Face, list[Bored]] = {}
    shared: dict[str, list[Bored]] = {}
    for feature in part.features:
        for template in feature.made.templates:
            full = whole(part, template, solids) if template.whole and solids else template
            made = bored(part, feature, full)
            if made.template.shared:
                shared.setdefault(made.template.shared, []).append(made)
            else:
                by_face.setdefault(made.template.face, []).append(made)
    for alike in shared.values():
        yield alike[0], len(alike)
    for face, group in by_face.items():
        full_ones = [b for b in group if b.template.whole]
        plain = [b for b in group if b not in full_ones and _is_box(b.template, part, face)]
        shaped = [b for b in group if b not in full_ones and b not in plain]
        if full_ones:
            yield _titled(_with(full_ones[0], [*full_ones[1:], *plain]), full_ones), 1
        elif shaped:
            yield _with(shaped[0], plain), 1
            shaped = shaped[1:]
        else:
            yield _with(plain[0], plain[1:]), 1
        for other in shaped:
            yield other, 1


def _titled(made: Bored, from_: Sequence[Bored]) -> Bored:
    """Return the template with the titles of all that it shows."""
    title = " and ".join(dict.fromkeys(b.template.title for b in from_))
    return replace(made, template=replace(made.template, title=title))


def _is_box(template: Template, part: Part, face: Face) -> bool:
    """Return whether the template's outline is the plain face itself, with nothing cut out of it."""
    outline = template.outline
    u, v = in_plane(face)
    (x0, y0), (x1, y1) = bounds(outline)
    corners = {(x0, y0), (x1, y0), (x1, y1), (x0, y1)}
    sides = abs(x1 - x0 - float(part.size[u])) < SAME and abs(y1 - y0 - float(part.size[v])) < SAME
    straight = all(e.centre is None for e in outline.edges)
    return sides and straight and {e.end for e in outline.edges} == corners and not template.waste


def _with(carrier: Bored, others: Sequence[Bored]) -> Bored:
    """Return `carrier` with the holes, lines, datum edges and notes of `others` drawn in."""
    if not others:
        return carrier
    first, more = carrier.template, [b.template for b in others]
    every = (first, *more)
    drawn = replace(
        first,
        holes=tuple(dict.fromkeys(h for t in every for h in t.holes)),
        checks=tuple(dict.fromkeys(h for t in every for h in t.checks)),
        openings=tuple(dict.fromkeys(o for t in every for o in t.openings)),
        lines=tuple(dict.fromkeys(line for t in every for line in t.lines)),
        points=tuple(dict.fromkeys(p for t in every for p in t.points)),
        datum=first.datum or tuple(dict.fromkeys(d for t in more for d in t.datum)),
        grain=first.grain if first.grain is not None else more[0].grain,
        notes=tuple(dict.fromkeys(n for t in every for n in t.notes)),
        radii=all(t.radii for t in every),
    )
    mates = tuple(dict.fromkeys(m for b in (carrier, *others) for m in b.mates))
    beside = [h for b in (carrier, *others) for h in b.beside]
    own = {h for b in (carrier, *others) for h in (*b.template.holes, *b.template.checks) if h not in b.beside}
    return Bored(drawn, mates, beside=tuple(h for h in dict.fromkeys(beside) if h not in own))


def _row(piece: Piece, paths: Sequence[str], made: Bored, times: int, other: Sequence[str]) -> TemplateRow:
    template, part = made.template, piece.part(paths[0])
    u, v = in_plane(template.face)
    called = {p.path: p.called for p in piece.parts}
    return TemplateRow(
        title=in_words(template.title, called),
        seen=as_seen(template),
        face=part.plain_side(template.face),
        end=part.plain_side(Face(u, 0)),
        far=part.plain_side(Face(u, 1)),
        edge=part.plain_side(Face(v, 0)),
        far_edge=part.plain_side(Face(v, 1)),
        parts=tuple(paths),
        numbers=tuple(piece.part(p).number for p in paths),
        uses=times * len(paths),
        hand=f"Not for {called[other[0]]}: that is the other hand." if other else "",
        other=other[0] if other else "",
        size=(float(part.size[u]), float(part.size[v])),
        lengthwise=u == 0,
        mates=tuple(called.get(m, m) for m in made.mates),
        asked=made.asked,
        names=tuple(called[p] for p in paths),
        turned=tuple(called[p] for p in paths[1:] if not _lies_alike(piece.part(p), template)),
        beside=tuple((x, -y if seen_mirrored(template.face) else y, d) for x, y, d in made.beside),
        boxed=left_rough(part),
    )


def _lies_alike(part: Part, template: Template) -> bool:
    """Return whether a template lies on this part by the same sides as on an equal one, not turned with the part."""
    if template.guide:
        own = with_holes(part, template).template
        return {*template.holes} <= {*own.holes}
    if template.whole or template.shared or template.loose:
        return True
    return any(
        own.face.axis == template.face.axis and own.datum == template.datum
        for feature in part.features
        for own in feature.made.templates
        if own.title in template.title
    )


def _together(a: TemplateRow, b: TemplateRow) -> TemplateRow:
    new = [k for k, p in enumerate(b.parts) if p not in a.parts]
    return replace(
        a,
        parts=(*a.parts, *(b.parts[k] for k in new)),
        numbers=(*a.numbers, *(b.numbers[k] for k in new)),
        names=(*a.names, *(b.names[k] for k in new)),
        uses=a.uses + b.uses,
        mates=tuple(dict.fromkeys((*a.mates, *b.mates))),
        turned=tuple(dict.fromkeys((*a.turned, *b.turned))),
        hand=_both(a, b) if a.hand or b.hand else "",
        other="",
    )


def _both(a: TemplateRow, b: TemplateRow) -> str:
    if a.face == b.face or a.seen.shared:
        return "The same for both hands."
    return f"The same for both hands; on {b.called[0]} it lies on the {b.face}."


def _key(row: TemplateRow) -> tuple[object, ...]:
    """Return what makes two templates the same sheet: what they are for, where they lie and how they look."""

    def at(p: Vec2) -> Vec2:
        return (round(p[0], GRADES) + 0.0, round(p[1], GRADES) + 0.0)

    edges = tuple(sorted((at(e.end), at(e.centre) if e.centre else ()) for e in row.seen.outline.edges))
    holes, checks = (
        tuple(sorted((at((x, y)), round(d, GRADES)) for x, y, d in some)) for some in (row.seen.holes, row.seen.checks)
    )
    openings = tuple(sorted(tuple(sorted(at(e.end) for e in o.edges)) for o in row.seen.openings))
    named = row.parts if row.seen.guide else ()  # unlike parts call their holes otherwise
    return (_untold(row.title), row.lengthwise, edges, openings, holes, checks, named)


def _untold(title: str) -> str:
    """Return the title up to its first comma or to "against": what follows names the neighbour."""
    return title.split(" against ")[0].split(",")[0]
