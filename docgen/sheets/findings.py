"""What the checks say of the piece: grade, part, figures, rule and where the rule comes from."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from functools import partial

from docgen.checks.finding import Finding, Grade
from docgen.checks.run import looked, missing
from docgen.checks.tell import WEIGHED, names_of, untold
from docgen.drawing.columns import Column
from docgen.drawing.records import Sheet
from docgen.drawing.tables import Row, Style
from docgen.sheets.context import Context
from docgen.sheets.flow import Flow, drawn_together, stacked, valued

COLUMNS = (Column("part"), Column("finding", grow=2.0), Column("rule and its source", grow=1.0))
GRADES = {
    Grade.STOP: "STOP: cannot be built as drawn",
    Grade.CARE: "Care: can be built, needs attention",
    Grade.NOTE: "Note: good to know",
}
FINE = 1.0
"""Degrees from which an angle is told to a tenth: a finding judges, and nothing is set by it."""
SAME = 1e-6

_FOR_THE_FILE = re.compile(r": [a-z]+(?: [a-z]+)*: (?:\{[^{}]*\}|\d+)| \([^()]* says [a-z]+: [^()]*\)")
"""What a way out says for who writes the file, as it is typed: "…: fixed: {parts: …}"."""


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the findings by grade, and which checks looked, so that silence can be told from not having looked."""
    return drawn_together(partial(_filled, context)).sheets()


def _filled(context: Context, air: float) -> Flow:
    """Return the pages with so much of the usual air."""
    flow = Flow(context, key="findings", kind="findings", title="Findings of the checks", air=air)
    heights = context.layout.heights
    flow.text(
        "Each check compares the model with a rule and says where the rule comes from. A check looks for what it knows "
        "and no more: it takes the place of no judgement at the bench."
    )
    counts = {grade: sum(f.grade is grade for f in context.findings) for grade in Grade}
    flow.text(
        ", ".join(f"{counts[g]} {g.value}" for g in Grade) if context.findings else "No check found anything.",
        height=heights.heading,
        bold=True,
    )
    rows: list[Row] = []
    for grade, heading in GRADES.items():
        found = [f for f in context.findings if f.grade is grade]
        if found:
            rows += [Row(heading=heading), *(_row(context, f) for f in found)]
    if rows:
        flow.gap(2.0)
        flow.table(COLUMNS, rows, Style(heights.note, heights.note, heights.note, heights.note))
    flow.heading("Checks that looked")
    flow.text("; ".join(looked(context.piece)) + ".", height=heights.small)
    unsaid = missing(context.piece)
    if unsaid:
        flow.heading("Not checked, since the file does not say enough")
        flow.points([f"{words} stated: {'; '.join(titles)}" for words, titles in unsaid])
    return flow


def _row(context: Context, finding: Finding) -> Row:
    text = [stacked(finding.message)]
    left = [f for f in untold(finding, context.piece.units) if f[0] not in finding.aside]
    figures = [f"{name} {_figure(context, value, unit)}" for name, value, unit in left]
    if figures:
        text.append("; ".join(figures))
    if finding.advice:
        text.append(f"→ {stacked(_at_the_bench(finding.advice))}")
    called = names_of(context.piece)
    parts = ", ".join(called.get(path, path) for path in finding.parts) or "whole piece"
    rule = stacked(finding.rule)
    return Row(cells=(parts, "\n".join(text), f"{rule}\n({finding.source})"))


def _at_the_bench(advice: str) -> str:
    """Return a way out without what is to be typed into the file: the terminal tells that, paper is read at the bench."""
    return _FOR_THE_FILE.sub("", advice)


def _figure(context: Context, value: float, unit: str) -> str:
    if unit == "mm":
        return valued(context, value, "length")
    if unit == "deg":
        near = Fraction(round(value * 10), 10)
        if abs(value) < FINE or abs(float(near) - value) < SAME:
            return valued(context, value, "angle")
        return f"≈{valued(context, near, 'angle')}"
    system = context.piece.units.system
    if unit in WEIGHED and system == "inch":
        return WEIGHED[unit](value, system)
    return f"{valued(context, round(value, 2), 'count')} {unit}".strip()
