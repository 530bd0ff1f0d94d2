"""Errors of YAML's syntax in the words of this program, at the place that a maker has to mend."""

from __future__ import annotations

import re
from typing import Any

from docgen.places import Span
from docgen.reading.problems import Problem

_NO_COLON = re.compile(r"^(\s*(?:- )?)([\w][\w -]*?)\s*([{\[].*)$")
_ONE_WORD = re.compile(r"^(\s*(?:- )?)([\w]+)(:?)(?=\S|\s|$)\s*(.*)$")


def syntax_problem(path: str, text: str, error: Any) -> Problem:
    """Return the problem that an error of the YAML reader is."""
    begun = getattr(error, "context_mark", None)
    mark = getattr(error, "problem_mark", None) or begun
    problem = str(getattr(error, "problem", None) or error).strip()
    context = str(getattr(error, "context", None) or "").strip()
    if begun and ("end of stream" in problem or "simple key" in context):  # where it was opened says more than the end
        mark = begun
    where = Span(path, mark.line + 1, mark.column + 1) if mark else Span(path, 1, 1)
    if begun and begun.line + 1 != where.line:
        context += f" begun on line {begun.line + 1}"
    lines = text.splitlines()
    line = lines[where.line - 1] if where.line <= len(lines) else ""
    if "\t" in line[: where.column] and ("tab" in problem or "\t" in problem or "cannot start any token" in problem):
        return Problem(
            "tab",
            Span(path, where.line, line.index("\t") + 1),
            "a tab stands where YAML wants spaces",
            "indent with spaces",
        )
    known = _slip(line, where, problem, context)
    return known or Problem("yaml-syntax", where, " ".join(f"{problem} {context}".split()), _help(problem, context))


def _slip(line: str, where: Span, problem: str, context: str) -> Problem | None:
    """Return the problem of a slip that its line gives away; None of another."""
    before, at = line[: where.column - 1], line[where.column - 1 : where.column]
    opened = _NO_COLON.match(line)
    if "mapping values are not allowed" in problem and opened:
        place = Span(where.file, where.line, len(opened[1]) + len(opened[2]) + 1)
        return Problem("yaml-syntax", place, "a colon is missing here", f"{opened[2]}: {opened[3]}")
    word = _ONE_WORD.match(line)
    if "simple key" in context and word:
        what = "a space is missing behind the colon" if word[3] else "a colon is missing on this line"
        return Problem("yaml-syntax", where, what, f"a colon and a space stand behind the word: `{word[2]}: {word[4]}`")
    if "expected" in problem and before.count("'") >= 2 and at not in ("}", "]", ""):
        message = "the text ends at this quote, and more follows"
        return Problem(
            "yaml-syntax", where, message, "write a quote within quotes twice, or put the text in double quotes"
        )
    if "expected" in problem and at in ("}", "]"):
        return Problem("yaml-syntax", where, f"one '{at}' too many: nothing is open that it could close", "take it out")
    return None


def _help(problem: str, context: str) -> str:
    """Return what mostly helps against a syntax error of YAML."""
    if "mapping values are not allowed" in problem:
        return "a colon followed by a space begins a value: quote the text if the colon belongs to it"
    if "flow" in context or "flow" in problem:
        return "look for a bracket or brace that is not closed, or a comma that is missing"
    if "block" in context or "indentation" in problem or "expected <block end>" in problem:
        return "lines that belong together begin in the same column"
    if "quoted scalar" in context:
        return "look for a quote that is not closed"
    return ""
