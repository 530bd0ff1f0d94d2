"""The one path of an SVG drawing: its data, the transforms around it, and where each character of it stands."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass
from xml.parsers import expat

from docgen.places import Span
from docgen.reading.problems import Problem, Problems

DEEPEST = 50  # elements within elements
ASIDE = ("defs", "clipPath", "mask", "marker", "pattern", "symbol", "metadata")
"""Elements whose content is not drawn where it stands."""
SHAPES = ("rect", "circle", "ellipse", "line", "polyline", "polygon", "use", "text", "image")
_ATTRIBUTE = re.compile(r"\s+([^\s=]+)\s*=\s*(?:\"([^\"]*)\"|'([^']*)')")
_REFERENCE = re.compile(r"&(?:#(\d+)|#x([0-9A-Fa-f]+)|(amp|lt|gt|quot|apos));")
_NAMED = {"amp": "&", "lt": "<", "gt": ">", "quot": '"', "apos": "'"}
_LINE_END = re.compile("\r\n|\n|\r")


@dataclass(frozen=True, slots=True)
class Drawn:
    """Path data with the `transform` texts around it, outermost first, and its own place in the file.

    Characters that the file writes by their number, `&#10;`, stand in `written` so, and `at` says where in it each
    character of the data begins; without such, both are "" and ().
    """

    data: str
    transforms: tuple[str, ...]
    file: str
    line: int  # of the data's first character
    column: int
    written: str = ""
    at: tuple[int, ...] = ()

    def place(self, offset: int, length: int = 1) -> Span:
        """Return where a character of the data stands."""
        offset = self.at[min(offset, len(self.at) - 1)] if self.at else offset
        ends = [found.end() for found in _LINE_END.finditer((self.written or self.data)[:offset])]
        column = offset - ends[-1] + 1 if ends else self.column + offset
        return Span(self.file, self.line + len(ends), column, length)


def read_svg(file: str, text: str) -> Drawn:
    """Return the drawing's one path. Raises Problems: no SVG, no path or several, entities, nesting without end."""
    return _Reader(file, text).drawn()


def _plain(written: str) -> tuple[str, tuple[int, ...]]:
    """Return an attribute's text with its character references resolved, and where each character begins; () without any."""
    if "&" not in written:
        return written, ()
    out: list[tuple[str, int]] = []
    end = 0
    for found in _REFERENCE.finditer(written):
        out += zip(written[end : found.start()], range(end, found.start()), strict=True)
        number, hexadecimal, name = found.groups()
        character = _NAMED[name] if name else chr(int(number) if number else int(hexadecimal, 16))
        out.append((character, found.start()))
        end = found.end()
    out += zip(written[end:], range(end, len(written)), strict=True)
    return "".join(c for c, _ in out), tuple(k for _, k in out)


class _Reader:
    def __init__(self, file: str, text: str) -> None:
        self._file, self._text = file, text
        self._open: list[tuple[str, str]] = []  # element, its transform
        self._found: list[tuple[Span, str, tuple[str, ...]]] = []  # place, name as written, transforms
        self._shape: tuple[Span, str] | None = None
        self._lines = [0, *(m.end() for m in _LINE_END.finditer(text))]
        self._parser = expat.ParserCreate()
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._parser.StartDoctypeDeclHandler = self._doctype
        self._parser.EntityDeclHandler = self._entity

    def drawn(self) -> Drawn:
        """Return the one path."""
        try:
            self._parser.Parse(self._text, True)
        except expat.ExpatError as error:
            where = Span(self._file, error.lineno, error.offset + 1)
            raise self._problem(where, f"this is no SVG drawing: {expat.ErrorString(error.code)}") from None
        if not self._found:
            if self._shape is not None:
                where, kind = self._shape
                raise self._problem(where, f"the drawing has a {kind} and no path", "save shapes as one path")
            raise self._problem(Span(self._file, 1, 1), "the drawing has no path")
        if len(self._found) > 1:
            raise self._problem(self._found[1][0], "the drawing has a second path", "join all lines into one path")
        return self._data(*self._found[0])

    def _data(self, where: Span, name: str, transforms: tuple[str, ...]) -> Drawn:
        """Return the data of the path whose tag stands at `where`: its attributes are gone through in order."""
        found = _ATTRIBUTE.match(self._text, self._lines[where.line - 1] + where.column + len(name))
        while found is not None and found[1] != "d":
            found = _ATTRIBUTE.match(self._text, found.end())
        assert found is not None  # the element has the attribute
        group = 2 if found[2] is not None else 3
        begin = found.start(group)
        line = bisect_right(self._lines, begin)
        data, at = _plain(found[group])
        return Drawn(
            data, transforms, where.file, line, begin - self._lines[line - 1] + 1, found[group] if at else "", at
        )

    def _start(self, name: str, attributes: Mapping[str, str]) -> None:
        word = name.rpartition(":")[2]
        where = Span(self._file, self._parser.CurrentLineNumber, self._parser.CurrentColumnNumber + 1, len(name) + 1)
        if not self._open and word != "svg":
            raise self._problem(where, f"this is no SVG drawing: it begins with <{word[:30]}>")
        if len(self._open) >= DEEPEST:
            raise self._problem(where, f"elements lie more than {DEEPEST} deep in one another")
        self._open.append((word, attributes.get("transform", "")))
        if any(element in ASIDE for element, _ in self._open):
            return
        if word == "path" and attributes.get("d", "").strip():
            self._found.append((where, name, tuple(t for _, t in self._open if t)))
        elif word in SHAPES and self._shape is None:
            self._shape = (where, word)

    def _end(self, name: str) -> None:
        self._open.pop()

    def _doctype(self, *told: object) -> None:
        where = Span(self._file, self._parser.CurrentLineNumber, self._parser.CurrentColumnNumber + 1)
        if told[3]:  # it declares things of its own
            raise self._problem(where, "the drawing declares entities of its own", "save it as plain SVG")

    def _entity(self, *told: object) -> None:
        where = Span(self._file, self._parser.CurrentLineNumber, self._parser.CurrentColumnNumber + 1)
        raise self._problem(where, "the drawing declares entities of its own", "save it as plain SVG")

    def _problem(self, where: Span, message: str, hint: str = "") -> Problems:
        return Problems([Problem("svg-unreadable", where, message, hint)])
