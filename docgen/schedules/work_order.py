"""The order of work for a helper: numbered steps from stock to finish, each with its parts, its sheet and its risk.

Everything comes from the records: materials, blanks, set-ups, authorities, joints, fasteners, drawers. What may go wrong
is common practice.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from docgen.piece.model import Drawer, Piece
from docgen.piece.records import Authority
from docgen.schedules.dry_hanging import tried
from docgen.schedules.early_marks import before_gluing
from docgen.schedules.from_stock import MACHINED, stock, thickness_holds
from docgen.schedules.glueups import GlueUp, glueups, wholes
from docgen.schedules.gluing import one_glueup, smoothed, unjoined
from docgen.schedules.hanging import hung, put_back
from docgen.schedules.holds import WHOLE, is_ordered, listed, said
from docgen.schedules.inserts import held_long, into_slots, made_beside
from docgen.schedules.machine_steps import Made, machined
from docgen.schedules.putting_together import (
    fastened,
    finish,
    fitted,
    framed,
    fronts,
    laid_in,
    last,
    plugged,
    put_in_last,
    stayed,
)
from docgen.schedules.risks import MEASURED_PART
from docgen.schedules.rows import HoldRow, SetupRow, WorkRow
from docgen.schedules.setups import FIRST, FITTED, GLUED, MATED, MEASURED, PAIRED
from docgen.schedules.steps import AT_FITTING, LATER, MACHINES, MATES, READY, TOGETHER, WAITED, step
from docgen.schedules.strips import ripped_late, strips

READ = "read"
"""The key of the first step, to which the findings may add what is to be settled."""


def work_order(piece: Piece, made: Made) -> tuple[WorkRow, ...]:
    """Return the steps in their order, numbered from 1."""
    glued = glueups(piece)
    planed: set[str] = set()
    mated = tuple(machined(piece, made, MATED, MATES))
    early = {f"set-up {s.number}" for s in made.setups if s.when == MATED and before_gluing(piece, s, glued)}
    rows = (
        *_ready(made.chain.holds),
        *stock(piece, made.cutting, made.blanks, made.chain.holds),
        *_single(piece, made, planed),
        *machined(piece, made, PAIRED, MACHINES),
        *_ripped(piece),
        *(row for row in mated if row.key in early),
        *made_beside(piece),
        *_fits(made, _closed_in(glued), planed, TOGETHER),
        *smoothed(piece, glued),
        *_glueing(piece, made, glued, planed),
        *unjoined(piece, put_in_last(piece, glued)),
        *(row for row in mated if row.key not in early),
        *_waiting(piece, made, frozenset(p for unit in glued for p in unit.enclosed)),
        *_drawers(piece),
        *machined(piece, made, FITTED, AT_FITTING),
        *_in_hand(glued, tried(piece)),
        *_in_hand(glued, plugged(piece)),
        *finish(piece),
        *_in_hand(glued, framed(piece)),
        *_in_hand(glued, laid_in(piece, glued)),
        *fitted(piece),
        *put_back(piece),
        *fronts(piece),
        *_in_hand(glued, fastened(piece)),
        *stayed(piece),
        last(piece),
    )
    return tuple(replace(row, number=n) for n, row in enumerate(held_long(piece, rows), 1))


def _in_hand(glued: Sequence[GlueUp], rows: Iterable[WorkRow]) -> Iterator[WorkRow]:
    """Yield steps after the gluing: what a part is glued to by then has to be at hand with it."""
    yield from (replace(row, parts=wholes(glued, row.parts)) for row in rows)


def in_order(setups: tuple[SetupRow, ...], work: Sequence[WorkRow]) -> tuple[SetupRow, ...]:
    """Return the set-ups numbered as the steps use them: which of them waits for which measurement, only the steps know."""
    place = {row.key: n for n, row in enumerate(work) if row.key.startswith("set-up ")}
    used = sorted(setups, key=lambda s: (place.get(f"set-up {s.number}", len(work)), s.number))
    return tuple(replace(row, number=n) for n, row in enumerate(used, 1))


def _ready(holds: Sequence[HoldRow]) -> Iterator[WorkRow]:
    yield step(
        READY,
        "Read the safety page and the findings; hold a steel rule to the check lines of the true-size pages.",
        "cover, safety, findings",
        "pages printed “fit to page” are off, and every cut with them",
        key=READ,
    )
    bought = [h for h in holds if h.authority is Authority.HARDWARE]
    if bought:
        yield step(
            READY,
            f"Have in hand, with its own sheet: {'; '.join(dict.fromkeys(h.what for h in bought))}.",
            f"hardware list, chain of sizes {_names(bought)}",
            "another make has other sizes: enter them in the file and print again",
            hold=True,
        )


def _names(holds: Sequence[HoldRow]) -> str:
    return ", ".join(h.name for h in holds)


def _single(piece: Piece, made: Made, planed: set[str]) -> Iterator[WorkRow]:
    """Yield the set-ups of the single parts; joints are fitted before faces go that they are measured from."""
    late = [s for s in made.setups if s.when == FIRST and _late(piece, s)]
    touched = {path for setup in late for path, _ in setup.parts}
    shaped = {f"set-up {s.number}" for s in late}
    rows = list(machined(piece, made, FIRST, MACHINES))
    yield from (r for r in rows if r.key not in shaped)
    if touched:
        beside = touched | {p for j in piece.joints if touched & set(j.parts) for p in j.parts}
        yield from _fits(made, beside, planed, MACHINES)
    yield from (r for r in rows if r.key in shaped)


def _ripped(piece: Piece) -> Iterator[WorkRow]:
    """Yield the ripping of strips in which holes and slots were cut on their board."""
    late = ripped_late(piece)
    if late:
        yield step(
            MACHINES,
            f"Rip {listed(piece, late)} off the board, to the lines, the strip away from the fence.",
            "cutting list, safety: thin strips",
            "ripped before its slots are cut: nothing holds it under the router",
            late,
            key="rip strips",
        )


def _late(piece: Piece, setup: SetupRow) -> bool:
    """Return whether a set-up takes away faces that other cuts are measured from."""
    titles = set(setup.parts)
    return any(
        s.late and s.machine == setup.machine and s.what == setup.what
        for path in dict.fromkeys(p for p, _ in setup.parts)
        for f in piece.part(path).features
        if (path, f.title) in titles
        for s in f.made.settings
    )


def _fits(made: Made, parts: set[str], planed: set[str], phase: str) -> Iterator[WorkRow]:
    """Yield the fitting of what was left fat on any of these parts, each once."""
    for hold in made.chain.holds:
        if hold.authority is Authority.FIT and hold.name not in planed and set(hold.parts) & parts:
            planed.add(hold.name)
            each = hold.what.split(",")[0].removeprefix("each ")
            yield step(
                phase,
                f"{_first_up(hold.before)} until each goes into its own {each} by hand.",
                f"chain of sizes {hold.name}",
                "planed too thin: it cannot be put back; try it often",
                hold.parts,
                hold=True,
            )


def _closed_in(glued: Sequence[GlueUp]) -> set[str]:
    """Return the parts that are fitted before their glue-up; what is slid in later is fitted to what is glued by then."""
    slid = {p for unit in glued for p in unit.slid}
    return {p for unit in glued if not unit.slid for p in unit.parts} - slid


def _glueing(piece: Piece, made: Made, glued: Sequence[GlueUp], planed: set[str]) -> Iterator[WorkRow]:
    """Yield fits, dry run and gluing of each glue-up, and what is cut into it afterwards."""
    cut: set[int] = set()
    shaped: set[str] = set()  # set-ups of panels that go in at a glue-up
    for unit in glued:
        yield from _fits(made, set(unit.parts), planed, TOGETHER)
        for hold in made.chain.holds:
            if hold.authority is Authority.MEASURE and hold.parts and set(hold.parts) <= set(unit.enclosed):
                yield _cut_to_place(piece, made, hold, TOGETHER)
        if unit.enclosed:
            within = {p for other in glued for p in other.enclosed}
            panels = [r for r in machined(piece, made, MEASURED, TOGETHER, unit.enclosed) if set(r.parts) <= within]
            yield from (r for r in panels if r.key not in shaped)
            shaped |= {r.key for r in panels}
        yield from one_glueup(piece, unit)
        later = [
            r for r in machined(piece, made, GLUED, LATER, unit.parts) if r.key not in {f"set-up {n}" for n in cut}
        ]
        whole = not any(set(unit.parts) < set(other.parts) and not other.slid for other in glued)
        if whole:
            cut |= {int(r.key.removeprefix("set-up ")) for r in later}
            yield from later
            yield from into_slots(piece, unit)


def _waiting(piece: Piece, made: Made, enclosed: frozenset[str]) -> Iterator[WorkRow]:
    """Yield the parts that were not cut before their place was measured; what was set in at a glue-up is cut by then."""
    in_drawers = {p: d for d in piece.drawers for p in d.parts}
    order = sorted(
        (h for h in made.chain.holds if h.authority is Authority.MEASURE and h.parts and not set(h.parts) <= enclosed),
        key=lambda h: (h.parts[0] in in_drawers and not _joined(piece, h.parts[0]), piece.part(h.parts[0]).number),
    )
    waiting = {p for hold in order for p in hold.parts}
    for hold in order:
        fronts = [d for d in piece.drawers if hold.parts[0] in d.parts and not _joined(piece, hold.parts[0])]
        if fronts:
            yield from _hung(piece, fronts[0])
        gap = f" Hold the gap with strips of {said(piece, fronts[0].gap)}." if fronts and fronts[0].gap else ""
        yield _cut_to_place(piece, made, hold, WAITED, gap)
        waiting -= set(hold.parts)
        for row in machined(piece, made, MEASURED, WAITED, hold.parts):
            if not waiting & set(row.parts):
                yield row


def _cut_to_place(piece: Piece, made: Made, hold: HoldRow, phase: str, more: str = "") -> WorkRow:
    """Return the measuring of a place and the cutting of what goes there, or the ordering of what comes cut to size."""
    part, names, do = piece.part(hold.parts[0]), [hold.name], "cut"
    if is_ordered(part):
        names += thickness_holds(part.material.name, made.chain.holds)
        more += f" Measure its thickness when it comes, {said(piece, part.material.thickness)} as drawn, before it is laid in."
        do = "order"
    what = f"{do} {listed(piece, hold.parts)}, {hold.moves}"
    if hold.moves == WHOLE:
        thin = set(hold.parts) <= set(strips(piece))
        size = "rip to width off the board and cut to length" if thin else f"{do} to length and width"
        what = f"{size}: {listed(piece, hold.parts)}"
    return step(
        phase,
        f"Measure {hold.what}; then {what}.{more}",
        f"chain of sizes {', '.join(names)}, part sheet",
        MEASURED_PART,
        hold.parts,
        hold=True,
        key=f"fit {hold.parts[0]}",
        cautions=() if is_ordered(part) else MACHINED,
    )


def _joined(piece: Piece, path: str) -> bool:
    return any(path in j.parts for j in piece.joints)


def _hung(piece: Piece, drawer: Drawer) -> Iterator[WorkRow]:
    """Yield the hanging of a drawer's box, before its front is measured: the front is no part of it yet."""
    box = [p for p in drawer.parts if _joined(piece, p) or piece.part(p).authority is not Authority.MEASURE]
    yield hung(piece, drawer, box)


def _drawers(piece: Piece) -> Iterator[WorkRow]:
    """Yield the hanging of drawers that have no front to wait for."""
    for drawer in piece.drawers:
        fronts = [p for p in drawer.parts if not _joined(piece, p) and piece.part(p).authority is Authority.MEASURE]
        if not fronts:
            yield from _hung(piece, drawer)


def _first_up(text: str) -> str:
    return (text[:1].upper() + text[1:]).replace("Planing", "Plane", 1)
