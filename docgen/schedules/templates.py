"""The true-size templates of a piece, as its operations ask for them: equal ones once, each hand told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from docgen.geometry.outlines import bounds
from docgen.geometry.shapes import Vec2
from docgen.piece.model import Kind, Part, Piece
from docgen.piece.records import Face, Template
from docgen.schedules.bores import Bored, bored
from docgen.schedules.template_rows import TemplateRow, as_seen, in_plane

SAME = 1e-6  # mm
GRADES = 6  # decimals that keys are rounded to


def templates(piece: Piece, kinds: Sequence[Kind]) -> tuple[TemplateRow, ...]:
    """Return the piece's templates in the order of its parts; those that are printed alike appear once."""
    rows: dict[tuple[object, ...], TemplateRow] = {}
    for kind in kinds:
        hands = [kind.parts, kind.mirrored] if kind.mirrored else [kind.parts]
        for paths in hands:
            part = piece.part(paths[0])
            others = [p for p in (*kind.parts, *kind.mirrored) if p not in paths]
            for made, times in _merged(part):
                row = _row(piece, part, paths, made, times, others[:1])
                key = ("shared", made.template.shared) if made.template.shared else _key(row)
                rows[key] = _together(rows[key], row) if key in rows else row
    return tuple(sorted(rows.values(), key=lambda r: r.numbers[0]))


def _merged(part: Part) -> Iterator[tuple[Bored, int]]:
    """Yield the part's templates; hole patterns on the plain face are drawn into the shaped template of that face."""
    by_face: dict[Face, list[Bored]] = {}
    shared: dict[str, list[Bored]] = {}
    for made in (bored(part, feature, t) for feature in part.features for t in feature.made.templates):
        if made.template.shared:
            shared.setdefault(made.template.shared, []).append(made)
        else:
            by_face.setdefault(made.template.face, []).append(made)
    for alike in shared.values():
        yield alike[0], len(alike)
    for face, group in by_face.items():
        plain = [b for b in group if _is_box(b.template, part, face)]
        shaped = [b for b in group if b not in plain]
        carrier, rest = (shaped[0], plain) if shaped else (plain[0], plain[1:])
        yield _with(carrier, rest), 1
        for other in shaped[1:]:
            yield other, 1


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
        datum=first.datum or tuple(dict.fromkeys(d for t in more for d in t.datum)),
        grain=first.grain if first.grain is not None else more[0].grain,
        notes=tuple(dict.fromkeys(n for t in every for n in t.notes)),
    )
    return Bored(drawn, tuple(dict.fromkeys(m for b in (carrier, *others) for m in b.mates)))


def _row(piece: Piece, part: Part, paths: Sequence[str], made: Bored, times: int, other: Sequence[str]) -> TemplateRow:
    template = made.template
    u, v = in_plane(template.face)
    return TemplateRow(
        title=template.title,
        seen=as_seen(template),
        face=part.word(template.face),
        end=f"{part.word(Face(u, 0))} {'end' if u == 0 else 'edge'}",
        far=f"{part.word(Face(u, 1))} {'end' if u == 0 else 'edge'}",
        edge=f"{part.word(Face(v, 0))} edge",
        far_edge=f"{part.word(Face(v, 1))} edge",
        parts=tuple(paths),
        numbers=tuple(piece.part(p).number for p in paths),
        uses=times * len(paths),
        hand=f"Not for {other[0]}: that is the other hand, with a sheet of its own." if other else "",
        size=(float(part.size[u]), float(part.size[v])),
        lengthwise=u == 0,
        mates=made.mates,
    )


def _together(a: TemplateRow, b: TemplateRow) -> TemplateRow:
    new = [(p, n) for p, n in zip(b.parts, b.numbers, strict=True) if p not in a.parts]
    return replace(
        a,
        parts=(*a.parts, *(p for p, _ in new)),
        numbers=(*a.numbers, *(n for _, n in new)),
        uses=a.uses + b.uses,
        mates=tuple(dict.fromkeys((*a.mates, *b.mates))),
        hand="The same for both hands." if a.hand or b.hand else a.hand,
    )


def _key(row: TemplateRow) -> tuple[object, ...]:
    """Return what makes two templates the same sheet: what they are for, where they lie and how they look."""

    def at(p: Vec2) -> Vec2:
        return (round(p[0], GRADES) + 0.0, round(p[1], GRADES) + 0.0)

    edges = tuple(sorted((at(e.end), at(e.centre) if e.centre else ()) for e in row.seen.outline.edges))
    holes, checks = (
        tuple(sorted((at((x, y)), round(d, GRADES)) for x, y, d in some)) for some in (row.seen.holes, row.seen.checks)
    )
    openings = tuple(sorted(tuple(sorted(at(e.end) for e in o.edges)) for o in row.seen.openings))
    return (_untold(row.title), row.lengthwise, edges, openings, holes, checks)


def _untold(title: str) -> str:
    """Return the title up to its first comma or to "against": what follows names the neighbour."""
    return title.split(" against ")[0].split(",")[0]
