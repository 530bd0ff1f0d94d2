"""What holds together by itself and that nothing ties to the rest of the piece."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.piece.model import Drawer, Part, Piece, Sets
from docgen.piece.records import Authority


def untied(piece: Piece) -> tuple[tuple[str, ...], ...]:
    """Return the groups of two parts or more that joints and fasteners hold to each other and to nothing else.

    The group of most wood counts as the piece; drawers hang by their slides, and what waits for its place to be measured, as beads
    round a pane do, is laid in there. What the file states to fix is tied.
    """
    groups = _groups(piece)
    if not groups:
        return ()
    hung = {p for d in piece.drawers for p in d.parts}
    main = max(
        groups, key=lambda g: (not hung & set(g), sum(_space(piece.part(p)) for p in g), -piece.part(g[0]).number)
    )
    tied = hung | {p for i in piece.items if i.sets is Sets.FIXES for p in i.parts}
    return tuple(
        group
        for group in groups
        if group is not main
        and len(group) > 1
        and not tied & set(group)
        and any(piece.part(p).authority is not Authority.MEASURE and not piece.part(p).hardware for p in group)
    )


def rides(drawer: Drawer, parts: Sequence[str]) -> bool:
    """Return whether a joint of these parts lets the drawer run on a strip: it ties neither to the other."""
    return bool(set(parts) & set(drawer.runners)) and bool(set(parts) & set(drawer.parts))


def _space(part: Part) -> float:
    return float(part.size[0]) * float(part.size[1]) * float(part.size[2])


def _groups(piece: Piece) -> list[tuple[str, ...]]:
    """Return all parts in the groups that the file's statements make of them, by number."""
    group = {p.path: p.number for p in piece.parts}
    for tie in _ties(piece):
        numbers = {group[p] for p in tie if p in group}
        if len(numbers) > 1:
            least = min(numbers)
            group = {p: least if n in numbers else n for p, n in group.items()}
    return [tuple(p for p, n in group.items() if n == number) for number in sorted(set(group.values()))]


def _ties(piece: Piece) -> Iterator[Sequence[str]]:
    yield from (j.parts for j in piece.joints if not any(rides(d, j.parts) for d in piece.drawers))
    yield from (f.parts for f in piece.fasteners if all(f.parts))
    yield from (d.parts for d in piece.drawers)
    yield from ((*p.frame, p.pane) for p in piece.panes)
    yield from (r.parts for r in piece.runs)
