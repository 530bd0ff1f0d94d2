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

LENGTHS = ("mm", "in")

_NUMBER = re.compile(r"((?:\d+ )?\d+/\d+|\d+(?:\.\d+)?)(?: ?(°|(?:mm³|mm|in|kg|lb|N·m|N|lbf·ft|lbf|m/s)(?![\w·³])))?")
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

    A figure counts as said where a number of the sentence, with its unit or with none of its own, lies within 1.5 % of it, or
    is the figure rounded: 14.6 kg say nothing of 14.56°.
    """
    said = _said(finding.message, units)
    per = float(units.mm)
    shown = [(f, abs(f[1]) / per if f[2] == "mm" else abs(f[1])) for f in finding.figures]
    signs = {"mm": units.sign, "deg": "°"}

    def told(value: float, sign: str) -> bool:
        return any(abs(n - value) <= max(0.015 * value, off) for n, off, its in said if its in ("", sign))

    return tuple(f for f, value in shown if not told(value, signs.get(f[2], f[2])))


def _said(message: str, units: Units) -> list[tuple[float, float, str]]:
    """Return the numbers of a sentence: value, by how much it may be rounded, and the sign of its unit, "" without one."""
    out = []
    for text, sign in _NUMBER.findall(_REST.sub(r"\1", message)):
        its = "" if sign in LENGTHS and sign != units.sign else sign  # "3 in a row"
        out.append((_number(text), _half(text, its), its))
    return out


def _half(text: str, sign: str) -> float:
    """Return half of a number's last printed place; of a length, or what may be a count, told as one digit half of a tenth."""
    if "/" in text:
        return 0.005
    decimals = len(text.partition(".")[2])
    whole = len(text) == 1 and (not sign or sign in LENGTHS)
    return 0.05 if whole else 0.5 * 10.0**-decimals


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
