"""The first steps of the work: wood chosen and milled by material, blanks and parts cut to rough size. Common practice."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from docgen.piece.model import Part, Piece
from docgen.piece.records import Authority
from docgen.schedules.holds import is_ordered, listed, quoted, said
from docgen.schedules.milled import by_material, is_turned, left_rough, milled, milled_over
from docgen.schedules.risks import MILL
from docgen.schedules.rows import BlankRow, CutRow, HoldRow, Lwt, WorkRow
from docgen.schedules.short import LEAST, short
from docgen.schedules.steps import STOCK, step
from docgen.schedules.strips import HELD, off_board, ripped_late, strips
from docgen.schedules.terms import board_width, over
from docgen.trade.glueup import clamps
from docgen.units import Number

TO_SIZE = "to size"
"""The key of the step by which parts have their width and length, and all their ends and edges."""

MACHINED = ("milling and sawing",)
"""What these steps ask for on the safety page: no operation does, since the wood of every piece is made so."""

ROUGH_OVER = {"inch": Fraction(254, 160), "mm": Fraction(2)}
"""By which wood is left over its thickness before the last pass, where it can still be made flat. Common practice."""


def stock(
    piece: Piece, cutting: Sequence[CutRow], blanks: Sequence[BlankRow], holds: Sequence[HoldRow]
) -> Iterator[WorkRow]:
    """Yield wood chosen by material, sawn in the rough, milled over its figure, glued up to width, milled to it, then cut to size.

    Materials of which all is ordered cut to size come later, when their places are measured.
    """
    made = {name: ps for name, ps in by_material(piece).items() if not all(is_ordered(part) for part in ps)}
    for name, parts in made.items():
        yield _chosen(piece, name, parts, holds)
    solid = {name: parts for name, parts in made.items() if parts[0].material.solid_wood}
    yield from _rough(piece, solid, cutting, blanks)
    yield from _widths(piece, cutting, blanks)
    if solid:
        yield _tothickness_holds(piece, solid, holds)
    for blank in blanks:
        yield step(
            STOCK,
            f"Rip the blank {blank.name} to {said(piece, blank.ripped)}, edges parallel; mark its show face and the order of its "
            "parts. Do not crosscut it.",
            f"cutting list, blank: {blank.name}",
            "a piece turned round: the grain no longer runs on",
            [p.path for p in blank.pieces],
            cautions=MACHINED,
        )
    yield from _sized(piece, [r for r in cutting if not r.blank and r.authority is not Authority.MEASURE], bool(blanks))


def _chosen(piece: Piece, name: str, parts: Sequence[Part], holds: Sequence[HoldRow]) -> WorkRow:
    """Return the choosing of a solid wood, the measuring of a sheet."""
    material, paths = parts[0].material, [p.path for p in parts]
    if material.solid_wood:
        shown = ", show faces first" if any(p.show is not None for p in parts) else ""
        what = f"Choose {material.species} for {quoted(name)}{shown}."
        return step(STOCK, what, "cutting list", "", paths)
    waits = thickness_holds(name, holds)
    return step(
        STOCK,
        f"Measure the {material.sheet} for {quoted(name)}: {milled(piece, parts)} as drawn.",
        f"cutting list, chain of sizes {', '.join(waits)}" if waits else "cutting list",
        "sheets come thinner or thicker than their name",
        paths,
        hold=bool(waits),
    )


def thickness_holds(name: str, holds: Sequence[HoldRow]) -> list[str]:
    """Return the hold points at which the thickness of a material is measured."""
    return [h.name for h in holds if h.what.startswith(f"thickness of {quoted(name)},")]


def _rough(
    piece: Piece, solid: Mapping[str, Sequence[Part]], cutting: Sequence[CutRow], blanks: Sequence[BlankRow]
) -> Iterator[WorkRow]:
    """Yield the rough sawing of blanks, each whole, and of all else; then the first milling, over the figure."""
    of_blanks = {p.path for blank in blanks for p in blank.pieces}
    for blank in blanks:
        size = " × ".join(said(piece, v) for v in (blank.length, blank.width))
        boards = ", or as many boards of that length as make its width" if _glued(piece, blank) else ""
        yield step(
            STOCK,
            f"Cut the blank {blank.name} whole, {size}{boards}. Do not crosscut it.",
            f"cutting list, blank: {blank.name}",
            "cut apart: the grain no longer runs on",
            [p.path for p in blank.pieces],
            cautions=MACHINED,
        )
    paths = [p.path for parts in solid.values() for p in parts]
    others = [p for p in paths if p not in of_blanks]
    if not paths:
        return
    over = said(piece, ROUGH_OVER[piece.units.system])
    mill = f"flat and straight, still {over} thicker than at the last pass; let it rest."
    thin = [p for p in strips(piece) if p in others]
    wide = said(piece, HELD[piece.units.system])
    which = ", ".join(_counted(row) for row in cutting if set(row.parts) & set(thin))
    kept = f" Leave {which} in a board {wide} wide or more." if thin else ""
    kept += _together(piece, [r for r in cutting if set(r.parts) <= set(others) and not set(r.parts) & set(thin)])
    see = "cutting list, safety: thin strips" if thin else "cutting list"
    if not of_blanks:
        yield step(
            STOCK,
            f"Cut the wood of all parts to rough size.{kept} Mill it all {mill}",
            see,
            MILL,
            paths,
            cautions=MACHINED,
        )
        return
    if others:  # a step of its own, whose parts can be ticked off: the blanks' own are not to be cut yet
        yield step(STOCK, f"Cut the wood of all other parts to rough size.{kept}", see, "", others, cautions=MACHINED)
    yield step(
        STOCK,
        f"Mill {'it all, blanks whole,' if others else 'the blank'} {mill}",
        "cutting list",
        MILL,
        paths,
        cautions=MACHINED,
    )


def _together(piece: Piece, cutting: Sequence[CutRow]) -> str:
    """Return which parts stay in one length until they are milled: by themselves they are too short for the machines."""
    which = ", ".join(_counted(row) for row in short(piece, cutting))
    least = said(piece, LEAST[piece.units.system])
    return f" Leave {which} together in lengths of {least} or more until all is milled." if which else ""


def _glued(piece: Piece, blank: BlankRow) -> bool:
    """Return whether a blank is glued up to its width."""
    first = piece.part(blank.pieces[0].path)
    return first.material.solid_wood and _too_wide(piece, first, blank.width)


def _tothickness_holds(piece: Piece, solid: Mapping[str, Sequence[Part]], holds: Sequence[HoldRow]) -> WorkRow:
    """Return the last pass, all of one material in one go, and the hold points that measure what comes of it."""
    told = "; ".join(f"{quoted(name)} to {milled(piece, parts)}" for name, parts in solid.items())
    waits = [w for name in solid for w in thickness_holds(name, holds)]
    return step(
        STOCK,
        f"Last pass of milling, all of one name in one go: {told}. Measure what comes of it.",
        f"cutting list, chain of sizes {', '.join(waits)}" if waits else "cutting list",
        "one board milled by itself on another day differs from the rest",
        [p.path for parts in solid.values() for p in parts],
        hold=bool(waits),
        cautions=MACHINED,
    )


def _sized(piece: Piece, rows: Sequence[CutRow], blanks: bool) -> Iterator[WorkRow]:
    """Yield the cutting to size: what is turned keeps waste at both ends, the lathe's centres need it."""
    round_ = [p for r in rows for p in r.parts if is_turned(piece.part(p))]
    outlined = [p for r in rows for p in r.parts if left_rough(piece.part(p))]
    square = [p for r in rows for p in r.parts if p not in (*round_, *outlined)]
    thin = [_counted(r) for r in rows if set(r.parts) & set(strips(piece)) - set(ripped_late(piece))]
    whole = [_counted(r) for r in rows if set(r.parts) & set(ripped_late(piece))]
    if square:
        other = "other " if blanks else ""
        yield step(
            STOCK,
            f"Cut all {other}parts to width and square to length, equal parts to one stop.{off_board(thin, whole)}{_left(piece, [r for r in rows if set(r.parts) <= set(square)])}",
            "cutting list",
            "the short side of a mitre or the shoulder taken for the length: finished length holds tongues and long points",
            square,
            key=TO_SIZE,
            cautions=MACHINED,
        )
    if round_:
        yield step(
            STOCK,
            f"Leave {listed(piece, round_)} at the rough length, square, with waste at both ends for the lathe's centres: "
            "cut to length after the turning.",
            "cutting list",
            "cut to length before it is turned: the marks of the centres stay in the part",
            round_,
        )
    if outlined:
        yield step(
            STOCK,
            f"Leave {listed(piece, outlined)} at the rough size: draw the lines of the finished box in its middle, and both "
            "centre lines. All places run from these lines until the outline is cut.",
            "cutting list, part sheet",
            "cut to the finished size first: the saw runs off the edge, and its marks stay as flats",
            outlined,
        )


def _left(piece: Piece, rows: Sequence[CutRow]) -> str:
    """Return what is cut larger than its figure, since it is fitted later; thicknesses that are milled so are told there."""
    out = []
    for row in rows:
        told = over(piece, piece.part(row.parts[0]))
        told = told[:-1] if milled_over(piece, row.material) else told
        out += [f"{_counted(row)}: {', '.join(told)}"] if told else []
    return f" Leave wood on, to be fitted later: {'; '.join(out)}." if out else ""


def _widths(piece: Piece, cutting: Sequence[CutRow], blanks: Sequence[BlankRow]) -> Iterator[WorkRow]:
    """Yield the gluing up to width: of what is wider than its boards come, and of what a note says is made of boards."""
    wide: list[tuple[str, Part, Lwt, tuple[str, ...]]] = []
    for row in cutting:
        first = piece.part(row.parts[0])
        noted = BOARDS in first.note.split()
        if not row.blank and first.material.solid_wood and (noted or _too_wide(piece, first, row.rough[1])):
            wide.append((_counted(row), first, row.rough, row.parts))
    for blank in blanks:
        first = piece.part(blank.pieces[0].path)
        if _glued(piece, blank):
            size = (blank.length, blank.width, blank.thickness)
            wide.append((f"the blank {blank.name}", first, size, tuple(p.path for p in blank.pieces)))
    if wide:
        usual = {board_width(p.material, piece.units) for _, p, _, _ in wide if p.material.stock is None}
        told = f" Counted with boards up to {said(piece, max(usual))} wide." if usual else ""
        yield step(
            STOCK,
            f"Glue up to width, before the last pass of milling: {'; '.join(_glued_up(piece, *one[:3]) for one in wide)}, evenly along "
            f"the joints, over and under in turn.{told}",
            "cutting list",
            "boards laid without a look at the grain: they tear when planed, and show as stripes",
            tuple(p for *_, paths in wide for p in paths),
        )


def _counted(row: CutRow) -> str:
    """Return the title of equal parts with their number, where it does not name each of them."""
    return f"{row.count}× {row.title}" if row.count > 1 and not told_apart(row.title) else row.title


def told_apart(title: str) -> bool:
    """Return whether a title of equal parts names each of them: "end (left, right)"."""
    return title.endswith(")") or " and " in title


BOARDS = "boards"
"""The word in a part's note by which it says that it is glued up."""


def _too_wide(piece: Piece, part: Part, wide: Number) -> bool:
    return float(wide) > float(board_width(part.material, piece.units)) + 1e-6


def _glued_up(piece: Piece, title: str, part: Part, rough: Lwt) -> str:
    """Return to which width a part is glued up in the rough, from how many boards, with how many clamps."""
    boards = max(2, math.ceil(float(rough[1]) / float(board_width(part.material, piece.units)) - 1e-6))
    need = max(2, clamps(rough[0], float(rough[1]) / boards))
    return f"{title} to {said(piece, rough[1])} from {boards} boards or more, {need} clamps"
