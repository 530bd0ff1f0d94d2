"""The head of a file: what it is, how its numbers read, and how they are printed."""

from __future__ import annotations

from collections.abc import Mapping as MappingOf
from fractions import Fraction
from typing import Any

from docgen.expressions import Expr, ExprFault
from docgen.places import Span
from docgen.project.check import Checker
from docgen.project.names import Names
from docgen.project.schema import HEADER
from docgen.project.sizes import read_date
from docgen.reading.tree import Mapping, Scalar
from docgen.units import Quantity, Units

VERSION = "1"
FINEST = {"inch": Fraction(1, 32), "mm": Fraction(1, 10)}
PROJECTION = {"inch": "third angle", "mm": "first angle"}  # where ASME Y14.3 and where ISO 5456-2 is the habit

_DIVISIONS = {
    "inch": tuple(Fraction(1, 2**n) for n in range(8)),
    "mm": tuple(Fraction(1, n) for n in (1, 2, 5, 10, 20, 50, 100)),
}
_DIVISIONS_SAID = {"inch": "1, 1/2, 1/4, 1/8, 1/16, 1/32, 1/64, 1/128", "mm": "1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01"}


def read_header(tree: Mapping, checker: Checker, start: Span) -> tuple[dict[str, Any], dict[str, Span]]:
    """Return the header's values and their places by name, and give the checker the file's units; the checker keeps what is wrong.

    The unit is read first, since it says how everything else reads.
    """
    entry = tree.get("units")
    written = entry.value.text if entry and isinstance(entry.value, Scalar) else ""
    system = written if written in FINEST else "mm"
    checker.units = Units(system, FINEST[system])
    checker.names = Names()
    names = {f.name for f in HEADER}
    only = Mapping(tuple(e for e in tree.items if e.key.text in names), tree.span)
    values, spans = checker.fields(only, HEADER, start, "the file")
    check_version(values, spans, checker)
    date = only.get("date")
    if date is not None and values["date"]:
        read_date(date.value, checker)
    if values["projection"] is None:
        values["projection"] = PROJECTION[system]
    if values["finest"] is not None:
        checker.units = Units(system, _finest(values["finest"], checker, spans))
    return values, spans


def check_version(values: MappingOf[str, Any], spans: MappingOf[str, Span], checker: Checker) -> None:
    """Note a version of the file's language that this program does not read."""
    if values["docgen"] not in (None, VERSION):
        checker.fault("bad-version", spans["docgen"], f"this program reads docgen: {VERSION}, not '{values['docgen']}'")


def _finest(expr: Expr, checker: Checker, spans: MappingOf[str, Span]) -> Fraction:
    """Return the finest printed division in the file's unit; note a problem when it is none that is printed."""
    system = checker.units.system
    try:
        value = expr.evaluate(_no_names).value / checker.units.mm
    except ExprFault:  # told when it was checked
        return FINEST[system]
    if isinstance(value, Fraction) and value in _DIVISIONS[system]:
        return value
    hint = f"use one of {_DIVISIONS_SAID[system]}"
    checker.fault("bad-finest", spans["finest"], "this is no division that is printed", hint)
    return FINEST[system]


def _no_names(name: str) -> Quantity:
    raise KeyError(name)
