"""The chain of sizes: which part hangs on which, what has to be measured before which cut, what a difference moves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from docgen.expressions import Expr
from docgen.geometry.shapes import HalfSpace
from docgen.piece.model import Joint, Kind, Part, Piece
from docgen.piece.records import Authority
from docgen.project.model import PartDef
from docgen.project.resolve import face_of
from docgen.schedules.holds import holds, listed
from docgen.schedules.meant import lengths
from docgen.schedules.measured import names_in
from docgen.schedules.moves import NAMES, Chain, gathered, parts_named, staying
from docgen.schedules.rows import BlankRow, ChainBox, ChainRows, MoveRow
from docgen.schedules.terms import finished, kind_titles
from docgen.units import Number, plain_length

Needs = dict[int, set[int]]

ALONG = 1e-6
"""Least share along the part of the way out of a plane that cuts its end: a plane along the part cuts an edge."""


def chain(piece: Piece, kinds: Sequence[Kind], blanks: Sequence[BlankRow] = ()) -> ChainRows:
    """Return the chain of a piece; without boxes where no part hangs on another. Parts hang on the blank they are cut from."""
    groups = [k for k in kinds if not piece.part(k.first).hardware]
    needs = _reduced(_needs(piece, groups))
    group_of = {p: i for i, k in enumerate(groups) for p in (*k.parts, *k.mirrored)}
    from_blank = [{group_of[p.path] for p in blank.pieces if p.path in group_of} for blank in blanks]
    linked = {i for i, before in needs.items() if before} | {j for before in needs.values() for j in before}
    told = sorted(linked | {i for sources in from_blank for i in sources})
    columns = _columns({i: before | _blanks_of(i, from_blank) for i, before in needs.items()})
    told.sort(key=lambda i: (columns[i], i))
    titles = kind_titles(piece, groups)
    boxes = (
        *(_blank(piece, blank) for blank in blanks),
        *(_box(piece, groups[i], columns[i], titles[i]) for i in told),
    )
    place = {i: n for n, i in enumerate(told, len(blanks))}
    arrows = [(n, place[i]) for n, cut in enumerate(from_blank) for i in sorted(cut)]
    arrows += sorted((place[j], place[i]) for i, before in needs.items() for j in before)
    alone = tuple(titles[i] for i in range(len(groups)) if i not in told)
    sizes = tuple(_sizes(piece))
    named = {row.name for row in sizes}
    untold = tuple(name for name, _, _ in piece.sizes if name not in named)
    return ChainRows(boxes, tuple(arrows), alone, holds(piece, groups, sizes), sizes, untold)


def _needs(piece: Piece, groups: Sequence[Kind]) -> Needs:
    """Return for each group the groups that its places name, those it is measured in, and those its ends are cut against."""
    group_of = {p: i for i, k in enumerate(groups) for p in (*k.parts, *k.mirrored)}
    out: Needs = {i: set() for i in range(len(groups))}
    for part in piece.rules.parts:
        for other in _named_by(piece, part):
            _add(out, group_of, part.path, other)
    for joint in piece.joints:
        waiting = [p for p in joint.parts if piece.part(p).authority is Authority.MEASURE]
        if len(waiting) == 1:
            for other in joint.parts:
                _add(out, group_of, waiting[0], other)
        if cut := _cut_against(piece, joint):
            for other in joint.parts:
                _add(out, group_of, cut, other)
    return out


def _named_by(piece: Piece, plan: PartDef) -> Iterator[str]:
    """Yield the parts whose faces a part's places name.

    A part that is cut to a measured place comes late: it leads to no part that only stands before or behind it.
    """
    late = {p.path for p in piece.parts if p.authority is Authority.MEASURE}
    for low, high in plan.box:
        only_stands = plan.path not in late and set(_faces(low)) == set(_faces(high))
        yield from (p for p in parts_named((low, high)) if not (only_stands and p in late))


def _faces(expr: Expr) -> Iterator[str]:
    yield from (name for name in expr.names() if face_of(name) is not None)


def _cut_against(piece: Piece, joint: Joint) -> str:
    """Return the one part of a joint whose end a plane of it cuts off: it is fitted to the others; "" where none or several are."""
    cut = {
        path
        for path, name in joint.features
        for feature in piece.part(path).features
        if feature.name == name
        for c in feature.made.cuts
        if isinstance(c.shape, HalfSpace) and abs(c.shape.normal[0]) > ALONG
    }
    return cut.pop() if len(cut) == 1 and len(joint.parts) > 1 else ""


def _blanks_of(group: int, from_blank: Sequence[set[int]]) -> set[int]:
    """Return the blanks that a group is cut from, numbered below nought among the groups."""
    return {-1 - n for n, cut in enumerate(from_blank) if group in cut}


def _add(out: Needs, group_of: Mapping[str, int], path: str, other: str) -> None:
    i, j = group_of.get(path), group_of.get(other)
    if i is not None and j is not None and i != j and i not in _above(out, j):
        out[i].add(j)


def _above(needs: Needs, start: int) -> set[int]:
    """Return everything that a group hangs on, at any distance."""
    seen: set[int] = set()
    rest = [start]
    while rest:
        for j in needs[rest.pop()]:
            if j not in seen:
                seen.add(j)
                rest.append(j)
    return seen


def _reduced(needs: Needs) -> Needs:
    """Return the needs without those that another one holds already: case → bottom → divider says case → divider."""
    above = {i: _above(needs, i) for i in needs}
    return {i: {j for j in before if not any(j in above[k] for k in before if k != j)} for i, before in needs.items()}


def _columns(needs: Needs) -> dict[int, int]:
    """Return for each group how long the longest chain before it is."""
    out: dict[int, int] = {}

    def column(i: int) -> int:
        if i not in out:
            out[i] = 1 + max((column(j) for j in needs.get(i, ())), default=-1)
        return out[i]

    for i in needs:
        column(i)
    return out


def _box(piece: Piece, kind: Kind, column: int, title: str) -> ChainBox:
    part = piece.part(kind.first)
    lines = tuple(_lines(piece, part))
    return ChainBox(title, (*kind.parts, *kind.mirrored), column, finished(part), part.authority, lines)


def _blank(piece: Piece, blank: BlankRow) -> ChainBox:
    """Return the box of a blank, which comes before all: what its length is made of."""
    cuts = blank.length - sum(p.end - p.start for p in blank.pieces)
    line = f"length: its {len(blank.pieces)} parts + {_plain(piece, cuts)} for cuts, misses and trim"
    size = (blank.length, blank.width, blank.thickness)
    return ChainBox(f"blank {blank.name}, cut first", (), 0, size, Authority.CUT, (line,))


def _lines(piece: Piece, part: Part) -> Iterator[str]:
    """Yield how a size of the part comes about, where both its ends stand at other parts."""
    plan = next((p for p in piece.rules.parts if p.path == part.path), None)
    for word, axis in (("left", 0), ("front", 1), ("bottom", 2)):
        ends = [list(dict.fromkeys(parts_named([expr]))) for expr in plan.box[axis]] if plan else []
        if not all(ends) or ends[0] == ends[1]:
            continue
        own = part.face(word).axis
        names = [listed(piece, [p]) for p in dict.fromkeys(p for end in ends for p in end)]
        low, high = part.span(own)
        more = [v for v in (-low, high - part.size[own]) if v > 0]
        grown = "".join(f" + {_plain(piece, v)}" for v in more)
        if len(more) == 2 and more[0] == more[1]:
            grown = f" + 2 × {_plain(piece, more[0])}"
        yield f"{NAMES[own]}: {_plain(piece, part.size[own])}{grown}, from {' to '.join(names)}"


def _plain(piece: Piece, value: Number) -> str:
    """Return a length without what the nearest line of the rule leaves: among sums and × that reads as a part of them."""
    return plain_length(value, piece.units, rest=False)


def _sizes(piece: Piece) -> Iterator[MoveRow]:
    """Yield the named lengths that move a part or that a statement uses; measured ones first, then those of thicknesses."""
    work = Chain(piece)
    users = _users(piece, work)
    values = {name: (value, source) for name, value, source in piece.sizes}
    dates = dict(piece.measured_on)
    rows = []
    for name in lengths(piece):
        moves = work.moves(name)
        used = tuple(users.get(name, ()))
        if moves or used:
            value, source = values[name]
            mm = value.value * piece.units.mm if value.kind.value == "number" else value.value
            rows.append(MoveRow(name, mm, source, dates.get(name, ""), gathered(moves), used, staying(moves)))
    yield from sorted(rows, key=lambda r: (r.source == "size", not any(what == "thickness" for _, what, _ in r.moves)))


def _users(piece: Piece, work: Chain) -> dict[str, dict[str, None]]:
    """Return for each size the words of the joints and operations that use it, directly or through another size."""
    out: dict[str, dict[str, None]] = {}
    for statement in piece.rules.statements:
        named = {n for n in names_in(statement) if n in work.formulas}
        for size in sorted({s for n in named for s in work.needs[n]}):
            out.setdefault(size, {})[statement.word.name] = None
    return out
