"""The order of work: numbered steps for a helper, each with its parts, the sheet of its figures and what may go wrong."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from itertools import groupby

from docgen.checks import handles
from docgen.checks.finding import Grade
from docgen.checks.pivot_friction import SLIPS
from docgen.checks.tipping import UNSTEADY
from docgen.drawing.columns import Column
from docgen.drawing.records import Sheet
from docgen.drawing.symbols import AUTHORITY
from docgen.drawing.tables import Row, Style
from docgen.piece.naming import in_words
from docgen.piece.records import Authority
from docgen.schedules.putting_together import TRY, UNFIXED_TIPS
from docgen.schedules.rows import WorkRow
from docgen.schedules.work_order import READ
from docgen.sheets.base_lines import base_lines
from docgen.sheets.by_template import by_gauge, by_template, numbered_templates
from docgen.sheets.context import Context
from docgen.sheets.counted import counted
from docgen.sheets.flow import Flow, drawn_together, stacked

COLUMNS = (
    Column("done", "middle"),
    Column("step", "right", bold=True),
    Column("what to do", grow=4.0),
    Column("parts", grow=1.4),
    Column("figures on", grow=0.9),
)
HOLD = AUTHORITY[Authority.MEASURE]


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the steps; nothing when the piece has none."""
    work = context.lists.work
    if not work:
        return ()
    rows: list[Row] = []
    told: set[str] = set()
    templates, lines = _true_sizes(context), base_lines(context)
    for phase, group in groupby(work, key=lambda r: r.phase):
        rows.append(Row(heading=phase))
        for step in group:
            if step.number in lines:
                step = replace(step, what=f"{step.what} {lines[step.number]}", see=f"{step.see}, templates")
            rows.append(_row(context, step, "" if step.wrong in told else step.wrong, templates.get(step.key, "")))
            told.add(step.wrong)
    return drawn_together(partial(_filled, context, rows)).sheets()


def _filled(context: Context, rows: list[Row], air: float) -> Flow:
    """Return the pages with so much of the usual air."""
    flow = Flow(context, key="work", kind="work", title="Order of work", air=air)
    flow.text(
        f"Do the steps in their order and tick each one. {HOLD} stops you: measure or have in hand what it names, and go on only "
        "then. Where a step cannot be done as it stands, stop and ask; the machine's manual rules over this page."
    )
    note = context.layout.heights.note
    flow.table(COLUMNS, rows, Style(note, note, note, note))
    return flow


def _true_sizes(context: Context) -> dict[str, str]:
    """Return the templates and gauges that a step goes by, by the key of the step: "templates T1, T2, angle gauge G1"."""
    named: dict[str, list[str]] = {}
    for found in (by_template(context), by_gauge(context)):
        for number, name in found.items():
            named.setdefault(f"set-up {number}", []).append(name)
    for name, row in numbered_templates(context.solids, context.kinds):
        for step in context.lists.work if row.seen.of else ():
            if step.key.startswith(f"make {row.seen.of} "):
                named.setdefault(step.key, []).append(f"template {name}")
    return {key: ", ".join(names) for key, names in named.items()}


def _row(context: Context, step: WorkRow, wrong: str, template: str) -> Row:
    """Return a step; what may go wrong stands below it, once. The last step stops the helper where a finding says so."""
    see = step.see
    if template:
        see = see.replace(step.key, f"{step.key}, {template}", 1) if step.key in see else f"{template}, {see}"
    names = {p.path: p.called for p in context.piece.parts}
    warned = _warned(context) if step.key == TRY else []
    warned += _settled(context) if step.key == READ else []
    what = " ".join([f"{HOLD} {step.what}" if step.hold or warned else step.what, *warned])
    if warned and not wrong and step.key == TRY:
        wrong = UNFIXED_TIPS if any(f.code in UNSTEADY for f in context.findings) else ""
    return Row(
        cells=("□", str(step.number), stacked(in_words(what, names)), counted(context, step.parts) or "–", see),
        under=f"May go wrong: {wrong}." if wrong else "",
    )


def _settled(context: Context) -> list[str]:
    """Return what the findings want to be decided on while no wood is cut."""
    opened = [_lower(f"{f.message.rstrip('.')}: {f.advice}") for f in context.findings if f.code in handles.CODES]
    care = sum(f.grade is Grade.CARE for f in context.findings)
    told = [*opened, *([f"each finding under “Care” ({care})"] if care else [])]
    return [f"Settle now, by the findings: {'; '.join(told)}."] if told else []


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


def _warned(context: Context) -> list[str]:
    """Return what the findings say that has to be done before the piece is tried or loaded."""
    out = []
    for finding in context.findings:
        if finding.code == SLIPS:
            group = next((g.name for g in context.piece.groups if g.parts == finding.parts), "what turns")
            out.append(
                f"STOP: {group} does not stay up by itself, and no stay is drawn. Prop it before anybody lets go of it, hands clear "
                "of its edges; do not use it before a stay or a prop carries it."
            )
    if any(f.code in UNSTEADY and f.grade is not Grade.NOTE for f in context.findings):
        out.append(
            "It tips easily: fix it as the findings say, by the straps or brackets of the hardware list, before it is loaded."
        )
    return out
