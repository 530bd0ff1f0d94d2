"""What every operation offers, and how its numbers are listed and moved."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from enum import Enum
from fractions import Fraction
from typing import Any, TypeVar

from docgen.piece.bench import Operation
from docgen.piece.faults import Fault
from docgen.piece.records import Face
from docgen.units import Number

__all__ = ["TOLD", "Fault", "Operation", "changed", "parameters"]

TOLD = {"told": True}
"""Metadata of a field whose numbers are told on paper but move nothing in the solid, or belong to another feature."""

T = TypeVar("T")


def parameters(operation: Operation) -> tuple[tuple[str, Number], ...]:
    """Return every number that shapes the solid, by name, in order; parts of a field read ``points.0.1``.

    Axis numbers, faces and fields marked `TOLD` do not count.
    """
    out: list[tuple[str, Number]] = []
    for f in dataclasses.fields(operation):  # type: ignore[arg-type]
        if f.type != "Axis" and not f.metadata.get("told"):
            out.extend(_numbers(f.name, getattr(operation, f.name)))
    return tuple(out)


def _numbers(name: str, value: Any) -> Iterator[tuple[str, Number]]:
    if isinstance(value, (bool, str, Enum, Face)):
        return
    if isinstance(value, (Fraction, float, int)):
        yield name, value
    elif isinstance(value, tuple):
        for i, item in enumerate(value):
            yield from _numbers(f"{name}.{i}", item)
    elif dataclasses.is_dataclass(value):
        for f in dataclasses.fields(value):
            yield from _numbers(f"{name}.{f.name}", getattr(value, f.name))


def changed(operation: T, name: str, value: Number) -> T:
    """Return `operation` with the parameter `name` (as `parameters` names it) set to `value`."""
    return _changed(operation, name.split("."), value)  # type: ignore[no-any-return]


def _changed(holder: Any, path: list[str], value: Number) -> Any:
    if not path:
        return value
    head, rest = path[0], path[1:]
    if isinstance(holder, tuple):
        i = int(head)
        return (*holder[:i], _changed(holder[i], rest, value), *holder[i + 1 :])
    return dataclasses.replace(holder, **{head: _changed(getattr(holder, head), rest, value)})
