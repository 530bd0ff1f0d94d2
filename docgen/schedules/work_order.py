"""The order of work for a helper: numbered steps from stock to finish, each with its parts, its sheet and its risk.

Everything comes from the records: materials, blanks, set-ups, authorities, joints, fasteners, drawers. What may go wrong
is common practice.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from docgen.piece.model import Drawer, Fastener, Part, Piece
from docgen.piece.records import Authority
from docgen.schedules.drilling import fastener_text
from docgen.schedules.glueups import GlueUp, glueups
from docgen.schedules.gluing import one_glueup, unjoined
from docgen.schedules.holds import listed, said
from docgen.schedules.risks import MEASURED_PART, MILL, risk
from docgen.schedules.rows import BlankRow, ChainRows, CutRow, HoldRow, SetupRow, WorkRow
from docgen.schedules.setups import FIRST, FITTED, GLUED, MATED, MEASURED
from docgen.schedules.steps import (
    AT_FITTING,
    FINISH,
    LAST,
    LATER,
    MACHINES,
    MATES,
    READY,
    STOCK,
    TOGETHER,
    WAITED,
    step,
)
from docgen.trade.glueup import clamps

FEW = 3
"""Cuts that a step names; the set-up has them all."""


@dataclass(frozen=True, slots=True)
class Made:
    """The other lists that the order of work is made from."""

    cutting: Sequence[CutRow]
    blanks: Sequence[BlankRow]
    setups: Sequence[SetupRow]
    chain: ChainRows
    sticks: frozenset[str] = field(default_factory=frozenset)  # parts that a story stick marks


def work_order(piece: Piece, made: Made) -> tuple[WorkRow, ...]:
    """Return the steps in their order, numbered from 1."""
    glued = glueups(piece)
    rows = (
        *_ready(made.chain.holds),
        *_stock(piece, made),
        *_machined(piece, made, FIRST, MACHINES),
        *_glueing(piece, made, glued),
        *unjoined(piece),
        *_machined(piece, made, MATED, MATES),
        *_waiting(piece, made, frozenset(p for unit in glued for p in unit.enclosed)),
        *_drawers(piece),
        *_machined(piece, made, FITTED, AT_FITTING),
        *_finish(piece, glued),
        *_hardware(piece),
        *_fastened(piece),
        *_last(piece),
    )
    return tuple(replace(row, number=n) for n, row in enumerate(rows, 1))


def _ready(holds: Sequence[HoldRow]) -> Iterator[WorkRow]:
    yield step(
        READY,
        "Read the safety page and the findings; hold a steel rule to the check lines of the true-size pages.",
        "cover, safety, findings",
        "pages printed “fit to page” are off, and every cut with them",
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


def _stock(piece: Piece, made: Made) -> Iterator[WorkRow]:
    """Yield choosing and milling by material, then the blanks that stay whole, then all others."""
    materials: dict[str, Part] = {}
    for part in piece.parts:
        if not part.hardware:
            materials.setdefault(part.material.name, part)
    for name, first in materials.items():
        parts = [p.path for p in piece.parts if p.material.name == name and not p.hardware]
        holds = [h for h in made.chain.holds if h.what.startswith(f"thickness of {name},")]
        thick = said(piece, first.material.thickness)
        if first.material.solid_wood:
            what = (
                f"Choose {first.material.species} for {name}, show faces first; mill to {thick}: let it rest between the first "
                "pass and the last."
            )
            wrong = MILL
        else:
            what = f"Measure the {first.material.sheet} for {name}: {thick} as drawn."
            wrong = "sheets come thinner or thicker than their name"
        yield step(STOCK, what, f"cutting list, chain of sizes {_names(holds)}".strip(), wrong, parts, hold=bool(holds))
    yield from _widths(piece, made)
    for blank in made.blanks:
        size = " × ".join(said(piece, v) for v in (blank.length, blank.width))
        yield step(
            STOCK,
            f"Cut the blank {blank.name} whole, {size}; mark its show face and the order of its parts. Do not crosscut it.",
            "cutting list: blank",
            "cut apart, or a piece turned round: the grain no longer runs on",
            [p.path for p in blank.pieces],
        )
    rest = [r for r in made.cutting if not r.blank and r.authority is not Authority.MEASURE]
    if rest:
        yield step(
            STOCK,
            f"Cut all {'other ' if made.blanks else ''}parts to rough size, then to width and square to length, equal parts to one stop.",
            "cutting list",
            "the short side of a mitre or the shoulder taken for the length: finished length holds tongues and long points",
            [p for r in rest for p in r.parts],
        )


def _widths(piece: Piece, made: Made) -> Iterator[WorkRow]:
    """Yield what is glued up to width, where the stock as stated is narrower than the part in the rough."""
    for row in made.cutting:
        stock = piece.part(row.parts[0]).material.stock
        if row.blank or stock is None or row.area_m2 is not None or float(row.rough[1]) <= float(stock[1]) + 1e-6:
            continue
        boards = math.ceil(float(row.rough[1]) / float(stock[1]) - 1e-6)
        need = clamps(row.rough[0], float(row.rough[1]) / boards)
        yield step(
            STOCK,
            f"Glue up {row.title} to {said(piece, row.rough[1])} from {boards} boards or more, before the last pass of milling: "
            f"{need} clamps by the 45° rule, over and under in turn.",
            "cutting list",
            "boards laid without a look at the grain: they tear when planed, and show as stripes",
            row.parts,
        )


def _machined(piece: Piece, made: Made, when: str, phase: str, among: Sequence[str] | None = None) -> Iterator[WorkRow]:
    """Yield a step for each set-up of one time; `among` leaves those that touch none of these parts out."""
    for setup in made.setups:
        paths = list(dict.fromkeys(path for path, _ in setup.parts))
        if setup.when != when or (among is not None and not set(paths) & set(among)):
            continue
        blanks = [b.name for b in made.blanks if any(p.path in paths for p in b.pieces)]
        out_of = f" The parts of blank {', '.join(blanks)} in turn." if blanks and setup.machine.endswith("saw") else ""
        yield step(
            phase,
            f"Set-up {setup.number}: {setup.machine}, {_what(setup)}.{_clamped(piece, setup, when)}{out_of}",
            _where(setup, made, paths),
            risk(setup),
            paths,
            key=f"set-up {setup.number}",
        )


def _what(setup: SetupRow) -> str:
    """Return what is cut at a set-up, where the set-up's own words do not say it: its first cuts."""
    titles = [t for t in dict.fromkeys(run.what for run in setup.runs) if t and t not in setup.what]
    more = "; …" if len(titles) > FEW else ""
    return f"{setup.what}: {'; '.join(titles[:FEW])}{more}" if titles else setup.what


def _clamped(piece: Piece, setup: SetupRow, when: str) -> str:
    """Say where holes are marked through the mate that the parts are brought together first."""
    if when != MATED:
        return ""
    paths = dict.fromkeys(path for path, _ in setup.parts)
    mates = dict.fromkeys(
        hole.mate
        for path in paths
        for feature in piece.part(path).features
        for hole in feature.made.holes
        if hole.authority is Authority.MATE and hole.mate in {p.path for p in piece.parts}
    )
    if not mates or setup.machine == "tap":
        return ""
    return f" Clamp them in place, mark through {listed(piece, tuple(mates))}, drill."


def _where(setup: SetupRow, made: Made, paths: Sequence[str]) -> str:
    out = [f"set-up {setup.number}"]
    if setup.machine in ("drill press", "hand drill", "tap"):
        out.append("chart")
    elif any(path in made.sticks for path in paths):
        out.append("story stick")
    return ", ".join([*out, "part sheets"])


def _glueing(piece: Piece, made: Made, glued: Sequence[GlueUp]) -> Iterator[WorkRow]:
    """Yield fits, dry run and gluing of each glue-up, and what is cut into it afterwards."""
    fits = [h for h in made.chain.holds if h.authority is Authority.FIT]
    planed: set[str] = set()
    cut: set[int] = set()
    shaped: set[str] = set()  # set-ups of panels that go in at a glue-up
    for unit in glued:
        for hold in fits:
            if hold.name not in planed and set(hold.parts) & set(unit.parts):
                planed.add(hold.name)
                yield step(
                    TOGETHER, f"{_first_up(hold.before)} until each goes into its own {hold.what.split(',')[0].removeprefix('each ')} by hand.",
                    f"chain of sizes {hold.name}", "planed too thin: it cannot be put back; try it often", hold.parts, hold=True,
                )  # fmt: skip
        for hold in made.chain.holds:
            if hold.authority is Authority.MEASURE and hold.parts and set(hold.parts) <= set(unit.enclosed):
                yield _cut_to_place(piece, hold, TOGETHER)
        if unit.enclosed:
            within = {p for other in glued for p in other.enclosed}
            panels = [r for r in _machined(piece, made, MEASURED, TOGETHER, unit.enclosed) if set(r.parts) <= within]
            yield from (r for r in panels if r.key not in shaped)
            shaped |= {r.key for r in panels}
        yield from one_glueup(piece, unit)
        later = [
            r for r in _machined(piece, made, GLUED, LATER, unit.parts) if r.key not in {f"set-up {n}" for n in cut}
        ]
        whole = not any(set(unit.parts) < set(other.parts) for other in glued)
        if whole:
            cut |= {int(r.key.removeprefix("set-up ")) for r in later}
            yield from later


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
        yield _cut_to_place(piece, hold, WAITED, gap)
        waiting -= set(hold.parts)
        for row in _machined(piece, made, MEASURED, WAITED, hold.parts):
            if not waiting & set(row.parts):
                yield row


def _cut_to_place(piece: Piece, hold: HoldRow, phase: str, more: str = "") -> WorkRow:
    """Return the measuring of a place and the cutting of what goes there."""
    return step(
        phase,
        f"Measure {hold.what}; then cut {listed(piece, hold.parts)}, {hold.moves}.{more}",
        f"chain of sizes {hold.name}, part sheet",
        MEASURED_PART,
        hold.parts,
        hold=True,
        key=f"fit {hold.parts[0]}",
    )


def _joined(piece: Piece, path: str) -> bool:
    return any(path in j.parts for j in piece.joints)


def _hung(piece: Piece, drawer: Drawer) -> Iterator[WorkRow]:
    """Yield the hanging of a drawer's box, before its front is measured."""
    yield step(
        WAITED,
        f"Hang the box of {drawer.name} on its slides: level, and running freely over its whole way.",
        "chart, the slides' own sheet",
        "slides not parallel bind at the back: measure the clear width at both ends",
        drawer.parts,
        key=f"hang {drawer.name}",
    )


def _drawers(piece: Piece) -> Iterator[WorkRow]:
    """Yield the hanging of drawers that have no front to wait for."""
    for drawer in piece.drawers:
        fronts = [p for p in drawer.parts if not _joined(piece, p) and piece.part(p).authority is Authority.MEASURE]
        if not fronts:
            yield from _hung(piece, drawer)


def _finish(piece: Piece, glued: Sequence[GlueUp]) -> Iterator[WorkRow]:
    made = [p.path for p in piece.parts if not p.hardware]
    yield step(
        FINISH,
        "Take everything apart that is not glued. Sand with the grain, break sharp arrises lightly, none where parts meet.",
        "part sheets",
        "joints and gaps sanded round stand open",
        made,
    )
    yield step(
        FINISH,
        "Finish inside and outside alike, as the finish's label says: of a penetrating oil two coats, 24 hours apart. Keep it out "
        "of holes and threads. Oily rags flat outdoors, or under water in a lidded metal can.",
        "safety: finish",
        "rags in a heap catch fire by themselves; wood finished on one side only cups",
        made,
    )


def _fastened(piece: Piece) -> Iterator[WorkRow]:
    """Yield a step for each kind of fastener, what tilts last."""
    turning = {p for g in piece.groups for p in g.parts}
    groups: dict[str, list[Fastener]] = {}
    for f in piece.fasteners:
        groups.setdefault(f.key, []).append(f)
    for key, found in sorted(groups.items(), key=lambda kv: any(set(f.parts) & turning for f in kv[1])):
        count = sum(f.count for f in found)
        pairs = "; ".join(
            dict.fromkeys(
                f"{listed(piece, [f.parts[0]])} to {listed(piece, [f.parts[1]])}" for f in found if all(f.parts)
            )
        )
        paths = list(dict.fromkeys(p for f in found for p in f.parts if p))
        first = found[0]
        yield step(
            LAST,
            f"Fasten {pairs}: {key}, {count} of {fastener_text(piece, first)}{', each with its washer' if first.washer else ''}.",
            "hardware list, chart",
            "too long it bottoms, too short it strips: the hardware list has the length"
            if first.length is not None
            else "",
            paths,
            key=f"fasten {key}",
        )


def _hardware(piece: Piece) -> Iterator[WorkRow]:
    """Yield the fitting of what is bought and is no screw."""
    bought = dict.fromkeys(item.what for item in piece.items if item.authority is Authority.HARDWARE)
    if bought:
        yield step(
            LAST,
            f"Fit, each by its own sheet: {'; '.join(bought)}.",
            "hardware list, chart",
            "fixed by the drawing and not by the thing in hand: try each before its screws are driven",
        )


def _last(piece: Piece) -> Iterator[WorkRow]:
    moving = [f"{g.name} turns through its whole way" for g in piece.groups] + [f"{d.name} runs" for d in piece.drawers]
    stands = (
        "fix it to the wall as the findings say" if piece.stands == "wall" else "level it; fix what may tip to the wall"
    )
    yield step(
        LAST,
        f"Try it: {'; '.join([*moving, 'nothing rubs'])}. Then {stands}, and load it little by little.",
        "findings",
        "a piece that is not fixed tips when it is pulled or climbed on",
    )


def _first_up(text: str) -> str:
    return (text[:1].upper() + text[1:]).replace("Planing", "Plane", 1)
