"""What is said beside a joinery detail: the parts, what is set in, the set-ups, figures without a place, remarks."""

from __future__ import annotations

from collections.abc import Mapping

from docgen.drawing.cells import TIE
from docgen.drawing.dimensions.wanted import Callout, Wanted
from docgen.drawing.wording import Notes, authority_key
from docgen.piece import loose
from docgen.piece.figure_words import on_paper
from docgen.piece.naming import in_words
from docgen.piece.records import Authority
from docgen.schedules.meetings import Meeting, features_of
from docgen.schedules.terms import kind_numbers
from docgen.sheets.context import Context
from docgen.sheets.flow import stacked, valued
from docgen.sheets.joint_detail import Detail
from docgen.sheets.joint_screws import bores, pilots
from docgen.sheets.joint_sizes import elsewhere
from docgen.sheets.joint_view import Picture

SHORT = 16  # letters: what is set first is told where it has a short name: the bit, the drill, the blade


def words(context: Context, detail: Detail, picture: Picture, notes: Notes) -> list[str]:
    """Return the paragraphs beside the key: the parts, figures that the picture does not show, where else, remarks."""
    meeting, numbers = detail.meeting, kind_numbers(context.piece, context.kinds)
    parts = ", ".join(f"{numbers[path]} {context.piece.part(path).called}" for path in meeting.parts)
    more = [face.part for face in detail.cut.faces[len(meeting.parts) :] if not face.aside] if detail.cut else []
    parts += "".join(f", held by {numbers[p.path]} {p.called}" for p in more)
    out: list[str] = []
    if detail.first:
        out.append(f"{parts}: the joint shown in {detail.first}{TIE}–{TIE}{detail.first}")
    else:
        out.append("; ".join(t for t in (parts, _also(meeting, numbers)) if t))
        out.append("; ".join(t for t in (_figures(context, meeting), _things(context, meeting)) if t))
        out.append(_tools(context, meeting))
        if detail.cut is not None:
            out += [*bores(detail.cut.plane, notes), *map(stacked, pilots(detail.cut.plane.fasteners, notes.units))]
    if picture.left:
        out.append("Also: " + "; ".join(" ".join(_texts(w)) for w in picture.left))
    if detail.cut is not None and (untold := elsewhere(detail.cut, notes)):
        out.append("Not cut here: " + "; ".join(untold))
    keys = authority_key(a for a in notes.authorities if a is not Authority.CUT)
    out.append("; ".join((*notes.lines(), *keys)))
    out.append(_marked(detail, notes, numbers))
    names = {p.path: p.called for p in context.piece.parts}
    return [in_words(text, names) for text in out if text]


def _marked(detail: Detail, notes: Notes, numbers: Mapping[str, int]) -> str:
    """Return which part is marked from the other, where no sign beside a figure says so."""
    if detail.cut is None or detail.first or Authority.MATE in notes.authorities:
        return ""
    led = dict.fromkeys(t.path for t in detail.cut.plane.sizes if t.own and t.size.authority is Authority.MATE)
    other = {path: next((numbers[p] for p in detail.meeting.parts if p != path), 0) for path in led}
    return "; ".join(f"{numbers[path]} is marked from {other[path]}" for path in led)


def _figures(context: Context, meeting: Meeting) -> str:
    """Return what the joint worked out and no size of its sections tells."""
    told = {round(float(t.size.value), 2) for plane in meeting.planes for t in plane.sizes}
    told |= {round(float(v), 2) for plane in meeting.planes for f, _ in plane.fasteners for v in (f.grip, f.engagement)}
    told |= {round(float(v), 2) for thing in meeting.loose if not thing.driven for _, v in thing.told}
    things = (len(meeting.loose), "count") if meeting.loose else None
    left = [(n, v, k) for n, v, k in meeting.joint.figures if round(float(v), 2) not in told and v and (v, k) != things]
    named = [(on_paper(name), value, kind) for name, value, kind in left]
    return "; ".join(f"{name} {valued(context, value, kind)}" for name, value, kind in named if name)


def _things(context: Context, meeting: Meeting) -> str:
    """Return what is set into the joint: how many, thickness × width × length, what stays free at the ends."""
    told = [stacked(text) for text in loose.titles(meeting.loose, context.piece.units)]
    told += [f"{valued(context, v, 'length')} free at each end" for v in loose.free(meeting.loose)]
    return ", ".join(told)


def _tools(context: Context, meeting: Meeting) -> str:
    """Return with what the joint is cut, by the numbers of the set-ups: machine and what is set first, the cutter."""
    piece = context.piece
    cut = {(path, f.title) for path in meeting.parts for f in features_of(piece.part(path), meeting.joint)}
    told = []
    for row in context.lists.setups:
        if cut & set(row.parts):
            name, value, kind = row.values[0] if row.values else ("", "", "text")
            first = f", {name} {valued(context, value, kind)}" if 0 < len(name) <= SHORT else ""
            told.append(f"{row.number} {row.machine}{first}")
    return f"Set-ups: {'; '.join(told)}" if told else ""


def _also(meeting: Meeting, numbers: Mapping[str, int]) -> str:
    """Return where else parts meet so, by their numbers."""
    pairs = [(numbers[a], numbers[b]) for a, b in meeting.also]
    own = pairs.count((numbers[meeting.parts[0]], numbers[meeting.parts[1]]))
    other = [p for p in dict.fromkeys(pairs) if p != (numbers[meeting.parts[0]], numbers[meeting.parts[1]])]
    told = [f"{f'{n}× ' if (n := pairs.count(p)) > 1 else ''}{p[0]} with {p[1]}" for p in other]
    return "; ".join(
        t for t in (f"{own + 1} such joints" if own else "", f"like it: {', '.join(told)}" if told else "") if t
    )


def _texts(wanted: Wanted) -> tuple[str, ...]:
    return wanted.lines if isinstance(wanted, Callout) else (wanted.text,)
