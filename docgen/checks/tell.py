"""Findings as text for the terminal: place, grade, parts, message and code, then figures, rule and a way out."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.checks.finding import Finding, Grade
from docgen.units import Units, format_angle, plain_length


def tell_findings(findings: Sequence[Finding], units: Units) -> str:
    """Return the findings in their order with a line that counts them; "no findings" for none."""
    if not findings:
        return "no findings"
    counts = ", ".join(f"{n} {g.value}" for g in Grade if (n := sum(f.grade is g for f in findings)))
    return "\n".join([*(_told(f, units) for f in findings), counts])


def _told(finding: Finding, units: Units) -> str:
    place = f"{finding.where}: " if finding.where else ""
    parts = f"{', '.join(finding.parts)}: " if finding.parts else ""
    lines = [f"{place}{finding.grade.value}: {parts}{finding.message} [{finding.code}]"]
    figures = "; ".join(f"{name} {_figure(value, unit, units)}" for name, value, unit in finding.figures)
    if figures:
        lines.append(f"  figures: {figures}")
    lines.append(f"  rule: {finding.rule} ({finding.source})")
    if finding.advice:
        lines.append(f"  way out: {finding.advice}")
    return "\n".join(lines)


def _figure(value: float, unit: str, units: Units) -> str:
    if unit == "mm":
        return f"{plain_length(value, units)} {units.sign}"
    if unit == "deg":
        return format_angle(value)
    return f"{value:.2f} {unit}".strip()
