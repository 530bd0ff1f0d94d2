"""Findings as text for the terminal: place, grade, parts, message and code, then figures, rule and a way out."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from docgen.checks.finding import Finding, Grade
from docgen.piece.model import Piece
from docgen.trade.weights import force_told, moment_told, weight_told
from docgen.units import MINUS, Units, format_angle, plain_length

WEIGHED = {"kg": weight_told, "N": force_told, "N·m": moment_told}
"""How weights, forces and moments are told where the file is in inches."""

RULE = {"mm": Fraction(1, 10), "inch": Fraction(1, 32)}
"""How finely a finding tells a length at the least, in the file's unit."""

_NUMBER = re.compile(r"(?:\d+ )?\d+/\d+|\d+(?:\.\d+)?")
_REST = re.compile(r"(≈ -?[\d /]+) [+-] 0\.\d{3}")
"""What a line of the rule leaves out of the decimal before it: no number of its own."""


def names_of(piece: Piece) -> dict[str, str]:
    """Return what each part of a piece is called on paper, by its path in the file."""
    return {part.path: part.called for part in piece.parts}


def fine(units: Units) -> Units:
    """Return units that tell lengths no coarser than a rule's own divisions: findings judge finer than a file may print."""
    return replace(units, finest=min(units.finest, RULE[units.system]))


def tell_findings(findings: Sequence[Finding], units: Units, names: Mapping[str, str] | None = None) -> str:
    """Return the findings in their order with a line that counts them; "no findings" for none.

    `names` tells what each part is called, by its path; parts that the sentence names are not named before it.
    """
    if not findings:
        return "no findings"
    counts = ", ".join(f"{n} {g.value}" for g in Grade if (n := sum(f.grade is g for f in findings)))
    return "\n".join([*(_told(f, units, names or {}) for f in findings), counts])


def untold(finding: Finding, units: Units) -> tuple[tuple[str, float, str], ...]:
    """Return the figures of a finding that its sentence does not say: to say them twice helps nobody.

    A figure counts as said where a number of the sentence lies within 1.5 % of it, or is the figure rounded.
    """
    said = [(_number(text), _half(text)) for text in _NUMBER.findall(_REST.sub(r"\1", finding.message))]
    per = float(units.mm)
    shown = [(f, abs(f[1]) / per if f[2] == "mm" else abs(f[1])) for f in finding.figures]
    return tuple(f for f, value in shown if not any(abs(n - value) <= max(0.015 * value, off) for n, off in said))


def _half(text: str) -> float:
    """Return half of a number's last printed place; of one digit without a decimal half of the tenths that are left out."""
    if "/" in text:
        return 0.005
    decimals = len(text.partition(".")[2])
    return 0.5 * 10.0**-decimals if decimals or len(text) > 1 else 0.05


def _number(text: str) -> float:
    """Return the value of a number as findings write it: 3, 0.25, 7/8, 2 3/8."""
    whole, _, part = text.rpartition(" ")
    over, _, under = part.partition("/")
    return (float(whole) if whole else 0.0) + (float(over) / float(under) if under else float(over))


def _told(finding: Finding, units: Units, names: Mapping[str, str]) -> str:
    place = f"{finding.where}: " if finding.where else ""
    called = [names.get(path, path) for path in finding.parts]
    told = all(name in finding.message for name in called)
    parts = "" if told else f"{', '.join(called)}: "
    lines = [f"{place}{finding.grade.value}: {parts}{finding.message} [{finding.code}]"]
    figures = "; ".join(f"{name} {_figure(value, unit, units)}" for name, value, unit in untold(finding, units))
    if figures:
        lines.append(f"  figures: {figures}")
    lines.append(f"  rule: {finding.rule} ({finding.source})")
    if finding.advice:
        lines.append(f"  way out: {finding.advice}")
    return "\n".join(lines)


def _figure(value: float, unit: str, units: Units) -> str:
    if unit == "mm":
        return f"{plain_length(value, fine(units)).replace('-', MINUS)} {units.sign}"
    if unit == "deg":
        return format_angle(value)
    if unit in WEIGHED and units.system == "inch":
        return WEIGHED[unit](value, units.system)
    return f"{value:.2f} {unit}".strip()
