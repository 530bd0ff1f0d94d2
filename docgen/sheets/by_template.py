"""Which templates a set-up is cut by, and which gauges its angles are set by: their numbers, as they are printed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import TypeAlias

from docgen.drawing.tiling.numbering import numbered
from docgen.piece.model import Kind, Piece
from docgen.piece.naming import in_words
from docgen.piece.records import Face, Template
from docgen.piece.solids import Solids
from docgen.schedules.gauges import SAME_ANGLE, acute, angles, gauges
from docgen.schedules.rows import SetupRow
from docgen.schedules.template_rows import TemplateRow, in_plane, seen_mirrored
from docgen.schedules.templates import templates
from docgen.sheets.context import Context
from docgen.sheets.template_windows import windows
from docgen.units import Number

DRILLS, PLACES = ("drill press", "hand drill"), 3
"""Machines that drill, and decimals of a mm to which places are compared."""

Mouth: TypeAlias = tuple[Face, float, float]
"""The face of a hole and its place there."""

CURVES, FOLLOWS = ("band saw", "jigsaw"), "flush cutter"
"""Machines that saw to an outline, and how the value of a cutter begins that follows one."""


def by_template(context: Context) -> dict[int, str]:
    """Return for each set-up of whose cuts there are templates, by its number, which: "template T1", "templates T2, T3".

    Where only some of its parts have one, these stand behind it: "template T2 (front)".
    """
    rows = numbered_templates(context.solids, context.kinds)
    called = {p.path: p.called for p in context.piece.parts}
    found: dict[int, str] = {}
    for setup in context.lists.setups:
        by_part = _numbers(context, setup, rows)
        numbers = [n for n, _ in rows if any(n in some for some in by_part.values())]
        if numbers:
            some = [called[path] for path, own in by_part.items() if own] if not all(by_part.values()) else []
            of = f" ({', '.join(dict.fromkeys(some))})" if some and setup.machine in DRILLS else ""
            found[setup.number] = f"template{'s' if len(numbers) > 1 else ''} {', '.join(numbers)}{of}"
    return found


def by_gauge(context: Context) -> dict[int, str]:
    """Return for each set-up of whose angles there are gauges, by its number, which: "angle gauge G1"."""
    made = gauges(context.piece, context.kinds)
    found: dict[int, str] = {}
    for setup in context.lists.setups if made else ():
        wanted = [acute(degrees) for degrees in _angles(context.piece, setup)]
        names = [f"G{n}" for n, g in enumerate(made, 1) if any(abs(g.angle - a) < SAME_ANGLE for a in wanted)]
        if names:
            found[setup.number] = f"angle gauge{'s' if len(names) > 1 else ''} {', '.join(names)}"
    return found


def _angles(piece: Piece, setup: SetupRow) -> Iterator[float]:
    """Yield the angles that a set-up is set to, degrees; where it has none, those of its cuts that no other set-up is set to.

    The upright bit that clears the floor of a dado wants no gauge, though its walls are sawn at a lean afterwards.
    """
    own = [float(value) for _, value, kind in setup.values if kind == "angle" and not isinstance(value, str)]
    yield from own
    titles = set(setup.parts) if not own else set()
    for path in dict.fromkeys(path for path, _ in titles):
        part = piece.part(path)
        for feature in (f for f in part.features if (path, f.title) in titles):
            if not any(kind == "angle" for s in feature.made.settings for _, _, kind in s.values):
                yield from (r.degrees for r in angles(part, feature))


@lru_cache(maxsize=1)
def numbered_templates(solids: Solids, kinds: tuple[Kind, ...]) -> tuple[tuple[str, TemplateRow], ...]:
    """Return the templates of a piece with their numbers, made once for all sheets that name or draw them."""
    return tuple(numbered(templates(solids.piece, kinds, solids)))


def _numbers(context: Context, setup: SetupRow, rows: Sequence[tuple[str, TemplateRow]]) -> dict[str, list[str]]:
    """Return the numbers of the templates of a set-up's cuts for each of its parts; of whole faces where it goes by an outline.

    Holes are laid out by templates only where each of them stands on what is printed of these.
    """
    piece = context.piece
    follows = goes_by(piece, setup)
    called = {p.path: p.called for p in piece.parts}
    titles = set(setup.parts)
    found: dict[str, list[str]] = {}
    for part in (p for p in piece.parts if any(path == p.path for path, _ in titles)):
        features = [f for f in part.features if (part.path, f.title) in titles]
        own = [t for f in features for t in f.made.templates if not t.of]
        holes = {_mouth(h.face, p) for f in features for h in f.made.holes for p in h.points}
        holes = holes if setup.machine in DRILLS else set()
        shown: set[Mouth] = set()
        found[part.path] = []
        for number, row in ((n, row) for n, row in rows if part.path in row.parts):
            shaped = (row.asked and follows) or any(_is_of(row, template, called) for template in own)
            here = holes & set(_printed(context, row)) if holes else set()
            shown |= here
            if here or (shaped and (not holes or row.seen.shared)):
                found[part.path].append(number)
        if shown and shown != holes:
            found[part.path] = []
    return found


def _mouth(face: Face, at: Sequence[Number]) -> Mouth:
    """Return a hole's face and its place on it, rounded."""
    u, v = in_plane(face)
    return (face, round(float(at[u]), PLACES) + 0.0, round(float(at[v]), PLACES) + 0.0)


def _printed(context: Context, row: TemplateRow) -> Iterator[Mouth]:
    """Yield the holes that stand on the pages of a template: a drill guide, or an outline with its bores."""
    if row.seen.shared or row.seen.loose:
        return
    crops, turn = windows(row, context), -1.0 if seen_mirrored(row.seen.face) else 1.0
    for x, y, _ in row.seen.holes:
        if any(crop.shows(x, y) for crop in crops):
            yield (row.seen.face, round(x, PLACES) + 0.0, round(y * turn, PLACES) + 0.0)


def _is_of(row: TemplateRow, template: Template, called: dict[str, str]) -> bool:
    """Return whether a row is of a template: by what parts share, or by its title, which may have more behind it: its holes."""
    if row.seen.shared:
        return template.shared == row.seen.shared
    return row.title.startswith(in_words(template.title, called))


def goes_by(piece: Piece, setup: SetupRow) -> bool:
    """Return whether a set-up's own words send to a template, or each of its cuts follows an outline that is on one."""
    follows = setup.machine in CURVES or any(name.startswith(FOLLOWS) for name, _, _ in setup.values)
    return "template" in f"{setup.what} {setup.note}" or (follows and _templated(piece, setup))


def _templated(piece: Piece, setup: SetupRow) -> bool:
    """Return whether each cut of a set-up has its outline on a template of the packet."""
    known = {p.path: p for p in piece.parts}
    made = [
        (path, any(f.made.templates for f in known[path].features if f.title == title))
        for path, title in setup.parts
        if path in known
    ]
    asked = {path for w in piece.templates if not w.none for path in w.parts}
    none = [w for w in piece.templates if w.none and not w.face]
    return bool(made) and all(
        path in asked or (has and not any(not w.parts or path in w.parts for w in none)) for path, has in made
    )
