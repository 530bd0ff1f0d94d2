"""The chain of sizes: which part hangs on which, what has to be measured before which cut, what a difference moves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from docgen.piece.model import Kind, Part, Piece
from docgen.piece.records import Authority
from docgen.schedules.holds import holds, listed
from docgen.schedules.meant import lengths
from docgen.schedules.measured import names_in
from docgen.schedules.moves import NAMES, Chain, gathered, parts_named, staying
from docgen.schedules.rows import BlankRow, ChainBox, ChainRows, MoveRow
from docgen.schedules.terms import finished, kind_titles
from docgen.units import plain_length

Needs = dict[int, set[int]]


def chain(piece: Piece, kinds: Sequence[Kind], blanks: Sequence[BlankRow] = ()) -> ChainRows:
    """Return the chain of a piece; without boxes where no part hangs on another. Blanks hang on the parts cut from them."""
    groups = [k for k in kinds if not piece.part(k.first).hardware]
    needs = _reduced(_needs(piece, groups))
    group_of = {p: i for i, k in enumerate(groups) for p in (*k.parts, *k.mirrored)}
    from_blank = [{group_of[p.path] for p in blank.pieces if p.path in group_of} for blank in blanks]
    linked = {i for i, before in needs.items() if before} | {j for before in needs.values() for j in before}
    told = sorted(linked | {i for sources in from_blank for i in sources})
    columns = _columns(needs)
    told.sort(key=lambda i: (columns[i], i))
    titles = kind_titles(piece, groups)
    boxes = tuple(_box(piece, groups[i], columns[i], titles[i]) for i in told)
    arrows = sorted((told.index(j), told.index(i)) for i, before in needs.items() for j in before)
    for blank, sources in zip(blanks, from_blank, strict=True):
        arrows += [(told.index(i), len(boxes)) for i in sorted(sources)]
        boxes = (*boxes, _blank(piece, blank, 1 + max(columns[i] for i in sources)))
    alone = tuple(titles[i] for i in range(len(groups)) if i not in told)
    sizes = tuple(_sizes(piece))
    named = {row.name for row in sizes}
    untold = tuple(name for name, _, _ in piece.sizes if name not in named)
    return ChainRows(boxes, tuple(arrows), alone, holds(piece, groups, sizes), sizes, untold)


def _needs(piece: Piece, groups: Sequence[Kind]) -> Needs:
    """Return for each group the groups that its places name, and those whose opening it is measured in."""
    group_of = {p: i for i, k in enumerate(groups) for p in (*k.parts, *k.mirrored)}
    out: Needs = {i: set() for i in range(len(groups))}
    for part in piece.rules.parts:
        for other in parts_named(expr for pair in part.box for expr in pair):
            _add(out, group_of, part.path, other)
    for joint in piece.joints:
        waiting = [p for p in joint.parts if piece.part(p).authority is Authority.MEASURE]
        if len(waiting) == 1:
            for other in joint.parts:
                _add(out, group_of, waiting[0], other)
    return out


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
            out[i] = 1 + max((column(j) for j in needs[i]), default=-1)
        return out[i]

    for i in needs:
        column(i)
    return out


def _box(piece: Piece, kind: Kind, column: int, title: str) -> ChainBox:
    part = piece.part(kind.first)
    lines = tuple(_lines(piece, part))
    return ChainBox(title, (*kind.parts, *kind.mirrored), column, finished(part), part.authority, lines)


def _blank(piece: Piece, blank: BlankRow, column: int) -> ChainBox:
    """Return the box of a blank: what its length is made of."""
    cuts = blank.length - sum(p.end - p.start for p in blank.pieces)
    line = f"length: its {len(blank.pieces)} parts + {plain_length(cuts, piece.units)} for cuts, misses and trim"
    size = (blank.length, blank.width, blank.thickness)
    return ChainBox(f"blank {blank.name}, cut first", (), column, size, Authority.CUT, (line,))


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
        grown = "".join(f" + {plain_length(v, piece.units)}" for v in more)
        if len(more) == 2 and more[0] == more[1]:
            grown = f" + 2 × {plain_length(more[0], piece.units)}"
        yield f"{NAMES[own]}: {plain_length(part.size[own], piece.units)}{grown}, from {' to '.join(names)}"


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
