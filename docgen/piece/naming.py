"""The parts that a statement names, found by the kinds of its fields."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from docgen.places import Span
from docgen.project.fields import ByFace, Field, FieldKind, Many, MaterialName, Nested, PartName
from docgen.project.statements import Bound, Lazy

Named = tuple[str, Span]


def parts_named(statement: Lazy | Bound) -> Iterator[Named]:
    """Yield the path of each part that the statement names, with its place."""
    return _in_fields(statement.word.fields, statement.values, statement.spans, statement.span, PartName)


def materials_named(statement: Lazy | Bound) -> Iterator[Named]:
    """Yield the name of each material that the statement names, with its place."""
    return _in_fields(statement.word.fields, statement.values, statement.spans, statement.span, MaterialName)


def _in_fields(
    fields: Iterable[Field], values: Mapping[str, Any], spans: Mapping[str, Span], where: Span, kind: type
) -> Iterator[Named]:
    for f in fields:
        value = values.get(f.name)
        if value is not None:
            yield from _in_value(f.kind, value, f.name, spans, spans.get(f.name, where), kind)


def _in_value(
    is_a: FieldKind, value: Any, path: str, spans: Mapping[str, Span], where: Span, kind: type
) -> Iterator[Named]:
    where = spans.get(path, where)
    if isinstance(is_a, kind):
        yield value, where
    elif isinstance(is_a, Many):
        for i, item in enumerate(value):
            yield from _in_value(is_a.kind, item, f"{path}.{i}", spans, where, kind)
    elif isinstance(is_a, ByFace):
        for word, item in value.items():
            yield from _in_value(is_a.kind, item, f"{path}.{word}", spans, where, kind)
    elif isinstance(is_a, Nested) and isinstance(value, (Lazy, Bound)):
        yield from _in_fields(is_a.fields, value.values, value.spans, where, kind)
