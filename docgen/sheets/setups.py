"""Machine set-ups: each once, with all parts that run at it, so that nothing is set twice; what proves it, what is kept."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from itertools import groupby

from docgen.drawing.columns import Column
from docgen.drawing.records import Sheet
from docgen.drawing.tables import Row, Style
from docgen.piece.naming import in_words
from docgen.schedules.led import FAR_WALL, WALL
from docgen.schedules.machining import SIDE_BY_SIDE, UNSOLD
from docgen.schedules.rows import JigRow, SetupRow, SetupRun, Values
from docgen.schedules.run_alike import INTO
from docgen.schedules.setups import GLUED
from docgen.sheets.by_template import by_gauge, by_template, goes_by
from docgen.sheets.context import Context
from docgen.sheets.counted import counted
from docgen.sheets.flow import Flow, drawn_together, stacked, valued
from docgen.trade.drills import told
from docgen.units import Number, set_length

ON_LINE = 1e-6  # of a division: rounding

DRILLS = ("drill press", "hand drill", "tap")

INTRO = (
    "Set once, prove it on the test piece, an offcut of the same stock where no other is named, then run all that stands under it; "
    "stop and fence move for each line that has a place of its own. The machine's own manual rules: guards, knife and speeds as it says. Numbers are the order of work. Places run from "
    "the ends and edges of the finished part; a shoulder is where its tongue begins."
)
PLAIN = "an offcut of the same stock, "
"""How a test piece is told that the first paragraph tells already."""

HAND_ROUTER = (
    "A router is held by hand over the wood, seen from above: its bit turns clockwise and pulls it to the left of its way. So the "
    "wood of an open edge lies on the left"
)
STRAIGHTEDGE = ", and a straightedge clamped to the wood too"
FENCE = "; a fence screwed to the router rides on an edge on the right"
SEVERAL = " Of runs side by side the one on the right goes first."
ON_TABLE = " On a table, with the cutter from below, feed the other way, against its turn."
OFF_WALL = (
    " A straightedge stands off the near wall{far} by the distance from the base's edge to the cutter's rim: cut an offcut to that "
    "width once."
)
COLUMNS = (
    Column("done", "middle"),
    Column("what is cut", grow=0.8),
    Column("in", grow=0.8),
    Column("where on the part; way of the cutter", grow=3.0),
)
JIGS = (
    Column("made", "middle"),
    Column("jig, test piece or offcut", grow=0.6),
    Column("size", grow=2.0),
    Column("what for", grow=2.0),
    Column("keep until", grow=0.4),
)


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the set-ups by machine; nothing when no operation asks for one."""
    setups = context.lists.setups
    if not setups:
        return ()
    templates, gauges = by_template(context), by_gauge(context)
    rows: list[Row] = []
    for (when, machine), group in groupby(setups, key=lambda s: (s.when, s.machine)):
        head = machine[:1].upper() + machine[1:]
        rows.append(Row(heading=f"{head}, {when}" if when else head))
        for setup in group:
            rows += _rows(context, setup, templates.get(setup.number, ""), gauges.get(setup.number, ""))
    return drawn_together(partial(_filled, context, rows)).sheets()


def _filled(context: Context, rows: list[Row], air: float) -> Flow:
    """Return the pages with so much of the usual air."""
    flow = Flow(context, key="setups", kind="setups", title="Machine set-ups", air=air)
    flow.text(INTRO)
    if any(s.machine == "router" for s in context.lists.setups):
        flow.text(by_hand(context.lists.setups))
    note = context.layout.heights.note
    small = Style(note, note, note, note)
    flow.table(COLUMNS, rows, small)
    if context.lists.jigs:
        flow.heading("Jigs, test pieces and offcuts to keep", keep=25.0)
        flow.table(JIGS, [_jig(row) for row in context.lists.jigs], small)
    return flow


def by_hand(setups: Sequence[SetupRow]) -> str:
    """Return how a router goes and what leads it, as far as the set-ups ask for it."""
    runs = [run for row in setups if row.machine == "router" for run in row.runs]
    names = {name for run in runs for name, _, _ in run.places}
    values = {name for row in setups if row.machine == "router" for name, _, _ in row.values}
    far = any(name.startswith(FAR_WALL) for name in names)
    clamped = far or any(name.startswith((WALL, "near side")) for name in names)
    led = any(name.startswith("straightedge") for name in values)
    fence = any("fence on" in run.feed or "plunge at one stop" in run.feed for run in runs)
    return "".join(
        (
            HAND_ROUTER,
            STRAIGHTEDGE if clamped or led else "",
            FENCE if fence else "",
            ".",
            SEVERAL if any(name.startswith((SIDE_BY_SIDE, UNSOLD)) for name in (*values, *_noted(setups))) else "",
            ON_TABLE,
            OFF_WALL.format(far=" (the far one where it is told)" if far else "") if clamped else "",
        )
    )


def _noted(setups: Sequence[SetupRow]) -> list[str]:
    """Return what is noted at the set-ups of the router."""
    return [note for row in setups if row.machine == "router" for note in row.note.split("; ")]


def _rows(context: Context, setup: SetupRow, template: str, gauge: str) -> list[Row]:
    """Return the set-up as a heading with what all its parts share, and the parts below it; the last row holds the test piece."""
    told_values = (_value(context, *value) for value in setup.values)
    values = "; ".join(text for text in told_values if text != setup.what)
    told = f"{setup.number} {setup.what}" + (f": {values}" if values else "")
    ways = {run.feed for run in setup.runs}
    way = ways.pop() if len(ways) == 1 < len(setup.runs) else ""
    shared = _everywhere(setup)
    drawn = _drawn(gauge, "" if goes_by(context.piece, setup) else template)
    rows = [Row(heading=told, under=_sentences(drawn, *_places(context, shared).split("\n"), *way.split("\n")))]
    for i, run in enumerate(setup.runs):
        last = i == len(setup.runs) - 1
        own = replace(run, places=tuple(p for p in run.places if p not in shared), feed="" if way else run.feed)
        elsewhere = "" if shared and not own.places else _elsewhere(context, setup, template)
        rows.append(Row(cells=_cells(context, setup, own, elsewhere), under=_below(setup) if last else ""))
    return rows


def _drawn(gauge: str, template: str) -> str:
    """Return what there is of a set-up at true size: what its angle is set by, and what its places are laid out by."""
    told = [f"set by {gauge}"] if gauge else []
    return "; ".join([*told, f"laid out by {template}"] if template else told)


def _everywhere(setup: SetupRow) -> Values:
    """Return the places that all of several runs share: they are told once, above them. Each keeps one of its own."""
    if len(setup.runs) < 2:
        return ()
    common = set.intersection(*(set(run.places) for run in setup.runs))
    alone = any(set(run.places) <= common for run in setup.runs)
    return tuple(p for p in setup.runs[0].places if p in common and (not alone or p[0] == INTO))


def _elsewhere(context: Context, setup: SetupRow, template: str) -> str:
    """Return where the places are told that the set-up itself does not tell; `template`: what there is of its cuts."""
    if goes_by(context.piece, setup):
        return f"by {template or 'its template'}"
    if setup.when == GLUED:
        return "by the sheet “after the glue-up”"
    return "by the drilling chart" if setup.machine in DRILLS else "by the part sheet"


def _cells(context: Context, setup: SetupRow, run: SetupRun, elsewhere: str) -> tuple[str, ...]:
    """Return the cells of a run; `elsewhere` stands for places that the set-up does not tell."""
    places = _places(context, run.places) or elsewhere
    where = "\n".join(s for s in (places, run.feed) if s)
    return (
        "□",
        stacked(f"{run.what} {', '.join(_unnamed(context, setup, run))}".rstrip()),
        counted(context, run.parts),
        where,
    )


def _unnamed(context: Context, setup: SetupRow, run: SetupRun) -> list[str]:
    """Return the names of the holes of a run that its own words leave out."""
    called, titles = {p.path: p.called for p in context.piece.parts}, set(setup.parts)
    names = dict.fromkeys(
        hole.name
        for part in context.piece.parts
        if part.path in run.parts
        for feature in part.features
        if (part.path, feature.title) in titles and in_words(feature.title, called) == run.what
        for hole in feature.made.holes
    )
    return [name for name in names if name and not re.search(rf"\b{re.escape(name)}\b", run.what)]


def _places(context: Context, places: Values) -> str:
    """Return the places one under another; those from the same side of the part in one line."""
    lines: dict[str, list[str]] = {}
    for name, value, kind in places:
        what, _, side = name.partition(" from the ")
        lines.setdefault(side or name, []).append(_value(context, what.rstrip(",") if side else name, value, kind))
    return "\n".join(
        f"from the {side}: {_in_one(context, said)}" if _from(places, side) else said[0] for side, said in lines.items()
    )


def _in_one(context: Context, said: Sequence[str]) -> str:
    """Return figures in a line, their unit once behind the last."""
    sign = f" {context.piece.units.sign}"
    return ", ".join([*(text.removesuffix(sign) for text in said[:-1]), *said[-1:]])


def _from(places: Values, side: str) -> bool:
    return any(name.endswith(f" from the {side}") for name, _, _ in places)


def _below(setup: SetupRow) -> str:
    """Return what no value tells, and how the set-up is proved."""
    test, *shows = setup.proof or ("",)
    piece = f"Test piece, {test.replace(PLAIN, '')}" if test.startswith(PLAIN) else f"Test piece: {test}"
    proof = f"{piece}: {'; '.join(shows)}" if test else ""
    return _sentences(setup.note.removeprefix(setup.when).lstrip("; "), proof)


def _sentences(*texts: str) -> str:
    """Return texts as sentences under one another."""
    return stacked("\n".join(f"{text[:1].upper()}{text[1:]}." for text in texts if text))


def _value(context: Context, name: str, value: Number | str, kind: str) -> str:
    if kind == "count" and not isinstance(value, str):
        return f"{stacked(name)} {int(value)}"
    if isinstance(value, str) and name == "drill":
        return f"{name} {stacked(told(value, context.piece.units.system))}"
    metric = _metric(context, value, kind)
    if kind == "length" and not isinstance(value, str) and not metric:
        return f"{name} {set_length(value, context.piece.units)}"
    return f"{name} {valued(context, value, kind)}{metric}"


def _metric(context: Context, value: Number | str, kind: str) -> str:
    """Return in millimetres what an inch rule has no line for: a cutter or a sheet of whole millimetres."""
    units = context.piece.units
    if isinstance(value, str) or kind != "length" or units.system != "inch":
        return ""
    size, line = float(value), float(units.finest) * 25.4
    on_rule = abs(size / line - round(size / line)) < ON_LINE
    whole = abs(size - round(size)) < ON_LINE
    return "" if on_rule or not whole else f" ({round(size)} mm)"


def _jig(row: JigRow) -> Row:
    return Row(cells=("□", stacked(row.what), stacked(row.size) or "–", stacked(row.use), row.until))
