"""Findings as text for the terminal: the gravest first, each with its place, figures, rule and source."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.checks.finding import Finding, Grade
from docgen.units import Units, format_angle, plain_length


def tell_findings(findings: Sequence[Finding], units: Units) -> str:
    """Return one block a finding and a line that counts them by grade; figures in the file's own unit."""
    blocks = [_block(f, units) for f in findings]
    counts = [(sum(f.grade is g for f in findings), g.value) for g in Grade]
    total = ", ".join(f"{n} {word}" for n, word in counts)
    return "\n".join([*blocks, f"findings: {total}" if findings else "findings: none"])


def _block(finding: Finding, units: Units) -> str:
    place = f"{finding.where}: " if finding.where else ""
    lines = [f"{place}{finding.grade.value}: {finding.message} [{finding.code}]"]
    if finding.figures:
        lines.append(
            "  figures: " + "; ".join(f"{name} {_figure(value, unit, units)}" for name, value, unit in finding.figures)
        )
    lines.append(f"  rule: {finding.rule} ({finding.source})")
    if finding.advice:
        lines.append(f"  way out: {finding.advice}")
    return "\n".join(lines)


def _figure(value: float, unit: str, units: Units) -> str:
    if unit == "mm":
        return plain_length(value, units) + (" in" if units.system == "inch" else " mm")
    if unit == "deg":
        return format_angle(value)
    return f"{value:.4g}{' ' + unit if unit else ''}"
