"""What the file asks of the true-size templates: a face of a part, or none of those that come by themselves."""

from __future__ import annotations

from docgen.project.check import Checker
from docgen.project.fields import FaceWord, Field, Flag, Many, PartName, Word
from docgen.project.statements import Lazy
from docgen.reading.tree import Mapping, Scalar, Sequence

SECTION = "templates"
TEMPLATE = (
    Field("part", Many(PartName()), "the part or parts; may be left out with `none`, which then goes for all"),
    Field("face", FaceWord(), "the face to print whole; the one that is seen if absent"),
    Field("none", Flag(), "leave out what would be printed by itself, of that face if one is named", default="no"),
)
_WORD = Word("template", "section", "", TEMPLATE, "", lambda *_: None)
_HINT = "begin each line with a dash: - {part: seat, face: top}"


def read_templates(tree: Mapping, checker: Checker) -> tuple[Lazy, ...]:
    """Return the lines of the section; the checker keeps what is wrong."""
    entry = tree.get(SECTION)
    if entry is None or (isinstance(entry.value, Scalar) and entry.value.absent):
        return ()
    if not isinstance(entry.value, Sequence):
        checker.fault("wrong-shape", entry.key.span, f"'{SECTION}' is written as a list", _HINT)
        return ()
    found = (checker.statement(_WORD, item, item.span) for item in entry.value.items)
    return tuple(lazy for lazy in found if lazy is not None and _says_which(lazy, checker))


def _says_which(lazy: Lazy, checker: Checker) -> bool:
    if lazy["part"] or lazy["none"]:
        return True
    checker.fault("missing-key", lazy.span, "'template' lacks 'part'", "part: the part whose face is wanted")
    return False
